"""Days, names and counts in the words of a problem."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date


def day_in_words(day: date) -> str:
    """`Friday 12 June`."""
    return f"{day:%A} {day.day} {day:%B}"


def days_in_words(days: Sequence[date]) -> str:
    """`Thursday 11 June and Friday 12 June`."""
    return listed(day_in_words(day) for day in days)


def listed(words: Iterable[str], last: str = "and") -> str:
    """`a`, `a and b`, `a, b and c`; another word before the last one by `last`."""
    items = list(words)
    if len(items) < 2:
        return "".join(items)
    return ", ".join(items[:-1]) + f" {last} " + items[-1]


def counted(count: int, noun: str) -> str:
    """`1 day`, `2 days`."""
    return f"{count} {noun}{'' if count == 1 else 's'}"
