"""The front page on other days than it was built, in Chromium: today is the device's."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.demo import needs_browser
from tests.kitchen import Kitchen
from tests.scenarios.dishes import SUNDAY, dish, plan

pytestmark = [needs_browser, pytest.mark.browser]

Open = Callable[[str], Page]


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Built on Sunday 7 June: prep that day, lunches to heat on Monday and Thursday."""
    kitchen = Kitchen(tmp_path_factory.mktemp("home"))
    stew = dish(more="reheat: [burner]\n", title="Stew")
    kitchen.recipe("stew", stew, "\n## Prep day\n1. Cut. [10 min]\n")
    kitchen.week(plan("lunch: stew, for: Ilka, on: [mon, thu], at: home", prep=SUNDAY)).write()
    made = kitchen.run(
        "build", str(kitchen.content), "--out", str(kitchen.out), "--today", "2026-06-07", "--only", "site"
    )
    assert made.exit_code == 0, made.output
    return kitchen.out / "site/index.html"


@pytest.fixture
def on(home: Path, browser: Browser) -> Iterator[Open]:
    context = browser.new_context(timezone_id="America/Chicago", offline=True)

    def open_(time: str) -> Page:
        page = context.new_page()
        page.clock.install(time=f"{time}:00-05:00")
        page.goto(home.as_uri())
        return page

    yield open_
    context.close()


def seen(page: Page) -> list[str]:
    return [h.inner_text() for h in page.locator("section[data-day] h2").all() if h.is_visible()]


@pytest.mark.parametrize(
    ("time", "heads"),
    [
        ("2026-06-07T09:00", ["Today, Sunday 7 June", "Tomorrow, Monday 8 June"]),
        ("2026-06-08T00:01", ["Today, Monday 8 June", "Tomorrow, Tuesday 9 June"]),
        ("2026-06-09T23:59", ["Today, Tuesday 9 June", "Tomorrow, Wednesday 10 June", "Next, Thursday 11 June"]),
        ("2026-06-14T12:00", ["Today, Sunday 14 June"]),
        ("2026-06-02T12:00", ["Next, Sunday 7 June"]),
        # After the week nothing is called today: the days stand there as they were built.
        ("2026-06-20T12:00", ["Sunday 7 June", "Monday 8 June"]),
    ],
)
def test_the_days_that_are_seen_are_those_of_the_device(on: Open, time: str, heads: list[str]) -> None:
    assert seen(on(time)) == heads


def test_a_page_left_open_over_midnight_turns_with_the_day(on: Open) -> None:
    page = on("2026-06-07T23:30")
    assert seen(page)[0] == "Today, Sunday 7 June"
    page.clock.fast_forward("01:00:00")
    page.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
    assert seen(page)[0] == "Today, Monday 8 June"


def test_what_was_ticked_for_a_day_is_ticked_when_that_day_has_come(on: Open) -> None:
    page = on("2026-06-07T09:00")
    box = "section[data-day='2026-06-08'] input"
    page.locator(box).first.check()
    page = on("2026-06-08T09:00")
    assert page.locator(box).first.is_checked()


def test_without_scripts_the_days_have_their_dates_and_nothing_leads_to_what_is_hidden(
    home: Path, browser: Browser
) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(home.as_uri())
    assert seen(page) == ["Sunday 7 June", "Monday 8 June"]
    assert page.locator("section[data-day]").count() == 8
    for link in page.locator(".contents a").all():
        assert page.locator(link.get_attribute("href") or "").is_visible()
    context.close()
