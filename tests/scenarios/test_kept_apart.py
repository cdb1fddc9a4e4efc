"""A week in which one eater avoids milk and another is served it: what the sheet, the page and `binder check` say."""

from __future__ import annotations

import re

import pytest

from tests.kitchen import Kitchen, only
from tests.scenarios.dishes import SUNDAY, dish, plan

STEW = "\n## Prep day\n1. Cut. [10 min]\n2. Simmer. [unattended 40 min, burner]\n3. Portion. [10 min]\n"
SAUCE = "\n## Prep day\n1. Whisk. [20 min]\n"
COLD = "reheat: [cold]\n"


@pytest.fixture
def week(kitchen: Kitchen) -> Kitchen:
    kitchen.household("  - name: Ilka\n", "  - name: Ilka\n    avoids: [milk]\n")
    kitchen.recipe("stew", dish(more=COLD, title="Carrot stew"), STEW)
    kitchen.recipe("sauce", dish("400 g milk", more=COLD, title="White sauce"), SAUCE)
    meals = ("lunch: stew, for: Ilka, on: mon, at: home", "lunch: sauce, for: Tomas, on: mon, at: home")
    return kitchen.week(plan(*meals, prep=SUNDAY))


def page(of: Kitchen) -> str:
    of.write()
    made = of.run("build", str(of.content), "--out", str(of.out), "--today", "2026-06-07", "--only", "site")
    assert made.exit_code == 0, made.output
    text = (of.out / "site/weeks/2026-W24/run-sheet/index.html").read_text("utf-8")
    return " ".join(re.sub(r"<[^>]+>", " ", text).replace("&#39;", "'").replace("\u00a0", " ").split())


def test_the_longer_sheet_is_the_one_that_is_proven_and_its_minutes_are_in_the_facts(week: Kitchen) -> None:
    (sheet,) = week.facts()["run_sheets"]
    assert (sheet["minutes"], sheet["at_least_minutes"], sheet["proven"], sheet["apart_minutes"]) == (80, 80, True, 20)
    assert only(sheet["tasks"], id="sauce/1")["apart_after"] == ["stew/3"]
    assert only(sheet["tasks"], id="sauce/1")["after"] == []


def test_without_the_eaters_food_in_the_session_the_sheet_is_the_shortest(week: Kitchen) -> None:
    week.week(plan("lunch: stew, for: Bea, on: mon, at: home", "lunch: sauce, for: Tomas, on: mon, at: home"))
    (sheet,) = week.facts()["run_sheets"]
    assert (sheet["minutes"], sheet["apart_minutes"]) == (60, 0)


def test_the_page_says_what_is_kept_apart_where_it_begins_and_what_it_costs(week: Kitchen) -> None:
    said = page(week)
    assert "Ilka's food is closed and put away before milk is in hand." in said
    assert "This takes 20 min more than the shortest order." in said
    assert "No order of these steps that keeps this apart ends sooner: proven." in said
    assert "From here on milk is in hand: Ilka's food is closed and put away. Whisk." in said
    assert "Cannot be kept apart" not in said


@pytest.mark.parametrize(("word", "are"), [("milk", "is"), ("tree nuts", "are"), ("citrus", "is"), ("eggs", "are")])
def test_one_is_in_hand_several_are(word: str, are: str) -> None:
    from binder.pages.run_sheet import _are
    from binder.pages.words.en import ENGLISH

    assert _are(word, ENGLISH) == are and _are(f"{word} (almonds)", ENGLISH) == are


def test_what_cannot_be_kept_apart_is_said_with_the_wash_that_is_due(week: Kitchen) -> None:
    week.household("  - {name: Tomas,", "  - {name: Tomas, avoids: [eggs],")
    week.recipe("stew", dish("4 eggs", more=COLD, title="Carrot stew"), STEW)
    said = page(week)
    assert "Cannot be kept apart: wash up between" in said
    assert "Tomas's White sauce and Carrot stew (eggs): wash up board, knife, bowls, sink and hands" in said
    assert said.count("Then wash up board, knife, bowls and hands: eggs.") == 2
    lines = week.run("check", str(week.content), "--today", "2026-06-07").stdout
    assert "; 20 min of it to keep Ilka's food and milk apart; Tomas's food and eggs cannot be kept apart" in lines


def test_check_says_the_minutes_before_anything_is_printed(week: Kitchen) -> None:
    week.write()
    line = week.run("check", str(week.content), "--today", "2026-06-07").stdout.splitlines()[0]
    assert line.endswith("1 h 20 min, proven shortest; 20 min of it to keep Ilka's food and milk apart")
    week.week(plan("lunch: stew, for: Ilka, on: mon, at: home")).write()
    assert "apart" not in week.run("check", str(week.content), "--today", "2026-06-07").stdout


def test_no_eater_and_nothing_avoided_is_named_in_the_facts_of_the_sheet(week: Kitchen) -> None:
    sheets = repr(week.facts()["run_sheets"])
    assert "Ilka" not in sheets and "milk" not in sheets
