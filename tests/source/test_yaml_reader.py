from __future__ import annotations

import math
import time

import pytest
import yaml
from hypothesis import given, settings

from binder.source import yaml_reader
from binder.source.nodes import Mapping, Node, Scalar, Sequence, as_line
from binder.source.yaml_reader import DEEPEST, MOST_ALIASED_NODES, read_yaml

from .strategies import yaml_like


def scalars(node: Node | None) -> list[Scalar]:
    if isinstance(node, Scalar):
        return [node]
    if isinstance(node, Sequence):
        return [scalar for item in node.items for scalar in scalars(item)]
    if isinstance(node, Mapping):
        return [scalar for key, value in node.entries for scalar in (key, *scalars(value))]
    return []


def value(text: str) -> object:
    node, problems = read_yaml(f"key: {text}", "f.yaml")
    assert isinstance(node, Mapping) and not problems
    found = node.get("key")
    assert isinstance(found, Scalar)
    return found.value


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("on", "on"),
        ("no", "no"),
        ("yes", "yes"),
        ("Off", "Off"),
        ("y", "y"),
        ("1:30", "1:30"),
        ("13:00", "13:00"),
        ("2026-06-03", "2026-06-03"),
        ("1_000", "1_000"),
        ("0b1", "0b1"),
        ("<<", "<<"),
        ("=", "="),
        ("true", True),
        ("True", True),
        ("FALSE", False),
        ("tRUE", "tRUE"),
        ("null", None),
        ("~", None),
        ("", None),
        ("NULL", None),
        ("nULL", "nULL"),
        ("12", 12),
        ("-12", -12),
        ("+3", 3),
        ("012", 12),
        ("0o17", 15),
        ("0x1F", 31),
        ("0o9", "0o9"),
        ("1.5", 1.5),
        (".5", 0.5),
        ("1.", 1.0),
        ("1e3", 1000.0),
        (".inf", math.inf),
        ("-.INF", -math.inf),
        (".", "."),
        ("10 %", "10 %"),
        ("letter 3x10", "letter 3x10"),
        ("1/2", "1/2"),
        ('"12"', "12"),
        ("'on'", "on"),
        ("!!str 12", "12"),
    ],
)
def test_values_follow_the_core_schema_of_yaml_1_2(text: str, expected: object) -> None:
    # YAML 1.2.2, section 10.3.2
    found = value(text)
    assert found == expected and type(found) is type(expected)


def test_nan_is_a_number_here_and_refused_where_it_is_used() -> None:
    found = value(".nan")
    assert isinstance(found, float) and math.isnan(found)


DOCUMENT = """\
title: Squash bake   # a comment
"quoted key": 'single'
ingredients:
  Barley:
    - 1 1/2 cups pearled barley, dry
    - {item: 2 cups oil, eaten: 10 %}
    - {item: 1 tsp salt, food: "salt, table"}
emoji: 😀 then äöü
labels: {sheet: letter 3x10, first free: 1}
"""


def test_every_value_stands_where_its_span_says() -> None:
    node, problems = read_yaml(DOCUMENT, "r.md")
    lines = DOCUMENT.split("\n")
    assert problems == ()
    found = scalars(node)
    assert len(found) == 22
    for scalar in found:
        assert scalar.exact
        assert lines[scalar.span.line - 1][scalar.span.column - 1 : scalar.span.end - 1] == scalar.text


def test_lines_count_from_where_the_text_begins_in_its_file() -> None:
    node, _ = read_yaml("a: 1\nb: x\n", "r.md", first_line=2)
    assert [(s.text, s.span.line) for s in scalars(node)] == [("a", 2), ("1", 2), ("b", 3), ("x", 3)]


@pytest.mark.parametrize(
    ("text", "column", "exact"),
    [
        ("a: plain", 4, True),
        ('a: "quoted"', 5, True),
        ("a: 'it''s'", 4, False),
        (r'a: "tab\t"', 4, False),
        ("a: two\n  lines", 4, False),
        ("a: |\n  block", 4, False),
        ('a: "two\n  lines"', 4, False),
        ("a:  # none", 3, True),
    ],
)
def test_a_column_is_exact_only_where_the_value_stands_as_it_reads(text: str, column: int, exact: bool) -> None:
    node, _ = read_yaml(text, "f")
    found = scalars(node)[-1]
    assert (found.span.line, found.span.column, found.exact) == (1, column, exact)


def test_collections_span_their_first_line() -> None:
    node, _ = read_yaml("a: {b: 1}  # c\nd:\n  - x\n  - y\n", "f")
    assert isinstance(node, Mapping)
    flow, block = node.get("a"), node.get("d")
    assert flow is not None and (flow.span.line, flow.span.column, flow.span.end) == (1, 4, 10)
    assert block is not None and (block.span.line, block.span.column, block.span.end) == (3, 3, 6)


def test_line_separators_that_editors_do_not_show_break_no_line() -> None:
    node, problems = read_yaml("a: x\u2028y\u0085z\nb: 1", "f")
    assert problems == ()
    assert [(s.text, s.span.line) for s in scalars(node)] == [("a", 1), ("x y z", 1), ("b", 2), ("1", 2)]


@pytest.mark.parametrize("text", ["", "# only a comment\n", "---\n", "\n\n"])
def test_a_text_without_values_is_null(text: str) -> None:
    node, problems = read_yaml(text, "f")
    assert isinstance(node, Scalar) and node.value is None and problems == ()


def test_a_line_that_is_a_map_of_one_key_to_yaml_counts_as_the_line() -> None:
    node, _ = read_yaml("- 2 cups recipe: tomato-base\n- a: b\n- recipe: x\n- 1 cup rice\n-", "f")
    assert isinstance(node, Sequence)
    lines = [as_line(item) for item in node.items]
    assert [line and line.text for line in lines] == [
        "2 cups recipe: tomato-base",
        None,
        "recipe: x",
        "1 cup rice",
        None,
    ]
    assert lines[0] is not None and lines[0].exact and (lines[0].span.column, lines[0].span.end) == (3, 29)


@pytest.mark.parametrize(
    ("text", "line", "column", "said"),
    [
        ("title: Bake: two", 1, 12, "quotes"),
        ("title:Bake\nmeal: x", 1, 6, "space"),
        ('a: 1\nb: "x\nc: 1\n', 2, 4, "quote"),
        ("a: [x, y\nb: 1", 1, 4, "]"),
        ("a: {x: 1\nb: 2", 1, 4, "}"),
        ("a: @home", 1, 4, "quotes"),
        ("a: %x", 1, 4, "quotes"),
        ("a: `x`", 1, 4, "quotes"),
        ("a:\n\tb: 1", 2, 1, "spaces"),
        ("a: 1\n b: 2", 2, 3, "indent"),
        ('a: "x" y', 1, 8, "quotes"),
        ("a: [1, 2]]", 1, 10, "quotes"),
        ('"a":b', 1, 4, "space"),
        ("a:\n  - x\n - y\n", 3, 2, "line up"),
        ("- a\nb: 1", 2, 1, "line up"),
        (r'a: "\q"', 1, 5, "single quotes"),
        ("a: *x", 1, 4, "quotes"),
        ("---\na: 1\n---\nb: 2", 3, 1, "---"),
        ("a: \x07", 1, 4, "delete"),
        ("a: }", 1, 4, "compare"),
    ],
)
def test_yaml_syntax_stands_where_the_writer_has_to_look(text: str, line: int, column: int, said: str) -> None:
    node, (problem,) = read_yaml(text, "f")
    assert node is None
    assert (problem.code, problem.span.line, problem.span.column) == ("yaml-syntax", line, column)
    assert said in " ".join((problem.message, *problem.remedies))


def test_duplicate_key_names_the_line_of_the_first_and_keeps_its_value() -> None:
    node, (problem,) = read_yaml("a: 1\nb:\n  c: 1\n  c: 2\na: 3\n".replace("a: 3\n", ""), "f")
    assert (problem.code, problem.span.line, problem.span.column) == ("duplicate-key", 4, 3)
    assert problem.message == "the key c stands here already, on line 3"
    assert [s.text for s in scalars(node)] == ["a", "1", "b", "c", "1"]


def test_all_duplicates_are_reported_at_once() -> None:
    _, problems = read_yaml("a: 1\na: 2\na: 3\n'a': 4", "f")
    assert [(p.code, p.span.line) for p in problems] == [
        ("duplicate-key", 2),
        ("duplicate-key", 3),
        ("duplicate-key", 4),
    ]


def test_a_list_as_a_key_is_wrong_type() -> None:
    node, (problem,) = read_yaml("{[a, b]: 1, c: 2}", "f")
    assert (problem.code, problem.span.column) == ("wrong-type", 2)
    assert [s.text for s in scalars(node)] == ["c", "2"]


def test_a_tag_is_wrong_type() -> None:
    node, (problem,) = read_yaml("a: !!python/object:os.system x", "f")
    assert (problem.code, problem.span.line) == ("wrong-type", 1)
    assert [s.value for s in scalars(node)] == ["a", "x"]


def test_a_number_without_end_is_bad_amount() -> None:
    _, (problem,) = read_yaml("a: " + "9" * 5000, "f")
    assert (problem.code, problem.span.column) == ("bad-amount", 4)


def test_an_alias_stands_for_what_was_anchored() -> None:
    node, problems = read_yaml("a: &x [1, 2]\nb: *x", "f")
    assert problems == () and isinstance(node, Mapping) and node.get("a") == node.get("b")


def test_aliases_that_multiply_are_refused() -> None:
    rows = ["a0: &a0 [x, x, x, x, x, x, x, x, x, x]"]
    rows += [f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 10)}]" for n in range(1, 10)]
    node, problems = read_yaml("\n".join(rows), "f")
    # First the codes: a node let through would be too large even to print.
    assert [problem.code for problem in problems] == ["alias-limit"]
    assert node is None and str(MOST_ALIASED_NODES) in problems[0].message


def test_an_alias_within_itself_is_refused() -> None:
    node, (problem,) = read_yaml("&a [*a]", "f")
    assert node is None and (problem.code, problem.span.column) == ("alias-limit", 5)


def test_many_values_without_aliases_are_no_alias_limit() -> None:
    node, problems = read_yaml("\n".join(f"- {{name: n{n}, size: {n}}}" for n in range(MOST_ALIASED_NODES)), "f")
    assert problems == () and isinstance(node, Sequence) and len(node.items) == MOST_ALIASED_NODES


@pytest.mark.parametrize(
    "text", ["[" * 100_000, "{a: " * 100_000, "".join(f"{' ' * n}a:\n" for n in range(DEEPEST + 5))]
)
def test_deep_nesting_is_refused_and_costs_little(text: str) -> None:
    started = time.process_time()
    node, problems = read_yaml(text, "f")
    assert node is None and [p.code for p in problems] == ["alias-limit"]
    assert time.process_time() - started < 2


@settings(deadline=None, max_examples=300)
@given(yaml_like)
def test_no_text_crashes_the_reader(text: str) -> None:
    node, problems = read_yaml(text, "f")
    assert node is not None or problems
    last = text.count("\n") + text.count("\r") + 1
    assert all(1 <= p.span.line <= last and 1 <= p.span.column <= p.span.end for p in problems)


def test_the_loader_without_libyaml_reads_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    fast = read_yaml(DOCUMENT, "f")
    monkeypatch.setattr(yaml_reader, "_LOADER", yaml.BaseLoader)
    assert read_yaml(DOCUMENT, "f") == fast
