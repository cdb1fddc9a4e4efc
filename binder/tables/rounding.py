"""Rounding of nutrition figures for print, by the US label rule, and what a printed figure may have been before.

Half goes up, exactly.

Source: 21 CFR 101.9(c), FDA Food Labeling Guide, Appendix H. Potassium, calcium and iron: the rule of 2016
(memory). Sums are made raw and rounded once, at the page.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType

SOURCE = "21 CFR 101.9(c); FDA Food Labeling Guide, Appendix H"
EU_SOURCE = "European Commission, guidance on tolerances for nutrient values on a label, December 2012 (memory)"
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


@dataclass(frozen=True, slots=True)
class Steps:
    """How a label rounds one figure: nothing below `nothing`, then by bands (from, up to, step); from memory: EU."""

    nothing: Fraction
    bands: tuple[tuple[Fraction, Fraction | None, Fraction], ...]


def _steps(nothing: str, *bands: tuple[str, str, str]) -> Steps:
    return Steps(
        Fraction(nothing), tuple((Fraction(a), Fraction(b) if b else None, Fraction(step)) for a, b, step in bands)
    )


_US_FAT = _steps("0.5", ("0.5", "5", "0.5"), ("5", "", "1"))
# A pack's "less than 1 g" is written down as 1 g: it begins at half a gram.
_US_GRAMS = _steps("0.5", ("0.5", "", "1"))
_US_TENS = _steps("0", ("0", "", "10"))
_EU_GRAMS = _steps("0.5", ("0.5", "10", "0.1"), ("10", "", "1"))
STEPS: Mapping[str, Mapping[str, Steps]] = MappingProxyType(
    {
        "us": MappingProxyType(
            {
                "energy_kcal": _steps("5", ("5", "50", "5"), ("50", "", "10")),
                "protein_g": _US_GRAMS,
                "fat_g": _US_FAT,
                "saturated_fat_g": _US_FAT,
                "carbohydrate_g": _US_GRAMS,
                "fibre_g": _US_GRAMS,
                "sugars_g": _US_GRAMS,
                "sodium_mg": _steps("5", ("5", "140", "5"), ("140", "", "10")),
                "potassium_mg": _US_TENS,
                "calcium_mg": _US_TENS,
                "iron_mg": _steps("0", ("0", "", "0.1")),
            }
        ),
        "eu": MappingProxyType(
            {
                "energy_kcal": _steps("0", ("0", "", "1")),
                "protein_g": _EU_GRAMS,
                "fat_g": _EU_GRAMS,
                "saturated_fat_g": _steps("0.1", ("0.1", "10", "0.1"), ("10", "", "1")),
                "carbohydrate_g": _EU_GRAMS,
                "fibre_g": _EU_GRAMS,
                "sugars_g": _EU_GRAMS,
                # Of salt in steps of 0.01 g, from 1 g on of 0.1 g: 4 and 40 mg of sodium.
                "sodium_mg": _steps("5", ("5", "400", "4"), ("400", "", "40")),
            }
        ),
    }
)


def before_rounding(nutrient: str, printed: Fraction, rule: str) -> tuple[Fraction, Fraction]:
    """The least and the most that a label may have rounded to `printed`, by the rule of its country (`us`, `eu`).

    A figure that the rule would never print was rounded to its own last digit; one in other units (kJ) has none.
    """
    steps = STEPS[rule].get(nutrient)
    if steps and printed == 0 and steps.nothing:
        return Fraction(0), steps.nothing
    found: list[tuple[Fraction, Fraction]] = []
    for start, end, step in steps.bands if steps else ():
        low, high = max(start, printed - step / 2), printed + step / 2
        high = high if end is None else min(end, high)
        if printed % step == 0 and low < high:
            found.append((low, high))
    if not found:
        finest = min((step for _, _, step in steps.bands), default=None) if steps else None
        half = (_last_digit(printed) or finest or Fraction(0)) / 2
        return max(Fraction(0), printed - half), printed + half
    return min(low for low, _ in found), max(high for _, high in found)


def _last_digit(written: Fraction) -> Fraction | None:
    """The worth of the last digit of a figure as it is written: 1 of 123, 0.01 of 0.55; None for a converted one."""
    return next((digit for digit in (Fraction(1, 10**n) for n in range(4)) if written % digit == 0), None)
