"""The ways out on the morning after, for what was not pulled: from frozen, in cold water, or another dish."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from binder.model.household import HOME
from binder.pages.edition import Edition, run, unique, whom_and_when
from binder.pages.format import day, first_upper, half_up, minutes
from binder.pages.page import Block, Box, Bullets, Text, plain
from binder.reckon.facts import Pull, WayOut


def box(groups: Sequence[Sequence[Pull]], edition: Edition) -> Block:
    """A line for each pull with its ways out, best first; below them what holds for all."""
    w = edition.words
    lines = [_line(pulls, edition) for pulls in groups if any(pull.way_out for pull in pulls)]
    return Box("note", w.forgotten_title, (Bullets((*lines, *map(plain, w.forgotten))),))


def _line(pulls: Sequence[Pull], edition: Edition) -> Text:
    """`Smoky bean chili, Desmond, Thu 11 Jun: heat from frozen, microwave 700 W, 5 min 20 s, to 165 °F; or ...`"""
    w, first = edition.words, pulls[0]
    whom = whom_and_when(((p.eater, p.date) for p in pulls), w)
    ways = unique(said for pull in pulls for way in pull.way_out if (said := way_words(way, pull, pulls, edition)))
    head = w.forgotten_line.format(dish=edition.short(first.recipe), whom=whom)
    return (*run(head, "strong"), *run(first_upper(w.forgotten_or.join(ways)) + "."))


def way_words(way: WayOut, pull: Pull, pulls: Sequence[Pull], edition: Edition) -> str:
    """One way out in words; what differs between those who share the line is said."""
    w = edition.words
    if way.how == "from frozen":
        at = f" {w.at_place.format(pull.place)}" if pull.place != HOME else ""
        if way.core_f is None:
            return w.way_kit_from_frozen
        words = w.way_from_frozen if way.text and way.seconds else w.way_untimed
        return words.format(how=way.text, at=at, f=way.core_f, c=half_up(Fraction(way.core_f - 32) * 5 / 9))
    if way.how == "cold water":
        if way.minutes is None:
            return w.way_cold_water_unknown
        low, high = way.minutes
        time = minutes(high) if low == high else w.range_of.format(minutes(low), minutes(high))
        return w.way_cold_water.format(time=w.about.format(time))
    whose = f" ({pull.eater})" if len({p.eater for p in pulls}) > 1 else ""
    whose += w.way_another_day.format(day(way.planned_for, w)) if way.planned_for else ""
    return w.way_another.format(dish=edition.short(way.recipe or ""), whose=whose)
