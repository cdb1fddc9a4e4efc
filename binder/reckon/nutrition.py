"""Sums of nutrients: raw, with lower bounds and with the foods that lack a figure.

Energy, protein, fat and carbohydrate are summed with retention 1, by edible mass (EuroFIR D2.2.9, 2008: weight
yield at recipe level, retention at ingredient level). Cooking changes the weight of a portion, not its energy;
what is thrown away is counted as thrown away by the share that is eaten.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType

from binder.model.food import NUTRIENTS, Food
from binder.model.quantity import Interval
from binder.reckon.recipe_facts import NOTHING, Nutrition


def of_food(food: Food, grams: Interval | None, eaten: float) -> Nutrition:
    """The nutrients of what is eaten of one food.

    Without grams a figure is missing, except where 100 g hold none of it: any amount of that is none.
    """
    values: list[Interval | None] = []
    missing: dict[str, tuple[str, ...]] = {}
    for name, per_100_g in zip(NUTRIENTS, food.per_100_g, strict=True):
        if per_100_g == 0:
            values.append(Interval(0.0, 0.0))
        elif per_100_g is None or grams is None:
            values.append(None)
            missing[name] = (food.name,)
        else:
            values.append(grams.times(per_100_g / 100 * eaten))
    return Nutrition(tuple(values), frozenset(missing), MappingProxyType(missing))


def nothing_known(name: str) -> Nutrition:
    """Every figure missing, under one name."""
    missing = dict.fromkeys(NUTRIENTS, (name,))
    return Nutrition((None,) * len(NUTRIENTS), frozenset(NUTRIENTS), MappingProxyType(missing))


def total(parts: Iterable[Nutrition]) -> Nutrition:
    """The sum; a part without a value makes it a lower bound, and none at all with a value makes it None."""
    parts = tuple(parts)
    if not parts:
        return NOTHING
    values = tuple(_sum(part.values[i] for part in parts) for i in range(len(NUTRIENTS)))
    at_least = frozenset().union(*(part.at_least for part in parts))
    return Nutrition(values, at_least, _missing(parts))


def _sum(values: Iterable[Interval | None]) -> Interval | None:
    known = [value for value in values if value is not None]
    if not known:
        return None
    return Interval(sum(v.low for v in known), sum(v.high for v in known))


def _missing(parts: tuple[Nutrition, ...]) -> Mapping[str, tuple[str, ...]]:
    names: dict[str, dict[str, None]] = {}
    for part in parts:
        for nutrient, foods in part.missing.items():
            names.setdefault(nutrient, {}).update(dict.fromkeys(foods))
    return MappingProxyType({nutrient: tuple(names[nutrient]) for nutrient in NUTRIENTS if nutrient in names})


def times(of: Nutrition, low: float, high: float | None = None) -> Nutrition:
    """Scaled by a share, or by a range of shares; what is missing stays missing."""
    top = low if high is None else high
    values = tuple(None if v is None else Interval(v.low * low, v.high * top) for v in of.values)
    return Nutrition(values, of.at_least, of.missing)
