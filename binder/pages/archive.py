"""Weeks by year with what was eaten and the first words of the notes; and all the notes, one after the other."""

from __future__ import annotations

import re

from binder.pages.edition import run, unique
from binder.pages.format import day, week_title
from binder.pages.page import Block, Bullets, Column, Heading, Page, Para, Prose, Row, Table, Text, plain
from binder.pages.site_shelf import NOTES_PATH, WEEKS_PATH, Shelf, address, week_path, year_path

FIRST_WORDS = 24
MOST_WEEKS = 60  # on one page: a week weighs some 1.5 KB
_LINK = re.compile(r"!?\[([^\]]*)\]\([^)]*\)")
_MARKS = re.compile(r"(?m)^\s{0,3}(?:#{1,6}\s+|>\s?|[-*+]\s+|\d+[.)]\s+)|[*_`]+")


def archive_pages(shelf: Shelf) -> tuple[Page, ...]:
    """weeks/index.html; of an archive of many years the latest stands on it, and each other has a page of its own."""
    w = shelf.words
    years = unique(_year_of(key) for key in shelf.week_keys)
    here = years if len(shelf.week_keys) <= MOST_WEEKS else years[:1]
    blocks: list[Block] = []
    if any(_notes(key, shelf) for key in shelf.week_keys):
        blocks.append(Para(run(w.past_notes, "", NOTES_PATH)))
    for year in here:
        blocks += [Heading(2, year, f"year-{year}"), *_whole_year(year, shelf), _year(year, shelf)]
    rest = [year for year in years if year not in here]
    if rest:
        blocks += [Heading(2, w.years_before, "before"), Bullets(tuple(run(y, "", _year_path(y)) for y in rest))]
    if not shelf.week_keys:
        blocks.append(Para(plain(w.no_weeks), "note"))
    first = Page(WEEKS_PATH, w.weeks, "archive", tuple(blocks), shelf.crumbs((w.weeks, None)))
    return (first, *(_year_page(year, shelf) for year in rest))


def _year_of(key: str) -> str:
    return key.partition("-W")[0]


def _year_path(year: str) -> str:
    return f"lists/weeks-{year}/index.html"


def _year_page(year: str, shelf: Shelf) -> Page:
    w = shelf.words
    title = w.weeks_of.format(year)
    crumbs = shelf.crumbs((w.weeks, WEEKS_PATH), (title, None))
    return Page(_year_path(year), title, "archive", (*_whole_year(year, shelf), _year(year, shelf)), crumbs)


def _whole_year(year: str, shelf: Shelf) -> list[Block]:
    """The way to the year's own page where a week of it is closed."""
    w = shelf.words
    found = [one.year for one in shelf.years if str(one.year) == year]
    return [Para(run(w.year_link.format(year), "", address(year_path(one)))) for one in found]


def _year(year: str, shelf: Shelf) -> Table:
    w = shelf.words
    columns = (Column(w.week, width=18), Column(w.dishes, width=44), Column(w.notes))
    rows = tuple(_week(key, shelf) for key in shelf.week_keys if _year_of(key) == year)
    return Table(columns, rows, year, "weeks", row_heads=True)


def _week(key: str, shelf: Shelf) -> Row:
    w = shelf.words
    name = (*shelf.week(key), *run(f" ({w.this_week_mark})" if key == shelf.current else "", "small"))
    return Row((name, shelf.dishes(week_dishes(key, shelf)), plain(first_words(_notes(key, shelf)))))


def week_dishes(key: str, shelf: Shelf) -> tuple[str, ...]:
    """Recipe keys of a week's plan, in the order of the plan."""
    week = shelf.library.weeks.get(key)
    if week is not None:
        return unique(line.recipe for line in week.meals)
    return unique(serving.recipe for serving in shelf.weeks[key].servings)


def _notes(key: str, shelf: Shelf) -> str:
    week = shelf.library.weeks.get(key)
    return week.notes.strip() if week else ""


def first_words(markdown: str, most: int = FIRST_WORDS) -> str:
    """The first words of the first paragraph, without Markdown's marks; an ellipsis where there is more."""
    paragraph = re.split(r"\n\s*\n", markdown.strip(), maxsplit=1)[0]
    words = _MARKS.sub("", _LINK.sub(r"\1", paragraph)).split()
    rest = len(words) > most or paragraph != markdown.strip()
    cut = " ".join(words[:most])
    # A sentence that ended is not run on.
    return cut + ((" …" if cut.endswith((".", "!", "?")) else "…") if cut and rest else "")


def notes_page(shelf: Shelf) -> Page | None:
    """All notes, latest week first; None when nothing was ever written."""
    w = shelf.words
    blocks: list[Block] = []
    for key in shelf.week_keys:
        notes = _notes(key, shelf)
        if notes:
            blocks += [Heading(2, week_title(key, w), key), Para(_of_week(key, shelf), "note"), Prose(notes)]
    if not blocks:
        return None
    crumbs = shelf.crumbs((w.weeks, WEEKS_PATH), (w.past_notes, None))
    return Page(NOTES_PATH, w.past_notes, "archive", tuple(blocks), crumbs)


def _of_week(key: str, shelf: Shelf) -> Text:
    """From when, and the way to the week itself."""
    w, week = shelf.words, shelf.library.weeks[key]
    begins = w.week_from.format(day(week.monday, w))
    return (*run(f"{begins}{w.separator}"), *run(w.the_week_itself, "", address(week_path(key))))
