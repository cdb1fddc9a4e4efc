"""What cooking does to weight: cooked weight over raw weight.

The household's own scale comes before any row here. Grains and pulses follow from the water in USDA SR28's
raw and cooked rows, because their dry matter stays; meat, poultry and fish are typical values from memory, and for
the SR28 rows of the cuts that they were measured on, no others.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

MEAT_SOURCE = "USDA Table of Cooking Yields for Meat and Poultry, Release 2 (memory, to the nearest 5 %)"
FISH_SOURCE = "common practice (memory, to the nearest 5 %)"


@dataclass(frozen=True, slots=True)
class CookingYield:
    """A meat, poultry or fish by method: cooked weight as a share of raw weight; `rows` are SR28 numbers, raw."""

    food: str
    method: str
    share: float
    rows: tuple[str, ...] = ()
    source: str = MEAT_SOURCE
    from_memory: bool = True


@dataclass(frozen=True, slots=True)
class GrainYield:
    """A grain or pulse: SR28 numbers and water, in per cent, of its dry and its cooked row.

    A porridge takes up what is poured over it, and no more; all else may be boiled in water that no one measures.
    """

    food: str
    dry_row: str
    cooked_row: str
    dry_water_percent: float
    cooked_water_percent: float
    porridge: bool = False

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
    CookingYield("ground beef, 80 % lean", "broiled", 0.70, ("23572", "13498", "23577")),
    CookingYield("ground beef, 90 % lean", "broiled", 0.75, ("23562", "23567", "23472", "23557", "13047")),
    CookingYield("beef steak", "broiled", 0.80, ("23201", "13929", "23388", "13970", "23217", "23005", "13863")),
    CookingYield("beef roast", "roasted", 0.75, ("13891", "13868", "13877", "13883", "23102", "13917", "13805")),
    CookingYield("beef stew meat", "braised", 0.65, ("23093",)),
    CookingYield("pork chop", "broiled", 0.75, ("10036", "10164")),
    CookingYield("pork loin", "roasted", 0.80, ("10224", "10218")),
    CookingYield("pork shoulder", "braised", 0.65, ("10080", "10074")),
    CookingYield("bacon", "pan-fried", 0.30, ("10123", "10994")),
    CookingYield("chicken breast, boneless, skinless", "roasted", 0.75, ("05062",)),
    CookingYield("chicken thigh, boneless, skinless", "roasted", 0.70, ("05096", "05091")),
    CookingYield("chicken, whole", "roasted", 0.70, ("05006",)),
    CookingYield("turkey breast", "roasted", 0.75, ("05219", "05732")),
    CookingYield("ground turkey", "pan-fried", 0.75, ("05305", "05665")),
    CookingYield(
        "fish fillet",
        "baked",
        0.80,
        (
            "15236", "15085", "15240", "15015", "15033", "15031", "15064", "15060", "15066", "15261", "15234", "15036",
            "15028", "15091", "15101", "15023", "15054", "15132", "15127", "15110", "15046",
        ),
        FISH_SOURCE,
    ),
    CookingYield("shrimp", "boiled", 0.80, ("15149", "15270"), FISH_SOURCE),
)  # fmt: skip

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
            GrainYield("rolled oats", "08120", "08121", 10.84, 83.61, porridge=True),
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
            GrainYield("rice, white, enriched", "20044", "20045", 11.62, 68.44),
            GrainYield("rice, white, medium-grain", "20050", "20051", 12.89, 68.61),
            GrainYield("rice, white, short-grain", "20052", "20053", 13.29, 68.53),
            GrainYield("rice, glutinous", "20054", "20055", 10.46, 76.63),
            GrainYield("rice, parboiled", "20046", "20047", 9.86, 70.36),
            GrainYield("rice, instant", "20048", "20049", 8.38, 70.34),
            GrainYield("rice, brown, medium-grain", "20040", "20041", 12.37, 72.96),
            GrainYield("khorasan wheat", "20138", "20139", 11.07, 65.18),
            GrainYield("kasha", "20009", "20010", 8.41, 75.63),
            GrainYield("amaranth", "20001", "20002", 11.29, 75.16, porridge=True),
            GrainYield("teff", "20142", "20143", 8.82, 74.93, porridge=True),
            GrainYield("grits", "08090", "08091", 10.92, 82.93, porridge=True),
            GrainYield("pasta, fresh", "20093", "20094", 31.00, 68.56),
            GrainYield("pasta, gluten-free", "20091", "20092", 10.00, 68.31),
            GrainYield("egg noodles", "20109", "20110", 9.01, 67.73),
            GrainYield("rice noodles", "20133", "20134", 11.91, 73.82),
            GrainYield("soba noodles", "20114", "20115", 6.88, 73.01),
            GrainYield("somen noodles", "20116", "20117", 9.21, 67.91),
            GrainYield("lentils, pink or red", "16144", "16070", 7.82, 69.64),
            GrainYield("kidney beans, red", "16032", "16033", 11.75, 66.94),
            GrainYield("great northern beans", "16024", "16025", 10.70, 69.00),
            GrainYield("cranberry beans", "16019", "16020", 12.39, 64.65),
            GrainYield("pink beans", "16040", "16041", 10.06, 61.20),
            GrainYield("flageolet beans", "16022", "16023", 10.77, 66.57),
            GrainYield("black-eyed peas", "16062", "16063", 11.95, 70.04),
            GrainYield("fava beans", "16052", "16053", 10.98, 71.54),
            GrainYield("adzuki beans", "16001", "16002", 13.44, 66.29),
            GrainYield("baby lima beans", "16074", "16075", 12.07, 67.15),
            GrainYield("urad dal", "16083", "16084", 10.80, 72.51),
            GrainYield("pigeon peas", "16101", "16102", 10.59, 68.55),
            GrainYield("soybeans", "16108", "16109", 8.54, 62.55),
        )
    }
)

_BY_FOOD_AND_METHOD = MappingProxyType({(row.food, row.method): row for row in MEAT_AND_FISH})
_BY_RAW_ROW = MappingProxyType({number: row for row in MEAT_AND_FISH for number in row.rows})
_BY_DRY_ROW = MappingProxyType({row.dry_row: row for row in GRAINS_AND_PULSES.values()})


def meat_or_fish(food: str, method: str) -> CookingYield | None:
    """The row for a meat, poultry or fish cooked so; None when there is none."""
    return _BY_FOOD_AND_METHOD.get((food, method))


def grain_or_pulse(food: str) -> GrainYield | None:
    """The row for a grain or pulse by name; None when there is none."""
    return GRAINS_AND_PULSES.get(food)


def of_row(dry_row: str) -> GrainYield | None:
    """The row for a grain or pulse by the SR28 number of its dry food; None when there is none."""
    return _BY_DRY_ROW.get(dry_row)


def of_raw_row(raw_row: str) -> CookingYield | None:
    """The row for a meat, poultry or fish by the SR28 number of its raw food; None when there is none."""
    return _BY_RAW_ROW.get(raw_row)
