"""From what was written to amounts that add up, and from amounts to grams, with where the grams come from.

Volume to mass goes by the food's own measure: the household's scale, then the everyday table, then the SR28 row,
nearest matching form first. Water's density stands in only for water-like liquids, and says so.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from binder.model.food import Food
from binder.model.quantity import Amount, Interval, Measure, Unit
from binder.tables import composition, everyday, measures
from binder.tables.household_weights import HouseholdWeight, grams_of

CupSystem = Literal["us", "metric", "uk"]
_UNIT_OF: dict[str, Unit] = {"mass": "g", "volume": "mL", "count": "each"}
OWN_SCALE = "household"


@dataclass(frozen=True, slots=True)
class Weighed:
    """Grams of edible food and the words that say how they were got."""

    grams: Interval
    basis: str


def unit_of(unit: str) -> Unit:
    """The unit that sums use for a written one: g for any mass, mL for any volume, each for pieces."""
    return _UNIT_OF[measures.kind(unit)]


def amount_of(measure: Measure, pack: Measure | None, system: CupSystem = "us") -> Amount:
    """A written measure in g, mL or each; a stated pack (`2 cans of 400 g`) counts as what it holds."""
    if pack is not None and measures.kind(measure.unit) == "count":
        one = amount_of(pack, None, system)
        return Amount(measure.low * one.low, measure.high * one.high, one.unit)
    unit = unit_of(measure.unit)
    if unit == "g":
        factor = measures.g_per(measure.unit)
    elif unit == "mL":
        factor = measures.ml_per(measure.unit, system)
    else:
        factor = Fraction(1)
    return Amount(measure.low * factor, measure.high * factor, unit)


def total_amount(written: Iterable[Measure], pack: Measure | None, system: CupSystem = "us") -> Amount | None:
    """The sum of a line's measures, or None where nothing was written or the kinds differ (1 can and 100 g)."""
    parts = [amount_of(measure, pack, system) for measure in written]
    if not parts or len({part.unit for part in parts}) > 1:
        return None
    total = parts[0]
    for part in parts[1:]:
        total = total.plus(part)
    return total


def grams_per_unit(food: Food, unit: str, size: str, forms: tuple[str, ...]) -> tuple[float, str] | None:
    """Grams (edible part) of one written unit of a food, with its basis; None when nothing known fits."""
    piece = size if size and unit == "each" else unit.replace("fl-oz", "fl oz")
    own = tuple(
        HouseholdWeight(1, " ".join(filter(None, (w.size, w.unit, w.form))), w.grams, OWN_SCALE)
        for w in food.weights
        if w.source.startswith(OWN_SCALE)
    )
    wanted = (size, *forms) if size else forms
    if own and (found := grams_of(own, name=food.name, unit=piece, form=wanted)):
        return found.grams, found.basis
    if food.everyday:
        asked = "each" if size and unit == "each" else piece
        if found := everyday.grams_per(everyday.food(food.everyday), asked, wanted):
            return found.grams, found.basis
    row = composition.row(food.row) if food.row else None
    if row and (found := composition.grams_per(row, piece, wanted)):
        return found.grams, found.basis
    return None


def _volume_grams(food: Food, measure: Measure, forms: tuple[str, ...], system: CupSystem) -> tuple[float, str] | None:
    us_ml, here_ml = measures.ml_per("cup", "us"), measures.ml_per(measure.unit, system)
    known = grams_per_unit(food, measure.unit, "", forms) if measures.ml_per(measure.unit, "us") == here_ml else None
    if known:
        return known
    # A published weight stands at a US cup; another volume is taken in proportion.
    cup = grams_per_unit(food, "cup", "", forms)
    if cup:
        share = here_ml / us_ml
        return cup[0] * float(share), f"{cup[1]}; 1 {measure.unit} of {float(here_ml):.4g} mL in proportion"
    if food.fluid:
        return float(here_ml), "water's density, 1 g for each mL (a water-like liquid)"
    return None


def weigh(
    food: Food, measure: Measure, pack: Measure | None, forms: tuple[str, ...] = (), system: CupSystem = "us"
) -> Weighed | None:
    """Grams of edible food in one written measure, or None when no weight is known."""
    kind = measures.kind(measure.unit)
    if kind == "mass":
        grams = measures.g_per(measure.unit)
        return Weighed(Interval(float(measure.low * grams), float(measure.high * grams)), "weighed as written")
    if kind == "count" and pack is not None:
        one = weigh(food, pack, None, forms, system)
        if one is None:
            return None
        grams_low, grams_high = one.grams.low * float(measure.low), one.grams.high * float(measure.high)
        return Weighed(Interval(grams_low, grams_high), f"stated size of one {measure.unit}: {one.basis}")
    each = (
        _volume_grams(food, measure, forms, system)
        if kind == "volume"
        else grams_per_unit(food, measure.unit, measure.size, forms)
    )
    if each is None:
        return None
    return Weighed(Interval(float(measure.low) * each[0], float(measure.high) * each[0]), each[1])


def weigh_all(
    food: Food,
    written: tuple[Measure, ...],
    pack: Measure | None,
    forms: tuple[str, ...] = (),
    system: CupSystem = "us",
) -> Weighed | None:
    """Grams of a whole line; None when any of its measures has no known weight or none was written."""
    parts = [weigh(food, measure, pack, forms, system) for measure in written]
    if not parts or any(part is None for part in parts):
        return None
    known = [part for part in parts if part is not None]
    grams = known[0].grams
    for part in known[1:]:
        grams = grams + part.grams
    return Weighed(grams, "; ".join(dict.fromkeys(part.basis for part in known)))


def in_unit(food: Food, amount: Amount, unit: Unit, piece: str = "each") -> Amount | None:
    """An amount of a food in another unit (g, mL or pieces), by its own measures; None when no weight is known."""
    if amount.unit == unit:
        return amount
    grams = amount if amount.unit == "g" else _to_grams(food, amount)
    if grams is None or unit == "g":
        return grams
    per = grams_per_unit(food, "cup" if unit == "mL" else piece, "", ())
    one = Fraction(per[0]) / (measures.ml_per("cup") if unit == "mL" else 1) if per else None
    if one is None and unit == "mL" and food.fluid:
        one = Fraction(1)
    return Amount(grams.low / one, grams.high / one, unit) if one else None


def purchased_in_unit(food: Food, amount: Amount, unit: Unit, piece: str = "each") -> Amount | None:
    """An amount as purchased in another unit: what is weighed has its refuse, a piece's weight has none."""
    if amount.unit == unit:
        return amount
    edible = amount.times(food.edible_share) if amount.unit == "g" else amount
    turned = in_unit(food, edible, unit, piece)
    return turned.times(1 / food.edible_share) if turned and unit == "g" else turned


def _to_grams(food: Food, amount: Amount) -> Amount | None:
    written = Measure(amount.low, amount.high, "mL" if amount.unit == "mL" else "each")
    weighed = weigh(food, written, None)
    if weighed is None:
        return None
    return Amount(Fraction(weighed.grams.low), Fraction(weighed.grams.high), "g")
