"""How long thawing takes, and how long what was thawed still keeps.

Source of the figures unless a row says otherwise: USDA FSIS, The Big Thaw.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import ceil
from types import MappingProxyType

from binder.tables.measures import G_PER

SOURCE = "USDA FSIS, The Big Thaw"

# Published as 24 h for each 4 to 5 lb; four pounds is the careful end.
GRAMS_PER_NIGHT: Fraction = 4 * G_PER["lb"]
LEAST_NIGHTS = 1


@dataclass(frozen=True, slots=True)
class AfterThawing:
    """Days in the refrigerator after thawing there, (low, high), by kind of raw food."""

    kind: str
    days: tuple[int, int]
    source: str = SOURCE


@dataclass(frozen=True, slots=True)
class ColdWater:
    """Minutes, (low, high), in cold water changed every 30 min, for one piece of at most `up_to_grams`."""

    up_to_grams: Fraction
    minutes: tuple[int, int]
    source: str


AFTER_THAWING: Mapping[str, AfterThawing] = MappingProxyType(
    {
        row.kind: row
        for row in (
            AfterThawing("ground", (1, 2)),
            AfterThawing("poultry", (1, 2)),
            AfterThawing("fish", (1, 2)),
            AfterThawing("red-meat cuts", (3, 5)),
        )
    }
)

COLD_WATER: tuple[ColdWater, ...] = (
    ColdWater(G_PER["lb"], (60, 60), "Illinois Extension; USDA: up to 1 lb about 1 h"),
    ColdWater(4 * G_PER["lb"], (120, 180), "Illinois Extension; USDA: 3-4 lb 2-3 h"),
)
# Cooked or heated from frozen it takes about half as long again.
FROM_FROZEN: Fraction = Fraction(3, 2)
FROM_FROZEN_SOURCE = "USDA FSIS, The Big Thaw (second-hand)"

COLD_WATER_MINUTES_PER_LB = 30
COLD_WATER_LARGE_SOURCE = "USDA FSIS: larger pieces 30 min a pound (memory)"


def nights(grams: float | Fraction | None) -> int:
    """Nights in the refrigerator for one piece (packs thaw side by side, so never the sum of several).

    At least one night, 24 h for each 4 lb begun; a piece whose weight is not known (None) gets one.
    """
    if grams is None:
        return LEAST_NIGHTS
    # Four pounds are four pounds also where a sum of floats comes out a hair above.
    return max(LEAST_NIGHTS, ceil(Fraction(grams) / GRAMS_PER_NIGHT - Fraction(1, 10**6)))


def after_thawing_days(kind: str) -> tuple[int, int] | None:
    """Days (low, high) that raw `kind` keeps in the refrigerator once thawed there; None if no such kind."""
    row = AFTER_THAWING.get(kind)
    return row.days if row else None


def cold_water(grams: float | Fraction) -> ColdWater:
    """The row that one piece goes by, with its minutes and source; between the published sizes the larger one counts.

    What was thawed so is cooked at once.
    """
    for row in COLD_WATER:
        if Fraction(grams) <= row.up_to_grams:
            return row
    minutes = ceil(Fraction(grams) / G_PER["lb"] * COLD_WATER_MINUTES_PER_LB)
    return ColdWater(Fraction(grams), (minutes, max(minutes, COLD_WATER[-1].minutes[1])), COLD_WATER_LARGE_SOURCE)
