"""Ways out of a plan's errors, each tried against the plan before it is printed.

A remedy clears an error when the changed plan no longer has it and has no error that the plan did not have before.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta

from binder.model.household import HOME
from binder.model.library import Library
from binder.model.stock import Stock
from binder.model.week import MealLine, Session, Week
from binder.problem import Problem
from binder.reckon.facts import RecipeFacts, Serving
from binder.reckon.settle import Settled, settle
from binder.reckon.words import day_in_words

OTHER_DISHES = 2  # dishes of the library offered in place of one
DISHES_TRIED = 40
EVENING_MINUTES = 18 * 60
CURABLE = frozenset(
    {"kept-too-long", "avoided-food", "banned-at-place", "cannot-reheat", "cannot-finish", "no-prep-before"}
)
_WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


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
        line = problem.span.line
        return not any(e[0] == problem.code and e[1] == line for e in after) and not {
            (code, at) for code, at, _ in after
        } - {(code, at) for code, at, _ in self.before}


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
    return tuple(_with(p, plan, settled) if p.code in CURABLE and not p.remedies else p for p in problems)


def _with(problem: Problem, plan: _Plan, settled: Settled) -> Problem:
    line = next((m for m in plan.week.meals if m.span == problem.span), None)
    if line is None:
        return problem
    servings = [s for s in settled.servings if s.line is line]
    found: list[str] = []
    for ways, most in _kinds(problem, line, servings, plan):
        here = 0
        for words, week in ways:
            if here >= most:
                break
            if plan.clears(week, problem):
                found.append(words)
                here += 1
    return replace(problem, remedies=tuple(found))


def _kinds(
    problem: Problem, line: MealLine, servings: list[Serving], plan: _Plan
) -> Iterator[tuple[Iterator[tuple[str, Week]], int]]:
    """Kinds of changed weeks with the words that say the change, and how many of a kind are worth offering."""
    bad, code = [s for s in servings if _is_meant(s, problem)], problem.code
    away = code in ("banned-at-place", "cannot-reheat", "cannot-finish")
    if code in ("kept-too-long", "no-prep-before"):
        yield _second_sessions(line, bad, plan), 1
    if code == "kept-too-long":
        yield _earlier_days(line, bad, plan), 1
    if away:
        yield _at_home(line, plan), 1
    if code != "no-prep-before":
        yield _other_dishes(line, bad, plan), OTHER_DISHES
    if away or code == "avoided-food":
        yield _without(line, bad, plan), 1


def _is_meant(serving: Serving, problem: Problem) -> bool:
    if problem.code == "no-prep-before":
        return True
    if problem.code == "kept-too-long":
        return bool(serving.date and serving.use_by and serving.use_by < serving.date)
    return f"for {serving.eater} " in problem.message or f"for {serving.eater}:" in problem.message


def _changed(plan: _Plan, old: MealLine, *new: MealLine) -> Week:
    """The week with one line replaced by others at its place."""
    at = plan.week.meals.index(old)
    return replace(plan.week, meals=(*plan.week.meals[:at], *new, *plan.week.meals[at + 1 :]))


def _second_sessions(line: MealLine, bad: list[Serving], plan: _Plan) -> Iterator[tuple[str, Week]]:
    """A session on the day before what comes too late, or on an earlier one that covers more."""
    days = sorted({s.date for s in bad if s.date})
    if not days:
        return
    template = plan.week.sessions[-1] if plan.week.sessions else None
    for back in range(1, 8):
        day = days[0] - timedelta(days=back)
        if any(s.on == day for s in plan.week.sessions):
            continue
        session = Session(day, EVENING_MINUTES, template.cooks if template else 1, line.span)
        sessions = tuple(sorted((*plan.week.sessions, session), key=lambda s: (s.on, s.at_minutes)))
        words = f'a prep session on {day_in_words(day)}: write `- {{on: {day.isoformat()}, at: "18:00"}}` under prep'
        yield words, replace(plan.week, sessions=sessions)


def _earlier_days(line: MealLine, bad: list[Serving], plan: _Plan) -> Iterator[tuple[str, Week]]:
    """Only the days on which it still keeps; or, where there are none, the last day on which it does."""
    late = {s.date for s in bad}
    kept = tuple(day for day in line.dates if day not in late)
    if kept:
        words = f"an earlier day: eat it by {day_in_words(kept[-1])}, `on: {_days(kept)}`"
        yield words, _changed(plan, line, replace(line, dates=kept))
        return
    last = min((s.use_by for s in bad if s.use_by), default=None)
    if last and last >= plan.week.monday:
        words = f"an earlier day: eat it on {day_in_words(last)}, `on: {_days((last,))}`"
        yield words, _changed(plan, line, replace(line, dates=(last,)))


def _days(days: tuple[date, ...]) -> str:
    names = [_WEEKDAYS[day.weekday()] for day in days]
    return names[0] if len(names) == 1 else f"[{', '.join(names)}]"


def _at_home(line: MealLine, plan: _Plan) -> Iterator[tuple[str, Week]]:
    yield "eat it at home: `at: home`", _changed(plan, line, replace(line, place=HOME))


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


def _other_dishes(line: MealLine, bad: list[Serving], plan: _Plan) -> Iterator[tuple[str, Week]]:
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
        week = _changed(plan, line, *_split(line, bad, replace(line, recipe=key)))
        yield f"another dish: `{line.meal}: {key}` ({plan.library.recipes[key].title})", week


def _without(line: MealLine, bad: list[Serving], plan: _Plan) -> Iterator[tuple[str, Week]]:
    eaters = list(dict.fromkeys(s.eater for s in bad))
    if len(eaters) < len(line.eaters):
        rest = [e for e in line.eaters if e not in eaters]
        words = f"leave {' and '.join(eaters)} out of this line: `for: [{', '.join(rest)}]`"
        yield words, _changed(plan, line, *_split(line, bad, None))
