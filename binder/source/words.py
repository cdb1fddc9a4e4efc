"""A list of words as it is written: with spaces between."""

from __future__ import annotations


def words(text: str) -> frozenset[str]:
    """The words of a text, each once."""
    return frozenset(text.split())
