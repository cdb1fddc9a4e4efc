"""What closing a week puts into stock: what is left of its dishes, what was frozen, by-products."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from fractions import Fraction

from binder.model.library import Library
from binder.model.quantity import Amount
from binder.model.recipe import Ingredient
from binder.model.stock import Stock
from binder.model.week import ClosedDish
from binder.reckon import dishes, keeping
from binder.reckon import stock as on_hand
from binder.reckon.closing import NONE, Row, ratio_of
from binder.reckon.facts import WeekFacts
from binder.reckon.recipe_facts import Allergens


@dataclass(frozen=True, slots=True)
class NewLot:
    """What closing puts into stock: portions of a dish, a by-product (`gift`, `factor` times its written size), or so
    much of a food's packs. `last` is its last day in the refrigerator, None: not known, or kept elsewhere; `of` the
    dish of the closing whose portions they are."""

    place: str
    recipe: str | None
    portions: Fraction | None
    made: date | None
    thawed: date | None = None
    use_by: date | None = None
    allergens: Allergens | None = None
    gift: Ingredient | None = None
    factor: Fraction = Fraction(1)
    food: str = ""
    amount: Amount | None = None
    opened: date | None = None
    bought: date | None = None
    last: date | None = None
    of: str = ""


def added(
    found: tuple[tuple[Row, ClosedDish], ...],
    facts: WeekFacts,
    library: Library,
) -> tuple[NewLot, ...]:
    """The lots that closing puts into stock: what is left, what was frozen, by-products; alike ones as one."""
    lots: list[NewLot] = []
    for row, dish in found:
        made = dish.made_on or row.made_on
        thawed = None
        if row.source == "stock":
            dates = [day for lot in row.lots if (day := lot.made or lot.opened or lot.frozen)]
            made = min(dates, default=None)
            pulled = [s.pull_on for s in facts.servings if s.lot and s.recipe == row.recipe and s.pull_on]
            thawed = min((*pulled, *(lot.thawed for lot in row.lots if lot.thawed)), default=None)
        for portions, place in ((dish.left, row.place), (dish.frozen, "freezer")):
            if portions:
                pulled_on = thawed if place != "freezer" else None
                lot = NewLot(place, row.recipe, portions, made, pulled_on, None, row.allergens, of=row.name)
                lots.append(replace(lot, last=_last_day(lot, row, library)))
        if dish.gives and dish.made:
            lots += [_gift(one, row, dish, library) for one in row.gives]
    return _alike_as_one(lots)


def _last_day(lot: NewLot, row: Row, library: Library) -> date | None:
    """The last day of portions in the refrigerator, by the household's caution, as the plan reads their line."""
    recipe, caution = library.recipes.get(lot.recipe or ""), library.household.caution
    if lot.place != "fridge" or recipe is None:
        return None
    if lot.thawed:
        used = max((dishes.days_used(one) for one in row.lots), default=0)
        return keeping.thawed_use_by(recipe.keeping, caution, lot.thawed, used)
    days = keeping.limit_days(recipe.keeping, caution)
    return lot.made + timedelta(days=days) if lot.made and days is not None else None


def past(lots: Iterable[NewLot], day: date) -> tuple[NewLot, ...]:
    """The lots that are past their last day in the refrigerator on a day; what was frozen in time is not among them."""
    return tuple(lot for lot in lots if lot.last is not None and lot.last < day)


def past_of_stock(stock: Stock | None, library: Library, day: date) -> Mapping[str, date]:
    """The refrigerated lots of stock.yaml that are past their last day on a day, by lot id, with that day."""
    caution, found = library.household.caution, {}
    for lot in stock.lots if stock else ():
        if lot.place != "fridge":
            continue
        recipe = library.recipes.get(lot.recipe) if lot.recipe else None
        if recipe is not None:
            last = dishes.use_by_of(lot, recipe, caution)
        else:
            known = on_hand.last_day(lot, lot.food) if lot.food else None
            last = known[0] if known else None
        if last is not None and last < day:
            found[lot.id] = last
    return found


def _gift(gift: Ingredient, row: Row, dish: ClosedDish, library: Library) -> NewLot:
    rule = gift.food.keeping
    days = keeping.limit_days(rule, library.household.caution) if rule else None
    made, factor = dish.made_on or row.made_on, row.batch.factor if row.batch else Fraction(1)
    use_by = made + timedelta(days=days) if made and days is not None else None
    size = factor * ratio_of(row, dish)
    return NewLot("fridge", None, None, made, use_by=use_by, gift=gift, factor=size, last=use_by)


def _alike_as_one(lots: list[NewLot]) -> tuple[NewLot, ...]:
    """Portions of one dish made on one day with the same allergens, in one place, are one lot."""
    found: dict[tuple[object, ...], NewLot] = {}
    for n, lot in enumerate(lots):
        words = (lot.allergens.contains, lot.allergens.may_contain) if lot.allergens else None
        key = (lot.place, lot.recipe, lot.made, lot.thawed, words, None if lot.gift is None else n)
        before = found.get(key)
        portions = (before.portions or NONE) + (lot.portions or NONE) if before else lot.portions
        found[key] = replace(lot, portions=portions)
    return tuple(found.values())
