"""Kits at their meal: what is left for service, timed back from the meal's hour with the equipment of the place.

The problem is that of a run sheet (`run_sheet_problem`), with one cook, for all kits that are cooked for one meal at
one place: the steps under `## At service`, lists side by side as on prep day. The shortest plan is found as for a
session; then every step is put off as far as it can be without the meal being later, so that what is hot comes hot to
the table. An oven heats for 10 min before its first step, and before a step at another temperature.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from fractions import Fraction
from functools import lru_cache

from binder.model.household import Household
from binder.model.week import Session
from binder.reckon.demand import clock
from binder.reckon.facts import Batch, Heating, ServiceSheet, ServiceTask, Serving
from binder.reckon.recipe_facts import RecipeFacts
from binder.reckon.run_sheet_equipment import OVEN, equipment
from binder.reckon.run_sheet_kitchen import Setting, setting
from binder.reckon.run_sheet_place import stands
from binder.reckon.run_sheet_problem import COLD, Kitchen, Plan, followers
from binder.reckon.run_sheet_search import Found, search
from binder.reckon.run_sheet_tasks import SECONDS, Planned, planned, whole_minutes

Meal = tuple[date | None, str, str]  # the day, the meal, the place


def sheets(
    servings: Sequence[Serving], recipes: Mapping[str, RecipeFacts], household: Household
) -> tuple[ServiceSheet, ...]:
    """One sheet for each meal at a place that has kits to cook, in the order of the servings."""
    meals: dict[Meal, dict[str, list[Serving]]] = {}
    for serving in servings:
        facts = recipes.get(serving.recipe)
        if facts is not None and facts.form == "kit" and facts.recipe.service:
            of_meal = meals.setdefault((serving.date, serving.meal, serving.place), {})
            of_meal.setdefault(serving.recipe, []).append(serving)
    return tuple(_sheet(of_meal, recipes, household) for of_meal in meals.values())


def _sheet(
    kits: Mapping[str, Sequence[Serving]], recipes: Mapping[str, RecipeFacts], household: Household
) -> ServiceSheet:
    first = next(iter(kits.values()))[0]
    meal_at = household.meal_times[first.meal]
    here = Session(first.date or date.min, meal_at, 1, first.line.span, first.place)
    batches = [_batch(recipes[key], of, here) for key, of in kits.items()]
    have = equipment(here, batches, household)
    tasks, lists = planned(batches, have)
    at = setting(tasks, lists, have, household)
    found = _drawn(replace(at.kitchen, limits=()))
    end = found.plan.finish(at.kitchen)
    # Seconds after midnight of what is at 0 in the plan.
    zero = meal_at * SECONDS - end * at.unit
    when = _Clock(household, first.date)
    rows = [_task(n, task, zero, tasks, found.plan, at, when) for n, task in enumerate(tasks)]
    heating = [_heating(tasks[n], row, zero, at, when) for n, row in _heated(at.kitchen, found.plan)]
    begins = min([*(one.at for one in rows), *(one.at for one in heating)])
    return ServiceSheet(
        date=first.date,
        meal=first.meal,
        place=first.place,
        recipes=tuple(kits),
        start=when.at(begins),
        finish=when.at(meal_at * SECONDS),
        minutes=whole_minutes(end * at.unit),
        at_least_minutes=whole_minutes(found.bound * at.unit),
        proven=found.bound == end,
        tasks=tuple(sorted(rows, key=lambda task: (task.at, task.id))),
        heating=tuple(sorted(heating, key=lambda one: (one.at, one.oven))),
        begins=begins,
    )


@dataclass(frozen=True, slots=True)
class _Clock:
    """Seconds after midnight of a day as a time; None where the day is open."""

    household: Household
    on: date | None

    def at(self, seconds: int) -> datetime | None:
        return clock(self.household, self.on, 0) + timedelta(seconds=seconds) if self.on else None


def _batch(facts: RecipeFacts, servings: Sequence[Serving], here: Session) -> Batch:
    """A kit as a batch whose steps are those left for service."""
    portions = sum((serving.portions for serving in servings), Fraction(0))
    recipe = replace(facts.recipe, prep=facts.recipe.service)
    return Batch(
        recipe=facts.key,
        made_on=here.on,
        portions_needed=portions,
        portions_made=portions,
        factor=portions / recipe.portions,
        surplus=Fraction(0),
        loads=1,
        id=facts.key,
        session=here,
        facts=replace(facts, recipe=recipe),
    )


@lru_cache(maxsize=512)
def _drawn(kitchen: Kitchen) -> Found:
    found = search(kitchen)
    return replace(found, plan=late_as_can_be(kitchen, found.plan))


def late_as_can_be(kitchen: Kitchen, plan: Plan) -> Plan:
    """The same plan with each job, the last first, put off as far as what follows it and the equipment allow."""
    end = plan.finish(kitchen)
    follow = followers(kitchen)
    moved = True
    while moved:
        moved = False
        for j in sorted(range(len(plan.starts)), key=lambda j: (-plan.starts[j], -j)):
            for start in _later_starts(kitchen, plan, j, follow[j], end):
                starts = (*plan.starts[:j], start, *plan.starts[j + 1 :])
                if stands(kitchen, replace(plan, starts=starts)):
                    plan, moved = replace(plan, starts=starts), True
                    break
    return plan


def _later_starts(kitchen: Kitchen, plan: Plan, j: int, follow: Sequence[int], end: int) -> list[int]:
    """The starts that could be the latest for a job, the latest first: it ends as something else begins."""
    job = kitchen.jobs[j]
    last = min((plan.starts[i] for i in follow), default=end) - job.length
    changes = (0, kitchen.heating) if job.racks else (0,)
    before = {start - gap - job.length for start in plan.starts for gap in changes}
    return sorted((start for start in {last, *before} if plan.starts[j] < start <= last), reverse=True)


def _heated(kitchen: Kitchen, plan: Plan) -> Iterator[tuple[int, int]]:
    """The jobs for which an oven is heated, or changed to another temperature, and when it begins to be."""
    for oven in range(len(kitchen.ovens)):
        hot = COLD
        for j in sorted((j for j, of in enumerate(plan.ovens) if of == oven), key=lambda j: plan.starts[j]):
            if kitchen.jobs[j].heat != hot:
                hot = kitchen.jobs[j].heat
                yield j, plan.starts[j] - kitchen.heating


def _task(
    n: int, task: Planned, zero: int, tasks: Sequence[Planned], plan: Plan, at: Setting, when: _Clock
) -> ServiceTask:
    assert task.step is not None and task.batch is not None
    begins = zero + plan.starts[n] * at.unit
    return ServiceTask(
        id=f"service/{task.id}",
        text=task.text,
        recipe=task.batch.recipe,
        part=task.step.part,
        start=when.at(begins),
        finish=when.at(begins + task.seconds),
        attended=task.attended,
        uses=at.uses(plan)[n],
        after=tuple(f"service/{tasks[i].id}" for i in task.after),
        step=task.step,
        at=begins,
        seconds=task.seconds,
        load=task.load,
        loads=task.loads,
        assumed_minutes=task.assumed,
    )


def _heating(task: Planned, start: int, zero: int, at: Setting, when: _Clock) -> Heating:
    assert task.step is not None and task.batch is not None
    begins, seconds = zero + start * at.unit, at.kitchen.heating * at.unit
    to = next((use.temperature_text for use in task.step.uses if use.kind == OVEN), "")
    return Heating(OVEN, to, task.batch.recipe, when.at(begins), when.at(begins + seconds), begins, seconds)
