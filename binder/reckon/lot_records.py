"""The words of the packs on hand: what a lot says that it contains counts for every dish that its food goes into.

Which pack is taken is the cook's hand, so a lot counts wherever its food is used while it is on hand. It adds to the
food's own record and takes nothing away: what is bought besides has that record.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from binder.model.food import Food
from binder.model.household import Household
from binder.model.recipe import Ingredient
from binder.model.stock import Lot
from binder.model.week import Week
from binder.reckon import recipes
from binder.reckon.recipe_facts import Allergens, RecipeFacts

Records = Mapping[str, tuple[tuple[str, ...], tuple[str, ...]]]


def records(lots: Iterable[Lot]) -> Records:
    """By food's name, what its lots say that they contain and may contain, all of them together."""
    found: dict[str, tuple[tuple[str, ...], tuple[str, ...]]] = {}
    for lot in lots:
        if lot.food is not None and (lot.contains or lot.may_contain):
            contains, may = found.get(lot.food.name, ((), ()))
            contains = tuple(dict.fromkeys((*contains, *(lot.contains or ()))))
            found[lot.food.name] = contains, tuple(dict.fromkeys((*may, *lot.may_contain)))
    return found


def with_records(facts: Mapping[str, RecipeFacts], said: Records, household: Household) -> Mapping[str, RecipeFacts]:
    """The recipes whose foods have such a lot reckoned anew, and those that are made of them; the rest as they are."""
    if not said:
        return facts
    done: dict[str, RecipeFacts] = {}
    waiting = list(facts)
    while waiting:
        key = waiting[-1]
        recipe = facts[key].recipe
        parts = [part for line in recipe.ingredients if (part := line.recipe) and part in facts and part not in done]
        if key not in done and not parts:
            changed = any(line.food.name in said for line in recipe.ingredients)
            changed = changed or any(
                done[p] is not facts[p] for line in recipe.ingredients if (p := line.recipe) in done
            )
            lines = tuple(_with(line, said) for line in recipe.ingredients)
            anew = replace(recipe, ingredients=lines)
            done[key] = recipes.reckon(anew, done, household)[0] if changed else facts[key]
        if key in done:
            waiting.pop()
        waiting += parts
    return {key: done[key] for key in facts}


def in_substitutions(week: Week, said: Records) -> Week:
    """The week with the records of the packs on hand in what is used instead of something."""
    swaps = tuple(replace(one, use=_with(one.use, said)) for one in week.substitutions)
    return replace(week, substitutions=swaps) if said and swaps else week


def _with(line: Ingredient, said: Records) -> Ingredient:
    record = said.get(line.food.name)
    if record is None or line.recipe is not None:
        return line
    food: Food = replace(line.food, lot_contains=record[0], lot_may_contain=record[1])
    return replace(line, food=food)


def of_lots(facts: RecipeFacts, lots: Iterable[Lot]) -> RecipeFacts:
    """A dish out of stock with the words on its own lots besides what its recipe says."""
    words = [(word, lot.contains or (), lot.id) for lot in lots for word in (*(lot.contains or ()), *lot.may_contain)]
    if not words:
        return facts
    own = facts.allergens
    contains = {word: own.contains_from.get(word, (where,)) for word, has, where in words if word in has}
    contains = {**own.contains_from, **contains}
    may = {word: own.may_from.get(word, (where,)) for word, _, where in words if word not in contains}
    may = {**{word: foods for word, foods in own.may_from.items() if word not in contains}, **may}
    found = Allergens(tuple(sorted(contains)), tuple(sorted(may)), own.not_known, contains, may)
    return replace(facts, contains=found.contains, may_contain=found.may_contain, allergens=found)
