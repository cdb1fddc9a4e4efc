from __future__ import annotations

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import icalendar
import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.pages.page import Calendar, Event
from binder.press.calendar import calendar_bytes, escaped, folded

CHICAGO = ZoneInfo("America/Chicago")
STAMP = datetime(2026, 6, 7, tzinfo=UTC)


def calendar(*events: Event, stamp: datetime = STAMP) -> Calendar:
    return Calendar("Week 24", "America/Chicago", stamp, events)


def event(**more: object) -> Event:
    fields = {"uid": "a@x", "start": datetime(2026, 6, 7, 13, tzinfo=CHICAGO), "minutes": 140, "summary": "Prep",
              "description": "Braise; hash, parcels", "alarm_minutes": 30}  # fmt: skip
    return Event(**{**fields, **more})  # type: ignore[arg-type]


def read(made: Calendar) -> list[icalendar.Event]:
    return list(icalendar.Calendar.from_ical(calendar_bytes(made)).walk("VEVENT"))


def test_an_independent_reader_finds_what_was_written() -> None:
    (found,) = read(calendar(event()))
    assert found["UID"] == "a@x" and found["SUMMARY"] == "Prep"
    assert found["DESCRIPTION"] == "Braise; hash, parcels"
    assert found.start == datetime(2026, 6, 7, 18, tzinfo=UTC)
    assert found.end - found.start == timedelta(minutes=140)
    (alarm,) = found.walk("VALARM")
    assert alarm["TRIGGER"].dt == timedelta(minutes=-30) and alarm["ACTION"] == "DISPLAY"


def test_times_are_right_on_both_sides_of_a_clock_change() -> None:
    before, after = (datetime(2026, 3, day, 18, 30, tzinfo=CHICAGO) for day in (7, 8))
    first, second = read(calendar(event(start=before), event(start=after, uid="b@x")))
    assert first.start == datetime(2026, 3, 8, 0, 30, tzinfo=UTC)
    assert second.start == datetime(2026, 3, 8, 23, 30, tzinfo=UTC)


def test_an_event_over_a_clock_change_lasts_as_long_as_it_lasts() -> None:
    (found,) = read(calendar(event(start=datetime(2026, 3, 8, 1, 30, tzinfo=CHICAGO), minutes=60)))
    assert found.end - found.start == timedelta(minutes=60)


def test_a_later_edition_has_a_higher_sequence_and_the_same_uid() -> None:
    (old,), (new,) = read(calendar(event())), read(calendar(event(), stamp=STAMP + timedelta(days=1)))
    assert old["UID"] == new["UID"] and new["SEQUENCE"] == old["SEQUENCE"] + 1


def test_lines_end_in_crlf_and_have_at_most_75_octets() -> None:
    content = calendar_bytes(calendar(event(summary="Rote Rüben, " * 30, description="日本 " * 60)))
    assert content.count(b"\n") == content.count(b"\r\n")
    lines = content.split(b"\r\n")
    assert max(len(line) for line in lines) == 75 and all(line.decode() is not None for line in lines)
    (found,) = read(calendar(event(summary="Rote Rüben, " * 30, description="日本 " * 60)))
    assert found["SUMMARY"] == "Rote Rüben, " * 30 and found["DESCRIPTION"] == "日本 " * 60


def test_text_cannot_begin_a_property() -> None:
    (found,) = read(calendar(event(summary="a\nDTSTART:20200101T000000Z\r\nEND:VEVENT\rx", uid="u\r\nx")))
    assert found.start.year == 2026
    assert str(found["SUMMARY"]) == "a\nDTSTART:20200101T000000Z\nEND:VEVENT\nx"


def test_a_time_without_offset_is_a_fault() -> None:
    with pytest.raises(ValueError, match="offset"):
        calendar_bytes(calendar(event(start=datetime(2026, 6, 7, 13))))


@given(st.text())
def test_any_text_comes_back(text: str) -> None:
    line = f"SUMMARY:{escaped(text)}"
    pieces = folded(line).split("\r\n")
    assert all(len(piece.encode("utf-8", "surrogatepass")) <= 75 for piece in pieces)
    assert pieces[0] + "".join(piece[1:] for piece in pieces[1:]) == line
    assert not any(c in escaped(text) for c in "\r\n\x00\x07")
