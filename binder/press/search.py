"""The index of the site's search: a script that holds what pages may be found by, read only when somebody searches.

It is a script and not JSON because a page opened from a folder may load the one and not the other. What it holds:

    words     what the search says, the endings of word forms, the words passed over
    phrases   every keyword once, the commonest first, joined by tabs
    groups    [what the pages are, folder, end of the path, rows]; a row is a line of `title TAB name TAB keywords`

A page lies at folder + name + end; an empty name is the title as `plain_name` makes it. Keywords are positions in
`phrases`, ascending, each as the distance from the one before, in base 36.
"""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Iterable, Mapping
from itertools import pairwise

from binder.pages.page import Later, Page, SearchWords, Site

INDEX = "assets/search-index.js"
_INDEX_PAGE = "/index.html"
_DIGITS = "0123456789abcdefghijklmnopqrstuvwxyz"
_NO_NAME = re.compile(r"[^a-z0-9]+")


def index_script(site: Site) -> bytes:
    """The script that sets `siteIndex`; of a page its title, its path and its keywords, and nothing else."""
    searched = [page for page in site.pages if page.found_as]
    phrases = _by_count(phrase for page in searched for phrase in _phrases(page))
    places = {phrase: index for index, phrase in enumerate(phrases)}
    groups: dict[tuple[str, str, str], list[str]] = {}
    for page in searched:
        folder, name, end = split_path(page.path)
        groups.setdefault((_line(page.found_as), folder, end), []).append(_row(page, name, places))
    index = {
        "words": _words(site.search) if site.search else {},
        "phrases": "\t".join(phrases),
        "groups": [[*group, "\n".join(rows)] for group, rows in groups.items()],
    }
    return f"self.siteIndex={json.dumps(index, ensure_ascii=False, separators=(',', ':'))};\n".encode()


def split_path(path: str) -> tuple[str, str, str]:
    """`recipes/`, `bean-stew`, `/index.html`; a path of another shape has no end and is a name as it is."""
    if not path.endswith(_INDEX_PAGE):
        return "", path, ""
    folder, slash, name = path.removesuffix(_INDEX_PAGE).rpartition("/")
    return folder + slash, name, _INDEX_PAGE


def plain_name(title: str) -> str:
    """`Bean stew, hot` as `bean-stew-hot`. The script does the same; what is not ASCII the two might lower apart."""
    return _NO_NAME.sub("-", title.lower()).strip("-") if title.isascii() else ""


def base_36(number: int) -> str:
    """A number from 0 on in the digits that JavaScript's parseInt(text, 36) reads."""
    digits = _DIGITS[number % 36]
    while number := number // 36:
        digits = _DIGITS[number % 36] + digits
    return digits


def _row(page: Page | Later, name: str, places: Mapping[str, int]) -> str:
    title = _line(page.title)
    found = sorted({places[phrase] for phrase in _phrases(page)})
    steps = [base_36(here - before) for before, here in pairwise([0, *found])]
    return f"{title}\t{'' if name == plain_name(title) else name}\t{','.join(steps)}"


def _phrases(page: Page | Later) -> list[str]:
    return [line for keyword in page.keywords if (line := _line(keyword))]


def _by_count(phrases: Iterable[str]) -> list[str]:
    """The commonest first, so that most numbers are short; the same order each time."""
    counts = Counter(phrases)
    return sorted(counts, key=lambda phrase: (-counts[phrase], phrase))


def _line(text: str) -> str:
    """The text on one line without tabs: both part the fields of the index."""
    return " ".join(text.split())


def _words(words: SearchWords) -> dict[str, object]:
    return {
        "none": words.none,
        "one": words.one,
        "many": words.many,
        "more": words.more,
        "some": words.some,
        "endings": words.endings,
        "passedOver": words.passed_over,
    }
