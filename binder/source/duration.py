"""How long: `2 min 30 s`, `1 1/2 h`, `3-4 days`."""

from __future__ import annotations

import difflib
import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from binder.problem import Problem, Span, error
from binder.source.numbers import Written, written_at


@dataclass(frozen=True, slots=True)
class Duration:
    """`low` to `high`, in seconds or, when written in days or more, in days. A month counts 30 days, a year 365."""

    low: Fraction
    high: Fraction
    unit: Literal["s", "day"]

    @property
    def high_seconds(self) -> Fraction:
        """The upper end in seconds."""
        return self.high * 86400 if self.unit == "day" else self.high


_SECONDS = {"s": 1, "sec": 1, "second": 1, "min": 60, "minute": 60, "m": 60, "h": 3600, "hr": 3600, "hour": 3600}
_DAYS = {"d": 1, "day": 1, "wk": 7, "week": 7, "mo": 30, "month": 30, "yr": 365, "year": 365}
_WORD = re.compile(r"[\s-]*([^\W\d_]+)\.?(?![\w])")
_GLUED = re.compile(r"\s*([^\W\d_]+)(?=\s?[0-9])")
_THEN = re.compile(r"(?:\s*,)?\s*(?:and\s+|plus\s+)?(?=[0-9½¼¾⅓⅔])")
_TO = re.compile(r"\s*[-–—]\s*|\s+(?:up\s+)?to\s+")


def _unit(text: str, start: int) -> tuple[int, Literal["s", "day"], int] | None:
    """Seconds or days of the unit that follows, which of the two, and where its word ends."""
    found = _WORD.match(text, start) or _GLUED.match(text, start)
    if not found:
        return None
    word = found[1].lower()
    word = word if word in _SECONDS or word in _DAYS else word.removesuffix("s")
    if word in _SECONDS:
        return _SECONDS[word], "s", found.end()
    return (_DAYS[word], "day", found.end()) if word in _DAYS else None


def duration_at(text: str, start: int = 0) -> tuple[Duration, int] | None:
    """The duration that begins at `start` and where it ends; None when there is none or it is zero."""
    first = _single(text, start)
    if first is None:
        return None
    link = _TO.match(text, first[1])
    second = _single(text, link.end()) if link else None
    if second and second[0].unit == first[0].unit and second[0].high >= first[0].low:
        return Duration(first[0].low, second[0].high, first[0].unit), second[1]
    return first


def _single(text: str, start: int) -> tuple[Duration, int] | None:
    number = written_at(text, start)
    unit = _unit(text, number.end) if number else None
    if not number or not unit or not _stands(number):
        return None
    assert number.low is not None and number.high is not None
    size, kind, end = unit
    low, high = number.low * size, number.high * size
    while (then := _THEN.match(text, end)) and (more := written_at(text, then.end(), words=False)):
        smaller = _unit(text, more.end)
        if more.low is None or more.high is None:
            break
        if smaller is None and size in (60, 3600) and not text[more.end :].strip(" ."):
            # `1 h 15`, `2 min 30`: the next smaller unit is meant.
            smaller = (size // 60, "s", more.end)
        if smaller is None or smaller[1] != kind or smaller[0] >= size:
            break
        size, kind, end = smaller
        low, high = low + more.low * size, high + more.high * size
    return Duration(low, high, kind), end


def _stands(number: Written) -> bool:
    return number.low is not None and number.high is not None and number.high > 0


def read_duration(text: str, span: Span) -> tuple[Duration | None, tuple[Problem, ...]]:
    """A text that is a duration and nothing else; otherwise None and a `bad-amount`."""
    start = len(text) - len(text.lstrip())
    found = duration_at(text, start)
    if found and not text[found[1] :].strip(" ."):
        return found[0], ()
    message = f'no length of time: "{text.strip()}"'
    return None, (
        error(span, "bad-amount", message, "write a number and a unit: 35 min, 2 min 30 s, 3 days, 2 months"),
    )


def near_time_unit(word: str) -> bool:
    """Whether a word is a unit of time, or one written wrong."""
    names = [*_SECONDS, *_DAYS, "minutes", "seconds", "hours", "mins", "hrs"]
    return bool(difflib.get_close_matches(word.lower(), [name for name in names if len(name) > 1], 1, 0.75))
