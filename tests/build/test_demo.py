"""The demo household, built whole once and read back: facts, PDF, labels, calendar, site and share pages."""

from __future__ import annotations

import json
import re
from collections import Counter
from html.parser import HTMLParser
from itertools import pairwise
from pathlib import Path
from urllib.parse import unquote, urlsplit

import icalendar
import jsonschema
import pdfplumber
import pypdfium2
import pytest
from playwright.sync_api import Browser

from binder.press.ink import taken
from binder.tables import sheets
from tests.demo import ROOT, WEEK, build, needs_browser
from tests.kitchen import tree

MM = 72 / 25.4


@pytest.fixture(scope="module")
def facts(demo: Path) -> dict:
    return json.loads((demo / f"site/weeks/{WEEK}/facts.json").read_text("utf-8"))


def test_the_plan_passes_because_it_was_planned_well(facts: dict) -> None:
    assert [p for p in facts["problems"] if p["severity"] == "error"] == []
    assert len(facts["problems"]) <= 3


def test_raw_meat_waits_for_produce_and_has_a_board_of_its_own_where_that_costs_no_time(facts: dict) -> None:
    """On Sunday only the beef is cut early (its hour under pressure is the longest way), and one salad is cut after."""
    tasks = {task["id"]: task for task in facts["run_sheets"][0]["tasks"]}
    boards = {key: [p for p in task["uses"] if p.startswith("cutting board")] for key, task in tasks.items()}
    raw = ["beef-ragu-polenta/beef/1", "salmon-new-potato-kit/raw-apart/1", "lamb-kofta-kit/kofta/1"]
    cut_after = {
        other: [key for key in tasks if boards[key] and key not in raw and tasks[key]["start"] >= tasks[other]["start"]]
        for other in raw
    }
    assert cut_after[raw[1]] == cut_after[raw[2]] == ["farro-asparagus-salad/together/1"]
    for key in cut_after[raw[0]]:
        had_raw = {board for other in raw if tasks[other]["finish"] <= tasks[key]["start"] for board in boards[other]}
        beside = [
            board for other in tasks if other != key and tasks[other]["start"] < tasks[key]["finish"]
            and tasks[key]["start"] < tasks[other]["finish"] for board in boards[other]
        ]  # fmt: skip
        assert beside or had_raw.isdisjoint(boards[key]), key


def test_what_the_demo_has_to_show(demo: Path, facts: dict) -> None:
    recipes = [json.loads(path.read_text("utf-8")) for path in (demo / "site/recipes").glob("*/facts.json")]
    assert len(recipes) >= 24
    assert {r["form"] for r in recipes} == {"ready", "assemble", "kit", "portioned"}
    assert any("snack" in r["meals"] for r in recipes)
    used = [i["basis"]["id"] for r in recipes for i in r["ingredients"] if i["basis"]["kind"] == "recipe"]
    assert any(used.count(key) >= 2 for key in used), "a part that two dishes use"
    assert len({s["eater"] for s in facts["servings"]}) == 4
    assert len({s["place"] for s in facts["servings"]}) == 4
    assert len(list((demo / "site/weeks").glob("2026-W*/facts.json"))) >= 7
    assert any(s["lot"] for s in facts["servings"]) and facts["use_first"]


def test_every_facts_file_is_valid_against_its_schema(demo: Path) -> None:
    for kind, pattern in (("recipe", "recipes/*/facts.json"), ("week", "weeks/*/facts.json")):
        schema = json.loads((demo / f"site/schema/{kind}.schema.json").read_text("utf-8"))
        checker = jsonschema.Draft202012Validator(schema)
        paths = list((demo / "site").glob(pattern))
        assert paths
        for path in paths:
            raw = path.read_text("utf-8")
            assert "NaN" not in raw
            checker.validate(json.loads(raw))


def test_what_the_dishes_cost_adds_up_to_what_is_consumed(facts: dict) -> None:
    eaten: Counter[str] = Counter()
    for serving in facts["servings"]:
        eaten[serving["recipe"]] += serving["portions"]
    assert all(batch["surplus"] == 0 for batch in facts["batches"])
    each = facts["cost"]["per_portion"]
    assert sum(each[key] * count for key, count in eaten.items()) == pytest.approx(facts["cost"]["consumed"], abs=1e-9)


@pytest.mark.pdf
def test_a_card_keeps_as_long_as_its_labels_say(demo: Path, facts: dict) -> None:
    """By the strictest caution of those who eat of it; where they differ the shorter one names its eaters."""
    for key in {batch["recipe"] for batch in facts["batches"]} - {"soffritto"}:
        text = (demo / f"site/weeks/{WEEK}/cards/index.html").read_text("utf-8")
        card = text.partition(f'id="card-{key}"')[2].partition('id="card-')[0]
        keeps = re.sub(r"<[^>]+>", "", card.partition("Keeps")[2].partition("refrigerat")[0])
        said = {int(number) for number in re.findall(r"\d+", keeps)}
        assert said == {s["keeps_days"] for s in facts["servings"] if s["recipe"] == key}, (key, keeps)


def test_every_ingredient_of_the_demo_is_known(demo: Path) -> None:
    paths = sorted((demo / "site/recipes").glob("*/facts.json"))
    assert len(paths) == len(list((ROOT / "content/recipes").glob("*.md")))
    for path in paths:
        recipe = json.loads(path.read_text("utf-8"))
        for line in recipe["ingredients"]:
            assert line["basis"]["kind"] != "unknown", (recipe["key"], line["text"])


def test_a_second_build_is_the_same_to_the_byte(demo: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "no-memory-of-the-first"))
    first, second = tree(demo), tree(build(tmp_path / "again"))
    assert sorted(first) == sorted(second)
    assert [name for name in first if first[name] != second[name]] == []


# ---- on paper ----


@pytest.fixture(scope="module")
def pages(demo: Path) -> list[str]:
    document = pypdfium2.PdfDocument(demo / f"print/{WEEK}-binder.pdf")
    return [page.get_textpage().get_text_range() for page in document]


@pytest.mark.pdf
def test_every_section_is_there_in_order(demo: Path, pages: list[str]) -> None:
    document = pypdfium2.PdfDocument(demo / f"print/{WEEK}-binder.pdf")
    top = [(b.get_title(), b.get_dest().get_index()) for b in document.get_toc() if b.level == 0]
    words = " ".join(title for title, _ in top).lower()
    order = ["week", "shopping", "mise en place", "run sheet", "recipe", "packing", "reheat", "carry", "pull"]
    order += ["kit", "allergen", "numbers", "keeping", "how it went"]
    places = [words.find(word) for word in order]
    assert -1 not in places and places == sorted(places), (top, places)
    numbers = [index for _, index in top]
    assert numbers == sorted(numbers)


@pytest.mark.pdf
def test_the_binder_is_letter_paper_and_at_most_27_sheets_with_little_ink(demo: Path, pages: list[str]) -> None:
    document = pypdfium2.PdfDocument(demo / f"print/{WEEK}-binder.pdf")
    assert {(round(p.get_width()), round(p.get_height())) for p in document} == {(612, 792)}
    assert len(pages) <= 54
    ink = taken((demo / f"print/{WEEK}-binder.pdf").read_bytes()).ink
    assert ink is not None and ink < 0.06
    assert (demo / f"print/{WEEK}-binder.pdf").stat().st_size < 1_500_000


@pytest.mark.pdf
def test_nothing_in_the_binder_is_set_small(demo: Path) -> None:
    """Running heads and the numbers' tables 10 pt and more; the run sheet, its picture too, is read at the counter."""
    with pdfplumber.open(demo / f"print/{WEEK}-binder.pdf") as pdf:
        pages_ = [[c for c in page.chars if c["upright"] and c["text"].strip()] for page in pdf.pages]
    assert min(c["size"] for page in pages_ for c in page) >= 9.99
    sheets_ = [page for page in pages_ if "cuttingboard1" in "".join(c["text"] for c in page)]
    body = [c["size"] for page in sheets_ for c in page if 60 < c["top"] < 740]
    assert len(body) > 1000 and sum(size < 11.99 for size in body) < 150, "the picture's caption is set in 10.5 pt"


@pytest.mark.pdf
def test_the_box_of_a_step_keeps_clear_of_the_next_number(demo: Path) -> None:
    """Numbers are set in 17 pt, boxes are of 3.7 mm; a one-line step is as high as both."""
    gaps = []
    with pdfplumber.open(demo / f"print/{WEEK}-binder.pdf") as pdf:
        for page in pdf.pages:
            boxes = [r for r in (*page.rects, *page.curves) if 9 < r["width"] < 13 and 9 < r["height"] < 13]
            for number in (c for c in page.chars if abs(c["size"] - 17) < 0.1 and c["text"].isdigit()):
                above = [b for b in boxes if abs(b["x0"] - number["x0"]) < 6 and b["top"] < number["top"]]
                gaps += [number["top"] - max(b["bottom"] for b in above)] if above else []
    assert len(gaps) > 20 and min(gaps) > 3.3 * MM


def test_pages_are_numbered_within_their_section(pages: list[str]) -> None:
    # Before a section that begins on a right-hand page there may be an empty one.
    numbered = [re.search(r"\b(\d{1,2})-(\d{1,2})\b", text) for text in pages[2:] if text.strip()]
    assert all(numbered) and len(pages) - 2 - len(numbered) <= 1


@pytest.mark.pdf
def test_each_dish_of_the_week_has_its_card(demo: Path, pages: list[str], facts: dict) -> None:
    starts = [re.sub(r"\s+", " ", text)[:400].lower() for text in pages]
    for key in {batch["recipe"] for batch in facts["batches"]}:
        title = json.loads((demo / f"site/recipes/{key}/facts.json").read_text("utf-8"))["title"]
        first = " ".join(title.lower().split()[:3])
        assert any(first in start for start in starts), title


@pytest.mark.pdf
def test_a_card_is_one_page_or_two_that_face_each_other(pages: list[str]) -> None:
    """A left-hand page of the binder is an even one of the file."""
    cards = [n for n, text in enumerate(pages, 1) if "Recipe cards" in text and re.search(r"\b5-\d+\b", text) and n > 2]
    starts = [n for n in cards if re.search(r"portions? · (Sun|Wed) ", pages[n - 1])]
    assert cards == list(range(cards[0], cards[-1] + 1)) and starts[0] == cards[0], "no page of the section is blank"
    lengths = [b - a for a, b in pairwise([*starts, cards[-1] + 1])]
    assert set(lengths) == {1, 2}
    assert all(start % 2 == 0 for start, length in zip(starts, lengths, strict=True) if length == 2)


@pytest.mark.pdf
def test_labels_lie_where_the_sheet_has_them(demo: Path, facts: dict) -> None:
    """US letter 3 x 10: margins 3/16 and 1/2 in, 2 5/8 x 1 in, gap 1/8 in between columns."""
    document = pypdfium2.PdfDocument(demo / f"print/{WEEK}-labels.pdf")
    assert len(document) == max(label["sheet"] for label in facts["labels"])
    sheet = sheets.sheet("letter 3x10")
    assert sheet is not None
    for label in facts["labels"]:
        page = document[label["sheet"] - 1]
        index = (label["row"] - 1) * sheet.columns + label["column"]
        where = sheets.position(sheet, index)
        left, top = where.x_mm * MM, page.get_height() - where.y_mm * MM
        right, bottom = left + sheet.label_mm[0] * MM, top - sheet.label_mm[1] * MM
        text = page.get_textpage().get_text_bounded(left=left, bottom=bottom, right=right, top=top)
        first = label["lines"][0].split(":")[0].split()[0]
        assert first in text, (label["lines"], text)


# ---- calendar ----


def test_the_calendar_is_read_by_another_program(demo: Path) -> None:
    calendar = icalendar.Calendar.from_ical((demo / f"calendar/{WEEK}.ics").read_bytes())
    events = list(calendar.walk("VEVENT"))
    assert len({str(event["UID"]) for event in events}) == len(events) > 3
    starts = {event["DTSTART"].dt.isoformat() for event in events}
    assert any(start.startswith("2026-06-07T13:00") or start.startswith("2026-06-07T17:00") for start in starts)


# ---- on screen ----


class _Links(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.targets: list[str] = []
        self.ids: set[str] = set()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        values = dict(attrs)
        if values.get("id"):
            self.ids.add(values["id"] or "")
        for name in ("href", "src"):
            if values.get(name):
                self.targets.append(values[name] or "")


def parsed(path: Path) -> _Links:
    found = _Links()
    found.feed(path.read_text("utf-8"))
    return found


def test_every_link_and_anchor_leads_somewhere(demo: Path) -> None:
    pages_ = {path: parsed(path) for path in (demo / "site").rglob("*.html")}
    assert len(pages_) > 40
    for path, links in pages_.items():
        for target in links.targets:
            parts = urlsplit(target)
            if parts.scheme in ("http", "https", "mailto", "data"):
                continue
            where = (path.parent / unquote(parts.path)).resolve() if parts.path else path
            assert where.is_file(), (path, target)
            if parts.fragment and where.suffix == ".html":
                other = pages_.get(where) or parsed(where)
                assert unquote(parts.fragment) in other.ids, (path, target)


def test_share_pages_name_no_eater_place_or_private_note(demo: Path) -> None:
    import yaml

    household = yaml.safe_load((ROOT / "content/household.yaml").read_text("utf-8"))
    secret = [e["name"] for e in household["eaters"]]
    secret += [p["name"] for p in household["places"] if p["name"] not in ("home", "school")]
    secret += [e["private"] for e in household["eaters"] if "private" in e]
    paths = sorted((demo / "share").iterdir())
    assert paths and secret
    for path in paths:
        text = path.read_text("utf-8")
        visible = re.sub(r"url\(data:[^)]*\)|src=\"data:[^\"]*\"", "", text)
        for word in secret:
            assert not re.search(rf"\b{re.escape(word)}\b", visible), (path.name, word)


SHOWN = (
    "index.html",
    f"weeks/{WEEK}/index.html",
    "weeks/index.html",
    "recipes/index.html",
    "recipes/beef-ragu-polenta/index.html",
    "foods/index.html",
    "freezer/index.html",
)


@needs_browser
@pytest.mark.browser
@pytest.mark.parametrize("width", [390, 1280])
def test_the_site_opens_from_the_folder_without_a_request_to_anywhere(demo: Path, browser: Browser, width: int) -> None:
    page = browser.new_context(viewport={"width": width, "height": 900}, offline=True).new_page()
    said: list[str] = []
    asked: list[str] = []
    page.on("console", lambda message: said.append(message.text))
    page.on("pageerror", lambda fault: said.append(str(fault)))
    page.on("request", lambda request: asked.append(request.url))
    for name in SHOWN:
        page.goto((demo / "site" / name).as_uri())
        assert page.locator("h1").count() == 1, name
        assert page.evaluate("document.documentElement.scrollWidth") <= width, name
    page.context.close()
    assert said == []
    assert [url for url in asked if not url.startswith("file://")] == []
