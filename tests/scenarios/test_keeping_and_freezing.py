"""How long portions keep, what is frozen, when it is pulled, and which session makes it."""

from __future__ import annotations

import pytest

from tests.kitchen import Kitchen, codes, only
from tests.scenarios.dishes import SUNDAY, SUNDAY_AND_WEDNESDAY, by, day, dish, plan

MON_FRI = "lunch: pot, for: Tomas, on: mon-fri, at: home"


def kept(kitchen: Kitchen, keeps: str, meals: str = MON_FRI, prep: str = SUNDAY) -> dict:
    return kitchen.recipe("pot", dish(more=keeps)).week(plan(meals, prep=prep)).facts()


def test_own_times_with_a_freezer_life(kitchen: Kitchen) -> None:
    """3 days from Sunday 7: Wednesday 10; Thursday's and Friday's frozen, pulled the evening before."""
    facts = kept(kitchen, "keeps: {fridge: 3 days, freezer: 2 months}\n")
    assert by(facts["servings"], "kept") == {
        day(8): "fridge", day(9): "fridge", day(10): "fridge", day(11): "freezer", day(12): "freezer",
    }  # fmt: skip
    assert [p["pull_on"] for p in facts["pull_list"]] == [day(10), day(11)]
    assert {s["use_by"] for s in facts["servings"] if s["kept"] == "fridge"} == {day(10)}
    keeps = kitchen.read("site/recipes/pot/facts.json")["keeps"]
    assert (keeps["fridge_days"], keeps["freezer_days"], keeps["freezes"]) == (3, 60, True)


def test_own_times_without_a_freezer_leave_it_open(kitchen: Kitchen) -> None:
    facts = kept(kitchen, "keeps: {fridge: 2 days}\n")
    assert [s["kept"] for s in facts["servings"]] == ["fridge"] * 2 + ["freezer"] * 3
    keeps = kitchen.read("site/recipes/pot/facts.json")["keeps"]
    assert (keeps["fridge_days"], keeps["freezer_days"], keeps["freezes"]) == (2, None, True)


def test_own_times_that_do_not_freeze(kitchen: Kitchen) -> None:
    facts = kept(kitchen, "keeps: {fridge: 2 days}\nfreezes: no\n")
    problem = only(facts["problems"], code="kept-too-long")
    assert "Wednesday 10" in problem["message"] and problem["line"] == 6
    assert kitchen.read("site/recipes/pot/facts.json")["keeps"]["freezes"] is False


@pytest.mark.parametrize(("caution", "fridge", "freezer"), [("usual", 4, 180), ("strict", 3, 60)])
@pytest.mark.parametrize("form", ["ready", "assemble", "kit"])
def test_without_a_word_any_form_keeps_as_cooked_leftovers(
    kitchen: Kitchen, form: str, caution: str, fridge: int, freezer: int
) -> None:
    """3-4 days, 2-6 months of 30 days."""
    kitchen.household("time zone", f"caution: {caution}\ntime zone").recipe("pot", dish(form=form))
    keeps = kitchen.recipe_facts("pot")["keeps"]
    assert (keeps["fridge_days"], keeps["freezer_days"], keeps["freezes"]) == (fridge, freezer, True)


def test_each_eater_by_its_own_caution(kitchen: Kitchen) -> None:
    """Bea strict: 3 days, Thursday frozen; Tomas usual: 4 days, Thursday from the refrigerator. One batch."""
    kitchen.household("{name: Bea, eats", "{name: Bea, caution: strict, eats")
    facts = kept(kitchen, "keeps: soups and stews\n", "lunch: pot, for: [Tomas, Bea], on: mon-thu, at: home")
    thursday = by([s for s in facts["servings"] if s["date"] == day(11)], "kept", "eater")
    assert thursday == {"Tomas": "fridge", "Bea": "freezer"}
    monday = by([s for s in facts["servings"] if s["date"] == day(8)], "use_by", "eater")
    assert monday == {"Tomas": day(11), "Bea": day(10)}
    assert only(facts["batches"], recipe="pot")["portions_made"] == 8
    assert [(p["eater"], p["pull_on"], p["date"]) for p in facts["pull_list"]] == [("Bea", day(10), day(11))]


def test_freezing_comes_before_a_later_session(kitchen: Kitchen) -> None:
    facts = kept(kitchen, "keeps: soups and stews\n", prep=SUNDAY_AND_WEDNESDAY)
    friday = only(facts["servings"], date=day(12))
    assert (friday["kept"], friday["made_on"], friday["pull_on"]) == ("freezer", day(7), day(11))


def test_what_does_not_freeze_is_made_at_a_later_session(kitchen: Kitchen) -> None:
    """Mixed salads do not freeze well: 4 days from Sunday, Friday's from Wednesday 10."""
    facts = kept(kitchen, "keeps: mixed salads\n", prep=SUNDAY_AND_WEDNESDAY)
    assert by(facts["servings"], "made_on")[day(12)] == day(10)
    assert [(b["made_on"], b["portions_made"]) for b in facts["batches"]] == [(day(7), 4), (day(10), 1)]
    assert facts["problems"] == []


def test_freezes_yes_lets_a_salad_be_frozen(kitchen: Kitchen) -> None:
    facts = kept(kitchen, "keeps: mixed salads\nfreezes: yes\n")
    assert by(facts["servings"], "kept")[day(12)] == "freezer"


def test_the_latest_session_over_before_the_first_meal(kitchen: Kitchen) -> None:
    facts = kept(kitchen, "", "lunch: pot, for: Tomas, on: thu-fri, at: home", SUNDAY_AND_WEDNESDAY)
    assert {s["made_on"] for s in facts["servings"]} == {day(10)}


def test_a_line_that_names_its_session_stays_there(kitchen: Kitchen) -> None:
    """Made Sunday: Thursday is day 4, Friday's frozen, although a session on Wednesday could make both."""
    meals = "lunch: pot, for: Tomas, on: thu-fri, at: home, made: 2026-06-07"
    facts = kept(kitchen, "keeps: soups and stews\n", meals, SUNDAY_AND_WEDNESDAY)
    assert [(s["made_on"], s["kept"]) for s in facts["servings"]] == [(day(7), "fridge"), (day(7), "freezer")]


def test_named_session_with_what_does_not_freeze_is_too_late(kitchen: Kitchen) -> None:
    meals = "lunch: pot, for: Tomas, on: thu-fri, at: home, made: 2026-06-07"
    facts = kept(kitchen, "keeps: mixed salads\n", meals, SUNDAY_AND_WEDNESDAY)
    assert "Friday 12" in only(facts["problems"], code="kept-too-long")["message"]


@pytest.mark.parametrize(
    ("meals", "prep"),
    [
        ("lunch: pot, for: Tomas, on: mon, at: home, made: 2026-06-09", SUNDAY_AND_WEDNESDAY),  # no such session
        ("lunch: pot, for: Tomas, on: mon-fri, at: home, made: 2026-06-10", SUNDAY_AND_WEDNESDAY),  # after Monday
        ("lunch: pot, for: Tomas, on: mon, at: home", 'prep:\n  - {on: 2026-06-08, at: "13:00"}\n'),  # after noon
        ("lunch: pot, for: Tomas, on: mon, at: home", ""),
    ],
)
def test_no_session_in_time(kitchen: Kitchen, meals: str, prep: str) -> None:
    kitchen.recipe("pot", dish()).week(plan(meals, prep=prep))
    problem = only(kitchen.check(), code="no-prep-before")
    at = len(f"---\nweek: x\n{prep}meals:\n".splitlines()) + 1
    assert problem["path"].endswith("weeks/2026-W24.md") and problem["line"] == at


def test_dinner_on_the_day_of_the_session(kitchen: Kitchen) -> None:
    """Over by 18:30: made that day, day 0."""
    prep = 'prep:\n  - {on: 2026-06-08, at: "13:00"}\n'
    facts = kept(kitchen, "", "dinner: pot, for: Tomas, on: mon", prep)
    assert [(s["made_on"], s["kept"], s["use_by"]) for s in facts["servings"]] == [(day(8), "fridge", day(12))]


@pytest.mark.parametrize(("minutes", "found"), [(55, []), (65, ["no-prep-before"])])
def test_a_session_that_runs_past_the_meal_is_not_over_before_it(
    kitchen: Kitchen, minutes: int, found: list[str]
) -> None:
    """Lunch at 12:00, session from 11:00."""
    body = f"## Prep day\n1. Simmer. [unattended {minutes} min, burner]\n"
    prep = 'prep:\n  - {on: 2026-06-08, at: "11:00"}\n'
    kitchen.recipe("pot", dish(), body).week(plan("lunch: pot, for: Tomas, on: mon, at: home", prep=prep))
    assert codes(kitchen.check(), "error") == found


def test_meal_times_of_the_household_count(kitchen: Kitchen) -> None:
    kitchen.household("time zone", 'meal times: {lunch: "13:30"}\ntime zone')
    prep = 'prep:\n  - {on: 2026-06-08, at: "12:30"}\n'
    kitchen.recipe("pot", dish(), "## Prep day\n1. Simmer. [unattended 30 min, burner]\n")
    assert kitchen.week(plan("lunch: pot, for: Tomas, on: mon, at: home", prep=prep)).check() == []


def test_without_fixed_days_kept_as_long_as_it_keeps_the_rest_frozen(kitchen: Kitchen) -> None:
    """One a day from Monday 8; 4 days from Sunday 7 end on Thursday 11: four in the refrigerator, three frozen."""
    facts = kept(kitchen, "keeps: soups and stews\n", "snack: pot, for: Bea, portions: 7, at: home")
    assert sorted(s["kept"] for s in facts["servings"]) == ["freezer"] * 3 + ["fridge"] * 4
    assert {s["date"] for s in facts["servings"]} == {None}
    assert {s["pull_on"] for s in facts["servings"]} == {None} and facts["pull_list"] == []
    assert facts["day_totals"] == [] and len(facts["labels"]) == 7
    assert only(facts["batches"], recipe="pot")["portions_needed"] == 7


def test_with_fixed_days_so_many_for_each_eater_at_each_meal(kitchen: Kitchen) -> None:
    facts = kept(kitchen, "", "lunch: pot, for: [Ilka, Bea], on: mon-tue, portions: 1.5, at: home")
    assert [s["portions"] for s in facts["servings"]] == [1.5] * 4
    assert only(facts["batches"], recipe="pot")["portions_needed"] == 6


def test_portions_by_eater(kitchen: Kitchen) -> None:
    facts = kept(kitchen, "", "lunch: pot, for: everyone, on: mon-tue, portions: {Bea: 0.5, Ilka: 2}, at: home")
    assert by(facts["servings"], "portions", "date", "eater")[(day(9), "Bea")] == 0.5
    assert only(facts["batches"], recipe="pot")["portions_needed"] == 2 * (2 + 1 + 0.5)


def test_portions_by_eater_without_a_day(kitchen: Kitchen) -> None:
    facts = kept(kitchen, "", "snack: pot, for: [Bea, Tomas], portions: {Bea: 2.5, Tomas: 1}, at: home")
    found: dict[str, float] = {}
    for serving in facts["servings"]:
        found[serving["eater"]] = found.get(serving["eater"], 0) + serving["portions"]
    assert found == {"Bea": 2.5, "Tomas": 1}


OWN_FOODS = """\
- {name: oat thins, keeps: {cupboard: 10 days}, contains: [], label: {serving: 100 g, energy: 400 kcal}}
- {name: bean dip, keeps: {fridge: 5 days}, contains: [], label: {serving: 100 g, energy: 200 kcal}}
- {name: mystery bar, contains: [], label: {serving: 100 g, energy: 300 kcal}}
"""


@pytest.mark.parametrize(
    ("lines", "form", "kept_in", "use_by"),
    [
        (("30 g oat thins",), "portioned", "cupboard", day(17)),
        (("30 g oat thins",), "ready", "fridge", day(11)),  # any other form: cooked leftovers
        (("60 g bean dip",), "portioned", "fridge", day(12)),
        (("30 g oat thins", "60 g bean dip"), "portioned", "fridge", day(12)),  # the earliest counts
        (("30 g mystery bar",), "portioned", "fridge", day(11)),  # not known: cooked leftovers
    ],
)
def test_only_what_is_portioned_keeps_as_its_food(
    kitchen: Kitchen, lines: tuple[str, ...], form: str, kept_in: str, use_by: str
) -> None:
    kitchen.file("foods.yaml", OWN_FOODS).recipe("pot", dish(*lines, form=form))
    facts = kitchen.week(plan("snack: pot, for: Bea, on: tue, at: home")).facts()
    assert [(s["kept"], s["use_by"]) for s in facts["servings"]] == [(kept_in, use_by)]


def test_a_keeping_row_for_dry_goods_is_the_cupboard(kitchen: Kitchen) -> None:
    facts = kept(kitchen, "keeps: crackers and dry biscuits\n")
    assert {(s["kept"], s["use_by"]) for s in facts["servings"]} == {("cupboard", day(21))}


@pytest.mark.parametrize(("grams", "pull_on"), [(1814, day(11)), (1815, day(10)), (3700, day(9))])
def test_nights_to_thaw_by_the_weight_of_one_piece(kitchen: Kitchen, grams: int, pull_on: str) -> None:
    """24 h for each 4 lb (1,814.4 g) begun."""
    more = f"portion: {grams} g\nkeeps: {{fridge: 3 days}}\n"
    facts = (
        kitchen.recipe("pot", dish(f"{grams} g carrots", more=more))
        .week(plan("lunch: pot, for: Tomas, on: fri, at: home"))
        .facts()
    )
    assert [(s["kept"], s["pull_on"]) for s in facts["servings"]] == [("freezer", pull_on)]


def test_what_could_not_thaw_in_time_is_not_frozen(kitchen: Kitchen) -> None:
    """2 kg thaw in two nights; made Sunday for Tuesday it would be pulled as it goes in."""
    more = "portion: 2 kg\nkeeps: {fridge: 1 day}\n"
    kitchen.recipe("pot", dish("2 kg carrots", more=more)).week(plan("lunch: pot, for: Tomas, on: tue, at: home"))
    assert codes(kitchen.check()) == ["kept-too-long"]


def test_use_by_of_a_frozen_serving_is_its_last_day_after_pulling(kitchen: Kitchen) -> None:
    facts = kept(kitchen, "keeps: {fridge: 1 day}\n", "lunch: pot, for: Tomas, on: [tue, fri], at: home")
    assert [(s["pull_on"], s["use_by"]) for s in facts["servings"]] == [(day(8), day(9)), (day(11), day(12))]


def test_a_home_without_a_freezer_freezes_nothing(kitchen: Kitchen) -> None:
    kitchen.household(", freezer]\n  - {name: ward", "]\n  - {name: ward")
    facts = kept(kitchen, "keeps: soups and stews\n")
    assert codes(facts["problems"]) == ["kept-too-long"]
