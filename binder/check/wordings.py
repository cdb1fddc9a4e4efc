"""The phrases under which the food of a line is looked up, likeliest first.

Every phrase is made of the line's own words, or of a food that its measure names: nothing is guessed, and a phrase
counts only when a table has exactly that name.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from binder.check.by_measure import names_by_measure
from binder.check.prep_words import ANYWHERE, QUALITIES, SAID
from binder.model.food import Food
from binder.source.line import Line
from binder.tables.words import key, plain

_LEAN = re.compile(
    r"(?:about |max(?:imum)? |at least )?(\d{1,2} ?%(?: lean| fat)?|\d{2}/\d{1,2})(?: content)?(?: lean)?",
    re.IGNORECASE,
)
_FAT_BEHIND = re.compile(r"(?P<food>.+?),? (?P<share>\d{1,2} ?% (?:fat|lean)|\d{2}/\d{1,2})")
_QUALITY = re.compile(rf"\b(?:{'|'.join(sorted(QUALITIES, key=len, reverse=True))})\b")
_LENGTH = re.compile(r"\b\d+(?:\.\d+)? ?(?:inch|cm|mm)\b(?: thick| long| round)?")
_STATES = ("uncooked", "raw", "dried", "dry", "frozen", "defrosted", "thawed")
# Where the same food is sold fresh and frozen, with nothing to shell or peel.
_FROZEN_TOO = ("meat and fish", "bakery", "frozen")


def readings(line: Line) -> Iterator[tuple[str, str]]:
    """The phrases to try, and the words set aside for each: as written, then with less and less around the food.

    First `lemon juice` where only that is taken, and `canned tomatoes` for a can. `ground beef` comes before `beef`.
    """
    parts = tuple(f"{key(line.bare_food)} {part}" for part in line.taken.split(" and ")) if line.taken else ()
    if len(parts) == 1:
        yield parts[0], ""
    for name in _by_share_of_fat(line):
        yield name, ""
    for name in names_by_measure(line):
        yield name, line.food
    if any(one.unit == "can" for one in line.amounts):
        yield f"canned {line.food}", ""
        yield f"canned {line.bare_food}", ""
    yield line.food, ""
    for phrase in dict.fromkeys((line.food, *_without_more(line.food, line.before), line.bare_food)):
        if phrase != line.food:
            yield phrase, line.food
        for kept, aside in _shorter(plain(phrase).replace(",", " ").split()):
            yield " ".join(kept), " ".join(aside)


def reworded(line: Line) -> Iterator[tuple[str, str]]:
    """Where all that found nothing: qualities and cuts taken out anywhere, and `uncooked`, which the food must be.

    The second word is the state that the food found must be in: `dried` of `dried tagliatelle`; empty for none.
    """
    for phrase in dict.fromkeys((line.food, line.bare_food)):
        text = plain(phrase).replace(",", " ")
        uncut = " ".join(word for word in text.split() if word not in ANYWHERE)
        for one in dict.fromkeys((uncut, _without_qualities(text), _without_qualities(uncut))):
            yield from _with_state(one)


def _without_qualities(text: str) -> str:
    return " ".join(_LENGTH.sub(" ", _QUALITY.sub(" ", text)).split())


def agrees(food: Food, state: str) -> bool:
    """Whether a food may stand for one in this state: what is uncooked has no name of a cooked food."""
    if state in ("frozen", "defrosted", "thawed"):
        return food.aisle in _FROZEN_TOO
    return not state or not re.search(r"\b(?:cooked|boiled|roasted|canned|toasted)\b", food.name.casefold())


def _with_state(phrase: str) -> Iterator[tuple[str, str]]:
    words = phrase.split()
    for kept in _cut_down(words):
        yield " ".join(kept), ""
        if len(kept) > 1 and kept[0] in _STATES:
            for rest in _cut_down(kept[1:]):
                yield " ".join(rest), kept[0]


def _cut_down(words: list[str]) -> Iterator[list[str]]:
    if words:
        yield words
    for kept, _ in _shorter(words):
        yield kept


def _without_more(food: str, before: str) -> Iterator[str]:
    """The phrase with one more word of its leading preparation gone each time: `toasted flaked almonds`."""
    words, count = food.split(), len(before.split())
    for gone in range(1, count):
        yield " ".join(words[gone:])


def _by_share_of_fat(line: Line) -> Iterator[str]:
    """`5% fat minced beef` of `minced beef 5% fat`, `90/10 ground beef` of `ground beef (90/10)`."""
    if found := _FAT_BEHIND.fullmatch(line.food):
        yield f"{found['share']} {found['food']}"
    for part in (*line.notes, *line.preparation.split(", ")):
        if found := _LEAN.fullmatch(part):
            share = f"{found[1]} lean" if found[1].endswith("%") else found[1]
            for food in dict.fromkeys((line.bare_food, line.food, line.food.removeprefix("lean "))):
                yield f"{share} {food}"


def _shorter(words: list[str]) -> Iterator[tuple[list[str], list[str]]]:
    """The phrase with fewer and fewer closed-list words around it, and the words set aside; the longest first."""
    front = 0
    while front < len(words) - 1 and words[front] in SAID:
        front += 1
    back = 0
    while back < len(words) - 1 and words[-1 - back] in SAID:
        back += 1
    cuts = [(a, b) for a in range(front + 1) for b in range(back + 1) if a + b and a + b < len(words)]
    for a, b in sorted(cuts, key=sum):
        kept = words[a : len(words) - b]
        yield kept, words[:a] + words[len(words) - b :]
