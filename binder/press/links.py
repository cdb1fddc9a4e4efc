"""Which addresses a page may carry, and how they read from one page to another.

Allowed are http, https and mailto, and addresses relative to the site's root that stay below it. Everything else
(`javascript:`, `data:`, `//host/`, `/path`, `../../`) is no link: its words are set as plain text.
"""

from __future__ import annotations

import posixpath
import re
from functools import lru_cache

_SCHEME = re.compile(r"[A-Za-z][A-Za-z0-9+.\-]*:")
# Whitespace and controls: browsers drop some of them inside an address, so that what is checked is not what is opened.
_UNSEEN = re.compile(r"[\x00-\x20\x7f-\xa0\u1680\u2000-\u200f\u2028-\u202f\u205f-\u2064\u3000\ufeff]")
_OUTSIDE = re.compile(r"https?://[^/?#@\\:\[\]]+(:\d{1,5})?([/?#]|$)|mailto:[^/]", re.IGNORECASE)
_PICTURE = re.compile(r"(?:photos/)?([\w][\w .\-]*\.(?:jpe?g|png|webp|avif|svg))", re.IGNORECASE)


# The one place beside the site that its pages point to: the drawn sheets of the same build.
_PRINTED = re.compile(r"\.\./print/[\w.\-]+\.pdf")


def is_outside(href: str) -> bool:
    """An allowed address that leaves the site: http, https, mailto."""
    return bool(_OUTSIDE.match(href)) and not _UNSEEN.search(href) and "\\" not in href


def is_inside(href: str) -> bool:
    """An address relative to the site's root that stays below it, `#anchor`, or a drawn sheet beside the site."""
    if _PRINTED.fullmatch(href):
        return True
    if not href or _UNSEEN.search(href) or "\\" in href or href.startswith("/"):
        return False
    path = re.split(r"[?#]", href, maxsplit=1)[0]
    if ":" in path or _SCHEME.match(href):
        return False
    return not posixpath.normpath(path or ".").startswith("..")


@lru_cache(maxsize=8192)
def allowed(href: str) -> bool:
    """Whether this address may stand in a page."""
    return is_outside(href) or is_inside(href)


def from_page(path: str, href: str) -> str:
    """`href`, given from the site's root, as it reads from the page at `path`; anchors and outside stay as they are."""
    if href.startswith("#") or is_outside(href):
        return href
    target, mark, rest = re.match(r"([^?#]*)([?#]?)(.*)", href, re.DOTALL).groups()  # type: ignore[union-attr]
    if target == path:
        return f"{mark}{rest}" if mark else posixpath.basename(path)
    relative = _relative(target, posixpath.dirname(path))
    return f"{relative}{'/' if target.endswith('/') else ''}{mark}{rest}"


@lru_cache(maxsize=8192)
def _relative(target: str, folder: str) -> str:
    """`target` as it reads from `folder`, both from the site's root. Pages link to the same ones over and over."""
    there = [part for part in posixpath.normpath(target or ".").split("/") if part != "."]
    here = [part for part in posixpath.normpath(folder or ".").split("/") if part != "."]
    shared = 0
    while shared < min(len(there), len(here)) and there[shared] == here[shared]:
        shared += 1
    return "/".join((*[".."] * (len(here) - shared), *there[shared:])) or "."


def picture_name(source: str) -> str | None:
    """The photo's file name when `source` names one of content/photos (`name.jpg`, `photos/name.jpg`), else None."""
    match = _PICTURE.fullmatch(source.replace("%20", " "))
    return match[1] if match else None
