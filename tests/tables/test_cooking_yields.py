from __future__ import annotations

import pytest

from binder.tables import composition, cooking_yields


def test_rice_swells_to_2_80():
    # USDA SR28 20444 and 20445: 100 g give 280 g.
    row = cooking_yields.of_row("20444")
    assert row is not None and row.share == pytest.approx(2.80, abs=0.005)


@pytest.mark.parametrize("row", cooking_yields.GRAINS_AND_PULSES.values(), ids=lambda row: row.food)
def test_water_figures_are_those_of_the_composition_table(row):
    dry, cooked = composition.row(row.dry_row), composition.row(row.cooked_row)
    assert dry is not None and cooked is not None
    assert dry.water_g == row.dry_water_percent
    assert cooked.water_g == row.cooked_water_percent


def test_dry_food_gains_weight():
    assert all(1.8 < row.share < 6.1 for row in cooking_yields.GRAINS_AND_PULSES.values())


@pytest.mark.parametrize(("raw", "cooked"), [(-1, 50), (10, 100), (101, 50)])
def test_water_outside_a_hundred_is_a_fault(raw, cooked):
    with pytest.raises(ValueError):
        cooking_yields.yield_from_water(raw, cooked)


def test_no_water_gained_is_no_weight_gained():
    assert cooking_yields.yield_from_water(12, 12) == 1


def test_meat_and_fish_lose_weight_and_are_marked_as_memory():
    for row in cooking_yields.MEAT_AND_FISH:
        assert 0.25 <= row.share < 1
        assert row.from_memory and "memory" in row.source
    found = cooking_yields.meat_or_fish("bacon", "pan-fried")
    assert found is not None and found.share == 0.30
    assert cooking_yields.meat_or_fish("bacon", "poached") is None
    assert cooking_yields.grain_or_pulse("gravel") is None
