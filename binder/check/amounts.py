"""Amounts as written, in the three units that can be added up."""

from __future__ import annotations

from binder.model.quantity import Amount, Measure
from binder.source import amount as source
from binder.tables import measures
from binder.tables.measures import System

# Counted units that stand for the thing itself: what is bought, made or tallied by the piece.
_PIECES = frozenset(
    ("each", "piece", "portion", "can", "jar", "pack", "bottle", "bunch", "head", "ear", "fillet", "slice")
)


def measure_of(read: source.Measure) -> Measure:
    """What was read, as the model's noun."""
    return Measure(read.low, read.high, read.unit, read.size)


def amount_of(measure: Measure, system: System) -> Amount | None:
    """In g, mL or each, exact; None for a measure that is none of them by itself (a handful, an inch)."""
    kind = measures.kind(measure.unit) if measure.unit in measures.UNITS else "count"
    if kind == "mass":
        factor = measures.g_per(measure.unit)
        return Amount(measure.low * factor, measure.high * factor, "g")
    if kind == "volume":
        factor = measures.ml_per(measure.unit, system)
        return Amount(measure.low * factor, measure.high * factor, "mL")
    if measure.unit in _PIECES:
        return Amount(measure.low, measure.high, "each")
    return None
