"""The geometry of a label sheet, in mm."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Geometry:
    """A sheet of equal labels; lengths in mm, pairs are (width, height); `offset_mm` moves everything (x, y).

    Tape is a page of one label; of height 0 where a label is as long as its words need.
    """

    page_mm: tuple[float, float]
    label_mm: tuple[float, float]
    left_mm: float
    top_mm: float
    gap_x_mm: float
    gap_y_mm: float
    columns: int
    rows: int
    offset_mm: tuple[float, float] = (0.0, 0.0)

    @property
    def is_tape(self) -> bool:
        """Whether a page is a label."""
        return self.page_mm == self.label_mm

    @property
    def by_content(self) -> bool:
        """Whether the words of a label say how long it is."""
        return not self.label_mm[1]

    def corner_mm(self, row: int, column: int) -> tuple[float, float]:
        """Upper left corner of a label, row and column from 1, measured from the paper's."""
        if not (1 <= row <= self.rows and 1 <= column <= self.columns):
            raise ValueError(f"no label at row {row}, column {column}")
        width, height = self.label_mm
        return (
            self.left_mm + (column - 1) * (width + self.gap_x_mm) + self.offset_mm[0],
            self.top_mm + (row - 1) * (height + self.gap_y_mm) + self.offset_mm[1],
        )
