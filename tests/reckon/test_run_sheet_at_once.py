"""What follows from pieces, racks and heat: nothing is ruled out that some starts allow."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from itertools import product
from random import Random

import pytest

from binder.reckon.run_sheet_at_once import energy, oven_energy, timetable
from binder.reckon.run_sheet_problem import Job
from binder.reckon.run_sheet_reason import Reasoner, Reasons, Said

LATEST = 5
HEATING = 2


class Recorder(Reasoner):
    """Keeps every conclusion with its reasons."""

    def __init__(self) -> None:
        super().__init__()
        self.drawn: list[tuple[Said, Reasons]] = []

    def conclude(self, row: int, least: int, reasons: Reasons, difference: bool = False) -> Reasons | None:
        if reasons:
            self.drawn.append(((row, least), reasons))
        return super().conclude(row, least, reasons, difference)


def holds(said: Said, starts: Sequence[int]) -> bool:
    row, least = said
    return (-starts[row >> 1] if row & 1 else starts[row >> 1]) >= least


def fits(jobs: Sequence[Job], count: int, starts: Sequence[int]) -> bool:
    """Whether no more pieces are in use than there are, at any time."""
    return all(
        sum(job.racks for job, s in zip(jobs, starts, strict=True) if s <= t < s + job.length) <= count
        for t in range(LATEST + 6)
    )


def fits_ovens(jobs: Sequence[Job], ovens: Sequence[int], starts: Sequence[int]) -> bool:
    """Whether some choice of ovens has room for all, with the time it takes to change temperatures."""

    def apart(i: int, j: int) -> bool:
        first, second = (i, j) if starts[i] <= starts[j] else (j, i)
        return jobs[i].heat == jobs[j].heat or starts[first] + jobs[first].length + HEATING <= starts[second]

    for rooms in product(range(len(ovens)), repeat=len(jobs)):
        inside = [[j for j in range(len(jobs)) if rooms[j] == oven] for oven in range(len(ovens))]
        if all(
            fits([jobs[j] for j in here], racks, [starts[j] for j in here])
            and all(apart(i, j) for i in here for j in here if i < j)
            for here, racks in zip(inside, ovens, strict=True)
        ):
            return True
    return False


def starts_that(fit: Callable[[Sequence[int]], bool], jobs: Sequence[Job]) -> list[tuple[int, ...]]:
    return [starts for starts in product(range(LATEST + 1), repeat=len(jobs)) if fit(starts)]


def check(
    jobs: Sequence[Job],
    build: Callable[[Reasoner, list[int]], Callable[[], Reasons | None]],
    possible: Sequence[tuple[int, ...]],
    dice: Random,
) -> int:
    """Narrow windows at random, and hold every conclusion against all that is possible; how many there were."""
    count = 0
    for _ in range(40):
        reasoner = Recorder()
        rows = [reasoner.variable(0, LATEST) for _ in jobs]
        run = build(reasoner, rows)
        for row in rows:
            low = dice.randint(0, LATEST)
            reasoner.conclude(row, low, ())
            reasoner.conclude(row ^ 1, -min(LATEST, low + dice.randint(0, 3)), ())
        dead = run()
        for said, reasons in reasoner.drawn:
            count += 1
            assert all(holds(said, s) for s in possible if all(holds(reason, s) for reason in reasons))
            assert dead or all(reasoner.holds(reason) for reason in reasons)
        if dead:
            count += 1
            assert all(reasoner.holds(said) for said in dead) or reasoner.drawn
            assert not any(all(holds(said, s) for said in dead) for s in possible)
    return count


def some_jobs(dice: Random, racks: int) -> list[Job]:
    return [Job(dice.randint(1, 4), (), (), dice.randint(1, racks), dice.choice((0, 1))) for _ in range(4)]


@pytest.mark.parametrize("seed", range(12))
def test_pieces_in_use_rule_out_no_starts_that_are_possible(seed: int) -> None:
    dice = Random(seed)
    count = dice.choice((1, 2, 3))
    jobs = some_jobs(dice, count)
    possible = starts_that(lambda starts: fits(jobs, count, starts), jobs)

    def users(rows: list[int]) -> list[tuple[int, int, int]]:
        return [(row, job.length, job.racks) for row, job in zip(rows, jobs, strict=True)]

    found = check(jobs, lambda r, rows: timetable(r, users(rows), count), possible, dice)
    for backwards in (False, True):
        found += check(jobs, lambda r, rows, b=backwards: energy(r, users(rows), count, b), possible, dice)
    assert found


def test_ovens_rule_out_no_starts_that_are_possible() -> None:
    found = 0
    for seed, ovens in enumerate(((1,), (1,), (2,), (2,), (1, 1), (1, 1), (1, 2), (1, 2))):
        dice = Random(seed)
        jobs = some_jobs(dice, max(ovens))
        possible = starts_that(partial(fits_ovens, jobs, ovens), jobs)
        for backwards in (False, True):
            found += check(jobs, partial(_ovens, jobs, ovens, backwards), possible, dice)
    assert found > 50


def _ovens(
    jobs: Sequence[Job], ovens: Sequence[int], backwards: bool, reasoner: Reasoner, rows: list[int]
) -> Callable[[], Reasons | None]:
    return oven_energy(reasoner, list(zip(rows, jobs, strict=True)), ovens, HEATING, backwards)
