"""When what was cooked must have cooled, as clock times: deadlines that can be kept, unlike hours to count.

FDA Food Code 3-501.14: from 135 to 70 °F within 2 h, to 41 °F within 6 h in all. The count here starts when the
last hot step ends, which is never later than when the food leaves 135 °F.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from binder.model.recipe import HOT_TOOLS
from binder.pages.edition import Edition
from binder.reckon.facts import RunSheet, Task

FIRST_LIMIT = timedelta(hours=2)
SECOND_LIMIT = timedelta(hours=6)
HALF_WAY = timedelta(hours=1)
SOURCE = "FDA Food Code, 3-501.14"


@dataclass(frozen=True, slots=True)
class Deadline:
    """For one batch: `hot_until` the end of its last hot step."""

    recipe: str
    batch: str
    hot_until: datetime

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
    last: dict[tuple[str, str], datetime] = {}
    for task in sheet.tasks:
        if is_hot(task):
            key = (task.recipe, task.batch)
            last[key] = max(task.finish, last.get(key, task.finish))
    found = (Deadline(recipe, batch, end) for (recipe, batch), end in last.items() if _is_kept(batch, edition))
    return tuple(sorted(found, key=lambda d: (d.hot_until, d.recipe, d.batch)))


def _is_kept(batch_id: str, edition: Edition) -> bool:
    """A part that goes into another dish cools with that dish; what keeps in a cupboard need not be cold."""
    batch = edition.batch(batch_id)
    if batch is None:
        return True
    kept = {serving.kept for serving in edition.servings_of(batch)}
    if not kept:
        return not batch.part_of
    return bool(kept - {"cupboard"})
