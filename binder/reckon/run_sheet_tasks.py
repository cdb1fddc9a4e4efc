"""From the steps of a session's batches to the tasks of its run sheet, with what each keeps and waits for."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from binder.model.recipe import Recipe, Step
from binder.reckon.facts import Batch
from binder.reckon.run_sheet_equipment import Equipment

TOGETHER = "together"
BOARD = "cutting board"
DEFAULT_MINUTES = 5  # of a step that says nothing: common practice, and said so beside the task
SECONDS = 60


@dataclass(frozen=True, slots=True)
class Planned:
    """One task before it has a time: `seconds` long, `after` the tasks (by number) it waits for."""

    id: str
    step: Step | None  # None: not of a recipe, stated for each session
    text: str
    batch: Batch | None
    seconds: int
    attended: bool
    after: tuple[int, ...]
    load: int = 1
    loads: int = 1
    assumed: bool = False


@dataclass(frozen=True, slots=True)
class Lists:
    """Where the tasks of one batch stand: the numbers of each step's tasks, list by list, and `### Together` apart."""

    parts: tuple[tuple[tuple[int, ...], ...], ...]
    together: tuple[tuple[int, ...], ...]

    @property
    def first(self) -> tuple[int, ...]:
        """What a recipe used as a part must come before."""
        return self.together[0] if self.together else tuple(i for steps in self.parts for i in steps[0])

    @property
    def last(self) -> tuple[int, ...]:
        """What ends the batch."""
        return self.together[-1] if self.together else tuple(i for steps in self.parts for i in steps[-1])


def planned(batches: Sequence[Batch], equipment: Equipment) -> tuple[tuple[Planned, ...], tuple[Lists, ...]]:
    """Every task of a session, each after those it waits for, and where the tasks of each batch stand."""
    order = [n for n in _parts_first(batches) if _recipe(batches[n]).prep]
    tasks: list[Planned] = []
    lists: dict[int, Lists] = {}
    for n in order:
        before = tuple(i for p in _parts_of(n, batches) if p in lists for i in lists[p].last)
        lists[n] = _of_batch(batches[n], _name(n, batches), before, tasks, equipment)
    return tuple(tasks), tuple(lists[n] for n in order)


def _recipe(batch: Batch) -> Recipe:
    assert batch.facts is not None  # every batch is of a recipe that was reckoned
    return batch.facts.recipe


def _parts_of(user: int, batches: Sequence[Batch]) -> Iterator[int]:
    used = {line.recipe for line in _recipe(batches[user]).ingredients if line.when == "cooked"}
    for n, batch in enumerate(batches):
        if n != user and batch.recipe in used and batches[user].recipe in batch.part_of:
            yield n


def _parts_first(batches: Sequence[Batch]) -> list[int]:
    """The batches, each after those it uses; a ring, which is refused elsewhere, is cut open."""
    order: list[int] = []

    def visit(n: int, above: tuple[int, ...]) -> None:
        if n in order or n in above:
            return
        for part in _parts_of(n, batches):
            visit(part, (*above, n))
        order.append(n)

    for n in range(len(batches)):
        visit(n, ())
    return order


def _name(n: int, batches: Sequence[Batch]) -> str:
    """The recipe's key; with a number for a second batch of it (a substitution in what is cooked)."""
    earlier = sum(batch.recipe == batches[n].recipe for batch in batches[:n])
    return f"{batches[n].recipe}-{earlier + 1}" if earlier else batches[n].recipe


def _slug(part: str) -> str:
    return re.sub(r"[^\w]+", "-", part.casefold()).strip("-") or "part"


def _of_batch(
    batch: Batch, name: str, parts_made: tuple[int, ...], tasks: list[Planned], equipment: Equipment
) -> Lists:
    """Append a batch's tasks: lists side by side, `### Together` after all of them and after `parts_made`."""
    by_part: dict[str | None, list[Step]] = {}
    for step in _recipe(batch).prep:
        waits = step.part is not None and step.part.casefold() == TOGETHER
        by_part.setdefault(TOGETHER if waits else step.part, []).append(step)
    ending = by_part.pop(TOGETHER, [])
    first = () if ending else parts_made
    taken: set[str] = {TOGETHER}
    made = []
    for part, steps in by_part.items():
        slug = _unused(_slug(part), taken) if part is not None else ""
        made.append(_list(batch, f"{name}/{slug}/" if slug else f"{name}/", steps, first, tasks, equipment))
    after = (*(i for one in made for i in one[-1]), *parts_made)
    together = _list(batch, f"{name}/{TOGETHER}/", ending, after, tasks, equipment)
    return Lists(tuple(made), together)


def _unused(slug: str, taken: set[str]) -> str:
    """The slug, with a number when two part names come to the same."""
    number, found = 2, slug
    while found in taken:
        found, number = f"{slug}-{number}", number + 1
    taken.add(found)
    return found


def _list(
    batch: Batch, prefix: str, steps: Sequence[Step], first: tuple[int, ...], tasks: list[Planned], equipment: Equipment
) -> tuple[tuple[int, ...], ...]:
    numbers = []
    after = first
    for n, step in enumerate(steps, 1):
        loads = _loads(step, batch, equipment)
        seconds = _seconds(step, batch, loads)
        after_this = []
        for load in range(1, loads + 1):
            tail = f"#{load}" if load > 1 else ""
            after_this.append(len(tasks))
            tasks.append(
                Planned(
                    f"{prefix}{n}{tail}", step, step.text, batch, seconds, not step.unattended, after,
                    load, loads, step.minutes is None,
                )
            )  # fmt: skip
        after = tuple(after_this)
        numbers.append(after)
    return tuple(numbers)


def _loads(step: Step, batch: Batch, equipment: Equipment) -> int:
    """How often the step is done: the most that any of its vessels is filled."""
    return max((equipment.loads(use.kind, _recipe(batch), batch.portions_made) for use in step.uses), default=1)


def _seconds(step: Step, batch: Batch, loads: int) -> int:
    """How long one load of the step takes: as written; a board's work grows with the factor, up to a whole minute."""
    if step.minutes is None:
        return DEFAULT_MINUTES * SECONDS
    if step.per_portion:
        return ceil(step.minutes * batch.portions_made * SECONDS / loads)
    if any(use.kind == BOARD for use in step.uses):
        return ceil(step.minutes * batch.factor) * SECONDS
    return ceil(step.minutes * SECONDS)


def whole_minutes(seconds: int | Fraction) -> int:
    """Minutes, begun ones counted whole."""
    return ceil(Fraction(seconds, SECONDS))
