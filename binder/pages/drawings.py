"""Pictures that the binder draws itself: SVG, grey-safe, with words inside and a title and description for readers.

Lines and text carry classes, so that a theme or a dark screen may colour them; the plain attributes print on
white paper. Everything is placed by rule: the same facts give the same bytes.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from html import escape

_HEAD = 26
INK = "#1a1a1a"
TONE = "#d9d9d9"
_HATCH_STEP = 6
_WRITTEN = 0.66
_ADVANCE_EM = 0.56  # mean advance of a sans, with room to spare
_CLOCK_EM, _DAY_EM = 3.2, 3.0  # how far apart the words of an axis stand at least


@dataclass(frozen=True, slots=True)
class Form:
    """How a drawing is laid out, in units: its width, its type, its rows, the column of its labels."""

    width: int
    font: int
    row: int
    day_row: int
    label: int
    day_label: int

    @property
    def character(self) -> float:
        """The mean advance of a character."""
        return self.font * _ADVANCE_EM

    def baseline(self, top: float, height: float) -> float:
        """Where words stand in the middle of a row."""
        return top + height / 2 + self.font * 0.35


SCREEN = Form(720, 11, 26, 20, 112, 224)
# Its type is 12 pt on a letter or A4 page; on half of one, and 18 pt on a whole one; 18 pt on half of one.
PAPER = (Form(478, 12, 18, 18, 108, 190), Form(304, 12, 16, 16, 108, 142), Form(200, 12, 16, 16, 108, 96))


def on_paper(draw: Callable[[Form], str]) -> tuple[tuple[int, str], ...]:
    """A drawing in each form of paper, with its width."""
    return tuple((form.width, draw(form)) for form in PAPER)


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
    whose: str = ""  # said after `row`, and kept whole where there is little room


def timeline(
    rows: Sequence[str],
    bars: Sequence[Bar],
    start: datetime,
    finish: datetime,
    title: str,
    description: str,
    id_: str,
    form: Form = SCREEN,
) -> str:
    """Who and what is busy when: rows of bars above each other, a time axis on top."""
    minutes = max(1.0, (finish - start).total_seconds() / 60)
    scale = (form.width - form.label - form.font * 1.5) / minutes
    lanes = [(row if not n else "", lane) for row in rows for n, lane in enumerate(_lanes(row, bars))]
    bottom = _HEAD + len(lanes) * form.row

    def x(at: datetime) -> float:
        return form.label + (at - start).total_seconds() / 60 * scale

    apart = form.font * _CLOCK_EM / scale
    parts = [_tick(x(at), f"{at:%H:%M}", bottom, form) for at in _ticks(start, finish, apart)]
    for n, (label, lane) in enumerate(lanes):
        top = _HEAD + n * form.row
        parts += [_row_label(label, top, form)] if label else []
        parts += [_bar(bar, x(bar.start), x(bar.finish), top, form) for bar in lane]
    return whole(parts, bottom + 6, title, description, id_, form)


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


def _ticks(start: datetime, finish: datetime, apart: float) -> Iterable[datetime]:
    """Round clock times, so many minutes apart at least."""
    step = next((s for s in (5, 10, 15, 30, 60, 120) if s >= apart), 240)
    first = start.hour * 60 + start.minute
    at = start + timedelta(minutes=-first % step)
    while at <= finish:
        yield at
        at += timedelta(minutes=step)


def _tick(x: float, words: str, bottom: float, form: Form) -> str:
    return (
        f'<line class="axis" x1="{x:.1f}" y1="{_HEAD - 6}" x2="{x:.1f}" y2="{bottom}" stroke="{INK}" '
        f'stroke-width="0.4" stroke-dasharray="1 3"/>' + written(x, 14, words, "middle", form)
    )


def _row_label(words: str, top: float, form: Form) -> str:
    said = fitted(words, form.label - 4, form)
    return rule(top, form) + written(0, form.baseline(top, form.row), said, "start", form)


def rule(top: float, form: Form) -> str:
    """A thin line across the whole width, `top` units down."""
    return f'<line class="rule" x1="0" y1="{top}" x2="{form.width}" y2="{top}" stroke="{INK}" stroke-width="0.4"/>'


def _bar(bar: Bar, x1: float, x2: float, top: float, form: Form) -> str:
    inside = 3 if form.row > 20 else 1.5
    y, height, width = top + inside, form.row - 2 * inside, max(1.0, x2 - x1 - 1)
    kind = "attended" if bar.attended else "unattended"
    fill = TONE if bar.attended else "none"
    box = (
        f'<rect class="{kind}" x="{x1:.1f}" y="{y}" width="{width:.1f}" height="{height}" fill="{fill}" '
        f'stroke="{INK}" stroke-width="0.8"/>'
    )
    hatch = "" if bar.attended else _hatch(x1, y, width, height)
    # A third of a hatched bar stays hatched, so that it is seen for what it is.
    said = fitted(bar.words, width - 2 if bar.attended else width * _WRITTEN, form)
    words = written(x1 + inside, form.baseline(top, form.row), said, "start", form)
    return box + hatch + _paper(x1 + 0.6, y + 1, said, bar.attended, form, height - 2) + words


def _hatch(x: float, y: float, width: float, height: float) -> str:
    """Slanted lines drawn one by one within the box: no pattern that a printer could leave out."""
    strokes = []
    for offset in range(_HATCH_STEP, int(width + height), _HATCH_STEP):
        x1, y1 = min(float(offset), width), max(0.0, offset - width)
        x2, y2 = max(0.0, offset - height), min(float(offset), height)
        strokes.append(f"M{x + x1:.1f} {y + y1:.1f}L{x + x2:.1f} {y + y2:.1f}")
    return f'<path class="hatch" d="{"".join(strokes)}" stroke="{INK}" stroke-width="0.35" fill="none"/>'


def _paper(x: float, y: float, words: str, attended: bool, form: Form, height: float) -> str:
    """White behind words on a hatched bar."""
    if attended or not words:
        return ""
    width = len(words) * form.character + 4
    return f'<rect class="paper" x="{x:.1f}" y="{y:.1f}" width="{width:.1f}" height="{height:.1f}" fill="#fff"/>'


def fitted(words: str, width: float, form: Form = SCREEN) -> str:
    """As much of the words as the width takes; the number before them stays as long as there is room for it."""
    room = int(width / form.character)
    if len(words) <= room:
        return words
    number = words.partition(" ")[0] if words[:1].isdigit() else ""
    if room < max(4, len(number) + 4):
        return number if number and len(number) <= room else ""
    return words[: room - 1].rstrip() + "…"


def keeping_lines(
    lines: Sequence[DayLine],
    days: Sequence[date],
    heads: Sequence[str],
    title: str,
    description: str,
    id_: str,
    form: Form = SCREEN,
) -> str:
    """How long each dish keeps, as lines over the days: whole in the refrigerator, dashed in the freezer."""
    left = form.day_label
    step = (form.width - left) / len(days)
    if step < form.font * _DAY_EM:
        heads = [str(on.day) for on in days]
    # Where a weekday and its date would touch those of the next day, the date stands below its weekday.
    two = step < (max(map(len, heads), default=0) + 1) * form.character
    bottom = _HEAD + len(lines) * form.day_row
    parts = [_day_head(left + (n + 0.5) * step, head, two, bottom, form) for n, head in enumerate(heads)]
    for n, line in enumerate(lines):
        top = _HEAD + n * form.day_row
        said = _whose(line, left - 6, form)
        parts.append(rule(top, form) + written(0, form.baseline(top, form.day_row), said, "start", form))
        parts.append(_day_line(line, days, left, step, top, form))
    return whole(parts, bottom + 6, title, description, id_, form)


def _day_head(x: float, words: str, two_lines: bool, bottom: float, form: Form) -> str:
    if not two_lines:
        return _tick(x, words, bottom, form)
    above, _, below = words.rpartition(" ")
    upper = written(x, 14 - form.font * 0.45, above, "middle", form)
    return _tick(x, "", bottom, form) + upper + written(x, 14 + form.font * 0.5, below, "middle", form)


def _whose(line: DayLine, width: float, form: Form) -> str:
    """The dish shortened before its eaters are: they may be all that tells two lines apart."""
    if not line.whose or len(line.row) * form.character <= width:
        return fitted(line.row, width, form)
    dish = line.row.removesuffix(line.whose)
    return fitted(dish, width - len(line.whose) * form.character, form) + line.whose


def _day_line(line: DayLine, days: Sequence[date], left: float, step: float, top: float, form: Form) -> str:
    first = max(line.first, days[0])
    last = min(line.last, days[-1])
    if last < first:
        return ""
    y = top + form.day_row // 2
    x1 = left + ((first - days[0]).days + 0.15) * step
    x2 = left + ((last - days[0]).days + 0.85) * step
    dash = ' stroke-dasharray="6 3"' if line.frozen else ""
    stroke = (
        f'<line class="{"frozen" if line.frozen else "kept"}" x1="{x1:.1f}" y1="{y}" x2="{x2:.1f}" y2="{y}" '
        f'stroke="{INK}" stroke-width="2.4"{dash}/>'
    )
    dots = (
        f'<circle class="eaten" cx="{left + ((on - days[0]).days + 0.5) * step:.1f}" cy="{y}" r="4" '
        f'fill="#fff" stroke="{INK}" stroke-width="1.6"/>'
        for on in line.marks
        if days[0] <= on <= days[-1]
    )
    return stroke + "".join(dots)


def written(x: float, y: float, words: str, anchor: str, form: Form) -> str:
    """Words at a point, in the units of the form; nothing for no words."""
    if not words:
        return ""
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}" font-size="{form.font}" fill="{INK}">'
        f"{escape(words, quote=False)}</text>"
    )


def whole(parts: Iterable[str], height: float, title: str, description: str, id_: str, form: Form) -> str:
    """An SVG of its parts, its title and description for those who listen; `id_` is its own on the page."""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {form.width} {height:.0f}" width="{form.width}" '
        f'height="{height:.0f}" role="img" aria-labelledby="{id_}-title {id_}-words" font-family="sans-serif">'
        f'<title id="{id_}-title">{escape(title, quote=False)}</title>'
        f'<desc id="{id_}-words">{escape(description, quote=False)}</desc>{"".join(parts)}</svg>'
    )
