from __future__ import annotations

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import icalendar
import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.pages.other_files import Calendar, Event
from binder.pages.time_zone import observances
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


def in_zone(*events: Event, zone: ZoneInfo = CHICAGO) -> Calendar:
    found = observances(zone, events[0].start, events[-1].start)
    return Calendar("Week 24", zone.key, STAMP, events, found)


@pytest.mark.parametrize(
    ("zone", "first"),
    [("America/Chicago", (2026, 3, 5)), ("America/Chicago", (2026, 10, 29)), ("Europe/Berlin", (2026, 3, 27)),
     ("Australia/Lord_Howe", (2026, 4, 3)), ("Asia/Kathmandu", (2026, 6, 5)), ("UTC", (2026, 6, 5)),
     ("Europe/Dublin", (2026, 10, 23)), ("Africa/Casablanca", (2026, 2, 13)), ("America/St_Johns", (2026, 3, 6))],
)  # fmt: skip
def test_the_zone_that_is_written_gives_the_moments_that_were_meant(zone: str, first: tuple[int, int, int]) -> None:
    """Read by the definition in the file alone: it goes by a name that no reader knows. Four days to either side."""
    starts = [datetime(*first, 18, 30, tzinfo=ZoneInfo(zone)) + timedelta(days=n) for n in range(8)]
    made = in_zone(*(event(uid=str(n), start=start) for n, start in enumerate(starts)), zone=ZoneInfo(zone))
    name = f"Nowhere {zone} {first}".replace("/", " ")  # Another each time: readers remember zones by their names.
    strange = calendar_bytes(made).decode().replace(f"TZID:{zone}", f"TZID:{name}").replace(f"={zone}", f'="{name}"')
    found = icalendar.Calendar.from_ical(strange)
    assert len(found.walk("VTIMEZONE")) == 1
    for read_event, start in zip(found.walk("VEVENT"), starts, strict=True):
        there = read_event["DTSTART"].dt
        assert there.replace(tzinfo=None) == start.replace(tzinfo=None)
        assert there.astimezone(UTC) == start.astimezone(UTC)
        assert read_event["DTEND"].dt.astimezone(UTC) - start.astimezone(UTC) == timedelta(minutes=140)


def test_the_zone_has_each_change_of_the_clock_and_nothing_else() -> None:
    """America/Chicago by the tz database: 2 a.m. on the second Sunday of March and the first of November."""
    lines = calendar_bytes(in_zone(event())).decode().split("\r\n")
    changes = [lines[n : n + 5] for n, line in enumerate(lines) if line in ("BEGIN:STANDARD", "BEGIN:DAYLIGHT")]
    assert changes == [
        ["BEGIN:STANDARD", "DTSTART:20251102T020000", "TZOFFSETFROM:-0500", "TZOFFSETTO:-0600", "TZNAME:CST"],
        ["BEGIN:DAYLIGHT", "DTSTART:20260308T020000", "TZOFFSETFROM:-0600", "TZOFFSETTO:-0500", "TZNAME:CDT"],
        ["BEGIN:STANDARD", "DTSTART:20261101T020000", "TZOFFSETFROM:-0500", "TZOFFSETTO:-0600", "TZNAME:CST"],
        ["BEGIN:DAYLIGHT", "DTSTART:20270314T020000", "TZOFFSETFROM:-0600", "TZOFFSETTO:-0500", "TZNAME:CDT"],
    ]


def test_an_end_in_the_hour_that_comes_twice_is_written_as_a_length() -> None:
    """On 1 November 2026 the clock goes from 2 a.m. CDT back to 1 a.m. CST."""
    late = event(start=datetime(2026, 11, 1, 0, 30, tzinfo=CHICAGO), minutes=120)
    content = calendar_bytes(in_zone(late)).decode()
    assert "DTSTART;TZID=America/Chicago:20261101T003000\r\nDURATION:PT120M" in content and "DTEND" not in content
    early = calendar_bytes(in_zone(event(start=datetime(2026, 11, 1, 0, 30, tzinfo=CHICAGO), minutes=60))).decode()
    assert "DTEND;TZID=America/Chicago:20261101T013000" in early


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
