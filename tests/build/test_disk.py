"""Reading and replacing files."""

from __future__ import annotations

from pathlib import Path

import pytest

from binder import disk
from tests.kitchen import tree


def everything(path: str) -> bool:
    return True


def test_a_kind_is_replaced_as_a_whole(tmp_path: Path) -> None:
    disk.replace_outputs(tmp_path, {"site/a.html": b"a", "site/b.html": b"b"}, everything)
    disk.replace_outputs(tmp_path, {"site/a.html": b"a"}, everything)
    assert tree(tmp_path) == {"site/a.html": b"a"}


def test_what_is_not_ours_stays(tmp_path: Path) -> None:
    disk.replace_outputs(tmp_path, {"print/x-labels.pdf": b"old", "print/x-binder.pdf": b"old"}, everything)
    disk.replace_outputs(tmp_path, {"print/x-binder.pdf": b"new"}, lambda path: path.endswith("-binder.pdf"))
    assert tree(tmp_path) == {"print/x-labels.pdf": b"old", "print/x-binder.pdf": b"new"}


def test_what_did_not_change_is_the_same_file(tmp_path: Path) -> None:
    disk.replace_outputs(tmp_path, {"site/a.html": b"a", "site/b.html": b"b"}, everything)
    before = (tmp_path / "site/a.html").stat().st_ino
    assert disk.replace_outputs(tmp_path, {"site/a.html": b"a", "site/b.html": b"c"}, everything) == 1
    assert (tmp_path / "site/a.html").stat().st_ino == before


def test_nothing_but_output_is_left_and_a_gitignore_stays(tmp_path: Path) -> None:
    (tmp_path / ".gitignore").write_text("*\n")
    disk.replace_outputs(tmp_path, {"site/a.html": b"a"}, everything)
    assert {p.name for p in tmp_path.iterdir()} == {".gitignore", "site"}


def test_a_failed_write_leaves_the_last_good_tree(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    disk.replace_outputs(tmp_path, {"site/a.html": b"a", "print/p.pdf": b"p"}, everything)

    def full(self: Path, content: bytes) -> int:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", full)
    with pytest.raises(OSError, match="No space"):
        disk.replace_outputs(tmp_path, {"site/a.html": b"new", "print/p.pdf": b"new"}, everything)
    monkeypatch.undo()
    assert {k: v for k, v in tree(tmp_path).items() if not k.startswith(".")} == {
        "print/p.pdf": b"p",
        "site/a.html": b"a",
    }
    disk.replace_outputs(tmp_path, {"site/a.html": b"b"}, lambda path: path.startswith("site/"))
    assert tree(tmp_path) == {"print/p.pdf": b"p", "site/a.html": b"b"}


def test_a_build_stopped_between_two_renames_is_put_right(tmp_path: Path) -> None:
    disk.replace_outputs(tmp_path, {"site/a.html": b"a", "print/p.pdf": b"p"}, everything)
    (tmp_path / "print").rename(tmp_path / ".old-print")
    (tmp_path / ".new-site").mkdir()
    disk.replace_outputs(tmp_path, {"site/a.html": b"b"}, lambda path: path.startswith("site/"))
    assert tree(tmp_path) == {"print/p.pdf": b"p", "site/a.html": b"b"}


def test_only_plain_files_inside_the_folder_are_read(tmp_path: Path) -> None:
    content, outside = tmp_path / "content", tmp_path / "outside"
    (content / "photos").mkdir(parents=True)
    outside.mkdir()
    (content / "household.yaml").write_text("household: X\n")
    (outside / "secret.png").write_bytes(b"secret")
    (content / "photos" / "linked.png").symlink_to(outside / "secret.png")
    (content / "photos" / "note.txt").write_text("not a picture")
    read = disk.read_content(content)
    assert dict(read.photos) == {} and set(read.files) == {"household.yaml"}


def test_keys_do_not_run_together() -> None:
    assert disk.digest(("ab", "c")) != disk.digest(("a", "bc"))
