"""Kitchen measures, exact: what a unit holds in mL or weighs in g, and by whose definition.

Every factor is a Fraction, so that there and back again is the same number. A food's own weight for a measure
(a table row, the household's scale) always comes before a volume here, which says nothing about grams.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType
from typing import Literal

Kind = Literal["mass", "volume", "count"]
System = Literal["us", "metric", "uk"]

COMMON_PRACTICE = "common practice"
NIST = "NIST Handbook 44, Appendix C (by definition)"
SI = "SI (by definition)"
METRIC_SPOONS = "metric cup, tablespoon and teaspoon (common practice)"
UK_ACT = "Weights and Measures Act 1985 (memory)"
LABEL_RULE = "21 CFR 101.9(b)(5)(viii)"

MM_PER_INCH = Fraction(254, 10)


@dataclass(frozen=True, slots=True)
class Measure:
    """One unit: `amount` mL of a volume or g of a mass, exact, with where the figure comes from."""

    unit: str
    kind: Kind
    amount: Fraction
    source: str
    from_memory: bool = False


def _volumes(pairs: Mapping[str, Fraction], source: str, from_memory: bool = False) -> dict[str, Measure]:
    return {u: Measure(u, "volume", amount, source, from_memory) for u, amount in pairs.items()}


def _with_small(table: dict[str, Measure]) -> Mapping[str, Measure]:
    """Add the spoon fractions, which follow the teaspoon of their system; cooks' books differ on the drop."""
    teaspoon = table["tsp"].amount
    small = {"dash": teaspoon / 8, "pinch": teaspoon / 16, "smidgen": teaspoon / 32, "drop": teaspoon / 60}
    return MappingProxyType({**table, **_volumes(small, COMMON_PRACTICE)})


# 1 US gallon is 231 cubic inches, 1 inch is 25.4 mm: 3785.411784 mL exactly.
_US_GALLON = 231 * MM_PER_INCH**3 / 1000
# 1 UK gallon is 4.54609 L, so a UK pint is 568.26125 mL exactly.
_UK_GALLON = Fraction(454609, 100)

_LITRES = _volumes(
    {"mL": Fraction(1), "cl": Fraction(10), "dl": Fraction(100), "L": Fraction(1000)},
    SI,
)
_US_LARGE = {
    "fl-oz": _US_GALLON / 128,
    "pint": _US_GALLON / 8,
    "quart": _US_GALLON / 4,
    "gallon": _US_GALLON,
}
_US_SPOONS = {"tsp": _US_GALLON / 768, "tbsp": _US_GALLON / 256, "cup": _US_GALLON / 16}
_METRIC_SPOONS = {"tsp": Fraction(5), "tbsp": Fraction(15), "cup": Fraction(250)}
_UK_LARGE = {
    "fl-oz": _UK_GALLON / 160,
    "pint": _UK_GALLON / 8,
    "quart": _UK_GALLON / 4,
    "gallon": _UK_GALLON,
}

# Who measures with metric spoons has no pint of that system: fluid ounce to gallon stay the US ones there.
VOLUMES: Mapping[System, Mapping[str, Measure]] = MappingProxyType(
    {
        "us": _with_small(_LITRES | _volumes(_US_SPOONS | _US_LARGE, NIST)),
        "metric": _with_small(_LITRES | _volumes(_METRIC_SPOONS, METRIC_SPOONS) | _volumes(_US_LARGE, NIST)),
        "uk": _with_small(
            _LITRES | _volumes(_METRIC_SPOONS, METRIC_SPOONS) | _volumes(_UK_LARGE, UK_ACT, from_memory=True)
        ),
    }
)

MASSES: Mapping[str, Measure] = MappingProxyType(
    {
        "g": Measure("g", "mass", Fraction(1), SI),
        "kg": Measure("kg", "mass", Fraction(1000), SI),
        "mg": Measure("mg", "mass", Fraction(1, 1000), SI),
        "oz": Measure("oz", "mass", Fraction(45359237, 1600000), NIST),
        "lb": Measure("lb", "mass", Fraction(45359237, 100000), NIST),
    }
)

ML_PER: Mapping[str, Fraction] = MappingProxyType({u: m.amount for u, m in VOLUMES["us"].items()})
G_PER: Mapping[str, Fraction] = MappingProxyType({u: m.amount for u, m in MASSES.items()})

COUNT_UNITS: tuple[str, ...] = (
    "each", "clove", "bunch", "head", "stalk", "sprig", "leaf", "slice", "can", "jar", "pack", "bottle",
    "handful", "knob", "ear", "rasher", "fillet", "piece", "inch", "strip", "wedge", "stick", "loaf", "portion",
)  # fmt: skip

# One foot is 0.3048 m exactly (NIST Handbook 44, App. C).
ML_PER_CUBIC_FOOT: Fraction = Fraction(3048, 10_000) ** 3 * 1_000_000

UNITS: frozenset[str] = frozenset((*ML_PER, *G_PER, *COUNT_UNITS))

STICK_BUTTER_G = 113
STICK_BUTTER_SOURCE = "USDA SR28 01001"

LABEL_ML_PER: Mapping[str, int] = MappingProxyType({"cup": 240, "fl-oz": 30, "tbsp": 15, "tsp": 5})
LABEL_G_PER: Mapping[str, int] = MappingProxyType({"oz": 28})


def kind(unit: str) -> Kind:
    """What a canonical unit measures; KeyError for a unit that is not one of UNITS."""
    if unit in G_PER:
        return "mass"
    if unit in ML_PER:
        return "volume"
    if unit in COUNT_UNITS:
        return "count"
    raise KeyError(unit)


def ml_per(unit: str, system: System = "us") -> Fraction:
    """Millilitres in one `unit`, exact; KeyError for what is not a volume."""
    return VOLUMES[system][unit].amount


def g_per(unit: str) -> Fraction:
    """Grams in one `unit`, exact; KeyError for what is not a mass."""
    return MASSES[unit].amount


def measure(unit: str, system: System = "us") -> Measure | None:
    """The whole row of a mass or volume, with its source; None for counted units."""
    return MASSES.get(unit) or VOLUMES[system].get(unit)
