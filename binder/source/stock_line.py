"""One lot on hand: `18 oz tomato passata, opened 2026-06-03`."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date

from binder.problem import Problem, Span
from binder.source.days import read_date
from binder.source.line import MOST_CHARACTERS, Line, read_line
from binder.source.place import part_of


@dataclass(frozen=True, slots=True)
class StockLine:
    """The line before the first date or allergen word, and what follows it.

    `contains` and `may_contain` are words as written, None when the line says nothing (not known); `rest` are parts
    that are not understood, as written.
    """

    line: Line
    opened: date | None = None
    made: date | None = None
    best_before: date | None = None
    bought: date | None = None
    frozen: date | None = None
    thawed: date | None = None
    contains: tuple[str, ...] | None = None
    may_contain: tuple[str, ...] | None = None
    rest: tuple[str, ...] = ()


_FIELDS = {
    "opened": "opened",
    "made": "made",
    "cooked": "made",
    "best before": "best_before",
    "best by": "best_before",
    "use by": "best_before",
    "expires": "best_before",
    "bought": "bought",
    "frozen": "frozen",
    "thawed": "thawed",
}
# Opened or best before needs its date, whatever stands there; `made with love` does not.
_DATED = re.compile(
    r"(?P<word>(?P<state>made|cooked|frozen|thawed|bought)|opened|best[ -](?:before|by)|use[ -]by|expires)"
    r"(?:\s+on)?(?:\s*:)?(?:\s+(?P<date>(?(state)(?=\S*[0-9]))\S.*)|\s*$)",
    re.IGNORECASE,
)
# Also states of a food: without a date they belong to the line.
_STATES = ("frozen", "cooked", "thawed", "made")
_ALLERGENS = re.compile(
    r"(?P<may>may\s+)?contains?\b\s*:?\s*(?:traces\s+of\s+)?(?P<words>.*)", re.IGNORECASE | re.DOTALL
)
_NONE = ("none", "nothing", "no allergens")


def read_stock_line(text: str, span: Span) -> tuple[StockLine, tuple[Problem, ...]]:
    """A line as an ingredient line, then dates and allergens. A date that is none is `bad-date`."""
    parts = _parts(text) if len(text) <= MOST_CHARACTERS else []
    tail = next((n for n, (start, stop) in enumerate(parts) if n and _begins_tail(text[start:stop])), len(parts))
    end = parts[tail - 1][1] if parts else len(text)
    line, problems = read_line(text[:end], part_of(span, text, 0, end))
    faults = list(problems)
    dates: dict[str, date] = {}
    words: dict[str, list[str]] = {}
    rest: list[str] = []
    listing: list[str] = rest
    for start, stop in parts[tail:]:
        part = text[start:stop]
        if dated := _DATED.fullmatch(part):
            where = dated.start("date") if dated["date"] else 0
            day, wrong = read_date(dated["date"] or part, part_of(span, text, start + where, stop))
            faults += wrong
            if day:
                dates[_FIELDS[re.sub(r"[\s-]+", " ", dated["word"].lower())]] = day
            listing = rest
        elif named := _ALLERGENS.match(part):
            listing = words.setdefault("may_contain" if named["may"] else "contains", [])
            listing += _names(named["words"])
        else:
            listing += _names(part) if listing is not rest else [part]
    allergens = {key: tuple(dict.fromkeys(names)) for key, names in words.items()}
    stock = StockLine(
        line,
        **dates,
        contains=allergens.get("contains"),
        may_contain=allergens.get("may_contain"),
        rest=tuple(rest),
    )
    return stock, tuple(faults)


def _parts(text: str) -> list[tuple[int, int]]:
    """Where the parts between commas stand, without the spaces around them; commas in parentheses are none."""
    found = re.finditer(r"(?:\([^()]*\)|,(?=[0-9])|[^,;])+", text)
    spans = []
    for part in found:
        if part[0].strip():
            start = part.start() + len(part[0]) - len(part[0].lstrip())
            spans.append((start, start + len(part[0].strip())))
    return spans


def _begins_tail(part: str) -> bool:
    dated = _DATED.fullmatch(part)
    if dated:
        return bool(dated["date"]) or dated["word"].lower() not in _STATES
    return bool(_ALLERGENS.match(part))


def _names(listed: str) -> list[str]:
    names = [name.strip(" .") for name in re.split(r"\s+and\s+|\s*&\s*|,", listed)]
    return [name for name in names if name and name.lower() not in _NONE]
