"""What a person sees in the terminal: problems with their line and a caret, and one status line while it works."""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from types import TracebackType

from binder.problem import Problem
from binder.reckon.words import counted

_RED, _YELLOW, _BOLD, _DIM, _PLAIN = "\x1b[31m", "\x1b[33m", "\x1b[1m", "\x1b[2m", "\x1b[0m"
# What a file may hold that a terminal would obey: control characters but the tab.
_CONTROLS = {code: " " for code in (*range(0x20), 0x7F, *range(0x80, 0xA0)) if code != 9}


def problem_lines(problems: Iterable[Problem], texts: Mapping[str, str], folder: str, colour: bool) -> Iterator[str]:
    """`path:line:column: severity[code] message`, the source line, a caret, the ways out."""
    for problem in problems:
        yield from _one(problem, texts.get(problem.span.path, ""), folder, colour)


def _one(problem: Problem, text: str, folder: str, colour: bool) -> Iterator[str]:
    span = problem.span
    tone = _RED if problem.severity == "error" else _YELLOW
    mark = f"{tone}{problem.severity}[{problem.code}]{_PLAIN}" if colour else f"{problem.severity}[{problem.code}]"
    yield f"{folder}/{span.path}:{span.line}:{span.column}: {mark} {_clean(problem.message)}"
    lines = text.split("\n")
    if 1 <= span.line <= len(lines):
        source = lines[span.line - 1]
        yield f"  {span.line:>4} | {_clean(source)}"
        before = "".join("\t" if char == "\t" else " " for char in source[: span.column - 1])
        carets = "^" * max(1, min(span.end, len(source) + 1) - span.column)
        yield f"       | {before}{tone + carets + _PLAIN if colour else carets}"
    for n, remedy in enumerate(problem.remedies):
        yield f"       {'or ' if n else ''}{_clean(remedy)}"


def _clean(text: str) -> str:
    return text.translate(_CONTROLS)


def summary(problems: Iterable[Problem], otherwise: str) -> str:
    """`2 errors, 1 warning; nothing was replaced`."""
    counts = Counter(problem.severity for problem in problems)
    words = [counted(n, severity) for severity in ("error", "warning") if (n := counts[severity])]
    if not words:
        return otherwise
    return ", ".join(words) + (f"; {otherwise}" if counts["error"] and otherwise else "")


class Status:
    """A line on standard error that says what is being done, while standard error is a terminal."""

    def __init__(self) -> None:
        self._shown = False

    def __enter__(self) -> Status:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, fault: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.clear()

    def stage(self, words: str) -> None:
        """Say what is being done now."""
        if sys.stderr.isatty():
            print(f"\r\x1b[K{words} ...", end="", file=sys.stderr, flush=True)
            self._shown = True

    def clear(self) -> None:
        """Take the line away."""
        if self._shown:
            print("\r\x1b[K", end="", file=sys.stderr, flush=True)
            self._shown = False
