"""Closed weeks with the library that each was made of, read from the files they keep when somebody asks for it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from binder.check.editions import documents_then, files_then
from binder.check.library import HOUSEHOLD, check_library
from binder.disk import Content
from binder.model.library import Library
from binder.source.document import Document


class Kept(Mapping[str, Library]):
    """By week; only weeks whose files are all there, as they were. Reading them waits until it is wanted."""

    def __init__(self, library: Library, documents: Mapping[str, Document], content: Content) -> None:
        self._content = content
        self._documents: dict[str, tuple[Document, Mapping[str, str]]] = {}
        self._read: dict[str, Library | None] = {}
        for key, week in library.weeks.items():
            made_of = week.came_to.made_of if week.came_to and week.is_archive else {}
            path = f"weeks/{key}.md"
            # Without its household nothing can be read of it.
            if HOUSEHOLD in made_of and path in documents and files_then(made_of, content.files):
                self._documents[key] = documents[path], made_of

    def __getitem__(self, key: str) -> Library:
        if key not in self._read:
            document, made_of = self._documents[key]
            then = documents_then(document, made_of, self._content.files) or {}
            library = check_library(then, frozenset(self._content.photos), key).library
            self._read[key] = library if library and key in library.weeks else None
        found = self._read[key]
        if found is None:
            self._documents.pop(key, None)
            raise KeyError(key)
        return found

    def __contains__(self, key: object) -> bool:
        return key in self._documents

    def __iter__(self) -> Iterator[str]:
        return iter(tuple(self._documents))

    def __len__(self) -> int:
        return len(self._documents)
