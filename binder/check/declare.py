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
    remedies = (f"write [{node.text}]",) if alone and isinstance(node, Scalar) else (f"write {words}",)
    return error(node.span, "wrong-type", f"{stands} where {words} belongs", *remedies)


def or_empty(kind: Schema) -> Schema:
    """A key with nothing after it counts as left out."""
    return {"anyOf": [kind, {"type": "null"}]} if kind else {}


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
            message = f"{self.of.what} needs one of {', '.join(choice)}"
            found.append(error(node.span, "missing-key", message, f"write one of them, such as `{choice[0]}: ...`"))
        for extra in there[1:]:
            message = f'"{there[0]}" and "{extra}" in one: only one can stand'
            found.append(error(places[extra], "wrong-type", message, "take one of them out, or write it apart"))

    def schema(self) -> Schema:
        made: Schema = {"type": "object", "additionalProperties": False, "properties": {}}
        for one in self.of.all:
            kind = one.kind.schema()
            value = kind if one.required else or_empty(kind)
            made["properties"][one.name] = {"description": one.says, **value}
        required = [one.name for one in self.of.all if one.required]
        if required:
            made["required"] = required
        if self.of.exactly_one:
            made["oneOf"] = [{"required": [one.name]} for one in self.of.exactly_one]
        return made

    def words(self) -> str:
        return "keys with values"
