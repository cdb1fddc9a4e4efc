"""Pictures that the binder draws itself: SVG, grey-safe, with words inside and a title and description for readers.

Lines and text carry classes, so that a theme or a dark screen may colour them; the plain attributes print on
white paper. Everything is placed by rule: the same facts give the same bytes.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from html import escape

WIDTH = 720
_HEAD = 26
_ROW = 26
_DAY_ROW = 20
_LABEL = 112
_FONT = 11
_CHARACTER = 6.2  # mean advance of an 11 px sans, with room to spare
_INK = "#1a1a1a"
_TONE = "#d9d9d9"
_HATCH_STEP = 6
_WRITTEN = 0.66


@dataclass(frozen=True, slots=True)
class Bar:
    """A stretch of time on a row: attended ones are toned, unattended ones hatched; `words` are written on it."""

    row: str
    start: datetime
    finish: datetime
    words: str
    attended: bool


@dataclass(frozen=True, slots=True)
class DayLine:
    """A stretch of days on a row, both ends included; `dashed_from`: from that day on it is another way of keeping."""

    row: str
    first: date
    last: date
    words: str
    frozen: bool = False
    marks: tuple[date, ...] = ()  # days on which some of it is eaten


def timeline(
    rows: Sequence[str],
    bars: Sequence[Bar],
    start: datetime,
    finish: datetime,
    title: str,
    description: str,
    id_: str,
) -> str:
    """Who and what is busy when: rows of bars above each other, a time axis on top."""
    minutes = max(1.0, (finish - start).total_seconds() / 60)
    scale = (WIDTH - _LABEL - 8) / minutes
    lanes = [(row if not n else "", lane) for row in rows for n, lane in enumerate(_lanes(row, bars))]
    bottom = _HEAD + len(lanes) * _ROW

    def x(at: datetime) -> float:
        return _LABEL + (at - start).total_seconds() / 60 * scale

    parts = [_tick(x(at), f"{at:%H:%M}", bottom) for at in _ticks(start, finish, minutes)]
    for n, (label, lane) in enumerate(lanes):
        top = _HEAD + n * _ROW
        parts += [_row_label(label, top)] if label else []
        parts += [_bar(bar, x(bar.start), x(bar.finish), top) for bar in lane]
    return _svg(parts, bottom + 6, title, description, id_)


def _lanes(row: str, bars: Sequence[Bar]) -> list[list[Bar]]:
    """A row's bars, those at the same time (two racks of one oven) under each other; one empty lane at least."""
    lanes: list[list[Bar]] = [[]]
    for bar in sorted((b for b in bars if b.row == row), key=lambda b: (b.start, b.finish)):
        lane = next((free for free in lanes if not free or free[-1].finish <= bar.start), None)
        if lane is None:
            lanes.append([bar])
        else:
            lane.append(bar)
    return lanes


def _ticks(start: datetime, finish: datetime, minutes: float) -> Iterable[datetime]:
    """Round clock times, at most about a dozen."""
    step = next((s for s in (5, 10, 15, 30, 60) if minutes / s <= 12), 120)
    first = start.hour * 60 + start.minute
    at = start + timedelta(minutes=-first % step)
    while at <= finish:
        yield at
        at += timedelta(minutes=step)


def _tick(x: float, words: str, bottom: float) -> str:
    return (
        f'<line class="axis" x1="{x:.1f}" y1="{_HEAD - 6}" x2="{x:.1f}" y2="{bottom}" stroke="{_INK}" '
        f'stroke-width="0.4" stroke-dasharray="1 3"/>' + _words(x, 14, words, "middle")
    )


def _row_label(words: str, top: float) -> str:
    line = f'<line class="rule" x1="0" y1="{top}" x2="{WIDTH}" y2="{top}" stroke="{_INK}" stroke-width="0.4"/>'
    return line + _words(0, top + 17, fitted(words, _LABEL - 6), "start")


def _bar(bar: Bar, x1: float, x2: float, top: float) -> str:
    y, height, width = top + 3, _ROW - 6, max(1.0, x2 - x1 - 1)
    kind = "attended" if bar.attended else "unattended"
    fill = _TONE if bar.attended else "none"
    box = (
        f'<rect class="{kind}" x="{x1:.1f}" y="{y}" width="{width:.1f}" height="{height}" fill="{fill}" '
        f'stroke="{_INK}" stroke-width="0.8"/>'
    )
    hatch = "" if bar.attended else _hatch(x1, y, width, height)
    # A third of a hatched bar stays hatched, so that it is seen for what it is.
    said = fitted(bar.words, width - 6 if bar.attended else width * _WRITTEN)
    return box + hatch + _paper(x1 + 0.6, top, said, bar.attended) + _words(x1 + 3, top + 17, said, "start")


def _hatch(x: float, y: float, width: float, height: float) -> str:
    """Slanted lines drawn one by one within the box: no pattern that a printer could leave out."""
    strokes = []
    for offset in range(_HATCH_STEP, int(width + height), _HATCH_STEP):
        x1, y1 = min(float(offset), width), max(0.0, offset - width)
        x2, y2 = max(0.0, offset - height), min(float(offset), height)
        strokes.append(f"M{x + x1:.1f} {y + y1:.1f}L{x + x2:.1f} {y + y2:.1f}")
    return f'<path class="hatch" d="{"".join(strokes)}" stroke="{_INK}" stroke-width="0.35" fill="none"/>'


def _paper(x: float, top: float, words: str, attended: bool) -> str:
    """White behind words on a hatched bar."""
    if attended or not words:
        return ""
    width = len(words) * _CHARACTER + 6
    return f'<rect class="paper" x="{x:.1f}" y="{top + 6}" width="{width:.1f}" height="14" fill="#fff"/>'


def fitted(words: str, width: float) -> str:
    """As much of the words as the width takes; the number before them stays as long as there is room for it."""
    room = int(width / _CHARACTER)
    if len(words) <= room:
        return words
    number = words.partition(" ")[0] if words[:1].isdigit() else ""
    if room < max(4, len(number) + 4):
        return number if number and len(number) <= room else ""
    return words[: room - 1].rstrip() + "…"


def keeping_lines(
    lines: Sequence[DayLine], days: Sequence[date], heads: Sequence[str], title: str, description: str, id_: str
) -> str:
    """How long each dish keeps, as lines over the days: whole in the refrigerator, dashed in the freezer."""
    step = (WIDTH - 2 * _LABEL) / len(days)
    left = 2 * _LABEL
    bottom = _HEAD + len(lines) * _DAY_ROW
    parts = [_tick(left + (n + 0.5) * step, head, bottom) for n, head in enumerate(heads)]
    for n, line in enumerate(lines):
        parts.append(_wide_label(line.row, _HEAD + n * _DAY_ROW))
        parts.append(_day_line(line, days, left, step, _HEAD + n * _DAY_ROW))
    return _svg(parts, bottom + 6, title, description, id_)


def _wide_label(words: str, top: float) -> str:
    line = f'<line class="rule" x1="0" y1="{top}" x2="{WIDTH}" y2="{top}" stroke="{_INK}" stroke-width="0.4"/>'
    return line + _words(0, top + 14, fitted(words, 2 * _LABEL - 6), "start")


def _day_line(line: DayLine, days: Sequence[date], left: float, step: float, top: float) -> str:
    first = max(line.first, days[0])
    last = min(line.last, days[-1])
    if last < first:
        return ""
    y = top + _DAY_ROW // 2
    x1 = left + ((first - days[0]).days + 0.15) * step
    x2 = left + ((last - days[0]).days + 0.85) * step
    dash = ' stroke-dasharray="6 3"' if line.frozen else ""
    stroke = (
        f'<line class="{"frozen" if line.frozen else "kept"}" x1="{x1:.1f}" y1="{y}" x2="{x2:.1f}" y2="{y}" '
        f'stroke="{_INK}" stroke-width="2.4"{dash}/>'
    )
    dots = (
        f'<circle class="eaten" cx="{left + ((on - days[0]).days + 0.5) * step:.1f}" cy="{y}" r="4" '
        f'fill="#fff" stroke="{_INK}" stroke-width="1.6"/>'
        for on in line.marks
        if days[0] <= on <= days[-1]
    )
    return stroke + "".join(dots)


def _words(x: float, y: float, words: str, anchor: str) -> str:
    if not words:
        return ""
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}" font-size="{_FONT}" fill="{_INK}">'
        f"{escape(words, quote=False)}</text>"
    )


def _svg(parts: Iterable[str], height: float, title: str, description: str, id_: str) -> str:
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {height:.0f}" width="{WIDTH}" '
        f'height="{height:.0f}" role="img" aria-labelledby="{id_}-title {id_}-words" font-family="sans-serif">'
        f'<title id="{id_}-title">{escape(title, quote=False)}</title>'
        f'<desc id="{id_}-words">{escape(description, quote=False)}</desc>{"".join(parts)}</svg>'
    )
