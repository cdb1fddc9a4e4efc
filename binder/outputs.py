"""The kinds of output, and which file belongs to which."""

from __future__ import annotations

from typing import Literal

Kind = Literal["site", "print", "labels", "calendar", "share", "facts"]
KINDS: tuple[Kind, ...] = ("site", "print", "labels", "calendar", "share", "facts")


# The binder's sections by name, in the order of their numbers; `pages.binder` makes them.
SECTIONS = (
    "week", "shopping", "mise", "run-sheet", "cards", "packing", "reheating", "carry", "pull", "kits", "allergens",
    "numbers", "keeping", "notes",
)  # fmt: skip
SOME_SECTIONS = "-sections.pdf"
TEST_SHEET = "print/test-labels.pdf"


def owner(path: str) -> Kind:
    """The kind that a file below the output folder belongs to."""
    if path.startswith("print/"):
        return "labels" if path.endswith("-labels.pdf") else "print"
    if path.startswith("site/"):
        return "facts" if path.endswith("/facts.json") or path.startswith("site/schema/") else "site"
    return "calendar" if path.startswith("calendar/") else "share"
