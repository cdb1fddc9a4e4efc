"""Foods that share a word and are told apart by how they are measured: an ear of corn is no canned corn."""

from __future__ import annotations

from collections.abc import Iterator

from binder.source.line import Line
from binder.tables.words import key

_GROWN = frozenset(("leaf", "sprig", "bunch", "handful"))
_SPOONS = frozenset(("tsp", "tbsp"))
_CUPS = frozenset(("cup", "pint", "quart"))
_HANDLED_FRESH = frozenset(("chopped", "minced", "torn", "snipped", "shredded", "picked", "leaves", "leaf", "fresh"))
# Named alone they are the dried spice; chopped or by the leaf they are the herb (common practice).
_DRIED_BY_NAME = frozenset(("sage", "oregano", "tarragon", "marjoram", "chervil"))
# Named alone they are the herb; a teaspoon of one that nobody chopped is the dried spice (common practice).
_FRESH_BY_NAME = frozenset(("basil", "thyme", "rosemary", "dill", "parsley", "mint"))


def names_by_measure(line: Line) -> Iterator[str]:
    """Names of the food that its measure settles; none for most lines."""
    food, bare = key(line.food), key(line.bare_food)
    units = {one.unit for one in line.amounts}
    said = set(f"{line.food} {line.before} {line.preparation}".lower().replace(",", " ").split())
    if bare in ("corn", "sweetcorn", "sweet corn") and "ear" in units:
        yield "corn on the cob"
    if bare in ("egg", "large egg") and said & {"hard", "hard-boiled", "hard-cooked"}:
        yield "hard-cooked egg"
    if bare == "clove" and units == {"each"}:
        yield "whole clove"
    if bare in ("tomato puree", "double concentrated tomato puree"):
        # In the UK the concentrate in a tube, in the US what fills a can or a cup.
        yield "tomato paste" if units <= _SPOONS | {"g"} else "tomato passata"
    if food in ("chopped tomato", "diced tomato") and units and units <= _CUPS and not line.flags & {"drained"}:
        yield "fresh tomato"
    if bare == "coriander" and units == {"tsp"} and not said & _HANDLED_FRESH:
        yield "ground coriander"
    if bare in _FRESH_BY_NAME and units == {"tsp"} and not said & _HANDLED_FRESH:
        yield f"dried {bare}"
    if bare in _DRIED_BY_NAME and said & _HANDLED_FRESH:
        yield f"fresh {bare}"
    if units & _GROWN:
        yield f"fresh {line.bare_food}"
