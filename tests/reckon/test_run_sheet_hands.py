"""What is in hand in a step whose part is no ingredient part: what its steps name, and no allergen is taken out."""

from __future__ import annotations

from dataclasses import replace

import pytest

from binder.model.food import Food
from binder.model.household import Tool
from binder.model.recipe import Ingredient, Recipe, Step
from binder.reckon.facts import RunSheet
from binder.reckon.run_sheet import sheets
from tests.reckon.run_sheet_kitchens import HERE, batch, household, recipe, session, step

MEAT = "meat and fish"


def line(food: str, part: str, aisle: str = "produce", holds: tuple[str, ...] = ()) -> Ingredient:
    return Ingredient(food, HERE, "cooked", part, Food(food, aisle=aisle, contains=holds), None, ())


def kofta(*steps: Step, meat: str = "ground lamb") -> Recipe:
    lines = (
        line("red bell peppers", "Set"), line("smoked paprika", "Set", "spices"), line("garlic", "Set"),
        line(meat, "Raw, apart", MEAT), line("onion", "Raw, apart"), line("plain yogurt", "Set", "other", ("milk",)),
    )  # fmt: skip
    return replace(recipe("kofta", *steps), ingredients=lines)


def drawn(*steps: Step, meat: str = "ground lamb") -> RunSheet:
    (sheet,), _ = sheets((batch(kofta(*steps, meat=meat), session()),), household(Tool("cutting board", 2)))
    return sheet


def raw(sheet: RunSheet) -> list[str]:
    return sorted(task.text for task in sheet.tasks if task.raw)


SHAPE = step("Grate the onion, knead it into the lamb.", 16, "cutting board", part="Kofta")
SAUCE = step("Slip off the skins of the peppers, blend with garlic and paprika.", 9, part="Sauce")


def test_a_sauce_without_meat_asks_for_no_wash() -> None:
    sheet = drawn(SAUCE, SHAPE)
    assert raw(sheet) == [SHAPE.text]
    # So it comes before what is raw, as produce does.
    assert [task.text for task in sheet.tasks] == [SAUCE.text, SHAPE.text]


@pytest.mark.parametrize(
    ("steps", "expected"),
    [
        ((step("Shape and chill.", 9, part="Kofta"), SAUCE), "Shape and chill."),  # nothing is named: all of it
        ((SHAPE, step("Roll it in paprika.", 9, part="Kofta")), "Roll it in paprika."),  # the lamb of the step before
        ((SHAPE, step("Lay the meat on paprika.", 9, part="Tray")), "Lay the meat on paprika."),
        ((SHAPE, step("Pour the paprika over.", 9, part="Together")), "Pour the paprika over."),  # all parts meet
        (
            (step("Mix patties with garlic.", 9, part="Patties"), SAUCE),
            "Mix patties with garlic.",
        ),  # the lamb is unsaid
    ],
)
def test_where_raw_meat_may_be_in_hand_the_wash_is_said(steps: tuple[Step, ...], expected: str) -> None:
    assert expected in raw(drawn(*steps))


def test_a_step_of_an_ingredient_part_goes_by_that_part() -> None:
    trim = step("Trim, with the peppers beside.", 5, part="raw, apart")
    assert raw(drawn(SAUCE, trim, meat="salmon")) == [trim.text]
    assert raw(drawn(step("Beside the lamb: slice.", 5, part="Set"), SHAPE)) == [SHAPE.text]


def test_an_allergen_of_the_dish_is_in_hand_though_other_foods_are_named() -> None:
    """The yogurt is not named in the sauce's step, and it may well be in it."""
    home = household(avoids=("milk",))
    made = (batch(kofta(SAUCE, SHAPE), session()), batch(recipe("z-salad", step("Toss.", 5)), session()))
    (sheet,), _ = sheets(made, home, eaters={made[1].id: ("Ilka",)})
    assert [task.recipe for task in sheet.tasks] == ["z-salad", "kofta", "kofta"]
    assert all(task.apart_after for task in sheet.tasks[1:])
