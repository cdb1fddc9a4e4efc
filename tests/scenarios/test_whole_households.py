"""Whole households in combination, worked by hand: what no single rule shows."""

from __future__ import annotations

import json

import pytest

from tests.kitchen import Kitchen, codes, only
from tests.scenarios.dishes import SUNDAY_AND_WEDNESDAY, by, day, dish, plan

CUP = 236.5882365
KIT = (
    "title: Kit\nform: kit\nmakes: 2 portions\ningredients:\n  Set: [200 g rice]\n  Raw, apart: [400 g cod]\n"
    "keeps: raw lean fish\n"
)

OILISH = "- {name: oilish, contains: [], label: {serving: 100 g, energy: 900 kcal}}\n"
CURDISH = "- {name: curdish, contains: [milk], label: {serving: 100 g, energy: 100 kcal}}\n"

# ---- published examples ----


def test_seven_eggs_of_a_dozen(kitchen: Kitchen) -> None:
    """7 eggs at $4.50 a dozen: $2.63 (a food-service text, recipe costing); a dozen is paid."""
    kitchen.file("foods.yaml", "- {name: hen eggs, contains: [eggs], packs: [{size: 12 each, price: 4.50}]}\n")
    cost = (
        kitchen.recipe("pot", dish("7 hen eggs"))
        .week(plan("lunch: pot, for: Tomas, on: mon, at: home"))
        .facts()["cost"]
    )
    assert (cost["consumed"], cost["to_pay"]) == (pytest.approx(2.625), 4.5)


def test_ten_pounds_of_apples_at_three_quarters(kitchen: Kitchen) -> None:
    """10 lb edible at 75 %: 13.333 lb at 0.56: $7.47 (Vancouver Community College, culinary calculation notes)."""
    kitchen.file("foods.yaml", "- {name: red apples, contains: [], yield: 75 %, packs: [{size: 10 lb, price: 5.60}]}\n")
    facts = (
        kitchen.recipe("pot", dish("10 lb red apples")).week(plan("lunch: pot, for: Tomas, on: mon, at: home")).facts()
    )
    row = only(facts["shopping"], food="red apples")
    assert row["need"]["amount"] == pytest.approx(13.3333 * 453.59237, abs=0.1) and row["packs"] == 2
    assert facts["cost"]["consumed"] == pytest.approx(7.4667, abs=1e-3)


@pytest.mark.parametrize(
    ("line", "grams"), [("3 lb red root", 2041.166), ("1500 g red root", 2250), ("2 1/2 cups red root", 3.75 * 100)]
)
def test_from_ten_to_fifteen(kitchen: Kitchen, line: str, grams: float) -> None:
    """3 lb to 4 lb 8 oz, 1,500 to 2,250 g, 2 1/2 to 3 3/4 cups (Gisslen, Professional Cooking, recipe conversion)."""
    kitchen.file("foods.yaml", "- {name: red root, contains: [], weights: {1 cup: 100 g}}\n")
    facts = (
        kitchen.recipe("pot", dish(line, makes="10 portions"))
        .week(plan("lunch: pot, for: Tomas, at: home, portions: 15"))
        .facts()
    )
    assert only(facts["mise_en_place"], food="red root")["grams"] == pytest.approx(grams, abs=0.01)


# ---- stock ----


def test_what_remains_of_a_lot_is_on_the_use_first_list(kitchen: Kitchen) -> None:
    """Refrigerated 4, 1 eaten: 3 remain, use by Monday 8."""
    kitchen.recipe("stew", dish(title="Stew", more="keeps: soups and stews\n"))
    kitchen.file("stock.yaml", "fridge:\n  - 4 portions stew, made 2026-06-04\n")
    facts = kitchen.week(plan("lunch: stew, for: Tomas, on: mon, at: home", more="already: [1 portion stew]\n")).facts()
    row = only(facts["use_first"], recipe="stew")
    assert (row["amount"]["amount"], row["use_by"], row["place"]) == (3, day(8), "fridge")


def test_a_frozen_lot_past_its_best_remains_on_the_use_first_list(kitchen: Kitchen) -> None:
    kitchen.recipe("stew", dish(title="Stew", more="keeps: soups and stews\n"))
    kitchen.file("stock.yaml", "freezer:\n  - 4 portions stew, made 2026-01-04\n")
    facts = kitchen.week(plan("lunch: stew, for: Tomas, on: mon, at: home", more="already: [1 portion stew]\n")).facts()
    assert codes(facts["problems"]) == ["past-best"]
    row = only(facts["use_first"], recipe="stew")
    assert row["amount"]["amount"] == 3 and row["place"] == "freezer"


def test_lots_of_a_food_first_expired_first_out_over_dishes(kitchen: Kitchen) -> None:
    """Opened Friday 5 (5 days: Wednesday 10) 200 g, best before 13 June 300 g, no date 500 g; Sunday needs 450:
    the opened 200 and 250 of the next; 50 g of it remain until the 13th."""
    kitchen.file("foods.yaml", "- {name: red sauce, contains: [], once opened: 5 days}\n")
    stock = "cupboard:\n  - 500 g red sauce\n  - 300 g red sauce, best before 2026-06-13\n"
    stock += "fridge:\n  - 200 g red sauce, opened 2026-06-05\n"
    kitchen.file("stock.yaml", stock).recipe("pot", dish("450 g red sauce"))
    facts = kitchen.week(plan("lunch: pot, for: Tomas, on: mon, at: home")).facts()
    row = only(facts["shopping"], food="red sauce")
    assert (row["on_hand"]["amount"], row["buy"]["amount"]) == (1000, 0)
    left = [(u["amount"]["amount"], u["use_by"]) for u in facts["use_first"]]
    assert left == [(50, day(13))]


def test_whole_batches_and_stock_and_two_sessions(kitchen: Kitchen) -> None:
    """Whole batches of 3, salad, for Monday to Friday; Monday and Tuesday from stock. Wednesday and Thursday from
    Sunday (3 made, 1 over), Friday from Wednesday (3 made, 2 over)."""
    kitchen.recipe("slaw", dish(title="Slaw", makes="3 portions", more="keeps: mixed salads\nbatch: whole\n"))
    kitchen.file("stock.yaml", "fridge:\n  - 2 portions slaw, made 2026-06-06\n")
    facts = kitchen.week(
        plan(
            "lunch: slaw, for: Tomas, on: mon-fri, at: home",
            prep=SUNDAY_AND_WEDNESDAY,
            more="already: [2 portions slaw]\n",
        )
    ).facts()
    assert facts["problems"] == []
    assert [(b["made_on"], b["portions_needed"], b["portions_made"], b["surplus"]) for b in facts["batches"]] == [
        (day(7), 2, 3, 1), (day(10), 1, 3, 2),
    ]  # fmt: skip
    assert len(facts["labels"]) == 6


# ---- forms ----


def test_a_kit_of_which_half_comes_from_the_freezer(kitchen: Kitchen) -> None:
    kitchen.recipe("kit", KIT).file("stock.yaml", "freezer:\n  - 1 portion kit, made 2026-06-01\n")
    facts = kitchen.week(plan("dinner: kit, for: Tomas, on: mon-tue", more="already: [1 portion kit]\n")).facts()
    assert [s["lot"] for s in facts["servings"]] == ["stock.yaml:2", None]
    assert only(facts["batches"], recipe="kit")["portions_made"] == 1 and facts["problems"] == []


def test_a_substitution_in_a_kits_raw_part(kitchen: Kitchen) -> None:
    """Ilka's cod is tofu: two batches, hers without fish."""
    kitchen.recipe("kit", KIT)
    more = "substitutions:\n  - {in: kit, for: Ilka, use: 300 g tofu, instead of: cod}\n"
    facts = kitchen.week(plan("dinner: kit, for: [Ilka, Tomas], on: tue", more=more)).facts()
    assert by(facts["servings"], "contains", "eater") == {"Ilka": ["soybeans"], "Tomas": ["fish (cod)"]}
    assert sorted(b["portions_made"] for b in facts["batches"]) == [1, 1]
    assert only(facts["shopping"], food="tofu")["need"]["amount"] == pytest.approx(150, abs=1)


def test_what_is_carried_is_the_substitute(kitchen: Kitchen) -> None:
    """4 tbsp for 4, one a portion: Ilka's van gets tahini, Tomas's ward ricotta, 1.5 portions of it."""
    kitchen.recipe(
        "bowl", dish("400 g carrots", makes="4 portions", title="Bowl", more="at service:\n  - 4 tbsp ricotta\n")
    )
    more = "substitutions:\n  - {in: bowl, for: Ilka, use: 4 tbsp tahini, instead of: ricotta}\n"
    facts = kitchen.week(plan("lunch: bowl, for: [Ilka, Tomas], on: mon, portions: {Tomas: 1.5}", more=more)).facts()
    items = {row["eater"]: {i["what"]: i["amount"] for i in row["items"]} for row in facts["carry_list"]}
    assert "ricotta" not in items["Ilka"] and "tahini" not in items["Tomas"]
    assert items["Ilka"]["tahini"] == {"amount": pytest.approx(CUP / 16), "unit": "mL"}
    assert items["Tomas"]["ricotta"] == {"amount": pytest.approx(1.5 * CUP / 16), "unit": "mL"}


def test_a_part_brings_what_it_is_served_with(kitchen: Kitchen) -> None:
    """All of a part is in it: its own line at service and its own share that is eaten."""
    kitchen.file("foods.yaml", OILISH + CURDISH)
    kitchen.recipe(
        "base",
        dish(
            "{item: 200 g oilish, eaten: 10 %}", makes="2 portions", title="Base", more="beside:\n  - 100 g curdish\n"
        ),
    )
    facts = kitchen.recipe("pot", dish("1 portion recipe: base")).recipe_facts("pot")
    assert facts["contains"] == ["milk"]
    assert facts["per_portion"]["nutrients"]["energy_kcal"] == pytest.approx(0.5 * (20 * 9 + 100))


def test_a_range_of_which_a_share_is_eaten(kitchen: Kitchen) -> None:
    """100-200 g for 4, a quarter eaten, 900 kcal/100 g: 6.25 to 12.5 g, 56.25 to 112.5 kcal a portion; bought whole."""
    kitchen.file("foods.yaml", OILISH)
    kitchen.recipe("pot", dish("{item: 100-200 g oilish, eaten: 25 %}", makes="4 portions"))
    facts = kitchen.week(plan("lunch: pot, for: Tomas, on: mon, at: home, portions: 2")).facts()
    assert facts["servings"][0]["nutrients"]["energy_kcal"] == {"low": pytest.approx(112.5), "high": pytest.approx(225)}
    assert only(facts["shopping"], food="oilish")["need"] == {"low": 50, "high": 100, "unit": "g"}
    assert facts["day_totals"][0]["nutrients"]["energy_kcal"] == {
        "low": pytest.approx(112.5),
        "high": pytest.approx(225),
    }


# ---- whose and how many ----


def test_the_same_dish_twice_a_day(kitchen: Kitchen) -> None:
    facts = (
        kitchen.recipe("pot", dish())
        .week(
            plan(
                "lunch: pot, for: Tomas, on: mon, at: home",
                "lunch: pot, for: Tomas, on: mon, at: home",
                "dinner: pot, for: Tomas, on: mon",
            )
        )
        .facts()
    )
    ids = [s["id"] for s in facts["servings"]]
    assert len(ids) == len(set(ids)) == 3
    assert only(facts["batches"], recipe="pot")["portions_made"] == 3


def test_portions_of_someone_who_does_not_eat(kitchen: Kitchen) -> None:
    problems = (
        kitchen.recipe("pot", dish())
        .week(plan("lunch: pot, for: Tomas, on: mon, at: home, portions: {Bea: 2}"))
        .check()
    )
    assert [(p["severity"], p["line"]) for p in problems] == [("error", 6)]


def test_two_meals_in_one_line(kitchen: Kitchen) -> None:
    problems = kitchen.recipe("pot", dish()).week(plan("lunch: pot, dinner: pot, for: Tomas, on: mon")).check()
    assert [(p["severity"], p["line"]) for p in problems] == [("error", 6)]


def test_the_smallest_household(kitchen: Kitchen) -> None:
    """No places, no containers, no zone: home, and nothing to complain of but what is written."""
    kitchen.files["household.yaml"] = "household: One\neaters:\n  - name: Solo\n"
    facts = kitchen.recipe("pot", dish()).week(plan("lunch: pot, for: everyone, on: mon-fri")).facts()
    assert facts["problems"] == [] and {s["place"] for s in facts["servings"]} == {"home"}
    assert {s["container"] for s in facts["servings"]} == {None} and len(facts["labels"]) == 5
    assert [s["kept"] for s in facts["servings"]] == ["fridge"] * 4 + ["freezer"]
    assert facts["cost"]["currency"] and facts["labels_next_free"] == 6


def test_home_needs_what_is_needed_there(kitchen: Kitchen) -> None:
    kitchen.household(", kettle, 2 cutting boards", ", 2 cutting boards")
    kitchen.recipe("pot", dish(form="assemble", more="needs: [kettle]\n"))
    assert codes(kitchen.week(plan("dinner: pot, for: Tomas, on: mon")).check()) == ["cannot-finish"]


# ---- pieces ----


def test_pieces_as_portions(kitchen: Kitchen) -> None:
    """24 pieces in portions of 3: 8; two portions are a quarter of the recipe."""
    kitchen.recipe("buns", dish("800 g carrots", makes="24 each", title="Buns", more="portion: 3 each\n"))
    facts = kitchen.week(plan("snack: buns, for: Bea, on: mon-tue, at: home")).facts()
    recipe = kitchen.read("site/recipes/buns/facts.json")
    assert (recipe["portions"], recipe["portion"]) == (8, {"amount": 3.0, "unit": "each"})
    batch = only(facts["batches"], recipe="buns")
    assert (batch["factor"], batch["portions_made"]) == (0.25, 2) and facts["servings"][0]["grams"] == pytest.approx(
        100
    )


@pytest.mark.parametrize(
    ("makes", "portion", "portions"),
    [
        ("6 cups", "1 1/2 cup", 4),
        ("1.5 L", "300 mL", 5),
        ("2 lb", "4 oz", 8),
        ("600 g", "150 g", 4),
        ("1 quart", "1 cup", 4),
        ("1 kg", "1 lb", 1000 / 453.59237),
    ],
)
def test_portions_from_what_it_makes(kitchen: Kitchen, makes: str, portion: str, portions: float) -> None:
    facts = kitchen.recipe("pot", dish(makes=makes, more=f"portion: {portion}\n")).recipe_facts("pot")
    assert facts["portions"] == pytest.approx(portions)


# ---- labels of the pack ----


@pytest.mark.parametrize(
    ("label", "energy", "sodium"),
    [
        ("serving: 30 g, energy: 120 kcal, sodium: 180 mg", 400, 600),
        ("serving: 1 oz, energy: 100 kcal", 100 / 28.349523125 * 100, None),
        ("serving: 100 g, energy: 1674 kJ, salt: 1.5 g", 400, 600),  # 4.184 kJ a kcal; salt is sodium x 2.5
        ("serving: 1 cup, energy: 240 kcal, sodium: 0.3 g", 400, 500),  # 60 g a cup
        ("serving: 2 each, energy: 40 kcal, sodium: 0 mg", 400, 0),  # 5 g each
    ],
)
def test_labels_per_what_they_say(kitchen: Kitchen, label: str, energy: float, sodium: float | None) -> None:
    kitchen.file(
        "foods.yaml",
        f"- {{name: thin thing, contains: [], weights: {{1 cup: 60 g, 1 each: 5 g}}, label: {{{label}}}}}\n",
    )
    found = kitchen.recipe("pot", dish("100 g thin thing")).recipe_facts("pot")["per_portion"]["nutrients"]
    assert found["energy_kcal"] == pytest.approx(energy, rel=1e-3)
    assert found["sodium_mg"] == (None if sodium is None else pytest.approx(sodium, abs=0.5))


@pytest.mark.parametrize(
    ("weights", "line", "grams"),
    [
        ("1 dl: 60 g", "2 dl thing", 120), ("1 dl: 60 g", "1 cup thing", 60 * CUP / 100),
        ("1 cup: 60 g", "1 dl thing", 60 / CUP * 100),
        ("1 L: 500 g", "1 dl thing", 50), ("250 mL: 100 g", "1 dl thing", 40), ("1 tbsp: 15 g", "3 tsp thing", 15),
        ("1 fl oz: 30 g", "1 cup thing", 240), ("2 tbsp: 30 g", "1 tbsp thing", 15),
        ("1 cup chopped: 80 g", "1 cup thing, chopped", 80),
        ("1 each: 40 g", "3 things", 120), ("1 large: 60 g, 1 small: 30 g", "2 large things", 120),
        ("1/4 cup: 30 g", "1 cup thing", 120),
        ("1 slice: 25 g", "4 slices thing", 100),
    ],
)  # fmt: skip
def test_the_households_own_scale(kitchen: Kitchen, weights: str, line: str, grams: float) -> None:
    kitchen.file("foods.yaml", f"- {{name: thing, synonyms: [things], contains: [], weights: {{{weights}}}}}\n")
    found = kitchen.recipe("pot", dish(f'"{line}"')).recipe_facts("pot")["ingredients"][0]
    assert found["grams"] == pytest.approx(grams, rel=1e-6)


def test_a_metric_cup_weighs_what_the_household_says(kitchen: Kitchen) -> None:
    kitchen.household("time zone", "cup: metric\ntime zone").file(
        "foods.yaml", "- {name: thing, contains: [], weights: {1 cup: 60 g}}\n"
    )
    found = kitchen.recipe("pot", dish("1 cup thing", "1 dl thing")).recipe_facts("pot")["ingredients"]
    assert [i["grams"] for i in found] == [pytest.approx(60), pytest.approx(24)]


# ---- problems of the session ----


@pytest.mark.parametrize(
    ("prep", "code"),
    [
        ("{on: 2026-06-07, at: '13:00', cooks: 0}", "bad-amount"), ("{on: 2026-06-07, at: '24:00'}", "bad-date"),
        ("{on: 2026-06-07, at: '13:60'}", "bad-date"), ("{on: 2026-02-29, at: '13:00'}", "bad-date"),
        ("{on: 2026-06-07, at: '13:00', cooks: 1.5}", "bad-amount"),
        ("{on: 2026-06-07, at: '13:00', place: moon}", "unknown-place"),
        ("{on: 7 June 2026, at: '13:00'}", "bad-date"), ("{on: 2026-06-07, at: noonish}", "bad-date"),
    ],
)  # fmt: skip
def test_sessions_that_are_none(kitchen: Kitchen, prep: str, code: str) -> None:
    problems = kitchen.recipe("pot", dish()).week(f"prep:\n  - {prep}\nmeals: []").check()
    assert [(p["code"], p["line"]) for p in problems] == [(code, 4)]


@pytest.mark.parametrize("at", ["'07:00'", "07:00", "7:00", '"7:00"'])
def test_times_of_day(kitchen: Kitchen, at: str) -> None:
    facts = (
        kitchen.recipe("pot", dish(), "## Prep day\n1. Chop. [5 min]\n")
        .week(plan("lunch: pot, for: Tomas, on: mon, at: home", prep=f"prep:\n  - {{on: 2026-06-07, at: {at}}}\n"))
        .facts()
    )
    assert facts["run_sheets"][0]["start"] == "2026-06-07T07:00:00-05:00" and facts["problems"] == []


def test_a_week_that_is_not_there(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish()).week(plan("lunch: pot, for: Tomas, on: mon, at: home")).write()
    result = kitchen.run(
        "build", str(kitchen.content), "--out", str(kitchen.out), "--today", "2026-06-07", "--week", "2026-W30"
    )
    assert result.exit_code in (1, 2) and not (kitchen.out / "site").exists()
    assert "2026-W30" in result.output
    result = kitchen.run("check", str(kitchen.content), "--json", "--today", "2026-06-07", "--week", "2026-W30")
    assert result.exit_code in (1, 2)


def test_json_even_when_nothing_can_be_read(kitchen: Kitchen) -> None:
    kitchen.files = {
        "household.yaml": "a: [", "recipes/pot.md": "nothing", "weeks/2026-W24.md": "---\n: :\n",
        "foods.yaml": "\t- x", "stock.yaml": "a: *b\n",
    }  # fmt: skip
    kitchen.write()
    result = kitchen.run("check", str(kitchen.content), "--json", "--today", "2026-06-07")
    problems = json.loads(result.stdout)["problems"]
    assert result.exit_code == 1 and {p["path"].split("/", 1)[1] for p in problems} == set(kitchen.files)
    assert all(set(p) == {"severity", "code", "path", "line", "column", "message", "remedies"} for p in problems)
    kitchen.build("--draft", status=None)


@pytest.mark.parametrize("empty", ["for: [], on: mon", "for: Tomas, on: []"])
def test_a_line_that_names_nobody_or_no_day(kitchen: Kitchen, empty: str) -> None:
    problems = kitchen.recipe("pot", dish()).week(plan(f"lunch: pot, {empty}")).check()
    assert [(p["code"], p["line"]) for p in problems] == [("missing-key", 6)]


@pytest.mark.parametrize(
    ("stock", "line", "found"),
    [
        ("3 cups red root", "100 g red root", ["stock-unclear"]),  # no weight of a cup is known
        ("2 bunches red root", "100 g red root", ["stock-unclear"]),
        ("3 bunches red root", "2 bunches red root", ["no-weight"]),  # counted in bunches; figures have no weight
        ("200 g red root", "100 g red root", []),
        ("3 cups blue root", "100 g red root", []),  # not needed
    ],
)
def test_a_lot_that_cannot_be_counted_is_said(kitchen: Kitchen, stock: str, line: str, found: list[str]) -> None:
    kitchen.file("foods.yaml", "- {name: red root, contains: []}\n- {name: blue root, contains: []}\n")
    kitchen.file("stock.yaml", f"cupboard:\n  - {stock}\n").recipe("pot", dish(line))
    problems = kitchen.week(plan("lunch: pot, for: Tomas, on: mon, at: home")).check()
    assert codes(problems) == found
    assert all(p["line"] == 2 for p in problems if p["code"] == "stock-unclear")


@pytest.mark.parametrize(
    ("lot", "served"),
    [
        # Soups and stews, 4 days. Pulled the evening before; frozen on day 3 it has one day, on day 4 none.
        (
            "freezer:\n  - 2 portions stew, made 2026-06-01, frozen 2026-06-04\n",
            [("freezer", day(8)), ("freezer", day(9))],
        ),
        ("freezer:\n  - 2 portions stew, made 2026-06-01, frozen 2026-06-05\n", None),
        ("freezer:\n  - 2 portions stew, made 2026-05-20, frozen 2026-06-01\n", None),
        # Thawed on Saturday 6 with two days left: Monday 8.
        ("fridge:\n  - 1 portion stew, made 2026-06-01, frozen 2026-06-03, thawed 2026-06-06\n", [("fridge", day(8))]),
    ],
)
def test_what_was_frozen_has_the_days_it_had_left(kitchen: Kitchen, lot: str, served: list | None) -> None:
    """Food Code 3-501.18(A)(1): freezing stops the count and does not reset it."""
    kitchen.recipe("stew", dish(title="Stew", more="keeps: soups and stews\n")).file("stock.yaml", lot)
    count = lot.split()[2]
    meal = f"lunch: stew, for: Tomas, on: {'mon-tue' if count == '2' else 'mon'}, at: home"
    facts = kitchen.week(plan(meal, more=f"already: [{count} portions stew]\n")).facts()
    if served is None:
        assert codes(facts["problems"]) == ["stock-short"] and {s["lot"] for s in facts["servings"]} == {None}
    else:
        assert [(s["kept"], s["use_by"]) for s in facts["servings"]] == served and facts["problems"] == []
        assert {s["made_on"] for s in facts["servings"]} == {"2026-06-01"}


@pytest.mark.parametrize(
    ("stock", "said"),
    [
        ("half a tub of yogurt", True),
        ("2 jars sambal oelek", True),
        ("2 jars (200 g) sambal oelek", False),
        ("1 bottle (500 mL) soy sauce", False),
        ("150 g yogurt", False),
        ("3 carrots", False),
    ],
)
def test_a_lot_of_no_usable_amount_is_said_needed_or_not(kitchen: Kitchen, stock: str, said: bool) -> None:
    kitchen.file("stock.yaml", f"fridge:\n  - {stock}\n").recipe("pot", dish())
    problems = kitchen.week(plan("lunch: pot, for: Tomas, on: mon, at: home")).check()
    found = [p for p in problems if p["code"] == "stock-unclear"]
    assert [(p["line"], stock in p["message"]) for p in found] == [(2, True)] * said
    assert all("the size of one: 1 jar (200 g)" in p["remedies"][0] for p in found)


@pytest.mark.parametrize(
    ("stock", "way"),
    [
        ("200 g yogurt, opened 26.11.2026", "write year, month and day: 2026-06-08"),
        ("2 blorps of carrots", "write a known unit"),
        ("400 g yogurt, contains pollen", "pollen"),
        ("2 portions no such dish", "portions are of a recipe of the library"),
        ("plenty", "write how much of what, and its date: 400 g carrots, opened 2026-05-20"),
    ],
)
def test_a_line_that_is_left_out_says_what_to_write(kitchen: Kitchen, stock: str, way: str) -> None:
    kitchen.file("stock.yaml", f"fridge:\n  - {stock}\n").recipe("pot", dish())
    problem = only(kitchen.week(plan("lunch: pot, for: Tomas, on: mon, at: home")).check(), code="stock-unclear")
    assert problem["remedies"] and way in " ".join([problem["message"], *problem["remedies"]])
