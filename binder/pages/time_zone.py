"""A time zone around some days: its offsets, and when the clock is changed."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

from binder.pages.other_files import Observance

_DAY, _MINUTE = timedelta(days=1), timedelta(minutes=1)
# A year to either side has both halves of the zone's year, whatever the days.
_AROUND = timedelta(days=366)
# For a zone whose clock is not changed: RFC 5545, section 3.6.5, wants a beginning all the same.
_ALWAYS = datetime(1970, 1, 1)


def observances(zone: ZoneInfo, first: datetime, last: datetime) -> tuple[Observance, ...]:
    """What holds from a year before `first` to a year after `last`, in order of time."""
    begin, end = first.astimezone(UTC) - _AROUND, last.astimezone(UTC) + _AROUND
    found = tuple(_begun(zone, at) for at in _changes(zone, begin, end))
    if found:
        return found
    here = first.astimezone(zone)
    offset = here.utcoffset() or timedelta()
    return (Observance(here.tzname() or "", False, _ALWAYS, offset, offset),)


def _changes(zone: ZoneInfo, begin: datetime, end: datetime) -> Iterator[datetime]:
    """The moments, in UTC, from which another offset or name holds."""
    at = begin
    while at < end:
        after = at + _DAY
        if _state(zone, at) != _state(zone, after):
            yield _moment(zone, at, after)
        at = after


def _moment(zone: ZoneInfo, before: datetime, after: datetime) -> datetime:
    """The first minute of the new state between two moments."""
    while after - before > _MINUTE:
        middle = before + (after - before) // _MINUTE // 2 * _MINUTE
        before, after = (before, middle) if _state(zone, middle) == _state(zone, after) else (middle, after)
    return after


def _state(zone: ZoneInfo, at: datetime) -> tuple[timedelta | None, str | None]:
    here = at.astimezone(zone)
    return here.utcoffset(), here.tzname()


def _begun(zone: ZoneInfo, at: datetime) -> Observance:
    here, before = at.astimezone(zone), (at - _MINUTE).astimezone(zone)
    old, new = before.utcoffset() or timedelta(), here.utcoffset() or timedelta()
    daylight = (here.dst() or timedelta()) > timedelta()
    return Observance(here.tzname() or "", daylight, (at + old).replace(tzinfo=None), old, new)
