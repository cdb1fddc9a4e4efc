"""How much a recipe makes, and how large a portion of it is."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from binder.check.amounts import amount_of
from binder.check.declare import Entry, Found, Said
from binder.check.fields import RecipeFields
from binder.model.quantity import Amount, Measure
from binder.problem import error
from binder.tables.measures import System


@dataclass(frozen=True, slots=True)
class Size:
    """Portions, the whole as an amount where one was written, one portion likewise."""

    portions: Fraction
    makes: Amount | None
    portion: Amount | None
    portion_measure: Measure | None


def size_of(entry: Entry, cup: System, found: Found) -> Size | None:
    """What `makes` and `portion` come to; None when it cannot be told what the recipe makes.

    `makes` in portions is that many; an amount divided by a portion of the same kind; pieces without a portion are
    one portion each; another amount without a portion is one portion.
    """
    makes, portion = entry.get(RecipeFields.makes), entry.get(RecipeFields.portion)
    whole = _single(makes, cup, found)
    one = _single(portion, cup, found)
    if makes is None or whole is None:
        return None
    measure = portion.value if portion and one else None
    if makes.value.unit == "portion":
        return Size(whole.low, None, one, measure)
    if one is None or portion is None:
        return Size(whole.low if whole.unit == "each" else Fraction(1), whole, None, None)
    if one.unit != whole.unit:
        message = f'"{makes.text}" cannot be divided into portions of "{portion.text}"'
        found.append(error(portion.span, "wrong-type", message, "write makes in portions, or both in one kind of unit"))
        return Size(Fraction(1), whole, None, None)
    return Size(whole.low / one.low, whole, one, measure)


def _single(said: Said[Measure] | None, cup: System, found: Found) -> Amount | None:
    """The amount, when it is one number in a unit that can be added up."""
    if said is None:
        return None
    amount = amount_of(said.value, cup)
    if amount is None:
        message = f'"{said.text}" is neither portions, weight, volume nor pieces'
        found.append(error(said.span, "unknown-unit", message, "write portions, g, mL, cup or each"))
    elif amount.is_range:
        found.append(error(said.span, "bad-amount", f'"{said.text}" is a range', "write one number"))
        return None
    return amount
