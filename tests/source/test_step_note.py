from __future__ import annotations

from fractions import Fraction as F

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from binder.source.step_note import read_step_note

from .line_cases import span_of
from .strategies import yaml_like


@pytest.mark.parametrize(
    ("text", "minutes", "unattended", "uses"),
    [
        ("unattended 35 min, burner", 35, True, ["burner"]),
        ("8 min, cutting board", 8, False, ["cutting board"]),
        ("8 min", 8, False, []),
        ("unattended 8 min, pressure cooker, release 10 min?", 8, True, ["pressure cooker", "release 10 min?"]),
        ("1 h 15 min", 75, False, []),
        ("1.5 h", 90, False, []),
        ("45 s", F(3, 4), False, []),
        ("25-30 min", 30, False, []),
        ("hands-on 5 min", 5, False, []),
        ("attended 5 min", 5, False, []),
        ("10 min hands-off, burner", 10, True, ["burner"]),
        ("unattended, 35 min", 35, True, []),
        ("12 min, pressure cooker 6 qt", 12, False, ["pressure cooker 6 qt"]),
        ("burner", None, False, ["burner"]),
        ("about 10 min", 10, False, []),
        ("1,5 h; burner", 90, False, ["burner"]),
        ("unattended 12 hours", 720, True, []),
    ],
)
def test_step_note(text: str, minutes: F | None, unattended: bool, uses: list[str]) -> None:
    note, problems = read_step_note(text, span_of(text))
    assert problems == ()
    assert (note.minutes, note.unattended, [use.words for use in note.uses]) == (minutes, unattended, uses)


def test_minutes_for_each_portion() -> None:
    note, _ = read_step_note("2 min per portion, burner", span_of("2 min per portion, burner"))
    assert (note.minutes, note.per, [use.words for use in note.uses]) == (2, "portion", ["burner"])


@pytest.mark.parametrize(
    ("text", "value", "scale"),
    [
        ("oven 400 F", 400, "F"),
        ("oven 400F", 400, "F"),
        ("oven 200 °C", 200, "C"),
        ("oven at 180 C", 180, "C"),
        ("400 °F oven", 400, "F"),
    ],
)
def test_a_tool_with_its_temperature(text: str, value: int, scale: str) -> None:
    note, problems = read_step_note(text, span_of(text))
    (use,) = note.uses
    assert problems == () and use.temperature is not None
    assert (use.words, use.temperature.value, use.temperature.scale) == ("oven", value, scale)


def test_several_of_a_tool_and_where_it_stands() -> None:
    text = "5 min, 2 burners"
    (use,) = read_step_note(text, span_of(text))[0].uses
    assert (use.words, use.count, text[use.span.column - 1 : use.span.end - 1]) == ("burners", 2, "2 burners")


@pytest.mark.parametrize(
    ("text", "code", "part"),
    [
        ("0 min, burner", "bad-amount", "0 min"),
        ("burner, -5 min", "bad-amount", "-5 min"),
        ("35", "bad-amount", "35"),
        ("35 mn", "bad-amount", "35 mn"),
        ("burner, 1/0 min", "bad-amount", "1/0 min"),
        ("5 min, 10 min", "bad-amount", "10 min"),
        ("5 min, oven 400", "bad-amount", "oven 400"),
        ("5 min, 400 F", "wrong-type", "400 F"),
        ("5 min, 400 burners", "bad-amount", "400 burners"),
    ],
)
def test_a_part_not_understood_is_a_problem_at_that_part(text: str, code: str, part: str) -> None:
    _, (problem,) = read_step_note(text, span_of(text))
    assert (problem.code, text[problem.span.column - 1 : problem.span.end - 1]) == (code, part)
    assert problem.remedies


def test_the_rest_of_the_note_is_kept() -> None:
    note, _ = read_step_note(
        "unattended 35 mn, burner, cutting board", span_of("unattended 35 mn, burner, cutting board")
    )
    assert (note.minutes, note.unattended, [use.words for use in note.uses]) == (
        None,
        True,
        ["burner", "cutting board"],
    )


@settings(deadline=None)
@given(st.one_of(yaml_like, st.text(max_size=80)))
def test_no_text_crashes_the_reader(text: str) -> None:
    note, problems = read_step_note(text, span_of(text))
    assert note.minutes is None or note.minutes > 0
    assert all(1 <= p.span.column <= p.span.end <= len(text) + 1 for p in problems)
