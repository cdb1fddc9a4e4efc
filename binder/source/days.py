"""Dates, weekdays, weeks and times of day."""

from __future__ import annotations

import re
from datetime import date, timedelta

from binder.problem import Problem, Span, error
from binder.source.nodes import Node, Scalar, Sequence
from binder.source.place import part_of

Day = int | date
Problems = tuple[Problem, ...]

_NAMES = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_SHORT = {"tues": 1, "weds": 2, "thur": 3, "thurs": 3}
_WEEKDAYS = {name[:3]: day for day, name in enumerate(_NAMES)} | {name: day for day, name in enumerate(_NAMES)} | _SHORT
_GROUPS = {
    "weekdays": (0, 1, 2, 3, 4),
    "weekend": (5, 6),
    "weekends": (5, 6),
    "daily": tuple(range(7)),
    "every day": tuple(range(7)),
}
_ISO_DATE = re.compile(r"([0-9]{4})-([0-9]{2})-([0-9]{2})")
_DAYS_HINT = "write mon, mon-fri, [tue, thu] or a date: 2026-06-08"
_MOST_DAYS = 31


def iso_date(text: str) -> date | None:
    """A date written 2026-06-08; None for any other text and for a day that does not exist."""
    found = _ISO_DATE.fullmatch(text.strip())
    try:
        return date(int(found[1]), int(found[2]), int(found[3])) if found else None
    except ValueError:
        return None


def read_date(text: str, span: Span) -> tuple[date | None, Problems]:
    """An ISO 8601 date; anything else is `bad-date`."""
    day = iso_date(text)
    if day:
        return day, ()
    message = f'no date: "{text.strip()}"'
    if _ISO_DATE.fullmatch(text.strip()):
        message = f"there is no {text.strip()} in the calendar"
    return None, (error(span, "bad-date", message, "write year, month and day: 2026-06-08"),)


def read_week(text: str, span: Span) -> tuple[tuple[int, int] | None, Problems]:
    """Year and week of an ISO 8601 week, `2026-W24`; any other text, and a week its year has not, is `bad-week`."""
    found = re.fullmatch(r"\s*([0-9]{4})-?[Ww]([0-9]{1,2})\s*", text)
    if found:
        year, week = int(found[1]), int(found[2])
        try:
            date.fromisocalendar(year, week, 1)
        except ValueError:
            pass
        else:
            return (year, week), ()
    return None, (error(span, "bad-week", f'no week: "{text.strip()}"', "write the ISO week: 2026-W24"),)


def read_time(text: str, span: Span) -> tuple[int | None, Problems]:
    """Minutes after midnight of `13:00`; anything else is `bad-date`."""
    found = re.fullmatch(r"\s*([0-9]{1,2}):([0-9]{2})\s*", text)
    if found and int(found[1]) < 24 and int(found[2]) < 60:
        return int(found[1]) * 60 + int(found[2]), ()
    remedy = 'write hours and minutes of a day of 24 hours, in quotes: "13:00"'
    return None, (error(span, "bad-date", f'no time of day: "{text.strip()}"', remedy),)


def read_days(text: str, span: Span) -> tuple[tuple[Day, ...], Problems]:
    """Weekdays (0 is Monday) and dates in the order written, each once: `mon-fri`, `tue, thu`, `2026-06-08`."""
    days: list[Day] = []
    problems: list[Problem] = []
    for found in re.finditer(r"[^,;\s](?:[^,;]*[^,;\s])?", text):
        some = _some_days(re.sub(r"\s+", " ", found[0].lower()))
        if isinstance(some, str):
            problems.append(error(part_of(span, text, *found.span()), "bad-date", some, _DAYS_HINT))
        else:
            days += some
    if not days and not problems:
        problems.append(error(span, "bad-date", "no day", _DAYS_HINT))
    return tuple(dict.fromkeys(days)), tuple(problems)


def days_of(node: Node) -> tuple[tuple[Day, ...], Problems]:
    """The days of a value: one text, or a list of texts."""
    if isinstance(node, Scalar):
        return read_days(node.text, node.span)
    if not isinstance(node, Sequence):
        return (), (error(node.span, "wrong-type", "a map where days are expected", _DAYS_HINT),)
    days: list[Day] = []
    problems: list[Problem] = []
    for item in node.items:
        if isinstance(item, Scalar):
            some, faults = read_days(item.text, item.span)
            days += some
            problems += faults
        else:
            problems.append(error(item.span, "wrong-type", "a list or a map where a day is expected", _DAYS_HINT))
    return tuple(dict.fromkeys(days)), tuple(problems)


def _one_day(text: str) -> Day | None:
    word = text.strip().removesuffix(".")
    if word in _WEEKDAYS:
        return _WEEKDAYS[word]
    return _WEEKDAYS.get(word.removesuffix("s"), iso_date(word)) if len(word) > 4 else iso_date(word)


def _some_days(text: str) -> tuple[Day, ...] | str:
    """The days of one part between commas; what is wrong with it when there are none."""
    if text in _GROUPS:
        return _GROUPS[text]
    day = _one_day(text)
    if day is not None:
        return (day,)
    both = re.fullmatch(r"([a-z.]+)\s*(?:[-–—]|to|until)\s*([a-z.]+)", text) or re.fullmatch(
        r"([0-9-]{10})\s*(?:[–—]|\s-\s|to|until)\s*([0-9-]{10})", text
    )
    first, last = (_one_day(both[1]), _one_day(both[2])) if both else (None, None)
    if isinstance(first, int) and isinstance(last, int):
        return tuple(range(first, last + 1)) if first <= last else f'"{text}" runs past the end of the week'
    if isinstance(first, date) and isinstance(last, date):
        count = (last - first).days + 1
        return (
            tuple(first + timedelta(n) for n in range(count)) if 0 < count <= _MOST_DAYS else f'"{text}" runs backwards'
        )
    return f'no day: "{text}"'
