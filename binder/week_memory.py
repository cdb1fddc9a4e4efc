"""Weeks of the archive remembered from build to build: a year of them is reckoned once, not at every change.

Recipes and the household are named in what is kept and not kept with it; in a week taken from memory they are the very
objects of the build that takes it.
"""

from __future__ import annotations

import io
import pickle
from collections.abc import Callable, Mapping
from typing import Any, TypeVar

from binder.memory import Book
from binder.model.household import Household
from binder.reckon.facts import WeekFacts
from binder.reckon.recipe_facts import RecipeFacts

T = TypeVar("T")


class WeekMemory:
    """The weeks in a book, beside the recipes and the household that they are of."""

    def __init__(self, book: Book, recipes: Mapping[str, RecipeFacts], household: Household) -> None:
        self._book = book
        self._objects: dict[str, object] = {"recipes": recipes, "household": household}
        for key, facts in recipes.items():
            self._objects |= {f"facts {key}": facts, f"recipe {key}": facts.recipe}
        self._names = {id(it): name for name, it in self._objects.items()}

    def week(self, mark: str, reckon: Callable[[], WeekFacts]) -> WeekFacts:
        """The week remembered under `mark`, or as `reckon` reckons it, which is then remembered.

        One with errors is reckoned each time: its remedies may name any dish of the library.
        """
        return self.recall(mark, reckon, lambda week: all(problem.severity != "error" for problem in week.problems))

    def recall(self, mark: str, make: Callable[[], T], lasts: Callable[[T], bool] = lambda made: True) -> T:
        """What is remembered under `mark`, or what `make` makes, which is then remembered if it `lasts`."""
        made: list[T] = []

        def packed() -> bytes:
            made.append(make())
            return self._packed(made[0]) if lasts(made[0]) else b""

        raw = self._book.recall(mark, packed)
        if made:
            return made[0]
        known: T = self._unpacked(raw) if raw else make()
        return known

    def _packed(self, made: object) -> bytes:
        names = self._names

        class Pickler(pickle.Pickler):
            def persistent_id(self, value: object) -> str | None:
                return names.get(id(value))

        out = io.BytesIO()
        Pickler(out, pickle.HIGHEST_PROTOCOL).dump(made)
        return out.getvalue()

    def _unpacked(self, raw: bytes) -> Any:
        objects = self._objects

        class Unpickler(pickle.Unpickler):
            def persistent_load(self, name: str) -> object:
                return objects[name]

        return Unpickler(io.BytesIO(raw)).load()
