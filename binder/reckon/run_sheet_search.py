"""The shortest plan that can be found, and a bound that no plan can beat.

First plans made by rules of thumb, then the search that learns, which finds a better one or proves that there is none.
A constraint solver in compiled code would be faster, but the one that is small enough to depend on can only be stopped
by a clock, so that a slow machine would print another sheet than a quick one; this one counts its steps.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from random import Random

from binder.reckon.run_sheet_bounds import Windows, bound, windows
from binder.reckon.run_sheet_exact import Effort, decide
from binder.reckon.run_sheet_model import Model
from binder.reckon.run_sheet_place import in_order, listed, stands, within_limits
from binder.reckon.run_sheet_problem import Kitchen, Plan, can_be_kept, followers
from binder.reckon.run_sheet_stretches import worked_over

FIRST_TRIES = 24  # orders tried before the search that learns
STEPS = 160_000  # of the search that learns, from the bound upwards: three seconds on a small computer
MORE_STEPS = 240_000  # and from the best plan downwards, when the first did not suffice, which is rare
SEED = 20260607


@dataclass(frozen=True, slots=True)
class Found:
    """`bound`: no plan ends earlier. `within_limits`: every limit of the kitchen is kept."""

    plan: Plan
    bound: int
    within_limits: bool


def search(kitchen: Kitchen) -> Found:
    """The best plan for so much effort, which is counted and never timed.

    A limit that the dish's own steps break already is not kept by any plan; the others are kept all the same.
    """
    kept = tuple(limit for limit in kitchen.limits if can_be_kept(kitchen, limit))
    if len(kept) < len(kitchen.limits):
        return replace(search(replace(kitchen, limits=kept)), within_limits=False)
    of = windows(kitchen)
    low = bound(kitchen)
    plan = _first(kitchen, of, low, FIRST_TRIES, SEED)
    if plan is not None and plan.finish(kitchen) == low:
        return Found(plan, low, True)
    plan, low = _proven(kitchen, of, plan, low, Effort(STEPS))
    if plan is None:
        # Nothing keeps the limits, or nothing that could be found: a sheet without them, and a problem that says so.
        free = search(replace(kitchen, limits=()))
        return Found(free.plan, free.bound, stands(kitchen, free.plan))
    if plan.finish(kitchen) > low:
        plan = worked_over(kitchen, of, plan, low)
    return Found(plan, low, True)


# ---- rules of thumb ----


def _first(kitchen: Kitchen, of: Windows, low: int, tries: int, seed: int) -> Plan | None:
    """The best of so many orders, each worked over from the back and from the front."""
    best: Plan | None = None
    mirrored = _mirrored(kitchen)
    for ranks in _ranks(kitchen, of, tries, seed):
        for plan in _worked_over(kitchen, mirrored, listed(kitchen, ranks)):
            if plan is not None and (best is None or plan.finish(kitchen) < best.finish(kitchen)):
                best = plan
        if best is not None and best.finish(kitchen) <= low:
            break
    return best


def _ranks(kitchen: Kitchen, of: Windows, tries: int, seed: int) -> Iterator[list[float]]:
    """What to do first: what has most after it; then the same with some chance in it."""
    every = range(len(kitchen.jobs))
    longest = [float(kitchen.jobs[j].length + of.tail[j]) for j in every]
    yield longest
    yield [of.tail[j] - of.head[j] + 0.0 for j in every]
    yield [of.tail[j] + (0.0 if kitchen.jobs[j].needs else kitchen.jobs[j].length) for j in every]
    dice = Random(seed)
    for _ in range(tries):
        yield [rank * (0.6 + 0.8 * dice.random()) for rank in longest]


def _mirrored(kitchen: Kitchen) -> Kitchen:
    """The same with time running backwards."""
    follow = followers(kitchen)
    jobs = tuple(replace(job, after=tuple(after)) for job, after in zip(kitchen.jobs, follow, strict=True))
    return replace(kitchen, jobs=jobs, limits=())


def _worked_over(kitchen: Kitchen, mirrored: Kitchen, order: Sequence[int]) -> Iterator[Plan | None]:
    """A plan, and the plan after moving all jobs as late as they can be and then as early again.

    Valls, Ballestin and Quintanilla, "Justification and RCPSP" (European Journal of Operational Research 165, 2005).
    """
    nothing = [0] * len(kitchen.jobs)
    yield within_limits(kitchen, order)
    plan = in_order(kitchen, order, nothing)
    for _ in range(2):
        ends = [start + job.length for start, job in zip(plan.starts, kitchen.jobs, strict=True)]
        back = in_order(mirrored, listed(mirrored, [float(end) for end in ends]), nothing)
        order = listed(kitchen, [float(s + job.length) for s, job in zip(back.starts, kitchen.jobs, strict=True)])
        yield within_limits(kitchen, order)
        plan = in_order(kitchen, order, nothing)


def _one_after_another(kitchen: Kitchen) -> int:
    """Time enough for every job alone, an oven heated for each."""
    return sum(job.length + (kitchen.heating if job.racks else 0) for job in kitchen.jobs)


# ---- proof ----


def _proven(kitchen: Kitchen, of: Windows, plan: Plan | None, low: int, effort: Effort) -> tuple[Plan | None, int]:
    """A better plan where there is one, and the highest bound that was proven.

    Ends are tried from the bound upwards in growing steps, then between what is known to be too early and what is not.
    """
    high = plan.finish(kitchen) if plan else _one_after_another(kitchen) + 1
    model = Model(kitchen, of, low, high - 1)
    stride = 0
    while low < high:
        if plan:
            model.follow(plan)
        end = min(low + stride, high - 1)
        answer = decide(model, end, effort)
        if answer is None:
            break
        plan, low, high = _after(model, answer, plan, low, high, end)
        stride = (high - 1 - low) // 2 if answer else 2 * stride + 1
    return _from_above(model, plan, low, high)


def _from_above(model: Model, plan: Plan | None, low: int, high: int) -> tuple[Plan | None, int]:
    """The same from above, in strides that grow shorter, as far as further effort goes."""
    left = MORE_STEPS
    stride = (high - low) // 4
    while low < high and left > 0:
        if plan:
            model.follow(plan)
        end = max(low, high - 1 - stride)
        effort = Effort(MORE_STEPS // 6)
        answer = decide(model, end, effort)
        left -= max(1, MORE_STEPS // 6 - effort.left)
        if answer is not None:
            plan, low, high = _after(model, answer, plan, low, high, end)
        stride = stride if answer else stride // 3
    return plan, low


def _after(
    model: Model, answer: bool, plan: Plan | None, low: int, high: int, end: int
) -> tuple[Plan | None, int, int]:
    """The plan, the highest bound and the lowest end known, once it is known whether there is a plan until `end`."""
    if not answer:
        return plan, high if model.reasoner.impossible else end + 1, high
    found = model.plan()
    if stands(model.kitchen, found):
        return found, low, found.finish(model.kitchen)
    # Ovens in which one job takes several racks are simplified there; then a bound is all that it gives.
    return plan, low, low
