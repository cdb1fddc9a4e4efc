"""What is left of kits, timed back from the hour of the meal."""

from __future__ import annotations

from dataclasses import replace
from random import Random
from typing import Any

import pytest

from binder.reckon.run_sheet_search import search
from binder.reckon.service import late_as_can_be
from tests.kitchen import Kitchen, only
from tests.reckon.run_sheet_kitchens import broken
from tests.reckon.test_run_sheet_search import tiny
from tests.scenarios.dishes import SUNDAY, plan

FISH = """
title: Roast fish
meal: dinner
form: kit
makes: 4 portions
ingredients:
  Set:
    - 500 g potatoes
"""
FISH_STEPS = """
## Prep day
1. Pack. [4 min]

## At service
### Potatoes
1. Boil the potatoes. [unattended 18 min, burner]
### Fish
1. Roast the fish. [unattended 14 min, oven 400 F]
### Together
1. Crush and serve. [5 min]
"""


def kit(kitchen: Kitchen, steps: str = FISH_STEPS, key: str = "fish", title: str = "Roast fish") -> Kitchen:
    return kitchen.recipe(key, FISH.replace("Roast fish", title), steps)


def services(kitchen: Kitchen, *meals: str) -> list[dict[str, Any]]:
    found = kitchen.week(plan(*(meals or ("dinner: fish, for: Ilka, on: mon",)), prep=SUNDAY)).facts()["services"]
    assert all(one["finish"] is None or one["finish"][11:16] == "18:30" for one in found)
    return found


def hours(sheet: dict[str, Any]) -> dict[str, str]:
    """When each step starts, and the oven is heated, by its words."""
    return {task["text"]: task["start"][11:16] for task in sheet["tasks"]} | {
        one["to"]: one["start"][11:16] for one in sheet["heating"]
    }


def test_what_goes_side_by_side_ends_together_at_the_hour_of_the_meal(kitchen: Kitchen) -> None:
    (sheet,) = services(kit(kitchen))
    assert (sheet["date"], sheet["meal"], sheet["place"]) == ("2026-06-08", "dinner", "home")
    assert sheet["recipes"] == ["fish"]
    assert hours(sheet) == {
        "400 °F": "18:01", "Boil the potatoes.": "18:07", "Roast the fish.": "18:11", "Crush and serve.": "18:25"
    }  # fmt: skip
    assert (sheet["start"][11:16], sheet["minutes"]) == ("18:01", 29)
    assert (sheet["at_least_minutes"], sheet["proven"]) == (29, True)
    assert only(sheet["tasks"], id="service/fish/together/1")["after"] == [
        "service/fish/potatoes/1",
        "service/fish/fish/1",
    ]
    assert only(sheet["tasks"], id="service/fish/fish/1")["uses"] == ["oven"]


def test_the_equipment_of_the_place_counts(kitchen: Kitchen) -> None:
    two_pots = FISH_STEPS.replace("oven 400 F", "burner")
    assert services(kit(kitchen, two_pots))[0]["minutes"] == 23
    kitchen.household("4 burners", "burner")
    assert services(kitchen)[0]["minutes"] == 37


def test_a_kit_is_timed_where_it_is_eaten(kitchen: Kitchen) -> None:
    kitchen.household("has: [microwave 700 W,", "has: [oven, burner, microwave 700 W,")
    two_pots = FISH_STEPS.replace("oven 400 F", "burner")
    found = services(kit(kitchen, two_pots), "dinner: fish, for: Ilka, on: mon, at: ward")
    assert [(one["place"], one["minutes"]) for one in found] == [("ward", 37)]


def test_two_kits_for_one_meal_share_the_oven(kitchen: Kitchen) -> None:
    bread = "\n## Prep day\n1. Pack. [4 min]\n\n## At service\n1. Bake the bread. [unattended 12 min, oven 450 F]\n"
    kit(kit(kitchen), bread, "bread", "Flat bread")
    meals = ("dinner: fish, for: Ilka, on: mon", "dinner: bread, for: Ilka, on: mon", "dinner: fish, for: Bea, on: tue")
    monday, tuesday = services(kitchen, *meals)
    # 10 to heat, 14 for the fish, 10 to change, 12 for the bread: the crushing fits beside.
    assert monday["minutes"] == 46 and tuesday["minutes"] == 29
    assert monday["recipes"] == ["fish", "bread"] and len(monday["heating"]) == 2
    assert hours(monday)["Bake the bread."] == "18:18" and hours(monday)["450 °F"] == "18:08"


def test_an_oven_that_is_hot_is_not_heated_again(kitchen: Kitchen) -> None:
    twice = FISH_STEPS.replace("### Together\n1.", "2. Baste it. [unattended 6 min, oven 400 F]\n### Together\n1.")
    (sheet,) = services(kit(kitchen, twice))
    assert len(sheet["heating"]) == 1 and sheet["minutes"] == 35


def test_minutes_of_each_portion_grow_with_the_portions(kitchen: Kitchen) -> None:
    steps = "\n## Prep day\n1. Pack. [4 min]\n\n## At service\n1. Fry. [3 min per portion, burner]\n"
    (sheet,) = services(kit(kitchen, steps), "dinner: fish, for: [Ilka, Bea], on: mon")
    assert sheet["minutes"] == 6


def test_without_a_day_there_is_no_date_and_without_steps_no_sheet(kitchen: Kitchen) -> None:
    (sheet,) = services(kit(kitchen), "dinner: fish, for: Ilka, portions: 2")
    assert (sheet["date"], sheet["start"], sheet["finish"], sheet["minutes"]) == (None, None, None, 29)
    assert services(kit(kitchen, "\n## Prep day\n1. Pack. [4 min]\n")) == []


def test_the_kit_card_says_the_hours_and_when_to_heat_the_oven(kitchen: Kitchen) -> None:
    steps = FISH_STEPS.replace("[5 min]", "")
    kit(kitchen, steps).week(plan("dinner: fish, for: Ilka, on: mon", prep=SUNDAY)).write()
    arguments = ("--out", str(kitchen.out), "--today", "2026-06-07", "--only", "site")
    made = kitchen.run("build", str(kitchen.content), *arguments)
    assert made.exit_code == 0, made.output
    card = (kitchen.out / "site/weeks/2026-W24/kits/index.html").read_text("utf-8").replace("\u00a0", " ")
    for said in ("Heat the oven to 400 °F.", ">18:01<", "18:01, to eat at 18:30", "minutes assumed", ">18:25<"):
        assert said in card, said
    assert card.index("Heat the oven") < card.index("Boil the potatoes.") < card.index("Roast the fish.")


@pytest.mark.parametrize("seed", range(60))
def test_no_step_could_be_later_and_the_meal_is_not(seed: int) -> None:
    kitchen = tiny(Random(seed))
    plan_ = search(kitchen).plan
    late = late_as_can_be(kitchen, plan_)
    end = plan_.finish(kitchen)
    assert not broken(kitchen, late) and late.finish(kitchen) == end
    assert all(after >= before for before, after in zip(plan_.starts, late.starts, strict=True))
    for j, job in enumerate(kitchen.jobs):
        for start in range(late.starts[j] + 1, end - job.length + 1):
            starts = (*late.starts[:j], start, *late.starts[j + 1 :])
            assert broken(kitchen, replace(late, starts=starts)), (j, start)
