"""What is on hand or left over that has to be eaten soon, soonest first."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from fractions import Fraction

from binder.model.household import HOME, Household
from binder.model.quantity import Amount, exactly
from binder.model.recipe import Recipe
from binder.model.stock import Lot
from binder.reckon import conversion, dishes
from binder.reckon.facts import UseFirst
from binder.reckon.filling import Filled
from binder.reckon.shopping import Bought
from binder.reckon.stock import OnHand

DISHES = 3


def use_first(
    foods: tuple[OnHand, ...],
    shopped: tuple[Bought, ...],
    lots: tuple[Lot, ...],
    left: Mapping[str, Fraction],
    things: tuple[Filled, ...],
    recipes: Mapping[str, Recipe],
    household: Household,
    until: date,
) -> tuple[UseFirst, ...]:
    """Foods and dishes whose last day falls on or before `until` and that the plan does not use up, soonest first."""
    found = [row for item in foods if (row := _food(item, shopped, household, until))]
    found += [row for lot in lots if (row := _dish(lot, left, recipes, household, until))]
    found += [row for thing in things if (row := _made(thing))]
    found = [replace(row, dishes=_dishes_with(row.food, recipes)) if row.food else row for row in found]
    return tuple(sorted(found, key=lambda row: (row.use_by or date.max, row.lot, row.food or row.recipe or "")))


def _food(item: OnHand, shopped: tuple[Bought, ...], household: Household, until: date) -> UseFirst | None:
    lot = item.lot
    undated = item.last is None and lot.opened is not None and item.perishes
    if lot.food is None or not (undated or (item.last and item.last <= until)):
        return None
    amount = conversion.total_amount(lot.measures, lot.pack, household.cup)
    goes: Amount | None = None
    for bought in shopped:
        taken = bought.taken.get(lot.id)
        if taken is not None and amount is not None:
            used = conversion.purchased_in_unit(lot.food, taken, amount.unit)
            rest = amount.low - used.low if used else amount.low
            # A gram or a millilitre is what sticks to the jar.
            if rest < 1:
                return None
            amount, goes = exactly(rest, amount.unit), used
    why = f"opened {lot.opened.isoformat()}" if lot.opened else "best before"
    why += ", days once opened not known" if undated else ""
    return UseFirst(lot.food.name, None, amount, _store(lot), item.last, why, lot.id, taken=goes)


def _dishes_with(food: str, recipes: Mapping[str, Recipe]) -> tuple[str, ...]:
    """The recipes that a food goes into, those that use most of their lines for little else first; a few."""
    using = [key for key, recipe in recipes.items() if any(line.food.name == food for line in recipe.ingredients)]
    return tuple(sorted(using, key=lambda key: (len(recipes[key].ingredients), key))[:DISHES])


def _store(lot: Lot) -> str:
    return lot.place if lot.at == HOME else f"{lot.at} {lot.place}"


def _dish(
    lot: Lot, left: Mapping[str, Fraction], recipes: Mapping[str, Recipe], household: Household, until: date
) -> UseFirst | None:
    recipe = recipes[lot.recipe or ""]
    rest = left.get(lot.id, Fraction(0))
    last = dishes.expiry(lot, recipe, household.caution)
    begun = dishes.start_of(lot)
    undated = begun is None and lot.place != "freezer"
    if rest <= 0 or (last > until and not undated):
        return None
    why = f"made {begun.isoformat()}" if begun else "no date"
    if lot.place == "freezer":
        why += ", past its best" if last < until else ", frozen"
    by = None if last == date.max else last
    return UseFirst(None, recipe.key, exactly(rest, "each"), _store(lot), by, why, lot.id)


def _made(thing: Filled) -> UseFirst | None:
    if thing.what == "surplus":
        amount = exactly(thing.portions or Fraction(1), "each")
        return UseFirst(None, thing.facts.key, amount, thing.kept, thing.use_by, "surplus of the batch", thing.id)
    if thing.what == "by-product":
        grams = Amount(Fraction(thing.grams), Fraction(thing.grams), "g") if thing.grams is not None else None
        why = f"left over from {thing.facts.title}"
        return UseFirst(thing.title, None, grams, thing.kept, thing.use_by, why, thing.id)
    return None
