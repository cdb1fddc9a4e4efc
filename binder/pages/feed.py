"""News of what is shared, for readers of feeds: a recipe's day is the week it was last planned in."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import UTC, date, datetime, time
from urllib.parse import quote, urlsplit

from binder.model.library import Library
from binder.pages.edition import monday_of
from binder.pages.house_style import house_style
from binder.pages.other_files import Feed, FeedEntry
from binder.pages.share import let_through, share_path
from binder.pages.site_recipe import subtitle
from binder.reckon.recipe_facts import RecipeFacts

SHARE = "share"
FEED_NAME = "feed.xml"


def feed(library: Library, recipes: Mapping[str, RecipeFacts], today: date) -> Feed | None:
    """Latest first; None without a site address, since an entry's id is its address (RFC 4287, section 4.2.6).

    Author and title are the address's own: the household's name stays in the house.
    """
    site = (library.household.site_address or "").rstrip("/")
    if not site or not recipes:
        return None
    w = house_style(library.household).words
    began = _began(library, today)
    days = {key: _last_planned(key, library, today) or began for key in recipes}
    entries = [_entry(facts, site, days[facts.key], library) for facts in recipes.values()]
    entries.sort(key=lambda e: (-e.updated.timestamp(), e.title.casefold(), e.id))
    host = urlsplit(site).netloc
    here = f"{site}/{SHARE}/{FEED_NAME}"
    return Feed(here, w.feed_title.format(host), host, entries[0].updated, tuple(entries), here)


def _entry(facts: RecipeFacts, site: str, on: date, library: Library) -> FeedEntry:
    address = f"{site}/{SHARE}/{quote(share_path(facts.key))}"
    summary = subtitle(let_through(facts), house_style(library.household).words)
    return FeedEntry(address, facts.title, address, datetime.combine(on, time(), UTC), summary)


def _last_planned(key: str, library: Library, today: date) -> date | None:
    """The Monday of the latest week, begun by today, that has the recipe; None when there is none."""
    mondays = (monday_of(week.key) for week in library.weeks.values() if any(line.recipe == key for line in week.meals))
    return max((monday for monday in mondays if monday <= today), default=None)


def _began(library: Library, today: date) -> date:
    """For what was never planned: the first week there is, so that its day does not move with every build."""
    return min((*(monday_of(key) for key in library.weeks), today))
