"""Label sheets by grid and size, and where on the paper each label lies.

Sizes in inches are exact (1 in = 25.4 mm). A sheet is named by its paper and grid alone.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType

from .measures import MM_PER_INCH

SOURCE = "common practice: grid, label size and margins as printed on blank stock"


@dataclass(frozen=True, slots=True)
class LabelSheet:
    """A page of equal labels; lengths in mm, pairs are (width, height), margins to the first label."""

    name: str
    page_mm: tuple[float, float]
    columns: int
    rows: int
    label_mm: tuple[float, float]
    left_mm: float
    top_mm: float
    gap_x_mm: float
    gap_y_mm: float
    source: str = SOURCE

    @property
    def capacity(self) -> int:
        """Labels on one sheet."""
        return self.columns * self.rows


@dataclass(frozen=True, slots=True)
class Position:
    """One label's place: row and column from 1, its upper left corner in mm from the paper's."""

    row: int
    column: int
    x_mm: float
    y_mm: float


def _mm(inches: str) -> float:
    return float(Fraction(inches) * MM_PER_INCH)


_LETTER = (_mm("17/2"), _mm("11"))
_A4 = (210.0, 297.0)

SHEETS: Mapping[str, LabelSheet] = MappingProxyType(
    {
        sheet.name: sheet
        for sheet in (
            LabelSheet(
                "letter 3x10", _LETTER, 3, 10, (_mm("21/8"), _mm("1")),
                left_mm=_mm("3/16"), top_mm=_mm("1/2"), gap_x_mm=_mm("1/8"), gap_y_mm=0.0,
            ),
            LabelSheet(
                "letter 2x5", _LETTER, 2, 5, (_mm("4"), _mm("2")),
                left_mm=_mm("5/32"), top_mm=_mm("1/2"), gap_x_mm=_mm("3/16"), gap_y_mm=0.0,
            ),
            LabelSheet(
                "a4 3x7", _A4, 3, 7, (63.5, 38.1),
                left_mm=7.2, top_mm=15.15, gap_x_mm=2.5, gap_y_mm=0.0,
            ),
            LabelSheet(
                "a4 2x7", _A4, 2, 7, (99.1, 38.1),
                left_mm=4.65, top_mm=15.15, gap_x_mm=2.5, gap_y_mm=0.0,
                source="common practice; left margin by arithmetic",
            ),
        )
    }
)  # fmt: skip


def names() -> tuple[str, ...]:
    """The names a household may write under `labels: sheet`."""
    return tuple(SHEETS)


def sheet(name: str) -> LabelSheet | None:
    """The sheet of that name, whatever its case; None when there is none."""
    return SHEETS.get(" ".join(name.lower().split()))


def position(of: LabelSheet, index: int) -> Position:
    """Where label `index` lies, counted from 1, along each row, then down; ValueError beyond the sheet."""
    if not 1 <= index <= of.capacity:
        raise ValueError(f"label {index} of a sheet of {of.capacity}")
    row, column = divmod(index - 1, of.columns)
    width, height = of.label_mm
    return Position(
        row + 1,
        column + 1,
        of.left_mm + column * (width + of.gap_x_mm),
        of.top_mm + row * (height + of.gap_y_mm),
    )
