"""A kitchen as statements to reason about: starts, orders of pairs, ovens, and how much can go on at once."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

from binder.reckon.run_sheet_at_once import energy, oven_energy, timetable
from binder.reckon.run_sheet_bounds import Windows
from binder.reckon.run_sheet_learn import Learner
from binder.reckon.run_sheet_problem import Kitchen, Plan, followers
from binder.reckon.run_sheet_reason import Said


class Model:
    """Rows of the starts of all jobs, of the end of everything, and of the yes-or-no variables in between."""

    def __init__(self, kitchen: Kitchen, windows: Windows, low: int, high: int) -> None:
        """Plans that end between `low` and `high`; `windows` hold for every plan."""
        self.kitchen = kitchen
        self.reasoner = Learner()
        add = self.reasoner.variable
        jobs = kitchen.jobs
        self.starts = [
            add(h, max(h, high - t - job.length)) for h, t, job in zip(windows.head, windows.tail, jobs, strict=True)
        ]
        self.end = add(low, high)
        self.choices: list[int] = []
        self.orders: dict[int, tuple[int, int]] = {}  # choice to the two jobs of which the first comes first
        self.rooms: dict[tuple[int, int], list[int]] = {}  # job and oven to the choices of its racks
        for j, job in enumerate(jobs):
            self.reasoner.difference(self.starts[j], self.end, job.length + windows.tail[j])
            for i in job.after:
                self.reasoner.difference(self.starts[i], self.starts[j], jobs[i].length)
        self._before = _all_before(kitchen)
        self._alike()
        self._pairs()
        self._several_ovens()
        self._limits()
        self._at_once()
        self.reasoner.all_due()

    def plan(self) -> Plan:
        """What has been decided, once all of it is."""
        least = self.reasoner.least
        in_oven = {j: oven for (j, oven), choices in self.rooms.items() if any(least[c] for c in choices)}
        ovens = [in_oven.get(j, 0) if job.racks else -1 for j, job in enumerate(self.kitchen.jobs)]
        return Plan(tuple(least[start] for start in self.starts), tuple(ovens))

    def follow(self, plan: Plan) -> None:
        """Let the search try first what this plan does."""
        for choice, (i, j) in self.orders.items():
            first = (plan.starts[i], i) < (plan.starts[j], j)
            self.reasoner.turn[choice >> 1] = 0 if first else 1
        for (j, oven), choices in self.rooms.items():
            for choice in choices:
                self.reasoner.turn[choice >> 1] = 0 if plan.ovens[j] == oven else 1

    def ask(self, first: int, second: int) -> None:
        """Let one job wait for another, unless that one waits for it."""
        if second not in self._before[first]:
            self._first(first, second, 0, None)

    def keep(self, plan: Plan, free: frozenset[int]) -> None:
        """Order and ovens as in this plan, except among the jobs that are free."""
        for choice, (i, j) in self.orders.items():
            if i not in free or j not in free:
                first = plan.starts[i] + self.kitchen.jobs[i].length + self._between(i, j) <= plan.starts[j]
                self.reasoner.clause([(choice, 1) if first else (choice ^ 1, 0)])
        for (j, oven), choices in self.rooms.items():
            if j not in free and plan.ovens[j] != oven:
                for choice in choices:
                    self.reasoner.clause([(choice ^ 1, 0)])

    def _between(self, i: int, j: int) -> int:
        one, other = self.kitchen.jobs[i], self.kitchen.jobs[j]
        return self.kitchen.heating if one.racks and other.racks and one.heat != other.heat else 0

    # ---- building ----

    def _choice(self) -> int:
        self.choices.append(self.reasoner.variable(0, 1))
        return self.choices[-1]

    def _unrelated(self, i: int, j: int) -> bool:
        return i not in self._before[j] and j not in self._before[i]

    def _alike(self) -> None:
        """Of loads that are the same in everything the first comes first: nothing is lost by it."""
        jobs, follow = self.kitchen.jobs, followers(self.kitchen)
        limited = {i for limit in self.kitchen.limits for i in (*limit.hot, *limit.last)}
        last: dict[object, int] = {}
        for j, job in enumerate(jobs):
            if j in limited and job.length == 0:
                continue
            mark = (job, tuple(follow[j]), tuple((j in x.hot, j in x.last) for x in self.kitchen.limits))
            if mark in last:
                self.reasoner.difference(self.starts[last[mark]], self.starts[j], 0)
            last[mark] = j

    def _pairs(self) -> None:
        """Jobs that cannot go on at the same time: one comes first."""
        for i, j in combinations(range(len(self.kitchen.jobs)), 2):
            gap = self._gap(i, j)
            if gap is None or not self._unrelated(i, j):
                if gap:
                    first, second = (i, j) if i in self._before[j] else (j, i)
                    self._first(first, second, gap, None)
                continue
            choice = self._choice()
            self.orders[choice] = (i, j)
            self._first(i, j, gap, (choice, 1))
            self._first(j, i, gap, (choice ^ 1, 0))

    def _first(self, i: int, j: int, gap: int, given: Said | None) -> None:
        self.reasoner.difference(self.starts[i], self.starts[j], self.kitchen.jobs[i].length + gap, given)

    def _gap(self, i: int, j: int) -> int | None:
        """The time between two jobs that cannot overlap, whichever comes first; None: they can."""
        one, other = self.kitchen.jobs[i], self.kitchen.jobs[j]
        gap = None
        needs = dict(other.needs)
        if any(count + needs.get(kind, 0) > self.kitchen.pieces[kind] for kind, count in one.needs if kind in needs):
            gap = 0
        if one.racks and other.racks and len(self.kitchen.ovens) == 1:
            if one.heat != other.heat:
                return self.kitchen.heating
            if one.racks + other.racks > self.kitchen.ovens[0]:
                gap = 0
        return gap

    def _several_ovens(self) -> None:
        """Each job is in one oven; in the same rack one comes first, in the same oven too when heats differ."""
        kitchen = self.kitchen
        if len(kitchen.ovens) < 2:
            return
        roasts = [j for j, job in enumerate(kitchen.jobs) if job.racks]
        racks = [(oven, rack) for oven, count in enumerate(kitchen.ovens) for rack in range(count)]
        places: dict[int, list[int]] = {}
        for n, j in enumerate(roasts):
            places[j] = [self._choice() for _ in racks]
            self.reasoner.clause((place, 1) for place in places[j])
            for one, other in combinations(places[j], 2):
                self.reasoner.clause(((one ^ 1, 0), (other ^ 1, 0)))
            for place, (oven, rack) in zip(places[j], racks, strict=True):
                self.rooms.setdefault((j, oven), []).append(place)
                # What is alike is taken in turn: the first job has only the first rack of the first oven to choose.
                too_small = kitchen.ovens[oven] < kitchen.jobs[j].racks
                if too_small or rack > n or (oven > n and len(set(kitchen.ovens)) == 1):
                    self.reasoner.clause([(place ^ 1, 0)])
        for i, j in combinations(roasts, 2):
            self._apart(i, j, places, racks)

    def _apart(self, i: int, j: int, places: dict[int, list[int]], racks: Sequence[tuple[int, int]]) -> None:
        jobs = self.kitchen.jobs
        same_heat = jobs[i].heat == jobs[j].heat
        gap = 0 if same_heat else self.kitchen.heating
        orders: list[Said] = []
        for a, b in ((i, j), (j, i)):
            if a not in self._before[b] and b in self._before[a]:
                continue
            order = self._choice()
            self.orders[order] = (a, b)
            self._first(a, b, gap, (order, 1))
            orders.append((order, 1))
        for m, mine in enumerate(racks):
            for n, theirs in enumerate(racks):
                too_many = jobs[i].racks + jobs[j].racks > self.kitchen.ovens[mine[0]]
                if mine == theirs or (mine[0] == theirs[0] and (too_many or not same_heat)):
                    self.reasoner.clause([(places[i][m] ^ 1, 0), (places[j][n] ^ 1, 0), *orders])

    def _limits(self) -> None:
        """What was cooked is portioned in time after the last of its hot steps, whichever that is."""
        jobs = self.kitchen.jobs
        for limit in self.kitchen.limits:
            any_of: list[Said] = []
            for h in limit.hot:
                given = None if len(limit.hot) == 1 else (self._choice(), 1)
                any_of += [given] if given else []
                for e in limit.last:
                    by = jobs[e].length - jobs[h].length - limit.within
                    self.reasoner.difference(self.starts[e], self.starts[h], by, given)
            if any_of:
                self.reasoner.clause(any_of)

    def _at_once(self) -> None:
        """Kinds of several pieces, and the racks of an only oven."""
        kitchen = self.kitchen
        for kind, count in enumerate(kitchen.pieces):
            self._kind([(j, n) for j, job in enumerate(kitchen.jobs) for k, n in job.needs if k == kind], count)
        roasts = [(self.starts[j], job) for j, job in enumerate(kitchen.jobs) if job.racks]
        if len(kitchen.ovens) == 1:
            for heat in sorted({job.heat for _, job in roasts}):
                used = [(j, job.racks) for j, job in enumerate(kitchen.jobs) if job.racks and job.heat == heat]
                self._kind(used, kitchen.ovens[0])
        for backwards in (False, True) if len(roasts) > len(kitchen.ovens) else ():
            run = oven_energy(self.reasoner, roasts, kitchen.ovens, kitchen.heating, backwards)
            self.reasoner.propagator(run, [row for start, _ in roasts for row in (start, start ^ 1)])

    def _kind(self, used: Sequence[tuple[int, int]], count: int) -> None:
        used = [(j, n) for j, n in used if self.kitchen.jobs[j].length]
        if sum(n for _, n in used) <= count:
            return
        rows = [self.starts[j] for j, _ in used]
        users = [(self.starts[j], self.kitchen.jobs[j].length, n) for j, n in used]
        both = [row for start in rows for row in (start, start ^ 1)]
        if any(a + b <= count for (_, a), (_, b) in combinations(used, 2)):
            self.reasoner.propagator(timetable(self.reasoner, users, count), both)
        if len(users) > 2:
            for backwards in (False, True):
                self.reasoner.propagator(energy(self.reasoner, users, count, backwards), both)


def _all_before(kitchen: Kitchen) -> list[frozenset[int]]:
    found: list[frozenset[int]] = []
    for job in kitchen.jobs:
        found.append(frozenset(job.after).union(*(found[i] for i in job.after)))
    return found
