"""Where cautions and notes of a card stand: below, unless the card would run over its page for that."""

from __future__ import annotations

from binder.pages.card_fit import arranged, facing, pages_taken
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


def test_only_a_card_that_is_surely_over_its_page_counts_for_two() -> None:
    assert pages_taken(foods(25), steps(3), CARE, NOTES, narrow=False) == 1
    assert pages_taken(foods(30), steps(20), CARE, NOTES, narrow=False) == 2
    assert pages_taken(foods(3), steps(1), (), (), narrow=True) == 1
    assert pages_taken(foods(12), steps(5), CARE, NOTES, narrow=True) == 2


def test_two_pages_fall_on_facing_ones_by_moving_a_card_of_the_same_session() -> None:
    assert facing([2, 1, 1], "aaa") == (1, 0, 2)
    assert facing([1, 2, 2, 1], "aaaa") == (0, 1, 2, 3)
    assert facing([1, 1, 2, 3], "aaaa") == (0, 1, 3, 2)
    # Of another session, or with none to move, it begins where it comes.
    assert facing([2, 1], "ab") == (0, 1)
    assert facing([2, 2], "aa") == (0, 1)
    assert facing([], "") == ()
