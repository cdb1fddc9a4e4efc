"""Sheets of labels as a PDF: each label at its place in mm, its words as large as fit.

A label is read from the top: dish, eat by, whose, contains, how to heat, portion and id. Dish and date are set larger
where there is room. What it contains is set in a ruled box and is the last thing to be shortened.
"""

from __future__ import annotations

import io
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from math import ceil

import segno
from markupsafe import Markup

from binder.pages.other_files import Label, LabelPages
from binder.press.fitting import LARGEST_PT, LEADING, Fact, Fitted, face, fit, height_pt
from binder.press.geometry import Geometry
from binder.press.setting import environment
from binder.press.theme import Theme, font_faces

PT_PER_MM = 72 / 25.4
# Room between the cut edge and the words: a sheet moves by up to a millimetre in a printer (common practice).
PADDING_MM = 1.7
SANS, SERIF = "Counter Sans", "Counter Serif"
_LARGEST_CODE_MM = 20.0
# ISO/IEC 18004: four modules of quiet zone on every side.
_QUIET_MODULES = 4
_HEAD_ROOM_MM = 6.0
# Across narrower tape few words find room on a line.
ACROSS_FROM_MM, LONGEST_MM, _ALONG_PT, _LINES = 38.0, 120.0, 8.0, 6
# A cut mark's length, and how far from the label it stays.
_MARK_MM, _CLEAR_MM = 4.0, 0.6
# A label of two inches is read from further away than one of one inch.
_TALL_MM, _LARGEST_TALL_PT = 45.0, 14.0


@dataclass(frozen=True, slots=True)
class Placed:
    """A label at its place, in mm, with its words fitted."""

    label: Label
    left_mm: float
    top_mm: float
    fitted: Fitted
    size_mm: tuple[float, float]
    code: str  # the name of its QR code among the assets, or ""
    code_mm: float


def labels_pdf(
    pages: LabelPages,
    geometry: Geometry,
    theme: Theme,
    today: date,
    addresses: Sequence[str | None] = (),
    outlines: bool = False,
    cut_marks: bool = False,
) -> bytes:
    """The sheets drawn. `addresses`: for each label what its QR code says, or None.

    `outlines`: a line around each label; `cut_marks`: marks at the edge of the sheet to cut plain paper by.
    """
    from binder.press.drawing import drawn

    html, assets = labels_html(pages, geometry, theme, today, addresses, outlines, cut_marks)
    return drawn(html, assets)


def labels_html(
    pages: LabelPages,
    geometry: Geometry,
    theme: Theme,
    today: date,
    addresses: Sequence[str | None] = (),
    outlines: bool = False,
    cut_marks: bool = False,
) -> tuple[str, Mapping[str, bytes]]:
    """The document that is drawn, and the assets it names."""
    codes: dict[str, bytes] = {}
    placed = [
        _placed(label, geometry, theme, codes, addresses[n] if n < len(addresses) else None)
        for n, label in enumerate(pages.labels)
    ]
    count = max(pages.sheets, *(label.sheet for label in pages.labels), 1)
    html = environment(theme).get_template("labels.html").render(
        pages=pages,
        geometry=geometry,
        today=today.isoformat(),
        sheet=Markup(font_faces(theme, lambda name: f"fonts/{name}") + "\n" + theme.css["labels.css"]),
        sheets=[[one for one in placed if one.label.sheet == n] for n in range(1, count + 1)],
        every=[geometry.corner_mm(r, c) for r in range(1, geometry.rows + 1) for c in range(1, geometry.columns + 1)],
        outlines=outlines,
        padding_mm=PADDING_MM,
        leading=LEADING,
        marks=cut_marks_mm(geometry) if cut_marks else (),
        lengths=sorted({one.size_mm for one in placed}) if geometry.is_tape else [],
        head_room=geometry.top_mm >= _HEAD_ROOM_MM,
    )  # fmt: skip
    return html, {**{f"fonts/{name}": content for name, content in theme.fonts.items()}, **codes}


def fitted(label: Label, geometry: Geometry, theme: Theme, with_code: bool = False) -> Fitted:
    """The label's words at the size that fits; `shortened` names what did not."""
    return _fitted(label, geometry.label_mm, theme, with_code)


def _fitted(label: Label, size_mm: tuple[float, float], theme: Theme, with_code: bool, lines: int = 2) -> Fitted:
    """`lines`: how many dish, date, whose and heat may take each."""
    width, height = (side - 2 * PADDING_MM for side in size_mm)
    if with_code:
        width -= _code_mm(size_mm) + PADDING_MM
    plain, strong = face(theme, SANS, 400), face(theme, SANS, 600)
    facts = (
        Fact("title", label.title, face(theme, SERIF, 600), lines=lines, lead=True),
        Fact("date", label.date, strong, lines=lines, whole=True, lead=True),
        Fact("whose", label.whose, plain, lines=lines),
        Fact("contains", label.contains, strong, lines=9, whole=True, boxed=True),
        Fact("heat", label.heat, plain, lines=lines),
        Fact("small", label.small, plain, lines=lines - 1),
    )
    largest = LARGEST_PT if size_mm[1] < _TALL_MM or size_mm[0] < _TALL_MM else _LARGEST_TALL_PT
    return fit(facts, width * PT_PER_MM, height * PT_PER_MM, largest)


def _code_mm(size_mm: tuple[float, float]) -> float:
    return min(size_mm[1] - 2 * PADDING_MM, size_mm[0] * 0.4, _LARGEST_CODE_MM)


def size_by_content_mm(label: Label, tape_mm: float, theme: Theme, with_code: bool = False) -> tuple[float, float]:
    """The page of a label on tape, width and height: the words run across the tape, along it where it is narrow.

    Across, it is as high as its words at their usual size; along, as long as they need at 8 pt (or what the tape
    takes), in steps of 5 mm.
    """
    if tape_mm >= ACROSS_FROM_MM:
        words = _fitted(label, (tape_mm, LONGEST_MM), theme, with_code, _LINES)
        least = _code_mm((tape_mm, LONGEST_MM)) if with_code else 0.0
        return tape_mm, ceil(max(height_pt(words) / PT_PER_MM, least) + 2 * PADDING_MM)
    best = _fitted(label, (LONGEST_MM, tape_mm), theme, with_code)
    for length in range(30, int(LONGEST_MM), 5):
        words = _fitted(label, (length, tape_mm), theme, with_code)
        if words.size_pt >= min(best.size_pt, _ALONG_PT) and len(words.shortened) <= len(best.shortened):
            return float(length), tape_mm
    return LONGEST_MM, tape_mm


def cut_marks_mm(geometry: Geometry) -> tuple[tuple[float, float, float, float], ...]:
    """Lines (left, top, width, height) between the labels' edges and the paper's, one for each edge to cut along."""
    if geometry.is_tape:
        return ()
    corners = [geometry.corner_mm(r, c) for r in (1, geometry.rows) for c in (1, geometry.columns)]
    left, top = corners[0]
    right, bottom = (corners[-1][n] + geometry.label_mm[n] for n in (0, 1))
    width, height = geometry.page_mm
    columns = (geometry.corner_mm(1, c)[0] for c in range(1, geometry.columns + 1))
    rows = (geometry.corner_mm(r, 1)[1] for r in range(1, geometry.rows + 1))
    xs = sorted({round(x + far, 3) for x in columns for far in (0, geometry.label_mm[0])})
    ys = sorted({round(y + far, 3) for y in rows for far in (0, geometry.label_mm[1])})
    above, below = max(0.0, top - _MARK_MM - _CLEAR_MM), min(height, bottom + _CLEAR_MM)
    before, after = max(0.0, left - _MARK_MM - _CLEAR_MM), min(width, right + _CLEAR_MM)
    marks = [(x, above, 0.0, top - _CLEAR_MM - above) for x in xs]
    marks += [(x, below, 0.0, min(_MARK_MM, height - below)) for x in xs]
    marks += [(before, y, left - _CLEAR_MM - before, 0.0) for y in ys]
    marks += [(after, y, min(_MARK_MM, width - after), 0.0) for y in ys]
    return tuple(mark for mark in marks if max(mark[2:]) > 0)


def _placed(label: Label, geometry: Geometry, theme: Theme, codes: dict[str, bytes], address: str | None) -> Placed:
    left, top = geometry.corner_mm(label.row, label.column)
    name = _code(address, codes) if address else ""
    size = (
        size_by_content_mm(label, geometry.label_mm[0], theme, bool(name)) if geometry.by_content else geometry.label_mm
    )
    lines = _LINES if geometry.by_content and geometry.label_mm[0] >= ACROSS_FROM_MM else 2
    words = _fitted(label, size, theme, bool(name), lines)
    return Placed(label, left, top, words, size, name, _code_mm(size) if name else 0.0)


def _code(address: str, codes: dict[str, bytes]) -> str:
    """The QR code (ISO/IEC 18004) as a picture of one pixel a module; equal addresses share one."""
    out = io.BytesIO()
    segno.make_qr(address, error="m").save(out, kind="png", scale=1, border=_QUIET_MODULES)
    content = out.getvalue()
    name = next((known for known, picture in codes.items() if picture == content), "")
    if not name:
        name = f"code-{len(codes) + 1}.png"
        codes[name] = content
    return name
