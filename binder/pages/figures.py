"""Nutrient figures as they are printed: summed raw, rounded once, here.

Source: 21 CFR 101.9(c), FDA Food Labeling Guide, Appendix H; half goes up. Potassium, calcium and iron: the rule
of 2016 (memory). A lower bound is cut down to the whole unit, never rounded up: `at least 300` of a known 295
would say more than is known.
"""

from __future__ import annotations

from collections.abc import Container, Iterable
from dataclasses import dataclass
from fractions import Fraction
from math import floor

from binder.model.food import NUTRIENTS
from binder.model.quantity import Interval
from binder.pages.format import EN_DASH, half_up, number, with_unit
from binder.pages.words.en import Words
from binder.reckon.recipe_facts import Nutrition, Tallies

SOURCE = "21 CFR 101.9(c); FDA Food Labeling Guide, Appendix H"


@dataclass(frozen=True, slots=True)
class Rounded:
    """What is printed: `value`, or less than it."""

    value: Fraction
    less_than: bool = False


def unit_of(nutrient: str) -> str:
    """`kcal`, `g` or `mg`: the unit that ends a nutrient's name."""
    return nutrient.rpartition("_")[2]


def rounded(nutrient: str, amount: Fraction | float) -> Rounded:
    """`amount` by the rule of its nutrient (a name of NUTRIENTS)."""
    exact = amount if isinstance(amount, Fraction) else round(Fraction(amount), 9)
    match nutrient:
        case "energy_kcal":
            return _banded(exact, 5, 5, 50)
        case "sodium_mg":
            return _banded(exact, 5, 5, 140)
        case "fat_g" | "saturated_fat_g":
            return _fat(exact)
        case "potassium_mg" | "calcium_mg":
            return Rounded(half_up(exact, 10))
        case "iron_mg":
            return Rounded(half_up(exact, Fraction(1, 10)))
    return _whole_grams(exact)


def _banded(exact: Fraction, nothing_below: int, step: int, step_to: int) -> Rounded:
    """Nothing under a limit, then the small step up to a limit, then tens."""
    if exact < nothing_below:
        return Rounded(Fraction(0))
    return Rounded(half_up(exact, step if exact <= step_to else 10))


def _fat(exact: Fraction) -> Rounded:
    if exact < Fraction(1, 2):
        return Rounded(Fraction(0))
    return Rounded(half_up(exact, Fraction(1, 2) if exact < 5 else 1))


def _whole_grams(exact: Fraction) -> Rounded:
    if exact < Fraction(1, 2):
        return Rounded(Fraction(0))
    return Rounded(Fraction(1), less_than=True) if exact < 1 else Rounded(half_up(exact))


def figure(nutrient: str, value: Interval | None, at_least: bool, words: Words) -> str:
    """`520 kcal`, `120–150 kcal`, `at least 295 kcal`, `less than 1 g`, `not known`."""
    if value is None:
        return words.not_known
    unit = unit_of(nutrient)
    if at_least:
        # A lower bound's own lower end is what is known.
        bound = with_unit(number(floor(round(Fraction(value.low), 9))), unit)
        return words.at_least.format(bound)
    low, high = rounded(nutrient, value.low), rounded(nutrient, value.high)
    if low == high:
        said = with_unit(number(low.value, 1), unit)
        return words.less_than.format(said) if low.less_than else said
    return with_unit(f"{number(low.value, 1)}{EN_DASH}{number(high.value, 1)}", unit)


def figure_of(nutrition: Nutrition, nutrient: str, words: Words) -> str:
    """The figure of one nutrient of a sum."""
    return figure(nutrient, nutrition.value(nutrient), nutrient in nutrition.at_least, words)


IN_SHORT = ("energy_kcal", "protein_g")


def in_short(nutrition: Nutrition, words: Words) -> str:
    """`about 520 kcal, 32 g protein`."""
    energy = figure_of(nutrition, "energy_kcal", words)
    known = nutrition.value("energy_kcal") is not None and "energy_kcal" not in nutrition.at_least
    protein = words.protein_short.format(figure_of(nutrition, "protein_g", words))
    return f"{words.about.format(energy) if known else energy}, {protein}"


def missing_foods(nutritions: Iterable[Nutrition], among: Container[str] = NUTRIENTS) -> tuple[str, ...]:
    """The foods without a value for any of these nutrients, each once, in order of name."""
    return tuple(sorted({f for n in nutritions for of, foods in n.missing.items() if of in among for f in foods}))


def tally(name: str, tallies: Tallies, words: Words) -> str:
    """A household's own count: `5`, `at least 1`, `not known` where it was not counted."""
    count = tallies.counts.get(name)
    if count is None:
        return words.not_known
    return words.at_least.format(number(count, 2)) if name in tallies.at_least else number(count, 2)


def tally_text(tallies: Tallies, words: Words) -> str:
    """All counts: `vegetables 5, fruit at least 1`."""
    return ", ".join(f"{name} {tally(name, tallies, words)}" for name in sorted(tallies.counts))
