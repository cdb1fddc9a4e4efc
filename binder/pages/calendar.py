"""The calendar of a week: prep sessions, evenings with something to pull, what is carried, kits to cook, dinners.

Nothing private and nothing of what an eater avoids stands in it: a calendar is shared sooner than a binder.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import UTC, date, datetime, time, timedelta
from hashlib import sha256
from zoneinfo import ZoneInfo

from binder.model.household import HOME
from binder.model.library import Library
from binder.pages.carrying import uncooled_short
from binder.pages.edition import Edition, edition_of, portions, unique
from binder.pages.format import clock, first_upper, listed, number, week_title
from binder.pages.kit import Sitting, begin_at, is_kit, sittings
from binder.pages.other_files import Calendar, Event
from binder.pages.parts_stored import pulled_part
from binder.pages.time_zone import observances
from binder.reckon.facts import Carry, Pull, RunSheet, Serving, WeekFacts

PULL_AT = 20 * 60  # in the evening, when the kitchen is tidied: common practice
PULL_MINUTES = 5
CARRY_MINUTES = 10
# How long a dinner takes, and how long before it somebody has to be told that it wants heating: common practice.
DINNER_MINUTES = 30
DINNER_ALARM = 15


def calendar_events(week_facts: WeekFacts, library: Library) -> Calendar:
    """Events in order of time; an event's UID stays the same while its kind, day and subject do."""
    edition = edition_of(week_facts, library, week_facts.recipes)
    events = [*_sessions(edition), *_pulls(edition), *_carries(edition), *_kits(edition), *_dinners(edition)]
    events.sort(key=lambda e: (e.start, e.uid))
    zone = ZoneInfo(library.household.time_zone)
    return Calendar(
        name=f"{library.household.name}{edition.words.separator}{week_title(week_facts.week, edition.words)}",
        time_zone=library.household.time_zone,
        stamp=datetime.combine(week_facts.today, time(), UTC),
        events=tuple(events),
        observances=observances(zone, events[0].start, events[-1].start) if events and zone.key != "UTC" else (),
    )


def _at(on: date, minutes: int, edition: Edition) -> datetime:
    """Local time on a day, with its offset."""
    zone = ZoneInfo(edition.household.time_zone)
    return datetime.combine(on, time(), zone) + timedelta(minutes=minutes)


def uid(edition: Edition, *what: str) -> str:
    """Stable and without words that say anything: a hash of household, week, kind and subject."""
    text = "\n".join((edition.household.name, edition.facts.week, *what))
    return f"{edition.facts.week}-{sha256(text.encode()).hexdigest()[:20]}"


def _sessions(edition: Edition) -> Iterable[Event]:
    for sheet in edition.facts.run_sheets:
        yield _session(sheet, edition)


def _session(sheet: RunSheet, edition: Edition) -> Event:
    w = edition.words
    dishes = unique(edition.title(b.recipe) for b in edition.facts.batches if b.session == sheet.of)
    summary = w.event_prep.format(number(len(dishes)))
    description = w.event_prep_words.format(
        start=clock(sheet.start), finish=clock(sheet.finish), dishes=listed(dishes, w)
    )
    return Event(uid(edition, "prep", sheet.session), sheet.start, sheet.minutes, summary, description, 60)


def _pulls(edition: Edition) -> Iterable[Event]:
    w = edition.words
    for on in sorted(unique(p.pull_on for p in edition.facts.pull_list)):
        pulls = [p for p in edition.facts.pull_list if p.pull_on == on]
        lines = [
            _pull_line([p for p in pulls if (p.recipe, p.from_, p.to) == group], edition)
            for group in unique((p.recipe, p.from_, p.to) for p in pulls)
        ]
        dishes = listed(unique(edition.title(p.recipe) for p in pulls), w)
        yield Event(
            uid(edition, "pull", on.isoformat()), _at(on, PULL_AT, edition), PULL_MINUTES,
            w.event_pull.format(dishes), "\n".join(lines), 0,
        )  # fmt: skip


def _pull_line(pulls: Sequence[Pull], edition: Edition) -> str:
    """One dish that is moved from one place to another."""
    w, first = edition.words, pulls[0]
    count = portions(sum(p.portions for p in pulls), w)
    dish = edition.title(first.recipe)
    line = w.event_pull_line.format(dish=dish, portions=count, source=w.store(first.from_), to=w.store(first.to))
    part = pulled_part(pulls, edition)
    return f"{line}: {part}" if part else line


def _carries(edition: Edition) -> Iterable[Event]:
    for carry in edition.facts.carry_list:
        yield _carry(carry, edition)


def _carry(carry: Carry, edition: Edition) -> Event:
    w = edition.words
    cold = first_upper(uncooled_short(carry, edition)) if carry.uncooled else w.cold_source_needed
    lines = [*unique(item.what for item in carry.items), *([cold] if carry.cold else [])]
    lines += [w.into_fridge_there] if carry.into_fridge else []
    return Event(
        uid(edition, "carry", carry.date.isoformat(), carry.eater, carry.place), _at(carry.date, carry.leaves, edition),
        CARRY_MINUTES, w.event_carry.format(eater=carry.eater, place=carry.place), "\n".join(lines), 0,
    )  # fmt: skip


def _kits(edition: Edition) -> Iterable[Event]:
    for sitting in sittings(edition):
        first = sitting.servings[0]
        at = edition.household.meal_times.get(first.meal)
        if first.date is not None and at is not None:
            yield _kit(sitting, first.date, at, edition)


def _kit(sitting: Sitting, on: date, meal_at: int, edition: Edition) -> Event:
    """From when the cooking begins to the meal; at the meal's hour when its minutes are not known."""
    w = edition.words
    begin = begin_at(sitting, edition)
    start = meal_at if begin is None else begin
    title = sitting.facts.title
    words = w.event_kit_words.format(meal=clock(meal_at), portions=portions(sitting.portions, w))
    return Event(
        uid(edition, "kit", on.isoformat(), sitting.facts.key, sitting.servings[0].meal, sitting.servings[0].place),
        _at(on, start, edition), max(5, meal_at - start), w.event_kit.format(title), words, 10,
    )  # fmt: skip


def _dinners(edition: Edition) -> Iterable[Event]:
    """What is on the table at home, beside the kits; what is carried was said in the morning."""
    at = edition.household.meal_times.get("dinner")
    home = [s for s in edition.servings if s.meal == "dinner" and s.place == HOME and not is_kit(s, edition)]
    for on in unique(s.date for s in home):
        if on is not None and at is not None:
            yield _dinner([s for s in home if s.date == on], on, at, edition)


def _dinner(servings: Sequence[Serving], on: date, at: int, edition: Edition) -> Event:
    """Each dish with where it is and how it is heated."""
    w = edition.words
    lines = unique(
        w.event_dinner_line.format(
            dish=edition.title(s.recipe), store=w.store(s.kept), how=s.reheat.text if s.reheat else w.eaten_as_it_is
        )
        for s in servings
    )
    dishes = listed(unique(edition.short(s.recipe) for s in servings), w)
    return Event(
        uid(edition, "dinner", on.isoformat()), _at(on, at, edition), DINNER_MINUTES,
        w.event_dinner.format(dishes), "\n".join(lines), DINNER_ALARM,
    )  # fmt: skip
