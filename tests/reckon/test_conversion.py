"""Measures to grams, each by the food's own published measure."""

from __future__ import annotations

from fractions import Fraction

import pint
import pytest

from binder.check.pantry import food_of, pantry_of
from binder.model.food import Food, FoodWeight
from binder.model.quantity import Measure
from binder.problem import Span
from binder.reckon import conversion
from binder.source.line import read_line
from binder.tables import measures

PANTRY = pantry_of((), "us", "us")
UNITS = pint.UnitRegistry()


def grams(line: str) -> float:
    read, problems = read_line(line, Span("x", 1, 1, len(line) + 1))
    assert not problems, problems
    named = food_of(read, PANTRY)
    assert named is not None, line
    written = tuple(Measure(m.low, m.high, m.unit, m.size) for m in read.amounts)
    pack = Measure(read.pack.low, read.pack.high, read.pack.unit, read.pack.size) if read.pack else None
    weighed = conversion.weigh_all(named.food, written, pack, named.form_words)
    assert weighed is not None, line
    return weighed.grams.middle


# USDA SR28 WEIGHT, number of the row and its published measure beside each.
PUBLISHED = [
    ("1 cup all-purpose flour", 125),  # 20081, 1 cup = 125 g
    ("2 medium onions", 220),  # 11282, 1 medium = 110 g
    ("1 cup onion, chopped", 160),  # 11282, 1 cup, chopped
    ("1 cup onion, sliced", 115),  # 11282, 1 cup, sliced
    ("1 stick butter", 113),  # 01001, 1 stick
    ("1 tbsp butter", 14.2),  # 01001
    ("2 large eggs", 100),  # 01123, 1 large = 50 g
    ("1 cup whole almonds", 143),  # 12061
    ("1 cup sliced almonds", 92),  # 12061
    ("3 cloves garlic", 9),  # 11215, 1 clove = 3 g
    ("1 cup honey", 339),  # 19296
    ("1 dash salt", 0.4),  # 02047
    ("1 tsp salt", 6),  # 02047
    ("1 tbsp olive oil", 13.5),  # 04053
    ("1 lb 4 oz carrots", 566.99),  # by weight
    ("2 14.5-oz cans diced tomatoes", 822.1),  # stated size
]


@pytest.mark.parametrize(("line", "expected"), PUBLISHED)
def test_a_line_weighs_what_its_row_says(line: str, expected: float) -> None:
    assert grams(line) == pytest.approx(expected, rel=0.005)


@pytest.mark.parametrize(
    ("unit", "name"),
    [("tsp", "teaspoon"), ("tbsp", "tablespoon"), ("cup", "cup"), ("pint", "pint"), ("fl-oz", "fluid_ounce")],
)
def test_volumes_agree_with_a_reference_library(unit: str, name: str) -> None:
    amount = conversion.amount_of(Measure(Fraction(1), Fraction(1), unit), None)
    assert float(amount.low) == pytest.approx(UNITS.Quantity(1, name).to("milliliter").magnitude)


def test_the_households_own_scale_comes_first() -> None:
    food = Food("flour", row="20081", weights=(FoodWeight("cup", 140.0, source="household"),))
    weighed = conversion.weigh(food, Measure(Fraction(2), Fraction(2), "cup"), None)
    assert weighed is not None and weighed.grams.low == 280 and "household" in weighed.basis


def test_an_unknown_weight_is_not_guessed() -> None:
    assert conversion.weigh(Food("moon dust"), Measure(Fraction(1), Fraction(1), "cup"), None) is None


def test_waters_density_only_for_water_like_liquids_and_it_says_so() -> None:
    one = Measure(Fraction(100), Fraction(100), "mL")
    weighed = conversion.weigh(Food("spring drink", fluid=True), one, None)
    assert weighed is not None and weighed.grams.low == 100 and "water" in weighed.basis
    assert conversion.weigh(Food("spring stone"), one, None) is None


def test_there_and_back_is_exact() -> None:
    for unit in ("cup", "tsp", "quart"):
        amount = conversion.amount_of(Measure(Fraction(7, 3), Fraction(7, 3), unit), None)
        assert amount.low / measures.ml_per(unit) == Fraction(7, 3)
