"""A page to give away: one HTML file with its style, fonts and picture inside, and nothing else of the household.

Only the page handed over is set. A link to another page of the household is set as plain words, since it would say
what else there is and would lead nowhere.
"""

from __future__ import annotations

from collections.abc import Mapping

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


def shared_html(page: Page, theme: Theme, language: str, photos: Mapping[str, bytes]) -> bytes:
    """The page as one self-contained file of less than 400 KB.

    Pictures are drawn anew without their metadata, as large as the room allows; one that finds no room is left out.
    """
    bare = _set(page, theme, language, {})
    room = max(MOST_BYTES - len(bare) - _ROOM, 0) * 3 // 4
    pictures = _light(photos, room // max(len(photos), 1))
    return _set(page, theme, language, pictures) if pictures else bare


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


def _set(page: Page, theme: Theme, language: str, pictures: Mapping[str, Picture]) -> bytes:
    templates = environment(theme)
    setting = Setting("screen", _outside, pictures.get)
    setting.begin(page.title)
    faces = font_faces(theme, lambda name: data_address(theme.fonts[name], "font/woff2"))
    text = templates.get_template("share.html").render(
        page=page,
        language=language,
        style=Markup(f"{faces}\n{theme.css['style.css']}"),
        structured=structured_markup(page.structured) if page.structured else "",
        body=blocks_html(page.blocks, setting),
    )
    return text.encode()


def _outside(href: str) -> str | None:
    return href if links.is_outside(href) or href.startswith("#") else None
