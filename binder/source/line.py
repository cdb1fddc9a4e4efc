"""An ingredient line: amount, unit, food, preparation."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from binder.problem import Problem, Span, error
from binder.source.amount import Measure
from binder.source.line_amount import read_front
from binder.source.line_food import leading_preparation
from binder.source.line_rest import Rest, name_units, sort_out
from binder.source.line_words import TAKEN
from binder.source.place import open_bracket, part_of

# Longer than any line of a recipe, short enough that no pattern takes long on it.
MOST_CHARACTERS = 1000


@dataclass(frozen=True, slots=True)
class Line:
    """One ingredient line, read; an empty text or tuple means that nothing was written for it.

    `amounts` are added up (`1 lb 4 oz`); where `pack` is set they count packs, and it is what one of them holds.
    `food` is the food phrase as written, with what precedes it (`finely chopped parsley`); `before` is that
    leading preparation, and `bare_food` the phrase without it. The food stands at `food_start` to `food_end` of `text`.
    `equivalent` is the same amount in other units, all of it (`1 lb (450 g)`). `taken` is juice, zest or
    juice and zest when only that is taken of the food. Where `recipe`, `food` is a recipe's key.
    `flags`: to taste, divided, as purchased, optional, packed, heaped, level, plus more, approximately, dry, drained,
    cooked, raw, frozen.
    """

    text: str
    span: Span
    amounts: tuple[Measure, ...] = ()
    pack: Measure | None = None
    food: str = ""
    food_start: int = 0
    food_end: int = 0
    preparation: str = ""
    notes: tuple[str, ...] = ()
    alternative: str = ""
    flags: frozenset[str] = frozenset()
    recipe: bool = False
    plus_more: str = ""
    equivalent: Measure | None = None
    taken: str = ""
    before: str = ""

    @property
    def bare_food(self) -> str:
        """The food without the preparation before it: `parsley` of `finely chopped parsley`."""
        return self.food[len(self.before) :].lstrip(" ,")


_CLOSE = "write ] behind it, or take it out"


def read_line(text: str, span: Span) -> tuple[Line, tuple[Problem, ...]]:
    """What a cook wrote on one line. Never fails: what is not understood stays in the food or the preparation.

    Problems: `bad-amount` for an amount that is zero, negative or no number, `unknown-unit` for a number with a word
    that must be a unit and is none, `wrong-type` for a square bracket that nothing closes. A line without an amount is
    no problem here.
    """
    if len(text) > MOST_CHARACTERS:
        message = f"an ingredient line of more than {MOST_CHARACTERS} characters"
        return Line(text, span), (error(span, "wrong-type", message, "write one food on a line"),)
    opened = open_bracket(text)
    if opened is not None:
        # Read as if it were not there, so that the food is found all the same.
        line, problems = read_line(f"{text[:opened]} {text[opened + 1 :]}", span)
        fault = error(part_of(span, text, opened, len(text)), "wrong-type", "this bracket is not closed", _CLOSE)
        return replace(line, text=text), (fault, *problems)
    taken = _taken(text)
    front = read_front(text, span, taken.end() if taken else 0)
    if taken and not front.amounts:
        taken, front = None, read_front(text, span)
    rest = Rest(front)
    if taken:
        rest.taken = _what_is_taken(taken)
        if taken["how"]:
            rest.preparation.append(taken["how"].strip())
    sort_out(rest)
    name_units(rest)
    return _line(rest), tuple(front.problems)


def _taken(text: str) -> re.Match[str] | None:
    return TAKEN.match(text, len(text) - len(text.lstrip()))


def _what_is_taken(found: re.Match[str]) -> str:
    named = {"zest" if word.lower() == "rind" else word.lower() for word in (found["what"], found["more"]) if word}
    return " and ".join(sorted(named))


def _line(rest: Rest) -> Line:
    front = rest.front
    found = front.text.find(rest.food, rest.food_start, rest.food_end) if rest.food else -1
    start, stop = (found, found + len(rest.food)) if found >= 0 else (rest.food_start, rest.food_end)
    return Line(
        text=front.text,
        span=front.span,
        amounts=tuple(front.amounts),
        pack=front.pack,
        food=rest.food,
        food_start=start,
        food_end=max(start, stop),
        preparation=", ".join(rest.preparation),
        notes=tuple(front.notes),
        alternative=rest.alternative,
        flags=frozenset(front.flags),
        recipe=rest.recipe,
        plus_more=rest.plus_more,
        equivalent=front.equivalent,
        taken=rest.taken,
        before="" if rest.recipe else leading_preparation(rest.food),
    )
