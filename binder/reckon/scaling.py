"""How much is made: factors, whole batches, and how often a vessel is filled."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from binder.model.household import Place, Tool
from binder.model.quantity import Amount, Interval
from binder.model.recipe import Recipe
from binder.reckon.recipes import portion_ml

# Common practice and makers' manuals: a pressure vessel is filled to two thirds, to half with what swells or foams.
FILL = Fraction(2, 3)
FILL_SWELLING = Fraction(1, 2)
SWELLING_AISLES = frozenset({"grains and pulses"})
PRESSURE = "pressure cooker"


def made(recipe: Recipe, needed: Fraction) -> Fraction:
    """Portions made when so many are needed: exactly those, or whole (or half) batches."""
    if recipe.batch == "exact" or needed <= 0:
        return needed
    step = recipe.portions if recipe.batch == "whole" else recipe.portions / 2
    return ceil(needed / step) * step


def scaled(amount: Amount | None, factor: Fraction) -> Amount | None:
    """An amount at another size; unknown stays unknown."""
    return amount.times(factor) if amount else None


def scaled_grams(grams: Interval | None, factor: Fraction) -> Interval | None:
    """Grams at another size; unknown stays unknown."""
    return grams.times(float(factor)) if grams else None


def swells(recipe: Recipe) -> bool:
    """Whether a pressure cooker may only be filled to half: grains and pulses swell and foam."""
    return any(line.when == "cooked" and line.food.aisle in SWELLING_AISLES for line in recipe.ingredients)


def usable_ml(tool: Tool, recipe: Recipe) -> Fraction | None:
    """What a vessel takes of a dish, in mL; None when its size is not known."""
    if tool.holds_ml is None:
        return None
    if tool.kind != PRESSURE:
        return tool.holds_ml
    return tool.holds_ml * (FILL_SWELLING if swells(recipe) else FILL)


def batch_ml(recipe: Recipe, portions: Fraction) -> Fraction | None:
    """Volume of so many portions; None when it is not known."""
    one = portion_ml(recipe)
    return one * portions if one is not None else None


def loads_in(tool: Tool, recipe: Recipe, portions: Fraction) -> int:
    """How often the vessel is filled for so many portions; 1 when a size is not known."""
    takes, volume = usable_ml(tool, recipe), batch_ml(recipe, portions)
    if takes is None or volume is None or takes <= 0:
        return 1
    return max(1, ceil(volume / takes))


def loads(recipe: Recipe, portions: Fraction, place: Place) -> int:
    """The most loads that any vessel of the recipe's prep-day steps needs."""
    kinds = {use.kind for step in recipe.prep for use in step.uses}
    return max((loads_in(tool, recipe, portions) for tool in place.tools if tool.kind in kinds), default=1)
