"""What a kit stores apart from its set: a container of its own, and where each part lies, said on every page."""

from __future__ import annotations

import re

import pytest

from tests.kitchen import TODAY, Kitchen, codes, only
from tests.scenarios.dishes import day, dish, plan

TUBS = "  - {name: deep tub, holds: 3 cup, have: 40, freezer: yes, microwave: yes}\n"
POT = "  - {name: pot, holds: 1/2 cup, have: 5}\n"
TIN = "  - {name: tin, holds: 2 cup, have: 5, freezer: no}\n"
BAG = "  - {name: bag, holds: 4 cup, have: 5}\n"
# Raw poultry keeps 1-2 days, cut produce 3-4 (the keeping chart): for Wednesday only the poultry is frozen.
FROZEN_APART = "dinner: hen-kit, for: Ilka, on: wed"


def kit(kitchen: Kitchen, boxes: str, *meals: str, more: str = "") -> Kitchen:
    front = (
        "title: Hen kit\nmeal: dinner\nform: kit\nmakes: 1 portion\ningredients:\n"
        "  Coins:\n    - 500 g potatoes, in coins\n  Raw hen:\n    - 400 g chicken thighs\nkeeps: raw poultry pieces\n"
    )
    kitchen.household(TUBS, boxes).recipe("hen-kit", front + more, "## At service\n\n1. Cook. (burner, 10 min)\n")
    return kitchen.week(plan(*meals))


def boxes_of(facts: dict) -> list:
    return [row["container"] for row in facts["packing"] if row["recipe"] == "hen-kit"]


def test_what_is_stored_apart_goes_into_the_recipes_container(kitchen: Kitchen) -> None:
    facts = kit(kitchen, POT + TIN + BAG, FROZEN_APART, more="container: bag\n").facts()
    assert boxes_of(facts) == ["bag", "bag"] and facts["problems"] == [] and len(facts["labels"]) == 2


def test_without_a_container_named_the_smallest_that_holds_it_and_may_be_frozen(kitchen: Kitchen) -> None:
    """400 g at 1 mL a gram (common practice) want more than half a cup; two cups would do but may not be frozen."""
    facts = kit(kitchen, POT + TIN + BAG, FROZEN_APART).facts()
    assert boxes_of(facts) == [None, "bag"] and facts["problems"] == []
    facts = kit(
        kitchen.household(POT + TIN + BAG, TUBS), POT + TIN + BAG, "dinner: hen-kit, for: Ilka, on: tue"
    ).facts()
    assert boxes_of(facts) == [None, "tin"] and facts["problems"] == []


def test_a_named_container_that_may_not_be_frozen(kitchen: Kitchen) -> None:
    facts = kit(kitchen, TIN + BAG, FROZEN_APART, more="container: tin\n").facts()
    assert boxes_of(facts) == ["tin", "bag"]
    message = only(facts["problems"], code="not-freezer-safe")["message"]
    assert message == "Hen kit: Raw hen is frozen, and the tin may not go into the freezer; bag is used"
    assert len(facts["problems"]) == 1


def test_it_counts_for_the_containers(kitchen: Kitchen) -> None:
    two = ("dinner: hen-kit, for: Ilka, on: tue", "dinner: hen-kit, for: Bea, on: tue")
    facts = kit(kitchen, BAG.replace("have: 5", "have: 3"), *two, more="container: bag\n").facts()
    assert sorted(boxes_of(facts), key=str) == [None, "bag", "bag"]
    assert codes(facts["problems"]) == ["too-few-containers"] and len(facts["labels"]) == 4
    assert only(facts["packing"], container=None)["grams_each"] == 400  # the dishes come first


def test_a_household_without_containers_is_not_told_that_one_is_missing(kitchen: Kitchen) -> None:
    facts = kit(kitchen.household("containers:\n", ""), "", FROZEN_APART).facts()
    assert boxes_of(facts) == [None, None] and facts["problems"] == []


def test_a_small_thing_does_not_take_the_box_that_another_dish_names(kitchen: Kitchen) -> None:
    """Bites for which no pot is left go into what is next in size, but not into the tins that the soup asks for."""
    boxes = POT.replace("have: 5", "have: 1") + TIN.replace("have: 5", "have: 2") + BAG
    kitchen.household(TUBS, boxes).recipe("bites", dish("40 g oats", title="Bites", more="container: pot\n"))
    kitchen.recipe("soup", dish(title="Soup", more="portion: 2 cup\ncontainer: tin\n"))
    meals = ("snack: bites, for: Bea, on: mon-tue, at: home", "lunch: soup, for: Bea, on: mon-tue, at: home")
    facts = kitchen.week(plan(*meals)).facts()
    assert {(r["recipe"], r["container"], r["count"]) for r in facts["packing"]} == {
        ("bites", "pot", 1), ("bites", "bag", 1), ("soup", "tin", 2),
    }  # fmt: skip


def test_a_portion_whose_volume_is_not_known_is_not_pressed_into_a_pot_too_small_for_its_weight(
    kitchen: Kitchen,
) -> None:
    boxes = POT + TIN.replace("have: 5", "have: 1") + BAG.replace("have: 5", "have: 1")
    kitchen.household(TUBS, boxes).recipe("stew", dish("400 g carrots", more="container: tin\n"))
    facts = kitchen.week(plan("lunch: stew, for: Bea, on: mon-wed, at: home")).facts()
    assert {(r["container"], r["count"]) for r in facts["packing"]} == {("tin", 1), ("bag", 1), ("pot", 1)}


SAID = "Raw hen: in the freezer, pull in the evening of Tue 9 Jun, use by Thu 11 Jun; Coins: in the refrigerator"


@pytest.fixture
def built(kitchen: Kitchen) -> Kitchen:
    kitchen.household("- name: Ilka", "- name: Ilka\n    shares week: yes")
    return kit(kitchen, BAG, FROZEN_APART, more="container: bag\n").build(
        "--draft", "--only", "site", "--only", "calendar"
    )


def words(text: str) -> str:
    return " ".join(re.sub(r"<[^>]+>", " ", text).replace("\xa0", " ").split())


def page(kitchen: Kitchen, name: str) -> str:
    return words((kitchen.out / f"site/weeks/2026-W24/{name}/index.html").read_text("utf-8"))


def test_the_kit_card_says_which_part_lies_where(built: Kitchen) -> None:
    assert SAID in page(built, "kits").replace(" ;", ";")


def test_the_pull_list_and_the_day_say_which_part_is_pulled(built: Kitchen) -> None:
    said = "only Raw hen; Coins: in the refrigerator already"
    assert said in page(built, "pull")
    assert said in words((built.out / "site/weeks/2026-W24/index.html").read_text("utf-8"))
    unfolded = (built.out / "calendar/2026-W24.ics").read_bytes().decode("utf-8").replace("\r\n ", "").replace("\\", "")
    assert said in unfolded.replace("\xa0", " ")


def test_the_familys_page_says_where_each_is_without_the_parts_names(built: Kitchen) -> None:
    built.run(
        "share", "2026-W24", "--content", str(built.content), "--out", str(built.out), "--family", "--today", TODAY
    )
    assert built.result is not None and built.result.exit_code == 0, built.result.output
    said = words(next(built.out.rglob("*-family.html")).read_text("utf-8"))
    assert "Stored apart: freezer; in the refrigerator from Tue 9 Jun, bag. Kit set: refrigerator, bag" in said
    assert "Raw hen" not in said


def test_what_lies_in_one_place_is_said_once(kitchen: Kitchen) -> None:
    kit(kitchen, BAG, "dinner: hen-kit, for: Ilka, on: tue").build("--draft", "--only", "site")
    said = page(kitchen, "kits")
    assert "Stored in the refrigerator; use by Tue 9 Jun" in said and "Raw hen: in the" not in said


def test_facts_keep_their_fields(built: Kitchen) -> None:
    facts = built.read("site/weeks/2026-W24/facts.json")
    assert (facts["servings"][0]["kept"], facts["servings"][0]["pull_on"]) == ("freezer", day(9))
    assert only(facts["pull_list"], recipe="hen-kit")["from"] == "freezer"
