"""The Markdown under a recipe's or a week's front matter: notes, step lists, other sections."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from binder.problem import Problem, Span, error
from binder.source.place import open_bracket
from binder.source.step_note import StepNote, read_step_note


@dataclass(frozen=True, slots=True)
class Step:
    """One step: its words as inline Markdown, without the bracket that ends it; the span covers its first line."""

    text: str
    note: StepNote | None
    span: Span


@dataclass(frozen=True, slots=True)
class StepList:
    """The steps under one `###` part, or before the first (`part` None); the span is the heading's or first step's."""

    part: str | None
    span: Span
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class Section:
    """Another `##` section, its text as Markdown; `line` is its heading's."""

    title: str
    text: str
    line: int


@dataclass(frozen=True, slots=True)
class Body:
    """`notes` is what stands before the first `##`, beginning at `notes_line`."""

    notes: str = ""
    notes_line: int = 1
    prep: tuple[StepList, ...] = ()
    service: tuple[StepList, ...] = ()
    other: tuple[Section, ...] = ()


NO_BODY = Body()


_HEADING = re.compile(r" {0,3}(#{1,6})(?=[ \t]|$)")
_FENCE = re.compile(r" {0,3}(```|~~~)")
_ITEM = re.compile(r"[ \t]*(?:[-*+]|[0-9]{1,9}[.)])(?:[ \t]+|$)")
_RULE = re.compile(r" {0,3}(?:(?:-[ \t]*){3,}|(?:\*[ \t]*){3,}|(?:_[ \t]*){3,})$")
_STEP_SECTIONS = {"prep day": "prep", "prep-day": "prep", "at service": "service"}


def read_body(text: str, path: str, first_line: int) -> tuple[Body, tuple[Problem, ...]]:
    """`text` begins at line `first_line` of the file at `path`; its lines end with `\\n`."""
    lines = text.split("\n")
    blocks = _blocks(lines)
    problems: list[Problem] = []
    steps: dict[str, list[StepList]] = {"prep": [], "service": []}
    other: list[Section] = []
    for start, stop in blocks[1:]:
        title = _title(lines[start])
        kind = _STEP_SECTIONS.get(" ".join(title.lower().rstrip(":").split()))
        if kind:
            found, faults = _step_lists(lines, start + 1, stop, path, first_line)
            steps[kind] += found
            problems += faults
        else:
            other.append(Section(title, "\n".join(lines[start + 1 : stop]).strip("\n"), first_line + start))
    above = lines[: blocks[0][1]]
    blank = next((n for n, line in enumerate(above) if line.strip()), 0)
    notes = "\n".join(above[blank:]).rstrip()
    body = Body(notes, first_line + blank, tuple(steps["prep"]), tuple(steps["service"]), tuple(other))
    return body, tuple(problems)


def _title(line: str) -> str:
    """The words of a heading, without the `#` that may close it."""
    found = _HEADING.match(line)
    words = line[found.end() :].strip() if found else ""
    bare = words.rstrip("#")
    return words if bare and bare[-1] not in " \t" else bare.strip()


def _blocks(lines: list[str]) -> list[tuple[int, int]]:
    """Line ranges: what stands above the first `##`, then each section with its heading."""
    starts = [0]
    fence = ""
    for number, line in enumerate(lines):
        fence = _fence(line, fence)
        found = _HEADING.match(line) if not fence else None
        if found and len(found[1]) == 2:
            starts.append(number)
    return list(zip(starts, [*starts[1:], len(lines)], strict=True))


def _fence(line: str, open_: str) -> str:
    """The fence that is open after a line; headings within one are text."""
    found = _FENCE.match(line)
    if not found or (open_ and found[1] != open_):
        return open_
    return "" if open_ else found[1]


@dataclass(slots=True)
class _Pieces:
    """A step's lines as they are joined: where each begins in the text, its line and its column."""

    text: str = ""
    starts: list[tuple[int, int, int]] = field(default_factory=list)

    def add(self, words: str, line: int, column: int) -> None:
        self.text += " " if self.text else ""
        self.starts.append((len(self.text), line, column))
        self.text += words

    def span(self, path: str, start: int, stop: int) -> Span:
        """Where a stretch of the text stands; when it runs over lines, what of it stands on its first."""
        last = max(n for n, (offset, _, _) in enumerate(self.starts) if offset <= start)
        offset, line, column = self.starts[last]
        end = self.starts[last + 1][0] - 1 if last + 1 < len(self.starts) else len(self.text)
        return Span(path, line, column + start - offset, column + max(min(stop, end), start) - offset)


def _step_lists(
    lines: list[str], start: int, stop: int, path: str, first_line: int
) -> tuple[list[StepList], list[Problem]]:
    """The steps of one section, by part. Every list item and every paragraph is a step."""
    lists: list[StepList] = []
    problems: list[Problem] = []
    part, heading, steps = None, None, list[Step]()
    for number in [*_part_headings(lines, start, stop), stop]:
        for pieces in _paragraphs(lines, start, number, first_line):
            step, faults = _step(pieces, path)
            steps.append(step)
            problems += faults
        if steps or heading:
            lists.append(StepList(part, heading or steps[0].span, tuple(steps)))
        if number < stop:
            part, steps = _title(lines[number]), []
            column = len(lines[number]) - len(lines[number].lstrip()) + 1
            heading = Span(path, first_line + number, column, len(lines[number].rstrip()) + 1)
        start = number + 1
    return lists, problems


def _part_headings(lines: list[str], start: int, stop: int) -> list[int]:
    found = ((number, _HEADING.match(lines[number])) for number in range(start, stop))
    return [number for number, heading in found if heading and len(heading[1]) > 2]


def _paragraphs(lines: list[str], start: int, stop: int, first_line: int) -> list[_Pieces]:
    """List items and paragraphs, each with its continuation lines."""
    done: list[_Pieces] = []
    now = _Pieces()
    in_item = blank = False
    for number in range(start, stop):
        line = lines[number]
        if not line.strip():
            blank = True
            continue
        item = _ITEM.match(line) if not _RULE.match(line) else None
        continues = in_item and line[0] in " \t"
        if item or (blank and not continues) or _RULE.match(line):
            done.append(now)
            now, in_item = _Pieces(), bool(item)
        if not _RULE.match(line):
            words = line[item.end() if item else 0 :].strip()
            if words:
                now.add(words, first_line + number, line.index(words, item.end() if item else 0) + 1)
        blank = False
    return [pieces for pieces in (*done, now) if pieces.text]


def _step(pieces: _Pieces, path: str) -> tuple[Step, tuple[Problem, ...]]:
    span = pieces.span(path, 0, len(pieces.text))
    bracket = _bracket(pieces.text)
    if not bracket:
        return _unclosed(pieces, path) or (Step(pieces.text, None, span), ())
    start, stop = bracket
    note, problems = read_step_note(pieces.text[start + 1 : stop], pieces.span(path, start + 1, stop))
    return Step(pieces.text[:start].rstrip(), note, span), problems


def _unclosed(pieces: _Pieces, path: str) -> tuple[Step, tuple[Problem, ...]] | None:
    """A step whose last bracket is open to its end, or closed and never opened: read as meant, and said."""
    text, span = pieces.text, pieces.span(path, 0, len(pieces.text))
    start = open_bracket(text)
    if start is not None and (start == 0 or text[start - 1].isspace() or text[start - 1] in ".,;:!?)"):
        place = pieces.span(path, start, len(text))
        note, problems = read_step_note(text[start + 1 :].rstrip(" ."), pieces.span(path, start + 1, len(text)))
        fault = error(
            place, "wrong-type", "the bracket that ends this step is not closed", "write ] behind the last word"
        )
        return Step(text[:start].rstrip(), note, span), (fault, *problems)
    end = len(text.rstrip(" .")) - 1
    if end > 0 and text[end] == "]" and "[" not in text:
        place = pieces.span(path, end, end + 1)
        return Step(text, None, span), (error(place, "wrong-type", "no [ opens this bracket", "write [5 min, burner]"),)
    return None


def _bracket(text: str) -> tuple[int, int] | None:
    """Where the brackets that end a step stand; a link, a reference and an empty or ticked box are no such."""
    end = len(text.rstrip(" .")) - 1
    if end < 0 or text[end] != "]":
        return None
    depth = 0
    for place in range(end, -1, -1):
        depth += (text[place] == "]") - (text[place] == "[")
        if depth == 0:
            inside = text[place + 1 : end].strip()
            joined = place and not text[place - 1].isspace() and text[place - 1] not in ".,;:!?)"
            return None if joined or len(inside) < 2 else (place, end)
    return None
