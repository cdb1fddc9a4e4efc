"""The form of an open week in Chromium: what is written there, saved as a file and taken by `binder close-week`."""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from playwright.sync_api import Browser, BrowserContext, Page

from binder.cli import main
from tests.demo import ROOT, WEEK, needs_browser
from tests.kitchen import Kitchen

pytestmark = [needs_browser, pytest.mark.browser]
FORM = f"site/weeks/{WEEK}/how-it-went/index.html"
# As somebody types them, and as `--set` takes them.
ANSWERS = {
    "spring-minestrone.made": "6",
    "spring-minestrone.left": "1",
    "spring-minestrone.frozen": "1 1/2",
    "spring-minestrone.weighs": "2350",
    "sesame-soba.thrown": "½",
    "sesame-soba.why": 'soft: "tired", on the 4th day # again',
    "beef-ragu-polenta.eaten": "4,5",
    "rhubarb-ginger-pots.by-products": "no",
    "sesame-soba.left by": "Juno 1/2, Odile 1",
    "2026-06-07.minutes": "165",
    "bought": "as listed",
}
SUBSTITUTIONS = ("leeks instead of onions", "no lemon: vinegar")
NOTE = "Less salt.\nBring {the big pot}: it's at Bea's – naïve"
SET = {"spring-minestrone.weighs": "2350 g", "beef-ragu-polenta.eaten": "4.5", "sesame-soba.thrown": "1/2"}

Open = Callable[[], Page]


@pytest.fixture
def opened(demo: Path, context: BrowserContext) -> Open:
    def open_() -> Page:
        page = context.new_page()
        page.goto((demo / FORM).as_uri())
        return page

    return open_


def filled(page: Page) -> None:
    for name, value in ANSWERS.items():
        field = page.locator(f'[name="{name}"]')
        if field.evaluate("e => e.tagName") == "SELECT":
            field.select_option(value)
        else:
            field.fill(value)
    page.locator("[name=substitution]").fill("\n".join(SUBSTITUTIONS) + "\n\n")
    page.locator("[name=note]").fill(NOTE)


def saved(page: Page, folder: Path) -> Path:
    with page.expect_download() as waiting:
        page.locator("[data-save]").click()
    assert waiting.value.suggested_filename == f"{WEEK}-closing.json"
    file = folder / waiting.value.suggested_filename
    waiting.value.save_as(file)
    return file


def closed(folder: Path, *options: str) -> Result:
    """The demo's content copied, and its week closed in the copy."""
    shutil.copytree(ROOT / "content", folder)
    command = ["close-week", WEEK, "--content", str(folder), "--today", "2026-06-14", *options]
    return CliRunner().invoke(main, command, catch_exceptions=False)


def both(folder: Path) -> tuple[str, str]:
    return (folder / "stock.yaml").read_text("utf-8"), (folder / f"weeks/{WEEK}.md").read_text("utf-8")


def test_what_is_saved_closes_the_week_as_the_same_answers_set_one_by_one(opened: Open, tmp_path: Path) -> None:
    page = opened()
    filled(page)
    file = saved(page, tmp_path)
    by_file = closed(tmp_path / "a", "--from", str(file))
    assert by_file.exit_code == 0, by_file.output
    said = [f"{name}={SET.get(name, value)}" for name, value in ANSWERS.items()]
    said += [*(f"substitution={one}" for one in SUBSTITUTIONS), f"note={NOTE}"]
    by_set = closed(tmp_path / "b", *(part for one in said for part in ("--set", one)))
    assert by_set.exit_code == 0, by_set.output
    assert both(tmp_path / "a") == both(tmp_path / "b")
    plan = both(tmp_path / "a")[1]
    assert "weighs: 2350 g cooked" in plan and "minutes: 165" in plan and "eaten: 4.5" in plan
    assert 'left by: "Juno 1/2, Odile 1"' in plan
    assert "bought: as listed" in plan and "opened 2026-06-07" in both(tmp_path / "a")[0]
    assert "leeks instead of onions" in plan and "by-products: no" in plan
    # The text below is the file's own.
    assert page.locator("[data-text] textarea").input_value() == file.read_text("utf-8")


def test_nothing_written_is_a_week_that_went_as_planned(opened: Open, tmp_path: Path) -> None:
    file = saved(opened(), tmp_path)
    assert closed(tmp_path / "a", "--from", str(file)).exit_code == 0
    assert closed(tmp_path / "b", "--as-planned").exit_code == 0
    assert both(tmp_path / "a") == both(tmp_path / "b")


def test_answers_stay_on_the_device_and_go_when_asked_twice(opened: Open) -> None:
    page = opened()
    filled(page)
    again = opened()
    shown = {name: again.locator(f'[name="{name}"]').input_value() for name in ANSWERS}
    assert shown == ANSWERS and again.locator("[name=note]").input_value() == NOTE
    assert len(again.evaluate("Object.keys(localStorage)")) == 1
    clear = again.locator("[data-clear]")
    clear.click()
    assert again.locator("[name=note]").input_value() == NOTE and "again" in clear.inner_text()
    clear.click()
    assert not clear.is_visible() and again.evaluate("localStorage.length") == 0
    again.reload()
    assert not any(again.locator(f'[name="{name}"]').input_value() for name in ANSWERS)


def test_what_is_no_number_is_not_saved_and_said(opened: Open) -> None:
    page = opened()
    page.locator('[name="spring-minestrone.made"]').fill("a few")
    page.locator('[name="2026-06-07.minutes"]').fill("2 h")
    page.locator("[data-save]").click()
    words = page.locator(".form-end + [role=status]").inner_text()
    assert "Spring minestrone with lemon and basil, Made (not a number)" in words and "Sun 7 Jun" in words
    assert page.evaluate("document.activeElement.name") == "spring-minestrone.made"
    assert page.locator("[aria-invalid]").count() == 2 and not page.locator("[data-text]").is_visible()


def test_more_than_were_made_is_said_at_once(opened: Open) -> None:
    page = opened()
    over = page.locator("fieldset", has=page.locator('[name="spring-minestrone.made"]')).locator("[role=status]")
    for name, value in (("eaten", "5"), ("left", "1")):
        page.locator(f'[name="spring-minestrone.{name}"]').fill(value)
    assert over.inner_text() == ""  # six were planned
    page.locator('[name="spring-minestrone.frozen"]').fill("1½")
    assert over.inner_text() == "That is 1.5 more than were made."
    page.locator('[name="spring-minestrone.made"]').fill("7 1/2")
    assert over.inner_text() == ""


def test_where_nothing_is_kept_the_form_works_and_says_so(demo: Path, context: BrowserContext, tmp_path: Path) -> None:
    context.add_init_script(
        "Object.defineProperty(self, 'localStorage', {get() { throw new DOMException('no', 'SecurityError') }})"
    )
    page = context.new_page()
    faults: list[str] = []
    page.on("pageerror", lambda fault: faults.append(str(fault)))
    page.goto((demo / FORM).as_uri())
    page.locator("[name=note]").fill("Less salt.")
    assert "keeps nothing" in page.locator(".form-end + [role=status]").inner_text()
    assert json.loads(saved(page, tmp_path).read_text("utf-8"))["note"] == "Less salt." and faults == []


def test_without_scripts_it_is_a_form_to_read_and_to_print(demo: Path, browser: Browser) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto((demo / FORM).as_uri())
    assert page.locator("form label input").count() > 80 and page.locator("fieldset legend").count() > 12
    assert not page.locator("form button").filter(visible=True).count()
    assert "2026-W24-closing.json" in page.locator("main").inner_text()
    context.close()


def test_every_field_has_its_label(opened: Open) -> None:
    page = opened()
    bare = page.evaluate(
        "[...document.forms[0].elements].filter(e => e.name && !e.labels[0]?.innerText.trim()).map(e => e.name)"
    )
    assert bare == [] and page.evaluate("document.forms[0].elements.length") > 100


# ---- which weeks, and what they ask ----

DISH = """
    title: {}
    makes: 4 portions
    ingredients: [600 g potatoes]
    keeps: {{fridge: 4 days, freezer: 3 months}}
    reheat: ["microwave 1000 W, 2 min"]
"""
PLAN = """\
prep: [{{on: {on}, at: "13:00", cooks: 1}}]
meals: [{{lunch: soup, for: Ilka, on: mon-wed, at: home}}, {{dinner: stew, for: Tomas, on: mon, at: home}}]
already: [1 portion stew]
"""


def names(text: str) -> set[str]:
    return set(re.findall(r'name="([^"]+)\.made"', text))


@pytest.mark.parametrize("today", ["2026-06-07", "2026-06-10", "2026-06-20"])
def test_the_form_asks_what_closing_asks_on_every_day(kitchen: Kitchen, today: str) -> None:
    kitchen.recipe("soup", DISH.format("Soup")).recipe("stew", DISH.format("Stew"))
    # On Wednesday the stew in the refrigerator is past its time; the plan took it on Monday.
    kitchen.files["stock.yaml"] = "fridge:\n  - 1 portion stew, made 2026-06-04\n"
    kitchen.week(PLAN.format(on="2026-06-07")).week(PLAN.format(on="2026-06-14"), "2026-W25")
    kitchen.build("--only", "site", "--draft", today=today)
    form = kitchen.out / FORM
    assert names(form.read_text("utf-8")) == {"soup", "stew"} and "from stock" in form.read_text("utf-8")
    later = kitchen.out / "site/weeks/2026-W25/how-it-went/index.html"
    assert later.is_file() is (today >= "2026-06-14")
    done = kitchen.run("close-week", WEEK, "--content", str(kitchen.content), "--as-planned", "--today", "2026-06-14")
    assert done.exit_code == 0, done.output
    kitchen.files = {path: (kitchen.content / path).read_text("utf-8") for path in kitchen.files}
    kitchen.build("--only", "site", "--draft", today=today)
    assert not form.is_file() and "how-it-went" not in (form.parents[1] / "index.html").read_text("utf-8")
