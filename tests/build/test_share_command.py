"""`binder share`: one HTML file of less than 400 KB and one PDF, of a recipe, a week, or a week for the family."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pypdfium2
import pytest

from tests.kitchen import Kitchen
from tests.scenarios.test_scenarios import STEW, STEW_WEEK

pytestmark = pytest.mark.pdf


@pytest.fixture
def stew(kitchen: Kitchen) -> Kitchen:
    kitchen.household("  - name: Ilka\n", "  - name: Ilka\n    shares week: yes\n")
    return kitchen.recipe("barley-stew", STEW).week(STEW_WEEK.replace("for: Tomas", "for: [Ilka, Tomas]")).write()


def shared(kitchen: Kitchen, *arguments: str, status: int = 0) -> str:
    where = ("--content", str(kitchen.content), "--out", str(kitchen.out), "--today", "2026-06-07")
    result = kitchen.run("share", *arguments, *where)
    assert result.exit_code == status, result.output
    return result.output


def read(path: Path) -> str:
    if path.suffix == ".pdf":
        return " ".join(page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(path))
    return re.sub(r"data:[\w/+-]+;base64,[\w+/=]+", "", path.read_text("utf-8"))


@pytest.mark.parametrize("what", ["barley-stew", "2026-W24"])
def test_one_page_and_one_pdf_and_nothing_else(stew: Kitchen, what: str) -> None:
    said = shared(stew, what)
    files = sorted(path.relative_to(stew.out).as_posix() for path in stew.out.rglob("*") if path.is_file())
    assert files == [f"share/{what}.html", f"share/{what}.pdf"] and all(name in said for name in files)
    for name in files:
        path = stew.out / name
        assert path.stat().st_size < 400_000 and "Barley stew" in read(path)
        assert not any(word in read(path) for word in ("Ilka", "Tomas", "Alder Street", "survey van", "deep tub"))


def test_the_page_is_the_one_that_a_build_makes(stew: Kitchen) -> None:
    shared(stew, "barley-stew")
    alone = (stew.out / "share/barley-stew.html").read_bytes()
    stew.build("--only", "share")
    assert (stew.out / "share/barley-stew.html").read_bytes() == alone
    assert sorted(path.name for path in (stew.out / "share").iterdir()) == ["2026-W24.html", "barley-stew.html"]


def test_the_familys_page_names_who_agreed_and_nobody_else(stew: Kitchen) -> None:
    shared(stew, "2026-W24", "--family")
    for ending in ("html", "pdf"):
        said = read(stew.out / f"share/2026-W24-family.{ending}")
        assert "Ilka" in said and "arley" in said and "deep tub" in said
        assert "Tomas" not in said and "survey van" not in said


@pytest.mark.parametrize(
    ("arguments", "says"),
    [(("2026-W24", "--family", "--for", "Tomas"), "Tomas did not agree"),
     (("2026-W24", "--family", "--for", "Nobody"), "no eater 'Nobody'"),
     (("2026-W24", "--for", "Ilka"), "--for goes with --family"),
     (("barley-stew", "--family"), "a page for the family is a week's"), (("plum-cake",), "no recipe or week")],
)  # fmt: skip
def test_wrong_arguments_write_nothing(stew: Kitchen, arguments: tuple[str, ...], says: str) -> None:
    assert says in " ".join(shared(stew, *arguments, status=2).split())
    assert not (stew.out / "share").exists()


def test_an_error_of_a_plan_keeps_back_the_week_and_not_the_recipe(stew: Kitchen) -> None:
    stew.recipe("barley-stew", STEW + "    freezes: no\n").write()
    assert "kept-too-long" in shared(stew, "2026-W24", status=1)
    shared(stew, "barley-stew")
    stew.recipe("barley-stew", STEW.replace("makes: 5 portions", "makes: nothing")).write()
    assert "bad-amount" in shared(stew, "barley-stew", status=1)


def test_where_nobody_agreed_there_is_no_page_for_the_family(kitchen: Kitchen) -> None:
    kitchen.recipe("barley-stew", STEW).week(STEW_WEEK).write()
    assert "shares week: yes" in " ".join(shared(kitchen, "2026-W24", "--family", status=2).split())


def test_a_build_makes_no_page_for_the_family(stew: Kitchen) -> None:
    stew.build("--only", "share", "--only", "site")
    assert not list(stew.out.rglob("*family*"))


def test_the_json_of_a_shared_recipe_is_whole(stew: Kitchen) -> None:
    shared(stew, "barley-stew")
    html = (stew.out / "share/barley-stew.html").read_text("utf-8")
    found = re.findall(r'<script type="application/ld\+json">(.*?)</script>', html)
    assert len(found) == 1 and json.loads(found[0])["@type"] == "Recipe"
