"""What closed weeks say: about the next plan, and about a year. Only what somebody recorded counts."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from fractions import Fraction
from types import MappingProxyType

from binder.model.library import Library
from binder.model.week import Closed, ClosedDish, ClosedSession, Week
from binder.reckon.demand import portions_of
from binder.reckon.facts import RunSheet, WeekFacts
from binder.reckon.past_facts import DishPast, LastTime, Past, Thrown, WeekPast, Weighed, Year

NONE = Fraction(0)
# Sessions further back were another kitchen (common practice).
LAST_SESSIONS = 6
# An expected end is no more exact than this.
ROUND_MINUTES = 5
# A session this many times as long as another, or as short, is said to be of another length.
OTHER_LENGTH = 2


def with_past(facts: WeekFacts, library: Library) -> WeekFacts:
    """An open week with what the closed weeks before it say of its dishes and of how long its sessions take."""
    before = [week for week in _closed(library) if week.key < facts.week]
    if not before:
        return facts
    timed = [one for week in before for one in _came_to(week).sessions if one.planned and one.minutes]
    sheets = tuple(_expected(sheet, timed) for sheet in facts.run_sheets)
    return replace(facts, run_sheets=sheets, past=_past(before))


def _closed(library: Library) -> list[Week]:
    """Closed weeks, first to last."""
    return sorted((w for w in library.weeks.values() if w.is_archive), key=lambda week: week.monday)


def _came_to(week: Week) -> Closed:
    assert week.came_to is not None, "closed"
    return week.came_to


def _expected(sheet: RunSheet, timed: list[ClosedSession]) -> RunSheet:
    """How long a session will take when it goes over its plan by the minutes that the last ones did on average: those
    of the same day of the week, or all where there is none. The plan's minutes stay what they are.

    Minutes and no ratio: a short session that took twice its time says little of one four times as long.
    """
    alike = [one for one in timed if one.on.weekday() == sheet.start.weekday()]
    last = (alike or timed)[-LAST_SESSIONS:]
    planned, took = sum(one.planned or 0 for one in last), sum(one.minutes or 0 for one in last)
    if not planned:
        return sheet
    longer = round(Fraction(took - planned, len(last)))
    minutes = max(ROUND_MINUTES, round(Fraction(sheet.minutes + longer, ROUND_MINUTES)) * ROUND_MINUTES)
    usual = round(Fraction(planned, len(last)))
    return replace(
        sheet,
        expected_minutes=minutes,
        expected_from=len(last),
        expected_alike=bool(alike),
        expected_longer=longer,
        expected_planned=usual if max(usual, sheet.minutes) > OTHER_LENGTH * min(usual, sheet.minutes) else None,
    )


def _past(before: list[Week]) -> Past:
    last: dict[str, LastTime] = {}
    weighed: dict[str, Weighed] = {}
    weighings: dict[str, list[Weighed]] = {}
    for week in before:
        of_week: dict[str, LastTime] = {}
        for dish in _came_to(week).dishes:
            if dish.source != "stock" and dish.made:
                of_week[dish.recipe] = _together(of_week.get(dish.recipe), dish, week)
            if dish.weighs_g and dish.made:
                weighed[dish.recipe] = Weighed(week.key, dish.weighs_g, dish.made)
                weighings.setdefault(dish.recipe, []).append(weighed[dish.recipe])
        last |= of_week
    each = {key: _each_grams(of[-LAST_SESSIONS:]) for key, of in weighings.items()}
    return Past(MappingProxyType(last), MappingProxyType(weighed), MappingProxyType(each))


def _each_grams(of: list[Weighed]) -> Fraction:
    """Grams of a portion, cooked, over all that was weighed."""
    return sum((one.grams for one in of), NONE) / sum((one.portions for one in of), NONE)


def _together(before: LastTime | None, dish: ClosedDish, week: Week) -> LastTime:
    """The rows of one dish in one week as one."""
    old = before or LastTime(week.key, NONE, NONE, NONE, NONE, NONE)
    by = tuple((who, left, portions_of(week, dish.recipe, who)) for who, left in dish.left_by or ())
    return LastTime(
        week.key,
        old.made + (dish.made or NONE),
        old.eaten + (dish.eaten or NONE),
        old.left + (dish.left or NONE),
        old.frozen + (dish.frozen or NONE),
        old.thrown + (dish.thrown or NONE),
        old.why or dish.why,
        old.left_by or by,
    )


# ---- a year ----


def years(library: Library, weeks: Mapping[str, WeekFacts]) -> tuple[Year, ...]:
    """The years that have a closed week, the latest first; `weeks` for what each had on its use-first list."""
    found: dict[int, list[Week]] = {}
    for week in _closed(library):
        found.setdefault(_year(week), []).append(week)
    planned = [_year(week) for week in library.weeks.values()]
    return tuple(
        Year(
            year=year,
            planned_weeks=planned.count(year),
            weeks=tuple(_week(week) for week in of),
            dishes=_dishes(of),
            thrown=tuple(one for week in of for one in _thrown(week)),
            use_first=_use_first(weeks[week.key] for week in of if week.key in weeks),
        )
        for year, of in sorted(found.items(), reverse=True)
    )


def _year(week: Week) -> int:
    """The year of the ISO 8601 week."""
    return week.monday.isocalendar().year


def _eaten_as_such(week: Week) -> list[ClosedDish]:
    """The dishes of a week that somebody was to eat; what only goes into other dishes is counted with those."""
    served = {line.recipe for line in week.meals}
    return [dish for dish in _came_to(week).dishes if dish.recipe in served or not served]


def _week(week: Week) -> WeekPast:
    closed, dishes, thrown = _came_to(week), _eaten_as_such(week), _thrown(week)
    planned = sum((dish.planned or NONE for dish in dishes), NONE)
    costs = [one.cost for one in thrown if one.cost is not None]
    timed = [one for one in closed.sessions if one.minutes is not None and one.planned is not None]
    return WeekPast(
        week=week.key,
        made=sum((dish.made or NONE for dish in dishes), NONE),
        eaten=sum((dish.eaten or NONE for dish in dishes), NONE),
        thrown=sum((one.portions for one in thrown), NONE),
        thrown_cost=sum(costs, NONE) if costs or not thrown else None,
        a_portion=closed.consumed / planned if closed.consumed is not None and planned else None,
        currency=closed.currency,
        at_least=closed.cost_at_least or len(costs) < len(thrown),
        minutes_planned=sum(one.planned or 0 for one in timed) if timed else None,
        minutes=sum(one.minutes or 0 for one in timed) if timed else None,
    )


def _thrown(week: Week) -> tuple[Thrown, ...]:
    closed = _came_to(week)
    cost = {row.recipe: row.cost for row in closed.recipes if not row.eaters and row.cost is not None}
    found = []
    for dish in _eaten_as_such(week):
        if dish.thrown:
            each = cost.get(dish.recipe)
            price = each * dish.thrown if each is not None else None
            found.append(Thrown(week.key, dish.recipe, dish.thrown, dish.why, price))
    return tuple(found)


def _dishes(of: list[Week]) -> tuple[DishPast, ...]:
    """Those made in most weeks first, then those of which most was made."""
    found: dict[str, DishPast] = {}
    for week in of:
        for dish in _eaten_as_such(week):
            # Portions taken from stock were counted when they were made.
            if dish.source == "stock":
                continue
            old = found.get(dish.recipe) or DishPast(dish.recipe, (), NONE, NONE, NONE, NONE, NONE)
            found[dish.recipe] = DishPast(
                dish.recipe,
                old.weeks if week.key in old.weeks else (*old.weeks, week.key),
                old.made + (dish.made or NONE),
                old.eaten + (dish.eaten or NONE),
                old.left + (dish.left or NONE),
                old.frozen + (dish.frozen or NONE),
                old.thrown + (dish.thrown or NONE),
            )
    return tuple(sorted(found.values(), key=lambda dish: (-len(dish.weeks), -dish.made, dish.recipe)))


def _use_first(weeks: Iterable[WeekFacts]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """What stood on the use-first lists of more than one week: a food's name or a recipe's key, most often first."""
    found: dict[str, list[str]] = {}
    for facts in weeks:
        for name in dict.fromkeys(row.recipe or row.food or "" for row in facts.use_first):
            found.setdefault(name, []).append(facts.week)
    again = [(name, tuple(keys)) for name, keys in found.items() if name and len(keys) > 1]
    return tuple(sorted(again, key=lambda one: (-len(one[1]), one[0])))
