"""What is told of a problem code: a page of plain words, and one stretch of a file as it was and as it should be."""

from __future__ import annotations

from dataclasses import dataclass

from binder.problem import Severity


@dataclass(frozen=True, slots=True)
class ProblemCode:
    """`file` is a path within the content folder, `wrong` and `right` a line or a few of it, as they stand there.

    `here` says what makes the stretch wrong, where that stands elsewhere in the household. The first sentence of
    `means` says it in short.
    """

    name: str
    severity: Severity
    means: str
    matters: str
    file: str
    wrong: str
    right: str
    here: str = ""

    @property
    def in_short(self) -> str:
        return self.means.split(". ")[0].rstrip(".")
