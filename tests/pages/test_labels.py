from __future__ import annotations

from dataclasses import replace
from datetime import date

from binder.pages.labels import label_lines, label_pages
from binder.reckon.facts import LabelFacts

from .fixture import library
from .fixture_week import week_facts

FRESH, FROZEN = week_facts().labels


def lines_of(facts: LabelFacts) -> tuple[str, ...]:
    (found,) = label_lines(replace(week_facts(), labels=(facts,)), library())
    return found


def lines(**changes: object) -> tuple[str, ...]:
    return lines_of(replace(FRESH, **changes))


def test_words_stand_in_the_order_people_look_for_them() -> None:
    assert lines() == (
        "Squash and barley bake",
        "Eat by Thu 11 Jun",
        "Tomas · Mon 8 Jun · ward",
        "Contains milk. Pack says may contain sesame.",
        "Microwave 700 W, 3 min 35 s, covered",
        "350 g · made Sun 7 Jun · A1",
    )


def test_a_frozen_portion_says_when_it_is_pulled() -> None:
    found = lines_of(FROZEN)
    assert found[:2] == ("Squash and barley bake", "Freeze; pull Thu 11 Jun, eat by Mon 15 Jun")
    assert "Not checked: radish." in found[3]
    assert found[4] == "Eat cold"
    assert lines(kept="freezer", pull_on=None)[1] == "Freeze"
    assert lines(kept="freezer", pull_on=None, from_frozen=True)[1] == "Freeze; use frozen, do not thaw"


def test_kinds_of_their_own_say_so() -> None:
    assert lines(what="surplus", eater=None, eat_on=None, place=None)[2] == "Surplus"
    kit = lines(what="set", reheat=None)
    assert kit[1] == "Cook by Thu 11 Jun" and kit[4] == "Cook it: see the kit card"
    apart = lines(what="apart", kept="freezer", pull_on=date(2026, 6, 10))
    assert apart[1] == "Freeze; pull Wed 10 Jun, cook by Thu 11 Jun"
    assert lines(what="apart")[4] == "Raw: keep closed and below"
    assert "Eat" not in " ".join(lines(what="by-product", use_by=None, eater=None))


def test_a_label_without_a_date_says_when_it_was_made() -> None:
    assert lines(use_by=None)[1] == "Made Sun 7 Jun"
    assert lines(use_by=None, made_on=None)[1] == "Date not known"


def test_nothing_recorded_is_no_promise() -> None:
    assert lines(contains=(), may_contain=())[3] == "None of the listed allergens is recorded."


def test_nothing_to_heat_is_eaten_as_it_is() -> None:
    assert lines(reheat=None)[4] == "Eat as it is"


def test_label_pages_keep_positions_and_the_sheet() -> None:
    pages = label_pages(week_facts(), library())
    assert (pages.sheet, pages.sheets, pages.title) == ("letter 3x10", 1, "Labels, Week 24, 2026")
    assert [(one.sheet, one.row, one.column) for one in pages.labels] == [(1, 1, 1), (1, 1, 2)]
