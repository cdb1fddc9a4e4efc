"""Chilled food that goes where nothing keeps it cold: said with the hours that it has."""

from __future__ import annotations

import re

import pytest

from tests.kitchen import Kitchen, only
from tests.scenarios.dishes import dish, plan

HOURS = "Without cold, perishable food keeps no longer than 2 h, 1 h above 90 °F / 32 °C (USDA FSIS)"
SCHOOL = "lunch: pot, for: Bea, on: mon"  # has: []


def words(kitchen: Kitchen, path: str) -> str:
    text = (kitchen.out / path).read_text("utf-8")
    return " ".join(re.sub(r"<[^>]+>", " ", text).replace("\xa0", " ").split())


def pot(kitchen: Kitchen, meal: str = SCHOOL, keeps: str = "soups and stews") -> Kitchen:
    return kitchen.recipe("pot", dish(more=f"keeps: {keeps}\n")).week(plan(meal))


def carried(kitchen: Kitchen) -> dict:
    return only(kitchen.facts()["carry_list"])


def things(carry: dict) -> list[str]:
    return [item["what"] for item in carry["items"]]


def test_nothing_cold_at_the_place_nor_at_home(kitchen: Kitchen) -> None:
    carry = carried(pot(kitchen))
    assert (carry["cold"], carry["uncooled"]) == (True, True) and "cool bag" not in things(carry)
    assert "cold pack" in things(carry) and kitchen.check() == []


@pytest.mark.parametrize("bag", ["cool bag", "insulated bag", "cooler"])
@pytest.mark.parametrize("whose", ["place", "home"])
def test_a_cool_bag_is_a_line_to_carry(kitchen: Kitchen, whose: str, bag: str) -> None:
    old = "{name: school, has: []" if whose == "place" else "kettle, 2 cutting boards"
    kitchen.household(old, old.replace("[]", f"[{bag}]") if whose == "place" else f"{bag}, {old}")
    carry = carried(pot(kitchen))
    assert (carry["cold"], carry["uncooled"]) == (True, False)
    assert "cool bag" in things(carry) and "cool bag" in carry["comes_home"]


def test_cold_packs_at_home_keep_it_cold(kitchen: Kitchen) -> None:
    carry = carried(pot(kitchen.household("kettle, 2 cutting boards", "kettle, ice pack, 2 cutting boards")))
    assert carry["uncooled"] is False and "cool bag" not in things(carry)


@pytest.mark.parametrize(
    ("meal", "keeps"),
    [("lunch: pot, for: Tomas, on: mon", "soups and stews"), (SCHOOL, "crackers and dry biscuits")],
)
def test_not_where_a_refrigerator_waits_nor_for_dry_food(kitchen: Kitchen, meal: str, keeps: str) -> None:
    carry = carried(pot(kitchen, meal, keeps))
    assert (carry["cold"], carry["uncooled"]) == (False, False) and "cool bag" not in things(carry)


def test_the_carry_list_says_the_hours_from_leaving_to_eating(kitchen: Kitchen) -> None:
    """Two hours, one above 90 °F: USDA FSIS, Danger Zone. Lunch at 12:30, breakfast at 07:00."""
    times = 'time zone: America/Chicago\nmeal times: {breakfast: "07:00", lunch: "12:30"}'
    pot(kitchen.household("time zone: America/Chicago", times)).build("--only", "site", "--only", "calendar")
    said = words(kitchen, "site/weeks/2026-W24/carry/index.html")
    assert "Nothing keeps this cold on the way." in said and HOURS in said
    assert "eaten at 12:30, it leaves the refrigerator at 10:30 or later, on such a day at 11:30 or later." in said
    assert "Carried from 07:00 on, it is 5 h 30 min until then." in said
    short = "othing keeps it cold: 2 h at most, 1 h above 90 °F / 32 °C"
    assert short in words(kitchen, "site/weeks/2026-W24/index.html")
    unfolded = (kitchen.out / "calendar/2026-W24.ics").read_bytes().decode("utf-8").replace("\r\n ", "")
    assert short in unfolded.replace("\\", "").replace("\xa0", " ")


def test_where_there_is_a_bag_no_such_word(kitchen: Kitchen) -> None:
    pot(kitchen, "lunch: pot, for: Ilka, on: mon").build("--only", "site")
    said = words(kitchen, "site/weeks/2026-W24/carry/index.html")
    assert "Nothing keeps this cold" not in said and "Cool bag" in said
