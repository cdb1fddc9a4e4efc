"""The single values that a declaration can ask for: words, numbers, amounts, dates, addresses."""

from __future__ import annotations

import re
from fractions import Fraction
from urllib.parse import urlsplit

from binder.check.declare import Found, Kind, Said, Schema, T, is_empty, wrong_form
from binder.check.near import did_you_mean, nearest, quoted, ways_out
from binder.problem import Problem, Span, error
from binder.source.nodes import Node, Scalar
from binder.source.numbers import number_at

_TEXT: Schema = {"type": ["string", "number", "boolean"]}
# More words than these are not listed in a message.
_FEW = 16
DIGITS = "[0-9¼½¾⅐-⅞]"


class Leaf(Kind[Said[T]]):
    """A single value: subclasses read its text."""

    def read(self, node: Node, found: Found) -> Said[T] | None:
        if not isinstance(node, Scalar) or is_empty(node):
            found.append(wrong_form(node, self.words()))
            return None
        text = " ".join(node.text.split())
        value = self.value(text, node.span, found)
        return None if value is None else Said(value, node.text, node.span)

    def value(self, text: str, span: Span, found: Found) -> T | None:
        """What the text (single spaces) says; None and a problem when it cannot stand."""
        raise NotImplementedError


class Text(Leaf[str]):
    """Any text."""

    def value(self, text: str, span: Span, found: Found) -> str | None:
        return text

    def schema(self) -> Schema:
        return dict(_TEXT)

    def words(self) -> str:
        return "text"


class OneOf(Leaf[str]):
    """One of a few words, letter case aside."""

    def __init__(self, allowed: tuple[str, ...]) -> None:
        self.allowed = allowed

    def value(self, text: str, span: Span, found: Found) -> str | None:
        word = text.lower()
        if word in self.allowed:
            return word
        few = len(self.allowed) <= _FEW
        remedies = ways_out(text, self.allowed, "one of") if few else did_you_mean(nearest(text, self.allowed))
        found.append(error(span, "wrong-type", f'"{text}" is not one of the words that can stand here', *remedies))
        return None

    def schema(self) -> Schema:
        return {"enum": list(self.allowed)}

    def words(self) -> str:
        return f"the word {quoted(self.allowed)}" if len(self.allowed) <= _FEW else "a row of the table"


class YesNo(Leaf[bool]):
    """Yes or no."""

    def value(self, text: str, span: Span, found: Found) -> bool | None:
        if text.lower() in ("yes", "true"):
            return True
        if text.lower() in ("no", "false"):
            return False
        found.append(error(span, "wrong-type", f'"{text}" is neither yes nor no', "write yes or no"))
        return None

    def schema(self) -> Schema:
        return {"enum": ["yes", "no", True, False]}

    def words(self) -> str:
        return "yes or no"


def number_in(text: str) -> Fraction | None:
    """A number that is the whole text, None when it is none."""
    read = number_at(text, words=False)
    return read.value if read and read.end == len(text) else None


class NumberText(Leaf[Fraction]):
    """A number: `0.5`, `1 1/2`; above zero unless `zero` (or `signed`, below zero too)."""

    def __init__(self, zero: bool = False, signed: bool = False) -> None:
        self.zero, self.signed = zero or signed, signed

    def value(self, text: str, span: Span, found: Found) -> Fraction | None:
        minus = self.signed and text[:1] in "-−"
        number = number_in(text[1:].strip() if minus else text)
        if number is None or (number == 0 and not self.zero):
            found.append(error(span, "bad-amount", f'"{text}" is not {self.words()}', f"write {self.words()}"))
            return None
        return -number if minus else number

    def schema(self) -> Schema:
        low: Schema = {} if self.signed else {"minimum": 0} if self.zero else {"exclusiveMinimum": 0}
        return {"anyOf": [{"type": "number", **low}, {"type": "string", "pattern": DIGITS}]}

    def words(self) -> str:
        return "a number" if self.signed else "a number of zero or more" if self.zero else "a number above zero"


class Whole(Leaf[int]):
    """A whole number, at least `least`."""

    def __init__(self, least: int) -> None:
        self.least = least

    def value(self, text: str, span: Span, found: Found) -> int | None:
        if re.fullmatch(r"[0-9]{1,6}", text) and int(text) >= self.least:
            return int(text)
        found.append(error(span, "bad-amount", f'"{text}" is not {self.words()}', f"write {self.words()}"))
        return None

    def schema(self) -> Schema:
        return {"type": "integer", "minimum": self.least}

    def words(self) -> str:
        return f"a whole number of at least {self.least}"


# Exact factors into the unit a nutrient is summed in; 1 kcal is 4.184 kJ (Regulation (EU) 1169/2011 uses 4.184 too).
_INTO: dict[str, dict[str, Fraction]] = {
    "kcal": {"kcal": Fraction(1), "kj": Fraction(1000, 4184), "cal": Fraction(1)},
    "g": {"g": Fraction(1), "mg": Fraction(1, 1000), "kg": Fraction(1000), "oz": Fraction(45359237, 1600000)}
    | {"lb": Fraction(45359237, 100000)},
    "mg": {"g": Fraction(1000), "mg": Fraction(1), "mcg": Fraction(1, 1000), "µg": Fraction(1, 1000)},
}
_QUANTITY = re.compile(r"(?P<number>.*?[0-9¼½¾⅐-⅞])\s*(?P<unit>[^0-9\s.,/]*)")


def quantity(text: str, span: Span, into: str) -> tuple[Fraction | None, Problem | None]:
    """A number with a unit, in the unit `into` (kcal, g, mg), or the problem."""
    parts = _QUANTITY.fullmatch(text)
    number = number_in(parts["number"]) if parts else None
    if parts is None or number is None:
        return None, error(span, "bad-amount", f'no number with a unit in "{text}"', f"write it in {into}")
    factor = _INTO[into].get(parts["unit"].lower().replace("μ", "µ"))
    if factor is None:
        message = f'"{parts["unit"]}" is no unit here' if parts["unit"] else f'"{text}" has no unit'
        return None, error(span, "unknown-unit", message, f"write it in {into}")
    return number * factor, None


class Quantity(Leaf[Fraction]):
    """A quantity of zero or more in one unit, whatever unit of its kind it is written in; `after` may follow it."""

    def __init__(self, into: str, after: str = "") -> None:
        self.into, self.after = into, after

    def value(self, text: str, span: Span, found: Found) -> Fraction | None:
        bare = text.removesuffix(self.after).strip() if self.after else text
        number, problem = quantity(bare, span, self.into)
        if problem:
            found.append(problem)
        return number

    def schema(self) -> Schema:
        return {"type": "string", "pattern": DIGITS}

    def words(self) -> str:
        units = "kcal or kJ" if self.into == "kcal" else "g or mg"
        return f"an amount in {units}"


class WebAddress(Leaf[str]):
    """An address on the web, http or https."""

    def value(self, text: str, span: Span, found: Found) -> str | None:
        try:
            parts = urlsplit(text)
        except ValueError:
            parts = urlsplit("")
        if parts.scheme in ("http", "https") and parts.netloc and " " not in text:
            return text
        found.append(error(span, "bad-link", f'"{text}" is no web address', "write it with https:// in front"))
        return None

    def schema(self) -> Schema:
        return {"type": "string", "pattern": "^https?://"}

    def words(self) -> str:
        return "a web address"
