"""Reasoning about whole numbers between bounds, and what follows from what, with the reasons kept.

The method is that of Ohrimenko, Stuckey and Codish, "Propagation via lazy clause generation" (Constraints 14, 2009).

Every variable v stands for two rows: row 2v is its value, row 2v + 1 its value with the sign turned. What is known of a
row is only ever a least value, so that a statement is a pair (row, least): `(2v, 7)` is v >= 7 and `(2v + 1, -9)` is
v <= 9. The contrary of (row, k) is (row ^ 1, 1 - k). A yes-or-no variable has the values 1 and 0.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

Said = tuple[int, int]  # row, least value
Reasons = tuple[Said, ...]
ROOT: Reasons = ()


def contrary(said: Said) -> Said:
    """What holds exactly when the statement does not."""
    return said[0] ^ 1, 1 - said[1]


class Reasoner:
    """Variables, differences between them, clauses, and propagators of others; a trail of what was concluded.

    A propagator looks at `least` and calls `conclude`; it returns the statements that cannot hold together, or None.
    """

    def __init__(self) -> None:
        self.least: list[int] = []
        self.turn: list[int] = []  # of each variable the row that was last concluded of it
        self.steps = 0  # effort, in conclusions drawn and what costs as much
        self._arcs: list[list[tuple[int, int]]] = []  # row to (row, difference)
        self._maybe: list[list[tuple[int, int, int, int]]] = []  # the same where a statement (row, least) holds
        self._held: list[list[tuple[int, int, int, int]]] = []  # row to (its least, from, to, difference)
        self._watch: list[list[tuple[int, list[Said]]]] = []
        self._queue: list[int] = []
        self._queued: list[bool] = []
        self._row: list[int] = []  # the trail: row, least value before, reasons, where the row stood before on it
        self._before: list[int] = []
        self._reasons: list[Reasons] = []
        self._to: list[int] = []  # least value after
        self._exact: list[bool] = []  # a difference: so much less of the first reason gives so much less
        self._last: list[int] = []
        self._at: list[int] = []  # of each row its latest place on the trail
        self._levels: list[int] = []
        self._others: list[Callable[[], Reasons | None]] = []
        self._costs: list[int] = []
        self._of: list[int] = []  # row to the propagators that look at it, as bits
        self._due = 0

    # ---- what is to hold ----

    def variable(self, low: int, high: int) -> int:
        """A new variable between two values; its row."""
        for least in (low, -high):
            self.least.append(least)
            for rows in (self._arcs, self._maybe, self._held, self._watch):
                rows.append([])
            self._queued.append(False)
            self._at.append(-1)
            self._of.append(0)
        self.turn.append(0)
        return len(self.least) - 2

    def difference(self, low: int, high: int, by: int, given: Said | None = None) -> None:
        """`high` is at least `low` + `by` (rows of values); only where `given` holds, when that is said."""
        for start, end in ((low, high), (high ^ 1, low ^ 1)):
            if given is None:
                self._arcs[start].append((end, by))
            else:
                self._maybe[start].append((end, by, given[0], given[1]))
                self._held[given[0]].append((given[1], start, end, by))

    def clause(self, any_of: Iterable[Said]) -> None:
        """At least one of these holds; said before the search begins or of what is not yet decided."""
        parts = list(any_of)
        if len(parts) == 1:
            self.conclude(*parts[0], ROOT)
        else:
            self._watched(parts)

    def propagator(self, run: Callable[[], Reasons | None], rows: Iterable[int]) -> None:
        """Something that concludes more whenever one of the rows has changed."""
        bit = 1 << len(self._others)
        self._others.append(run)
        self._due |= bit
        count = 0
        for row in rows:
            self._of[row] |= bit
            count += 1
        # Measured: looking at n jobs once costs about as much as so many conclusions of other kinds.
        self._costs.append(count * count // 400)

    def all_due(self) -> None:
        """Look at everything again: needed once before the first search."""
        for row in range(len(self.least)):
            self._enqueue(row)

    # ---- what follows ----

    @property
    def level(self) -> int:
        """How many decisions stand."""
        return len(self._levels)

    def holds(self, said: Said) -> bool:
        return self.least[said[0]] >= said[1]

    def fails(self, said: Said) -> bool:
        return self.least[said[0] ^ 1] >= 1 - said[1]

    def decide(self, said: Said) -> Reasons | None:
        """Suppose that a statement holds."""
        self._levels.append(len(self._row))
        return self.conclude(*said, ROOT)

    def conclude(self, row: int, least: int, reasons: Reasons, difference: bool = False) -> Reasons | None:
        """A row is at least so much because of the reasons; what cannot hold together when that cannot be.

        `difference`: the first reason less something would give the same less something.
        """
        old = self.least[row]
        if least <= old:
            return None
        self.steps += 1
        if self.least[row ^ 1] + least > 0:
            return (*reasons, (row ^ 1, 1 - least))
        self._row.append(row)
        self._before.append(old)
        self._reasons.append(reasons)
        self._to.append(least)
        self._exact.append(difference)
        self._last.append(self._at[row])
        self._at[row] = len(self._row) - 1
        self.least[row] = least
        self._enqueue(row)
        return None

    def _enqueue(self, row: int) -> None:
        if not self._queued[row]:
            self._queued[row] = True
            self._queue.append(row)
            self._due |= self._of[row]

    def propagate(self) -> Reasons | None:
        """Draw every conclusion; what cannot hold together when there is a dead end."""
        while True:
            while self._queue:
                row = self._queue.pop()
                self._queued[row] = False
                dead = self._follow(row) or self._clauses(row)
                if dead:
                    return self._stop(dead)
            if not self._due:
                return None
            first = self._due & -self._due
            self._due ^= first
            number = first.bit_length() - 1
            self.steps += self._costs[number]
            dead = self._others[number]()
            if dead:
                return self._stop(dead)

    def _stop(self, dead: Reasons) -> Reasons:
        for row in self._queue:
            self._queued[row] = False
        self._queue.clear()
        self._due = 0  # what stood before the last decision had been followed up
        return dead

    def _follow(self, row: int) -> Reasons | None:
        least, conclude, value = self.least, self.conclude, self.least[row]
        for end, by in self._arcs[row]:
            if value + by > least[end]:
                dead = conclude(end, value + by, ((row, value),), True)
                if dead:
                    return dead
        for end, by, given, needed in self._maybe[row]:
            if least[given] >= needed:
                if value + by > least[end]:
                    dead = conclude(end, value + by, ((row, value), (given, needed)), True)
                    if dead:
                        return dead
            elif value + by + least[end ^ 1] > 0 and least[given ^ 1] < 1 - needed:
                dead = conclude(given ^ 1, 1 - needed, ((row, value), (end ^ 1, 1 - value - by)))
                if dead:
                    return dead
        for needed, start, end, by in self._held[row]:
            if value >= needed and least[start] + by > least[end]:
                dead = conclude(end, least[start] + by, ((start, least[start]), (row, needed)), True)
                if dead:
                    return dead
        return None

    # ---- clauses ----

    def _watched(self, parts: list[Said]) -> None:
        for row, least in parts[:2]:
            self._watch[row ^ 1].append((1 - least, parts))

    def _clauses(self, row: int) -> Reasons | None:
        """Look at the clauses that watch a statement which may have failed by this row's change."""
        least = self.least
        value = least[row]
        kept = []
        watching = self._watch[row]
        for n, pair in enumerate(watching):
            if value < pair[0]:
                kept.append(pair)
                continue
            parts = pair[1]
            failed = (row ^ 1, 1 - pair[0])
            if parts[0] == failed:
                parts[0], parts[1] = parts[1], failed
            other, needed = parts[0]
            if least[other] >= needed:
                kept.append(pair)
                continue
            for m in range(2, len(parts)):
                new, bound = parts[m]
                if least[new ^ 1] < 1 - bound:
                    parts[1], parts[m] = parts[m], failed
                    self._watch[new ^ 1].append((1 - bound, parts))
                    break
            else:
                kept.append(pair)
                dead = self.conclude(other, needed, tuple((r ^ 1, 1 - k) for r, k in parts[1:]))
                if dead:
                    kept.extend(watching[n + 1 :])
                    self._watch[row] = kept
                    return dead
        self._watch[row] = kept
        return None

    # ---- back ----

    def _where(self, row: int, least: int) -> int:
        """The place on the trail from which on a row is at least so much; -1: from the beginning."""
        at = self._at[row]
        while at >= 0 and self._before[at] >= least:
            at = self._last[at]
        return at

    def _undo(self, level: int) -> None:
        """Take back every decision after so many."""
        if level >= len(self._levels):
            return
        start = self._levels[level]
        for at in range(len(self._row) - 1, start - 1, -1):
            row = self._row[at]
            self.least[row] = self._before[at]
            self._at[row] = self._last[at]
            self.turn[row >> 1] = row & 1
        for rows in (self._row, self._before, self._to, self._exact, self._reasons, self._last):
            del rows[start:]
        del self._levels[level:]

    def restart(self) -> None:
        """Take back every decision; what was learnt stays."""
        self._undo(0)
