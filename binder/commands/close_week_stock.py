"""stock.yaml after a week: what it took taken out, what it left put in; and back again, to close it anew."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from binder.commands.close_week_lines import line_of, reduced, same_line
from binder.model.stock import Stock
from binder.model.week import StockChange
from binder.problem import Problem
from binder.reckon.closing_lots import NewLot
from binder.source.document import read_document
from binder.source.nodes import Mapping as MappingNode
from binder.source.nodes import Scalar, Sequence, as_line
from binder.source.splice import Append, Edit, Put, Remove, Replace, edited

PATH = "stock.yaml"


@dataclass(frozen=True, slots=True)
class Stocked:
    """The text of stock.yaml, the lines that changed in it, and what a person has to see to."""

    text: str
    changes: tuple[StockChange, ...] = ()
    notes: tuple[str, ...] = ()


def after_week(
    text: str, stock: Stock, left: Mapping[str, Fraction], new: Iterable[NewLot], titles: Mapping[str, str]
) -> Stocked | Problem:
    """The text with `left` of each lot (a share, by lot id) and the new lots at the end of their places."""
    edits: list[Edit] = []
    changes: list[StockChange] = []
    for lot in stock.lots:
        share = left.get(lot.id, Fraction(1))
        if share >= 1:
            continue
        now = reduced(lot.text, share)
        if now is not None and same_line(now, lot.text):
            continue
        edits.append(Remove(lot.span) if now is None else Replace(lot.span, now))
        changes.append(StockChange(lot.place, lot.text, now))
    added = [(lot.place, line_of(lot, titles)) for lot in new]
    changes += [StockChange(place, None, line) for place, line in added]
    made = _edited(text, edits, added)
    return made if isinstance(made, Problem) else Stocked(made, tuple(changes))


def before_week(text: str, changes: Iterable[StockChange]) -> Stocked | Problem:
    """The text as it was before these changes, as far as their lines still stand in it."""
    edits: list[Edit] = []
    back: list[tuple[str, str]] = []
    notes: list[str] = []
    lines = _lines(text)
    for change in reversed(tuple(changes)):
        if change.now is None:
            back.append((change.place, change.was or ""))
            continue
        there = next((one for one in lines if one[0] == change.place and same_line(one[1].text, change.now)), None)
        if there is None:
            notes.append(f"{PATH}: `{change.now}` is not in {change.place} any more: see that what is left is right")
            continue
        lines.remove(there)
        edits.append(Remove(there[1].span) if change.was is None else Replace(there[1].span, change.was))
    made = _edited(text, edits, reversed(back))
    return made if isinstance(made, Problem) else Stocked(made, (), tuple(notes))


def _edited(text: str, edits: list[Edit], added: Iterable[tuple[str, str]]) -> str | Problem:
    """The edits, then each new line at the end of its place, which is made where there is none."""
    made = edited(text, edits, PATH)
    for place, line in added:
        if isinstance(made, Problem):
            return made
        key = _places(made).get(place)
        made = edited(made, [Put(place, [line]) if key is None else Append(key, line)], PATH)
    return made


def _root(text: str) -> MappingNode | None:
    root = read_document(text.encode(), PATH, "yaml").root
    return root if isinstance(root, MappingNode) else None


def _places(text: str) -> dict[str, str]:
    """The places, by their names with single spaces, as their keys are written."""
    root = _root(text)
    return {" ".join(key.text.split()): key.text for key, _ in root.entries} if root else {}


def _lines(text: str) -> list[tuple[str, Scalar]]:
    """Every lot's line with its place, in the order written."""
    root = _root(text)
    return [
        (" ".join(key.text.split()), line)
        for key, value in (root.entries if root else ())
        if isinstance(value, Sequence)
        for item in value.items
        if (line := as_line(item)) is not None
    ]
