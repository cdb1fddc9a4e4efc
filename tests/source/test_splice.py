"""Editing YAML where it stands: one-line differences, nothing else touched, right or not at all."""

from __future__ import annotations

import difflib
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from binder.problem import Problem, Span
from binder.source import splice
from binder.source.document import read_document
from binder.source.nodes import Mapping, Node, Scalar, Sequence
from binder.source.splice import Append, Edit, Put, Remove, Replace, edited
from binder.source.yaml_reader import read_yaml
from binder.source.yaml_text import as_read, entry, flow, item, plain_value

STOCK = """\
# Counted on Friday.
fridge:
  - 7 eggs, best before 2026-06-20
  - "6 oz parmesan, opened 2026-05-30"     # the good one
  - 'a # b'
  # - 3 lemons: gone
freezer:   # the chest
- 4 portions stew,
  made 2026-05-17
- 1 lb peas
cellar: [2 lb onions, "1 kg apples, tart", 3 leeks]   # cold
attic:
shed: # nothing yet
"""


def leaves(node: Node | None) -> list[Scalar]:
    if isinstance(node, Scalar):
        return [node]
    if isinstance(node, Mapping):
        return [leaf for _, value in node.entries for leaf in leaves(value)]
    return [leaf for one in node.items for leaf in leaves(one)] if isinstance(node, Sequence) else []


def at(text: str, start: str, path: str = "stock.yaml") -> Span:
    """The place of the value that begins with these words."""
    document = read_document(text.encode(), path, "markdown" if path.endswith(".md") else "yaml")
    return next(leaf.span for leaf in leaves(document.root) if leaf.text.startswith(start))


def change(text: str, *edits: Edit, path: str = "stock.yaml") -> str:
    made = edited(text, edits, path)
    assert isinstance(made, str), made
    return made


def lines_changed(before: str, after: str) -> list[str]:
    found = difflib.unified_diff(before.splitlines(), after.splitlines(), lineterm="", n=0)
    return [line for line in found if not line.startswith(("---", "+++", "@@"))]


def value(text: str) -> Any:
    return plain_value(read_yaml(text, "x")[0])


@pytest.mark.parametrize(
    ("start", "new", "changed"),
    [
        (
            "7 eggs",
            "3 eggs, best before 2026-06-20",
            ["-  - 7 eggs, best before 2026-06-20", "+  - 3 eggs, best before 2026-06-20"],
        ),
        (
            "6 oz",
            "2 oz parmesan, opened 2026-05-30",
            [
                '-  - "6 oz parmesan, opened 2026-05-30"     # the good one',
                '+  - "2 oz parmesan, opened 2026-05-30"     # the good one',
            ],
        ),
        ("a # b", "c # d", ["-  - 'a # b'", "+  - 'c # d'"]),
        (
            "4 portions",
            "1 portion stew, made 2026-05-17",
            ["-- 4 portions stew,", "-  made 2026-05-17", "+- 1 portion stew, made 2026-05-17"],
        ),
        (
            "2 lb onions",
            "1 lb onions, red",
            [
                '-cellar: [2 lb onions, "1 kg apples, tart", 3 leeks]   # cold',
                '+cellar: ["1 lb onions, red", "1 kg apples, tart", 3 leeks]   # cold',
            ],
        ),
    ],
)
def test_a_value_is_replaced_where_it_stands(start: str, new: str, changed: list[str]) -> None:
    assert lines_changed(STOCK, change(STOCK, Replace(at(STOCK, start), new))) == changed


@pytest.mark.parametrize(
    ("start", "changed"),
    [
        ("6 oz", ['-  - "6 oz parmesan, opened 2026-05-30"     # the good one']),
        ("4 portions", ["-- 4 portions stew,", "-  made 2026-05-17"]),
        (
            "2 lb onions",
            [
                '-cellar: [2 lb onions, "1 kg apples, tart", 3 leeks]   # cold',
                '+cellar: ["1 kg apples, tart", 3 leeks]   # cold',
            ],
        ),
        (
            "3 leeks",
            [
                '-cellar: [2 lb onions, "1 kg apples, tart", 3 leeks]   # cold',
                '+cellar: [2 lb onions, "1 kg apples, tart"]   # cold',
            ],
        ),
    ],
)
def test_an_item_is_removed_with_its_lines(start: str, changed: list[str]) -> None:
    assert lines_changed(STOCK, change(STOCK, Remove(at(STOCK, start)))) == changed


@pytest.mark.parametrize(
    ("place", "changed"),
    [
        ("fridge", ["+  - 2 portions soup, made 2026-06-07"]),
        ("freezer", ["+- 2 portions soup, made 2026-06-07"]),
        (
            "cellar",
            [
                '-cellar: [2 lb onions, "1 kg apples, tart", 3 leeks]   # cold',
                '+cellar: [2 lb onions, "1 kg apples, tart", 3 leeks, "2 portions soup, made 2026-06-07"]   # cold',
            ],
        ),
        ("attic", ["+  - 2 portions soup, made 2026-06-07"]),
        ("shed", ["+  - 2 portions soup, made 2026-06-07"]),
    ],
)
def test_an_item_is_appended_in_the_manner_of_its_list(place: str, changed: list[str]) -> None:
    made = change(STOCK, Append(place, "2 portions soup, made 2026-06-07"))
    assert lines_changed(STOCK, made) == changed
    assert value(made)[place][-1] == "2 portions soup, made 2026-06-07"


def test_several_edits_keep_to_the_places_of_the_text_as_given() -> None:
    made = change(
        STOCK,
        Remove(at(STOCK, "7 eggs")),
        Append("fridge", "1 egg"),
        Replace(at(STOCK, "3 leeks"), "1 leek"),
        Remove(at(STOCK, "2 lb onions")),
        Append("fridge", "2 figs"),
        Remove(at(STOCK, "1 lb peas")),
        Remove(at(STOCK, "4 portions")),
        Put("loft", ["1 pear"]),
    )
    assert value(made) == {
        "fridge": ["6 oz parmesan, opened 2026-05-30", "a # b", "1 egg", "2 figs"],
        "freezer": None,
        "cellar": ["1 kg apples, tart", "1 leek"],
        "attic": None,
        "shed": None,
        "loft": ["1 pear"],
    }
    for kept in (
        "# Counted on Friday.",
        "# the good one",
        "  # - 3 lemons: gone",
        "# the chest",
        "# cold",
        "# nothing",
    ):
        assert kept in made


@pytest.mark.parametrize("newline", ["\n", "\r\n", "\r"])
def test_line_ends_and_the_byte_order_mark_stay(newline: str) -> None:
    text = "\ufeff" + STOCK.replace("\n", newline)
    made = change(text, Replace(at(STOCK, "1 lb peas"), "8 oz peas"), Append("fridge", "1 fig"))
    plain = change(STOCK, Replace(at(STOCK, "1 lb peas"), "8 oz peas"), Append("fridge", "1 fig"))
    assert made == "\ufeff" + plain.replace("\n", newline)


def test_a_last_line_without_an_end_gets_one() -> None:
    assert change("a:\n  - 1 x", Append("a", "2 y")) == "a:\n  - 1 x\n  - 2 y\n"


def test_front_matter_is_edited_and_the_body_is_not() -> None:
    text = "---\nweek: 2026-W24   # now\nmeals: []\n# last\n\n---\nNotes.\n\n---\n- a: [b\n"
    made = change(text, Put("closed", {"on": "2026-06-14"}), path="weeks/x.md")
    assert made == text.replace("# last\n", "# last\nclosed: {on: 2026-06-14}\n")
    again = change(made, Put("closed", {"on": "2026-06-15", "why": "x: y"}), path="weeks/x.md")
    assert again == text.replace("# last\n", '# last\nclosed: {on: 2026-06-15, why: "x: y"}\n')


def test_a_block_value_is_exchanged_whole() -> None:
    text = "closed:\n  a:\n    - 1\n  b: 2\n# after\nweek: x\n"
    assert change(text, Put("closed", {"a": [{"b": {"c": 1}}]})) == (
        "closed:\n  a:\n    - b: {c: 1}\n# after\nweek: x\n"
    )


@pytest.mark.parametrize("text", ["", "# nothing yet\n", "\n"])
def test_an_empty_file_takes_its_first_values(text: str) -> None:
    assert value(change(text, Put("fridge", ["1 egg"]))) == {"fridge": ["1 egg"]}
    assert value(change(text, Append(None, {"name": "x"}))) == [{"name": "x"}]
    assert change(text, Append(None, "y")).startswith(text.rstrip("\n"))


def test_brackets_at_the_top_are_edited_within() -> None:
    assert change("{fridge: [], a: 1}\n", Append("fridge", "2 a, b")) == '{fridge: ["2 a, b"], a: 1}\n'
    assert change("{a: 1 # one\n}\n", Put("b", [2])) == "{a: 1, b: [2] # one\n}\n"
    assert change("[]", Append(None, {"name": "x"})) == "[{name: x}]"
    assert change("{a: , b: 1}\n", Append("a", "x")) == "{a: [x], b: 1}\n"


@pytest.mark.parametrize(
    ("text", "edit"),
    [
        ("a: [1\n", Put("b", 1)),
        ("a: 1\na: 2\n", Put("b", 1)),
        ("a: 1\n", Append("a", "x")),
        ("a: 1\n", Append("b", "x")),
        ("- 1\n", Put("b", 1)),
        ("a: 1\n", Remove(Span("x", 1, 4, 5))),
        ("a: 1\n", Replace(Span("x", 7, 1, 5), "x")),
        ("- - 1\n  - 2\n", Remove(Span("x", 1, 5, 6))),
        ("a: 1\n...\n", Put("b", 1)),
    ],
)
def test_what_cannot_be_edited_is_a_problem_and_no_text(text: str, edit: Edit) -> None:
    made = edited(text, [edit], "x.yaml")
    assert isinstance(made, Problem)
    assert made.severity == "error"


def test_an_edit_that_reads_back_as_something_else_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(splice, "item", lambda value, *_, **__: ["  - something else"])
    assert isinstance(edited(STOCK, [Append("fridge", "1 fig")], "stock.yaml"), Problem)


def test_front_matter_that_is_not_closed_is_refused() -> None:
    assert isinstance(edited("---\nweek: x\n", [Put("closed", 1)], "weeks/x.md"), Problem)


VALUES = st.recursive(
    st.none() | st.booleans() | st.integers(-999, 10**9) | st.floats(0, 1e12) | st.text(max_size=30)
    | st.sampled_from(["no", "1:30", "2026-06-07", "- x", "a: b", "a #b", "", " x", "2 c. x, y", "~", "1 e", "\u2028"]),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(min_size=1, max_size=8), inner, max_size=3),
    max_leaves=8,
)  # fmt: skip


@given(VALUES)
@settings(max_examples=100, deadline=None)
def test_whatever_is_written_reads_back(what: Any) -> None:
    meant = as_read(what)
    assert value("\n".join(entry("key", what))) == {"key": meant}
    assert value("\n".join(item(what))) == [meant]
    assert value(f"[{flow(what)}]") == [meant]
    if isinstance(what, str):
        assert meant == what


@given(st.lists(VALUES, max_size=3), VALUES)
@settings(max_examples=50, deadline=None)
def test_any_value_can_be_appended_and_put(items: list[Any], what: Any) -> None:
    text = "\n".join(entry("list", items)) + "\n# end\n"
    made = edited(text, [Append("list", what), Put("new", what)], "x.yaml")
    assert isinstance(made, str), made
    assert value(made) == {"list": [*as_read(items), as_read(what)], "new": as_read(what)}
    assert "# end\n" in made


def test_fractions_are_written_exactly() -> None:
    assert [flow(Fraction(n)) for n in ("8", "3/4", "1/3", "-1/2")] == ["8", "0.75", "1/3", "-0.5"]
    assert flow(1e-07) == "0.0000001"
