"""Dishes whose formula is published with their own figures, recomputed: USDA SR28, FOOTNOTE and NUT_DATA.

Deviations are per cent of the published figure. They are not errors of ours: the release's dishes rest on older rows
of their parts. What is held here is that we stay where a sum of the same rows has to be.
"""

from __future__ import annotations

from dataclasses import dataclass

import pytest

from binder.model.food import NUTRIENTS, Basis, Food
from binder.model.quantity import point
from binder.reckon import nutrition
from binder.tables import composition

MACROS = ("energy_kcal", "protein_g", "fat_g", "carbohydrate_g")


@dataclass(frozen=True)
class Dish:
    name: str
    row: str
    parts: tuple[tuple[str, float], ...]  # SR28 number, grams
    deviation: tuple[float | None, ...]  # energy, protein, fat, carbohydrate; None: not to be compared
    finished_g: float | None = None  # where water is taken up


WATER = "14411"
DISHES = (
    Dish(
        "mashed potatoes, whole milk and butter",
        "11934",
        (("11367", 80), ("01077", 14), ("01001", 5), ("02047", 1)),
        (0.2, -0.5, 8.8, -0.8),
    ),
    Dish(
        "mashed potatoes, whole milk",
        "11657",
        (("11367", 84), ("01077", 15), ("02047", 1)),
        (-1.9, -0.1, 0.4, -0.2),
    ),
    Dish(
        "O'Brien potatoes",
        "11671",
        (
            ("11352", 63),
            ("01077", 19),
            ("11282", 8),
            ("11333", 7),
            ("18079", 2),
            ("02047", 0.5),
            ("01001", 0.5),
        ),
        (-5.9, -1.7, -5.8, -6.6),
    ),
    # Its protein and fat rest on an older row of the beans.
    Dish(
        "hummus, home prepared",
        "16137",
        (("16358", 79), ("09152", 10), ("12023", 5), ("04053", 5), ("11215", 1)),
        (5.3, None, None, -0.6),
    ),
    Dish("cream of celery soup with milk", "06210", (("06010", 126), ("01077", 122)), (0.9, -3.1, -1.2, 1.2)),
    Dish("chocolate syrup with milk", "14182", (("14181", 39), ("01077", 244)), (1.2, -2.1, -0.1, 2.6)),
    Dish("instant pudding with milk", "19185", (("19184", 99), ("01077", 488)), (3.1, -3.0, -2.5, 0.1), finished_g=587),
    Dish("avocados, all varieties", "09037", (("09038", 86), ("09039", 14)), (0.0, 0.0, 0.0, 0.0)),
    Dish("rice, cooked", "20445", (("20444", 100),), (0.3, -5.4, None, 1.3), finished_g=280),
    Dish("mushroom soup with beef stock and water", "06444", (("06044", 126), (WATER, 118.5)), (0, 0, 0, 0)),
)


def food(ndb: str) -> Food:
    row = composition.row(ndb)
    assert row is not None, ndb
    return Food(row.name, Basis("table", f"SR28 {ndb}"), per_100_g=row.per_100_g)


def per_100_g(dish: Dish) -> dict[str, float]:
    total = nutrition.total(nutrition.of_food(food(ndb), point(grams), 1.0) for ndb, grams in dish.parts)
    finished = dish.finished_g or sum(grams for _, grams in dish.parts)
    return {
        name: value.low * 100 / finished
        for name, value in zip(NUTRIENTS, total.values, strict=True)
        if value is not None
    }


def deviations(dish: Dish) -> dict[str, float]:
    published = composition.row(dish.row)
    assert published is not None
    ours = per_100_g(dish)
    found = {}
    for name in MACROS:
        theirs = published.per_100_g[NUTRIENTS.index(name)]
        assert theirs
        found[name] = (ours[name] / theirs - 1) * 100
    return found


@pytest.mark.parametrize("dish", DISHES, ids=lambda d: d.name)
def test_a_dish_comes_out_where_its_published_parts_put_it(dish: Dish) -> None:
    for (name, found), expected in zip(deviations(dish).items(), dish.deviation, strict=True):
        if expected is not None:
            assert found == pytest.approx(expected, abs=0.35), name


def test_shares_in_whole_per_cent_enclose_the_published_dish() -> None:
    """Mashed potatoes (11934): 113 kcal, 1.86 g protein, 4.22 g fat, 16.81 g carbohydrate per 100 g."""
    dish = DISHES[0]
    low, high = {}, {}
    for n in range(2 ** len(dish.parts)):
        moved = tuple((ndb, g + (0.5 if n >> i & 1 else -0.5)) for i, (ndb, g) in enumerate(dish.parts))
        figures = per_100_g(Dish("", dish.row, moved, ()))
        for name in MACROS:
            low[name] = min(low.get(name, figures[name]), figures[name])
            high[name] = max(high.get(name, figures[name]), figures[name])
    for name, value in zip(MACROS, (113, 1.86, 4.22, 16.81), strict=True):
        assert low[name] <= value <= high[name], name
