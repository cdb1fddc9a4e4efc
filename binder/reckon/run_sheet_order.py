"""Among plans that end at the same time: the one whose order of handling is the most careful, and the tidiest.

A dish stays in its vessel until its last step there: two dishes do not take turns in one pot where that costs no time.
What contains an allergen that an eater avoids is handled last, produce before raw meat, and the steps of each dish lie
close together; in this order of importance. Whether all of an allergen or of one dish can wait for the rest is
decided by the search that learns; the rest is found by trying, better than what was there and not proven the best.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations, islice, permutations
from random import Random

from binder.reckon.run_sheet_bounds import windows
from binder.reckon.run_sheet_eased import eased
from binder.reckon.run_sheet_exact import Effort, decide
from binder.reckon.run_sheet_model import Model
from binder.reckon.run_sheet_place import by_start, in_order, late, listed, stands
from binder.reckon.run_sheet_problem import Kitchen, Plan, followers, tails

TRIES = 160
STEPS = 60_000  # of the search that learns, for all questions together
SEED = 19640212
ORDERS = 24  # of the dishes that share a vessel, tried one after another

PLAIN, RAW_MEAT, AVOIDED = range(3)


@dataclass(frozen=True, slots=True)
class Care:
    """Of each job: what is in hand (PLAIN, RAW_MEAT, AVOIDED), whether hands are in it, and the number of its dish.

    `vessel` is the kind of the only vessel that the dish stands in from its first step there to its last; -1: none.
    """

    level: int
    attended: bool
    dish: int
    vessel: int = -1


def careful(kitchen: Kitchen, plan: Plan, care: Sequence[Care]) -> Plan:
    """A plan that ends no later, keeps every limit that this one keeps, and whose order is at least as good."""
    if not kitchen.jobs:
        return plan
    end = plan.finish(kitchen)
    if not stands(kitchen, plan):
        kitchen = replace(kitchen, limits=())
    plan, held = _each_in_its_turn(kitchen, plan, care)
    plan = _kept_apart(kitchen, plan, care, held)
    best, least = plan, objections(kitchen, plan, care)
    order = by_start(kitchen, plan)
    not_before = [0] * len(kitchen.jobs)
    for moved, later in _moves(kitchen, plan, care, end, order, not_before):
        tried = in_order(kitchen, moved, later)
        if tried.finish(kitchen) <= end and not late(kitchen, tried):
            found = objections(kitchen, tried, care)
            if found < least:
                best, least = tried, found
                order[:], not_before[:] = moved, later
    return eased(kitchen, best, lambda plan: contrary(plan, care), lambda plan: objections(kitchen, plan, care))


def contrary(plan: Plan, care: Sequence[Care]) -> list[tuple[int, int]]:
    """Pairs of jobs with hands in them of which the first needs more care than the second and starts before it."""
    hands = sorted((j for j, of in enumerate(care) if of.attended), key=lambda j: (plan.starts[j], j))
    return [(i, j) for i, j in combinations(hands, 2) if care[i].level > care[j].level]


def _by_vessel(care: Sequence[Care]) -> Iterator[dict[int, list[int]]]:
    """For each vessel that several dishes stand in: the jobs of each dish there."""
    for vessel in sorted({of.vessel for of in care} - {-1}):
        dishes: dict[int, list[int]] = {}
        for j, of in enumerate(care):
            if of.vessel == vessel:
                dishes.setdefault(of.dish, []).append(j)
        if len(dishes) > 1:
            yield dishes


def _turns_taken(kitchen: Kitchen, plan: Plan, care: Sequence[Care]) -> int:
    """How many pairs of dishes stand in one vessel at one time, each with steps there before and after the other's."""
    count = 0
    for dishes in _by_vessel(care):
        stays = [
            (min(plan.starts[j] for j in jobs), max(plan.starts[j] + kitchen.jobs[j].length for j in jobs))
            for jobs in dishes.values()
        ]
        count += sum(a[0] < b[1] and b[0] < a[1] for a, b in combinations(stays, 2))
    return count


def _each_in_its_turn(kitchen: Kitchen, plan: Plan, care: Sequence[Care]) -> tuple[Plan, list[tuple[int, int]]]:
    """A plan in which each dish leaves a vessel before the next goes in, and the pairs of jobs that say so."""
    asked: list[tuple[int, int]] = []
    for dishes in _by_vessel(care):
        first = sorted(dishes, key=lambda dish: min(plan.starts[j] for j in dishes[dish]))
        effort = Effort(STEPS)
        for order in islice(permutations(first), ORDERS):
            pairs = [(i, j) for one, other in combinations(order, 2) for i in dishes[one] for j in dishes[other]]
            if any(i in kitchen.jobs[j].after or j in kitchen.jobs[i].after for i, j in pairs):
                continue  # A part and what it goes into: their order is given.
            tried = _with(kitchen, plan, [*asked, *pairs], effort)
            if tried is not None:
                plan, asked = tried, [*asked, *pairs]
                break
    return plan, asked


def _kept_apart(kitchen: Kitchen, plan: Plan, care: Sequence[Care], asked: Sequence[tuple[int, int]]) -> Plan:
    """A plan in which what needs care waits for all that needs less: all of it, or else dish by dish.

    `asked` are pairs that stay as they are.
    """
    hands = [j for j, of in enumerate(care) if of.attended]
    after = [
        [(i, j) for j in hands for i in hands if care[j] == care_of and care[i].level < care_of.level]
        for care_of in sorted({care[j] for j in hands}, key=lambda of: (-of.level, of.dish))
    ]
    after = [pairs for pairs in after if pairs]
    everything = [pair for pairs in after for pair in pairs]
    effort = Effort(STEPS)
    asked = list(asked)
    for pairs in [everything, *(after if len(after) > 1 else [])] if everything else []:
        tried = _with(kitchen, plan, [*asked, *pairs], effort)
        if tried is not None:
            plan, asked = tried, [*asked, *pairs]
            if pairs is everything:
                break
    return plan


def _with(kitchen: Kitchen, plan: Plan, pairs: Sequence[tuple[int, int]], effort: Effort) -> Plan | None:
    """A plan that ends no later, the first of each pair over before the second starts; None: not found."""
    end = plan.finish(kitchen)
    model = Model(kitchen, windows(kitchen), end, end)
    for i, j in pairs:
        model.ask(i, j)
    model.follow(plan)
    if decide(model, end, effort):
        found = model.plan()
        return found if stands(kitchen, found) else None
    return None


def objections(kitchen: Kitchen, plan: Plan, care: Sequence[Care]) -> tuple[int, int, int, int]:
    """How many dishes share a vessel in turns; how often an avoided allergen, then raw meat, is in hand before what
    should come first; how long dishes take."""
    before = [0, 0, 0]
    spans: dict[int, tuple[int, int]] = {}
    for j, job in enumerate(kitchen.jobs):
        start, dish = plan.starts[j], care[j].dish
        first, last = spans.get(dish, (start, start))
        spans[dish] = min(first, start), max(last, start + job.length)
    hands = [j for j, of in enumerate(care) if of.attended]
    if any(care[j].level for j in hands):
        for i, j in combinations(hands, 2):
            first, second = (i, j) if plan.starts[i] < plan.starts[j] else (j, i)
            if care[first].level > care[second].level:
                before[care[first].level] += 1
    lengths = sum(last - first for first, last in spans.values())
    return _turns_taken(kitchen, plan, care), before[AVOIDED], before[RAW_MEAT], lengths


def _moves(
    kitchen: Kitchen, plan: Plan, care: Sequence[Care], end: int, order: list[int], not_before: list[int]
) -> Iterator[tuple[list[int], list[int]]]:
    """Other orders, and jobs that may not start before a time; `order` and `not_before` are the best ones so far."""
    count = len(kitchen.jobs)
    tail = tails(kitchen)
    last = [end - tail[j] - job.length for j, job in enumerate(kitchen.jobs)]
    yield list(order), list(not_before)
    for level in (AVOIDED, RAW_MEAT):
        if any(of.level >= level for of in care):
            # The most careful order there is: what needs care after everything else, as late as it may be.
            ranks = [-float(place + (care[j].level >= level) * count) for j, place in _places(order)]
            yield listed(kitchen, ranks), list(not_before)
            for share in (1.0, 0.8, 0.6, 0.4):
                late_for = [int(last[j] * share) if care[j].level >= level else 0 for j in range(count)]
                yield list(order), late_for
    follow = followers(kitchen)
    dice = Random(SEED)
    for _ in range(TRIES):
        j = int(dice.random() * count)
        moved, later = list(order), list(not_before)
        if dice.random() < 0.5:
            at = dict(_places(order))
            low = max((at[i] + 1 for i in kitchen.jobs[j].after), default=0)
            high = min((at[i] - 1 for i in follow[j]), default=count - 1)
            moved.remove(j)
            moved.insert(low + int(dice.random() * (high - low + 1)), j)
        else:
            later[j] = int(dice.random() * (last[j] + 1)) if dice.random() < 0.8 else 0
        yield moved, later


def _places(order: Sequence[int]) -> list[tuple[int, int]]:
    """Each job with its place in the order, by number."""
    return sorted((job, place) for place, job in enumerate(order))
