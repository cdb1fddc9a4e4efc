"""What the declarations give besides the check: JSON Schema for editors, and the field reference of the docs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, Literal

from binder.check.compounds import AsItWas, Either, ListOf, MapOf, OneOrMany
from binder.check.declare import Kind, Record, Schema
from binder.check.fields import FOODS, HOUSEHOLD, RECIPE, STOCK, WEEK
from binder.check.lives import PartLives

FileKind = Literal["household", "recipe", "week", "foods", "stock"]
DIALECT = "https://json-schema.org/draft/2020-12/schema"
FILES: MappingProxyType[FileKind, tuple[Kind[Any], str]] = MappingProxyType(
    {
        "household": (HOUSEHOLD, "household.yaml: who eats, where, and what the kitchen has"),
        "recipe": (RECIPE, "the front matter of recipes/NAME.md"),
        "week": (WEEK, "the front matter of weeks/YYYY-Www.md"),
        "foods": (FOODS, "foods.yaml: the household's own foods"),
        "stock": (STOCK, "stock.yaml: what is on hand, by place"),
    }
)


@dataclass(frozen=True, slots=True)
class FieldRow:
    """One key for the reference: its way from the top (`eaters[].name`), what it takes, one sentence about it."""

    path: str
    required: bool
    takes: str
    says: str


def schema(kind: FileKind) -> Schema:
    """JSON Schema 2020-12 of one kind of file (of the front matter, where there is one)."""
    top, title = FILES[kind]
    return {"$schema": DIALECT, "title": title, **top.schema()}


def field_reference(kind: FileKind) -> tuple[FieldRow, ...]:
    """Every key that a kind of file may have, in the order declared."""
    return tuple(_rows(FILES[kind][0], ""))


def _rows(kind: Kind[Any], path: str) -> Iterator[FieldRow]:
    if isinstance(kind, Record):
        for one in kind.of.all:
            here = f"{path}.{one.name}" if path else one.name
            required = one.required or one in kind.of.exactly_one
            yield FieldRow(here, required, one.kind.words(), one.says)
            yield from _rows(one.kind, here)
    elif isinstance(kind, PartLives):
        yield from _rows(kind.whole, path)
    elif isinstance(kind, MapOf):
        yield from _rows(kind.of, f"{path}.NAME" if path else "NAME")
    elif isinstance(kind, ListOf):
        yield from _rows(kind.of, f"{path}[]")
    elif isinstance(kind, OneOrMany | AsItWas):
        yield from _rows(kind.of, path)
    elif isinstance(kind, Either):
        yield from _rows(kind.one, path)
        yield from _rows(kind.other, path)
