"""Which week is printed, which are archive, what `--week` leaves out, and what scripts are told."""

from __future__ import annotations

import json

import pytest

from tests.kitchen import Kitchen, codes, only
from tests.scenarios.dishes import dish, plan

MEAL = "lunch: pot, for: Tomas, on: mon, at: home"
PREPARED = {"2026-W23": "2026-05-31", "2026-W24": "2026-06-07", "2026-W26": "2026-06-20"}


def three_weeks(kitchen: Kitchen) -> Kitchen:
    """Weeks from 1, 8 and 22 June; the last is prepared on Saturday 20."""
    kitchen.recipe("pot", dish("500 g carrots")).file("stock.yaml", "cupboard:\n  - 100 g carrots\n")
    for key, prepared in PREPARED.items():
        kitchen.week(plan(MEAL, prep=f'prep:\n  - {{on: {prepared}, at: "13:00"}}\n'), key)
    return kitchen


def printed(kitchen: Kitchen) -> list[str]:
    """The weeks that stock serves."""
    return [
        key
        for key in PREPARED
        if (kitchen.out / f"site/weeks/{key}/facts.json").is_file()
        and only(kitchen.read(f"site/weeks/{key}/facts.json")["shopping"], food="carrot")["on_hand"]["amount"]
    ]


@pytest.mark.parametrize(
    ("today", "week"),
    [
        ("2026-05-01", "2026-W23"),  # next
        ("2026-06-03", "2026-W23"),  # under way
        ("2026-06-06", "2026-W23"),  # Saturday before the next one's session
        ("2026-06-07", "2026-W24"),  # the last day of one, the session of the next
        ("2026-06-10", "2026-W24"),
        ("2026-06-14", "2026-W24"),
        ("2026-06-16", "2026-W26"),  # none under way: the next
        ("2026-06-20", "2026-W26"),
        ("2026-06-28", "2026-W26"),
        ("2026-08-01", "2026-W26"),  # the last
    ],
)
def test_the_week_under_way_or_next_or_the_last(kitchen: Kitchen, today: str, week: str) -> None:
    three_weeks(kitchen).build(today=today)
    assert printed(kitchen) == [week]
    assert kitchen.read(f"site/weeks/{week}/facts.json")["today"] == today


def test_the_one_that_is_named(kitchen: Kitchen) -> None:
    three_weeks(kitchen).build("--week", "2026-W23", today="2026-06-10")
    assert printed(kitchen) == ["2026-W23"]
    written = {path.parent.name for path in (kitchen.out / "site/weeks").glob("*/facts.json")}
    assert written == {"2026-W23"}


CLOSED = """\
---
week: 2026-W23
prep:
  - {on: 2026-05-31, at: "13:00"}
meals:
  - {lunch: long-gone, for: Tomas, on: mon}
  - {lunch: salad, for: Nobody, on: mon-sun, at: nowhere}
  - {lunch: salad, for: Tomas, on: mon-sun, at: home}
%s---
"""


def past_week(kitchen: Kitchen, closed: str) -> Kitchen:
    kitchen.recipe("pot", dish()).recipe("salad", dish(title="Salad", more="keeps: mixed salads\n"))
    return kitchen.week(plan(MEAL)).file("weeks/2026-W23.md", CLOSED % closed)


def test_past_weeks_are_looked_at(kitchen: Kitchen) -> None:
    found = [(p["code"], p["line"]) for p in past_week(kitchen, "").check()]
    assert found == [("unknown-recipe", 6), ("unknown-eater", 7), ("unknown-place", 7), ("kept-too-long", 8)]
    kitchen.build(status=1)


def test_a_closed_week_keeps_what_it_was(kitchen: Kitchen) -> None:
    past_week(kitchen, "closed: {eaten: 5, note: fine}\n")
    assert kitchen.check() == []
    facts = kitchen.build().read("site/weeks/2026-W23/facts.json")
    assert facts["problems"] == [] and len(facts["servings"]) == 7


@pytest.mark.parametrize("weeks", [0, 1])
def test_stock_past_its_time_is_said_whatever_the_week(kitchen: Kitchen, weeks: int) -> None:
    """No week at all, or only one that is closed."""
    if weeks:
        past_week(kitchen, "closed: {note: fine}\n").files.pop("weeks/2026-W24.md")
    kitchen.file("stock.yaml", "fridge:\n  - 100 g carrots, best before 2026-05-01\n")
    assert [(p["code"], p["line"]) for p in kitchen.check()] == [("past-use-by", 2)]


def test_a_named_week_leaves_others_and_their_recipes_out(kitchen: Kitchen) -> None:
    past_week(kitchen, "").recipe("broken", "title: Broken\nmakes: nothing\n")
    assert kitchen.check("--week", "2026-W24") == []
    kitchen.build("--week", "2026-W24")
    assert not (kitchen.out / "site/recipes/salad/facts.json").exists()
    assert (kitchen.out / "site/recipes/pot/facts.json").is_file()


def test_a_named_week_reaches_parts_and_what_stock_and_substitutions_name(kitchen: Kitchen) -> None:
    kitchen.recipe("base", dish("100 g zzyzx", title="Base")).recipe("pot", dish("1 portion recipe: base"))
    kitchen.recipe("stew", dish("100 g yxxyz", title="Stew")).recipe("other", dish("100 g xyzzy", title="Other"))
    kitchen.file("stock.yaml", "freezer:\n  - 1 portion stew, made 2026-06-01\n").week(plan(MEAL))
    found = [p["path"].rsplit("/", 1)[-1] for p in kitchen.check("--week", "2026-W24")]
    assert found == ["base.md", "stew.md"]


def test_household_foods_and_stock_are_looked_at_whole(kitchen: Kitchen) -> None:
    kitchen.household("time zone:", "colour: red\ntime zone:").recipe("pot", dish())
    kitchen.file("foods.yaml", "- {name: thing, contains: [stardust]}\n")
    kitchen.file("stock.yaml", "cupboard:\n  - some of that\n").week(plan(MEAL))
    assert codes(kitchen.check("--week", "2026-W24")) == ["wrong-type", "unknown-key", "stock-unclear"]


def test_facts_hold_the_list_that_check_prints(kitchen: Kitchen) -> None:
    """Of a recipe, the foods, the stock and the plan at once; with errors as a draft."""
    kitchen.recipe("pot", dish("100 g zzyzx", "2 cups moon leaf", more='reheat: ["oven 350 F, 20 min"]\n'))
    kitchen.file("foods.yaml", "- {name: moon leaf, contains: []}\n")
    kitchen.file("stock.yaml", "cupboard:\n  - some of that\n")
    printed_list = kitchen.week(plan("lunch: pot, for: Bea, on: mon")).check()
    assert sorted(codes(printed_list)) == [
        "allergens-not-known", "cannot-reheat", "no-weight", "stock-unclear", "unknown-food",
    ]  # fmt: skip
    assert kitchen.facts()["problems"] == printed_list


def test_a_week_does_not_name_another_weeks_problems(kitchen: Kitchen) -> None:
    past_week(kitchen, "").recipe("salad", dish("100 g zzyzx", title="Salad", more="keeps: mixed salads\n"))
    kitchen.build("--draft")
    assert codes(kitchen.read("site/weeks/2026-W24/facts.json")["problems"]) == ["unknown-food"]
    assert "kept-too-long" in codes(kitchen.read("site/weeks/2026-W23/facts.json")["problems"])


def test_memory_of_a_build_changes_nothing(kitchen: Kitchen) -> None:
    """With a week named only its own dishes are there to be offered, whatever was reckoned before."""
    kitchen.recipe("pot", dish(more='reheat: ["oven 350 F, 20 min"]\n')).recipe("mash", dish(title="Mash"))
    kitchen.week(plan("lunch: pot, for: Bea, on: mon"))
    alone = kitchen.check("--week", "2026-W24")
    assert not any("mash" in remedy for remedy in alone[0]["remedies"])
    whole = kitchen.check()
    assert any("mash" in remedy for remedy in whole[0]["remedies"])
    assert kitchen.check("--week", "2026-W24") == alone


# ---- exit status and outputs ----


def test_only_one_kind_is_replaced(kitchen: Kitchen) -> None:
    three_weeks(kitchen).build()
    assert {path.name for path in kitchen.out.iterdir()} == {"site"}
    kitchen.write().run("build", str(kitchen.content), "--out", str(kitchen.out), "--today", "2026-06-10",
                        "--only", "calendar", "--only", "share")  # fmt: skip
    assert kitchen.result is not None and kitchen.result.exit_code == 0
    assert {path.name for path in kitchen.out.iterdir()} == {"site", "calendar", "share"}
    assert (kitchen.out / "site/weeks/2026-W24/facts.json").is_file()


@pytest.mark.parametrize(
    ("line", "options", "status"),
    [
        ("400 g carrots", [], 0),
        ("400 g carrots", ["--strict"], 0),
        ("400 g zzyzx", [], 0),
        ("400 g zzyzx", ["--strict"], 1),
        ("0 g carrots", [], 1),
        ("0 g carrots", ["--strict"], 1),
    ],
)
def test_status_of_check(kitchen: Kitchen, line: str, options: list[str], status: int) -> None:
    kitchen.recipe("pot", dish(line)).week(plan(MEAL)).write()
    result = kitchen.run("check", str(kitchen.content), "--json", "--today", "2026-06-07", *options)
    assert result.exit_code == status
    assert isinstance(json.loads(result.stdout)["problems"], list)


def test_a_draft_is_built_in_spite_of_broken_files(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish()).recipe("broken", "title: [\n").week(plan(MEAL, "lunch: brokn, for: Tomas, on: tue"))
    kitchen.build(status=1).build("--draft")
    facts = kitchen.read("site/weeks/2026-W24/facts.json")
    assert {"yaml-syntax", "unknown-recipe"} <= set(codes(facts["problems"]))
    assert len(facts["servings"]) == 1
