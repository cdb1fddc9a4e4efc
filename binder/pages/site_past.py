"""What closed weeks say to the next plan: what was left or thrown away of its dishes the last time."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from binder.pages.edition import portions, unique
from binder.pages.format import fraction
from binder.pages.page import Block, Column, Heading, Para, Row, Table, plain
from binder.pages.site_shelf import Shelf
from binder.reckon.facts import WeekFacts
from binder.reckon.past_facts import LastTime


def from_past_weeks(key: str, shelf: Shelf) -> list[Block]:
    """For a week that is planned: its dishes of which something was left or thrown away the last time."""
    w, facts = shelf.words, shelf.weeks.get(key)
    if facts is None:
        return []
    rows = []
    for recipe in unique(batch.recipe for batch in facts.batches):
        last = facts.past.last.get(recipe)
        if last and (last.left or last.thrown or last.left_by):
            now = sum((b.portions_made for b in facts.batches if b.recipe == recipe), Fraction(0))
            cells = (
                shelf.dish(recipe),
                shelf.week(last.week),
                plain(_became(last, shelf)),
                plain(_plan(last, now, recipe, facts, shelf)),
            )
            rows.append(Row(cells))
    if not rows:
        return []
    columns = (Column(w.dish), Column(w.last_time), Column(w.what_became), Column(w.planned_now))
    table = Table(columns, tuple(rows), w.from_past, "past", row_heads=True)
    return [Heading(2, w.from_past, "past"), Para(plain(w.from_past_note), "note"), table]


def _became(last: LastTime, shelf: Shelf) -> str:
    """`2 of 8 portions thrown away (tired on the fourth day)`."""
    w = shelf.words
    said = []
    if last.left:
        said.append(w.was_left.format(fraction(last.left), portions(last.made, w)))
    if last.thrown:
        why = f" ({last.why})" if last.why else ""
        said.append(w.was_thrown.format(fraction(last.thrown), portions(last.made, w)) + why)
    said += [w.eater_left.format(who=who, left=fraction(left), of=fraction(of)) for who, left, of in last.left_by if of]
    return "; ".join(said)


def _plan(last: LastTime, now: Fraction, recipe: str, facts: WeekFacts, shelf: Shelf) -> str:
    """What is planned now, and the same with the share that was eaten the last time, in whole portions; by eater
    where it is known who left something."""
    if last.left_by:
        return _by_eater(last, now, recipe, facts, shelf)
    w, kept = shelf.words, last.made - last.frozen
    enough = ceil(now * last.eaten / kept) if kept else now
    said = portions(now, w)
    return w.plan_fewer.format(said, portions(enough, w)) if 0 < enough < now else said


def _by_eater(last: LastTime, now: Fraction, recipe: str, facts: WeekFacts, shelf: Shelf) -> str:
    """`7 portions; Ilka: 5, plan 3?`"""
    w, said = shelf.words, [portions(now, shelf.words)]
    for who, left, of in last.left_by:
        theirs = sum((s.portions for s in facts.servings if s.recipe == recipe and s.eater == who), Fraction(0))
        fewer = ceil(theirs * max(Fraction(0), of - left) / of) if of else 0
        if 0 < fewer < theirs:
            said.append(w.eater_fewer.format(who=who, now=fraction(theirs), fewer=fewer))
    return "; ".join(said)
