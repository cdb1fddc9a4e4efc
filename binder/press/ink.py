"""What a drawn PDF takes: pages, sheets printed on both sides, and ink."""

from __future__ import annotations

import re
import zlib
from dataclasses import dataclass
from importlib.util import find_spec

_STREAM = re.compile(rb"stream\r?\n")
_PAGES = re.compile(rb"/Type\s*/Pages\b[^>]*?/Count\s+(\d+)|/Count\s+(\d+)[^>]*?/Type\s*/Pages\b")
# The mean of a page's tones needs no more; glyphs come out grey instead of sharp.
_SCALE = 0.4


@dataclass(frozen=True, slots=True)
class Taken:
    """`ink` is the part of the paper's area that is covered, a tone counting by its depth; None where not measured."""

    pages: int
    ink: float | None

    @property
    def sheets(self) -> int:
        """Printed on both sides."""
        return -(-self.pages // 2)


def taken(pdf: bytes) -> Taken:
    """Pages as the file counts them; ink from the pages as drawn, where pypdfium2 is installed to draw them."""
    return Taken(page_count(pdf), _ink(pdf) if find_spec("pypdfium2") else None)


def page_count(pdf: bytes) -> int:
    """The count of the page tree (ISO 32000-1, 7.7.3.2), which lies in the open or in a compressed object stream."""
    parts = [pdf, *(_opened(pdf[match.end() :]) for match in _STREAM.finditer(pdf))]
    return max((int(m[1] or m[2]) for part in parts for m in _PAGES.finditer(part)), default=0)


def _opened(rest: bytes) -> bytes:
    """A compressed stream's content as far as it can be read."""
    try:
        return zlib.decompressobj().decompress(rest, 1_000_000)
    except zlib.error:
        return b""


def _ink(pdf: bytes) -> float:
    import pypdfium2  # Not depended on: it draws pages, which nothing else here needs.

    document = pypdfium2.PdfDocument(pdf)
    try:
        depths = []
        for page in document:
            histogram = page.render(scale=_SCALE, grayscale=True).to_pil().histogram()
            depths.append(sum((255 - tone) * count for tone, count in enumerate(histogram)) / (255 * sum(histogram)))
    finally:
        document.close()
    return float(sum(depths) / max(1, len(depths)))
