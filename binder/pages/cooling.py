"""When what was cooked must have cooled, as clock times: deadlines that can be kept, unlike hours to count.

FDA Food Code 3-501.14: from 135 to 70 °F within 2 h, to 41 °F within 6 h in all. The count here starts when the first
of a dish's parts comes off the heat for good: at the end of that part's own last hot step, or of the last hot step of
`### Together` where there is one, since the parts are hot again in it. That is never later than when the food leaves
135 °F. A step that cools by itself (ice water, a cold rinse) is not told from the others: the count then begins too
early at worst.

The run sheet's own limit is another one and looser: a dish is portioned within 2 h of the end of the last hot step of
all its parts. Where a part has been off the heat for longer by then, it is cooled by itself, and the page says so
(`Deadline.waiting`).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from binder.model.recipe import HOT_TOOLS
from binder.pages.edition import Edition
from binder.reckon.facts import RunSheet, Task

FIRST_LIMIT = timedelta(hours=2)
SECOND_LIMIT = timedelta(hours=6)
HALF_WAY = timedelta(hours=1)
TOGETHER = "together"  # the list of steps that waits for all others
SOURCE = "FDA Food Code, 3-501.14"


@dataclass(frozen=True, slots=True)
class Waiting:
    """A part that comes off the heat more than 2 h before the dish is portioned; no name: the dish has none for it."""

    part: str | None
    off_heat: datetime


@dataclass(frozen=True, slots=True)
class Deadline:
    """For one batch: `hot_until` the end of the earliest of its parts' own last hot steps, and that part.

    `part` is None where all parts come off the heat together, or the steps have no parts. `waiting`: earliest first.
    """

    recipe: str
    batch: str
    hot_until: datetime
    part: str | None = None
    waiting: tuple[Waiting, ...] = ()

    @property
    def check_at(self) -> datetime:
        return self.hot_until + HALF_WAY

    @property
    def lukewarm_by(self) -> datetime:
        return self.hot_until + FIRST_LIMIT

    @property
    def cold_by(self) -> datetime:
        return self.hot_until + SECOND_LIMIT


def is_hot(task: Task) -> bool:
    """Whether a task leaves food hot: it keeps a tool that heats (`oven 1`, `burner 2`, `pressure cooker`)."""
    return any(piece_kind(piece) in HOT_TOOLS for piece in task.uses)


def piece_kind(piece: str) -> str:
    """`burner` for `burner 2`."""
    head, _, last = piece.rpartition(" ")
    return head if head and last.isdigit() else piece


def deadlines(sheet: RunSheet, edition: Edition) -> tuple[Deadline, ...]:
    """One for each batch with a hot step that is kept cold afterwards, in order of time."""
    made: dict[tuple[str, str], list[Task]] = {}
    for task in sheet.tasks:
        made.setdefault((task.recipe, task.batch), []).append(task)
    found = (_deadline(tasks) for (_, batch), tasks in made.items() if _is_kept(batch, edition))
    return tuple(sorted((d for d in found if d is not None), key=lambda d: (d.hot_until, d.recipe, d.batch)))


def _deadline(tasks: Sequence[Task]) -> Deadline | None:
    """Of the tasks of one batch; None where none is hot."""
    first = tasks[0]
    together = [task for task in tasks if _is_together(task)]
    if again := [task.finish for task in together if is_hot(task)]:
        return Deadline(first.recipe, first.batch, max(again))
    off: dict[str | None, datetime] = {}
    for task in tasks:
        if is_hot(task):
            off[task.part] = max(task.finish, off.get(task.part, task.finish))
    if not off:
        return None
    parts = sorted(off, key=lambda part: (off[part], part or ""))
    portioned = max((task.finish for task in together), default=None)
    waiting = (Waiting(part, off[part]) for part in parts if portioned and portioned - off[part] > FIRST_LIMIT)
    return Deadline(first.recipe, first.batch, off[parts[0]], parts[0], tuple(waiting))


def _is_together(task: Task) -> bool:
    return task.part is not None and task.part.casefold() == TOGETHER


def _is_kept(batch_id: str, edition: Edition) -> bool:
    """A part that goes into another dish cools with that dish; what keeps in a cupboard need not be cold."""
    batch = edition.batch(batch_id)
    if batch is None:
        return True
    kept = {serving.kept for serving in edition.servings_of(batch)}
    if not kept:
        return not batch.part_of
    return bool(kept - {"cupboard"})
