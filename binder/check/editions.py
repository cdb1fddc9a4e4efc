"""What a closed week was made of: the files it was reckoned from, each kept under its name and the hash of its text.

A file that several weeks were made of is kept once: `editions/bean-stew-1f0c2a9b7d34.md`.
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from pathlib import PurePosixPath

from binder.source.document import Document, read_document

FOLDER = "editions"
_FIGURES = 12


def edition(raw: bytes) -> str:
    """The hash that names an edition of a file, line ends aside."""
    return hashlib.sha256(raw.replace(b"\r\n", b"\n")).hexdigest()[:_FIGURES]


def edition_path(path: str, edition_: str) -> str:
    """Where an edition of a file is kept."""
    name = PurePosixPath(path)
    return f"{FOLDER}/{name.stem}-{edition_}{name.suffix}"


def files_then(made_of: Mapping[str, str], files: Mapping[str, bytes]) -> Mapping[str, bytes] | None:
    """The files that a week was made of, by the paths they had; None when one is not there or is another by now."""
    found: dict[str, bytes] = {}
    for path, edition_ in made_of.items():
        raw = files.get(edition_path(path, edition_))
        if raw is None or edition(raw) != edition_:
            return None
        found[path] = raw
    return found or None


def documents_then(
    week: Document, made_of: Mapping[str, str], files: Mapping[str, bytes]
) -> Mapping[str, Document] | None:
    """The files that a week was made of as documents, with its own; None when they are not all there."""
    then = files_then(made_of, files)
    if then is None:
        return None
    read = {
        path: read_document(raw, path, "yaml" if path.endswith(".yaml") else "markdown") for path, raw in then.items()
    }
    return {**read, week.path: week}
