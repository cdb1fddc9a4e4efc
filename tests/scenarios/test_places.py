"""Where it is eaten: reheating, what a place bans, what an eater avoids, what has to be carried."""

from __future__ import annotations

import pytest

from tests.kitchen import Kitchen, codes, only
from tests.scenarios.dishes import SUNDAY_AND_WEDNESDAY, by, day, dish, plan


def reheated(kitchen: Kitchen, reheat: str, meal: str) -> dict:
    kitchen.recipe("pot", dish(more=f"reheat:\n{reheat}"))
    return kitchen.week(plan(meal)).facts()


WARD = "lunch: pot, for: Tomas, on: mon"
HOME = "lunch: pot, for: Tomas, on: mon, at: home"
BOTH = "  - oven 350 F, 20 min\n  - microwave 1000 W, 2 min, covered\n"


@pytest.mark.parametrize(
    ("meal", "means", "seconds"),
    [(HOME, "oven", 1200), (WARD, "microwave", 175)],  # 120 x 1000 / 700 = 171.4
)
def test_the_first_line_that_the_place_can_do(kitchen: Kitchen, meal: str, means: str, seconds: int) -> None:
    found = reheated(kitchen, BOTH, meal)["servings"][0]["reheat"]
    assert (found["means"], found["seconds"]) == (means, seconds)


@pytest.mark.parametrize(
    ("line", "watts", "seconds"),
    [
        ("microwave 1000 W, 1 min 10 s", 700, 100),  # exactly 100
        ("microwave 800 W, 2 min 30 s", 700, 175),  # 171.4
        ("microwave 700 W, 2 min 32 s", 700, 152),  # the same oven: as written
        ("microwave 500 W, 5 min", 700, 215),  # 214.3: more power takes less
        ("microwave 1000 W, 3 min 30 s", 700, 300),  # exactly 300
        ("microwave 1000 W, 3 min 31 s", 700, 305),  # 301.4
    ],
)
def test_power_conversion_goes_up_to_the_next_five_seconds(
    kitchen: Kitchen, line: str, watts: int, seconds: int
) -> None:
    found = reheated(kitchen, f"  - {line}\n", WARD)["servings"][0]["reheat"]
    assert (found["watts"], found["seconds"]) == (watts, seconds)


def test_a_recipes_own_lines_stay_as_written(kitchen: Kitchen) -> None:
    reheated(kitchen, BOTH, WARD)
    lines = kitchen.read("site/recipes/pot/facts.json")["reheat"]
    assert [(r["means"], r["watts"], r["seconds"], r["text"]) for r in lines] == [
        ("oven", None, 1200, "oven 350 F, 20 min"),
        ("microwave", 1000, 120, "microwave 1000 W, 2 min, covered"),
    ]


def test_no_reheat_is_eaten_as_it_is_anywhere(kitchen: Kitchen) -> None:
    facts = kitchen.recipe("pot", dish()).week(plan("lunch: pot, for: Ilka, on: mon")).facts()
    assert facts["problems"] == [] and facts["servings"][0]["reheat"] is None


def test_cold_is_the_last_resort_in_the_order_written(kitchen: Kitchen) -> None:
    both = "  - microwave 1000 W, 2 min\n  - cold\n"
    meals = "lunch: pot, for: [Ilka, Tomas], on: mon"
    assert by(reheated(kitchen, both, meals)["servings"], "reheat", "eater")["Ilka"]["means"] == "cold"
    assert by(kitchen.facts()["servings"], "reheat", "eater")["Tomas"]["means"] == "microwave"


def test_each_eater_that_cannot_reheat_is_named_with_its_days(kitchen: Kitchen) -> None:
    problems = reheated(kitchen, "  - microwave 1000 W, 2 min\n", "lunch: pot, for: everyone, on: [mon, wed]")[
        "problems"
    ]
    assert codes(problems) == ["cannot-reheat"] * 2  # the van and the school
    for problem, eater, place in zip(problems, ("Bea", "Ilka"), ("school", "survey van"), strict=True):
        assert problem["line"] == 6
        for word in (eater, place, "Monday 8", "Wednesday 10"):
            assert word in problem["message"]


NUTS = """\
- {name: trail bits, contains: [tree nuts (almonds)]}
- {name: oat bits, contains: [], may contain: [peanuts]}
- {name: odd bits}
"""


@pytest.mark.parametrize(
    ("line", "place", "found"),
    [
        ("30 g trail bits", "", ["banned-at-place"]),
        ("30 g almonds", "", ["banned-at-place"]),
        ("30 g trail bits", ", at: home", []),
        ("30 g oat bits", "", ["may-contain"]),
        ("30 g odd bits", "", ["allergens-not-known"]),
        ("30 g odd bits", ", at: home", []),
        ("30 g butter", "", []),
    ],
)
def test_what_a_place_does_not_allow(kitchen: Kitchen, line: str, place: str, found: list[str]) -> None:
    """The school bans peanuts and tree nuts."""
    kitchen.file("foods.yaml", NUTS).recipe("pot", dish(line))
    problems = kitchen.week(plan(f"lunch: pot, for: Bea, on: mon{place}")).check()
    assert codes(problems) == found
    assert [p["severity"] for p in problems] == ["error" if c == "banned-at-place" else "warning" for c in found]


def test_a_ban_counts_for_what_is_added_at_service_and_in_a_part(kitchen: Kitchen) -> None:
    kitchen.recipe("base", dish("60 g peanuts", makes="2 portions", title="Base"))
    kitchen.recipe("one", dish("1 portion recipe: base", title="One"))
    kitchen.recipe("two", dish(title="Two", more="at service:\n  - 5 g peanuts\n"))
    kitchen.week(plan("lunch: one, for: Bea, on: mon", "lunch: two, for: Bea, on: tue"))
    problems = kitchen.check()
    assert [(p["code"], p["line"]) for p in problems] == [("banned-at-place", 6), ("banned-at-place", 7)]


def test_a_ban_in_the_words_of_the_other_list(kitchen: Kitchen) -> None:
    kitchen.household("bans: [peanuts, tree nuts]", "bans: [nuts]").recipe("pot", dish("30 g walnuts"))
    assert "banned-at-place" in codes(kitchen.week(plan("lunch: pot, for: Bea, on: mon")).check())


def test_a_ban_that_only_the_other_list_knows(kitchen: Kitchen) -> None:
    kitchen.household("bans: [peanuts, tree nuts]", "bans: [celery]").recipe("pot", dish("30 g celery"))
    problems = kitchen.week(plan("lunch: pot, for: Bea, on: mon")).check()
    assert [(p["code"], p["line"]) for p in problems if p["severity"] == "error"] == [("banned-at-place", 6)]


@pytest.mark.parametrize(
    ("avoids", "line", "found"),
    [
        ("milk", "30 g butter", ["avoided-food"]),
        ("peanuts", "30 g oat bits", ["may-contain"]),
        ("milk", "30 g odd bits", ["allergens-not-known"]),
        ("tree nuts", "30 g trail bits", ["avoided-food"]),
        ("almonds", "30 g almonds", ["avoided-food"]),
        ("fish", "100 g salmon", ["avoided-food"]),
        ("shallots", "100 g onions", []),
        ("onions", "100 g onions", ["avoided-food"]),
        ("butter", "30 g peanut butter", []),
    ],
)
def test_what_an_eater_avoids(kitchen: Kitchen, avoids: str, line: str, found: list[str]) -> None:
    kitchen.household("{name: Tomas,", f"{{name: Tomas, avoids: [{avoids}],").file("foods.yaml", NUTS)
    problems = kitchen.recipe("pot", dish(line)).week(plan(HOME)).check()
    assert codes(problems) == found
    assert all(p["line"] == 6 and "Tomas" in p["message"] for p in problems)


# What belongs to a kind is a closed list of the tables; one dish that holds it and one that looks like it.
@pytest.mark.parametrize(
    ("avoids", "held", "left"),
    [
        ("alcohol", "1/2 cup red wine", "2 tbsp red wine vinegar"),
        ("alcohol", "1 tsp vanilla extract", "1 cup ginger ale"),
        ("meat", "500 ml chicken stock", "400 g coconut milk"),
        ("meat", "2 slices prosciutto", "200 g smoked tofu"),
        ("red meat", "1 lb ground bison", "1 lb ground turkey"),
        ("red meat", "500 ml hot lamb stock", "500 ml vegetable stock"),
        ("pork", "100 g pancetta", "100 g turkey bacon"),
        ("poultry", "2 tbsp duck fat", "1 duck egg"),
        ("seafood", "1 tbsp oyster sauce", "200 g oyster mushrooms"),
        ("seafood", "1 tbsp Worcestershire sauce", "1 tbsp soy sauce"),
        ("citrus", "zest of 1 lemon", "1 stalk lemongrass"),
        ("citrus fruits", "1 tbsp marmalade", "100 g orange lentils"),
        ("legumes", "100 g green beans", "1 vanilla bean"),
        ("pulses", "2 tbsp peanut butter", "30 g pecans"),
        ("nightshades", "1 tsp paprika", "1 tsp black pepper"),
        ("nightshade", "2 tbsp ketchup", "300 g sweet potato"),
        ("liver", "100 g chicken livers", "100 g chicken breast"),
        ("organ meats", "200 g beef kidney", "200 g canned kidney beans"),
        ("game", "400 g diced venison", "400 g stewing beef"),
        ("tomatoes", "2 tbsp tomato paste", "2 tomatillos"),
        ("cherries", "100 g cherries", "100 g cherry tomatoes"),
        ("onions", "1 tsp onion powder", "2 tbsp olive oil for the onions"),
        ("meat", "500 ml lamb stock", "2 tbsp vegetable oil to fry the steak"),
    ],
)
def test_a_kind_of_food_is_kept_away(kitchen: Kitchen, avoids: str, held: str, left: str) -> None:
    kitchen.household("{name: Tomas,", f"{{name: Tomas, avoids: [{avoids}],").week(plan(HOME))
    problem = only(kitchen.recipe("pot", dish(held)).check(), code="avoided-food")
    assert problem["line"] == 6 and f"Tomas avoids {avoids}" in problem["message"]
    assert "avoided-food" not in codes(kitchen.recipe("pot", dish(left)).check())


def test_a_kind_is_found_in_a_part_and_gone_with_a_substitution(kitchen: Kitchen) -> None:
    kitchen.household("{name: Tomas,", "{name: Tomas, avoids: [meat],")
    kitchen.recipe("base", dish("100 ml beef stock", title="Base"))
    kitchen.recipe("pot", dish("1 portion recipe: base", "60 g bacon")).week(plan(HOME))
    problem = only(kitchen.check(), code="avoided-food")
    assert "bacon" in problem["message"] and "beef broth" in problem["message"]
    kitchen.recipe("base", dish("100 ml vegetable stock", title="Base"))
    swap = "substitutions:\n  - {in: pot, for: Tomas, use: 60 g smoked tofu, instead of: bacon}"
    assert "avoided-food" not in codes(kitchen.week(plan(HOME, more=swap)).check())


def test_a_kind_with_allergens_asks_for_the_record(kitchen: Kitchen) -> None:
    kitchen.household("{name: Tomas,", "{name: Tomas, avoids: [seafood],").week(plan(HOME))
    kitchen.file("foods.yaml", "- {name: odd bits}\n- {name: mild bits, contains: [], may contain: [fish]}\n")
    assert codes(kitchen.recipe("pot", dish("30 g odd bits")).check()) == ["allergens-not-known"]
    assert codes(kitchen.recipe("pot", dish("30 g mild bits")).check()) == ["may-contain"]


def test_a_serving_names_what_it_contains_may_contain_and_is_not_known_for(kitchen: Kitchen) -> None:
    kitchen.file("foods.yaml", NUTS).recipe("pot", dish("9 g trail bits", "9 g oat bits", "9 g odd bits", "9 g butter"))
    serving = kitchen.week(plan(HOME)).facts()["servings"][0]
    assert serving["contains"] == ["milk", "tree nuts (almonds)"]
    assert (serving["may_contain"], serving["not_known"]) == (["peanuts"], ["odd bits"])


def test_the_fourteen_of_the_other_list(kitchen: Kitchen) -> None:
    kitchen.household("time zone", "allergen list: eu\ntime zone").recipe("pot", dish("50 g celery", "20 g mustard"))
    contains = kitchen.recipe_facts("pot")["contains"]
    assert "celery" in contains and "mustard" in contains


def test_a_food_that_is_avoided_is_found_in_a_part_of_a_part(kitchen: Kitchen) -> None:
    kitchen.household("{name: Tomas,", "{name: Tomas, avoids: [carrots],")
    kitchen.recipe("base", dish("60 g carrots", title="Base"))
    kitchen.recipe("mid", dish("1 portion recipe: base", title="Mid"))
    kitchen.recipe("pot", dish("1 portion recipe: mid")).week(plan(HOME))
    problem = only(kitchen.check(), code="avoided-food")
    assert "carrot" in problem["message"] and problem["line"] == 6


def test_a_ban_of_the_other_list_is_found_in_a_part(kitchen: Kitchen) -> None:
    kitchen.household("bans: [peanuts, tree nuts]", "bans: [celery]")
    kitchen.recipe("base", dish("60 g celery", title="Base")).recipe("pot", dish("1 portion recipe: base"))
    assert "banned-at-place" in codes(kitchen.week(plan("lunch: pot, for: Bea, on: mon")).check())


# ---- carrying ----


@pytest.mark.parametrize(
    ("keeps", "meal", "cold"),
    [
        ("keeps: soups and stews\n", "lunch: pot, for: Ilka, on: mon", True),  # a van without a refrigerator
        ("keeps: soups and stews\n", WARD, False),  # the ward has one
        ("keeps: crackers and dry biscuits\n", "lunch: pot, for: Ilka, on: mon", False),  # dry
        ("keeps: {fridge: 1 day}\n", "lunch: pot, for: Ilka, on: thu", True),  # frozen, thawed since Wednesday
        ("keeps: crackers and dry biscuits\nat service:\n  - 30 g ricotta\n", "lunch: pot, for: Ilka, on: mon", True),
    ],
)
def test_a_cold_source_where_it_is_needed(kitchen: Kitchen, keeps: str, meal: str, cold: bool) -> None:
    facts = kitchen.recipe("pot", dish(more=keeps)).week(plan(meal)).facts()
    assert [row["cold"] for row in facts["carry_list"]] == [cold]


def test_hot_in_a_flask_needs_no_cold_source(kitchen: Kitchen) -> None:
    facts = reheated(kitchen, "  - flask, filled boiling hot\n", "lunch: pot, for: Ilka, on: mon")
    assert facts["carry_list"][0]["cold"] is False


def test_what_is_eaten_at_home_is_not_carried(kitchen: Kitchen) -> None:
    facts = reheated(kitchen, BOTH, HOME)
    assert facts["carry_list"] == []


def test_one_row_for_each_day_eater_and_place(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish(title="Pot", more="portion: 300 g\n")).recipe("pear", dish("1 pear", title="Pear"))
    meals = ("lunch: pot, for: [Tomas, Bea], on: mon-tue", "snack: pear, for: Tomas, on: mon, at: ward")
    rows = kitchen.week(plan(*meals)).facts()["carry_list"]
    assert [(r["date"], r["eater"], r["place"]) for r in rows] == [
        (day(8), "Tomas", "ward"), (day(8), "Bea", "school"), (day(9), "Tomas", "ward"), (day(9), "Bea", "school"),
    ]  # fmt: skip
    monday = {item["what"]: item for item in rows[0]["items"]}
    assert monday["Pot"]["amount"] == {"amount": 300, "unit": "g"} and "Pear" in monday


@pytest.mark.parametrize(
    ("line", "place"),
    [
        ("lunch: pot, for: Tomas, on: mon", "ward"),
        ("dinner: pot, for: Tomas, on: mon", "home"),
        ("lunch: pot, for: Tomas, on: mon, at: school", "school"),
    ],
)
def test_the_place_is_the_lines_else_the_eaters_for_that_meal_else_home(
    kitchen: Kitchen, line: str, place: str
) -> None:
    facts = kitchen.recipe("pot", dish("100 g rice")).week(plan(line)).facts()
    assert facts["servings"][0]["place"] == place


def test_the_pull_list_by_evening(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish(more="keeps: {fridge: 2 days}\n"))
    facts = kitchen.week(plan("lunch: pot, for: [Tomas, Bea], on: wed-thu, at: home")).facts()
    rows = [(p["pull_on"], p["date"], p["eater"], p["portions"], p["from"], p["to"]) for p in facts["pull_list"]]
    assert rows == [
        (day(9), day(10), "Tomas", 1, "freezer", "fridge"),
        (day(9), day(10), "Bea", 1, "freezer", "fridge"),
        (day(10), day(11), "Tomas", 1, "freezer", "fridge"),
        (day(10), day(11), "Bea", 1, "freezer", "fridge"),
    ]


# ---- remedies ----


def written_down(kitchen: Kitchen, remedy: str, week: str) -> list[dict]:
    """The problems once the line that a remedy says is written."""
    line = remedy.split("`")[1]
    assert line.startswith("at: "), line
    return kitchen.week(week.replace("on: mon", f"on: mon, {line}")).check()


def test_the_remedy_of_eating_at_home_works(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish(more='reheat: ["oven 350 F, 20 min"]\n'))
    week = plan("lunch: pot, for: Ilka, on: mon")
    problem = only(kitchen.week(week).check(), code="cannot-reheat")
    remedy = next(r for r in problem["remedies"] if "at: home" in r)
    assert written_down(kitchen, remedy, week) == []


def test_no_remedy_is_offered_that_does_not_work(kitchen: Kitchen) -> None:
    """The only other dish contains milk as well."""
    kitchen.household("{name: Tomas,", "{name: Tomas, avoids: [milk],")
    kitchen.recipe("pot", dish("20 g butter")).recipe("mash", dish("20 g ricotta", title="Mash"))
    problem = only(kitchen.week(plan(HOME)).check(), code="avoided-food")
    assert not any("mash" in remedy for remedy in problem["remedies"])
    kitchen.recipe("mash", dish("20 g rice", title="Mash"))
    problem = only(kitchen.check(), code="avoided-food")
    assert any("mash" in remedy for remedy in problem["remedies"])


def test_an_earlier_day_that_would_break_another_rule_is_not_offered(kitchen: Kitchen) -> None:
    """Too late on Friday; a second session clears it, and the plan of it has no problem."""
    kitchen.recipe("pot", dish(more="keeps: mixed salads\n"))
    week = plan("lunch: pot, for: Tomas, on: thu-fri, at: home")
    problem = only(kitchen.week(week).check(), code="kept-too-long")
    assert problem["remedies"]
    assert kitchen.week(plan("lunch: pot, for: Tomas, on: thu-fri, at: home", prep=SUNDAY_AND_WEDNESDAY)).check() == []
