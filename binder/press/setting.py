"""The place a block is set in: levels of headings, anchors, addresses, pictures, screen or paper.

`blocks.py` says how each kind of block is marked up and asks the Setting what depends on the place.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, MutableMapping
from functools import lru_cache
from types import MappingProxyType
from typing import Literal

from jinja2 import DictLoader, StrictUndefined
from jinja2.sandbox import ImmutableSandboxedEnvironment
from markupsafe import Markup, escape

from binder.pages.page import Drawing, Run, Text
from binder.press import links
from binder.press.picture import Picture
from binder.press.prose import Surroundings, prose_html
from binder.press.text import escaped, fractions
from binder.press.theme import Theme, css_string

Medium = Literal["screen", "paper"]

NO_BREAK = "\u00a0"
# A quantity longer than this may break over lines.
_LONGEST_UNBROKEN = 22
_NUMBER_AND_UNIT = re.compile(r"(?<=[\d¼-¾⅐-⅞]) (?=[\d°]|[^\W\d_]{1,5}\b)")
_NOT_ANCHOR = re.compile(r"[^\w]+")
_PAPER_FAMILY = 'font-family="Counter Sans, DejaVu Sans, sans-serif"'
_SVG_OPEN = re.compile(r"<svg\b([^>]*)>")

_KINDS: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "": ("", ""),
        "strong": ("<strong>", "</strong>"),
        "em": ("<em>", "</em>"),
        "quantity": ('<span class="q">', "</span>"),
        "time": ('<span class="t">', "</span>"),
        "small": ("<small>", "</small>"),
        "mark": ('<b class="mark">', "</b>"),
        "nowrap": ('<span class="n">', "</span>"),
    }
)


def environment(theme: Theme) -> ImmutableSandboxedEnvironment:
    """The theme's templates, escaping by default, in Jinja's sandbox: a theme is not a program."""
    return _environment(tuple(sorted(theme.templates.items())))


@lru_cache(maxsize=4)
def _environment(templates: tuple[tuple[str, str], ...]) -> ImmutableSandboxedEnvironment:
    made = ImmutableSandboxedEnvironment(
        loader=DictLoader(dict(templates)),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.filters["css_string"] = css_string
    return made


class Setting:
    """One document while it is set. It remembers the level of the last heading and the anchors given away.

    `address` turns an allowed href into one that reads from here, or None where there is nothing to link to;
    `picture` finds a photo by its file name. `lower` moves all headings down by so many levels;
    `heads`: the style sheet may ask a cell for the head of its column. `units`: how wide the text is on paper where the
    type of a drawing measures twelve.
    """

    def __init__(
        self,
        medium: Medium,
        address: Callable[[str], str | None],
        picture: Callable[[str], Picture | None],
        lower: int = 0,
        anchors: set[str] | None = None,
        heads: bool = True,
        units: float = 0.0,
    ) -> None:
        self._address = address
        self.picture = picture
        self._lower = lower
        self._last_level = 1 + lower
        self._anchors = anchors if anchors is not None else set()
        self.paper = medium == "paper"
        self.heads = heads
        self.units = units
        self.title = self._last_heading = ""
        self._regions: dict[str, int] = {}
        self.headings: list[tuple[str, str]] = []  # anchors and words of those just below the title
        self.drawings: MutableMapping[str, bytes] = {}

    def begin(self, title: str) -> None:
        """A page of this title: headings start below it."""
        self.title = self._last_heading = title
        self._last_level = 1 + self._lower

    def level(self, wanted: int) -> int:
        """The level at which this heading is set: never more than one below the last."""
        self._last_level = min(wanted + self._lower, self._last_level + 1, 6)
        return self._last_level

    def is_said(self, caption: str) -> bool:
        """Whether the caption repeats the title or heading it stands under."""
        return caption in (self.title, self._last_heading)

    def region(self, name: str) -> str:
        """A region's name that no other has (WCAG 2.2, 2.4.1): of tables with one caption the second is numbered."""
        self._regions[name] = self._regions.get(name, 0) + 1
        return name if self._regions[name] == 1 else f"{name} ({self._regions[name]})"

    def below(self) -> int:
        """A level for a title inside a block; it does not count as the last heading."""
        return min(self._last_level + 1, 6)

    def anchor(self, text: str, wanted: str = "") -> str:
        """An id that no other element of the document has."""
        self._last_heading = text
        stem = wanted or _NOT_ANCHOR.sub("-", text.lower()).strip("-") or "part"
        name, count = stem, 1
        while name in self._anchors:
            count += 1
            name = f"{stem}-{count}"
        self._anchors.add(name)
        if self._last_level == 2 + self._lower:
            self.headings.append((name, text))
        return name

    def inline(self, text: Text) -> str:
        """Text as inline HTML."""
        if len(text) == 1:
            return self._run(text[0])
        return "".join([self._run(run) for run in text])

    def runs(self, text: Text) -> Markup:
        """The same for a template, which escapes what is not marked as HTML."""
        return Markup(self.inline(text))

    def href(self, href: str | None) -> str | None:
        """The address as it reads from here; None when it is not allowed or leads nowhere."""
        return self._address(href) if href and links.allowed(href) else None

    def link(self, href: str | None, words: Markup) -> Markup:
        """The words, linked when the address can be reached from here; for a template."""
        return Markup(self.linked(href, str(escape(words))))

    def linked(self, href: str | None, html: str) -> str:
        """Words that are HTML already, linked when the address can be reached from here."""
        here = self.href(href)
        if here is None:
            return html
        outside = ' rel="noopener noreferrer"' if links.is_outside(here) else ""
        return f'<a href="{escaped(here)}"{outside}>{html}</a>'

    def prose(self, markdown: str) -> str:
        """A person's own Markdown."""
        return prose_html(markdown, Surroundings(self._address, self.picture, self.below()))

    def bound(self, words: str) -> str:
        """Fractions set as such; on paper a number is kept on one line with the unit behind it."""
        return fractions(_NUMBER_AND_UNIT.sub(NO_BREAK, words) if self.paper else words)

    def unbroken(self, words: str) -> str:
        """The class that keeps a short quantity on one line."""
        return "q n" if len(words) <= _LONGEST_UNBROKEN else "q"

    def drawing(self, block: Drawing) -> str:
        """The binder's own SVG: on screen in the page, on paper as a picture with its words beside it."""
        if not self.paper:
            return _SVG_OPEN.sub(lambda match: _said(match, block.alt), block.svg, count=1)
        name = f"drawing-{len(self.drawings) + 1}.svg"
        # The widest that fits, so that its type comes out no smaller than it should; else the narrowest there is.
        fitting = [svg for width, svg in sorted(block.paper, reverse=True) if width <= self.units]
        narrowest = min(block.paper)[1] if block.paper else block.svg
        svg = fitting[0] if fitting else narrowest
        # A picture inherits nothing from the page, so that its family is the theme's only when it says so.
        self.drawings[name] = svg.replace('font-family="sans-serif"', _PAPER_FAMILY, 1).encode()
        return f'<img src="{name}" alt="{escaped(block.alt)}">'

    def _run(self, run: Run) -> str:
        words = fractions(run.text.replace(" °", f"{NO_BREAK}°") if self.paper else run.text)
        if "\n" in words:
            words = words.replace("\n", "<br>")
        if run.kind:
            opening, closing = _KINDS[run.kind]
            words = f"{opening}{words}{closing}"
        return self.linked(run.href, words) if run.href else words


def _said(opening: re.Match[str], words: str) -> str:
    """The SVG's opening tag with a name for readers, unless it has one."""
    if "role=" in opening[0]:
        return opening[0]
    return f'<svg role="img" aria-label="{escaped(words)}"{opening[1]}>'
