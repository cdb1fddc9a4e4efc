"""Allergens by both lists and by kind, bans, avoidances, tallies and aims in combination, worked by hand."""

from __future__ import annotations

import pytest

from tests.kitchen import Kitchen, codes, only
from tests.scenarios.dishes import by, day, dish, plan

EU = ("time zone", "allergen list: eu\ntime zone")


@pytest.mark.parametrize(
    ("line", "us", "eu"),
    [
        # FALCPA 2004, FASTER Act 2021; Regulation (EU) 1169/2011, Annex II.
        ("100 g pearled barley", set(), {"cereals containing gluten (barley)"}),
        ("100 g rolled oats", set(), {"cereals containing gluten (oats)"}),
        ("100 g all-purpose flour", {"wheat"}, {"cereals containing gluten (wheat)"}),
        ("100 g rye flour", set(), {"cereals containing gluten (rye)"}),
        ("100 g almonds", {"tree nuts (almonds)"}, {"nuts (almonds)"}),
        ("100 g walnuts", {"tree nuts (walnuts)"}, {"nuts (walnuts)"}),
        ("100 g celery", set(), {"celery"}),
        ("10 g mustard", set(), {"mustard"}),
        ("100 g mussels", set(), {"molluscs"}),
        ("100 g squid", set(), {"molluscs"}),
        ("100 g tahini", {"sesame"}, {"sesame"}),
        ("100 g tofu", {"soybeans"}, {"soybeans"}),
        ("100 g peanuts", {"peanuts"}, {"peanuts"}),
        ("2 eggs", {"eggs"}, {"eggs"}),
        ("100 g butter", {"milk"}, {"milk"}),
        ("100 g carrots", set(), set()),
        ("15 mL soy sauce", {"soybeans", "wheat"}, {"soybeans", "cereals containing gluten (wheat)"}),
    ],
)
def test_both_lists(kitchen: Kitchen, line: str, us: set[str], eu: set[str]) -> None:
    kitchen.recipe("pot", dish(line))
    assert set(kitchen.recipe_facts("pot")["contains"]) == us
    assert set(kitchen.household(*EU).recipe_facts("pot")["contains"]) == eu


@pytest.mark.parametrize(
    ("line", "us", "eu"),
    [("100 g salmon", "fish (salmon)", "fish"), ("100 g shrimp", "crustacean shellfish (shrimp)", "crustaceans")],
)
def test_fish_and_crustaceans_by_kind(kitchen: Kitchen, line: str, us: str, eu: str) -> None:
    kitchen.recipe("pot", dish(line))
    assert kitchen.recipe_facts("pot")["contains"] == [us]
    found = kitchen.household(*EU).recipe_facts("pot")["contains"]
    assert len(found) == 1 and found[0].startswith(eu)


FOODS = """\
- {name: nut mix, contains: [tree nuts (almonds), tree nuts (walnuts)]}
- {name: nut dust, contains: [], may contain: [tree nuts (almonds)]}
- {name: some nuts, contains: [tree nuts]}
- {name: plain thing, contains: []}
- {name: odd thing}
- {name: pale cod, contains: [fish (cod)]}
"""


@pytest.mark.parametrize(
    ("bans", "line", "found"),
    [
        ("tree nuts (almonds)", "30 g nut mix", ["banned-at-place"]),
        ("tree nuts (almonds)", "30 g almonds", ["banned-at-place"]),
        ("tree nuts (almonds)", "30 g walnuts", []),
        ("tree nuts (almonds)", "30 g nut dust", ["may-contain"]),
        ("tree nuts (walnuts)", "30 g nut dust", []),
        ("tree nuts (almonds)", "30 g some nuts", ["banned-at-place"]),  # the kind is left open: the careful answer
        ("tree nuts", "30 g nut dust", ["may-contain"]),
        ("nuts (almonds)", "30 g nut mix", ["banned-at-place"]),
        ("fish (salmon)", "30 g pale cod", []),
        ("fish (cod)", "30 g pale cod", ["banned-at-place"]),
        ("fish", "30 g pale cod", ["banned-at-place"]),
        ("cereals containing gluten", "30 g pearled barley", ["banned-at-place"]),
        ("cereals containing gluten (oats)", "30 g rolled oats", ["banned-at-place"]),
        ("cereals containing gluten (oats)", "30 g pearled barley", []),
        ("molluscs", "30 g mussels", ["banned-at-place"]),
        ("mustard", "30 g mustard", ["banned-at-place"]),
        ("milk", "30 g plain thing", []),
        ("milk", "30 g odd thing", ["allergens-not-known"]),
        ("milk", "30 g zzyzx", ["unknown-food", "allergens-not-known"]),
    ],
)
def test_bans_by_kind_and_by_either_list(kitchen: Kitchen, bans: str, line: str, found: list[str]) -> None:
    kitchen.household("bans: [peanuts, tree nuts]", f"bans: [{bans}]").file("foods.yaml", FOODS)
    kitchen.recipe("pot", dish(line))
    problems = kitchen.week(plan("lunch: pot, for: Bea, on: mon")).check()
    assert sorted(codes(problems)) == sorted(found)


@pytest.mark.parametrize(
    ("list_of", "avoids", "line", "found"),
    [
        ("us", "tree nuts (almonds)", "30 g nut mix", ["avoided-food"]),
        ("us", "tree nuts (almonds)", "30 g walnuts", []),
        ("us", "tree nuts (almonds)", "30 g some nuts", ["avoided-food"]),
        ("us", "walnuts", "30 g nut mix", ["avoided-food"]),
        ("us", "fish (salmon)", "30 g pale cod", []),
        ("eu", "cereals containing gluten", "30 g all-purpose flour", ["avoided-food"]),
        ("eu", "cereals containing gluten", "30 g pearled barley", ["avoided-food"]),
        ("eu", "celery", "30 g celery", ["avoided-food"]),
        ("eu", "molluscs", "30 g mussels", ["avoided-food"]),
        ("us", "wheat", "30 g pearled barley", []),
        ("us", "barley", "30 g pearled barley", ["avoided-food"]),  # a food by its name
        ("us", "plain thing", "30 g plain thing", ["avoided-food"]),
        ("us", "milk", "30 g nut dust", []),
    ],
)
def test_avoidances_by_kind_and_by_food(
    kitchen: Kitchen, list_of: str, avoids: str, line: str, found: list[str]
) -> None:
    kitchen.household("time zone", f"allergen list: {list_of}\ntime zone").file(
        "foods.yaml", FOODS if list_of == "us" else FOODS.replace("tree nuts", "nuts")
    )
    kitchen.household("{name: Tomas,", f"{{name: Tomas, avoids: [{avoids}],")
    problems = kitchen.recipe("pot", dish(line)).week(plan("lunch: pot, for: Tomas, on: mon, at: home")).check()
    assert codes(problems) == found


def test_one_problem_for_each_eater_that_avoids_it(kitchen: Kitchen) -> None:
    kitchen.household("- name: Ilka\n", "- name: Ilka\n    avoids: [milk, eggs]\n").household(
        "{name: Bea,", "{name: Bea, avoids: [milk],"
    )
    problems = kitchen.recipe("pot", dish("20 g butter")).week(plan("dinner: pot, for: everyone, on: mon-tue")).check()
    assert codes(problems) == ["avoided-food"] * 2
    assert [("Ilka" in p["message"], "Bea" in p["message"]) for p in problems] in (
        [(True, False), (False, True)],
        [(False, True), (True, False)],
    )


def test_an_avoided_food_from_stock(kitchen: Kitchen) -> None:
    """What is eaten from the freezer is checked as well."""
    kitchen.household("{name: Tomas,", "{name: Tomas, avoids: [milk],").recipe(
        "stew", dish("20 g butter", title="Stew")
    )
    kitchen.file("stock.yaml", "freezer:\n  - 1 portion stew, made 2026-06-01\n")
    problems = kitchen.week(
        plan("lunch: stew, for: Tomas, on: mon, at: home", prep="", more="already: [1 portion stew]\n")
    ).check()
    assert codes(problems) == ["avoided-food"]


def test_an_undated_portion_of_what_is_avoided(kitchen: Kitchen) -> None:
    kitchen.household("{name: Tomas,", "{name: Tomas, avoids: [milk],").recipe("pot", dish("20 g butter"))
    problems = kitchen.week(plan("snack: pot, for: Tomas, portions: 3, at: home")).check()
    assert [(p["code"], p["line"]) for p in problems] == [("avoided-food", 6)]


def test_recipe_facts_name_what_is_not_known_once(kitchen: Kitchen) -> None:
    kitchen.file("foods.yaml", FOODS)
    kitchen.recipe("base", dish("9 g odd thing", "9 g nut dust", title="Base"))
    facts = kitchen.recipe("pot", dish("1 portion recipe: base", "9 g odd thing", "9 g nut mix")).recipe_facts("pot")
    assert facts["not_known"] == ["odd thing"]
    assert sorted(facts["contains"]) == ["tree nuts (almonds)", "tree nuts (walnuts)"]
    # What is contained need not be said again as what may be; if it is, the word is the list's.
    assert set(facts["may_contain"]) <= {"tree nuts (almonds)"}


# ---- tallies ----


@pytest.mark.parametrize(
    ("steps", "portions", "count", "exact"),
    [
        ("{1/2 portion: 1, 1 portion: 2}", "0.5", 1, True),
        ("{1/2 portion: 1, 1 portion: 2}", "0.75", 1, False),
        ("{1 portion: 1, 2 portions: 3}", "3", 3, False),  # above the last step
        ("{1 portion: 1, 2 portions: 3}", "0.5", 0, False),  # below the first
        ("{2 portions: 3, 1 portion: 1}", "2", 3, True),  # steps in any order
        ("{1 portion: 0, 3 portions: 1}", "1", 0, True),
        ("{1 portion: 0.5, 2 portions: 1.5}", "2", 1.5, True),
        ("{1 portion: 2}", "1", 2, True),
    ],
)
def test_a_recipes_own_steps(kitchen: Kitchen, steps: str, portions: str, count: float, exact: bool) -> None:
    kitchen.recipe("pot", dish("50 g carrots", more=f"tallies: {{veg: {steps}}}\n"))
    facts = kitchen.week(plan(f"lunch: pot, for: Tomas, on: mon, at: home, portions: {portions}")).facts()
    serving, total = facts["servings"][0], facts["day_totals"][0]
    assert serving["tallies"] == {"veg": count} and total["tallies"] == {"veg": count}
    assert ("veg" in serving["at_least"]) != exact and ("veg" in total["at_least"]) != exact
    assert codes(facts["problems"]) == ([] if exact else ["tally-step"])


def test_tallies_of_a_day_add_up_and_meet_an_at_most(kitchen: Kitchen) -> None:
    """Lunch 2 portions count 3, dinner 1 counts 1: 4. Tomas has at most 4, Bea at most 3."""
    kitchen.household("{name: Tomas,", "{name: Tomas, tallies: {veg: 4},").household(
        "{name: Bea,", "{name: Bea, tallies: {veg: 3},"
    )
    kitchen.recipe("pot", dish("50 g carrots", more="tallies: {veg: {1 portion: 1, 2 portions: 3}}\n"))
    meals = ("lunch: pot, for: [Tomas, Bea], on: mon, at: home, portions: 2", "dinner: pot, for: [Tomas, Bea], on: mon")
    totals = kitchen.week(plan(*meals)).facts()["day_totals"]
    assert by(totals, "tallies", "eater") == {"Tomas": {"veg": 4}, "Bea": {"veg": 4}}
    assert by(totals, "aims", "eater") == {
        "Tomas": [{"name": "veg", "aim": "at most 4", "reached": True}],
        "Bea": [{"name": "veg", "aim": "at most 3", "reached": False}],
    }


def test_a_tally_of_a_range_is_at_least_its_lower_step(kitchen: Kitchen) -> None:
    """50-70 g, counted 0 at 30 g, 1 at 60 g: at least 0 (or 0 to 1, never 1)."""
    kitchen.file("foods.yaml", "- {name: red leaf, contains: [], tallies: {veg: {30 g: 0, 60 g: 1}}}\n")
    facts = (
        kitchen.recipe("pot", dish("50-70 g red leaf")).week(plan("lunch: pot, for: Tomas, on: mon, at: home")).facts()
    )
    serving = facts["servings"][0]
    assert serving["tallies"]["veg"] == 0 and "veg" in serving["at_least"]


def test_tallies_of_a_recipe_part_by_its_own_steps(kitchen: Kitchen) -> None:
    """Half of the base's two portions: one portion of it counts 2."""
    kitchen.recipe(
        "base",
        dish("50 g carrots", makes="2 portions", title="Base", more="tallies: {veg: {1 portion: 2, 2 portions: 5}}\n"),
    )
    kitchen.recipe("pot", dish("1 portion recipe: base"))
    facts = kitchen.week(plan("lunch: pot, for: Tomas, on: mon, at: home")).facts()
    assert facts["servings"][0]["tallies"] == {"veg": 2}


# ---- aims over ranges and lower bounds ----

BEANS = (
    "- {name: star bean, contains: [], label: {serving: 100 g, energy: 300 kcal, protein: 20 g, sodium: 100 mg}}\n"
    "- {name: moon leaf, contains: []}\n"
)


@pytest.mark.parametrize(
    ("aim", "line", "reached"),
    [
        # 100-150 g: 300 to 450 kcal.
        ("energy: at least 300 kcal", "100-150 g star bean", True),
        ("energy: at least 301 kcal", "100-150 g star bean", None),
        ("energy: at least 451 kcal", "100-150 g star bean", False),
        ("energy: at most 450 kcal", "100-150 g star bean", True),
        ("energy: at most 400 kcal", "100-150 g star bean", None),
        ("energy: at most 299 kcal", "100-150 g star bean", False),
        ("energy: 380 kcal", "100-150 g star bean", None),  # 342 to 418
        ("energy: 600 kcal", "100-150 g star bean", False),  # from 540
        ("energy: 370 kcal", "115-130 g star bean", True),  # 345 to 390 within 333 to 407
        ("energy: at least 1255 kJ", "100 g star bean", True),  # 299.9 kcal
        ("energy: at least 1260 kJ", "100 g star bean", False),  # 301.1 kcal
        ("sodium: at most 0.1 g", "100 g star bean", True),
        ("protein: at least 20000 mg", "100 g star bean", True),
        ("fat: at most 1 g", "100 g star bean", None),  # no figure at all
    ],
)
def test_aims(kitchen: Kitchen, aim: str, line: str, reached: bool | None) -> None:
    kitchen.household("{name: Tomas,", f"{{name: Tomas, aims: {{{aim}}},").file("foods.yaml", BEANS).recipe(
        "pot", dish(line)
    )
    facts = kitchen.week(plan("lunch: pot, for: Tomas, on: mon, at: home")).facts()
    assert [a["reached"] for a in facts["day_totals"][0]["aims"]] == [reached]


def test_a_lower_bound_reaches_the_whole_day_and_no_other(kitchen: Kitchen) -> None:
    """Monday's lunch has a leaf without figures; breakfast on both days has not."""
    kitchen.household("{name: Tomas,", "{name: Tomas, aims: {energy: at least 700 kcal, protein: at most 30 g},").file(
        "foods.yaml", BEANS
    )
    kitchen.recipe("pot", dish("100 g star bean", "10 g moon leaf")).recipe("mash", dish("100 g star bean", title="M"))
    meals = ("breakfast: mash, for: [Tomas, Bea], on: mon-tue", "lunch: pot, for: Tomas, on: mon, at: home")
    totals = kitchen.week(plan(*meals)).facts()["day_totals"]
    monday = only(totals, eater="Tomas", date=day(8))
    assert monday["nutrients"]["energy_kcal"] == pytest.approx(600) and "energy_kcal" in monday["at_least"]
    assert {a["name"]: a["reached"] for a in monday["aims"]} == {"energy": None, "protein": False}  # 40 g and more
    tuesday = only(totals, eater="Tomas", date=day(9))
    assert {a["name"]: a["reached"] for a in tuesday["aims"]} == {"energy": False, "protein": True}
    bea = only(totals, eater="Bea", date=day(8))
    assert "energy_kcal" not in bea["at_least"] and bea["aims"] == []


def test_no_data_at_another_size(kitchen: Kitchen) -> None:
    """Scenario 4 with other numbers: 900 kcal known in 6 portions, 30 g of a leaf without figures: at least 150."""
    kitchen.file("foods.yaml", BEANS).recipe("pot", dish("300 g star bean", "30 g moon leaf", makes="6 portions"))
    facts = kitchen.week(plan("lunch: pot, for: Tomas, on: mon, at: home, portions: 1.5")).facts()
    assert kitchen.read("site/recipes/pot/facts.json")["per_portion"]["nutrients"]["energy_kcal"] == pytest.approx(150)
    for row in (facts["servings"][0], facts["day_totals"][0]):
        assert row["nutrients"]["energy_kcal"] == pytest.approx(225)
        assert "energy_kcal" in row["at_least"] and row["missing"]["energy_kcal"] == ["moon leaf"]
    # 25 kcal/100 g: 7.5 kcal in 30 g; 907.5 / 6 = 151.25 a portion.
    known = BEANS.replace(
        "moon leaf, contains: []", "moon leaf, contains: [], label: {serving: 100 g, energy: 25 kcal}"
    )
    kitchen.file("foods.yaml", known)
    found = kitchen.recipe_facts("pot")["per_portion"]
    assert found["nutrients"]["energy_kcal"] == pytest.approx(151.25) and "energy_kcal" not in found["at_least"]


@pytest.mark.parametrize("word", ["celery", "oats", "mustard", "molluscs"])
def test_a_pack_read_by_one_list_does_not_tell_of_the_others_words(kitchen: Kitchen, word: str) -> None:
    """The household's own food, read by the US list; the table's foods are recorded by both."""
    kitchen.household("{name: Tomas,", f"{{name: Tomas, avoids: [{word}],").file("foods.yaml", FOODS)
    kitchen.recipe("pot", dish("30 g plain thing")).recipe("mash", dish("30 g carrots", title="Mash"))
    meals = ("lunch: pot, for: Tomas, on: mon, at: home", "lunch: mash, for: Tomas, on: tue, at: home")
    problem = only(kitchen.week(plan(*meals)).check(), code="allergens-not-known")
    assert problem["line"] == 6 and "plain thing" in problem["message"] and word in problem["message"]


@pytest.mark.parametrize("at_service", [False, True])
def test_a_word_of_the_other_list_is_found_in_a_part(kitchen: Kitchen, at_service: bool) -> None:
    kitchen.household("{name: Tomas,", "{name: Tomas, avoids: [celery],").recipe(
        "base", dish("30 g celery", title="Base")
    )
    line = "1 portion recipe: base"
    kitchen.recipe("pot", dish(more=f"at service:\n  - {line}\n") if at_service else dish(line))
    assert codes(kitchen.week(plan("lunch: pot, for: Tomas, on: mon, at: home")).check()) == ["avoided-food"]
