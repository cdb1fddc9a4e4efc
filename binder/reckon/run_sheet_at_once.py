"""How much can go on at once: what follows for starts from the pieces of a kind, and from the racks of an oven."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from binder.reckon.run_sheet_problem import Job
from binder.reckon.run_sheet_reason import Reasoner, Reasons, Said

Users = Sequence[tuple[int, int, int]]  # row of the start, length, pieces


def timetable(reasoner: Reasoner, users: Users, count: int) -> Callable[[], Reasons | None]:
    """Where jobs certainly go on, no others may for which too few pieces are left."""
    least = reasoner.least

    def certain(start: int, length: int, at: int) -> tuple[Said, Said]:
        return (start, at - length + 1), (start ^ 1, -at)

    def run() -> Reasons | None:
        parts = []
        for start, length, needed in users:
            latest, ends = -least[start ^ 1], least[start] + length
            if latest < ends:
                parts.append((latest, ends, start, length, needed))
        if not parts:
            return None
        for at in sorted({part[0] for part in parts}):
            here = [part for part in parts if part[0] <= at < part[1]]
            usage = sum(part[4] for part in here)
            if usage > count:
                return tuple(said for part in here for said in certain(part[2], part[3], at))
            dead = _keep_clear(at, here, usage)
            if dead:
                return dead
        return None

    def _keep_clear(at: int, here: Sequence[tuple[int, int, int, int, int]], usage: int) -> Reasons | None:
        until = min(part[1] for part in here)
        inside = {part[2] for part in here}
        for start, length, needed in users:
            if usage + needed <= count or start in inside:
                continue
            first, latest = least[start], -least[start ^ 1]
            if first < until and first + length > at:
                # Over at the end of this stretch, or of the job if that comes first: one step at a time.
                to = min(until, first + length)
                why = tuple(said for part in here for said in certain(part[2], part[3], to - 1))
                dead = reasoner.conclude(start, to, (*why, (start, to - length)))
                if dead:
                    return dead
            if latest < until and latest + length > at:
                to = max(at, latest)
                why = tuple(said for part in here for said in certain(part[2], part[3], to))
                dead = reasoner.conclude(start ^ 1, length - to, (*why, (start ^ 1, -to)))
                if dead:
                    return dead
        return None

    return run


Span = tuple[int, int, int, int, int, int, int, int]  # earliest and latest start, length, pieces, heat, rows, shift


class _Spans:
    """Jobs with their windows, as time runs or backwards.

    Backwards a start is what the end was, with the sign turned: the other row, less the job's length.
    """

    def __init__(self, reasoner: Reasoner, users: Users, heats: Sequence[int], backwards: bool) -> None:
        self._least = reasoner.least
        self._rows = [
            (s ^ 1, s, length, length, n, heat) if backwards else (s, s ^ 1, 0, length, n, heat)
            for (s, length, n), heat in zip(users, heats, strict=True)
        ]

    def now(self) -> list[Span]:
        """The latest to start first."""
        least = self._least
        found = [(least[a] - by, -least[b] - by, length, n, heat, a, b, by) for a, b, by, length, n, heat in self._rows]
        found.sort(key=lambda span: -span[0])
        return found


def _too_much(spans: Sequence[Span], first: int, until: int) -> Reasons:
    """The starts that put more work between two times than there is room for."""
    return tuple(
        said
        for begins, latest, length, _, _, a, b, by in spans
        if latest < until and begins >= first
        for said in ((a, first + by), (b, -max(latest, until - length) - by))
    )


def energy(reasoner: Reasoner, users: Users, count: int, backwards: bool) -> Callable[[], Reasons | None]:
    """Between two times there is no more work than the pieces can do.

    Of a job that starts after the first time and may end after the second, what must have been done by then counts;
    `backwards` looks at the same with time turned round.
    """
    of = _Spans(reasoner, users, [0] * len(users), backwards)

    def run() -> Reasons | None:
        spans = of.now()
        for until in sorted({span[1] + span[2] for span in spans}):
            work = 0
            for first, latest, length, needed, _, _, _, _ in spans:
                if latest < until:
                    work += min(length, until - latest) * needed
                    if work > count * (until - first):
                        return _too_much(spans, first, until)
        return None

    return run


def oven_energy(
    reasoner: Reasoner, roasts: Sequence[tuple[int, Job]], ovens: Sequence[int], heating: int, backwards: bool
) -> Callable[[], Reasons | None]:
    """The same of ovens: each has a temperature, and changes between them take their time too."""
    users = [(start, job.length, job.racks) for start, job in roasts]
    of = _Spans(reasoner, users, [job.heat for _, job in roasts], backwards)
    count, racks = len(ovens), max(ovens)

    def run() -> Reasons | None:
        spans = of.now()
        for until in sorted({span[1] + span[2] for span in spans}):
            work: dict[int, int] = {}
            for first, latest, length, needed, heat, _, _, _ in spans:
                if latest < until:
                    work[heat] = work.get(heat, 0) + min(length, until - latest) * needed
                    busy = sum(-(-w // racks) for w in work.values()) + heating * max(0, len(work) - count)
                    if busy > count * (until - first):
                        return _too_much(spans, first, until)
        return None

    return run
