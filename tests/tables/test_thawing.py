from __future__ import annotations

from fractions import Fraction

import pytest

from binder.tables import thawing

FOUR_POUNDS = 4 * Fraction("453.59237")


# USDA FSIS, The Big Thaw: 24 h for each 4-5 lb, at least a day for small packs.
@pytest.mark.parametrize(
    ("grams", "expected"),
    [(None, 1), (0, 1), (200, 1), (FOUR_POUNDS, 1), (1815, 2), (2 * FOUR_POUNDS, 2), (5444, 4)],
)
def test_nights_in_the_refrigerator(grams, expected):
    assert thawing.nights(grams) == expected


def test_days_after_thawing_by_kind():
    assert [thawing.after_thawing_days(k) for k in ("ground", "poultry", "fish")] == [(1, 2)] * 3
    assert thawing.after_thawing_days("red-meat cuts") == (3, 5)
    assert thawing.after_thawing_days("bread") is None


# Illinois Extension, USDA: up to 1 lb about 1 h, 3-4 lb 2-3 h, larger 30 min a pound (memory).
@pytest.mark.parametrize(
    ("grams", "minutes"), [(450, (60, 60)), (1000, (120, 180)), (1800, (120, 180)), (4536, (301, 301))]
)
def test_cold_water(grams, minutes):
    assert thawing.cold_water(grams).minutes == minutes


def test_a_larger_piece_never_thaws_sooner():
    sizes = range(100, 6000, 100)
    ends = [thawing.cold_water(g).minutes[1] for g in sizes]
    assert ends == sorted(ends)
