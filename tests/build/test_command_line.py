"""Arguments, messages and exit status, as scripts rely on them."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from pypdfium2 import PdfDocument

from binder.commands import food
from binder.tables import everyday
from tests.kitchen import Kitchen, codes
from tests.scenarios.test_scenarios import STEW, STEW_WEEK

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def stew(kitchen: Kitchen) -> Kitchen:
    return kitchen.recipe("barley-stew", STEW).week(STEW_WEEK)


def test_built_is_zero(stew: Kitchen) -> None:
    stew.build()
    assert (stew.out / "site/weeks/2026-W24/facts.json").is_file()


def test_errors_are_one_and_replace_nothing(stew: Kitchen) -> None:
    stew.build()
    before = (stew.out / "site/weeks/2026-W24/facts.json").read_bytes()
    stew.recipe("barley-stew", STEW + "    freezes: no\n").build(status=1)
    assert (stew.out / "site/weeks/2026-W24/facts.json").read_bytes() == before


def test_a_draft_builds_all_the_same(stew: Kitchen) -> None:
    stew.recipe("barley-stew", STEW + "    freezes: no\n").build("--draft")
    facts = stew.read("site/weeks/2026-W24/facts.json")
    assert codes(facts["problems"]) == ["kept-too-long"]


@pytest.mark.parametrize(
    "arguments",
    [
        ["--today", "7 June"],
        ["--only", "poster"],
        ["--week", "2026-W99"],
        ["--no-such-option"],
        ["--theme", "no-such-theme"],
    ],
)
def test_wrong_arguments_are_two(stew: Kitchen, arguments: list[str]) -> None:
    stew.write()
    assert stew.run("build", str(stew.content), "--out", str(stew.out), *arguments).exit_code == 2


def test_no_such_folder_is_two(tmp_path: Path, kitchen: Kitchen) -> None:
    assert kitchen.run("check", str(tmp_path / "nowhere")).exit_code == 2


def test_strict_makes_warnings_count(stew: Kitchen) -> None:
    stew.recipe("barley-stew", STEW.replace("600 g carrots", "600 g moonroot")).write()
    assert stew.run("check", str(stew.content), "--today", "2026-06-07").exit_code == 0
    assert stew.run("check", str(stew.content), "--today", "2026-06-07", "--strict").exit_code == 1


def test_a_named_week_looks_only_at_what_it_needs(stew: Kitchen) -> None:
    stew.file("recipes/broken.md", "---\ntitle: [\n---\n")
    assert codes(stew.check()) != []
    assert stew.check("--week", "2026-W24") == []


def test_the_list_in_a_draft_is_the_list_that_check_prints(stew: Kitchen) -> None:
    stew.recipe("barley-stew", STEW + "    freezes: no\n")
    printed = stew.check()
    assert stew.facts()["problems"] == printed


def run(*arguments: str, **environment: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-c", "from binder.cli import main; main()", *arguments]
    env = {**os.environ, **environment}
    return subprocess.run(command, capture_output=True, text=True, env=env, cwd=ROOT, check=False, timeout=120)


def test_a_problem_shows_its_place_its_line_and_a_way_out(stew: Kitchen) -> None:
    stew.recipe("barley-stew", STEW.replace("600 g carrots", "600 g carots")).write()
    said = run("check", str(stew.content), "--today", "2026-06-07").stderr.splitlines()
    where = f"{stew.content}/recipes/barley-stew.md:9:11: warning[unknown-food]"
    assert said[0].startswith(where), said
    assert said[1].strip().startswith("9 |") and said[1].endswith("- 600 g carots")
    assert said[2].index("^") == said[1].index("carots") and said[2].count("^") == len("carots")
    assert "carrot" in said[3]


def test_no_colour_into_a_pipe(stew: Kitchen) -> None:
    stew.recipe("barley-stew", STEW.replace("600 g carrots", "600 g carots")).write()
    found = run("check", str(stew.content), "--today", "2026-06-07")
    assert "\x1b" not in found.stderr + found.stdout


def test_colour_on_a_terminal_unless_no_color_is_set(stew: Kitchen) -> None:
    import pty

    stew.recipe("barley-stew", STEW.replace("600 g carrots", "600 g carots")).write()
    seen = []
    for extra in ({}, {"NO_COLOR": "1"}):
        parent, child = pty.openpty()
        command = [sys.executable, "-c", "from binder.cli import main; main()", "check", str(stew.content)]
        env = {k: v for k, v in os.environ.items() if k != "NO_COLOR"} | extra
        process = subprocess.Popen([*command, "--today", "2026-06-07"], stdout=child, stderr=child, env=env, cwd=ROOT)
        os.close(child)
        text = b""
        while True:
            try:
                piece = os.read(parent, 4096)
            except OSError:
                break
            if not piece:
                break
            text += piece
        process.wait(timeout=60)
        os.close(parent)
        seen.append(b"\x1b[33m" in text)
    assert seen == [True, False]


def test_control_characters_of_a_file_do_not_reach_the_terminal(stew: Kitchen) -> None:
    stew.recipe("barley-stew", STEW.replace("600 g carrots", '"600 g \\x1b[31mcarots"')).write()
    found = run("check", str(stew.content), "--today", "2026-06-07")
    assert "\x1b" not in found.stderr


def test_only_leaves_the_other_kinds_as_they_are(stew: Kitchen) -> None:
    stew.write()
    arguments = ["build", str(stew.content), "--out", str(stew.out), "--today", "2026-06-07"]
    assert stew.run(*arguments, "--only", "site", "--only", "calendar").exit_code == 0
    assert not (stew.out / "site/weeks/2026-W24/facts.json").exists()
    page = (stew.out / "site/index.html").read_bytes()
    assert stew.run(*arguments, "--only", "facts").exit_code == 0
    assert (stew.out / "site/index.html").read_bytes() == page
    assert (stew.out / "site/weeks/2026-W24/facts.json").exists()
    assert (stew.out / "calendar/2026-W24.ics").exists()


def test_new_household_builds_as_it_is(tmp_path: Path, kitchen: Kitchen) -> None:
    folder = tmp_path / "mine"
    assert kitchen.run("new", "household", str(folder)).exit_code == 0
    made = kitchen.run("build", str(folder), "--out", str(tmp_path / "out"), "--today", "2026-06-07", "--only", "facts")
    assert made.exit_code == 0, made.output
    assert kitchen.run("new", "household", str(folder)).exit_code == 2


def test_new_recipe_and_week_pass_the_check_and_write_nothing_over(stew: Kitchen) -> None:
    stew.write()
    content = str(stew.content)
    for form in ("ready", "kit", "assemble", "portioned"):
        assert stew.run("new", "recipe", f"A {form} dish", "--form", form, "--content", content).exit_code == 0
    assert stew.run("new", "week", "2026-W25", "--content", content).exit_code == 0
    assert stew.run("new", "week", "2026-W25", "--content", content).exit_code == 2
    assert stew.run("new", "week", "2026-W54", "--content", content).exit_code == 2
    found = json.loads(stew.run("check", content, "--json", "--today", "2026-06-07").stdout)
    assert found == {"problems": []}


def test_food_shows_figures_with_their_source_or_the_nearest_names(kitchen: Kitchen) -> None:
    found = kitchen.run("food", "butternut", "squash", "--content", "nowhere")
    assert found.exit_code == 0 and "SR28" in found.output and "kcal" in found.output
    missed = kitchen.run("food", "butternutt", "squash", "--content", "nowhere")
    assert missed.exit_code == 1 and "butternut squash" in missed.output


def test_food_says_everything_once_and_from_where() -> None:
    for item in everyday.all_foods():
        found = food.report(item.name, None)
        said = [(one["measure"], one["grams"]) for one in found.data["measures"]]
        assert found.known and len(said) == len(set(said)), (item.name, said)
        assert all(one["source"] for one in found.data["measures"])
        sourced = ("  contains", "  yield", "  keeps", "  once opened", "  store")
        lines = [line for line in found.lines if line.startswith(sourced) and "not known" not in line]
        assert all(line.endswith(")") for line in lines), (item.name, lines)


def test_food_shows_a_measure_once_that_both_tables_have(kitchen: Kitchen) -> None:
    found = kitchen.run("food", "butter", "--content", "nowhere").output
    assert found.count("1 stick ") == 1 and found.count("1 pat") == 1  # SR28 01001
    assert "1 knob" in found and "common practice" in found


def test_labels_from_another_position(stew: Kitchen) -> None:
    stew.write()
    found = stew.run("labels", str(stew.content), "--out", str(stew.out), "--today", "2026-06-07", "--first-free", "29")
    assert found.exit_code == 0 and "5 labels; next free position 4" in found.output
    assert (stew.out / "print/2026-W24-labels.pdf").is_file()


def test_a_section_is_printed_alone_with_its_own_numbers(stew: Kitchen) -> None:
    stew.build("--only", "print", "--only", "site")
    whole = (stew.out / "print/2026-W24-binder.pdf").read_bytes()
    arguments = [str(stew.content), "--out", str(stew.out), "--today", "2026-06-07"]
    found = stew.run("build", *arguments, "--section", "cards", "--section", "1")
    assert found.exit_code == 0 and "2026-W24-sections.pdf: " in found.output and " sheets" in found.output
    assert (stew.out / "print/2026-W24-binder.pdf").read_bytes() == whole and (stew.out / "site/index.html").is_file()
    pages = [page.get_textpage().get_text_range() for page in PdfDocument(stew.out / "print/2026-W24-sections.pdf")]
    numbers = [match[0] for text in pages for match in [re.search(r"\b\d{1,2}-\d{1,2}\b", text)] if match]
    assert numbers[0] == "1-1" and "5-1" in numbers and {number.split("-")[0] for number in numbers} == {"1", "5"}
    # A section begins on a right-hand page: its back belongs to no other.
    assert next(n for n, text in enumerate(pages) if "5-1" in text) % 2 == 0
    stew.build("--only", "print")
    assert not (stew.out / "print/2026-W24-sections.pdf").exists()


def test_a_section_is_one_of_the_binders_and_is_printed_and_nothing_else(stew: Kitchen) -> None:
    stew.write()
    for wrong in (["--section", "poster"], ["--section", "15"], ["--section", "cards", "--only", "site"]):
        assert stew.run("build", str(stew.content), "--out", str(stew.out), *wrong).exit_code == 2


def test_a_build_says_what_the_binder_takes_the_second_time_too(stew: Kitchen) -> None:
    stew.write()
    arguments = ["build", str(stew.content), "--out", str(stew.out), "--today", "2026-06-07"]
    first, second = (stew.run(*arguments).output for _ in range(2))
    pages = len(PdfDocument(stew.out / "print/2026-W24-binder.pdf"))
    said = f"binder.pdf: {pages} pages, {(pages + 1) // 2} sheets, ink on "
    assert said in first and said in second


def test_the_test_sheet_is_made_alone(stew: Kitchen) -> None:
    stew.build("--only", "print", "--only", "labels")
    before = sorted(path.name for path in (stew.out / "print").iterdir())
    found = stew.run("labels", str(stew.content), "--out", str(stew.out), "--today", "2026-06-07", "--test-sheet")
    assert found.exit_code == 0 and "print/test-labels.pdf" in found.output.replace(os.sep, "/")
    assert sorted(path.name for path in (stew.out / "print").iterdir()) == [*before, "test-labels.pdf"]
