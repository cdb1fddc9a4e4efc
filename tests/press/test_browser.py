"""The site in Chromium, from a folder and without a network: phone and desk, light and dark, and printed."""

from __future__ import annotations

import io
from collections.abc import Iterator
from pathlib import Path

import pypdfium2
import pytest
from PIL import Image
from playwright.sync_api import Browser, Page, sync_playwright

from binder.press.html import site_files
from binder.press.picture import screen_copies
from binder.press.share import shared_html
from tests.press import samples

CHROMIUM = "/usr/bin/chromium"
PAGES = ("index.html", "weeks/2026-W24/index.html", "weeks/index.html", "recipes/braise/index.html", "shared.html")
pytestmark = [
    pytest.mark.browser,
    pytest.mark.skipif(not Path(CHROMIUM).exists(), reason="Chromium is not installed"),
]
EACH = pytest.mark.parametrize("path", PAGES)
_CONTRAST = """() => {
  const rgb = c => c.match(/[\\d.]+/g).map(Number);
  const lum = c => { const [r, g, b] = rgb(c).map(v => v / 255)
    .map(v => v <= .03928 ? v / 12.92 : ((v + .055) / 1.055) ** 2.4);
    return .2126 * r + .7152 * g + .0722 * b };
  const ground = e => { for (; e; e = e.parentElement) { const c = getComputedStyle(e).backgroundColor;
    if (c !== 'rgba(0, 0, 0, 0)') return c } return 'rgb(255, 255, 255)' };
  const worst = [];
  for (const e of document.querySelectorAll('body *')) {
    if (e.closest('svg') || ![...e.childNodes].some(n => n.nodeType === 3 && n.data.trim())) continue;
    const [a, b] = [lum(getComputedStyle(e).color), lum(ground(e))].sort((x, y) => y - x);
    worst.push([(a + .05) / (b + .05), e.tagName + '.' + e.className]);
  }
  return worst.sort((x, y) => x[0] - y[0])[0] }"""
_SMALL_TARGETS = """() => [...document.querySelectorAll('nav a, .crumbs a, summary, label, td.tick input')]
  .filter(e => e.offsetParent).map(e => [e.getBoundingClientRect(), e])
  .filter(([r, e]) => (e.tagName === 'INPUT' ? r.height + 20 : r.height) < 44).map(([r, e]) => e.outerHTML)"""


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    root = tmp_path_factory.mktemp("site")
    photos = {"braise.png": samples.photo()}
    files = {
        **site_files(samples.site(), samples.DEFAULT, {n: screen_copies(n, raw) for n, raw in photos.items()}),
        "shared.html": shared_html(samples.site().pages[3], samples.DEFAULT, "en", photos),
    }
    for path, content in files.items():
        (root / path).parent.mkdir(parents=True, exist_ok=True)
        (root / path).write_bytes(content)
    return root


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        running = playwright.chromium.launch(executable_path=CHROMIUM)
        yield running
        running.close()


def opened(browser: Browser, folder: Path, path: str, width: int = 390, scheme: str = "light") -> Page:
    page = browser.new_page(viewport={"width": width, "height": 900}, color_scheme=scheme)  # type: ignore[arg-type]
    page.goto((folder / path).as_uri())
    return page


@EACH
def test_a_page_opens_from_a_folder_without_a_request_or_a_message(browser: Browser, folder: Path, path: str) -> None:
    asked: list[str] = []
    page = browser.new_page()
    page.on("request", lambda request: asked.append(request.url))
    page.on("requestfailed", lambda request: asked.append(f"failed {request.url}"))
    page.on("console", lambda message: asked.append(f"console {message.text}"))
    page.on("pageerror", lambda error: asked.append(f"error {error}"))
    page.goto((folder / path).as_uri())
    page.wait_for_load_state("networkidle")
    assert page.evaluate("document.fonts.check('600 16px \"Counter Sans\"')")
    page.close()
    assert [url for url in asked if not url.startswith(("file://", "data:"))] == []


@EACH
@pytest.mark.parametrize("width", [320, 390, 1280])
def test_nothing_is_wider_than_the_screen(browser: Browser, folder: Path, path: str, width: int) -> None:
    page = opened(browser, folder, path, width)
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    shot = Image.open(io.BytesIO(page.screenshot(full_page=True)))
    assert shot.width == width and len(shot.convert("L").getcolors(256) or ()) > 20
    page.close()


@EACH
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_words_stand_out_from_their_ground(browser: Browser, folder: Path, path: str, scheme: str) -> None:
    """WCAG 2.2, 1.4.3: at least 4.5 to 1."""
    page = opened(browser, folder, path, 1280, scheme)
    ratio, where = page.evaluate(_CONTRAST)
    assert ratio >= 4.5, where
    page.close()


def test_dark_is_dark_and_light_is_light(browser: Browser, folder: Path) -> None:
    means = {}
    for scheme in ("light", "dark"):
        page = opened(browser, folder, PAGES[3], 390, scheme)
        means[scheme] = sum(Image.open(io.BytesIO(page.screenshot())).convert("L").resize((1, 1)).tobytes())
        page.close()
    assert means["light"] > 180 and means["dark"] < 90


@EACH
def test_targets_are_44_pixels_high_on_a_phone(browser: Browser, folder: Path, path: str) -> None:
    page = opened(browser, folder, path)
    assert page.evaluate(_SMALL_TARGETS) == []
    page.close()


def test_the_first_key_reaches_the_skip_link_and_it_leads_to_the_page(browser: Browser, folder: Path) -> None:
    page = opened(browser, folder, PAGES[1])
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.className") == "skip"
    assert page.evaluate("document.activeElement.getBoundingClientRect().left") >= 0
    page.keyboard.press("Enter")
    assert page.evaluate("location.hash") == "#main"
    page.close()


def test_a_recipe_prints_well_from_the_browser(browser: Browser, folder: Path) -> None:
    page = opened(browser, folder, PAGES[3], 1280, "dark")
    for paper in ("Letter", "A4"):
        pdf = pypdfium2.PdfDocument(page.pdf(format=paper))
        said = "".join(sheet.get_textpage().get_text_range() for sheet in pdf)
        assert len(pdf) <= 2 and "Fennel and white bean braise" in said and "This week\r\n" not in said[:80]
        first = pdf[0].render(scale=1).to_pil().convert("L")
        assert first.getpixel((5, 5)) == 255
    page.close()
