"""A page to give away: one HTML file with its style, fonts and picture inside, and nothing else of the household.

Only the page handed over is set. A link to another page of the household is set as plain words, since it would say
what else there is and would lead nowhere.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from hashlib import sha256

from markupsafe import Markup

from binder.pages.page import Page
from binder.press import links, picture, svg
from binder.press.blocks import blocks_html
from binder.press.html import structured_markup
from binder.press.picture import Picture
from binder.press.setting import Setting, environment
from binder.press.theme import Theme, data_address, font_faces

MOST_BYTES = 400_000
_PICTURE_PIXELS = 1200
# Base64 takes four bytes for three; a kilobyte is kept for what stands around the picture.
_ROOM = 1_000


@dataclass(frozen=True, slots=True)
class Sheet:
    """The style of every shared page, fonts inside, and the stretch that stands for it until it is put in."""

    text: str
    place: str

    def laid_in(self, page: bytes) -> bytes:
        """A page set by `shared_words` as it is given away."""
        return page.replace(self.place.encode(), self.text.encode(), 1)


def sheet_of(theme: Theme) -> Sheet:
    """The style of what is given away, fonts inside, and a mark that stands in for it until it is laid in."""
    faces = font_faces(theme, lambda name: data_address(theme.fonts[name], "font/woff2"))
    text = f"{faces}\n{theme.css['style.css']}"
    # No text of a page can hold it: the hash of the style is not known before the style is.
    return Sheet(text, f"/*{sha256(text.encode()).hexdigest()}*/")


def shared_html(page: Page, theme: Theme, language: str, photos: Mapping[str, bytes]) -> bytes:
    """The page as one self-contained file of less than 400 KB.

    Pictures are drawn anew without their metadata, as large as the room allows; one that finds no room is left out.
    """
    sheet = sheet_of(theme)
    return sheet.laid_in(shared_words(page, theme, sheet, language, photos))


def shared_words(page: Page, theme: Theme, sheet: Sheet, language: str, photos: Mapping[str, bytes]) -> bytes:
    """The page with its pictures, before its style is laid in: what many pages share need not be kept with each."""
    bare = _set(page, theme, sheet, language, {})
    room = max(MOST_BYTES - len(bare) - len(sheet.text) - _ROOM, 0) * 3 // 4
    pictures = _light(photos, room // max(len(photos), 1))
    return _set(page, theme, sheet, language, pictures) if pictures else bare


def _light(photos: Mapping[str, bytes], most_bytes: int) -> Mapping[str, Picture]:
    found: dict[str, Picture] = {}
    for name, content in photos.items():
        if name.lower().endswith(".svg"):
            clean = svg.harmless(content)
            light = clean if clean and len(clean) <= most_bytes else None
            kind = "image/svg+xml"
        else:
            light, kind = picture.lighter(content, _PICTURE_PIXELS, most_bytes), "image/webp"
        if light is not None:
            found[name] = Picture(data_address(light, kind), *(picture.size(light) or (None, None)))
    return found


def _set(page: Page, theme: Theme, sheet: Sheet, language: str, pictures: Mapping[str, Picture]) -> bytes:
    templates = environment(theme)
    setting = Setting("screen", outside_only, pictures.get)
    setting.begin(page.title)
    text = templates.get_template("share.html").render(
        page=page,
        language=language,
        style=Markup(sheet.place),
        structured=structured_markup(page.structured) if page.structured else "",
        body=blocks_html(page.blocks, setting),
    )
    return text.encode()


def outside_only(href: str) -> str | None:
    """Addresses that may stand in a page to give away: those of others, and those within it."""
    return href if links.is_outside(href) or href.startswith("#") else None
