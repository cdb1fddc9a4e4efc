"""Figures for print: 21 CFR 101.9(c), FDA Food Labeling Guide, Appendix H; half goes up (memory)."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.model.food import NUTRIENTS
from binder.model.quantity import Interval
from binder.pages import figures
from binder.pages.words.en import ENGLISH
from binder.reckon.recipe_facts import NOTHING, Tallies
from binder.tables import rounding

from .fixture import figures as nutrition


def said(nutrient: str, low: float, high: float | None = None, at_least: bool = False) -> str:
    value = Interval(low, low if high is None else high)
    return figures.figure(nutrient, value, at_least, ENGLISH).replace("\u00a0", " ")


@pytest.mark.parametrize(
    ("nutrient", "value", "text"),
    [
        ("energy_kcal", 4.9, "0 kcal"), ("energy_kcal", 47.5, "50 kcal"), ("energy_kcal", 297.5, "300 kcal"),
        ("fat_g", 0.4, "0 g"), ("fat_g", 2.3, "2.5 g"), ("fat_g", 5.5, "6 g"),
        ("sodium_mg", 4.0, "0 mg"), ("sodium_mg", 137.6, "140 mg"), ("sodium_mg", 447.0, "450 mg"),
        ("protein_g", 0.4, "0 g"), ("protein_g", 0.7, "less than 1 g"), ("protein_g", 32.5, "33 g"),
    ],
)  # fmt: skip
def test_rounding_by_the_label_rule(nutrient: str, value: float, text: str) -> None:
    assert said(nutrient, value) == text


@given(st.sampled_from(NUTRIENTS), st.floats(0, 5000))
def test_rounding_agrees_with_the_published_table(nutrient: str, value: float) -> None:
    table, ours = rounding.rounded(nutrient, value), figures.rounded(nutrient, value)
    assert (float(ours.value), ours.less_than) == (pytest.approx(table.value), table.less_than)


def test_a_lower_bound_is_never_rounded_up() -> None:
    assert said("energy_kcal", 295.0, at_least=True) == "at least 295 kcal"
    assert said("energy_kcal", 299.9, at_least=True) == "at least 299 kcal"
    assert said("energy_kcal", 120.0, 150.0, at_least=True) == "at least 120 kcal"


def test_ranges_and_unknown() -> None:
    assert said("energy_kcal", 119.0, 152.0) == "120–150 kcal"
    assert said("energy_kcal", 298.0, 301.0) == "300 kcal"
    assert figures.figure("energy_kcal", None, True, ENGLISH) == "not known"


def test_in_short_says_about_only_of_what_is_whole() -> None:
    whole = figures.in_short(nutrition(523.0, 31.6), ENGLISH).replace("\u00a0", " ")
    part = figures.in_short(nutrition(295.0, 14.0, {"energy_kcal": ("radish",)}), ENGLISH).replace("\u00a0", " ")
    assert whole == "about 520 kcal, 32 g protein"
    assert part == "at least 295 kcal, 14 g protein"


def test_missing_foods_are_named_once() -> None:
    sums = [nutrition(1.0, 1.0, {"energy_kcal": ("radish",), "protein_g": ("radish", "kelp")}), NOTHING]
    assert figures.missing_foods(sums) == ("kelp", "radish")


def test_a_tally_may_be_a_lower_bound() -> None:
    counts = Tallies({"vegetables": 1.0, "fruit": 2.5}, frozenset({"vegetables"}))
    assert figures.tally("vegetables", counts, ENGLISH) == "at least 1"
    assert figures.tally("fruit", counts, ENGLISH) == "2.5"
    assert figures.tally("oats", counts, ENGLISH) == "not known"
