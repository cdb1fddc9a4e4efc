"""Where cautions and notes of a card stand: below, unless the card would run over its page for that."""

from __future__ import annotations

from binder.pages.card_fit import arranged
from binder.pages.page import (
    Beside,
    Block,
    Box,
    IngredientGroup,
    IngredientLine,
    Ingredients,
    Para,
    Prose,
    StepGroup,
    StepLine,
    Steps,
    plain,
)

CARE: tuple[Block, ...] = (Box("caution", "Take care", (Para(plain("Cool it at once. " * 14)),)),)
NOTES: tuple[Block, ...] = (Prose("It keeps its shape when nobody stirs it. " * 6),)


def foods(count: int) -> Ingredients:
    return Ingredients((IngredientGroup("", (IngredientLine("1 cup", "barley"),) * count),))


def steps(count: int) -> tuple[Block, ...]:
    return (Steps((StepGroup("", tuple(StepLine(n, "Stir it for a while.") for n in range(count))),)),)


def places(left: int, right: int) -> tuple[str, str]:
    """Where the cautions and the notes went."""
    made = arranged(foods(left), steps(right), CARE, NOTES)
    beside = made[0]
    assert isinstance(beside, Beside)

    def place(block: Block) -> str:
        return "ingredients" if block in beside.left else "steps" if block in beside.right else "below"

    return place(CARE[0]), place(NOTES[0])


def test_on_a_short_card_they_stand_below() -> None:
    assert places(8, 3) == ("below", "below")


def test_beside_a_long_list_they_stand_under_the_steps() -> None:
    assert places(25, 3) == ("steps", "steps")


def test_beside_many_steps_notes_stand_under_the_ingredients() -> None:
    assert places(5, 14) == ("below", "ingredients")


def test_a_card_too_long_for_a_page_either_way_has_them_below() -> None:
    assert places(27, 15) == ("below", "below")


def test_nothing_is_lost_wherever_it_stands() -> None:
    for left, right in ((0, 3), (8, 3), (25, 3), (5, 14)):
        made = arranged(foods(left), steps(right), CARE, NOTES)
        beside = made[0]
        assert isinstance(beside, Beside)
        assert {CARE[0], NOTES[0]} <= {*beside.left, *beside.right, *made[1:]}
