"""The aisles a shopping list is walked in: the shop's edge, then the shelves, then what must stay frozen.

The order is common practice; `other` takes what has no aisle.
"""

from __future__ import annotations

AISLES: tuple[str, ...] = (
    "produce",
    "meat and fish",
    "dairy and eggs",
    "bakery",
    "grains and pulses",
    "tins and jars",
    "baking",
    "nuts and dried fruit",
    "oils and condiments",
    "spices",
    "frozen",
    "drinks",
    "household",
    "other",
)

SOURCE = "common practice"


def is_aisle(text: str) -> bool:
    """Whether `text` is the exact name of an aisle."""
    return text in AISLES


def rank(aisle: str | None) -> int:
    """Place in the walk, from 0; what is not an aisle counts as `other`."""
    return AISLES.index(aisle) if aisle in AISLES else AISLES.index("other")
