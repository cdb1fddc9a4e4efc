from __future__ import annotations

from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.source.amount import Measure, measure_at, print_measure, read_amount, read_percent, read_sum
from binder.source.lexicon import CASED, SPELLED, UNITS

from .line_cases import span_of


def one(text: str) -> tuple[str, str]:
    """The amount and the rest of a text that must read without problems."""
    (measure,), rest, problems = read_amount(text, span_of(text))
    assert problems == ()
    return print_measure(measure), rest


@pytest.mark.parametrize(
    ("text", "amount", "rest"),
    [
        ("600 g", "600 g", ""),
        ("2 cup", "2 cup", ""),
        ("24 each", "24 each", ""),
        ("8 portions", "8 portion", ""),
        ("8", "8 each", ""),
        ("3 cups cooked", "3 cup", "cooked"),
        ("250g", "250 g", ""),
        ("1,5 L", "1 1/2 L", ""),
        ("2400 g cooked", "2400 g", "cooked"),
        ("1-2 tbsp", "1 to 2 tbsp", ""),
        ("2 fl. oz.", "2 fl-oz", ""),
        ("30 ml", "30 mL", ""),
        ("1900 kcal", "1900 each", "kcal"),
    ],
)
def test_amount(text: str, amount: str, rest: str) -> None:
    assert one(text) == (amount, rest)


@pytest.mark.parametrize(("text", "stop"), [("0 g", 2), ("none", 5), ("1/0 cup", 4), ("10 %", 5), ("-2 g", 5), ("", 1)])
def test_what_is_no_amount_is_bad_amount(text: str, stop: int) -> None:
    measures, _, (problem,) = read_amount(text, span_of(text))
    assert measures == ()
    assert (problem.code, problem.span.column, problem.span.end) == ("bad-amount", 1, stop)


def test_sum_keeps_its_amounts_apart() -> None:
    text = "3 cup + 1 cup + 1 cup"
    measures, problems = read_sum(text, span_of(text))
    assert [print_measure(m) for m in measures] == ["3 cup", "1 cup", "1 cup"] and problems == ()


def test_sum_names_every_part_that_is_wrong_at_its_place() -> None:
    text = "3 cup + 1 cupz + x"
    measures, problems = read_sum(text, span_of(text))
    assert len(measures) == 2
    assert [(p.code, p.span.column, p.span.end) for p in problems] == [("unknown-unit", 11, 15), ("bad-amount", 18, 19)]


@pytest.mark.parametrize(
    ("text", "share"), [("10 %", F(1, 10)), ("100%", 1), ("2,5 %", F(1, 40)), ("0 %", 0), ("75 percent", F(3, 4))]
)
def test_percent(text: str, share: F) -> None:
    assert read_percent(text, span_of(text)) == (share, ())


@pytest.mark.parametrize("text", ["10", "120 %", "-5 %", "%", "ten %", "1/0 %"])
def test_what_is_no_percentage_is_bad_amount(text: str) -> None:
    share, (problem,) = read_percent(text, span_of(text))
    assert share is None and problem.code == "bad-amount"


def test_every_spelling_reads_as_its_unit() -> None:
    for word, unit in [*SPELLED.items(), *CASED.items()]:
        if word == "#":
            continue
        found = measure_at(f"2 {word} rice", 0)
        assert found is not None, word
        assert (found[0].unit, found[1]) == (unit, 2 + len(word)), word


def test_big_and_small_t_are_different_spoons() -> None:
    assert (one("1 T")[0], one("1 t")[0], one("1 T.")[0], one("1 tbsp")[0]) == ("1 tbsp", "1 tsp", "1 tbsp", "1 tbsp")


@given(st.fractions(min_value=F(1, 99), max_value=9999, max_denominator=99), st.sampled_from(UNITS))
def test_a_measure_printed_reads_back_exactly(number: F, unit: str) -> None:
    measure = Measure(number, number, unit)
    printed = print_measure(measure)
    assert measure_at(printed, 0) == (measure, len(printed))
