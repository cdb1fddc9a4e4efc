"""A week's `closed:` block, and the answers that close a week, as what they mean."""

from __future__ import annotations

from fractions import Fraction
from types import MappingProxyType
from typing import cast

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
        bought=_text(entry, AnswerFields.bought),
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
        consumed=_number(cost, ClosedCostFields.consumed) if cost else None,
        to_pay=_number(cost, ClosedCostFields.to_pay) if cost else None,
        currency=currency.value if currency else "",
        cost_at_least=bool(least and least.value),
        made_of=MappingProxyType({path.value: one.value for path, one in entry.get(ClosedFields.made_of) or ()}),
    )


def _number(entry: Entry, of: Field[Said[Fraction]]) -> Fraction | None:
    said = entry.get(of)
    return said.value if said else None


def _text(entry: Entry, of: Field[Said[str]]) -> str | None:
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
        recipe=_text(entry, ClosedDishFields.dish) or "",
        which=which.value if which else 1,
        source=cast("Source", _text(entry, ClosedDishFields.source) or "session"),
        made_on=made_on.value if made_on else None,
        planned=_number(entry, ClosedDishFields.planned),
        made=_number(entry, ClosedDishFields.made),
        eaten=_number(entry, ClosedDishFields.eaten),
        left=_number(entry, ClosedDishFields.left),
        frozen=_number(entry, ClosedDishFields.frozen),
        thrown=_number(entry, ClosedDishFields.thrown),
        why=_text(entry, ClosedDishFields.why) or "",
        weighs_g=_number(entry, ClosedDishFields.weighs),
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
    recipe, grams = _text(entry, ClosedRecipeFields.recipe), _number(entry, ClosedRecipeFields.grams)
    if recipe is None:
        return None
    figures = {name.value: _interval(one) for name, one in entry.get(ClosedRecipeFields.per_portion) or ()}
    return ClosedRecipe(
        recipe=recipe,
        eaters=_names(entry, ClosedRecipeFields.eaters),
        edition=_text(entry, ClosedRecipeFields.edition) or "",
        grams=float(grams) if grams is not None else None,
        per_portion=MappingProxyType(figures),
        at_least=frozenset(_names(entry, ClosedRecipeFields.at_least)),
        contains=_names(entry, ClosedRecipeFields.contains),
        may_contain=_names(entry, ClosedRecipeFields.may_contain),
        not_known=_names(entry, ClosedRecipeFields.not_known),
        cost=_number(entry, ClosedRecipeFields.cost),
    )


def _interval(said: Said[Fraction] | Entry) -> Interval | None:
    if isinstance(said, Said):
        return Interval(float(said.value), float(said.value))
    low, high = _number(said, RangeFields.low), _number(said, RangeFields.high)
    return Interval(float(low), float(high)) if low is not None and high is not None else None


def _change(entry: Entry) -> StockChange | None:
    place = _text(entry, StockChangeFields.place)
    return (
        StockChange(place, _text(entry, StockChangeFields.was), _text(entry, StockChangeFields.now)) if place else None
    )
