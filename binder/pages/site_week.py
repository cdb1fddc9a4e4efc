"""A week's pages: the sections of its binder, to be read on a phone; or, where nothing was reckoned, its plan."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import timedelta

from binder.model.week import MealLine, Week
from binder.pages.closed import as_made, how_it_went
from binder.pages.closing import closing_page, closing_path, is_open
from binder.pages.edition import meal_rank, monday_of, portions, run, shorts_of, together
from binder.pages.format import day, day_long, listed, week_title
from binder.pages.page import (
    Binder,
    Block,
    Box,
    Bullets,
    Column,
    Heading,
    Later,
    Page,
    Para,
    Row,
    Section,
    Table,
    Text,
    plain,
)
from binder.pages.site_blocks import lines_relinked, lowered, with_links
from binder.pages.site_past import from_past_weeks
from binder.pages.site_shelf import WEEKS_PATH, Shelf, address, recipe_path, section_path, week_path
from binder.reckon.facts import WeekFacts

# Lines for the pen serve nobody on a screen; the notes themselves stand in their place.
ON_PAPER_ONLY = frozenset({"notes"})


def week_pages(key: str, shelf: Shelf) -> tuple[Page, ...]:
    """The week's own page with its week sheet and notes, a page for each other section of its binder, and, while the
    week is open, the form that asks how it went."""
    made, links = shelf.binder(key), dish_links(shelf, key)
    sections = (section for section in sections_on_screen(key, shelf) if section.key != "week")
    form = (closing_page(key, shelf),) if is_open(key, shelf) else ()
    rest = (_section_page(key, section, shelf, links) for section in sections)
    return (_week_page(key, made, shelf, links), *rest, *form)


def later_week(key: str, shelf: Shelf, mark: str) -> Later:
    """The week's pages when they are wanted; `mark` stands for the week's facts and the household's ways.

    Of the shelf they take besides: the weeks before and after, whether there is a binder, private notes, every dish's
    names, which are links wherever they stand, what is wrong in any file, what closing asks by the stock on hand, the
    day, and what closed weeks say of it.
    """
    facts = shelf.weeks.get(key)
    by_others = (facts.problems, facts.to_close, facts.today, facts.past, _expected(facts)) if facts else ()
    at = shelf.week_keys.index(key)
    beside = shelf.week_keys[max(at - 1, 0) : at + 2]
    around = (shelf.edition.private, beside, key in shelf.printed, shelf.names_mark, by_others)
    return Later(week_path(key), week_title(key, shelf.words), repr((mark, around)), lambda: week_pages(key, shelf))


def _expected(facts: WeekFacts) -> tuple[int | None, ...]:
    return tuple(sheet.expected_minutes for sheet in facts.run_sheets)


def sections_on_screen(key: str, shelf: Shelf) -> tuple[Section, ...]:
    """The sections of a week's binder that say something on a screen; none when nothing was reckoned."""
    made = shelf.binder(key)
    return tuple(section for section in made.sections if section.key not in ON_PAPER_ONLY) if made else ()


def section_links(key: str, shelf: Shelf) -> Bullets:
    """The way to every section of a week, and to the binder on paper where there is one."""
    items = [run(s.title, "", address(section_path(key, s.key))) for s in sections_on_screen(key, shelf)]
    items += [run(shelf.words.closing_link, "", address(closing_path(key)))] if is_open(key, shelf) else []
    items += [run(shelf.words.binder_to_print, "", print_href(key))] if key in shelf.printed else []
    return Bullets(tuple(items))


def _week_page(key: str, made: Binder | None, shelf: Shelf, links: Mapping[str, str]) -> Page:
    w, week = shelf.words, shelf.library.weeks.get(key)
    blocks: list[Block] = [Para(_around(key, shelf), "note"), *as_made(week, shelf)]
    if made is not None:
        late = tuple(b for b in made.front if isinstance(b, Box) and b.kind != "problem")
        blocks += [b for b in made.front if b not in late]
        blocks += [Heading(2, w.in_this_week, "sections"), section_links(key, shelf)]
        blocks += [b for s in made.sections if s.key == "week" for b in _section(s, key, shelf, links)]
        blocks += from_past_weeks(key, shelf)
    elif week is not None:
        late = ()
        blocks += _plan_alone(week, shelf)
    blocks += how_it_went(week, shelf) if week is not None else []
    return Page(
        week_path(key),
        week_title(key, w),
        "week",
        (*blocks, *late),
        shelf.crumbs((w.weeks, WEEKS_PATH), (week_title(key, w), None)),
        subtitle=from_to(key, shelf),
    )


def from_to(key: str, shelf: Shelf) -> str:
    """Monday to Sunday, with the year."""
    w, monday = shelf.words, monday_of(key)
    sunday = monday + timedelta(days=6)
    return w.from_to_days.format(day(monday, w), day(sunday, w), year=sunday.year)


def print_href(key: str) -> str:
    """The binder on paper; print/ lies beside the site's own folder."""
    return f"../print/{key}-binder.pdf"


def _around(key: str, shelf: Shelf) -> Text:
    """The week before and after, and the binder on paper where there is one."""
    w, keys = shelf.words, shelf.week_keys
    at = keys.index(key)
    said = [run(w.binder_to_print, "", print_href(key))] if key in shelf.printed else []
    said += [(*run(w.before_it), *shelf.week(keys[at + 1]))] if at + 1 < len(keys) else []
    said += [(*run(w.after_it), *shelf.week(keys[at - 1]))] if at else []
    return together(said, w.separator) or plain(w.only_week)


def _section_page(key: str, section: Section, shelf: Shelf, links: Mapping[str, str]) -> Page:
    w, title = shelf.words, week_title(key, shelf.words)
    more = (Heading(2, w.in_this_week, "sections"), section_links(key, shelf))
    crumbs = shelf.crumbs((w.weeks, WEEKS_PATH), (title, week_path(key)), (section.title, None))
    blocks = (*as_made(shelf.library.weeks.get(key), shelf), *_section(section, key, shelf, links), *more)
    return Page(section_path(key, section.key), section.title, "week", blocks, crumbs, subtitle=title)


def _section(section: Section, key: str, shelf: Shelf, links: Mapping[str, str]) -> tuple[Block, ...]:
    """A section's pages one after the other, each under its title where it has one of its own; dishes linked."""
    blocks: list[Block] = []
    for page in section.pages:
        titled = len(section.pages) > 1 or page.title != section.title
        blocks += [Heading(2, page.title, page.path)] if titled else []
        blocks += [Para(plain(page.subtitle), "lead")] if page.subtitle else []
        blocks += lowered(page.blocks, 1 if titled else 0)
    cards = {page.path: section_path(key, s.key) for s in sections_on_screen(key, shelf) for page in s.pages}
    return with_links(lines_relinked(blocks, lambda href: _card_href(href, cards, shelf)), links)


def _card_href(href: str, cards: Mapping[str, str], shelf: Shelf) -> str | None:
    """A card of this week where there is one, else the recipe's own page."""
    anchor = href.removeprefix("#")
    if anchor in cards:
        return f"{address(cards[anchor])}#{anchor}"
    key = anchor.removeprefix("card-")
    return address(recipe_path(key)) if key in shelf.recipes else None


def dish_links(shelf: Shelf, week: str) -> Mapping[str, str]:
    """Titles of dishes, and their short names in a week, to the addresses of their pages."""
    facts = shelf.weeks.get(week)
    recipes = facts.recipes if facts and week in shelf.then else shelf.recipes
    shorts = shorts_of(facts, shelf.then.get(week, shelf.library), recipes) if facts else {}
    named = {short: key for key, short in shorts.items() if key in shelf.recipes}
    named |= {of.title: of.key for of in recipes.values() if of.key in shelf.recipes}
    return {name: address(recipe_path(key)) for name, key in named.items()}


def _plan_alone(week: Week, shelf: Shelf) -> list[Block]:
    """Who was to eat what, when, as the plan has it."""
    w = shelf.words
    columns = (Column(w.meal, width=14), Column(w.dish), Column(w.for_whom, width=30))
    rows: list[Row] = []
    for on in sorted({d for line in week.meals for d in line.dates}):
        rows.append(Row((run(day_long(on, w), "strong"),), "group"))
        rows += [_plan_row(line, shelf) for line in _in_order(week) if on in line.dates]
    free = [line for line in week.meals if line.undated]
    if free:
        rows.append(Row((run(w.no_fixed_day, "strong"),), "group"))
        rows += [_plan_row(line, shelf) for line in free]
    blocks: list[Block] = [Heading(2, w.as_planned, "plan"), Para(plain(w.plan_alone), "note")]
    return [*blocks, Table(columns, tuple(rows), w.as_planned, "plan", row_heads=True)]


def _in_order(week: Week) -> list[MealLine]:
    return sorted(week.meals, key=lambda line: meal_rank(line.meal))


def _plan_row(line: MealLine, shelf: Shelf) -> Row:
    w = shelf.words
    whom = [listed(line.eaters, w)]
    whom += [portions(line.total, w)] if line.total is not None else []
    whom += [line.place] if line.place else []
    return Row((plain(w.meals[line.meal]), shelf.dish(line.recipe), plain(", ".join(whom))))
