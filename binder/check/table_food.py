"""A food of the tables as the household's noun: its figures, allergens by the household's list, measures, yield."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import cache

from binder.model.food import NO_FIGURES, Basis, Food, FoodWeight, Keeping
from binder.tables import composition, everyday, keeping
from binder.tables.allergens import AllergenList
from binder.tables.everyday import Everyday
from binder.tables.household_weights import volume_unit

_RECORD = "everyday foods of this program"
_KEPT = "common practice, from memory"  # as the legend of every everyday file says of both columns
# Poured goods that a shop sells by volume, by the last word of their name.
_POURED = frozenset(
    ("oil", "vinegar", "milk", "juice", "sauce", "syrup", "cream", "broth", "stock", "wine", "water", "cider")
)
_SIZES = ("small", "medium", "large", "extra large")


@cache
def of_everyday(name: str, listed: AllergenList) -> Food:
    """The everyday food printed by `name`, its allergens in the words of the list."""
    item = everyday.food(name)
    row = composition.row(item.row) if item.row else None
    contains, other = (item.us, item.eu) if listed == "us" else (item.eu, item.us)
    return Food(
        name=item.name,
        basis=Basis("table", row.source) if row else Basis("unknown"),
        row=item.row,
        per_100_g=row.per_100_g if row else NO_FIGURES,
        figures_from=f"{row.source}, {row.name}" if row else "",
        contains=contains,
        allergens_from=_RECORD if contains is not None else "",
        aisle=item.aisle,
        edible_share=_share(item),
        yield_from=item.yield_source,
        weights=(*_pieces(item), *_measures(item)),
        keeping=keeping_of(item),
        once_opened_days=item.opened_days,
        store=item.store,
        opened_from=_KEPT if item.opened_days is not None else "",
        store_from=_KEPT if item.store else "",
        fluid=item.liquid or item.name.split()[-1] in _POURED,
        names=item.also,
        everyday=item.name,
        contains_other=other,
    )


def _share(item: Everyday) -> Fraction:
    return Fraction(str(item.yield_percent)) / 100 if item.yield_percent else Fraction(1)


def _pieces(item: Everyday) -> tuple[FoodWeight, ...]:
    """Weights of one: a size is one piece of that size, every other word a unit of its own."""
    return tuple(
        FoodWeight("each", entry.grams, size=name, source=entry.source)
        if name in _SIZES
        else FoodWeight(name, entry.grams, source=entry.source)
        for name, entry in item.pieces.items()
    )


def _measures(item: Everyday) -> tuple[FoodWeight, ...]:
    """Weights of a volume: `cup chopped` is the unit cup in the form chopped."""
    made = []
    for name, entry in item.measures.items():
        fluid = name.startswith("fl oz")
        first, _, form = name.removeprefix("fl ").partition(" ")
        unit = "fl-oz" if fluid else volume_unit(first) or first
        made.append(FoodWeight(unit, entry.grams, form=form.strip(), source=entry.source))
    return tuple(made)


def keeping_of(item: Everyday) -> Keeping | None:
    """How long the bare food keeps: a keeping row, or its own days (`fridge=4; freezer=60`); None when not known."""
    if not item.keeps:
        return None
    if row := keeping.row(item.keeps):
        return of_row(row)
    days = {}
    for part in item.keeps.replace(",", ";").split(";"):
        name, _, figure = part.partition("=")
        if figure.strip().isdigit():
            days[name.strip()] = (int(figure), int(figure))
    source = f"{item.name}: {item.keeps_source}" if item.keeps_source else item.name
    fridge = days.get("fridge", days.get("cupboard"))
    return Keeping(
        fridge, days.get("freezer"), True if "freezer" in days else None, source, cupboard_days=days.get("cupboard")
    )


def of_row(row: keeping.KeepingRow, assumed: bool = False) -> Keeping:
    """A row of the keeping chart as a dish's keeping time."""
    source = f"{row.name}: {row.source}"
    days = row.fridge_days, row.freezer_days
    return Keeping(*days, row.freezes, source, assumed, row.cupboard_days, row.after_thawing_days)


@cache
def _everyday_of_row(ndb: str) -> tuple[str, ...]:
    return tuple(item.name for item in everyday.all_foods() if item.row == ndb)


@cache
def of_composition(ndb: str, listed: AllergenList) -> Food:
    """A table row named outright: the everyday food that rests on it, when only one does; else by its published name.

    Where several rest on it, allergens are known only when all of them say the same.
    """
    names = _everyday_of_row(ndb)
    if len(names) == 1:
        return of_everyday(names[0], listed)
    row = composition.row(ndb)
    if row is None:
        raise KeyError(ndb)
    foods = [of_everyday(name, listed) for name in names]
    records = {(food.contains, food.contains_other) for food in foods}
    bare = Food(
        name=row.name,
        basis=Basis("table", row.source),
        row=ndb,
        per_100_g=row.per_100_g,
        figures_from=f"{row.source}, {row.name}",
    )
    if len(records) != 1:
        return bare
    first = foods[0]
    return replace(
        bare,
        contains=first.contains,
        contains_other=first.contains_other,
        allergens_from=first.allergens_from,
        aisle=first.aisle,
    )
