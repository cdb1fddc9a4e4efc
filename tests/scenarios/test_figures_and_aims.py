"""Figures, lower bounds, ranges, tallies and aims."""

from __future__ import annotations

import pytest

from binder.model.food import NUTRIENTS
from tests.kitchen import Kitchen, codes, only
from tests.scenarios.dishes import by, day, dish, plan

FOODS = """\
- name: grey root
  label: {serving: 50 g, energy: 100 kcal, protein: 2 g, sodium: 10 mg}
  contains: []
- name: moon leaf
  contains: []
- name: star bean
  contains: []
  label: {serving: 100 g, energy: 300 kcal, protein: 20 g, fat: 1 g, saturated fat: 0 g, carbohydrate: 50 g,
          fibre: 10 g, sugars: 2 g, sodium: 0 mg, potassium: 900 mg, calcium: 80 mg, iron: 6 mg}
"""
MEAL = "lunch: pot, for: Tomas, on: mon, at: home"


def portion(kitchen: Kitchen, *lines: str, makes: str = "1 portion", more: str = "") -> dict:
    kitchen.file("foods.yaml", FOODS).recipe("pot", dish(*lines, makes=makes, more=more))
    return kitchen.recipe_facts("pot")["per_portion"]


def test_a_figure_the_pack_does_not_give_is_not_zero(kitchen: Kitchen) -> None:
    """75 g: 150 kcal, 3 g protein; no fat on the label."""
    found = portion(kitchen, "75 g grey root")
    assert found["nutrients"]["energy_kcal"] == pytest.approx(150)
    assert found["nutrients"]["fat_g"] is None
    assert "fat_g" in found["at_least"] and found["missing"]["fat_g"] == ["grey root"]
    assert "energy_kcal" not in found["at_least"] and "energy_kcal" not in found["missing"]


def test_no_value_at_all_is_null_and_still_named(kitchen: Kitchen) -> None:
    found = portion(kitchen, "75 g moon leaf")
    assert set(found["nutrients"].values()) == {None}
    assert set(found["at_least"]) >= set(NUTRIENTS)
    assert found["missing"] == {name: ["moon leaf"] for name in NUTRIENTS}


def test_everything_known_leaves_nothing_open(kitchen: Kitchen) -> None:
    found = portion(kitchen, "50 g star bean")
    assert (found["at_least"], found["missing"]) == ([], {})
    assert found["nutrients"]["sodium_mg"] == 0 and found["nutrients"]["iron_mg"] == pytest.approx(3)


def test_what_is_missing_goes_up_through_parts_servings_and_days(kitchen: Kitchen) -> None:
    """100 g star bean, 300 kcal, and leaves without figures make two; half of it in a bowl with 100 g more."""
    kitchen.file("foods.yaml", FOODS)
    kitchen.recipe("base", dish("100 g star bean", "20 g moon leaf", makes="2 portions", title="Base"))
    kitchen.recipe("pot", dish("1 portion recipe: base", "100 g star bean"))
    kitchen.recipe("snack", dish("100 g star bean", title="Snack"))
    facts = kitchen.week(plan(MEAL, "snack: snack, for: Tomas, on: mon-tue, at: home")).facts()
    for holder, energy in (
        (kitchen.read("site/recipes/pot/facts.json")["per_portion"], 450),
        (only(facts["servings"], recipe="pot"), 450),
        (only(facts["day_totals"], date=day(8)), 750),
    ):
        assert holder["nutrients"]["energy_kcal"] == pytest.approx(energy)
        assert "energy_kcal" in holder["at_least"] and holder["missing"]["energy_kcal"] == ["moon leaf"]
    tuesday = only(facts["day_totals"], date=day(9))
    assert (tuesday["at_least"], tuesday["missing"]) == ([], {})


def test_like_fills_what_the_pack_leaves_out(kitchen: Kitchen) -> None:
    """SR28 20005, pearled barley, raw: 9.91 g protein, 352 kcal in 100 g; the pack says 340 kcal."""
    foods = (
        '- {name: own barley, like: "Barley, pearled, raw", label: {serving: 50 g, energy: 170 kcal}, contains: []}\n'
    )
    kitchen.file("foods.yaml", foods).recipe("pot", dish("200 g own barley"))
    facts = kitchen.recipe_facts("pot")
    found = facts["per_portion"]["nutrients"]
    assert (found["energy_kcal"], found["protein_g"]) == (pytest.approx(680), pytest.approx(19.82))
    assert facts["ingredients"][0]["basis"] == {"kind": "household", "id": "own barley"}


def test_a_table_row_named_outright(kitchen: Kitchen) -> None:
    """SR28 02047: 38,758 mg sodium in 100 g of table salt; a teaspoon is 6 g."""
    kitchen.recipe("pot", dish('{item: 1 tsp salt, food: "salt, table"}', makes="4 portions"))
    facts = kitchen.recipe_facts("pot")
    assert facts["per_portion"]["nutrients"]["sodium_mg"] == pytest.approx(38758 * 0.06 / 4, abs=1)
    assert facts["ingredients"][0]["basis"] == {"kind": "table", "id": "SR28 02047"}


def test_an_unknown_food_is_unknown(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish("100 g zzyzx")).write()
    assert codes(kitchen.check()) == ["unknown-food"]
    facts = kitchen.recipe_facts("pot")
    line = facts["ingredients"][0]
    assert (line["basis"], line["grams"]) == ({"kind": "unknown"}, 100)
    assert facts["not_known"] == ["zzyzx"] and set(facts["per_portion"]["nutrients"].values()) == {None}


def test_a_line_without_a_weight_is_null_not_zero(kitchen: Kitchen) -> None:
    kitchen.file("foods.yaml", FOODS).recipe("pot", dish("2 cups star bean", "100 g grey root"))
    assert codes(kitchen.check()) == ["no-weight"]
    facts = kitchen.recipe_facts("pot")
    line = facts["ingredients"][0]
    assert (line["grams"], line["as_purchased_grams"], line["measure_basis"]) == (None, None, None)
    assert line["amount"] == {"amount": pytest.approx(473.18, abs=0.01), "unit": "mL"}
    found = facts["per_portion"]
    assert found["grams"] is None
    assert found["nutrients"]["energy_kcal"] == pytest.approx(200) and "energy_kcal" in found["at_least"]


def test_what_is_thrown_away_by_share(kitchen: Kitchen) -> None:
    """25 % of 200 g star bean: 150 kcal; of the portion's weight too."""
    found = portion(kitchen, "{item: 200 g star bean, eaten: 25 %}", "100 g grey root")
    assert found["nutrients"]["energy_kcal"] == pytest.approx(150 + 200)
    line = kitchen.read("site/recipes/pot/facts.json")["ingredients"][0]
    assert (line["eaten"], line["grams"]) == (0.25, 200)


def test_a_range_through_a_part_to_the_day(kitchen: Kitchen) -> None:
    """50-100 g star bean, 150-300 kcal, in a part used whole; with 100 g grey root, 200 kcal: 350-500."""
    kitchen.file("foods.yaml", FOODS)
    kitchen.recipe("base", dish("50-100 g star bean", title="Base"))
    kitchen.recipe("pot", dish("1 portion recipe: base", "100 g grey root"))
    facts = kitchen.week(plan(MEAL)).facts()
    want = {"low": pytest.approx(350), "high": pytest.approx(500)}
    assert facts["servings"][0]["nutrients"]["energy_kcal"] == want
    assert facts["day_totals"][0]["nutrients"]["energy_kcal"] == want
    assert facts["servings"][0]["nutrients"]["protein_g"] == {"low": pytest.approx(14), "high": pytest.approx(24)}


def test_a_part_in_a_range_of_portions(kitchen: Kitchen) -> None:
    kitchen.file("foods.yaml", FOODS).recipe("base", dish("100 g star bean", makes="2 portions", title="Base"))
    kitchen.recipe("pot", dish("1-2 portions recipe: base"))
    found = kitchen.recipe_facts("pot")["per_portion"]["nutrients"]["energy_kcal"]
    assert found == {"low": pytest.approx(150), "high": pytest.approx(300)}


def test_ingredient_facts_say_when_and_where(kitchen: Kitchen) -> None:
    more = "beside:\n  - 10 g star bean\nat service:\n  - 5 g grey root\n"
    front = dish(more=more).replace("  - 400 g carrots\n", "  Roots:\n    - 40 g grey root\n")
    kitchen.file("foods.yaml", FOODS).recipe("pot", front)
    lines = kitchen.recipe_facts("pot")["ingredients"]
    assert [(i["text"], i["part"], i["when"]) for i in lines] == [
        ("40 g grey root", "Roots", "cooked"),
        ("10 g star bean", None, "beside"),
        ("5 g grey root", None, "at service"),
    ]


# ---- tallies ----

TALLIED = """\
- name: red leaf
  contains: []
  tallies: {vegetables: {30 g: 0, 60 g: 1, 120 g: 2}}
- name: blue leaf
  contains: []
  tallies: {vegetables: {80 g: 1}, greens: {80 g: 1}}
"""


@pytest.mark.parametrize(
    ("lines", "count", "exact"),
    [
        (("120 g red leaf",), 1, True),  # two portions of 60 g
        (("240 g red leaf",), 2, True),
        (("180 g red leaf",), 1, False),  # 90 g: at least the step below
        (("480 g red leaf",), 2, False),  # above the last step
        (("40 g red leaf",), 0, False),  # below the first
        (("120 g red leaf", "160 g blue leaf"), 2, True),
        (("120 g red leaf", "100 g blue leaf"), 1, False),
    ],
)
def test_tallies_of_foods_in_stated_steps(kitchen: Kitchen, lines: tuple[str, ...], count: int, exact: bool) -> None:
    kitchen.file("foods.yaml", TALLIED).recipe("pot", dish(*lines, makes="2 portions"))
    facts = kitchen.week(plan(MEAL)).facts()
    serving = facts["servings"][0]
    assert serving["tallies"]["vegetables"] == count
    assert ("vegetables" not in serving["at_least"]) == exact
    assert ("tally-step" in codes(facts["problems"])) != exact
    assert facts["day_totals"][0]["tallies"]["vegetables"] == count


def test_tallies_of_a_food_by_volume_and_by_piece(kitchen: Kitchen) -> None:
    """Half a cup counts 1, a cup of 90 g counts 2; a roll counts 3."""
    foods = (
        "- {name: green leaf, contains: [], weights: {1 cup: 90 g}, tallies: {vegetables: {1/2 cup: 1, 1 cup: 2}}}\n"
    )
    foods += "- {name: roll, contains: [], tallies: {grains: {1 each: 3}}}\n"
    kitchen.file("foods.yaml", foods).recipe("pot", dish("1 cup green leaf", "1 roll"))
    serving = kitchen.week(plan(MEAL)).facts()["servings"][0]
    assert serving["tallies"] == {"vegetables": 2, "grains": 3}
    kitchen.recipe("pot", dish("45 g green leaf", "1 roll"))
    assert kitchen.facts()["servings"][0]["tallies"] == {"vegetables": 1, "grains": 3}


def test_tallies_of_a_foods_part(kitchen: Kitchen) -> None:
    """A cup of the base, of three, is 60 g of red leaf."""
    kitchen.file("foods.yaml", TALLIED).recipe("base", dish("180 g red leaf", makes="3 cups", title="Base"))
    kitchen.recipe("pot", dish("1 cup recipe: base"))
    serving = kitchen.week(plan(MEAL)).facts()["servings"][0]
    assert serving["tallies"] == {"vegetables": 1}


def test_a_recipes_own_steps_come_before_its_foods(kitchen: Kitchen) -> None:
    more = "tallies: {vegetables: {1 portion: 4, 2 portions: 7}}\n"
    kitchen.file("foods.yaml", TALLIED).recipe("pot", dish("60 g red leaf", "80 g blue leaf", more=more))
    serving = kitchen.week(plan(MEAL + ", portions: 2")).facts()["servings"][0]
    assert serving["tallies"]["vegetables"] == 7


# ---- aims ----


@pytest.mark.parametrize(
    ("aims", "reached"),
    [
        ("energy: 300 kcal", True),
        ("energy: 330 kcal", True),  # 300 is 9.1 % below
        ("energy: 334 kcal", False),
        ("energy: 272 kcal", False),  # 10 % above is 299.2
        ("energy: 273 kcal", True),  # 300.3
        ("energy: at least 300 kcal", True),
        ("energy: at least 301 kcal", False),
        ("energy: at most 300 kcal", True),
        ("sodium: at most 0 mg", True),
        ("protein: at most 19 g", False),
        ("iron: at least 5 mg", True),
    ],
)
def test_aims_against_a_day_that_is_known(kitchen: Kitchen, aims: str, reached: bool) -> None:
    """100 g star bean: 300 kcal, 20 g protein, 6 mg iron, no sodium."""
    kitchen.household("{name: Tomas, eats", f"{{name: Tomas, aims: {{{aims}}}, eats").file("foods.yaml", FOODS)
    facts = kitchen.recipe("pot", dish("100 g star bean")).week(plan(MEAL)).facts()
    name, _, aim = aims.partition(": ")
    assert facts["day_totals"][0]["aims"] == [{"name": name, "aim": aim, "reached": reached}]


@pytest.mark.parametrize(
    ("aims", "reached"),
    [
        ("energy: at least 250 kcal", True),  # 300 are there already
        ("energy: at least 400 kcal", None),
        ("energy: at most 400 kcal", None),
        ("energy: at most 250 kcal", False),
        ("energy: 300 kcal", None),
        ("energy: 200 kcal", False),
        ("energy: 500 kcal", None),
    ],
)
def test_aims_against_a_sum_that_is_a_lower_bound(kitchen: Kitchen, aims: str, reached: bool | None) -> None:
    kitchen.household("{name: Tomas, eats", f"{{name: Tomas, aims: {{{aims}}}, eats").file("foods.yaml", FOODS)
    facts = kitchen.recipe("pot", dish("100 g star bean", "10 g moon leaf")).week(plan(MEAL)).facts()
    assert facts["day_totals"][0]["aims"][0]["reached"] is reached


def test_an_aim_nothing_is_known_of(kitchen: Kitchen) -> None:
    kitchen.household("{name: Tomas, eats", "{name: Tomas, aims: {iron: 5 mg}, eats").file("foods.yaml", FOODS)
    facts = kitchen.recipe("pot", dish("10 g moon leaf")).week(plan(MEAL)).facts()
    assert facts["day_totals"][0]["aims"][0]["reached"] is None


@pytest.mark.parametrize(
    ("grams", "most", "reached"), [(120, 2, True), (120, 1, False), (90, 2, None), (90, 0, False), (0, 2, True)]
)
def test_an_eaters_tally_is_an_at_most(kitchen: Kitchen, grams: int, most: int, reached: bool | None) -> None:
    kitchen.household("{name: Tomas, eats", f"{{name: Tomas, tallies: {{vegetables: {most}}}, eats")
    line = f"{grams} g red leaf" if grams else "50 g rice"
    facts = kitchen.file("foods.yaml", TALLIED).recipe("pot", dish(line)).week(plan(MEAL)).facts()
    aim = only(facts["day_totals"][0]["aims"], name="vegetables")
    assert (aim["aim"], aim["reached"]) == (f"at most {most}", reached)


def test_a_total_for_each_eater_and_day(kitchen: Kitchen) -> None:
    kitchen.file("foods.yaml", FOODS).recipe("pot", dish("100 g star bean"))
    meals = ("lunch: pot, for: everyone, on: mon, portions: {Bea: 0.5}, at: home", "dinner: pot, for: Bea, on: mon-tue")
    facts = kitchen.week(plan(*meals)).facts()
    energy = {k: v["energy_kcal"] for k, v in by(facts["day_totals"], "nutrients", "date", "eater").items()}
    assert energy == {
        (day(8), "Ilka"): 300, (day(8), "Tomas"): 300, (day(8), "Bea"): 450, (day(9), "Bea"): 300,
    }  # fmt: skip
