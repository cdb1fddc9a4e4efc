"""The index of the search: what it holds, what it must not, how it is packed."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest

from binder.pages.page import Page, SearchWords, Site, plain
from binder.press.html import scripts_of, site_files
from binder.press.search import base_36, index_script, plain_name, split_path
from tests.press import samples

WORDS = SearchWords("Search", "None.", "1.", "{}.", "{shown}/{found}", "Some.", ("s",), ("and",))


def page(path: str, title: str, found_as: str = "recipe", keywords: tuple[str, ...] = ()) -> Page:
    return Page(path, title, "recipe", (), subtitle="not searched", found_as=found_as, keywords=keywords)


def index(*pages: Page) -> dict:
    site = Site("S", "en", pages, (("Home", "index.html"),), plain("F"), search=WORDS)
    script = index_script(site).decode()
    assert script.startswith("self.siteIndex={") and script.endswith(";\n")
    return json.loads(script.removeprefix("self.siteIndex=").removesuffix(";\n"))


def unpacked(packed: dict) -> list[tuple[str, str, str, list[str]]]:
    """Kind, path, title and keywords of each page, read as the script reads them."""
    phrases = packed["phrases"].split("\t")
    found = []
    for kind, folder, end, rows in packed["groups"]:
        for row in rows.split("\n"):
            title, name, steps = row.split("\t")
            at, keywords = 0, []
            for step in steps.split(",") if steps else []:
                at += int(step, 36)
                keywords.append(phrases[at])
            found.append((kind, folder + (name or plain_name(title)) + end, title, keywords))
    return found


def test_what_goes_in_comes_out() -> None:
    many = tuple(f"food {n}" for n in range(90))
    pages = (
        page("recipes/bean-stew/index.html", "Bean stew", keywords=("beans", "Lunch")),
        page("recipes/odd name/index.html", "Crème: brûlée!", keywords=("Lunch", *many)),
        page("index.html", "Home", "list"),
        page("foods/beans/index.html", "Beans", "food"),
    )
    found = unpacked(index(*pages))
    assert [(k, p, t) for k, p, t, _ in found] == [(p.found_as, p.path, p.title) for p in pages]
    assert [set(words) for *_, words in found] == [set(p.keywords) for p in pages]


def test_a_page_that_is_not_searched_is_not_there() -> None:
    assert unpacked(index(page("x/index.html", "ZEBRA", "", ("ZEBRA",)))) == []
    assert "ZEBRA" not in json.dumps(index(page("x/index.html", "ZEBRA", "", ("ZEBRA",))))


def test_only_title_path_kind_and_keywords_of_a_page_are_held() -> None:
    shown = replace(
        page("x/index.html", "T"),
        subtitle="ZEBRA",
        description="ZEBRA",
        structured="ZEBRA",
        blocks=samples.day_blocks(),
    )
    assert index(shown) == index(page("x/index.html", "T"))


def test_the_commonest_keyword_has_the_shortest_number_and_stands_once() -> None:
    pages = [page(f"r/{n}/index.html", str(n), keywords=("Lunch", f"only {n}")) for n in range(40)]
    phrases = index(*pages)["phrases"].split("\t")
    assert phrases[0] == "Lunch" and len(phrases) == len(set(phrases)) == 41


def test_tabs_and_lines_in_a_title_do_not_part_the_row() -> None:
    found = unpacked(index(page("r/a/index.html", "One\ttwo\nthree", keywords=("four\tfive", " \n"))))
    assert found == [("recipe", "r/a/index.html", "One two three", ["four five"])]


def test_the_same_site_gives_the_same_bytes_in_any_order_of_keywords() -> None:
    one, other = (page("r/a/index.html", "A", keywords=words) for words in (("x", "y"), ("y", "x")))
    assert index(one) == index(other)


@pytest.mark.parametrize("number", [0, 1, 35, 36, 1295, 1296, 46_656])
def test_numbers_are_read_back(number: int) -> None:
    assert int(base_36(number), 36) == number


@pytest.mark.parametrize(
    ("path", "parts"),
    [("a/b/index.html", ("a/", "b", "/index.html")), ("b/index.html", ("", "b", "/index.html")),
     ("a/b/c/index.html", ("a/b/", "c", "/index.html")), ("index.html", ("", "index.html", ""))],
)  # fmt: skip
def test_a_path_in_three(path: str, parts: tuple[str, str, str]) -> None:
    assert split_path(path) == parts


def test_a_site_without_search_has_neither_index_nor_box() -> None:
    files = site_files(samples.site(), samples.DEFAULT)
    assert "assets/search-index.js" not in files and b'role="search"' not in files["index.html"]


def test_a_site_with_search_has_both_and_the_box_waits_for_the_script() -> None:
    files = site_files(replace(samples.site(), search=WORDS), samples.DEFAULT)
    assert files["assets/search-index.js"] == index_script(replace(samples.site(), search=WORDS))
    for path in ("index.html", "weeks/2026-W24/index.html"):
        html = files[path].decode()
        root = "../" * path.count("/")
        assert f'role="search" hidden data-search="assets/search-index.js" data-root="{root}"' in html


def weight(kind: str) -> int:
    """Bytes of the scripts that a page of this kind loads."""
    scripts = samples.DEFAULT.scripts
    names = scripts_of(Page("x/index.html", "X", kind, ()), frozenset(scripts))
    return sum(len(scripts[name].encode()) for name in names)


def test_the_scripts_of_a_page_weigh_little_and_a_form_has_its_own() -> None:
    assert 0 < weight("recipe") < 13 * 1024
    assert weight("recipe") < weight("closing") < weight("recipe") + 7 * 1024
