"""Several files of a household written as one: all of them, or, after a stop in the middle, all of them the next time.

What is to be written is noted first, under one name, with the hash of what it replaces. Whoever writes next finishes
what the note says before anything else.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path

from binder import disk

NOTE = ".unfinished.json"
STOPPED = "a closing was stopped in the middle: `binder close-week` finishes it before anything else"


class Changed(Exception):
    """A file that was to be replaced is another by now: nothing more is written, and a person has to look."""


def write_together(folder: Path, files: Mapping[str, bytes]) -> None:
    """Replace files below `folder`, by path; a stop at any point leaves the old ones, or a note to go on from."""
    note = {name: {"was": _hash(folder / name), "now": raw.decode("utf-8")} for name, raw in files.items()}
    disk.write_file(folder / NOTE, json.dumps(note, ensure_ascii=False, indent=1).encode())
    finish(folder)


def unfinished(folder: Path) -> tuple[str, ...]:
    """The files that a stopped writing still has to replace."""
    note = _note(folder)
    return tuple(name for name, one in note.items() if _hash(folder / name) != disk.digest((one["now"],)))


def finish(folder: Path) -> tuple[str, ...]:
    """Write what the note says and take it away; the files written. `Changed` when one was edited since."""
    note, waiting = _note(folder), unfinished(folder)
    for name in waiting:
        if _hash(folder / name) != note[name]["was"]:
            raise Changed(name)
    for name in waiting:
        disk.write_file((folder / name).resolve(), note[name]["now"].encode())
    (folder / NOTE).unlink(missing_ok=True)
    return waiting


def _note(folder: Path) -> dict[str, dict[str, str]]:
    raw = disk.file_bytes(folder / NOTE)
    note: dict[str, dict[str, str]] = json.loads(raw) if raw else {}
    return note


def _hash(path: Path) -> str:
    return disk.digest((disk.file_bytes(path) or b"",))
