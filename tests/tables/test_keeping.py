from __future__ import annotations

import dataclasses

import pytest

from binder.tables import keeping

# Cold Food Storage Chart, FoodSafety.gov (USDA FSIS / FDA); a month is 30 days, a week 7.
CHART = [
    ("cooked meat or poultry", (3, 4), (60, 180)),
    ("soups and stews", (3, 4), (60, 90)),
    ("chicken nuggets or patties", (3, 4), (30, 90)),
    ("pizza", (3, 4), (30, 60)),
    ("casseroles with eggs", (3, 4), (60, 90)),
    ("mixed salads", (3, 4), None),
    ("hard-cooked eggs", (7, 7), None),
    ("raw eggs in shell", (21, 35), None),
    ("raw egg whites", (2, 4), (360, 360)),
    ("raw egg yolks", (2, 4), None),
    ("raw ground meat", (1, 2), (90, 120)),
    ("raw steaks, chops, roasts", (3, 5), (120, 360)),
    ("raw poultry pieces", (1, 2), (270, 270)),
    ("raw whole poultry", (1, 2), (365, 365)),
    ("raw lean fish", (1, 3), (180, 240)),
    ("raw fatty fish", (1, 3), (60, 90)),
    ("bacon", (7, 7), (30, 30)),
    ("luncheon meat, opened", (3, 5), (30, 60)),
    ("cooked ham, slices", (3, 5), (30, 60)),
    ("cooked sausage", (7, 7), (30, 60)),
    ("hot dogs, opened", (7, 7), (30, 60)),
    ("crab, lobster", (2, 4), (60, 120)),
]


@pytest.mark.parametrize(("name", "fridge", "freezer"), CHART)
def test_rows_of_the_chart(name, fridge, freezer):
    row = keeping.row(name)
    assert row is not None
    assert (row.fridge_days, row.freezer_days) == (fridge, freezer)
    assert row.freezes == (freezer is not None)
    assert "FoodSafety.gov" in row.source and not row.from_memory


def test_a_dish_without_keeping_time_counts_as_cooked_leftovers():
    row = keeping.row(keeping.ASSUMED)
    assert row is not None and row.name == "cooked leftovers"
    assert (row.fridge_days, row.freezer_days) == ((3, 4), (60, 180))


def test_strict_caution_takes_the_lower_end():
    row = keeping.row("soups and stews")
    assert row is not None
    assert (keeping.days(row, "usual"), keeping.days(row, "strict")) == (4, 3)
    assert (keeping.freezer_days(row, "usual"), keeping.freezer_days(row, "strict")) == (90, 60)


def test_raw_food_keeps_after_thawing_as_published():
    # USDA FSIS, The Big Thaw: ground, poultry, fish 1-2 days; red-meat cuts 3-5 days.
    thawed = {r.name: r.after_thawing_days for r in keeping.ROWS.values() if r.raw and r.freezes}
    assert thawed["raw ground meat"] == thawed["raw poultry pieces"] == thawed["raw fatty fish"] == (1, 2)
    assert thawed["raw steaks, chops, roasts"] == (3, 5)


def test_what_is_not_frozen_has_no_days_after_thawing():
    for row in keeping.ROWS.values():
        assert row.freezes == (row.after_thawing_days is not None), row.name
        assert row.freezes or row.freezer_days is None, row.name


def test_thawing_never_gives_more_days_than_the_refrigerator():
    for row in keeping.ROWS.values():
        if row.after_thawing_days:
            assert row.after_thawing_days[1] <= row.fridge_days[1], row.name


def test_what_is_not_published_is_marked():
    for name in ("quiche", "cut fruit", "opened dips and fresh soft cheese", "cooked rice, pasta and grains"):
        row = keeping.row(name)
        assert row is not None and row.from_memory and "memory" in row.source
    dry = keeping.row("dry goods")
    assert dry is not None and dry.source == "common practice" and dry.cupboard_days == dry.fridge_days


def test_every_range_runs_upward():
    for row in keeping.ROWS.values():
        for low, high in filter(None, (row.fridge_days, row.freezer_days, row.after_thawing_days)):
            assert 0 < low <= high, row.name


def test_names_are_found_whatever_their_case_and_spacing():
    assert keeping.row(" Soups  and Stews ") is keeping.row("soups and stews")
    assert keeping.row("leftover soup") is None
    assert all(keeping.row(name) is not None for name in keeping.names())


def test_rows_are_frozen():
    with pytest.raises(dataclasses.FrozenInstanceError):
        keeping.ROWS["pizza"].raw = True
