from __future__ import annotations

from datetime import date, datetime
from fractions import Fraction

import pytest

from binder.pages import format as printed
from binder.pages.words.en import ENGLISH

THURSDAY = date(2026, 6, 11)


def plain(text: str) -> str:
    return text.replace("\u00a0", " ")


@pytest.mark.parametrize(
    ("minutes", "text"),
    [
        (35, "35 min"),
        (75, "1 h 15 min"),
        (Fraction(5, 2), "2 min 30 s"),
        (120, "2 h"),
        (0, "0 min"),
        (60.75, "1 h 1 min"),
    ],
)
def test_durations(minutes: float, text: str) -> None:
    assert plain(printed.minutes(minutes)) == text


def test_seconds_of_a_converted_microwave_time() -> None:
    assert plain(printed.seconds(215)) == "3 min 35 s"


def test_days_and_hours() -> None:
    assert printed.day(THURSDAY, ENGLISH) == "Thu 11 Jun"
    assert printed.day_long(THURSDAY, ENGLISH) == "Thursday 11 June"
    assert printed.day_with_year(THURSDAY, ENGLISH) == "11 June 2026"
    assert printed.clock(datetime(2026, 6, 7, 13, 5)) == "13:05"
    assert printed.clock(18 * 60 + 30) == "18:30"
    assert printed.week_title("2026-W04", ENGLISH) == "Week 4, 2026"


@pytest.mark.parametrize(
    ("value", "currency", "text"),
    [("4.2", "USD", "$4.20"), ("0.525", "USD", "$0.53"), ("3", "EUR", "€3.00"), ("2.5", "CHF", "CHF 2.50"),
     ("1234.5", "GBP", "£1,234.50"), ("400", "JPY", "JPY 400")],
)  # fmt: skip
def test_money(value: str, currency: str, text: str) -> None:
    assert plain(printed.money(Fraction(value), currency)) == text


@pytest.mark.parametrize(
    ("grams", "text"),
    [
        (350.4, "350 g"),
        (7.4, "7.5 g"),
        (999.6, "1 kg"),
        (1200, "1.2 kg"),
        (1125, "1.13 kg"),
        (2, "2 g"),
        (37.5, "38 g"),
    ],
)
def test_grams_as_a_scale_shows_them(grams: float, text: str) -> None:
    assert plain(printed.grams(grams)) == text


def test_half_goes_up_and_float_traces_do_not_change_it() -> None:
    assert printed.half_up(Fraction(5, 2)) == 3
    assert printed.half_up(Fraction(-5, 2)) == -2
    assert printed.half_up(Fraction(7, 12), Fraction(1, 3)) == Fraction(2, 3)
    assert printed.half_up(47.49999999999999) == 48
    assert printed.half_up(0.1 + 0.2, Fraction(1, 10)) == Fraction(3, 10)


def test_fractions_are_real_characters() -> None:
    assert printed.fraction(Fraction(15, 8)) == "1⅞"
    assert printed.fraction(Fraction(2, 3)) == "⅔"
    assert plain(printed.fraction(Fraction(12, 5))) == "2 2/5"
    assert printed.share(Fraction(1, 2), Fraction(8)) == "1/16"
    assert printed.share(Fraction(3), Fraction(3)) == "1"


def test_lists_end_in_and() -> None:
    assert printed.listed(("a",), ENGLISH) == "a"
    assert printed.listed(("a", "b", "c"), ENGLISH) == "a, b and c"
    assert printed.listed((), ENGLISH) == ""


def test_number_and_unit_are_held_together() -> None:
    assert printed.with_unit("350", "g") == "350\u00a0g"
