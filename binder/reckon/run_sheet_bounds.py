"""Times that no plan can beat, found without any search.

Every bound says: what is in this set of jobs cannot start before a certain time, is so much work for so many pieces,
and so much must follow after the last of it. The longest of all such sums, over every kind, is the bound.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from binder.reckon.run_sheet_problem import Kitchen, followers

Piece = tuple[int, int, int, int]  # the earliest start of a piece of work, its length, what follows it, its heat


@dataclass(frozen=True, slots=True)
class Windows:
    """Of each job the earliest start (`head`), and the time that must pass after its end (`tail`)."""

    head: tuple[int, ...]
    tail: tuple[int, ...]


def bound(kitchen: Kitchen) -> int:
    """A time before which not everything can be over."""
    of = windows(kitchen)
    every = range(len(kitchen.jobs))
    alone = max((of.head[j] + kitchen.jobs[j].length + of.tail[j] for j in every), default=0)
    return max(alone, _work(kitchen, every, of.head, of.tail))


def windows(kitchen: Kitchen) -> Windows:
    """Heads and tails by what jobs wait for, raised by the work that must be done before or after each of them."""
    jobs = kitchen.jobs
    waits = [list(job.after) for job in jobs]
    head = _heads(kitchen, waits, [kitchen.heating if job.racks else 0 for job in jobs], range(len(jobs)))
    tail = _heads(kitchen, followers(kitchen), [0] * len(jobs), range(len(jobs) - 1, -1, -1))
    return Windows(tuple(head), tuple(tail))


def _heads(kitchen: Kitchen, waits: Sequence[Sequence[int]], least: list[int], order: Sequence[int]) -> list[int]:
    """The earliest start of each job, in an order in which each stands after those it waits for."""
    jobs = kitchen.jobs
    head = list(least)
    between: list[dict[int, int]] = [{} for _ in jobs]  # of each job: those before it, and the time between them
    for j in order:
        gaps = between[j]
        for i in waits[j]:
            gaps[i] = max(gaps.get(i, 0), 0)
            head[j] = max(head[j], head[i] + jobs[i].length)
            for h, gap in between[i].items():
                gaps[h] = max(gaps.get(h, 0), gap + jobs[i].length)
        if len(gaps) > 1:
            head[j] = max(head[j], _work(kitchen, tuple(gaps), head, gaps))
    return head


def _work(kitchen: Kitchen, which: Sequence[int], head: Sequence[int], tail: Sequence[int] | dict[int, int]) -> int:
    """The longest that any kind or the ovens need for these jobs, with what comes before and after."""
    longest = 0
    for kind, count in enumerate(kitchen.pieces):
        pieces = [
            (head[j], kitchen.jobs[j].length, tail[j], 0)
            for j in which
            for k, needed in kitchen.jobs[j].needs
            if k == kind
            for _ in range(needed)
        ]
        longest = max(longest, _longest(pieces, count, 1, 0))
    if kitchen.ovens:
        pieces = [
            (head[j], kitchen.jobs[j].length * kitchen.jobs[j].racks, tail[j], kitchen.jobs[j].heat)
            for j in which
            if kitchen.jobs[j].racks
        ]
        longest = max(longest, _longest(pieces, len(kitchen.ovens), max(kitchen.ovens), kitchen.heating))
    return longest


def _longest(pieces: list[Piece], count: int, racks: int, heating: int) -> int:
    """Over all sets of work that starts no earlier and is followed by no less than something: how long it takes."""
    longest = 0
    pieces.sort(reverse=True)
    for least in {piece[2] for piece in pieces}:
        longest = max(longest, _from_the_end([piece for piece in pieces if piece[2] >= least], count, racks, heating))
    return longest


def _from_the_end(pieces: Sequence[Piece], count: int, racks: int, heating: int) -> int:
    """The same with what follows already chosen: pieces are added from the latest start to the earliest."""
    longest = work = 0
    following: list[int] = []
    by_heat: dict[int, int] = {}
    for n, (head, length, tail, heat) in enumerate(pieces):
        by_heat[heat] = by_heat.get(heat, 0) + length
        work += length
        following.append(tail)
        following.sort()
        # With several pieces each has a first and a last job of its own: the earliest heads and the least tails.
        firsts = [p[0] for p in pieces[max(0, n + 1 - count) : n + 1]]
        if len(firsts) < count:
            longest = max(longest, head + length // racks + tail)
            continue
        # A rack cannot be cut in time: what one temperature needs is rounded up in one oven.
        done = sum(-(-w // racks) for w in by_heat.values()) if count == 1 else -(-work // racks)
        changes = heating * max(0, len(by_heat) - count)
        longest = max(longest, -(-(sum(firsts) + done + changes + sum(following[:count])) // count))
    return longest
