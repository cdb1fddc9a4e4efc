"""`binder check --explain`: a page for each problem code, and the line that says so when problems were found."""

from __future__ import annotations

import pytest
from click.testing import CliRunner, Result

from binder.cli import main
from binder.problem_codes.every import BY_NAME
from tests.kitchen import Kitchen

SAYS_MORE = "binder check --explain CODE says more"


def explain(*arguments: str) -> Result:
    return CliRunner().invoke(main, ["check", *arguments], catch_exceptions=False)


@pytest.mark.parametrize("name", BY_NAME)
def test_a_page_fits_a_terminal_and_shows_the_stretch_both_ways(name: str) -> None:
    result, one = explain("--explain", name), BY_NAME[name]
    assert result.exit_code == 0
    lines = result.stdout.splitlines()
    assert lines[0] == f"{name} ({one.severity})"
    assert max(map(len, lines)) <= 100
    words = " ".join(result.stdout.split())
    assert " ".join(one.means.split()) in words and f"Why it matters: {one.matters}" in words and one.here in words
    shown = [line.removeprefix("    ") for line in lines]
    after = shown[shown.index(f"Wrong, in {one.file}:") :]
    wrong, right = after[: after.index("Right:")], after[after.index("Right:") :]
    assert "\n".join(wrong[2:-1]) == one.wrong
    assert "\n".join(right[2:]).startswith(one.right)


def test_a_code_may_be_pasted_as_it_was_printed() -> None:
    page = explain("--explain", "bad-date").stdout
    assert explain("--explain", "error[bad-date]").stdout == explain("--explain", "[bad-date]").stdout == page


@pytest.mark.parametrize("arguments", [["--explain"], ["--explain", "all"], ["nowhere", "--explain"]])
def test_all_codes_have_a_line_each(arguments: list[str]) -> None:
    result = explain(*arguments)
    assert result.exit_code == 0
    rows = [line.split()[0] for line in result.stdout.splitlines() if line.startswith("  ")]
    assert rows == list(BY_NAME)
    assert max(map(len, result.stdout.splitlines())) <= 100


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ("avoided-foods", 'no code "avoided-foods": did you mean "avoided-food"?'),
        ("bad-dat", 'did you mean "bad-date"'),
        ("zzz", "`--explain all` lists them"),
    ],
)
def test_a_code_that_there_is_not(asked: str, said: str) -> None:
    result = explain("--explain", asked)
    assert result.exit_code == 2
    assert said in result.stderr and result.stdout == ""


def test_what_was_found_ends_with_how_to_know_more(kitchen: Kitchen) -> None:
    arguments = ("check", str(kitchen.content), "--today", "2026-06-07")
    assert SAYS_MORE not in kitchen.write().run(*arguments).output
    kitchen.household("bans: [peanuts, tree nuts]", "bans: [peenuts, tree nutz]").write()
    found = kitchen.run(*arguments)
    assert found.output.count(SAYS_MORE) == 1
    assert found.stdout.splitlines()[-1].startswith(SAYS_MORE)
    assert SAYS_MORE not in kitchen.run(*arguments, "--json").output
