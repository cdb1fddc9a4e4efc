"""Sheets of labels as a PDF: each label at its place in mm, its words as large as fit.

A label is read from the top: dish, eat by, whose, contains, how to heat, portion and id. Dish and date are set larger
where there is room. What it contains is set in a ruled box and is the last thing to be shortened.
"""

from __future__ import annotations

import io
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

import segno
from markupsafe import Markup

from binder.pages.page import Label, LabelPages
from binder.press.fitting import LARGEST_PT, LEADING, Fact, Fitted, face, fit
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
# A label of two inches is read from further away than one of one inch.
_TALL_MM, _LARGEST_TALL_PT = 45.0, 14.0


@dataclass(frozen=True, slots=True)
class Placed:
    """A label at its place, in mm, with its words fitted."""

    label: Label
    left_mm: float
    top_mm: float
    fitted: Fitted
    code: str  # the name of its QR code among the assets, or ""
    code_mm: float


def labels_pdf(
    pages: LabelPages,
    geometry: Geometry,
    theme: Theme,
    today: date,
    addresses: Sequence[str | None] = (),
    outlines: bool = False,
) -> bytes:
    """The sheets drawn. `addresses`: for each label what its QR code says, or None; `outlines`: with cut lines."""
    from binder.press.drawing import drawn

    html, assets = labels_html(pages, geometry, theme, today, addresses, outlines)
    return drawn(html, assets)


def labels_html(
    pages: LabelPages,
    geometry: Geometry,
    theme: Theme,
    today: date,
    addresses: Sequence[str | None] = (),
    outlines: bool = False,
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
        head_room=geometry.top_mm >= _HEAD_ROOM_MM,
    )  # fmt: skip
    return html, {**{f"fonts/{name}": content for name, content in theme.fonts.items()}, **codes}


def fitted(label: Label, geometry: Geometry, theme: Theme, with_code: bool = False) -> Fitted:
    """The label's words at the size that fits; `shortened` names what did not."""
    width, height = (side - 2 * PADDING_MM for side in geometry.label_mm)
    if with_code:
        width -= _code_mm(geometry) + PADDING_MM
    plain, strong = face(theme, SANS, 400), face(theme, SANS, 600)
    facts = (
        Fact("title", label.title, face(theme, SERIF, 600), lines=2, lead=True),
        Fact("date", label.date, strong, lines=2, whole=True, lead=True),
        Fact("whose", label.whose, plain, lines=2),
        Fact("contains", label.contains, strong, lines=9, whole=True, boxed=True),
        Fact("heat", label.heat, plain, lines=2),
        Fact("small", label.small, plain),
    )
    largest = LARGEST_PT if geometry.label_mm[1] < _TALL_MM else _LARGEST_TALL_PT
    return fit(facts, width * PT_PER_MM, height * PT_PER_MM, largest)


def _code_mm(geometry: Geometry) -> float:
    return min(geometry.label_mm[1] - 2 * PADDING_MM, geometry.label_mm[0] * 0.4, _LARGEST_CODE_MM)


def _placed(label: Label, geometry: Geometry, theme: Theme, codes: dict[str, bytes], address: str | None) -> Placed:
    left, top = geometry.corner_mm(label.row, label.column)
    name = _code(address, codes) if address else ""
    words = fitted(label, geometry, theme, with_code=bool(name))
    return Placed(label, left, top, words, name, _code_mm(geometry) if name else 0.0)


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
