"""The run sheet of each prep session: what is done when, by whom and with what, finished as early as can be.

The problem and its rules stand in `run_sheet_problem`; how a sheet is found and its bound proven, in
`run_sheet_search` and `run_sheet_bounds`. Effort is counted in steps and never by the clock, and nothing outside
this package decides: the same content gives the same sheet on every machine.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from fractions import Fraction
from functools import lru_cache
from math import ceil

from binder.model.household import Household
from binder.model.week import Session
from binder.problem import Problem, error, in_order, warning
from binder.reckon import run_sheet_equipment as kit
from binder.reckon.demand import clock
from binder.reckon.facts import Batch, KeptApart, RunSheet, Task
from binder.reckon.run_sheet_apart import Apart, Drawn, Eaters, Pairs, asked, drawn_apart
from binder.reckon.run_sheet_hands import has_raw_meat
from binder.reckon.run_sheet_kitchen import COOLING, Setting, setting
from binder.reckon.run_sheet_order import Care, careful
from binder.reckon.run_sheet_problem import Kitchen, Plan
from binder.reckon.run_sheet_search import search
from binder.reckon.run_sheet_tasks import Lists, Planned, planned, whole_minutes

LONG = timedelta(hours=6)  # a session of more than this is said to be long: common practice
WASHING = "wash"


DrawUp = Callable[[Kitchen, tuple[Care, ...], tuple[Pairs, ...]], Drawn]
NOBODY: Eaters = {}


@lru_cache(maxsize=256)
def drawn_up(kitchen: Kitchen, care: tuple[Care, ...], apart: tuple[Pairs, ...] = ()) -> Drawn:
    """The plan that is printed. Remembered: a week is settled in rounds, and most sessions stay."""
    if apart:
        return drawn_apart(kitchen, care, apart)
    found = search(kitchen)
    return Drawn(replace(found, plan=careful(kitchen, found.plan, care)))


def sheets(
    batches: tuple[Batch, ...], household: Household, draw_up: DrawUp = drawn_up, eaters: Eaters = NOBODY
) -> tuple[tuple[RunSheet, ...], tuple[Problem, ...]]:
    """One sheet for each session that makes something, in order of time, and what stands against them.

    `draw_up` is `drawn_up`, or what remembers its answers; `eaters` says of each batch (by id) who is served from it.
    """
    by_session: dict[Session, list[Batch]] = {}
    for batch in batches:
        if batch.session is not None and batch.facts is not None:
            by_session.setdefault(batch.session, []).append(batch)
    found = [
        _sheet(session, by_session[session], household, draw_up, eaters)
        for session in sorted(by_session, key=lambda s: (s.on, s.at_minutes, s.span.line))
    ]
    return tuple(sheet for sheet, _ in found), in_order([p for _, problems in found for p in problems])


def _sheet(
    session: Session, batches: Sequence[Batch], household: Household, draw_up: DrawUp, eaters: Eaters
) -> tuple[RunSheet, tuple[Problem, ...]]:
    have = kit.equipment(session, batches, household)
    tasks, lists = planned(batches, have)
    tasks = (*tasks, *_of_session(tasks, household.session_minutes))
    at = setting(tasks, lists, have, household)
    apart = asked(tasks, household, eaters)
    drawn = draw_up(at.kitchen, at.care, tuple(one.pairs for one in apart))
    found = drawn.found
    start = clock(household, session.on, session.at_minutes)
    problems = [*kit.missing(batches, have, household)]
    if not found.within_limits:
        problems.extend(_stands_too_long(tasks, lists, at, found.plan))
    sheet = _written(session, start, tasks, at, drawn, apart)
    if sheet.finish - start > LONG or sheet.finish.date() > start.date():
        problems.append(_too_long(session, sheet))
    return sheet, tuple(problems)


def _of_session(tasks: tuple[Planned, ...], stated: Mapping[str, Fraction] | None) -> list[Planned]:
    """Minutes that the household states for each session; what is washed up is washed up last."""
    made: list[Planned] = []
    names = sorted(stated or (), key=lambda name: (WASHING in name.casefold(), name)) if tasks else []
    for name in names:
        assert stated is not None
        after = tuple(range(len(tasks) + len(made))) if WASHING in name.casefold() else ()
        slug = re.sub(r"[^\w]+", "-", name.casefold()).strip("-")
        made.append(Planned(f"session/{slug}", None, name, None, ceil(stated[name] * 60), True, after))
    return made


def _written(
    session: Session, start: datetime, tasks: Sequence[Planned], at: Setting, drawn: Drawn, apart: Sequence[Apart]
) -> RunSheet:
    found = drawn.found
    uses = at.uses(found.plan)
    kept = [apart[n] for n in drawn.kept]
    rows = []
    for n, task in enumerate(tasks):
        begins = found.plan.starts[n] * at.unit
        rows.append(
            Task(
                id=task.id,
                text=task.text,
                recipe=task.batch.recipe if task.batch else "",
                part=task.step.part if task.step else None,
                start=_later(start, begins),
                finish=_later(start, begins + task.seconds),
                attended=task.attended,
                uses=uses[n],
                after=tuple(tasks[i].id for i in task.after),
                load=task.load,
                loads=task.loads,
                assumed_minutes=task.assumed,
                temperature=_temperature(task),
                batch=task.batch.id if task.batch else "",
                raw=task.attended and has_raw_meat(task),
                apart_after=tuple(dict.fromkeys(tasks[i].id for one in kept for i, j in one.pairs if j == n)),
                closed_first=_closed_first(n, kept, found.plan),
                wash=_wash(n, apart, found.plan),
            )
        )
    seconds, bound = found.plan.finish(at.kitchen) * at.unit, found.bound * at.unit
    return RunSheet(
        session=start.isoformat(),
        start=start,
        finish=_later(start, seconds),
        minutes=whole_minutes(seconds),
        at_least_minutes=whole_minutes(bound),
        proven=whole_minutes(bound) == whole_minutes(seconds),
        tasks=tuple(sorted(rows, key=lambda task: (task.start, task.id))),
        cooks=session.cooks,
        tried=session.written is not None,
        apart_minutes=whole_minutes(drawn.longer * at.unit),
        apart=tuple(_kept_apart(one, one in kept, tasks) for one in apart),
        apart_surely=drawn.surely,
        of=session,
    )


def _closed_first(n: int, kept: Sequence[Apart], plan: Plan) -> tuple[tuple[str, str], ...]:
    """The eaters, each with what is avoided, of whose avoidance this is the first task that has it in hand."""
    found = []
    for who in dict.fromkeys((one.eater, one.avoided) for one in kept):
        carriers = [j for one in kept if (one.eater, one.avoided) == who for j in one.carriers]
        if n == min(carriers, key=lambda j: (plan.starts[j], j)):
            found.append(who)
    return tuple(found)


def _wash(n: int, apart: Sequence[Apart], plan: Plan) -> tuple[str, ...]:
    """What is in hand in this task and avoided by an eater whose food is in hand later."""
    return tuple(
        dict.fromkeys(
            one.avoided
            for one in apart
            if n in one.carriers and any(plan.starts[i] >= plan.starts[n] for i in one.foods)
        )
    )


def _kept_apart(one: Apart, kept: bool, tasks: Sequence[Planned]) -> KeptApart:
    food, other = (tasks[rows[0]].batch for rows in (one.foods, one.carriers))
    assert food is not None and other is not None
    return KeptApart(one.eater, one.avoided, food.recipe, other.recipe, kept)


def _later(start: datetime, seconds: int) -> datetime:
    """Elapsed time, also across the night on which clocks are changed."""
    return (start.astimezone(UTC) + timedelta(seconds=seconds)).astimezone(start.tzinfo)


def _temperature(task: Planned) -> str:
    return next((use.temperature_text for use in task.step.uses if use.temperature_text), "") if task.step else ""


def _stands_too_long(tasks: Sequence[Planned], lists: Sequence[Lists], at: Setting, plan: Plan) -> list[Problem]:
    """What cannot be portioned within 2 h of its last hot step, at the step that comes too late."""
    found = []
    for limit in at.limits:
        hot = max(plan.starts[i] + at.kitchen.jobs[i].length for i in limit.hot)
        last = max(limit.last, key=lambda i: plan.starts[i] + at.kitchen.jobs[i].length)
        wait = (plan.starts[last] + at.kitchen.jobs[last].length - hot) * at.unit
        step, batch = tasks[last].step, tasks[last].batch
        if wait > COOLING and step is not None and batch is not None and batch.facts is not None:
            found.append(
                error(
                    step.span,
                    "kept-too-long",
                    f'{batch.facts.title}: "{step.text}" ends {whole_minutes(wait)} min after the last hot step, and '
                    "what was cooked must be portioned and cooling within 2 h of it",
                    "portion it before it waits, or let fewer dishes share the session",
                )
            )
    return found


def _too_long(session: Session, sheet: RunSheet) -> Problem:
    hours, minutes = divmod(sheet.minutes, 60)
    return warning(
        session.span,
        "prep-too-long",
        f"this session takes {hours} h {minutes:02d} min, until {sheet.finish:%H:%M on %A}",
        "make a part of it in a second session",
        f"let more than {session.cooks} cook" if session.cooks > 1 else "let two cook: `cooks: 2`",
    )
