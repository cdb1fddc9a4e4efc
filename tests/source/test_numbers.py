from __future__ import annotations

from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.source.numbers import VULGAR, in_figures, written_at


@pytest.mark.parametrize(
    ("text", "low", "high", "rest"),
    [
        ("1", 1, 1, ""),
        ("1 1/2 cups", F(3, 2), F(3, 2), " cups"),
        ("1½", F(3, 2), F(3, 2), ""),
        ("1 ½", F(3, 2), F(3, 2), ""),
        ("1-1/2", F(3, 2), F(3, 2), ""),
        ("1⁄3", F(1, 3), F(1, 3), ""),
        ("2⅔ c", F(8, 3), F(8, 3), " c"),
        (".5", F(1, 2), F(1, 2), ""),
        ("1.25", F(5, 4), F(5, 4), ""),
        ("1,5", F(3, 2), F(3, 2), ""),
        ("1,500", 1500, 1500, ""),
        ("0,125", F(1, 8), F(1, 8), ""),
        ("12,345.5", F(24691, 2), F(24691, 2), ""),
        ("1-2", 1, 2, ""),
        ("1–2 g", 1, 2, " g"),
        ("1 to 2", 1, 2, ""),
        ("1 or 2", 1, 2, ""),
        ("3-2", 2, 3, ""),
        ("1-1 1/2", 1, F(3, 2), ""),
        ("1/2-3/4", F(1, 2), F(3, 4), ""),
        ("between 1 and 2 g", 1, 2, " g"),
        ("one egg", 1, 1, " egg"),
        ("an egg", 1, 1, " egg"),
        ("twelve eggs", 12, 12, " eggs"),
        ("half an egg", F(1, 2), F(1, 2), " egg"),
        ("a dozen eggs", 12, 12, " eggs"),
        ("half a dozen eggs", 6, 6, " eggs"),
        ("2 dozen eggs", 24, 24, " eggs"),
        ("one and a half cups", F(3, 2), F(3, 2), " cups"),
        ("three quarters cup", F(3, 4), F(3, 4), " cup"),
        ("1 400 g", 1, 1, " 400 g"),
    ],
)
def test_number_as_written(text: str, low: F, high: F, rest: str) -> None:
    found = written_at(text)
    assert found is not None
    assert (found.low, found.high, text[found.end :]) == (low, high, rest)


@pytest.mark.parametrize(
    "text", ["half and half", "half-and-half", "five-spice", "a", "one", "flour", "", "-1", "¹", "٣"]
)
def test_words_that_are_no_numbers(text: str) -> None:
    assert written_at(text) is None


@pytest.mark.parametrize("text", ["1/0", "2 1/0", "1-1/0", "9" * 30, "1-" + "9" * 30])
def test_numbers_that_cannot_stand_have_no_value(text: str) -> None:
    found = written_at(text)
    assert found is not None and found.low is None and found.end == len(text)


@pytest.mark.parametrize("sign", VULGAR)
def test_every_fraction_sign_is_read(sign: str) -> None:
    found = written_at(f"3{sign} cups")
    assert found is not None and found.low == 3 + VULGAR[sign]


@given(st.fractions(min_value=0, max_value=10**6, max_denominator=999))
def test_figures_read_back_exactly(value: F) -> None:
    found = written_at(in_figures(value))
    assert found is not None and found.low == value
