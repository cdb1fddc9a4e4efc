"""Every kind of page of the demo, by axe-core's rules (WCAG 2.2 A and AA among them), in Chromium."""

from __future__ import annotations

from pathlib import Path

import axe_playwright_python
import pytest
from click.testing import CliRunner
from playwright.sync_api import Browser, Page

from binder.cli import main
from tests.build.test_valid_html import faults
from tests.demo import ROOT, TODAY, WEEK, needs_browser

pytestmark = [needs_browser, pytest.mark.browser]
AXE = (Path(axe_playwright_python.__file__).parent / "axe.min.js").read_text("utf-8")
SECTIONS = (
    "shopping", "mise", "run-sheet", "cards", "packing", "reheating", "carry", "pull", "kits", "allergens", "numbers",
    "keeping", "how-it-went",
)  # fmt: skip
PAGES = (
    "site/index.html",
    "site/weeks/index.html",
    "site/weeks/notes/index.html",
    f"site/weeks/{WEEK}/index.html",
    *(f"site/weeks/{WEEK}/{section}/index.html" for section in SECTIONS),
    "site/weeks/2026-W23/index.html",
    "site/years/2026/index.html",
    "site/recipes/index.html",
    "site/recipes/beef-ragu-polenta/index.html",
    "site/recipes/salmon-new-potato-kit/index.html",
    "site/foods/index.html",
    "site/foods/egg/index.html",
    "site/freezer/index.html",
    "share/beef-ragu-polenta.html",
    f"share/{WEEK}.html",
)
# The ring binder's margin line is a gradient, behind which no ground is measured; it is the sheet's colour all over.
PLAIN_GROUND = "main { background: var(--sheet) !important }"
# What may change with the width; the colours do not.
OF_THE_WIDTH = ("scrollable-region-focusable", "target-size", "region", "heading-order", "link-in-text-block")


def broken(page: Page, only: tuple[str, ...] = (), within: str = "html") -> list[tuple[str, str, str]]:
    """Rule, element and what to do about it; `only` these rules, else all, the size of targets (2.5.8) with them."""
    page.evaluate(AXE)
    # The elements that were looked at and are right are thousands; they stay where they are.
    return page.evaluate(
        """async ([only, within]) => {
          const found = await axe.run(within, {resultTypes: ['violations'],
            ...(only.length ? {runOnly: {type: 'rule', values: only}} : {rules: {'target-size': {enabled: true}}})});
          return found.violations.flatMap(rule => rule.nodes.map(n => [rule.id, n.html, n.failureSummary])) }""",
        [list(only), within],
    )


def opened(browser: Browser, path: Path, width: int, scheme: str) -> Page:
    page = browser.new_page(viewport={"width": width, "height": 900}, color_scheme=scheme)  # type: ignore[arg-type]
    page.goto(path.as_uri())
    page.add_style_tag(content=PLAIN_GROUND)
    page.evaluate("document.querySelectorAll('details').forEach(fold => { fold.open = true })")
    return page


def test_the_list_has_every_kind_of_page(demo: Path) -> None:
    assert {p.parent.name for p in (demo / f"site/weeks/{WEEK}").glob("*/index.html")} == set(SECTIONS)
    tops = {p.relative_to(demo / "site").parts[0] for p in (demo / "site").rglob("*.html")}
    assert tops == {name.split("/")[1] for name in PAGES if name.startswith("site/")}


@pytest.mark.parametrize("path", PAGES)
def test_axe_finds_nothing_on_a_phone_in_the_dark_and_on_a_desk(demo: Path, browser: Browser, path: str) -> None:
    page = opened(browser, demo / path, 390, "light")
    assert broken(page) == []
    page.emulate_media(color_scheme="dark")
    assert broken(page, ("color-contrast",)) == []
    page.emulate_media(color_scheme="light")
    page.set_viewport_size({"width": 1280, "height": 900})
    assert broken(page, OF_THE_WIDTH) == []
    page.close()


def test_axe_finds_nothing_in_the_page_for_the_family(browser: Browser, tmp_path: Path) -> None:
    arguments = ["share", WEEK, "--family", "--content", str(ROOT / "content"), "--out", str(tmp_path)]
    result = CliRunner().invoke(main, [*arguments, "--today", TODAY], catch_exceptions=False)
    assert result.exit_code == 0, result.output
    path = tmp_path / f"share/{WEEK}-family.html"
    assert faults(path.read_text("utf-8")) == []
    page = opened(browser, path, 390, "light")
    assert broken(page) == []
    page.emulate_media(color_scheme="dark")
    assert broken(page, ("color-contrast",)) == []
    page.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing_while_somebody_searches(demo: Path, browser: Browser, scheme: str) -> None:
    page = opened(browser, demo / PAGES[0], 390, scheme)
    page.locator("input[type=search]").click()
    page.keyboard.type("lentl")
    page.locator(".results a").first.wait_for()
    # The list lies over the page below it, whose boxes are half covered until it is closed.
    assert broken(page, within="body > header") == []
    page.close()


def test_axe_is_really_asked(demo: Path, browser: Browser) -> None:
    page = opened(browser, demo / PAGES[0], 390, "light")
    page.add_style_tag(content="main p { color: #aaa !important }")
    page.evaluate("document.querySelector('h1').insertAdjacentHTML('afterend', '<h5>x</h5><img src=data:,>')")
    assert {"color-contrast", "heading-order", "image-alt"} <= {rule for rule, _, _ in broken(page)}
    page.close()
