"""The news of the site as Atom (RFC 4287)."""

from __future__ import annotations

import re
from datetime import datetime
from xml.etree import ElementTree

from binder.pages.other_files import Feed, FeedEntry

NAMESPACE = "http://www.w3.org/2005/Atom"
# XML 1.0, section 2.2, production Char: what is not in it may not stand in a document, not even escaped.
_NOT_XML = re.compile(r"[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def feed_bytes(feed: Feed) -> bytes:
    """The feed as a UTF-8 document; a control character of a text is left out."""
    ElementTree.register_namespace("", NAMESPACE)
    root = ElementTree.Element(_name("feed"))
    _add(root, "id", feed.id)
    _add(root, "title", feed.title)
    _add(root, "updated", _instant(feed.updated))
    if feed.href:
        _link(root, feed.href, "self", "application/atom+xml")  # Section 4.1.1: a feed should say where it is.
    _add(_add(root, "author"), "name", feed.author)
    for entry in feed.entries:
        _add_entry(root, entry)
    return bytes(ElementTree.tostring(root, encoding="utf-8", xml_declaration=True)) + b"\n"


def _add_entry(root: ElementTree.Element, entry: FeedEntry) -> None:
    element = _add(root, "entry")
    _add(element, "id", entry.id)
    _add(element, "title", entry.title)
    _add(element, "updated", _instant(entry.updated))
    _link(element, entry.href, "alternate", "text/html")
    _add(element, "summary", entry.summary)


def _add(parent: ElementTree.Element, name: str, text: str = "") -> ElementTree.Element:
    element = ElementTree.SubElement(parent, _name(name))
    if text:
        element.text = _clean(text)
    return element


def _link(parent: ElementTree.Element, href: str, rel: str, media_type: str) -> None:
    link = _add(parent, "link")
    for name, value in (("rel", rel), ("type", media_type), ("href", _clean(href))):
        link.set(name, value)


def _name(name: str) -> str:
    return f"{{{NAMESPACE}}}{name}"


def _clean(text: str) -> str:
    return _NOT_XML.sub("", text)


def _instant(when: datetime) -> str:
    """RFC 3339, which wants an offset."""
    if when.tzinfo is None:
        raise ValueError("a feed's time needs its offset from UTC")
    return when.isoformat(timespec="seconds")
