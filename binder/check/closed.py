"""A week's `closed:` block, and the answers that close a week, as what they mean."""

from __future__ import annotations

from fractions import Fraction
from types import MappingProxyType
from typing import TypeVar, cast

from binder.check.closed_fields import (
    AnswerFields,
    ClosedCostFields,
    ClosedDishFields,
    ClosedFields,
    ClosedRecipeFields,
    ClosedSessionFields,
    RangeFields,
    StockChangeFields,
)
from binder.check.declare import Entry, Field, Said
from binder.model.quantity import Interval
from binder.model.week import Closed, ClosedDish, ClosedRecipe, ClosedSession, Source, StockChange

T = TypeVar("T")


def answers_of(entry: Entry) -> Closed:
    """What someone said of a week; what was not said is None or empty."""
    on, note = entry.get(AnswerFields.on), entry.get(AnswerFields.note)
    said = entry.get(AnswerFields.substitutions)
    return Closed(
        on=on.value if on else None,
        dishes=tuple(_dish(one) for one in entry.get(AnswerFields.dishes) or () if one.get(ClosedDishFields.dish)),
        sessions=tuple(made for one in entry.get(AnswerFields.sessions) or () if (made := _session(one))),
        substitutions=tuple(one.value for one in said) if said is not None else None,
        note=note.text.strip() if note else None,
        bought=_value(entry, AnswerFields.bought),
    )


def closed_of(entry: Entry) -> Closed:
    """The block of a closed week, as far as it can be read."""
    said = answers_of(entry)
    cost = entry.get(ClosedFields.cost)
    currency, least = (
        (cost.get(ClosedCostFields.currency), cost.get(ClosedCostFields.at_least)) if cost else (None, None)
    )
    return Closed(
        on=said.on,
        dishes=said.dishes,
        sessions=said.sessions,
        substitutions=said.substitutions,
        note=said.note,
        bought=said.bought,
        recipes=tuple(row for one in entry.get(ClosedFields.recipes) or () if (row := _recipe(one))),
        stock=tuple(made for one in entry.get(ClosedFields.stock) or () if (made := _change(one))),
        consumed=_value(cost, ClosedCostFields.consumed) if cost else None,
        to_pay=_value(cost, ClosedCostFields.to_pay) if cost else None,
        currency=currency.value if currency else "",
        cost_at_least=bool(least and least.value),
        made_of=MappingProxyType({path.value: one.value for path, one in entry.get(ClosedFields.made_of) or ()}),
    )


def _value(entry: Entry, of: Field[Said[T]]) -> T | None:
    said = entry.get(of)
    return said.value if said else None


def _names(entry: Entry, of: Field[tuple[Said[str], ...]]) -> tuple[str, ...]:
    return tuple(one.value for one in entry.get(of) or ())


def _dish(entry: Entry) -> ClosedDish:
    which, made_on, gives = (
        entry.get(ClosedDishFields.which),
        entry.get(ClosedDishFields.made_on),
        entry.get(ClosedDishFields.gives),
    )
    return ClosedDish(
        recipe=_value(entry, ClosedDishFields.dish) or "",
        which=which.value if which else 1,
        source=cast("Source", _value(entry, ClosedDishFields.source) or "session"),
        made_on=made_on.value if made_on else None,
        planned=_value(entry, ClosedDishFields.planned),
        made=_value(entry, ClosedDishFields.made),
        eaten=_value(entry, ClosedDishFields.eaten),
        left=_value(entry, ClosedDishFields.left),
        frozen=_value(entry, ClosedDishFields.frozen),
        thrown=_value(entry, ClosedDishFields.thrown),
        why=_value(entry, ClosedDishFields.why) or "",
        weighs_g=_value(entry, ClosedDishFields.weighs),
        gives=gives.value if gives else None,
        left_by=by.value if (by := entry.get(ClosedDishFields.left_by)) else None,
    )


def _session(entry: Entry) -> ClosedSession | None:
    on, at = entry.get(ClosedSessionFields.on), entry.get(ClosedSessionFields.at)
    planned, minutes = entry.get(ClosedSessionFields.planned), entry.get(ClosedSessionFields.minutes)
    if on is None:
        return None
    return ClosedSession(
        on.value,
        at.value if at else None,
        planned.value if planned else None,
        minutes.value if minutes else None,
    )


def _recipe(entry: Entry) -> ClosedRecipe | None:
    recipe, grams = _value(entry, ClosedRecipeFields.recipe), _value(entry, ClosedRecipeFields.grams)
    cooked = _value(entry, ClosedRecipeFields.cooked_grams)
    if recipe is None:
        return None
    figures = {name.value: _interval(one) for name, one in entry.get(ClosedRecipeFields.per_portion) or ()}
    return ClosedRecipe(
        recipe=recipe,
        eaters=_names(entry, ClosedRecipeFields.eaters),
        edition=_value(entry, ClosedRecipeFields.edition) or "",
        grams=float(grams) if grams is not None else None,
        cooked_grams=float(cooked) if cooked is not None else None,
        per_portion=MappingProxyType(figures),
        at_least=frozenset(_names(entry, ClosedRecipeFields.at_least)),
        contains=_names(entry, ClosedRecipeFields.contains),
        may_contain=_names(entry, ClosedRecipeFields.may_contain),
        not_known=_names(entry, ClosedRecipeFields.not_known),
        cost=_value(entry, ClosedRecipeFields.cost),
    )


def _interval(said: Said[Fraction] | Entry) -> Interval | None:
    if isinstance(said, Said):
        return Interval(float(said.value), float(said.value))
    low, high = _value(said, RangeFields.low), _value(said, RangeFields.high)
    return Interval(float(low), float(high)) if low is not None and high is not None else None


def _change(entry: Entry) -> StockChange | None:
    place = _value(entry, StockChangeFields.place)
    return (
        StockChange(place, _value(entry, StockChangeFields.was), _value(entry, StockChangeFields.now))
        if place
        else None
    )
