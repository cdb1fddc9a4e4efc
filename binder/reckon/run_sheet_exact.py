"""Proof or a better plan: the search that learns from its dead ends, for so many steps."""

from __future__ import annotations

from binder.reckon.run_sheet_model import Model
from binder.reckon.run_sheet_reason import Said

FIRST_RUN = 60  # dead ends before the first restart


class Effort:
    """Steps that may still be taken; the same on every machine, which a clock would not be."""

    def __init__(self, steps: int) -> None:
        self.left = steps

    @property
    def spent(self) -> bool:
        return self.left <= 0


def decide(model: Model, end: int, effort: Effort) -> bool | None:
    """Whether there is a plan that is over by `end`, which `model.plan()` then is; None: not known."""
    reasoner = model.reasoner
    reasoner.restart()
    dead_ends, run = 0, 1
    until = FIRST_RUN
    before = reasoner.steps
    while effort.left > 0:
        if reasoner.impossible:
            return False
        dead = reasoner.propagate()
        effort.left -= reasoner.steps - before
        before = reasoner.steps
        if dead:
            if not reasoner.learn(dead):
                return False
            dead_ends += 1
            effort.left -= 20
            continue
        if dead_ends >= until:
            run += 1
            until = dead_ends + FIRST_RUN * _luby(run)
            reasoner.restart()
            continue
        if reasoner.level == 0:
            if reasoner.fails((model.end ^ 1, -end)):
                return False
            reasoner.decide((model.end ^ 1, -end))
            continue
        said = _next(model)
        if said is None:
            return True
        reasoner.decide(said)
    return None


def _next(model: Model) -> Said | None:
    """What to suppose next: a choice that has led to dead ends lately; then the earliest start that is still open."""
    reasoner = model.reasoner
    least, weight = reasoner.least, reasoner.weight
    best, heaviest = -1, -1.0
    for choice in model.choices:
        if not least[choice] and least[choice ^ 1] < 0 and weight[choice >> 1] > heaviest:
            best, heaviest = choice, weight[choice >> 1]
    if best >= 0:
        return (best, 1) if reasoner.turn[best >> 1] == 0 else (best ^ 1, 0)
    first, when = -1, 0
    for start in model.starts:
        if least[start] != -least[start ^ 1] and (first < 0 or least[start] < when):
            first, when = start, least[start]
    return (first ^ 1, -when) if first >= 0 else None


def _luby(n: int) -> int:
    """The n-th of 1 1 2 1 1 2 4 ... (Luby, Sinclair and Zuckerman, Information Processing Letters 47, 1993)."""
    power = 1
    while power < n + 1:
        power *= 2
    return power // 2 if power == n + 1 else _luby(n - power // 2 + 1)
