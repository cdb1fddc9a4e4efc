"""The words on a pack stay with its lot: they count wherever the lot may go, and lots together have all of them."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.kitchen import Kitchen, codes, only
from tests.scenarios.dishes import dish, plan


@pytest.fixture
def kitchen(tmp_path: Path) -> Kitchen:
    made = Kitchen(tmp_path).household("{name: Tomas,", "{name: Tomas, avoids: [peanuts],")
    made.recipe("pot", dish("100 g tahini", title="Pot")).recipe("rice", dish("100 g rice", title="Rice, plain"))
    return made.week(plan("dinner: pot, for: [Ilka, Tomas], on: mon"))


def lots(kitchen: Kitchen, *lines: str, place: str = "cupboard") -> Kitchen:
    return kitchen.file("stock.yaml", f"{place}:\n" + "".join(f"  - {line}\n" for line in lines))


def test_a_pack_of_another_brand_contains_what_an_eater_avoids(kitchen: Kitchen) -> None:
    assert kitchen.check() == []
    problem = only(lots(kitchen, "250 g tahini, contains sesame, peanuts").check(), code="avoided-food")
    assert "peanuts (tahini on hand)" in problem["message"] and problem["remedies"]
    assert kitchen.facts()["servings"][0]["contains"] == ["peanuts", "sesame"]


def test_may_contain_on_a_pack_is_a_warning(kitchen: Kitchen) -> None:
    assert codes(lots(kitchen, "250 g tahini, contains sesame, may contain peanuts").check()) == ["may-contain"]


def test_all_lots_of_a_food_count_together(kitchen: Kitchen) -> None:
    lots(kitchen, "50 g tahini, contains sesame, milk", "50 g tahini, contains sesame, may contain peanuts")
    serving = only(kitchen.facts()["servings"], eater="Ilka")
    assert (serving["contains"], serving["may_contain"]) == (["milk", "sesame"], ["peanuts"])


def test_a_lot_that_is_thrown_away_does_not_count(kitchen: Kitchen) -> None:
    lots(kitchen, "250 g tahini, best before 2026-06-01, contains sesame, peanuts", place="fridge")
    assert codes(kitchen.check()) == ["past-use-by"]


def test_a_dish_made_of_a_part_has_the_parts_lots(kitchen: Kitchen) -> None:
    kitchen.recipe("stew", dish("1 portion recipe: pot", title="Stew")).week(plan("dinner: stew, for: Tomas, on: mon"))
    assert codes(lots(kitchen, "250 g tahini, contains sesame, peanuts").check()) == ["avoided-food"]


def test_a_substitute_has_its_lots(kitchen: Kitchen) -> None:
    swap = "substitutions:\n  - {in: rice, for: Tomas, use: 20 g tahini, instead of: rice}\n"
    kitchen.week(plan("dinner: rice, for: Tomas, on: mon", more=swap))
    assert kitchen.check() == []
    assert codes(lots(kitchen, "250 g tahini, contains sesame, peanuts").check()) == ["avoided-food"]


def test_portions_out_of_stock_have_the_words_on_their_lot(kitchen: Kitchen) -> None:
    kitchen.week(plan("dinner: rice, for: [Ilka, Tomas], on: mon", more="already: [2 portions rice]\n"))
    lots(
        kitchen, "1 portion rice, made 2026-06-06", "1 portion rice, made 2026-06-07, contains peanuts", place="fridge"
    )
    assert codes(kitchen.check()) == ["avoided-food"]
    found = {s["eater"]: s["contains"] for s in kitchen.facts()["servings"]}
    assert found == {"Ilka": [], "Tomas": ["peanuts"]}


def test_a_dish_that_does_not_use_it_is_as_it_was(kitchen: Kitchen) -> None:
    kitchen.week(plan("dinner: rice, for: Tomas, on: mon"))
    assert lots(kitchen, "250 g tahini, contains sesame, peanuts").check() == []
