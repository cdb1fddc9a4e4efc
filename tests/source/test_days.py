from __future__ import annotations

from datetime import date

import pytest

from binder.source.days import days_of, read_date, read_days, read_time, read_week
from binder.source.nodes import Mapping
from binder.source.yaml_reader import read_yaml

from .line_cases import span_of


@pytest.mark.parametrize(
    ("text", "days"),
    [
        ("mon-fri", (0, 1, 2, 3, 4)),
        ("tue", (1,)),
        ("mon, wed", (0, 2)),
        ("thu–sat", (3, 4, 5)),
        ("Monday", (0,)),
        ("mondays", (0,)),
        ("fri-fri", (4,)),
        ("every day", (0, 1, 2, 3, 4, 5, 6)),
        ("weekdays", (0, 1, 2, 3, 4)),
        ("wed, mon, wed", (2, 0)),
        ("tues to thurs", (1, 2, 3)),
        ("2026-06-08", (date(2026, 6, 8),)),
        ("2026-06-30 to 2026-07-01", (date(2026, 6, 30), date(2026, 7, 1))),
        ("mon, 2026-06-10", (0, date(2026, 6, 10))),
    ],
)
def test_days(text: str, days: tuple[int | date, ...]) -> None:
    assert read_days(text, span_of(text)) == (days, ())


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("sat-mon", "sat-mon"),
        ("mon, funday", "funday"),
        ("2026-02-30", "2026-02-30"),
        ("8", "8"),
        ("2026-06-10 to 2026-06-08", "2026-06-10 to 2026-06-08"),
    ],
)
def test_what_is_no_day_is_bad_date(text: str, part: str) -> None:
    _, (problem,) = read_days(text, span_of(text))
    assert (problem.code, text[problem.span.column - 1 : problem.span.end - 1]) == ("bad-date", part)


def test_a_stretch_of_days_stays_within_its_week() -> None:
    _, (problem,) = read_days("sat-mon", span_of("sat-mon"))
    assert problem.message == '"sat-mon" runs past the end of the week'


def test_days_of_a_list_keep_what_is_right() -> None:
    node, _ = read_yaml("on: [tue, thu-fri, nonday, {a: b}]", "w.md")
    assert isinstance(node, Mapping)
    days, problems = days_of(node.entries[0][1])
    assert days == (1, 3, 4)
    assert [(p.code, p.span.column) for p in problems] == [("bad-date", 20), ("wrong-type", 28)]


@pytest.mark.parametrize(
    ("text", "week"),
    [
        ("2026-W24", (2026, 24)),
        ("2026W24", (2026, 24)),
        ("2026-w01", (2026, 1)),
        ("2026-W53", (2026, 53)),
        ("2025-W53", None),
        ("2026-W00", None),
        ("2026-24", None),
        ("W24", None),
    ],
)
def test_week_is_iso_8601(text: str, week: tuple[int, int] | None) -> None:
    # ISO 8601: a year has 53 weeks when it begins or ends on a Thursday; 2026 begins on one.
    found, problems = read_week(text, span_of(text))
    assert found == week and [p.code for p in problems] == ([] if week else ["bad-week"])


@pytest.mark.parametrize(
    ("text", "minutes"),
    [
        ("13:00", 780),
        ("07:05", 425),
        ("7:30", 450),
        ("00:00", 0),
        ("23:59", 1439),
        ("24:00", None),
        ("12:60", None),
        ("1 pm", None),
        ("13", None),
    ],
)
def test_time_of_day(text: str, minutes: int | None) -> None:
    found, problems = read_time(text, span_of(text))
    assert found == minutes and [p.code for p in problems] == ([] if minutes is not None else ["bad-date"])


def test_dates_are_iso_8601() -> None:
    assert read_date(" 2026-06-08 ", span_of("")) == (date(2026, 6, 8), ())
    assert read_date("8 June", span_of("8 June"))[1][0].message == 'no date: "8 June"'
    assert read_date("2026-02-30", span_of(""))[1][0].message == "there is no 2026-02-30 in the calendar"
