"""Label sheets by grid and size, and where on the paper each label lies; continuous tape by its width.

Sizes in inches are exact (1 in = 25.4 mm). A sheet is named by its paper and grid alone, tape by its width and, where
that is stated, the length of a label: `tape 62 mm`, `tape 2.4 in x 1 1/2 in`.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType

from binder.tables.measures import MM_PER_INCH

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
    def by_content(self) -> bool:
        """Whether a label is as long as its words need: tape of no stated length."""
        return not self.label_mm[1]

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


# Narrower tape has no room for dish, date and what a label contains at 7 pt; wider is a sheet (from the words' size).
NARROWEST_TAPE_MM, WIDEST_TAPE_MM = 18.0, 120.0
SHORTEST_LABEL_MM, LONGEST_LABEL_MM = 15.0, 150.0
_LENGTH = r"([0-9]+(?: [0-9]+/[0-9]+|/[0-9]+|\.[0-9]+)?) ?(mm|cm|in)"
_TAPE = re.compile(rf"tape {_LENGTH}(?: ?[x×] ?{_LENGTH})?")
_IN_MM = MappingProxyType({"mm": Fraction(1), "cm": Fraction(10), "in": MM_PER_INCH})


def sheet(name: str) -> LabelSheet | None:
    """The sheet or tape of that name, whatever its case; None when there is none."""
    key = " ".join(name.lower().split())
    return SHEETS.get(key) or _tape(key)


def is_tape(name: str) -> bool:
    """Whether it is the name of a tape, of whatever size."""
    return bool(_TAPE.fullmatch(" ".join(name.lower().split())))


def _tape(key: str) -> LabelSheet | None:
    said = _TAPE.fullmatch(key)
    if said is None:
        return None
    width = _tape_mm(said[1], said[2])
    length = _tape_mm(said[3], said[4]) if said[3] else 0.0
    if not NARROWEST_TAPE_MM <= width <= WIDEST_TAPE_MM:
        return None
    if length and not SHORTEST_LABEL_MM <= length <= LONGEST_LABEL_MM:
        return None
    return LabelSheet(key, (width, length), 1, 1, (width, length), 0.0, 0.0, 0.0, 0.0, source="as the household says")


def _tape_mm(number: str, unit: str) -> float:
    return float(sum((Fraction(part) for part in number.split()), Fraction(0)) * _IN_MM[unit])


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
