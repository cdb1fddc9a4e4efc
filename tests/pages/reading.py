"""Reading a page back as text, as a person would see it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import fields, is_dataclass
from typing import Any, TypeVar

from binder.pages.page import Page, Run, Table, Text

B = TypeVar("B")


def said(text: Text) -> str:
    return "".join(run.text for run in text).replace("\u00a0", " ")


def parts(what: Any) -> Iterator[Any]:
    """Every block, run and string in a tree of blocks, in order."""
    if isinstance(what, Page) or (is_dataclass(what) and not isinstance(what, type)):
        yield what
        for one in fields(what):
            yield from parts(getattr(what, one.name))
    elif isinstance(what, (tuple, list)):
        for one in what:
            yield from parts(one)
    elif isinstance(what, str):
        yield what


def words(what: Any) -> str:
    """All strings of a tree, with ordinary spaces."""
    return "\n".join(p for p in parts(what) if isinstance(p, str)).replace("\u00a0", " ")


def of_kind(what: Any, kind: type[B]) -> list[B]:
    return [p for p in parts(what) if isinstance(p, kind)]


def table(pages: Iterable[Page], kind: str) -> list[tuple[str, ...]]:
    """The rows of the first table of a kind, as text."""
    found = next(t for t in of_kind(tuple(pages), Table) if t.kind == kind)
    return [tuple(said(cell) for cell in row.cells) for row in found.rows]


def links(what: Any) -> list[str]:
    return [r.href for r in of_kind(what, Run) if r.href]
