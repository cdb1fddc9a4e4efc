from __future__ import annotations

import pytest

from binder.tables import keeping, temperatures


# USDA FSIS, safe minimum internal temperatures (April 2025), in both scales.
@pytest.mark.parametrize(
    ("kind", "fahrenheit", "celsius", "rest"),
    [
        ("poultry", 165, 73.9, 0),
        ("leftovers and casseroles", 165, 73.9, 0),
        ("stuffing", 165, 73.9, 0),
        ("ground meat", 160, 71.1, 0),
        ("egg dishes", 160, 71.1, 0),
        ("steaks, chops, roasts", 145, 62.8, 3),
        ("fresh ham", 145, 62.8, 3),
        ("fish and shellfish", 145, 62.8, 0),
    ],
)
def test_core_temperatures(kind, fahrenheit, celsius, rest):
    row = temperatures.core(kind)
    assert row is not None
    assert (row.fahrenheit, round(row.celsius, 1), row.rest_minutes) == (fahrenheit, celsius, rest)


def test_cooling_is_two_hours_to_70_and_six_in_all():
    # FDA Food Code, 3-501.14.
    first, whole = temperatures.COOLING
    assert (first.from_fahrenheit, first.to_fahrenheit, first.within_minutes) == (135, 70, 120)
    assert (whole.from_fahrenheit, whole.to_fahrenheit, whole.within_minutes) == (135, 41, 360)
    assert round(whole.to_celsius) == 5 and round(whole.from_celsius, 1) == 57.2


def test_reheating_in_a_microwave():
    # FDA Food Code, 3-403.11(B).
    assert temperatures.REHEATING.fahrenheit == 165
    assert temperatures.MICROWAVE_STANDING_MINUTES == 2


@pytest.mark.parametrize(("fahrenheit", "hours"), [(None, 2), (70, 2), (90, 2), (91, 1)])
def test_hours_without_a_cold_source(fahrenheit, hours):
    assert temperatures.uncooled_hours(fahrenheit) == hours


def test_holding():
    assert temperatures.REFRIGERATOR.fahrenheit == 40 and temperatures.FREEZER.fahrenheit == 0
    assert round(temperatures.FREEZER.celsius) == -18
    assert temperatures.COLD_HOLD.at_most and not temperatures.HOT_HOLD.at_most
    assert temperatures.HOT_HOLD.from_memory and "memory" in temperatures.HOT_HOLD.source


def test_every_raw_row_of_the_keeping_chart_but_bacon_has_a_core_temperature():
    raw = {row.name for row in keeping.ROWS.values() if row.raw}
    assert {name for name in raw if temperatures.core_of_row(name) is None} == {"bacon"}


def test_poultry_rows_take_the_poultry_temperature():
    row = temperatures.core_of_row("raw poultry pieces")
    assert row is not None and row.fahrenheit == 165
    assert temperatures.core_of_row("dry goods") is None


def test_rows_named_for_core_temperatures_exist_in_the_keeping_chart():
    assert all(keeping.row(name) for name in temperatures._CORE_OF_ROW)


def test_a_pressure_vessel_is_never_full():
    assert temperatures.PRESSURE_FILL_SWELLING < temperatures.PRESSURE_FILL < 1
