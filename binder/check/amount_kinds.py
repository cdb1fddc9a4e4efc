"""Values with an amount in them, as kinds that a declaration can ask for."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from binder.check.amounts import measure_of
from binder.check.declare import Found, Schema
from binder.check.leaves import DIGITS, Leaf, number_in
from binder.check.near import did_you_mean
from binder.check.prep_words import CUT
from binder.check.tools import read_tool
from binder.model.household import Tool
from binder.model.quantity import Measure
from binder.problem import Span, error
from binder.source.amount import read_amount, read_percent, read_sum
from binder.source.lexicon import SIZES
from binder.source.near_units import near_unit
from binder.source.place import part_of
from binder.tables.household_weights import form_of

AimKind = Literal["at least", "at most", "about"]
_AIM = re.compile(r"(?:(?P<kind>at least|at most|about)\s+)?(?P<number>.*?[0-9¼½¾⅐-⅞])\s*(?P<unit>[^0-9\s.,/]*)", re.I)
_WRITTEN: Schema = {"anyOf": [{"type": "number", "exclusiveMinimum": 0}, {"type": "string", "pattern": DIGITS}]}


class AmountText(Leaf[Measure]):
    """A number with a unit."""

    def __init__(self, example: str = "2 cup") -> None:
        self.example = example

    def value(self, text: str, span: Span, found: Found) -> Measure | None:
        read, rest, problems = read_amount(text, span)
        found.extend(problems)
        if rest and not problems:
            near = near_unit(rest.split()[0])
            remedies = (*did_you_mean((near,) if near else ()), f"write it like {self.example}")
            start = text.rindex(rest)
            place = part_of(span, text, start, start + len(rest))
            found.append(error(place, "unknown-unit", f'no unit "{rest}"', *remedies))
            return None
        return measure_of(read[0]) if read else None

    def schema(self) -> Schema:
        return dict(_WRITTEN)

    def words(self) -> str:
        return f"an amount, {self.example}"


@dataclass(frozen=True, slots=True)
class Weighed:
    """What was put on the scale: `1 cup chopped` is one cup in the form chopped."""

    measure: Measure
    form: str = ""


class WeighedText(Leaf[Weighed]):
    """A measure, with its size or how the food in it is cut."""

    def value(self, text: str, span: Span, found: Found) -> Weighed | None:
        read, rest, problems = read_amount(text, span)
        found.extend(problems)
        if not read:
            return None
        measure = measure_of(read[0])
        size = SIZES.get(rest.lower())
        words = rest.lower().replace(",", " ").split()
        if size:
            return Weighed(Measure(measure.low, measure.high, measure.unit, size))
        if all(word in CUT for word in words):
            return Weighed(measure, " ".join(form_of(word) for word in words))
        found.append(error(span, "unknown-unit", f'no unit, size or cut "{rest}"', "write it like 1 cup chopped"))
        return None

    def schema(self) -> Schema:
        return dict(_WRITTEN)

    def words(self) -> str:
        return "a measure, 1 cup, 1 medium or 1 cup chopped"


class SumText(Leaf[tuple[Measure, ...]]):
    """Amounts joined by a plus sign."""

    def value(self, text: str, span: Span, found: Found) -> tuple[Measure, ...] | None:
        read, problems = read_sum(text, span)
        found.extend(problems)
        return None if problems else tuple(measure_of(one) for one in read)

    def schema(self) -> Schema:
        return dict(_WRITTEN)

    def words(self) -> str:
        return "an amount, or several joined by +"


class PercentText(Leaf[Fraction]):
    """A share, written in percent."""

    def value(self, text: str, span: Span, found: Found) -> Fraction | None:
        share, problems = read_percent(text, span)
        found.extend(problems)
        return share

    def schema(self) -> Schema:
        return {"type": "string", "pattern": "%|per ?cent"}

    def words(self) -> str:
        return "a percentage, 75 %"


@dataclass(frozen=True, slots=True)
class Wanted:
    """What an eater aims at, before the name says which unit belongs to it."""

    kind: AimKind
    number: Fraction
    unit: str


class AimText(Leaf[Wanted]):
    """`at least 90 g`, `at most 2000 mg`, `1900 kcal`, `5`; `bare` is what a number alone means."""

    def __init__(self, bare: AimKind = "about") -> None:
        self.bare = bare

    def value(self, text: str, span: Span, found: Found) -> Wanted | None:
        parts = _AIM.fullmatch(text)
        number = number_in(parts["number"]) if parts else None
        if parts is None or number is None:
            remedy = "write at least, at most or nothing, then a number and its unit"
            found.append(error(span, "bad-amount", f'no number to aim at in "{text}"', remedy))
            return None
        kind = (parts["kind"] or self.bare).lower()
        known: AimKind = "at least" if kind == "at least" else "at most" if kind == "at most" else "about"
        return Wanted(known, number, parts["unit"])

    def schema(self) -> Schema:
        return {"anyOf": [{"type": "number", "minimum": 0}, {"type": "string", "pattern": DIGITS}]}

    def words(self) -> str:
        return "a number and its unit, with at least or at most in front"


class ToolText(Leaf[Tool]):
    """A piece of equipment."""

    def value(self, text: str, span: Span, found: Found) -> Tool | None:
        tool, problems = read_tool(text, span)
        found.extend(problems)
        return tool

    def schema(self) -> Schema:
        return {"type": "string"}

    def words(self) -> str:
        return "equipment, pressure cooker 6 qt"
