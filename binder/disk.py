"""The only reader and writer of files.

What is written replaces a whole kind of output at once: a new tree is laid beside the old one, what did not change is
hard-linked into it, and the two are exchanged by a rename.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import shutil
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType

from binder.press.theme import Theme
from binder.source.limits import MOST_BYTES

FOLDERS = (("recipes", ".md"), ("weeks", ".md"), ("editions", ".md"), ("editions", ".yaml"))
SINGLE = ("household.yaml", "foods.yaml", "stock.yaml")
PICTURES = frozenset({".jpg", ".jpeg", ".png", ".webp", ".avif", ".gif", ".svg"})
MOST_PICTURE_BYTES = 30_000_000
_HERE = Path(__file__).resolve().parent


class NoContent(Exception):
    """The folder that was named holds no household: an argument is wrong."""


@dataclass(frozen=True, slots=True)
class Content:
    """A household's files as bytes, by path within the content folder; `name` is the folder's own name."""

    name: str
    shown: str  # the folder as it was given, for messages that can be clicked
    files: Mapping[str, bytes]
    photos: Mapping[str, bytes]


def read_content(folder: Path) -> Content:
    """Every file of a household. Only plain files that lie inside the folder are read; links that leave it are not."""
    if not folder.is_dir():
        raise NoContent(f"{folder}: there is no such folder")
    root = folder.resolve()
    files: dict[str, bytes] = {}
    for name in SINGLE:
        if (path := folder / name).is_file() and _inside(path, root):
            files[name] = _bytes(path, MOST_BYTES)
    for sub, ending in FOLDERS:
        for path in _plain_files(folder / sub, root):
            if path.suffix == ending and not path.name.startswith("."):
                files[f"{sub}/{path.name}"] = _bytes(path, MOST_BYTES)
    if not files:
        raise NoContent(f"{folder}: neither household.yaml nor recipes are in this folder")
    photos = {
        path.name: _bytes(path, MOST_PICTURE_BYTES)
        for path in _plain_files(folder / "photos", root)
        if path.suffix.lower() in PICTURES
    }
    return Content(root.name, str(folder), MappingProxyType(files), MappingProxyType(photos))


def _plain_files(folder: Path, root: Path) -> Iterator[Path]:
    if folder.is_dir():
        yield from (path for path in sorted(folder.iterdir()) if path.is_file() and _inside(path, root))


def _inside(path: Path, root: Path) -> bool:
    return path.resolve().is_relative_to(root)


def _bytes(path: Path, most: int) -> bytes:
    """At most one byte more than is allowed, so that the reader can say that it is too much."""
    with path.open("rb") as file:
        return file.read(most + 1)


def shipped(name: str) -> Path:
    """A folder that comes with the program: `themes` or `content`, in the wheel or in the source tree."""
    packaged = _HERE / name
    return packaged if packaged.is_dir() else _HERE.parent / name


def theme_names() -> tuple[str, ...]:
    """The themes that come with the program."""
    return tuple(sorted(path.name for path in shipped("themes").iterdir() if path.is_dir()))


def read_theme(name: str, content: Path | None = None) -> Theme:
    """A theme over the default one, and a household's own `content/theme/` over both."""
    from binder.press.theme import laid_over

    theme = _theme(shipped("themes") / "default")
    if name != "default":
        theme = laid_over(theme, _theme(shipped("themes") / name))
    if content is not None and (content / "theme").is_dir():
        theme = laid_over(theme, _theme(content / "theme"))
    return theme


def _theme(folder: Path) -> Theme:
    return Theme(
        templates=_texts(folder / "templates", ".html"),
        css=_texts(folder / "css", ".css"),
        fonts={path.name: path.read_bytes() for path in _sorted(folder / "fonts") if path.suffix == ".woff2"},
        scripts=_texts(folder / "scripts", ".js"),
    )


def _sorted(folder: Path) -> list[Path]:
    return sorted(path for path in folder.iterdir() if path.is_file()) if folder.is_dir() else []


def _texts(folder: Path, ending: str) -> Mapping[str, str]:
    return {path.name: path.read_text("utf-8") for path in _sorted(folder) if path.suffix == ending}


def theme_digest(theme: Theme) -> str:
    """The hash of a theme."""
    kinds = (theme.templates, theme.css, theme.fonts, theme.scripts)
    return digest(tuple(part for files in kinds for name in sorted(files) for part in (name, files[name])))


def standing_binders(out: Path) -> frozenset[str]:
    """The weeks whose drawn binder lies in an output folder."""
    return frozenset(path.name.removesuffix("-binder.pdf") for path in (out / "print").glob("*-binder.pdf"))


# ---- writing ----


def replace_outputs(out: Path, files: Mapping[str, bytes], owned: Callable[[str], bool]) -> int:
    """Replace what `owned` says is ours below `out` by `files`; the rest of the touched folders stays.

    Returns how many files are new or changed. Either every top folder is exchanged or, when writing fails, none.
    """
    out.mkdir(parents=True, exist_ok=True)
    with _locked(out):
        _sweep(out)
        tops = {path.split("/", 1)[0] for path in files}
        tops |= {d.name for d in out.iterdir() if d.is_dir() and not d.name.startswith(".") and _owns(d, out, owned)}
        changed = 0
        for top in sorted(tops):
            changed += _lay(out, top, {p: c for p, c in files.items() if p.startswith(f"{top}/")}, owned)
        for top in sorted(tops):
            _exchange(out, top)
    return changed


def stand(out: Path, files: Mapping[str, bytes], owned: Callable[[str], bool]) -> bool:
    """Whether what `owned` says is ours below `out` are these files, each with the content of this SHA-256."""
    found = {
        path.relative_to(out).as_posix(): path
        for top in (out.iterdir() if out.is_dir() else ())
        if top.is_dir()
        for path in top.rglob("*")
        if path.is_file()
    }
    return {name for name in found if owned(name)} == set(files) and all(
        hashlib.sha256(found[name].read_bytes()).digest() == mark for name, mark in files.items()
    )


def _owns(folder: Path, out: Path, owned: Callable[[str], bool]) -> bool:
    return any(owned(path.relative_to(out).as_posix()) for path in folder.rglob("*") if path.is_file())


def _new(out: Path, top: str) -> Path:
    return out / f".new-{top}"


def _old(out: Path, top: str) -> Path:
    return out / f".old-{top}"


def _sweep(out: Path) -> None:
    """Take away what a build that was stopped left behind; a folder caught between two names is put back."""
    for old in out.glob(".old-*"):
        name = out / old.name.removeprefix(".old-")
        if name.exists():
            shutil.rmtree(old)
        else:
            old.rename(name)
    for new in out.glob(".new-*"):
        shutil.rmtree(new)


def _lay(out: Path, top: str, files: Mapping[str, bytes], owned: Callable[[str], bool]) -> int:
    """The new tree of one top folder; returns how many files differ from the old one."""
    old, new = out / top, _new(out, top)
    new.mkdir()
    if old.is_dir():
        for path in sorted(old.rglob("*")):
            name = path.relative_to(out).as_posix()
            if path.is_file() and not owned(name):
                _link(path, new / path.relative_to(old))
    changed = 0
    for name, content in files.items():
        target, before = new / name.removeprefix(f"{top}/"), out / name
        if before.is_file() and before.stat().st_size == len(content) and before.read_bytes() == content:
            _link(before, target)
            continue
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(content)
        changed += 1
    return changed


def _link(source: Path, target: Path) -> None:
    target.parent.mkdir(parents=True, exist_ok=True)
    try:
        os.link(source, target)
    except OSError:  # A file system without hard links.
        shutil.copy2(source, target)


def _exchange(out: Path, top: str) -> None:
    name, new, old = out / top, _new(out, top), _old(out, top)
    if not any(new.iterdir()):
        new.rmdir()
        if name.exists():
            shutil.rmtree(name)
        return
    if name.exists():
        name.rename(old)
    new.rename(name)
    if old.exists():
        shutil.rmtree(old)


@contextlib.contextmanager
def _locked(folder: Path) -> Iterator[None]:
    """One build at a time into a folder; the folder itself is the lock, so nothing is left in it."""
    try:
        import fcntl
    except ImportError:  # Windows: two builds at once into one folder are the user's to avoid.
        yield
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        fcntl.flock(handle, fcntl.LOCK_EX)
        yield
    finally:
        os.close(handle)


def write_new(path: Path, text: str) -> None:
    """A new file, under a temporary name until it is whole; FileExistsError when there is one already."""
    if path.exists():
        raise FileExistsError(str(path))
    path.parent.mkdir(parents=True, exist_ok=True)
    write_file(path, text.encode())


def write_file(path: Path, content: bytes) -> None:
    """A file written under a temporary name and renamed, so that it is whole or the old one."""
    path.parent.mkdir(parents=True, exist_ok=True)
    beside = path.with_name(f".{path.name}.new")
    beside.write_bytes(content)
    with contextlib.suppress(FileNotFoundError):
        shutil.copymode(path, beside)
    beside.replace(path)


def file_bytes(path: Path) -> bytes | None:
    """A file's bytes, None when there is no such file."""
    return path.read_bytes() if path.is_file() else None


def digest(parts: tuple[bytes | str, ...]) -> str:
    """One hash of several texts, in order, no two sequences alike."""
    whole = hashlib.sha256()
    for part in parts:
        content = part.encode() if isinstance(part, str) else part
        whole.update(len(content).to_bytes(8, "big"))
        whole.update(content)
    return whole.hexdigest()
