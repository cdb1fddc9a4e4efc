from __future__ import annotations

from fractions import Fraction

import pint
import pytest

from binder.tables import measures

PINT_US = {
    "tsp": "teaspoon", "tbsp": "tablespoon", "cup": "cup", "fl-oz": "US_fluid_ounce",
    "pint": "US_pint", "quart": "quart", "gallon": "gallon", "mL": "milliliter", "cl": "centiliter",
    "dl": "deciliter", "L": "liter",
}  # fmt: skip
PINT_UK = {
    "fl-oz": "imperial_fluid_ounce", "pint": "imperial_pint", "quart": "imperial_quart",
    "gallon": "imperial_gallon",
}  # fmt: skip
PINT_MASS = {"g": "gram", "kg": "kilogram", "mg": "milligram", "oz": "ounce", "lb": "pound"}


@pytest.fixture(scope="module")
def registry() -> pint.UnitRegistry:
    return pint.UnitRegistry()


@pytest.mark.parametrize(("unit", "full_name"), PINT_US.items())
def test_us_volumes_agree_with_an_independent_library(registry, unit, full_name):
    assert float(measures.ml_per(unit)) == pytest.approx(registry.Quantity(1, full_name).m_as("milliliter"))


@pytest.mark.parametrize(("unit", "full_name"), PINT_UK.items())
def test_uk_volumes_agree_with_an_independent_library(registry, unit, full_name):
    expected = registry.Quantity(1, full_name).m_as("milliliter")
    assert float(measures.ml_per(unit, "uk")) == pytest.approx(expected)


@pytest.mark.parametrize(("unit", "full_name"), PINT_MASS.items())
def test_masses_agree_with_an_independent_library(registry, unit, full_name):
    assert float(measures.g_per(unit)) == pytest.approx(registry.Quantity(1, full_name).m_as("gram"))


# NIST Handbook 44, Appendix C.
@pytest.mark.parametrize(
    ("unit", "millilitres"),
    [("tsp", 4.92892), ("tbsp", 14.78676), ("cup", 236.5882), ("fl-oz", 29.57353), ("pint", 473.1765),
     ("quart", 946.3529), ("gallon", 3785.412)],
)  # fmt: skip
def test_us_volumes_are_the_published_ones(unit, millilitres):
    assert float(measures.ML_PER[unit]) == pytest.approx(millilitres, rel=1e-6)


def test_what_is_defined_exactly_is_exact():
    # NIST Handbook 44, Appendix C; Weights and Measures Act 1985 (memory).
    assert measures.ml_per("gallon") == Fraction("3785.411784")
    assert measures.g_per("lb") == Fraction("453.59237")
    assert measures.g_per("oz") == Fraction("28.349523125")
    assert measures.ml_per("pint", "uk") == Fraction("568.26125")


def test_metric_spoons():
    assert [measures.ml_per(u, "metric") for u in ("cup", "tbsp", "tsp")] == [250, 15, 5]


@pytest.mark.parametrize("system", ["us", "metric", "uk"])
def test_spoon_fractions_follow_the_teaspoon_of_their_system(system):
    teaspoon = measures.ml_per("tsp", system)
    assert measures.ml_per("dash", system) * 8 == teaspoon
    assert measures.ml_per("pinch", system) * 16 == teaspoon
    assert measures.ml_per("smidgen", system) * 32 == teaspoon


def test_label_measures_are_those_of_the_label_rule():
    # 21 CFR 101.9(b)(5)(viii).
    assert measures.LABEL_ML_PER == {"cup": 240, "fl-oz": 30, "tbsp": 15, "tsp": 5}
    assert measures.LABEL_G_PER == {"oz": 28}


def test_a_stick_of_butter_is_the_table_row():
    assert measures.STICK_BUTTER_G == 113  # USDA SR28 01001


def test_every_unit_has_one_kind():
    kinds = {unit: measures.kind(unit) for unit in measures.UNITS}
    assert kinds["tbsp"] == "volume" and kinds["lb"] == "mass" and kinds["clove"] == "count"
    assert len(measures.UNITS) == len(measures.ML_PER) + len(measures.G_PER) + len(measures.COUNT_UNITS)


def test_a_unit_that_is_none_is_a_fault():
    with pytest.raises(KeyError):
        measures.kind("tablespoon")


def test_a_row_says_where_it_comes_from():
    row = measures.measure("pint", "uk")
    assert row is not None and row.from_memory and "1985" in row.source
    assert measures.measure("clove") is None


def test_the_table_cannot_be_written():
    with pytest.raises(TypeError):
        measures.ML_PER["cup"] = Fraction(1)
