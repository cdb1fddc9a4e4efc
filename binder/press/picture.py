"""Pictures: their size for the page, and a lighter copy for a file that must be small."""

from __future__ import annotations

import io
import re
import warnings
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass

from PIL import Image, ImageCms, ImageOps

from binder.press import svg

_TYPES = {
    "jpg": "image/jpeg",
    "jpeg": "image/jpeg",
    "png": "image/png",
    "webp": "image/webp",
    "avif": "image/avif",
    "svg": "image/svg+xml",
}
_FORMATS = {"jpg": "JPEG", "jpeg": "JPEG", "png": "PNG", "webp": "WEBP", "avif": "AVIF"}
_BOX = re.compile(rb"""<svg\b[^>]*?\bviewBox\s*=\s*["']\s*[\d.+-]+[\s,]+[\d.+-]+[\s,]+([\d.]+)[\s,]+([\d.]+)""")
# A small file that unpacks to more pixels is an attack, not a photo of a dish.
_MOST_PIXELS = 60_000_000
# Widths of the screen's copies: a phone, and the widest a picture is set on a desk, each twice as sharp as CSS pixels.
WIDTHS = (480, 960)
_UNREADABLE = (OSError, ValueError, SyntaxError, Image.DecompressionBombError, Image.DecompressionBombWarning)


@dataclass(frozen=True, slots=True)
class Picture:
    """Where a picture is found and, when known, how many pixels it has; `copies`: address and width of others."""

    source: str
    width: int | None = None
    height: int | None = None
    copies: tuple[tuple[str, int], ...] = ()


@dataclass(frozen=True, slots=True)
class Copy:
    """A file of the site made from a picture; width and height in pixels where they are known."""

    file: str
    width: int | None
    height: int | None
    content: bytes


def media_type(name: str) -> str:
    """The media type by the ending of the file's name."""
    return _TYPES.get(name.rpartition(".")[2].lower(), "application/octet-stream")


def size(content: bytes) -> tuple[int, int] | None:
    """Width and height in pixels, upright; None when the content is no picture that is known here."""
    if match := _BOX.search(content[:4096]):
        return max(1, round(float(match[1]))), max(1, round(float(match[2])))
    try:
        with _opened(content) as image:
            width, height = image.size
            turned = image.getexif().get(0x0112, 1) >= 5  # Exif 2.32, Orientation: 5 to 8 lie on their side
    except _UNREADABLE:
        return None
    return (height, width) if turned else (width, height)


def lighter(content: bytes, longest: int, most_bytes: int) -> bytes | None:
    """The picture as a WebP of at most `longest` pixels and `most_bytes` bytes, its metadata left behind.

    The pixels go to a new image, so that no comment, place or thumbnail comes along. None when it is no picture
    that can be read, or when it cannot be made that small.
    """
    try:
        upright = _upright(content, "RGB")
    except _UNREADABLE:
        return None
    while longest >= 240:
        bare = Image.new("RGB", upright.size)
        bare.paste(upright)
        bare.thumbnail((longest, longest))
        out = io.BytesIO()
        bare.save(out, "WEBP", quality=78, method=4)
        if out.tell() <= most_bytes:
            return out.getvalue()
        longest = longest * 3 // 4
    return None


def bare(name: str, content: bytes) -> bytes:
    """The picture upright and as pixels alone, in the format its name says; b"" when it is no picture.

    Comments, places, thumbnails and profiles stay behind; a drawing loses what could run or fetch.
    """
    kind = name.rpartition(".")[2].lower()
    if kind == "svg":
        return svg.harmless(content) or b""
    out = io.BytesIO()
    try:
        upright = _upright(content, "RGB" if kind in ("jpg", "jpeg") else "")
        pixels = Image.new(upright.mode, upright.size)
        pixels.paste(upright)
        pixels.save(out, _FORMATS[kind], quality=85)
    except (*_UNREADABLE, KeyError):
        return b""
    return out.getvalue()


def screen_copies(name: str, content: bytes) -> tuple[Copy, ...]:
    """The picture for the site, narrowest first: as WebP in two widths, pixels alone; a drawing as it is, harmless.

    Nothing is made larger than it was. () when it is no picture that can be read.
    """
    if name.lower().endswith(".svg"):
        clean = svg.harmless(content)
        width, height = (size(clean) if clean else None) or (None, None)
        return (Copy(name, width, height, clean),) if clean else ()
    try:
        whole = _upright(content)
    except _UNREADABLE:
        return ()
    stem = name.replace(".", "-")
    return tuple(_copy(stem, whole, width) for width in sorted({min(width, whole.width) for width in WIDTHS}))


def _copy(stem: str, whole: Image.Image, width: int) -> Copy:
    height = max(1, round(whole.height * width / whole.width))
    pixels = Image.new(whole.mode, (width, height))
    pixels.paste(whole.resize((width, height), Image.Resampling.LANCZOS))
    out = io.BytesIO()
    pixels.save(out, "WEBP", quality=80, method=4)
    return Copy(f"{stem}-{width}.webp", width, height, out.getvalue())


def _upright(content: bytes, mode: str = "") -> Image.Image:
    """The picture as it is looked at, in sRGB; without a mode that is asked for, see-through where it is."""
    with _opened(content) as image:
        clear = image.mode in ("RGBA", "LA", "PA") or "transparency" in image.info
        turned = ImageOps.exif_transpose(image)
        profile = image.info.get("icc_profile")
        upright = turned.convert(mode or ("RGBA" if clear else "RGB"))
    if profile and turned.mode in ("RGB", "RGBA"):
        with suppress(ImageCms.PyCMSError, OSError):  # A profile that cannot be read is none.
            given = ImageCms.ImageCmsProfile(io.BytesIO(profile))
            srgb = ImageCms.createProfile("sRGB")
            ImageCms.profileToProfile(upright, given, srgb, inPlace=True)
    return upright


@contextmanager
def _opened(content: bytes) -> Iterator[Image.Image]:
    with warnings.catch_warnings():
        warnings.simplefilter("error", Image.DecompressionBombWarning)
        with Image.open(io.BytesIO(content)) as image:
            if image.width * image.height > _MOST_PIXELS:
                raise ValueError("more pixels than a photo has")
            yield image
