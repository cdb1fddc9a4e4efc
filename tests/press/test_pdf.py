from __future__ import annotations

import io
import logging
import re
from dataclasses import replace
from datetime import date
from functools import cache
from typing import Any

import pdfplumber
import pikepdf
import pypdfium2
import pytest

from binder.pages.page import Binder, Drawing, Page, Para, Photo, Prose, Run, Section
from binder.press.papers import PAPERS
from binder.press.pdf import binder_html, binder_pdf
from tests.press import samples

TODAY = date(2026, 6, 7)
MM = 25.4 / 72
PAPER = pytest.mark.parametrize("paper", PAPERS)


@cache
def made(paper: str = "letter", draft: str = "", large: bool = False) -> tuple[bytes, tuple[str, ...]]:
    """The sample binder drawn, and what was complained of while it was."""
    theme = samples.LARGE_PRINT if large else samples.DEFAULT
    said: list[str] = []
    handler = logging.Handler()
    handler.emit = lambda record: said.append(record.getMessage())  # type: ignore[method-assign]
    logging.getLogger("weasyprint").addHandler(handler)
    logging.getLogger("fontTools").addHandler(handler)
    try:
        content = binder_pdf(samples.binder(paper, draft), theme, TODAY, {"braise.png": samples.photo()})
    finally:
        logging.getLogger("weasyprint").removeHandler(handler)
        logging.getLogger("fontTools").removeHandler(handler)
    return content, tuple(said)


def drawn(paper: str = "letter", draft: str = "", large: bool = False) -> bytes:
    return made(paper, draft, large)[0]


@cache
def texts(content: bytes) -> list[str]:
    return [page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(content)]


@cache
def letters(content: bytes) -> list[list[dict[str, Any]]]:
    """Each page's characters with their places; blanks left out."""
    with pdfplumber.open(io.BytesIO(content)) as pdf:
        return [[c for c in page.chars if c["text"].strip()] for page in pdf.pages]


def numbers(content: bytes) -> list[str]:
    """The loose-leaf number at the foot of each page; "" on the front sheet."""
    return [(re.findall(r"(?:^| )(\d+-\d+)(?= |\r?$)", foot(text), re.M) or [""])[-1] for text in texts(content)]


def foot(text: str) -> str:
    lines = text.splitlines()
    return "\n".join(lines[-3:]) if any(re.match("Week 24 ·", line) for line in lines) else ""


def small(*pages: Page) -> Binder:
    return Binder("W", "K", "en", "letter", (Section(1, "a", "A", "A", pages),), "In it", "run")


@pytest.mark.pdf
@PAPER
def test_pages_have_the_papers_size(paper: str) -> None:
    for page in pypdfium2.PdfDocument(drawn(paper)):
        size = (page.get_width() * MM, page.get_height() * MM)
        assert size == pytest.approx((PAPERS[paper].width_mm, PAPERS[paper].height_mm), abs=0.1)


@pytest.mark.pdf
@PAPER
def test_every_section_is_there_numbered_from_one(paper: str) -> None:
    found = [number for number in numbers(drawn(paper)) if number]
    sections = [int(number.split("-")[0]) for number in found]
    assert sorted(set(sections)) == list(range(1, 15)) and sections == sorted(sections)
    for n in set(sections):
        leaves = [int(number.split("-")[1]) for number in found if number.startswith(f"{n}-")]
        assert leaves == list(range(1, len(leaves) + 1))


@pytest.mark.pdf
@PAPER
def test_the_contents_name_the_page_on_which_a_section_begins(paper: str) -> None:
    pages, found = texts(drawn(paper)), numbers(drawn(paper))
    contents = "\n".join(text for text, number in zip(pages, found, strict=True) if not number)
    for title, section in (("Shopping list", 2), ("Recipe cards", 5), ("Allergen matrix", 11), ("How it went", 14)):
        assert re.search(rf"{title}\s+{section}-1\b", contents), title
    card = re.search(r"Trout parcels\s+(5-\d+)", contents)
    assert card and "Trout parcels" in pages[found.index(card[1])]


@pytest.mark.pdf
@pytest.mark.parametrize("paper", ["letter", "half-letter"])
def test_the_gutter_is_on_the_bound_side_and_the_tab_at_the_edge(paper: str) -> None:
    measures = PAPERS[paper]
    numbered = numbers(drawn(paper))
    for n, page in enumerate(letters(drawn(paper)), start=1):
        upright = [c for c in page if c["upright"]]
        left = min(c["x0"] for c in upright) * MM
        right = measures.width_mm - max(c["x1"] for c in upright) * MM
        inner, outer = (left, right) if n % 2 else (right, left)
        assert inner >= measures.inner_mm - 0.5 and outer >= measures.outer_mm - 0.5, n
        tab = [c for c in page if is_in_tab(c, paper)]
        assert bool(tab) == bool(numbered[n - 1]), n
        assert all((c["x0"] * MM > measures.width_mm / 2) == bool(n % 2) for c in tab), n


def is_in_tab(char: dict[str, Any], paper: str = "letter") -> bool:
    edge = min(char["x0"] * MM, PAPERS[paper].width_mm - char["x1"] * MM)
    return not char["upright"] and edge < PAPERS[paper].tab_depth_mm


@pytest.mark.pdf
def test_tabs_step_down_the_page() -> None:
    tops: dict[int, float] = {}
    for page, number in zip(letters(drawn()), numbers(drawn()), strict=True):
        if number.endswith("-1"):
            tops[int(number.split("-")[0])] = min(c["top"] for c in page if is_in_tab(c))
    assert len(tops) == 14
    assert [tops[n] for n in sorted(tops)] == sorted(tops.values())


@pytest.mark.pdf
@pytest.mark.parametrize(("large", "least"), [(False, 12.0), (True, 18.0)])
def test_nothing_that_is_cooked_from_is_set_small(large: bool, least: float) -> None:
    upright = [[c for c in page if c["upright"]] for page in letters(drawn(large=large))]
    body = [c for page in upright for c in page if 20 / MM < c["top"] < PAPERS["letter"].height_mm / MM - 17 / MM]
    few = [c for c in body if c["size"] < least - 0.01]
    drawing = "".join(re.sub("<[^>]*>", " ", samples.SVG).split())
    if large:
        assert set("".join(c["text"] for c in few)) <= set(drawing) and len(few) <= len(drawing)
    else:
        # The matrix, the numbers, captions and sources are read at a table.
        assert min(c["size"] for c in few) > 10.4 and len(few) < 0.12 * len(body)
    steps = [c for page in upright for c in page if "simmer" in words_of(page) and c["text"] == "w"]
    assert max(c["size"] for c in steps) >= (18 if large else 14) - 0.01


def words_of(page: list[dict[str, Any]]) -> str:
    return "".join(c["text"] for c in page)


@pytest.mark.pdf
def test_steps_are_set_in_14_pt_and_times_larger() -> None:
    with pdfplumber.open(io.BytesIO(drawn())) as pdf:
        page = pdf.pages[numbers(drawn()).index("5-1")]
        sizes = {w["text"]: w["size"] for w in page.extract_words(extra_attrs=["size"])}
    assert sizes["Drain"] == pytest.approx(14, abs=0.01) and sizes["simmer"] == pytest.approx(14, abs=0.01)
    assert sizes["unattended"] == pytest.approx(15, abs=0.01) and sizes["tbsp"] == pytest.approx(15, abs=0.01)


@pytest.mark.pdf
def test_bookmarks_are_two_deep_and_lead_there() -> None:
    with pikepdf.open(io.BytesIO(drawn())) as pdf, pdf.open_outline() as outline:
        titles = [item.title for item in outline.root]
        cards = next(item for item in outline.root if item.title == "Recipe cards")
        assert titles[0] == "Week 24, 2026" and len(titles) == 15
        assert [item.title for item in cards.children] == list(samples.DISHES[:3])
        assert all(not child.children for item in outline.root for child in item.children)


@pytest.mark.pdf
@PAPER
def test_no_step_or_ingredient_is_split_and_cards_open_on_their_own_page(paper: str) -> None:
    pages = texts(drawn(paper))
    flat = [" ".join(text.replace("\u00a0", " ").split()) for text in pages]
    for whole in ("the last 10 min. 50 min, unattended · burner", "Fold the beans and 1 cup of their water under."):
        assert any(whole in text for text in flat), whole
    for dish in samples.DISHES[1:3]:
        assert any(re.match(rf".*Recipe cards (5-\d )?{dish}", text) for text in flat), dish


@pytest.mark.pdf
def test_the_file_is_tagged_titled_and_dated_by_the_edition() -> None:
    """PDF/UA-1 (ISO 14289-1): marked, a title that is shown, a language, words for pictures, headers of tables."""
    with pikepdf.open(io.BytesIO(drawn())) as pdf:
        root = pdf.Root
        assert bool(root.MarkInfo.Marked) and bool(root.ViewerPreferences.DisplayDocTitle)
        assert str(root.Lang) == "en" and str(pdf.docinfo["/Title"]) == "Week 24, 2026 · The Harbour Lane kitchen"
        assert str(pdf.docinfo["/CreationDate"]).startswith("D:20260607")
        assert b"<pdfuaid:part>1" in root.Metadata.read_bytes() or b'pdfuaid:part="1"' in root.Metadata.read_bytes()
        kinds = [element.get("/S") for element in pdf.objects if isinstance(element, pikepdf.Dictionary)]
        figures = [e for e in pdf.objects if isinstance(e, pikepdf.Dictionary) and e.get("/S") == "/Figure"]
        assert {"/H1", "/H2", "/H3", "/TH", "/Table", "/L", "/Figure", "/Link"} <= {str(kind) for kind in kinds}
        assert figures and all(str(figure.get("/Alt", "")) for figure in figures)


@pytest.mark.pdf
def test_each_head_of_a_table_says_what_it_is_the_head_of() -> None:
    """PDF/UA-1, 7.5: heads have a scope (ISO 32000-1, 14.8.5.7); read back through the tag tree from its root."""
    found: list[tuple[str, str, str]] = []

    def walk(element: pikepdf.Object, above: tuple[str, ...]) -> None:
        if not isinstance(element, pikepdf.Dictionary) or "/S" not in element:
            return
        if str(element.S) == "/TH":
            found.append((above[-2], str(element.A.get("/Scope", "none")), "across" if "/ColSpan" in element.A else ""))
        kids = element.get("/K", pikepdf.Array())
        for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
            walk(kid, (*above, str(element.S)))

    with pikepdf.open(io.BytesIO(drawn())) as pdf:
        for child in pdf.Root.StructTreeRoot.K:
            walk(child, ())
    assert set(found) == {
        ("/THead", "/Column", ""), ("/TBody", "/Row", ""), ("/TBody", "/Column", "across"),
    }  # fmt: skip
    assert len(found) > 50


@pytest.mark.pdf
def test_fonts_are_the_themes_embedded_and_not_type_3() -> None:
    with pikepdf.open(io.BytesIO(drawn())) as pdf:
        fonts = [e for e in pdf.objects if isinstance(e, pikepdf.Dictionary) and e.get("/Type") == "/Font"]
        files = [e for e in pdf.objects if isinstance(e, pikepdf.Dictionary) and e.get("/Type") == "/FontDescriptor"]
    assert fonts and all(font.get("/Subtype") != "/Type3" for font in fonts)
    assert files and all("/FontFile2" in one or "/FontFile3" in one for one in files)
    assert all("Counter" in str(one.FontName) for one in files)


@pytest.mark.pdf
def test_the_same_bytes_each_time_and_a_small_file() -> None:
    again = binder_pdf(samples.binder(), samples.DEFAULT, TODAY, {"braise.png": samples.photo()})
    assert again == drawn() and len(again) < 1_500_000


@pytest.mark.pdf
@pytest.mark.parametrize("large", [False, True])
def test_draft_stands_on_every_page_and_only_then(large: bool) -> None:
    assert all("DRAFT" in text for text in texts(drawn(draft="DRAFT", large=large)))
    assert not any("DRAFT" in text for text in texts(drawn()))


@pytest.mark.pdf
@pytest.mark.parametrize("large", [False, True])
@pytest.mark.parametrize("paper", ["letter", "half-letter"])
def test_drawing_has_nothing_to_complain_of(paper: str, large: bool) -> None:
    assert made(paper, large=large)[1] == ()


def test_a_link_leads_to_the_page_in_the_binder_or_is_no_link() -> None:
    there = Page("recipes/a/index.html", "A", "recipe", ())
    here = Page("b", "B", "recipe", (
        Para((Run("a", "", "recipes/a/index.html#x"), Run("c", "", "recipes/c/index.html"))),
        Prose("[out](https://example.org/) [in](recipes/a/index.html) [none](weeks/x.html)"),
    ))  # fmt: skip
    html, _ = binder_html(small(there, here), samples.DEFAULT, TODAY, {})
    assert html.count('<a href="#p1-1">') == 2 and "recipes/c" not in html and "weeks/x" not in html
    assert '<a href="https://example.org/" rel="noopener noreferrer">out</a>' in html


def test_a_fold_is_printed_only_when_it_says_so_and_a_missing_photo_is_left_out() -> None:
    html, assets = binder_html(small(Page("a", "A", "recipe", (Photo("x.png", "X"),))), samples.DEFAULT, TODAY, {})
    assert "<img" not in html and not any(name.startswith("photo") for name in assets)
    html, _ = binder_html(samples.binder(), samples.DEFAULT, TODAY, {})
    assert "SR28 16049" not in html


def test_a_photo_goes_in_without_what_was_written_beside_its_pixels() -> None:
    _, assets = binder_html(samples.binder(), samples.DEFAULT, TODAY, {"braise.png": samples.photo()})
    assert [name for name in assets if name.startswith("photo")] == [f"photo-{n}.webp" for n in (1, 2, 3, 4)]


def test_a_drawing_is_taken_in_the_width_at_which_its_type_is_as_large_as_asked_for() -> None:
    """12 pt, in large print 18; on half a page in large print the narrowest there is comes nearest."""
    forms = tuple((width, f'<svg width="{width}"/>') for width in (478, 304, 200))
    page = Page("a", "A", "run-sheet", (Drawing("<svg/>", "busy", "", forms),))
    for paper, theme, wanted in (
        ("letter", samples.DEFAULT, 478), ("a4", samples.DEFAULT, 478), ("half-letter", samples.DEFAULT, 304),
        ("a5", samples.DEFAULT, 304), ("letter", samples.LARGE_PRINT, 304), ("a4", samples.LARGE_PRINT, 304),
        ("half-letter", samples.LARGE_PRINT, 200), ("a5", samples.LARGE_PRINT, 200),
    ):  # fmt: skip
        _, assets = binder_html(replace(small(page), paper=paper), theme, TODAY, {})
        assert f'width="{wanted}"'.encode() in assets["drawing-1.svg"], (paper, wanted)
        measures = PAPERS[paper]
        printed = (measures.width_mm - measures.inner_mm - measures.outer_mm) / MM / wanted * 12
        assert printed >= (12 if theme is samples.DEFAULT else 18)
