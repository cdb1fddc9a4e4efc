"""The site: every page of the household's own, each list whole, nothing that needs a script."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from types import MappingProxyType

from binder.model.library import Library
from binder.pages.archive import archive_pages, notes_page
from binder.pages.food import food_page, foods_page
from binder.pages.format import day_with_year
from binder.pages.page import Later, Page, Site, plain
from binder.pages.site_home import home_page
from binder.pages.site_list_pages import recipe_list_pages
from binder.pages.site_recipe import later, recipe_page
from binder.pages.site_search import search_words, with_keywords
from binder.pages.site_shelf import (
    FOODS_PATH,
    HOME_PATH,
    ON_HAND_PATH,
    RECIPES_PATH,
    WEEKS_PATH,
    Shelf,
    shelf_of,
)  # fmt: skip
from binder.pages.site_stock import on_hand_page
from binder.pages.site_week import later_week, week_pages
from binder.pages.year import year_page
from binder.reckon.facts import WeekFacts
from binder.reckon.past_facts import Year
from binder.reckon.recipe_facts import RecipeFacts

NO_MARKS: Mapping[str, str] = MappingProxyType({})


def site_pages(
    library: Library,
    recipes: Mapping[str, RecipeFacts],
    weeks: Mapping[str, WeekFacts],
    current: str | None,
    today: date,
    *,
    private: bool = False,
    draft: bool = False,
    printed: frozenset[str] = frozenset(),
    recipe_marks: Mapping[str, str] = NO_MARKS,
    week_marks: Mapping[str, str] = NO_MARKS,
    then: Mapping[str, Library] = MappingProxyType({}),
    years: tuple[Year, ...] = (),
) -> Site:
    """All pages. `weeks`: those that were reckoned, `current` the one in use; others show their plan alone.

    `private` lets the household's own notes through; `printed` names the weeks whose binder lies in print/.
    The marks stand for all that the facts of a recipe, or of a week of the archive, are made from; their pages are
    made when they are wanted. `then`: closed weeks with the library they were made of; `years`: those that have a
    closed week.
    """
    shelf = shelf_of(library, recipes, weeks, current, today, private, printed, then, years)
    w = shelf.words
    return Site(
        title=library.household.name,
        language=library.household.language,
        pages=with_keywords(pages(shelf, recipe_marks, week_marks), shelf),
        nav=(
            (w.this_week, HOME_PATH),
            (w.weeks, WEEKS_PATH),
            (w.recipes, RECIPES_PATH),
            (w.foods, FOODS_PATH),
            (w.on_hand, ON_HAND_PATH),
        ),
        footer=plain(f"{w.printed_on.format(day_with_year(today, w))} {w.local_rules}"),
        draft=w.draft if draft else "",
        skip_link=w.skip_to_page,
        contents_word=w.on_this_page,
        search=search_words(w),
        awake_word=w.keep_screen_on,
        untick_word=w.untick_all,
        follow=w.follow,
    )


def pages(
    shelf: Shelf, recipe_marks: Mapping[str, str] = NO_MARKS, week_marks: Mapping[str, str] = NO_MARKS
) -> list[Page | Later]:
    """In the order of the navigation, what lies below a page after it."""
    notes = notes_page(shelf)
    return [
        home_page(shelf),
        *archive_pages(shelf),
        *([notes] if notes else []),
        *(year_page(year, shelf) for year in shelf.years),
        *(page for key in shelf.week_keys for page in _week(key, shelf, week_marks.get(key))),
        *recipe_list_pages(shelf),
        *(
            later(facts, shelf, recipe_marks[facts.key]) if facts.key in recipe_marks else recipe_page(facts, shelf)
            for facts in shelf.by_title
        ),
        foods_page(shelf),
        *(food_page(found, shelf) for found in shelf.foods.values()),
        on_hand_page(shelf),
    ]


def _week(key: str, shelf: Shelf, mark: str | None) -> tuple[Page | Later, ...]:
    """The pages of the current week, and of one without a mark, are made at once."""
    if mark is None or key == shelf.current:
        return week_pages(key, shelf)
    return (later_week(key, shelf, mark),)
