"""The weekly binder as one PDF: sections with index tabs, loose-leaf numbers, contents and bookmarks."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from itertools import takewhile

from markupsafe import Markup

from binder.pages.page import Binder, Page, Para, Section
from binder.press import links, picture, svg
from binder.press.blocks import blocks_html
from binder.press.holes import hole_marks
from binder.press.papers import PAPERS, Paper
from binder.press.picture import Picture
from binder.press.setting import Setting, environment
from binder.press.theme import Theme, css_string, font_faces, whole_sheet

# The longest side of a photo on paper: 90 mm at 300 dots an inch.
_PHOTO_PIXELS = 1063
_PHOTO_BYTES = 200_000
# Line ends between the parts of a table: they print nothing, and each would be laid out as a text.
_BETWEEN = re.compile(r"\n+(?=</?(?:col|colgroup|tbody|td|th|thead|tr)\b)")
_DRAWING_TYPE = re.compile(r"--drawing-type:\s*([\d.]+)pt")
PT_PER_MM = 72 / 25.4
_LONGEST_TAB_MM = 27.0
_FEWEST_TABS = 8


@dataclass(frozen=True, slots=True)
class Tab:
    """An index tab: a box turned by a quarter around its middle, so its margins place the middle, not the corner."""

    length_mm: float
    depth_mm: float
    drop_mm: float
    edge_mm: float  # margin towards the paper's edge
    text_mm: float  # margin towards the text


@dataclass(frozen=True, slots=True)
class Leaf:
    """A page of a section, set."""

    page: Page
    anchor: str
    body: Markup


@dataclass(frozen=True, slots=True)
class Part:
    """A section, set; `alone`: its only page has its title."""

    section: Section
    anchor: str
    alone: bool
    leaves: tuple[Leaf, ...]
    tab: Tab
    foot: Markup

    @property
    def facing(self) -> bool:
        """Whether a page of it is to fall on two pages that face each other."""
        return any(leaf.page.takes == 2 for leaf in self.leaves)


def binder_pdf(binder: Binder, theme: Theme, today: date, photos: Mapping[str, bytes]) -> bytes:
    """The binder drawn on its paper; `today` dates the file, `photos` are the pictures by file name."""
    from binder.press.drawing import drawn

    html, assets = binder_html(binder, theme, today, photos)
    return drawn(html, assets)


def binder_html(
    binder: Binder, theme: Theme, today: date, photos: Mapping[str, bytes]
) -> tuple[str, Mapping[str, bytes]]:
    """The document that is drawn, and the assets it names: fonts, drawings, photos."""
    templates = environment(theme)
    anchors = _anchors(binder)
    pictures = PaperPictures(photos)
    sheet = _style(theme, binder.paper)
    setting = Setting(
        "paper", lambda href: _address(href, anchors), pictures.find, lower=1,
        anchors=set(anchors.values()) | {_section_anchor(section) for section in binder.sections},
        heads="data-head" in sheet,
        units=_drawing_units(PAPERS[binder.paper], sheet),
    )  # fmt: skip
    opening = list(takewhile(lambda block: isinstance(block, Para), binder.front))
    parts = tuple(_part(section, binder, setting, anchors) for section in binder.sections)
    holes = hole_marks(binder.paper) if binder.hole_marks else {}
    html = templates.get_template("binder.html").render(
        binder=binder,
        paper=PAPERS[binder.paper],
        today=today.isoformat(),
        sheet=Markup(sheet),
        parts=parts,
        opening=blocks_html(opening, setting),
        front=blocks_html(binder.front[len(opening) :], setting),
        holes=sorted(holes),
    )
    fonts = {f"fonts/{name}": content for name, content in theme.fonts.items()}
    return _BETWEEN.sub("", html), {
        **fonts,
        **setting.drawings,
        **pictures.used,
        **{f"holes-{side}.svg": content for side, content in holes.items()},
    }


class PaperPictures:
    """The photos that the document names, made small enough for paper."""

    def __init__(self, photos: Mapping[str, bytes]) -> None:
        self._photos = photos
        self.used: dict[str, bytes] = {}

    def find(self, name: str) -> Picture | None:
        content = self._photos.get(name)
        if content is None:
            return None
        drawn = name.lower().endswith(".svg")
        light = svg.harmless(content) if drawn else picture.lighter(content, _PHOTO_PIXELS, _PHOTO_BYTES)
        if light is None:
            return None
        asset = f"photo-{len(self.used) + 1}.{'svg' if drawn else 'webp'}"
        self.used[asset] = light
        return Picture(asset, *(picture.size(light) or (None, None)))


def _style(theme: Theme, paper: str) -> str:
    sheets = (theme.css["print.css"], theme.css.get(f"paper-{paper}.css", ""))
    faces = font_faces(theme, lambda name: f"fonts/{name}")
    return "\n".join((faces, *(whole_sheet(theme, sheet) for sheet in sheets)))


def _drawing_units(paper: Paper, sheet: str) -> float:
    """The width of the text in twelfths of the size that the sheet asks for the type of drawings, the last one said."""
    asked = _DRAWING_TYPE.findall(sheet)
    return (paper.width_mm - paper.inner_mm - paper.outer_mm) * PT_PER_MM * 12 / float(asked[-1] if asked else 12)


def _section_anchor(section: Section) -> str:
    return f"section-{section.number}"


def _anchors(binder: Binder) -> Mapping[str, str]:
    """Each page's path to its anchor in the document."""
    pages = [(section, page) for section in binder.sections for page in section.pages]
    return {page.path: f"p{section.number}-{n}" for n, (section, page) in enumerate(pages, start=1)}


def _address(href: str, anchors: Mapping[str, str]) -> str | None:
    """Outside addresses stay; a page of the binder becomes its anchor; a page that is not in it is no link."""
    if links.is_outside(href):
        return href
    path = href.partition("#")[0] or href.removeprefix("#")
    anchor = anchors.get(path) or anchors.get(posixpath.normpath(path))
    return f"#{anchor}" if anchor else None


def _part(section: Section, binder: Binder, setting: Setting, anchors: Mapping[str, str]) -> Part:
    alone = len(section.pages) == 1 and section.pages[0].title == section.title
    leaves = []
    for page in section.pages:
        setting.begin(page.title)
        leaves.append(Leaf(page, anchors[page.path], blocks_html(page.blocks, setting)))
    foot = css_string(binder.household) if alone else Markup("string(leaf)")
    return Part(section, _section_anchor(section), alone, tuple(leaves), _tab(section, binder), foot)


def _tab(section: Section, binder: Binder) -> Tab:
    """The place of the tab: one step further down for each number, whether or not those before are there."""
    paper = PAPERS[binder.paper]
    count = max(_FEWEST_TABS, binder.last_section, *(other.number for other in binder.sections))
    place = section.number - 1
    step = (paper.height_mm - paper.top_mm - paper.bottom_mm) / count
    length, depth = min(step - 1, _LONGEST_TAB_MM), paper.tab_depth_mm
    edge = depth / 2 - length / 2
    return Tab(
        length_mm=round(length, 2),
        depth_mm=depth,
        drop_mm=round(place * step - edge, 2),
        edge_mm=round(edge, 2),
        text_mm=round(paper.outer_mm - length - edge, 2),
    )
