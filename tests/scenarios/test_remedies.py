"""Every remedy of every error of the plan is followed to the letter and the plan checked again: it is cleared."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
import yaml

from tests.kitchen import Kitchen, only
from tests.scenarios.dishes import SUNDAY, dish, plan

WEEK_FILE = "weeks/2026-W24.md"
TWO_DAYS = "keeps: {fridge: 2 days}\nfreezes: no\n"
NUTS = "avoids: [peanuts], "


@pytest.fixture
def kitchen(tmp_path: Path) -> Kitchen:
    """A library with other dishes to offer; two of them will not do."""
    made = Kitchen(tmp_path)
    made.recipe("rice", dish("100 g rice", title="Rice, plain", more="keeps: {fridge: 9 days}\nreheat: [cold]\n"))
    made.recipe("toast", dish("80 g bread", title="Toast", more='reheat: ["oven 350 F, 5 min"]\n'))
    made.recipe("brittle", dish("50 g peanuts", title="Brittle"))
    return made


def followed(text: str, problem: dict, remedy: str) -> str:
    """The week's file once a remedy is done: whole lines and keys between backticks, or the line taken out."""
    lines = text.splitlines()
    at = problem["line"] - 1
    written = re.findall("`([^`]+)`", remedy)
    if "take this line out" in remedy:
        return "\n".join([*lines[:at], *lines[at + 1 :]])
    for one in written:
        yaml.safe_load(one)
    if "under prep" in remedy:
        return text.replace("meals:", f"  {written[0]}\nmeals:", 1)
    if written[0].startswith("prep:"):
        return text.replace("meals:", f"{written[0]}\nmeals:", 1)
    if written[0].startswith("- "):
        return "\n".join([*lines[:at], *(f"  {one}" for one in written), *lines[at + 1 :]])
    key = written[0].partition(":")[0]
    # A key of the line: what stands there is replaced, or it is added.
    old = re.search(rf"\b{key}: (\[[^\]]*\]|[^,}}]+)", lines[at])
    lines[at] = lines[at].replace(old[0], written[0]) if old else lines[at].replace("}", f", {written[0]}}}")
    return "\n".join(lines)


def all_clear(kitchen: Kitchen, code: str, least: int = 1, eater: str = "") -> list[str]:
    """The remedies of the one problem of a code, each followed, each clearing it without a new error."""
    before = kitchen.check()
    found = [p for p in before if p["code"] == code and f" for {eater}" in p["message"] + f" for {eater}" * (not eater)]
    problem = only(found, code=code)
    tried = [remedy for remedy in problem["remedies"] if "when it is there" not in remedy]
    assert len(tried) >= least, problem
    text = kitchen.files[WEEK_FILE]
    for remedy in tried:
        kitchen.files[WEEK_FILE] = followed(text, problem, remedy) + "\n"
        after = [p for p in kitchen.check() if p["severity"] == "error"]
        left = [p["message"] for p in after if p["code"] == code and f" for {eater} " in p["message"] + " for  "]
        assert left == [], remedy
        assert {p["code"] for p in after} <= {p["code"] for p in before}, remedy
        assert kitchen.files[WEEK_FILE].strip() != text.strip(), remedy
    kitchen.files[WEEK_FILE] = text
    return tried


def test_avoided_food(kitchen: Kitchen) -> None:
    kitchen.household("{name: Tomas,", f"{{name: Tomas, {NUTS}")
    kitchen.recipe("pot", dish("50 g peanuts", title="Pot"))
    kitchen.week(plan("lunch: pot, for: [Ilka, Tomas], on: mon-wed, at: home, portions: {Tomas: 2}"))
    tried = all_clear(kitchen, "avoided-food", 3)
    assert not any("brittle" in remedy for remedy in tried)
    assert any("portions: {Tomas: 2}" in remedy for remedy in tried)


def test_avoided_by_all_who_eat_it(kitchen: Kitchen) -> None:
    kitchen.household("{name: Tomas,", f"{{name: Tomas, {NUTS}")
    kitchen.recipe("pot", dish("50 g peanuts", title="Pot for two"))
    kitchen.week(plan("dinner: pot, for: Tomas, on: mon"))
    assert all_clear(kitchen, "avoided-food")[0].startswith("another dish: `dinner: rice`")


@pytest.mark.parametrize("eater", ["Tomas", "Bea"])
def test_two_eaters_with_the_same_trouble_have_ways_out_of_their_own(kitchen: Kitchen, eater: str) -> None:
    kitchen.household("{name: Tomas,", f"{{name: Tomas, {NUTS}").household("{name: Bea,", f"{{name: Bea, {NUTS}")
    kitchen.recipe("pot", dish("50 g peanuts", title="Pot"))
    kitchen.week(plan("dinner: pot, for: everyone, on: mon"))
    tried = all_clear(kitchen, "avoided-food", 2, eater)
    assert any(f"leave {eater} out" in remedy for remedy in tried)


def test_banned_at_a_place(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish("50 g peanuts", title="Pot"))
    kitchen.week(plan("lunch: pot, for: [Ilka, Bea], on: [mon, thu]"))
    assert len(all_clear(kitchen, "banned-at-place", 3)) >= 3


def test_kept_too_long(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish(title="Pot", more=TWO_DAYS))
    kitchen.week(plan("lunch: pot, for: [Ilka, Tomas], on: mon-wed, at: home"))
    tried = all_clear(kitchen, "kept-too-long", 3)
    assert [remedy.partition(":")[0] for remedy in tried[:2]] == ["a prep session on Tuesday 9 June", "an earlier day"]
    assert "`- {lunch: pot, for: [Ilka, Tomas], on: [mon, tue], at: home}`" in tried[2]


def test_kept_too_long_on_its_only_day(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish(title="Pot", more=TWO_DAYS)).week(plan("dinner: pot, for: Bea, on: sun"))
    tried = all_clear(kitchen, "kept-too-long", 3)
    assert "`on: tue`" in tried[1]


def test_kept_too_long_from_the_session_it_names(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish(title="Pot", more=TWO_DAYS))
    prep = SUNDAY + '  - {on: 2026-06-10, at: "19:00"}\n'
    kitchen.week(plan("dinner: pot, for: Bea, on: thu, made: 2026-06-07", prep=prep))
    assert "made" not in all_clear(kitchen, "kept-too-long")[0].partition("`")[2]


def test_cannot_reheat(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish(title="Pot", more='reheat: ["oven 350 F, 20 min"]\n'))
    kitchen.week(plan("lunch: pot, for: [Ilka, Tomas], on: mon, at: survey van"))
    tried = all_clear(kitchen, "cannot-reheat", 3, "Ilka")
    assert not any("toast" in remedy for remedy in tried)


def test_cannot_finish(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish(title="Pot", more="needs: [kettle]\n"))
    kitchen.week(plan("lunch: pot, for: Ilka, on: mon"))
    assert len(all_clear(kitchen, "cannot-finish", 2)) >= 2


def test_cannot_finish_is_said_once_for_all_who_eat_it_there(kitchen: Kitchen) -> None:
    """Nobody at the van has a kettle: one finding, every eater named, each way out for all of them at once."""
    kitchen.recipe("pot", dish(title="Pot", more="needs: [kettle]\n"))
    kitchen.week(plan("lunch: pot, for: everyone, on: [mon, wed], at: survey van"))
    problem = only(kitchen.check(), code="cannot-finish")
    words = "Pot for Ilka, Tomas and Bea on Monday 8 June and Wednesday 10 June cannot be finished at survey van"
    assert problem["message"] == f"{words}: no kettle there" and problem["line"] == 6
    assert "when it is there: write kettle into what survey van has, in household.yaml" in problem["remedies"]
    assert len(all_clear(kitchen, "cannot-finish", 3)) >= 3


def test_cannot_finish_at_two_places_has_ways_out_of_their_own(kitchen: Kitchen) -> None:
    """Lunch at the van and at the school, each without a kettle; Tomas has one at the ward."""
    kitchen.recipe("pot", dish(title="Pot", more="needs: [kettle]\n"))
    kitchen.week(plan("lunch: pot, for: everyone, on: mon"))
    found = [p for p in kitchen.check() if p["code"] == "cannot-finish"]
    assert [(" for Bea " in p["message"], " at school:" in p["message"]) for p in found] == [(True,) * 2, (False,) * 2]
    for eater in ("Ilka", "Bea"):
        tried = all_clear(kitchen, "cannot-finish", 2, eater)
        assert any(f"leave {eater} out" in remedy for remedy in tried)


def test_the_one_eater_of_a_line_with_no_other_dish_can_leave_it_out(kitchen: Kitchen) -> None:
    kitchen.household("{name: Tomas,", f"{{name: Tomas, {NUTS}")
    kitchen.files = {path: text for path, text in kitchen.files.items() if not path.startswith("recipes/")}
    kitchen.recipe("pot", dish("50 g peanuts", title="Pot"))
    kitchen.week(plan("dinner: pot, for: Tomas, on: mon"))
    assert all_clear(kitchen, "avoided-food") == ["leave the dish out: take this line out"]


@pytest.mark.parametrize(
    ("food", "words"),
    [("almonds", "contains tree nuts (almonds);"), ("almond butter", "contains tree nuts (almonds: almond butter);")],
)
def test_an_allergen_that_names_its_food_says_it_once(kitchen: Kitchen, food: str, words: str) -> None:
    kitchen.household("{name: Tomas,", "{name: Tomas, avoids: [tree nuts],")
    kitchen.recipe("pot", dish(f"50 g {food}", title="Pot")).week(plan("dinner: pot, for: Tomas, on: mon"))
    assert words in only(kitchen.check(), code="avoided-food")["message"]


def test_no_prep_before(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish(title="Pot"))
    kitchen.week(plan("lunch: pot, for: Ilka, on: mon-wed", prep='prep:\n  - {on: 2026-06-08, at: "19:00"}\n'))
    tried = all_clear(kitchen, "no-prep-before", 2)
    assert any("`on: [tue, wed]`" in remedy for remedy in tried)


def test_no_prep_before_its_only_day(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish(title="Pot"))
    kitchen.week(plan("lunch: pot, for: Ilka, on: mon", prep='prep:\n  - {on: 2026-06-09, at: "19:00"}\n'))
    assert any("`on: wed`" in remedy for remedy in all_clear(kitchen, "no-prep-before", 2))


def test_no_prep_at_all(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish(title="Pot")).week(plan("lunch: pot, for: Ilka, on: mon", prep=""))
    assert any("`prep: [{on: " in remedy for remedy in all_clear(kitchen, "no-prep-before"))


def test_the_session_that_made_names_is_missing(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish(title="Pot")).week(plan("lunch: pot, for: Ilka, on: thu, made: 2026-06-09"))
    tried = all_clear(kitchen, "no-prep-before", 2)
    assert any("Tuesday 9 June" in remedy for remedy in tried)


@pytest.mark.parametrize(("on_hand", "least"), [(2, 2), (0, 1)])
def test_stock_short(kitchen: Kitchen, on_hand: int, least: int) -> None:
    kitchen.recipe("pot", dish(title="Pot"))
    if on_hand:
        kitchen.file("stock.yaml", f"freezer:\n  - {on_hand} portions pot, made 2026-06-01\n")
    kitchen.week(plan("lunch: pot, for: Tomas, on: mon-thu", more="already:\n  - 4 portions pot\n"))
    tried = all_clear(kitchen, "stock-short", least)
    assert ("`- 2 portions pot`" in tried[0]) == (on_hand == 2)


def test_names_that_yaml_would_misread_are_quoted(kitchen: Kitchen) -> None:
    kitchen.household("{name: Tomas,", f'{{name: "Tomas: the elder", {NUTS}')
    kitchen.recipe("pot", dish("50 g peanuts", title="Pot"))
    kitchen.week(plan('dinner: pot, for: [Ilka, "Tomas: the elder", Bea], on: mon'))
    assert any('for: "Tomas: the elder"' in remedy for remedy in all_clear(kitchen, "avoided-food", 3))
