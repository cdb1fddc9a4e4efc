"""Yields, packs and costs against worked examples of the trade."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.model.food import Pack
from binder.model.quantity import exactly
from binder.reckon.shopping import cheapest
from tests.kitchen import Kitchen, only

SUNDAY = 'prep:\n  - {on: 2026-06-07, at: "13:00"}\n'


def pack(grams: int, price: str | None) -> Pack:
    return Pack(exactly(grams, "g"), Fraction(price) if price else None)


def shopped(kitchen: Kitchen, line: str, food: str, portions: int = 1, foods: str = "") -> dict:
    front = f"title: Dish\nmeal: lunch\nform: ready\nmakes: 1 portion\ningredients:\n  - {line}\n"
    kitchen.household("- {name: Tomas, eats lunch at: ward}", "- {name: Tomas}").recipe("dish", front)
    if foods:
        kitchen.file("foods.yaml", foods)
    week = SUNDAY + f"meals:\n  - {{lunch: dish, for: Tomas, on: mon, portions: {portions}}}\n"
    return only(kitchen.week(week).facts()["shopping"], food=food)


def test_carrots_at_eighty_per_cent(kitchen: Kitchen) -> None:
    """BCcampus, Basic Kitchen and Food Service Management: 1 kg as purchased gives 800 g."""
    foods = "- name: carrot\n  yield: 80 %\n"
    assert shopped(kitchen, "800 g carrots", "carrot", foods=foods)["need"]["amount"] == pytest.approx(1000)


def test_apples_at_seventy_five_per_cent(kitchen: Kitchen) -> None:
    """Vancouver Community College, culinary calculation notes: 10 lb for $5.60; $7.47 for 10 lb of edible portion."""
    foods = "- name: apple\n  yield: 75 %\n  packs: [{size: 10 lb, price: 5.60}]\n"
    shopped(kitchen, "10 lb apples", "apple", foods=foods)
    assert kitchen.read("site/weeks/2026-W24/facts.json")["cost"]["consumed"] == pytest.approx(7.47, abs=0.01)


def test_seven_eggs_of_a_dozen(kitchen: Kitchen) -> None:
    """A food-service-management text, recipe costing: 7 eggs at $4.50 a dozen cost $2.63."""
    foods = "- name: egg\n  packs: [{size: 12 each, price: 4.50}]\n"
    row = shopped(kitchen, "7 eggs", "egg", foods=foods)
    assert (row["packs"], row["left_over"]) == (1, {"amount": 5.0, "unit": "each"})
    assert kitchen.read("site/weeks/2026-W24/facts.json")["cost"]["consumed"] == pytest.approx(2.63, abs=0.01)


def test_scaling_keeps_proportion(kitchen: Kitchen) -> None:
    """Gisslen, Professional Cooking, recipe conversion: 10 to 15 portions, 1,500 g to 2,250 g."""
    front = "title: Dish\nmeal: lunch\nform: ready\nmakes: 10 portions\ningredients:\n  - 1500 g flour\n"
    kitchen.recipe("dish", front)
    facts = kitchen.week(SUNDAY + "meals:\n  - {lunch: dish, for: Bea, at: home, portions: 15}\n").facts()
    assert only(facts["shopping"], food="all-purpose flour")["need"]["amount"] == pytest.approx(2250)


def test_as_purchased_is_not_divided_by_the_yield_again(kitchen: Kitchen) -> None:
    foods = "- name: carrot\n  yield: 80 %\n"
    row = shopped(kitchen, '"500 g carrots, as purchased"', "carrot", foods=foods)
    assert row["need"]["amount"] == pytest.approx(500)


def test_half_a_piece_cannot_be_bought(kitchen: Kitchen) -> None:
    row = shopped(kitchen, "1/2 lemon", "lemon")
    assert (row["need"]["amount"], row["bought"]["amount"]) == (0.5, 1)


def test_the_juice_of_lemons_is_bought_as_lemons(kitchen: Kitchen) -> None:
    assert shopped(kitchen, "juice of 2 lemons", "lemon")["need"] == {"amount": 2.0, "unit": "each"}


def test_cloves_are_not_heads(kitchen: Kitchen) -> None:
    kitchen.file("stock.yaml", "cupboard:\n  - 1 head garlic\n")
    row = shopped(kitchen, "4 cloves garlic", "garlic")
    assert row["buy"]["amount"] == 0 and row["on_hand"]["amount"] > 4


def test_the_cheaper_combination_of_sizes() -> None:
    chosen = cheapest([pack(200, "3.10"), pack(450, "5.90")], Fraction(500))
    assert [(c.size.low, c.count) for c in chosen] == [(450, 1), (200, 1)]
    assert [(c.size.low, c.count) for c in cheapest([pack(200, "1"), pack(450, "9")], Fraction(500))] == [(200, 3)]


@given(
    st.lists(st.tuples(st.integers(1, 900), st.integers(1, 900)), min_size=1, max_size=3, unique_by=lambda p: p[0]),
    st.integers(1, 2000),
)
def test_bought_covers_need_and_nothing_cheaper_does(sizes: list[tuple[int, int]], need: int) -> None:
    packs = [pack(grams, str(price)) for grams, price in sizes if need / grams < 40]
    if not packs:
        return
    chosen = cheapest(packs, Fraction(need))
    bought = sum(c.size.low * c.count for c in chosen)
    paid = sum((c.price or 0) * c.count for c in chosen)
    assert bought >= need
    for one in packs:
        alone = -(-need // int(one.size.low))
        assert paid <= alone * (one.price or 0)


@pytest.mark.parametrize(
    ("grams", "wanted"),
    [
        (20_000, {500: 40}),  # 160.00; of 250 g 80 for 176.00
        (20_100, {500: 40, 100: 1}),  # 161.00; 41 of 500 g 164.00
        (10**12, {500: 2 * 10**9}),
    ],
)
@pytest.mark.timeout(20)
def test_a_feast_is_shopped_for_in_no_time(grams: int, wanted: dict[int, int]) -> None:
    found = cheapest([pack(100, "1"), pack(250, "2.20"), pack(500, "4")], Fraction(grams))
    assert {int(row.size.high): row.count for row in found} == wanted
