"""The test sheet: where this printer puts what on the stock in use, so that labels can be moved to their places."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from markupsafe import Markup

from binder.pages.other_files import RegistrationSheet
from binder.press.geometry import Geometry
from binder.press.labels import LONGEST_MM, cut_marks_mm
from binder.press.setting import environment
from binder.press.theme import Theme, font_faces

_REACH_MM = 3  # how far off the scales can tell; a printer is rarely further (common practice)
_TICK_MM, _WHOLE_TICK_MM = 2.0, 5.0
Line = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Place:
    """A label's outline, and the number of its position."""

    number: int
    left_mm: float
    top_mm: float


def registration_pdf(sheet: RegistrationSheet, geometry: Geometry, theme: Theme, today: date) -> bytes:
    """One sheet drawn: every label outlined and numbered, scales in millimetres at the first, what to do with them."""
    from binder.press.drawing import drawn

    html, assets = registration_html(sheet, geometry, theme, today)
    return drawn(html, assets)


def registration_html(
    sheet: RegistrationSheet, geometry: Geometry, theme: Theme, today: date
) -> tuple[str, Mapping[str, bytes]]:
    """The document that is drawn, and the assets it names. Tape of no stated length is tested at its longest."""
    if geometry.by_content:
        size = (geometry.label_mm[0], LONGEST_MM)
        geometry = replace(geometry, page_mm=size, label_mm=size)
    places = [
        Place(n, *geometry.corner_mm(*(part + 1 for part in divmod(n - 1, geometry.columns))))
        for n in range(1, geometry.rows * geometry.columns + 1)
    ]
    html = environment(theme).get_template("registration.html").render(
        pages=sheet,
        geometry=geometry,
        today=today.isoformat(),
        sheet=Markup(font_faces(theme, lambda name: f"fonts/{name}") + "\n" + theme.css["labels.css"]),
        places=places,
        lines=(*scales(places[0]), *cut_marks_mm(geometry)),
    )  # fmt: skip
    return html, {f"fonts/{name}": content for name, content in theme.fonts.items()}


def scales(first: Place) -> Sequence[Line]:
    """Ticks (left, top, width, height) each millimetre across the first label's left and upper edge, longer at 0."""
    steps = range(-_REACH_MM, _REACH_MM + 1)
    long = {n: _WHOLE_TICK_MM if n == 0 else _TICK_MM for n in steps}
    across = [(first.left_mm + n, first.top_mm + 8.0, 0.0, long[n]) for n in steps]
    down = [(first.left_mm + 8.0, first.top_mm + n, long[n], 0.0) for n in steps]
    return [line for line in (*across, *down) if line[0] >= 0 and line[1] >= 0]
