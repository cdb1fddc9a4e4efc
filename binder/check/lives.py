"""How long something keeps, as it may be written: a row of the chart, times of the household's own, or part by part."""

from __future__ import annotations

from dataclasses import dataclass

from binder.check.dates import Life
from binder.check.declare import Entry, Found, Kind, Record, Said, Schema, is_empty, wrong_form
from binder.check.leaves import OneOf
from binder.source.nodes import Mapping, Node, Scalar

PartLife = Said[str] | Said[tuple[int, int]] | Entry


@dataclass(frozen=True, slots=True)
class ByPart:
    """The lives of parts by name; `rest` is what holds for the rest of the dish, where that is written."""

    parts: tuple[tuple[Scalar, PartLife], ...]
    rest: Entry | None


class PartLives(Kind[Entry | ByPart]):
    """Times of the household's own, for the whole or under the names of parts."""

    forms = (Mapping,)

    def __init__(self, whole: Record, rows: tuple[str, ...]) -> None:
        self.whole, self.row, self.life = whole, OneOf(rows), Life()

    def read(self, node: Node, found: Found) -> Entry | ByPart | None:
        if not isinstance(node, Mapping):
            found.append(wrong_form(node, self.words()))
            return None
        own = tuple((key, value) for key, value in node.entries if key.text in self.whole.by_name)
        if len(own) == len(node.entries):
            return self.whole.read(node, found)
        read = [
            (key, self._life(value, found))
            for key, value in node.entries
            if key.text not in self.whole.by_name and not is_empty(value)
        ]
        rest = self.whole.read(Mapping(own, node.span), found) if own else None
        return ByPart(tuple((key, life) for key, life in read if life is not None), rest)

    def _life(self, node: Node, found: Found) -> PartLife | None:
        if self.whole.takes(node):
            return self.whole.read(node, found)
        if isinstance(node, Scalar) and node.text.strip()[:1].isdigit():
            return self.life.read(node, found)
        return self.row.read(node, found)

    def schema(self) -> Schema:
        own = self.whole.schema()
        part: Schema = {"anyOf": [self.row.schema(), self.life.schema(), own, {"type": "null"}]}
        return {**own, "additionalProperties": part}

    def words(self) -> str:
        return "keys with values, or parts with how long each keeps"
