"""Links and pictures in the Markdown under the front matter: what no page would show as one is said here."""

from __future__ import annotations

import re
from collections.abc import Iterator

from binder.check.near import did_you_mean, nearest
from binder.problem import Problem, Span, error
from binder.source.document import Document

_FENCE = re.compile(r" {0,3}(```|~~~)")
_CODE = re.compile(r"(`+)(?!`).*?(?<!`)\1(?!`)")
_INLINE = re.compile(r"(?P<picture>!?)\[(?:[^\[\]]|\[[^\[\]]*\])*\]\(\s*<?(?P<to>[^\s<>()]*)")
_DEFINED = re.compile(r" {0,3}\[[^\[\]]+\]:\s*<?(?P<to>[^\s<>]+)")
_BARE = re.compile(r"<(?P<to>[A-Za-z][A-Za-z0-9+.\-]+:[^\s<>]*)>")
_OUTSIDE = re.compile(r"https?://[^/?#@\\:\[\]]+(:\d{1,5})?([/?#]|$)|mailto:[^/]", re.IGNORECASE)
_SCHEME = re.compile(r"[A-Za-z][A-Za-z0-9+.\-]*:")


def bad_links(document: Document, photos: frozenset[str]) -> tuple[Problem, ...]:
    """A problem at each address that is neither http, https, mailto nor one inside the site, and at each picture
    that is not among `photos`."""
    problems = []
    for number, line in _body_lines(document.text):
        for picture, start, to in _addresses(line):
            span = Span(document.path, number, start + 1, start + 1 + len(to))
            problem = _picture(to, span, photos) if picture else _link(to, span)
            problems.extend([problem] if problem else [])
    return tuple(problems)


def _body_lines(text: str) -> Iterator[tuple[int, str]]:
    """The lines under the front matter, numbered from 1 in the file, code blanked out."""
    lines = text.split("\n")
    closing = (n for n, line in enumerate(lines) if n and line.rstrip() in ("---", "..."))
    first = next(closing, 0) + 1 if lines[0].rstrip() == "---" else 0
    fenced = False
    for number, line in enumerate(lines[first:], start=first + 1):
        if _FENCE.match(line):
            fenced = not fenced
        elif not fenced:
            yield number, _CODE.sub(lambda found: " " * len(found[0]), line)


def _addresses(line: str) -> Iterator[tuple[bool, int, str]]:
    for found in _INLINE.finditer(line):
        yield bool(found["picture"]), found.start("to"), found["to"]
    for pattern in (_DEFINED, _BARE):
        for found in pattern.finditer(line) if pattern is _BARE else filter(None, [pattern.match(line)]):
            yield False, found.start("to"), found["to"]


def _link(to: str, span: Span) -> Problem | None:
    if _OUTSIDE.match(to) and "\\" not in to:
        return None
    if not _SCHEME.match(to) and not to.startswith("/") and "\\" not in to and not _climbs(to):
        return None
    remedy = "write an address that begins with https:// or mailto:, or one inside the site"
    return error(span, "bad-link", f'"{to}" is no address that a page may carry', remedy)


def _climbs(to: str) -> bool:
    """Whether a relative address leaves the folder it starts from."""
    depth = 0
    for step in re.split(r"[?#]", to, maxsplit=1)[0].split("/"):
        depth += -1 if step == ".." else 0 if step in ("", ".") else 1
        if depth < 0:
            return True
    return False


def _picture(to: str, span: Span, photos: frozenset[str]) -> Problem | None:
    name = to.replace("%20", " ").removeprefix("photos/")
    if name in photos:
        return None
    remedies = (*did_you_mean(nearest(name, sorted(photos))), "put the picture into photos and write its file name")
    return error(span, "bad-link", f'no picture "{to}" in photos', *remedies)
