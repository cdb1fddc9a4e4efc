"""The feed of what is shared, read by a reader of feeds."""

from __future__ import annotations

import feedparser

from tests.kitchen import HOUSEHOLD, Kitchen
from tests.scenarios.test_scenarios import STEW, STEW_WEEK

ADDRESS = "https://example.org/kitchen"


def built(kitchen: Kitchen, **more: str) -> feedparser.FeedParserDict:
    kitchen.file("household.yaml", f"{HOUSEHOLD}site address: {ADDRESS}\n")
    kitchen.recipe("barley-stew", STEW).recipe("late-stew", STEW.replace("title: Barley", "title: Late & <b>"))
    kitchen.week(STEW_WEEK).build("--only", "share", **more)
    return feedparser.parse((kitchen.out / "share/feed.xml").read_bytes())


def test_a_reader_finds_a_feed_without_a_fault(kitchen: Kitchen) -> None:
    found = built(kitchen)
    assert not found.bozo and found.version == "atom10" and found.encoding == "utf-8"
    assert found.feed.id == f"{ADDRESS}/share/feed.xml" and found.feed.title == "Recipes from example.org"
    assert found.feed.author == "example.org" and found.feed.updated_parsed[:3] == (2026, 6, 7)
    assert [(one.rel, one.href) for one in found.feed.links] == [("self", found.feed.id)]


def test_each_entry_leads_to_a_page_that_is_there(kitchen: Kitchen) -> None:
    entries = built(kitchen).entries
    assert {one.id for one in entries} == {f"{ADDRESS}/share/{key}.html" for key in ("barley-stew", "late-stew")}
    for one in entries:
        assert one.link == one.id and one.summary and one.updated_parsed
        assert (kitchen.out / one.link.removeprefix(f"{ADDRESS}/")).is_file()
    assert [one.title for one in entries if "Late" in one.title] == ["Late & <b> stew"]


def test_another_day_moves_no_entry_and_what_was_planned_later_comes_first(kitchen: Kitchen) -> None:
    first, later = built(kitchen), built(kitchen, today="2026-06-09")
    assert next(one.title for one in later.entries) == "Barley stew"
    assert {one.id: one.updated for one in first.entries}.keys() == {one.id for one in later.entries}


def test_without_an_address_there_is_no_feed(kitchen: Kitchen) -> None:
    kitchen.recipe("barley-stew", STEW).week(STEW_WEEK).build("--only", "share")
    assert not (kitchen.out / "share/feed.xml").exists()
