"""What each eater's day adds up to, and how that stands against the eater's aims."""

from __future__ import annotations

from datetime import date

from binder.model.food import NUTRIENTS
from binder.model.household import Aim, Household
from binder.model.quantity import Interval
from binder.reckon import nutrition, tallies
from binder.reckon.facts import AimReached, DayTotal, Serving
from binder.reckon.recipe_facts import Nutrition, Tallies

ABOUT = 0.10  # a bare aim is met within a tenth


def day_totals(servings: tuple[Serving, ...], household: Household) -> tuple[DayTotal, ...]:
    """A total for each day and eater with something planned, days in order, eaters as the household lists them."""
    found: dict[tuple[date, str], list[Serving]] = {}
    for serving in servings:
        if serving.date:
            found.setdefault((serving.date, serving.eater), []).append(serving)
    rank = {eater.name: n for n, eater in enumerate(household.eaters)}
    order = sorted(found, key=lambda key: (key[0], rank[key[1]]))
    return tuple(_total(day, eater, found[day, eater], household) for day, eater in order)


def _total(day: date, eater: str, servings: list[Serving], household: Household) -> DayTotal:
    total = nutrition.total(s.nutrition for s in servings)
    counts = tallies.total(s.tallies for s in servings)
    aims = tuple(AimReached(word_of(aim), aim.text, reached(aim, total, counts)) for aim in household.eater(eater).aims)
    return DayTotal(day, eater, total, counts, aims)


def word_of(aim: Aim) -> str:
    """The aim's name as a household writes it: `saturated fat`, not `saturated_fat_g`."""
    return aim.name.rsplit("_", 1)[0].replace("_", " ") if aim.name in NUTRIENTS else aim.name


def reached(aim: Aim, total: Nutrition, counts: Tallies) -> bool | None:
    """Whether an aim is met; None when what is known does not settle it."""
    if aim.name in NUTRIENTS:
        value, open_ended = total.value(aim.name), aim.name in total.at_least
    else:
        count = counts.counts.get(aim.name, 0.0)
        value, open_ended = Interval(count, count), aim.name in counts.at_least
    if value is None:
        return None
    high = float("inf") if open_ended else value.high
    low_end, high_end = _bounds(aim)
    if low_end <= value.low and high <= high_end:
        return True
    if value.low > high_end or high < low_end:
        return False
    return None


def _bounds(aim: Aim) -> tuple[float, float]:
    if aim.kind == "at least":
        return aim.value, float("inf")
    if aim.kind == "at most":
        return float("-inf"), aim.value
    return aim.value * (1 - ABOUT), aim.value * (1 + ABOUT)
