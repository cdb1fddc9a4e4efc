"""Foods on hand: which lots count, in which order they are used, and what is past its time.

First-expired first-out. A refrigerated lot past its time is not on hand; one in the freezer or the cupboard past its
time is past its best, still on hand, and said so.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from fractions import Fraction

from binder.model.food import Food
from binder.model.quantity import Amount, Unit
from binder.model.stock import Lot, Stock
from binder.problem import Problem
from binder.reckon import conversion
from binder.reckon.conversion import CupSystem
from binder.reckon.dishes import past_best, past_use_by
from binder.reckon.words import counted


@dataclass(frozen=True, slots=True)
class OnHand:
    """A lot that counts, and its last day (refrigerated: use-by; else the end of its best); None: not known."""

    lot: Lot
    last: date | None
    perishes: bool

    def usable_on(self, day: date) -> bool:
        return not self.perishes or self.last is None or day <= self.last


def last_day(lot: Lot, food: Food, caution: str = "usual") -> tuple[date, str] | None:
    """The earliest of the dates that are known, and what it rests on: `best before`, `opened 2026-06-03, it
    then keeps 7 days`, ...

    Best before, as the maker says; once opened, the days it then keeps (the day opened is day 0; not in the freezer);
    once thawed, the days that raw food then has (USDA FSIS, The Big Thaw); frozen, its freezer life.
    """

    def since(day: date, days: int, words: str) -> tuple[date, str]:
        return day + timedelta(days=days), f"{words.format(day.isoformat())} {counted(days, 'day')}"

    dates: list[tuple[date, str]] = []
    if lot.best_before:
        dates.append((lot.best_before, "best before"))
    if lot.opened and food.once_opened_days is not None and lot.place != "freezer":
        dates.append(since(lot.opened, food.once_opened_days, "opened {}, it then keeps"))
    keeping, end = food.keeping, 0 if caution == "strict" else 1
    if keeping and lot.thawed and lot.place != "freezer" and (thawed := keeping.thawed_days or keeping.fridge_days):
        dates.append(since(lot.thawed, thawed[end], "thawed {},"))
    if keeping and lot.frozen and lot.place == "freezer" and keeping.freezer_days:
        dates.append(since(lot.frozen, keeping.freezer_days[end], "frozen {},"))
    return min(dates) if dates else None


def foods_on_hand(stock: Stock, today: date, caution: str = "usual") -> tuple[tuple[OnHand, ...], tuple[Problem, ...]]:
    """The lots of foods that count, first-expired first, and the problems of those past their time."""
    found: list[OnHand] = []
    problems: list[Problem] = []
    for lot in stock.lots:
        if lot.food is None or lot.recipe is not None:
            continue
        known, cold = last_day(lot, lot.food, caution), lot.place == "fridge"
        last = known[0] if known else None
        if known and known[0] < today:
            problems.append(past_use_by(lot, *known) if cold else past_best(lot, *known))
            if cold:
                continue
        found.append(OnHand(lot, last, cold))
    found.sort(key=lambda item: (item.last or date.max, item.lot.span.line))
    return tuple(found), tuple(problems)


def same_food(one: Food, other: Food) -> bool:
    """Whether two foods are the same thing to buy."""
    return one.name == other.name


def amount_in(lot: Lot, food: Food, unit: Unit, system: CupSystem, piece: str = "each") -> Amount | None:
    """What a lot holds, as purchased, in the unit asked for; None when it cannot be told.

    `piece` is the piece meant by `each`: two heads of garlic are no two cloves.
    """
    amount = conversion.total_amount(lot.measures, lot.pack, system)
    words = {measure.unit for measure in lot.measures}
    if amount is not None and amount.unit == unit and (unit != "each" or words == {piece}):
        return amount
    if amount is None or "each" in (unit, amount.unit):
        weighed = conversion.weigh_all(food, lot.measures, lot.pack, (), system)
        if weighed is None:
            return None
        by_weight = amount is not None and amount.unit == "g"
        share = Fraction(1) if by_weight else food.edible_share
        amount = Amount(Fraction(weighed.grams.low) / share, Fraction(weighed.grams.high) / share, "g")
    return conversion.purchased_in_unit(food, amount, unit, piece)


def lots_of(food: Food, on_hand: Iterable[OnHand]) -> tuple[OnHand, ...]:
    """The lots of one food, first-expired first."""
    return tuple(item for item in on_hand if item.lot.food and same_food(item.lot.food, food))
