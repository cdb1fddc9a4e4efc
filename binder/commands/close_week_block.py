"""A week's `closed:` block as keys and values to be written."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from binder.model.food import NUTRIENTS
from binder.model.quantity import Interval
from binder.model.week import Closed, ClosedDish, ClosedRecipe, ClosedSession
from binder.source.numbers import in_figures


def block_of(closed: Closed) -> dict[str, Any]:
    """The block in the order it is read: answers first, then what was reckoned. Numbers are raw, unknown is null."""
    cost = {
        "consumed": _raw(closed.consumed),
        "to pay": _raw(closed.to_pay),
        "currency": closed.currency,
        "at least": closed.cost_at_least,
    }
    block: dict[str, Any] = {
        "on": closed.on.isoformat() if closed.on else None,
        "dishes": [_dish(one) for one in closed.dishes],
        "sessions": [_session(one) for one in closed.sessions],
        "substitutions": list(closed.substitutions or ()),
        "note": closed.note,
        "bought": closed.bought,
        "cost": cost,
        "recipes": [_recipe(one) for one in closed.recipes],
        "made of": dict(closed.made_of),
        "stock": [_written(place=one.place, was=one.was, now=one.now) for one in closed.stock],
    }
    return {key: value for key, value in block.items() if value not in (None, [], {}, "")}


def _written(**values: Any) -> dict[str, Any]:
    return {key: value for key, value in values.items() if value is not None}


def _dish(dish: ClosedDish) -> dict[str, Any]:
    made: dict[str, Any] = {
        "dish": dish.recipe,
        "which": dish.which if dish.which > 1 else None,
        "from": dish.source if dish.source != "session" else None,
        "made on": dish.made_on.isoformat() if dish.made_on else None,
        "planned": dish.planned,
        "made": dish.made,
        "eaten": dish.eaten,
        "left": dish.left,
        "frozen": dish.frozen,
        "thrown": dish.thrown,
        "why": dish.why or None,
        "weighs": f"{float(dish.weighs_g):.10g} g cooked" if dish.weighs_g is not None else None,
        "left by": ", ".join(f"{who} {in_figures(count)}" for who, count in dish.left_by or ()) or None,
        "by-products": False if dish.gives is False else None,
    }
    return _written(**made)


def _session(session: ClosedSession) -> dict[str, Any]:
    at = session.at_minutes
    clock = f"{at // 60:02d}:{at % 60:02d}" if at is not None else None
    made: dict[str, Any] = {"on": session.on.isoformat(), "at": clock, "planned": session.planned}
    return {**_written(**made), "minutes": session.minutes}


def _recipe(recipe: ClosedRecipe) -> dict[str, Any]:
    made: dict[str, Any] = {
        "recipe": recipe.recipe,
        "for": list(recipe.eaters) or None,
        "edition": recipe.edition or None,
    }
    figures = {name: _figure(recipe.per_portion.get(name)) for name in NUTRIENTS}
    least = [name for name in NUTRIENTS if name in recipe.at_least]
    return {
        **_written(**made),
        "grams": _raw(recipe.grams),
        **_written(**{"cooked grams": _raw(recipe.cooked_grams)}),
        "cost": _raw(recipe.cost),
        "per portion": figures,
        **_written(**{"at least": least or None}),
        "contains": list(recipe.contains),
        **_written(**{"may contain": list(recipe.may_contain) or None, "not known": list(recipe.not_known) or None}),
    }


def _raw(value: Fraction | float | None) -> float | int | None:
    """Not rounded but for the noise of floats in the eleventh figure."""
    if value is None:
        return None
    near = float(f"{float(value):.10g}")
    return int(near) if near.is_integer() else near


def _figure(value: Interval | None) -> Any:
    if value is None or value.is_point:
        return _raw(value.low if value else None)
    return {"low": _raw(value.low), "high": _raw(value.high)}
