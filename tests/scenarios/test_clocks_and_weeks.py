"""Weeks over the year's end, time zones and the nights when clocks change."""

from __future__ import annotations

import pytest

from tests.kitchen import HOUSEHOLD, Kitchen, codes, only
from tests.scenarios.dishes import dish

STEPS = "## Prep day\n1. Simmer. [unattended 60 min, burner]\n"


def session(kitchen: Kitchen, zone: str, week: str, on: str, at: str, meal: str = "sun") -> dict:
    kitchen.household("time zone: America/Chicago", f"time zone: {zone}").recipe("pot", dish(), STEPS)
    front = f'prep:\n  - {{on: {on}, at: "{at}"}}\nmeals:\n  - {{dinner: pot, for: Tomas, on: {meal}, at: home}}\n'
    kitchen.week(front, week).build("--draft", "--week", week, today=on)
    sheets: list[dict] = kitchen.read(f"site/weeks/{week}/facts.json")["run_sheets"]
    return sheets[0]


@pytest.mark.parametrize(
    ("zone", "week", "at", "start", "finish"),
    [
        # Clocks go forward at 2:00 on 8 March 2026 in the US: an hour from 1:30 ends at 3:30.
        ("America/Chicago", "2026-W10", "01:30", "2026-03-08T01:30:00-06:00", "2026-03-08T03:30:00-05:00"),
        ("America/Chicago", "2026-W10", "13:00", "2026-03-07T13:00:00-06:00", "2026-03-07T14:00:00-06:00"),
        ("America/Chicago", "2026-W10", "13:00", "2026-03-08T13:00:00-05:00", "2026-03-08T14:00:00-05:00"),
        # Back at 2:00 on 1 November 2026: an hour from 1:30 summer time ends at 1:30 winter time.
        ("America/Chicago", "2026-W44", "01:30", "2026-11-01T01:30:00-05:00", "2026-11-01T01:30:00-06:00"),
        # Europe: forward at 2:00 on 29 March 2026, back at 3:00 on 25 October 2026.
        ("Europe/Berlin", "2026-W13", "01:30", "2026-03-29T01:30:00+01:00", "2026-03-29T03:30:00+02:00"),
        ("Europe/London", "2026-W43", "10:00", "2026-10-25T10:00:00+00:00", "2026-10-25T11:00:00+00:00"),
        ("Asia/Kolkata", "2026-W24", "09:15", "2026-06-08T09:15:00+05:30", "2026-06-08T10:15:00+05:30"),
        ("UTC", "2026-W24", "09:15", "2026-06-08T09:15:00+00:00", "2026-06-08T10:15:00+00:00"),
        ("Asia/Kathmandu", "2026-W24", "23:30", "2026-06-08T23:30:00+05:45", "2026-06-09T00:30:00+05:45"),
    ],
)  # fmt: skip
def test_times_have_the_offset_of_their_own_moment(
    kitchen: Kitchen, zone: str, week: str, at: str, start: str, finish: str
) -> None:
    sheet = session(kitchen, zone, week, start.partition("T")[0], at)
    assert (sheet["start"], sheet["finish"], sheet["minutes"]) == (start, finish, 60)
    assert (sheet["tasks"][0]["start"], sheet["tasks"][0]["finish"]) == (start, finish)


@pytest.mark.parametrize(
    ("week", "on", "days", "dates"),
    [
        ("2026-W53", "2026-12-27", "mon-sun", ["2026-12-28", "2026-12-29", "2026-12-30", "2026-12-31", "2027-01-01",
                                               "2027-01-02", "2027-01-03"]),
        ("2026-W53", "2026-12-27", "[fri, 2027-01-03]", ["2027-01-01", "2027-01-03"]),
        ("2027-W01", "2027-01-03", "[mon, sun]", ["2027-01-04", "2027-01-10"]),
        ("2026-W01", "2025-12-28", "[mon, thu]", ["2025-12-29", "2026-01-01"]),  # begins in 2025
        ("2020-W53", "2020-12-27", "sun", ["2021-01-03"]),
        ("2024-W09", "2024-02-25", "mon-sun", ["2024-02-26", "2024-02-27", "2024-02-28", "2024-02-29", "2024-03-01",
                                               "2024-03-02", "2024-03-03"]),
    ],
)  # fmt: skip
def test_days_of_weeks_over_the_years_end(kitchen: Kitchen, week: str, on: str, days: str, dates: list[str]) -> None:
    kitchen.recipe("pot", dish(more="keeps: {fridge: 3 days}\n"))
    front = f'prep:\n  - {{on: {on}, at: "13:00"}}\nmeals:\n  - {{lunch: pot, for: Tomas, on: {days}, at: home}}\n'
    kitchen.week(front, week).build("--week", week, today=on)
    facts = kitchen.read(f"site/weeks/{week}/facts.json")
    assert [s["date"] for s in facts["servings"]] == dates


def test_use_by_and_pull_over_the_years_end(kitchen: Kitchen) -> None:
    """Made Sunday 27 December, 4 days: Thursday 31; New Year's Day is frozen, pulled on the 31st, good to 4 January."""
    kitchen.recipe("pot", dish(more="keeps: soups and stews\n"))
    front = 'prep:\n  - {on: 2026-12-27, at: "13:00"}\nmeals:\n  - {lunch: pot, for: Tomas, on: thu-fri, at: home}\n'
    kitchen.week(front, "2026-W53").build("--week", "2026-W53", today="2026-12-27")
    servings = kitchen.read("site/weeks/2026-W53/facts.json")["servings"]
    assert [(s["kept"], s["pull_on"], s["use_by"]) for s in servings] == [
        ("fridge", None, "2026-12-31"),
        ("freezer", "2026-12-31", "2027-01-04"),
    ]


@pytest.mark.parametrize("week", ["2025-W53", "2027-W53", "2026-W00", "2026-W54"])
def test_weeks_that_are_not(kitchen: Kitchen, week: str) -> None:
    kitchen.recipe("pot", dish()).week("meals: []", week)
    problem = only(kitchen.check(), code="bad-week")
    assert problem["line"] == 2 and problem["column"] == 7


def test_a_date_of_the_week_before(kitchen: Kitchen) -> None:
    """3 January 2027 belongs to 2026-W53."""
    front = 'prep:\n  - {on: 2027-01-02, at: "13:00"}\nmeals:\n  - {lunch: pot, for: Tomas, on: 2027-01-03, at: home}\n'
    kitchen.recipe("pot", dish()).week(front, "2027-W01")
    assert [(p["code"], p["line"]) for p in kitchen.check()] == [("bad-date", 6)]


def test_without_a_zone_that_is_named_times_still_have_an_offset(kitchen: Kitchen) -> None:
    kitchen.files["household.yaml"] = HOUSEHOLD.replace("time zone: America/Chicago\n", "")
    kitchen.recipe("pot", dish(), STEPS)
    front = 'prep:\n  - {on: 2026-06-07, at: "13:00"}\nmeals:\n  - {lunch: pot, for: Tomas, on: mon, at: home}\n'
    facts = kitchen.week(front).facts()
    assert facts["run_sheets"][0]["start"].startswith("2026-06-07T13:00:00")
    assert facts["run_sheets"][0]["start"] != "2026-06-07T13:00:00"
    assert codes(facts["problems"], "error") == []
