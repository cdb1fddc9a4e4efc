"""`binder import` from the command line: what it writes passes the check, and says what is left to write."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from binder.cli import main
from tests.kitchen import Kitchen

TEXT = """Bean pot
Serves 4
Ingredients
2 tbsp olive oil
1 large onion, diced
2 (15 oz) cans white beans, drained
Method
1. Soften the onion. [gently]
2. Add the beans.
"""


@pytest.fixture
def home(tmp_path: Path) -> Kitchen:
    return Kitchen(tmp_path).write()


def run(home: Kitchen, text: str, name: str = "found.txt", *more: str) -> Result:
    source = home.folder / name
    source.write_text(text, "utf-8")
    return CliRunner().invoke(main, ["import", str(source), "--content", str(home.content), *more])


def test_a_text_becomes_a_recipe_that_passes_the_check(home: Kitchen) -> None:
    result = run(home, TEXT)
    assert result.exit_code == 0, result.output
    written = (home.content / "recipes" / "bean-pot.md").read_text("utf-8")
    assert "makes: 4 portions\n" in written and "  - 1 large onion, diced\n" in written
    # What ends in brackets is no note of minutes and tools.
    assert "1. Soften the onion. (gently)\n" in written
    assert "write minutes behind the steps" in result.output
    assert home.run("check", str(home.content), "--today", "2026-06-07").exit_code == 0


def test_a_shared_page_comes_back_with_its_figures(home: Kitchen) -> None:
    front = (
        "title: Bean pot\nmeal: lunch\nmakes: 4 portions\n"
        "ingredients:\n  - 2 tbsp olive oil\n  - 300 g onion, diced\n  - 450 g carrots, sliced\n"
    )
    home.recipe("first", front, "## Prep day\n1. Simmer. [unattended 20 min, burner]\n").write()
    home.run("build", str(home.content), "--out", str(home.out), "--today", "2026-06-07", "--only", "share")
    page = (home.out / "share" / "first.html").read_text("utf-8").replace("Bean pot", "Pot of beans")
    assert run(home, page, "page.html").exit_code == 0
    home.run("build", str(home.content), "--out", str(home.out), "--today", "2026-06-07", "--only", "facts")
    first, again = (
        json.loads((home.out / "site" / "recipes" / key / "facts.json").read_text("utf-8"))
        for key in ("first", "pot-of-beans")
    )
    # The page is in ounces, to the quarter: 10½ oz for 300 g.
    for nutrient, value in first["per_portion"]["nutrients"].items():
        assert again["per_portion"]["nutrients"][nutrient] == pytest.approx(value, rel=0.02), nutrient
    assert again["portions"] == 4 and again["meals"] == ["lunch"]


def test_nothing_is_written_over(home: Kitchen) -> None:
    assert run(home, TEXT).exit_code == 0
    before = (home.content / "recipes" / "bean-pot.md").read_bytes()
    again = run(home, TEXT.replace("4", "5"))
    assert again.exit_code == 1 and "give another --name" in again.output
    assert (home.content / "recipes" / "bean-pot.md").read_bytes() == before
    assert run(home, TEXT.replace("Bean pot", "Bean dish"), "x.txt", "--name", "second").exit_code == 0


def test_a_dry_run_writes_nothing(home: Kitchen) -> None:
    result = run(home, TEXT, "found.txt", "--dry-run")
    assert result.exit_code == 0 and "title: Bean pot" in result.output
    assert not (home.content / "recipes").exists()


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("<html><body>No recipe here.</body></html>", "marks up no recipe"),
        ("", "marks up no recipe"),
        ('{"@type": "Recipe", "name": "A"}', "no ingredient line was found"),
        ('[{"@type": "Recipe", "name": "A"}, {"@type": "Recipe", "name": "B"}]', "--which 2  B"),
    ],
)
def test_what_holds_no_recipe_says_so(home: Kitchen, text: str, says: str) -> None:
    result = run(home, text)
    assert result.exit_code == 1 and says in result.output and "nothing was written" in result.output


def test_lines_that_cannot_be_read_are_said_where_they_stand(home: Kitchen) -> None:
    result = run(home, TEXT.replace("2 tbsp olive oil", "2 glups of qwertz"))
    assert result.exit_code == 1
    assert "recipes/bean-pot.md:6" in result.output and "unknown-unit" in result.output
    assert (home.content / "recipes" / "bean-pot.md").exists()
