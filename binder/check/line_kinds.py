"""Lines that have a grammar of their own, as kinds that a declaration can ask for."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from binder.check.amount_kinds import PercentText
from binder.check.compounds import ListOf
from binder.check.declare import Field, Fields, Found, Kind, Record, Said, Schema, is_empty, wrong_form
from binder.check.leaves import Leaf, Text
from binder.check.prep_words import SAID
from binder.problem import Problem, Span, error
from binder.source.line import Line, read_line
from binder.source.nodes import Mapping, Node, Scalar, Sequence, as_line
from binder.source.reheat_line import Reheat, read_reheat
from binder.source.stock_line import StockLine, read_stock_line

_LINE: Schema = {"type": "string"}


class LineText(Kind[Line]):
    """One ingredient line, or a part made from another recipe."""

    forms = (Scalar, Mapping)

    def read(self, node: Node, found: Found) -> Line | None:
        scalar = as_line(node)
        if scalar is None or is_empty(scalar):
            found.append(wrong_form(node, self.words()))
            return None
        line, problems = read_line(scalar.text, scalar.span)
        found.extend(problems)
        return line

    def schema(self) -> Schema:
        part: Schema = {
            "type": "object",
            "minProperties": 1,
            "maxProperties": 1,
            "patternProperties": {"(^| )recipe$": {"type": ["string", "number"]}},
            "additionalProperties": False,
        }
        return {"anyOf": [dict(_LINE), part]}

    def words(self) -> str:
        return "a line, 2 cups flour, sifted"


class ItemFields(Fields):
    what = "an ingredient"
    item = Field("item", LineText(), "The line: amount, unit, food, preparation.", required=True)
    food = Field("food", Text(), "The food, by the exact name of the household's or of a table row.")
    eaten = Field("eaten", PercentText(), "The share that is eaten; the rest is thrown away.")


@dataclass(frozen=True, slots=True)
class Item:
    """One ingredient as written; `food` names it outright, `eaten` is the share that is not thrown away."""

    line: Line
    food: Said[str] | None = None
    eaten: Fraction = Fraction(1)


class IngredientItem(Kind[Item]):
    """An ingredient: a line, or a line with more to say of it."""

    forms = (Scalar, Mapping)

    def __init__(self) -> None:
        self.line, self.record = LineText(), Record(ItemFields)

    def read(self, node: Node, found: Found) -> Item | None:
        if not isinstance(node, Mapping) or as_line(node) is not None:
            line = self.line.read(node, found)
            return None if line is None else Item(line)
        key = node.entries[0][0] if len(node.entries) == 1 else None
        if key and key.text not in self.record.by_name:
            remedy = "put the line in quotes: a colon before a space makes a key of what stands before it"
            found.append(error(key.span, "unknown-key", f'"{key.text}" is no key of an ingredient', remedy))
            return None
        entry = self.record.read(node, found)
        line = entry.get(ItemFields.item) if entry else None
        if entry is None or line is None:
            return None
        eaten = entry.get(ItemFields.eaten)
        return Item(line, entry.get(ItemFields.food), Fraction(1) if eaten is None else eaten.value)

    def schema(self) -> Schema:
        return {"anyOf": [*self.line.schema()["anyOf"], self.record.schema()]}

    def words(self) -> str:
        return "an ingredient line, or keys: item, food, eaten"


_CONTINUES = frozenset(("for", "to", "plus", "or", "in", "into", "cut"))


class IngredientList(ListOf[Item]):
    """Ingredients; a comma inside `[80 g squash seeds, for toasting]` parts no two of them.

    `measured`: every one has an amount, so that any words without one belong to what stands before them.
    """

    def __init__(self, measured: bool = False) -> None:
        super().__init__(IngredientItem())
        self.measured = measured

    def read(self, node: Node, found: Found) -> tuple[Item, ...] | None:
        if not isinstance(node, Sequence):
            return super().read(node, found)
        items: list[Node] = []
        for item in node.items:
            joined = _joined(items[-1], item, self.measured) if items else None
            items[-1:] = [joined] if joined else [*items[-1:], item]
        return super().read(Sequence(tuple(items), node.span), found)


def _joined(one: Node, other: Node, measured: bool) -> Scalar | None:
    """Both as one line, when the second goes on with the first: on its line, without an amount, beginning so.

    Where every item is `measured`, however it begins.
    """
    if not isinstance(one, Scalar) or not isinstance(other, Scalar) or one.quoted or other.quoted:
        return None
    near = one.exact and other.exact and one.span.line == other.span.line and other.span.column > one.span.end
    words = other.text.lower().split()
    goes_on = measured or (words[:1] and words[0] in _CONTINUES) or all(word in SAID for word in words)
    if not near or not goes_on or any(c.isdigit() for c in other.text):
        return None
    text = f"{one.text},{' ' * (other.span.column - one.span.end - 1)}{other.text}"
    return Scalar(text, text, Span(one.span.path, one.span.line, one.span.column, other.span.end))


class ReheatText(Leaf[Reheat]):
    """One way to reheat."""

    def value(self, text: str, span: Span, found: Found) -> Reheat | None:
        reheat, problems = read_reheat(text, span)
        found.extend(problems)
        return reheat

    def schema(self) -> Schema:
        return dict(_LINE)

    def words(self) -> str:
        return "a way to reheat, microwave 1000 W, 2 min 30 s"


@dataclass(frozen=True, slots=True)
class Lot:
    """A stock line as read, with what is wrong with it."""

    stock: StockLine
    text: str
    span: Span
    problems: tuple[Problem, ...]


class StockText(Kind[Lot]):
    """One lot on hand; what is wrong with it is said where it is left out."""

    forms = (Scalar, Mapping)

    def read(self, node: Node, found: Found) -> Lot | None:
        scalar = as_line(node)
        if scalar is None or is_empty(scalar):
            found.append(wrong_form(node, self.words()))
            return None
        stock, problems = read_stock_line(scalar.text, scalar.span)
        return Lot(stock, scalar.text, scalar.span, problems)

    def schema(self) -> Schema:
        return dict(_LINE)

    def words(self) -> str:
        return "a stock line, 18 oz tomato passata, opened 2026-06-03"
