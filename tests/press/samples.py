"""A binder, a site and labels made by hand: every kind of block, every section, an invented household."""

from __future__ import annotations

import io
from pathlib import Path

from PIL import Image

from binder.pages.other_files import Label, LabelPages
from binder.pages.page import Binder, Block, Box, Bullets, Crumb, Heading, Page, Para, Ruled, Run, Section, Site, plain
from binder.press.theme import Theme, laid_over
from tests.press.sample_blocks import (
    DISHES,
    SVG,
    card_blocks,
    day_blocks,
    matrix,
    mise,
    numbers,
    run_sheet,
    shopping,
    simple,
    week_table,
)  # fmt: skip

THEMES = Path(__file__).resolve().parents[2] / "themes"


def read_theme(name: str) -> Theme:
    folder = THEMES / name

    def texts(kind: str, ending: str) -> dict[str, str]:
        return {path.name: path.read_text("utf-8") for path in sorted((folder / kind).glob(f"*{ending}"))}

    return Theme(
        texts("templates", ".html"),
        texts("css", ".css"),
        {path.name: path.read_bytes() for path in sorted((folder / "fonts").glob("*.woff2"))},
        texts("scripts", ".js"),
    )


DEFAULT = read_theme("default")
LARGE_PRINT = laid_over(DEFAULT, read_theme("large-print"))


def photo(size: tuple[int, int] = (80, 60)) -> bytes:
    out = io.BytesIO()
    Image.new("RGB", size, "#c8b89a").save(out, "PNG")
    return out.getvalue()


def _sections() -> tuple[Section, ...]:
    cards = tuple(
        Page(f"recipes/card-{n}/index.html", dish, "recipe", card_blocks(dish), subtitle="Lunch, ready to eat",
             print_first=True)
        for n, dish in enumerate(DISHES[:3], start=1)
    )  # fmt: skip
    week = (
        Page("week", "Week sheet", "week-sheet", (week_table(),)),
        Page("days", "Day by day", "days", day_blocks(), print_first=True),
    )

    def one(number: int, key: str, title: str, tab: str, blocks: tuple[Block, ...]) -> Section:
        return Section(number, key, title, tab, (Page(key, title, key, blocks),))

    return (
        Section(1, "week", "Week sheet", "Week", week),
        one(2, "shopping", "Shopping list", "Shopping", shopping()),
        one(3, "mise", "Mise en place", "Mise", (mise(),)),
        one(4, "run-sheet", "Run sheet", "Run sheet", run_sheet()),
        Section(5, "recipes", "Recipe cards", "Recipes", cards),
        one(6, "packing", "Packing sheet", "Packing", simple("packing")),
        one(7, "reheating", "Reheating", "Reheat", simple("reheating")),
        one(8, "carry", "Carry list", "Carry", simple("carry")),
        one(9, "pull", "Pull list", "Pull", simple("pull")),
        Section(10, "kits", "Kit cards", "Kits",
                (Page("kit", "Trout parcels", "kit", card_blocks("Trout parcels"), print_first=True),)),
        one(11, "matrix", "Allergen matrix", "Allergens", (matrix(),)),
        one(12, "numbers", "Numbers", "Numbers", (Heading(2, "Marit"), numbers())),
        one(13, "keeping", "Keeping notes", "Keeping", (Bullets((plain("Cooked leftovers: 3 to 4 days."),), True),)),
        one(14, "notes", "How it went", "Notes", (Ruled(8, "What took longer"), Ruled(8, "What was left"))),
    )  # fmt: skip


def binder(paper: str = "letter", draft: str = "") -> Binder:
    return Binder(
        title="Week 24, 2026", household="The Harbour Lane kitchen", language="en", paper=paper,  # type: ignore[arg-type]
        sections=_sections(), contents_title="In this binder", running="Week 24 · 8 to 14 June 2026", draft=draft,
        front=(Para(plain("Printed for the week that starts on Monday 8 June.")),
               Box("caution", "Before you cook", (Para(plain("Local food-safety rules come first.")),))),
    )  # fmt: skip


def site(draft: str = "") -> Site:
    pages = (
        Page("index.html", "The Harbour Lane kitchen", "home", (*day_blocks(), Heading(2, "Archive", "archive"))),
        Page("weeks/2026-W24/index.html", "Week 24, 2026", "week",
             (Heading(2, "Week sheet", "sheet"), week_table(), Heading(2, "Shopping list", "shopping"), *shopping(),
              Heading(2, "Run sheet", "run"), *run_sheet(), Heading(2, "Allergen matrix", "matrix"), matrix(),
              Heading(2, "Numbers"), numbers(), Heading(2, "How it went"), Ruled(6, "Notes")),
             (Crumb("Home", "index.html"), Crumb("Weeks", "weeks/index.html"), Crumb("Week 24", None)),
             "8 to 14 June"),
        Page("weeks/index.html", "Weeks", "archive", (Bullets(((Run("Week 24", "", "weeks/2026-W24/index.html"),),)),)),
        Page("recipes/braise/index.html", DISHES[0], "recipe", card_blocks(DISHES[0]),
             (Crumb("Home", "index.html"), Crumb(DISHES[0], None)), "Lunch, ready to eat", "Fennel & beans",
             '{"@context": "https://schema.org", "@type": "Recipe", "name": "</script><b>"}'),
    )  # fmt: skip
    return Site(
        "The Harbour Lane kitchen", "en", pages,
        (("This week", "weeks/2026-W24/index.html"), ("Weeks", "weeks/index.html"), ("Home", "index.html")),
        plain("Diet figures are no medical advice."), draft, "Skip to the page", "On this page",
    )  # fmt: skip


def label(row_: int, column: int, sheet: int = 1, contains: str = "Contains milk, wheat") -> Label:
    return Label(sheet, row_, column, "Fennel and white bean braise", "Eat by Thu 11 June", "Oskar", contains,
                 "Microwave 700 W, 3 min 35 s", "380 g · 24-07")  # fmt: skip


def label_pages(columns: int, rows: int, draft: str = "") -> LabelPages:
    labels = tuple(label(r, c) for r in range(1, rows + 1) for c in range(1, columns + 1))
    return LabelPages("Labels, week 24", "en", "letter 3x10", 1, labels, draft)


__all__ = ["DEFAULT", "DISHES", "LARGE_PRINT", "SVG", "binder", "label", "label_pages", "photo", "read_theme", "site"]
