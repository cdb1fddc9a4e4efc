from __future__ import annotations

from binder.tables import aisles


def test_frozen_goods_come_after_the_shelves():
    assert aisles.rank("produce") < aisles.rank("tins and jars") < aisles.rank("frozen") < aisles.rank("other")


def test_what_has_no_aisle_comes_last():
    assert aisles.rank("hardware") == aisles.rank(None) == aisles.rank("other") == len(aisles.AISLES) - 1


def test_names_are_exact():
    assert aisles.is_aisle("meat and fish")
    assert not aisles.is_aisle("Meat")
    assert len(set(aisles.AISLES)) == len(aisles.AISLES)
