"""What a portion weighs cooked: stated, weighed, or estimated from what goes in; and what an estimate leaves out.

Yields of grains and pulses follow from the water in USDA SR28's dry and cooked rows; of meat they are from memory.
"""

from __future__ import annotations

from typing import Any

import pytest

from tests.kitchen import Kitchen, only
from tests.scenarios.dishes import dish, plan

PASTA = (100 - 9.90) / (100 - 62.13)  # SR28 20120 and 20121, water
RICE = (100 - 11.62) / (100 - 68.44)  # SR28 20044 and 20045, water
BARLEY = (100 - 10.09) / (100 - 68.80)  # SR28 20005 and 20006, water


def portion(kitchen: Kitchen, *lines: str, steps: str = "", more: str = "", makes: str = "1 portion") -> dict[str, Any]:
    kitchen.recipe("pot", dish(*lines, makes=makes, more=more), f"\n## Prep day\n{steps}" if steps else "")
    found: dict[str, Any] = kitchen.recipe_facts("pot")["per_portion"]
    return found


def test_a_stated_portion_stays_as_it_is(kitchen: Kitchen) -> None:
    found = portion(kitchen, "400 g pasta", steps="1. Boil the pasta. [burner]\n", more="portion: 350 g\n")
    assert (found["grams"], found["cooked_grams"], found["cooked_grams_from"]) == (350, 350, "stated")


def test_what_was_weighed_counts(kitchen: Kitchen) -> None:
    found = portion(
        kitchen, "400 g pasta", makes="4 portions", steps="1. Boil the pasta. [burner]\n", more="weighs: 900 g\n"
    )
    assert (found["grams"], found["cooked_grams"], found["cooked_grams_from"]) == (225, 225, "weighed")


@pytest.mark.parametrize(
    ("lines", "steps", "grams"),
    [
        # Boiled in water that no line measures: it takes it up.
        (["300 g pasta"], "1. Boil the pasta and drain it. [10 min, burner]", 300 * PASTA),
        (["200 g long-grain white rice"], "1. Simmer, covered. [unattended 18 min, burner]", 200 * RICE),
        # Water that a line measures is in the pot already: nothing comes to it.
        (["200 g pearled barley", "1500 g water"], "1. Simmer, covered. [burner]", 1700),
        (["200 g pearled barley", "200 g water"], "1. Simmer, covered. [burner]", 200 * BARLEY),
        # Measured and poured away.
        (["300 g pasta", "4 kg water", "100 g carrots"], "1. Boil the pasta, drain. [burner]", 300 * PASTA + 100),
        # Not boiled: oats that are baked, rice that is ground.
        (["200 g pearled barley"], "1. Toast in a dry pan. [burner]", 200),
        (["100 g rolled oats", "300 g milk"], "1. Simmer, stirring. [burner]", 400),
        (["200 g pasta"], "", 200),
        # Roasted meat loses juice (from memory: 0.75); in a pot the juice stays in the dish.
        (["800 g chicken breast"], "1. Roast to 165 °F. [unattended 25 min, oven 425 F]", 800 * 0.75),
        (["800 g chicken breast", "500 g water"], "1. Simmer. [burner]", 1300),
        (["800 g chicken breast", "500 g water"], "1. Brown the chicken.\n2. Add the rest, simmer. [burner]", 1300),
        (["100 g bacon", "400 g cabbage"], "1. Fry the bacon. [burner]\n2. Toss.", 100 * 0.30 + 400),
        # No yield is known: counted as it goes in.
        (["500 g carrots"], "1. Roast. [unattended 30 min, oven 425 F]", 500),
        (["500 g lamb shoulder"], "1. Roast. [unattended 90 min, oven 350 F]", 500),
    ],
)
def test_an_estimate_by_what_goes_in(kitchen: Kitchen, lines: list[str], steps: str, grams: float) -> None:
    found = portion(kitchen, *lines, steps=f"{steps}\n" if steps else "")
    assert found["cooked_grams_from"] == "estimate"
    assert found["cooked_grams"] == pytest.approx(grams, abs=1)
    raw = sum(float(line.split()[0]) * (1000 if " kg " in line else 1) for line in lines)
    assert found["grams"] == pytest.approx(raw)  # before cooking, as it was


def test_an_estimate_names_its_yields_and_what_it_leaves_out(kitchen: Kitchen) -> None:
    steps = "1. Boil the pasta. [burner]\n2. Roast the carrots. [unattended 30 min, oven 425 F]\n"
    found = portion(kitchen, "300 g pasta", "400 g carrots", steps=steps)
    (one,) = found["cooked_yields"]
    assert (one["food"], one["source"]) == ("pasta", "USDA SR28 20120 and 20121, water")
    assert one["share"] == pytest.approx(PASTA)
    assert found["cooked_not_counted"] == ["boils off", "dries out"]


def test_parts_are_cooked_each_in_its_own_way(kitchen: Kitchen) -> None:
    front = """
        title: Two pots
        meal: lunch
        makes: 2 portions
        ingredients:
          Pasta:
            - 200 g pasta
          Sauce:
            - 600 g vegetable broth
            - 200 g carrots
        """
    body = "\n## Prep day\n### Pasta\n1. Boil it, drain. [burner]\n### Sauce\n1. Simmer. [burner]\n"
    found = kitchen.recipe("pot", front, body).recipe_facts("pot")["per_portion"]
    assert found["cooked_grams"] == pytest.approx((200 * PASTA + 800) / 2, abs=1)


def test_broth_that_a_recipe_gives_is_not_in_its_portions(kitchen: Kitchen) -> None:
    more = "gives: [500 ml vegetable broth]\n"
    found = portion(kitchen, "400 g carrots", "1000 g water", steps="1. Simmer. [burner]\n", more=more)
    assert found["cooked_grams"] == pytest.approx(1400 - 500 * 221 / 236.588, abs=1)  # SR28 06700: a cup is 221 g


def test_a_part_from_another_recipe_brings_its_cooked_weight(kitchen: Kitchen) -> None:
    kitchen.recipe("rice", dish("200 g long-grain white rice", title="Rice"), "\n## Prep day\n1. Boil it. [burner]\n")
    found = portion(kitchen, "1 portion recipe: rice", "100 g carrots", steps="1. Stir. [2 min]\n")
    assert found["cooked_grams"] == pytest.approx(200 * RICE + 100, abs=1)


@pytest.mark.parametrize("line", ["a handful of zzyzx", "2 cups zzyzx"])
def test_an_unknown_weight_stays_unknown(kitchen: Kitchen, line: str) -> None:
    found = portion(kitchen, "300 g pasta", line, steps="1. Boil. [burner]\n")
    assert (found["cooked_grams"], found["cooked_grams_from"], found["cooked_yields"]) == (None, None, [])


def test_a_kit_is_not_cooked_when_it_is_packed(kitchen: Kitchen) -> None:
    front = "title: Kit\nmeal: dinner\nform: kit\nmakes: 2 portions\ningredients:\n  Set: [200 g pasta]\n"
    found = kitchen.recipe("pot", front, "\n## At service\n1. Boil. [burner]\n").recipe_facts("pot")["per_portion"]
    assert found["cooked_grams"] is None and found["grams"] == 100


def test_servings_and_packing_carry_it(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish("300 g pasta"), "\n## Prep day\n1. Boil the pasta. [burner]\n")
    facts = kitchen.week(plan("lunch: pot, for: Tomas, on: mon, portions: 0.5")).facts()
    serving, row = facts["servings"][0], only(facts["packing"], recipe="pot", count=1)
    assert serving["grams"] == row["grams_each"] == 150
    assert serving["cooked_grams"] == row["cooked_grams_each"] == pytest.approx(150 * PASTA)
    assert serving["cooked_grams_from"] == row["cooked_grams_from"] == "estimate"


@pytest.mark.parametrize(
    ("grams", "step", "said"),
    [
        (350, "1. Toss. [2 min]", True),  # of 800 g in the bowl
        (480, "1. Toss. [2 min]", False),
        (1100, "1. Toss. [2 min]", True),
        (380, "1. Simmer down. [unattended 60 min, burner]", False),  # it may well boil off
        (300, "1. Simmer down. [unattended 60 min, burner]", True),
    ],
)
def test_a_stated_portion_far_from_its_parts_is_said(kitchen: Kitchen, grams: int, step: str, said: bool) -> None:
    front = dish("500 g carrots", "300 g celery", more=f"portion: {grams} g\n")
    kitchen.recipe("pot", front, f"\n## Prep day\n{step}\n").write()
    result = kitchen.run("check", str(kitchen.content), "--today", "2026-06-07")
    assert result.exit_code == 0
    assert ("recipes/pot.md: A portion of" in result.output) is said


KIT = """\
title: Pepper kit
meal: dinner
form: kit
makes: 2 portions
ingredients:
  Set: [600 g red bell peppers, 1 clove garlic]
  "Raw, apart": [400 g ground lamb, 1 tsp black pepper]
"""


@pytest.mark.parametrize(
    ("steps", "set_raw", "apart_raw"),
    [
        ("### Sauce\n1. Roast the peppers until black. [oven 450 F]\n2. Blend with garlic. [5 min]\n", True, False),
        ("1. Roast the peppers. [oven 450 F]\n", True, True),  # no heading: black pepper is named too
        ("### Sauce\n1. Cut the peppers, crush the garlic. [cutting board]\n", False, False),
        ("### Set\n1. Boil them. [burner]\n", True, False),
        ("### Raw, apart\n1. Brown the lamb. [burner]\n", False, True),
    ],
)
def test_a_kit_s_part_that_is_cooked_first_weighs_so_much_before_cooking(
    kitchen: Kitchen, steps: str, set_raw: bool, apart_raw: bool
) -> None:
    kitchen.recipe("kit", KIT, f"\n## Prep day\n{steps}\n## At service\n1. Fry. [5 min, burner]\n")
    facts = kitchen.week(plan("dinner: kit, for: [Tomas, Bea], on: mon")).facts()
    said = [label["lines"][-1] for label in facts["labels"]]
    assert ["before cooking" in text for text in said] == [set_raw, apart_raw], said
    # What goes in stays in facts.json.
    assert facts["packing"][0]["grams_each"] == pytest.approx(603)
