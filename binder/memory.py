"""What builds remember of each other: results under the hash of what they were made from.

A speed-up, never a truth: without it everything is made anew and comes out the same. It lies in the user's cache
folder, below the hash of the program, so that a changed program remembers nothing of the old one.
"""

from __future__ import annotations

import contextlib
import copyreg
import hashlib
import marshal
import os
import sys
import sysconfig
from collections.abc import Callable, Hashable
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType, TracebackType
from typing import Any, TypeVar

from binder.disk import digest, write_file

_HERE = Path(__file__).resolve().parent
_HASH_BYTES = 32
# What a book may hold at least before unused results are dropped.
_SMALL_BOOK_BYTES = 4_000_000

Key = tuple[bytes | str, ...]
T = TypeVar("T")
_NOTHING = object()


def _read_only(values: dict[Any, Any]) -> MappingProxyType[Any, Any]:
    return MappingProxyType(values)


# Pickle knows no read-only mappings; they stand in most of what is remembered or handed to another process.
copyreg.pickle(MappingProxyType, lambda mapping: (_read_only, (dict(mapping),)))


@dataclass(frozen=True, slots=True)
class Memory:
    """A folder of remembered results; None remembers nothing."""

    folder: Path | None
    most_files: int = 400

    def recall(self, key: Key, make: Callable[[], bytes]) -> bytes:
        """The remembered bytes of `key`, or those that `make` makes, which are then remembered."""
        known = self.known(key)
        return self.keep(key, make()) if known is None else known

    def known(self, key: Key) -> bytes | None:
        """The remembered bytes of `key`, None when there are none."""
        return None if self.folder is None else _whole(self.folder / digest(key))

    def keep(self, key: Key, made: bytes) -> bytes:
        """Remember bytes under `key`, and hand them back."""
        if self.folder is not None and _written(self.folder / digest(key), made):
            self._forget()
        return made

    def book(self, *name: str) -> Book:
        """Many small results in one file, which is read at once and written when the book is closed."""
        return Book(None if self.folder is None else self.folder / digest(("book", *name)))

    def _forget(self) -> None:
        """Drop the results not used for longest when there are many."""
        assert self.folder is not None
        with contextlib.suppress(OSError):
            kept = sorted(self.folder.iterdir(), key=lambda path: path.stat().st_mtime, reverse=True)
            for path in kept[self.most_files :]:
                path.unlink(missing_ok=True)


class Recent:
    """Results of the build before in this process, as they are; what a build does not use is dropped at the next."""

    def __init__(self) -> None:
        self._last: dict[Hashable, Any] = {}
        self._now: dict[Hashable, Any] = {}

    def begin(self) -> None:
        """Another build begins."""
        self._last, self._now = self._now, {}

    def recall(self, key: Hashable, make: Callable[[], T]) -> T:
        """The result under `key`, or what `make` makes; `key` is all that it is made from."""
        found = self._last.get(key, _NOTHING)
        made: T = make() if found is _NOTHING else found
        self._now[key] = made
        return made


class Book:
    """Results in one file; those not used for long are dropped when it is written."""

    def __init__(self, path: Path | None) -> None:
        self._path = path
        self._old: dict[bytes, bytes] = _read_book(path)
        self._used: dict[bytes, bytes] = {}
        self._changed = False

    def __enter__(self) -> Book:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, fault: BaseException | None, trace: TracebackType | None
    ) -> None:
        if kind is None:
            self.close()

    def recall(self, key: str, make: Callable[[], bytes]) -> bytes:
        """The remembered bytes of `key`, or those that `make` makes."""
        if self._path is None:
            return make()
        mark = hashlib.sha256(key.encode()).digest()
        found = self._used.get(mark)
        if found is None:
            found = self._old.pop(mark, None)
        if found is None:
            found, self._changed = make(), True
        self._used[mark] = found
        return found

    def close(self) -> None:
        """Write the book when something new is in it: all that was used, and as much of the rest, the latest first."""
        if self._path is None or not self._changed:
            return
        room = max(_SMALL_BOOK_BYTES, sum(map(len, self._used.values())))
        kept = dict(self._used)
        for mark, content in self._old.items():
            room -= len(content)
            if room < 0:
                break
            kept[mark] = content
        _written(self._path, marshal.dumps(kept))
        self._changed = False


def _read_book(path: Path | None) -> dict[bytes, bytes]:
    raw = _whole(path) if path is not None else None
    with contextlib.suppress(EOFError, ValueError, TypeError):
        found = marshal.loads(raw) if raw else {}
        return found if isinstance(found, dict) else {}
    return {}


def _whole(path: Path) -> bytes | None:
    """What was remembered in a file; None for no file or a torn one: its first bytes vouch for the rest."""
    with contextlib.suppress(OSError):
        content = path.read_bytes()
        if hashlib.sha256(content[_HASH_BYTES:]).digest() == content[:_HASH_BYTES]:
            os.utime(path)
            return content[_HASH_BYTES:]
    return None


def _written(path: Path, content: bytes) -> bool:
    with contextlib.suppress(OSError):
        write_file(path, hashlib.sha256(content).digest() + content)
        return True
    return False


def of_this_program() -> Memory:
    """The memory of builds by this very program. XDG Base Directory Specification; never in the output."""
    base = os.environ.get("XDG_CACHE_HOME") or str(Path.home() / ".cache")
    return Memory(Path(base) / "household-prep-binder" / program_digest()[:16])


def program_digest() -> str:
    """The hash of the program itself, by the size and time of its files, and of what it runs with."""
    marks = [f"{name} {size} {time}" for name, size, time in sorted(_files(str(_HERE), ""))]
    # Another edition of a library changes the folder that the libraries are installed in.
    installed = Path(sysconfig.get_paths()["purelib"])
    libraries = installed.stat().st_mtime_ns if installed.is_dir() else 0
    return digest((sys.version, str(libraries), *marks))


def _files(folder: str, below: str) -> list[tuple[str, int, int]]:
    found = []
    with os.scandir(folder) as entries:
        for entry in entries:
            if entry.is_dir(follow_symlinks=False):
                if entry.name != "__pycache__":
                    found += _files(entry.path, f"{below}{entry.name}/")
            elif entry.name.endswith((".py", ".tsv", ".gz")):
                of = entry.stat()
                found.append((below + entry.name, of.st_size, of.st_mtime_ns))
    return found
