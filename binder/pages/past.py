"""What closed weeks say to the next one's sheets: how long sessions took, what batches weighed."""

from __future__ import annotations

from datetime import timedelta

from binder.pages.edition import Edition, portions
from binder.pages.format import clock, grams, minutes
from binder.pages.page import Block, Para, plain
from binder.reckon.facts import Batch, RunSheet


def expected(sheet: RunSheet, edition: Edition) -> tuple[Block, ...]:
    """Beside the plan's minutes how long such sessions really took; nothing where none was timed."""
    if sheet.expected_minutes is None:
        return ()
    w, count, more = edition.words, sheet.expected_from, sheet.expected_longer
    on = w.on_weekday.format(w.weekdays[sheet.start.weekday()]) if sheet.expected_alike else ""
    which = (w.last_session if count == 1 else w.last_sessions.format(count)) + on
    if sheet.expected_planned is not None:
        which += w.planned_at.format(minutes(sheet.expected_planned))
    took = w.took_longer if more > 0 else w.took_shorter if more < 0 else w.took_as_planned
    said = took.format(which=which, time=minutes(abs(more)))
    if count > 1 and more:
        said += w.on_average
    end = sheet.start + timedelta(minutes=sheet.expected_minutes)
    then = w.by_that_measure.format(time=minutes(sheet.expected_minutes), finish=clock(end))
    return (Para(plain(f"{said}. {then}"), "note"),)


def weighed(batches: list[Batch], edition: Edition) -> tuple[Block, ...]:
    """What these batches weighed when they were last weighed, and what that comes to for this week's portions."""
    w, found = edition.words, edition.facts.past.weighed
    lines = []
    for batch in batches:
        last = found.get(batch.recipe)
        if last:
            now = last.grams * batch.portions_made / last.portions
            same = now == last.grams
            text = w.weighed_last.format(
                dish=edition.short(batch.recipe), grams=grams(last.grams), week=_short(last.week, edition)
            )
            scaled = w.weighed_now.format(grams=grams(now), portions=portions(batch.portions_made, w))
            lines.append(text if same else f"{text} {scaled}")
    return (Para(plain(w.weighed_before.format("; ".join(lines))), "note"),) if lines else ()


def _short(week: str, edition: Edition) -> str:
    return edition.words.week_short.format(int(week.partition("-W")[2]))
