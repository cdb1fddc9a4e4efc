"""A file's bytes to what they say."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from binder.problem import Problem, Span, error
from binder.source.body import NO_BODY, Body, read_body
from binder.source.limits import MOST_BYTES
from binder.source.nodes import Mapping, Node, Scalar
from binder.source.yaml_reader import read_yaml


@dataclass(frozen=True, slots=True)
class Document:
    """One file read. `text` has no byte order mark and ends its lines with `\\n`.

    `root` is None only when the YAML could not be read (a problem says why); a file without any value has a null
    scalar, empty front matter an empty mapping.
    """

    path: str
    text: str
    root: Node | None
    body: Body
    problems: tuple[Problem, ...]


def read_document(data: bytes, path: str, kind: Literal["markdown", "yaml"]) -> Document:
    """A file's bytes, UTF-8, with `path` as it is to be shown. Never fails: problems say what could not be read.

    Markdown has its values in front matter between two lines `---`; of a YAML file the whole is the root.
    """
    text, problem = _text(data, path)
    if problem:
        return Document(path, text, None, NO_BODY, (problem,))
    if kind == "yaml":
        root, problems = read_yaml(text, path)
        return Document(path, text, root, NO_BODY, problems)
    return _markdown(text, path)


def _text(data: bytes, path: str) -> tuple[str, Problem | None]:
    """The text, its lines ended by `\\n`, with marks for what is no text; and why it cannot be read."""
    start = Span(path, 1, 1, 2)
    if len(data) > MOST_BYTES:
        message = f"a file of {len(data):,} bytes; at most {MOST_BYTES:,} are read"
        return "", error(start, "too-large", message, "split it, or keep pictures in content/photos")
    text = data.decode("utf-8-sig", "replace").replace("\r\n", "\n").replace("\r", "\n")
    try:
        data.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        before = data[: fault.start].decode("utf-8-sig", "replace").replace("\r\n", "\n").replace("\r", "\n")
        return text, error(_place(before, path), "not-text", "not UTF-8 text", "save the file as UTF-8")
    if "\0" in text:
        place = _place(text[: text.index("\0")], path)
        return text, error(place, "not-text", "a NUL character: this is no text file", "save the file as UTF-8 text")
    return text, None


def _place(before: str, path: str) -> Span:
    """The character after a text."""
    column = len(before) - (before.rfind("\n") + 1) + 1
    return Span(path, before.count("\n") + 1, column, column + 1)


def _markdown(text: str, path: str) -> Document:
    lines = text.split("\n")
    first = next((number for number, line in enumerate(lines) if line.strip()), 0)
    place = Span(path, first + 1, 1, max(len(lines[first]), 1) + 1)
    if lines[first].rstrip() != "---":
        remedy = "begin the file with a line ---, then keys and values, then another line ---"
        return _unread(text, path, error(place, "yaml-syntax", "no front matter", remedy))
    last = next((n for n, line in enumerate(lines) if n > first and line.rstrip() in ("---", "...")), None)
    if last is None:
        remedy = "write a line --- after the last key"
        return _unread(text, path, error(place, "yaml-syntax", "the front matter is not closed", remedy))
    root, problems = read_yaml("\n".join(lines[first + 1 : last]), path, first + 2)
    if isinstance(root, Scalar) and root.value is None:
        root = Mapping((), place)
    body, faults = read_body("\n".join(lines[last + 1 :]), path, last + 2)
    return Document(path, text, root, body, (*problems, *faults))


def _unread(text: str, path: str, problem: Problem) -> Document:
    return Document(path, text, None, NO_BODY, (problem,))
