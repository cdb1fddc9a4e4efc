from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from binder.source.amount import print_measure
from binder.source.stock_line import StockLine, read_stock_line

from .line_cases import span_of
from .strategies import line_like


def read(text: str) -> StockLine:
    """A line that must read without problems."""
    stock, problems = read_stock_line(text, span_of(text))
    assert problems == ()
    return stock


@pytest.mark.parametrize(
    ("text", "amount", "food", "name", "day"),
    [
        ("18 oz tomato passata, opened 2026-06-03", "18 oz", "tomato passata", "opened", date(2026, 6, 3)),
        ("2 portions lentil stew, made 2026-05-20", "2 portion", "lentil stew", "made", date(2026, 5, 20)),
        ("1 kg rice, best before 2027-01-31", "1 kg", "rice", "best_before", date(2027, 1, 31)),
        ("1 kg rice, best-before: 2027-01-31", "1 kg", "rice", "best_before", date(2027, 1, 31)),
        ("1 kg rice, use by 2027-01-31", "1 kg", "rice", "best_before", date(2027, 1, 31)),
        ("500 g chicken thighs, frozen 2026-05-01", "500 g", "chicken thighs", "frozen", date(2026, 5, 1)),
        ("500 g chicken thighs, thawed on 2026-06-01", "500 g", "chicken thighs", "thawed", date(2026, 6, 1)),
        ("6 eggs, bought 2026-06-01", "6 each", "eggs", "bought", date(2026, 6, 1)),
    ],
)
def test_lot_with_its_date(text: str, amount: str, food: str, name: str, day: date) -> None:
    stock = read(text)
    assert ([print_measure(m) for m in stock.line.amounts], stock.line.food) == ([amount], food)
    assert getattr(stock, name) == day


def test_preparation_stays_with_the_line_and_dates_come_in_any_order() -> None:
    stock = read("1 can (400 g, drained) beans, in water, bought 2026-05-30, opened 2026-06-01")
    assert (stock.line.food, stock.line.preparation, stock.opened, stock.bought) == (
        "beans",
        "in water",
        date(2026, 6, 1),
        date(2026, 5, 30),
    )


def test_frozen_without_a_date_is_a_state_of_the_food() -> None:
    stock = read("500 g peas, frozen")
    assert (stock.frozen, stock.line.flags) == (None, frozenset({"frozen"}))


def test_allergens_of_a_pack_are_words_and_none_is_not_unknown() -> None:
    stock = read("200 g crackers, contains wheat, sesame and milk, may contain traces of nuts, opened 2026-06-01")
    assert (stock.contains, stock.may_contain, stock.opened) == (
        ("wheat", "sesame", "milk"),
        ("nuts",),
        date(2026, 6, 1),
    )
    assert (read("200 g crackers").contains, read("200 g crackers, contains none").contains) == (None, ())


def test_what_is_not_understood_is_kept() -> None:
    assert read("1 jar pesto, opened 2026-06-01, behind the jam").rest == ("behind the jam",)


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("1 jar pesto, opened 3 June", "3 June"),
        ("1 jar pesto, opened 2026-02-30", "2026-02-30"),
        ("1 jar pesto, opened", "opened"),
        ("1 jar pesto, best before 31.1.2027, opened 2026-06-01", "31.1.2027"),
    ],
)
def test_a_date_that_is_none_is_bad_date(text: str, part: str) -> None:
    stock, (problem,) = read_stock_line(text, span_of(text))
    assert (problem.code, text[problem.span.column - 1 : problem.span.end - 1]) == ("bad-date", part)
    assert stock.line.food == "pesto"


def test_a_problem_of_the_line_keeps_its_place() -> None:
    text = "2 cupz rice, opened 2026-06-01"
    _, (problem,) = read_stock_line(text, span_of(text))
    assert (problem.code, problem.span.column, problem.span.end) == ("unknown-unit", 3, 7)


@settings(deadline=None)
@given(st.one_of(line_like, st.text(max_size=80)))
def test_no_text_crashes_the_reader(text: str) -> None:
    _, problems = read_stock_line(text, span_of(text))
    assert all(1 <= p.span.column <= p.span.end <= len(text) + 1 for p in problems)
