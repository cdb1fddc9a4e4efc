"""What is left of the packs that a week's shopping list had bought, when it was shopped as listed."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from fractions import Fraction

from binder.model.food import Food
from binder.model.quantity import Amount, exactly
from binder.model.stock import Stock
from binder.reckon.closing import NONE
from binder.reckon.closing_lots import NewLot
from binder.reckon.facts import ShoppingRow
from binder.reckon.shopping import Bought

_COLD_AISLES = frozenset({"dairy and eggs", "meat and fish", "produce"})
# Produce that its storing words keep out of the refrigerator.
_NOT_COLD = ("dry", "cool, dark", "room temperature", "in water at room")
# Raw meat and fish keep a day or two once they are home (Cold Food Storage Chart, FoodSafety.gov): a rest of them is
# frozen or gone by the time that a week is closed, and nobody here knows which.
_NOT_KEPT = "meat and fish"


def left_of_packs(
    listed: Iterable[ShoppingRow], used: Iterable[Bought], stock: Stock | None, bought_on: date
) -> tuple[tuple[NewLot, ...], tuple[str, ...]]:
    """The lots that the packs leave, opened and unopened apart, and the foods whose rest a person has to see to.

    `listed` is the list as it was shopped, `used` the same with what was really made. A pack counts as opened on the
    first day that something of it was used.
    """
    taken = {(one.row.food, one.row.bought.unit): one for one in used}
    places = {lot.food.name: lot.place for lot in stock.lots if lot.food} if stock else {}
    lots: list[NewLot] = []
    see_to: list[str] = []
    for row in listed:
        of = taken.get((row.food, row.bought.unit))
        gone = min(of.row.buy.high, row.bought.high) if of else NONE
        if row.source is None or row.bought.high - gone <= 0:
            continue
        opened, whole = _packs(row, gone)
        if row.aisle == _NOT_KEPT and places.get(row.food) != "freezer":
            see_to.append(row.food)
            continue
        first = min((demand.day for demand in of.demands), default=bought_on) if of else bought_on
        for amount, is_open in ((_told(opened, row), True), (whole, False)):
            if amount > 0:
                place = places.get(row.food) or _place(row.source, is_open)
                is_open = is_open and row.aisle != "produce"  # A bunch is bought, never opened.
                on = first if is_open else bought_on
                lots.append(_lot(place, row.food, exactly(amount, row.bought.unit), on, is_open))
    return tuple(lots), tuple(see_to)


def _lot(place: str, food: str, amount: Amount, on: date, is_open: bool) -> NewLot:
    opened, bought = (on, None) if is_open else (None, on)
    return NewLot(place, None, None, None, food=food, amount=amount, opened=opened, bought=bought)


def _told(amount: Fraction, row: ShoppingRow) -> Fraction:
    """A rest as a look into the pack tells it: whole pieces, five grams or millilitres (common practice)."""
    step = 1 if row.bought.unit == "each" else 5
    return Fraction(amount // step * step)


def _packs(row: ShoppingRow, gone: Fraction) -> tuple[Fraction, Fraction]:
    """What is left in the opened pack, and in those that are closed; the largest are used first."""
    if not row.sizes:
        return NONE, _told(row.bought.high - gone, row)
    opened = whole = NONE
    for size in (one.size.high for one in sorted(row.sizes, key=lambda s: -s.size.high) for _ in range(one.count)):
        if gone <= 0:
            whole += size
        elif gone < size:
            opened += size - gone
        gone -= size
    return opened, whole


def _place(food: Food, is_open: bool) -> str:
    if food.aisle == "frozen":
        return "freezer"
    if food.aisle in _COLD_AISLES and not food.store.startswith(_NOT_COLD):
        return "fridge"
    return "fridge" if is_open and food.once_opened_days is not None else "cupboard"
