"""Numbers as cooks write them, exact: `1 1/2`, `½`, `1,5`, `2-3`, `half a dozen`."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

VULGAR = {
    "¼": Fraction(1, 4), "½": Fraction(1, 2), "¾": Fraction(3, 4), "⅓": Fraction(1, 3), "⅔": Fraction(2, 3),
    "⅕": Fraction(1, 5), "⅖": Fraction(2, 5), "⅗": Fraction(3, 5), "⅘": Fraction(4, 5), "⅙": Fraction(1, 6),
    "⅚": Fraction(5, 6), "⅐": Fraction(1, 7), "⅛": Fraction(1, 8), "⅜": Fraction(3, 8), "⅝": Fraction(5, 8),
    "⅞": Fraction(7, 8), "⅑": Fraction(1, 9), "⅒": Fraction(1, 10),
}  # fmt: skip

# "A few" is three: a stated reading, marked approximate by the line that has it (common practice).
WORDS = {
    "a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8,
    "nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "couple": 2, "few": 3,
}  # fmt: skip
_PARTS = {"half": Fraction(1, 2), "quarter": Fraction(1, 4), "third": Fraction(1, 3), "eighth": Fraction(1, 8)}
_MOST_DIGITS = 12

_SLASH = r"\s?[/⁄∕]\s?"
_V = "[" + "".join(VULGAR) + "]"
_WORD = "|".join(sorted((w for w in WORDS if len(w) > 2), key=len, reverse=True))
_PART = "half|halves|quarters?|thirds?|eighths?"
# What may not follow a number word: `five-spice`, `half-and-half`, `a` at the end of a text.
_ENDS = r"(?=\s+(?!and\b|&)\S|-inch\b)"

_NUMBER = re.compile(
    rf"""(?P<whole>[0-9]+)(?:\s+and\s+a\s+|\s+and\s+|\s*&\s*|\s+|\s?[-–]\s?)?(?P<vulgar>{_V})
    |(?P<wholes>[0-9]+)(?:\s+(?:and\s+|&\s+)?|[-–])(?P<above>[0-9]+){_SLASH}(?P<below>[0-9]+)(?![0-9]|\.[0-9])
    |(?P<number>[0-9]+)\s+and\s+an?\s+(?P<and_part>{_PART})\b
    |(?P<over>[0-9]+){_SLASH}(?P<under>[0-9]+)(?![0-9]|\.[0-9])
    |(?P<only>{_V})
    |(?P<thousands>[1-9][0-9]{{0,2}}(?:,[0-9]{{3}})+(?:\.[0-9]+)?)(?![0-9])
    |(?P<decimal>[0-9]+[.,][0-9]+|\.[0-9]+)
    |(?P<plain>[0-9]+)
    """,
    re.VERBOSE,
)
_IN_WORDS = re.compile(
    rf"""(?:(?P<word>{_WORD})\s+and\s+(?:a\s+)?(?P<and_part>{_PART}){_ENDS}
    |(?P<count>an?|{_WORD})[\s-]+(?P<of_part>{_PART}){_ENDS}
    |(?P<part>half|quarter|third){_ENDS}
    |an?\s+(?P<group>couple|few){_ENDS}
    |(?P<small>{_WORD}|an?){_ENDS})""",
    re.VERBOSE | re.IGNORECASE,
)
_DOZEN = re.compile(r"\s+(?:an?\s+|of\s+a\s+)?dozens?\b|(?<=[0-9])\s*(?:dz|doz)\b\.?", re.IGNORECASE)
_BARE_DOZEN = re.compile(r"dozen\b", re.IGNORECASE)
_PLUS_PART = re.compile(r"\s+(?:of\s+)?an?(?=\s+\S)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Number:
    """A number and where it ends in its text; `value` is None when it cannot stand (1/0, endless digits).

    `loose` when it is only roughly meant ("a few"), `words` when it is spelled out.
    """

    value: Fraction | None
    end: int
    loose: bool = False
    words: bool = False


@dataclass(frozen=True, slots=True)
class Written:
    """A number or a range as written, `low` at most `high`; None where it cannot stand."""

    low: Fraction | None
    high: Fraction | None
    end: int
    loose: bool = False


def number_at(text: str, start: int = 0, words: bool = True) -> Number | None:
    """The number that begins at `start`, in digits or, when `words`, in words; None when there is none."""
    found = _NUMBER.match(text, start)
    number = Number(_in_digits(found), found.end()) if found else None
    if number is None and words:
        if spoken := _IN_WORDS.match(text, start):
            number = _in_words(text, spoken)
        elif dozen := _BARE_DOZEN.match(text, start):
            return Number(Fraction(12), dozen.end(), words=True)
    if number and number.value is not None and (dozen := _DOZEN.match(text, number.end)):
        return Number(number.value * 12, dozen.end(), words=number.words)
    return number


def _in_digits(found: re.Match[str]) -> Fraction | None:
    """The value of a number in digits; None when it has too many of them or divides by zero."""
    if any(len(part) > _MOST_DIGITS for part in re.findall("[0-9]+", found[0])):
        return None
    if found["vulgar"]:
        return int(found["whole"]) + VULGAR[found["vulgar"]]
    if found["below"]:
        return _quotient(found["above"], found["below"], int(found["wholes"]))
    if found["and_part"]:
        return int(found["number"]) + _part(found["and_part"])
    if found["under"]:
        return _quotient(found["over"], found["under"], 0)
    if found["only"]:
        return VULGAR[found["only"]]
    if found["thousands"]:
        return Fraction(found["thousands"].replace(",", ""))
    return Fraction((found["decimal"] or found["plain"]).replace(",", "."))


def _quotient(above: str, below: str, whole: int) -> Fraction | None:
    return whole + Fraction(int(above), int(below)) if int(below) else None


def _part(word: str) -> Fraction:
    word = word.lower()
    return _PARTS["half" if word == "halves" else word.removesuffix("s")]


def _in_words(text: str, spoken: re.Match[str]) -> Number:
    end = spoken.end()
    if spoken["word"]:
        return Number(WORDS[spoken["word"].lower()] + _part(spoken["and_part"]), end, words=True)
    if spoken["of_part"] or spoken["part"]:
        count = WORDS[(spoken["count"] or "one").lower()]
        # "Half an onion", "half of a cup": the article belongs to the number; "half a dozen" is seen to later.
        article = None if _DOZEN.match(text, end) else _PLUS_PART.match(text, end)
        return Number(count * _part(spoken["of_part"] or spoken["part"]), article.end() if article else end, words=True)
    if spoken["group"]:
        return Number(Fraction(WORDS[spoken["group"].lower()]), end, loose=True, words=True)
    return Number(Fraction(WORDS[spoken["small"].lower()]), end, words=True)


_TO = re.compile(r"\s?-\s+(?:to|or)\s+|\s*[-–—−]\s*|\s+(?:up\s+)?to\s+|\s+or\s+", re.IGNORECASE)
_BETWEEN = re.compile(r"between\s+", re.IGNORECASE)
_AND = re.compile(r"\s+and\s+", re.IGNORECASE)


def written_at(text: str, start: int = 0, words: bool = True) -> Written | None:
    """The number or range that begins at `start`; None when there is none."""
    between = _BETWEEN.match(text, start)
    first = number_at(text, between.end() if between else start, words)
    if first is None:
        return None
    link = (_AND if between else _TO).match(text, first.end)
    second = number_at(text, link.end(), words) if link else None
    if second is None or (second.words and re.match(r"an?\b", text[link.end() :] if link else "")):
        return Written(first.value, first.value, first.end, first.loose)
    if first.value is None or second.value is None:
        return Written(None, None, second.end)
    low, high = sorted((first.value, second.value))
    return Written(low, high, second.end, first.loose or second.loose)


def in_figures(value: Fraction) -> str:
    """The number in figures, exact: `3`, `1 1/2`, `0.35` is `7/20`."""
    whole, rest = divmod(value, 1)
    if not rest:
        return str(whole)
    part = f"{rest.numerator}/{rest.denominator}"
    return f"{whole} {part}" if whole else part
