"""Everything that can be read out of a shared file: its name, its bytes, and what is packed inside them."""

from __future__ import annotations

import html
import io
import re
from base64 import b64decode
from collections.abc import Iterator
from dataclasses import dataclass

import pikepdf
import pypdfium2
from PIL import Image, ImageCms

_DATA = re.compile(r"data:([\w./+-]+);base64,([A-Za-z0-9+/=]+)")


@dataclass(frozen=True, slots=True)
class Opened:
    """A file taken apart: all its text without what parts words on lines, and what is read by people and programs."""

    letters: str
    read: str

    def has(self, secret: str) -> bool:
        """A word is looked for in every byte, however it is broken; a number, with or without its comma, in what is
        read: bytes that are no text are full of numbers."""
        if not secret[0].isdigit():
            return secret in self.letters
        pattern = re.escape(secret[0]) + ",?" + re.escape(secret[1:])
        return re.search(rf"(?<![\d.]){pattern}(?!\d)", self.read) is not None


def opened(name: str, raw: bytes) -> Opened:
    """In lower case: the file's name, its bytes, and what is packed inside them."""
    pdf = name.endswith(".pdf")
    read = [name, *(_read_of_pdf(raw) if pdf else _read_of_html(raw.decode()))]
    packed = _of_pdf(raw) if pdf else _of_packed(raw.decode())
    letters = re.sub(r"[\s\u00ad-]+", "", "\n".join([*read, *packed]))
    return Opened(letters.casefold(), "\n".join(read).casefold())


def _read_of_html(whole: str) -> Iterator[str]:
    bare = _DATA.sub("data:", whole)
    yield from (bare, html.unescape(bare))


def _of_packed(whole: str) -> Iterator[str]:
    for kind, packed in _DATA.findall(whole):
        if not kind.startswith("font/"):
            yield from _of_media(b64decode(packed))


def _read_of_pdf(raw: bytes) -> Iterator[str]:
    drawn = pypdfium2.PdfDocument(raw)
    yield from (page.get_textpage().get_text_range() for page in drawn)
    yield repr(drawn.get_metadata_dict())
    yield repr([bookmark.get_title() for bookmark in drawn.get_toc()])


def _of_pdf(raw: bytes) -> Iterator[str]:
    yield from _of_bytes(raw)
    with pikepdf.open(io.BytesIO(raw)) as document:
        for one in document.objects:
            yield from _of_object(one)


def _of_object(one: object) -> Iterator[str]:
    if isinstance(one, pikepdf.Stream):
        try:
            yield from _of_bytes(one.read_bytes())
        except pikepdf.PdfError:  # A picture in a format of its own.
            yield from _of_media(one.read_raw_bytes())
        one = one.stream_dict
    if isinstance(one, pikepdf.Dictionary):
        for key, value in one.items():
            yield key
            yield from () if _is_elsewhere(value) else _of_object(value)
    elif isinstance(one, pikepdf.Array):
        for value in one:
            yield from () if _is_elsewhere(value) else _of_object(value)
    elif isinstance(one, pikepdf.String | pikepdf.Name | str | bytes):
        yield str(one)
        yield from _of_bytes(bytes(one) if isinstance(one, pikepdf.String) else str(one).encode())


def _is_elsewhere(value: object) -> bool:
    """An object of its own, which is read at its own place."""
    return isinstance(value, pikepdf.Object) and value.is_indirect


def _of_media(raw: bytes) -> Iterator[str]:
    """A picture's bytes, and what they say besides pixels."""
    yield from _of_bytes(raw)
    try:
        with Image.open(io.BytesIO(raw)) as image:
            image.load()
            yield repr(sorted((str(key), repr(value)) for key, value in image.info.items()))
            exif = image.getexif()
            yield repr([dict(exif), dict(exif.get_ifd(0x8825)), dict(exif.get_ifd(0x8769))])
            if profile := image.info.get("icc_profile"):
                yield ImageCms.getProfileDescription(ImageCms.ImageCmsProfile(io.BytesIO(profile)))
    except OSError:
        pass  # A drawing, or no picture.


def _of_bytes(raw: bytes) -> Iterator[str]:
    """Bytes as text, in one and in two bytes a letter."""
    text = raw.decode("latin-1")
    yield text
    yield text.replace("\0", "")
