"""A page to give away, on paper."""

from __future__ import annotations

import io

import pikepdf
import pypdfium2
import pytest

from binder.pages.page import Page, Para, Photo, Run, plain
from binder.press.share_print import shared_document, shared_pdf
from tests.press import samples
from tests.press.test_share import noise

pytestmark = pytest.mark.pdf
PHOTOS = {"braise at the lake.png": noise(900)}
PAGE = Page(
    "braise.html", "Braise & more", "share",
    (Photo("braise at the lake.png", "Braise"), Para(plain("Stir.")),
     Para((Run("the week", "", "weeks/x/index.html"),))),
    subtitle="Dinner",
)  # fmt: skip


@pytest.fixture(scope="module")
def drawn() -> bytes:
    return shared_pdf(PAGE, samples.DEFAULT, "en", "a4", PHOTOS)


def test_words_paper_and_language(drawn: bytes) -> None:
    document = pypdfium2.PdfDocument(drawn)
    said = document[0].get_textpage().get_text_range()
    assert all(word in said for word in ("Braise & more", "Dinner", "Stir.", "the week"))
    assert (round(document[0].get_width()), round(document[0].get_height())) == (595, 842)
    with pikepdf.open(io.BytesIO(drawn)) as opened:
        assert str(opened.Root.Lang) == "en" and opened.Root.MarkInfo.Marked
        assert str(opened.docinfo["/Title"]) == "Braise & more"
        assert {"/CreationDate", "/ModDate", "/Author"} & set(opened.docinfo) == set()


def test_the_picture_is_inside_without_its_name(drawn: bytes) -> None:
    pictures = [one for one in pypdfium2.PdfDocument(drawn)[0].get_objects() if isinstance(one, pypdfium2.PdfImage)]
    assert len(pictures) == 1
    _, assets = shared_document(PAGE, samples.DEFAULT, "en", "a4", PHOTOS)
    assert [name for name in assets if not name.startswith("fonts/")] == ["photo-1.webp"]
    assert b"lake" not in drawn and b"secret place" not in drawn


def test_a_link_to_the_household_is_plain_words() -> None:
    html, _ = shared_document(PAGE, samples.DEFAULT, "en", "letter", {})
    assert "weeks/x" not in html and "<p>the week</p>" in html


def test_the_same_bytes_each_time(drawn: bytes) -> None:
    assert shared_pdf(PAGE, samples.DEFAULT, "en", "a4", PHOTOS) == drawn
