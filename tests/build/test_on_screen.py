"""The built demo in Chromium: searching, ticking, the counter, the keyboard, a phone's targets, printing."""

from __future__ import annotations

import io
import re
from collections.abc import Callable
from pathlib import Path

import pdfplumber
import pypdfium2
import pytest
from playwright.sync_api import Browser, BrowserContext, Page

from tests.demo import WEEK, needs_browser

pytestmark = [needs_browser, pytest.mark.browser]
RECIPE = "recipes/beef-ragu-polenta/index.html"
SHOPPING = f"weeks/{WEEK}/shopping/index.html"
SHOWN = (
    "index.html", f"weeks/{WEEK}/index.html", SHOPPING, f"weeks/{WEEK}/run-sheet/index.html",
    f"weeks/{WEEK}/packing/index.html", "weeks/index.html", "recipes/index.html", RECIPE, "foods/egg/index.html",
    "freezer/index.html", f"weeks/{WEEK}/how-it-went/index.html", "years/2026/index.html",
)  # fmt: skip
# WCAG 2.2, 2.5.5: 44 CSS pixels; what is drawn around a box to tick belongs to it.
SMALL = """() => [...document.querySelectorAll('nav a, .crumbs a, .plain > li > a:first-child, tbody th > a:only-child,'
    + ' summary, label, button,'
    + ' input[type=search], td.tick input')]
  .filter(e => e.getClientRects().length && !e.closest('[hidden]'))
  .map(e => [e, e.getBoundingClientRect(), e.type === 'checkbox' ? getComputedStyle(e, '::before') : null])
  .filter(([e, box, around]) => Math.max(box.height, around ? parseFloat(around.height) : 0) < 44)
  .map(([e]) => e.outerHTML)"""

Open = Callable[..., Page]


@pytest.fixture
def opened(demo: Path, context: BrowserContext) -> Open:
    def open_(path: str) -> Page:
        page = context.new_page()
        page.goto((demo / "site" / path).as_uri())
        return page

    return open_


# Rows in which a box to tick reaches into what stands beside it, or into the head before that.
COVERED = """() => [...document.querySelectorAll('.stack:not(.packing) tr:has(> td.tick input)')]
  .filter(row => row.getClientRects().length)
  .filter(row => {
    const box = row.querySelector('input').getBoundingClientRect()
    return [...row.cells].slice(1).filter(cell => cell.getClientRects().length)
      .some(cell => cell.getClientRects()[0].left < box.right)
  }).map(row => row.innerText)"""


@pytest.mark.parametrize("page", ["kits", "shopping", "run-sheet", "pull", "mise"])
def test_on_a_phone_a_box_to_tick_lies_on_no_word(opened: Open, page: str) -> None:
    shown = opened(f"weeks/{WEEK}/{page}/index.html")
    assert shown.locator(".stack td.tick input").count() > 0
    assert shown.evaluate(COVERED) == []


# ---- searching ----


def searched(page: Page, words: str) -> list[str]:
    """The first lines found, as they are read."""
    page.locator("input[type=search]").fill(words)
    page.wait_for_function("document.querySelector('[role=status]').textContent")
    return [" ".join(link.split()) for link in page.locator(".results a").all_inner_texts()]


def test_a_mistake_in_typing_and_another_form_of_a_word_find_the_dish(opened: Open) -> None:
    page = opened(SHOPPING)
    assert searched(page, "bef raguu")[0].startswith("Beef and mushroom ragù on soft polenta")
    assert searched(page, "mushrooms ragu")[0].startswith("Beef and mushroom ragù on soft polenta")
    assert searched(page, "pancake buckweat")[0].startswith("Buckwheat and banana pancakes")


def test_a_dish_is_found_by_a_food_in_it_and_says_so(opened: Open) -> None:
    page = opened("index.html")
    found = searched(page, "rhubarb")
    assert found[0].endswith("food") and any(line.endswith("recipe") for line in found)
    assert any("recipe · " in line for line in searched(page, "dinner mushroom"))


def test_what_is_nowhere_is_not_found_and_what_is_partly_there_is_said(opened: Open) -> None:
    page = opened("index.html")
    assert searched(page, "qqqqqq") == []
    assert page.locator("[role=status]").inner_text() == "Nothing found."
    assert searched(page, "rhubarb qqqqqq")
    page.wait_for_function("document.querySelector('[role=status]').textContent.startsWith('Nothing has all')")


def test_the_search_is_worked_by_keys_alone(opened: Open) -> None:
    page = opened(SHOPPING)
    page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.type") == "search"
    page.wait_for_function("self.siteIndex")
    page.keyboard.type("lentil soup")
    page.keyboard.press("ArrowDown")
    page.keyboard.press("ArrowDown")
    page.keyboard.press("ArrowUp")
    assert page.evaluate("document.activeElement.textContent").startswith("Red lentil soup")
    page.keyboard.press("Escape")
    assert page.evaluate("document.activeElement.type") == "search" and page.locator(".results a").count() == 0
    page.keyboard.press("ArrowDown")
    page.keyboard.press("ArrowDown")
    page.keyboard.press("Enter")
    page.wait_for_url("**/recipes/red-lentil-soup/index.html")


def test_every_page_that_can_be_found_is_there(demo: Path, opened: Open) -> None:
    """The script makes the same addresses of the index as the site has files."""
    page = opened("index.html")
    page.locator("input[type=search]").focus()
    page.wait_for_function("self.siteIndex")
    index = page.evaluate("self.siteIndex")
    count = sum(rows.count("\n") + 1 for *_, rows in index["groups"])
    seen = set()
    # Letters that between them begin or continue every title.
    for words in [row.split("\t")[0] for *_, rows in index["groups"] for row in rows.split("\n")][::9]:
        searched(page, words)
        seen |= {link.get_attribute("href") or "" for link in page.locator(".results a").all()}
    assert count > 150 and len(seen) > 30
    assert [href for href in seen if not (demo / "site" / href).is_file()] == []


def test_without_scripts_there_is_no_box_and_every_list_is_whole(demo: Path, browser: Browser) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto((demo / "site/recipes/index.html").as_uri())
    assert not page.locator("[role=search]").is_visible() and not page.locator("button").count()
    assert page.locator("table.recipes tbody tr").count() == len(list((demo / "site/recipes").glob("*/index.html")))
    context.close()


# ---- ticks ----


def test_ticks_stay_on_the_page_they_were_made_on(opened: Open) -> None:
    page = opened(SHOPPING)
    boxes = page.locator("main input[type=checkbox]")
    assert boxes.count() > 20 and not page.locator("[data-untick]").is_visible()
    boxes.nth(3).check()
    page.reload()
    assert [n for n in range(boxes.count()) if boxes.nth(n).is_checked()] == [3]
    other = opened("index.html").locator("main input[type=checkbox]")
    assert not any(other.nth(n).is_checked() for n in range(other.count()))
    page.locator("[data-untick]").click()
    page.reload()
    assert not any(boxes.nth(n).is_checked() for n in range(boxes.count()))


def test_the_same_line_on_another_day_is_not_ticked(opened: Open) -> None:
    page = opened("index.html")
    page.locator("main input[type=checkbox]").first.check()
    kept = page.evaluate("Object.values(localStorage)[0]")
    assert re.match(r'\["Sunday 7 June / ', kept)


def test_ticks_work_where_nothing_is_kept(demo: Path, context: BrowserContext) -> None:
    context.add_init_script(
        "Object.defineProperty(self, 'localStorage', {get() { throw new DOMException('no', 'SecurityError') }})"
    )
    page = context.new_page()
    faults: list[str] = []
    page.on("pageerror", lambda fault: faults.append(str(fault)))
    page.goto((demo / "site" / SHOPPING).as_uri())
    page.locator("main input[type=checkbox]").first.check()
    assert page.locator("[data-untick]").is_visible() and faults == []


# ---- the counter ----

_LOCK = """navigator.wakeLock.request = async () => { self.asked = (self.asked || 0) + 1;
  return {release() { self.released = (self.released || 0) + 1 }} }"""


def test_a_page_for_the_counter_keeps_the_screen_on_when_asked_to(demo: Path, context: BrowserContext) -> None:
    context.add_init_script(_LOCK)
    page = context.new_page()
    page.goto((demo / "site" / RECIPE).as_uri())
    button = page.locator("[data-awake]")
    button.click()
    assert button.get_attribute("aria-pressed") == "true" and page.evaluate("self.asked") == 1
    # The browser lets go of a hidden page; when it is seen again the lock is asked for again.
    page.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
    assert page.evaluate("self.asked") == 2
    button.click()
    assert button.get_attribute("aria-pressed") == "false" and page.evaluate("self.released") >= 1


def test_a_refusal_is_shown_and_a_browser_without_the_lock_has_no_button(demo: Path, context: BrowserContext) -> None:
    context.add_init_script("navigator.wakeLock.request = async () => { throw new Error('low battery') }")
    page = context.new_page()
    page.goto((demo / "site" / RECIPE).as_uri())
    page.locator("[data-awake]").click()
    page.wait_for_function("document.querySelector('[data-awake]').getAttribute('aria-pressed') === 'false'")
    context.add_init_script("Object.defineProperty(Navigator.prototype, 'wakeLock', {get: () => undefined})")
    page.reload()
    assert not page.locator("[data-awake]").is_visible()


# ---- phone and keyboard ----


@pytest.mark.parametrize("path", SHOWN)
def test_what_is_touched_is_44_pixels_high_on_a_phone(opened: Open, path: str) -> None:
    assert opened(path).evaluate(SMALL) == []


@pytest.mark.parametrize(
    "path",
    ["index.html", f"weeks/{WEEK}/index.html", SHOPPING, f"weeks/{WEEK}/run-sheet/index.html", "weeks/index.html",
     "recipes/index.html", RECIPE, "foods/index.html", "foods/egg/index.html", "freezer/index.html"],
)  # fmt: skip
def test_tab_goes_through_the_page_in_its_order_and_is_always_seen(opened: Open, path: str) -> None:
    page = opened(path)
    order = []
    for _ in range(40):
        page.keyboard.press("Tab")
        at = page.evaluate(
            """() => { const e = document.activeElement; if (e === document.body) return null;
              const all = [...document.querySelectorAll('*')], s = getComputedStyle(e), b = e.getBoundingClientRect();
              return [all.indexOf(e), s.outlineStyle !== 'none' && parseFloat(s.outlineWidth) >= 2,
                b.width > 0 && b.right > 0 && b.bottom > 0 && b.top < innerHeight, e.outerHTML.slice(0, 90)] }"""
        )
        if at is None:
            break
        order.append(at)
    assert len(order) > 12
    assert [at[0] for at in order] == sorted({at[0] for at in order})
    assert [at[3] for at in order if not (at[1] and at[2])] == []


# WCAG 2.2, 1.4.12: what a reader may set, and what must still be read.
SPACED = """* { line-height: 1.5 !important; letter-spacing: .12em !important; word-spacing: .16em !important }
  p { margin-bottom: 2em !important }"""


@pytest.mark.parametrize("path", [*SHOWN, f"weeks/{WEEK}/reheating/index.html", f"weeks/{WEEK}/numbers/index.html"])
def test_a_page_at_320_pixels_needs_no_sideways_scrolling_even_with_spaced_text(opened: Open, path: str) -> None:
    """WCAG 2.2, 1.4.10: 320 CSS pixels, which is a desk's 1280 at 400 per cent."""
    page = opened(path)
    page.set_viewport_size({"width": 320, "height": 640})
    assert page.evaluate("document.documentElement.scrollWidth") == 320
    page.add_style_tag(content=SPACED)
    assert page.evaluate("document.documentElement.scrollWidth") == 320


def test_a_tick_is_seen_where_grounds_are_not_drawn(opened: Open) -> None:
    """In forced colours and on paper no ground is drawn, of which the screen's tick is made."""
    page = opened(SHOPPING)
    look = "getComputedStyle(document.querySelector('main input[type=checkbox]')).appearance"
    assert page.evaluate(look) == "none"
    page.emulate_media(forced_colors="active")
    assert page.evaluate(look) == "auto"
    page.emulate_media(forced_colors="none", media="print")
    assert page.evaluate(look) == "auto"


def test_nothing_moves_for_who_wants_no_movement(demo: Path) -> None:
    sheet = (demo / "site/assets/style.css").read_text("utf-8")
    assert not re.search(r"\b(animation|transition|scroll-behavior)\b", sheet)


# ---- printing from the browser ----


def printed(page: Page, paper: str) -> pypdfium2.PdfDocument:
    page.emulate_media(media="print")
    return pypdfium2.PdfDocument(page.pdf(format=paper, print_background=False))


def lost(page: Page, drawn: pypdfium2.PdfDocument) -> list[str]:
    """Words of the page that no sheet has; signs and the places where lines end do not count."""
    signs = re.compile(r"\W+")
    there = signs.sub("", "".join(sheet.get_textpage().get_text_range() for sheet in drawn))
    # Of a choice only what is chosen is seen.
    page.evaluate("document.querySelectorAll('option:not(:checked)').forEach(e => e.remove())")
    words = page.evaluate("document.querySelector('main').innerText").split()
    return [word for word in words if signs.sub("", word) not in there]


@pytest.mark.pdf
@pytest.mark.parametrize("paper", ["Letter", "A4"])
@pytest.mark.parametrize("path", [f"weeks/{WEEK}/index.html", RECIPE, SHOPPING, f"weeks/{WEEK}/run-sheet/index.html",
                                  f"weeks/{WEEK}/how-it-went/index.html"])  # fmt: skip
def test_a_page_prints_whole(opened: Open, path: str, paper: str) -> None:
    page = opened(path)
    drawn = printed(page, paper)
    assert lost(page, drawn) == []
    said = "".join(sheet.get_textpage().get_text_range() for sheet in drawn)
    assert "Keep the screen on" not in said and "Search" not in said


@pytest.mark.pdf
@pytest.mark.parametrize("paper", ["Letter", "A4"])
def test_a_recipe_begins_on_its_first_sheet_and_steps_are_set_large(opened: Open, paper: str) -> None:
    page = opened(RECIPE)
    page.emulate_media(media="print")
    with pdfplumber.open(io.BytesIO(page.pdf(format=paper, print_background=False))) as drawn:
        first = drawn.pages[0].extract_text()
        assert "Ingredients" in first and "Prep day" in first and len(drawn.pages) <= 4
        letters = [c for sheet in drawn.pages for c in sheet.chars if c["text"].strip()]
    assert min(c["size"] for c in letters) >= 10
    assert sum(c["size"] > 13.9 for c in letters) > 300


@pytest.mark.pdf
@pytest.mark.parametrize("paper", ["Letter", "A4"])
def test_a_week_takes_few_sheets_and_splits_no_row(opened: Open, paper: str) -> None:
    drawn = printed(opened(f"weeks/{WEEK}/index.html"), paper)
    assert len(drawn) <= 5
    ends = [sheet.get_textpage().get_text_range().strip().splitlines()[-1] for sheet in drawn]
    assert not any(re.match(r"(Monday|Tuesday|Wednesday|Thursday|Friday|Saturday|Sunday) \d", end) for end in ends), (
        ends
    )


@pytest.mark.pdf
def test_what_is_cut_off_would_be_seen(opened: Open) -> None:
    page = opened(RECIPE)
    style = page.add_style_tag(content="main { height: 40mm; overflow: hidden }")
    assert lost(page, printed(page, "A4"))
    # Letters over the edge of the sheet are not in the PDF.
    style.evaluate("e => e.textContent = 'main { position: relative; left: -60mm }'")
    assert lost(page, printed(page, "A4"))
