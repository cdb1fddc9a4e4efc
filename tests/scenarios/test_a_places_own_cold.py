"""A place's own refrigerator and freezer: lots that wait there, and what home cannot freeze."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.kitchen import Kitchen, codes, only
from tests.scenarios.dishes import day, dish, plan

POT = dish("300 g carrots", title="Pot", more="keeps: {fridge: 3 days, freezer: 2 months}\n")


@pytest.fixture
def kitchen(tmp_path: Path) -> Kitchen:
    return Kitchen(tmp_path).recipe("pot", POT)


# ---- lots at a place ----


def test_a_lot_in_the_wards_freezer_is_pulled_and_eaten_there(kitchen: Kitchen) -> None:
    kitchen.file("stock.yaml", "ward freezer:\n  - 1 portion pot, made 2026-06-01\n")
    facts = kitchen.week(plan("lunch: pot, for: Tomas, on: wed", more="already: [1 portion pot]\n")).facts()
    pull = facts["pull_list"][0]
    assert (pull["pull_on"], pull["from"], pull["to"]) == (day(9), "ward freezer", "ward fridge")
    carry = facts["carry_list"][0]
    assert "Pot" not in [item["what"] for item in carry["items"]] and carry["there"] == ["Pot"]
    assert facts["batches"] == [] and facts["problems"] == []


def test_it_is_not_eaten_elsewhere(kitchen: Kitchen) -> None:
    kitchen.file("stock.yaml", "ward fridge:\n  - 1 portion pot, made 2026-06-07\n")
    kitchen.week(plan("dinner: pot, for: Tomas, on: mon", more="already: [1 portion pot]\n"))
    assert codes(kitchen.check()) == ["stock-short"]


def test_a_lot_at_home_is_eaten_anywhere(kitchen: Kitchen) -> None:
    kitchen.file("stock.yaml", "freezer:\n  - 1 portion pot, made 2026-06-01\n")
    facts = kitchen.week(plan("lunch: pot, for: Tomas, on: wed", more="already: [1 portion pot]\n")).facts()
    assert [(p["from"], p["to"]) for p in facts["pull_list"]] == [("freezer", "fridge")]
    assert "Pot" in [item["what"] for item in facts["carry_list"][0]["items"]]


# ---- home has no freezer, the place has ----


def ward_only(kitchen: Kitchen, on: str, for_: str = "Tomas") -> dict:
    kitchen.household("kettle, 2 cutting boards, freezer]", "kettle, 2 cutting boards]")
    return kitchen.week(plan(f"lunch: pot, for: {for_}, on: {on}")).facts()


def test_what_home_cannot_freeze_is_frozen_where_it_is_eaten(kitchen: Kitchen) -> None:
    """Made Sunday 7, taken Monday 8: one of three days used up; pulled Thursday 11, two days left: Saturday 13."""
    facts = ward_only(kitchen, "[mon, wed, thu, fri]")
    assert facts["problems"] == []
    friday = only(facts["servings"], date=day(12))
    assert (friday["kept"], friday["taken_on"], friday["pull_on"], friday["use_by"], friday["stored_at"]) == (
        "freezer", day(8), day(11), day(13), "ward",
    )  # fmt: skip
    pull = only(facts["pull_list"], date=day(12))
    assert (pull["from"], pull["to"]) == ("ward freezer", "ward fridge")
    monday = only(facts["carry_list"], date=day(8))
    assert [item["what"] for item in monday["items"]].count("Pot") == 3  # Monday's, Thursday's and Friday's
    assert only(facts["carry_list"], date=day(12))["there"] == ["Pot"]
    assert only(facts["room"], date=day(8), place="fridge") and "freezer" not in {r["place"] for r in facts["room"]}


def test_nobody_is_there_to_pull_it(kitchen: Kitchen) -> None:
    """Monday and Friday only: nobody moves it on Thursday; it would thaw from Monday on, so it stays too late."""
    facts = ward_only(kitchen, "[mon, fri]")
    assert "kept-too-long" in codes(facts["problems"])


def test_nobody_is_there_before(kitchen: Kitchen) -> None:
    assert "kept-too-long" in codes(ward_only(kitchen, "fri")["problems"])


def test_a_place_without_a_freezer_is_no_help(kitchen: Kitchen) -> None:
    kitchen.household("[microwave 700 W, fridge, freezer, kettle]", "[microwave 700 W, fridge, kettle]")
    assert "kept-too-long" in codes(ward_only(kitchen, "[mon, thu, fri]")["problems"])


def test_where_home_has_a_freezer_it_is_frozen_at_once(kitchen: Kitchen) -> None:
    facts = kitchen.week(plan("lunch: pot, for: Tomas, on: [mon, thu, fri]")).facts()
    assert {s["stored_at"] for s in facts["servings"]} == {"home"} and {s["taken_on"] for s in facts["servings"]} == {
        None
    }
