from __future__ import annotations

import io
import logging
import re
from datetime import date
from functools import cache

import pdfplumber
import pikepdf
import pypdfium2
import pytest

from binder.pages.page import Binder, Page, Para, Photo, Prose, Run, Section
from binder.press.pdf import PAPERS, binder_html, binder_pdf
from tests.press import samples

TODAY = date(2026, 6, 7)
MM = 25.4 / 72
PAPER = pytest.mark.parametrize("paper", PAPERS)


@cache
def drawn(paper: str = "letter", draft: str = "", large: bool = False) -> bytes:
    theme = samples.LARGE_PRINT if large else samples.DEFAULT
    return binder_pdf(samples.binder(paper, draft), theme, TODAY, {"braise.png": samples.photo()})


def texts(content: bytes) -> list[str]:
    return [page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(content)]


def numbers(content: bytes) -> list[str]:
    """The loose-leaf number of each page: the last of its kind on the page that stands alone on a line."""
    return [(re.findall(r"^\d+-\d+\r?$", text, re.MULTILINE) or [""])[-1].strip() for text in texts(content)]


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
    contents = "".join(text for text, number in zip(pages, found, strict=True) if not re.search("^Week 24 ·", text))
    for title, section in (("Shopping list", 2), ("Recipe cards", 5), ("Allergen matrix", 11), ("How it went", 14)):
        assert re.search(rf"{title}\s+{section}-1\b", contents), title
    card = re.search(r"Trout parcels\s+(5-\d+)", contents)
    assert card and "Trout parcels" in pages[found.index(card[1])]


@pytest.mark.pdf
@PAPER
def test_the_gutter_is_on_the_bound_side_and_the_tab_at_the_edge(paper: str) -> None:
    measures = PAPERS[paper]
    with pdfplumber.open(io.BytesIO(drawn(paper))) as pdf:
        for n, page in enumerate(pdf.pages, start=1):
            upright = [w for w in page.extract_words() if w["upright"]]
            left = min(w["x0"] for w in upright) * MM
            right = (page.width - max(w["x1"] for w in upright)) * MM
            inner, outer = (left, right) if n % 2 else (right, left)
            assert inner >= measures.inner_mm - 0.5 and outer >= measures.outer_mm - 0.5, n
            turned = [c for c in page.chars if not c["upright"] and c["text"].strip()]
            edge = [c for c in turned if min(c["x0"], page.width - c["x1"]) * MM < measures.tab_depth_mm]
            assert bool(edge) == (n > 2 or bool(re.search("^Week 24 ·", page.extract_text()))), n
            assert all((c["x0"] > page.width / 2) == bool(n % 2) for c in edge), n


@pytest.mark.pdf
def test_tabs_step_down_the_page() -> None:
    tops: dict[int, float] = {}
    with pdfplumber.open(io.BytesIO(drawn())) as pdf:
        for page, number in zip(pdf.pages, numbers(drawn()), strict=True):
            turned = [
                c["top"] for c in page.chars if not c["upright"] and min(c["x0"], page.width - c["x1"]) * MM < 9.5
            ]
            if number.endswith("-1"):
                tops[int(number.split("-")[0])] = min(turned)
    assert len(tops) == 14
    assert [tops[n] for n in sorted(tops)] == sorted(tops.values())


@pytest.mark.pdf
@pytest.mark.parametrize(("large", "least", "step"), [(False, 12.0, 14.0), (True, 18.0, 18.0)])
def test_nothing_that_is_cooked_from_is_set_small(large: bool, least: float, step: float) -> None:
    with pdfplumber.open(io.BytesIO(drawn(large=large))) as pdf:
        chars = [c for page in pdf.pages for c in page.chars if c["upright"] and c["text"].strip()]
        words = [
            w for page in pdf.pages for w in page.extract_words(extra_attrs=["size"])
            if w["text"] in ("simmer", "Brown", "Scatter")
        ]  # fmt: skip
        body = [
            c for page in pdf.pages for c in page.chars
            if c["upright"] and c["text"].strip() and 20 / MM < c["top"] < page.height - 17 / MM
        ]  # fmt: skip
    assert words and all(w["size"] >= step - 0.01 for w in words)
    # The matrix, the numbers, captions and sources are read at a table.
    assert min(c["size"] for c in body) >= (least if large else 10.4)
    share = sum(c["size"] < least - 0.01 for c in body) / len(body)
    assert share < (0.001 if large else 0.12)
    assert large is False or min(c["size"] for c in chars) >= 17.9


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
        assert any(re.match(rf".*Recipe cards {dish}", text) for text in flat)


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
    assert binder_pdf(samples.binder(), samples.DEFAULT, date(2026, 6, 8), {}) != again


@pytest.mark.pdf
@pytest.mark.parametrize("large", [False, True])
def test_draft_stands_on_every_page_and_only_then(large: bool) -> None:
    assert all("DRAFT" in text for text in texts(drawn(draft="DRAFT", large=large)))
    assert not any("DRAFT" in text for text in texts(drawn()))


@pytest.mark.pdf
@pytest.mark.parametrize("large", [False, True])
@PAPER
def test_drawing_has_nothing_to_complain_of(paper: str, large: bool, caplog: pytest.LogCaptureFixture) -> None:
    with caplog.at_level(logging.WARNING):
        binder_pdf(
            samples.binder(paper), samples.LARGE_PRINT if large else samples.DEFAULT, TODAY,
            {"braise.png": samples.photo()},
        )  # fmt: skip
    assert caplog.messages == []


def test_a_link_leads_to_the_page_in_the_binder_or_is_no_link() -> None:
    there = Page("recipes/a/index.html", "A", "recipe", ())
    here = Page("b", "B", "recipe", (
        Para((Run("a", "", "recipes/a/index.html#x"), Run("c", "", "recipes/c/index.html"))),
        Prose("[out](https://example.org/) [in](recipes/a/index.html) [none](weeks/x.html)"),
    ))  # fmt: skip
    html, _ = binder_html(small(there, here), samples.DEFAULT, TODAY, {})
    assert html.count('<a href="#p1-1">') == 3 and "recipes/c" not in html and "weeks/x" not in html
    assert '<a href="https://example.org/" rel="noopener noreferrer">out</a>' in html


def test_a_fold_is_printed_only_when_it_says_so_and_a_missing_photo_is_left_out() -> None:
    html, assets = binder_html(small(Page("a", "A", "recipe", (Photo("x.png", "X"),))), samples.DEFAULT, TODAY, {})
    assert "<img" not in html and not any(name.startswith("photo") for name in assets)
    html, _ = binder_html(samples.binder(), samples.DEFAULT, TODAY, {})
    assert "SR28 16049" not in html


def test_a_photo_goes_in_without_what_was_written_beside_its_pixels() -> None:
    _, assets = binder_html(samples.binder(), samples.DEFAULT, TODAY, {"braise.png": samples.photo()})
    assert [name for name in assets if name.startswith("photo")] == [f"photo-{n}.webp" for n in (1, 2, 3, 4)]
