from __future__ import annotations

import json
from datetime import UTC, datetime
from xml.etree import ElementTree

import pytest

from binder.pages.other_files import DataFile, Feed, FeedEntry
from binder.press.data import data_bytes
from binder.press.feed import feed_bytes

ATOM = "{http://www.w3.org/2005/Atom}"
NOW = datetime(2026, 6, 7, tzinfo=UTC)


def feed(**more: str) -> Feed:
    entry = FeedEntry("tag:e", more.get("title", "Braise"), more.get("href", "https://example.org/a"), NOW, "S")
    return Feed("tag:f", "Kitchen", "Marit", NOW, (entry,))


def test_the_feed_has_what_atom_asks_for() -> None:
    """RFC 4287, 4.1.1 and 4.1.2: id, title, updated of both, an author, a link."""
    root = ElementTree.fromstring(feed_bytes(feed()))
    assert root.tag == f"{ATOM}feed"
    for name, text in (("id", "tag:f"), ("title", "Kitchen"), ("updated", "2026-06-07T00:00:00+00:00")):
        assert root.findtext(ATOM + name) == text
    assert root.findtext(f"{ATOM}author/{ATOM}name") == "Marit"
    entry = root.find(f"{ATOM}entry")
    assert entry is not None and entry.findtext(f"{ATOM}id") == "tag:e"
    link = entry.find(f"{ATOM}link")
    assert link is not None and link.get("href") == "https://example.org/a"


def test_markup_is_text_and_control_characters_are_left_out() -> None:
    content = feed_bytes(feed(title="<b>\x00\x0b\ufffe&\x1f", href="https://example.org/\x08"))
    entry = ElementTree.fromstring(content).find(f"{ATOM}entry")
    assert entry is not None and entry.findtext(f"{ATOM}title") == "<b>&"


def test_a_time_without_offset_is_a_fault() -> None:
    with pytest.raises(ValueError, match="offset"):
        feed_bytes(Feed("i", "t", "a", datetime(2026, 6, 7), ()))


def test_numbers_are_written_in_order_and_as_they_are() -> None:
    content = data_bytes(DataFile("facts.json", {"b": [1, 2.5, None, True], "a": {"z": "½ é", "y": "<"}}))
    assert content == '{"a":{"y":"<","z":"½ é"},"b":[1,2.5,null,true]}\n'.encode()
    assert json.loads(content)["b"][1] == 2.5


@pytest.mark.parametrize("number", [float("nan"), float("inf"), float("-inf")])
def test_what_is_no_number_is_a_fault(number: float) -> None:
    with pytest.raises(ValueError):
        data_bytes(DataFile("facts.json", {"a": number}))
