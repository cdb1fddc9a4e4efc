"""Which session makes which portion, and how it is kept from there to the meal.

A meal line is made at the latest session that is over before its first meal, or at the one it names. What does not
keep is frozen when it may be; else made at a later session before its meal; else it is a problem.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from fractions import Fraction
from math import ceil

from binder.model.food import Keeping
from binder.model.household import HOME, Household
from binder.model.week import MealLine, Session, Week
from binder.problem import Problem, error
from binder.reckon import keeping, reheating
from binder.reckon.demand import Wanted, clock, meal_time
from binder.reckon.keeping import Storage
from binder.reckon.recipe_facts import RecipeFacts
from binder.reckon.words import days_in_words, listed

Ends = Mapping[Session, datetime]


@dataclass(frozen=True, slots=True)
class Placed:
    """A wanted portion with the session that makes it (None: nothing made ahead, or none could) and its storage."""

    wanted: Wanted
    session: Session | None
    storage: Storage
    too_late: bool = False


def start_of(session: Session, household: Household) -> datetime:
    """When a session starts, local time."""
    return clock(household, session.on, session.at_minutes)


def assign(
    wanted: tuple[Wanted, ...],
    week: Week,
    household: Household,
    facts: Mapping[str, RecipeFacts],
    ends: Ends,
) -> tuple[tuple[Placed, ...], tuple[Problem, ...]]:
    """Place every wanted portion. `ends` says when a session's run sheet finishes, where one is known already."""
    placed: list[Placed] = []
    problems: list[Problem] = []
    for line, of_line in _by_line(wanted):
        recipe = facts[line.recipe].recipe
        if keeping.nothing_kept(recipe):
            placed.extend(Placed(w, None, Storage("at service", w.date, None, "")) for w in of_line)
            continue
        session = _session_of(line, of_line, week, household, ends)
        if session is None:
            problems.append(_no_prep_before(line, of_line, week, facts))
            placed.extend(Placed(w, None, Storage("fridge", None, None, ""), True) for w in of_line)
            continue
        group = [_place(w, session, of_line, week, household, facts, ends) for w in of_line]
        group = [_in_freezer_there(p, wanted, household, facts) if p.too_late else p for p in group]
        placed.extend(group)
        late = [p for p in group if p.too_late]
        if late:
            problems.append(_kept_too_long(line, late, household, facts))
    order = {w.id: n for n, w in enumerate(wanted)}
    return tuple(sorted(placed, key=lambda p: order[p.wanted.id])), tuple(problems)


def _by_line(wanted: tuple[Wanted, ...]) -> list[tuple[MealLine, list[Wanted]]]:
    lines: dict[int, tuple[MealLine, list[Wanted]]] = {}
    for item in wanted:
        lines.setdefault(id(item.line), (item.line, []))[1].append(item)
    return list(lines.values())


def _is_over(session: Session, before: datetime, household: Household, ends: Ends) -> bool:
    return start_of(session, household) < before and ends.get(session, before) <= before


def _session_of(line: MealLine, of_line: list[Wanted], week: Week, household: Household, ends: Ends) -> Session | None:
    named = [s for s in week.sessions if s.on == line.made] if line.made else list(week.sessions)
    days = [w.date for w in of_line if w.date]
    if not days:
        return named[0] if named else None
    first = meal_time(household, min(days), line.meal)
    over = [s for s in named if _is_over(s, first, household, ends)]
    return over[-1] if over else None


def _caution(item: Wanted, together: list[Wanted], household: Household) -> str:
    """The eater's caution; a kit is one pack for all who eat it, so the strictest counts."""
    cautions = {household.eater(w.eater).caution for w in together} | {household.eater(item.eater).caution}
    return "strict" if "strict" in cautions else "usual"


def _kit_mates(item: Wanted, of_line: list[Wanted]) -> list[Wanted]:
    return [w for w in of_line if w.date == item.date and w.place == item.place]


def _piece_grams(item: Wanted, together: list[Wanted], facts: RecipeFacts) -> float | None:
    """What thaws as one piece: the portion, or what a kit stores apart for all its eaters."""
    if facts.form != "kit":
        return None if facts.per_portion.grams is None else facts.per_portion.grams * float(item.portions)
    apart = [line for line in facts.ingredients if line.part in facts.recipe.apart_names]
    portions = sum((w.portions for w in together), Fraction(0))
    if not apart or any(line.grams is None for line in apart):
        return None
    return sum(line.grams.high for line in apart if line.grams) * float(portions) / facts.portions


def _place(
    item: Wanted,
    session: Session,
    of_line: list[Wanted],
    week: Week,
    household: Household,
    facts: Mapping[str, RecipeFacts],
    ends: Ends,
) -> Placed:
    of = facts[item.recipe]
    rule = of.recipe.keeping
    together = _kit_mates(item, of_line) if of.form == "kit" else [item]
    caution = _caution(item, together, household)
    day = item.date or _likely_day(item, session, week)
    unthawed = None
    if may_freeze(household) and reheating.used_frozen(of.recipe, household.place(item.place)):
        unthawed = keeping.straight_from_freezer(rule, caution)
    if unthawed and of.recipe.from_frozen:
        return Placed(item, session, unthawed)
    fresh = keeping.unfrozen(rule, caution, session.on, day)
    if fresh:
        return Placed(item, session, fresh)
    if unthawed:
        return Placed(item, session, unthawed)
    if may_freeze(household):
        ice = keeping.frozen(rule, caution, session.on, item.date, _piece_grams(item, together, of))
        if ice:
            return Placed(item, session, ice)
    if item.date is None:
        kept = keeping.unfrozen(rule, caution, session.on, None)
        return Placed(item, session, kept or Storage("fridge", None, None, ""))
    later = _later_session(item, session, week, household, ends, rule, caution)
    if later:
        return later
    return Placed(item, session, keeping.too_late(rule, caution, session.on), True)


def _in_freezer_there(
    late: Placed, wanted: tuple[Wanted, ...], household: Household, facts: Mapping[str, RecipeFacts]
) -> Placed:
    """What comes too late and home cannot freeze: frozen where it is eaten, if the eater is there in time to do it."""
    item, place, session = late.wanted, household.place(late.wanted.place), late.session
    of = facts[item.recipe]
    if session is None or item.date is None or may_freeze(household) or place.name == HOME or of.form == "kit":
        return late
    if place.tool("freezer") is None:
        return late
    visits = sorted({w.date for w in wanted if w.date and w.eater == item.eater and w.place == item.place})
    piece = _piece_grams(item, [item], of)
    found = keeping.frozen_there(of.recipe.keeping, late.storage.caution, session.on, item.date, piece, visits)
    if found is None:
        return late
    return Placed(item, session, replace(found[0], stored_at=place.name, taken_on=found[1]))


def _later_session(
    item: Wanted,
    session: Session,
    week: Week,
    household: Household,
    ends: Ends,
    rule: Keeping,
    caution: str,
) -> Placed | None:
    """The latest later session before the meal from which it keeps; a line that names its session stays there."""
    if item.line.made or item.date is None:
        return None
    meal = meal_time(household, item.date, item.line.meal)
    for later in reversed(week.sessions[week.sessions.index(session) + 1 :]):
        kept = keeping.unfrozen(rule, caution, later.on, item.date)
        if kept and _is_over(later, meal, household, ends):
            return Placed(item, later, kept)
    return None


def may_freeze(household: Household) -> bool:
    """Whether home has a freezer; a home without a list of equipment is taken to have one."""
    tools = [tool for tool in household.place(HOME).tools if tool.kind != "fridge"]
    return not tools or any(tool.kind == "freezer" for tool in tools)


def _likely_day(item: Wanted, session: Session, week: Week) -> date:
    """Where no day is fixed, portions are taken to be eaten evenly over the week, one a day or what that needs."""
    a_day = ceil(item.turns / 7)
    first = max(week.monday, session.on + timedelta(days=1))
    return first + timedelta(days=item.turn // a_day)


def _no_prep_before(line: MealLine, of_line: list[Wanted], week: Week, facts: Mapping[str, RecipeFacts]) -> Problem:
    title = facts[line.recipe].title
    if line.made and not any(s.on == line.made for s in week.sessions):
        message = f"{title}: no prep session on {days_in_words([line.made])}, which `made` names"
    elif not week.sessions:
        message = f"{title}: the week has no prep session"
    else:
        days = sorted(w.date for w in of_line if w.date)
        first = f" on {days_in_words(days[:1])}" if days else ""
        message = f"{title}: no prep session is over before its first {line.meal}{first}"
    return error(line.span, "no-prep-before", message)


def _kept_too_long(
    line: MealLine, late: list[Placed], household: Household, facts: Mapping[str, RecipeFacts]
) -> Problem:
    of = facts[line.recipe]
    days = sorted({p.wanted.date for p in late if p.wanted.date})
    use_by = min(p.storage.use_by for p in late if p.storage.use_by)
    made = min(p.session.on for p in late if p.session)
    eaters = ", ".join(dict.fromkeys(p.wanted.eater for p in late))
    why = "it does not freeze" if of.recipe.keeping.freezes is False else "freezing does not help"
    if of.recipe.keeping.freezes is not False and not may_freeze(household):
        why = "home has no freezer"
    parts = dict.fromkeys(p.storage.part for p in late if p.storage.part)
    which = f" ({listed(parts)})" if parts else ""
    message = (
        f"{of.title}{which} made {days_in_words([made])} keeps until {days_in_words([use_by])}: too late for "
        f"{days_in_words(days)} ({eaters}), and {why}"
    )
    return error(line.span, "kept-too-long", message)
