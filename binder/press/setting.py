"""Setting blocks: from the page's tree to HTML, one macro of the theme's `blocks.html` for each kind of block.

The macros say how a block is marked up; what depends on the place it stands in (levels of headings, addresses,
pictures, screen or paper) is asked of the Setting.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, MutableMapping, Sequence
from functools import lru_cache
from types import MappingProxyType
from typing import Any, Literal

from jinja2 import DictLoader, StrictUndefined
from jinja2.sandbox import ImmutableSandboxedEnvironment
from markupsafe import Markup, escape

from binder.pages.page import Block, Column, Drawing, Run, Table, Text
from binder.press import links, table
from binder.press.picture import Picture
from binder.press.prose import Surroundings, prose_html
from binder.press.theme import Theme, css_string

Medium = Literal["screen", "paper"]

NO_BREAK = "\u00a0"
# A quantity longer than this may break over lines.
_LONGEST_UNBROKEN = 22
_NUMBER_AND_UNIT = re.compile(r"(?<=[\d¼-¾⅐-⅞]) (?=[\d°]|[^\W\d_]{1,5}\b)")
# A fraction as a kitchen writes it; a date or a ratio is left as it is.
_FRACTION = re.compile(
    r"(?<![\d/.,])(?:1/(?:2|3|4|5|6|8|16)|2/(?:3|5)|3/(?:4|5|8|16)|4/5|5/(?:6|8|16)|[79]/16|7/8)(?![\d/])"
)
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
    `picture` finds a photo by its file name. `lower` moves all headings down by so many levels.
    """

    def __init__(
        self,
        macros: object,
        medium: Medium,
        address: Callable[[str], str | None],
        picture: Callable[[str], Picture | None],
        lower: int = 0,
        anchors: set[str] | None = None,
    ) -> None:
        self._macros = macros
        self._address = address
        self.picture = picture
        self._lower = lower
        self._last_level = 1 + lower
        self._anchors = anchors if anchors is not None else set()
        self.paper = medium == "paper"
        self.title = self._last_heading = ""
        self.headings: list[tuple[str, str]] = []  # anchors and words of those just below the title
        self.drawings: MutableMapping[str, bytes] = {}

    def blocks(self, blocks: Sequence[Block]) -> Markup:
        """The blocks, one after the other."""
        return Markup("").join(getattr(self._macros, type(block).__name__.lower())(block, self) for block in blocks)

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

    def runs(self, text: Text) -> Markup:
        """Text as inline HTML."""
        return Markup("".join([self._run(run) for run in text]))

    def href(self, href: str | None) -> str | None:
        """The address as it reads from here; None when it is not allowed or leads nowhere."""
        return self._address(href) if href and links.allowed(href) else None

    def link(self, href: str | None, words: Markup) -> Markup:
        """The words, linked when the address can be reached from here."""
        here = self.href(href)
        if here is None:
            return words
        outside = ' rel="noopener noreferrer"' if links.is_outside(here) else ""
        return Markup(f'<a href="{escape(here)}"{outside}>{escape(words)}</a>')

    def prose(self, markdown: str) -> Markup:
        """A person's own Markdown."""
        return prose_html(markdown, Surroundings(self._address, self.picture, self.below()))

    def bound(self, words: str) -> Markup:
        """Fractions set as such; on paper a number is kept on one line with the unit behind it."""
        return fractions(_NUMBER_AND_UNIT.sub(NO_BREAK, words) if self.paper else words)

    def unbroken(self, words: str) -> str:
        """The class that keeps a short quantity on one line."""
        return "q n" if len(words) <= _LONGEST_UNBROKEN else "q"

    def drawing(self, block: Drawing) -> Markup:
        """The binder's own SVG: on screen in the page, on paper as a picture with its words beside it."""
        if not self.paper:
            return Markup(_SVG_OPEN.sub(lambda match: _said(match, block.alt), block.svg, count=1))
        name = f"drawing-{len(self.drawings) + 1}.svg"
        # A picture inherits nothing from the page, so that its family is the theme's only when it says so.
        self.drawings[name] = block.svg.replace('font-family="sans-serif"', _PAPER_FAMILY, 1).encode()
        return Markup('<img src="{}" alt="{}">').format(name, block.alt)

    def room(self, block: Table) -> str:
        """What a table does where there is little room: `stack` its cells, `scroll`, or nothing."""
        return table.room(block)

    def table_class(self, block: Table) -> str:
        """The classes of a table: its kind, how it behaves when there is little room, and how its widths are found."""
        widths = "" if any(column.width for column in block.columns) else "auto"
        return " ".join(word for word in (block.kind, table.room(block), widths) if word)

    def column_class(self, column: Column) -> str:
        """The classes of a column's cells; the left one is not said."""
        return table.column_class(column)

    def rows(self, block: Table) -> Markup:
        """The table's bodies. There are thousands of cells, so they are not set by a macro each."""
        return table.bodies(block, self.runs, self.paper)

    def _run(self, run: Run) -> str:
        words = str(fractions(run.text))
        if "\n" in words:
            words = words.replace("\n", "<br>")
        opening, closing = _KINDS[run.kind]
        words = f"{opening}{words}{closing}"
        return str(self.link(run.href, Markup(words))) if run.href else words


def fractions(words: str) -> Markup:
    """The words, escaped, with `7/8` marked for the font's real fractions (the feature raises all other digits)."""
    text = str(escape(words))
    return Markup(_FRACTION.sub(r'<span class="fr">\g<0></span>', text) if "/" in text else text)


def _said(opening: re.Match[str], words: str) -> str:
    """The SVG's opening tag with a name for readers, unless it has one."""
    if "role=" in opening[0]:
        return opening[0]
    return Markup('<svg role="img" aria-label="{}"{}>').format(words, Markup(opening[1]))


def macros(templates: ImmutableSandboxedEnvironment) -> Any:
    """The macros of `blocks.html`."""
    return templates.get_template("blocks.html").module
