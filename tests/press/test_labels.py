from __future__ import annotations

import io
import logging
from dataclasses import replace
from datetime import date
from itertools import pairwise

import pdfplumber
import pypdfium2
import pytest
import zxingcpp

from binder.pages.other_files import LabelPages, RegistrationSheet
from binder.press.labels import Geometry, cut_marks_mm, fitted, labels_pdf
from binder.press.registration import Place, registration_pdf, scales
from tests.press import samples

TODAY = date(2026, 6, 7)
INCH = 25.4
# The label sheets by grid and size, from the blank stock's dimensions.
SHEETS = {
    "letter 3x10": Geometry((8.5 * INCH, 11 * INCH), (2.625 * INCH, INCH), 3 / 16 * INCH, INCH / 2, INCH / 8, 0, 3, 10),
    "letter 2x5": Geometry(
        (8.5 * INCH, 11 * INCH), (4 * INCH, 2 * INCH), 5 / 32 * INCH, INCH / 2, 3 / 16 * INCH, 0, 2, 5
    ),
    "a4 3x7": Geometry((210, 297), (63.5, 38.1), 7.2, 15.15, 2.5, 0, 3, 7),
    "a4 2x7": Geometry((210, 297), (99.1, 38.1), 4.65, 15.15, 2.5, 0, 2, 7),
}
TAPE = Geometry((62, 29), (62, 29), 0, 0, 0, 0, 1, 1)


def drawn(name: str, **more: object) -> bytes:
    geometry = SHEETS[name]
    pages = samples.label_pages(geometry.columns, geometry.rows)
    return labels_pdf(pages, geometry, samples.DEFAULT, TODAY, **more)  # type: ignore[arg-type]


def mm(points: float) -> float:
    return points * INCH / 72


@pytest.mark.pdf
@pytest.mark.parametrize("name", SHEETS)
def test_every_label_lies_where_the_sheet_says_to_a_tenth_of_a_millimetre(name: str) -> None:
    geometry = SHEETS[name]
    with pdfplumber.open(io.BytesIO(drawn(name, outlines=True))) as pdf:
        (page,) = pdf.pages
        assert (mm(page.width), mm(page.height)) == pytest.approx(geometry.page_mm, abs=0.1)
        edges = sorted({(round(mm(r["x0"]), 2), round(mm(r["top"]), 2)) for r in page.rects})
        words = [w for w in page.extract_words() if w["text"] == "Fennel"]
    wanted = [geometry.corner_mm(r + 1, c + 1) for r in range(geometry.rows) for c in range(geometry.columns)]
    for x, y in wanted:
        assert any(abs(x - left) <= 0.1 and abs(y - top) <= 0.1 for left, top in edges), (x, y)
    places = sorted((round(mm(w["top"])), mm(w["x0"]), mm(w["top"])) for w in words)
    assert len(places) == len(wanted)
    x0, y0 = places[0][1] - wanted[0][0], places[0][2] - wanted[0][1]
    assert 1.5 < x0 < 2.5 and 0 < y0 < 4
    for (x, y), (_, left, top) in zip(wanted, places, strict=True):
        assert left - x == pytest.approx(x0, abs=0.1) and top - y == pytest.approx(y0, abs=0.1)


@pytest.mark.pdf
def test_calibration_moves_everything_by_as_much() -> None:
    geometry = replace(SHEETS["a4 3x7"], offset_mm=(1.5, -0.7))
    places = []
    for one in (SHEETS["a4 3x7"], geometry):
        with pdfplumber.open(io.BytesIO(labels_pdf(samples.label_pages(3, 1), one, samples.DEFAULT, TODAY))) as pdf:
            places.append([(mm(w["x0"]), mm(w["top"])) for w in pdf.pages[0].extract_words()])
    for (x1, y1), (x2, y2) in zip(*places, strict=True):
        assert (x2 - x1, y2 - y1) == pytest.approx((1.5, -0.7), abs=0.05)


@pytest.mark.pdf
@pytest.mark.parametrize("name", SHEETS)
def test_no_word_leaves_its_label_and_none_is_under_7_pt(name: str) -> None:
    geometry = SHEETS[name]
    contains = "Contains milk, eggs, fish (trout), tree nuts (almonds, hazelnuts), wheat, soybeans, sesame, peanuts"
    one = replace(samples.label(1, 1, contains=contains), title="Slow roasted roots with barley and pickles " * 3)
    pages = LabelPages("Labels", "en", name, 1, (one, replace(one, row=geometry.rows, column=geometry.columns)))
    with pdfplumber.open(io.BytesIO(labels_pdf(pages, geometry, samples.DEFAULT, TODAY))) as pdf:
        chars = [c for c in pdf.pages[0].chars if c["text"].strip()]
    width, height = geometry.label_mm
    corners = [geometry.corner_mm(1, 1), geometry.corner_mm(geometry.rows, geometry.columns)]
    assert len(chars) > 200
    for c in chars:
        assert c["size"] >= 6.99
        assert any(
            x <= mm(c["x0"]) and mm(c["x1"]) <= x + width and y <= mm(c["top"]) and mm(c["bottom"]) <= y + height
            for x, y in corners
        ), c["text"]


@pytest.mark.pdf
def test_a_label_says_one_fact_a_line_in_the_order_people_look() -> None:
    pages = LabelPages("Labels", "en", "letter 3x10", 1, (samples.label(2, 2),))
    pdf = pypdfium2.PdfDocument(labels_pdf(pages, SHEETS["letter 3x10"], samples.DEFAULT, TODAY))
    assert pdf[0].get_textpage().get_text_range().split("\r\n") == [
        "Fennel and white bean braise", "Eat by Thu 11 June", "Oskar", "Contains milk, wheat",
        "Microwave 700 W, 3 min 35 s", "380 g · 24-07",
    ]  # fmt: skip


@pytest.mark.pdf
def test_the_code_is_read_back_from_the_drawn_sheet() -> None:
    """ISO/IEC 18004, by an independent reader, at 300 dots an inch."""
    address = "https://example.org/kitchen/recipes/fennel-and-white-bean-braise/index.html"
    content = drawn("letter 3x10", addresses=(address, None, address))
    image = pypdfium2.PdfDocument(content)[0].render(scale=300 / 72).to_pil()
    found = zxingcpp.read_barcodes(image)
    assert [one.text for one in found] == [address, address]


@pytest.mark.pdf
def test_tape_has_a_page_for_each_label_and_sheets_follow_each_other() -> None:
    labels = tuple(samples.label(1, 1, sheet=n) for n in (1, 2, 3))
    pdf = pypdfium2.PdfDocument(labels_pdf(LabelPages("Labels", "en", "tape", 3, labels), TAPE, samples.DEFAULT, TODAY))
    assert len(pdf) == 3
    assert (mm(pdf[0].get_width()), mm(pdf[0].get_height())) == pytest.approx((62, 29), abs=0.1)


@pytest.mark.pdf
def test_the_same_bytes_each_time_and_no_complaint(caplog: pytest.LogCaptureFixture) -> None:
    with caplog.at_level(logging.WARNING):
        assert drawn("a4 2x7", addresses=("https://example.org/",)) == drawn(
            "a4 2x7", addresses=("https://example.org/",)
        )
    assert caplog.messages == []


@pytest.mark.pdf
def test_a_draft_says_so_on_every_sheet() -> None:
    pages = samples.label_pages(3, 1, draft="DRAFT")
    pdf = pypdfium2.PdfDocument(labels_pdf(pages, SHEETS["letter 3x10"], samples.DEFAULT, TODAY))
    assert "DRAFT" in pdf[0].get_textpage().get_text_range()


def test_a_place_beyond_the_sheet_is_a_fault() -> None:
    for row, column in ((0, 1), (11, 1), (1, 4)):
        with pytest.raises(ValueError, match="no label"):
            SHEETS["letter 3x10"].corner_mm(row, column)


def test_what_lost_words_is_named() -> None:
    label = replace(samples.label(1, 1), title="Fennel braise " * 30)
    assert fitted(label, SHEETS["letter 3x10"], samples.DEFAULT).shortened == ("title",)
    assert fitted(samples.label(1, 1), SHEETS["letter 3x10"], samples.DEFAULT).shortened == ()


def tape(width: float, length: float = 0.0) -> Geometry:
    return Geometry((width, length), (width, length), 0, 0, 0, 0, 1, 1)


@pytest.mark.pdf
@pytest.mark.parametrize("width", [18, 24, 38, 62, 102])
def test_on_tape_a_label_is_as_long_as_its_words_need(width: float) -> None:
    long = replace(samples.label(1, 1, sheet=2), title="Slow roasted roots with barley and pickles", contains=ALL)
    pages = LabelPages("Labels", "en", f"tape {width} mm", 2, (samples.label(1, 1), long))
    with pdfplumber.open(io.BytesIO(labels_pdf(pages, tape(width), samples.DEFAULT, TODAY))) as pdf:
        assert len(pdf.pages) == 2
        sizes = [(mm(page.width), mm(page.height)) for page in pdf.pages]
        for page in pdf.pages:
            chars = [c for c in page.chars if c["text"].strip()]
            assert min(c["size"] for c in chars) >= 6.99
            assert max(mm(c["x1"]) for c in chars) <= mm(page.width) - 1.5
            assert max(mm(c["bottom"]) for c in chars) <= mm(page.height) - 0.5
            assert "Contains" in page.extract_text()
    across, along = (0, 1) if width >= 38 else (1, 0)
    assert [size[across] for size in sizes] == pytest.approx([width, width], abs=0.1)
    assert sizes[1][along] > sizes[0][along]


ALL = "Contains milk, eggs, fish (trout), tree nuts (almonds, hazelnuts), wheat, soybeans, sesame, peanuts"


@pytest.mark.pdf
def test_on_tape_of_a_stated_length_each_label_has_it_and_a_code_finds_room() -> None:
    pages = LabelPages("Labels", "en", "tape", 1, (samples.label(1, 1),))
    for place, size in ((tape(62, 40), (62, 40)), (tape(62), (62, None))):
        content = labels_pdf(pages, place, samples.DEFAULT, TODAY, addresses=("https://example.org/k",))
        page = pypdfium2.PdfDocument(content)[0]
        assert mm(page.get_width()) == pytest.approx(size[0], abs=0.1)
        assert size[1] is None or mm(page.get_height()) == pytest.approx(size[1], abs=0.1)
        (found,) = zxingcpp.read_barcodes(page.render(scale=300 / 72).to_pil())
        assert found.text == "https://example.org/k"


@pytest.mark.pdf
@pytest.mark.parametrize("name", SHEETS)
def test_cut_marks_stand_beside_each_edge_and_on_no_label(name: str) -> None:
    place = SHEETS[name]
    corners = [place.corner_mm(r + 1, c + 1) for r in range(place.rows) for c in range(place.columns)]
    xs = {round(x + far, 1) for x, _ in corners for far in (0, place.label_mm[0])}
    ys = {round(y + far, 1) for _, y in corners for far in (0, place.label_mm[1])}
    with pdfplumber.open(io.BytesIO(drawn(name, cut_marks=True))) as pdf:
        lines = [(mm(r["x0"]), mm(r["top"]), mm(r["x1"]), mm(r["bottom"])) for r in pdf.pages[0].rects]
    marks = [one for one in lines if min(one[2] - one[0], one[3] - one[1]) < 0.2 and max(one[2:]) > 0]
    upright = {round(x0 + (x1 - x0) / 2, 1) for x0, y0, x1, y1 in marks if 1 < y1 - y0 < 5 and x1 - x0 < 0.2}
    level = {round(y0 + (y1 - y0) / 2, 1) for x0, y0, x1, y1 in marks if 1 < x1 - x0 < 5 and y1 - y0 < 0.2}
    assert all(any(abs(x - one) <= 0.11 for one in upright) for x in xs), (xs, upright)
    assert all(any(abs(y - one) <= 0.11 for one in level) for y in ys), (ys, level)
    for left, top, width, height in cut_marks_mm(place):
        assert all(
            left + width <= x or left >= x + place.label_mm[0] or top + height <= y or top >= y + place.label_mm[1]
            for x, y in corners
        )


@pytest.mark.pdf
@pytest.mark.parametrize("place", [*SHEETS.values(), tape(62)])
def test_the_test_sheet_outlines_every_position_and_has_a_scale_in_millimetres(place: Geometry) -> None:
    sheet = RegistrationSheet("Test sheet", "en", "Print at 100 %.")
    with pdfplumber.open(io.BytesIO(registration_pdf(sheet, place, samples.DEFAULT, TODAY))) as pdf:
        (page,) = pdf.pages
        words = [w["text"] for w in page.extract_words()]
    count = place.rows * place.columns
    assert {str(n) for n in range(1, count + 1)} <= set(words)
    ticks = scales(Place(1, *place.corner_mm(1, 1)))
    across = sorted(left for left, _, width, _ in ticks if not width)
    assert place.corner_mm(1, 1)[0] in across
    assert all(b - a == pytest.approx(1) for a, b in pairwise(across))
