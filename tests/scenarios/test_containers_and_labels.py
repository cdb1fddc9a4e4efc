"""Which container a portion goes into, and where its label stands on the sheet."""

from __future__ import annotations

import pytest

from tests.kitchen import Kitchen, codes, only
from tests.scenarios.dishes import SUNDAY_AND_WEDNESDAY, by, day, dish, plan

TUBS = "  - {name: deep tub, holds: 3 cup, have: 40, freezer: yes, microwave: yes}\n"
TRAY = "  - {name: tray of three, holds: 3 cup + 1 cup + 1 cup, have: 2, freezer: no}\n"
QUART = "  - {name: quart box, holds: 4 cup, have: 3}\n"
SMALL = "  - {name: small pot, holds: 1 cup, have: 9}\n"


def packed(kitchen: Kitchen, boxes: str, more: str, meals: str, prep: str | None = None) -> dict:
    kitchen.household(TUBS, boxes).recipe("pot", dish("400 g carrots", more=more))
    return kitchen.week(plan(meals, prep=prep) if prep else plan(meals)).facts()


def used(facts: dict) -> dict:
    return {(p["container"], p["count"]) for p in facts["packing"]}


MON_THU = "lunch: pot, for: Tomas, on: mon-thu, at: home"


def test_compartments_count_by_the_largest(kitchen: Kitchen) -> None:
    """3 cups fit the tray's largest; it is the smallest that holds them; two trays, then quart boxes."""
    facts = packed(kitchen, SMALL + TRAY + QUART, "portion: 3 cup\n", MON_THU)
    assert used(facts) == {("tray of three", 2), ("quart box", 2)}
    assert only(facts["packing"], container="tray of three")["compartments"] == ["3 cup", "1 cup", "1 cup"]
    assert facts["problems"] == []


def test_a_little_more_does_not_fit_the_tray(kitchen: Kitchen) -> None:
    facts = packed(kitchen, SMALL + TRAY + QUART, "portion: 3.5 cup\n", "lunch: pot, for: Tomas, on: mon, at: home")
    assert used(facts) == {("quart box", 1)}


def test_what_is_frozen_needs_a_box_that_may_be(kitchen: Kitchen) -> None:
    """2 days: Monday and Tuesday in trays, Wednesday's frozen in a quart box."""
    meals = "lunch: pot, for: Tomas, on: mon-wed, at: home"
    facts = packed(kitchen, TRAY + QUART, "portion: 2 cup\nkeeps: {fridge: 2 days}\n", meals)
    boxes = by(facts["servings"], "container")
    assert boxes == {day(8): "tray of three", day(9): "tray of three", day(10): "quart box"}
    assert facts["problems"] == []


def test_first_choice_is_the_recipes_own(kitchen: Kitchen) -> None:
    """The quart box is named, so the tray that would hold it too comes only after all three."""
    facts = packed(kitchen, TRAY + QUART, "portion: 2 cup\ncontainer: quart box\n", MON_THU)
    assert used(facts) == {("quart box", 3), ("tray of three", 1)}


def test_named_but_too_small(kitchen: Kitchen) -> None:
    facts = packed(
        kitchen, SMALL + QUART, "portion: 2 cup\ncontainer: small pot\n", "lunch: pot, for: Bea, on: mon, at: home"
    )
    assert used(facts) == {("quart box", 1)}
    problem = only(facts["problems"], code="too-full")
    assert problem["severity"] == "warning"


def test_two_portions_in_one_serving_need_twice_the_room(kitchen: Kitchen) -> None:
    meals = "lunch: pot, for: Bea, on: mon, at: home, portions: 2"
    assert used(packed(kitchen, SMALL + QUART, "portion: 1 cup\n", meals)) == {("quart box", 1)}


def test_named_but_not_for_the_freezer(kitchen: Kitchen) -> None:
    more = "portion: 2 cup\ncontainer: tray of three\nkeeps: {fridge: 1 day}\n"
    facts = packed(kitchen, TRAY + QUART, more, "lunch: pot, for: Bea, on: wed, at: home")
    assert used(facts) == {("quart box", 1)}
    assert codes(facts["problems"]) == ["not-freezer-safe"]


def test_any_when_the_volume_is_not_known(kitchen: Kitchen) -> None:
    facts = packed(kitchen, QUART + SMALL, "portion: 350 g\n", MON_THU)
    assert used(facts) == {("small pot", 4)}


def test_volume_from_what_the_recipe_makes(kitchen: Kitchen) -> None:
    """Makes 6 cups in portions of 2."""
    kitchen.household(TUBS, SMALL + QUART).recipe("pot", dish(makes="6 cups", more="portion: 2 cup\n"))
    facts = kitchen.week(plan("lunch: pot, for: Bea, on: mon-tue, at: home")).facts()
    assert used(facts) == {("quart box", 2)}
    assert only(facts["batches"], recipe="pot")["factor"] == pytest.approx(2 / 3)


def test_too_few_says_how_many_and_each_still_gets_its_label(kitchen: Kitchen) -> None:
    meals = "lunch: pot, for: everyone, on: mon-wed, at: home"
    facts = packed(kitchen, QUART, "portion: 2 cup\n", meals)
    assert used(facts) == {("quart box", 3), (None, 6)}
    problem = only(facts["problems"], code="too-few-containers")
    assert (problem["severity"], problem["line"]) == ("warning", 6) and "6" in problem["message"]
    assert len(facts["labels"]) == 9


def test_boxes_eaten_empty_are_free_for_a_later_session(kitchen: Kitchen) -> None:
    """Three boxes: Monday to Wednesday from Sunday; Monday's and Tuesday's are back on Wednesday evening."""
    meals = "lunch: pot, for: Tomas, on: mon-wed, at: home}\n  - {lunch: pot, for: Bea, on: thu-fri, at: home"
    facts = packed(kitchen, QUART, "portion: 2 cup\n", meals, SUNDAY_AND_WEDNESDAY)
    assert facts["problems"] == [] and {s["container"] for s in facts["servings"]} == {"quart box"}
    one_more = meals.replace("for: Bea, on: thu-fri", "for: [Bea, Ilka], on: thu-fri")
    assert codes(kitchen.week(plan(one_more, prep=SUNDAY_AND_WEDNESDAY)).check()) == ["too-few-containers"]


def test_packing_has_a_row_for_each_container_and_grams(kitchen: Kitchen) -> None:
    facts = packed(
        kitchen, QUART, "portion: 250 g\n", "lunch: pot, for: everyone, on: mon, portions: {Bea: 0.5}, at: home"
    )
    rows = [(p["count"], p["grams_each"], [f["eater"] for f in p["for"]]) for p in facts["packing"]]
    assert rows == [(2, 250, ["Ilka", "Tomas"]), (1, 125, ["Bea"])]
    assert facts["packing"][0]["for"][0]["date"] == day(8)


def labelled(kitchen: Kitchen, portions: int, labels: str) -> dict:
    kitchen.household("containers:", f"labels: {{{labels}}}\ncontainers:").recipe("pot", dish())
    return kitchen.week(plan(f"lunch: pot, for: Tomas, at: home, portions: {portions}")).facts()


@pytest.mark.parametrize(
    ("sheet", "first", "portions", "start", "on_sheets", "next_free"),
    [
        ("letter 3x10", 8, 26, (1, 3, 2), [23, 3], 4),
        ("letter 3x10", 30, 2, (1, 10, 3), [1, 1], 2),
        ("letter 2x5", 4, 7, (1, 2, 2), [7], 1),
        ("letter 2x5", 1, 25, (1, 1, 1), [10, 10, 5], 6),
        ("a4 3x7", 21, 1, (1, 7, 3), [1], 1),
        ("a4 2x7", 3, 13, (1, 2, 1), [12, 1], 2),
    ],
)
def test_from_the_first_free_label_on(
    kitchen: Kitchen, sheet: str, first: int, portions: int, start: tuple, on_sheets: list, next_free: int
) -> None:
    facts = labelled(kitchen, portions, f"sheet: {sheet}, first free: {first}")
    one = facts["labels"][0]
    assert (one["sheet"], one["row"], one["column"]) == start
    sheets = [label["sheet"] for label in facts["labels"]]
    assert [sheets.count(n + 1) for n in range(max(sheets))] == on_sheets
    assert facts["labels_next_free"] == next_free


def test_one_label_for_each_filled_container_of_every_kind(kitchen: Kitchen) -> None:
    """Two portions and two over (half a batch of 8), one by-product, a kit's set and its raw part; none from stock."""
    kitchen.recipe("pot", dish(makes="8 portions", more="batch: half\ngives: [50 g parsnips]\n"))
    kit = "title: Kit\nform: kit\nmakes: 2 portions\ningredients:\n  Set: [200 g rice]\n  Raw: [200 g cod]\n"
    kitchen.recipe("kit", kit + "keeps: raw lean fish\n").recipe("stew", dish(title="Stew"))
    kitchen.file("stock.yaml", "freezer:\n  - 2 portions stew, made 2026-06-01\n")
    meals = (
        "lunch: pot, for: Tomas, on: mon-tue, at: home",
        "dinner: kit, for: [Ilka, Bea], on: mon",
        "dinner: stew, for: Tomas, on: mon-tue",
    )
    facts = kitchen.week(plan(*meals, more="already: [2 portions stew]\n")).facts()
    assert [label["recipe"] for label in facts["labels"]].count("pot") == 2 + 2 + 1
    assert [label["recipe"] for label in facts["labels"]].count("kit") == 2 and len(facts["labels"]) == 7


def test_a_label_says_what_it_contains_and_until_when(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish("100 g butter", more="keeps: soups and stews\n"))
    facts = kitchen.week(plan("lunch: pot, for: Tomas, on: [mon, fri], at: home")).facts()
    monday, friday = facts["labels"]
    assert (monday["eater"], monday["use_by"], monday["contains"]) == ("Tomas", day(11), ["milk"])
    assert friday["use_by"] == day(15)  # pulled on Thursday 11, 4 days
    assert any("milk" in line for line in monday["lines"])
