"""`binder labels --first-free N`: the same labels from another position of the sheet on."""

from __future__ import annotations

from dataclasses import replace

from binder.build import Examined
from binder.reckon import labels


def from_position(examined: Examined, first_free: int) -> Examined:
    """What was examined, its current week's labels moved along the sheet."""
    facts = examined.weeks.get(examined.current or "")
    if facts is None or examined.library is None:
        return examined
    stock = replace(examined.library.household.labels, first_free=first_free)
    placed, next_free = labels.moved(facts.labels, stock)
    moved = replace(facts, labels=placed, labels_next_free=next_free)
    return replace(examined, weeks={**examined.weeks, moved.week: moved})
