"""One job to another time, or two jobs to each other's side, while all the rest stays where it is.

What the search by whole orders leaves: a plan that is as short as can be has gaps, and work that should come late may
stand in an early one although a later one is free.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import replace

from binder.reckon.run_sheet_place import Rows, late
from binder.reckon.run_sheet_problem import Kitchen, Plan, followers

ROUNDS = 8

Judge = Callable[[Plan], tuple[int, ...]]
Pair = tuple[int, int]


def eased(kitchen: Kitchen, plan: Plan, contrary: Callable[[Plan], Sequence[Pair]], judge: Judge) -> Plan:
    """A plan that ends no later and that `judge` finds better, as long as moves of one or two jobs lead to one.

    `contrary` are pairs of jobs of which the first should not start before the second.
    """
    follow, end, least = followers(kitchen), plan.finish(kitchen), judge(plan)
    for _ in range(ROUNDS):
        pairs = contrary(plan)
        sets = [*((j,) for j in dict.fromkeys(job for pair in pairs for job in pair)), *pairs]
        best = plan
        for jobs in sets:
            for tried in _moved(kitchen, plan, jobs, follow, end):
                found = judge(tried)
                if found < least and not late(kitchen, tried):
                    best, least = tried, found
        if best is plan:
            break
        plan = best
    return plan


def _moved(
    kitchen: Kitchen, plan: Plan, jobs: Sequence[int], follow: Sequence[Sequence[int]], end: int
) -> Iterator[Plan]:
    """Plans in which these jobs, of which none needs an oven, stand elsewhere: the last of them first as early as it
    can, the others then as late as they can; or each where it first has room after or before another job."""
    if any(kitchen.jobs[j].racks for j in jobs):
        return
    rows = Rows(kitchen)
    for i in range(len(kitchen.jobs)):
        if i not in jobs:
            rows.keep(i, plan.starts[i], plan.ovens[i])
    if len(jobs) == 1:
        for when in _free(kitchen, plan, jobs[0], rows, follow, end, jobs):
            yield _at(plan, {jobs[0]: when})
        return
    first, second = jobs
    early = next(iter(_free(kitchen, plan, second, rows, follow, end, jobs)), None)
    if early is None:
        return
    rows.keep(second, early, -1)
    moved = _at(plan, {second: early})
    for when in reversed(_free(kitchen, moved, first, rows, follow, end, (first,))):
        yield _at(moved, {first: when})


def _free(
    kitchen: Kitchen,
    plan: Plan,
    j: int,
    rows: Rows,
    follow: Sequence[Sequence[int]],
    end: int,
    loose: Collection[int],
) -> list[int]:
    """The starts that a job can have, of those at which another job ends or before which one begins; `loose` are the
    jobs that have no time yet."""
    jobs, length = kitchen.jobs, kitchen.jobs[j].length
    ready = max((plan.starts[i] + jobs[i].length for i in jobs[j].after if i not in loose), default=0)
    last = min((plan.starts[i] for i in follow[j] if i not in loose), default=end) - length
    starts = {ready, last}
    for i, start in enumerate(plan.starts):
        starts |= {start + jobs[i].length, start - length}
    return sorted(when for when in starts if ready <= when <= last and rows.earliest(j, when)[0] == when)


def _at(plan: Plan, starts: dict[int, int]) -> Plan:
    return replace(plan, starts=tuple(starts.get(j, start) for j, start in enumerate(plan.starts)))
