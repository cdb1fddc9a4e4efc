"""Every page of the demo, none left out: links, weight, console, requests, width, targets."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page

from tests.build.test_on_screen import SMALL
from tests.demo import needs_browser

MOST_BYTES = 150_000
_OWN = re.compile(r'<(?:link rel="stylesheet" href|script src)="([^"]+)"')
_DATA = re.compile(r"data:[\w./+-]+;base64,[\w+/=]+")


def pages(demo: Path) -> list[Path]:
    found = sorted([*(demo / "site").rglob("*.html"), *(demo / "share").glob("*.html")])
    assert len(found) > 250
    return found


def weight(path: Path) -> int:
    """HTML, style and script in bytes; pictures, fonts and the search's index, read when it is used, not counted."""
    whole = path.read_text("utf-8")
    named = [(path.parent / name).stat().st_size for name in _OWN.findall(whole)]
    return len(_DATA.sub("", whole).encode()) + sum(named)


def test_html_style_and_script_of_a_page_are_light(demo: Path) -> None:
    weights = {path.relative_to(demo).as_posix(): weight(path) for path in pages(demo)}
    assert {name: size for name, size in weights.items() if size >= MOST_BYTES} == {}
    # A sheet or a script that were not found would weigh nothing.
    assert min(size for name, size in weights.items() if name.startswith("site/")) > 30_000


def test_shared_pages_are_less_than_400_kb_and_name_no_other_file(demo: Path) -> None:
    paths = sorted((demo / "share").glob("*.html"))
    assert paths
    for path in paths:
        whole = path.read_text("utf-8")
        assert len(whole.encode()) < 400_000, path.name
        assert re.findall(r'(?:src|srcset|href)="(?!data:|#|https?:)', whole) == [] and "@import" not in whole, (
            path.name
        )


@pytest.fixture(scope="module")
def phone(browser: Browser) -> Iterator[BrowserContext]:
    made = browser.new_context(viewport={"width": 390, "height": 844}, offline=True)
    yield made
    made.close()


class Watched:
    """A browser's page, and what it said and asked for besides files."""

    def __init__(self, context: BrowserContext) -> None:
        self.page: Page = context.new_page()
        self.said: list[str] = []
        self.page.on("console", lambda message: self.said.append(message.text))
        self.page.on("pageerror", lambda fault: self.said.append(str(fault)))
        self.page.on("requestfailed", lambda request: self.said.append(f"failed: {request.url[:120]}"))
        self.page.on("request", self._asked)

    def _asked(self, request) -> None:  # type: ignore[no-untyped-def]
        if not request.url.startswith(("file:", "data:", "blob:")):
            self.said.append(f"asked: {request.url}")

    def faults(self, path: Path) -> list[str]:
        """What is wrong with a page on a phone."""
        self.said.clear()
        self.page.goto(path.as_uri())
        wide, titles, language = self.page.evaluate(
            "[document.documentElement.scrollWidth, document.querySelectorAll('h1').length,"
            " document.documentElement.lang]"
        )
        found = [*self.said, *(f"small: {element[:160]}" for element in self.page.evaluate(SMALL))]
        found += [f"{wide} pixels wide"] if wide > 390 else []
        return found + ([] if (titles, language) == (1, "en") else [f"{titles} titles, language {language!r}"])


PARTS = 8  # so that no test is long where the machine has much else to do


@needs_browser
@pytest.mark.browser
@pytest.mark.parametrize("part", range(PARTS))
def test_every_page_opens_on_a_phone_without_network_or_complaint(demo: Path, phone: BrowserContext, part: int) -> None:
    watched = Watched(phone)
    faults = {path.relative_to(demo).as_posix(): watched.faults(path) for path in pages(demo)[part::PARTS]}
    assert {name: found for name, found in faults.items() if found} == {}


@needs_browser
@pytest.mark.browser
@pytest.mark.parametrize(
    ("markup", "says"),
    [("<script>console.error('x')</script>", "x"), ("<img src='https://example.org/x.png' alt=''>", "asked: https"),
     ("<img src='nowhere.png' alt=''>", "failed: "), ("<p style='width:900px'>x</p>", "pixels wide"),
     ("<button style='min-height:20px'>x</button>", "small: "), ("<h1>x</h1>", "2 titles")],
)  # fmt: skip
def test_a_fault_is_seen(demo: Path, phone: BrowserContext, tmp_path: Path, markup: str, says: str) -> None:
    whole = (demo / "share/oat-scones.html").read_text("utf-8")
    (tmp_path / "x.html").write_text(whole.replace("</main>", f"{markup}</main>"), "utf-8")
    found = Watched(phone).faults(tmp_path / "x.html")
    assert any(says in fault for fault in found), found


@needs_browser
@pytest.mark.browser
@pytest.mark.parametrize("width", [320, 390])
def test_the_tabs_stand_in_one_row_on_a_phone(demo: Path, browser: Browser, width: int) -> None:
    page = browser.new_page(viewport={"width": width, "height": 844})
    page.goto((demo / "site/index.html").as_uri())
    boxes = [tab.bounding_box() for tab in page.locator("header nav a").all()]
    assert len(boxes) >= 5 and len({box["y"] for box in boxes if box}) == 1
    assert all(box and box["x"] >= 0 and box["x"] + box["width"] <= width for box in boxes)
    page.close()
