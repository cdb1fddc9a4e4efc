"""The pages of the lists of recipes. Every list is whole; how many pages it takes is a matter of length.

A small library has all its lists on one page, a larger one a page for each list, a large one a page for each group of
a list, and of a long group a page for each stretch of it, so that no page is heavy.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from binder.pages.card_keeps import keeps_text
from binder.pages.edition import chunks, name_of, run
from binder.pages.format import listed, number
from binder.pages.page import Block, Bullets, Column, Heading, Page, Para, Row, Table, Text, plain
from binder.pages.site_lists import Listing, listings
from binder.pages.site_minutes import minutes_text, recipe_minutes
from binder.pages.site_shelf import RECIPES_PATH, Shelf, address
from binder.reckon.recipe_facts import RecipeFacts

MOST_ON_ONE_PAGE = 60  # recipes; beyond, the page of all lists is longer than anybody scrolls
# Lines of one page; with how each dish is heated they weigh some 120 bytes each, the table of all recipes 350.
MOST_LINES = 300


@dataclass(frozen=True, slots=True)
class Way:
    """The path of a list's pages, and the crumbs that lead to them."""

    path: str  # "lists/meal"
    crumbs: tuple[tuple[str, str | None], ...]

    def page(self, title: str, blocks: Sequence[Block], shelf: Shelf) -> Page:
        crumbs = shelf.crumbs(*self.crumbs, (title, None))
        return Page(f"{self.path}/index.html", title, "archive", tuple(blocks), crumbs)

    def below(self, name: str, title: str) -> Way:
        return Way(f"{self.path}/{name}", (*self.crumbs, (title, address(f"{self.path}/index.html"))))


def recipe_list_pages(shelf: Shelf) -> tuple[Page, ...]:
    """The page of all recipes, and the pages of the lists when there are many."""
    w = shelf.words
    lists = listings(shelf)
    apart = len(shelf.recipes) > MOST_ON_ONE_PAGE
    blocks: list[Block] = [] if lists else [Para(plain(w.no_recipes), "note")]
    # On one page the contents lead to each list already.
    blocks += [Bullets(tuple(run(one.title, "", _way(one.key, shelf).path + "/index.html") for one in lists))] * apart
    every, rest = _every_recipe(shelf)
    blocks += [Heading(2, w.all_recipes, "all"), *every] if shelf.recipes else []
    if not apart:
        blocks += [block for one in lists for block in (Heading(2, one.title, one.key), *_note(one), *_groups(one))]
    first = Page(RECIPES_PATH, w.recipes, "archive", tuple(blocks), shelf.crumbs((w.recipes, None)))
    return (first, *rest, *(page for one in lists for page in _list(one, shelf))) if apart else (first,)


def _way(key: str, shelf: Shelf) -> Way:
    return Way(f"lists/{key}", ((shelf.words.recipes, RECIPES_PATH),))


def _note(one: Listing) -> tuple[Block, ...]:
    return (Para(plain(one.note), "note"),) if one.note else ()


def _groups(one: Listing) -> tuple[Block, ...]:
    return tuple(block for group in one.groups for block in (Heading(3, group.title), Bullets(group.items)))


def _list(one: Listing, shelf: Shelf) -> Iterator[Page]:
    """A list on one page, or a page of its groups and the pages of each."""
    way = _way(one.key, shelf)
    if sum(len(group.items) for group in one.groups) <= MOST_LINES:
        yield way.page(one.title, (*_note(one), *_groups(one)), shelf)
        return
    ways = [way.below(name, one.title) for name in _names(group.title for group in one.groups)]
    entries = [(group.title, of.path, len(group.items)) for group, of in zip(one.groups, ways, strict=True)]
    yield way.page(one.title, (*_note(one), _entries(entries)), shelf)
    for group, of in zip(one.groups, ways, strict=True):
        yield from _long(group.title, group.items, of, _note(one), shelf)


def _long(title: str, items: Sequence[Text], way: Way, note: Sequence[Block], shelf: Shelf) -> Iterator[Page]:
    """A group on one page, or a page of its stretches and a page for each."""
    if len(items) <= MOST_LINES:
        yield way.page(title, (*note, Bullets(tuple(items))), shelf)
        return
    parts = [(_stretch(of[0][0].text, of[-1][0].text, shelf), of) for of in chunks(items, MOST_LINES)]
    ways = [way.below(str(n), title) for n, _ in enumerate(parts, 1)]
    entries = [(name, of.path, len(part)) for (name, part), of in zip(parts, ways, strict=True)]
    yield way.page(title, (*note, _entries(entries)), shelf)
    for (name, part), of in zip(parts, ways, strict=True):
        yield of.page(f"{title}: {name}", (*note, Bullets(tuple(part))), shelf)


def _every_recipe(shelf: Shelf) -> tuple[tuple[Block, ...], tuple[Page, ...]]:
    """The table of all recipes, or the way to its stretches and their pages."""
    w = shelf.words
    if len(shelf.recipes) <= MOST_LINES:
        return (_table(shelf.by_title, w.all_recipes, shelf),), ()
    way = _way("all", shelf)
    entries, pages = [], []
    for n, part in enumerate(chunks(shelf.by_title, MOST_LINES), 1):
        name = _stretch(part[0].title, part[-1].title, shelf)
        of = Way(f"{way.path}/{n}", way.crumbs)
        entries.append((name, of.path, len(part)))
        pages.append(of.page(name, (_table(part, name, shelf),), shelf))
    return (_entries(entries),), tuple(pages)


def _table(recipes: Sequence[RecipeFacts], caption: str, shelf: Shelf) -> Table:
    """Each recipe once, by title."""
    w = shelf.words
    columns = (
        Column(w.dish, width=28), Column(w.meal, width=14), Column(w.form, width=18), Column(w.time), Column(w.keeps),
    )  # fmt: skip
    rows = tuple(
        Row((
            shelf.dish(f.key, "strong"), plain(listed([w.meals.get(m, m) for m in f.meals], w)),
            plain(w.forms_short.get(f.form, f.form)),
            plain(minutes_text(recipe_minutes(f.recipe), w) or w.not_known), plain(keeps_text(f, shelf.edition)),
        ))
        for f in recipes
    )  # fmt: skip
    return Table(columns, rows, caption, "recipes", row_heads=True)


def _entries(of: Sequence[tuple[str, str, int]]) -> Bullets:
    """Title, path and count of each page."""
    links = (run(title, "", address(f"{path}/index.html")) for title, path, _ in of)
    counts = (run(f" ({number(n)})", "small") for _, _, n in of)
    return Bullets(tuple((*link, *count) for link, count in zip(links, counts, strict=True)))


def _stretch(first: str, last: str, shelf: Shelf) -> str:
    return shelf.words.range_of.format(first, last)


def _names(titles: Iterable[str]) -> tuple[str, ...]:
    """A name for a folder each, no two alike."""
    found: list[str] = []
    for title in titles:
        stem = name_of(title) or "list"
        found.append(stem if stem not in found else f"{stem}-{len(found)}")
    return tuple(found)
