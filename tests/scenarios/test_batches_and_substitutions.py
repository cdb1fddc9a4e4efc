"""Batches, surplus, parts made from other recipes, by-products, and what is exchanged for whom."""

from __future__ import annotations

import pytest

from tests.kitchen import Kitchen, codes, only
from tests.scenarios.dishes import SUNDAY_AND_WEDNESDAY, by, day, dish, plan


@pytest.mark.parametrize(
    ("batch", "portions", "made", "surplus", "factor"),
    [
        ("", 10, 10, 0, 1.25),
        ("batch: whole\n", 10, 16, 6, 2),
        ("batch: half\n", 10, 12, 2, 1.5),
        ("batch: half\n", 12, 12, 0, 1.5),
        ("batch: half\n", 1, 4, 3, 0.5),
        ("batch: whole\n", 8, 8, 0, 1),
    ],
)
def test_whole_and_half_batches(
    kitchen: Kitchen, batch: str, portions: int, made: float, surplus: float, factor: float
) -> None:
    """Makes 8. A label for each portion and each surplus portion."""
    kitchen.recipe("pot", dish("800 g carrots", makes="8 portions", more=batch))
    facts = kitchen.week(plan(f"lunch: pot, for: Tomas, at: home, portions: {portions}")).facts()
    row = only(facts["batches"], recipe="pot")
    assert (row["portions_needed"], row["portions_made"], row["surplus"], row["factor"]) == (
        portions, made, surplus, factor,
    )  # fmt: skip
    assert len(facts["labels"]) == portions + surplus
    assert sum(p["count"] for p in facts["packing"]) == portions + surplus


def test_a_broken_surplus_portion_is_labelled_too(kitchen: Kitchen) -> None:
    """Makes 4, needed 2.5: 1.5 over, in two containers of 250 g and 125 g."""
    kitchen.recipe("pot", dish("1000 g carrots", makes="4 portions", more="batch: whole\n"))
    facts = kitchen.week(plan("lunch: pot, for: Tomas, on: mon, at: home, portions: 2.5")).facts()
    assert [label["eater"] for label in facts["labels"]] == ["Tomas", None, None]
    assert [(p["count"], p["grams_each"]) for p in facts["packing"]] == [(1, 625), (1, 250), (1, 125)]
    assert [(u["recipe"], u["amount"]["amount"], u["use_by"]) for u in facts["use_first"]] == [
        ("pot", 1, day(11)),
        ("pot", 0.5, day(11)),
    ]


def test_lines_of_one_recipe_in_one_session_are_one_batch(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish("400 g carrots", makes="4 portions"))
    meals = (
        "lunch: pot, for: Tomas, on: mon-tue, at: home",
        "dinner: pot, for: everyone, on: tue",
        "lunch: pot, for: Bea, on: thu-fri, at: home",
    )
    facts = kitchen.week(plan(*meals, prep=SUNDAY_AND_WEDNESDAY)).facts()
    assert [(b["made_on"], b["portions_made"]) for b in facts["batches"]] == [(day(7), 5), (day(10), 2)]


def test_a_part_of_a_part(kitchen: Kitchen) -> None:
    """4 bowls need 4 portions of stew, that is 300 g of base: half of the 600 g it makes."""
    kitchen.recipe("base", dish("500 g tomatoes", "100 g butter", makes="600 g", title="Base"))
    kitchen.recipe("stew", dish("300 g recipe: base", "400 g carrots", makes="4 portions", title="Stew"))
    kitchen.recipe("bowl", dish("2 portions recipe: stew", "100 g couscous", makes="2 portions", title="Bowl"))
    facts = kitchen.week(plan("lunch: bowl, for: Tomas, at: home, portions: 4")).facts()
    assert by(facts["batches"], "factor", "recipe") == {"base": 0.5, "stew": 1, "bowl": 2}
    assert by(facts["batches"], "portions_made", "recipe")["stew"] == 4
    need = by(facts["shopping"], "need", "food")
    assert need["butter"]["amount"] == pytest.approx(50) and need["couscous"]["amount"] == pytest.approx(200)
    assert need["carrot"]["amount"] == pytest.approx(400 / 0.89, abs=1)
    assert facts["servings"][0]["contains"] == ["milk", "wheat"]
    base = kitchen.read("site/recipes/base/facts.json")["per_portion"]["nutrients"]["fat_g"]
    carrots = 4 * 0.24  # SR28 11124: 0.24 g fat in 100 g
    stew = kitchen.read("site/recipes/stew/facts.json")["per_portion"]["nutrients"]["fat_g"]
    assert stew == pytest.approx((base / 2 + carrots) / 4, abs=0.01)
    assert [label["recipe"] for label in facts["labels"]] == ["bowl"] * 4


def test_a_part_made_in_whole_batches_leaves_a_surplus(kitchen: Kitchen) -> None:
    """One cup of three: a whole batch, two thirds over."""
    kitchen.recipe("base", dish("600 g tomatoes", makes="3 cups", title="Base", more="portion: 1 cup\nbatch: whole\n"))
    kitchen.recipe("pot", dish("1 cup recipe: base"))
    facts = kitchen.week(plan("lunch: pot, for: Tomas, on: mon, at: home")).facts()
    base = only(facts["batches"], recipe="base")
    assert (base["portions_needed"], base["portions_made"], base["surplus"]) == (1, 3, 2)
    assert [label["recipe"] for label in facts["labels"]] == ["base", "base", "pot"]


def test_a_part_added_at_service_goes_by_portions_eaten(kitchen: Kitchen) -> None:
    """A whole batch of 4 for 2 eaten: half of the base that is written for four."""
    kitchen.recipe("base", dish("600 g tomatoes", makes="3 cups", title="Base", more="portion: 1 cup\n"))
    more = "batch: whole\nat service:\n  - 2 cups recipe: base\n"
    kitchen.recipe("pot", dish("400 g carrots", makes="4 portions", more=more))
    facts = kitchen.week(plan("lunch: pot, for: Tomas, on: mon-tue, at: home")).facts()
    assert by(facts["batches"], "portions_made", "recipe") == {"base": 1, "pot": 4}


def test_a_part_is_made_ahead_for_a_dish_put_together_at_service(kitchen: Kitchen) -> None:
    kitchen.recipe("base", dish("600 g tomatoes", makes="3 cups", title="Base", more="portion: 1 cup\n"))
    front = "title: Toast\nform: assemble\nmakes: 1 portion\ningredients: []\nat service:\n  - 1 cup recipe: base\n"
    kitchen.recipe("toast", front)
    facts = kitchen.week(plan("lunch: toast, for: Tomas, on: mon-tue, at: home")).facts()
    assert only(facts["batches"], recipe="base")["portions_made"] == 2


@pytest.mark.parametrize(
    ("gives", "food", "grams"),
    [
        ("[80 g squash seeds, for toasting]", "squash seeds", 100),
        ("[200 g parsnips, keep for soup, 40 g butter]", "parsnip", 250),
        ("\n  - 80 g squash seeds, for toasting", "squash seeds", 100),
    ],
)
def test_by_products_go_into_stock(kitchen: Kitchen, gives: str, food: str, grams: float) -> None:
    """10 portions of 8: 1.25 times what one batch gives, and a label for it."""
    kitchen.recipe("pot", dish("900 g butternut squash", makes="8 portions", more=f"gives: {gives}\n"))
    facts = kitchen.week(plan("lunch: pot, for: Tomas, at: home, portions: 10")).facts()
    assert codes(facts["problems"]) == []
    row = only(facts["use_first"], food=food)
    assert row["amount"] == {"amount": pytest.approx(grams), "unit": "g"}
    assert len(facts["labels"]) == 10 + (2 if "butter" in gives else 1)
    assert food not in by(facts["shopping"], "need", "food")


BOWL = dish(
    "400 g carrots",
    makes="4 portions",
    title="Bowl",
    more="beside:\n  - 200 g cucumber\nat service:\n  - 4 tbsp ricotta\n",
)


def swapped(kitchen: Kitchen, meal: str, *lines: str) -> dict:
    kitchen.recipe("bowl", BOWL)
    more = "substitutions:\n" + "".join(f"  - {{in: bowl, {line}}}\n" for line in lines)
    return kitchen.week(plan(meal, more=more)).facts()


def need(facts: dict, food: str) -> float:
    return float(only(facts["shopping"], food=food)["need"]["amount"])


def test_beside_the_dish_it_is_one_batch(kitchen: Kitchen) -> None:
    """Written for 4; Ilka's 2 portions take 40 g almonds of 80, the others' 4 a whole 200 g of cucumber."""
    facts = swapped(
        kitchen,
        "lunch: bowl, for: everyone, on: mon-tue, at: home",
        "for: Ilka, use: 80 g almonds, instead of: cucumber",
    )
    assert [b["portions_made"] for b in facts["batches"]] == [6]
    assert need(facts, "almonds") == pytest.approx(40)
    cucumber = only(facts["shopping"], food="cucumber")["need"]["amount"]
    line = only(kitchen.read("site/recipes/bowl/facts.json")["ingredients"], food="cucumber")
    assert cucumber == pytest.approx(line["as_purchased_grams"])
    assert by(facts["servings"], "contains", "eater") == {
        "Ilka": ["milk", "tree nuts (almonds)"], "Tomas": ["milk"], "Bea": ["milk"],
    }  # fmt: skip


def test_two_substitutions_for_one_eater_one_for_another(kitchen: Kitchen) -> None:
    facts = swapped(
        kitchen,
        "lunch: bowl, for: everyone, on: mon, at: home",
        "for: Ilka, use: 600 g parsnips, instead of: carrots",
        "for: [Ilka, Bea], use: 4 tbsp tahini, instead of: ricotta",
    )
    assert sorted(b["portions_made"] for b in facts["batches"]) == [1, 2]
    contains = by(facts["servings"], "contains", "eater")
    assert contains == {"Ilka": ["sesame"], "Tomas": ["milk"], "Bea": ["sesame"]}
    parsnip = only(facts["mise_en_place"], food="parsnip")
    assert parsnip["grams"] == pytest.approx(150)  # 600 g for four, one portion
    assert only(facts["mise_en_place"], food="carrot")["grams"] == pytest.approx(200)
    lines = kitchen.read("site/recipes/bowl/facts.json")["ingredients"]
    assert need(facts, "ricotta") == pytest.approx(only(lines, food="ricotta")["grams"] / 4, abs=1)


def test_a_substitution_for_everyone_is_still_one_batch(kitchen: Kitchen) -> None:
    facts = swapped(
        kitchen,
        "lunch: bowl, for: everyone, on: mon-tue, at: home",
        "for: everyone, use: 400 g parsnips, instead of: carrots",
    )
    assert [b["portions_made"] for b in facts["batches"]] == [6]
    assert "carrot" not in by(facts["shopping"], "need", "food")


def test_grams_and_figures_follow_the_substitute(kitchen: Kitchen) -> None:
    """SR28: carrots 41 kcal, parsnips 75 kcal in 100 g; 150 g of parsnips a portion."""
    facts = swapped(
        kitchen,
        "lunch: bowl, for: [Ilka, Tomas], on: mon, at: home",
        "for: Ilka, use: 600 g parsnips, instead of: carrots",
    )
    grams = by(facts["servings"], "grams", "eater")
    assert grams == {"Ilka": pytest.approx(150), "Tomas": pytest.approx(100)}
    energy = {s["eater"]: s["nutrients"]["energy_kcal"] for s in facts["servings"]}
    assert energy["Ilka"] - energy["Tomas"] == pytest.approx(112.5 - 41, abs=0.5)


def test_what_is_avoided_in_what_is_cooked(kitchen: Kitchen) -> None:
    """A food by its name: carrots avoided; with parsnips instead there is no problem."""
    kitchen.household("- name: Ilka\n", "- name: Ilka\n    avoids: [carrots]\n").recipe("bowl", BOWL)
    meal = "lunch: bowl, for: [Ilka, Tomas], on: mon, at: home"
    problem = only(kitchen.week(plan(meal)).check(), code="avoided-food")
    assert problem["line"] == 6 and "Ilka" in problem["message"]
    swap = "substitutions:\n  - {in: bowl, for: Ilka, use: 400 g parsnips, instead of: carrots}\n"
    assert kitchen.week(plan(meal, more=swap)).check() == []


def test_beside_and_at_service_also_stand_beside_what_comes_from_stock(kitchen: Kitchen) -> None:
    """Two portions from the freezer: half of the cucumber and the ricotta is bought, no carrot."""
    kitchen.recipe("bowl", BOWL).file("stock.yaml", "freezer:\n  - 2 portions bowl, made 2026-06-01\n")
    meal = "lunch: bowl, for: Tomas, on: mon-tue, at: home"
    facts = kitchen.week(plan(meal, more="already: [2 portions bowl]\n")).facts()
    assert set(by(facts["shopping"], "need", "food")) == {"cucumber", "ricotta"}
    lines = kitchen.read("site/recipes/bowl/facts.json")["ingredients"]
    assert need(facts, "ricotta") == pytest.approx(only(lines, food="ricotta")["grams"] / 2, abs=0.5)
