"""The week's page for the family: who agreed, and nothing of the others."""

from __future__ import annotations

from dataclasses import fields, replace
from datetime import date

import pytest

from binder.model.library import Library
from binder.pages.share_family import Helping, HelpingPart, agreed, family_page, helpings

from .fixture_site import whole_library
from .fixture_week import week_facts
from .reading import table, words

EVERYBODY = ("Ilka", "Tomas", "Bea")


def library(*willing: str) -> Library:
    whole = whole_library()
    eaters = tuple(replace(eater, shares_week=eater.name in willing) for eater in whole.household.eaters)
    return replace(whole, household=replace(whole.household, eaters=eaters))


def page_of(*willing: str, asked: tuple[str, ...] = EVERYBODY) -> list[tuple[str, ...]]:
    return table([family_page(week_facts(), library(*willing), asked)], "family")


def test_who_eats_what_when_and_where_it_is() -> None:
    assert page_of("Ilka", "Bea") == [
        ("Monday 8 June",), ("Lunch", "Ilka", "Squash and barley bake", "Refrigerator, deep tub; taken along"),
        ("Tuesday 9 June",), ("Dinner", "Ilka and Bea", "Trout with dill potatoes", "Refrigerator"),
        ("No fixed day",), ("Snack", "Bea", "Seed scones", "Cupboard, deep tub"),
    ]  # fmt: skip


def test_nobody_agrees_by_default() -> None:
    assert agreed(whole_library()) == () and agreed(library("Bea", "Ilka")) == ("Ilka", "Bea")


@pytest.mark.parametrize("silent", EVERYBODY)
def test_who_did_not_agree_is_not_in_it_even_when_asked_for(silent: str) -> None:
    willing = tuple(name for name in EVERYBODY if name != silent)
    made = family_page(week_facts(), library(*willing), EVERYBODY)
    assert silent not in words([made]) + repr(made) and willing[0] in words([made])


def test_of_a_closed_week_it_is_the_agreement_of_today_that_counts() -> None:
    then = library("Ilka", "Tomas", "Bea")
    said = words([family_page(week_facts(), library("Bea"), EVERYBODY, then)])
    assert "Bea" in said and "Ilka" not in said and "Tomas" not in said


def test_a_dish_that_only_others_eat_is_not_named() -> None:
    assert "Seed scones" in words([family_page(week_facts(), library("Bea"), EVERYBODY)])
    assert "Seed scones" not in words([family_page(week_facts(), library("Ilka"), EVERYBODY)])


def test_only_those_who_are_chosen() -> None:
    assert {row[1] for row in page_of("Ilka", "Bea", asked=("Bea",)) if len(row) > 1} == {"Bea"}


def test_a_week_without_a_meal_of_theirs_says_so() -> None:
    none = replace(week_facts(), servings=())
    assert "Nothing of this week is eaten by them." in words([family_page(none, library("Bea"), EVERYBODY)])


def test_the_written_list_of_what_is_let_through() -> None:
    """A field more is one more thing that people did not agree to: it belongs on the list first."""
    names = [f.name for f in fields(Helping)]
    assert names == ["on", "meal", "eater", "dish", "kept", "moved_on", "container", "along", "parts"]
    assert [f.name for f in fields(HelpingPart)] == ["what", "kept", "moved_on", "container"]


def test_a_dish_from_the_freezer_says_when_it_is_moved() -> None:
    found = helpings(week_facts(), library(*EVERYBODY), EVERYBODY, library(*EVERYBODY))
    frozen = [one for one in found if one.moved_on]
    assert frozen and {one.kept for one in frozen} == {"freezer"} and isinstance(frozen[0].moved_on, date)
    assert any("Freezer; in the refrigerator from" in row[-1] for row in page_of(*EVERYBODY))


def test_no_place_name_no_reheating_and_no_number() -> None:
    said = words([family_page(week_facts(), library(*EVERYBODY), EVERYBODY)])
    for word in ("survey van", "ward", "W,", "portion", " g", "milk", "kcal"):
        assert word not in said, word
