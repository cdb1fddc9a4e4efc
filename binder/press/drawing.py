"""Drawing a PDF. Loading this module loads WeasyPrint (400 ms), so it is imported where a PDF is drawn.

WeasyPrint fetches nothing by itself: what a document names is looked up among the assets handed over, `data:`
addresses are read, and anything else ends the drawing.
"""

from __future__ import annotations

import gc
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from hashlib import sha256
from typing import Any

from weasyprint import HTML
from weasyprint.text.fonts import FontConfiguration
from weasyprint.urls import FatalURLFetchingError, URLFetcher, URLFetcherResponse

from binder.press.picture import media_type

# Names of assets are relative to this; `.invalid` never resolves (RFC 2606).
BASE = "http://press.invalid/"


class OnlyAssets(URLFetcher):  # type: ignore[misc]
    """Fetches the assets of one document by name, and `data:` addresses; everything else is fatal."""

    def __init__(self, assets: Mapping[str, bytes]) -> None:
        super().__init__(allowed_protocols=("data",), allow_redirects=False)
        self._assets = assets

    def fetch(self, url: str, headers: Mapping[str, str] | None = None) -> URLFetcherResponse:
        """The asset of that name; FatalURLFetchingError for anything that was not handed over."""
        if url.startswith("data:"):
            return super().fetch(url, headers)
        content = self._assets.get(url.removeprefix(BASE)) if url.startswith(BASE) else None
        if content is None:
            raise FatalURLFetchingError(f"not an asset of this document: {url[:200]}")
        return URLFetcherResponse(url, content, {"Content-Type": media_type(url)})


def drawn(html: str, assets: Mapping[str, bytes]) -> bytes:
    """The document as a tagged PDF (PDF/UA-1, ISO 14289-1); the same text and assets give the same bytes."""
    fonts = FontConfiguration()
    with _collector_off():
        document = HTML(string=html, base_url=BASE, url_fetcher=OnlyAssets(assets))
        content = document.write_pdf(
            finisher=_tagged_anew,
            font_config=fonts,
            pdf_variant="pdf/ua-1",
            pdf_identifier=_identifier(html, assets),
        )
    return bytes(content)


def _tagged_anew(_: Any, pdf: Any) -> None:
    """Mends the tags of tables, which WeasyPrint 70 leaves without what a screen reader goes by."""
    _scoped(pdf)
    _listed(pdf)


# What the parts of a table without heads are: a list, its items and what they say (ISO 32000-1, 14.8.4.3.3).
_AS_LIST = {"/Table": "/L", "/TBody": "/L", "/TR": "/LI", "/TD": "/LBody"}


def _listed(pdf: Any) -> None:
    """Tables that are set as lines and show no heads are lists: nothing would say what their columns are."""
    below: dict[int, list[int]] = {}
    for number, element in enumerate(pdf.objects):
        if isinstance(element, dict) and element.get("Type") == "/StructElem":
            below.setdefault(int(bytes(element["P"]).split()[0]), []).append(number)

    def family(number: int) -> list[int]:
        return [number, *(inner for child in below.get(number, []) for inner in family(child))]

    for number, element in enumerate(pdf.objects):
        if isinstance(element, dict) and element.get("S") == "/Table":
            inside = [pdf.objects[n] for n in family(number)]
            kinds = {one.get("S") for one in inside}
            if "/TR" not in kinds:
                element["S"] = "/Div"
            elif "/TH" not in kinds:
                for one in inside:
                    one["S"] = _AS_LIST.get(one.get("S"), one.get("S"))


def _scoped(pdf: Any) -> None:
    """Says of each head of a table what it is the head of, which WeasyPrint 70 leaves out (ISO 32000-1, table 349).

    A head in a row of heads is a column's; so is one across the table, of the rows below it; any other is a row's.
    """

    def parent(element: Any) -> Any:
        return pdf.objects[int(bytes(element["P"]).split()[0])]

    heads = [o for o in pdf.objects if isinstance(o, dict) and o.get("S") == "/TH" and "A" in o]
    for head in heads:
        of_column = parent(parent(head)).get("S") == "/THead" or "ColSpan" in head["A"]
        head["A"]["Scope"] = "/Column" if of_column else "/Row"


def _identifier(html: str, assets: Mapping[str, bytes]) -> bytes:
    mark = sha256(html.encode())
    for name in sorted(assets):
        mark.update(name.encode() + b"\0" + assets[name])
    return mark.hexdigest()[:32].encode()


@contextmanager
def _collector_off() -> Iterator[None]:
    """Layout makes millions of objects and few cycles: without the collector it takes a quarter less time."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()
