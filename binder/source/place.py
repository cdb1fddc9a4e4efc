"""Where a part of a text stands in its file."""

from __future__ import annotations

from binder.problem import Span


def part_of(span: Span, text: str, start: int, stop: int) -> Span:
    """Where characters `start` to `stop` of `text` stand, `text` being what `span` covers.

    Where the value is written otherwise than it reads (escapes, several lines), its two lengths differ and a column
    inside it would be wrong: then the whole span.
    """
    if span.end - span.column != len(text):
        return span
    return span.part(start, max(stop, start))


def open_bracket(text: str) -> int | None:
    """Where the last square bracket opens that nothing closes; None when all are closed."""
    depth = 0
    for place in range(len(text) - 1, -1, -1):
        depth += (text[place] == "]") - (text[place] == "[")
        if depth < 0:
            return place
    return None
