"""The binder: fourteen sections in a fixed order and with fixed numbers, so that one can be exchanged alone."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import replace

from binder.model.library import Library
from binder.pages import (
    allergens,
    carrying,
    keeping,
    kit,
    mise_en_place,
    notes,
    numbers,
    packing,
    recipe_card,
    reheating,
    run_sheet,
    shopping,
    week,
)  # fmt: skip
from binder.pages.edition import Edition, as_tried, edition_of, run, session_title
from binder.pages.format import day, day_with_year, listed, week_title
from binder.pages.page import Binder, Block, Box, Bullets, Page, Para, Section, plain
from binder.reckon.facts import WeekFacts
from binder.reckon.recipe_facts import RecipeFacts

# Key of its words, and what makes its pages; the number is the place in this list.
SECTIONS: tuple[tuple[str, Callable[[Edition], tuple[Page, ...]]], ...] = (
    ("week", week.pages),
    ("shopping", shopping.pages),
    ("mise", mise_en_place.pages),
    ("run-sheet", run_sheet.pages),
    ("cards", recipe_card.pages),
    ("packing", packing.pages),
    ("reheating", reheating.pages),
    ("carry", carrying.pages),
    ("pull", keeping.pull_pages),
    ("kits", kit.pages),
    ("allergens", allergens.pages),
    ("numbers", numbers.pages),
    ("keeping", keeping.note_pages),
    ("notes", notes.pages),
)


def binder_pages(
    week_facts: WeekFacts,
    library: Library,
    recipes: Mapping[str, RecipeFacts],
    *,
    private: bool = False,
    draft: bool = False,
) -> Binder:
    """The whole binder of one week. A section with nothing in it is left out; its number stays its own.

    `private` lets the household's own notes through; `draft` marks every page.
    """
    edition = edition_of(week_facts, library, recipes, private)
    w = edition.words
    made = [(n, key, make(edition)) for n, (key, make) in enumerate(SECTIONS, 1)]
    sections = tuple(
        Section(n, key, w.section_titles[key], w.section_tabs[key], pages) for n, key, pages in made if pages
    )
    empty = [f"{w.section_titles[key]} ({n})" for n, key, pages in made if not pages]
    title = week_title(week_facts.week, w)
    return Binder(
        title=title,
        household=library.household.name,
        language=library.household.language,
        paper=library.household.paper,
        sections=sections,
        contents_title=w.contents,
        running=f"{library.household.name}{w.separator}{title}",
        draft=w.draft if draft else "",
        front=_front(edition, empty),
        last_section=max((section.number for section in sections), default=0),
        own_sheets=library.household.binding.own_sheets,
        hole_marks=library.household.binding.hole_marks,
    )


def only_sections(whole: Binder, keys: Collection[str]) -> Binder:
    """Some sections of a binder, to be put in the place of those that are there: numbers and tabs stay their own."""
    sections = tuple(section for section in whole.sections if section.key in keys)
    return replace(whole, sections=sections, whole=False, own_sheets=True)


def _front(edition: Edition, empty: list[str]) -> tuple[Block, ...]:
    """Which days, which rules, which cautions; what is wrong or unsure; what is not there this week."""
    w, facts = edition.words, edition.facts
    days = edition.days()
    blocks: list[Block] = [
        Para(plain(w.from_to_days.format(day(days[0], w), day(days[-1], w), year=days[-1].year)), "lead"),
    ]
    closed = edition.week.came_to if edition.week and edition.week.is_archive else None
    if closed and closed.on:
        blocks.append(Para(plain(w.closed_week_printed.format(day_with_year(closed.on, w))), "note"))
    else:
        blocks.append(Para(plain(w.printed_on.format(day_with_year(facts.today, w))), "note"))
    blocks += [Para(plain(w.nothing_this_week.format(listed(empty, w))), "note")] if empty else []
    for session in edition.sessions:
        if other := as_tried(session, w):
            blocks.append(Para(plain(f"{session_title(session, w)}. {other}"), "caution"))
    blocks += _problems(edition)
    rules = (w.rule_set.format(w.cautions[edition.household.caution]), *w.day_convention)
    blocks.append(Box("note", w.how_days_count, tuple(Para(plain(line)) for line in rules)))
    lines = (w.read_the_pack, w.keeping_short, w.not_medical, w.not_for_this_binder, w.local_rules)
    return (*blocks, Box("caution", w.caution, (Bullets(tuple(plain(line) for line in lines)),)))


def _problems(edition: Edition) -> list[Block]:
    w = edition.words
    found = edition.facts.problems
    if not found:
        return []
    lines = tuple(
        (*plain(f"{w.severities[p.severity]}: {p.message}"), *run(f" ({p.span.path}:{p.span.line})", "small"))
        for p in found
    )
    return [Box("problem", w.look_at, (Bullets(lines),))]
