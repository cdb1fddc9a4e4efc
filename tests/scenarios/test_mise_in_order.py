"""Mise en place in the order of the run sheet: what is needed first first, raw meat late, what an eater avoids last."""

from __future__ import annotations

import re

import pytest

from tests.kitchen import Kitchen
from tests.scenarios.dishes import SUNDAY, dish, plan

COLD = "reheat: [cold]\n"
# The plan names the salad first; the run sheet begins with the stew, which takes longest.
STEW = "\n## Prep day\n1. Cut. [10 min, cutting board]\n2. Simmer. [unattended 90 min, burner]\n3. Portion. [5 min]\n"
SALAD = """
## Prep day
### Greens
1. Wash. [20 min]
### Together
1. Fold. [10 min]
"""
PARTS = """title: Salad
meal: lunch
form: ready
makes: 1 portion
ingredients:
  Dressing:
    - 1 tbsp olive oil
  Greens:
    - 100 g spinach, torn
  Cheese:
    - 80 g feta, crumbled
    - 100 g milk
reheat: [cold]
"""
MEALS = ("lunch: salad, for: Tomas, on: mon, at: home", "lunch: stew, for: Ilka, on: mon, at: home")


@pytest.fixture
def week(kitchen: Kitchen) -> Kitchen:
    kitchen.household("  - name: Ilka\n", "  - name: Ilka\n    avoids: [milk]\n")
    stew = dish("300 g beef chuck, cubed", "400 g carrots, sliced", "2 tsp salt", more=COLD, title="Stew")
    kitchen.recipe("salad", PARTS, SALAD).recipe("stew", stew, STEW)
    return kitchen.week(plan(*MEALS, prep=SUNDAY))


def foods(kitchen: Kitchen) -> list[str]:
    return [row["food"] for row in kitchen.facts()["mise_en_place"]]


def page(kitchen: Kitchen) -> str:
    kitchen.write()
    made = kitchen.run(
        "build", str(kitchen.content), "--out", str(kitchen.out), "--today", "2026-06-07", "--only", "site"
    )
    assert made.exit_code == 0, made.output
    text = (kitchen.out / "site/weeks/2026-W24/mise/index.html").read_text("utf-8")
    return " ".join(re.sub(r"<[^>]+>", " ", text.split("<main")[1]).replace("\u00a0", " ").split())


def test_rows_go_by_the_first_task_that_needs_them_with_meat_and_what_is_avoided_after(week: Kitchen) -> None:
    # 13:00 the stew is cut; 13:10 greens are washed; the dressing has no steps of its own: it is folded in at the end.
    assert foods(week) == ["carrot", "salt", "spinach", "olive oil", "beef chuck", "feta", "milk"]


def test_without_an_eater_who_avoids_it_the_cheese_goes_by_its_time(week: Kitchen) -> None:
    week.household("    avoids: [milk]\n", "")
    assert foods(week) == ["carrot", "salt", "spinach", "olive oil", "feta", "milk", "beef chuck"]


def test_the_page_says_why_some_come_last(week: Kitchen) -> None:
    said = page(week)
    last = "Last, when the food of those who avoid it is closed and put away"
    order = ["Carrot", "Spinach", "raw meat and fish. Then wash board", "Beef chuck", last, "Feta", "Measured out"]
    places = [said.index(words) for words in order]
    assert places == sorted(places)
    # What is only measured likewise: the stew first, and the milk apart from it.
    measured = said[places[-1] :]
    assert re.search(r"Stew : 2 tsp salt .*Salad : 1 tbsp olive oil .*" + last + r": .*Salad : 3½ oz .*milk", measured)


def test_a_food_of_several_dishes_goes_by_the_earliest(week: Kitchen) -> None:
    week.recipe("salad", PARTS.replace("spinach, torn", "carrots, sliced"), SALAD)
    assert foods(week)[0] == "carrot"


def test_each_dish_goes_by_its_own_tasks(week: Kitchen) -> None:
    dip = dish("200 g zucchini, grated", "1 tsp salt", more=COLD, title="Dip")
    week.recipe("salad", dip, "\n## Prep day\n1. Stir. [5 min]\n")
    # The dip has time while the stew simmers, though the plan names it first.
    assert foods(week) == ["salt", "carrot", "zucchini", "beef chuck"]
    assert re.search("Measured out.* Stew : 2 tsp salt .*Dip : 1 tsp salt", page(week))


def test_each_session_has_its_own_order(week: Kitchen) -> None:
    prep = SUNDAY + '  - {on: 2026-06-10, at: "19:00"}\n'
    week.week(plan(*MEALS, "lunch: stew, for: Tomas, on: thu, at: home, made: 2026-06-10", prep=prep))
    assert foods(week)[-3:] == ["carrot", "salt", "beef chuck"]
