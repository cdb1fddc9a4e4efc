"""The papers a binder is printed on, and their margins."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType


@dataclass(frozen=True, slots=True)
class Paper:
    """A page and its margins in mm; `inner` is the binding gutter, `outer` carries the index tab."""

    width_mm: float
    height_mm: float
    top_mm: float
    bottom_mm: float
    inner_mm: float
    outer_mm: float
    tab_depth_mm: float


# Gutters leave room for holes punched 12 mm from the edge (ISO 838), 6 mm wide, on either side of the sheet.
PAPERS: Mapping[str, Paper] = MappingProxyType(
    {
        "letter": Paper(215.9, 279.4, 20, 17, 23, 18, 9.5),
        "a4": Paper(210, 297, 20, 17, 23, 18, 9.5),
        "half-letter": Paper(139.7, 215.9, 16, 13.5, 18.5, 13.5, 8.5),
        "a5": Paper(148, 210, 16, 13.5, 19, 14, 8.5),
    }
)
