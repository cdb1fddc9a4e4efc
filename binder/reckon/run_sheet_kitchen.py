"""From planned tasks to the problem in whole units of time, and from its plan back to numbered pieces."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from math import gcd

from binder.model.household import Household
from binder.model.recipe import Ingredient
from binder.reckon import run_sheet_boards as board_work
from binder.reckon.allergens import covered, is_allergen
from binder.reckon.avoiding import is_avoided
from binder.reckon.facts import Batch
from binder.reckon.run_sheet_equipment import COOK, OVEN, Equipment, Pieces, heat_of, is_hot, racks_kept
from binder.reckon.run_sheet_hands import MEAT, handled, has_raw_meat, in_hand
from binder.reckon.run_sheet_order import AVOIDED, PLAIN, RAW_MEAT, Care
from binder.reckon.run_sheet_place import by_start
from binder.reckon.run_sheet_problem import Job, Kitchen, Limit, Plan
from binder.reckon.run_sheet_tasks import Lists, Planned

HEATING = 10 * 60  # seconds from cold, or from one temperature to another: as the run sheet's rules say
BOARD = "cutting board"
COOLING = 2 * 60 * 60  # seconds, FDA Food Code 3-501.14: from 135 to 70 °F within 2 h


@dataclass(frozen=True, slots=True)
class Setting:
    """The problem of one session: `unit` seconds of a unit of time; `pieces` of each kind of the kitchen.

    `limits` are those of the kitchen; `care` says what is in hand in each job, `raw` whether raw meat or fish is.
    """

    kitchen: Kitchen
    unit: int
    pieces: tuple[Pieces, ...]
    limits: tuple[Limit, ...]
    care: tuple[Care, ...]
    raw: tuple[bool, ...]

    def uses(self, plan: Plan) -> list[tuple[str, ...]]:
        """The pieces each job keeps, by name: of those that are free the ones with the lowest numbers.

        Boards are shared out by what is in hand, so that raw meat and fish keep to boards of their own.
        """
        jobs = self.kitchen.jobs
        order = by_start(self.kitchen, plan)
        on_boards = {kind: self._boards(kind, plan, order) for kind, of in enumerate(self.pieces) if of.kind == BOARD}
        free_from = [[0] * pieces.count for pieces in self.pieces]
        found: list[tuple[str, ...]] = [()] * len(jobs)
        for j in order:
            names = []
            for kind, count in jobs[j].needs:
                free = [n for n, when in enumerate(free_from[kind]) if when <= plan.starts[j]]
                for n in on_boards[kind][j] if kind in on_boards else free[:count]:
                    free_from[kind][n] = plan.starts[j] + jobs[j].length
                    names.append(self.pieces[kind].name(n))
            if plan.ovens[j] >= 0:
                several = len(self.kitchen.ovens) > 1
                names.append(f"{OVEN} {plan.ovens[j] + 1}" if several else OVEN)
            found[j] = tuple(names)
        return found

    def _boards(self, kind: int, plan: Plan, order: Sequence[int]) -> Mapping[int, tuple[int, ...]]:
        """The boards of each job that keeps some."""
        there = [(j, needs[kind]) for j in order if kind in (needs := dict(self.kitchen.jobs[j].needs))]
        works = [
            board_work.Work(plan.starts[j], plan.starts[j] + self.kitchen.jobs[j].length, self._what(j), count)
            for j, count in there
        ]
        return dict(zip((j for j, _ in there), board_work.boards(works, self.pieces[kind].count), strict=True))

    def _what(self, j: int) -> int:
        if self.raw[j]:
            return board_work.RAW
        return board_work.AVOIDED if self.care[j].level == AVOIDED else board_work.PLAIN


def setting(tasks: Sequence[Planned], lists: Sequence[Lists], have: Equipment, household: Household) -> Setting:
    """The problem that a session's tasks make with what there is."""
    ovens = have.ovens
    limits = _limits(tasks, lists)
    heats: dict[object, int] = {}
    kinds: dict[Pieces, int] = {}
    unit = gcd(*(task.seconds for task in tasks), *([HEATING] if ovens else []), *([COOLING] if limits else [])) or 60
    jobs = []
    for task in tasks:
        racks = min(racks_kept(task.step), max(ovens, default=0)) if task.step else 0
        heat = heats.setdefault(heat_of(task.step), len(heats)) if task.step and racks else -1
        needs = tuple((kinds.setdefault(p, len(kinds)), n) for p, n in _needs(task, have))
        jobs.append(Job(task.seconds // unit, needs, task.after, racks, heat))
    limits = tuple(Limit(limit.hot, limit.last, limit.within // unit) for limit in limits)
    kitchen = Kitchen(tuple(jobs), tuple(p.count for p in kinds), ovens, HEATING // unit, limits)
    vessels = {n for pieces, n in kinds.items() if pieces.count == 1 and have.is_vessel(pieces.kind)}
    held = [next((kind for kind, _ in job.needs if kind in vessels), -1) for job in jobs]
    care = tuple(replace(of, vessel=n) for of, n in zip(_care(tasks, household), held, strict=True))
    return Setting(kitchen, unit, tuple(kinds), limits, care, tuple(map(has_raw_meat, tasks)))


def _needs(task: Planned, have: Equipment) -> list[tuple[Pieces, int]]:
    """What a task keeps apart from an oven: a cook when it is attended, and every piece it names."""
    needs: dict[Pieces, int] = {}
    cook = have.pieces(COOK)
    if task.attended and cook:
        needs[cook] = 1
    if task.step is not None and task.batch is not None and task.batch.facts is not None:
        for use in task.step.uses:
            pieces = have.pieces(use.kind, task.batch.facts.recipe, task.batch.portions_made)
            if use.kind != OVEN and pieces:
                needs[pieces] = min(needs.get(pieces, 0) + use.count, pieces.count)
    return list(needs.items())


def _limits(tasks: Sequence[Planned], lists: Sequence[Lists]) -> tuple[Limit, ...]:
    """For each batch that is cooled: its last hot steps, what must be over soon after them, and seconds."""
    found: list[Limit] = []
    for of in lists:
        batch = tasks[of.first[0]].batch
        if batch is None or not _is_cooled(batch):
            continue
        hot_parts = [_last_hot(tasks, part) for part in of.parts]
        if of.together:
            hot = _last_hot(tasks, of.together) or tuple(i for part in hot_parts for i in part)
            pairs = [(hot, of.together[-1])]
        else:
            pairs = [(hot, part[-1]) for hot, part in zip(hot_parts, of.parts, strict=True)]
        found.extend(Limit(hot, last, COOLING) for hot, last in pairs if hot and hot != last)
    return tuple(found)


def _is_cooled(batch: Batch) -> bool:
    """What keeps in a cupboard need not be cold."""
    keeping = batch.facts.recipe.keeping if batch.facts else None
    return keeping is None or keeping.fridge_days is not None or keeping.cupboard_days is None


def _last_hot(tasks: Sequence[Planned], steps: Sequence[tuple[int, ...]]) -> tuple[int, ...]:
    for numbers in reversed(steps):
        step = tasks[numbers[0]].step
        if step is not None and is_hot(step):
            return numbers
    return ()


def _care(tasks: Sequence[Planned], household: Household) -> tuple[Care, ...]:
    """What is in hand: an allergen or a food that an eater avoids; raw meat or fish; or neither."""
    avoided = {word for eater in household.eaters for word in eater.avoids}
    dishes: dict[str, int] = {}
    found = []
    for task in tasks:
        batch = task.batch
        dish = dishes.setdefault(batch.id or batch.recipe, len(dishes)) if batch else -1
        level = PLAIN
        if any(_is_avoided(line, avoided) for line in in_hand(task)) or (batch and _from_parts(batch, avoided)):
            level = AVOIDED
        elif any(line.food.aisle == MEAT for line in handled(task)):
            level = RAW_MEAT
        found.append(Care(level, task.attended, dish))
    return tuple(found)


def _is_avoided(line: Ingredient, avoided: Iterable[str]) -> bool:
    contains = (*(line.food.contains or ()), *(line.food.contains_other or ()))
    return any(covered(word, contains) if is_allergen(word) else is_avoided(line, word) for word in avoided)


def _from_parts(batch: Batch, avoided: Iterable[str]) -> bool:
    """Whether a recipe used as a part of what is cooked brings in an allergen that is avoided."""
    if batch.facts is None:
        return False
    parts = [line for line in batch.facts.recipe.ingredients if line.recipe and line.when == "cooked"]
    known = [one.made_from for one in batch.facts.ingredients if one.made_from and one.ingredient in parts]
    dishes = known if len(known) == len(parts) else [batch.facts]
    return any(covered(word, dish.contains) for word in avoided for dish in dishes)
