"""What must not meet: an eater's food, and what has in hand a thing that this eater avoids.

Which order is required. Of an eater E and a word W that E avoids, in one session, where W is an allergen of either list
or a food by its name (not a kind of food, such as meat: that is how somebody eats; who must not have a trace of a food
names it):
E's food are the batches that E is served from, and the batches they are made from, that do not hold W in what is
cooked. An attended step has W in hand when an ingredient of its part holds it (of all that is cooked, where the part
has no ingredients of its own). Every attended step that has W in hand comes after every attended step of E's food: then
that food is closed and put away. Unattended steps are free, and so is everything where nothing of E's is made.

What E's food itself waits for cannot come after it: such a pair of dishes is let go. Two eaters may ask for contrary
orders; then allergens go before foods that are no allergens, and eaters in the order in which the household writes
them. What was let go is said, with the wash that is due between.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from heapq import heapify, heappop, heappush

from binder.model.household import Household
from binder.model.recipe import Ingredient
from binder.reckon.allergens import covered, is_allergen
from binder.reckon.avoiding import avoided_foods, is_avoided
from binder.reckon.facts import Batch
from binder.reckon.run_sheet_bounds import bound
from binder.reckon.run_sheet_hands import in_hand
from binder.reckon.run_sheet_order import Care, careful
from binder.reckon.run_sheet_problem import Job, Kitchen, Plan
from binder.reckon.run_sheet_search import Found, search
from binder.reckon.run_sheet_tasks import Planned
from binder.tables.food_kinds import kind_of

Pairs = tuple[tuple[int, int], ...]  # the first job of each is over before the second starts
Eaters = Mapping[str, Collection[str]]  # of each batch the eaters that are served from it


@dataclass(frozen=True, slots=True)
class Apart:
    """An eater's dish and a dish with something the eater avoids: batch ids, and the numbers of the tasks."""

    eater: str
    avoided: str
    food: str
    other: str
    foods: tuple[int, ...]  # attended steps of the eater's dish
    carriers: tuple[int, ...]  # attended steps of the other that have it in hand
    pairs: Pairs  # the last of those before the first of these


@dataclass(frozen=True, slots=True)
class Drawn:
    """A plan with its bound, both of the problem with the order that is kept.

    `kept` are numbers of the asked orders; `longer` is how much later it ends than the shortest plan that was found
    without them, which `surely` was proven to be the shortest.
    """

    found: Found
    kept: tuple[int, ...] = ()
    longer: int = 0
    surely: bool = True


def asked(tasks: Sequence[Planned], household: Household, eaters: Eaters) -> tuple[Apart, ...]:
    """Every order that some eater's avoidance asks for, the most important first."""
    batches = {task.batch.id: task.batch for task in tasks if task.batch is not None}
    served = _with_parts(batches, eaters)
    wishes = [
        (not is_allergen(word), n, eater, word)
        for n, eater in enumerate(household.eaters)
        for word in eater.avoids
        if is_allergen(word) or kind_of(word) is None
    ]
    before = _all_before(tasks)
    found = []
    for _, _, eater, word in sorted(wishes, key=lambda wish: wish[:2]):
        holding = {key for key, batch in batches.items() if any(_holds(line, batch, word) for line in _cooked(batch))}
        for other in (key for key in batches if key in holding):
            carriers = tuple(n for n in _hands(tasks, other) if _in_hand(tasks[n], word))
            for food in (key for key in batches if eater.name in served.get(key, ()) and key not in holding):
                foods = _hands(tasks, food)
                if carriers and foods:
                    last = [i for i in foods if not any(i in before[j] for j in foods)]
                    first = [j for j in carriers if not any(i in before[j] for i in carriers)]
                    pairs = tuple((i, j) for j in first for i in last)
                    found.append(Apart(eater.name, word, food, other, foods, carriers, pairs))
    return tuple(found)


def _all_before(tasks: Sequence[Planned]) -> list[frozenset[int]]:
    found: list[frozenset[int]] = []
    for task in tasks:
        found.append(frozenset(task.after).union(*(found[i] for i in task.after)))
    return found


def _with_parts(batches: Mapping[str, Batch], eaters: Eaters) -> dict[str, set[str]]:
    """Who eats of each batch, directly or in what it is a part of."""
    served = {key: set(eaters.get(key, ())) for key in batches}
    for _ in batches:
        for key, batch in batches.items():
            for user, of in batches.items():
                if of.recipe in batch.part_of:
                    served[key] |= served[user]
    return served


def _hands(tasks: Sequence[Planned], batch: str) -> tuple[int, ...]:
    return tuple(n for n, task in enumerate(tasks) if task.batch and task.batch.id == batch and task.attended)


def _cooked(batch: Batch) -> Iterator[Ingredient]:
    recipe = batch.facts.recipe if batch.facts else None
    return (line for line in (recipe.ingredients if recipe else ()) if line.when == "cooked")


def _in_hand(task: Planned, word: str) -> bool:
    return task.batch is not None and any(_holds(line, task.batch, word) for line in in_hand(task))


def holds_avoided(line: Ingredient, word: str) -> bool:
    """Whether the food of a line is avoided by who avoids this word."""
    return bool(covered(word, line.food.contains or ())) if is_allergen(word) else is_avoided(line, word)


def _holds(line: Ingredient, batch: Batch, word: str) -> bool:
    """Whether a line is of a food that is avoided, or of a recipe with it."""
    if line.recipe is None:
        return holds_avoided(line, word)
    assert batch.facts is not None
    made_from = next((one.made_from for one in batch.facts.ingredients if one.ingredient == line), None)
    dish = made_from or batch.facts
    return bool(covered(word, dish.contains) if is_allergen(word) else avoided_foods(word, dish))


# ---- as a problem ----


def drawn_apart(kitchen: Kitchen, care: tuple[Care, ...], wanted: Sequence[Pairs]) -> Drawn:
    """The shortest plan that keeps as many of the orders as go together, the first of them first.

    The limit on what cools goes before an order: where no plan keeps both, the later half of the orders is let go,
    until one does.
    """
    kept = _together(kitchen, wanted)
    free: Found | None = None
    found = _in_order(kitchen, care, [pair for n in kept for pair in wanted[n]])
    while kept and not found.within_limits:
        free = free or search(kitchen)
        if not free.within_limits:
            break
        kept = kept[: len(kept) // 2]
        found = _in_order(kitchen, care, [pair for n in kept for pair in wanted[n]])
    end = found.plan.finish(kitchen)
    if not kept or end == bound(kitchen):
        return Drawn(found, tuple(kept))
    free = free or search(kitchen)
    shortest = free.plan.finish(kitchen)
    found = replace(found, bound=max(found.bound, min(free.bound, end)))
    return Drawn(found, tuple(kept), max(0, end - shortest), free.bound == shortest)


def _together(kitchen: Kitchen, wanted: Sequence[Pairs]) -> list[int]:
    """The orders that contradict neither the steps' own order nor one that comes before them."""
    kept: list[int] = []
    pairs: list[tuple[int, int]] = []
    for n, more in enumerate(wanted):
        if _numbered(kitchen, [*pairs, *more]) is not None:
            kept.append(n)
            pairs.extend(more)
    return kept


def _numbered(kitchen: Kitchen, pairs: Sequence[tuple[int, int]]) -> list[int] | None:
    """The jobs in an order in which each stands after those it waits for, by number where that is open; None: none."""
    waits = [set(job.after) for job in kitchen.jobs]
    for i, j in pairs:
        waits[j].add(i)
    follow: list[list[int]] = [[] for _ in waits]
    for j, before in enumerate(waits):
        for i in before:
            follow[i].append(j)
    left = [len(before) for before in waits]
    ready = [j for j, count in enumerate(left) if not count]
    heapify(ready)
    order = []
    while ready:
        i = heappop(ready)
        order.append(i)
        for j in follow[i]:
            left[j] -= 1
            if not left[j]:
                heappush(ready, j)
    return order if len(order) == len(waits) else None


def _in_order(kitchen: Kitchen, care: Sequence[Care], pairs: Sequence[tuple[int, int]]) -> Found:
    """The plan that is printed, with these pairs kept; jobs are numbered anew so that each stands after its pairs."""
    order = _numbered(kitchen, pairs)
    assert order is not None  # what does not go together was let go
    place = {j: n for n, j in enumerate(order)}
    waits = [set(job.after) for job in kitchen.jobs]
    for i, j in pairs:
        waits[j].add(i)

    def moved(j: int) -> Job:
        return replace(kitchen.jobs[j], after=tuple(sorted(place[i] for i in waits[j])))

    limits = tuple(
        replace(of, hot=tuple(place[i] for i in of.hot), last=tuple(place[i] for i in of.last)) for of in kitchen.limits
    )
    other = replace(kitchen, jobs=tuple(moved(j) for j in order), limits=limits)
    found = search(other)
    plan = careful(other, found.plan, [care[j] for j in order])
    starts, ovens = ([row[place[j]] for j in range(len(order))] for row in (plan.starts, plan.ovens))
    return replace(found, plan=Plan(tuple(starts), tuple(ovens)))
