"""Ways out of a plan's errors, each tried against the plan before it is printed.

A remedy clears an error when the changed plan no longer has it and has no error that the plan did not have before.
What stands between backticks is what is written into the week's file, as it stands.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from fractions import Fraction
from math import ceil

from binder.model.household import HOME
from binder.model.library import Library
from binder.model.stock import Stock
from binder.model.week import Already, MealLine, Session, Week
from binder.problem import Problem
from binder.reckon import plan_lines, rules
from binder.reckon.facts import Serving
from binder.reckon.recipe_facts import RecipeFacts
from binder.reckon.settle import Settled, settle
from binder.reckon.words import counted, day_in_words, days_in_words, listed

OTHER_DISHES = 2  # dishes of the library offered in place of one
DISHES_TRIED = 40
EVENING_MINUTES = 18 * 60
STOCK_SHORT = "stock-short"
BY_EATER = frozenset({"avoided-food", "banned-at-place", "cannot-reheat", "cannot-finish"})
CURABLE = BY_EATER | {"kept-too-long", "no-prep-before", STOCK_SHORT}
Ways = Iterator[tuple[str, Week]]


@dataclass(frozen=True, slots=True)
class _Plan:
    """What is needed to try a changed plan."""

    week: Week
    library: Library
    facts: Mapping[str, RecipeFacts]
    stock: Stock | None
    today: date
    before: frozenset[tuple[str, int, str]]

    def clears(self, week: Week, problem: Problem) -> bool:
        """Whether the changed week has no longer this error, and no new one."""
        after = _errors(settle(week, self.library, self.facts, self.stock, self.today))
        same = [message for code, at, message in after if (code, at) == (problem.code, problem.span.line)]
        if problem.code in BY_EATER:
            # Two eaters may have the same trouble on one line, each with a way out of their own.
            who = self.eaters_of(problem.message)
            same = [message for message in same if self.eaters_of(message) & who]
        return not same and not {(code, at) for code, at, _ in after} - {(code, at) for code, at, _ in self.before}

    def eaters_of(self, message: str) -> frozenset[str]:
        """Whose trouble it is: `... for Ilka on Monday 8 June contains ...`, `... for Ilka, Bea and Tomas on ...`."""
        head, several, _ = message.partition(f" {rules.UNFINISHED} ")
        if several:
            last = head[head.rfind(" for ") + len(" for ") :]
            names = re.split(r", | and ", last.partition(" on ")[0])
            return frozenset(eater.name for eater in self.library.household.eaters if eater.name in names)
        names = [eater.name for eater in self.library.household.eaters if f" for {eater.name} " in message]
        return frozenset([max(names, key=lambda name: message.rfind(f" for {name} "))] if names else ())


def _errors(settled: Settled) -> frozenset[tuple[str, int, str]]:
    return frozenset((p.code, p.span.line, p.message) for p in settled.problems if p.severity == "error")


def with_remedies(
    problems: tuple[Problem, ...],
    week: Week,
    library: Library,
    facts: Mapping[str, RecipeFacts],
    stock: Stock | None,
    today: date,
) -> tuple[Problem, ...]:
    """The same problems, errors of the plan with the remedies that were tried and clear them, best first."""
    if not any(p.code in CURABLE for p in problems):
        return problems
    settled = settle(week, library, facts, stock, today)
    plan = _Plan(week, library, facts, stock, today, _errors(settled))
    return tuple(_with(p, plan, settled) if p.code in CURABLE else p for p in problems)


def _with(problem: Problem, plan: _Plan, settled: Settled) -> Problem:
    found: list[str] = []
    for ways, most in _kinds(problem, plan, settled):
        here = 0
        for words, week in ways:
            if here >= most:
                break
            if words not in found and plan.clears(week, problem):
                found.append(words)
                here += 1
    return replace(problem, remedies=(*found, *problem.remedies))


def _kinds(problem: Problem, plan: _Plan, settled: Settled) -> Iterator[tuple[Ways, int]]:
    """Kinds of changed weeks with the words that say the change, and how many of a kind are worth offering."""
    if problem.code == STOCK_SHORT:
        yield _less_from_stock(problem, plan), 1
        yield _cook_it_all(problem, plan), 1
        return
    line = next((m for m in plan.week.meals if m.span == problem.span), None)
    if line is None:
        return
    servings = [s for s in settled.servings if s.line is line]
    bad, code = [s for s in servings if _is_meant(s, problem, plan)], problem.code
    if code in ("kept-too-long", "no-prep-before"):
        yield _not_named(line, plan), 1
        yield _second_sessions(line, bad, plan), 1
    if code == "kept-too-long":
        yield _earlier_days(line, bad, plan), 1
    if code == "no-prep-before":
        yield _later_days(line, plan), 1
    if code in BY_EATER and code != "avoided-food":
        yield _at_home(line, bad, plan), 1
    yield _other_dishes(line, bad, plan), OTHER_DISHES
    yield _without(line, bad, plan), 1


def _is_meant(serving: Serving, problem: Problem, plan: _Plan) -> bool:
    if problem.code == "no-prep-before":
        return True
    if problem.code == "kept-too-long":
        return any(_late(serving))
    if problem.code == "cannot-finish" and f" {rules.UNFINISHED} {serving.place}:" not in problem.message:
        return False
    return serving.eater in plan.eaters_of(problem.message)


def _late(serving: Serving) -> Iterator[bool]:
    """Whether its own date, or that of a part packed apart, is over when it is eaten."""
    dates = (serving.use_by, *(part.use_by for part in serving.parts if part.apart))
    yield from (serving.date > day for day in dates if serving.date and day)


def _changed(plan: _Plan, old: MealLine, *new: MealLine) -> Week:
    """The week with one line replaced by others at its place."""
    at = plan.week.meals.index(old)
    return replace(plan.week, meals=(*plan.week.meals[:at], *new, *plan.week.meals[at + 1 :]))


def _lines(lines: tuple[MealLine, ...]) -> str:
    """Whole lines to write in place of this one."""
    return " and ".join(f"`{plan_lines.meal(line)}`" for line in lines)


# ---- sessions and days ----


def _second_sessions(line: MealLine, bad: list[Serving], plan: _Plan) -> Ways:
    """The session that `made` names, or one on the day before what comes too late, or earlier, where that covers it."""
    days = sorted({s.date for s in bad if s.date}) or [plan.week.monday]
    template = plan.week.sessions[-1] if plan.week.sessions else None
    for day in [*([line.made] if line.made else []), *(days[0] - timedelta(days=back) for back in range(1, 8))]:
        if any(s.on == day for s in plan.week.sessions):
            continue
        session = Session(day, EVENING_MINUTES, template.cooks if template else 1, line.span)
        sessions = tuple(sorted((*plan.week.sessions, session), key=lambda s: (s.on, s.at_minutes)))
        text = plan_lines.session(replace(session, cooks=1))
        write = f"write `- {text}` under prep" if template else f"write `prep: [{text}]`"
        yield f"a prep session on {day_in_words(day)}: {write}", replace(plan.week, sessions=sessions)


def _not_named(line: MealLine, plan: _Plan) -> Ways:
    """Without `made`: at whatever session suits it."""
    if line.made:
        free = replace(line, made=None)
        yield f"at another session: in place of this line write {_lines((free,))}", _changed(plan, line, free)


def _earlier_days(line: MealLine, bad: list[Serving], plan: _Plan) -> Ways:
    """Only the days on which it still keeps; or, where there are none, the last day on which it does."""
    late = {s.date for s in bad}
    kept = tuple(day for day in line.dates if day not in late)
    if kept:
        words = f"an earlier day: eat it by {day_in_words(kept[-1])}, `on: {plan_lines.days(kept)}`"
        yield words, _changed(plan, line, replace(line, dates=kept))
        return
    last = min((s.use_by for s in bad if s.use_by), default=None)
    if last and last >= plan.week.monday:
        words = f"an earlier day: eat it on {day_in_words(last)}, `on: {plan_lines.days((last,))}`"
        yield words, _changed(plan, line, replace(line, dates=(last,)))


def _later_days(line: MealLine, plan: _Plan) -> Ways:
    """Without the days before the first session that is over; where none is left, the first day on which it is."""
    for n in range(1, len(line.dates)):
        rest = line.dates[n:]
        words = f"a later day: eat it from {day_in_words(rest[0])} on, `on: {plan_lines.days(rest)}`"
        yield words, _changed(plan, line, replace(line, dates=rest))
    sunday = plan.week.monday + timedelta(days=6)
    for back in range(len(line.dates) and (sunday - line.dates[-1]).days, 0, -1):
        day = sunday - timedelta(days=back - 1)
        words = f"a later day: eat it on {day_in_words(day)}, `on: {plan_lines.days((day,))}`"
        yield words, _changed(plan, line, replace(line, dates=(day,)))


# ---- places, dishes, eaters ----


def _at_home(line: MealLine, bad: list[Serving], plan: _Plan) -> Ways:
    """All of the line at home; or, where that breaks another rule, only those in trouble."""
    yield "eat it at home: `at: home`", _changed(plan, line, replace(line, place=HOME))
    lines = _split(line, bad, replace(line, place=HOME))
    if len(lines) > 1:
        words = f"eat it at home: in place of this line write {_lines(lines)}"
        yield words, _changed(plan, line, *lines)


def _split(line: MealLine, bad: list[Serving], other: MealLine | None) -> tuple[MealLine, ...]:
    """The line without the eaters (or days) in trouble, and another line for those."""
    eaters = tuple(dict.fromkeys(s.eater for s in bad))
    days = tuple(sorted({s.date for s in bad if s.date}))
    rest: list[MealLine] = []
    if others := tuple(e for e in line.eaters if e not in eaters):
        rest.append(replace(line, eaters=others))
    if left := tuple(d for d in line.dates if d not in days):
        rest.append(replace(line, eaters=eaters, dates=left))
    extra = [replace(other, eaters=eaters, dates=days or line.dates)] if other else []
    return (*rest, *extra)


def _other_dishes(line: MealLine, bad: list[Serving], plan: _Plan) -> Ways:
    """Dishes of the library that are served at this meal, those not yet in the week first; no bases of other dishes."""
    used = {m.recipe for m in plan.week.meals}
    parts = {i.recipe for r in plan.library.recipes.values() for i in r.ingredients if i.recipe}
    fitting = [
        key
        for key, recipe in plan.library.recipes.items()
        if line.meal in recipe.meals and key != line.recipe and key not in parts
    ]
    fitting.sort(key=lambda key: (key in used, key))
    for key in fitting[:DISHES_TRIED]:
        title = plan.library.recipes[key].title
        lines = _split(line, bad, replace(line, recipe=key))
        if len(lines) == 1:
            words = f"another dish: `{line.meal}: {plan_lines.name(key)}` ({title})"
        else:
            words = f"another dish ({title}): in place of this line write {_lines(lines)}"
        yield words, _changed(plan, line, *lines)


def _without(line: MealLine, bad: list[Serving], plan: _Plan) -> Ways:
    """Without those in trouble: on all days, or, where they are well on others, on the days in trouble; where nothing
    is left, without the line."""
    eaters = list(dict.fromkeys(s.eater for s in bad))
    lines = _split(line, bad, None)
    if not lines:
        yield "leave the dish out: take this line out", _changed(plan, line)
    elif len(eaters) < len(line.eaters):
        words = f"leave {listed(eaters)} out of this line: in place of it write {_lines(lines)}"
        yield words, _changed(plan, line, *lines)
    else:
        days = tuple(sorted({s.date for s in bad if s.date}))
        words = f"leave out {days_in_words(days)}: in place of this line write {_lines(lines)}"
        yield words, _changed(plan, line, *lines)


# ---- stock ----


def _at(problem: Problem, plan: _Plan) -> Already | None:
    return next((one for one in plan.week.already if one.span == problem.span), None)


def _with_already(plan: _Plan, old: Already, *new: Already) -> Week:
    at = plan.week.already.index(old)
    return replace(plan.week, already=(*plan.week.already[:at], *new, *plan.week.already[at + 1 :]))


def _less_from_stock(problem: Problem, plan: _Plan) -> Ways:
    """As many portions as there are and keep; the rest is cooked."""
    already = _at(problem, plan)
    for fewer in range(ceil(already.portions) - 1, 0, -1) if already else ():
        assert already is not None
        words = f"cook the rest: write `- {counted(fewer, 'portion')} {already.recipe}`"
        yield words, _with_already(plan, already, replace(already, portions=Fraction(fewer)))


def _cook_it_all(problem: Problem, plan: _Plan) -> Ways:
    already = _at(problem, plan)
    if already:
        yield "cook all of it: take this line out", _with_already(plan, already)
