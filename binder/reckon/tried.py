"""Other sessions than the week's file has: with more or fewer cooks, or at another hour, to see what comes of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from binder.model.week import Session, Week


@dataclass(frozen=True, slots=True)
class Tried:
    """What is to be other than written: `cooks` in every session; `at` the start, in minutes after midnight, of the
    first session on a day, or (day None) of the week's first session. None and (): as written."""

    cooks: int | None = None
    at: tuple[tuple[date | None, int], ...] = ()

    def __bool__(self) -> bool:
        return self.cooks is not None or bool(self.at)


AS_WRITTEN = Tried()


def as_tried(week: Week, tried: Tried) -> Week | None:
    """The week with its sessions as tried, each with the one that is written; None when a day has no session."""
    starts = _starts(week.sessions, tried)
    if starts is None or not week.sessions:
        return None
    sessions = (_other(session, tried.cooks, starts.get(n)) for n, session in enumerate(week.sessions))
    return replace(week, sessions=tuple(sorted(sessions, key=lambda one: (one.on, one.at_minutes))))


def _starts(sessions: Sequence[Session], tried: Tried) -> Mapping[int, int] | None:
    found: dict[int, int] = {}
    for day, minutes in tried.at:
        which = next((n for n, session in enumerate(sessions) if day in (None, session.on)), None)
        if which is None:
            return None
        found[which] = minutes
    return found


def _other(session: Session, cooks: int | None, at: int | None) -> Session:
    """The session as tried; itself when that is how it is written."""
    other = replace(
        session,
        cooks=session.cooks if cooks is None else cooks,
        at_minutes=session.at_minutes if at is None else at,
    )
    return session if other == session else replace(other, written=session)
