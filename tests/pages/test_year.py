"""The year's page: sums and charts of closed weeks, with the same figures in words."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest

from binder.pages.charts import Measured, bars
from tests.kitchen import Kitchen

NS = "{http://www.w3.org/2000/svg}"
SOUP = """
    title: {}
    makes: 4 portions
    ingredients: [600 g potatoes, 2 tbsp my oil]
    keeps: {{fridge: 4 days, freezer: 3 months}}
    reheat: ["microwave 1000 W, 2 min"]
"""
BODY = "## Prep day\n1. Cook. [30 min, burner]\n"
FOODS = """\
- {name: my oil, like: olive oil, packs: [{size: 500 mL, price: 5.00}]}
- {name: potatoes, like: potato, packs: [{size: 1 kg, price: 2.00}]}
"""


@pytest.fixture
def year(kitchen: Kitchen) -> Kitchen:
    """Three weeks: two are closed, the third is open."""
    kitchen.recipe("bean-soup", f"{SOUP.format('Bean soup')}    gives: [60 g parsley]\n", BODY).recipe(
        "stew", SOUP.format("Stew"), BODY
    )
    kitchen.files["foods.yaml"] = FOODS
    for key, on in (("2026-W22", "2026-05-24"), ("2026-W23", "2026-05-31"), ("2026-W24", "2026-06-07")):
        stew = ", {dinner: stew, for: Tomas, on: mon-wed, at: home}" if key == "2026-W23" else ""
        kitchen.week(
            f'prep: [{{on: {on}, at: "13:00", cooks: 1}}]\n'
            f"meals: [{{lunch: bean-soup, for: [Ilka, Tomas], on: mon-tue, at: home}}{stew}]",
            key,
        )
    kitchen.write()
    close(kitchen, "2026-W22", "bean-soup.thrown=1", "bean-soup.why=too salty", "2026-05-24.minutes=45")
    close(kitchen, "2026-W23", "bean-soup.left=1/2", "stew.made=4", "stew.frozen=1")
    found = [path for path in kitchen.content.rglob("*") if path.is_file()]
    kitchen.files = {path.relative_to(kitchen.content).as_posix(): path.read_text("utf-8") for path in found}
    (kitchen.content / "stock.yaml").unlink()
    kitchen.files.pop("stock.yaml")
    return kitchen


def close(kitchen: Kitchen, key: str, *answers: str) -> None:
    settings = [part for one in answers for part in ("--set", one)]
    result = kitchen.run("close-week", key, "--content", str(kitchen.content), "--today", "2026-06-05", *settings)
    assert result.exit_code == 0, result.output


def text(kitchen: Kitchen, path: str) -> str:
    kitchen.build("--only", "site")
    return (kitchen.out / "site" / path).read_text("utf-8").replace("\u00a0", " ")


def tables(page: str) -> list[list[list[str]]]:
    """The words of every cell of every table, row by row, heads first."""
    found = []
    for table in re.findall(r"<table.*?</table>", page, re.DOTALL):
        rows = re.findall(r"<tr.*?</tr>", table, re.DOTALL)
        cells = [re.findall(r"<t[hd].*?>(.*?)</t[hd]>", row, re.DOTALL) for row in rows]
        found.append([[re.sub(r"<.*?>", "", cell).strip() for cell in row] for row in cells])
    return found


def test_the_year_adds_up_what_its_closed_weeks_came_to(year: Kitchen) -> None:
    page = text(year, "years/2026/index.html")
    assert "2 of 3 planned weeks are closed." in page
    waste, reasons, cost, hours, dishes = tables(page)
    # 4 portions of soup in the first week, one thrown away; 4 and 4 (one of the stew frozen) in the second.
    assert [row[:5] for row in waste[1:]] == [
        ["Week 22, 2026", "4", "3", "1", "25 %"], ["Week 23, 2026", "8", "6½", "–", "0 %"],
        ["All", "12", "9½", "1", "8 %"],
    ]  # fmt: skip
    # A portion: 150 g potatoes, peeled from 200 g (a quarter is refuse, SR28 11352), at 2.00 a kg, and half a
    # tablespoon of oil at 5.00 for 500 mL: 0.40 + 0.074.
    assert waste[1][5] == waste[3][5] == reasons[1][4] == "$0.47" and waste[2][5] == "–"
    assert reasons[1][:4] == ["Week 22, 2026", "Bean soup", "1", "too salty"] and len(reasons) == 2
    assert [row[1] for row in cost[1:]] == ["$0.47", "$0.47"]
    assert hours[1] == ["Week 22, 2026", "30 min", "45 min", "15 min longer"]
    assert hours[2][2] == "not timed" and hours[3] == ["All", "30 min", "45 min", "15 min longer"]
    assert dishes[1] == ["Bean soup", "2: 22, 23", "8", "6½", "½", "–", "1"]
    assert dishes[2][:2] == ["Stew", "1: 23"]


def test_every_chart_has_a_table_that_says_the_same(year: Kitchen) -> None:
    page = text(year, "years/2026/index.html")
    charts = re.findall(r"<svg.*?</svg>", page, re.DOTALL)
    assert len(charts) == 3
    captions = re.findall(r'<p class="caption">(.*?)</p>', page)
    said = re.findall(r"<caption[^>]*>(.*?)</caption>", page)
    assert len(captions) == 3 and set(captions) <= set(said)


def test_the_list_of_weeks_leads_to_the_year_and_an_open_year_has_no_page(year: Kitchen) -> None:
    assert 'href="../years/2026/index.html"' in text(year, "weeks/index.html")
    year.files = {k: re.sub(r"(?ms)^closed:.*?^---", "---", v) for k, v in year.files.items()}
    assert "years/" not in text(year, "weeks/index.html") and not (year.out / "site/years").exists()


def test_what_stands_on_the_use_first_list_of_two_weeks_comes_back(year: Kitchen) -> None:
    page = text(year, "years/2026/index.html")
    again = page[page.index('id="use-first"') :]
    assert re.search(r">parsley: <a[^>]*>Week 22, 2026</a>, <a[^>]*>Week 23, 2026</a>", again)
    year.files["weeks/2026-W23.md"] = re.sub(r"(?ms)^closed:.*?^---", "---", year.files["weeks/2026-W23.md"])
    assert "Nothing stood on the use-first list" in text(year, "years/2026/index.html")


@pytest.mark.parametrize("value", [0.0, 2.0, None])
def test_bars_are_from_zero_in_one_scale(value: float | None) -> None:
    rows = [Measured("Week 1", value, "a"), Measured("Week 2", 4.0, "b <c>", 5.0)]
    root = ElementTree.fromstring(bars(rows, "T & U", "D", "x"))
    found = {float(r.attrib["width"]) for r in root.iter(f"{NS}rect") if r.attrib["class"] == "attended"}
    outline = next(float(r.attrib["width"]) for r in root.iter(f"{NS}rect") if r.attrib["class"] == "planned")
    assert max(found) / outline == pytest.approx(0.8, abs=1e-3)
    assert len(found) == (2 if value else 1) and (not value or min(found) / max(found) == pytest.approx(0.5, abs=1e-3))
    assert [t.text for t in root.iter(f"{NS}text")] == ["Week 1", "a", "Week 2", "b <c>"]
    # All of it lies in the picture, the longest bar's words too.
    right = max(float(t.attrib["x"]) for t in root.iter(f"{NS}text"))
    assert right < float(root.attrib["width"])
