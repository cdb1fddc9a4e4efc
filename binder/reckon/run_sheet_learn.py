"""What is learnt from a dead end: a statement that rules out every search that would meet it again.

The learning of satisfiability solvers (Marques-Silva and Sakallah, "GRASP", IEEE Transactions on Computers 48, 1999:
first unique implication point), on statements about whole numbers.
"""

from __future__ import annotations

from binder.reckon.run_sheet_reason import Reasoner, Reasons, Said, contrary

GROWTH = 1.02  # of the weight that the latest dead ends have over earlier ones


class Learner(Reasoner):
    """A reasoner that learns; `weight` says of each variable how much it had to do with dead ends lately."""

    def __init__(self) -> None:
        super().__init__()
        self.weight: list[float] = []
        self.impossible = False  # a dead end that rests on no decision has been met
        self._bump = 1.0

    def variable(self, low: int, high: int) -> int:
        self.weight.append(0.0)
        return super().variable(low, high)

    def learn(self, dead: Reasons) -> bool:
        """Learn from statements that cannot hold together, and go back to where that says something new.

        False: nothing can be decided otherwise.
        """
        # A dead end may be seen late, when all of it held before the last decision.
        latest = max((self._where(*said) for said in dead), default=-1)
        while self._levels and latest < self._levels[-1]:
            self._undo(len(self._levels) - 1)
        if not self._levels:
            self.impossible = True
            return False
        needed, uip = self._first_implication(dead)
        others = [(self._where(*said), said) for said in needed.items() if said[0] != uip[0]]
        others = [(at, said) for at, said in others if not self._implied(at, needed)]
        others.sort(reverse=True)
        back = others[0][0] if others else -1
        level = sum(start <= back for start in self._levels)
        self._undo(level)
        parts = [contrary(uip), *(contrary(said) for _, said in others)]
        if len(parts) > 1:
            self._watched(parts)
        self._bump *= GROWTH
        if self._bump > 1e100:
            self.weight = [w / self._bump for w in self.weight]
            self._bump = 1.0
        return self.conclude(*parts[0], tuple(said for _, said in others)) is None

    def _first_implication(self, dead: Reasons) -> tuple[dict[int, int], Said]:
        """Statements that cannot hold together of which one alone was concluded since the last decision."""
        start, root = self._levels[-1], self._levels[0]
        needed: dict[int, int] = {}
        recent = self._add(dead, needed, start, root)
        at = len(self._row) - 1
        while True:
            row = self._row[at]
            if row in needed and self._before[at] < needed[row]:
                if recent == 1:
                    return needed, (row, needed[row])
                recent += self._add(self._why(at, needed.pop(row)), needed, start, root) - 1
            at -= 1

    def _why(self, at: int, least: int) -> Reasons:
        """Why a row is at least so much since a place on the trail, in the least that suffices."""
        reasons = self._reasons[at]
        if self._exact[at]:
            row, value = reasons[0]
            return ((row, value - self._to[at] + least), *reasons[1:])
        return reasons

    def _add(self, reasons: Reasons, needed: dict[int, int], start: int, root: int) -> int:
        """Add to what is needed, each row once; how many more of it now date from the last decision on."""
        recent = 0
        for row, least in reasons:
            known = needed.get(row)
            if known is not None and known >= least:
                continue
            at = self._where(row, least)
            if at < root:
                continue
            self.weight[row >> 1] += self._bump
            if at >= start and (known is None or self._where(row, known) < start):
                recent += 1
            needed[row] = least
        return recent

    def _implied(self, at: int, needed: dict[int, int]) -> bool:
        """Whether a statement follows from the others that are needed."""
        reasons = self._why(at, needed[self._row[at]])
        root = self._levels[0]
        return bool(reasons) and all(
            self._where(row, least) < root
            or (row in needed and least <= needed[row] and self._where(row, needed[row]) < at)
            for row, least in reasons
        )
