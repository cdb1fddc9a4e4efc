"""Lists, mappings with the household's own keys, and alternatives of what a declaration can ask for."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TypeVar

from binder.check.declare import Entry, Found, Kind, Record, Schema, is_empty, or_empty, wrong_form
from binder.source.nodes import Mapping, Node, Scalar, Sequence

T = TypeVar("T")
K = TypeVar("K")
A = TypeVar("A")
B = TypeVar("B")


class ListOf(Kind[tuple[T, ...]]):
    """A list of one kind; what cannot stand is left out of it."""

    forms = (Sequence,)

    def __init__(self, of: Kind[T]) -> None:
        self.of = of

    def read(self, node: Node, found: Found) -> tuple[T, ...] | None:
        if not isinstance(node, Sequence):
            found.append(wrong_form(node, "a list"))
            return None
        read = [self.of.read(item, found) for item in node.items]
        return tuple(one for one in read if one is not None)

    def schema(self) -> Schema:
        return {"type": "array", "items": self.of.schema()}

    def words(self) -> str:
        return f"a list; each: {self.of.words()}"


class OneOrMany(Kind[tuple[T, ...]]):
    """One value, or a list of several."""

    forms = (Scalar, Sequence)

    def __init__(self, of: Kind[T]) -> None:
        self.of = of
        self.many = ListOf(of)

    def read(self, node: Node, found: Found) -> tuple[T, ...] | None:
        if isinstance(node, Sequence):
            return self.many.read(node, found)
        one = self.of.read(node, found)
        return None if one is None else (one,)

    def schema(self) -> Schema:
        return {"anyOf": [self.of.schema(), self.many.schema()]}

    def words(self) -> str:
        return f"{self.of.words()}, or a list of several"


class MapOf(Kind[tuple[tuple[K, T], ...]]):
    """A mapping whose keys are the household's own words; pairs in the order written."""

    forms = (Mapping,)

    def __init__(self, key: Kind[K], of: Kind[T]) -> None:
        self.key, self.of = key, of

    def read(self, node: Node, found: Found) -> tuple[tuple[K, T], ...] | None:
        if not isinstance(node, Mapping):
            found.append(wrong_form(node, "keys with values"))
            return None
        pairs: list[tuple[K, T]] = []
        for key, value in node.entries:
            name = self.key.read(key, found)
            said = None if is_empty(value) else self.of.read(value, found)
            if name is not None and said is not None:
                pairs.append((name, said))
        return tuple(pairs)

    def schema(self) -> Schema:
        return {"type": "object", "additionalProperties": or_empty(self.of.schema())}

    def words(self) -> str:
        return f"keys ({self.key.words()}), under each {self.of.words()}"


class Either(Kind[A | B]):
    """One of two kinds, told apart by their outward form."""

    def __init__(self, one: Kind[A], other: Kind[B]) -> None:
        self.one, self.other = one, other

    def takes(self, node: Node) -> bool:
        return self.one.takes(node) or self.other.takes(node)

    def read(self, node: Node, found: Found) -> A | B | None:
        if self.one.takes(node):
            return self.one.read(node, found)
        if self.other.takes(node):
            return self.other.read(node, found)
        found.append(wrong_form(node, self.words()))
        return None

    def schema(self) -> Schema:
        return {"anyOf": [self.one.schema(), self.other.schema()]}

    def words(self) -> str:
        return f"{self.one.words()}, or {self.other.words()}"


@dataclass(frozen=True, slots=True)
class Kept:
    """A block as it stands, and what of it is understood."""

    node: Node
    entry: Entry


class AsItWas(Kind[Kept]):
    """A record of the past: never an error. Keys that are not known stay, what cannot be read is a warning."""

    def __init__(self, of: Record) -> None:
        self.of = of

    def takes(self, node: Node) -> bool:
        return True

    def read(self, node: Node, found: Found) -> Kept | None:
        if not isinstance(node, Mapping):
            return Kept(node, Entry(node.span))
        wrong: Found = []
        entry = self.of.read(node, wrong)
        found.extend(replace(one, severity="warning") for one in wrong if one.code != "unknown-key")
        return Kept(node, entry or Entry(node.span))

    def schema(self) -> Schema:
        return {"anyOf": [{**self.of.schema(), "additionalProperties": True}, {"type": ["string", "boolean"]}]}

    def words(self) -> str:
        return self.of.words()
