"""Amounts: a number with a unit, sums of them, shares in percent."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from binder.problem import Problem, Span, error
from binder.source.lexicon import BEGINS_FOOD, MASS, MEASURED, MULTIPLES, SMALLER, VOLUME, unit_named
from binder.source.numbers import Written, in_figures, written_at
from binder.source.place import part_of


@dataclass(frozen=True, slots=True)
class Measure:
    """`low` to `high` of a canonical unit of the lexicon; `size` is "", small, medium, large or extra large."""

    low: Fraction
    high: Fraction
    unit: str
    size: str = ""


@dataclass(frozen=True, slots=True)
class FoundUnit:
    """A unit in a text: how much of the canonical unit one is, and where its word stands."""

    unit: str
    each: Fraction
    start: int
    end: int


_UNIT = re.compile(
    r"(?:\s|-(?=[^\W\d_]))*"
    r"(?:(?P<fluid>fl(?:\.|uid)?[\s-]*(?:oz\.?|ounces?))(?![\w])"
    r"|(?P<inch>(?:in\.|[\"″”])(?!\w)|in(?=\s+(?:piece|knob|length|chunk)))"
    r"|(?P<word>[^\W\d_]+\.?)(?![\w’'])|(?P<hash>\#)(?=\s))",
    re.IGNORECASE,
)


def unit_at(text: str, start: int) -> FoundUnit | None:
    """The unit that follows, after spaces or a hyphen; None when the next word is no unit."""
    found = _UNIT.match(text, start)
    if not found:
        return None
    if found["fluid"]:
        return FoundUnit("fl-oz", Fraction(1), found.start("fluid"), found.end())
    if found["inch"]:
        return FoundUnit("inch", Fraction(1), found.start("inch"), found.end())
    word = found["word"] or "#"
    begin, end = found.end() - len(word), found.end()
    if multiple := MULTIPLES.get(word.rstrip(".").lower()):
        return FoundUnit(multiple[0], multiple[1], begin, end)
    unit = unit_named(word)
    following = re.match(r"\s+([^\W\d_]+)", text[end:])
    if following and following[1].lower() in BEGINS_FOOD.get(word.lower().removesuffix("s"), ()):
        return None
    # A compound is no unit (`3 leaf-lettuce`) but where it names what is measured (`15-oz-can`).
    if unit is None or (unit not in MEASURED and re.match(r"-\w", text[end : end + 2])):
        return None
    return FoundUnit(unit, Fraction(1), begin, end)


def measure_of(number: Written, unit: FoundUnit, size: str = "") -> Measure | None:
    """Number and unit together; None when the number cannot stand or is not above zero."""
    if number.low is None or number.high is None or number.low < 0 or number.high <= 0:
        return None
    if number.low == 0 and number.high == 0:
        return None
    return Measure(number.low * unit.each, number.high * unit.each, unit.unit, size)


def measure_at(text: str, start: int, words: bool = False) -> tuple[Measure, int] | None:
    """A number with a unit at `start`, and where it ends; None when there is no such."""
    number = written_at(text, start, words)
    unit = unit_at(text, number.end) if number else None
    measure = measure_of(number, unit) if number and unit else None
    return (measure, unit.end) if measure and unit else None


def across(first: Measure, second: Measure) -> Measure | None:
    """The range from one measure to another (`1 tsp to 1 tbsp`), in the smaller unit; None for two kinds."""
    if first.unit == second.unit:
        return Measure(first.low, second.high, first.unit, first.size) if first.low <= second.high else None
    if factor := SMALLER.get((second.unit, first.unit)):
        return Measure(first.low, second.high * factor, first.unit) if first.low <= second.high * factor else None
    if factor := SMALLER.get((first.unit, second.unit)):
        return Measure(first.low * factor, second.high, second.unit) if first.low * factor <= second.high else None
    return None


def alike(first: str, second: str) -> bool:
    """Whether two units are both of mass or both of volume."""
    return any(first in kind and second in kind for kind in (MASS, VOLUME))


_EACH = FoundUnit("each", Fraction(1), 0, 0)


def read_amount(text: str, span: Span) -> tuple[tuple[Measure, ...], str, tuple[Problem, ...]]:
    """One amount (`600 g`, `24 each`, `8 portions`) and the text after it; a number without a unit means pieces.

    Without a number, or with one that cannot stand: no measure and a `bad-amount`.
    """
    start = len(text) - len(text.lstrip())
    number = written_at(text, start)
    if number is None or re.match(r"\s*%", text[number.end :]):
        return (), text, (_bad(text, span, start, len(text.rstrip()), "no amount here"),)
    unit = unit_at(text, number.end)
    measure = measure_of(number, unit or _EACH)
    end = unit.end if unit else number.end
    rest = text[end:].strip()
    if measure is None:
        return (), rest, (_bad(text, span, start, number.end, "an amount must be a number above zero"),)
    return (measure,), rest, ()


def _bad(text: str, span: Span, start: int, stop: int, message: str) -> Problem:
    written = text[start:stop].strip()
    return error(part_of(span, text, start, stop), "bad-amount", f'{message}: "{written}"', "write a number and a unit")


def read_sum(text: str, span: Span) -> tuple[tuple[Measure, ...], tuple[Problem, ...]]:
    """Amounts joined by `+`, one for each compartment: `3 cup + 1 cup + 1 cup`. What follows an amount is a problem."""
    measures: list[Measure] = []
    problems: list[Problem] = []
    start = 0
    for piece in text.split("+"):
        stop = start + len(piece)
        found, rest, faults = read_amount(piece, part_of(span, text, start, stop))
        measures += found
        problems += faults
        if rest and not faults:
            where = start + piece.rindex(rest)
            place = part_of(span, text, where, where + len(rest))
            problems.append(
                error(place, "unknown-unit", f'no unit "{rest}"', "units are g, mL, L, cup, oz, lb, each and the like")
            )
        start = stop + 1
    return tuple(measures), tuple(problems)


def read_percent(text: str, span: Span) -> tuple[Fraction | None, tuple[Problem, ...]]:
    """A share between 0 and 1 from `10 %`; `bad-amount` for anything but a number from 0 to 100 with a percent sign."""
    found = re.fullmatch(r"\s*([0-9]{1,6}(?:[.,][0-9]{1,6})?)\s*(?:%|percent|per cent)\s*", text)
    share = Fraction(found[1].replace(",", ".")) / 100 if found else None
    if share is None or share > 1:
        message = f'no percentage from 0 to 100: "{text.strip()}"'
        return None, (error(span, "bad-amount", message, "write a number and a percent sign: 10 %"),)
    return share, ()


def print_measure(measure: Measure) -> str:
    """A measure in plain words that reads back the same: `1 1/2 cup`, `2-3 medium each`."""
    number = in_figures(measure.low)
    if measure.high != measure.low:
        number = f"{number} to {in_figures(measure.high)}"
    return " ".join(word for word in (number, measure.size, measure.unit) if word)
