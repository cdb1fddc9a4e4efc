"""The vocabulary in which the fields of a file are declared.

A kind says what a value may be: it reads a node to what was said (adding what is wrong to `found`), it gives the
JSON Schema for editors, and it gives its own words for the field reference. Reading never stops at a fault: what
cannot stand is left out, as None or out of its list.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Mapping as MappingOf
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any, ClassVar, Generic, TypeVar, cast

from binder.check.near import ways_out
from binder.problem import Problem, Span, error
from binder.source.nodes import Mapping, Node, Scalar, Sequence

T = TypeVar("T")
Of = TypeVar("Of", covariant=True)
K = TypeVar("K")
A = TypeVar("A")
B = TypeVar("B")
Found = list[Problem]
Schema = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Said(Generic[Of]):
    """A value, the text it was written in, and where."""

    value: Of
    text: str
    span: Span


class Kind(ABC, Generic[Of]):
    """What a value may be."""

    forms: ClassVar[tuple[type, ...]] = (Scalar,)

    @abstractmethod
    def read(self, node: Node, found: Found) -> Of | None:
        """What the node says; None when it cannot stand, its problems added to `found`."""

    @abstractmethod
    def schema(self) -> Schema:
        """JSON Schema 2020-12 of such a value."""

    @abstractmethod
    def words(self) -> str:
        """What it is, in words that follow "takes": `a date, 2026-06-07`."""

    def takes(self, node: Node) -> bool:
        """Whether the node has the outward form of such a value."""
        return isinstance(node, self.forms)


def is_empty(node: Node) -> bool:
    """A key with nothing after it: the same as no key."""
    return isinstance(node, Scalar) and (node.value is None or not node.text.strip())


def form_of(node: Node) -> str:
    """A node's outward form, in words."""
    if isinstance(node, Mapping):
        return "keys with values"
    return "a list" if isinstance(node, Sequence) else "a single value"


def wrong_form(node: Node, words: str) -> Problem:
    """The problem of a list where text belongs, and the like."""
    stands = "nothing stands" if is_empty(node) else f"{form_of(node)} stands"
    alone = isinstance(node, Scalar) and not is_empty(node) and words.startswith("a list")
    remedies = (f"write [{node.text}]",) if alone and isinstance(node, Scalar) else ()
    return error(node.span, "wrong-type", f"{stands} where {words} belongs", *remedies)


@dataclass(frozen=True)
class Field(Generic[Of]):
    """One key of a mapping: its name, what it takes, one sentence about it."""

    name: str
    kind: Kind[Of]
    says: str
    required: bool = False


@dataclass(frozen=True, slots=True)
class Entry:
    """One mapping read: what was said under each key that could stand."""

    span: Span
    said: MappingOf[str, object] = field(default_factory=lambda: MappingProxyType({}))
    places: MappingOf[str, Span] = field(default_factory=lambda: MappingProxyType({}))

    def get(self, of: Field[T]) -> T | None:
        """What was said under the field, None when nothing was or it cannot stand."""
        return cast("T | None", self.said.get(of.name))

    def has(self, of: Field[Any]) -> bool:
        """Whether the key is there with something after it, whether or not that can stand."""
        return of.name in self.places

    def at(self, of: Field[Any]) -> Span:
        """The key's place, or the whole entry's."""
        return self.places.get(of.name, self.span)


class Fields:
    """The keys of one kind of mapping: a subclass lists them as class attributes."""

    what: ClassVar[str] = ""  # "an eater", in words
    all: ClassVar[tuple[Field[Any], ...]] = ()
    exactly_one: ClassVar[tuple[Field[Any], ...]] = ()  # of these keys

    def __init_subclass__(cls) -> None:
        listed: list[Field[Any]] = []
        for name, value in vars(cls).items():
            if name in ("all", "exactly_one"):
                continue
            if isinstance(value, Field):
                listed.append(value)
            elif isinstance(value, dict):
                listed.extend(one for one in value.values() if isinstance(one, Field))
        cls.all = tuple(listed)


class Record(Kind[Entry]):
    """A mapping with declared keys."""

    forms = (Mapping,)

    def __init__(self, of: type[Fields]) -> None:
        self.of = of
        self.by_name = {one.name: one for one in of.all}

    def read(self, node: Node, found: Found) -> Entry | None:
        if not isinstance(node, Mapping):
            found.append(wrong_form(node, self.words()))
            return None
        said: dict[str, object] = {}
        places: dict[str, Span] = {}
        for key, value in node.entries:
            one = self.by_name.get(key.text)
            if one is None:
                found.append(self._unknown(key))
            elif not is_empty(value):
                places[key.text] = key.span
                said[key.text] = one.kind.read(value, found)
        self._complete(node, places, found)
        return Entry(node.span, MappingProxyType(said), MappingProxyType(places))

    def _unknown(self, key: Scalar) -> Problem:
        remedies = ways_out(key.text, tuple(self.by_name), f"the keys of {self.of.what}")
        return error(key.span, "unknown-key", f'no key "{key.text}" in {self.of.what}', *remedies)

    def _complete(self, node: Mapping, places: dict[str, Span], found: Found) -> None:
        for one in self.of.all:
            if one.required and one.name not in places:
                key = node.key(one.name)
                message = f'{self.of.what} needs "{one.name}"'
                found.append(error(key.span if key else node.span, "missing-key", message, one.says))
        choice = [one.name for one in self.of.exactly_one]
        there = [name for name in places if name in choice]
        if choice and not there:
            found.append(error(node.span, "missing-key", f"{self.of.what} needs one of {', '.join(choice)}"))
        for extra in there[1:]:
            found.append(error(places[extra], "wrong-type", f'"{there[0]}" and "{extra}" in one: only one can stand'))

    def schema(self) -> Schema:
        made: Schema = {"type": "object", "additionalProperties": False, "properties": {}}
        for one in self.of.all:
            # A key with nothing after it counts as left out.
            kind = one.kind.schema()
            value = kind if one.required else {"anyOf": [kind, {"type": "null"}]}
            made["properties"][one.name] = {"description": one.says, **value}
        required = [one.name for one in self.of.all if one.required]
        if required:
            made["required"] = required
        if self.of.exactly_one:
            made["oneOf"] = [{"required": [one.name]} for one in self.of.exactly_one]
        return made

    def words(self) -> str:
        return "keys with values"


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
            said = self.of.read(value, found)
            if name is not None and said is not None:
                pairs.append((name, said))
        return tuple(pairs)

    def schema(self) -> Schema:
        return {"type": "object", "additionalProperties": self.of.schema()}

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


class Free(Kind[Node]):
    """Anything, kept as it is."""

    def takes(self, node: Node) -> bool:
        return True

    def read(self, node: Node, found: Found) -> Node | None:
        return node

    def schema(self) -> Schema:
        return {}

    def words(self) -> str:
        return "anything"
