"""Which allergens a dish contains, may contain, or is not known for; each with the foods that say so.

Three states: contains, not found in what is recorded, not known. A food without a record makes the dish not known,
whatever else is recorded.
"""

from __future__ import annotations

from collections.abc import Iterable
from types import MappingProxyType

from binder.model.food import Food
from binder.reckon.recipe_facts import Allergens, IngredientFacts
from binder.tables import allergens as table


def of_food(food: Food) -> Allergens:
    """The record of one food; without one it is not known."""
    pack = (f"{food.name} on hand",)
    contains = dict.fromkeys(food.contains or (), (food.name,))
    contains |= {word: pack for word in food.lot_contains if word not in contains}
    may = {word: (food.name,) for word in food.may_contain if word not in contains}
    may |= {word: pack for word in food.lot_may_contain if word not in contains and word not in may}
    return Allergens(
        contains=tuple(contains),
        may_contain=tuple(may),
        not_known=(food.name,) if food.contains is None else (),
        contains_from=MappingProxyType(contains),
        may_from=MappingProxyType(may),
    )


def of_line(line: IngredientFacts) -> Allergens:
    """The record of a line: of its food, or of the recipe that the part is made from."""
    return of_food(line.ingredient.food) if line.made_from is None else line.made_from.allergens


def union(parts: Iterable[Allergens]) -> Allergens:
    """All of what the parts contain; what is contained is not repeated as may contain."""
    contains: dict[str, dict[str, None]] = {}
    may: dict[str, dict[str, None]] = {}
    unknown: dict[str, None] = {}
    for part in parts:
        for word, foods in part.contains_from.items():
            contains.setdefault(word, {}).update(dict.fromkeys(foods))
        for word, foods in part.may_from.items():
            may.setdefault(word, {}).update(dict.fromkeys(foods))
        unknown.update(dict.fromkeys(part.not_known))
    may = {word: foods for word, foods in may.items() if word not in contains}
    return Allergens(
        contains=tuple(sorted(contains)),
        may_contain=tuple(sorted(may)),
        not_known=tuple(unknown),
        contains_from=MappingProxyType({word: tuple(contains[word]) for word in sorted(contains)}),
        may_from=MappingProxyType({word: tuple(may[word]) for word in sorted(may)}),
    )


def covered(avoided: str, words: Iterable[str]) -> tuple[str, ...]:
    """The words among `words` that avoiding (or banning) `avoided` takes in; none when it is no allergen."""
    wanted = table.avoided_words(avoided)
    return tuple(word for word in words if any(table.covers(want, word) for want in wanted))


def meaning(word: str) -> tuple[str, ...]:
    """The words of either list that a word stands for; empty when it is no allergen."""
    return table.avoided_words(word)


def is_allergen(word: str) -> bool:
    """Whether the word stands for an allergen of either list."""
    return bool(meaning(word))


def in_list(word: str, of: table.AllergenList) -> bool:
    """Whether the records of a list tell of every allergen that the word stands for."""
    return all(table.word_of(one, of) for one in table.avoided_words(word))
