from __future__ import annotations

import json
import posixpath
import re
from dataclasses import replace
from html.parser import HTMLParser
from itertools import pairwise

import pytest

from binder.pages.page import Box, Column, Crumb, Fold, Heading, Page, Para, Prose, Row, Run, Site, Table, plain
from binder.press.html import site_files
from binder.press.picture import screen_copies
from tests.press import samples

PHOTOS = {"braise.png": screen_copies("braise.png", samples.photo())}
VOID = {"meta", "link", "img", "input", "br", "col", "hr"}


class Reading(HTMLParser):
    """Opens and closes in order, and what was seen on the way."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.wrong: list[str] = []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if len({name for name, _ in attrs}) != len(attrs):
            self.wrong.append(f"attribute twice in {tag}")
        self.tags.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        if not self.open or self.open.pop() != tag:
            self.wrong.append(f"</{tag}>")

    def all(self, tag: str) -> list[dict[str, str | None]]:
        return [attrs for name, attrs in self.tags if name == tag]


@pytest.fixture(scope="module")
def files() -> dict[str, bytes]:
    return dict(site_files(samples.site(), samples.DEFAULT, PHOTOS))


@pytest.fixture(scope="module")
def pages(files: dict[str, bytes]) -> dict[str, Reading]:
    return {path: Reading(content.decode()) for path, content in files.items() if path.endswith(".html")}


def one(*blocks: object, **more: str) -> str:
    page = Page("x/index.html", "T", "recipe", tuple(blocks), **more)  # type: ignore[arg-type]
    site = Site("S", "en", (page,), (("Home", "index.html"),), plain("F"))
    return site_files(site, samples.DEFAULT)["x/index.html"].decode()


def test_regions_of_one_caption_have_names_of_their_own() -> None:
    wide = Table(tuple(Column(f"C{n}") for n in range(12)), (), "Allergen matrix", "matrix")
    html = one(wide, wide)
    assert 'aria-label="Allergen matrix"' in html and 'aria-label="Allergen matrix (2)"' in html


def test_every_page_is_well_formed(pages: dict[str, Reading]) -> None:
    assert len(pages) == 4
    for path, page in pages.items():
        assert page.open == [] and page.wrong == [], path


def test_every_page_has_language_title_one_h1_main_and_skip_link(
    files: dict[str, bytes], pages: dict[str, Reading]
) -> None:
    for path, page in pages.items():
        assert page.all("html")[0]["lang"] == "en"
        assert len(page.all("h1")) == 1 and len(page.all("main")) == 1 and len(page.all("title")) == 1
        assert b'<a class="skip" href="#main">Skip to the page</a>' in files[path]


def test_headings_never_leave_a_level_out(pages: dict[str, Reading]) -> None:
    for path, page in pages.items():
        levels = [int(tag[1]) for tag, _ in page.tags if re.fullmatch("h[1-6]", tag)]
        assert levels[0] == 1
        assert all(b - a <= 1 for a, b in pairwise(levels)), (path, levels)


def test_ids_are_unique(pages: dict[str, Reading]) -> None:
    for page in pages.values():
        ids = [attrs["id"] for _, attrs in page.tags if "id" in attrs]
        assert len(ids) == len(set(ids))


def test_links_are_relative_and_lead_to_a_file(files: dict[str, bytes], pages: dict[str, Reading]) -> None:
    known = {*files, "recipes/oil/index.html"}
    for path, page in pages.items():
        for _, attrs in page.tags:
            for target in (attrs.get("href"), attrs.get("src")):
                if target is None or target.startswith(("#", "data:,")):
                    continue
                assert not re.match(r"[a-z]+:|/", target), target
                reached = posixpath.normpath(posixpath.join(posixpath.dirname(path), target.partition("#")[0]))
                assert reached in known, (path, target)


def test_nothing_is_asked_of_the_network(files: dict[str, bytes]) -> None:
    for path, content in files.items():
        if not path.endswith((".woff2", ".webp")):
            text = content.decode().replace("https://schema.org", "").replace("http://www.w3.org/2000/svg", "")
            assert "http:" not in text and "https:" not in text and "url(//" not in text, path


def test_a_page_weighs_less_than_150_kb(files: dict[str, bytes]) -> None:
    style = len(files["assets/style.css"])
    assert all(len(content) + style < 150_000 for path, content in files.items() if path.endswith(".html"))


def test_text_of_a_page_is_escaped_everywhere() -> None:
    bad = "<b>\"&'"
    html = one(
        Heading(2, bad), Para((Run(bad, "strong", "#a"),)), Box("note", bad, ()), Fold(bad, ()),
        Table((Column(bad), Column("x")), (Row((plain(bad), plain(bad))), Row((plain(bad),), "group")), bad, "k"),
        subtitle=bad, description=bad,
    )  # fmt: skip
    assert "<b>" not in html and '"&' not in html.replace('"&lt;', "")


def test_structured_data_cannot_end_its_script() -> None:
    html = site_files(samples.site(), samples.DEFAULT)["recipes/braise/index.html"].decode()
    found = re.search(r'<script type="application/ld\+json">(.*?)</script>', html, re.DOTALL)
    assert found and json.loads(found[1])["name"] == "</script><b>"


def test_tables_have_captions_and_scopes(pages: dict[str, Reading]) -> None:
    page = pages["weeks/2026-W24/index.html"]
    assert len(page.all("caption")) == len(page.all("table")) >= 4
    assert all(attrs.get("scope") in {"col", "row", "rowgroup"} for attrs in page.all("th"))


def test_a_link_that_is_not_allowed_is_set_as_words() -> None:
    html = one(Para((Run("here", "", "javascript:alert(1)"),)), Prose("[there](//example.org/)"))
    assert "<p>here</p>" in html and 'href="//' not in html and "javascript" not in html


def test_the_navigation_says_where_one_is(files: dict[str, bytes]) -> None:
    week = files["weeks/2026-W24/index.html"].decode()
    assert '<a href="index.html" aria-current="page">This week</a>' in week
    assert '<a href="../index.html">Weeks</a>' in week
    assert '<a href="../../index.html">Home</a>' in files["recipes/braise/index.html"].decode()


def test_a_photo_carries_its_words_and_size_and_a_missing_one_is_left_out(files: dict[str, bytes]) -> None:
    page = files["recipes/braise/index.html"].decode()
    assert (
        '<img src="../../photos/braise-png-80.webp" alt="A shallow dish of braised fennel" width="80" height="60">'
        in page
    )
    without = site_files(samples.site(), samples.DEFAULT)["recipes/braise/index.html"].decode()
    assert "<img" not in without


def test_a_large_photo_comes_in_two_widths() -> None:
    copies = screen_copies("braise.png", samples.photo((1600, 1200)))
    files = site_files(samples.site(), samples.DEFAULT, {"braise.png": copies})
    page = files["recipes/braise/index.html"].decode()
    found = re.search(r'<img src="([^"]*)" srcset="([^"]*)" sizes="[^"]+" alt="[^"]+" width="960" height="720">', page)
    assert found and found[1] == "../../photos/braise-png-960.webp"
    assert found[2] == "../../photos/braise-png-480.webp 480w, ../../photos/braise-png-960.webp 960w"
    assert {name for name in files if name.startswith("photos/")} == {
        "photos/braise-png-480.webp", "photos/braise-png-960.webp",
    }  # fmt: skip


def test_fractions_are_marked_and_dates_are_not() -> None:
    html = one(Para(plain("1 7/8 cups on 6/9, 24/7")))
    assert '1 <span class="fr">7/8</span> cups on 6/9, 24/7' in html


def test_draft_stands_on_every_page_and_only_then() -> None:
    for path, content in site_files(samples.site("DRAFT"), samples.DEFAULT).items():
        assert not path.endswith(".html") or b'<p class="draft">DRAFT</p>' in content
    assert not any(b"DRAFT" in content for content in site_files(samples.site(), samples.DEFAULT).values())


def test_two_times_gives_the_same_bytes(files: dict[str, bytes]) -> None:
    assert dict(site_files(samples.site(), samples.DEFAULT, PHOTOS)) == files


def test_a_page_outside_every_folder_belongs_to_the_tab_that_leads_to_it() -> None:
    nav = (("Home", "index.html"), ("Weeks", "weeks/index.html"), ("Recipes", "recipes/index.html"))
    crumbs = (Crumb("Home", "index.html"), Crumb("Recipes", "recipes/index.html"), Crumb("By meal", None))
    site = replace(samples.site(), nav=nav, pages=(
        Page("lists/meal/index.html", "By meal", "archive", (), crumbs),
        Page("lists/x.html", "X", "archive", (), crumbs[:1]),
    ))  # fmt: skip
    files = site_files(site, samples.DEFAULT)
    listed, alone = (files[path].decode() for path in ("lists/meal/index.html", "lists/x.html"))
    assert '<a href="../../recipes/index.html" aria-current="true">Recipes</a>' in listed
    assert listed.count("aria-current") == 1 and "aria-current" not in alone
