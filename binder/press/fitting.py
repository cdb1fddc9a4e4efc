"""Fitting words into a box: smaller down to a floor, then shorter, never over the edge.

Widths are the fonts' own advance widths, without kerning (which mostly draws letters closer) and with some slack.
"""

from __future__ import annotations

import io
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from math import floor

# WeasyPrint depends on fontTools, so it is there whenever a label can be drawn.
from fontTools.ttLib import TTFont

from binder.press.theme import Theme, faces

LARGEST_PT, SMALLEST_PT, STEP_PT = 11.0, 7.0, 0.5
LEADING = 1.18
ELLIPSIS = "…"
_SLACK = 1.02
# How far what leads may stand out: half as large again is told apart at a glance, more unsettles the sheet.
MOST_LEAD = 1.5
# An advance for a character that the font does not have: as wide as wide fallback fonts are.
_UNKNOWN_EM, _UNKNOWN_WIDE_EM = 0.72, 1.05
_WIDE_FROM = "\u2e80"


@dataclass(frozen=True, slots=True)
class Face:
    """Advance widths in em by character."""

    advances: Mapping[str, float]

    def width(self, text: str, size: float) -> float:
        """Width of the text at `size`, in the unit of `size`."""
        return sum(self._advance(character) for character in text) * size * _SLACK

    def _advance(self, character: str) -> float:
        known = self.advances.get(character)
        if known is not None:
            return known
        return _UNKNOWN_WIDE_EM if character >= _WIDE_FROM else _UNKNOWN_EM


@dataclass(frozen=True, slots=True)
class Fact:
    """One thing a label says. `lines`: how many it may take; `whole`: it is shortened last of all."""

    name: str
    text: str
    face: Face
    lines: int = 1
    whole: bool = False
    boxed: bool = False
    lead: bool = False  # grows above the others while there is room


@dataclass(frozen=True, slots=True)
class Fitted:
    """The facts as lines, those that lead at `lead_pt`, the rest at `size_pt`; `shortened`: those that lost words."""

    size_pt: float
    facts: tuple[tuple[Fact, tuple[str, ...]], ...]
    shortened: tuple[str, ...] = ()
    lead_pt: float = 0.0

    def pt(self, fact: Fact) -> float:
        """The size of one fact's words."""
        return self.lead_pt if fact.lead and self.lead_pt else self.size_pt


# Rule and padding of a boxed fact, in pt: above and below together, left and right together.
BOX_HIGH_PT, BOX_WIDE_PT = 3.2, 6.0


def face(theme: Theme, family: str, weight: int) -> Face:
    """The theme's face nearest in weight; without one, every advance is a wide guess."""
    found = sorted(
        (f for f in faces(theme) if f.family == family and not f.italic), key=lambda f: abs(f.weight - weight)
    )
    return Face(_advances(theme.fonts[found[0].file]) if found else {})


def fit(facts: Sequence[Fact], width_pt: float, height_pt: float, largest_pt: float = LARGEST_PT) -> Fitted:
    """The largest size at which everything is said; at the floor, what must be shortened is."""
    said = [fact for fact in facts if fact.text.strip()]
    size = largest_pt
    while size >= SMALLEST_PT:
        lines = [_wrapped(fact, size, width_pt) for fact in said]
        if all(len(found) <= fact.lines for fact, found in zip(said, lines, strict=True)):
            fitted = tuple(zip(said, lines, strict=True))
            if _height(fitted, size) <= height_pt and not _cut_words(fitted):
                return _led(Fitted(size, fitted), width_pt, height_pt)
        size -= STEP_PT
    return _shortened(said, width_pt, height_pt)


def _led(fitted: Fitted, width_pt: float, height_pt: float) -> Fitted:
    """What is looked for first, larger: as far as its lines stay what they are and the label has room."""
    leads = [(fact, lines) for fact, lines in fitted.facts if fact.lead]
    count = sum(len(lines) for _, lines in leads)
    if not count:
        return fitted
    free = height_pt - _height(fitted.facts, fitted.size_pt)
    size = min(fitted.size_pt * MOST_LEAD, fitted.size_pt + free / (count * LEADING))
    for fact, lines in leads:
        widest = max(fact.face.width(line, 1.0) for line in lines)
        size = min(size, _room(fact, width_pt) / widest)
    size = floor(size / STEP_PT) * STEP_PT
    return replace(fitted, lead_pt=size) if size > fitted.size_pt else fitted


def words(text: str) -> list[str]:
    """The text's words; a no-break space does not part them."""
    return [word for word in text.split(" ") if word]


def height_pt(fitted: Fitted) -> float:
    """How high the lines stand above each other."""
    sizes = sum(len(lines) * fitted.pt(fact) for fact, lines in fitted.facts)
    return sizes * LEADING + sum(BOX_HIGH_PT for fact, _ in fitted.facts if fact.boxed)


def _height(fitted: Sequence[tuple[Fact, Sequence[str]]], size: float) -> float:
    boxes = sum(BOX_HIGH_PT for fact, _ in fitted if fact.boxed)
    return sum(len(lines) for _, lines in fitted) * size * LEADING + boxes


def _cut_words(fitted: Sequence[tuple[Fact, Sequence[str]]]) -> bool:
    return any(" ".join(lines) != " ".join(words(fact.text)) for fact, lines in fitted)


def _room(fact: Fact, width_pt: float) -> float:
    return width_pt - (BOX_WIDE_PT if fact.boxed else 0)


def _wrapped(fact: Fact, size: float, width_pt: float) -> tuple[str, ...]:
    """The text broken between words; a word wider than the line is cut."""
    room = _room(fact, width_pt)
    lines: list[str] = []
    for word in words(fact.text):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and fact.face.width(longer, size) <= room:
            lines[-1] = longer
        else:
            lines.append(_cut(word, fact.face, size, room))
    return tuple(lines)


def _cut(word: str, face_: Face, size: float, room: float) -> str:
    if face_.width(word, size) <= room:
        return word
    while word and face_.width(word + ELLIPSIS, size) > room:
        word = word[:-1]
    return word + ELLIPSIS


def _shortened(said: Sequence[Fact], width_pt: float, height_pt: float) -> Fitted:
    """At the smallest size: one line for each fact but the whole ones, then facts left out from the end."""
    size = SMALLEST_PT
    kept = [
        (fact, lines if fact.whole else _first(fact, lines, 1, size, width_pt))
        for fact in said
        for lines in (_wrapped(fact, size, width_pt),)
    ]
    while _height(kept, size) > height_pt and any(not fact.whole for fact, _ in kept[2:]):
        last = max(n for n, (fact, _) in enumerate(kept) if n >= 2 and not fact.whole)
        del kept[last]
    while _height(kept, size) > height_pt and (long := [n for n, (_, lines) in enumerate(kept) if len(lines) > 1]):
        fact, lines = kept[long[0]]
        kept[long[0]] = (fact, _first(fact, lines, len(lines) - 1, size, width_pt))
    while len(kept) > 1 and _height(kept, size) > height_pt:
        kept.pop()
    whole = {fact.name for fact, lines in kept if " ".join(lines) == " ".join(words(fact.text))}
    return Fitted(size, tuple(kept), tuple(fact.name for fact in said if fact.name not in whole))


def _first(fact: Fact, lines: Sequence[str], count: int, size: float, width_pt: float) -> tuple[str, ...]:
    """The first lines; the last of them ends in an ellipsis after a whole word when words are left out."""
    if len(lines) <= count:
        return tuple(lines)
    room = _room(fact, width_pt)
    said = words(lines[count - 1].removesuffix(ELLIPSIS))
    while len(said) > 1 and fact.face.width(f"{' '.join(said)} {ELLIPSIS}", size) > room:
        said.pop()
    last = f"{' '.join(said)} {ELLIPSIS}"
    if fact.face.width(last, size) > room:
        last = _cut(said[0], fact.face, size, room)
    return (*lines[: count - 1], last)


@lru_cache(maxsize=16)
def _advances(content: bytes) -> Mapping[str, float]:
    with TTFont(io.BytesIO(content), lazy=True) as font:
        em = font["head"].unitsPerEm
        widths = font["hmtx"].metrics
        return {chr(code): widths[glyph][0] / em for code, glyph in font.getBestCmap().items()}
