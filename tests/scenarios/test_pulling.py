"""The pull list's ways out, packs that are used frozen, and reheating times that proved right."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.kitchen import Kitchen, codes, only
from tests.scenarios.dishes import day, dish, plan

MICROWAVE = "reheat:\n  - microwave 1000 W, 2 min 30 s, covered\n"
FROZEN_LINE = "reheat:\n  - microwave 1000 W, 5 min, from frozen\n"
TWO_DAYS = "keeps: {fridge: 2 days, freezer: 2 months}\n"


@pytest.fixture
def kitchen(tmp_path: Path) -> Kitchen:
    return Kitchen(tmp_path)


def ways(kitchen: Kitchen, eater: str, on: int) -> dict[str, dict]:
    row = only(kitchen.facts()["pull_list"], eater=eater, date=day(on))
    return {way["how"]: way for way in row["way_out"]}


def test_forgotten_is_heated_from_frozen_half_as_long_again_at_the_places_own_power(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish("400 g carrots", more=TWO_DAYS + MICROWAVE))
    found = ways(kitchen.week(plan("lunch: pot, for: Tomas, on: thu")), "Tomas", 11)
    # 150 s at 1000 W are 214.3 s at 700 W, so 215; half as long again (USDA FSIS, second-hand) 322.5, so 325.
    assert (found["from frozen"]["means"], found["from frozen"]["seconds"]) == ("microwave", 325)
    # Food Code 3-403.11(B), as in check-values: 165 F throughout.
    assert found["from frozen"]["core_f"] == 165 and "Food Code" in found["from frozen"]["source"]
    # Illinois Extension; USDA: up to 1 lb about 1 h.
    assert found["cold water"]["seconds"] == 3600 and "Illinois" in found["cold water"]["source"]
    assert "another dish" not in found


def test_the_recipes_own_line_from_frozen_is_the_way_out(kitchen: Kitchen) -> None:
    more = TWO_DAYS + MICROWAVE + "  - microwave 1000 W, 5 min, from frozen\n"
    found = ways(kitchen.recipe("pot", dish(more=more)).week(plan("lunch: pot, for: Tomas, on: thu")), "Tomas", 11)
    assert found["from frozen"]["seconds"] == 430  # 300 s x 1000 / 700 = 428.6


def test_what_is_eaten_cold_is_not_heated_from_frozen(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish("1500 g carrots", more=TWO_DAYS + "reheat: [cold]\n"))
    found = ways(kitchen.week(plan("lunch: pot, for: Ilka, on: thu")), "Ilka", 11)
    assert set(found) == {"cold water"}
    # Illinois Extension; USDA: 3-4 lb 2-3 h; 1,500 g are 3.3 lb.
    assert found["cold water"]["seconds"] == 3 * 3600


def test_a_weight_that_is_not_known_gives_no_minutes(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish("1 handful moonweed", more=TWO_DAYS))
    assert ways(kitchen.week(plan("lunch: pot, for: Ilka, on: thu")), "Ilka", 11)["cold water"]["seconds"] is None


def test_a_kit_lies_in_cold_water_as_one_pack_and_is_cooked_from_frozen(kitchen: Kitchen) -> None:
    front = """
        title: Mince kit
        meal: dinner
        form: kit
        makes: 2 portions
        ingredients:
          Set: [200 g carrots]
          Raw, apart: [500 g ground beef]
        keeps: raw ground meat
        """
    kitchen.recipe("kit", front, "## At service\n1. Fry. [12 min, burner]\n")
    row = kitchen.week(plan("dinner: kit, for: [Ilka, Tomas], on: thu")).facts()["pull_list"][0]
    assert [(way["how"], way["means"]) for way in row["way_out"]] == [("from frozen", "kit"), ("cold water", None)]
    # 500 g are over 1 lb: the row up to 4 lb counts, 2-3 h (Illinois Extension; USDA).
    assert row["way_out"][1]["seconds"] == 3 * 3600


def test_another_dish_is_one_for_that_meal(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish(title="Pot", more=TWO_DAYS))
    bars = dish(title="Bars", more="keeps: {fridge: 6 days}\n").replace("[breakfast, lunch, snack, dinner]", "snack")
    kitchen.recipe("bars", bars).week(
        plan("lunch: pot, for: Ilka, on: wed, at: home", "snack: bars, for: Ilka, portions: 2")
    )
    assert "another dish" not in ways(kitchen, "Ilka", 10)


def test_another_dish_that_keeps_and_can_take_its_day(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish(title="Pot", more=TWO_DAYS))
    kitchen.recipe("stew", dish(title="Stew", more="keeps: {fridge: 6 days}\n"))
    kitchen.week(plan("lunch: pot, for: [Ilka, Tomas], on: wed", "lunch: stew, for: Ilka, on: fri"))
    found = ways(kitchen, "Ilka", 10)["another dish"]
    assert (found["recipe"], found["planned_for"]) == ("stew", day(12))
    assert "another dish" not in ways(kitchen, "Tomas", 10)


def test_another_dish_is_none_that_is_eaten_elsewhere_or_frozen_itself(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish(title="Pot", more=TWO_DAYS)).recipe("stew", dish(title="Stew", more=TWO_DAYS))
    kitchen.recipe("soup", dish(title="Soup", more="keeps: {fridge: 6 days}\n"))
    meals = ("lunch: pot, for: Ilka, on: wed", "lunch: stew, for: Ilka, on: fri", "dinner: soup, for: Ilka, on: fri")
    assert "another dish" not in ways(kitchen.week(plan(*meals)), "Ilka", 10)


@pytest.mark.parametrize("more", [FROZEN_LINE, MICROWAVE + "from frozen: yes\n", "from frozen: yes\n"])
def test_a_pack_that_is_used_frozen_is_never_pulled(kitchen: Kitchen, more: str) -> None:
    kitchen.recipe("pot", dish(title="Pot", more=TWO_DAYS + more))
    facts = kitchen.week(plan("lunch: pot, for: Tomas, on: fri")).facts()
    serving = facts["servings"][0]
    assert (serving["kept"], serving["pull_on"], serving["from_frozen"]) == ("freezer", None, True)
    assert facts["pull_list"] == []
    items = {item["what"]: item["from"] for item in facts["carry_list"][0]["items"]}
    assert items["Pot"] == "freezer"
    assert any("do not thaw" in line for line in facts["labels"][0]["lines"])


def test_used_frozen_is_frozen_even_where_it_would_keep(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish(more="from frozen: yes\nkeeps: {fridge: 6 days}\n"))
    assert kitchen.week(plan("lunch: pot, for: Tomas, on: mon")).facts()["servings"][0]["kept"] == "freezer"


def test_what_keeps_is_heated_by_a_line_for_what_is_thawed(kitchen: Kitchen) -> None:
    more = FROZEN_LINE + "  - microwave 1000 W, 2 min\n" + "keeps: {fridge: 2 days}\n"
    facts = (
        kitchen.recipe("pot", dish(more=more)).week(plan("lunch: pot, for: Tomas, on: [mon, fri], at: home")).facts()
    )
    found = {s["date"]: (s["kept"], s["reheat"]["seconds"]) for s in facts["servings"]}
    assert found == {day(8): ("fridge", 120), day(12): ("freezer", 300)}


def test_a_frozen_lot_that_is_used_frozen_is_not_pulled(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish(title="Pot", more=FROZEN_LINE)).file(
        "stock.yaml", "freezer:\n  - 1 portion pot, made 2026-06-01\n"
    )
    facts = kitchen.week(plan("lunch: pot, for: Tomas, on: fri", more="already: [1 portion pot]\n")).facts()
    assert facts["pull_list"] == [] and facts["servings"][0]["from_frozen"] is True


# ---- times that proved right ----


def test_a_time_that_proved_right_comes_before_the_formula(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish(more=MICROWAVE + "proved: {ward: 3 min}\n"))
    facts = kitchen.week(plan("lunch: pot, for: Tomas, on: mon-tue", "dinner: pot, for: Tomas, on: mon")).facts()
    by_place = {s["place"]: s["reheat"] for s in facts["servings"]}
    ward = by_place["ward"]
    assert (ward["seconds"], ward["watts"], ward["proved"]) == (180, 700, True)
    assert ward["text"] == "microwave 700 W, 3 min, covered"
    assert (by_place["home"]["seconds"], by_place["home"]["proved"]) == (150, False)


def test_a_proved_time_is_printed_and_says_so(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish(more=MICROWAVE + "proved: {ward: 3 min}\n"))
    kitchen.week(plan("lunch: pot, for: Tomas, on: mon")).build("--only", "site")
    page = (kitchen.out / "site/weeks/2026-W24/index.html").read_text("utf-8").replace("\u00a0", " ")
    assert "3 min" in page and "proved right here" in page


def test_a_place_that_is_not_known_has_proved_nothing(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish(more=MICROWAVE + "proved: {wart: 3 min}\n"))
    problem = only(kitchen.week(plan("lunch: pot, for: Tomas, on: mon")).check(), code="unknown-place")
    assert "ward" in " ".join(problem["remedies"])


def test_a_proved_time_is_a_time(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish(more=MICROWAVE + "proved: {ward: long}\n"))
    assert "bad-amount" in codes(kitchen.week(plan("lunch: pot, for: Tomas, on: mon")).check())


@pytest.mark.parametrize(("more", "said"), [("reheat: [flask]\n", True), ("reheat: [cold]\n", False)])
def test_a_flask_is_filled_hot_and_tried_first(kitchen: Kitchen, more: str, said: bool) -> None:
    kitchen.recipe("pot", dish(more=more))
    kitchen.week(plan("lunch: pot, for: Ilka, on: mon")).build("--only", "site")
    page = (kitchen.out / "site/weeks/2026-W24/reheating/index.html").read_text("utf-8").replace("\u00a0", " ")
    # USDA 2019: food into an insulated flask at 165 F or more.
    assert ("Insulated flask: boiling water first, then the food at 165 °F" in page) is said
