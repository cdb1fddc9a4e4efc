"""The search that learns: nothing it learns rules out what is possible, and it finds what there is."""

from __future__ import annotations

from itertools import product
from random import Random

import pytest

from binder.reckon.run_sheet_learn import Learner
from binder.reckon.run_sheet_reason import Said, contrary

HIGH = 5  # of each whole number; the lowest is 0


class Recorder(Learner):
    """Keeps every clause that is learnt."""

    def __init__(self) -> None:
        super().__init__()
        self.learnt: list[list[Said]] = []

    def _watched(self, parts: list[Said]) -> None:
        self.learnt.append(list(parts))
        super()._watched(parts)


class Puzzle:
    """Four whole numbers and five yes-or-no variables, differences that hold where one says yes, and clauses."""

    def __init__(self, dice: Random) -> None:
        self.differences = [
            (*dice.sample(range(4), 2), dice.randint(-1, 4), dice.randint(4, 8), dice.randint(0, 1)) for _ in range(14)
        ]
        self.clauses = [[self._said(dice) for _ in range(dice.choice((2, 3, 3)))] for _ in range(14)]

    def _said(self, dice: Random) -> Said:
        variable = dice.randrange(9)
        value = dice.randint(1, HIGH) if variable < 4 else 1
        return (2 * variable, value) if dice.random() < 0.5 else contrary((2 * variable, value))

    def solutions(self) -> list[tuple[int, ...]]:
        return [
            values
            for values in product(*[range(HIGH + 1)] * 4, *[range(2)] * 5)
            if all(values[v] != yes or values[b] >= values[a] + by for a, b, by, v, yes in self.differences)
            and all(any(holds(said, values) for said in clause) for clause in self.clauses)
        ]

    def reasoner(self) -> Recorder:
        made = Recorder()
        for variable in range(9):
            made.variable(0, HIGH if variable < 4 else 1)
        for a, b, by, v, yes in self.differences:
            made.difference(2 * a, 2 * b, by, (2 * v, 1) if yes else (2 * v + 1, 0))
        for clause in self.clauses:
            made.clause(clause)
        made.learnt.clear()
        made.all_due()
        return made


def holds(said: Said, values: tuple[int, ...]) -> bool:
    row, least = said
    return (-values[row >> 1] if row & 1 else values[row >> 1]) >= least


def solved(reasoner: Learner, dice: Random) -> tuple[int, ...] | None:
    """Values for all variables; None when there are none."""
    while True:
        dead = reasoner.propagate()
        if dead:
            if not reasoner.learn(dead):
                return None
            continue
        least = reasoner.least
        left = [row for row in range(0, len(least), 2) if least[row] != -least[row + 1]]
        if not left:
            return tuple(least[::2])
        row = dice.choice(left)
        middle = dice.randint(least[row], -least[row + 1] - 1)
        reasoner.decide((row, middle + 1) if dice.random() < 0.5 else (row + 1, -middle))


@pytest.mark.parametrize("seed", range(150))
def test_it_finds_a_solution_where_there_is_one_and_learns_nothing_false(seed: int) -> None:
    puzzle = Puzzle(Random(seed))
    solutions = puzzle.solutions()
    for turn in range(8):
        reasoner = puzzle.reasoner()
        found = solved(reasoner, Random(turn))
        assert found in solutions if solutions else found is None
        for clause in reasoner.learnt:
            assert all(any(holds(said, values) for said in clause) for values in solutions)


def test_two_statements_that_follow_from_each_other_are_not_both_left_out() -> None:
    reasoner = Learner()
    z, y, v = (reasoner.variable(0, 9) for _ in range(3))
    reasoner.difference(z, y, 2)
    reasoner.clause([contrary((y, 3)), (z, 5)])
    together = ((y, 3), (z, 5), (v, 1))  # not all three; seen only when v changes
    reasoner.propagator(lambda: together if all(map(reasoner.holds, together)) else None, [v])
    assert reasoner.propagate() is None
    reasoner.decide((z, 1))  # then y is 3 at least, and then z is 5 at least
    assert reasoner.propagate() is None
    reasoner.decide((v, 1))
    dead = reasoner.propagate()
    assert dead and reasoner.learn(dead)
    reasoner.restart()
    assert reasoner.propagate() is None
    assert not reasoner.fails((v, 1))
