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


def energy(reasoner: Reasoner, users: Users, count: int) -> Callable[[], Reasons | None]:
    """Between two times there is no more work than the pieces can do."""
    least = reasoner.least

    def run() -> Reasons | None:
        spans = [(least[s], length - least[s ^ 1], s, length, n) for s, length, n in users]
        spans.sort(key=lambda span: -span[0])
        for until in sorted({span[1] for span in spans}):
            work = 0
            for first, ends, _, length, needed in spans:
                if ends <= until:
                    work += length * needed
                    if work > count * (until - first):
                        inside = [x for x in spans if x[1] <= until and x[0] >= first]
                        return tuple(said for x in inside for said in ((x[2], first), (x[2] ^ 1, x[3] - until)))
        return None

    return run


def oven_energy(
    reasoner: Reasoner, roasts: Sequence[tuple[int, Job]], racks: int, heating: int
) -> Callable[[], Reasons | None]:
    """Between two times an only oven does no more than its racks take, with a change between temperatures."""
    least = reasoner.least

    def run() -> Reasons | None:
        spans = [(least[s], job.length - least[s ^ 1], s, job.length, job.racks, job.heat) for s, job in roasts]
        spans.sort(key=lambda span: -span[0])
        for until in sorted({span[1] for span in spans}):
            work: dict[int, int] = {}
            for first, ends, _, length, needed, heat in spans:
                if ends <= until:
                    work[heat] = work.get(heat, 0) + length * needed
                    busy = sum(-(-w // racks) for w in work.values()) + heating * (len(work) - 1)
                    if busy > until - first:
                        inside = [x for x in spans if x[1] <= until and x[0] >= first]
                        return tuple(said for x in inside for said in ((x[2], first), (x[2] ^ 1, x[3] - until)))
        return None

    return run
