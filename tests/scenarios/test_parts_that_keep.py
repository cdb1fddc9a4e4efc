"""Parts of a dish that keep differently: the earliest counts for the whole, one packed apart has its own date."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.kitchen import Kitchen, codes, only
from tests.scenarios.dishes import day, plan

SALAD = """\
title: Bean salad
meal: lunch
form: ready
makes: 1 portion
ingredients:
  Beans: [200 g carrots]
  Dressing: [20 g honey]
beside: [30 g spinach]
"""
STEPS = "## Prep day\n1. Stir. [5 min]\n"


@pytest.fixture
def kitchen(tmp_path: Path) -> Kitchen:
    return Kitchen(tmp_path)


def salad(kitchen: Kitchen, keeps: str, on: str = "mon", more: str = "") -> dict:
    kitchen.recipe("salad", SALAD + f"keeps: {keeps}\n" + more, STEPS)
    return kitchen.week(plan(f"lunch: salad, for: Ilka, on: {on}")).facts()


def test_the_earliest_part_counts_for_the_whole_and_is_named(kitchen: Kitchen) -> None:
    serving = salad(kitchen, "{Beans: 3 days, Dressing: 5 days}")["servings"][0]
    # Food Code 3-501.17(C): the earliest ingredient; made on the 7th, which is day 0.
    assert (serving["use_by"], serving["keeps_days"]) == (day(10), 3)
    keeps = kitchen.recipe_facts("salad")["keeps"]
    assert (keeps["fridge_days"], keeps["decided_by"]) == (3, "Beans")
    assert {one["part"]: one["fridge_days"] for one in keeps["parts"]} == {"Beans": 3, "Dressing": 5}


def test_a_part_packed_apart_does_not_date_the_whole(kitchen: Kitchen) -> None:
    facts = salad(kitchen, "{Beans: 5 days, Dressing: 2 days}", "tue", "packed apart: [Dressing]\n")
    serving = facts["servings"][0]
    assert serving["use_by"] == day(12)
    assert {one["part"]: (one["use_by"], one["apart"]) for one in serving["parts"]} == {
        "Beans": (day(12), False),
        "Dressing": (day(9), True),
    }
    assert "Dressing" in [item["what"] for item in facts["carry_list"][0]["items"]]


def test_what_stands_beside_has_a_date_of_its_own(kitchen: Kitchen) -> None:
    serving = salad(kitchen, "{Beans: 5 days, Dressing: 5 days, beside: 2 days}", "tue")["servings"][0]
    assert (serving["use_by"], serving["kept"]) == (day(12), "fridge")
    assert only(serving["parts"], part="beside")["use_by"] == day(9)


def test_a_part_apart_that_is_too_old_is_an_error_that_names_it(kitchen: Kitchen) -> None:
    kitchen.recipe("salad", SALAD + "keeps: {Beans: 5 days, Dressing: 5 days, beside: 2 days}\n", STEPS)
    problem = only(kitchen.week(plan("lunch: salad, for: Ilka, on: wed")).check(), code="kept-too-long")
    assert "beside" in problem["message"] and "Tuesday 9 June" in problem["message"]
    assert any("prep session" in remedy for remedy in problem["remedies"])


def test_a_part_apart_that_is_said_to_freeze_is_frozen_with_the_dish(kitchen: Kitchen) -> None:
    beans = "{fridge: 2 days, freezer: 1 month}"
    facts = salad(kitchen, f"{{Beans: {beans}, Dressing: {beans}, beside: {beans}}}", "fri")
    assert (facts["servings"][0]["kept"], codes(facts["problems"])) == ("freezer", [])


def test_times_for_the_rest_and_rows_of_the_chart(kitchen: Kitchen) -> None:
    keeps = "{fridge: 4 days, Dressing: opened jam}"
    assert salad(kitchen, keeps)["servings"][0]["use_by"] == day(11)
    assert salad(kitchen, "{fridge: 90 days, Dressing: cut salad}")["servings"][0]["use_by"] == day(11)


def test_strict_caution_may_be_decided_by_another_part(kitchen: Kitchen) -> None:
    kitchen.household("- name: Ilka\n", "- name: Ilka\n    caution: strict\n")
    serving = salad(kitchen, "{Beans: 1-6 days, Dressing: 3-4 days}")["servings"][0]
    assert (serving["use_by"], serving["caution"], serving["keeps_days"]) == (day(8), "strict", 1)


def test_what_no_part_names_counts_as_leftovers(kitchen: Kitchen) -> None:
    # 3-4 days: Cold Food Storage Chart, FoodSafety.gov, leftovers.
    assert salad(kitchen, "{Dressing: 9 days}")["servings"][0]["use_by"] == day(11)


@pytest.mark.parametrize("keeps", ["{Dresing: 5 days}", "{fridg: 3 days}", "{at service: 2 days}"])
def test_a_part_that_is_not_there(kitchen: Kitchen, keeps: str) -> None:
    kitchen.recipe("salad", SALAD + f"keeps: {keeps}\n", STEPS)
    problem = only(kitchen.week(plan("lunch: salad, for: Ilka, on: mon")).check(), code="unknown-key")
    assert "Dressing" in " ".join(problem["remedies"])


def test_packed_apart_names_a_part(kitchen: Kitchen) -> None:
    kitchen.recipe("salad", SALAD + "packed apart: [Greens]\n", STEPS)
    assert codes(kitchen.week(plan("lunch: salad, for: Ilka, on: mon")).check()) == ["wrong-type"]


# ---- made from another recipe ----

MAYO = "title: Herb mayo\nmakes: 2 cups\ningredients: [200 g honey]\nkeeps: {fridge: 2 days}\n"
POT = "title: Pot\nmeal: lunch\nmakes: 1 portion\nkeeps: {fridge: 4 days}\n"


def with_mayo(kitchen: Kitchen, steps: str, where: str = "ingredients") -> dict:
    rest = "ingredients: [200 g carrots]\n" if where != "ingredients" else ""
    kitchen.recipe("mayo", MAYO, STEPS)
    kitchen.recipe("pot", POT + rest + f"{where}:\n  - 1/2 cup recipe: mayo\n", steps)
    return kitchen.week(plan("lunch: pot, for: Ilka, on: mon")).facts()["servings"][0]


def test_a_part_that_goes_in_cold_dates_the_dish(kitchen: Kitchen) -> None:
    serving = with_mayo(kitchen, STEPS)
    assert (serving["use_by"], serving["keeps_days"]) == (day(9), 2)


def test_a_part_that_is_cooked_again_does_not(kitchen: Kitchen) -> None:
    assert with_mayo(kitchen, "## Prep day\n1. Simmer. [20 min, burner]\n")["use_by"] == day(11)


def test_a_part_beside_has_its_own_date(kitchen: Kitchen) -> None:
    serving = with_mayo(kitchen, STEPS, "beside")
    assert serving["use_by"] == day(11)
    assert serving["parts"] == [{"part": "Herb mayo", "use_by": day(9), "apart": True}]


# ---- the figure that was used ----


def test_keeping_notes_show_the_days_that_were_used(kitchen: Kitchen) -> None:
    kitchen.household("- name: Ilka\n", "- name: Ilka\n    caution: strict\n")
    kitchen.recipe(
        "pot", "title: Pot\nmeal: lunch\nmakes: 1 portion\ningredients: [200 g carrots]\nkeeps: soups and stews\n"
    )
    facts = kitchen.week(plan("lunch: pot, for: [Ilka, Tomas], on: mon")).facts()
    # Soups and stews 3-4 days (Cold Food Storage Chart, FoodSafety.gov): the lower end when strict.
    assert {s["eater"]: (s["keeps_days"], s["caution"]) for s in facts["servings"]} == {
        "Ilka": (3, "strict"),
        "Tomas": (4, "usual"),
    }
