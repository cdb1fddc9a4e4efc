"""Batches, yields, stock, packs, prices and substitutions in combination, each worked by hand."""

from __future__ import annotations

import pytest

from tests.kitchen import Kitchen, codes, only
from tests.scenarios.dishes import SUNDAY_AND_WEDNESDAY, by, day, dish, plan

TBSP, TSP, CUP = 14.78676478125, 4.92892159375, 236.5882365  # NIST Handbook 44, App. C, mL


def shopped(kitchen: Kitchen, food: str) -> dict:
    return only(kitchen.facts()["shopping"], food=food)


ROOT = "- {name: red root, contains: [], yield: 60 %, packs: [{size: 250 g, price: 0.80}]}\n"


@pytest.mark.parametrize(
    ("batch", "made", "need", "packs", "cost", "left", "consumed", "each"),
    [
        # Makes 6, 480 g: 80 g a portion. 9 portions 720 g / 0.6 = 1,200; less 350: 850; 4 packs; 3.20 a kg.
        ("", 9, 1200, 4, 3.20, 150, 3.84, 3.84 / 9),
        ("batch: half\n", 9, 1200, 4, 3.20, 150, 3.84, 3.84 / 9),
        # 12 made: 960 / 0.6 = 1,600; less 350: 1,250; 5 packs exactly.
        ("batch: whole\n", 12, 1600, 5, 4.00, 0, 5.12, 5.12 / 12),
    ],
)
def test_yield_stock_packs_and_price(
    kitchen: Kitchen, batch: str, made: int, need: int, packs: int, cost: float, left: int, consumed: float, each: float
) -> None:
    kitchen.file("foods.yaml", ROOT).file("stock.yaml", "cupboard:\n  - 350 g red root\n")
    kitchen.recipe("pot", dish("480 g red root", makes="6 portions", more=batch))
    meals = ("lunch: pot, for: Tomas, on: mon, at: home, portions: 7", "dinner: pot, for: Bea, on: tue, portions: 2")
    facts = kitchen.week(plan(*meals)).facts()
    row = only(facts["shopping"], food="red root")
    assert row["need"] == {"amount": pytest.approx(need), "unit": "g"} and row["on_hand"]["amount"] == 350
    assert (row["packs"], row["cost"]) == (packs, pytest.approx(cost))
    assert row["pack"] == {"amount": 250, "unit": "g"} and row["left_over"]["amount"] == pytest.approx(left)
    assert only(facts["batches"], recipe="pot")["portions_made"] == made
    assert facts["cost"]["consumed"] == pytest.approx(consumed)
    assert facts["cost"]["per_portion"]["pot"] == pytest.approx(each)
    assert facts["cost"]["to_pay"] == pytest.approx(cost) and facts["cost"]["at_least"] is False


THREE = (
    "- {name: red root, contains: [], packs: [{size: 300 g, price: 2}, {size: 500 g, price: 3}, "
    "{size: 800 g, price: 4.50}]}\n"
)


@pytest.mark.parametrize(
    ("grams", "sizes", "cost"),
    [
        (1050, {300: 1, 800: 1}, 6.50),  # 500 + 300 + 300 is 7.00, 800 + 500 is 7.50
        (950, {500: 2}, 6.00),  # 800 + 300 is 6.50
        (600, {300: 2}, 4.00),  # one of 800 is 4.50
        (700, {800: 1}, 4.50),  # 500 + 300 is 5.00
        (1600, {800: 2}, 9.00),
        (1900, {300: 1, 800: 2}, 11.00),  # 500 + 3 x 500 is 12.00, 800 + 500 + 300 + 300 is 11.50
    ],
)
def test_the_cheapest_of_three_sizes(kitchen: Kitchen, grams: int, sizes: dict[int, int], cost: float) -> None:
    kitchen.file("foods.yaml", THREE).recipe("pot", dish(f"{grams} g red root"))
    row = shopped(kitchen.week(plan("lunch: pot, for: Tomas, on: mon, at: home")), "red root")
    assert {s["size"]["amount"]: s["count"] for s in row["sizes"]} == sizes
    assert row["cost"] == pytest.approx(cost) and row["packs"] == sum(sizes.values())
    assert row["left_over"]["amount"] == sum(k * n for k, n in sizes.items()) - grams


def test_packs_in_pounds_of_two_sizes(kitchen: Kitchen) -> None:
    """1,000 g are 2.2 lb: 1 lb at 3 and 2 lb at 5; 3 lb for 8 (1,360.78 g) before 3 x 3 or 2 x 5."""
    kitchen.file(
        "foods.yaml", "- {name: red root, contains: [], packs: [{size: 1 lb, price: 3}, {size: 2 lb, price: 5}]}\n"
    )
    kitchen.recipe("pot", dish("1 kg red root"))
    row = shopped(kitchen.week(plan("lunch: pot, for: Tomas, on: mon, at: home")), "red root")
    assert row["cost"] == 8 and row["bought"]["amount"] == pytest.approx(1360.777, abs=0.01)
    assert row["left_over"]["amount"] == pytest.approx(360.777, abs=0.01)


@pytest.mark.parametrize(
    ("lines", "need"),
    [
        (('"300 g red root, as purchased"', "240 g red root"), 300 + 400),  # 240 / 0.6
        (('"300 g red root, diced, as purchased"',), 300),
        (("150-300 g red root",), (250, 500)),
        (('"150-300 g red root, as purchased"', "60 g red root"), (250, 400)),
    ],
)
def test_as_purchased_and_edible_of_one_food(kitchen: Kitchen, lines: tuple[str, ...], need: float | tuple) -> None:
    kitchen.file("foods.yaml", ROOT).recipe("pot", dish(*lines))
    row = shopped(kitchen.week(plan("lunch: pot, for: Tomas, on: mon, at: home")), "red root")
    if isinstance(need, tuple):
        assert (row["need"]["low"], row["need"]["high"]) == (pytest.approx(need[0]), pytest.approx(need[1]))
        assert row["buy"] == {"amount": pytest.approx(need[1]), "unit": "g"}
    else:
        assert row["need"] == {"amount": pytest.approx(need), "unit": "g"}


def test_as_purchased_scales_with_the_batch(kitchen: Kitchen) -> None:
    """500 g for 4: 1,250 g for 10; edible 60 %, 75 g a portion."""
    kitchen.file("foods.yaml", ROOT).recipe("pot", dish('"500 g red root, as purchased"', makes="4 portions"))
    kitchen.week(plan("lunch: pot, for: Tomas, at: home, portions: 10"))
    assert shopped(kitchen, "red root")["need"]["amount"] == pytest.approx(1250)
    assert kitchen.facts()["servings"][0]["grams"] == pytest.approx(75)


def test_a_range_scales_with_the_batch(kitchen: Kitchen) -> None:
    """1-2 tbsp for 4: 2.5 to 5 for 10, 36.97 to 73.93 mL, sold by volume."""
    kitchen.file("foods.yaml", "- {name: red oil, contains: [], packs: [{size: 5 dl}]}\n")
    kitchen.recipe("pot", dish("1-2 tbsp red oil", makes="4 portions"))
    need = shopped(kitchen.week(plan("lunch: pot, for: Tomas, at: home, portions: 10")), "red oil")["need"]
    assert need == {"low": pytest.approx(2.5 * TBSP), "high": pytest.approx(5 * TBSP), "unit": "mL"}


def test_costs_of_a_missing_price_in_one_dish_only(kitchen: Kitchen) -> None:
    foods = ROOT + "- {name: grey root, contains: []}\n"
    kitchen.file("foods.yaml", foods).recipe("pot", dish("60 g red root")).recipe(
        "mash", dish("100 g grey root", "60 g red root", title="M")
    )
    cost = kitchen.week(plan("lunch: pot, for: Tomas, on: mon, at: home", "dinner: mash, for: Bea, on: mon")).facts()[
        "cost"
    ]
    # 60 g / 0.6 = 100 g at 3.20 a kg: 0.32.
    assert cost["per_portion"]["pot"] == pytest.approx(0.32) and cost["per_portion"]["mash"] == pytest.approx(0.32)
    assert (cost["consumed"], cost["to_pay"], cost["at_least"]) == (pytest.approx(0.64), pytest.approx(0.80), True)


def test_what_is_eaten_from_stock_is_neither_needed_nor_paid(kitchen: Kitchen) -> None:
    """4 meals, 3 from the freezer: 1 portion of 120 g at 60 %: 200 g, one pack."""
    kitchen.file("foods.yaml", ROOT).recipe("pot", dish("480 g red root", makes="4 portions", title="Pot"))
    kitchen.file("stock.yaml", "freezer:\n  - 3 portions pot, made 2026-06-01\n")
    facts = kitchen.week(
        plan("lunch: pot, for: Tomas, on: mon-thu, at: home", more="already: [3 portions pot]\n")
    ).facts()
    row = only(facts["shopping"], food="red root")
    assert (row["need"]["amount"], row["packs"]) == (pytest.approx(200), 1)
    assert only(facts["batches"], recipe="pot")["factor"] == 0.25


# ---- substitutions ----

BOWL = dish(
    "480 g red root", makes="8 portions", title="Bowl",
    more="beside:\n  - 80 g green leaf\nat service:\n  - 4 tbsp white curd\n",
)  # fmt: skip
FOODS = (
    ROOT
    + """\
- {name: green leaf, contains: []}
- {name: white curd, contains: [milk], weights: {1 tbsp: 16 g}, label: {serving: 100 g, energy: 200 kcal}}
- {name: brown paste, contains: [sesame], weights: {1 tbsp: 15 g}, label: {serving: 100 g, energy: 600 kcal}}
- {name: odd paste, weights: {1 tbsp: 15 g}}
"""
)
EVERYONE = "lunch: bowl, for: everyone, on: mon-tue, at: home, portions: {Ilka: 3, Bea: 0.5}"


def swapped(kitchen: Kitchen, meal: str, *lines: str, front: str = BOWL) -> Kitchen:
    kitchen.file("foods.yaml", FOODS).recipe("bowl", front)
    return kitchen.week(plan(meal, more="substitutions:\n" + "".join(f"  - {{in: bowl, {x}}}\n" for x in lines)))


def test_a_substitution_by_portions_of_its_eater(kitchen: Kitchen) -> None:
    """4 tbsp for 8: half a tablespoon a portion. Ilka's 6: 3 tbsp of paste, 45 g; 2 + 1: 1.5 tbsp of curd, 24 g."""
    facts = swapped(kitchen, EVERYONE, "for: Ilka, use: 4 tbsp brown paste, instead of: white curd").facts()
    assert only(facts["shopping"], food="brown paste")["need"] == {"amount": pytest.approx(45), "unit": "g"}
    assert only(facts["shopping"], food="white curd")["need"] == {"amount": pytest.approx(24), "unit": "g"}
    assert [b["portions_made"] for b in facts["batches"]] == [9]
    contains = by(facts["servings"], "contains", "eater")
    assert contains == {"Ilka": ["sesame"], "Tomas": ["milk"], "Bea": ["milk"]}


def test_a_substitution_of_another_size_at_the_written_size(kitchen: Kitchen) -> None:
    """8 tbsp for 8 instead of 4: a tablespoon a portion, 15 g of 600 kcal/100 g: 90 kcal; curd 8 g, 16 kcal."""
    meal = "lunch: bowl, for: [Ilka, Tomas], on: mon, at: home"
    front = BOWL.replace("480 g red root", "480 g white curd")
    facts = swapped(kitchen, meal, "for: Ilka, use: 8 tbsp brown paste, instead of: white curd", front=front).facts()
    # Curd is cooked in as well, 60 g and 120 kcal a portion: Tomas's portion is what it was.
    tomas = only(facts["servings"], eater="Tomas")["nutrients"]["energy_kcal"]
    assert tomas == pytest.approx(120 + 16)


def test_a_substitution_in_whole_batches_is_a_whole_batch_of_its_own(kitchen: Kitchen) -> None:
    """Whole batches of 4: Ilka's 2 make 4, the others' 4 make 4: surplus 2."""
    front = dish("400 g red root", makes="4 portions", title="Bowl", more="batch: whole\n")
    meal = "lunch: bowl, for: everyone, on: mon-tue, at: home"
    facts = swapped(kitchen, meal, "for: Ilka, use: 400 g green leaf, instead of: red root", front=front).facts()
    rows = sorted((b["portions_needed"], b["portions_made"], b["surplus"]) for b in facts["batches"])
    assert rows == [(2, 4, 2), (4, 4, 0)]
    assert only(facts["shopping"], food="green leaf")["need"]["amount"] == pytest.approx(400)
    assert len(facts["labels"]) == 8


def test_a_substitution_in_two_sessions(kitchen: Kitchen) -> None:
    """Ilka's own batch and the others', at each session: 4 batches."""
    front = dish("400 g red root", makes="4 portions", title="Bowl", more="keeps: mixed salads\n")
    meal = "lunch: bowl, for: [Ilka, Tomas], on: mon-fri, at: home"
    kitchen.file("foods.yaml", FOODS).recipe("bowl", front)
    more = "substitutions:\n  - {in: bowl, for: Ilka, use: 400 g green leaf, instead of: red root}\n"
    facts = kitchen.week(plan(meal, prep=SUNDAY_AND_WEDNESDAY, more=more)).facts()
    assert [(b["made_on"], b["portions_made"]) for b in facts["batches"]] == [
        (day(7), 4), (day(7), 4), (day(10), 1), (day(10), 1),
    ]  # fmt: skip


def test_a_substitute_that_is_avoided_itself(kitchen: Kitchen) -> None:
    kitchen.household("- name: Ilka\n", "- name: Ilka\n    avoids: [milk, sesame]\n")
    meal = "lunch: bowl, for: [Ilka, Tomas], on: mon, at: home"
    swapped(kitchen, meal, "for: Ilka, use: 4 tbsp brown paste, instead of: white curd")
    problem = only(kitchen.check(), code="avoided-food")
    assert "sesame" in problem["message"] and "milk" not in problem["message"]


def test_a_substitute_that_the_place_bans(kitchen: Kitchen) -> None:
    kitchen.household("bans: [peanuts, tree nuts]", "bans: [sesame]")
    meal = "lunch: bowl, for: Bea, on: mon"
    swapped(kitchen, meal, "for: Bea, use: 4 tbsp brown paste, instead of: white curd")
    assert [(p["code"], p["severity"]) for p in kitchen.check()] == [("banned-at-place", "error")]
    swapped(kitchen, meal, "for: Bea, use: 4 tbsp odd paste, instead of: white curd")
    assert [p["code"] for p in kitchen.check()] == ["allergens-not-known"]


def test_a_substitute_without_figures_makes_only_its_eaters_sums_lower_bounds(kitchen: Kitchen) -> None:
    front = dish("480 g white curd", makes="8 portions", title="Bowl", more="at service:\n  - 4 tbsp brown paste\n")
    meal = "lunch: bowl, for: [Ilka, Tomas], on: mon, at: home"
    facts = swapped(kitchen, meal, "for: Ilka, use: 4 tbsp odd paste, instead of: brown paste", front=front).facts()
    # 60 g of 200 kcal/100 g; half a tablespoon of paste, 7.5 g of 600 kcal/100 g.
    for rows in (facts["servings"], facts["day_totals"]):
        ilka, tomas = only(rows, eater="Ilka"), only(rows, eater="Tomas")
        assert ilka["nutrients"]["energy_kcal"] == pytest.approx(120) and tomas["nutrients"][
            "energy_kcal"
        ] == pytest.approx(165)
        assert "energy_kcal" in ilka["at_least"] and ilka["missing"]["energy_kcal"] == ["odd paste"]
        assert "energy_kcal" not in tomas["at_least"]


def test_substitution_with_a_range_and_with_what_is_thrown_away(kitchen: Kitchen) -> None:
    """4-8 tbsp for 8: 7.5 to 15 g of 600 kcal/100 g; half of it eaten: 22.5 to 45."""
    front = dish("480 g white curd", makes="8 portions", title="Bowl", more="at service:\n  - 16 g green leaf\n")
    meal = "lunch: bowl, for: Ilka, on: mon, at: home"
    use = "for: Ilka, use: {item: 4-8 tbsp brown paste, eaten: 50 %}, instead of: green leaf"
    facts = swapped(kitchen, meal, use, front=front).facts()
    energy = facts["servings"][0]["nutrients"]["energy_kcal"]
    assert energy == {"low": pytest.approx(120 + 22.5), "high": pytest.approx(120 + 45)}
    need = only(facts["shopping"], food="brown paste")["need"]
    assert need == {"low": pytest.approx(7.5), "high": pytest.approx(15), "unit": "g"}


# ---- by-products, parts ----


def test_by_products_in_half_batches(kitchen: Kitchen) -> None:
    """Makes 8, 10 needed, 12 made: factor 1.5, 120 g of seeds from 80."""
    kitchen.recipe("pot", dish("900 g carrots", makes="8 portions", more="batch: half\ngives: [80 g pumpkin seeds]\n"))
    facts = kitchen.week(plan("lunch: pot, for: Tomas, at: home, portions: 10")).facts()
    gives = [u for u in facts["use_first"] if u["food"]]
    assert [(u["amount"]) for u in gives] == [{"amount": pytest.approx(120), "unit": "g"}]
    assert len(facts["labels"]) == 12 + 1


BASE = dish("400 g red root", "40 g white curd", makes="{}", title="Base", more="{}")


@pytest.mark.parametrize(
    ("makes", "portion", "use", "share"),
    [
        ("3 cups", "", "2 cups recipe: base", 2 / 3),
        ("3 cups", "", "500 mL recipe: base", 500 / (3 * CUP)),
        ("3 cups", "", "1 pint recipe: base", 2 / 3),
        ("3 cups", "", "8 tbsp recipe: base", 1 / 6),
        ("3 cups", "", "½ cup recipe: base", 1 / 6),
        ("3 cups", "", "1 ½ cups recipe: base", 1 / 2),
        ("600 g", "", "0.5 lb recipe: base", 226.796185 / 600),
        ("600 g", "", "0.3 kg recipe: base", 1 / 2),
        ("1.5 L", "", "3 dl recipe: base", 1 / 5),
        ("24 each", "", "6 each recipe: base", 1 / 4),
        ("8 portions", "", "2 portions recipe: base", 1 / 4),
        ("8 portions", "portion: 150 g\n", "300 g recipe: base", 1 / 4),
        ("8 portions", "portion: 1 cup\n", "2 cups recipe: base", 1 / 4),
        ("6 cups", "portion: 1 1/2 cup\n", "2 portions recipe: base", 1 / 2),
        ("600 g", "portion: 100 g\n", "1 portion recipe: base", 1 / 6),
        ("24 each", "portion: 3 each\n", "1 portion recipe: base", 1 / 8),
    ],
)
def test_a_part_in_every_measure(kitchen: Kitchen, makes: str, portion: str, use: str, share: float) -> None:
    """The base has 400 g of root (666.7 g as purchased) and 40 g of curd, 80 kcal, at its written size."""
    kitchen.file("foods.yaml", FOODS).recipe("base", BASE.format(makes, portion)).recipe("pot", dish(use, title="Pot"))
    facts = kitchen.week(plan("lunch: pot, for: Tomas, on: mon-tue, at: home")).facts()
    assert codes(facts["problems"], "error") == []
    assert only(facts["batches"], recipe="base")["factor"] == pytest.approx(2 * share)
    assert only(facts["shopping"], food="red root")["need"]["amount"] == pytest.approx(2 * share * 400 / 0.6)
    serving = facts["servings"][0]
    assert serving["nutrients"]["energy_kcal"] == pytest.approx(80 * share) and "energy_kcal" in serving["at_least"]
    assert serving["contains"] == ["milk"]


@pytest.mark.parametrize(
    "line",
    [
        "- 1 cup recipe: base",
        '- "1 cup recipe: base"',
        "- 1 cup recipe:   base",
        "- {1 cup recipe: base}",
        "- {item: '1 cup recipe: base'}",
    ],
)
def test_a_part_however_it_is_written(kitchen: Kitchen, line: str) -> None:
    kitchen.file("foods.yaml", FOODS).recipe("base", BASE.format("2 cups", ""))
    kitchen.recipe("pot", f"title: Pot\nmakes: 1 portion\ningredients:\n  {line}\n")
    facts = kitchen.recipe_facts("pot")
    assert facts["ingredients"][0]["basis"] == {"kind": "recipe", "id": "base"}
    assert facts["per_portion"]["nutrients"]["energy_kcal"] == pytest.approx(40)


def test_a_part_in_a_range_of_cups(kitchen: Kitchen) -> None:
    """1-2 cups of 4: 20 to 40 of 80 kcal; 166.7 to 333.3 g as purchased."""
    kitchen.file("foods.yaml", FOODS).recipe("base", BASE.format("4 cups", "")).recipe(
        "pot", dish("1-2 cups recipe: base")
    )
    facts = kitchen.week(plan("lunch: pot, for: Tomas, on: mon, at: home")).facts()
    assert facts["servings"][0]["nutrients"]["energy_kcal"] == {"low": pytest.approx(20), "high": pytest.approx(40)}


def test_a_part_in_a_measure_that_cannot_be_had(kitchen: Kitchen) -> None:
    """Cups of what is made in pieces: no weight, sums are lower bounds, allergens are still there."""
    kitchen.file("foods.yaml", FOODS).recipe("base", BASE.format("24 each", "")).recipe(
        "pot", dish("2 cups recipe: base", "50 g white curd")
    )
    problems = kitchen.week(plan("lunch: pot, for: Tomas, on: mon, at: home")).check()
    assert codes(problems) == ["no-weight"]
    serving = kitchen.facts()["servings"][0]
    assert "energy_kcal" in serving["at_least"] and "milk" in serving["contains"]


def test_a_part_used_by_two_dishes_is_one_batch(kitchen: Kitchen) -> None:
    """1 cup + 0.5 cup of 3 a portion; 2 and 3 portions: 3.5 cups, factor 7/6."""
    kitchen.file("foods.yaml", FOODS).recipe("base", BASE.format("3 cups", ""))
    kitchen.recipe("one", dish("1 cup recipe: base", title="One")).recipe(
        "two", dish("1/2 cup recipe: base", title="Two")
    )
    facts = kitchen.week(
        plan("lunch: one, for: Tomas, on: mon-tue, at: home", "dinner: two, for: everyone, on: mon")
    ).facts()
    assert only(facts["batches"], recipe="base")["factor"] == pytest.approx(7 / 6)


def test_a_ring_of_three_through_service_and_beside(kitchen: Kitchen) -> None:
    kitchen.recipe("a", dish("1 portion recipe: b", title="A"))
    kitchen.recipe("b", dish(title="B", more="beside:\n  - 1 portion recipe: c\n"))
    kitchen.recipe("c", dish(title="C", more="at service:\n  - 1 portion recipe: a\n"))
    problems = [p for p in kitchen.check() if p["code"] == "recipe-loop"]
    assert problems and all(key in problems[0]["message"] for key in "abc")
    assert {p["severity"] for p in problems} == {"error"}


# ---- measures as people write them ----


@pytest.mark.parametrize(
    ("line", "millilitres"),
    [
        ("2 dl red oil", 200), ("1 T red oil", TBSP), ("1 t red oil", TSP), ("1 c. red oil", CUP),
        ("½ cup red oil", CUP / 2),
        ("1½ cups red oil", 1.5 * CUP), ("1 ½ cups red oil", 1.5 * CUP), ("2⅔ cups red oil", 8 / 3 * CUP),
        ("1 1/2 tbsp. red oil", 1.5 * TBSP), ("250ml red oil", 250), ("0.25 l red oil", 250), ("8 fl oz red oil", CUP),
        ("1 pt red oil", 2 * CUP), ("1 quart red oil", 4 * CUP), ("2 cl red oil", 20), ("1/4 c red oil", CUP / 4),
        ("one cup red oil", CUP), ("1,5 dl red oil", 150), ("3 Tbsp red oil", 3 * TBSP), ("3 tsps red oil", 3 * TSP),
    ],
)  # fmt: skip
def test_volumes_as_cooks_write_them(kitchen: Kitchen, line: str, millilitres: float) -> None:
    kitchen.file("foods.yaml", "- {name: red oil, contains: [], weights: {100 mL: 91 g}}\n")
    found = kitchen.recipe("pot", dish(f'"{line}"')).recipe_facts("pot")["ingredients"][0]
    assert (found["food"], found["amount"]["unit"]) == ("red oil", "mL")
    assert found["amount"]["amount"] == pytest.approx(millilitres, rel=1e-6)
    assert found["grams"] == pytest.approx(millilitres * 0.91, rel=1e-6)


@pytest.mark.parametrize(
    ("line", "low", "high"),
    [("1-2 cups red oil", 1, 2), ("1 – 2 cups red oil", 1, 2), ("1 to 2 cups red oil", 1, 2),
     ("½–¾ cup red oil", 0.5, 0.75),
     ("1/2-3/4 cup red oil", 0.5, 0.75), ("1½-2 cups red oil", 1.5, 2), ("2 or 3 cups red oil", 2, 3)],
)  # fmt: skip
def test_ranges_as_cooks_write_them(kitchen: Kitchen, line: str, low: float, high: float) -> None:
    kitchen.file("foods.yaml", "- {name: red oil, contains: [], weights: {1 cup: 200 g}}\n")
    found = kitchen.recipe("pot", dish(f'"{line}"')).recipe_facts("pot")["ingredients"][0]
    assert found["amount"] == {"low": pytest.approx(low * CUP), "high": pytest.approx(high * CUP), "unit": "mL"}


# ---- stock ----


@pytest.mark.parametrize(
    ("stock", "grams"),
    [
        ("fridge:\n  - 1/2 lb red root\n", 226.796),
        ("fridge:\n  - 8 oz red root\n  - 100 g red root, opened 2026-06-06\n", 326.796),
        ("fridge:\n  - 300 g red root, best before 2026-06-06\n  - 100 g red root, best before 2026-06-07\n", 100),
        ("freezer:\n  - 300 g red root, best before 2026-05-01\n", 300),  # frozen: past its best, still on hand
        ("cupboard:\n  - 1.5 kg red root\nfridge:\n  - 0.5 kg red root\n", 2000),
        ("freezer: []\ncupboard:\n  - 1 kg red root\n", 1000),
        ("fridge:\n  - 500 g red roots\n", 500),
    ],
)
def test_lots_that_count_and_lots_that_do_not(kitchen: Kitchen, stock: str, grams: float) -> None:
    kitchen.file("foods.yaml", ROOT).file("stock.yaml", stock).recipe("pot", dish("1800 g red root"))
    row = shopped(kitchen.week(plan("lunch: pot, for: Tomas, on: mon, at: home")), "red root")
    assert row["on_hand"]["amount"] == pytest.approx(grams, abs=0.01)
    assert row["buy"]["amount"] == pytest.approx(3000 - grams, abs=0.01)


def test_already_over_three_lots_by_title_and_key(kitchen: Kitchen) -> None:
    """1 of 1 April (past its best), 2 of 20 May, 2 of 1 June; four eaten: 1 + 2 + 1; one of the newest remains."""
    stock = (
        "freezer:\n  - 2 portions lentil-stew, made 2026-06-01\n  - 1 portion Lentil Stew, made 2026-03-01\n"
        "  - 2 portions lentil stew, made 2026-05-20\n"
    )
    kitchen.recipe("lentil-stew", dish(title="Lentil stew", more="keeps: soups and stews\n")).file("stock.yaml", stock)
    facts = kitchen.week(
        plan("lunch: lentil-stew, for: Tomas, on: mon-fri, at: home", more="already: [4 portions Lentil stew]\n")
    ).facts()
    assert [s["lot"] for s in facts["servings"]] == [
        "stock.yaml:3",
        "stock.yaml:4",
        "stock.yaml:4",
        "stock.yaml:2",
        None,
    ]
    assert [(p["code"], p["line"]) for p in facts["problems"]] == [("past-best", 3)]
    assert only(facts["batches"], recipe="lentil-stew")["portions_made"] == 1
    assert len(facts["labels"]) == 1 and [p["pull_on"] for p in facts["pull_list"]] == [
        day(7),
        day(8),
        day(9),
        day(10),
    ] + ([day(11)] if facts["servings"][4]["kept"] == "freezer" else [])


def test_already_of_more_than_is_eaten_is_no_problem(kitchen: Kitchen) -> None:
    kitchen.recipe("stew", dish(title="Stew")).file("stock.yaml", "freezer:\n  - 4 portions stew, made 2026-06-01\n")
    facts = kitchen.week(
        plan("lunch: stew, for: Tomas, on: mon, at: home", more="already: [3 portions stew]\n")
    ).facts()
    assert codes(facts["problems"], "error") == []
    assert [s["lot"] for s in facts["servings"]] == ["stock.yaml:2"]


def test_already_for_two_eaters_and_an_undated_line(kitchen: Kitchen) -> None:
    """Dated meals are the earliest: Monday's two come from stock, the snacks without a day are cooked."""
    kitchen.recipe("stew", dish(title="Stew")).file("stock.yaml", "freezer:\n  - 2 portions stew, made 2026-06-01\n")
    meals = ("snack: stew, for: Bea, portions: 2, at: home", "lunch: stew, for: [Ilka, Tomas], on: mon, at: home")
    facts = kitchen.week(plan(*meals, more="already: [2 portions stew]\n")).facts()
    assert {s["eater"]: s["lot"] for s in facts["servings"]} == {
        "Ilka": "stock.yaml:2",
        "Tomas": "stock.yaml:2",
        "Bea": None,
    }
