from __future__ import annotations

import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from binder.source.document import MOST_BYTES, Document, read_document
from binder.source.nodes import Mapping, Scalar

from .strategies import yaml_like


def codes(document: Document) -> list[tuple[str, int, int]]:
    return [(p.code, p.span.line, p.span.column) for p in document.problems]


def test_front_matter_and_body_keep_the_lines_of_their_file() -> None:
    text = "---\ntitle: Dal\nmeal: [lunch\n---\nNotes.\n"
    assert codes(read_document(text.encode(), "r.md", "markdown")) == [("yaml-syntax", 3, 7)]
    document = read_document(text.replace("[lunch", "lunch").encode(), "r.md", "markdown")
    assert document.problems == ()
    assert isinstance(document.root, Mapping) and document.root.keys() == ("title", "meal")
    assert document.root.entries[1][1].span.line == 3
    assert (document.body.notes, document.body.notes_line) == ("Notes.", 5)


@pytest.mark.parametrize(
    ("data", "code", "line", "column"),
    [
        (b"a: 1\nb: caf\xe9 x", "not-text", 2, 7),
        (b"\xff\xfea\x00", "not-text", 1, 1),
        (b"a: 1\r\nb: \x00", "not-text", 2, 4),
        (b"x" * (MOST_BYTES + 1), "too-large", 1, 1),
    ],
)
def test_what_is_no_text_is_refused_at_its_place(data: bytes, code: str, line: int, column: int) -> None:
    document = read_document(data, "f.yaml", "yaml")
    assert codes(document) == [(code, line, column)] and document.root is None


def test_wording_of_not_text_and_too_large() -> None:
    assert read_document(b"\xff", "f", "yaml").problems[0].message == "not UTF-8 text"
    too_large = read_document(b" " * (MOST_BYTES + 1), "f", "yaml").problems[0]
    assert too_large.message == "a file of 2,000,001 bytes; at most 2,000,000 are read"


@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
@pytest.mark.parametrize("end", [b"\n", b"\r\n", b"\r"])
def test_byte_order_mark_and_line_ends_move_nothing(mark: bytes, end: bytes) -> None:
    data = mark + end.join((b"---", b"a: 1", b"b: \xc3\xa9: 2", b"---", b"", b"Text."))
    assert codes(read_document(data, "r.md", "markdown")) == [("yaml-syntax", 3, 5)]
    document = read_document(data.replace(b": 2", b""), "r.md", "markdown")
    assert document.problems == () and (document.body.notes, document.body.notes_line) == ("Text.", 6)


@pytest.mark.parametrize(
    ("text", "line", "message"),
    [
        ("title: Dal\n", 1, "no front matter"),
        ("", 1, "no front matter"),
        ("\n\n# Dal\n", 3, "no front matter"),
        ("---\ntitle: Dal\n", 1, "the front matter is not closed"),
        ("--- \n", 1, "the front matter is not closed"),
    ],
)
def test_front_matter_missing_or_not_closed_is_yaml_syntax(text: str, line: int, message: str) -> None:
    document = read_document(text.encode(), "r.md", "markdown")
    (problem,) = document.problems
    assert (problem.code, problem.span.line, problem.message) == ("yaml-syntax", line, message)
    assert problem.remedies and document.root is None


def test_empty_front_matter_is_an_empty_map_and_an_empty_file_is_null() -> None:
    matter = read_document(b"---\n---\n", "r.md", "markdown").root
    assert isinstance(matter, Mapping) and matter.entries == ()
    root = read_document(b"", "stock.yaml", "yaml").root
    assert isinstance(root, Scalar) and root.value is None


def test_the_whole_of_a_yaml_file_is_its_root() -> None:
    document = read_document(b"fridge:\n  - 18 oz tomato passata, opened 2026-06-03\n", "stock.yaml", "yaml")
    assert isinstance(document.root, Mapping) and document.root.keys() == ("fridge",) and document.body.prep == ()


@settings(deadline=None, max_examples=300)
@given(
    st.one_of(
        yaml_like.map(str.encode),
        yaml_like.map(lambda text: f"---\n{text}\n---\n{text}".encode()),
        st.binary(max_size=80),
    )
)
def test_no_bytes_crash_the_reader(data: bytes) -> None:
    for document in (read_document(data, "f", "yaml"), read_document(data, "f", "markdown")):
        lines = document.text.count("\n") + 1
        assert document.root is not None or document.problems
        assert all(1 <= p.span.line <= lines and 1 <= p.span.column <= p.span.end for p in document.problems)


@pytest.mark.parametrize(
    "data",
    [
        b"---\na: 1\n---\n# " + b" " * 1_000_000 + b"x",
        b"---\na: 1\n---\n## " + b"# " * 500_000,
        b"---\na: 1\n---\n## Prep day\n" + b"- " * 500_000,
        b"---\na: 1\n---\n## Prep day\n" + b"[" * 1_000_000 + b"]",
        b"a: 1\n" + b" " * 1_000_000 + b"x: y: z",
        b'a: "' + b"b" * 1_000_000,
        b"[" + b"a, " * 100_000,
        b"---\na: 1\n---\n## Prep day\n" + b"- x [1 min]\n" * 10_000,
    ],
)
def test_odd_files_cost_no_more_than_their_size(data: bytes) -> None:
    started = time.process_time()
    read_document(data, "f", "markdown" if data.startswith(b"---") else "yaml")
    assert time.process_time() - started < 10
