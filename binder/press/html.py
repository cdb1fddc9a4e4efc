"""The site: every page as HTML5 that opens from a folder, with relative links and no request to anywhere else."""

from __future__ import annotations

import json
import marshal
from collections.abc import Callable, Mapping
from dataclasses import asdict, dataclass, replace
from hashlib import sha256
from types import MappingProxyType
from urllib.parse import quote

from jinja2 import Template
from markupsafe import Markup

from binder.pages.page import FollowWords, Later, Page, Site
from binder.press import links
from binder.press.blocks import blocks_html
from binder.press.picture import Copy, Picture
from binder.press.search import INDEX, index_script
from binder.press.setting import Setting, environment
from binder.press.theme import Theme, font_faces

STYLE = "assets/style.css"
PHOTOS = "photos"
# Scripts that only one kind of page needs.
FOLLOWS, TIMED = "follow.js", " data-start="  # the script for timed rows, and what a page has that needs it
KINDS_WITH_A_SCRIPT = frozenset({"closing.js", "home.js"})
# A page with fewer headings than this is seen whole without a list of them.
_HEADINGS_WORTH_A_LIST = 4

Photos = Mapping[str, tuple[Copy, ...]]
_NO_PHOTOS: Photos = MappingProxyType({})
# The bytes under a key, or those that are made: what remembers pages from build to build.
Recall = Callable[[str, Callable[[], bytes]], bytes]


def anew(_: str, make: Callable[[], bytes]) -> bytes:
    """Remembers nothing."""
    return make()


@dataclass(frozen=True, slots=True)
class Tab:
    """One entry of the navigation as it reads from a page."""

    words: str
    href: str
    current: str  # "page", "true" (the page lies below it) or ""


def site_files(site: Site, theme: Theme, photos: Photos = _NO_PHOTOS, recall: Recall = anew) -> Mapping[str, bytes]:
    """Path below the site's folder to content: the pages, the style sheet, the fonts, the scripts, the pictures.

    `photos` (file name to its copies for the screen): a photo that is not among them is left out of the page.
    """
    known = {name: _picture(copies) for name, copies in photos.items() if copies}
    frame = environment(theme).get_template("page.html")
    scripts = frozenset(theme.scripts)
    # All that a page is set from, beside itself.
    around = repr((sorted(theme.templates.items()), sorted(scripts), sorted(known.items()), replace(site, pages=())))
    shared = sha256(around.encode()).hexdigest()

    def made(page: Page | Later) -> Mapping[str, bytes]:
        if isinstance(page, Page):
            return {page.path: recall(f"{shared} {page!r}", lambda: _page(page, site, frame, known, scripts))}
        later = page

        def packed() -> bytes:
            return marshal.dumps([(p.path, _page(p, site, frame, known, scripts)) for p in later.make()])

        return dict(marshal.loads(recall(f"{shared} {later.mark}", packed)))

    index = {INDEX: index_script(site)} if site.search else {}
    pictures = {f"{PHOTOS}/{copy.file}": copy.content for copies in photos.values() for copy in copies}
    pages = {path: raw for page in site.pages for path, raw in made(page).items()}
    return MappingProxyType({**pages, **asset_files(theme), **index, **pictures})


def asset_files(theme: Theme) -> Mapping[str, bytes]:
    """What all pages share: style sheet, fonts, scripts."""
    sheet = font_faces(theme, lambda name: f"fonts/{name}") + "\n" + theme.css["style.css"]
    return {
        STYLE: sheet.encode(),
        **{f"assets/fonts/{name}": content for name, content in theme.fonts.items()},
        **{f"assets/{name}": content.encode() for name, content in theme.scripts.items()},
    }


def scripts_of(page: Page, scripts: frozenset[str], timed: bool = False) -> tuple[str, ...]:
    """The scripts that a page loads: those of every page, the one that has the name of its kind, and, where rows of a
    table are timed, the one that follows the clock."""
    others = KINDS_WITH_A_SCRIPT - {f"{page.kind}.js"} | (frozenset() if timed else {FOLLOWS})
    return tuple(sorted(scripts - others))


def structured_markup(json: str) -> Markup:
    """JSON-LD for a script element: `<` is written as its escape, so that no text can end the element."""
    return Markup(json.replace("<", "\\u003c"))


def _picture(copies: tuple[Copy, ...]) -> Picture:
    """The widest, with the others beside it, by their addresses below the site's folder."""
    widest = copies[-1]
    addresses = tuple((f"{PHOTOS}/{quote(copy.file)}", copy.width) for copy in copies if copy.width)
    others = addresses if len(addresses) > 1 else ()
    return Picture(f"{PHOTOS}/{quote(widest.file)}", widest.width, widest.height, others)


def _page(
    page: Page,
    site: Site,
    frame: Template,
    photos: Mapping[str, Picture],
    scripts: frozenset[str],
) -> bytes:
    def address(href: str) -> str:
        return links.from_page(page.path, href)

    def photo(name: str) -> Picture | None:
        found = photos.get(name)
        if found is None:
            return None
        copies = tuple((address(source), width) for source, width in found.copies)
        return Picture(address(found.source), found.width, found.height, copies)

    setting = Setting("screen", address, photo, anchors={"main"})
    setting.begin(page.title)
    body = blocks_html(page.blocks, setting)
    timed = site.follow is not None and TIMED in body
    text = frame.render(
        site=site,
        page=page,
        s=setting,
        body=body,
        style=address(STYLE),
        scripts=tuple(address(f"assets/{name}") for name in scripts_of(page, scripts, timed)),
        root="../" * page.path.count("/"),
        search_index=INDEX,
        follow=_said(site.follow) if site.follow and timed else "",
        ticks=site.untick_word and 'type="checkbox"' in body,
        tabs=_tabs(page, site),
        contents=setting.headings if site.contents_word and len(setting.headings) >= _HEADINGS_WORTH_A_LIST else (),
        structured=structured_markup(page.structured) if page.structured else "",
    )
    return text.encode()


def _said(words: FollowWords) -> str:
    """Words for a script."""
    return json.dumps(asdict(words), ensure_ascii=False, sort_keys=True)


def _tabs(page: Page, site: Site) -> tuple[Tab, ...]:
    """The navigation; the tab whose folder the page lies in is the current one, else the last that leads to it."""
    paths = [path for _, path in site.nav]
    way = (crumb.href for crumb in reversed(page.crumbs) if crumb.href in paths and "/" in (crumb.href or ""))
    owner = max((path for path in paths if _owns(path, page.path)), key=len, default="") or next(way, "")
    return tuple(
        Tab(
            words,
            links.from_page(page.path, path),
            "page" if path == page.path else "true" if path == owner else "",
        )
        for words, path in site.nav
    )


def _owns(path: str, page_path: str) -> bool:
    folder = path.rpartition("/")[0]
    return path == page_path or (bool(folder) and page_path.startswith(f"{folder}/"))
