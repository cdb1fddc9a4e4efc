"""The household's own counts, in stated steps that are never interpolated.

Between two steps, or above the last, the count is at least that of the step below.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from types import MappingProxyType

from binder.model.food import TallyStep
from binder.reckon.facts import IngredientFacts, Tallies


def count(steps: tuple[TallyStep, ...], amount: Fraction) -> tuple[Fraction, bool]:
    """The count of the step at or below `amount`, and whether that step was stated for exactly this amount."""
    below = Fraction(0)
    for step in sorted(steps, key=lambda step: step.at.low):
        if step.at.low == amount:
            return step.count, True
        if step.at.low < amount:
            below = step.count
    return below, amount == 0


def of_portions(
    recipe_steps: Mapping[str, tuple[TallyStep, ...]],
    foods: Iterable[IngredientFacts],
    recipe_portions: Fraction,
    portions: Fraction,
) -> Tallies:
    """What so many portions count: by the recipe's own steps, else by its foods' steps in grams."""
    counts: dict[str, float] = {}
    at_least: set[str] = set()
    for name, steps in recipe_steps.items():
        value, exact = count(steps, portions)
        counts[name] = float(value)
        if not exact:
            at_least.add(name)
    for line in foods:
        for name, steps in line.ingredient.food.tallies.items():
            if name in recipe_steps:
                continue
            value, exact = _of_food(line, steps, portions / recipe_portions)
            counts[name] = counts.get(name, 0.0) + float(value)
            if not exact:
                at_least.add(name)
    return Tallies(MappingProxyType(dict(sorted(counts.items()))), frozenset(at_least))


def _of_food(line: IngredientFacts, steps: tuple[TallyStep, ...], share: Fraction) -> tuple[Fraction, bool]:
    if line.grams is None:
        return Fraction(0), False
    # Grams come from published floats: 30 g of 240 g in eight is 30, not 29.999999.
    grams = Fraction(round(line.grams.low * float(share) * line.eaten, 6)).limit_denominator(1_000_000)
    return count(steps, grams)


def total(parts: Iterable[Tallies]) -> Tallies:
    """The sum of counts; one lower bound makes the sum one."""
    counts: dict[str, float] = {}
    at_least: set[str] = set()
    for part in parts:
        for name, value in part.counts.items():
            counts[name] = counts.get(name, 0.0) + value
        at_least |= part.at_least
    return Tallies(MappingProxyType(dict(sorted(counts.items()))), frozenset(at_least))
