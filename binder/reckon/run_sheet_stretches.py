"""A plan that is not proven, worked over stretch by stretch: a part of the session is free, the rest keeps its order.

Shaw, "Using constraint programming and local search methods" (Principles and Practice of Constraint Programming, 1998).
"""

from __future__ import annotations

from collections.abc import Iterator

from binder.reckon.run_sheet_bounds import Windows
from binder.reckon.run_sheet_exact import Effort, decide
from binder.reckon.run_sheet_model import Model
from binder.reckon.run_sheet_place import stands
from binder.reckon.run_sheet_problem import Kitchen, Plan

STEPS = 150_000
ONE = 8_000  # of these for one stretch
MODEL = 2_000  # what building a model counts
SHARES = (4, 3, 2)  # of the session that are free at once: a quarter, a third, a half


def worked_over(kitchen: Kitchen, of: Windows, plan: Plan, low: int) -> Plan:
    """A plan that ends no later; the effort is counted, as everywhere."""
    left = STEPS
    better = True
    while better and left > 0:
        better = False
        for free in _stretches(kitchen, plan):
            end = plan.finish(kitchen) - 1
            if end < low or left <= 0:
                break
            model = Model(kitchen, of, low, end)
            model.follow(plan)
            model.keep(plan, free)
            effort = Effort(ONE)
            if decide(model, end, effort) and stands(kitchen, model.plan()):
                plan, better = model.plan(), True
            left -= MODEL + ONE - effort.left
    return plan


def _stretches(kitchen: Kitchen, plan: Plan) -> Iterator[frozenset[int]]:
    """The jobs that go on in each stretch of the session, stretches overlapping by half."""
    whole = plan.finish(kitchen)
    for share in SHARES:
        width = max(1, whole // share)
        for first in range(0, whole - width // 2, max(1, width // 2)):
            yield frozenset(
                j
                for j, job in enumerate(kitchen.jobs)
                if plan.starts[j] < first + width and plan.starts[j] + job.length > first
            )
