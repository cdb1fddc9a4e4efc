"""A food as the household means it: figures, allergens, measures, packs; every one with its source."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from types import MappingProxyType
from typing import Literal

from binder.model.quantity import Amount, Interval

NUTRIENTS = (
    "energy_kcal",
    "protein_g",
    "fat_g",
    "saturated_fat_g",
    "carbohydrate_g",
    "fibre_g",
    "sugars_g",
    "sodium_mg",
    "potassium_mg",
    "calcium_mg",
    "iron_mg",
)
NO_FIGURES: tuple[float | None, ...] = (None,) * len(NUTRIENTS)
EMPTY: Mapping[str, Fraction] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Basis:
    """Where figures come from: ("table", "SR28 20005"), ("household", name), ("recipe", key) or ("unknown", None)."""

    kind: Literal["table", "household", "recipe", "unknown"]
    id: str | None = None


UNKNOWN = Basis("unknown")


@dataclass(frozen=True, slots=True)
class FoodWeight:
    """Grams of edible food in one measure: unit `cup` with form `chopped`; a piece: unit `each`, size `medium`.

    source begins with "household" when it is the household's own scale.
    """

    unit: str
    grams: float
    form: str = ""
    size: str = ""
    source: str = ""


@dataclass(frozen=True, slots=True)
class Pack:
    """A size it is sold in, as purchased, and its price in the household's currency (None: not known)."""

    size: Amount
    price: Fraction | None = None


@dataclass(frozen=True, slots=True)
class TallyStep:
    """A stated step of the household's own count: so much of the food (or so many portions) counts so many."""

    at: Amount
    count: Fraction


@dataclass(frozen=True, slots=True)
class PartKeeping:
    """How long one part of a dish keeps. apart: packed on its own, so that it does not date the whole."""

    part: str
    keeping: Keeping
    apart: bool = False


@dataclass(frozen=True, slots=True)
class Keeping:
    """How long something keeps, in days after day 0; None: not known. Low for strict caution, high for usual."""

    fridge_days: tuple[int, int] | None
    freezer_days: tuple[int, int] | None
    freezes: bool | None  # None: not stated; may be frozen, life not known
    source: str
    assumed: bool = False
    cupboard_days: tuple[int, int] | None = None
    thawed_days: tuple[int, int] | None = None  # after thawing in the refrigerator, where that is published
    parts: tuple[PartKeeping, ...] = ()  # where parts keep differently
    decided_by: tuple[str, str] = ("", "")  # the part that keeps shortest, strict and usual; "": the dish as a whole


@dataclass(frozen=True, slots=True)
class Food:
    """One food. `contains` None: allergens not known. All figures per 100 g edible portion, in NUTRIENTS order."""

    name: str
    basis: Basis = UNKNOWN
    row: str | None = None  # SR28 number, for the table's own household weights
    per_100_g: tuple[float | None, ...] = NO_FIGURES
    figures_from: str = ""
    contains: tuple[str, ...] | None = None
    may_contain: tuple[str, ...] = ()
    allergens_from: str = ""
    aisle: str = "other"
    edible_share: Fraction = Fraction(1)  # edible portion of what is purchased (yield)
    yield_from: str = ""
    weights: tuple[FoodWeight, ...] = ()
    packs: tuple[Pack, ...] = ()
    keeping: Keeping | None = None  # of the bare food, for portioned dishes
    once_opened_days: int | None = None
    store: str = ""
    lot_contains: tuple[str, ...] = ()  # what packs on hand say besides the food's own record
    lot_may_contain: tuple[str, ...] = ()
    fluid: bool = False  # bought and measured by volume
    tallies: Mapping[str, tuple[TallyStep, ...]] = field(default_factory=lambda: MappingProxyType({}))
    par: Amount | None = None
    names: tuple[str, ...] = ()  # the other names it goes by
    everyday: str = ""  # name in tables.everyday, for the measures of that table; "" when it stands in none
    # What a label's figures may have been before the label rounded them, per 100 g; None: no figure of a label.
    before_rounding: tuple[Interval | None, ...] = (None,) * len(NUTRIENTS)
    opened_from: str = ""  # whose the days once opened are
    store_from: str = ""
    contains_other: tuple[str, ...] | None = None  # allergens in the words of the list the household does not use

    @property
    def other_recorded(self) -> bool:
        """Whether that record is whole: a pack read by one list's words says nothing of the other's."""
        return self.contains_other is not None and (self.basis.kind != "household" or bool(self.everyday))
