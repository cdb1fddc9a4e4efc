"""What cooking does to weight: cooked weight over raw weight.

The household's own scale comes before any row here. Grains and pulses follow from the water in USDA SR28's
raw and cooked rows, because their dry matter stays; meat, poultry and fish are typical values from memory.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

MEAT_SOURCE = "USDA Table of Cooking Yields for Meat and Poultry, Release 2 (memory, to the nearest 5 %)"
FISH_SOURCE = "common practice (memory, to the nearest 5 %)"


@dataclass(frozen=True, slots=True)
class CookingYield:
    """A meat, poultry or fish by method: cooked weight as a share of raw weight."""

    food: str
    method: str
    share: float
    source: str = MEAT_SOURCE
    from_memory: bool = True


@dataclass(frozen=True, slots=True)
class GrainYield:
    """A grain or pulse: SR28 numbers and water, in per cent, of its dry and its cooked row."""

    food: str
    dry_row: str
    cooked_row: str
    dry_water_percent: float
    cooked_water_percent: float

    @property
    def share(self) -> float:
        """Cooked weight over dry weight."""
        return yield_from_water(self.dry_water_percent, self.cooked_water_percent)

    @property
    def source(self) -> str:
        """Where the water figures stand."""
        return f"USDA SR28 {self.dry_row} and {self.cooked_row}, water"


def yield_from_water(raw_percent: float, cooked_percent: float) -> float:
    """Cooked weight over raw weight from the water in 100 g of each, when the dry matter stays.

    Raises ValueError when a figure is outside 0 to 100 or the cooked food is all water.
    """
    if not (0 <= raw_percent <= 100 and 0 <= cooked_percent < 100):
        raise ValueError(f"water {raw_percent} % and {cooked_percent} %")
    return (100 - raw_percent) / (100 - cooked_percent)


MEAT_AND_FISH: tuple[CookingYield, ...] = (
    CookingYield("ground beef, 80 % lean", "broiled", 0.70),
    CookingYield("ground beef, 90 % lean", "broiled", 0.75),
    CookingYield("beef steak", "broiled", 0.80),
    CookingYield("beef roast", "roasted", 0.75),
    CookingYield("beef stew meat", "braised", 0.65),
    CookingYield("pork chop", "broiled", 0.75),
    CookingYield("pork loin", "roasted", 0.80),
    CookingYield("pork shoulder", "braised", 0.65),
    CookingYield("bacon", "pan-fried", 0.30),
    CookingYield("chicken breast, boneless, skinless", "roasted", 0.75),
    CookingYield("chicken thigh, boneless, skinless", "roasted", 0.70),
    CookingYield("chicken, whole", "roasted", 0.70),
    CookingYield("turkey breast", "roasted", 0.75),
    CookingYield("ground turkey", "pan-fried", 0.75),
    CookingYield("fish fillet", "baked", 0.80, FISH_SOURCE),
    CookingYield("shrimp", "boiled", 0.80, FISH_SOURCE),
)

GRAINS_AND_PULSES: Mapping[str, GrainYield] = MappingProxyType(
    {
        row.food: row
        for row in (
            GrainYield("rice, white", "20444", "20445", 11.62, 68.44),
            GrainYield("rice, brown", "20036", "20037", 11.80, 70.27),
            GrainYield("wild rice", "20088", "20089", 7.76, 73.93),
            GrainYield("pearled barley", "20005", "20006", 10.09, 68.80),
            GrainYield("quinoa", "20035", "20137", 13.28, 71.61),
            GrainYield("bulgur", "20012", "20013", 9.00, 77.76),
            GrainYield("couscous", "20028", "20029", 8.56, 72.57),
            GrainYield("millet", "20031", "20032", 8.67, 71.41),
            GrainYield("spelt", "20140", "20141", 11.02, 66.56),
            GrainYield("rolled oats", "08120", "08121", 10.84, 83.61),
            GrainYield("pasta", "20120", "20121", 9.90, 62.13),
            GrainYield("pasta, whole-wheat", "20124", "20125", 8.21, 61.80),
            GrainYield("lentils", "16069", "16070", 8.26, 69.64),
            GrainYield("split peas", "16085", "16086", 8.62, 69.49),
            GrainYield("chickpeas", "16056", "16057", 7.68, 60.21),
            GrainYield("black beans", "16014", "16015", 11.02, 65.74),
            GrainYield("kidney beans", "16027", "16028", 11.75, 66.94),
            GrainYield("navy beans", "16037", "16038", 12.10, 63.81),
            GrainYield("pinto beans", "16042", "16043", 11.33, 62.95),
            GrainYield("white beans", "16049", "16050", 11.32, 63.08),
            GrainYield("lima beans", "16071", "16072", 10.17, 69.79),
            GrainYield("mung beans", "16080", "16081", 9.05, 72.66),
        )
    }
)

_BY_FOOD_AND_METHOD = MappingProxyType({(row.food, row.method): row for row in MEAT_AND_FISH})


def meat_or_fish(food: str, method: str) -> CookingYield | None:
    """The row for a meat, poultry or fish cooked so; None when there is none."""
    return _BY_FOOD_AND_METHOD.get((food, method))


def grain_or_pulse(food: str) -> GrainYield | None:
    """The row for a grain or pulse by name; None when there is none."""
    return GRAINS_AND_PULSES.get(food)


def of_row(dry_row: str) -> GrainYield | None:
    """The row for a grain or pulse by the SR28 number of its dry food; None when there is none."""
    return next((row for row in GRAINS_AND_PULSES.values() if row.dry_row == dry_row), None)
