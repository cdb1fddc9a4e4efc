"""Closing a week: the stock after it, the block it leaves, twice is once, and a stop in the middle."""

from __future__ import annotations

import difflib
import json
import subprocess
import sys
from collections.abc import Mapping
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from click.testing import Result

from binder.commands import together
from binder.commands.close_week_lines import reduced
from binder.source.document import read_document
from binder.source.yaml_text import plain_value
from tests.kitchen import Kitchen, codes, only

ROOT = Path(__file__).resolve().parents[2]
WEEK_PATH = "weeks/2026-W24.md"
SOUP = """
    title: Carrot soup
    makes: 4 portions
    ingredients:
      - 800 g carrots, as purchased
      - 200 g rice
      - 2 onions
    gives: [60 g parsley]
    keeps: {fridge: 7 days, freezer: 3 months}
    batch: whole
    reheat: ["microwave 1000 W, 2 min"]
"""
STEW = """
    title: Bean stew
    makes: 4 portions
    ingredients: [600 g potatoes]
    at service: [4 tbsp ricotta]
    keeps: {fridge: 7 days, freezer: 3 months}
    reheat: ["microwave 1000 W, 2 min"]
"""
STOCK = """\
# Counted on Friday.
fridge:   # top shelf first
  - 1 kg carrots          # the big bag
  - 2 portions bean-stew, made 2026-06-06
freezer:
  - 4 portions "bean-stew", made 2026-05-20
  # - 3 lemons: gone
cupboard: [500 g rice, "2 onions, best before 2026-06-30", 1 kg flour]
"""
PLAN = """\
---
week: 2026-W24   # before the fair
prep:
  - {on: 2026-06-07, at: "13:00", cooks: 1}
meals:
  # lunch
  - {lunch: carrot-soup, for: Ilka, on: mon-wed, at: home}
  - {dinner: bean-stew, for: [Ilka, Tomas, Bea], on: [mon], at: home}
already: [3 portions bean stew]    # of the old ones
# the end
---
How it went.
"""


@pytest.fixture
def soup(kitchen: Kitchen) -> Kitchen:
    kitchen.recipe("carrot-soup", SOUP).recipe("bean-stew", STEW)
    kitchen.files["stock.yaml"], kitchen.files[WEEK_PATH] = STOCK.replace('"bean-stew"', "bean-stew"), PLAN
    return kitchen.write()


def close(kitchen: Kitchen, *options: str, status: int | None = 0, today: str = "2026-06-14") -> Result:
    result = kitchen.run("close-week", "2026-W24", "--content", str(kitchen.content), "--today", today, *options)
    if status is not None:
        assert result.exit_code == status, result.output
    return result


def text(kitchen: Kitchen, path: str) -> str:
    return (kitchen.content / path).read_bytes().decode()


def stock(kitchen: Kitchen) -> dict[str, Any]:
    value: dict[str, Any] = plain_value(read_document(text(kitchen, "stock.yaml").encode(), "s", "yaml").root)
    return value


def block(kitchen: Kitchen) -> dict[str, Any]:
    value: dict[str, Any] = plain_value(read_document(text(kitchen, WEEK_PATH).encode(), "w", "markdown").root)[
        "closed"
    ]
    return value


def both(kitchen: Kitchen) -> tuple[str, str]:
    return text(kitchen, "stock.yaml"), text(kitchen, WEEK_PATH)


def changed(before: str, after: str) -> list[str]:
    lines = difflib.unified_diff(before.splitlines(), after.splitlines(), lineterm="", n=0)
    return [line for line in lines if not line.startswith(("---", "+++", "@@"))]


# ---- as planned ----


def test_stock_after_a_week_that_went_as_planned(soup: Kitchen) -> None:
    before = text(soup, "stock.yaml")
    close(soup, "--as-planned")
    # Soup for four: 800 g carrots, 200 g rice, two onions. Three portions are eaten and one is surplus. Stew: the two
    # portions in the refrigerator expire first, one comes from the freezer.
    assert changed(before, text(soup, "stock.yaml")) == [
        "-  - 1 kg carrots          # the big bag",
        "-  - 2 portions bean-stew, made 2026-06-06",
        "+  - 0.2 kg carrots          # the big bag",
        "+  - 1 portion carrot-soup, made 2026-06-07",
        "+  - 60 g parsley, made 2026-06-07, use by 2026-06-14",
        "-  - 4 portions bean-stew, made 2026-05-20",
        "+  - 3 portions bean-stew, made 2026-05-20",
        '-cupboard: [500 g rice, "2 onions, best before 2026-06-30", 1 kg flour]',
        "+cupboard: [300 g rice, 1 kg flour]",
    ]


def test_the_week_gets_its_block_and_nothing_else_changes(soup: Kitchen) -> None:
    before = text(soup, WEEK_PATH)
    close(soup, "--as-planned")
    after = text(soup, WEEK_PATH)
    start, end = after.index("closed:"), after.index("---\nHow it went.")
    assert after[:start] + after[end:] == before
    found = block(soup)
    assert found["on"] == "2026-06-14"
    assert found["dishes"] == [
        {
            **{"dish": "carrot-soup", "made on": "2026-06-07", "planned": 4},
            **{"made": 4, "eaten": 3, "left": 1, "frozen": 0, "thrown": 0},
        },
        {
            **{"dish": "bean-stew", "from": "stock", "planned": 3},
            **{"made": 3, "eaten": 3, "left": 0, "frozen": 0, "thrown": 0},
        },
    ]
    assert [(one["on"], one["at"], one["minutes"]) for one in found["sessions"]] == [("2026-06-07", "13:00", None)]
    soup_then = found["recipes"][0]
    assert soup_then["recipe"] == "carrot-soup" and len(soup_then["edition"]) == 12
    assert found["cost"]["at least"] == "yes"


def test_figures_of_the_block_are_those_of_the_facts(soup: Kitchen) -> None:
    soup.recipe("carrot-soup", SOUP, "## Prep day\n1. Boil it all in water. [unattended 20 min, burner]\n").write()
    facts = soup.recipe_facts("carrot-soup")["per_portion"]
    close(soup, "--as-planned")
    recorded = block(soup)["recipes"][0]
    for name, value in facts["nutrients"].items():
        assert recorded["per portion"][name] == pytest.approx(value, rel=1e-9), name
    assert recorded["grams"] == pytest.approx(facts["grams"])
    assert facts["cooked_grams"] != facts["grams"], "rice takes up water"
    assert recorded["cooked grams"] == pytest.approx(facts["cooked_grams"])


def test_a_closed_week_keeps_its_figures_and_has_no_problems_of_its_plan(soup: Kitchen) -> None:
    before = soup.facts()
    close(soup, "--as-planned")
    soup.files = {path: text(soup, path) for path in soup.files}
    soup.recipe(
        "carrot-soup",
        SOUP.replace("800 g carrots, as purchased", "100 g butter").replace("fridge: 7 days", "fridge: 1 days"),
    )
    after = soup.facts()
    assert codes(after["problems"], "error") == []
    assert only(after["servings"], id="2026-06-08-lunch-ilka-carrot-soup")["nutrients"] == pytest.approx(
        only(before["servings"], id="2026-06-08-lunch-ilka-carrot-soup")["nutrients"]
    )
    assert after["cost"]["to_pay"] == before["cost"]["to_pay"]
    # The lots it took are gone from stock.yaml; the list is the one that it was bought by.
    assert after["shopping"] == before["shopping"]
    assert [serving["lot"] for serving in after["servings"]] == [serving["lot"] for serving in before["servings"]]


def test_a_week_after_it_counts_what_is_left(soup: Kitchen) -> None:
    close(soup, "--as-planned")
    soup.files = {path: text(soup, path) for path in soup.files}
    soup.files["weeks/2026-W25.md"] = PLAN.replace("W24", "W25").replace("06-07", "06-14").replace(
        "[3 portions", "[2 portions"
    )  # fmt: skip
    soup.build("--week", "2026-W25", today="2026-06-14")
    row = only(soup.read("site/weeks/2026-W25/facts.json")["shopping"], food="carrot")
    assert (row["need"]["amount"], row["buy"]["amount"]) == (800, 600)


# ---- answers ----


def test_answers_by_set(soup: Kitchen) -> None:
    close(
        soup,
        *("--set", "carrot-soup.frozen=1", "--set", "carrot-soup.thrown=1/2", "--set", "carrot-soup.why=burnt, mostly"),
        *("--set", "carrot-soup.weighs=1810 g", "--set", "2026-06-07.minutes=95", "--set", "note=Less salt."),
        *("--set", "substitution=leeks instead of onions", "--set", "carrot-soup.by-products=no"),
    )
    found = block(soup)
    assert found["dishes"][0] == {
        "dish": "carrot-soup", "made on": "2026-06-07", "planned": 4, "made": 4, "eaten": 2.5, "left": 0, "frozen": 1,
        "thrown": 0.5, "why": "burnt, mostly", "weighs": "1810 g cooked", "by-products": "no",
    }  # fmt: skip
    assert (found["sessions"][0]["minutes"], found["note"]) == (95, "Less salt.")
    assert found["substitutions"] == ["leeks instead of onions"]
    assert stock(soup)["freezer"][-1] == "1 portion carrot-soup, made 2026-06-07"
    assert "parsley" not in text(soup, "stock.yaml")


def test_half_a_batch_uses_half_of_its_lots(soup: Kitchen) -> None:
    close(soup, "--set", "carrot-soup.made=2", "--set", "bean-stew.made=2")
    assert stock(soup) == {
        "fridge": ["0.6 kg carrots", "30 g parsley, made 2026-06-07, use by 2026-06-14"],
        "freezer": ["4 portions bean-stew, made 2026-05-20"],
        "cupboard": ["400 g rice", "1 onions, best before 2026-06-30", "1 kg flour"],
    }


def test_more_taken_from_stock_than_planned(soup: Kitchen) -> None:
    close(soup, "--set", "bean-stew.made=5", "--set", "bean-stew.left=1")
    assert stock(soup)["freezer"] == ["1 portion bean-stew, made 2026-05-20"]
    # It was frozen and is thawed: its days in the refrigerator count from there.
    assert "1 portion bean-stew, made 2026-05-20, thawed 2026-06-07" in stock(soup)["fridge"]


ANSWERS = """\
week: 2026-W24
on: 2026-06-15
dishes:
  - {dish: Carrot soup, made: 4, eaten: 4}
  - {dish: bean-stew, eaten: 2, thrown: 1, why: "dropped"}
sessions:
  - {on: 2026-06-07, minutes: 80}
note: "A good week. \\u263a"
"""


@pytest.mark.parametrize("form", ["yaml", "json"])
def test_answers_from_a_file(soup: Kitchen, form: str) -> None:
    written = ANSWERS if form == "yaml" else json.dumps(plain_value(read_document(ANSWERS.encode(), "a", "yaml").root))
    path = soup.folder / f"answers.{form}"
    path.write_text(written, "utf-8")
    close(soup, "--from", str(path), "--set", "bean-stew.why=slipped")
    found = block(soup)
    assert [(one["eaten"], one["left"], one["thrown"]) for one in found["dishes"]] == [(4, 0, 0), (2, 0, 1)]
    assert (found["on"], found["dishes"][1]["why"], found["note"]) == ("2026-06-15", "slipped", "A good week. ☺")
    before = both(soup)
    close(soup, "--from", str(path), "--set", "bean-stew.why=slipped", today="2026-06-20")
    assert both(soup) == before


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (["--set", "carrot-soup.eaten=5"], "5 eaten are more than the 4 that were made"),
        (["--set", "carot-soup.eaten=1"], 'no recipe "carot-soup" in this week'),
        (["--set", "carrot-soup.etaen=1"], "eaten"),
        (["--set", "carrot-soup.left=lots"], "bad-amount"),
        (["--set", "carrot-soup.weighs=1810"], "has no unit"),
        (["--set", "carrot-soup/2.left=1"], "carrot-soup/2 is not made in 2026-W24"),
        (["--set", "carrot-soup.left"], "no `=` in it"),
    ],
)
def test_wrong_answers_write_nothing(soup: Kitchen, options: list[str], said: str) -> None:
    before = both(soup)
    assert said in close(soup, *options, status=1).output
    assert both(soup) == before


def test_portions_that_nothing_is_said_of_are_named(soup: Kitchen) -> None:
    output = close(soup, "--set", "carrot-soup.eaten=2", "--set", "carrot-soup.left=1").output
    assert "carrot-soup: nothing is said of 1 of 4 portions" in output


def test_answers_about_another_week_are_refused(soup: Kitchen) -> None:
    path = soup.folder / "answers.yaml"
    path.write_text(ANSWERS.replace("W24", "W23"))
    assert "bad-week" in close(soup, "--from", str(path), status=1).output


def test_a_week_that_is_not_there_is_two(soup: Kitchen) -> None:
    assert soup.run("close-week", "2026-W30", "--content", str(soup.content)).exit_code == 2


# ---- asked on a terminal ----


def asked(kitchen: Kitchen, keys: str, monkeypatch: pytest.MonkeyPatch) -> Result:
    from click.testing import CliRunner

    from binder.cli import main

    arguments = ["close-week", "2026-W24", "--content", str(kitchen.content), "--today", "2026-06-14"]
    return CliRunner().invoke(main, arguments, input=keys, catch_exceptions=False)


def test_enter_accepts_what_was_planned(soup: Kitchen, monkeypatch: pytest.MonkeyPatch) -> None:
    result = asked(soup, "\n" * 12, monkeypatch)
    assert result.exit_code == 0, result.output
    by_enter = both(soup)
    soup.write()
    close(soup, "--as-planned")
    assert both(soup) == by_enter


def test_the_questions_take_other_answers(soup: Kitchen, monkeypatch: pytest.MonkeyPatch) -> None:
    soup_answers = "1800\nn\n4\n0\n1\n2\ntoo sweet\n\ny\n"
    result = asked(soup, f"{soup_answers}y\n95\n\nThin it.\n", monkeypatch)
    assert result.exit_code == 0, result.output
    dish = block(soup)["dishes"][0]
    assert (dish["eaten"], dish["frozen"], dish["thrown"], dish["why"]) == (1, 1, 2, "too sweet")
    assert (dish["weighs"], block(soup)["sessions"][0]["minutes"], block(soup)["note"]) == (
        "1800 g cooked",
        95,
        "Thin it.",
    )


def test_an_end_of_the_answers_writes_nothing(soup: Kitchen, monkeypatch: pytest.MonkeyPatch) -> None:
    before = both(soup)
    assert asked(soup, "\n", monkeypatch).exit_code == 1
    assert both(soup) == before


# ---- twice is once ----


def test_twice_is_once(soup: Kitchen) -> None:
    options = ("--set", "carrot-soup.left=0", "--set", "note=Good.")
    close(soup, *options)
    before = both(soup)
    assert "2026-W24 was closed on 2026-06-14; nothing to change" in close(soup, *options, today="2026-06-21").output
    assert "nothing to change" in close(soup, "--as-planned").output
    assert "nothing to change" in close(soup).output
    assert both(soup) == before


def test_other_answers_want_to_be_written_again(soup: Kitchen) -> None:
    close(soup, "--as-planned")
    before = both(soup)
    output = close(soup, "--set", "carrot-soup.left=0", "--set", "carrot-soup.frozen=1", status=1).output
    assert "carrot-soup: left 1, now 0" in output
    assert "--again" in output
    assert both(soup) == before


def test_closing_again_is_as_if_it_had_been_said_at_once(soup: Kitchen) -> None:
    better = ("--set", "carrot-soup.made=2", "--set", "carrot-soup.left=0", "--set", "bean-stew.made=2")
    close(soup, *better)
    at_once = both(soup)
    soup.write()
    close(soup, "--as-planned")
    close(soup, *better, "--again", today="2026-06-20")
    meant = plain_value(read_document(at_once[0].encode(), "s", "yaml").root)
    assert {place: sorted(lines) for place, lines in stock(soup).items()} == {
        place: sorted(lines) for place, lines in meant.items()
    }
    assert (
        block(soup)["dishes"]
        == plain_value(read_document(at_once[1].encode(), "w", "markdown").root)["closed"]["dishes"]
    )
    assert block(soup)["on"] == "2026-06-14"


def test_closing_again_says_what_was_changed_in_between(soup: Kitchen) -> None:
    close(soup, "--as-planned")
    path = soup.content / "stock.yaml"
    path.write_text(path.read_text().replace("  - 1 portion carrot-soup, made 2026-06-07\n", ""))
    output = close(soup, "--set", "carrot-soup.left=0", "--set", "carrot-soup.eaten=4", "--again").output
    assert "`1 portion carrot-soup, made 2026-06-07` is not in fridge any more" in output
    assert "carrot-soup" not in text(soup, "stock.yaml")


# ---- nothing written, nothing lost ----


def test_dry_run_prints_the_difference_and_writes_nothing(soup: Kitchen) -> None:
    before = both(soup)
    output = close(soup, "--as-planned", "--dry-run").output
    assert both(soup) == before
    assert "\n-  - 1 kg carrots          # the big bag\n" in output
    assert "\n+  - 0.2 kg carrots          # the big bag\n" in output
    assert "+closed:" in output
    assert sorted(path.name for path in soup.content.iterdir()) == ["household.yaml", "recipes", "stock.yaml", "weeks"]


KILLED = """
import os, sys
from pathlib import Path
from binder.cli import main
count, real = [0], Path.replace
def replace(self, target):
    if Path(target).suffix in (".yaml", ".json", ".md"):
        count[0] += 1
        if count[0] == int(sys.argv[1]):
            os._exit(9)
    return real(self, target)
Path.replace = replace
main(sys.argv[2:])
"""


@pytest.mark.parametrize("nth", [1, 2, 3])
def test_a_kill_in_the_middle_loses_nothing(soup: Kitchen, nth: int) -> None:
    before = both(soup)
    close(soup, "--as-planned")
    whole = both(soup)
    soup.write()
    arguments = ["close-week", "2026-W24", "--content", str(soup.content), "--today", "2026-06-14", "--as-planned"]
    stopped = subprocess.run([sys.executable, "-c", KILLED, str(nth), *arguments], cwd=ROOT, check=False)
    assert stopped.returncode == 9
    half = both(soup)
    # The note, then stock.yaml, then the week: whatever was not written is as it was, never torn.
    assert half == {1: before, 2: before, 3: (whole[0], before[1])}[nth]
    assert (soup.content / together.NOTE).exists() == (nth > 1)
    close(soup, "--as-planned")
    assert both(soup) == whole
    assert not (soup.content / together.NOTE).exists()


def test_an_unfinished_closing_is_not_forced_over_what_was_edited_since(soup: Kitchen) -> None:
    arguments = ["close-week", "2026-W24", "--content", str(soup.content), "--today", "2026-06-14", "--as-planned"]
    subprocess.run([sys.executable, "-c", KILLED, "3", *arguments], cwd=ROOT, check=False)
    path = soup.content / WEEK_PATH
    path.write_text(path.read_text() + "More.\n")
    before = both(soup)
    output = close(soup, "--as-planned", status=1).output
    assert "was changed since" in output and together.NOTE in output
    assert both(soup) == before


# ---- files as households write them ----


@pytest.mark.parametrize("newline", ["\r\n", "\n"])
def test_line_ends_stay(soup: Kitchen, newline: str) -> None:
    for path in ("stock.yaml", WEEK_PATH):
        (soup.content / path).write_bytes(text(soup, path).replace("\n", newline).encode())
    close(soup, "--as-planned")
    for path in ("stock.yaml", WEEK_PATH):
        found = text(soup, path)
        assert found.count("\n") == found.count(newline)


@pytest.mark.parametrize(
    "written",
    [
        "",
        "# nothing\n",
        "fridge:\n",
        "{fridge: [], freezer: }\n",
        "freezer: [1 lb peas] # flow\n",
        "  fridge:\n  - 1 lb peas\n",
    ],
)
def test_odd_stock_files_take_what_is_left(soup: Kitchen, written: str) -> None:
    soup.files["stock.yaml"] = written
    soup.file(WEEK_PATH, PLAN.replace("already: [3 portions bean stew]    # of the old ones\n", "")).write()
    close(soup, "--set", "carrot-soup.frozen=1", "--set", "carrot-soup.left=1")
    found = stock(soup)
    assert found["fridge"][-2:] == [
        "1 portion carrot-soup, made 2026-06-07",
        "60 g parsley, made 2026-06-07, use by 2026-06-14",
    ]
    assert found["freezer"][-1] == "1 portion carrot-soup, made 2026-06-07"
    assert all(line in text(soup, "stock.yaml") for line in written.split("\n") if "#" in line and "flow" not in line)


def test_no_stock_file_is_made_when_there_is_nothing_to_write(soup: Kitchen) -> None:
    del soup.files["stock.yaml"]
    (soup.content / "stock.yaml").unlink()
    soup.file(WEEK_PATH, PLAN.replace("already: [3 portions bean stew]    # of the old ones\n", "")).write()
    close(soup, "--set", "carrot-soup.left=0", "--set", "carrot-soup.by-products=no")
    assert not (soup.content / "stock.yaml").exists()


def test_what_is_left_of_a_substituted_batch_says_what_it_contains(soup: Kitchen) -> None:
    swap = "substitutions:\n  - {in: carrot-soup, for: Ilka, use: 200 g pasta, instead of: rice}\nalready"
    soup.file(WEEK_PATH, PLAN.replace("already", swap)).write()
    close(soup, "--as-planned")
    assert "1 portion carrot-soup, made 2026-06-07, contains wheat" in stock(soup)["fridge"]


def test_a_plan_that_cannot_be_read_is_not_closed(soup: Kitchen) -> None:
    soup.file(WEEK_PATH, PLAN.replace("lunch: carrot-soup", "lunch: carot-soup")).write()
    before = both(soup)
    assert "unknown-recipe" in close(soup, "--as-planned", status=1).output
    assert both(soup) == before


@pytest.mark.parametrize(
    ("line", "share", "after"),
    [
        ("4 portions lentil stew, made 2026-05-20", Fraction(1, 4), "1 portion lentil stew, made 2026-05-20"),
        ("18 oz tomato passata, opened 2026-06-03", Fraction(1, 3), "6 oz tomato passata, opened 2026-06-03"),
        ("1 1/2 cups canola oil", Fraction(1, 2), "3/4 cup canola oil"),
        ("1 dozen eggs", Fraction(7, 12), "7 eggs"),
        ("about 500 g honey", Fraction(1, 3), "about 167 g honey"),
        ("2 cans (15 oz) beans", Fraction(1, 2), "1 can (15 oz) beans"),
        (
            "2 x 400 g tins tomatoes, best before 2027-01-01",
            Fraction(1, 2),
            "1 x 400 g tins tomatoes, best before 2027-01-01",
        ),
        ("1 lb 4 oz carrots, contains none", Fraction(1, 2), "1/2 lb plus 2 oz carrots, contains none"),
        ("3 heads of garlic", Fraction(5, 7), "2 1/4 heads of garlic"),
        ("500 g salt", Fraction(1, 1000), None),
        ("2 onions", Fraction(1, 20), None),
        ("1 L milk", Fraction(0), None),
        ("1 L milk, use by 2026-06-20", Fraction(1, 3), "0.333 L milk, use by 2026-06-20"),
    ],
)
def test_a_line_with_less_in_it(line: str, share: Fraction, after: str | None) -> None:
    assert reduced(line, share) == after


def test_a_block_by_hand_is_read_and_never_an_error(soup: Kitchen) -> None:
    by_hand: Mapping[str, str] = {"dishes": "[{dish: carrot-soup, left: two}]", "weather": "rain"}
    lines = "\n".join(f"  {key}: {value}" for key, value in by_hand.items())
    soup.file(WEEK_PATH, PLAN.replace("# the end\n", f"closed:\n{lines}\n")).write()
    assert ("bad-amount", "warning") in [(p["code"], p["severity"]) for p in soup.check()]
    assert codes(soup.check(), "error") == []
    assert "was closed; nothing to change" in close(soup).output


def test_a_dish_made_twice_has_a_row_for_each(soup: Kitchen) -> None:
    twice = PLAN.replace("meals:", '  - {on: 2026-06-10, at: "19:00", cooks: 1}\nmeals:')
    twice = twice.replace(
        "  # lunch\n", "  - {lunch: carrot-soup, for: Ilka, on: thu-fri, made: 2026-06-10, at: home}\n"
    )
    soup.file(WEEK_PATH, twice).write()
    close(soup, "--set", "carrot-soup/2.frozen=2")
    rows = [(one["dish"], one.get("which"), one["made on"], one["frozen"]) for one in block(soup)["dishes"][:2]]
    assert rows == [("carrot-soup", None, "2026-06-07", 0), ("carrot-soup", 2, "2026-06-10", 2)]
    assert stock(soup)["freezer"][-1] == "2 portions carrot-soup, made 2026-06-10"


def test_alike_portions_are_one_lot(soup: Kitchen) -> None:
    swap = "substitutions:\n  - {in: carrot-soup, for: Tomas, use: 200 g potatoes, instead of: rice}\nalready"
    plan = PLAN.replace("already", swap).replace("for: Ilka", "for: [Ilka, Tomas]")
    soup.file(WEEK_PATH, plan).write()
    close(soup, "--as-planned")
    # Two batches of whole four, three eaten of each: neither rice nor potato is an allergen of the list.
    assert "2 portions carrot-soup, made 2026-06-07" in stock(soup)["fridge"]


# ---- what is past its last day ----

FOUR_DAYS = {"fridge: 7 days": "fridge: 4 days"}
FROZEN_IN_TIME = ("--set", "carrot-soup.left=0", "--set", "carrot-soup.frozen=1")


@pytest.fixture
def short(soup: Kitchen) -> Kitchen:
    """The soup of Sunday 7 June keeps 4 days: until Thursday 11 June."""
    for old, new in FOUR_DAYS.items():
        soup.files["recipes/carrot-soup.md"] = soup.files["recipes/carrot-soup.md"].replace(old, new)
    return soup.write()


@pytest.mark.parametrize(("closed_on", "good"), [("2026-06-11", True), ("2026-06-12", False), ("2026-06-14", False)])
def test_what_is_past_its_last_day_is_written_as_it_is_there_and_said(
    short: Kitchen, closed_on: str, good: bool
) -> None:
    output = close(short, "--as-planned", today=closed_on).output
    assert "1 portion carrot-soup" in text(short, "stock.yaml")
    assert ("its last day in the refrigerator was Thursday 11 June; throw it away" in output) is not good
    assert block(short)["dishes"][0]["left"] == 1


def test_the_dry_run_shows_what_is_past_its_last_day(short: Kitchen) -> None:
    before = both(short)
    output = close(short, "--as-planned", "--dry-run").output
    assert "1 portion carrot-soup, made 2026-06-07: its last day in the refrigerator was Thursday 11 June" in output
    assert "+  - 1 portion carrot-soup" in output and both(short) == before


def test_what_was_frozen_in_time_is_written_by_the_way_out_that_is_said(short: Kitchen) -> None:
    output = close(short, "--as-planned").output
    assert f"--again {' '.join(FROZEN_IN_TIME)}" in output
    output = close(short, "--again", *FROZEN_IN_TIME).output
    assert "last day" not in output and "1 portion carrot-soup, made 2026-06-07" in stock(short)["freezer"]
    # The same said at once.
    short.write()
    close(short, *FROZEN_IN_TIME)
    assert "1 portion carrot-soup, made 2026-06-07" in stock(short)["freezer"]


def test_a_by_product_past_its_day_is_said(short: Kitchen) -> None:
    """60 g parsley, use by 14 June: the last day is still good."""
    assert "parsley" not in close(short, "--as-planned", "--dry-run", today="2026-06-14").output.split("---")[0]
    output = close(short, "--as-planned", today="2026-06-15").output
    assert "60 g parsley" in output and "was Sunday 14 June; throw it away" in output


def test_what_the_week_leaves_of_a_lot_that_is_over_is_said(soup: Kitchen) -> None:
    old = "2 portions bean-stew, made 2026-06-06"
    soup.files["stock.yaml"] = soup.files["stock.yaml"].replace(old, "9 portions bean-stew, made 2026-06-06")
    soup.write()
    before = both(soup)
    output = close(soup, "--as-planned").output
    # Made on 6 June with 7 days: 13 June.
    assert "6 portions bean-stew, made 2026-06-06: its last day in the refrigerator was Saturday 13 June" in output
    assert "6 portions bean-stew, made 2026-06-06" in stock(soup)["fridge"]
    # Closed anew from the stock as it was, on a day when it is still good.
    soup.write()
    assert both(soup) == before and "last day" not in close(soup, "--as-planned", today="2026-06-13").output
    assert "6 portions bean-stew, made 2026-06-06" in stock(soup)["fridge"]


def test_a_lot_that_the_week_did_not_touch_is_left_to_the_check(soup: Kitchen) -> None:
    soup.files["stock.yaml"] = soup.files["stock.yaml"].replace(
        "fridge:   #", "fridge:\n  - 80 g feta, best before 2026-06-09   #"
    )
    soup.write()
    close(soup, "--as-planned")
    assert "80 g feta, best before 2026-06-09" in text(soup, "stock.yaml")
