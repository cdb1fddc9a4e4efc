"""Where a card's cautions and notes take least paper: below both columns, under its steps, or under its ingredients.

They stand below both columns. Only where a card would run over its page for that are they put where there is room: a
card of one page can be stood up at the counter. Heights are guessed by counting characters, and decide nothing else.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product
from math import ceil
from typing import Literal

from binder.pages.page import Beside, Block, Box, Ingredients, Para, Prose, Steps

Place = Literal["below", "steps", "ingredients"]

# Characters to a line; of notes by the place where they stand.
INGREDIENTS, STEPS = 29, 44
NOTES: dict[Place, int] = {"below": 88, "steps": 52, "ingredients": 32}
# Heights in millimetres on the letter page: what its head leaves, then a line and what stands around it.
ROOM_MM = 178.0
INGREDIENT_MM, STEP_MM, AFTER_STEP_MM, SHORTEST_STEP_MM, NOTE_MM, TITLE_MM, HEAD_MM = (
    6.7,
    6.4,
    2.3,
    12.0,
    5.6,
    8.0,
    11.0,
)


def arranged(
    left: Ingredients, steps: Sequence[Block], care: Sequence[Block], notes: Sequence[Block]
) -> tuple[Block, ...]:
    """The two columns; cautions and notes below both, or where the whole is lowest when that is too high for a page."""
    cautions: tuple[Place, ...] = ("below", "steps")
    anywhere: tuple[Place, ...] = ("below", "steps", "ingredients")

    def whole(places: tuple[Place, Place]) -> float:
        at = {place: sum(_notes(b, NOTES[place]) for b, p in zip((care, notes), places, strict=True) if p == place)
              for place in anywhere}  # fmt: skip
        return max(_ingredients(left) + at["ingredients"], _steps(steps) + at["steps"]) + at["below"]

    usual: tuple[Place, Place] = ("below", "below")
    chosen = usual if whole(usual) <= ROOM_MM else min(product(cautions, anywhere), key=whole)
    at = {place: [b for blocks, p in zip((care, notes), chosen, strict=True) if p == place for b in blocks]
          for place in anywhere}  # fmt: skip
    first = (left, *at["ingredients"]) if left.groups else tuple(at["ingredients"])
    return (Beside(first, (*steps, *at["steps"]), "card"), *at["below"])


def _ingredients(block: Ingredients) -> float:
    height = 0.0
    for group in block.groups:
        height += TITLE_MM if group.title else 0
        for one in group.lines:
            said = " ".join((one.quantity, one.food, one.detail, one.mark, one.second))
            height += INGREDIENT_MM * _lines(said, INGREDIENTS)
    return height


def _steps(blocks: Sequence[Block]) -> float:
    height = 0.0
    for block in blocks:
        if not isinstance(block, Steps):
            height += HEAD_MM
            continue
        for group in block.groups:
            height += TITLE_MM if group.title else 0
            for step in group.steps:
                lines = _lines(f"{step.text} {step.time} {step.uses}", STEPS)
                height += max(SHORTEST_STEP_MM, STEP_MM * lines + AFTER_STEP_MM)
    return height


def _notes(blocks: Sequence[Block], room: int) -> float:
    height = 0.0
    for block in blocks:
        if isinstance(block, Box):
            height += NOTE_MM + _notes(block.blocks, room - 4)
        elif isinstance(block, Para):
            height += NOTE_MM * _lines("".join(run.text for run in block.text), room)
        elif isinstance(block, Prose):
            height += sum(NOTE_MM * _lines(" ".join(part.split()), room) for part in block.markdown.split("\n\n"))
    return height


def _lines(text: str, room: int) -> int:
    return max(1, ceil(len(text) / room))
