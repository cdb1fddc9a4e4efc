"""The `[...]` that ends a step: how long, attended or not, with what."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from binder.problem import Problem, Span, error
from binder.source.duration import duration_at, near_time_unit
from binder.source.numbers import number_at
from binder.source.place import part_of
from binder.source.temperature import Temperature, temperature_in


@dataclass(frozen=True, slots=True)
class Use:
    """A tool a step keeps, in the words written (`pressure cooker 6 qt`); `2 burners` is `burners`, count 2."""

    words: str
    temperature: Temperature | None
    count: int
    span: Span


@dataclass(frozen=True, slots=True)
class StepNote:
    """Minutes of the step (of one portion where `per`), the upper end of a range; None when none are written."""

    minutes: Fraction | None
    unattended: bool
    per: Literal["portion"] | None
    uses: tuple[Use, ...]
    span: Span


MOST_CHARACTERS = 500
MOST_TOOLS = 12
_PART = re.compile(r"[^,;]+(?:,(?=[0-9])[^,;]+)*")
_UNATTENDED = re.compile(r"\b(?:unattended|hands[- ]off)\b", re.IGNORECASE)
_ATTENDED = re.compile(r"\b(?:attended|hands[- ]on|active)\b", re.IGNORECASE)
_PER = re.compile(r"\s*(?:(?:per|each|a|for each)\s+(?:portion|serving)s?)?\s*$", re.IGNORECASE)
_OVEN = re.compile(r"(?:(?:a|an|the|hot|preheated|pre-heated)\s+)*oven\b(?P<after>.*)", re.IGNORECASE)
_RACKS = re.compile(r"[0-9]+\s+(?:racks?|shelf|shelves)", re.IGNORECASE)
_BESIDE_AN_OVEN = frozenset(
    {"at", "to", "hot", "preheated", "pre-heated", "fan", "upper", "lower", "middle", "top", "bottom", "shelf", "rack"}
)
_ROUGHLY = re.compile(r"(?:about|approx\.?|around|~)\s*", re.IGNORECASE)


@dataclass(slots=True)
class _Note:
    """A note as it is being read."""

    text: str
    span: Span
    minutes: Fraction | None = None
    unattended: bool = False
    per: Literal["portion"] | None = None
    uses: list[Use] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)

    def fault(self, code: str, message: str, start: int, stop: int, *remedies: str) -> None:
        self.problems.append(error(part_of(self.span, self.text, start, stop), code, message, *remedies))


def read_step_note(text: str, span: Span) -> tuple[StepNote, tuple[Problem, ...]]:
    """What stands between the brackets; `span` covers `text`. A part that is not understood is a problem at that part.

    Problems: `bad-amount` for a time or a number that cannot be, `wrong-type` for a temperature without an appliance.
    """
    note = _Note(text, span)
    if len(text) > MOST_CHARACTERS:
        note.fault("wrong-type", "more than a time and tools stand in these brackets", 0, len(text))
    else:
        for found in _PART.finditer(text):
            _part(note, found.start(), found.end())
    return StepNote(note.minutes, note.unattended, note.per, tuple(note.uses), span), tuple(note.problems)


def _part(note: _Note, start: int, stop: int) -> None:
    """One part between commas: whether attended, how long, or a tool."""
    part = note.text[start:stop]
    if _UNATTENDED.search(part):
        note.unattended = True
        part = _UNATTENDED.sub(lambda found: " " * len(found[0]), part, count=1)
    elif _ATTENDED.search(part):
        part = _ATTENDED.sub(lambda found: " " * len(found[0]), part, count=1)
    start, part = start + len(part) - len(part.lstrip()), part.strip()
    stop = start + len(part)
    if not part:
        return
    roughly = _ROUGHLY.match(part)
    time = duration_at(part, roughly.end() if roughly else 0)
    if time and (per := _PER.match(part, time[1])):
        if note.minutes is not None:
            note.fault("bad-amount", f'a second time: "{part}"', start, stop, "write the whole time once")
            return
        note.minutes = time[0].high_seconds / 60
        note.per = "portion" if per[0].strip() else None
    else:
        _tool(note, part, start, stop)


def _oven(note: _Note, after: str, hot: bool, start: int, stop: int) -> str:
    """The oven in the plan's words, with its racks; what stands beside it and is no temperature is a problem."""
    part, rest = note.text[start:stop], after.strip(" ,@")
    if _RACKS.fullmatch(rest):
        return f"oven {rest}"
    if not hot and re.search(r"\b[0-9]{3}\b", rest):
        note.fault("bad-amount", f'"{part}": °F or °C?', start, stop, f"write {part} F or {part} C")
    elif not set(rest.lower().split()) <= _BESIDE_AN_OVEN:
        note.fault(
            "bad-amount", f'no temperature of an oven: "{part}"', start, stop, "write one: oven 400 F, oven 200 C"
        )
    return "oven"


def _tool(note: _Note, part: str, start: int, stop: int) -> None:
    """A tool with its temperature or its number."""
    hot = temperature_in(part)
    words = " ".join((part[: hot[1]] + part[hot[2] :]).split()) if hot else part
    span = part_of(note.span, note.text, start, stop)
    number = number_at(words, 0, words=False)
    if not words.strip("@ at"):
        note.fault("wrong-type", f'what is at this temperature? "{part}"', start, stop, f"write: oven {part}")
    elif re.match(r"[-−]\s?[0-9]", words):
        note.fault("bad-amount", f'a time or a number below zero: "{part}"', start, stop, "write a time: 35 min")
    elif number is None:
        if oven := _OVEN.fullmatch(words):
            words = _oven(note, oven["after"], hot is not None, start, stop)
        note.uses.append(Use(re.sub(r"\s+(?:at|to|@)$", "", words), hot[0] if hot else None, 1, span))
    else:
        named = words[number.end :].strip(" -x×")
        whole = number.value is not None and number.value.denominator == 1 and 1 <= number.value <= MOST_TOOLS
        first = named.split(" ")[0]
        if not named or not whole or near_time_unit(first) or not first[:1].isalpha():
            message = f'no time and no number of tools: "{part}"'
            note.fault("bad-amount", message, start, stop, "write a time (35 min, 1 h 15 min) or a tool (2 burners)")
            return
        assert number.value is not None
        note.uses.append(Use(named, hot[0] if hot else None, int(number.value), span))
