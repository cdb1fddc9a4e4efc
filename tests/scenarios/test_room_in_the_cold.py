"""Room in refrigerator and freezer where the household states it, and what the freezer takes on prep day."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from binder.check.tools import read_tool
from binder.problem import Span
from binder.tables import freezing
from tests.kitchen import Kitchen, only
from tests.scenarios.dishes import day, dish, plan

FOUR_CUPS = 4 * 0.2365882  # litres; NIST Handbook 44


@pytest.fixture
def kitchen(tmp_path: Path) -> Kitchen:
    made = Kitchen(tmp_path).household("kettle, 2 cutting boards, freezer]", "kettle, fridge 2 L, freezer 0.5 cu ft]")
    made.household("holds: 3 cup", "holds: 3 cup + 1 cup")
    return made.recipe("pot", dish("1500 g carrots", title="Pot", more="keeps: {fridge: 2 days, freezer: 2 months}\n"))


def test_litres_by_day_and_when_it_is_too_full(kitchen: Kitchen) -> None:
    """Three for Monday and one for Friday: 4 cups each, all compartments; Friday's is pulled on Thursday."""
    facts = kitchen.week(plan("lunch: pot, for: everyone, on: mon", "dinner: pot, for: Ilka, on: fri")).facts()
    fridge = {row["date"]: row for row in facts["room"] if row["place"] == "fridge"}
    freezer = {row["date"]: row["litres"] for row in facts["room"] if row["place"] == "freezer"}
    assert {date: round(row["litres"], 3) for date, row in fridge.items()} == {
        day(7): round(3 * FOUR_CUPS, 3), day(8): round(3 * FOUR_CUPS, 3),
        day(11): round(FOUR_CUPS, 3), day(12): round(FOUR_CUPS, 3),
    }  # fmt: skip
    assert set(freezer) == {day(7), day(8), day(9), day(10)}
    assert [fridge[day(n)]["over"] for n in (7, 8, 11)] == [True, True, False]
    assert fridge[day(7)]["holds"] == 2


def test_a_freezer_takes_so_much_in_a_day(kitchen: Kitchen) -> None:
    """Half a cubic foot: 1.5 lb at the upper end (University of Minnesota Extension); 1,500 g are too much."""
    load = only(kitchen.week(plan("dinner: pot, for: Ilka, on: fri")).facts()["freezer_load"], date=day(7))
    assert load["grams"] == 1500 and round(load["at_most_grams"], 2) == 680.39 and load["over"] is True
    kitchen.household("time zone", "caution: strict\ntime zone")
    assert round(kitchen.facts()["freezer_load"][0]["at_most_grams"], 2) == 453.59


def test_what_is_not_stated_is_not_known(kitchen: Kitchen) -> None:
    kitchen.household("fridge 2 L, freezer 0.5 cu ft", "freezer")
    facts = kitchen.week(plan("dinner: pot, for: Ilka, on: [mon, fri]")).facts()
    assert {row["holds"] for row in facts["room"]} == {None} and not any(row["over"] for row in facts["room"])
    assert facts["freezer_load"][0]["at_most_grams"] is None
    # A box of 3 cups is over a pint: an inch (NCHFP).
    boxes = [{"recipe": "pot", "container": "deep tub", "count": 1, "headspace_inches": 1}]
    assert facts["freezer_load"][0]["boxes"] == boxes


def test_the_pages_warn_of_it(kitchen: Kitchen) -> None:
    week = plan("lunch: pot, for: everyone, on: mon", "dinner: pot, for: Ilka, on: fri")
    kitchen.week(week).build("--only", "site")

    def page(name: str) -> str:
        return (kitchen.out / f"site/weeks/2026-W24/{name}/index.html").read_text("utf-8").replace("\u00a0", " ")

    assert "Too full on Sun 7 Jun and Mon 8 Jun" in page("keeping") and "holds 2 L" in page("keeping")
    assert "More than it freezes in a day" in page("packing") and "NCHFP" in page("packing")
    kitchen.household("fridge 2 L, freezer 0.5 cu ft", "fridge 9 L, freezer 2 cu ft").build("--only", "site")
    assert "Too full" not in page("keeping") and "More than it freezes" not in page("packing")


@pytest.mark.parametrize(
    "text", ["freezer 2 cu ft", "freezer 2 cubic feet", "freezer, 2 Cubic Feet", "freezer 2 cu. ft."]
)
def test_cubic_feet_are_read(text: str) -> None:
    tool, problems = read_tool(text, Span("household.yaml", 1, 1, 2))
    assert (tool.kind, problems) == ("freezer", ()) and round(float(tool.holds_ml or 0)) == 56634


def test_headspace_by_the_size_of_the_box() -> None:
    # NCHFP: liquids, wide tops: pint 1/2 in, quart 1 in.
    assert freezing.headspace_inches(Fraction(400)) == Fraction(1, 2)
    assert freezing.headspace_inches(Fraction(900)) == freezing.headspace_inches(Fraction(3000)) == 1
