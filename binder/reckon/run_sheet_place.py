"""Placing jobs one after another, each as early as it can be: a list of jobs in some order becomes a plan.

Time is a row of bits in one whole number, a bit for each unit: where a job cannot run is a few shifts and ands.
"""

from __future__ import annotations

from collections.abc import Sequence

from binder.reckon.run_sheet_problem import Kitchen, Plan, followers


def spread(row: int, length: int) -> int:
    """The units at which something `length` long may not start so as to keep clear of the units set in `row`."""
    # Doubling: after the loop every set bit is copied to the `length` - 1 units before it.
    done = 1
    while done < length:
        step = min(done, length - done)
        row |= row >> step
        done += step
    return row


def first_clear(row: int, start: int) -> int:
    """The first unit from `start` on that is not set."""
    rest = row >> start
    return start + ((~rest & (rest + 1)).bit_length() - 1)


class Rows:
    """What is kept when, while a plan is made: for each kind a row of bits for each number of pieces in use."""

    __slots__ = ("_busy", "_kitchen", "_ovens", "_racks")

    def __init__(self, kitchen: Kitchen) -> None:
        self._kitchen = kitchen
        self._busy = [[0] * (count + 1) for count in kitchen.pieces]  # [kind][n]: more than n pieces in use
        self._racks = [[0] * (racks + 1) for racks in kitchen.ovens]
        self._ovens: list[dict[int, int]] = [{} for _ in kitchen.ovens]  # temperature to its units and heating around

    def earliest(self, j: int, start: int, only: int = -1) -> tuple[int, int]:
        """The earliest start of a job from `start` on, and its oven (-1: none); `only`: in this oven."""
        job = self._kitchen.jobs[j]
        if not job.length and not job.racks:
            return start, -1
        row = 0
        for kind, count in job.needs:
            row |= self._busy[kind][self._kitchen.pieces[kind] - count]
        if not job.racks:
            return first_clear(spread(row, job.length), start), -1
        best = (-1, -1)
        for oven, racks in enumerate(self._kitchen.ovens):
            if racks >= job.racks and only in (-1, oven):
                blocked = row | self._racks[oven][racks - job.racks]
                for heat, around in self._ovens[oven].items():
                    if heat != job.heat:
                        blocked |= around
                when = first_clear(spread(blocked, job.length), max(start, self._kitchen.heating))
                if best[0] < 0 or when < best[0]:
                    best = (when, oven)
        return best

    def keep(self, j: int, start: int, oven: int) -> None:
        """Write down that a job runs from `start` on."""
        job = self._kitchen.jobs[j]
        units = ((1 << job.length) - 1) << start
        for kind, count in job.needs:
            _use(self._busy[kind], units, count)
        if oven >= 0:
            _use(self._racks[oven], units, job.racks)
            heating = self._kitchen.heating
            around = ((1 << (job.length + 2 * heating)) - 1) << max(0, start - heating)
            self._ovens[oven][job.heat] = self._ovens[oven].get(job.heat, 0) | around


def _use(rows: list[int], units: int, count: int) -> None:
    for _ in range(count):
        for n in range(len(rows) - 1, 0, -1):
            rows[n] |= rows[n - 1] & units
        rows[0] |= units


def in_order(
    kitchen: Kitchen, order: Sequence[int], not_before: Sequence[int], ovens: Sequence[int] | None = None
) -> Plan:
    """Each job in the order given as early as it can be, and not before the time given for it.

    In the order, a job stands after those it waits for. `ovens` says which oven each takes, where that is settled.
    """
    rows = Rows(kitchen)
    starts = [0] * len(kitchen.jobs)
    taken = [-1] * len(kitchen.jobs)
    for j in order:
        job = kitchen.jobs[j]
        ready = max((starts[i] + kitchen.jobs[i].length for i in job.after), default=0)
        starts[j], taken[j] = rows.earliest(j, max(ready, not_before[j]), ovens[j] if ovens else -1)
        rows.keep(j, starts[j], taken[j])
    return Plan(tuple(starts), tuple(taken))


def listed(kitchen: Kitchen, ranks: Sequence[float]) -> list[int]:
    """The jobs by rank, the highest first, each after those it waits for."""
    waits = [len(set(job.after)) for job in kitchen.jobs]
    follow = followers(kitchen)
    ready = [j for j, count in enumerate(waits) if not count]
    order = []
    while ready:
        j = max(ready, key=lambda j: (ranks[j], -j))
        ready.remove(j)
        order.append(j)
        for i in dict.fromkeys(follow[j]):
            waits[i] -= 1
            if not waits[i]:
                ready.append(i)
    return order


def by_start(kitchen: Kitchen, plan: Plan) -> list[int]:
    """The jobs in the order in which they start; what takes no time before what starts with it."""
    return sorted(range(len(plan.starts)), key=lambda j: (plan.starts[j], kitchen.jobs[j].length > 0, j))


def stands(kitchen: Kitchen, plan: Plan) -> bool:
    """Whether a plan keeps every rule, limits included."""
    again = in_order(kitchen, by_start(kitchen, plan), plan.starts, plan.ovens)
    return again == plan and not late(kitchen, plan)


def late(kitchen: Kitchen, plan: Plan) -> list[tuple[int, int]]:
    """For each limit that is not kept, the job that must start later, and from when on."""
    found = []
    jobs = kitchen.jobs
    for limit in kitchen.limits:
        last = max(plan.starts[i] + jobs[i].length for i in limit.last)
        hot = max(limit.hot, key=lambda i: plan.starts[i] + jobs[i].length)
        if last > plan.starts[hot] + jobs[hot].length + limit.within:
            found.append((hot, last - limit.within - jobs[hot].length))
    return found


def within_limits(kitchen: Kitchen, order: Sequence[int], tries: int = 6) -> Plan | None:
    """As `in_order`, with hot steps put off until what follows them is in time; None when that does not come about."""
    not_before = [0] * len(kitchen.jobs)
    for _ in range(tries):
        plan = in_order(kitchen, order, not_before)
        too_early = late(kitchen, plan)
        if not too_early:
            return plan
        for j, when in too_early:
            not_before[j] = max(not_before[j], when)
    return None
