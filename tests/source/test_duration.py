from __future__ import annotations

from fractions import Fraction as F

import pytest

from binder.source.duration import read_duration

from .line_cases import span_of


@pytest.mark.parametrize(
    ("text", "low", "high", "unit"),
    [
        ("2 min 30 s", 150, 150, "s"),
        ("2 min 30", 150, 150, "s"),
        ("45 s", 45, 45, "s"),
        ("1 h 15 min", 4500, 4500, "s"),
        ("1h15", 4500, 4500, "s"),
        ("1.5 h", 5400, 5400, "s"),
        ("1 1/2 hours", 5400, 5400, "s"),
        ("an hour and 10 minutes", 4200, 4200, "s"),
        ("25-30 min", 1500, 1800, "s"),
        ("1 h to 1 h 30 min", 3600, 5400, "s"),
        ("½ h", 1800, 1800, "s"),
        ("24 h", 86400, 86400, "s"),
        ("3 days", 3, 3, "day"),
        ("3-4 days", 3, 4, "day"),
        ("1 week", 7, 7, "day"),
        ("2 months", 60, 60, "day"),
        ("2-6 months", 60, 180, "day"),
        ("1 week 2 days", 9, 9, "day"),
        ("1 year", 365, 365, "day"),
    ],
)
def test_duration(text: str, low: F, high: F, unit: str) -> None:
    found, problems = read_duration(text, span_of(text))
    assert found is not None and problems == ()
    assert (found.low, found.high, found.unit) == (low, high, unit)


@pytest.mark.parametrize(
    "text", ["", "3", "soon", "0 days", "3 day trip", "-1 h", "1/0 min", "3 parsecs", "10 min 2 h"]
)
def test_what_is_no_duration_is_bad_amount(text: str) -> None:
    found, (problem,) = read_duration(text, span_of(text))
    assert found is None and problem.code == "bad-amount" and problem.remedies
