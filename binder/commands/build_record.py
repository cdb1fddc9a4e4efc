"""What a build is asked for, and what it made: for the command, and for what is loaded only when something is made."""

from __future__ import annotations

import marshal
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from binder import disk
from binder.commands.arguments import Start
from binder.memory import Key
from binder.outputs import SOME_SECTIONS, Kind, owner
from binder.press.theme import Theme


@dataclass(frozen=True, slots=True)
class Wanted:
    """What a build is asked for."""

    content: disk.Content
    theme: Theme
    out: Path
    today: date
    week: str | None
    kinds: frozenset[Kind]
    draft: bool
    private: bool
    standing: frozenset[str]  # the weeks whose binder lies in `out`
    cooks: int | None = None  # other sessions than are written
    at: tuple[Start, ...] = ()
    sections: frozenset[str] = frozenset()  # of the binder only these

    def owned(self, path: str) -> bool:
        """Whether a file of the output is of a kind that is built; sections alone leave the whole binder there."""
        if self.sections:
            return path.endswith(SOME_SECTIONS)
        return owner(path) in self.kinds

    def key(self) -> Key:
        """All that the output comes from, apart from the program."""
        # A binder that is drawn takes the place of the standing ones.
        standing = [] if "print" in self.kinds else sorted(self.standing)
        asked = (self.week, self.draft, self.private, sorted(self.kinds), standing, self.cooks, self.at)
        sections = repr(sorted(self.sections))
        shown = (self.content.name, self.content.shown)
        theirs = [part for name, raw in sorted(self.content.files.items()) for part in (name, raw)]
        photos = [part for name, raw in sorted(self.content.photos.items()) for part in (name, raw)]
        counts = f"{len(theirs)} {len(photos)}"
        return (
            "built",
            str(self.today),
            repr(asked),
            sections,
            *shown,
            disk.theme_digest(self.theme),
            counts,
            *theirs,
            *photos,
        )


@dataclass(frozen=True, slots=True)
class Built:
    """What a build said (without and with colour) and wrote: the hash of each file."""

    plain: tuple[str, ...]
    coloured: tuple[str, ...]
    found: str
    files: dict[str, bytes]
    takes: dict[str, str]  # of what is printed, by path

    @classmethod
    def read(cls, remembered: bytes) -> Built:
        """What `written` wrote."""
        return cls(*marshal.loads(remembered))

    def written(self) -> bytes:
        """As it is remembered."""
        return marshal.dumps((self.plain, self.coloured, self.found, self.files, self.takes))
