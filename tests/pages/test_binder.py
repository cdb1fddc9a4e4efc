from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise

from binder import outputs
from binder.model.library import Library
from binder.pages.binder import SECTIONS, binder_pages, only_sections
from binder.pages.calendar import calendar_events
from binder.pages.labels import label_pages
from binder.pages.page import Binder, Heading, Table
from binder.reckon.facts import WeekFacts

from .fixture import PRIVATE, RECIPES, library
from .fixture_week import week_facts, without
from .reading import links, of_kind, words


def bound(facts: WeekFacts | None = None, of: Library | None = None, **options: bool) -> Binder:
    return binder_pages(facts or week_facts(), of or library(), RECIPES, **options)


def test_sections_stand_in_their_order() -> None:
    titles = [section.title for section in bound().sections]
    assert titles == [
        "Week sheet", "Shopping list", "Mise en place", "Run sheet", "Recipe cards", "Packing sheet",
        "Reheating notes", "Carry list", "Pull and use first", "Kit cards", "Allergen matrix",
        "Numbers by eater and day", "Keeping notes", "How it went",
    ]  # fmt: skip
    assert [section.number for section in bound().sections] == list(range(1, 15))


def test_an_empty_section_is_left_out_and_the_others_keep_their_numbers() -> None:
    binder = bound(without("carry_list", "pull_list", "use_first"))
    numbers = [section.number for section in binder.sections]
    assert 8 not in numbers and 9 not in numbers and numbers[-1] == 14
    assert "Nothing this week: Carry list (8) and Pull and use first (9)." in words(binder.front)


def test_a_week_with_nothing_in_it_still_makes_a_binder() -> None:
    bare = without(
        "servings", "batches", "shopping", "mise_en_place", "run_sheets", "packing", "labels", "pull_list",
        "carry_list", "use_first", "day_totals", "problems",
    )  # fmt: skip
    binder = bound(bare)
    assert [section.key for section in binder.sections] == ["week", "keeping", "notes"]
    assert calendar_events(bare, library()).events == ()
    assert label_pages(bare, library()).sheets == 0


def test_anchors_are_unique_and_every_link_finds_its_own() -> None:
    pages = [page for section in bound().sections for page in section.pages]
    anchors = [page.path for page in pages]
    assert len(anchors) == len(set(anchors))
    assert {link.removeprefix("#") for link in links(tuple(pages)) if link.startswith("#")} <= set(anchors)


def test_private_notes_stand_only_where_they_are_asked_for() -> None:
    shared = (bound(), label_pages(week_facts(), library()), calendar_events(week_facts(), library()))
    assert PRIVATE not in words(shared)
    asked = words(bound(private=True))
    assert f"{PRIVATE} eater" in asked and f"{PRIVATE} recipe" in asked


def test_an_eaters_aims_and_allergies_are_in_no_label_and_no_calendar() -> None:
    text = words((label_pages(week_facts(), library()), calendar_events(week_facts(), library())))
    assert "avoids" not in text and "1,900" not in text


def test_nothing_is_called_safe_or_free_from() -> None:
    assert not re.search(r"\bsafe\b|free from", words(bound(private=True)), re.IGNORECASE)


def test_every_caution_stands_where_its_numbers_are() -> None:
    by_key = {section.key: words(section.pages) for section in bound().sections}
    for key in ("shopping", "cards", "kits", "allergens"):
        assert "Read the pack" in by_key[key], key
    for key in ("run-sheet", "cards", "reheating", "pull"):
        assert "165 °F / 74 °C" in by_key[key], key
    assert "pregnant, very young, old or ill" in by_key["keeping"]
    assert "not medical advice" in by_key["numbers"]
    for key in ("cards", "reheating", "allergens", "keeping"):
        assert "Local food-safety rules" in by_key[key], key


def test_front_says_days_rules_and_warnings() -> None:
    front = words(bound().front)
    assert "Sun 7 Jun to Sun 14 Jun 2026" in front
    assert "The day a dish is made is day 0." in front
    assert "Rule set: usual" in front
    assert 'Look at: no food "radish"' in front and "content/recipes/x.md:1" in front


def test_a_draft_is_marked() -> None:
    assert bound().draft == "" and bound(draft=True).draft == "DRAFT"
    assert label_pages(week_facts(), library(), draft=True).draft == "DRAFT"


def test_rows_have_as_many_cells_as_columns() -> None:
    for of in (library(), library(allergen_list="eu", measures="both", caution="strict")):
        for table in of_kind(bound(of=of).sections, Table):
            for row in table.rows:
                assert len(row.cells) == (1 if row.kind == "group" else len(table.columns)), table.kind


def test_the_same_facts_give_the_same_binder() -> None:
    assert bound() == bound()
    shuffled = replace(week_facts(), servings=tuple(reversed(week_facts().servings)))
    assert [s.pages for s in bound(shuffled).sections[:1]] == [s.pages for s in bound().sections[:1]]


def test_headings_do_not_skip_a_level() -> None:
    for section in bound().sections:
        for page in section.pages:
            levels = [1, *(h.level for h in of_kind(page, Heading))]
            assert all(after - before <= 1 for before, after in pairwise(levels)), page.path


def test_some_sections_keep_their_numbers_and_leave_the_front_sheet_out() -> None:
    whole = bound()
    some = only_sections(whole, {"packing", "run-sheet"})
    assert [(section.number, section.key) for section in some.sections] == [(4, "run-sheet"), (6, "packing")]
    assert not some.whole and some.own_sheets and some.last_section == 14
    assert whole.whole and not whole.own_sheets


def test_the_command_lines_names_of_sections_are_the_binders() -> None:
    assert tuple(key for key, _ in SECTIONS) == outputs.SECTIONS
