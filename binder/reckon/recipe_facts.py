"""What comes out of reckoning a recipe: the types behind its pages and its facts.json.

A field carries the name it has in facts.json. A field made with `inside()` serves pages and later stages and is
not written there. None is unknown, never zero.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any, Literal

from binder.model.food import NUTRIENTS, Basis
from binder.model.quantity import Amount, Interval
from binder.model.recipe import Ingredient, Recipe


def inside(**options: Any) -> Any:
    """A field that pages and later stages use and that facts.json does not show."""
    return field(metadata={"json": False}, **options)


@dataclass(frozen=True, slots=True)
class Nutrition:
    """Sums of the eleven nutrients: `values` in NUTRIENTS order (None: nothing known at all).

    `at_least` names the nutrients whose sum is a lower bound; `missing` says for each the foods without a value.
    """

    values: tuple[Interval | None, ...]
    at_least: frozenset[str] = frozenset()
    missing: Mapping[str, tuple[str, ...]] = field(default_factory=lambda: MappingProxyType({}))

    def value(self, nutrient: str) -> Interval | None:
        return self.values[NUTRIENTS.index(nutrient)]


NOTHING = Nutrition((Interval(0.0, 0.0),) * len(NUTRIENTS))


@dataclass(frozen=True, slots=True)
class Tallies:
    """The household's own counts: name to count, and the names whose count is a lower bound."""

    counts: Mapping[str, float] = field(default_factory=lambda: MappingProxyType({}))
    at_least: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Allergens:
    """In the household's list. `contains_from`/`may_from` say which foods each word comes from."""

    contains: tuple[str, ...] = ()
    may_contain: tuple[str, ...] = ()
    not_known: tuple[str, ...] = ()  # foods with no allergen record
    contains_from: Mapping[str, tuple[str, ...]] = field(default_factory=lambda: MappingProxyType({}))
    may_from: Mapping[str, tuple[str, ...]] = field(default_factory=lambda: MappingProxyType({}))


@dataclass(frozen=True, slots=True)
class IngredientFacts:
    """One ingredient at the recipe's written size."""

    text: str
    part: str | None
    food: str
    amount: Amount | None
    grams: Interval | None  # edible portion, before cooking
    as_purchased_grams: Interval | None
    eaten: float
    basis: Basis
    measure_basis: str | None
    when: Literal["cooked", "beside", "at service"]
    ingredient: Ingredient = inside()
    nutrition: Nutrition = inside(default=NOTHING)  # of what is eaten, whole recipe
    made_from: RecipeFacts | None = inside(default=None)  # of a part made from another recipe
    share: Interval | None = inside(default=None)  # how much of what that recipe makes; None: not known


CookedFrom = Literal["stated", "weighed", "estimate"]


@dataclass(frozen=True, slots=True)
class CookedYield:
    """Cooked weight over raw weight of one food of a dish, as an estimate used it."""

    food: str
    share: float
    source: str


@dataclass(frozen=True, slots=True)
class PerPortion:
    """One portion. `grams` is stated, weighed, or the sum before cooking; `cooked_grams` what it weighs cooked."""

    nutrition: Nutrition
    grams: float | None
    tallies: Tallies
    grams_from: str = inside(default="")  # "stated", "weighed", "sum of ingredients before cooking"
    cooked_grams: float | None = None
    cooked_grams_from: CookedFrom | None = None
    cooked_yields: tuple[CookedYield, ...] = ()  # what an estimate rests on
    cooked_not_counted: tuple[Literal["boils off", "dries out"], ...] = ()  # what it leaves out
    by_what_goes_in: float | None = inside(default=None)  # the estimate, beside a stated weight too


@dataclass(frozen=True, slots=True)
class PartKeeps:
    """How long a part keeps by itself; apart: packed on its own, so that it does not date the dish."""

    part: str
    fridge_days: int | None
    apart: bool


@dataclass(frozen=True, slots=True)
class KeepsFacts:
    """Days that a dish keeps, by the household's caution; None: not known, or not to be frozen."""

    fridge_days: int | None
    freezer_days: int | None
    freezes: bool
    source: str
    assumed: bool = inside(default=False)
    decided_by: str | None = None  # the part that keeps shortest
    parts: tuple[PartKeeps, ...] = ()


@dataclass(frozen=True, slots=True)
class ReheatFacts:
    """How a dish is heated at one place; `watts` and `seconds` are those of that place."""

    means: str
    watts: int | None
    seconds: int | None
    text: str
    converted_from: str = inside(default="")  # "1000 W, 2 min 30 s" when the time was converted
    proved: bool = False  # the time is one that proved right at the place
    formula_seconds: int | None = inside(default=None)  # what stands on the card or is worked out, where one proved


@dataclass(frozen=True, slots=True)
class RecipeFacts:
    """A recipe's figures. For a variant (substitutions applied) the same type is used."""

    key: str
    title: str
    form: str
    meals: tuple[str, ...]
    portions: float
    portion: Amount | None
    ingredients: tuple[IngredientFacts, ...]
    per_portion: PerPortion
    contains: tuple[str, ...]
    may_contain: tuple[str, ...]
    not_known: tuple[str, ...]
    keeps: KeepsFacts
    reheat: tuple[ReheatFacts, ...]
    recipe: Recipe = inside()
    allergens: Allergens = inside(default=Allergens())
    total: Nutrition = inside(default=NOTHING)
