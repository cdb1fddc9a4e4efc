"""What stands beside an amount: the size of one pack, the same amount in other units, further amounts."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from binder.problem import Problem, Span
from binder.source.amount import Measure, alike, measure_at
from binder.source.lexicon import HEAPS, HOLDERS, MEASURED


@dataclass(slots=True)
class Front:
    """What has been read so far, and `end`, where the rest of the line begins. Lives within one reading only.

    `several`: the amount is meant for each food that follows (`1 tsp each cumin, coriander`); they stay one phrase.
    """

    text: str
    span: Span
    end: int = 0
    amounts: list[Measure] = field(default_factory=list)
    pack: Measure | None = None
    equivalent: Measure | None = None
    flags: set[str] = field(default_factory=set)
    notes: list[str] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    several: bool = False

    def take(self, pattern: re.Pattern[str]) -> re.Match[str] | None:
        """Step over a pattern when it stands next."""
        found = pattern.match(self.text, self.end)
        if found:
            self.end = found.end()
        return found


PAREN = re.compile(r"\s*\(([^()]*)\)")
_JOIN = re.compile(r"\s*(?:\+|&|,?\s*plus\b|and\b|,)?\s*", re.IGNORECASE)
_SLASH = re.compile(r"\s*[/|=]\s*")
OF = re.compile(r"\s+(?:of\b(?:\s+(?:the|an?)\b)?|an?(?=\s))", re.IGNORECASE)
_EACH = re.compile(r"\s+each\b(?:\s+of\b|:)?", re.IGNORECASE)


def read_further(front: Front) -> None:
    """After the first amount: others to be added, the same in other units, packed, `of`."""
    while True:
        _notes_after(front)
        joined = _JOIN.match(front.text, front.end)
        nearest = joined.end() if joined else front.end
        more = measure_at(front.text, nearest)
        if not more or nearest == front.end:
            break
        plain = not joined or joined[0].strip(" ,") == ""
        # Pieces are added only where a word says so: `1 head plus 2 cloves garlic`.
        if more[0].unit not in MEASURED and (plain or more[0].unit == "each"):
            break
        if front.amounts[-1].unit == more[0].unit or (plain and not alike(front.amounts[-1].unit, more[0].unit)):
            break
        front.amounts.append(more[0])
        front.end = more[1]
    _packed_after(front)
    if front.amounts[-1].unit in MEASURED and front.take(_EACH):
        front.several = True
    front.take(OF)
    _packed_after(front)


def _packed_after(front: Front) -> None:
    """`2 cups packed kale`, `1 cup (packed) sugar`, `1 tbsp, heaped`: but a good oil is no heap."""
    found = re.compile(
        r",?\s*(\(\s*)?((?:(?:firmly|tightly|lightly|loosely|well) )?packed|heap(?:ed|ing)|level)\b(?(1)\s*\))"
        r"(?=\s*,?\s*\w)",
        re.I,
    ).match(front.text, front.end)
    if found and front.amounts[-1].unit in MEASURED | {"handful"}:
        front.flags.add(HEAPS[found[2].lower()])
        front.end = found.end()


def _notes_after(front: Front) -> None:
    """Parentheses and slashes right after an amount: the size of one can, or the same amount in other units."""
    while paren := PAREN.match(front.text, front.end):
        stated = stated_measure(paren[1])
        if not stated:
            return
        front.end = paren.end()
        settle(front, paren[1].strip(), stated)
    other = _slashed(front.text, front.end)
    if other and other[0].unit in MEASURED:
        front.end = other[1]
        if front.equivalent is None:
            front.equivalent = other[0]


def after_slash(text: str, start: int) -> int:
    """Past the same size in other units: `400g/14oz tin`."""
    other = _slashed(text, start)
    return other[1] if other and other[0].unit in MEASURED else start


def _slashed(text: str, start: int) -> tuple[Measure, int] | None:
    """The measure behind a slash and where it ends; `500g/1lb 2oz` has two words for the one amount."""
    slash = _SLASH.match(text, start)
    found = measure_at(text, slash.end()) if slash else None
    if not found or found[0].unit != "lb":
        return found
    gap = len(text[found[1] :]) - len(text[found[1] :].lstrip())
    ounces = measure_at(text, found[1] + gap)
    if not ounces or ounces[0].unit != "oz":
        return found
    pounds, more = found[0], ounces[0]
    return Measure(pounds.low + more.low / 16, pounds.high + more.high / 16, "lb"), ounces[1]


def settle(front: Front, note: str, stated: tuple[Measure, bool | None]) -> None:
    """Keep a measure in parentheses as what one pack holds or as the whole amount in other units."""
    measure, whole = stated
    counted = front.amounts[-1].unit if front.amounts else "each"
    if measure.unit == "inch" and counted not in ("piece", "knob"):
        front.notes.append(note)
        return
    each = whole is False or (whole is None and counted in HOLDERS and front.pack is None)
    if each and front.pack is None and counted not in MEASURED:
        front.pack = measure
        return
    # A second size of the same pack (`15-ounce can (425 g)`) is only a note.
    if not each and front.equivalent is None and not (whole is None and front.pack):
        front.equivalent = measure
    front.notes.append(note)


_STATED_BEFORE = re.compile(
    r"\s*(?:(?:about|approx\.?|approximately|around|roughly|circa|ca\.?|[~≈=])\s*)?", re.IGNORECASE
)
_STATED_AFTER = re.compile(
    r"\s*(?P<each>each|apiece|per (?:can|tin|pack|piece)|a piece)?(?P<whole>\s*(?:in )?total|\s*altogether|\s*in all)?"
    r"\s*(?:drained|net|weight|drained weight|net weight)?\s*(?:[,;/|\[]|or\b|$).*",
    re.IGNORECASE | re.DOTALL,
)


def stated_measure(inside: str) -> tuple[Measure, bool | None] | None:
    """A mass or volume that fills parentheses; with it True for a total, False for each, None when it does not say."""
    before = _STATED_BEFORE.match(inside)
    found = measure_at(inside, before.end() if before else 0)
    if not found or not (found[0].unit in MEASURED or found[0].unit in ("stick", "inch")):
        return None
    after = _STATED_AFTER.fullmatch(inside[found[1] :])
    if not after:
        return None
    return found[0], True if after["whole"] else False if after["each"] else None
