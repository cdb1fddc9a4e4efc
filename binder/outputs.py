"""The kinds of output, and which file belongs to which."""

from __future__ import annotations

from typing import Literal

Kind = Literal["site", "print", "labels", "calendar", "share", "facts"]
KINDS: tuple[Kind, ...] = ("site", "print", "labels", "calendar", "share", "facts")


def owner(path: str) -> Kind:
    """The kind that a file below the output folder belongs to."""
    if path.startswith("print/"):
        return "labels" if path.endswith("-labels.pdf") else "print"
    if path.startswith("site/"):
        return "facts" if path.endswith("/facts.json") or path.startswith("site/schema/") else "site"
    return "calendar" if path.startswith("calendar/") else "share"
