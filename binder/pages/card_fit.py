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

_ANYWHERE: tuple[Place, ...] = ("below", "steps", "ingredients")
# Of cautions and of notes; the usual places first.
_PLACES: tuple[tuple[Place, Place], ...] = tuple(product(_ANYWHERE[:2], _ANYWHERE))

# Characters to a line; of notes by the place where they stand.
INGREDIENTS, STEPS = 29, 44
NOTES: dict[Place, int] = {"below": 88, "steps": 52, "ingredients": 32}
# Heights in millimetres on the letter page: what its head leaves, then a line and what stands around it.
ROOM_MM = 178.0
# Guesses are on the high side: only above this does a card run over its page for certain.
SURELY_OVER_MM = 200.0
INGREDIENT_MM, STEP_MM, AFTER_STEP_MM, SHORTEST_STEP_MM, NOTE_MM, TITLE_MM, HEAD_MM = (
    6.7,
    6.4,
    2.3,
    12.0,
    5.6,
    8.0,
    11.0,
)


# A narrow page has its columns below each other, the ingredients two abreast; what its head leaves, and a whole page.
NARROW_STEPS, NARROW_NOTES, NARROW_INGREDIENTS = 42, 58, 22
NARROW_ROOM_MM, NARROW_PAGE_MM = 122.0, 180.0


def pages_taken(
    left: Ingredients, steps: Sequence[Block], care: Sequence[Block], notes: Sequence[Block], narrow: bool
) -> int:
    """How many pages a card takes, guessed; two of them are best read facing each other."""
    if not narrow:
        return 1 if lowest(left, steps, care, notes) <= SURELY_OVER_MM else 2
    height = _ingredients(left, NARROW_INGREDIENTS, 2) + _steps(steps, NARROW_STEPS)
    height += sum(_notes(blocks, NARROW_NOTES) for blocks in (care, notes))
    return 1 + max(0, ceil((height - NARROW_ROOM_MM) / NARROW_PAGE_MM))


def lowest(left: Ingredients, steps: Sequence[Block], care: Sequence[Block], notes: Sequence[Block]) -> float:
    """The height of a card below its head where its cautions and notes stand best."""
    return min(_whole(places, left, steps, care, notes) for places in _PLACES)


def facing(counts: Sequence[int], groups: Sequence[object]) -> tuple[int, ...]:
    """An order in which cards of two pages fall on facing pages, the first page being a right-hand one.

    As they come, but that a card of an odd count of pages, of the same group, is moved before one that would begin on
    a right-hand page.
    """
    waiting, order, page = list(range(len(counts))), [], 1
    while waiting:
        turned = page % 2 == 1 and counts[waiting[0]] == 2
        alike = (n for n in waiting if counts[n] % 2 and groups[n] == groups[waiting[0]])
        odd = next(alike, None) if turned else None
        following = waiting[0] if odd is None else odd
        waiting.remove(following)
        order.append(following)
        page += counts[following]
    return tuple(order)


def arranged(
    left: Ingredients, steps: Sequence[Block], care: Sequence[Block], notes: Sequence[Block]
) -> tuple[Block, ...]:
    """The two columns; cautions and notes below both, or where the whole is lowest when that is too high for a page."""

    def whole(places: tuple[Place, Place]) -> float:
        return _whole(places, left, steps, care, notes)

    usual = _PLACES[0]
    chosen = usual if whole(usual) <= ROOM_MM else min(_PLACES, key=whole)
    at = {place: [b for blocks, p in zip((care, notes), chosen, strict=True) if p == place for b in blocks]
          for place in _ANYWHERE}  # fmt: skip
    first = (left, *at["ingredients"]) if left.groups else tuple(at["ingredients"])
    return (Beside(first, (*steps, *at["steps"]), "card"), *at["below"])


def _whole(
    places: tuple[Place, Place],
    left: Ingredients,
    steps: Sequence[Block],
    care: Sequence[Block],
    notes: Sequence[Block],
) -> float:
    at = {place: sum(_notes(b, NOTES[place]) for b, p in zip((care, notes), places, strict=True) if p == place)
          for place in _ANYWHERE}  # fmt: skip
    return max(_ingredients(left) + at["ingredients"], _steps(steps) + at["steps"]) + at["below"]


def _ingredients(block: Ingredients, room: int = INGREDIENTS, abreast: int = 1) -> float:
    height = 0.0
    for group in block.groups:
        height += TITLE_MM if group.title else 0
        lines = 0
        for one in group.lines:
            said = " ".join((one.quantity, one.food, one.detail, one.mark, one.second))
            lines += _lines(said, room)
        height += INGREDIENT_MM * ceil(lines / abreast)
    return height


def _steps(blocks: Sequence[Block], room: int = STEPS) -> float:
    height = 0.0
    for block in blocks:
        if not isinstance(block, Steps):
            height += NOTE_MM if isinstance(block, Para) else HEAD_MM
            continue
        for group in block.groups:
            height += TITLE_MM if group.title else 0
            for step in group.steps:
                lines = _lines(f"{step.text} {step.time} {step.uses}", room)
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
