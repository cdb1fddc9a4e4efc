"""Another session tried from the command line: more cooks, another start. Files stay, and the pages say so."""

from __future__ import annotations

import pytest

from tests.kitchen import Kitchen
from tests.scenarios.dishes import SUNDAY_AND_WEDNESDAY, dish, plan

WORK = """
## Prep day
### Peel
1. Peel. [30 min, cutting board]
### Slice
1. Slice. [20 min, cutting board]
"""


@pytest.fixture
def two(kitchen: Kitchen) -> Kitchen:
    """A session on Sunday at 13:00 and one on Wednesday at 19:00, each of 50 minutes for one cook."""
    meals = ("lunch: bake, for: Tomas, on: mon, at: home", "lunch: bake, for: Tomas, on: thu, at: home")
    keeps = "keeps: {fridge: 2 days}\nfreezes: no\nreheat: [cold]\n"
    return kitchen.recipe("bake", dish(more=keeps), WORK).week(plan(*meals, prep=SUNDAY_AND_WEDNESDAY))


def sheets(of: Kitchen, *options: str) -> list[tuple[str, int, int, bool]]:
    facts = of.build(*options).read("site/weeks/2026-W24/facts.json")
    return [(s["start"][5:16], s["minutes"], s["cooks"], s["tried"]) for s in facts["run_sheets"]]


def test_as_written_nothing_is_tried(two: Kitchen) -> None:
    assert sheets(two) == [("06-07T13:00", 50, 1, False), ("06-10T19:00", 50, 1, False)]


def test_more_cooks_are_tried_in_every_session_and_the_file_stays(two: Kitchen) -> None:
    written = two.files["weeks/2026-W24.md"]
    assert sheets(two, "--cooks", "2") == [("06-07T13:00", 30, 2, True), ("06-10T19:00", 30, 2, True)]
    assert (two.content / "weeks/2026-W24.md").read_text("utf-8") == written
    assert sheets(two) == [("06-07T13:00", 50, 1, False), ("06-10T19:00", 50, 1, False)]


@pytest.mark.parametrize(
    ("options", "starts"),
    [
        (("--at", "10:00"), [("06-07T10:00", True), ("06-10T19:00", False)]),
        (("--at", "2026-06-10 7:30"), [("06-07T13:00", False), ("06-10T07:30", True)]),
        (("--at", "9:00", "--at", "2026-06-10 20:15"), [("06-07T09:00", True), ("06-10T20:15", True)]),
        (("--at", "13:00", "--cooks", "1"), [("06-07T13:00", False), ("06-10T19:00", False)]),
    ],
)
def test_another_start_is_tried_in_the_first_session_or_on_the_day_named(
    two: Kitchen, options: tuple[str, ...], starts: list[tuple[str, bool]]
) -> None:
    assert [(start, tried) for start, _, _, tried in sheets(two, *options)] == starts


def test_a_later_start_moves_what_would_come_too_late_to_another_session(two: Kitchen) -> None:
    two.week(plan("dinner: bake, for: Tomas, on: wed, at: home", prep=SUNDAY_AND_WEDNESDAY))
    two.recipe("bake", dish(more="keeps: {fridge: 5 days}\nreheat: [cold]\n"), WORK)
    assert [start for start, *_ in sheets(two)] == ["06-07T13:00"]
    assert [start for start, *_ in sheets(two, "--at", "2026-06-10 16:00")] == ["06-10T16:00"]


def test_the_pages_say_what_was_tried(two: Kitchen) -> None:
    two.write()
    arguments = ("build", str(two.content), "--out", str(two.out), "--today", "2026-06-07", "--only", "site")
    said = "Tried, and not written in the week's file: 2 cooks instead of 1 and start at 10:00 instead of 13:00."

    def pages() -> list[str]:
        return [(two.out / f"site/weeks/2026-W24/{name}index.html").read_text("utf-8") for name in ("", "run-sheet/")]

    made = two.run(*arguments, "--cooks", "2", "--at", "10:00")
    assert made.exit_code == 0 and "no file was changed" in made.output
    assert all(said in page.replace("&#39;", "'").replace("\u00a0", " ") for page in pages())
    assert two.run(*arguments).exit_code == 0
    assert not any("Tried, and not written" in page for page in pages())


def test_check_says_how_long_the_tried_session_takes(two: Kitchen) -> None:
    two.write()
    lines = two.run("check", str(two.content), "--today", "2026-06-07", "--cooks", "2").stdout.splitlines()
    assert lines[0] == (
        "prep on Sun 07 Jun, 13:00 to 13:30: 0 h 30 min, proven shortest; "
        "tried, and not written in the week's file: 2 cooks instead of 1"
    )
    plain = two.run("check", str(two.content), "--today", "2026-06-07").stdout
    assert "13:00 to 13:50: 0 h 50 min, proven shortest\n" in plain and "tried" not in plain


@pytest.mark.parametrize(
    "options",
    [
        ("--cooks", "0"),
        ("--cooks", "two"),
        ("--at", "25:00"),
        ("--at", "ten"),
        ("--at", "1000"),
        ("--at", "2026-06-08 10:00"),
        ("--at", "Monday 10:00"),
    ],
)
def test_what_cannot_be_tried_is_a_wrong_argument(two: Kitchen, options: tuple[str, ...]) -> None:
    two.write()
    for command in (("build", str(two.content), "--out", str(two.out)), ("check", str(two.content))):
        assert two.run(*command, "--today", "2026-06-07", *options).exit_code == 2


def test_a_week_without_a_session_and_a_closed_one_have_none_to_try(kitchen: Kitchen) -> None:
    arguments = ("check", str(kitchen.content), "--today", "2026-06-07", "--cooks", "2")
    assert kitchen.write().run(*arguments).exit_code == 2
    kitchen.recipe("bake", dish(), WORK).week("closed: {on: 2026-06-14}\n" + plan("lunch: bake, for: Tomas, on: mon"))
    assert kitchen.write().run(*arguments).exit_code == 2
