"""Plain charts of what weeks came to: a bar a week, grey-safe, the figure written behind it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from binder.pages.drawings import INK, SCREEN, TONE, Form, fitted, rule, whole, written

_TOP = 6
# Room behind the longest bar for its words, in characters.
_BEHIND = 16


@dataclass(frozen=True, slots=True)
class Measured:
    """A row: what was (toned), what was planned beside it (an outline), None where it is not known."""

    label: str
    value: float | None
    words: str
    planned: float | None = None


def bars(rows: Sequence[Measured], title: str, description: str, id_: str, form: Form = SCREEN) -> str:
    """A bar for each row, all from zero in one scale."""
    most = max((size for row in rows for size in (row.value, row.planned) if size), default=1.0)
    scale = (form.width - form.label - _BEHIND * form.character) / most
    parts = []
    for n, row in enumerate(rows):
        top = _TOP + n * form.row
        label = fitted(row.label, form.label - 6, form)
        parts += [rule(top, form), written(0, form.baseline(top, form.row), label, "start", form)]
        parts.append(_bar(row, top, scale, form))
    return whole(parts, _TOP + len(rows) * form.row + 4, title, description, id_, form)


def _bar(row: Measured, top: float, scale: float, form: Form) -> str:
    height = form.row - 8
    said = ""
    ends = [float(form.label)]
    for size, kind, fill in ((row.value, "attended", TONE), (row.planned, "planned", "none")):
        if size:
            width = max(1.0, size * scale)
            ends.append(form.label + width)
            dash = ' stroke-dasharray="3 2"' if kind == "planned" else ""
            said += (
                f'<rect class="{kind}" x="{form.label}" y="{top + 4:.1f}" width="{width:.1f}" height="{height}" '
                f'fill="{fill}" stroke="{INK}" stroke-width="0.8"{dash}/>'
            )
    return said + written(max(ends) + 5, form.baseline(top, form.row), row.words, "start", form)
