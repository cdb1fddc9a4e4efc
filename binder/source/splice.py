"""Edits of a YAML text, or of a Markdown file's front matter, at the positions of what was read.

Only the characters of the edit change: comments, order, quotes, indentation and line ends elsewhere stay. After each
edit the text is read again and compared with what was meant, so that an edit is right or does not happen.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from binder.problem import Problem, Span, error
from binder.source.yaml_extent import Extent, extents
from binder.source.yaml_reader import read_yaml
from binder.source.yaml_text import WIDTH, as_read, entry, flow, item, plain_value


@dataclass(frozen=True, slots=True)
class Replace:
    """The single value that begins at `at` becomes `value`."""

    at: Span
    value: Any


@dataclass(frozen=True, slots=True)
class Remove:
    """The item of a list that begins at `at` goes, with the rest of its line."""

    at: Span


@dataclass(frozen=True, slots=True)
class Append:
    """A new last item of the list under the key `to` (None: the whole text is the list).

    `gap`: a blank line before it; `below`: its keys one below the other.
    """

    to: str | None
    value: Any
    gap: bool = False
    below: bool = False


@dataclass(frozen=True, slots=True)
class Put:
    """The key with its value at the end of the outermost keys; where the key is there, its value is exchanged.

    Short lists and keys stand on one line where it has room for them.
    """

    key: str
    value: Any
    width: int = WIDTH


Edit = Replace | Remove | Append | Put
_Way = list[tuple[Extent, int]]
_BREAKS = re.compile(r"\r\n|\n|\r")


def edited(text: str, edits: Sequence[Edit], path: str) -> str | Problem:
    """The text after all edits, or why one of them cannot be made. Spans are those of the text as it is given.

    Front matter is edited where `path` ends in `.md`; what is written replaces and removes first, from the last place
    to the first, then appends and puts in their order.
    """
    placed = [one for one in edits if isinstance(one, Replace | Remove)]
    placed.sort(key=lambda one: (one.at.line, one.at.column), reverse=True)
    for one in (*placed, *(one for one in edits if isinstance(one, Append | Put))):
        made = _Text(text, path).after(one)
        if isinstance(made, Problem):
            return made
        text = made
    return text


class _Text:
    """One text between edits: its lines with their ends, and the part of them that is YAML."""

    def __init__(self, text: str, path: str) -> None:
        self.path = path
        self.mark, self.text = ("\ufeff", text[1:]) if text.startswith("\ufeff") else ("", text)
        ends = [found.end() for found in _BREAKS.finditer(self.text)]
        self.starts = [0, *ends]
        self.lines = [self.text[a:b] for a, b in zip(self.starts, [*ends, len(self.text)], strict=True)]
        found = _BREAKS.search(self.text)
        self.newline = found[0] if found else "\n"
        self.first, self.last = self._fences() if path.endswith(".md") else (0, len(self.lines))

    def _fences(self) -> tuple[int, int]:
        """The lines of the front matter, without its fences; none when it is not closed."""
        fences = [n for n, line in enumerate(self.lines) if line.rstrip() in ("---", "...")]
        first = next((n for n, line in enumerate(self.lines) if line.strip()), 0)
        if len(fences) < 2 or fences[0] != first or self.lines[first].rstrip() != "---":
            return 0, 0
        return fences[0] + 1, fences[1]

    def after(self, edit: Edit) -> str | Problem:
        """The whole text with one edit made, read again and compared."""
        yaml = "\n".join(line.rstrip("\r\n") for line in self.lines[self.first : self.last])
        root, problems = read_yaml(yaml, self.path, self.first + 1)
        if problems or (self.path.endswith(".md") and self.last == 0):
            return self._fault(edit, "the file cannot be read as it stands")
        before = plain_value(root)
        whole = extents(yaml) or Extent("scalar", "", (0, 0), (0, 0))
        try:
            text, meant = self._apply(edit, whole, before)
        except _CannotEditError as fault:
            return self._fault(edit, str(fault))
        again = _Text(text, self.path)
        written = "\n".join(line.rstrip("\r\n") for line in again.lines[again.first : again.last])
        now, faults = read_yaml(written, self.path)
        if faults or plain_value(now) != meant:
            return self._fault(edit, "the line cannot be written so that it reads back as it is meant")
        return self.mark + text

    def _fault(self, edit: Edit, message: str) -> Problem:
        span = edit.at if isinstance(edit, Replace | Remove) else Span(self.path, 1, 1, 2)
        return error(span, "yaml-syntax", f"not edited: {message}", "change it by hand")

    def _apply(self, edit: Edit, root: Extent, value: Any) -> tuple[str, Any]:
        """The text, and the value that it must read back as."""
        if isinstance(edit, Replace):
            return self._replace(edit, root, value)
        if isinstance(edit, Remove):
            return self._remove(edit, root, value)
        if isinstance(edit, Append):
            return self._append(edit, root, value)
        return self._put(edit, root, value)

    # ---- places ----

    def _offset(self, place: tuple[int, int]) -> int:
        """Where a place of the YAML stands in the whole text."""
        line = place[0] + self.first
        return self.starts[line] + place[1] if line < len(self.starts) else len(self.text)

    def _cut(self, start: int, stop: int, new: str) -> str:
        return self.text[:start] + new + self.text[stop:]

    def _way(self, at: Span, root: Extent) -> _Way:
        """From the root to the outermost value that begins at `at`: each holder with the number of what it holds."""
        line = at.line - 1 - self.first
        columns = (at.column - 1, at.column - 2)

        def here(one: Extent) -> bool:
            exact, quoted = one.start == (line, columns[0]), one.start == (line, columns[1]) and one.style in ("'", '"')
            return exact or quoted

        way: _Way = []
        holder = root
        while True:
            inner = [n for n, one in enumerate(holder.values) if one.start <= (line, columns[0])]
            if holder.kind == "scalar" or not inner:
                raise _CannotEditError("no value begins there")
            way.append((holder, inner[-1]))
            holder = holder.values[inner[-1]]
            if here(holder):
                return way

    # ---- edits ----

    def _replace(self, edit: Replace, root: Extent, value: Any) -> tuple[str, Any]:
        way = self._way(edit.at, root)
        holder, number = way[-1]
        old = holder.values[number]
        if old.kind != "scalar" and (old.start[0] != old.end[0]):
            raise _CannotEditError("a list or several keys stand there")
        within = any(one.style for one, _ in way)
        new = flow(edit.value, within)
        bare = new[1:-1] if new.startswith('"') else new
        mark = old.style if old.style in ("'", '"') and isinstance(edit.value, str) else ""
        if mark and not (set(bare) & {'"', "'", "\\"}):
            new = f"{mark}{bare}{mark}"
        start, stop = self._offset(old.start), self._offset(old.end)
        changed = _changed(value, way, lambda items, n: items.__setitem__(n, as_read(edit.value)))
        return self._cut(start, stop, new), changed

    def _remove(self, edit: Remove, root: Extent, value: Any) -> tuple[str, Any]:
        way = self._way(edit.at, root)
        holder, number = way[-1]
        if holder.kind != "list":
            raise _CannotEditError("what begins there is no item of a list")
        old = holder.values[number]
        alone = len(holder.values) == 1
        changed = _changed(value, way, lambda items, n: items.__delitem__(n), alone and not holder.style)
        if holder.style:
            start, stop = old.start, old.end
            if number > 0:
                start = holder.values[number - 1].end
            elif not alone:
                stop = holder.values[1].start
            return self._cut(self._offset(start), self._offset(stop), ""), changed
        first, last = old.start[0] + self.first, old.end[0] + self.first
        if self.lines[first][: old.start[1]].strip() != "-":
            raise _CannotEditError("the item does not begin its line")
        after = self.starts[last + 1] if last + 1 < len(self.starts) else len(self.text)
        return self._cut(self.starts[first], after, ""), changed

    def _append(self, edit: Append, root: Extent, value: Any) -> tuple[str, Any]:
        if edit.to is None:
            holder, held = root, value
        elif edit.to in root.names:
            holder, held = root.values[root.names.index(edit.to)], value[edit.to]
        else:
            raise _CannotEditError(f"there is no key {edit.to}")
        if held is not None and holder.kind != "list":
            raise _CannotEditError("no list stands there")
        meant = [*(held or []), as_read(edit.value)]
        changed = meant if edit.to is None else {**value, edit.to: meant}
        if holder.kind == "list" and holder.style:
            return self._into_brackets(holder, flow(edit.value)), changed
        if holder.kind == "list":
            new = item(edit.value, self._dash(holder), below=edit.below)
            return self._below(holder.end[0], new, edit.gap), changed
        if edit.to is None:
            return self._at_end(item(edit.value, below=edit.below)), changed
        if not holder.empty or root.style:
            start, stop = self._offset(holder.start), self._offset(holder.end)
            space = " " if holder.empty and self.text[start - 1] != " " else ""
            return self._cut(start, stop, f"{space}[{flow(edit.value)}]"), changed
        key = root.keys[root.names.index(edit.to)]
        return self._below(key.end[0], item(edit.value, key.start[1] + 2, below=edit.below)), changed

    def _put(self, edit: Put, root: Extent, value: Any) -> tuple[str, Any]:
        if value is not None and root.kind != "map":
            raise _CannotEditError("no keys stand there")
        changed = {**(value or {}), edit.key: as_read(edit.value)}
        if root.kind == "map" and root.style:
            if edit.key in root.names:
                old = root.values[root.names.index(edit.key)]
                return self._cut(self._offset(old.start), self._offset(old.end), flow(edit.value)), changed
            return self._into_brackets(root, flow({edit.key: edit.value})[1:-1]), changed
        indent = root.start[1] if root.kind == "map" else 0
        lines = entry(edit.key, edit.value, indent, edit.width)
        if root.kind != "map" or edit.key not in root.names:
            return self._at_end(lines), changed
        number = root.names.index(edit.key)
        first, last = root.keys[number].start[0], max(root.keys[number].end[0], root.values[number].end[0])
        start, stop = self._offset((first, 0)), self._offset((last + 1, 0))
        return self._cut(start, stop, self._joined(lines)), changed

    # ---- lines ----

    def _joined(self, lines: list[str]) -> str:
        return "".join(f"{line}{self.newline}" for line in lines)

    def _dash(self, holder: Extent) -> int:
        """The column of the dashes of a block list."""
        first = holder.values[0].start
        return self.lines[first[0] + self.first].rindex("-", 0, first[1])

    def _below(self, line: int, new: list[str], gap: bool = False) -> str:
        """New lines after a line of the YAML."""
        return self._insert(line + self.first + 1, [*([""] if gap else []), *new])

    def _at_end(self, new: list[str]) -> str:
        """New lines after the last line of the YAML that is not blank."""
        last = max([n for n in range(self.first, self.last) if self.lines[n].strip()], default=self.first - 1)
        return self._insert(last + 1, new)

    def _insert(self, line: int, new: list[str]) -> str:
        at = self.starts[line] if line < len(self.starts) else len(self.text)
        # A file whose last line has no end gets one: the new line needs it.
        before = self.newline if at and self.text[at - 1] not in "\r\n" else ""
        return self._cut(at, at, before + self._joined(new))

    def _into_brackets(self, holder: Extent, new: str) -> str:
        if not holder.values:
            at = self._offset(holder.start) + 1
            return self._cut(at, at, new)
        at = self._offset(max(one.end for one in (*holder.keys, *holder.values)))
        return self._cut(at, at, f", {new}")


class _CannotEditError(Exception):
    """An edit that the text does not allow; never leaves this file."""


def _changed(value: Any, way: _Way, change: Callable[[Any, Any], None], emptied: bool = False) -> Any:
    """The value with what stands at the end of the way changed; `emptied`: the list is left with nothing in it."""
    holder, number = way[0]
    inner = list(value) if holder.kind == "list" else dict(value)
    key: Any = number if holder.kind == "list" else holder.names[number]
    if len(way) == 1:
        if emptied:
            return None
        change(inner, key)
        return inner
    inner[key] = _changed(inner[key], way[1:], change, emptied)
    return inner
