"""The week as iCalendar (RFC 5545): sessions, pulls, carries and dinners, with alarms.

Times are local with the zone's own definition beside them (section 3.6.5), each change of the clock written out, so
that an event stays at its hour for a reader that knows the zone otherwise or not at all. Without observances they are
written in UTC.

SEQUENCE (section 3.8.7.4) is the number of the day that the edition counts from. A number that rose with each change
and not with the day would need to know what was written before: no function of the content alone rises when a change
is taken back. So the same content and day give the same bytes, a build on a later day is a later edition, and one on
the same day has the same number and stamp, which readers that go by the UID put in the place of the old event.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from datetime import UTC, datetime, timedelta

from binder.pages.other_files import Calendar, Event, Observance

PRODUCT = "-//household-prep-binder//EN"
_CONTROL = re.compile(r"[\x00-\x08\x0b-\x1f\x7f]")
_LOCAL = "%Y%m%dT%H%M%S"
_MINUTE = timedelta(minutes=1)
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
    yield f"NAME:{escaped(calendar.name)}"  # RFC 7986, section 5.1
    yield f"X-WR-CALNAME:{escaped(calendar.name)}"  # The name for readers from before 2016.
    if calendar.observances:
        yield from _zone_lines(calendar.time_zone, calendar.observances)
    for event in calendar.events:
        yield from _event_lines(event, calendar)
    yield "END:VCALENDAR"


def _zone_lines(name: str, observances: Sequence[Observance]) -> Iterator[str]:
    """The zone, one component for each time that its clock is changed."""
    yield "BEGIN:VTIMEZONE"
    yield f"TZID:{escaped(name)}"
    for one in observances:
        kind = "DAYLIGHT" if one.daylight else "STANDARD"
        yield f"BEGIN:{kind}"
        yield f"DTSTART:{one.begins:{_LOCAL}}"
        yield f"TZOFFSETFROM:{_offset(one.offset_from)}"
        yield f"TZOFFSETTO:{_offset(one.offset_to)}"
        if one.name:
            yield f"TZNAME:{escaped(one.name)}"
        yield f"END:{kind}"
    yield "END:VTIMEZONE"


def _event_lines(event: Event, calendar: Calendar) -> Iterator[str]:
    yield "BEGIN:VEVENT"
    yield f"UID:{escaped(event.uid)}"
    yield f"DTSTAMP:{_moment(calendar.stamp)}"
    yield f"SEQUENCE:{_day_number(calendar.stamp)}"
    yield from _times(event, calendar)
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


def _times(event: Event, calendar: Calendar) -> Iterator[str]:
    """Begin and end; a length where the end is an hour that the clock shows a second time."""
    length = timedelta(minutes=max(event.minutes, 1))
    _moment(event.start)  # A start without an offset is a fault, whichever way it is written.
    if not calendar.observances:
        yield f"DTSTART:{_moment(event.start)}"
        yield f"DTEND:{_moment(event.start.astimezone(UTC) + length)}"
        return
    zone = f";TZID={calendar.time_zone}"
    end = (event.start.astimezone(UTC) + length).astimezone(event.start.tzinfo)
    yield f"DTSTART{zone}:{event.start:{_LOCAL}}"
    # Section 3.3.5: a local time that comes twice is its first occurrence.
    yield f"DURATION:PT{length // _MINUTE}M" if end.fold else f"DTEND{zone}:{end:{_LOCAL}}"


def _offset(offset: timedelta) -> str:
    """UTC-OFFSET (section 3.3.14): `-0500`."""
    minutes = abs(offset) // _MINUTE
    return f"{'-' if offset < timedelta() else '+'}{minutes // 60:02d}{minutes % 60:02d}"


def _before(minutes: int) -> str:
    """A duration (section 3.3.6) before the start; after it when `minutes` is negative."""
    return f"{'-' if minutes >= 0 else ''}PT{abs(minutes)}M"


def _moment(when: datetime) -> str:
    if when.tzinfo is None:
        raise ValueError("an event's time needs its offset from UTC")
    return when.astimezone(UTC).strftime("%Y%m%dT%H%M%SZ")


def _day_number(stamp: datetime) -> int:
    return int(stamp.astimezone(UTC).timestamp() // 86_400)
