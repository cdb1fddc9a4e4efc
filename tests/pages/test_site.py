"""The site whole: its pages, its links, what stays private; the front page and the weeks."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from types import MappingProxyType
from urllib.parse import unquote

import pytest

from binder.pages.archive import first_words
from binder.pages.page import Checks, DayPart, Fold, Heading, IngredientLine, Run, Site
from binder.pages.site import site_pages

from .fixture_site import PRIVATE, facts, page, site, whole_library
from .fixture_week import week_facts
from .reading import of_kind, parts, said, table, words

WEEK = "weeks/2026-W24"


def hrefs(of: Site) -> Iterator[tuple[str, str]]:
    """Every address with the page it stands on."""
    yield from of.nav
    for one in of.pages:
        for part in parts(one):
            if isinstance(part, Run | IngredientLine) and part.href:
                yield one.path, part.href
        for crumb in one.crumbs:
            if crumb.href:
                yield one.path, crumb.href


def broken(of: Site) -> list[tuple[str, str]]:
    pages = {p.path: {h.id for h in of_kind(p, Heading)} for p in of.pages}
    bad = []
    for here, href in hrefs(of):
        path, _, anchor = unquote(href).partition("#")
        target = path or here
        if target not in pages or (anchor and anchor not in pages[target]):
            bad.append((here, href))
    return bad


def test_every_page_has_a_path_of_its_own() -> None:
    paths = [p.path for p in site().pages]
    assert len(paths) == len(set(paths))
    assert {"index.html", *(f"{folder}/index.html" for folder in ("weeks", "recipes", "foods", "freezer"))} <= {*paths}
    assert {f"{WEEK}/index.html", f"{WEEK}/shopping/index.html", "weeks/2025-W50/index.html"} <= {*paths}
    assert {"recipes/trout-kit/index.html", "foods/ricotta/index.html", "foods/radish/index.html"} <= {*paths}


def test_every_link_leads_to_a_page_and_its_anchor() -> None:
    assert broken(site()) == []


def test_links_hold_when_a_part_is_not_made_in_the_week() -> None:
    found = facts()
    bake = found["squash-barley-bake"]
    line = replace(bake.ingredients[0], ingredient=replace(bake.ingredients[0].ingredient, recipe="lentil-stew"))
    changed = replace(bake, ingredients=(line, *bake.ingredients[1:]))
    batches = tuple(replace(b, facts=changed) if b.recipe == bake.key else b for b in week_facts().batches)
    week = replace(week_facts(), batches=batches)
    made = site_pages(whole_library(), found | {bake.key: changed}, {week.week: week}, week.week, week.today)
    assert broken(made) == []
    cards = next(p for p in made.pages if p.path == f"{WEEK}/cards/index.html")
    assert "recipes/lentil-stew/index.html" in {x.href for x in of_kind(cards, IngredientLine)}


def test_a_name_with_a_space_is_written_in_per_cent() -> None:
    found = facts()
    found["a stew"] = replace(found["lentil-stew"], key="a stew", title="A stew")
    made = site_pages(whole_library(), found, {}, None, date(2026, 6, 8))
    assert ("recipes/index.html", "recipes/a%20stew/index.html") in set(hrefs(made))
    assert broken(made) == []


@pytest.mark.parametrize("private", [False, True])
def test_private_words_stand_there_only_when_asked_for(private: bool) -> None:
    of = site(private=private)
    assert (PRIVATE in words(of)) is private
    assert (f"{PRIVATE} recipe" in words(page("recipes/squash-barley-bake/index.html", private=private))) is private


def test_the_front_page_has_every_day_and_shows_today_and_tomorrow_by_their_dates() -> None:
    home = page("index.html")
    days = of_kind(home, DayPart)
    # Built on another day than it is read the words today and tomorrow would be wrong: a script says them.
    assert [d.title for d in days if d.shown] == ["Monday 8 June", "Tuesday 9 June"]
    assert [d.on.day for d in days] == [7, 8, 9, 10, 11, 12, 13, 14]
    assert (days[1].today, days[1].tomorrow) == ("Today, Monday 8 June", "Tomorrow, Monday 8 June")
    (today,) = of_kind(days[1].blocks, Checks)
    assert any("survey van" in said(check.text) for check in today.items)
    assert any("heat Squash and barley bake" in said(check.text) for check in today.items)
    assert table([home], "week")


def test_the_front_page_names_the_next_day_with_something_to_do() -> None:
    made = site_pages(whole_library(), facts(), {"2026-W24": week_facts()}, "2026-W24", date(2026, 6, 1))
    days = [d for d in of_kind(made.pages[0], DayPart) if d.shown]
    assert [d.title for d in days] == ["Monday 1 June", "Tuesday 2 June", "Sunday 7 June"]
    assert days[2].next == "Next, Sunday 7 June"


def test_without_a_week_the_front_page_says_so() -> None:
    made = site_pages(replace(whole_library(), weeks=MappingProxyType({})), facts(), {}, None, date(2026, 6, 8))
    assert "No week is planned." in words(made.pages[0])
    assert broken(made) == []


def test_dishes_in_the_week_table_lead_to_their_recipes() -> None:
    runs = [r for r in of_kind(page(f"{WEEK}/index.html"), Run) if r.text == "Squash and barley bake"]
    assert {r.href for r in runs} == {"recipes/squash-barley-bake/index.html"}


def test_every_section_with_something_in_it_has_a_page_but_the_one_for_the_pen() -> None:
    paths = {p.path for p in site().pages if p.path.startswith(WEEK)}
    sections = ("shopping", "mise", "run-sheet", "cards", "packing", "reheating", "carry", "pull", "kits", "allergens",
                "numbers", "keeping")  # fmt: skip
    assert paths == {f"{WEEK}/index.html", *(f"{WEEK}/{s}/index.html" for s in sections)}


def test_the_printed_binder_is_named_only_where_there_is_one() -> None:
    href = "../print/2026-W24-binder.pdf"
    assert href not in {h for _, h in hrefs(site())}
    printed = {here for here, h in hrefs(site(printed=frozenset({"2026-W24"}))) if h == href}
    assert {"index.html", f"{WEEK}/index.html"} <= printed


def test_a_week_that_was_not_reckoned_shows_its_plan_and_how_it_was_closed() -> None:
    old = page("weeks/2025-W50/index.html")
    assert table([old], "plan") == [
        ("Monday 8 December",), ("Dinner", "Lentil stew", "Tomas"),
        ("No fixed day",), ("Snack", "Seed scones", "Bea, 7 portions"),
    ]  # fmt: skip
    assert "From the plan alone" in words(old)
    assert "Thrown away\n2 portions" in words(old) and "prep: 95" in words(old)
    assert "The second paragraph." in words(old)


def test_the_archive_goes_back_by_year() -> None:
    archive = page("weeks/index.html")
    assert [h.text for h in of_kind(archive, Heading)] == ["2026", "2025"]
    assert table([archive], "weeks") == [("Week 24, 2026 (this week)", "Squash and barley bake", "")]
    assert "Lentil stew" in words(archive) and "How it went: slow. More lemon. …" in words(archive)
    assert "The second paragraph." in words(page("weeks/notes/index.html"))


@pytest.mark.parametrize(
    ("markdown", "first"),
    [
        ("", ""),
        ("Short.", "Short."),
        ("# A *head*\n\nmore", "A head…"),
        ("see [the card](recipes/x.md) and `tub`", "see the card and tub"),
        ("- one\n- two", "one two"),
        (" ".join(["word"] * 30), " ".join(["word"] * 24) + "…"),
    ],
)
def test_first_words_of_a_note(markdown: str, first: str) -> None:
    assert first_words(markdown) == first


def test_a_draft_is_marked() -> None:
    assert (site().draft, site(draft=True).draft) == ("", "DRAFT")


def test_what_is_on_hand_says_its_dates_and_what_the_week_takes() -> None:
    on_hand = page("freezer/index.html")
    assert [h.text for h in of_kind(on_hand, Heading)] == ["Freezer", "Refrigerator", "This week freezes"]
    assert table([on_hand], "stock") == [("2 portions Lentil stew", "Made 20 May 2026", "1 portion: Tomas Mon 8 Jun")]
    assert "250 g ricotta, whole milk" in words(on_hand) and "Opened 3 June 2026" in words(on_hand)
    assert table([on_hand], "freezes") == [("Squash and barley bake", "1 × deep tub, 350 g", "Sun 7 Jun", "surplus")]


def test_two_sites_of_the_same_household_are_equal() -> None:
    assert site() == site.__wrapped__()


def test_no_page_needs_a_script_to_be_whole() -> None:
    """What is folded is folded by the browser itself, and only where a number comes from."""
    assert {f.title for p in site().pages for f in of_kind(p, Fold)} == {"Where does this number come from?"}
