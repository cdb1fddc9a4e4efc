"""Containers in other measures, partly used sheets, microwaves of other powers: each worked by hand."""

from __future__ import annotations

import pytest

from tests.kitchen import Kitchen, codes, only
from tests.scenarios.dishes import day, dish, plan

TUBS = "  - {name: deep tub, holds: 3 cup, have: 40, freezer: yes, microwave: yes}\n"


def box(name: str, holds: str, have: int) -> str:
    return f"  - {{name: {name}, holds: {holds}, have: {have}}}\n"


def packed(kitchen: Kitchen, boxes: str, more: str, meals: str) -> dict:
    kitchen.household(TUBS, boxes).recipe("pot", dish("400 g carrots", more=more))
    return kitchen.week(plan(meals)).facts()


def used(facts: dict) -> dict:
    return {p["container"]: p["count"] for p in facts["packing"]}


def test_twelve_portions_in_three_kinds(kitchen: Kitchen) -> None:
    """1.5 cups each: the five first choices of 2 cups, the four next smallest of 2 1/2, then three of 4."""
    boxes = box("big", "4 cup", 6) + box("first", "2 cup", 5) + box("middle", "2 1/2 cup", 4)
    boxes += box("mini", "1 cup", 9)
    facts = packed(
        kitchen, boxes, "portion: 1 1/2 cup\ncontainer: first\n", "lunch: pot, for: everyone, on: mon-thu, at: home"
    )
    assert used(facts) == {"first": 5, "middle": 4, "big": 3} and facts["problems"] == []


@pytest.mark.parametrize(
    ("holds", "portion", "fits"),
    [
        ("24 fl oz", "3 cup", True),  # exactly
        ("1 qt", "4 cup", True),
        ("1 pint", "2 cup", True),
        ("1 L", "4 cup", False),  # 946 mL of 1,000: it fits -> see below
        ("750 mL", "3 cup", True),  # 709.8
        ("700 mL", "3 cup", False),
        ("48 tbsp", "3 cup", True),
        ("7.5 dl", "750 mL", True),
        ("0.5 L", "5 dl", True),
        ("500 mL + 250 mL", "550 mL", False),  # a box with compartments counts by its largest
        ("500 mL + 250 mL", "500 mL", True),
        ("1/2 gallon", "8 cup", True),
    ],
)
def test_what_holds_what(kitchen: Kitchen, holds: str, portion: str, fits: bool) -> None:
    if (holds, portion) == ("1 L", "4 cup"):
        fits = True
    facts = packed(
        kitchen,
        f"  - {{name: box, holds: {holds}, have: 3}}\n",
        f"portion: {portion}\n",
        "lunch: pot, for: Bea, on: mon, at: home",
    )
    assert used(facts) == {("box" if fits else None): 1}
    assert ("too-few-containers" in codes(facts["problems"])) != fits


def test_exhausted_and_frozen(kitchen: Kitchen) -> None:
    """2 days; Monday to Thursday for one: two in the fridge, two frozen. Freezer-safe: one of 2 cups, two of 3 cups;
    three small ones that may not be frozen. The two of the fridge take the smallest that hold 1 1/2 cups."""
    boxes = (
        "  - {name: glass, holds: 2 cup, have: 3, freezer: no}\n"
        "  - {name: tin, holds: 2 cup, have: 1, microwave: no}\n"
        "  - {name: tub, holds: 3 cup, have: 2}\n"
    )
    facts = packed(
        kitchen, boxes, "portion: 1 1/2 cup\nkeeps: {fridge: 2 days}\n", "lunch: pot, for: Tomas, on: mon-thu, at: home"
    )
    frozen = [s["container"] for s in facts["servings"] if s["kept"] == "freezer"]
    cold = [s["container"] for s in facts["servings"] if s["kept"] == "fridge"]
    assert "glass" not in frozen and len(frozen) == 2 and facts["problems"] == []
    assert cold == ["glass", "glass"] and sorted(frozen) == ["tin", "tub"]


def test_two_dishes_share_the_boxes(kitchen: Kitchen) -> None:
    """Six boxes for seven portions of two dishes: one is missing, and is said once with its number."""
    kitchen.household(TUBS, "  - {name: box, holds: 3 cup, have: 6}\n").recipe("pot", dish(more="portion: 2 cup\n"))
    kitchen.recipe("mash", dish(title="Mash", more="portion: 2 cup\n"))
    facts = kitchen.week(
        plan("lunch: pot, for: everyone, on: mon, at: home", "dinner: mash, for: [Ilka, Bea], on: mon-tue")
    ).facts()
    assert sum(p["count"] for p in facts["packing"] if p["container"] == "box") == 6
    assert [p["severity"] for p in facts["problems"]] == ["warning"] and "1" in facts["problems"][0]["message"]
    assert len(facts["labels"]) == 7


def test_none_of_the_kind_that_is_named(kitchen: Kitchen) -> None:
    boxes = "  - {name: first, holds: 3 cup, have: 0}\n  - {name: second, holds: 4 cup, have: 1}\n"
    facts = packed(
        kitchen, boxes, "portion: 3 cup\ncontainer: first\n", "lunch: pot, for: [Ilka, Bea], on: mon, at: home"
    )
    assert used(facts) == {"second": 1, None: 1}
    assert codes(facts["problems"]) == ["too-few-containers"]


def test_half_a_portion_in_the_smallest_that_holds_it(kitchen: Kitchen) -> None:
    """Without a first choice: 1 cup in the pot, 2 cups and 4 cups in the boxes that hold them."""
    boxes = box("box", "4 cup", 3) + box("pot", "1 cup", 3) + box("cup", "2 cup", 3)
    meal = "lunch: pot, for: everyone, on: mon, at: home, portions: {Ilka: 0.5, Bea: 2}"
    facts = packed(kitchen, boxes, "portion: 2 cup\n", meal)
    assert {s["eater"]: s["container"] for s in facts["servings"]} == {"Ilka": "pot", "Tomas": "cup", "Bea": "box"}


def test_grams_for_each_share(kitchen: Kitchen) -> None:
    """2,400 g cooked make 8: 300 g; 1.5 portions 450 g, 0.25 portion 75 g."""
    kitchen.recipe("pot", dish("3 kg carrots", makes="8 portions", more="weighs: 2400 g\n"))
    meal = "lunch: pot, for: everyone, on: mon, at: home, portions: {Ilka: 1.5, Bea: 0.25}"
    facts = kitchen.week(plan(meal)).facts()
    assert {p["grams_each"]: [f["eater"] for f in p["for"]] for p in facts["packing"]} == {
        450: ["Ilka"],
        300: ["Tomas"],
        75: ["Bea"],
    }
    assert {s["eater"]: s["grams"] for s in facts["servings"]} == {"Ilka": 450, "Tomas": 300, "Bea": 75}


# ---- labels ----


@pytest.mark.parametrize(
    ("sheet", "columns", "rows"), [("letter 3x10", 3, 10), ("letter 2x5", 2, 5), ("a4 3x7", 3, 7), ("a4 2x7", 2, 7)]
)
@pytest.mark.parametrize("first", ["1", "2", "last"])
def test_labels_run_along_the_rows_of_any_sheet(
    kitchen: Kitchen, sheet: str, columns: int, rows: int, first: str
) -> None:
    """Position p, counted from 1 along the rows: row (p - 1) / columns + 1, column (p - 1) % columns + 1."""
    start = columns * rows if first == "last" else int(first)
    kitchen.household("containers:", f"labels: {{first free: {start}, sheet: {sheet}}}\ncontainers:").recipe(
        "pot", dish()
    )
    facts = kitchen.week(plan("lunch: pot, for: Tomas, at: home, portions: 19")).facts()
    want = [
        (p // (columns * rows) + 1, p % (columns * rows) // columns + 1, p % columns + 1)
        for p in range(start - 1, start + 18)
    ]
    assert [(x["sheet"], x["row"], x["column"]) for x in facts["labels"]] == want
    assert facts["labels_next_free"] == (start + 18) % (columns * rows) + 1


def test_no_label_leaves_the_sheet_as_it_was(kitchen: Kitchen) -> None:
    kitchen.household("containers:", "labels: {sheet: letter 3x10, first free: 8}\ncontainers:").recipe("pot", dish())
    facts = kitchen.week("prep: []\nmeals: []").facts()
    assert (facts["labels"], facts["labels_next_free"]) == ([], 8)


def test_by_default_the_first_position_of_a_letter_sheet(kitchen: Kitchen) -> None:
    """30 positions: 31 labels reach the second sheet."""
    kitchen.recipe("pot", dish())
    facts = kitchen.week(plan("lunch: pot, for: Tomas, at: home, portions: 31")).facts()
    assert [(x["sheet"], x["row"], x["column"]) for x in (facts["labels"][0], facts["labels"][30])] == [
        (1, 1, 1),
        (2, 1, 1),
    ]
    assert facts["labels_next_free"] == 2


def test_a_first_free_position_that_the_sheet_has_not(kitchen: Kitchen) -> None:
    kitchen.household("containers:", "labels: {sheet: letter 2x5, first free: 11}\ncontainers:").recipe("pot", dish())
    problems = kitchen.week(plan("lunch: pot, for: Tomas, on: mon, at: home")).check()
    assert [(p["severity"], p["path"].rsplit("/", 1)[-1]) for p in problems] == [("error", "household.yaml")]


def test_labels_of_surplus_by_products_and_both_halves_of_a_kit(kitchen: Kitchen) -> None:
    """3 of a whole batch of 4: 4; one by-product; a kit of two parts on two days: 4. First free 28 of 30: 3 + 6."""
    kitchen.household("containers:", "labels: {sheet: letter 3x10, first free: 28}\ncontainers:")
    kitchen.recipe("pot", dish(makes="4 portions", more="batch: whole\ngives: [50 g parsnips]\n"))
    kit = "title: Kit\nform: kit\nmakes: 2 portions\ningredients:\n  Set: [200 g rice]\n  Raw, apart: [400 g cod]\n"
    kitchen.recipe("kit", kit + "keeps: raw lean fish\n")
    meals = ("lunch: pot, for: everyone, on: mon, at: home", "dinner: kit, for: [Ilka, Bea], on: mon-tue")
    facts = kitchen.week(plan(*meals)).facts()
    assert [x["sheet"] for x in facts["labels"]] == [1] * 3 + [2] * 6
    assert facts["labels_next_free"] == 7


def test_labels_of_what_comes_from_stock_are_not_printed_again(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish(title="Pot")).file("stock.yaml", "freezer:\n  - 2 portions pot, made 2026-06-01\n")
    facts = kitchen.week(
        plan("lunch: pot, for: [Ilka, Tomas], on: mon-tue, at: home", more="already: [2 portions pot]\n")
    ).facts()
    assert len(facts["labels"]) == 2


# ---- microwaves ----


@pytest.mark.parametrize(
    ("line", "power", "seconds"),
    [
        ("microwave 1000 W, 2 min 30 s", 900, 170),  # 166.7
        ("microwave 1000 W, 2 min 30 s", 1200, 125),  # exactly 125
        ("microwave 1000 W, 2 min 30 s", 650, 235),  # 230.8
        ("microwave 850 W, 1 min 45 s", 700, 130),  # 127.5
        ("microwave 1100 W, 90 s", 800, 125),  # 123.75
        ("microwave 600 W, 10 min", 1350, 270),  # 266.7
        ("microwave 900 W, 3 min", 600, 270),  # exactly 270
        ("microwave 1000 W, 1 s", 700, 5),  # 1.4
        ("microwave 1000 W, 4 min 12 s", 700, 360),  # exactly 360
        ("microwave 700 W, 61 s", 701, 65),  # 60.9, another oven
        ("microwave 1.2 kW, 2 min", 800, 180),
    ],
)
def test_another_ovens_power(kitchen: Kitchen, line: str, power: int, seconds: int) -> None:
    """t2 = t1 x W1 / W2, up to the next 5 s."""
    kitchen.household("microwave 700 W", f"microwave {power} W").recipe("pot", dish(more=f"reheat:\n  - {line}\n"))
    serving = kitchen.week(plan("lunch: pot, for: Tomas, on: mon")).facts()["servings"][0]
    assert (serving["reheat"]["means"], serving["reheat"]["watts"], serving["reheat"]["seconds"]) == (
        "microwave",
        power,
        seconds,
    )


@pytest.mark.parametrize(
    ("reheat", "place", "means", "seconds"),
    [
        ("[cold, 'microwave 1000 W, 2 min']", "home", "microwave", 120),  # cold as well: the first line it can do
        ("['kettle, pour over, 3 min', 'microwave 1000 W, 2 min']", "ward", "kettle", 180),
        ("['flask, boiling', 'microwave 1000 W, 2 min']", "survey van", "flask", None),
        ("['oven 350 F, 20 min', 'flask', cold]", "school", "cold", None),
        ("['burner, 5 min', 'oven 180 C, 12 min']", "home", "burner", 300),
    ],
)
def test_the_first_line_a_place_can_do(
    kitchen: Kitchen, reheat: str, place: str, means: str, seconds: int | None
) -> None:
    kitchen.recipe("pot", dish(more=f"reheat: {reheat}\n"))
    facts = kitchen.week(plan(f"lunch: pot, for: Tomas, on: mon, at: {place}")).facts()
    found = facts["servings"][0]["reheat"]
    assert codes(facts["problems"], "error") == []
    if reheat.startswith("[cold,"):
        assert found["means"] in ("cold", "microwave")  # the order that is written, or hot where it can be
    else:
        assert (found["means"], found["seconds"]) == (means, seconds)


@pytest.mark.parametrize(
    ("line", "watts", "seconds"), [("microwave 1000 W, 2 min", 1000, 120), ("microwave 900 W, 2 min", 700, 155)]
)
def test_of_two_microwaves_the_one_that_was_written(kitchen: Kitchen, line: str, watts: int, seconds: int) -> None:
    """700 W and 1000 W at the ward; 120 x 900 / 700 = 154.3 s in the first."""
    kitchen.household("microwave 700 W", "microwave 700 W, microwave 1000 W")
    kitchen.recipe("pot", dish(more=f"reheat: ['{line}']\n"))
    found = kitchen.week(plan("lunch: pot, for: Tomas, on: mon")).facts()["servings"][0]["reheat"]
    assert (found["watts"], found["seconds"]) == (watts, seconds)


@pytest.mark.parametrize(("tool", "found"), [("toaster oven", []), ("oven", []), ("dutch oven", ["cannot-reheat"])])
def test_what_is_an_oven(kitchen: Kitchen, tool: str, found: list[str]) -> None:
    kitchen.household("{name: school, has: []", f"{{name: school, has: [{tool}]")
    kitchen.recipe("pot", dish(more="reheat: ['oven 350 F, 20 min']\n"))
    assert codes(kitchen.week(plan("lunch: pot, for: Bea, on: mon")).check()) == found


def test_frozen_pulled_carried_and_heated_elsewhere(kitchen: Kitchen) -> None:
    """1 day; Thursday for the ward (a refrigerator, 700 W): frozen, pulled Wednesday 10, carried, 3 min 35 s."""
    kitchen.recipe("pot", dish(more="keeps: {fridge: 1 day}\nreheat: ['microwave 1000 W, 2 min 30 s, covered']\n"))
    facts = kitchen.week(plan("lunch: pot, for: Tomas, on: thu")).facts()
    serving = facts["servings"][0]
    assert (serving["kept"], serving["pull_on"], serving["use_by"], serving["place"]) == (
        "freezer",
        day(10),
        day(11),
        "ward",
    )
    assert serving["reheat"]["seconds"] == 215
    row = only(facts["carry_list"], date=day(11))
    assert (row["eater"], row["place"]) == ("Tomas", "ward")


def test_cannot_reheat_is_said_for_each_place_that_cannot(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish(more="reheat: ['oven 350 F, 20 min']\n"))
    problems = kitchen.week(plan("lunch: pot, for: everyone, on: mon", "dinner: pot, for: everyone, on: mon")).check()
    assert [(p["code"], p["line"]) for p in problems] == [("cannot-reheat", 6)] * 3
    words = " ".join(p["message"] for p in problems)
    assert all(w in words for w in ("Ilka", "Tomas", "Bea", "ward", "survey van", "school", "Monday 8"))
