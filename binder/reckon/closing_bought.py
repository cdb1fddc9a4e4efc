"""What is left of the packs that a week's shopping list had bought, when it was shopped as listed."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from fractions import Fraction

from binder.model.food import Food
from binder.model.quantity import Amount, exactly
from binder.model.stock import Stock
from binder.reckon.closing import NONE
from binder.reckon.closing_lots import NewLot
from binder.reckon.facts import ShoppingRow
from binder.reckon.shopping import Bought

_COLD_AISLES = frozenset({"dairy and eggs", "meat and fish", "produce"})
# How the storing words of a food begin that is kept in a cupboard, and of one that is cold whatever its aisle.
_NOT_COLD = ("dry", "cool, dark", "cool, dry", "room temperature", "in water at room", "cupboard")
_ROOM = frozenset({"cool room", "cool room until opened"})
_COLD = ("refrigerator", "cold")
_ONCE_OPENED = ("refrigerator once opened", "cold once opened")
# Raw meat and fish keep a day or two once they are home (Cold Food Storage Chart, FoodSafety.gov): a rest of them is
# frozen or gone by the time that a week is closed, and nobody here knows which.
_NOT_KEPT = "meat and fish"
_CRUMB = Fraction(1, 8)  # of a piece; less is nothing to keep (common practice)


@dataclass(frozen=True, slots=True)
class Left:
    """What packs leave: the lots, opened and unopened apart. Not written, for a person to see to: foods whose raw rest
    there is, parts of a cut piece by food, and foods bought in packs of which no size is known."""

    lots: tuple[NewLot, ...]
    raw: tuple[str, ...]
    cut: tuple[tuple[str, Fraction], ...]
    no_pack: tuple[str, ...]


def left_of_packs(listed: Iterable[ShoppingRow], used: Iterable[Bought], stock: Stock | None, bought_on: date) -> Left:
    """What the packs leave. `listed` is the list as it was shopped, `used` the same with what was really made. A pack
    counts as opened on the first day that something of it was used.
    """
    taken = {(one.row.food, one.row.bought.unit): one for one in used}
    places = {lot.food.name: lot.place for lot in stock.lots if lot.food} if stock else {}
    lots: list[NewLot] = []
    raw: dict[str, None] = {}
    cut: list[tuple[str, Fraction]] = []
    no_pack: dict[str, None] = {}
    for row in listed:
        of = taken.get((row.food, row.bought.unit))
        gone = min(of.row.buy.high, row.bought.high) if of else NONE
        rest = row.bought.high - gone
        if row.source is None or row.bought.high <= 0:
            continue
        if not row.sizes and row.bought.unit != "each":
            no_pack[row.food] = None
        if rest <= 0:
            continue
        if row.aisle == _NOT_KEPT and places.get(row.food) != "freezer":
            raw[row.food] = None
            continue
        first = min((demand.day for demand in of.demands), default=bought_on) if of else bought_on
        found = _lots(row, row.source, gone, places.get(row.food), first, bought_on)
        lots += found
        piece = rest - sum((lot.amount.high for lot in found if lot.amount), NONE)
        if row.bought.unit == "each" and piece >= _CRUMB:
            cut.append((row.food, piece))
    return Left(tuple(lots), tuple(raw), tuple(cut), tuple(no_pack))


def _lots(
    row: ShoppingRow, food: Food, gone: Fraction, place: str | None, first: date, bought_on: date
) -> list[NewLot]:
    """What is left of a row's packs as lots: of the opened pack, and of those that are closed."""
    opened, whole = _packs(row, gone)
    lots = []
    for amount, is_open in ((_told(opened, row), row.aisle != "produce"), (whole, False)):
        if amount > 0:  # A bunch is bought, never opened.
            on = first if is_open else bought_on
            where = place or _place(food, is_open)
            until = _opened_until(food, on) if is_open and where == "fridge" else None
            lots.append(_lot(where, row.food, exactly(amount, row.bought.unit), on, is_open, until))
    return lots


def _lot(place: str, food: str, amount: Amount, on: date, is_open: bool, last: date | None) -> NewLot:
    opened, bought = (on, None) if is_open else (None, on)
    return NewLot(place, None, None, None, food=food, amount=amount, opened=opened, bought=bought, last=last)


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
    """Where a food is kept, by its storing words, else by its aisle; once opened where its days then are counted."""
    words = food.store.casefold()
    if food.aisle == "frozen" or words.startswith("freezer"):
        return "freezer"
    if food.aisle == "produce" or not is_open or food.once_opened_days is None:
        dry = words.startswith(_NOT_COLD) or words in _ROOM
        cold = food.aisle in _COLD_AISLES or (words.startswith(_COLD) and not words.startswith(_ONCE_OPENED))
        return "fridge" if cold and not dry else "cupboard"
    return "fridge"


def _opened_until(food: Food, opened: date) -> date | None:
    days = food.once_opened_days
    return opened + timedelta(days=days) if days is not None else None
