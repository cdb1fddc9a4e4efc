"""The problem a run sheet solves, in whole units of time: jobs, what they keep, what they wait for.

Times count from the session's start. A job once started is not interrupted. Every cook, burner, board and vessel is
a piece of a kind; an oven is apart from these, because it has one temperature at a time and takes time to reach it.
"""

from __future__ import annotations

from dataclasses import dataclass

COLD = -1  # the temperature of a job that needs no oven


@dataclass(frozen=True, slots=True)
class Job:
    """One task: `needs` are pairs of a kind (index into `Kitchen.pieces`) and how many pieces of it are kept.

    `racks` of one oven at temperature number `heat`; no racks: no oven. `after` are the jobs it waits for, each of
    them with a smaller index than its own.
    """

    length: int
    needs: tuple[tuple[int, int], ...] = ()
    after: tuple[int, ...] = ()
    racks: int = 0
    heat: int = COLD


@dataclass(frozen=True, slots=True)
class Limit:
    """The latest end among `last` comes at most `within` after the latest end among `hot`."""

    hot: tuple[int, ...]
    last: tuple[int, ...]
    within: int


@dataclass(frozen=True, slots=True)
class Kitchen:
    """Jobs in an order in which each stands after those it waits for; `ovens` are the racks of each oven."""

    jobs: tuple[Job, ...]
    pieces: tuple[int, ...]  # of each kind
    ovens: tuple[int, ...] = ()
    heating: int = 0  # from cold, or from one temperature to another
    limits: tuple[Limit, ...] = ()


@dataclass(frozen=True, slots=True)
class Plan:
    """When each job starts, and in which oven (-1: in none)."""

    starts: tuple[int, ...]
    ovens: tuple[int, ...]

    def finish(self, kitchen: Kitchen) -> int:
        """The latest end of any job; 0 without jobs."""
        return max((s + job.length for s, job in zip(self.starts, kitchen.jobs, strict=True)), default=0)


def followers(kitchen: Kitchen) -> list[list[int]]:
    """The jobs that wait for each job directly."""
    found: list[list[int]] = [[] for _ in kitchen.jobs]
    for j, job in enumerate(kitchen.jobs):
        for i in job.after:
            found[i].append(j)
    return found


def tails(kitchen: Kitchen) -> list[int]:
    """The time that must pass after the end of each job until all that waits for it is over."""
    after = followers(kitchen)
    found = [0] * len(kitchen.jobs)
    for i in reversed(range(len(kitchen.jobs))):
        found[i] = max((kitchen.jobs[j].length + found[j] for j in after[i]), default=0)
    return found


def can_be_kept(kitchen: Kitchen, limit: Limit) -> bool:
    """Whether a limit leaves time for what comes between by the order of the steps alone."""
    return any(
        all(after[i] + kitchen.jobs[i].length <= limit.within for i in limit.last if i in after)
        for after in (_times_after(kitchen, hot) for hot in limit.hot)
    )


def _times_after(kitchen: Kitchen, first: int) -> dict[int, int]:
    """For each job that waits for `first`: the least time from the end of that one to its own start."""
    found = {first: -kitchen.jobs[first].length}
    for j, job in enumerate(kitchen.jobs):
        times = [found[i] + kitchen.jobs[i].length for i in job.after if i in found]
        if times:
            found[j] = max(times)
    return found
