"""A recipe as it was found elsewhere: what can be told of it without knowing the household."""

from __future__ import annotations

import html
import re
from dataclasses import dataclass
from fractions import Fraction

from binder.source.numbers import number_at

_TAG = re.compile(r"</?[A-Za-z][^<>]*>")
_BREAK = re.compile(r"</(?:p|li|div|h\d)\s*>|<br\s*/?>", re.IGNORECASE)
_COUNT = re.compile(r"\d|[¼½¾⅓⅔⅛]")


@dataclass(frozen=True, slots=True)
class FoundLine:
    """An ingredient or a step, under the name of its part; "" for none."""

    text: str
    part: str = ""


@dataclass(frozen=True, slots=True)
class FoundRecipe:
    """`portions` None: not said, or no number in what was said. `kinds`: what it is filed under where it was found."""

    title: str
    ingredients: tuple[FoundLine, ...]
    steps: tuple[FoundLine, ...]
    portions: Fraction | None = None
    makes: str = ""  # as said
    kinds: tuple[str, ...] = ()
    notes: str = ""
    source: str = ""


def one_line(text: str) -> str:
    """Text of a page as one plain line: tags out, entities read, spaces single."""
    # Entities twice: pages often escape what is escaped already.
    return " ".join(html.unescape(html.unescape(_TAG.sub(" ", text))).split())


def lines_of(text: str) -> list[str]:
    """The same where a text has several lines, or marks up several."""
    return [line for one in _BREAK.sub("\n", text).splitlines() if (line := one_line(one))]


def portions_in(text: str) -> Fraction | None:
    """The first number of `4 servings`, `Serves 4-6`, `Makes about 12`; of a range the lower one."""
    found = _COUNT.search(text)
    number = number_at(text, found.start()) if found else None
    return number.value if number and number.value and number.value > 0 else None
