"""What a place asks: no food from home, words on a label, what stays there, what travels once, what comes home."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.kitchen import Kitchen, codes, only
from tests.scenarios.dishes import dish, plan

WARD = "{name: ward, has: [microwave 700 W, fridge, freezer, kettle]"
SALAD = "at service: [2 tbsp olive oil, 1 tbsp honey]\nkeeps: {fridge: 6 days}\n"


@pytest.fixture
def kitchen(tmp_path: Path) -> Kitchen:
    return Kitchen(tmp_path).recipe("salad", dish(title="Salad", more=SALAD))


def asks(kitchen: Kitchen, words: str) -> Kitchen:
    return kitchen.household(WARD, f"{WARD}, {words}")


def carried(kitchen: Kitchen, on: str = "mon-wed") -> list[dict]:
    rows: list[dict] = kitchen.week(plan(f"lunch: salad, for: Tomas, on: {on}")).facts()["carry_list"]
    return rows


def amounts(carry: dict) -> dict[str, float | None]:
    return {i["what"]: i["amount"] and round(i["amount"]["amount"], 2) for i in carry["items"]}


def test_food_from_home_is_not_taken(kitchen: Kitchen) -> None:
    asks(kitchen, "home food: no").week(plan("lunch: salad, for: Tomas, on: mon", "dinner: salad, for: Tomas, on: mon"))
    problem = only(kitchen.check(), code="banned-at-place")
    assert "ward takes no food from home" in problem["message"]
    assert problem["remedies"] == ["eat it at home: `at: home`", "leave the dish out: take this line out"]


def test_what_is_only_put_together_there_is_no_food_from_home(kitchen: Kitchen) -> None:
    kitchen.recipe("pear", "title: Pear\nmeal: snack\nmakes: 1 portion\ningredients: []\nat service: [1 pear]\n")
    asks(kitchen, "home food: no").week(plan("snack: pear, for: Tomas, on: mon, at: ward"))
    assert "banned-at-place" not in codes(kitchen.check())


def test_a_label_says_what_the_place_wants(kitchen: Kitchen) -> None:
    asks(kitchen, 'label says: [Room 12, "Tomas A., staff"]')
    kitchen.week(plan("lunch: salad, for: Tomas, on: mon", "dinner: salad, for: Tomas, on: mon"))
    labels = sorted(" / ".join(label["lines"]) for label in kitchen.facts()["labels"])
    assert ["Room 12" in one and "Tomas A., staff" in one for one in labels] == ["ward" in one for one in labels]
    assert sum("ward" in one for one in labels) == 1


def test_what_stays_there_is_not_carried(kitchen: Kitchen) -> None:
    row = carried(asks(kitchen, "stays there: [Olive oil, cutlery]"), "mon")[0]
    assert set(amounts(row)) == {"Salad", "honey"} and row["there"] == ["olive oil", "cutlery"]


def test_what_is_added_on_several_days_travels_once(kitchen: Kitchen) -> None:
    monday, tuesday, wednesday = carried(asks(kitchen, "travels once: yes"))
    # 3 x 2 tbsp and 3 x 1 tbsp, of 14.78676 mL (NIST Handbook 44).
    assert (amounts(monday)["olive oil"], amounts(monday)["honey"]) == (88.72, 44.36)
    assert monday["there"] == [] and set(amounts(tuesday)) == {"Salad", "cutlery"}
    assert wednesday["there"] == ["olive oil", "honey"]


def test_what_has_to_stay_cold_travels_once_only_where_there_is_a_refrigerator(kitchen: Kitchen) -> None:
    kitchen.household("{name: school, has: []", "{name: school, travels once: yes, has: []")
    kitchen.recipe("salad", dish(title="Salad", more="at service: [2 tbsp ricotta]\nkeeps: {fridge: 6 days}\n"))
    kitchen.week(plan("lunch: salad, for: Bea, on: mon-tue"))
    assert [amounts(row)["ricotta"] for row in kitchen.facts()["carry_list"]] == [29.57, 29.57]
    asks(kitchen, "travels once: yes")
    assert ["ricotta" in amounts(row) for row in carried(kitchen, "mon-tue")] == [True, False]


def test_each_day_has_its_own_where_the_place_does_not_say(kitchen: Kitchen) -> None:
    assert {amounts(row)["olive oil"] for row in carried(kitchen)} == {29.57}


def test_hand_tools_that_the_place_has_not_are_carried(kitchen: Kitchen) -> None:
    steps = "## At service\n1. Chop and boil. [5 min, cutting board, kettle]\n"
    kitchen.recipe("salad", dish(title="Salad", more=SALAD), steps)
    row = carried(kitchen, "mon")[0]
    assert only(row["items"], what="cutting board")["from"] == "kitchen" and "kettle" not in amounts(row)
    assert "cutting board" in row["comes_home"]


def test_boxes_and_cold_packs_come_home(kitchen: Kitchen) -> None:
    facts = kitchen.week(plan("lunch: salad, for: Ilka, on: mon")).facts()
    assert facts["carry_list"][0]["comes_home"] == ["deep tub", "cutlery", "cold pack", "cool bag"]


@pytest.mark.parametrize(("reheat", "home"), [("flask, filled boiling hot", False), ("cold", True)])
def test_the_box_of_what_goes_in_a_flask_is_at_home_already(kitchen: Kitchen, reheat: str, home: bool) -> None:
    kitchen.recipe("pot", dish(title="Pot", more=f"keeps: {{fridge: 6 days}}\nreheat: [{reheat}]\n"))
    row = kitchen.week(plan("lunch: pot, for: Ilka, on: mon")).facts()["carry_list"][0]
    assert ("deep tub" in row["comes_home"], "insulated flask" in row["comes_home"]) == (home, not home)


# ---- when it leaves ----

BREAKFAST = "breakfast: salad, for: [Tomas, Bea], on: mon"
WARD_DINNER = "dinner: salad, for: Tomas, on: mon, at: ward"


def leaving(kitchen: Kitchen, *meals: str) -> dict[str, str]:
    """The hour of each carry in the calendar, by eater."""
    kitchen.week(plan(*meals)).build("--only", "calendar")
    text = (kitchen.out / "calendar/2026-W24.ics").read_text("utf-8").replace("\n ", "")
    events = [event for event in text.split("BEGIN:VEVENT") if "SUMMARY:Carry" in event]
    starts = (re.search(r"DTSTART\S*T(\d\d)(\d\d)00", event) for event in events)
    names = (event.partition("SUMMARY:")[2].splitlines()[0].rpartition(" ")[2] for event in events)
    return {name: ":".join(start.groups()) for name, start in zip(names, starts, strict=True) if start}


@pytest.mark.parametrize(
    ("meals", "hour"),
    [
        ((WARD_DINNER,), "07:00"),  # no meal at home is planned
        ((BREAKFAST, WARD_DINNER), "07:30"),  # half an hour at table
        ((BREAKFAST, "lunch: salad, for: Tomas, on: mon, at: home", WARD_DINNER), "13:00"),
        ((BREAKFAST, "lunch: salad, for: Tomas, on: mon"), "07:30"),  # eaten away at lunch: lunch is not at home
        (("dinner: salad, for: Tomas, on: mon", "lunch: salad, for: Tomas, on: mon"), "07:00"),  # dinner comes later
    ],
)
def test_what_is_carried_leaves_after_the_last_meal_at_home(
    kitchen: Kitchen, meals: tuple[str, ...], hour: str
) -> None:
    kitchen.household("eaters:", "meal times: {lunch: '12:30'}\neaters:")
    assert leaving(kitchen, *meals) == {"Tomas": hour}


def test_who_leaves_first_stands_first(kitchen: Kitchen) -> None:
    meals = (BREAKFAST, "lunch: salad, for: Tomas, on: mon, at: home", WARD_DINNER, "lunch: salad, for: Bea, on: mon")
    rows = kitchen.week(plan(*meals)).facts()["carry_list"]
    assert [row["eater"] for row in rows] == ["Bea", "Tomas"]


def test_what_has_to_stay_cold_goes_into_the_refrigerator_there(kitchen: Kitchen) -> None:
    for meal, there in ((WARD_DINNER, True), ("lunch: salad, for: Ilka, on: mon", False)):
        kitchen.week(plan(meal)).build("--only", "calendar")
        text = (kitchen.out / "calendar/2026-W24.ics").read_text("utf-8").replace("\n ", "")
        assert ("Into the refrigerator there at once." in text) is there
        assert ("cold pack" in text) is not there


def test_the_carry_page_says_what_the_places_ask(kitchen: Kitchen) -> None:
    asks(kitchen, "label says: Room 12, stays there: [cutlery], notes: Ring twice.")
    kitchen.week(plan("lunch: salad, for: [Tomas, Bea], on: mon")).build("--only", "site")
    page = (kitchen.out / "site/weeks/2026-W24/carry/index.html").read_text("utf-8").replace("\u00a0", " ")
    for said in (
        "On every label: Room 12. Ring twice.",
        "Not allowed in: peanuts and tree nuts",
        "There already: cutlery.",
    ):
        assert said in page
    assert "Comes home" in page and "deep tub, cutlery, cold pack" in page
