"""Which cutting board each piece of work takes: raw meat and fish keep to boards of their own where that can be."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

PLAIN, AVOIDED, RAW = 1, 2, 4  # what is on the board; what a board has had is a sum of these

Cost = tuple[int, int, int, int]
Board = tuple[int, int]  # until when it is taken, and what it has had


@dataclass(frozen=True, slots=True)
class Work:
    """Work on `count` boards from `start` to `end`; `what` of the three it is."""

    start: int
    end: int
    what: int
    count: int = 1


@dataclass(frozen=True, slots=True)
class _Laid:
    """The boards so far, what was taken by each piece of work, and what that costs."""

    cost: Cost
    boards: tuple[Board, ...]
    taken: tuple[tuple[int, ...], ...] = ()


def boards(works: Sequence[Work], count: int) -> tuple[tuple[int, ...], ...]:
    """The boards (from 0) that each piece of work takes, in the order given, which is that of their starts.

    Of all ways the one in which the fewest pieces of work follow raw meat or fish on a board; then the fewest that
    follow what an eater avoids; then the fewest raw ones on a board that had something else; then with fewest boards.
    Boards of raw meat have the highest numbers, before them those of what is avoided. At any time there are `count`
    boards for the work that is due.
    """
    states = [_Laid((0, 0, 0, 0), ((0, 0),) * count)]
    for work in works:
        best: dict[tuple[Board, ...], _Laid] = {}
        for laid in states:
            for after in _next(laid, work):
                # Boards that are alike from now on can stand in for one another.
                key = tuple(sorted((max(until, work.start), had) for until, had in after.boards))
                if key not in best or after.cost < best[key].cost:
                    best[key] = after
        states = list(best.values())
    least = min(states, key=lambda laid: laid.cost)
    number = {board: n for n, board in enumerate(_by_number(least))}
    return tuple(tuple(sorted(number[board] for board in taken)) for taken in least.taken)


def _next(laid: _Laid, work: Work) -> list[_Laid]:
    """Every way to lay out one more piece of work; boards that are alike count once."""
    free = [n for n, (until, _) in enumerate(laid.boards) if until <= work.start]
    found: dict[tuple[int, ...], _Laid] = {}
    for taken in combinations(free, work.count):
        alike = tuple(sorted(laid.boards[n][1] for n in taken))
        if alike in found:
            continue
        cost, after = laid.cost, list(laid.boards)
        for n in taken:
            had = after[n][1]
            cost = _dearer(cost, had, work.what)
            after[n] = (work.end, had | work.what)
        found[alike] = _Laid(cost, tuple(after), (*laid.taken, taken))
    return list(found.values())


def _dearer(cost: Cost, had: int, what: int) -> Cost:
    after_raw, after_avoided, raw_after, opened = cost
    return (
        after_raw + (what != RAW and bool(had & RAW)),
        after_avoided + (what == PLAIN and bool(had & AVOIDED)),
        raw_after + (what == RAW and bool(had & (PLAIN | AVOIDED))) + (what == AVOIDED and bool(had & PLAIN)),
        opened + (not had),
    )


def _by_number(laid: _Laid) -> list[int]:
    """The boards from the lowest number on: used for plain work, in the order of use; not used; avoided; raw."""
    first = {board: n for n, taken in reversed(list(enumerate(laid.taken))) for board in taken}

    def rank(board: int) -> tuple[int, int]:
        had = laid.boards[board][1]
        kind = 3 if had & RAW else 2 if had & AVOIDED else 0 if had else 1
        return kind, first.get(board, 0) if kind < 2 else -first[board]

    return sorted(range(len(laid.boards)), key=rank)
