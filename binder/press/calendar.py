"""The week as iCalendar (RFC 5545): sessions, pulls, carries and dinners, with alarms.

Times are written in UTC: each event is one moment, right on either side of a clock change and without a definition
of the time zone that could disagree with the reader's own.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta

from binder.pages.page import Calendar, Event

PRODUCT = "-//household-prep-binder//EN"
_CONTROL = re.compile(r"[\x00-\x08\x0b-\x1f\x7f]")
_LINE_OCTETS = 75  # section 3.1, without the line break


def calendar_bytes(calendar: Calendar) -> bytes:
    """The calendar as UTF-8 text with CRLF line ends, lines folded at 75 octets."""
    return "".join(f"{folded(line)}\r\n" for line in _lines(calendar)).encode()


def folded(line: str) -> str:
    """A content line folded so that no piece has more than 75 octets and no character is split (section 3.1)."""
    pieces: list[str] = []
    piece, octets = "", 0
    for character in line:
        width = len(character.encode())
        if octets + width > _LINE_OCTETS:
            pieces.append(piece)
            piece, octets = " ", 1
        piece += character
        octets += width
    return "\r\n".join((*pieces, piece))


def escaped(text: str) -> str:
    """TEXT (section 3.3.11): backslash, semicolon, comma and line breaks; other control characters are left out."""
    text = _CONTROL.sub("", text.replace("\r\n", "\n").replace("\r", "\n"))
    return text.replace("\\", "\\\\").replace(";", "\\;").replace(",", "\\,").replace("\n", "\\n")


def _lines(calendar: Calendar) -> Iterator[str]:
    yield "BEGIN:VCALENDAR"
    yield "VERSION:2.0"
    yield f"PRODID:{PRODUCT}"
    yield "CALSCALE:GREGORIAN"
    yield "METHOD:PUBLISH"
    yield f"X-WR-CALNAME:{escaped(calendar.name)}"
    for event in calendar.events:
        yield from _event_lines(event, calendar.stamp)
    yield "END:VCALENDAR"


def _event_lines(event: Event, stamp: datetime) -> Iterator[str]:
    yield "BEGIN:VEVENT"
    yield f"UID:{escaped(event.uid)}"
    yield f"DTSTAMP:{_moment(stamp)}"
    # Section 3.8.7.4: a later edition needs a higher number. Days since 1970 rise with `today` and need no memory.
    yield f"SEQUENCE:{_day_number(stamp)}"
    yield f"DTSTART:{_moment(event.start)}"
    yield f"DTEND:{_moment(event.start.astimezone(UTC) + timedelta(minutes=max(event.minutes, 1)))}"
    yield f"SUMMARY:{escaped(event.summary)}"
    if event.description:
        yield f"DESCRIPTION:{escaped(event.description)}"
    if event.alarm_minutes is not None:
        yield "BEGIN:VALARM"
        yield "ACTION:DISPLAY"
        yield f"DESCRIPTION:{escaped(event.summary)}"
        yield f"TRIGGER:{_before(event.alarm_minutes)}"
        yield "END:VALARM"
    yield "END:VEVENT"


def _before(minutes: int) -> str:
    """A duration (section 3.3.6) before the start; after it when `minutes` is negative."""
    return f"{'-' if minutes >= 0 else ''}PT{abs(minutes)}M"


def _moment(when: datetime) -> str:
    if when.tzinfo is None:
        raise ValueError("an event's time needs its offset from UTC")
    return when.astimezone(UTC).strftime("%Y%m%dT%H%M%SZ")


def _day_number(stamp: datetime) -> int:
    return int(stamp.astimezone(UTC).timestamp() // 86_400)
