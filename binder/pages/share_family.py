"""A week's page for the family: what those who agreed to it eat, when, and where it is.

Let through of a serving of an eater who agreed (`shares week: yes`): the eater's name, the day, the meal, the dish's
title, where it is kept, the day it is moved there, its container, and whether it is taken along; of a kit the same of
its set and of what is stored apart, without their names. Nothing of anybody else, no place's name, and no dish that
only others eat. The page is made from a copy that holds nothing else.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from binder.model.household import HOME
from binder.model.library import Library
from binder.pages.edition import in_order, meal_rank, run, unique
from binder.pages.format import day, day_long, first_upper, listed, week_title
from binder.pages.house_style import house_style
from binder.pages.page import Block, Column, Page, Para, Row, Table, plain
from binder.pages.parts_stored import lies_apart
from binder.pages.words.en import Words
from binder.reckon.facts import Serving, WeekFacts


@dataclass(frozen=True, slots=True)
class HelpingPart:
    """What is let through of a kit's set (what: set) and of what is stored apart from it (what: apart)."""

    what: str
    kept: str
    moved_on: date | None
    container: str | None


@dataclass(frozen=True, slots=True)
class Helping:
    """What is let through of a serving."""

    on: date | None
    meal: str
    eater: str
    dish: str
    kept: str
    moved_on: date | None
    container: str | None
    along: bool
    parts: tuple[HelpingPart, ...] = ()  # where they lie in different places


def agreed(library: Library) -> tuple[str, ...]:
    """Those whose agreement is written in household.yaml, in its order."""
    return tuple(eater.name for eater in library.household.eaters if eater.shares_week)


def family_path(week: str) -> str:
    """Where the page for the family lies, below the share folder."""
    return f"{week}-family.html"


def family_page(week_facts: WeekFacts, library: Library, whom: Sequence[str], then: Library | None = None) -> Page:
    """The week of those of `whom` who agreed; of the others nothing, whoever asks.

    `library` is the household of today, whose agreement counts; `then` the one of a closed week.
    """
    found = helpings(week_facts, library, whom, then or library)
    return _page(week_facts.week, found, house_style(library.household).words)


def helpings(week_facts: WeekFacts, library: Library, whom: Sequence[str], then: Library) -> tuple[Helping, ...]:
    """In order of day, meal and eater. A recipe that is not there any more has no title to share."""
    eaters = [name for name in agreed(library) if name in whom]
    titles = {key: recipe.title for key, recipe in then.recipes.items()}
    titles |= {key: facts.title for key, facts in week_facts.recipes.items()}
    mine = (s for s in week_facts.servings if s.eater in eaters and s.recipe in titles)
    return tuple(_helping(serving, titles[serving.recipe]) for serving in in_order(mine, eaters))


def _helping(serving: Serving, dish: str) -> Helping:
    parts = tuple(HelpingPart(one.what, one.kept, one.pull_on, one.container) for one in serving.lies)
    return Helping(
        on=serving.date, meal=serving.meal, eater=serving.eater, dish=dish, kept=serving.kept,
        moved_on=serving.pull_on, container=serving.container, along=serving.place != HOME,
        parts=tuple(sorted(unique(parts), key=lambda one: one.what == "set")) if lies_apart(serving.lies) else (),
    )  # fmt: skip


def _page(week: str, found: Sequence[Helping], w: Words) -> Page:
    columns = (Column(w.meal, width=16), Column(w.for_whom, width=22), Column(w.dish, width=32), Column(w.where_it_is))
    rows: list[Row] = []
    for on in unique(one.on for one in found):
        rows.append(Row((run(day_long(on, w) if on else w.no_fixed_day, "strong"),), "group"))
        rows += _rows([one for one in found if one.on == on], w)
    title = week_title(week, w)
    table = Table(columns, tuple(rows), title, "family", row_heads=True)
    blocks: tuple[Block, ...] = (table,) if rows else (Para(plain(w.nothing_eaten)),)
    return Page(family_path(week), title, "share", blocks, subtitle=w.family)


def _rows(of_a_day: Sequence[Helping], w: Words) -> Iterable[Row]:
    """A dish of a meal once for all who find it in the same place."""
    kinds = unique((one.meal, one.dish, where(one, w)) for one in of_a_day)
    for meal, dish, place in sorted(kinds, key=lambda kind: meal_rank(kind[0])):
        eaters = unique(x.eater for x in of_a_day if (x.meal, x.dish, where(x, w)) == (meal, dish, place))
        yield Row((plain(w.meals.get(meal, meal)), plain(listed(eaters, w)), plain(dish), plain(place)))


def where(one: Helping, w: Words) -> str:
    """`Freezer; in the refrigerator from Wed 10 Jun, deep tub; taken along`; of a kit each part by itself."""
    parts = [f"{w.packed_as.get(part.what, part.what)}: {_boxed(part, w)}" for part in one.parts]
    boxed = ". ".join(map(first_upper, parts)) or _boxed(one, w)
    return first_upper(f"{boxed}; {w.taken_along}" if one.along else boxed)


def _boxed(one: Helping | HelpingPart, w: Words) -> str:
    store = w.store(one.kept)
    if one.moved_on:
        store = w.moved_over.format(store=store, to=w.store("fridge"), day=day(one.moved_on, w))
    return f"{store}, {one.container}" if one.container else store
