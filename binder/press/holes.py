"""Marks in the gutter where the sheets are punched: small crosses, and a line at the middle of the edge.

Two holes 80 mm apart, their middles 12 mm from the edge, lie even to the middle of the sheet (ISO 838:1974, from
memory). Three holes on letter paper are 4 1/4 in apart, on half a letter 2 3/4 in, their middles 1/2 in from the edge
(common practice, from memory).
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from binder.press.papers import PAPERS

_INCH = 25.4
# How many, how far apart and how far from the edge, in mm.
HOLES: Mapping[str, tuple[int, float, float]] = MappingProxyType(
    {
        "letter": (3, 4.25 * _INCH, 0.5 * _INCH),
        "half-letter": (3, 2.75 * _INCH, 0.5 * _INCH),
        "a4": (2, 80.0, 12.0),
        "a5": (2, 80.0, 12.0),
    }
)
_ARM_MM = 1.5
# Printers leave about 4 mm at the edge white (common practice).
_EDGE_MM = (4.5, 7.5)


def places_mm(paper: str) -> tuple[tuple[float, float], ...]:
    """The middle of each hole on a right-hand page, from its upper left corner; the gutter is on the left."""
    count, apart, inset = HOLES[paper]
    middle = PAPERS[paper].height_mm / 2
    return tuple((inset, middle + (n - (count - 1) / 2) * apart) for n in range(count))


def hole_marks(paper: str) -> Mapping[str, bytes]:
    """A drawing of the page's size for the right-hand page and one for the left."""
    page = PAPERS[paper]
    crosses = "".join(
        f"M{x - _ARM_MM:.2f} {y:.2f}h{2 * _ARM_MM}M{x:.2f} {y - _ARM_MM:.2f}v{2 * _ARM_MM}" for x, y in places_mm(paper)
    )
    lines = f"{crosses}M{_EDGE_MM[0]} {page.height_mm / 2:.2f}H{_EDGE_MM[1]}"
    path = f'<path d="{lines}" fill="none" stroke="#000" stroke-width=".15"/>'
    turned = f'<g transform="translate({page.width_mm} 0) scale(-1 1)">{path}</g>'
    return {"right": _svg(path, page.width_mm, page.height_mm), "left": _svg(turned, page.width_mm, page.height_mm)}


def _svg(inside: str, width: float, height: float) -> bytes:
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" '
        f'viewBox="0 0 {width} {height}">{inside}</svg>'
    ).encode()
