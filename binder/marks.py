"""What results are made from, in one hash each: by these marks builds remember recipes and weeks of the archive.

A mark may say more than a result depends on (then it is made anew for nothing), never less.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from types import MappingProxyType

from binder.check.library import STOCK
from binder.disk import digest
from binder.model.library import Library
from binder.model.week import Week


def _none() -> Mapping[str, str]:
    return MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Marks:
    """Of each recipe and of each week all the files that its facts are made from."""

    recipes: Mapping[str, str] = field(default_factory=_none)
    weeks: Mapping[str, str] = field(default_factory=_none)
    stock: str = ""

    def to_close(self, week: str) -> str:
        """What closing asks of a week goes by the stock on hand too."""
        return digest(("to close", self.weeks[week], self.stock))


def marks_of(library: Library, files: Mapping[str, bytes], today: date, kept: frozenset[str]) -> Marks:
    """A recipe: its own file, those of its parts, and what the household says of itself and of its foods.

    A week: its file, the recipes it reaches, and the day. Stock is in neither: it serves the current week alone.
    One of the `kept`, which are made of files of their own: its file, which names those by their hashes.
    """
    ways = digest(tuple(part for path, raw in sorted(files.items()) if _is_of_all(path) for part in (path, raw)))
    recipes: dict[str, str] = {}

    def mark(key: str) -> str:
        if key not in recipes:
            recipe = library.recipes[key]
            named = {line.recipe for line in recipe.ingredients if line.recipe is not None}
            parts = sorted(named & library.recipes.keys())
            recipes[key] = own = digest((ways, key, files[recipe.span.path]))  # A ring of parts ends where it began.
            recipes[key] = digest((own, *(mark(part) for part in parts)))
        return recipes[key]

    for key in library.recipes:
        mark(key)
    weeks = {}
    for week in library.weeks.values():
        if week.key in kept:
            weeks[week.key] = digest(("as made", files[week.span.path]))
            continue
        reached = sorted(set(_reached(week)) & library.recipes.keys())
        weeks[week.key] = digest((ways, files[week.span.path], str(today), *(recipes[key] for key in reached)))
    stock = digest((files.get(STOCK, b""),))
    return Marks(MappingProxyType(recipes), MappingProxyType(weeks), stock)


def _is_of_all(path: str) -> bool:
    return "/" not in path and path != STOCK


def _reached(week: Week) -> Iterator[str]:
    """The dishes of a week, and those that are used instead of something; each has its parts in its own mark."""
    for line in week.meals:
        yield line.recipe
    for swap in week.substitutions:
        yield swap.recipe
        yield from [swap.use.recipe] if swap.use.recipe else []
    for taken in week.already:
        yield taken.recipe
