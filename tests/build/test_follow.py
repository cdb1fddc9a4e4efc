"""The run sheet on a phone, in Chromium with a clock of its own: what goes on now, what is late, what is kept."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Locator, Page

from tests.demo import needs_browser
from tests.kitchen import Kitchen
from tests.scenarios.dishes import SUNDAY, dish, plan

pytestmark = [needs_browser, pytest.mark.browser]

# 13:00 Cut (10), then Simmer (40, by itself) and Chop (20) from 13:10, Portion (10) at 13:50: over at 14:00.
STEW = "\n## Prep day\n1. Cut. [10 min]\n2. Simmer. [unattended 40 min, burner]\n3. Portion. [10 min]\n"
SALAD = "\n## Prep day\n1. Chop. [20 min, cutting board]\n"
COLD = "reheat: [cold]\n"

Open = Callable[..., Page]


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    kitchen = Kitchen(tmp_path_factory.mktemp("follow"))
    kitchen.recipe("stew", dish(more=COLD, title="Stew"), STEW).recipe("salad", dish(more=COLD, title="Salad"), SALAD)
    meals = ("lunch: stew, for: Ilka, on: mon, at: home", "lunch: salad, for: Bea, on: mon, at: home")
    kitchen.week(plan(*meals, prep=SUNDAY)).write()
    made = kitchen.run(
        "build", str(kitchen.content), "--out", str(kitchen.out), "--today", "2026-06-07", "--only", "site"
    )
    assert made.exit_code == 0, made.output
    return kitchen.out / "site/weeks/2026-W24/run-sheet/index.html"


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    made = browser.new_context(
        viewport={"width": 390, "height": 844}, timezone_id="America/Chicago", offline=True, reduced_motion="reduce"
    )
    yield made
    made.close()


@pytest.fixture
def at(site: Path, context: BrowserContext) -> Open:
    def open_(time: str, day: str = "2026-06-07") -> Page:
        page = context.new_page()
        page.clock.install(time=f"{day}T{time}:00-05:00")
        page.goto(site.as_uri())
        return page

    return open_


def later(page: Page, time: str) -> None:
    """Let the page's clock go so far, and the page look at it."""
    page.clock.fast_forward(time)
    page.clock.run_for(11_000)


def shown(page: Page, part: str) -> str:
    found = page.locator(f".follow {part}")
    return " ".join((found.inner_text() if found.is_visible() else "").split())


def running(page: Page) -> list[str]:
    """The steps that go on, by the panel; the table marks the same rows."""
    named = [text.split(": ")[1] for text in page.locator(".follow li span").all_inner_texts()]
    rows = page.locator("tr.running td:nth-child(4)").all_inner_texts()
    assert sorted(row.rstrip(".") for row in rows) == sorted(named)
    assert page.locator("tr[aria-current=step]").count() == len(named)
    return named


def times(page: Page) -> dict[str, str]:
    rows = page.locator("tr[data-start]").all()
    cells = [(row.locator("td:nth-child(4)").inner_text(), row.locator("td.time").inner_text()) for row in rows]
    return {text.rstrip("."): time for text, time in cells}


def done(page: Page, words: str) -> None:
    page.locator(".follow li", has_text=words).get_by_role("button").click()


def row(page: Page, words: str) -> Locator:
    """The box of a row of the table."""
    return page.locator("tr[data-start]", has_text=f"{words}.").locator("input")


def ticked(page: Page) -> list[str]:
    rows = page.locator("tr[data-start]:has(input:checked) td:nth-child(4)")
    return [text.rstrip(".") for text in rows.all_inner_texts()]


PLANNED = {"Cut": "13:00", "Simmer": "13:10", "Chop": "13:10", "Portion": "13:50"}


def test_on_the_day_the_sheet_says_what_goes_on_and_what_is_next(at: Open) -> None:
    page = at("13:12")
    assert shown(page, ".clock") == "13:12 · ready at 14:00"
    assert sorted(running(page)) == ["Chop", "Simmer"]
    assert shown(page, ".next") == "Next, 13:50: Stew: Portion"
    assert times(page) == PLANNED
    line = page.locator("tr.clock")
    assert line.inner_text().strip() == "13:12 now"
    assert "Portion." in page.evaluate("document.querySelector('tr.clock').nextElementSibling.textContent")
    later(page, "20:00")
    assert running(page) == ["Simmer"] and line.inner_text().strip() == "13:32 now"


def test_as_long_as_nothing_is_ticked_nothing_moves(at: Open) -> None:
    page = at("13:55")
    assert running(page) == ["Portion"] and times(page) == PLANNED
    assert shown(page, ".clock") == "13:55 · ready at 14:00"


def test_what_is_late_moves_all_that_waits_for_it(at: Open) -> None:
    page = at("13:01")
    page.get_by_role("button", name="Begin now").click()
    # Begun at 13:01: everything is a minute later than it was printed.
    assert times(page)["Simmer"] == "13:11 (planned 13:10)"
    later(page, "14:00")
    # 13:15 and not done: four minutes over, and what waits for it has not begun.
    assert running(page) == ["Cut"] and shown(page, "li small") == "4 min over"
    assert "4 min late" in shown(page, ".clock")
    done(page, "Cut")
    assert sorted(running(page)) == ["Chop", "Simmer"]
    assert times(page) == {
        "Cut": "13:00",
        "Simmer": "13:15 (planned 13:10)",
        "Chop": "13:15 (planned 13:10)",
        "Portion": "13:55 (planned 13:50)",
    }
    assert shown(page, ".clock") == "13:15 · ready at 14:05 · 4 min late"


def test_a_task_that_nobody_waits_for_makes_nothing_late(at: Open) -> None:
    page = at("13:09")
    done(page, "Cut")
    later(page, "24:00")
    # 13:33: the salad should have been over at 13:30; the cook is only needed again at 13:50.
    assert sorted(running(page)) == ["Chop", "Simmer"]
    assert times(page)["Portion"] == "13:50" and "late" not in shown(page, ".clock")
    later(page, "20:00")
    assert times(page)["Portion"].startswith("13:53") and "3 min late" in shown(page, ".clock")


def test_what_is_done_stays_done_on_this_device(at: Open, context: BrowserContext) -> None:
    page = at("13:14")
    row(page, "Cut").check()
    before = times(page)
    assert before["Portion"] == "13:54 (planned 13:50)"
    page.reload()
    assert ticked(page) == ["Cut"] and times(page) == before
    assert [key.split(" ")[0] for key in page.evaluate("Object.keys(localStorage).sort()")] == ["run", "ticks"]
    page.get_by_role("button", name="Untick all").click()
    page.clock.run_for(11_000)
    assert ticked(page) == [] and times(page) == PLANNED
    assert page.evaluate("localStorage.length") == 0


def test_what_was_over_before_the_first_tick_went_as_planned(at: Open) -> None:
    page = at("13:32")
    done(page, "Simmer")  # twenty minutes early: it was not needed longer
    assert ticked(page) == ["Cut", "Simmer"]
    assert running(page) == [] and times(page) == PLANNED and shown(page, ".clock") == "13:32 · ready at 14:00"


def test_a_tick_in_the_table_counts_and_what_it_waited_for_is_done_too(at: Open) -> None:
    page = at("13:52")
    row(page, "Simmer").check()
    assert ticked(page) == ["Cut", "Simmer"]
    assert running(page) == ["Portion"]
    row(page, "Simmer").uncheck()
    assert ticked(page) == ["Cut"]


def test_when_all_is_done_it_says_so(at: Open) -> None:
    page = at("13:58")
    for words in ("Portion", "Chop"):
        row(page, words).check()
    assert sorted(ticked(page)) == ["Chop", "Cut", "Portion", "Simmer"]
    assert shown(page, ".clock") == "13:58 · all done"
    assert running(page) == [] and not page.get_by_role("button", name="Begin now").is_visible()


def test_on_another_day_nothing_runs_until_somebody_begins(at: Open) -> None:
    page = at("18:30", day="2026-06-06")
    assert page.locator("tr.clock").count() == 0 and running(page) == [] and times(page) == PLANNED
    page.get_by_role("button", name="Begin now").click()
    assert running(page) == ["Cut"]
    assert times(page)["Portion"] == "19:20 (planned 13:50)"
    assert shown(page, ".clock") == "18:30 · ready at 19:30"


def test_a_device_set_to_another_zone_shows_the_hours_of_the_sheet(site: Path, browser: Browser) -> None:
    context = browser.new_context(timezone_id="Asia/Tokyo", offline=True)
    page = context.new_page()
    page.clock.install(time="2026-06-07T13:12:00-05:00")
    page.goto(site.as_uri())
    assert shown(page, ".clock") == "13:12 · ready at 14:00"
    context.close()


def test_a_reader_is_told_once_what_is_new(at: Open) -> None:
    page = at("13:05")
    status = page.locator(".follow [role=status]")
    assert status.text_content() == ""
    done(page, "Cut")
    said = status.text_content()
    assert said == "Next, 13:10: Salad: Chop; Stew: Simmer"
    page.evaluate(
        """() => { self.changes = 0;
          const all = { childList: true, characterData: true, subtree: true };
          const said = document.querySelector('.follow [role=status]');
          new MutationObserver(() => { self.changes += 1 }).observe(said, all) }"""
    )
    later(page, "03:00")
    assert page.evaluate("self.changes") == 0
    later(page, "02:00")
    assert status.text_content() == "Now: Salad: Chop; Stew: Simmer. Next, 13:50: Stew: Portion"
    assert page.evaluate("self.changes") == 1


def test_buttons_are_large_named_and_keep_the_focus(at: Open) -> None:
    page = at("13:12")
    buttons = page.locator(".follow li button")
    named = [button.get_attribute("aria-label") for button in buttons.all()]
    assert named == ["Done: Salad: Chop", "Done: Stew: Simmer"]
    heights = [button.bounding_box()["height"] for button in page.locator(".follow button:visible").all()]
    assert heights and min(heights) >= 44  # WCAG 2.2, 2.5.5
    buttons.first.focus()
    page.keyboard.press("Enter")
    assert running(page) == ["Simmer"]
    assert page.evaluate("document.activeElement.getAttribute('aria-label')") == "Done: Stew: Simmer"


def test_without_scripts_and_on_paper_the_sheet_is_as_printed(site: Path, browser: Browser, at: Open) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(site.as_uri())
    assert not page.locator("[data-follow]").is_visible()
    assert page.locator("tr[data-start]").count() == 4 and times(page) == PLANNED
    context.close()
    page = at("13:12")
    page.emulate_media(media="print")
    assert not page.locator(".follow").is_visible() and not page.locator("tr.clock").is_visible()


def test_what_was_kept_of_old_sessions_is_forgotten(at: Open) -> None:
    page = at("13:05")
    page.evaluate("localStorage.setItem('run /old 2026-05-01T13:00:00-05:00', '{}')")
    page.evaluate("localStorage.setItem('run /new 2026-05-31T13:00:00-05:00', '{}')")
    page.reload()
    assert page.evaluate("Object.keys(localStorage)") == ["run /new 2026-05-31T13:00:00-05:00"]
