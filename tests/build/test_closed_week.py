"""A closed week stays what it was: recipes, foods, household and stock change, its numbers and its pages do not."""

from __future__ import annotations

import re
import shutil
from collections.abc import Mapping
from pathlib import Path

import pypdfium2
import pytest
from click.testing import CliRunner

from binder.cli import main
from tests.demo import ROOT
from tests.kitchen import Kitchen

WEEK = "2026-W24"
NOW = "2026-06-20"
HOUSEHOLD_CHANGES = (
    ("name: Ilka\n", "name: Ilka\n    avoids: [milk]\n    caution: strict\n    aims: {energy: at least 900 kcal}\n"),
    ("microwave 700 W, fridge", "microwave 1200 W, fridge"),
    ("deep tub, holds: 3 cup", "deep tub, holds: 1 cup"),
    ("time zone: America/Chicago", "time zone: America/Chicago\nmeasures: metric\nallergen list: eu\ncurrency: EUR"),
)
SOUP = """
    title: Carrot soup
    makes: 4 portions
    ingredients:
      - 800 g carrots, as purchased
      - 200 g my cheese
      - 300 g recipe: stock-broth
    keeps: {fridge: 4 days, freezer: 3 months}
    container: deep tub
    reheat: ["microwave 1000 W, 2 min"]
"""
BROTH = """
    title: Stock broth
    makes: 1200 g
    ingredients: [500 g onions, 1 kg carrots]
    keeps: {fridge: 3 days, freezer: 3 months}
"""
FOODS = """\
- name: my cheese
  label: {serving: 30 g, energy: 120 kcal, protein: 7 g}
  contains: [milk]
  packs: [{size: 200 g, price: 3.10}]
"""


@pytest.fixture
def soup(kitchen: Kitchen) -> Kitchen:
    kitchen.recipe("carrot-soup", SOUP, "## Prep day\n1. Simmer. [unattended 40 min, burner]\n2. Portion. [8 min]\n")
    kitchen.recipe("stock-broth", BROTH, "1. Simmer. [unattended 60 min, burner]\n")
    kitchen.recipe("other", "title: Other\nmakes: 2 portions\ningredients: [200 g rice]\nkeeps: {fridge: 4 days}")
    kitchen.files["foods.yaml"] = FOODS
    kitchen.files["stock.yaml"] = "fridge:\n  - 2 portions other, made 2026-06-06\n  - 1 kg carrots\n"
    kitchen.week(
        """\
        prep: [{on: 2026-06-07, at: "13:00", cooks: 1}]
        meals: [{lunch: carrot-soup, for: [Ilka, Tomas], on: mon-wed}, {dinner: other, for: Bea, on: mon}]
        already: [1 portion other]
        """
    )
    return kitchen.write()


def closed(kitchen: Kitchen, *options: str) -> None:
    result = kitchen.run("close-week", WEEK, "--content", str(kitchen.content), "--today", "2026-06-14", *options)
    assert result.exit_code == 0, result.output


def again(kitchen: Kitchen) -> None:
    """The files as they are on the disk by now become those that the next build writes."""
    found = [path for path in kitchen.content.rglob("*") if path.is_file()]
    kitchen.files = {path.relative_to(kitchen.content).as_posix(): path.read_text("utf-8") for path in found}


def pages(kitchen: Kitchen) -> Mapping[str, bytes]:
    """Every file below the week's folder, facts.json among them."""
    kitchen.build("--only", "site", "--draft", today=NOW)
    folder = kitchen.out / f"site/weeks/{WEEK}"
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in sorted(folder.rglob("*.*"))}


def changed(kitchen: Kitchen) -> None:
    """Everything that the week was made of becomes something else."""
    kitchen.recipe(
        "carrot-soup",
        SOUP.replace("800 g carrots", "90 g butter").replace("Carrot soup", "Butter soup").replace("4 days", "1 days"),
        "## Prep day\n1. Melt. [5 min, burner]\n",
    )
    kitchen.recipe("stock-broth", BROTH.replace("500 g onions", "2 kg onions"))
    kitchen.files["foods.yaml"] = FOODS.replace("120 kcal", "10 kcal").replace("milk", "soy").replace("3.10", "9.90")
    for old, new in HOUSEHOLD_CHANGES:
        kitchen.household(old, new)
    kitchen.files["stock.yaml"] = "fridge:\n  - 10 kg carrots\n"


def test_pages_and_numbers_stay_byte_by_byte(soup: Kitchen) -> None:
    closed(soup, "--set", "carrot-soup.left=1")
    again(soup)
    before = pages(soup)
    assert {"index.html", "facts.json", "cards/index.html", "packing/index.html", "numbers/index.html"} <= set(before)
    changed(soup)
    after = pages(soup)
    assert sorted(after) == sorted(before)
    assert [path for path in before if after[path] != before[path]] == []
    # And the changes are real: an open week of the same plan has others.
    soup.files[f"weeks/{WEEK}.md"] = re.sub(r"(?ms)^closed:.*?^---", "---", soup.files[f"weeks/{WEEK}.md"])
    for name in [path for path in soup.files if path.startswith("editions/")]:
        soup.files.pop(name)
    other = pages(soup)
    assert [path for path in before if other.get(path) == before[path]] == []


def test_a_closed_week_takes_nothing_from_what_is_on_hand_today(soup: Kitchen) -> None:
    soup.build("--only", "site", "--draft")
    shelf = soup.out / "site/freezer/index.html"
    assert "1 portion: Bea Mon 8 Jun" in shelf.read_text("utf-8").replace("\u00a0", " ")
    closed(soup, "--as-planned")
    again(soup)
    soup.build("--only", "site", "--draft")
    assert "Bea Mon 8 Jun" not in shelf.read_text("utf-8").replace("\u00a0", " ")


def test_a_recipe_that_is_gone_leaves_the_week_as_it_was(soup: Kitchen) -> None:
    closed(soup, "--as-planned")
    again(soup)
    before = soup.facts()
    soup.files.pop("recipes/carrot-soup.md")
    soup.files["stock.yaml"] = ""
    (soup.content / "recipes/carrot-soup.md").unlink()
    after = soup.facts()
    assert after["servings"] == before["servings"] and after["run_sheets"] == before["run_sheets"]
    assert [p for p in after["problems"] if p["severity"] == "error"] == []


def test_the_pages_say_that_they_are_of_a_closed_week_and_which_edition(soup: Kitchen) -> None:
    closed(soup, "--set", "carrot-soup.made=6", "--set", "carrot-soup.thrown=1", "--set", "carrot-soup.why=soft")
    again(soup)
    found = {path: raw.decode() for path, raw in pages(soup).items() if path.endswith(".html")}
    assert [path for path, text in found.items() if "Closed on 14 June 2026: this page shows" not in text] == []
    week = found["index.html"]
    editions = re.findall(r"<li>(recipes/[\w-]+\.md|\w+\.yaml), ([0-9a-f]{12})</li>", week)
    assert {path for path, _ in editions} == {
        "household.yaml", "foods.yaml", "stock.yaml", "recipes/carrot-soup.md", "recipes/stock-broth.md",
        "recipes/other.md",
    }  # fmt: skip
    for path, edition in editions:
        name, dot, ending = path.rpartition("/")[2].rpartition(".")
        assert soup.files[f"editions/{name}-{edition}{dot}{ending}"]
    table = re.search(r'<table class="[^"]*closed.*?</table>', week, re.DOTALL)
    assert table and "Carrot soup" in table[0] and "soft" in table[0]


def test_weeks_made_of_the_same_file_keep_it_once(soup: Kitchen) -> None:
    closed(soup, "--as-planned")
    names = sorted(path.name for path in (soup.content / "editions").iterdir())
    again(soup)
    soup.week("meals: [{lunch: carrot-soup, for: Ilka, on: mon}]", "2026-W25")
    soup.write()
    result = soup.run("close-week", "2026-W25", "--content", str(soup.content), "--as-planned", "--today", "2026-06-21")
    assert result.exit_code == 0, result.output
    more = {path.name for path in (soup.content / "editions").iterdir()} - set(names)
    assert {name.partition("-")[0] for name in more} == {"stock"}


def test_closing_again_goes_by_what_the_week_was_made_of(soup: Kitchen) -> None:
    closed(soup, "--as-planned")
    again(soup)
    stock = soup.files["stock.yaml"]
    soup.recipe("carrot-soup", SOUP.replace("800 g carrots", "100 g carrots"))
    soup.write()
    result = soup.run("close-week", WEEK, "--content", str(soup.content), "--again", "--set", "note=Less salt.")
    assert result.exit_code == 0, result.output
    assert (soup.content / "stock.yaml").read_text("utf-8") == stock
    assert "note: Less salt." in (soup.content / f"weeks/{WEEK}.md").read_text("utf-8")


@pytest.mark.parametrize("how", ["gone", "changed", "no household"])
def test_without_what_was_kept_the_figures_stay_and_the_page_says_what_does_not(soup: Kitchen, how: str) -> None:
    closed(soup, "--as-planned")
    again(soup)
    before = soup.facts()
    name = next(path for path in soup.files if path.startswith("editions/carrot-soup"))
    if how == "gone":
        soup.files.pop(name)
        (soup.content / name).unlink()
    elif how == "changed":
        soup.files[name] += "\nA line more.\n"
    else:
        plan = soup.files[f"weeks/{WEEK}.md"]
        soup.files[f"weeks/{WEEK}.md"] = re.sub(r"household\.yaml: \"?[0-9a-f]+\"?,?\s*", "", plan)
        assert soup.files[f"weeks/{WEEK}.md"] != plan
    soup.recipe("carrot-soup", SOUP.replace("800 g carrots", "90 g butter"))
    after = soup.facts()
    assert [s["nutrients"] for s in after["servings"]] == [
        {name: pytest.approx(value) for name, value in s["nutrients"].items()} for s in before["servings"]
    ]
    assert b"the rest is of today" in pages(soup)["index.html"]


def test_a_first_household_gets_none_of_the_kept_files(tmp_path: Path) -> None:
    content = tmp_path / "content"
    shutil.copytree(ROOT / "content", content)
    result = CliRunner().invoke(main, ["new", "household", str(tmp_path / "mine")], catch_exceptions=False)
    assert result.exit_code == 0 and not (tmp_path / "mine/editions").exists()


def test_the_form_asks_who_left_some_of_each_batch(soup: Kitchen) -> None:
    """Two sessions make the soup: each batch is asked about, of those who have it."""
    soup.week("""
        prep:
          - {on: 2026-06-07, at: "13:00", cooks: 1}
          - {on: 2026-06-10, at: "19:00", cooks: 1}
        meals:
          - {dinner: carrot-soup, for: [Ilka], on: mon, at: home, made: 2026-06-07}
          - {dinner: carrot-soup, for: [Bea], on: thu, at: home, made: 2026-06-10}
    """)  # fmt: skip
    soup.write()
    made = soup.run("build", str(soup.content), "--out", str(soup.out), "--today", "2026-06-07", "--only", "site")
    assert made.exit_code == 0, made.output
    form = (soup.out / f"site/weeks/{WEEK}/how-it-went/index.html").read_text("utf-8")
    assert 'name="carrot-soup.left by"' in form and 'name="carrot-soup/2.left by"' in form
    assert "such as Ilka 1" in form and "such as Bea 1" in form and "Ilka 1, Bea 1" not in form


def cover_of(path: Path) -> str:
    return " ".join(pypdfium2.PdfDocument(path)[0].get_textpage().get_text_range().split())


def test_a_closed_week_is_not_as_planned_on_its_cover_and_another_week_takes_its_binder_away(soup: Kitchen) -> None:
    closed(soup, "--as-planned")
    again(soup)
    soup.week('prep: [{on: 2026-06-14, at: "13:00"}]\nmeals: [{lunch: other, for: Bea, on: mon, at: home}]', "2026-W25")
    soup.write()
    first, second = (soup.out / f"print/{key}-binder.pdf" for key in (WEEK, "2026-W25"))

    def printed(week: str) -> str:
        options = ("--today", NOW, "--only", "print", "--week", week, "--draft")
        made = soup.run("build", str(soup.content), "--out", str(soup.out), *options)
        assert made.exit_code == 0, made.output
        return made.output

    assert "taken away" not in printed(WEEK) and "taken away" not in printed(WEEK)
    cover = cover_of(first)
    assert "closed on 14 June 2026" in cover and "As planned on" not in cover
    assert f"{first} was taken away: each kind of output is replaced as a whole" in printed("2026-W25")
    assert second.exists() and not first.exists()
    assert "As planned on" in cover_of(second)
