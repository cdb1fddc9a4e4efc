"""Which foods of a dish an eater's word keeps away, where the word is no allergen: a food, or a kind of food."""

from __future__ import annotations

import re
from collections.abc import Iterator

from binder.model.recipe import Ingredient
from binder.reckon import allergens
from binder.reckon.recipe_facts import IngredientFacts, RecipeFacts
from binder.tables import composition, food_kinds
from binder.tables.words import key

# A last word that makes another food of what stands before it: peanut butter is no butter.
NOT_A_KIND = frozenset({"butter", "milk", "cream", "water"})
_ASIDE = re.compile(r"\([^)]*\)")
_FOR = re.compile(r"\s+(?:for|to|plus)\s", re.IGNORECASE)  # `olive oil for the onions` holds none


def avoided_foods(avoided: str, facts: RecipeFacts) -> tuple[str, ...]:
    """The foods of a dish that an avoided word takes in: the food itself, its row, or a kind of it."""
    return tuple(dict.fromkeys(line.food for line in lines_of(facts) if is_avoided(line.ingredient, avoided)))


def of_other_list(word: str, facts: RecipeFacts) -> dict[str, tuple[str, ...]]:
    """What a dish contains of an allergen in the words of the list that the household does not go by, by its foods."""
    found: dict[str, dict[str, None]] = {}
    for line in lines_of(facts):
        for other in allergens.covered(word, line.ingredient.food.contains_other or ()):
            found.setdefault(other, {})[line.food] = None
    return {other: tuple(found[other]) for other in sorted(found)}


def foods_that_hold(word: str, facts: RecipeFacts) -> tuple[str, ...]:
    """The foods that a word takes in which the household's list does not have: by the other list, or by its name."""
    by_list = (food for foods in of_other_list(word, facts).values() for food in foods)
    return tuple(dict.fromkeys((*by_list, *avoided_foods(word, facts))))


def lines_of(facts: RecipeFacts) -> Iterator[IngredientFacts]:
    """Every line of a dish and of all that its parts are made from."""
    for line in facts.ingredients:
        yield line
        if line.made_from is not None:
            yield from lines_of(line.made_from)


def is_avoided(line: Ingredient, avoided: str) -> bool:
    """Whether the food of a line is what the word names or is of the kind that it names."""
    food, wanted = line.food, key(avoided)
    names = [key(name) for name in (food.name, *food.names)]
    if wanted in names:
        return True
    if kind := food_kinds.kind_of(avoided):
        # A table's other names are many foods' names; what was written says which was meant.
        called = (food.name, _written(line)) if food.everyday else (food.name, _written(line), *food.names)
        contained = (*(food.contains or ()), *(food.contains_other or ()))
        return food_kinds.takes_in(kind, called, food.row, contained)
    row = composition.row(food.row) if food.row else None
    # SR28 names the kind first: "Cheese, cheddar", "Mushrooms, white, raw".
    if row and key(row.name.split(",")[0]) == wanted:
        return True
    if wanted in NOT_A_KIND:
        return False
    return any(food_kinds.stands_in(avoided, name) for name in (food.name, _written(line), *_own_names(line)))


def _own_names(line: Ingredient) -> tuple[str, ...]:
    return () if line.food.everyday else line.food.names


def _written(line: Ingredient) -> str:
    """The words of a line up to its preparation, without what stands in parentheses and what may stand instead."""
    text = _FOR.split(_ASIDE.sub(" ", line.text).split(",")[0])[0]
    return text.split(f" or {line.alternative}")[0] if line.alternative else text
