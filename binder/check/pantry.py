"""Which food a phrase names: the household's own foods, then everyday foods, then a table row by its exact name.

Nothing is guessed. Words of preparation and quality in front of or behind a food are set aside, and only when what
remains is found.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType

from binder.check.near import did_you_mean
from binder.check.near import nearest as spelt_like
from binder.check.prep_words import CUT
from binder.check.table_food import of_composition, of_everyday
from binder.check.wordings import agrees, readings, reworded
from binder.model.food import Food
from binder.problem import Problem, Span, warning
from binder.source.line import Line
from binder.tables import composition, everyday
from binder.tables.allergens import AllergenList
from binder.tables.household_weights import form_of
from binder.tables.measures import System
from binder.tables.words import key, plain, words_in_common

# A preparation that makes it another food: without that food in the tables, the plain one would be a guess.
_OTHER_FOOD = MappingProxyType(
    {
        "canned": ("canned",), "tinned": ("canned",), "jarred": ("canned", "bottled"),
        "dried": ("dried", "dry", "dehydrated", "mature seeds, raw"), "freeze-dried": ("freeze-dried",),
    }
)  # fmt: skip
_STATES = (
    "dried",
    "dry",
    "canned",
    "tinned",
    "jarred",
    "cooked",
    "frozen",
    "ground",
    "raw",
    "smoked",
    "roasted",
    "toasted",
)


@dataclass(frozen=True, slots=True)
class Pantry:
    """The foods that may be named: the household's own by every spelling, and the tables in its list and measures."""

    own: Mapping[str, Food]
    listed: AllergenList = "us"
    cup: System = "us"


@dataclass(frozen=True, slots=True)
class Named:
    """A food that was found, and the words beside it that say how it is cut or packed."""

    food: Food
    form_words: tuple[str, ...] = ()


def pantry_of(foods: Iterable[Food], listed: AllergenList, cup: System) -> Pantry:
    """The household's foods by name and other names; the first of two with one spelling stays."""
    own: dict[str, Food] = {}
    for food in foods:
        for spelling in (food.name, *food.names):
            own.setdefault(key(spelling), food)
    return Pantry(MappingProxyType(own), listed, cup)


def named_outright(name: str, pantry: Pantry) -> Food | None:
    """The food of exactly this name: the household's, a table row, an everyday food."""
    if own := pantry.own.get(key(name)):
        return own
    if row := composition.named(name):
        return of_composition(row.ndb, pantry.listed)
    item = everyday.lookup(name)
    return of_everyday(item.name, pantry.listed) if item else None


def _states(preparation: str) -> tuple[str, ...]:
    """The words of state that a part of the preparation begins with: `dried` of `dried, soaked`."""
    parts = [part.split() for part in plain(preparation).split(",")] if preparation else []
    return tuple(words[0] for words in parts if words and words[0] in _STATES)


def _one(phrase: str, preparation: str, pantry: Pantry) -> Food | None:
    """The food of one phrase, with a state word of the preparation in front where that names a food of its own."""
    for spelling in (*(f"{state} {phrase}" for state in _states(preparation)), phrase) if pantry.own else ():
        if own := pantry.own.get(key(spelling)):
            return own
    return _in_tables(phrase, preparation, pantry.listed)


@lru_cache(maxsize=8192)
def _in_tables(phrase: str, preparation: str, listed: AllergenList) -> Food | None:
    item = everyday.lookup(phrase, preparation)
    if item is None:
        row = composition.named(phrase)
        return of_composition(row.ndb, listed) if row else None
    if everyday.lookup(phrase) is item and not _agrees(item, _states(preparation)):
        return None
    return of_everyday(item.name, listed)


def _agrees(item: everyday.Everyday, states: tuple[str, ...]) -> bool:
    """Whether the plain food may stand for one in these states: its row, or its own name, says so too."""
    row = composition.row(item.row) if item.row else None
    published = f"{item.name}, {row.name if row else ''}".lower()
    return all(any(word in published for word in _OTHER_FOOD[state]) for state in states if state in _OTHER_FOOD)


def _cut_words(text: str) -> tuple[str, ...]:
    """The words of a text that say how it is cut, each once."""
    words = [word.strip(".,;()") for word in text.lower().split()]
    return tuple(dict.fromkeys(form_of(word) for word in words if word in CUT))


def food_of(line: Line, pantry: Pantry) -> Named | None:
    """The food a line names, or None when no food of that name is known."""
    said = f"{line.before} {line.preparation} {' '.join(line.flags & {'packed', 'drained'})}"
    row = composition.named(f"{line.food}, {line.preparation}") if line.preparation else None
    if row:
        return Named(same_row(of_composition(row.ndb, pantry.listed), _one(line.food, "", pantry)))
    if any(one.unit == "can" for one in line.amounts) and (own := _own_in_cans(line, pantry)):
        return Named(own, _cut_words(said))
    for phrase, aside in readings(line):
        if phrase and (food := _one(phrase, line.preparation, pantry)):
            return Named(food, _cut_words(f"{aside} {said}"))
    for phrase, state in reworded(line):
        if (food := _one(phrase, f"{state}, {line.preparation}", pantry)) and agrees(food, state):
            return Named(food, _cut_words(f"{line.food} {said}"))
    return None


def _own_in_cans(line: Line, pantry: Pantry) -> Food | None:
    """The household's own food of the name written, which comes before the tables' canned one."""
    return pantry.own.get(key(f"canned {line.food}")) or pantry.own.get(key(line.food))


def same_row(row: Food, named: Food | None) -> Food:
    """The kitchen's own food where it rests on the very row that was named, else the row."""
    return named if named and named.row == row.row else row


def near_names(phrase: str, pantry: Pantry) -> tuple[str, ...]:
    """Names of foods that may have been meant, best first."""
    own = [name for name in spelt_like(phrase, pantry.own, 2) if words_in_common(key(phrase), name)]
    return tuple(dict.fromkeys((*(pantry.own[spelling].name for spelling in own), *_near_in_tables(phrase))))[:3]


@lru_cache(maxsize=1024)
def _near_in_tables(phrase: str) -> tuple[str, ...]:
    """Comparing with every name takes tens of ms, and what is missing in one recipe is missing in others."""
    return everyday.nearest(phrase, 3) or tuple(row.name for row in composition.nearest(phrase, 2))


def unknown_food(phrase: str, span: Span, pantry: Pantry, path: str = "foods.yaml") -> Problem:
    """The warning that stands at the food's own columns."""
    add = f'add "{phrase}" to {path}'
    joined = ("two foods? write a line for each",) if re.search(r"\s(?:and|&|\+|plus)\s", phrase) else ()
    remedies = (*did_you_mean(near_names(phrase, pantry)), *joined, add)
    return warning(span, "unknown-food", f'no food "{phrase}"', *remedies)
