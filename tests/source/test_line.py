from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from binder.problem import Span
from binder.source.line import MOST_CHARACTERS, read_line
from binder.source.line_print import plain_wording, print_line, same_meaning

from .line_cases import FOLDER, MOST_BYTES, cases, meaning, span_of
from .strategies import line_like

CASES = cases()


@pytest.mark.parametrize(("line", "expected"), [(line, said) for _, line, said in CASES])
def test_line_means(line: str, expected: str) -> None:
    assert meaning(line) == expected


def test_the_cases_are_many_and_each_stands_once() -> None:
    lines = [line for _, line, _ in CASES]
    assert len(lines) == len(set(lines)) >= 500
    assert all(file.stat().st_size < MOST_BYTES for file in FOLDER.glob("*.txt"))


@pytest.mark.parametrize("line", [line for _, line, said in CASES if "!" not in said])
def test_the_plain_wording_reads_back_the_same(line: str) -> None:
    read = read_line(line, span_of(line))[0]
    wordings = [plain_wording(read), plain_wording(read, slash=True), line if "each" in line else ""]
    assert any(same_meaning(read_line(wording, span_of(wording))[0], read) for wording in wordings)


@settings(deadline=None, max_examples=300)
@given(st.one_of(line_like, st.text(max_size=80)))
def test_no_text_crashes_the_reader_and_printing_keeps_the_meaning(text: str) -> None:
    line, problems = read_line(text, span_of(text))
    printed = print_line(line)
    assert same_meaning(read_line(printed, span_of(printed))[0], line)
    assert 0 <= line.food_start <= line.food_end <= len(text)
    assert all(0 <= m.low <= m.high and m.high > 0 for m in line.amounts)
    assert all(1 <= p.span.column <= p.span.end <= len(text) + 1 for p in problems)


def test_the_food_can_be_pointed_at() -> None:
    text = "1 1/2 cups pearled barley (rinsed), dry"
    line = read_line(text, span_of(text))[0]
    assert text[line.food_start : line.food_end] == "pearled barley"


def test_preparation_before_the_food_can_be_left_off() -> None:
    text = "2 tbsp finely chopped parsley"
    line = read_line(text, span_of(text))[0]
    assert (line.food, line.before, line.bare_food) == ("finely chopped parsley", "finely chopped", "parsley")


def test_unknown_unit_names_the_one_that_was_meant() -> None:
    text = "2 cupz flour"
    (problem,) = read_line(text, span_of(text))[1]
    assert problem.message == 'no unit "cupz"'
    assert problem.remedies[0].startswith('did you mean "cup')
    assert text[problem.span.column - 1 : problem.span.end - 1] == "cupz"


@pytest.mark.parametrize(
    "food", ["pears", "spring onions", "pinto beans", "stock cubes", "radishes", "graham crackers", "pita pockets"]
)
def test_a_food_that_looks_like_a_unit_is_a_food(food: str) -> None:
    line, problems = read_line(f"2 {food}", span_of(f"2 {food}"))
    assert (line.food, line.amounts[0].unit, problems) == (food, "each", ())


@pytest.mark.parametrize("amount", ["0 cups", "0", "-1 cup", "−2", "1/0 cup", "1 1/0 cups", "9" * 40 + " g"])
def test_an_amount_that_cannot_stand_is_said_and_the_food_is_kept(amount: str) -> None:
    text = f"{amount} rice"
    line, problems = read_line(text, span_of(text))
    assert [p.code for p in problems] == ["bad-amount"]
    assert (line.amounts, line.food) == ((), "rice")


def test_bad_amount_wording() -> None:
    (problem,) = read_line("0 cups rice", span_of("0 cups rice"))[1]
    assert problem.message == 'an amount must be a number above zero: "0 cups"'


def test_an_endless_line_is_no_ingredient() -> None:
    text = "1 cup " + "very " * MOST_CHARACTERS + "long"
    line, problems = read_line(text, span_of(text))
    assert [p.code for p in problems] == ["wrong-type"]
    assert line.amounts == ()


@pytest.mark.parametrize(
    "text", ["1 or " * 199 + "2", "(" * 999, ", " * 499, "1 large or " * 90, "½" * 999, " " * 999 + "x"]
)
def test_odd_lines_cost_little(text: str) -> None:
    # The time limit of the test is the check: patterns that run wild take minutes on these.
    assert read_line(text, span_of(text))[0].text == text


def test_a_line_whose_columns_are_not_exact_points_at_all_of_it() -> None:
    whole = Span("r.md", 7, 3, 30)
    (problem,) = read_line("2 cupz flour", whole)[1]
    assert problem.span == whole
