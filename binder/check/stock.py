"""stock.yaml to lots; a line that cannot be read is left out and said so."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType

from binder.check import allergen_words
from binder.check.amounts import measure_of
from binder.check.declare import Found, Said
from binder.check.fields import STOCK
from binder.check.ingredients import food_span
from binder.check.line_kinds import Lot as Written
from binder.check.near import did_you_mean, nearest
from binder.check.pantry import Pantry, food_of, unknown_food
from binder.model.food import Food
from binder.model.household import HOME
from binder.model.stock import Lot, Stock
from binder.problem import Problem, Span, error, warning
from binder.source.document import Document
from binder.source.line import Line
from binder.source.nodes import Scalar

_PLACES = MappingProxyType(
    {
        "fridge": "fridge",
        "refrigerator": "fridge",
        "freezer": "freezer",
        "cupboard": "cupboard",
        "cupboards": "cupboard",
        "pantry": "cupboard",
    }
)


_PORTIONS = "portions are of a recipe of the library, by its name or its title; of a food write how much it weighs"
_LIKE = "write how much of what, and its date: 400 g carrots, opened 2026-05-20"


def recipe_named(name: str, titles: Mapping[str, str]) -> str | None:
    """The key of a recipe called by its key or its title, letter case aside; None when there is none.

    A key may be written with spaces for its hyphens, so that a dish is found also while its file cannot be read.
    """
    wanted = " ".join(name.split()).casefold()
    by_title = {title.casefold(): key for key, title in titles.items()}
    by_key = {spelling: key for key in titles for spelling in (key.casefold().replace("-", " "), key.casefold())}
    return by_title.get(wanted) or by_key.get(wanted)


def dish_name(line: Line) -> str:
    """What stands after the amount, whole: a title may have commas in it."""
    return " ".join(line.text[line.food_start :].strip(" ,.").split())


def check_stock(
    document: Document | None, pantry: Pantry, titles: Mapping[str, str], places: tuple[str, ...] = ()
) -> tuple[Stock, tuple[Problem, ...]]:
    """What is on hand, in the order written; nothing when there is no file or nothing in it."""
    if document is None or document.root is None:
        return Stock(()), document.problems if document else ()
    found: Found = list(document.problems)
    if isinstance(document.root, Scalar) and document.root.value is None:
        return Stock(()), tuple(found)
    lots: list[Lot] = []
    for said, lines in STOCK.read(document.root, found) or ():
        place, at = _place(said, found), _whose(said.value, places)
        for written in lines:
            lot, problems = _lot(place, written, pantry, titles)
            found.extend(problems)
            lot = replace(lot, at=at) if lot else None
            if lot and any(one.id == lot.id for one in lots):
                # Several lots of one line, [2 lb onions, 3 leeks], are told apart by their column.
                lot = replace(lot, id=f"{lot.id}:{lot.span.column}")
            lots.extend([lot] if lot else [])
    return Stock(tuple(lots)), tuple(found)


def _place(said: Said[str], found: Found) -> str:
    """What kind of place it is, by its last word; a name of the household's own is a shelf, where nothing is cold."""
    last = said.value.casefold().split()[-1]
    kind = _PLACES.get(last)
    if kind is None and (near := nearest(last, _PLACES)):
        message = f'no place "{said.value}" to keep stock in'
        found.append(error(said.span, "unknown-place", message, *did_you_mean(near)))
    return kind or said.value


def _whose(text: str, places: tuple[str, ...]) -> str:
    """The place it belongs to, `ward freezer` to the ward; home where none is named."""
    words = " ".join(text.split()).casefold()
    named = [place for place in places if words.startswith(f"{place.casefold()} ")]
    return max(named, key=len, default=HOME)


def _unclear(span: Span, message: str, *remedies: str) -> tuple[Problem, ...]:
    return (warning(span, "stock-unclear", f"{message}; the line is left out", *remedies),)


def _lot(
    place: str, written: Written, pantry: Pantry, titles: Mapping[str, str]
) -> tuple[Lot | None, tuple[Problem, ...]]:
    stock, span = written.stock, written.span
    line = stock.line
    if written.problems:
        first = written.problems[0]
        return None, _unclear(span, first.message, *(first.remedies or (_LIKE,)))
    if not line.amounts or not line.food:
        return None, _unclear(span, f'no amount and food in "{written.text}"', _LIKE)
    contains, may, wrong = _allergens(written, pantry)
    if wrong:
        return None, _unclear(span, wrong.message, *wrong.remedies)
    recipe, food, problems = _what(line, pantry, titles)
    if recipe is None and food is None:
        return None, problems
    made = Lot(
        id=f"{span.path}:{span.line}",
        span=span,
        text=written.text,
        place=place,
        food=food,
        recipe=recipe,
        measures=tuple(measure_of(one) for one in line.amounts),
        pack=measure_of(line.pack) if line.pack else None,
        opened=stock.opened,
        made=stock.made,
        best_before=stock.best_before,
        frozen=stock.frozen,
        thawed=stock.thawed,
        contains=contains,
        may_contain=may,
    )
    return made, problems


def _allergens(written: Written, pantry: Pantry) -> tuple[tuple[str, ...] | None, tuple[str, ...], Problem | None]:
    """The lot's own record in the household's list, or the problem of a word that the list does not have."""
    records: list[tuple[str, ...] | None] = []
    for words in (written.stock.contains, written.stock.may_contain):
        if words is None:
            records.append(None)
            continue
        said = tuple(Said(word, word, written.span) for word in words)
        listed, problems = allergen_words.of_list(said, pantry.listed)
        if problems:
            return None, (), problems[0]
        records.append(listed)
    contains, may = records
    return contains, may or (), None


def _what(line: Line, pantry: Pantry, titles: Mapping[str, str]) -> tuple[str | None, Food | None, tuple[Problem, ...]]:
    """The dish when it is counted in portions, else the food."""
    if any(one.unit == "portion" for one in line.amounts):
        name = dish_name(line)
        recipe = recipe_named(name, titles)
        if recipe:
            return recipe, None, ()
        if food_of(line, pantry) is None:
            near = did_you_mean(nearest(name, (*titles.values(), *titles)))
            return None, None, _unclear(food_span(line), f'no recipe "{name}"', *(near or (_PORTIONS,)))
    named = food_of(line, pantry)
    if named:
        return None, named.food, ()
    name = line.bare_food or line.food
    return None, Food(name), (unknown_food(name, food_span(line), pantry),)
