"""What is on hand, lot by lot."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from binder.model.food import Food
from binder.model.quantity import Measure
from binder.problem import Span


@dataclass(frozen=True, slots=True)
class Lot:
    """One line of stock.yaml, as purchased. `recipe` is set for portions of a dish (unit portion)."""

    id: str  # "stock.yaml:2"
    span: Span
    text: str
    place: str  # fridge, freezer, cupboard, or a name of the household's
    food: Food | None
    recipe: str | None
    measures: tuple[Measure, ...]
    pack: Measure | None = None
    opened: date | None = None
    made: date | None = None
    best_before: date | None = None
    frozen: date | None = None
    thawed: date | None = None
    contains: tuple[str, ...] | None = None
    may_contain: tuple[str, ...] = ()
    at: str = "home"  # whose refrigerator, freezer or cupboard it is


@dataclass(frozen=True, slots=True)
class Stock:
    """What is on hand, lot by lot."""

    lots: tuple[Lot, ...]
