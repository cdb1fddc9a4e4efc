from __future__ import annotations

from fractions import Fraction

import pytest
import round_nutrition
from hypothesis import given
from hypothesis import strategies as st

from binder.tables.rounding import RULES, Rounded, before_rounding, rounded

INDEPENDENT = {
    "energy_kcal": round_nutrition.calories,
    "fat_g": round_nutrition.total_fat,
    "saturated_fat_g": round_nutrition.sat_fat,
    "sodium_mg": round_nutrition.sodium,
    "carbohydrate_g": round_nutrition.total_carb,
    "protein_g": round_nutrition.protein,
}


# 21 CFR 101.9(c); FDA Food Labeling Guide, Appendix H.
@pytest.mark.parametrize(
    ("nutrient", "amount", "printed"),
    [
        ("energy_kcal", 4.9, 0), ("energy_kcal", 5, 5), ("energy_kcal", 47.5, 50), ("energy_kcal", 47.4, 45),
        ("energy_kcal", 50, 50), ("energy_kcal", 54.9, 50), ("energy_kcal", 55, 60), ("energy_kcal", 1996, 2000),
        ("fat_g", 0.49, 0), ("fat_g", 0.5, 0.5), ("fat_g", 2.25, 2.5), ("fat_g", 4.9, 5), ("fat_g", 5.5, 6),
        ("saturated_fat_g", 1.2, 1), ("sodium_mg", 4.9, 0), ("sodium_mg", 137.5, 140), ("sodium_mg", 140, 140),
        ("sodium_mg", 144, 140), ("sodium_mg", 145, 150), ("carbohydrate_g", 0.4, 0), ("fibre_g", 1.5, 2),
        ("sugars_g", 10.49, 10), ("protein_g", 1, 1),
        # The rule of 2016 (memory).
        ("potassium_mg", 235, 240), ("calcium_mg", 64.9, 60), ("iron_mg", 1.25, 1.3),
    ],
)  # fmt: skip
def test_published_steps(nutrient, amount, printed):
    assert rounded(nutrient, amount) == Rounded(printed)


@pytest.mark.parametrize("nutrient", ["carbohydrate_g", "fibre_g", "sugars_g", "protein_g"])
def test_below_a_gram_is_less_than_one(nutrient):
    assert rounded(nutrient, 0.5) == rounded(nutrient, 0.99) == Rounded(1, less_than=True)


def _independent(nutrient: str, amount: float) -> Rounded:
    text = INDEPENDENT[nutrient](str(amount)).removesuffix("mg").removesuffix("g").strip()
    if text.startswith("less than"):
        return Rounded(float(text.removeprefix("less than")), less_than=True)
    return Rounded(float(text))


@pytest.mark.parametrize("nutrient", INDEPENDENT)
def test_agrees_with_an_independent_library_away_from_halves(nutrient):
    # Its halves follow binary floats; every tenth and a little more stays clear of them.
    for tenths in range(0, 4000, 3):
        amount = tenths / 10 + 0.03
        assert rounded(nutrient, amount) == _independent(nutrient, amount), amount


def test_halves_go_up_exactly():
    assert rounded("iron_mg", Fraction(5, 100)).value == 0.1
    assert rounded("protein_g", 2.5).value == 3
    assert rounded("protein_g", 3.5).value == 4


def test_the_trace_of_a_sum_does_not_decide_a_half():
    total = sum([0.1] * 25)  # 2.500000000000000 or a little less or more
    assert rounded("protein_g", total).value == 3
    assert rounded("energy_kcal", 47.49999999999999).value == 50


@given(st.sampled_from(sorted(RULES)), st.floats(0, 5000), st.floats(0, 5000))
def test_more_is_never_printed_as_less(nutrient, one, other):
    low, high = sorted((one, other))
    assert rounded(nutrient, low).value <= rounded(nutrient, high).value


# 21 CFR 101.9(c); FDA Food Labeling Guide, Appendix H. The EU's guidance on tolerances, 2012: from memory.
@pytest.mark.parametrize(
    ("nutrient", "printed", "rule", "low", "high"),
    [
        ("energy_kcal", "120", "us", "115", "125"), ("energy_kcal", "45", "us", "42.5", "47.5"),
        ("energy_kcal", "50", "us", "47.5", "55"), ("energy_kcal", "0", "us", "0", "5"),
        ("energy_kcal", "60", "us", "55", "65"), ("energy_kcal", "5", "us", "5", "7.5"),
        ("fat_g", "0", "us", "0", "0.5"), ("fat_g", "0.5", "us", "0.5", "0.75"), ("fat_g", "4.5", "us", "4.25", "4.75"),
        ("fat_g", "5", "us", "4.75", "5.5"), ("fat_g", "9", "us", "8.5", "9.5"),
        ("sodium_mg", "135", "us", "132.5", "137.5"), ("sodium_mg", "140", "us", "137.5", "145"),
        ("sodium_mg", "480", "us", "475", "485"), ("protein_g", "4", "us", "3.5", "4.5"),
        ("sugars_g", "1", "us", "0.5", "1.5"), ("fibre_g", "0", "us", "0", "0.5"),
        ("iron_mg", "1.2", "us", "1.15", "1.25"),
        # A figure that the rule would never print: its own last digit.
        ("energy_kcal", "123", "us", "122.5", "123.5"), ("protein_g", "3.7", "us", "3.65", "3.75"),
        ("energy_kcal", "120", "eu", "119.5", "120.5"), ("fat_g", "4.2", "eu", "4.15", "4.25"),
        ("fat_g", "12", "eu", "11.5", "12.5"), ("saturated_fat_g", "0", "eu", "0", "0.1"),
        ("energy_kcal", "500/3", "eu", "997/6", "1003/6"),  # converted from kJ: half a kcal
        ("sodium_mg", "200", "eu", "198", "202"), ("iron_mg", "2.1", "eu", "2.05", "2.15"),
    ],
)  # fmt: skip
def test_what_a_label_may_have_rounded_from(nutrient, printed, rule, low, high):
    assert before_rounding(nutrient, Fraction(printed), rule) == (Fraction(low), Fraction(high))


@given(st.sampled_from(sorted(RULES)), st.integers(0, 200000))
def test_a_figure_lies_within_what_its_print_may_have_been(nutrient, hundredths):
    exact = Fraction(hundredths, 100)
    printed = rounded(nutrient, exact)
    low, high = before_rounding(nutrient, Fraction(str(printed.value)), "us")
    assert low <= exact <= high


def test_a_negative_amount_is_a_fault():
    with pytest.raises(ValueError):
        rounded("fat_g", -1)


def test_what_is_from_memory_is_marked():
    assert {n for n, rule in RULES.items() if rule.from_memory} == {"potassium_mg", "calcium_mg", "iron_mg"}
