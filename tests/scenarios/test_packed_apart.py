"""A part that is packed apart: a container, a weight and a label of its own."""

from __future__ import annotations

import pytest

from tests.kitchen import Kitchen, codes
from tests.scenarios.dishes import day, plan

TUBS = "  - {name: deep tub, holds: 3 cup, have: 40, freezer: yes, microwave: yes}\n"
BOX = "  - {name: box, holds: 3 cup, have: 9}\n"
POT = "  - {name: pot, holds: 1/4 cup, have: 1, freezer: no}\n"
JAR = "  - {name: jar, holds: 1 cup, have: 9}\n"
SALAD = """\
title: Bean salad
meal: lunch
form: ready
makes: 2 portions
ingredients:
  Beans: [400 g carrots]
  Dressing: [100 g yogurt]
container: box
"""
APART = "packed apart: [Dressing]\n"
STEPS = "## Prep day\n1. Stir. [5 min]\n"


def salad(kitchen: Kitchen, more: str = APART, meal: str = "lunch: salad, for: Ilka, on: mon-tue") -> Kitchen:
    kitchen.household(TUBS, BOX + POT + JAR).recipe("salad", SALAD + more, STEPS)
    return kitchen.week(plan(meal))


def rows(facts: dict) -> list:
    return [(row["container"], row["count"], row["grams_each"]) for row in facts["packing"]]


def test_it_has_a_container_and_a_weight_of_its_own(kitchen: Kitchen) -> None:
    """50 g at 1 mL a gram (common practice) fit a quarter cup (59 mL); for the second no pot is left."""
    facts = salad(kitchen).facts()
    assert rows(facts) == [("box", 2, 200), ("pot", 1, 50), ("jar", 1, 50)] and facts["problems"] == []
    assert {s["container"] for s in facts["servings"]} == {"box"}
    assert {s["grams"] for s in facts["servings"]} == {250}  # the serving is eaten whole


def test_without_the_key_nothing_is_apart(kitchen: Kitchen) -> None:
    facts = salad(kitchen, "").facts()
    assert rows(facts) == [("box", 2, 250)] and len(facts["labels"]) == 2
    assert "apart" not in " ".join(" ".join(label["lines"]) for label in facts["labels"])


def test_each_has_a_label_with_its_own_allergens(kitchen: Kitchen) -> None:
    facts = salad(kitchen, APART + "keeps: {Beans: 5 days, Dressing: 2 days}\n").facts()
    dish, dressing, *_ = facts["labels"]
    assert len(facts["labels"]) == 4
    assert (dish["use_by"], dish["contains"]) == (day(12), ["milk"])
    assert (dressing["use_by"], dressing["contains"], dressing["eater"]) == (day(9), ["milk"], "Ilka")
    assert dressing["lines"][0] == "Bean salad: Dressing" and any("50 g" in line for line in dressing["lines"])
    assert any("apart: Dressing" in line for line in dish["lines"])
    assert any("200 g" in line for line in dish["lines"])


def test_it_counts_for_the_containers(kitchen: Kitchen) -> None:
    salad(kitchen).household(JAR, "").household("have: 9}", "have: 2}")
    facts = kitchen.facts()
    assert codes(facts["problems"]) == ["too-few-containers"] and len(facts["labels"]) == 4
    assert sorted(rows(facts), key=str) == [("box", 2, 200), ("pot", 1, 50), (None, 1, 50)]


def test_surplus_has_its_part_apart_too(kitchen: Kitchen) -> None:
    facts = salad(kitchen, APART + "batch: whole\n", "lunch: salad, for: Ilka, on: mon").facts()
    assert rows(facts)[:2] == [("box", 1, 200), ("pot", 1, 50)] and len(facts["labels"]) == 4


def test_a_part_of_no_known_weight_leaves_the_rest_unknown(kitchen: Kitchen) -> None:
    salad(kitchen).recipe("salad", SALAD.replace("100 g yogurt", "1 handful moon dust") + APART, STEPS)
    assert {grams for _, _, grams in rows(kitchen.facts())} == {None}


def test_the_dressing_left_out_of_the_freezer_is_labelled_for_the_refrigerator(kitchen: Kitchen) -> None:
    keeps = "keeps: {Beans: {fridge: 2 days, freezer: 1 month}, Dressing: {fridge: 6 days}}\nfreezes: yes\n"
    facts = salad(kitchen, APART + keeps, "lunch: salad, for: Ilka, on: fri").facts()
    dish, dressing = facts["labels"]
    assert facts["servings"][0]["kept"] == "freezer" and dish["lines"][1].startswith("Freeze")
    assert dressing["use_by"] == day(13) and not any("Freeze" in line for line in dressing["lines"])


def test_its_pot_comes_home(kitchen: Kitchen) -> None:
    home = salad(kitchen).facts()["carry_list"][0]["comes_home"]
    assert home[:2] == ["box", "pot"]


@pytest.mark.parametrize("count", [1, 2])
def test_the_packing_sheet_names_the_part(kitchen: Kitchen, count: int) -> None:
    days = "mon" if count == 1 else "mon-tue"
    salad(kitchen, meal=f"lunch: salad, for: Ilka, on: {days}").build("--only", "site")
    page = (kitchen.out / "site/weeks/2026-W24/packing/index.html").read_text("utf-8").replace("\xa0", " ")
    assert "Dressing, 1 × pot, packed apart" in page
