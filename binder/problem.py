"""What is wrong in something a person wrote: where, how bad, and the way out.

A problem is a value: rooms collect problems and hand them on; nobody raises them.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Severity = Literal["error", "warning"]


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of one line: path within the content folder, 1-based line and column, column after its last one."""

    path: str
    line: int
    column: int
    end: int

    def part(self, start: int, stop: int) -> Span:
        """The characters `start` to `stop` (0-based) of the text this span covers."""
        return Span(self.path, self.line, self.column + start, self.column + stop)


@dataclass(frozen=True, slots=True)
class Problem:
    """One finding: `remedies` are ways out, best first, each a sentence or a line to write."""

    span: Span
    severity: Severity
    code: str
    message: str
    remedies: tuple[str, ...] = ()


def error(span: Span, code: str, message: str, *remedies: str) -> Problem:
    """A problem that stops a build."""
    return Problem(span, "error", code, message, remedies)


def warning(span: Span, code: str, message: str, *remedies: str) -> Problem:
    """A problem that is said and lets the build go on."""
    return Problem(span, "warning", code, message, remedies)


def in_order(problems: tuple[Problem, ...] | list[Problem]) -> tuple[Problem, ...]:
    """By path, line and column, each once; errors before warnings at the same place."""
    return tuple(
        sorted(
            set(problems),
            key=lambda p: (p.span.path, p.span.line, p.span.column, p.severity, p.code, p.message),
        )
    )
