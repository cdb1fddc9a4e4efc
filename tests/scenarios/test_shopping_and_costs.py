"""What is bought, in which packs, and what it costs."""

from __future__ import annotations

import re

import pytest

from tests.kitchen import WEEK, Kitchen, only
from tests.scenarios.dishes import SUNDAY, by, dish, plan

MEAL = "lunch: pot, for: Tomas, on: mon, at: home"
CRACKERS = "- {name: seed crackers, contains: [], packs: [{size: 200 g, price: 3.10}, {size: 450 g, price: 5.90}]}\n"


def row_of(kitchen: Kitchen, foods: str, *lines: str, food: str, stock: str = "") -> dict:
    kitchen.file("foods.yaml", foods).recipe("pot", dish(*lines))
    if stock:
        kitchen.file("stock.yaml", stock)
    return only(kitchen.week(plan(MEAL)).facts()["shopping"], food=food)


@pytest.mark.parametrize(
    ("grams", "sizes", "cost", "left_over"),
    [
        (200, [(200, 1)], 3.10, 0),
        (400, [(450, 1)], 5.90, 50),  # 2 x 3.10 = 6.20
        (600, [(450, 1), (200, 1)], 9.00, 50),  # 3 x 3.10 = 9.30
        (800, [(450, 2)], 11.80, 100),  # 450 + 2 x 200 = 12.10
        (1000, [(450, 2), (200, 1)], 14.90, 100),  # 5 x 3.10 = 15.50
    ],
)
def test_the_cheapest_combination_of_sizes(
    kitchen: Kitchen, grams: int, sizes: list[tuple[int, int]], cost: float, left_over: float
) -> None:
    row = row_of(kitchen, CRACKERS, f"{grams} g seed crackers", food="seed crackers")
    found = [(s["size"]["amount"], s["count"]) for s in row["sizes"]]
    assert sorted(found) == sorted(sizes)
    assert row["packs"] == sum(count for _, count in sizes)
    assert row["pack"] == ({"amount": sizes[0][0], "unit": "g"} if len(sizes) == 1 else None)
    assert row["cost"] == pytest.approx(cost) and row["left_over"]["amount"] == left_over


def test_packs_in_pounds(kitchen: Kitchen) -> None:
    """1,000 g in packs of 1 lb (453.59 g): three, 360.8 g left over."""
    foods = "- {name: seed crackers, contains: [], packs: [{size: 1 lb, price: 2}]}\n"
    row = row_of(kitchen, foods, "1000 g seed crackers", food="seed crackers")
    assert (row["packs"], row["cost"]) == (3, 6)
    assert row["left_over"]["amount"] == pytest.approx(360.78, abs=0.01)


def test_packs_by_the_piece_and_by_volume(kitchen: Kitchen) -> None:
    """7 rolls in packs of 6; 3 cups of oil (709.8 mL) in bottles of 500 mL."""
    foods = "- {name: rolls, contains: [], packs: [{size: 6 each, price: 2.40}]}\n"
    foods += "- {name: seed oil, contains: [], packs: [{size: 500 mL, price: 4}]}\n"
    row = row_of(kitchen, foods, "7 rolls", "3 cups seed oil", food="rolls")
    assert (row["packs"], row["left_over"]) == (2, {"amount": 5, "unit": "each"})
    oil = only(kitchen.read("site/weeks/2026-W24/facts.json")["shopping"], food="seed oil")
    assert oil["packs"] == 2 and oil["need"]["amount"] == pytest.approx(709.76, abs=0.01)
    assert oil["left_over"]["amount"] == pytest.approx(290.24, abs=0.01)


def test_a_weight_in_packs_by_the_piece(kitchen: Kitchen) -> None:
    """100 g of rolls of 40 g: 2.5, so a pack of 6."""
    foods = "- {name: rolls, contains: [], weights: {1 each: 40 g}, packs: [{size: 6 each, price: 2.40}]}\n"
    row = row_of(kitchen, foods, "100 g rolls", food="rolls")
    assert (row["need"], row["packs"]) == ({"amount": 2.5, "unit": "each"}, 1)


def test_pieces_in_packs_by_weight_and_their_yield(kitchen: Kitchen) -> None:
    """5 beets of 90 g edible at 75 %: 600 g as purchased, two bags of 500 g."""
    foods = "- {name: beets, contains: [], weights: {1 each: 90 g}, yield: 75 %, packs: [{size: 500 g, price: 2}]}\n"
    row = row_of(kitchen, foods, "5 beets", food="beets")
    assert (row["need"], row["packs"]) == ({"amount": pytest.approx(600), "unit": "g"}, 2)


def test_nothing_is_bought_when_enough_is_on_hand(kitchen: Kitchen) -> None:
    stock = "cupboard:\n  - 500 g seed crackers\n"
    row = row_of(kitchen, CRACKERS, "400 g seed crackers", food="seed crackers", stock=stock)
    assert (row["on_hand"]["amount"], row["buy"]["amount"], row["packs"], row["cost"]) == (500, 0, 0, 0)
    assert row["bought"]["amount"] == 0 and row["left_over"]["amount"] == 0


def test_only_full_packs_for_what_is_missing(kitchen: Kitchen) -> None:
    """650 g less 100 on hand: 550; 450 + 200 for 9.00."""
    stock = "cupboard:\n  - 100 g seed crackers, best before 2027-01-31\n"
    row = row_of(kitchen, CRACKERS, "650 g seed crackers", food="seed crackers", stock=stock)
    assert (row["buy"]["amount"], row["bought"]["amount"], row["cost"]) == (550, 650, pytest.approx(9.00))


def test_as_purchased_has_its_yield_already(kitchen: Kitchen) -> None:
    foods = "- {name: beets, contains: [], yield: 80 %}\n"
    row = row_of(kitchen, foods, '"500 g beets, diced, as purchased"', food="beets")
    assert row["need"]["amount"] == 500
    line = kitchen.read("site/recipes/pot/facts.json")["ingredients"][0]
    assert (line["grams"], line["as_purchased_grams"]) == (400, 500)


def test_a_range_is_bought_for_its_upper_end(kitchen: Kitchen) -> None:
    row = row_of(kitchen, CRACKERS, "150-250 g seed crackers", food="seed crackers")
    assert row["need"] == {"low": 150, "high": 250, "unit": "g"}
    assert row["buy"]["amount"] == 250 and row["bought"]["amount"] >= 250


def test_a_stated_can_counts_as_what_it_holds(kitchen: Kitchen) -> None:
    foods = "- {name: white beans, contains: [], packs: [{size: 400 g, price: 1.20}]}\n"
    row = row_of(kitchen, foods, "2 cans (400 g each) white beans", food="white beans")
    assert (row["need"]["amount"], row["packs"], row["cost"]) == (800, 2, pytest.approx(2.40))


def test_a_synonym_is_the_same_food(kitchen: Kitchen) -> None:
    foods = "- {name: seed crackers, synonyms: [crisp thins], contains: []}\n"
    row = row_of(kitchen, foods, "100 g crisp thins", "50 g seed crackers", food="seed crackers")
    assert row["need"]["amount"] == 150


PRICED = """\
- {name: red root, contains: [], packs: [{size: 500 g, price: 2.00}]}
- {name: blue root, contains: [], packs: [{size: 250 g}]}
- {name: loose root, contains: []}
"""


def test_a_missing_price_makes_sums_lower_bounds(kitchen: Kitchen) -> None:
    kitchen.file("foods.yaml", PRICED)
    kitchen.recipe("pot", dish("250 g red root", "200 g blue root")).recipe("mash", dish("50 g loose root", title="M"))
    facts = kitchen.week(plan(MEAL, "dinner: mash, for: Bea, on: mon")).facts()
    cost = facts["cost"]
    assert cost["at_least"] is True
    assert cost["consumed"] == pytest.approx(1.00) and cost["to_pay"] == pytest.approx(2.00)
    assert cost["per_portion"]["pot"] == pytest.approx(1.00) and cost["per_portion"]["mash"] is None
    assert by(facts["shopping"], "cost", "food") == {"red root": 2.0, "blue root": None, "loose root": None}
    blue = only(facts["shopping"], food="blue root")
    assert (blue["packs"], blue["left_over"]["amount"]) == (1, 50)


def test_no_price_at_all(kitchen: Kitchen) -> None:
    kitchen.file("foods.yaml", PRICED).recipe("pot", dish("50 g loose root"))
    cost = kitchen.week(plan(MEAL)).facts()["cost"]
    assert (cost["consumed"], cost["to_pay"], cost["at_least"]) == (None, None, True)


def test_a_household_in_another_currency(kitchen: Kitchen) -> None:
    kitchen.household("time zone", "currency: EUR\ntime zone").file("foods.yaml", PRICED)
    kitchen.recipe("pot", dish("250 g red root"))
    cost = kitchen.week(plan(MEAL)).facts()["cost"]
    assert (cost["currency"], cost["at_least"], cost["to_pay"]) == ("EUR", False, 2.0)


def test_what_is_on_hand_is_consumed_but_not_paid(kitchen: Kitchen) -> None:
    kitchen.file("foods.yaml", PRICED).recipe("pot", dish("250 g red root"))
    cost = kitchen.file("stock.yaml", "cupboard:\n  - 300 g red root\n").week(plan(MEAL)).facts()["cost"]
    assert (cost["consumed"], cost["to_pay"]) == (pytest.approx(1.00), 0)


def test_cost_per_portion_with_a_part(kitchen: Kitchen) -> None:
    """Base: 600 g for 2.40; two of its three cups are 1.60; with 250 g more for 1.00: 2.60 a portion."""
    kitchen.file("foods.yaml", PRICED)
    kitchen.recipe("base", dish("600 g red root", makes="3 cups", title="Base", more="portion: 1 cup\n"))
    kitchen.recipe("pot", dish("2 cups recipe: base", "250 g red root"))
    facts = kitchen.week(plan("lunch: pot, for: Tomas, on: mon-tue, at: home")).facts()
    cost = facts["cost"]
    assert cost["per_portion"] == {"pot": pytest.approx(2.60), "base": pytest.approx(0.80)}
    assert cost["consumed"] == pytest.approx(5.20)
    # 800 + 500 g are 1,300 g: three packs.
    assert cost["to_pay"] == pytest.approx(6.00)


def test_a_dish_from_stock_costs_what_is_added_now(kitchen: Kitchen) -> None:
    """Of the pot from stock only its 100 g at service, 0.40; the base is made for the mash: a cup, 0.80, and 0.40."""
    kitchen.file("foods.yaml", PRICED)
    kitchen.recipe("base", dish("600 g red root", makes="3 cups", title="Base", more="portion: 1 cup\n"))
    pot = "at service:\n  - 100 g red root\nkeeps: soups and stews\n"
    kitchen.recipe("pot", dish("2 cups recipe: base", title="Pot", more=pot))
    kitchen.recipe("mash", dish("1 cup recipe: base", "100 g red root", title="Mash"))
    kitchen.file("stock.yaml", "freezer:\n  - 1 portion pot, made 2026-06-01\n")
    meals = ("lunch: pot, for: Tomas, on: mon, at: home", "lunch: mash, for: Bea, on: mon, at: home")
    cost = kitchen.week(plan(*meals, more="already: [1 portion pot]\n")).facts()["cost"]
    each = cost["per_portion"]
    assert each == {"pot": pytest.approx(0.40), "mash": pytest.approx(1.20), "base": pytest.approx(0.80)}
    assert cost["consumed"] == pytest.approx(each["pot"] + each["mash"])


def test_a_lower_bound_takes_the_lower_end_of_a_range(kitchen: Kitchen) -> None:
    """100 to 200 g at 4.00 a kilogram: 0.80 as it is counted, at least 0.40 where another food has no price."""
    kitchen.file("foods.yaml", PRICED).recipe("pot", dish("100-200 g red root", "{item: 50 g loose root}"))
    assert kitchen.week(plan(MEAL)).facts()["cost"]["consumed"] == pytest.approx(0.80)
    kitchen.build("--only", "site")
    text = (kitchen.out / f"site/weeks/{WEEK}/shopping/index.html").read_text("utf-8")
    assert re.sub(r"<[^>]+>", "", text).count("at least $0.40") == 2
    kitchen.recipe("pot", dish("100-200 g red root")).build("--only", "site")
    assert "$0.80" in (kitchen.out / f"site/weeks/{WEEK}/shopping/index.html").read_text("utf-8")


def test_cost_of_what_is_added_at_service_goes_by_portions_eaten(kitchen: Kitchen) -> None:
    """Whole batch of 4 for 2 eaten: 1,000 g cooked cost 4.00, 1.00 a portion; 100 g at service cost 0.40 each."""
    kitchen.file("foods.yaml", PRICED)
    more = "batch: whole\nat service:\n  - 400 g red root\n"
    kitchen.recipe("pot", dish("1000 g red root", makes="4 portions", more=more))
    facts = kitchen.week(plan("lunch: pot, for: Tomas, on: mon-tue, at: home")).facts()
    assert facts["cost"]["per_portion"]["pot"] == pytest.approx(1.40)
    assert only(facts["shopping"], food="red root")["need"]["amount"] == 1200


def test_rows_stand_by_aisle_and_name_their_dishes(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish("100 g carrots", "50 g butter")).recipe("mash", dish("200 g carrots", title="Mash"))
    facts = kitchen.week(plan(MEAL, "dinner: mash, for: Bea, on: mon")).facts()
    assert by(facts["shopping"], "for", "food") == {"carrot": ["pot", "mash"], "butter": ["pot"]}
    assert by(facts["shopping"], "aisle", "food") == {"carrot": "produce", "butter": "dairy and eggs"}


CUTS = ("1 onion, diced", "2 onions, Diced", "1 onion, sliced", "100 g carrots")


def test_mise_en_place_merges_what_is_cut_alike(kitchen: Kitchen) -> None:
    kitchen.recipe("one", dish(CUTS[0], CUTS[3], title="One")).recipe("two", dish(CUTS[1], CUTS[2], title="Two"))
    meals = ("lunch: one, for: Tomas, on: mon-tue, at: home", "lunch: two, for: Bea, on: mon, at: home")
    rows = kitchen.week(plan(*meals, prep=SUNDAY)).facts()["mise_en_place"]
    diced = only(rows, food="onion", preparation="diced")
    assert diced["amount"] == {"amount": 4, "unit": "each"} and diced["grams"] == pytest.approx(440)
    assert [(f["recipe"], f["amount"]["amount"]) for f in diced["for"]] == [("one", 2), ("two", 2)]
    assert only(rows, food="onion", preparation="sliced")["amount"]["amount"] == 1
    assert only(rows, food="carrot")["amount"] == {"amount": 200, "unit": "g"}


def test_mise_en_place_of_pieces_and_weights_adds_up_in_grams(kitchen: Kitchen) -> None:
    """2 onions of 110 g and 90 g."""
    kitchen.recipe("one", dish("2 onions, diced", title="One")).recipe("two", dish("90 g onions, diced", title="Two"))
    meals = ("lunch: one, for: Tomas, on: mon, at: home", "lunch: two, for: Bea, on: mon, at: home")
    row = only(kitchen.week(plan(*meals)).facts()["mise_en_place"], food="onion")
    assert row["amount"] == {"amount": pytest.approx(310), "unit": "g"} and row["grams"] == pytest.approx(310)


def test_what_is_added_at_service_takes_no_lot_past_its_day(kitchen: Kitchen) -> None:
    """50 g of yogurt a portion, Monday 8 to Thursday 11: of 200 g best before Tuesday 9, Monday and Tuesday take 100 g;
    100 g are bought for Wednesday and Thursday."""
    kitchen.recipe("pot", dish("200 g red root", makes="4 portions", more="at service:\n  - 200 g plain yogurt\n"))
    kitchen.file("stock.yaml", "fridge:\n  - 200 g plain yogurt, best before 2026-06-09\n")
    facts = kitchen.week(plan("lunch: pot, for: Tomas, on: mon-thu, at: home")).facts()
    row = only(facts["shopping"], food="yogurt")
    assert (row["need"]["amount"], row["buy"]["amount"]) == (200, 100)
