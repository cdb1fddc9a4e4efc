"""What closed weeks say to the next: minutes, weights, leftovers; weeks not closed, and a closing that was stopped."""

from __future__ import annotations

import json
import re
from typing import Any

import pytest

from tests.kitchen import Kitchen

WEEKS = ("2026-W20", "2026-W21", "2026-W22", "2026-W23", "2026-W24")
SUNDAYS = ("2026-05-10", "2026-05-17", "2026-05-24", "2026-05-31", "2026-06-07")
SOUP = """
    title: {}
    makes: 4 portions
    ingredients: [600 g potatoes]
    keeps: {{fridge: 4 days, freezer: 3 months}}
    reheat: ["microwave 1000 W, 2 min"]
"""
BODY = "## Prep day\n1. Cook. [40 min, burner]\n"


@pytest.fixture
def soup(kitchen: Kitchen) -> Kitchen:
    """Five weeks of one soup; the last is to come."""
    kitchen.recipe("bean-soup", SOUP.format("Bean soup"), BODY)
    for key, on in zip(WEEKS, SUNDAYS, strict=True):
        meals = "meals: [{lunch: bean-soup, for: [Ilka, Tomas], on: mon-wed, at: home}]"
        kitchen.week(f'prep: [{{on: {on}, at: "13:00", cooks: 1}}]\n{meals}', key)
    return kitchen.write()


def close(kitchen: Kitchen, key: str, *answers: str) -> None:
    settings = [part for one in answers for part in ("--set", one)] or ["--as-planned"]
    result = kitchen.run("close-week", key, "--content", str(kitchen.content), "--today", "2026-06-05", *settings)
    assert result.exit_code == 0, result.output
    (kitchen.content / "stock.yaml").unlink(missing_ok=True)
    found = [path for path in kitchen.content.rglob("*") if path.is_file()]
    kitchen.files = {path.relative_to(kitchen.content).as_posix(): path.read_text("utf-8") for path in found}


def page(kitchen: Kitchen, path: str) -> str:
    kitchen.build("--only", "site")
    text = (kitchen.out / f"site/weeks/2026-W24/{path}").read_text("utf-8")
    return re.sub(r"<[^>]+>", "", text).replace("\u00a0", " ")


def sheet(kitchen: Kitchen) -> dict[str, Any]:
    found: dict[str, Any] = kitchen.facts()["run_sheets"][0]
    return found


def said(kitchen: Kitchen, today: str = "2026-06-07") -> str:
    kitchen.write()
    return kitchen.run("check", str(kitchen.content), "--today", today).output


# ---- minutes ----


def test_the_minutes_of_closed_weeks_stand_beside_the_plan_s(soup: Kitchen) -> None:
    plain = sheet(soup)
    assert plain["expected_minutes"] is None and plain["expected_from"] == 0
    for key, on, minutes in zip(WEEKS, SUNDAYS, (50, 70, 60), strict=False):
        close(soup, key, f"{on}.minutes={minutes}")
    close(soup, WEEKS[3])  # not timed
    found = sheet(soup)
    # Planned 3 × 40, took 180: 20 min more each, 60 min.
    assert (found["expected_minutes"], found["expected_from"]) == (60, 3)
    # The plan itself is the one it was.
    assert {k: v for k, v in found.items() if not k.startswith("expected")} == {
        k: v for k, v in plain.items() if not k.startswith("expected")
    }
    assert found["minutes"] == 40
    words = page(soup, "run-sheet/index.html")
    assert "The last 3 sessions on a Sunday took 20 min longer than planned on average." in words
    assert "By that measure this one takes about 1 h, until 14:00." in words
    assert "the last 3 on a Sunday took 20 min longer than planned: by that about 1 h 00 min" in said(soup)


def test_sessions_of_another_day_count_where_there_is_none_of_this_one(soup: Kitchen) -> None:
    close(soup, WEEKS[0], "2026-05-10.minutes=30")
    soup.files["weeks/2026-W24.md"] = (
        soup.files["weeks/2026-W24.md"].replace("2026-06-07", "2026-06-08").replace("mon-wed", "tue-wed")
    )
    assert (sheet(soup)["expected_minutes"], sheet(soup)["expected_from"]) == (30, 1)
    assert "The last session took 10 min less than planned." in page(soup, "run-sheet/index.html")


def test_sessions_of_the_same_day_count_alone(soup: Kitchen) -> None:
    soup.files["weeks/2026-W21.md"] = (
        soup.files["weeks/2026-W21.md"].replace("2026-05-17", "2026-05-18").replace("mon-wed", "tue-wed")
    )
    soup.write()
    close(soup, WEEKS[0], "2026-05-10.minutes=60")
    close(soup, WEEKS[1], "2026-05-18.minutes=400")
    assert (sheet(soup)["expected_minutes"], sheet(soup)["expected_from"]) == (60, 1)


def test_minutes_on_top_and_no_ratio_and_another_length_is_said(soup: Kitchen) -> None:
    """Planned at 40, took 50: 10 min more. This one is planned at 120: 130, by the sentence; the ratio gave 150."""
    close(soup, WEEKS[0], "2026-05-10.minutes=50")
    soup.recipe("bean-soup", SOUP.format("Bean soup"), BODY.replace("40 min", "120 min"))
    found = sheet(soup)
    assert (found["minutes"], found["expected_minutes"]) == (120, 130)
    words = page(soup, "run-sheet/index.html")
    assert "The last session on a Sunday, planned at 40 min, took 10 min longer than planned." in words
    assert "By that measure this one takes about 2 h 10 min, until 15:10." in words
    assert "the last one on a Sunday, planned at 40 min, took 10 min longer than planned: by that about 2 h 10 min" in (
        said(soup)
    )


def test_a_week_after_this_one_says_nothing_about_it(soup: Kitchen) -> None:
    close(soup, WEEKS[4], "2026-06-07.minutes=90")
    soup.build("--only", "facts")
    before = soup.read("site/weeks/2026-W23/facts.json")["run_sheets"][0]
    assert before["expected_minutes"] is None


# ---- weights ----


def test_what_a_batch_weighed_is_offered(soup: Kitchen) -> None:
    close(soup, WEEKS[0], "bean-soup.weighs=9999 g")
    close(soup, WEEKS[1], "bean-soup.made=4", "bean-soup.weighs=1600 g", "bean-soup.eaten=4")
    assert "Weighed before: Bean soup 1.6 kg (Week 21) which is 2.4 kg for 6 portions." in page(
        soup, "packing/index.html"
    )
    line = "recipes/bean-soup.md: no cooked weight is written; weighed in 2026-W21, so `weighs: 1600 g`"
    assert line in said(soup)
    soup.recipe("bean-soup", SOUP.format("Bean soup") + "    weighs: 1600 g\n", BODY)
    assert "weighs:" not in said(soup)
    soup.recipe("bean-soup", SOUP.format("Bean soup") + "    weighs: 1900 g\n", BODY)
    assert "1900 g is written; weighed in 2026-W21, so `weighs: 1600 g`" in said(soup)


def test_a_portion_is_planned_by_the_mean_of_what_was_weighed(soup: Kitchen) -> None:
    """2,400 g for 6 and 1,400 g for 4 portions: 380 g each; what goes in, 600 g for 4, gave 150 g."""
    assert "≈ 150 g" in page(soup, "packing/index.html")
    close(soup, WEEKS[0], "bean-soup.weighs=2400 g")
    close(soup, WEEKS[1], "bean-soup.made=4", "bean-soup.weighs=1400 g", "bean-soup.eaten=4")
    text = page(soup, "packing/index.html")
    assert "≈ 380 g" in text and "≈ 2.3 kg" in text and "≈ 150 g" not in text
    assert "≈ is what earlier batches weighed on average" in text
    assert all("≈ 380 g" in label["lines"][-1] for label in soup.facts()["labels"])
    assert "≈ weighed" in page(soup, "cards/index.html")


# ---- what was left ----


def test_what_was_left_the_last_time_stands_on_the_page_of_the_week(soup: Kitchen) -> None:
    close(soup, WEEKS[0], "bean-soup.thrown=3")
    assert "3 of 6 portions thrown away" in page(soup, "index.html")
    close(soup, WEEKS[1], "bean-soup.thrown=1", "bean-soup.why=too salty", "bean-soup.left=1")
    words = page(soup, "index.html")
    assert "1 of 6 portions left; 1 of 6 portions thrown away (too salty)" in words and "3 of 6" not in words
    # Four of six were eaten.
    assert "6 portions; as eaten then, 4 portions would do" in words
    # What is frozen was not left over: of four that stayed three were eaten.
    close(soup, WEEKS[2], "bean-soup.frozen=2", "bean-soup.thrown=1")
    assert "6 portions; as eaten then, 5 portions would do" in page(soup, "index.html")
    close(soup, WEEKS[3], "bean-soup.frozen=2")
    assert "From past weeks" not in page(soup, "index.html")


def test_who_left_some_is_asked_whether_to_plan_fewer(soup: Kitchen) -> None:
    close(soup, WEEKS[0], "bean-soup.left by=Ilka 2, Tomas 1/2")
    words = page(soup, "index.html")
    assert "Ilka left 2 of 3; Tomas left ½ of 3" in words
    # Tomas ate two and a half of three, which is three when they are whole.
    assert "6 portions; Ilka: 3, plan 1?" in words and "Tomas: 3" not in words
    closed = re.sub(r"<[^>]+>", "", (soup.out / "site/weeks/2026-W20/index.html").read_text("utf-8"))
    assert "Ilka left 2, Tomas left ½" in closed
    again = ["close-week", WEEKS[0], "--content", str(soup.content)]
    assert "left by Ilka 2, Tomas 0.5, now Ilka 1" in soup.run(*again, "--set", "bean-soup.left by=Ilka 1").output


@pytest.mark.parametrize(
    ("said_by", "words"), [("Nobody 2", "nobody here is called Nobody"), ("2 Ilka", '"2 Ilka" is not an eater')]
)
def test_who_left_some_has_to_be_an_eater_with_a_number(soup: Kitchen, said_by: str, words: str) -> None:
    arguments = ["close-week", WEEKS[0], "--content", str(soup.content), "--set", f"bean-soup.left by={said_by}"]
    result = soup.run(*arguments)
    assert result.exit_code == 1 and words in result.output


# ---- weeks behind ----


def test_weeks_that_nobody_closed_are_named_and_are_no_problem(soup: Kitchen) -> None:
    close(soup, WEEKS[1])
    # On its Sunday a week is not behind.
    assert "not closed yet: 2026-W20, 2026-W22; " in said(soup)
    words = said(soup, "2026-06-08")
    assert "not closed yet: 2026-W20, 2026-W22, 2026-W23; `binder close-week 2026-W23`" in words
    assert json.loads(soup.run("check", str(soup.content), "--json", "--today", "2026-06-08").stdout)["problems"] == []
    for key in (WEEKS[0], *WEEKS[2:4]):
        close(soup, key)
    assert "not closed" not in said(soup, "2026-06-08")
    assert "not closed yet: 2026-W24;" not in said(soup, "2026-06-20")  # it is still the one that is printed


def test_a_build_says_it_too_each_time(soup: Kitchen) -> None:
    for _ in range(2):
        soup.build("--only", "facts", today="2026-06-08")
        assert soup.result and "not closed yet: 2026-W20, 2026-W21, 2026-W22, 2026-W23" in soup.result.output


@pytest.mark.parametrize("command", ["check", "build"])
def test_a_closing_that_was_stopped_is_said(soup: Kitchen, command: str) -> None:
    words = "a closing was stopped in the middle"
    out = ["--out", str(soup.out), "--only", "facts"] if command == "build" else []
    arguments = [command, str(soup.content), "--today", "2026-06-07", *out]
    assert words not in soup.run(*arguments).output
    note = {"stock.yaml": {"was": "x", "now": "fridge: [1 kg rice]\n"}}
    (soup.content / ".unfinished.json").write_text(json.dumps(note), "utf-8")
    assert words in soup.run(*arguments).output
