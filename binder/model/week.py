"""A week's plan."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction
from types import MappingProxyType
from typing import Literal

from binder.model.household import HOME
from binder.model.quantity import Interval
from binder.model.recipe import Ingredient, Meal
from binder.problem import Span


@dataclass(frozen=True, slots=True)
class Session:
    """A prep session: starts `at_minutes` after midnight on `on`, at a place (home unless it says otherwise).

    `written` is the session of the week's file where another is tried in its place.
    """

    on: date
    at_minutes: int
    cooks: int
    span: Span
    place: str = HOME
    written: Session | None = None


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


Source = Literal["session", "service", "stock"]


@dataclass(frozen=True, slots=True)
class ClosedDish:
    """What became of one dish, in portions; None: nobody said. `which` counts the rows of one recipe from 1.

    `source`: made at a session, at service, or taken from stock (`made` is then what was taken).
    """

    recipe: str
    which: int = 1
    source: Source = "session"
    made_on: date | None = None
    planned: Fraction | None = None
    made: Fraction | None = None
    eaten: Fraction | None = None
    left: Fraction | None = None
    frozen: Fraction | None = None
    thrown: Fraction | None = None
    why: str = ""
    weighs_g: Fraction | None = None  # cooked weight of what was made
    gives: bool | None = None  # whether its by-products were kept
    left_by: tuple[tuple[str, Fraction], ...] | None = None  # who left how many of theirs

    @property
    def name(self) -> str:
        """`bean-stew`, or `bean-stew/2` for the second row of a recipe."""
        return self.recipe if self.which == 1 else f"{self.recipe}/{self.which}"


@dataclass(frozen=True, slots=True)
class ClosedSession:
    """How long a session took; at_minutes after midnight, minutes None: not timed."""

    on: date
    at_minutes: int | None = None
    planned: int | None = None
    minutes: int | None = None


@dataclass(frozen=True, slots=True)
class ClosedRecipe:
    """What a portion was when the week was closed. `eaters` (): all but those that another row names.

    `edition` is the hash of the recipe's file; figures by nutrient, None: not known.
    """

    recipe: str
    eaters: tuple[str, ...]
    edition: str
    grams: float | None
    per_portion: Mapping[str, Interval | None]
    at_least: frozenset[str]
    contains: tuple[str, ...]
    may_contain: tuple[str, ...]
    not_known: tuple[str, ...]
    cost: Fraction | None = None
    cooked_grams: float | None = None  # as the pages print it; None: not known, or not recorded


@dataclass(frozen=True, slots=True)
class StockChange:
    """One line of stock.yaml that closing changed: `was` None: added, `now` None: taken out."""

    place: str
    was: str | None
    now: str | None


@dataclass(frozen=True, slots=True)
class Closed:
    """What a week came to: the answers, and what was reckoned from them when it was closed."""

    on: date | None = None
    dishes: tuple[ClosedDish, ...] = ()
    sessions: tuple[ClosedSession, ...] = ()
    substitutions: tuple[str, ...] | None = None
    note: str | None = None
    bought: str | None = None  # "as listed": the packs of the shopping list were bought
    recipes: tuple[ClosedRecipe, ...] = ()
    stock: tuple[StockChange, ...] = ()
    consumed: Fraction | None = None
    to_pay: Fraction | None = None
    currency: str = ""
    cost_at_least: bool = False
    made_of: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))  # path of each file, its edition

    def dish(self, recipe: str, which: int = 1) -> ClosedDish | None:
        return next((one for one in self.dishes if (one.recipe, one.which) == (recipe, which)), None)


@dataclass(frozen=True, slots=True)
class Week:
    """What a week's file says: when it is prepared, who eats what, what comes from stock, and how it went."""

    key: str  # "2026-W24"
    monday: date
    span: Span
    sessions: tuple[Session, ...]  # in order of time
    meals: tuple[MealLine, ...]
    substitutions: tuple[Substitution, ...]
    already: tuple[Already, ...]
    notes: str
    closed: Mapping[str, object] | None = None  # the block as it stands
    came_to: Closed | None = None  # and as it is understood

    @property
    def first_day(self) -> date:
        """The day that the plan counts its stock from: its first session, or its Monday."""
        return min([self.monday, *(session.on for session in self.sessions)])

    @property
    def is_archive(self) -> bool:
        """Whether closing it took its part out of the stock already."""
        return self.came_to is not None and bool(self.came_to.recipes)
