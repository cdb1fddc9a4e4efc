"""A week's plan."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from binder.model.household import HOME
from binder.model.recipe import Ingredient, Meal
from binder.problem import Span


@dataclass(frozen=True, slots=True)
class Session:
    """A prep session: starts `at_minutes` after midnight on `on`, at a place (home unless it says otherwise)."""

    on: date
    at_minutes: int
    cooks: int
    span: Span
    place: str = HOME


@dataclass(frozen=True, slots=True)
class MealLine:
    """One line of `meals:`. dates () and undated True: no fixed day.

    `each` is the portions for each eater at each meal (fixed days), `total` the portions in all (no fixed day;
    None: one each); `by_eater` overrides both for the eaters it names.
    """

    span: Span
    meal: Meal
    recipe: str
    eaters: tuple[str, ...]
    dates: tuple[date, ...]
    place: str | None
    each: Fraction
    total: Fraction | None
    by_eater: Mapping[str, Fraction]
    made: date | None
    made_span: Span | None = None

    @property
    def undated(self) -> bool:
        return not self.dates


@dataclass(frozen=True, slots=True)
class Substitution:
    """In `recipe`, for `eaters`: `use` in place of the ingredient named `instead_of`, at the written size."""

    span: Span
    recipe: str
    eaters: tuple[str, ...]
    use: Ingredient
    instead_of: str  # as written
    replaces: tuple[int, ...]  # indexes into the recipe's ingredients


@dataclass(frozen=True, slots=True)
class Already:
    """So many portions of a dish eaten from stock instead of cooked."""

    span: Span
    portions: Fraction
    recipe: str


@dataclass(frozen=True, slots=True)
class Week:
    key: str  # "2026-W24"
    monday: date
    span: Span
    sessions: tuple[Session, ...]  # in order of time
    meals: tuple[MealLine, ...]
    substitutions: tuple[Substitution, ...]
    already: tuple[Already, ...]
    notes: str
    closed: Mapping[str, object] | None = None
