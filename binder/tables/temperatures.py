"""Temperatures and times that keep food from harm: cores, cooling, holding, reheating, carrying.

Sources: USDA FSIS for homes, the FDA Food Code for what professional kitchens measure. Stricter local rules
come first; a thermometer decides, not a time.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType

FSIS_CORE = "USDA FSIS, safe minimum internal temperatures (April 2025)"
FSIS = "USDA FSIS"
FOOD_CODE_COOLING = "FDA Food Code, 3-501.14"
FOOD_CODE_HOLDING = "FDA Food Code, 3-501.16 (memory)"
FOOD_CODE_REHEATING = "FDA Food Code, 3-403.11(B)"
COMMON_PRACTICE = "common practice"
MAKERS_MANUALS = "common practice, makers' manuals"


def celsius(fahrenheit: float | Fraction) -> float:
    """Degrees Celsius, not rounded."""
    return float((Fraction(fahrenheit) - 32) * 5 / 9)


@dataclass(frozen=True, slots=True)
class CoreTemperature:
    """What the thickest part must reach, and how long it then rests."""

    kind: str
    fahrenheit: int
    rest_minutes: int = 0
    source: str = FSIS_CORE
    note: str = ""

    @property
    def celsius(self) -> float:
        """The same in degrees Celsius, not rounded."""
        return celsius(self.fahrenheit)


@dataclass(frozen=True, slots=True)
class CoolingLimit:
    """From one temperature to another within so many minutes of the first limit's start."""

    from_fahrenheit: int
    to_fahrenheit: int
    within_minutes: int
    source: str = FOOD_CODE_COOLING

    @property
    def from_celsius(self) -> float:
        """Where it starts, in degrees Celsius, not rounded."""
        return celsius(self.from_fahrenheit)

    @property
    def to_celsius(self) -> float:
        """Where it ends, in degrees Celsius, not rounded."""
        return celsius(self.to_fahrenheit)


@dataclass(frozen=True, slots=True)
class Held:
    """A temperature to hold, in degrees Fahrenheit: `at_most` cold, `at_least` hot."""

    what: str
    fahrenheit: int
    at_most: bool
    source: str
    from_memory: bool = False

    @property
    def celsius(self) -> float:
        """The same in degrees Celsius, not rounded."""
        return celsius(self.fahrenheit)


CORES: Mapping[str, CoreTemperature] = MappingProxyType(
    {
        row.kind: row
        for row in (
            CoreTemperature("poultry", 165, note="all of it: whole, pieces and ground"),
            CoreTemperature("leftovers and casseroles", 165),
            CoreTemperature("stuffing", 165),
            CoreTemperature("ground meat", 160, note="beef, pork, veal, lamb; ground poultry 165 °F"),
            CoreTemperature("egg dishes", 160),
            CoreTemperature("steaks, chops, roasts", 145, rest_minutes=3),
            CoreTemperature("fresh ham", 145, rest_minutes=3),
            CoreTemperature("fish and shellfish", 145),
        )
    }
)

_CORE_OF_ROW: Mapping[str, str] = MappingProxyType(
    {
        "raw ground meat": "ground meat",
        "raw sausage": "ground meat",
        "raw stew meat": "steaks, chops, roasts",
        "raw steaks, chops, roasts": "steaks, chops, roasts",
        "raw poultry pieces": "poultry",
        "raw whole poultry": "poultry",
        "raw lean fish": "fish and shellfish",
        "raw pollock, perch, rockfish, sea trout": "fish and shellfish",
        "raw fatty fish": "fish and shellfish",
        "crab, lobster": "fish and shellfish",
        "raw eggs in shell": "egg dishes",
        "raw egg whites": "egg dishes",
        "raw egg yolks": "egg dishes",
        "cooked leftovers": "leftovers and casseroles",
        "cooked meat or poultry": "leftovers and casseroles",
        "soups and stews": "leftovers and casseroles",
        "casseroles with eggs": "leftovers and casseroles",
        "chicken nuggets or patties": "leftovers and casseroles",
        "pizza": "leftovers and casseroles",
        "quiche": "leftovers and casseroles",
        "cooked rice, pasta and grains": "leftovers and casseroles",
        "cooked ham, slices": "leftovers and casseroles",
        "cooked sausage": "leftovers and casseroles",
        "hot dogs, opened": "leftovers and casseroles",
        "luncheon meat, opened": "leftovers and casseroles",
    }
)

# Both run from the moment the food leaves 135 °F.
COOLING: tuple[CoolingLimit, ...] = (CoolingLimit(135, 70, 120), CoolingLimit(135, 41, 360))

# A screen only: food that cools in a refrigerator at 38 °F and is warmer than this is late.
# Arithmetic from Hedeen, Schaffner, Brown 2022: (minutes, degrees Fahrenheit).
COOLING_CHECKS: tuple[tuple[int, int], ...] = ((30, 111), (60, 92))

HOT_HOLD = Held("hot food, held", 135, False, FOOD_CODE_HOLDING, from_memory=True)
COLD_HOLD = Held("cold food, held", 41, True, FOOD_CODE_HOLDING, from_memory=True)
REFRIGERATOR = Held("refrigerator", 40, True, "Cold Food Storage Chart, FoodSafety.gov")
FREEZER = Held("freezer", 0, True, "Cold Food Storage Chart, FoodSafety.gov")
FLASK_FILL = Held("food filled into an insulated flask", 165, False, "USDA 2019")

REHEATING = CoreTemperature("reheated in a microwave", 165, source=FOOD_CODE_REHEATING, note="cover, stir or rotate")
MICROWAVE_STANDING_MINUTES = 2

HOT_DAY_F = 90
UNCOOLED_HOURS = 2
UNCOOLED_HOURS_HOT = 1
COLD_SOURCES = 2

PRESSURE_FILL = Fraction(2, 3)
PRESSURE_FILL_SWELLING = Fraction(1, 2)
PRESSURE_SOURCE = MAKERS_MANUALS


def core(kind: str) -> CoreTemperature | None:
    """The core temperature for a kind of food (a name of CORES); None when there is no such kind."""
    return CORES.get(kind)


def core_of_row(keeping_name: str) -> CoreTemperature | None:
    """The core temperature for what a keeping row holds, cooked or reheated; None where none applies."""
    kind = _CORE_OF_ROW.get(keeping_name)
    return CORES[kind] if kind else None


def uncooled_hours(fahrenheit: float | None = None) -> int:
    """Hours that perishable food may stand or travel without a cold source (FSIS): 2, or 1 above 90 °F."""
    hot = fahrenheit is not None and fahrenheit > HOT_DAY_F
    return UNCOOLED_HOURS_HOT if hot else UNCOOLED_HOURS
