"""The front page: what is to be done today and tomorrow, then the week, then the way to everything else."""

from __future__ import annotations

from datetime import date, timedelta

from binder.pages.archive import first_words
from binder.pages.edition import run, together
from binder.pages.format import day_long, listed, number, week_title
from binder.pages.page import Block, Bullets, Checks, DayPart, Heading, Page, Para, Text, plain
from binder.pages.site_blocks import with_links
from binder.pages.site_shelf import (
    FOODS_PATH,
    HOME_PATH,
    NOTES_PATH,
    ON_HAND_PATH,
    RECIPES_PATH,
    WEEKS_PATH,
    Shelf,
)  # fmt: skip
from binder.pages.site_week import dish_links, from_to, section_links
from binder.pages.week import day_tasks, week_grid


def home_page(shelf: Shelf) -> Page:
    """index.html."""
    w, current = shelf.words, shelf.current
    blocks: list[Block] = []
    subtitle = ""
    if current and current in shelf.weeks:
        subtitle = f"{week_title(current, w)}{w.separator}{from_to(current, shelf)}"
        blocks += [*_days(shelf), *_use_first(shelf), *_week(current, shelf)]
    else:
        blocks.append(Para(plain(w.no_week_planned), "lead"))
    blocks += _elsewhere(shelf)
    return Page(HOME_PATH, shelf.library.household.name, "home", tuple(blocks), subtitle=subtitle)


def _days(shelf: Shelf) -> list[Block]:
    """Every day of the week. Seen are today and tomorrow of the edition; when neither has anything to do, the next day
    that has; on a device that runs scripts, its own today and tomorrow."""
    edition, today = shelf.edition, shelf.today
    tomorrow = today + timedelta(days=1)
    shown = {today, tomorrow}
    if not any(day_tasks(on, edition) for on in shown):
        later = next((d for d in edition.days() if d > tomorrow and day_tasks(d, edition)), None)
        shown |= {later} if later else set()
    return [_day(on, on in shown, shelf) for on in sorted({*edition.days(), *shown})]


def _day(on: date, shown: bool, shelf: Shelf) -> DayPart:
    w, edition = shelf.words, shelf.edition
    tasks = day_tasks(on, edition)
    eaten = sum(s.date == on for s in edition.servings)
    rest = w.nothing_but_eat if eaten else w.nothing_that_day
    title = day_long(on, w)
    today, tomorrow, soon = (f"{word}, {title}" for word in (w.today, w.tomorrow, w.next_day))
    return DayPart(on, title, today, tomorrow, soon, (Checks(tasks) if tasks else Para(plain(rest)),), shown)


def _use_first(shelf: Shelf) -> list[Block]:
    """What goes off soonest, in one line."""
    w, found = shelf.words, shelf.edition.facts.use_first
    names = [shelf.edition.title(one.recipe) if one.recipe else one.food or "" for one in found]
    return [Para(plain(w.use_first_line.format(listed(names, w))), "note")] if names else []


def _week(current: str, shelf: Shelf) -> list[Block]:
    """The week table, and the way to each of the week's sections."""
    w = shelf.words
    grid = with_links(week_grid(shelf.edition), dish_links(shelf, current))
    links = (Heading(2, w.in_this_week, "sections"), section_links(current, shelf))
    return [Heading(2, w.the_week, "week"), *grid, *links]


def _elsewhere(shelf: Shelf) -> list[Block]:
    w, keys = shelf.words, shelf.week_keys
    counts: tuple[tuple[str, str, int], ...] = (
        (w.recipes, RECIPES_PATH, len(shelf.recipes)),
        (w.foods, FOODS_PATH, len(shelf.foods)),
        (w.on_hand, ON_HAND_PATH, len(shelf.library.stock.lots)),
        (w.weeks, WEEKS_PATH, len(keys)),
    )
    items: list[Text] = [(*run(words, "", path), *run(f" ({number(n)})", "small")) for words, path, n in counts]
    last = next((k for k in keys if k != shelf.current and k in shelf.library.weeks and _note(k, shelf)), None)
    if last:
        said = plain(f"{w.last_note}: {_note(last, shelf)}")
        items.append(together((run(w.past_notes, "", NOTES_PATH), shelf.week(last), said), w.separator))
    return [Heading(2, w.elsewhere, "elsewhere"), Bullets(tuple(items))]


def _note(key: str, shelf: Shelf) -> str:
    return first_words(shelf.library.weeks[key].notes)
