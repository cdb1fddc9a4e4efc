"""The household's own counts, in stated steps that are never interpolated.

Between two steps, or above the last, the count is at least that of the step below.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from types import MappingProxyType

from binder.model.food import TallyStep
from binder.model.quantity import Amount, Unit
from binder.reckon import conversion
from binder.reckon.recipe_facts import IngredientFacts, Tallies

ONE = Fraction(1)
# Published weights are floats: 30 g of 240 g in eight is 30, not 29.999999.
CLOSE = 1_000_000


def count(steps: tuple[TallyStep, ...], amount: Fraction) -> tuple[Fraction, bool]:
    """The count of the step at or below `amount`, and whether that step was stated for exactly this amount."""
    below = Fraction(0)
    for step in sorted(steps, key=lambda step: step.at.low):
        if abs(step.at.low - amount) * CLOSE <= step.at.low:
            return step.count, True
        if step.at.low < amount:
            below = step.count
    return below, amount == 0


def of_portions(
    recipe_steps: Mapping[str, tuple[TallyStep, ...]],
    lines: Iterable[IngredientFacts],
    recipe_portions: Fraction,
    portions: Fraction,
) -> Tallies:
    """What so many portions count: by the recipe's own steps, else by those of its foods and of its parts."""
    parts = [_of_line(line, portions / recipe_portions) for line in lines]
    counts: dict[str, float] = {}
    at_least: set[str] = set()
    for name, steps in recipe_steps.items():
        value, exact = count(steps, portions)
        counts[name] = float(value)
        if not exact:
            at_least.add(name)
    below = total(parts)
    counts |= {name: value for name, value in below.counts.items() if name not in recipe_steps}
    at_least |= below.at_least - set(recipe_steps)
    return Tallies(MappingProxyType(dict(sorted(counts.items()))), frozenset(at_least))


def _of_line(line: IngredientFacts, share: Fraction) -> Tallies:
    """What a share of one line counts: a part as so many portions of it, a food by its own steps."""
    made = line.made_from
    if made is not None:
        if line.share is None:
            return Tallies(at_least=frozenset(of_portions(made.recipe.tallies, made.ingredients, ONE, ONE).counts))
        part = Fraction(line.share.low * line.eaten) * made.recipe.portions
        return of_portions(made.recipe.tallies, made.ingredients, made.recipe.portions, part * share)
    counts: dict[str, float] = {}
    at_least: set[str] = set()
    for name, steps in line.ingredient.food.tallies.items():
        value, exact = _of_food(line, steps, share)
        counts[name] = float(value)
        if not exact:
            at_least.add(name)
    return Tallies(MappingProxyType(counts), frozenset(at_least))


def _of_food(line: IngredientFacts, steps: tuple[TallyStep, ...], share: Fraction) -> tuple[Fraction, bool]:
    """The count by what is eaten in the unit of the steps; a range whose ends differ is at least its lower end."""
    whole = _in_unit(line, steps[0].at.unit) if steps else None
    if whole is None:
        return Fraction(0), False
    eaten = share * Fraction(line.eaten)
    low, exact = count(steps, whole.low * eaten)
    high, exact_too = count(steps, whole.high * eaten)
    return low, exact and exact_too and low == high


def _in_unit(line: IngredientFacts, unit: Unit) -> Amount | None:
    """The line's edible amount in a unit of the steps: as it was written, else by the food's own measures."""
    if line.amount and line.amount.unit == unit != "g" and all(m.unit != "clove" for m in line.ingredient.measures):
        return line.amount
    if line.grams is None:
        return None
    grams = Amount(Fraction(line.grams.low), Fraction(line.grams.high), "g")
    return conversion.in_unit(line.ingredient.food, grams, unit)


def total(parts: Iterable[Tallies]) -> Tallies:
    """The sum of counts; one lower bound makes the sum one."""
    counts: dict[str, float] = {}
    at_least: set[str] = set()
    for part in parts:
        for name, value in part.counts.items():
            counts[name] = counts.get(name, 0.0) + value
        at_least |= part.at_least
    return Tallies(MappingProxyType(dict(sorted(counts.items()))), frozenset(at_least))
