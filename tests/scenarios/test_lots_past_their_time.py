"""Lots past their time by place: what the message says, what counts; and how what is bought is put away."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.kitchen import Kitchen, codes, only
from tests.scenarios.dishes import day, dish, plan

FOODS = """\
- name: moon sauce
  contains: []
  once opened: 7 days
  aisle: tins and jars
- name: star curd
  contains: []
  aisle: dairy and eggs
- name: sun mince
  contains: []
  aisle: meat and fish
  keeps: raw ground meat
"""


@pytest.fixture
def kitchen(tmp_path: Path) -> Kitchen:
    made = Kitchen(tmp_path).file("foods.yaml", FOODS)
    return made.recipe("pot", dish("100 g carrots", title="Pot")).week(plan("dinner: pot, for: Ilka, on: mon"))


def said(kitchen: Kitchen, stock: str, code: str) -> dict:
    return only(kitchen.file("stock.yaml", stock).check(), code=code)


def test_a_refrigerated_lot_past_best_before_says_which_date_it_is(kitchen: Kitchen) -> None:
    problem = said(kitchen, "fridge:\n  - 200 g star curd, best before 2026-06-03\n", "past-use-by")
    assert "Wednesday 3 June (best before)" in problem["message"] and "bought" not in problem["message"]
    assert "not counted as on hand" in problem["message"]
    assert problem["remedies"][0].startswith("throw it away") and "freezer" in problem["remedies"][-1]


def test_an_opened_lot_says_how_long_it_keeps_once_opened(kitchen: Kitchen) -> None:
    problem = said(kitchen, "fridge:\n  - 200 g moon sauce, opened 2026-05-20, best before 2026-12-01\n", "past-use-by")
    assert "opened 2026-05-20, it then keeps 7 days" in problem["message"] and "27 May" in problem["message"]


@pytest.mark.parametrize("place", ["freezer", "cupboard"])
def test_elsewhere_it_is_a_date_for_quality(kitchen: Kitchen, place: str) -> None:
    problem = said(kitchen, f"{place}:\n  - 200 g star curd, best before 2026-06-03\n", "past-best")
    assert "quality" in problem["message"] and "still counted" in problem["message"]


def test_a_dish_past_its_time_says_its_rule(kitchen: Kitchen) -> None:
    """Cooked leftovers 3-4 days (Cold Food Storage Chart, FoodSafety.gov): made on the 1st, the 5th is the last."""
    problem = said(kitchen, "fridge:\n  - 1 portion pot, made 2026-06-01\n", "past-use-by")
    assert "Friday 5 June (made 2026-06-01; it keeps 4 days, usual)" in problem["message"]
    problem = said(kitchen, "fridge:\n  - 1 portion pot, made 2026-05-01, thawed 2026-06-01\n", "past-use-by")
    assert "thawed 2026-06-01" in problem["message"] and not any("freezer" in one for one in problem["remedies"])


def test_days_once_opened_do_not_run_in_the_freezer(kitchen: Kitchen) -> None:
    assert kitchen.file("stock.yaml", "freezer:\n  - 200 g moon sauce, opened 2026-05-01\n").check() == []


def test_frozen_food_is_past_its_best_after_its_freezer_life(kitchen: Kitchen) -> None:
    # Raw ground meat 3-4 months frozen (Cold Food Storage Chart, FoodSafety.gov), a month being 30 days.
    kitchen.file("stock.yaml", "freezer:\n  - 400 g sun mince, frozen 2026-02-06\n")
    assert kitchen.check(today="2026-06-06") == []
    assert codes(kitchen.check(today="2026-06-07")) == ["past-best"]


@pytest.mark.parametrize(
    ("caution", "today", "found"), [("usual", 8, []), ("usual", 9, ["past-use-by"]), ("strict", 8, ["past-use-by"])]
)
def test_thawed_raw_food_has_its_days_after_thawing(
    kitchen: Kitchen, caution: str, today: int, found: list[str]
) -> None:
    # Ground meat 1-2 days after thawing in the refrigerator (USDA FSIS, The Big Thaw); thawed on the 6th.
    kitchen.household("time zone", f"caution: {caution}\ntime zone")
    kitchen.file("stock.yaml", "fridge:\n  - 400 g sun mince, thawed 2026-06-06\n")
    assert codes(kitchen.check(today=day(today))) == found


def test_an_opened_pack_without_known_days_is_used_first(kitchen: Kitchen) -> None:
    facts = kitchen.file("stock.yaml", "fridge:\n  - 200 g star curd, opened 2026-05-01\n").facts()
    row = only(facts["use_first"], food="star curd")
    assert row["use_by"] is None and "not known" in row["why"]


def test_a_dish_without_a_date_is_used_first(kitchen: Kitchen) -> None:
    facts = kitchen.file("stock.yaml", "fridge:\n  - 2 portions pot\n").facts()
    assert only(facts["use_first"], recipe="pot")["use_by"] is None


def test_the_use_first_list_says_which_dishes_would_use_it(kitchen: Kitchen) -> None:
    kitchen.recipe("cream", dish("100 g star curd", title="Cream"))
    kitchen.recipe("bake", dish("100 g star curd", "100 g rice", title="Curd bake"))
    facts = kitchen.file("stock.yaml", "fridge:\n  - 200 g star curd, best before 2026-06-09\n").facts()
    assert only(facts["use_first"], food="star curd")["dishes"] == ["cream", "bake"]
    kitchen.build("--only", "site")
    page = (kitchen.out / "site/weeks/2026-W24/pull/index.html").read_text("utf-8")
    assert "goes into Cream, Curd bake" in page


# ---- what goes in cold keeps its dates ----


def curds(kitchen: Kitchen, steps: str, on: str) -> dict:
    kitchen.file("stock.yaml", "fridge:\n  - 500 g star curd, best before 2026-06-10\n")
    kitchen.recipe("cream", dish("100 g star curd", title="Cream", more="keeps: {fridge: 6 days}\n"), steps)
    facts = kitchen.week(plan(f"dinner: cream, for: Ilka, on: {on}")).facts()
    return only(facts["shopping"], food="star curd")


COLD = "## Prep day\n1. Stir. [5 min]\n"
HOT = "## Prep day\n1. Bake. [20 min, oven 350 F]\n"


@pytest.mark.parametrize(
    ("steps", "on", "buy"), [(COLD, "wed", 0), (COLD, "thu", 100), (HOT, "thu", 0), ("", "thu", 0)]
)
def test_a_lot_goes_into_what_is_put_together_cold_only_while_it_keeps(
    kitchen: Kitchen, steps: str, on: str, buy: int
) -> None:
    """Best before the 10th: a dish of Wednesday 10 may have it, one of Thursday 11 is never past the maker's date."""
    assert curds(kitchen, steps, on)["buy"]["amount"] == buy


# ---- putting away ----


def putting_away(kitchen: Kitchen, *lines: str) -> str:
    kitchen.recipe("pot", dish(*lines, title="Pot")).build("--only", "site", "--draft")
    page = (kitchen.out / "site/weeks/2026-W24/keeping/index.html").read_text("utf-8").replace("\u00a0", " ")
    rows = re.findall(r"<tr>.*?</tr>", page.partition("Putting the shopping away")[2], re.S)
    rest = " | All else" if "All else that was bought: cupboard" in page else ""
    return "; ".join(re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", row)).strip() for row in rows[1:]) + rest


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("200 g plain yogurt", "Refrigerator, as its pack says yogurt"),  # a dairy food without storage words
        ("200 g frozen edamame", "Freezer frozen edamame"),
        ("200 g sun mince", "Refrigerator, at the bottom, as its pack says sun mince"),
        ("100 g carrots", "High-humidity drawer, tops cut off carrot"),
        ("200 g moon sauce", " | All else"),
        ("1 can light coconut milk", " | All else"),  # its words are of a can once opened
    ],
)
def test_each_thing_bought_has_its_place(kitchen: Kitchen, line: str, said: str) -> None:
    assert putting_away(kitchen, line) == said


def test_what_is_on_hand_is_not_put_away(kitchen: Kitchen) -> None:
    kitchen.file("stock.yaml", "cupboard:\n  - 1 kg moon sauce\n")
    assert "All else" not in putting_away(kitchen, "200 g moon sauce", "100 g carrots")


# ---- what the week takes of each lot ----


def on_hand(kitchen: Kitchen) -> list[list[str]]:
    page = (kitchen.out / "site/freezer/index.html").read_text("utf-8").replace("\u00a0", " ")
    rows = re.findall(r"<tr.*?</tr>", page, re.S)
    cells = ([re.sub(r"<[^>]+>", "", c).strip() for c in re.findall(r"<t[dh].*?</t[dh]>", row, re.S)] for row in rows)
    return [row for row in cells if row[0] not in ("What", "Dish")]


def test_what_the_week_takes_of_each_lot_of_a_food(kitchen: Kitchen) -> None:
    """First-expired first: all of the older lot, the rest of the need out of the younger one, for whom it is."""
    stock = "fridge:\n  - 300 g star curd, best before 2026-06-20\n  - 100 g star curd, best before 2026-06-14\n"
    stock += "cupboard:\n  - 100 g moon sauce\n"
    kitchen.household("eaters:", "measures: metric\neaters:").file("stock.yaml", stock)
    kitchen.recipe("pot", dish("250 g star curd", title="Pot")).build("--only", "site")
    assert [row[-1] for row in on_hand(kitchen)] == ["150 g: Pot", "100 g: Pot", "–"]


def test_the_lots_add_up_to_what_is_not_bought(kitchen: Kitchen) -> None:
    kitchen.household("eaters:", "measures: metric\neaters:")
    kitchen.file("stock.yaml", "fridge:\n  - 100 g star curd, best before 2026-06-14\n")
    kitchen.recipe("bowl", dish("150 g star curd", title="Bowl")).recipe("pot", dish("70 g star curd", title="Pot"))
    kitchen.week(plan("dinner: pot, for: Ilka, on: mon", "dinner: bowl, for: Ilka, on: tue")).build("--only", "site")
    assert [row[-1] for row in on_hand(kitchen)] == ["100 g: Pot and Bowl"]
    row = only(kitchen.facts()["shopping"], food="star curd")
    assert (row["need"]["amount"], row["buy"]["amount"]) == (220, 120)


def test_what_is_bought_says_how_it_is_kept(kitchen: Kitchen) -> None:
    row = only(kitchen.facts()["shopping"], food="carrot")
    assert row["store"] == "high-humidity drawer, tops cut off"
    kitchen.build("--only", "site")
    page = (kitchen.out / "site/weeks/2026-W24/keeping/index.html").read_text("utf-8")
    assert "Putting the shopping away" in page and "High-humidity drawer" in page and "Iowa State" in page
