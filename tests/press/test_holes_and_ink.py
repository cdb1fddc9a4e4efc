"""Marks to punch by, and what a PDF takes."""

from __future__ import annotations

import io
from dataclasses import replace
from datetime import date

import pdfplumber
import pypdfium2
import pytest

from binder.press.drawing import drawn
from binder.press.holes import places_mm
from binder.press.ink import page_count, taken
from binder.press.papers import PAPERS
from binder.press.pdf import binder_pdf
from tests.press import samples

TODAY = date(2026, 6, 7)
MM = 25.4 / 72


def test_two_holes_lie_80_mm_apart_and_12_mm_from_the_edge() -> None:
    """ISO 838:1974 (from memory): 80 +- 0.5 mm, 12 +- 1 mm, symmetrical to the middle of the sheet."""
    for paper in ("a4", "a5"):
        (x1, y1), (x2, y2) = places_mm(paper)
        assert (x1, x2) == (12, 12) and y2 - y1 == 80 and (y1 + y2) / 2 == PAPERS[paper].height_mm / 2


def test_three_holes_on_papers_in_inches() -> None:
    """4 1/4 in on letter, 2 3/4 in on half of it: common practice, from memory."""
    for paper, apart in (("letter", 4.25), ("half-letter", 2.75)):
        ys = [y for _, y in places_mm(paper)]
        assert ys[1] == PAPERS[paper].height_mm / 2
        assert (ys[2] - ys[1], ys[1] - ys[0]) == pytest.approx((apart * 25.4, apart * 25.4))


def test_no_hole_touches_the_text() -> None:
    """Holes are 6 mm wide (ISO 838), in inches up to 9/32 in (common practice, from memory)."""
    for paper, measures in PAPERS.items():
        assert all(x + 9 / 64 * 25.4 < measures.inner_mm - 1 for x, _ in places_mm(paper))


@pytest.mark.pdf
@pytest.mark.parametrize("paper", ["a4", "half-letter"])
def test_marks_are_drawn_in_the_gutter_of_both_sides(paper: str) -> None:
    content = binder_pdf(replace(samples.binder(paper), hole_marks=True), samples.DEFAULT, TODAY, {})
    width = PAPERS[paper].width_mm
    with pdfplumber.open(io.BytesIO(content)) as pdf:
        for n, page in enumerate(pdf.pages[:4], start=1):
            marks = [c for c in page.curves + page.lines if abs(c["width"] * MM - 3) < 0.1 and c["height"] * MM < 3.2]
            found = {(round(m["x0"] * MM + 1.5, 1), round((m["top"] + m["bottom"]) / 2 * MM, 1)) for m in marks}
            for x, y in places_mm(paper):
                at = x if n % 2 else width - x
                assert any(abs(at - fx) < 0.15 and abs(y - fy) < 0.15 for fx, fy in found), (n, at, y, found)
    bare = binder_pdf(samples.binder(paper), samples.DEFAULT, TODAY, {})
    assert len(bare) < len(content)


@pytest.mark.pdf
def test_pages_are_counted_as_a_reader_counts_them() -> None:
    for html in ("<p>one", "<p>one<p style='break-before: page'>two", "<p style='break-before: page'>x" * 40):
        content = drawn(f"<html lang=en><title>t</title>{html}", {})
        assert page_count(content) == len(pypdfium2.PdfDocument(content))
    assert page_count(b"no PDF") == 0


@pytest.mark.pdf
def test_ink_is_the_part_of_the_paper_that_is_covered() -> None:
    def ink(css: str) -> float:
        page = f"<style>@page {{ size: 100mm; margin: 0 }}</style><div style='{css}; width: 100mm; height: 50mm'></div>"
        found = taken(drawn(f"<html lang=en><title>t</title>{page}", {})).ink
        assert found is not None
        return found

    assert ink("") == 0
    assert ink("background: #000") == pytest.approx(0.5, abs=0.01)
    assert ink("background: #808080") == pytest.approx(0.25, abs=0.01)
