"""Who wants which dish when and where: the week's meal lines, one wanted portion at a time."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from fractions import Fraction
from math import ceil
from zoneinfo import ZoneInfo

from binder.model.household import HOME, Household
from binder.model.week import MealLine, Week


@dataclass(frozen=True, slots=True)
class Wanted:
    """One eater's portion at one meal; date None: no fixed day, it is then the eater's `turn` (from 0) of `turns`."""

    id: str
    line: MealLine
    eater: str
    date: date | None
    portions: Fraction
    place: str
    turn: int = 0
    turns: int = 1

    @property
    def recipe(self) -> str:
        return self.line.recipe


def expand(week: Week, household: Household) -> tuple[Wanted, ...]:
    """Every wanted portion, in the order of the plan's lines, days and eaters."""
    found: list[Wanted] = []
    seen: dict[str, int] = {}
    for line in week.meals:
        for eater, day, portions, turn, turns in _portions(line):
            name = _id(line, eater, day, turn)
            seen[name] = seen.get(name, 0) + 1
            unique = name if seen[name] == 1 else f"{name}-{seen[name]}"
            place = line.place or household.eater(eater).eats_at.get(line.meal) or HOME
            found.append(Wanted(unique, line, eater, day, portions, place, turn, turns))
    return tuple(found)


def portions_of(week: Week, recipe: str, eater: str) -> Fraction:
    """How much of a dish a plan has for one eater."""
    lines = (line for line in week.meals if line.recipe == recipe)
    return sum((portions for line in lines for who, _, portions, *_ in _portions(line) if who == eater), Fraction(0))


def _portions(line: MealLine) -> Iterator[tuple[str, date | None, Fraction, int, int]]:
    if not line.undated:
        for day in line.dates:
            for eater in line.eaters:
                portions = line.by_eater.get(eater, line.each)
                if portions > 0:
                    yield eater, day, portions, 0, 1
        return
    for eater, total in _without_day(line).items():
        for turn in range(ceil(total)):
            yield eater, None, min(Fraction(1), total - turn), turn, ceil(total)


def _without_day(line: MealLine) -> dict[str, Fraction]:
    """Portions of each eater: so many in all are dealt out one at a time, in the order the eaters stand."""
    dealt = {eater: line.by_eater.get(eater, Fraction(0)) for eater in line.eaters}
    open_to = [eater for eater in line.eaters if eater not in line.by_eater]
    if line.total is None:
        return dealt | dict.fromkeys(open_to, Fraction(1))
    rest = line.total
    while rest > 0 and open_to:
        for eater in open_to:
            if rest <= 0:
                break
            dealt[eater] += min(Fraction(1), rest)
            rest -= 1
    return dealt


def _id(line: MealLine, eater: str, day: date | None, turn: int) -> str:
    when = day.isoformat() if day else f"any-day-{turn + 1}"
    words = re.sub(r"[^\w]+", "-", eater.casefold()).strip("-")
    return f"{when}-{line.meal}-{words}-{line.recipe}"


def clock(household: Household, day: date, minutes: int) -> datetime:
    """A household's local time, `minutes` after midnight of `day`."""
    zone = ZoneInfo(household.time_zone)
    base = datetime(day.year, day.month, day.day, tzinfo=zone)
    return base + timedelta(minutes=minutes)  # wall-clock arithmetic: midnight plus minutes


def meal_time(household: Household, day: date, meal: str) -> datetime:
    """When a meal is eaten."""
    return clock(household, day, household.meal_times[meal])
