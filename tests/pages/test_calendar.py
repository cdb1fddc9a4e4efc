from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from binder.pages.calendar import calendar_events

from .fixture import library
from .fixture_week import SHEET, week_facts

CALENDAR = calendar_events(week_facts(), library())


def test_sessions_carries_kits_and_pulls_in_order_of_time() -> None:
    assert [(f"{e.start:%a %H:%M}", e.minutes, e.summary) for e in CALENDAR.events] == [
        ("Sun 13:00", 48, "Prep session: 3 dishes"),
        ("Mon 07:00", 10, "Carry to survey van: Ilka"),
        ("Mon 18:30", 30, "Dinner: Lentil stew"),
        ("Tue 18:07", 23, "Cook Trout with dill potatoes"),
        ("Thu 20:00", 5, "Pull: Squash and barley bake"),
    ]


def test_a_dinner_that_is_only_heated_stands_beside_the_kits() -> None:
    servings = tuple(
        replace(s, meal="dinner", place="home") if s.recipe == "squash-barley-bake" else s
        for s in week_facts().servings
    )
    events = calendar_events(week_facts(servings=servings), library()).events
    dinners = [e for e in events if e.summary.startswith("Dinner: ")]
    assert len({e.start for e in dinners}) == len(dinners) >= 2
    assert {f"{e.start:%H:%M}" for e in dinners} == {"18:30"} and {e.alarm_minutes for e in dinners} == {15}
    first = dinners[0]
    assert "Squash and barley bake" in first.summary and "Squash and barley bake, refrigerator: " in first.description
    assert not any(word in first.description for word in ("Ilka", "Tomas", "milk"))


def test_a_change_on_the_same_day_and_on_a_later_one() -> None:
    """The same content and day give the same edition; a later day a later one, under the same UIDs."""
    same, later = (calendar_events(week_facts(today=date(2026, 6, day)), library()) for day in (7, 9))
    assert same == CALENDAR
    assert [e.uid for e in later.events] == [e.uid for e in same.events] and later.stamp > same.stamp


def test_times_are_local_with_their_offset() -> None:
    assert {e.start.utcoffset() for e in CALENDAR.events} == {timedelta(hours=-5)}
    assert CALENDAR.stamp.isoformat() == "2026-06-07T00:00:00+00:00"


def test_uids_are_unique_and_stay_when_times_move() -> None:
    uids = [e.uid for e in CALENDAR.events]
    assert len(set(uids)) == len(uids)
    longer = replace(SHEET, finish=SHEET.finish + timedelta(minutes=5), minutes=53)
    again = calendar_events(week_facts(run_sheets=(longer,), today=date(2026, 6, 8)), library())
    assert [e.uid for e in again.events] == uids
    assert again.events[0].minutes == 53
