"""Kits, dishes that are finished where they are eaten, and what is cooked at service."""

from __future__ import annotations

import pytest

from tests.kitchen import Kitchen, codes, only
from tests.scenarios.dishes import SUNDAY, by, day, dish, plan


def kit(raw: str, keeps: str, makes: str = "4 portions", set_line: str = "500 g potatoes, in coins") -> str:
    return (
        f"title: Supper kit\nmeal: dinner\nform: kit\nmakes: {makes}\ningredients:\n"
        f"  Set:\n    - {set_line}\n  Raw, apart:\n    - {raw}\nkeeps: {keeps}\n"
    )


def test_a_kit_for_several_eaters_with_a_portions_map(kitchen: Kitchen) -> None:
    """Raw fatty fish, 1-3 days: Tuesday is day 2, use-by Wednesday 10. 1 + 1 + 0.5 of 4: factor 0.625."""
    kitchen.recipe("trout-kit", kit("4 trout fillets", "raw fatty fish"))
    facts = kitchen.week(plan("dinner: trout-kit, for: everyone, on: tue, portions: {Bea: 0.5}")).facts()
    assert {(s["kept"], s["use_by"], s["made_on"]) for s in facts["servings"]} == {("fridge", day(10), day(7))}
    assert only(facts["batches"], recipe="trout-kit")["factor"] == pytest.approx(0.625)
    assert only(facts["shopping"], food="trout fillet")["need"] == {"amount": 2.5, "unit": "each"}
    assert [label["contains"] for label in facts["labels"]] == [[], ["fish (trout)"]]
    assert facts["pull_list"] == []


def test_a_kits_labels_have_the_allergens_of_its_parts(kitchen: Kitchen) -> None:
    kitchen.recipe("base", dish("60 g butter", title="Base"))
    kitchen.recipe("trout-kit", kit("4 trout fillets", "raw fatty fish", set_line="1 portion recipe: base"))
    facts = kitchen.week(plan("dinner: trout-kit, for: Ilka, on: tue")).facts()
    labels = [label["contains"] for label in facts["labels"] if label["recipe"] == "trout-kit"]
    assert labels == [["milk"], ["fish (trout)"]]


def test_two_labels_for_each_kit_and_place(kitchen: Kitchen) -> None:
    """Ilka and Bea at home, Tomas at the ward; Tuesday and Wednesday: 2 days x 2 places x 2."""
    kitchen.recipe("trout-kit", kit("4 trout fillets", "raw fatty fish"))
    meals = (
        "dinner: trout-kit, for: [Ilka, Bea], on: tue-wed",
        "dinner: trout-kit, for: Tomas, on: tue-wed, at: ward",
    )
    facts = kitchen.week(plan(*meals)).facts()
    assert len(facts["labels"]) == 8
    assert only(facts["batches"], recipe="trout-kit")["portions_made"] == 6


@pytest.mark.parametrize(
    ("date", "kept", "pull_on"),
    [("tue", "fridge", None), ("wed", "freezer", day(9)), ("sat", "freezer", day(12))],
)
def test_raw_poultry(kitchen: Kitchen, date: str, kept: str, pull_on: str | None) -> None:
    """1-2 days from Sunday 7: Tuesday 9."""
    kitchen.recipe("hen-kit", kit("800 g chicken thighs", "raw poultry pieces"))
    facts = kitchen.week(plan(f"dinner: hen-kit, for: [Ilka, Tomas], on: {date}")).facts()
    assert {(s["kept"], s["pull_on"]) for s in facts["servings"]} == {(kept, pull_on)}
    assert len(facts["labels"]) == 2 and codes(facts["problems"], "error") == []


SET_OF_CUT_VEGETABLES_UNTIL = {"wed": ("fridge", "2026-06-11"), "fri": ("freezer", None)}


@pytest.mark.parametrize("day", SET_OF_CUT_VEGETABLES_UNTIL)
def test_a_kits_set_is_frozen_where_it_would_not_keep_until_the_meal(kitchen: Kitchen, day: str) -> None:
    # Cut produce keeps 3-4 days (University of Maine Extension, 2025): cut on Sunday 7, to Thursday 11 as usual.
    kept, until = SET_OF_CUT_VEGETABLES_UNTIL[day]
    kitchen.recipe("hen-kit", kit("400 g chicken thighs", "raw poultry pieces"))
    facts = kitchen.week(plan(f"dinner: hen-kit, for: Ilka, on: {day}")).facts()
    of_set, apart = (label for label in facts["labels"] if label["recipe"] == "hen-kit")
    lines = [" ".join(label["lines"]).casefold() for label in (of_set, apart)]
    assert ("pull" in lines[0]) == (kept == "freezer"), lines
    assert "pull" in lines[1]
    if until:
        assert of_set["use_by"] == until


@pytest.mark.parametrize(("grams", "pull_on"), [(1200, day(10)), (2500, day(9))])
def test_a_kits_raw_part_thaws_as_one_piece(kitchen: Kitchen, grams: int, pull_on: str) -> None:
    """3 portions of 4: 900 g thaw in one night, 1,875 g (over 4 lb) in two."""
    kitchen.recipe("hen-kit", kit(f"{grams} g chicken thighs", "raw poultry pieces"))
    facts = kitchen.week(plan("dinner: hen-kit, for: everyone, on: thu")).facts()
    assert {(p["pull_on"], p["date"]) for p in facts["pull_list"]} == {(pull_on, day(11))}
    assert [p["eater"] for p in facts["pull_list"]] == ["Ilka", "Tomas", "Bea"]


def test_thawed_raw_fish_keeps_one_to_two_days(kitchen: Kitchen) -> None:
    """FSIS, The Big Thaw: fish 1-2 days after thawing, though 1-3 fresh."""
    kitchen.recipe("trout-kit", kit("4 trout fillets", "raw fatty fish"))
    facts = kitchen.week(plan("dinner: trout-kit, for: Ilka, on: fri")).facts()
    assert [(s["pull_on"], s["use_by"]) for s in facts["servings"]] == [(day(11), day(13))]


def test_a_kit_that_may_not_be_frozen(kitchen: Kitchen) -> None:
    kitchen.recipe("hen-kit", kit("800 g chicken thighs", "raw poultry pieces\nfreezes: no"))
    meal = "dinner: hen-kit, for: Ilka, on: wed"
    assert codes(kitchen.week(plan(meal)).check()) == ["kept-too-long"]
    prep = SUNDAY + '  - {on: 2026-06-09, at: "18:00"}\n'
    facts = kitchen.week(plan(meal, prep=prep)).facts()
    assert [(s["made_on"], s["kept"]) for s in facts["servings"]] == [(day(9), "fridge")]


def test_at_service_when_nothing_of_it_is_kept(kitchen: Kitchen) -> None:
    """Cooked that day: no batch, no label, no session, and all of it on the shopping list."""
    front = "title: Toast\nmeal: breakfast\nform: kit\nmakes: 1 portion\ningredients: []\nat service:\n  - 60 g rice\n"
    facts = kitchen.recipe("toast", front).week(plan("breakfast: toast, for: Bea, on: mon-tue", prep="")).facts()
    assert facts["problems"] == [] and facts["batches"] == [] and facts["labels"] == []
    assert [(s["kept"], s["made_on"]) for s in facts["servings"]] == [("at service", day(8)), ("at service", day(9))]
    assert facts["shopping"][0]["need"]["amount"] == pytest.approx(120)


def assembled(needs: str) -> str:
    return dish("60 g couscous", form="assemble", title="Couscous", more=f"needs: [{needs}]\n")


@pytest.mark.parametrize(
    ("needs", "meal", "found"),
    [
        ("kettle", "lunch: bowl, for: Tomas, on: mon", []),
        ("kettle", "lunch: bowl, for: Ilka, on: mon", ["cannot-finish"]),
        ("kettle", "lunch: bowl, for: Ilka, on: mon, at: home", []),
        ("oven", "lunch: bowl, for: Tomas, on: mon", ["cannot-finish"]),
        ("microwave", "lunch: bowl, for: [Tomas, Bea], on: mon", ["cannot-finish"]),
        ("fridge", "lunch: bowl, for: Tomas, on: mon, at: home", []),  # home always has a refrigerator
    ],
)
def test_tools_needed_where_it_is_eaten(kitchen: Kitchen, needs: str, meal: str, found: list[str]) -> None:
    problems = kitchen.recipe("bowl", assembled(needs)).week(plan(meal)).check()
    assert codes(problems) == found
    if found:
        assert problems[0]["line"] == 6


def test_assembled_away_is_carried_with_what_is_added(kitchen: Kitchen) -> None:
    front = assembled("kettle") + "at service:\n  - 20 g butter\nbeside:\n  - 1 apple\n"
    facts = kitchen.recipe("bowl", front).week(plan("lunch: bowl, for: Tomas, on: mon-tue")).facts()
    assert [(c["date"], c["eater"], c["place"]) for c in facts["carry_list"]] == [
        (day(8), "Tomas", "ward"), (day(9), "Tomas", "ward"),
    ]  # fmt: skip
    items = {item["what"]: item for item in facts["carry_list"][0]["items"]}
    assert items["butter"]["amount"] == {"amount": 20, "unit": "g"}
    assert items["apple"]["amount"] == {"amount": 1, "unit": "each"} and "Couscous" in items


def test_served_at_another_meal_than_it_says(kitchen: Kitchen) -> None:
    front = dish().replace("meal: [breakfast, lunch, snack, dinner]", "meal: lunch")
    facts = kitchen.recipe("bowl", front).week(plan("breakfast: bowl, for: Tomas, on: mon")).facts()
    assert facts["problems"] == [] and by(facts["servings"], "meal") == {day(8): "breakfast"}
