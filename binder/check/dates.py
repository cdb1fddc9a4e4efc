"""Dates, times of day, weeks and lives, as kinds that a declaration can ask for."""

from __future__ import annotations

from datetime import date
from math import ceil

from binder.check.declare import Found, Schema
from binder.check.leaves import DIGITS, Leaf
from binder.problem import Span
from binder.source.days import read_date, read_time, read_week
from binder.source.duration import read_duration


class DateText(Leaf[date]):
    """A date, ISO 8601."""

    def value(self, text: str, span: Span, found: Found) -> date | None:
        day, problems = read_date(text, span)
        found.extend(problems)
        return day

    def schema(self) -> Schema:
        return {"type": "string", "format": "date", "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}$"}

    def words(self) -> str:
        return "a date, 2026-06-07"


class WeekKey(Leaf[date]):
    """An ISO 8601 week, as its Monday."""

    def value(self, text: str, span: Span, found: Found) -> date | None:
        week, problems = read_week(text, span)
        found.extend(problems)
        return date.fromisocalendar(*week, 1) if week else None

    def schema(self) -> Schema:
        return {"type": "string", "pattern": "^[0-9]{4}-W[0-9]{2}$"}

    def words(self) -> str:
        return "a week, 2026-W24"


class Time(Leaf[int]):
    """A time of day as minutes after midnight."""

    def value(self, text: str, span: Span, found: Found) -> int | None:
        minutes, problems = read_time(text, span)
        found.extend(problems)
        return minutes

    def schema(self) -> Schema:
        return {"type": "string", "pattern": "^[0-9]{1,2}:[0-9]{2}$"}

    def words(self) -> str:
        return 'a time of day, "18:30"'


class Minutes(Leaf[int]):
    """How long something takes, in seconds; of a range the upper end."""

    def value(self, text: str, span: Span, found: Found) -> int | None:
        read, problems = read_duration(text, span)
        found.extend(problems)
        return None if read is None else ceil(read.high_seconds)

    def schema(self) -> Schema:
        return {"type": "string", "pattern": DIGITS}

    def words(self) -> str:
        return "a length of time, 2 min 30 s"


class Life(Leaf[tuple[int, int]]):
    """How many days something keeps, shortest and longest."""

    def value(self, text: str, span: Span, found: Found) -> tuple[int, int] | None:
        read, problems = read_duration(text, span)
        found.extend(problems)
        if read is None:
            return None
        # Hours are rounded down to whole days: a day begun is not a day kept.
        per_day = 1 if read.unit == "day" else 86400
        return int(read.low / per_day), int(read.high / per_day)

    def schema(self) -> Schema:
        return {"type": "string", "pattern": DIGITS}

    def words(self) -> str:
        return "a length of time, 3 days"
