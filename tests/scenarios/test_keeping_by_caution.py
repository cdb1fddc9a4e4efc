"""Keeping, freezing, pulling and sessions in combination, worked by hand, each by its eater's caution."""

from __future__ import annotations

from collections import Counter

import pytest

from tests.kitchen import Kitchen, codes, only
from tests.scenarios.dishes import SUNDAY, SUNDAY_AND_WEDNESDAY, by, day, dish, plan

STRICT_BEA = ("{name: Bea, eats", "{name: Bea, caution: strict, eats")
STRICT = ("time zone", "caution: strict\ntime zone")

# Cold Food Storage Chart, FoodSafety.gov; a month is 30 days. (row, usual fridge, freezer, strict fridge, freezer)
CHART = [
    ("cooked meat or poultry", 4, 180, 3, 60),
    ("soups and stews", 4, 90, 3, 60),
    ("chicken nuggets or patties", 4, 90, 3, 30),
    ("pizza", 4, 60, 3, 30),
    ("casseroles with eggs", 4, 90, 3, 60),
    ("mixed salads", 4, None, 3, None),
    ("hard-cooked eggs", 7, None, 7, None),
    ("raw eggs in shell", 35, None, 21, None),
    ("raw egg whites", 4, 360, 2, 360),
    ("raw egg yolks", 4, None, 2, None),
    ("raw ground meat", 2, 120, 1, 90),
    ("raw steaks, chops, roasts", 5, 360, 3, 120),
    ("raw poultry pieces", 2, 270, 1, 270),
    ("raw fatty fish", 3, 90, 1, 60),
    ("bacon", 7, 30, 7, 30),
    ("luncheon meat, opened", 5, 60, 3, 30),
    ("cooked ham, slices", 5, 60, 3, 30),
    ("cooked sausage", 7, 60, 7, 30),
    ("hot dogs, opened", 7, 60, 7, 30),
    ("crab, lobster", 4, 120, 2, 60),
]  # fmt: skip


@pytest.mark.parametrize("strict", [False, True])
def test_every_row_of_the_chart_by_caution(kitchen: Kitchen, strict: bool) -> None:
    if strict:
        kitchen.household(*STRICT)
    for number, row in enumerate(CHART):
        front = dish("{item: 100 g carrots}", title=f"Dish {number}", more=f'keeps: "{row[0]}"\n')
        kitchen.recipe(f"dish-{number}", front)
    kitchen.build("--draft")
    found = {}
    for number, row in enumerate(CHART):
        keeps = kitchen.read(f"site/recipes/dish-{number}/facts.json")["keeps"]
        found[row[0]] = (keeps["fridge_days"], keeps["freezer_days"], keeps["freezes"])
    at = 3 if strict else 1
    assert found == {row[0]: (row[at], row[at + 1], row[2] is not None) for row in CHART}


@pytest.mark.parametrize(
    ("written", "fridge", "freezer"),
    [
        ("{fridge: 1 day, freezer: 1 month}", 1, 30),
        ("{fridge: 1 week, freezer: 6 weeks}", 7, 42),
        ("{fridge: 2 weeks, freezer: 12 months}", 14, 360),
        ("{freezer: 3 months, fridge: 5 days}", 5, 90),
        ('{"fridge": "2 days", freezer: 90 days}', 2, 90),
    ],
)
def test_own_times_are_the_same_for_either_caution(kitchen: Kitchen, written: str, fridge: int, freezer: int) -> None:
    kitchen.recipe("pot", dish(more=f"keeps: {written}\n"))
    for _ in range(2):
        keeps = kitchen.recipe_facts("pot")["keeps"]
        assert (keeps["fridge_days"], keeps["freezer_days"], keeps["freezes"]) == (fridge, freezer, True)
        kitchen.household(*STRICT)


def test_a_usual_eater_in_a_strict_household(kitchen: Kitchen) -> None:
    """Household strict: Wednesday 10; Tomas usual: Thursday 11. Thursday: Bea's frozen, Tomas's not."""
    kitchen.household(*STRICT).household("{name: Tomas,", "{name: Tomas, caution: usual,")
    kitchen.recipe("pot", dish(more="keeps: soups and stews\n"))
    facts = kitchen.week(plan("lunch: pot, for: [Tomas, Bea], on: [mon, thu], at: home")).facts()
    assert by(facts["servings"], "kept", "eater", "date") == {
        ("Tomas", day(8)): "fridge", ("Bea", day(8)): "fridge",
        ("Tomas", day(11)): "fridge", ("Bea", day(11)): "freezer",
    }  # fmt: skip
    assert only(facts["servings"], eater="Bea", date=day(8))["use_by"] == day(10)
    assert only(facts["servings"], eater="Tomas", date=day(8))["use_by"] == day(11)


def test_a_thawed_portion_of_a_strict_eater(kitchen: Kitchen) -> None:
    """Pulled Wednesday 10, 3 days: Saturday 13; the usual eater's Friday is pulled Thursday 11, 4 days: Monday 15."""
    kitchen.household(*STRICT_BEA).recipe("pot", dish(more="keeps: soups and stews\n"))
    meals = ("lunch: pot, for: Bea, on: thu, at: home", "lunch: pot, for: Tomas, on: fri, at: home")
    facts = kitchen.week(plan(*meals)).facts()
    assert [(s["eater"], s["pull_on"], s["use_by"]) for s in facts["servings"]] == [
        ("Bea", day(10), day(13)),
        ("Tomas", day(11), day(15)),
    ]


def test_two_sessions_two_cautions_and_no_freezing(kitchen: Kitchen) -> None:
    """3-4 days, not frozen. Tomas: Monday to Thursday from Sunday 7, Friday from Wednesday 10. Bea: Thursday too.
    Sunday 4 + 3, Wednesday 1 + 2."""
    kitchen.household(*STRICT_BEA).recipe("pot", dish(more="keeps: mixed salads\n"))
    meal = "lunch: pot, for: [Tomas, Bea], on: mon-fri, at: home"
    facts = kitchen.week(plan(meal, prep=SUNDAY_AND_WEDNESDAY)).facts()
    assert [(b["made_on"], b["portions_made"]) for b in facts["batches"]] == [(day(7), 7), (day(10), 3)]
    thursday = by([s for s in facts["servings"] if s["date"] == day(11)], "made_on", "eater")
    assert thursday == {"Tomas": day(7), "Bea": day(10)}
    friday = by([s for s in facts["servings"] if s["date"] == day(12)], "use_by", "eater")
    assert friday == {"Tomas": day(14), "Bea": day(13)}  # Wednesday 10 + 4, + 3
    assert facts["problems"] == [] and facts["pull_list"] == []


def test_a_later_session_is_itself_too_early(kitchen: Kitchen) -> None:
    """2 days, not frozen: Sunday 7 reaches Tuesday 9, Wednesday 10 reaches Friday 12; Saturday is too late."""
    kitchen.recipe("pot", dish(more="keeps: {fridge: 2 days}\nfreezes: no\n"))
    meal = "lunch: pot, for: Tomas, on: mon-sat, at: home"
    problems = kitchen.week(plan(meal, prep=SUNDAY_AND_WEDNESDAY)).check()
    # Wednesday's lunch is before Wednesday's session at 19:00 and day 3 from Sunday.
    assert codes(problems) == ["kept-too-long"] * len(problems)
    words = " ".join(p["message"] for p in problems)
    assert "Wednesday 10" in words and "Saturday 13" in words and "Friday 12" not in words


def test_dinner_on_the_day_of_a_session_that_starts_after_it(kitchen: Kitchen) -> None:
    """Wednesday's dinner is at 18:30, the session at 19:00: made on Sunday 7, day 3."""
    kitchen.recipe("pot", dish(more="keeps: {fridge: 3 days}\nfreezes: no\n"))
    facts = kitchen.week(plan("dinner: pot, for: Tomas, on: wed", prep=SUNDAY_AND_WEDNESDAY)).facts()
    assert [(s["made_on"], s["use_by"]) for s in facts["servings"]] == [(day(7), day(10))]


def test_two_sessions_on_one_day(kitchen: Kitchen) -> None:
    """Dinner at 18:30 on Tuesday 9: made at the session at 15:00, not at the one at 19:00 nor at 08:00."""
    prep = "prep:\n" + "".join(f'  - {{on: 2026-06-09, at: "{at}"}}\n' for at in ("08:00", "15:00", "19:00"))
    kitchen.recipe("pot", dish(), "## Prep day\n1. Chop. [10 min, cutting board]\n")
    facts = kitchen.week(plan("dinner: pot, for: Tomas, on: tue", prep=prep)).facts()
    with_tasks = [r for r in facts["run_sheets"] if r["tasks"]]
    assert [r["session"] for r in with_tasks] != [] and with_tasks[0]["start"] == "2026-06-09T15:00:00-05:00"
    assert len(with_tasks) == 1


@pytest.mark.parametrize(
    ("eater", "portions", "kept"),
    [
        ("Tomas", 5, {"fridge": 4, "freezer": 1}),
        ("Bea", 5, {"fridge": 3, "freezer": 2}),  # strict: Wednesday 10
        ("Tomas", 10, {"fridge": 8, "freezer": 2}),  # two a day: Monday to Friday
        ("Bea", 14, {"fridge": 6, "freezer": 8}),  # two a day, three days
        ("Tomas", 3, {"fridge": 3}),
    ],
)
def test_undated_portions_by_caution(kitchen: Kitchen, eater: str, portions: int, kept: dict[str, int]) -> None:
    kitchen.household(*STRICT_BEA).recipe("pot", dish(more="keeps: soups and stews\n"))
    facts = kitchen.week(plan(f"snack: pot, for: {eater}, portions: {portions}, at: home")).facts()
    assert Counter(s["kept"] for s in facts["servings"]) == kept
    assert len(facts["labels"]) == portions and facts["pull_list"] == []


def test_undated_portions_that_may_not_be_frozen(kitchen: Kitchen) -> None:
    """No day is fixed, so none is too late; every label says Wednesday 10, the last day of a strict eater."""
    kitchen.household(*STRICT_BEA).recipe("pot", dish(more="keeps: mixed salads\n"))
    facts = kitchen.week(plan("snack: pot, for: Bea, portions: 5, at: home")).facts()
    assert [(s["kept"], s["use_by"]) for s in facts["servings"]] == [("fridge", day(10))] * 5


@pytest.mark.parametrize(
    ("portion", "portions", "pull_on"),
    [
        ("1000 g", 1, day(11)),  # 2.2 lb: one night
        ("1000 g", 2, day(10)),  # 2,000 g in one container, 4.4 lb: two
        ("4 lb", 1, day(11)),
        ("65 oz", 1, day(10)),  # 4 lb 1 oz
        ("8 lb", 1, day(10)),
        ("8.5 lb", 1, day(9)),
    ],
)
def test_a_pull_by_the_weight_of_the_piece(kitchen: Kitchen, portion: str, portions: int, pull_on: str) -> None:
    """24 h for each 4 lb begun (FSIS, The Big Thaw: 4-5 lb), for Friday 12."""
    kitchen.recipe("pot", dish(f"{portion} carrots", more=f"portion: {portion}\nkeeps: {{fridge: 3 days}}\n"))
    facts = kitchen.week(plan(f"lunch: pot, for: Tomas, on: fri, at: home, portions: {portions}")).facts()
    assert [(p["pull_on"], p["portions"]) for p in facts["pull_list"]] == [(pull_on, portions)]


def test_frozen_for_monday_from_a_session_on_saturday(kitchen: Kitchen) -> None:
    """1 day from Saturday 6: Monday's is frozen and pulled on Sunday 7, the week before."""
    prep = 'prep:\n  - {on: 2026-06-06, at: "10:00"}\n'
    kitchen.recipe("pot", dish(more="keeps: {fridge: 1 day}\n"))
    facts = kitchen.week(plan("lunch: pot, for: Tomas, on: mon, at: home", prep=prep)).facts()
    assert [(s["kept"], s["made_on"], s["pull_on"], s["use_by"]) for s in facts["servings"]] == [
        ("freezer", day(6), day(7), day(8))
    ]


def test_two_lines_of_a_dish_on_both_sides_of_a_session(kitchen: Kitchen) -> None:
    """The line of Monday and Friday is made on Sunday (Friday frozen), the line of Thursday on Wednesday."""
    kitchen.recipe("pot", dish(more="keeps: soups and stews\n"))
    meals = ("lunch: pot, for: Tomas, on: [mon, fri], at: home", "dinner: pot, for: Ilka, on: thu")
    facts = kitchen.week(plan(*meals, prep=SUNDAY_AND_WEDNESDAY)).facts()
    assert by(facts["servings"], "made_on") == {day(8): day(7), day(12): day(7), day(11): day(10)}
    assert by(facts["servings"], "kept") == {day(8): "fridge", day(12): "freezer", day(11): "fridge"}


def test_made_and_strict_and_frozen(kitchen: Kitchen) -> None:
    """Made on Wednesday 10 by its line; Bea strict, 1 day (raw ground meat's 1-2): Friday frozen, pulled Thursday."""
    kitchen.household(*STRICT_BEA)
    kitchen.recipe("pot", dish(more="keeps: raw ground meat\n"))
    meal = "dinner: pot, for: [Tomas, Bea], on: [thu, fri], made: 2026-06-10"
    facts = kitchen.week(plan(meal, prep=SUNDAY_AND_WEDNESDAY)).facts()
    assert by(facts["servings"], "kept", "eater", "date") == {
        ("Tomas", day(11)): "fridge", ("Bea", day(11)): "fridge",
        ("Tomas", day(12)): "fridge", ("Bea", day(12)): "freezer",
    }  # fmt: skip
    assert [(p["pull_on"], p["eater"]) for p in facts["pull_list"]] == [(day(11), "Bea")]


def test_a_remedy_for_a_strict_eater_only(kitchen: Kitchen) -> None:
    """Thursday is too late for Bea alone: the message names her day and not Tomas."""
    kitchen.household(*STRICT_BEA).recipe("pot", dish(more="keeps: mixed salads\n"))
    problem = only(
        kitchen.week(plan("lunch: pot, for: [Tomas, Bea], on: [mon, thu], at: home")).check(), code="kept-too-long"
    )
    assert "Thursday 11" in problem["message"] and "Tomas" not in problem["message"]


KIT = "title: Kit\nform: kit\nmakes: 2 portions\ningredients:\n  Set: [200 g rice]\n  Raw, apart: [400 g ground beef]\n"


@pytest.mark.parametrize(
    ("eaters", "date", "kept"),
    [
        ("[Ilka, Tomas]", "tue", {"fridge"}),
        ("[Tomas, Bea]", "tue", {"freezer"}),  # one pack, the strictest of them: Monday 8
        ("[Tomas, Bea]", "mon", {"fridge"}),
    ],
)
def test_a_kit_is_as_cautious_as_its_most_cautious_eater(
    kitchen: Kitchen, eaters: str, date: str, kept: set[str]
) -> None:
    kitchen.household(*STRICT_BEA).recipe("kit", KIT + "keeps: raw ground meat\n")
    facts = kitchen.week(plan(f"dinner: kit, for: {eaters}, on: {date}")).facts()
    assert {s["kept"] for s in facts["servings"]} == kept


def test_a_kit_for_a_later_session_when_it_may_not_be_frozen(kitchen: Kitchen) -> None:
    """Raw ground meat 1-2 days; Thursday 11 from Wednesday 10, day 1; Tuesday 9 from Sunday 7, day 2."""
    kitchen.recipe("kit", KIT + "keeps: raw ground meat\nfreezes: no\n")
    facts = kitchen.week(plan("dinner: kit, for: Tomas, on: [tue, thu]", prep=SUNDAY_AND_WEDNESDAY)).facts()
    assert by(facts["servings"], "made_on") == {day(9): day(7), day(11): day(10)}
    assert len(facts["labels"]) == 4 and facts["problems"] == []


def test_a_kit_pulled_by_the_weight_of_its_raw_part(kitchen: Kitchen) -> None:
    """1,500 g for each portion: 3 kg for two, 6.6 lb: two nights before Friday 12, not by the set's weight."""
    front = KIT.replace("400 g ground beef", "3000 g ground beef").replace("200 g rice", "3000 g rice")
    kitchen.recipe("kit", front + "keeps: raw ground meat\n")
    facts = kitchen.week(plan("dinner: kit, for: [Ilka, Tomas], on: fri")).facts()
    assert {p["pull_on"] for p in facts["pull_list"]} == {day(10)}


def test_what_is_kept_in_the_cupboard(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish(more="keeps: {cupboard: 10 days}\n"))
    facts = kitchen.week(plan("snack: pot, for: Bea, on: [mon, sun], at: home")).facts()
    assert {(s["kept"], s["use_by"]) for s in facts["servings"]} == {("cupboard", day(17))}


def test_sessions_in_any_order_of_lines(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish(more="keeps: mixed salads\n"))
    prep = 'prep:\n  - {on: 2026-06-10, at: "19:00"}\n  - {at: "13:00", on: 2026-06-07, cooks: 2}\n'
    facts = kitchen.week(plan("lunch: pot, for: Tomas, on: mon-fri, at: home", prep=prep)).facts()
    assert [s["made_on"] for s in facts["servings"]] == [day(7)] * 4 + [day(10)]
    assert [r["start"] for r in facts["run_sheets"]] == ["2026-06-07T13:00:00-05:00", "2026-06-10T19:00:00-05:00"]


@pytest.mark.parametrize(
    "days",
    [
        "mon-fri",
        "[mon, tue, wed, thu, fri]",
        "[mon-wed, thu-fri]",
        "[mon-wed, 2026-06-11, fri]",
        "MON-FRI",
        "[monday, tuesday, wednesday, thu, fri]",
    ],
)
def test_days_in_several_spellings(kitchen: Kitchen, days: str) -> None:
    facts = kitchen.recipe("pot", dish()).week(plan(f"lunch: pot, for: Tomas, on: {days}, at: home")).facts()
    assert [s["date"] for s in facts["servings"]] == [day(n) for n in range(8, 13)]


def test_sunday_is_the_last_day_of_its_week(kitchen: Kitchen) -> None:
    """7 days of keeping from Sunday 7: Sunday 14 is the last."""
    kitchen.recipe("pot", dish(more="keeps: {fridge: 1 week}\nfreezes: no\n"))
    facts = kitchen.week(plan("lunch: pot, for: Tomas, on: sat-sun, at: home", prep=SUNDAY)).facts()
    assert by(facts["servings"], "use_by") == {day(13): day(14), day(14): day(14)} and facts["problems"] == []
