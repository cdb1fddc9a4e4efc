"""What is eaten from stock, which lots count, and what they take off the shopping list."""

from __future__ import annotations

import pytest

from tests.kitchen import Kitchen, codes, only
from tests.scenarios.dishes import SUNDAY, SUNDAY_AND_WEDNESDAY, by, day, dish, plan

POT = dish("400 g carrots", makes="4 portions", title="Lentil stew", more="portion: 300 g\nkeeps: soups and stews\n")


def served(kitchen: Kitchen, stock: str, *meals: str, already: str, prep: str = SUNDAY) -> dict:
    kitchen.recipe("lentil-stew", POT).file("stock.yaml", stock)
    return kitchen.week(plan(*meals, prep=prep, more=f"already: [{already}]\n")).facts()


def test_the_earliest_meals_of_the_dish_whatever_the_order_of_lines(kitchen: Kitchen) -> None:
    """Tuesday's breakfast comes before Tuesday's lunch; the dinner on Wednesday is cooked."""
    facts = served(
        kitchen,
        "freezer:\n  - 5 portions Lentil Stew, made 2026-06-01\n",
        "dinner: lentil-stew, for: Tomas, on: wed",
        "lunch: lentil-stew, for: Bea, on: tue, at: home",
        "breakfast: lentil-stew, for: Ilka, on: tue",
        already="2 portions lentil-stew",
    )
    assert by(facts["servings"], "lot", "eater") == {"Ilka": "stock.yaml:2", "Bea": "stock.yaml:2", "Tomas": None}
    batch = only(facts["batches"], recipe="lentil-stew")
    assert batch["portions_needed"] == 1
    assert len(facts["labels"]) == 1


def test_frozen_portions_are_pulled_and_need_neither_session_nor_label(kitchen: Kitchen) -> None:
    facts = served(
        kitchen,
        "freezer:\n  - 3 portions lentil stew, made 2026-06-01\n",
        "lunch: lentil-stew, for: Tomas, on: [mon, wed], at: home",
        already="2 portions lentil stew",
        prep="",
    )
    assert facts["problems"] == [] and facts["batches"] == [] and facts["labels"] == [] and facts["run_sheets"] == []
    assert [(s["kept"], s["made_on"], s["pull_on"], s["use_by"]) for s in facts["servings"]] == [
        ("freezer", "2026-06-01", day(7), day(11)),
        ("freezer", "2026-06-01", day(9), day(13)),
    ]
    assert [(p["pull_on"], p["from"], p["to"]) for p in facts["pull_list"]] == [
        (day(7), "freezer", "fridge"),
        (day(9), "freezer", "fridge"),
    ]


def test_what_is_not_covered_still_needs_a_session(kitchen: Kitchen) -> None:
    kitchen.recipe("lentil-stew", POT).file("stock.yaml", "freezer:\n  - 2 portions lentil stew, made 2026-06-01\n")
    meals = "lunch: lentil-stew, for: Tomas, on: mon-wed, at: home"
    kitchen.week(plan(meals, prep="", more="already: [2 portions lentil stew]\n"))
    assert codes(kitchen.check()) == ["no-prep-before"]


def test_the_session_is_the_latest_before_the_first_meal_that_is_cooked(kitchen: Kitchen) -> None:
    """Thursday and Friday stand on a Monday line whose first days come from stock: made on Wednesday."""
    facts = served(
        kitchen,
        "freezer:\n  - 3 portions lentil stew, made 2026-06-01\n",
        "lunch: lentil-stew, for: Tomas, on: mon-fri, at: home",
        already="3 portions lentil stew",
        prep=SUNDAY_AND_WEDNESDAY,
    )
    assert [s["made_on"] for s in facts["servings"]] == ["2026-06-01"] * 3 + [day(10)] * 2


def test_parts_of_portions_join_two_lots(kitchen: Kitchen) -> None:
    """1.5 of 20 May and 1.5 of 1 June: one; half and half; one half is left."""
    facts = served(
        kitchen,
        "freezer:\n  - 1.5 portions lentil stew, made 2026-06-01\n  - 1 1/2 portions lentil stew, made 2026-05-20\n",
        "lunch: lentil-stew, for: Tomas, on: mon-tue, at: home",
        already="2 portions lentil stew",
    )
    assert [s["lot"] for s in facts["servings"]] == ["stock.yaml:3", "stock.yaml:3; stock.yaml:2"]
    assert facts["batches"] == []


def test_a_serving_larger_than_what_is_left_comes_partly_from_stock(kitchen: Kitchen) -> None:
    """3 from stock for two servings of 2: the first whole, half of the second; 1 portion is cooked."""
    facts = served(
        kitchen,
        "freezer:\n  - 3 portions lentil stew, made 2026-06-01\n",
        "lunch: lentil-stew, for: Tomas, on: mon-tue, at: home, portions: 2",
        already="3 portions lentil stew",
    )
    assert [(s["date"], s["portions"], s["lot"]) for s in facts["servings"]] == [
        (day(8), 2, "stock.yaml:2"),
        (day(9), 1, "stock.yaml:2"),
        (day(9), 1, None),
    ]
    assert len({s["id"] for s in facts["servings"]}) == 3
    assert only(facts["batches"], recipe="lentil-stew")["portions_needed"] == 1
    assert facts["problems"] == []


def test_a_smaller_portion_takes_what_is_left_before_one_is_parted(kitchen: Kitchen) -> None:
    """3 of 1 + 1 + 0.5 on each day: Monday's whole, then Bea's half of Tuesday; no portion is parted."""
    facts = served(
        kitchen,
        "freezer:\n  - 3 portions lentil stew, made 2026-06-01\n",
        "lunch: lentil-stew, for: everyone, on: mon-tue, portions: {Bea: 0.5}, at: home",
        already="3 portions lentil stew",
    )
    from_stock = [(s["date"], s["eater"], s["portions"]) for s in facts["servings"] if s["lot"]]
    assert from_stock == [(day(8), "Ilka", 1), (day(8), "Tomas", 1), (day(8), "Bea", 0.5), (day(9), "Bea", 0.5)]
    assert only(facts["batches"], recipe="lentil-stew")["portions_needed"] == 2


def test_two_lines_of_already_of_one_dish_add_up(kitchen: Kitchen) -> None:
    facts = served(
        kitchen,
        "freezer:\n  - 3 portions lentil stew, made 2026-06-01\n",
        "lunch: lentil-stew, for: Tomas, on: mon-thu, at: home",
        already="1 portion lentil stew, 2 portions lentil stew",
    )
    assert [bool(s["lot"]) for s in facts["servings"]] == [True, True, True, False]


def test_a_refrigerated_lot_serves_while_it_keeps(kitchen: Kitchen) -> None:
    """Made Friday 5, 4 days: Tuesday 9 is its last day; Wednesday's cannot come from it."""
    stock = "fridge:\n  - 3 portions lentil stew, made 2026-06-05\n"
    facts = served(
        kitchen, stock, "lunch: lentil-stew, for: Tomas, on: mon-tue, at: home", already="2 portions lentil stew"
    )
    assert [(s["kept"], s["use_by"], s["lot"]) for s in facts["servings"]] == [("fridge", day(9), "stock.yaml:2")] * 2
    assert facts["pull_list"] == [] and facts["problems"] == []
    meals = "lunch: lentil-stew, for: Tomas, on: mon-wed, at: home"
    facts = kitchen.week(plan(meals, more="already: [3 portions lentil stew]\n")).facts()
    short = only(facts["problems"], code="stock-short")
    assert short["path"].endswith("weeks/2026-W24.md") and short["line"] == 7


def test_a_refrigerated_lot_past_its_time_is_not_on_hand(kitchen: Kitchen) -> None:
    """Made Tuesday 2, 4 days: Saturday 6; today is Sunday 7."""
    facts = served(
        kitchen,
        "fridge:\n  - 2 portions lentil stew, made 2026-06-02\n",
        "lunch: lentil-stew, for: Tomas, on: mon, at: home",
        already="1 portion lentil stew",
    )
    assert sorted(codes(facts["problems"])) == ["past-use-by", "stock-short"]
    assert only(facts["problems"], code="past-use-by")["line"] == 2


def test_the_lot_that_expires_first_goes_first_across_places(kitchen: Kitchen) -> None:
    facts = served(
        kitchen,
        "freezer:\n  - 1 portion lentil stew, made 2026-05-01\nfridge:\n  - 1 portion lentil stew, made 2026-06-05\n",
        "lunch: lentil-stew, for: Tomas, on: mon-tue, at: home",
        already="2 portions lentil stew",
    )
    assert [s["lot"] for s in facts["servings"]] == ["stock.yaml:4", "stock.yaml:2"]


def test_more_than_is_on_hand_is_said_at_its_line(kitchen: Kitchen) -> None:
    kitchen.recipe("lentil-stew", POT).file("stock.yaml", "freezer:\n  - 2 portions lentil stew, made 2026-06-01\n")
    meals = "lunch: lentil-stew, for: Tomas, on: mon-fri, at: home"
    problem = only(kitchen.week(plan(meals, more="already: [4 portions lentil stew]\n")).check(), code="stock-short")
    assert (problem["severity"], problem["line"]) == ("error", 7)


def test_frozen_past_its_best_is_still_on_hand(kitchen: Kitchen) -> None:
    """2-3 months, usual: 90 days from 1 March is 30 May."""
    facts = served(
        kitchen,
        "freezer:\n  - 1 portion lentil stew, made 2026-03-01\n  - 1 portion lentil stew, made 2026-03-20\n",
        "lunch: lentil-stew, for: Tomas, on: mon, at: home",
        already="1 portion lentil stew",
    )
    assert [(p["code"], p["line"]) for p in facts["problems"]] == [("past-best", 2)]
    assert facts["servings"][0]["lot"] == "stock.yaml:2"


def test_what_was_frozen_late_has_only_the_days_it_had_left(kitchen: Kitchen) -> None:
    """Frozen on day 3 of 4: pulled on Sunday 7, one day is left."""
    facts = served(
        kitchen,
        "freezer:\n  - 1 portion lentil stew, made 2026-05-20, frozen 2026-05-23\n",
        "lunch: lentil-stew, for: Tomas, on: mon, at: home",
        already="1 portion lentil stew",
    )
    assert (facts["servings"][0]["pull_on"], facts["servings"][0]["use_by"]) == (day(7), day(8))


SAUCE = "- {name: red sauce, contains: [], once opened: 5 days, weights: {1 cup: 250 g}}\n"


def bought(kitchen: Kitchen, line: str, food: str, stock: str, *meals: str, prep: str = SUNDAY) -> dict:
    kitchen.recipe("pot", dish(line)).file("stock.yaml", stock)
    facts = kitchen.week(plan(*meals or ("lunch: pot, for: Tomas, on: mon, at: home",), prep=prep)).facts()
    return only(facts["shopping"], food=food)


def test_stock_in_another_unit_of_weight(kitchen: Kitchen) -> None:
    """18 oz = 510.29 g; 3 cups of 250 g = 750 g."""
    kitchen.file("foods.yaml", SAUCE)
    row = bought(kitchen, "3 cups red sauce", "red sauce", "cupboard:\n  - 18 oz red sauce\n")
    assert row["need"]["amount"] == pytest.approx(750)
    assert row["on_hand"]["amount"] == pytest.approx(510.29, abs=0.01)
    assert row["buy"]["amount"] == pytest.approx(239.71, abs=0.01)


def test_stock_in_pieces_for_a_weight(kitchen: Kitchen) -> None:
    """3 onions of 110 g edible (SR28 11282) are 366.7 g as purchased at 90 %; 396 g edible need 440 g."""
    row = bought(kitchen, "396 g onions, diced", "onion", "cupboard:\n  - 3 onions\n")
    assert row["need"]["amount"] == pytest.approx(440)
    assert row["on_hand"]["amount"] == pytest.approx(366.67, abs=0.01)
    assert row["buy"]["amount"] == pytest.approx(73.33, abs=0.01)


def test_stock_in_weight_for_pieces(kitchen: Kitchen) -> None:
    """550 g of onions as purchased are 495 g edible: four and a half of 110 g; six are needed."""
    row = bought(kitchen, "6 onions, diced", "onion", "cupboard:\n  - 550 g onions\n")
    assert row["need"] == {"amount": 6.0, "unit": "each"}
    assert row["on_hand"]["amount"] == pytest.approx(4.5, abs=0.01)
    assert row["bought"]["amount"] == 2


def test_pieces_and_weights_of_one_food_add_up_as_purchased(kitchen: Kitchen) -> None:
    """2 onions (220 g edible) and 110 g: 330 g edible, 366.7 g as purchased."""
    kitchen.recipe("pot", dish("2 onions, diced", '"110 g onions, sliced"'))
    facts = kitchen.week(plan("lunch: pot, for: Tomas, on: mon, at: home")).facts()
    assert only(facts["shopping"], food="onion")["need"]["amount"] == pytest.approx(366.67, abs=0.01)


def test_an_opened_pack_counts_while_it_keeps(kitchen: Kitchen) -> None:
    """Opened Wednesday 3, 5 days: Monday 8. On hand for Sunday's session, no longer for Wednesday's."""
    kitchen.file("foods.yaml", SAUCE)
    stock = "fridge:\n  - 600 g red sauce, opened 2026-06-03\n"
    row = bought(kitchen, "250 g red sauce", "red sauce", stock)
    assert (row["on_hand"]["amount"], row["buy"]["amount"]) == (600, 0)
    meals = "lunch: pot, for: Tomas, on: thu, at: home"
    row = bought(kitchen, "250 g red sauce", "red sauce", stock, meals, prep=SUNDAY_AND_WEDNESDAY)
    assert (row["on_hand"]["amount"], row["buy"]["amount"]) == (0, 250)


def test_used_first_expired_first_out_over_two_sessions(kitchen: Kitchen) -> None:
    """300 g good until Monday 8 and 300 g unopened; Sunday takes 250 g, Wednesday 250 g: 200 g each would not do."""
    kitchen.file("foods.yaml", SAUCE)
    stock = "fridge:\n  - 300 g red sauce, opened 2026-06-03\n  - 200 g red sauce, best before 2026-07-01\n"
    meals = ("lunch: pot, for: Tomas, on: mon, at: home", "lunch: pot, for: Bea, on: thu, at: home")
    row = bought(kitchen, "250 g red sauce", "red sauce", stock, *meals, prep=SUNDAY_AND_WEDNESDAY)
    # Sunday: 250 of the opened pack. Wednesday: it is past, 200 of the other, 50 to buy.
    assert (row["need"]["amount"], row["buy"]["amount"]) == (500, 50)


def test_best_before_in_the_refrigerator_and_in_the_cupboard(kitchen: Kitchen) -> None:
    kitchen.file("foods.yaml", SAUCE)
    row = bought(kitchen, "250 g red sauce", "red sauce", "fridge:\n  - 300 g red sauce, best before 2026-06-01\n")
    assert row["on_hand"]["amount"] == 0 and codes(kitchen.check()) == ["past-use-by"]
    row = bought(kitchen, "250 g red sauce", "red sauce", "cupboard:\n  - 300 g red sauce, best before 2026-06-01\n")
    assert row["on_hand"]["amount"] == 300


def test_use_first_names_what_expires_soonest_first(kitchen: Kitchen) -> None:
    kitchen.file("foods.yaml", SAUCE).recipe("pot", dish()).recipe("lentil-stew", POT)
    stock = "fridge:\n  - 300 g red sauce, opened 2026-06-05\n  - 2 portions lentil stew, made 2026-06-04\n"
    stock += "cupboard:\n  - 1 kg red sauce, best before 2027-01-31\n"
    facts = kitchen.file("stock.yaml", stock).week(plan("lunch: pot, for: Tomas, on: mon, at: home")).facts()
    found = [(u["food"], u["recipe"], u["amount"]["amount"], u["place"], u["use_by"]) for u in facts["use_first"]]
    assert found == [(None, "lentil-stew", 2, "fridge", day(8)), ("red sauce", None, 300, "fridge", day(10))]


def test_use_first_has_what_the_plan_leaves(kitchen: Kitchen) -> None:
    """Two onions, 220 g edible, are 244.4 g as purchased of 550 g."""
    kitchen.recipe("pot", dish("2 onions, diced")).file(
        "stock.yaml", "cupboard:\n  - 550 g onions, best before 2026-06-12\n"
    )
    rows = kitchen.week(plan("lunch: pot, for: Tomas, on: mon, at: home")).facts()["use_first"]
    assert [(u["food"], u["amount"]["amount"], u["use_by"]) for u in rows] == [
        ("onion", pytest.approx(305.56, abs=0.01), day(12))
    ]


def test_what_is_past_today_is_not_on_hand_for_a_session_before(kitchen: Kitchen) -> None:
    """Opened on the 3rd, 5 days: good on Sunday 7, past on Wednesday 10."""
    kitchen.file("foods.yaml", SAUCE).recipe("pot", dish("250 g red sauce"))
    kitchen.file("stock.yaml", "fridge:\n  - 600 g red sauce, opened 2026-06-03\n")
    kitchen.week(plan("lunch: pot, for: Tomas, on: mon, at: home"))
    for today, amount in ((day(7), 600), (day(8), 600), (day(9), 0), (day(10), 0)):
        facts = kitchen.build(today=today).read("site/weeks/2026-W24/facts.json")
        assert only(facts["shopping"], food="red sauce")["on_hand"]["amount"] == amount


def test_stock_serves_only_the_week_that_is_printed(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish("500 g carrots")).file("stock.yaml", "cupboard:\n  - 100 g carrots\n")
    meal = plan("lunch: pot, for: Tomas, on: mon, at: home")
    kitchen.week(meal.replace("06-07", "05-31"), "2026-W23").week(meal)
    on_hand = {}
    for week in ("2026-W23", "2026-W24"):
        on_hand[week] = only(kitchen.facts(week)["shopping"], food="carrot")["on_hand"]["amount"]
    assert on_hand == {"2026-W23": 0, "2026-W24": 100}
