"""What pages hand to the press besides pages: labels, a calendar, a feed, data. Words and numbers are final here."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta


@dataclass(frozen=True, slots=True)
class Label:
    """One label's words, in the order people look for them; position is 1-based."""

    sheet: int
    row: int
    column: int
    title: str
    date: str  # "Eat by Thu 11 Jun" or the pull words
    whose: str
    contains: str  # "Contains milk, wheat"
    heat: str
    small: str  # portion grams, id
    kind: str = "portion"


@dataclass(frozen=True, slots=True)
class RegistrationSheet:
    """The sheet by which a printer is set right; `how` says what to do with it."""

    title: str
    language: str
    how: str


@dataclass(frozen=True, slots=True)
class LabelPages:
    """Sheets of labels."""

    title: str
    language: str
    sheet: str  # name in tables.sheets; the geometry is handed over by build
    sheets: int
    labels: tuple[Label, ...]
    draft: str = ""


@dataclass(frozen=True, slots=True)
class Event:
    """An entry of the calendar."""

    uid: str
    start: datetime
    minutes: int
    summary: str
    description: str
    alarm_minutes: int | None = None


@dataclass(frozen=True, slots=True)
class Observance:
    """A stretch of a time zone's year: from `begins`, on the clock as it was until then, with these offsets."""

    name: str  # "EDT"
    daylight: bool
    begins: datetime  # without an offset
    offset_from: timedelta
    offset_to: timedelta


@dataclass(frozen=True, slots=True)
class Calendar:
    """A week's entries (RFC 5545)."""

    name: str
    time_zone: str
    stamp: datetime  # of the edition: made from `today`, never from a clock
    events: tuple[Event, ...]
    observances: tuple[Observance, ...] = ()  # of the zone, around the events; () for times in UTC


@dataclass(frozen=True, slots=True)
class FeedEntry:
    """A shared page in the feed."""

    id: str
    title: str
    href: str
    updated: datetime
    summary: str


@dataclass(frozen=True, slots=True)
class Feed:
    """What is new among the shared pages (RFC 4287)."""

    id: str
    title: str
    author: str
    updated: datetime
    entries: tuple[FeedEntry, ...]
    href: str = ""  # where the feed itself lies


@dataclass(frozen=True, slots=True)
class DataFile:
    """JSON for other programs: a tree of dict, list, str, float, int, bool and None."""

    path: str
    data: object
