from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from binder.source.reheat_line import read_reheat

from .line_cases import span_of
from .strategies import yaml_like


@pytest.mark.parametrize(
    ("text", "means", "watts", "degrees", "seconds", "rest"),
    [
        (
            "microwave 1000 W, 2 min 30 s, covered, stir halfway",
            "microwave",
            1000,
            None,
            150,
            ("covered", "stir halfway"),
        ),
        ("oven 350 F, 20 min", "oven", None, "350 F", 1200, ()),
        ("oven 180 °C 15 min", "oven", None, "180 C", 900, ()),
        ("cold", "cold", None, None, None, ()),
        ("Cold, with a spoon", "cold", None, None, None, ("with a spoon",)),
        ("microwave 700W, 1-2 min", "microwave", 700, None, 120, ()),
        ("microwave 1.1 kW, 90 s", "microwave", 1100, None, 90, ()),
        ("hob, 5 min, stirring", "burner", None, None, 300, ("stirring",)),
        ("insulated flask", "flask", None, None, None, ()),
        ("kettle, 1 cup", "kettle", None, None, None, ("1 cup",)),
        ("toaster, 3 min", "toaster", None, None, 180, ()),
        ("microwave 1000 W, 2 min, stand 1 min", "microwave", 1000, None, 120, ("stand 1 min",)),
        ("burner, 5 min or until hot", "burner", None, None, 300, ()),
        ("microwave on high, 2 min", "microwave", None, None, 120, ("on high",)),
    ],
)
def test_reheat(
    text: str, means: str, watts: int | None, degrees: str | None, seconds: int | None, rest: tuple[str, ...]
) -> None:
    way, problems = read_reheat(text, span_of(text))
    hot = way.temperature and f"{way.temperature.value} {way.temperature.scale}"
    assert problems == ()
    assert (way.means, way.watts, hot, way.seconds, way.rest, way.text) == (means, watts, degrees, seconds, rest, text)


@pytest.mark.parametrize(
    ("text", "code", "part"),
    [
        ("microwave 0 W, 2 min", "bad-amount", "microwave 0 W"),
        ("microwave 1000 W, 2 mn", "bad-amount", "2 mn"),
        ("oven 350 F, 20", "bad-amount", "20"),
        ("oven 350 F, -5 min", "bad-amount", "-5 min"),
        ("2 min 30 s", "wrong-type", "2 min 30 s"),
        ("", "wrong-type", ""),
    ],
)
def test_what_is_not_understood_is_pointed_at(text: str, code: str, part: str) -> None:
    _, (problem,) = read_reheat(text, span_of(text))
    assert (problem.code, text[problem.span.column - 1 : problem.span.end - 1]) == (code, part)


@settings(deadline=None)
@given(st.one_of(yaml_like, st.text(max_size=80)))
def test_no_text_crashes_the_reader(text: str) -> None:
    way, problems = read_reheat(text, span_of(text))
    assert way.means or problems
    assert way.seconds is None or way.seconds > 0
