"""The memory of builds: a speed-up that changes nothing, torn or not."""

from __future__ import annotations

import copy
import shutil
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from fnmatch import fnmatch
from pathlib import Path

import pytest

from binder import disk
from binder import memory as memory_module
from binder.build import outputs
from binder.disk import Content
from binder.examine import Asked, examine
from binder.memory import Memory, Recent, program_digest
from binder.outputs import Kind

DEMO = Path(__file__).resolve().parents[2] / "content"


def never() -> bytes:
    raise AssertionError("made although it was remembered")


def test_a_result_is_made_once(tmp_path: Path) -> None:
    memory = Memory(tmp_path)
    assert memory.recall(("key",), lambda: b"made") == b"made"
    assert memory.recall(("key",), never) == b"made"
    assert memory.recall(("another",), lambda: b"") == b""
    assert memory.recall(("another",), never) == b""


def test_a_torn_result_is_made_anew(tmp_path: Path) -> None:
    memory = Memory(tmp_path)
    memory.recall(("key",), lambda: b"made")
    (remembered,) = tmp_path.iterdir()
    remembered.write_bytes(remembered.read_bytes()[:-1] + b"X")
    assert memory.recall(("key",), lambda: b"made anew") == b"made anew"


def test_many_results_are_remembered_in_one_file(tmp_path: Path) -> None:
    with Memory(tmp_path).book("pages") as book:
        assert [book.recall(f"{n}", lambda n=n: bytes([n])) for n in range(9)] == [bytes([n]) for n in range(9)]
    assert len(list(tmp_path.iterdir())) == 1
    with Memory(tmp_path).book("pages") as book:
        assert [book.recall(f"{n}", never) for n in range(9)] == [bytes([n]) for n in range(9)]
        assert book.recall("empty", lambda: b"") == b""
    with Memory(tmp_path).book("pages") as book:
        assert book.recall("empty", never) == b"" and book.recall("3", never) == bytes([3])


@pytest.mark.parametrize("harm", [lambda raw: raw[:-1], lambda raw: raw[:40], lambda raw: b"", lambda raw: raw + b"X"])
def test_a_torn_book_is_written_anew(tmp_path: Path, harm) -> None:
    with Memory(tmp_path).book("pages") as book:
        book.recall("1", lambda: b"one")
    (remembered,) = tmp_path.iterdir()
    remembered.write_bytes(harm(remembered.read_bytes()))
    with Memory(tmp_path).book("pages") as book:
        assert book.recall("1", lambda: b"anew") == b"anew"
    with Memory(tmp_path).book("pages") as book:
        assert book.recall("1", never) == b"anew"


def test_a_book_does_not_grow_without_end(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(memory_module, "_SMALL_BOOK_BYTES", 0)
    for year in range(9):
        with Memory(tmp_path).book("pages") as book:
            for n in range(100):
                book.recall(f"{year} {n}", lambda text=f"{year} {n}": text.encode().ljust(100))
    (remembered,) = tmp_path.iterdir()
    # As much of what was not used as of what was.
    assert 20_000 < remembered.stat().st_size < 30_000
    with Memory(tmp_path).book("pages") as book:
        assert book.recall("8 0", never).strip() == b"8 0" and book.recall("7 0", never).strip() == b"7 0"


def test_a_book_is_not_written_when_its_reader_failed(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="in the middle"), Memory(tmp_path).book("pages") as book:
        book.recall("1", lambda: b"one")
        raise ValueError("in the middle")
    assert list(tmp_path.iterdir()) == []


def test_without_a_folder_nothing_is_remembered() -> None:
    memory = Memory(None)
    assert memory.recall(("key",), lambda: b"1") == b"1" and memory.recall(("key",), lambda: b"2") == b"2"
    with memory.book("pages") as book:
        assert book.recall("key", lambda: b"1") == b"1" and book.recall("key", lambda: b"2") == b"2"


def test_a_changed_program_is_another_one(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "room").mkdir()
    (tmp_path / "room" / "a.py").write_text("1")
    monkeypatch.setattr(memory_module, "_HERE", tmp_path)
    before = program_digest()
    assert program_digest() == before
    (tmp_path / "room" / "a.py").write_text("12")
    changed = program_digest()
    (tmp_path / "room" / "b.tsv").write_text("1")
    assert len({before, changed, program_digest()}) == 3


EDITS = [
    ("household.yaml", "\nhousehold: ", "\nhousehold: New "),
    ("household.yaml", "caution: strict", "caution: usual"),
    ("foods.yaml", "price: ", "price: 1"),
    ("foods.yaml", "energy: ", "energy: 1"),
    ("stock.yaml", "2 ", "3 "),
    ("weeks/2026-W24.md", "on: ", "at: home, on: "),
    ("recipes/*.md", "title: ", "title: Our "),
    ("recipes/soffritto.md", "title: ", "title: Our "),
    ("recipes/*.md", "  - 1 ", "  - 2 "),
    ("recipes/*.md", "photo: ", "# photo: "),
]


@dataclass(frozen=True)
class Before:
    content: Content
    folder: Path
    recent: Recent
    files: Mapping[str, bytes]


KINDS: frozenset[Kind] = frozenset({"site", "share", "facts", "calendar"})


def built(content: Content, memory: Memory, recent: Recent | None = None) -> Mapping[str, bytes]:
    examined = examine(content, Asked(date(2026, 6, 7), draft=True), memory, recent=recent)
    return outputs(examined, content, disk.read_theme("default"), KINDS, memory)


@pytest.fixture(scope="module")
def before(tmp_path_factory: pytest.TempPathFactory) -> Before:
    """The demo, its build, and what remembers it: on disk and in this process."""
    content, folder, recent = disk.read_content(DEMO), tmp_path_factory.mktemp("memory"), Recent()
    return Before(content, folder, recent, built(content, Memory(folder), recent))


@pytest.mark.parametrize(("files", "old", "new"), EDITS)
def test_what_is_remembered_never_shows(before: Before, tmp_path: Path, files: str, old: str, new: str) -> None:
    """After one edit, a build that remembers the one before gives what a build that remembers nothing gives."""
    content = before.content
    memory = Memory(Path(shutil.copytree(before.folder, tmp_path / "memory")))
    path = next(p for p, raw in content.files.items() if fnmatch(p, files) and old.encode() in raw)
    edited = replace(content, files={**content.files, path: content.files[path].replace(old.encode(), new.encode(), 1)})
    anew = built(edited, Memory(None))
    assert anew != before.files
    assert built(edited, memory, copy.deepcopy(before.recent)) == anew
