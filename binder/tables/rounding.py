"""Rounding of nutrition figures for print, by the US label rule; half goes up, exactly.

Source: 21 CFR 101.9(c), FDA Food Labeling Guide, Appendix H. Potassium, calcium and iron: the rule of 2016
(memory). Sums are made raw and rounded once, at the page.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType

SOURCE = "21 CFR 101.9(c); FDA Food Labeling Guide, Appendix H"
SOURCE_2016 = "21 CFR 101.9(c)(8), rule of 2016 (memory)"


@dataclass(frozen=True, slots=True)
class Rounded:
    """A figure to print: `value` in the nutrient's unit, or less than `value` when `less_than`."""

    value: float
    less_than: bool = False


@dataclass(frozen=True, slots=True)
class Rule:
    """How one nutrient is rounded, and where that is published."""

    nutrient: str
    apply: Callable[[Fraction], Rounded]
    source: str
    from_memory: bool = False


def _to_nearest(amount: Fraction, step: Fraction | int) -> Rounded:
    """To the nearest multiple of `step`; half goes up (memory)."""
    return Rounded(float((amount / step + Fraction(1, 2)).__floor__() * Fraction(step)))


def _energy(kcal: Fraction) -> Rounded:
    if kcal < 5:
        return Rounded(0.0)
    return _to_nearest(kcal, 5 if kcal <= 50 else 10)


def _fat(grams: Fraction) -> Rounded:
    if grams < Fraction(1, 2):
        return Rounded(0.0)
    return _to_nearest(grams, Fraction(1, 2) if grams < 5 else 1)


def _sodium(milligrams: Fraction) -> Rounded:
    if milligrams < 5:
        return Rounded(0.0)
    return _to_nearest(milligrams, 5 if milligrams <= 140 else 10)


def _whole_grams(grams: Fraction) -> Rounded:
    if grams < Fraction(1, 2):
        return Rounded(0.0)
    return Rounded(1.0, less_than=True) if grams < 1 else _to_nearest(grams, 1)


def _tens(milligrams: Fraction) -> Rounded:
    return _to_nearest(milligrams, 10)


def _tenths(milligrams: Fraction) -> Rounded:
    return _to_nearest(milligrams, Fraction(1, 10))


RULES: Mapping[str, Rule] = MappingProxyType(
    {
        rule.nutrient: rule
        for rule in (
            Rule("energy_kcal", _energy, SOURCE),
            Rule("protein_g", _whole_grams, SOURCE),
            Rule("fat_g", _fat, SOURCE),
            Rule("saturated_fat_g", _fat, SOURCE),
            Rule("carbohydrate_g", _whole_grams, SOURCE),
            Rule("fibre_g", _whole_grams, SOURCE),
            Rule("sugars_g", _whole_grams, SOURCE),
            Rule("sodium_mg", _sodium, SOURCE),
            Rule("potassium_mg", _tens, SOURCE_2016, from_memory=True),
            Rule("calcium_mg", _tens, SOURCE_2016, from_memory=True),
            Rule("iron_mg", _tenths, SOURCE_2016, from_memory=True),
        )
    }
)


def rounded(nutrient: str, amount: float | Fraction) -> Rounded:
    """`amount` of `nutrient` (a name of RULES, in the unit that ends it) as it is printed.

    A float is taken to nine decimals first: 47.49999999999999 is the trace of a sum that was 47.5.
    Raises KeyError for another nutrient, ValueError for a negative amount.
    """
    exact = amount if isinstance(amount, Fraction) else round(Fraction(amount), 9)
    if exact < 0:
        raise ValueError(f"negative amount of {nutrient}")
    return RULES[nutrient].apply(exact)
