"""`binder check`."""

from __future__ import annotations

import json
import sys
from datetime import date
from pathlib import Path

import click

from binder.commands.arguments import AT, CONTENT, COOKS, TODAY, WEEK, Start, read
from binder.commands.explain import ALL, HINT, explained
from binder.commands.from_past import not_closed, session_words, unfinished, weights
from binder.commands.look import look, say_problems
from binder.commands.terminal import Status, summary
from binder.examine import Examined
from binder.memory import of_this_program
from binder.pages.data import problems_data
from binder.pages.edition import as_tried
from binder.pages.format import first_lower
from binder.pages.portion_weight import far_from_parts
from binder.pages.words import words_of
from binder.reckon.facts import RunSheet
from binder.reckon.tried import Tried


@click.command()
@CONTENT
@click.option("--json", "as_json", is_flag=True, help="The problems as JSON on standard output.")
@click.option("--strict", is_flag=True, help="Warnings count as errors.")
@click.option(
    "--explain",
    metavar="CODE",
    is_flag=False,
    flag_value=ALL,
    help="What a problem code means, with a line as it was and as it should be; `all` lists the codes.",
)
@TODAY
@WEEK
@COOKS
@AT
def command(
    content: Path,
    as_json: bool,
    strict: bool,
    explain: str | None,
    today: date | None,
    week: str | None,
    cooks: int | None,
    at: tuple[Start, ...],
) -> None:
    """Say everything that is wrong or unsure, and build nothing."""
    if explain is not None:
        click.echo("\n".join(explained(explain)))
        return
    files = read(content)
    with Status() as status:
        examined = look(files, today, week, status, tried=Tried(cooks, at), memory=of_this_program())
    if as_json:
        click.echo(
            json.dumps(problems_data(examined.problems, files.name), ensure_ascii=False, indent=1, sort_keys=True)
        )
    else:
        say_problems(examined, files)
        for line in (*_sessions(examined), *weights(examined), *unfinished(content), *not_closed(examined)):
            click.echo(line)
        for line in _far_off(examined, files.name):
            click.echo(line)
        click.echo(summary(examined.problems, "" if examined.problems else "nothing to mend"))
        if examined.problems:
            click.echo(HINT)
    sys.exit(1 if examined.has_errors or (strict and examined.problems) else 0)


def _far_off(examined: Examined, folder: str) -> list[str]:
    """The recipes whose stated portion is far from what their ingredients weigh: no problem, but worth a look."""
    if examined.library is None:
        return []
    words = words_of(examined.library.household.language)
    found = ((key, far_from_parts(facts, words)) for key, facts in sorted(examined.recipes.items()))
    return [f"{folder}/recipes/{key}.md: {said}" for key, said in found if said]


def _sessions(examined: Examined) -> list[str]:
    """How long each session of the week will take, before anything is printed."""
    facts = examined.weeks.get(examined.current or "")
    return [_session(sheet, examined) for sheet in (facts.run_sheets if facts else ())]


def _session(sheet: RunSheet, examined: Examined) -> str:
    """Its times, its proof, the minutes for keeping an eater's food apart, and what is tried."""
    hours, minutes = divmod(sheet.minutes, 60)
    proof = "proven shortest" if sheet.proven else f"at least {sheet.at_least_minutes} min"
    said = [f"prep on {sheet.start:%a %d %b, %H:%M} to {sheet.finish:%H:%M}: {hours} h {minutes:02d} min, {proof}"]
    if sheet.apart_minutes:
        said.append(f"{sheet.apart_minutes} min of it to keep {_meetings(sheet, kept=True)} apart")
    if expected := session_words(sheet):
        said.append(expected)
    if left := _meetings(sheet, kept=False):
        said.append(f"{left} cannot be kept apart: wash up between")
    if sheet.tried and examined.library is not None:
        words = words_of(examined.library.household.language)
        said.append(first_lower(as_tried(sheet.of, words).rstrip(".")))
    return "; ".join(said)


def _meetings(sheet: RunSheet, kept: bool) -> str:
    """`Maren's food and milk`."""
    of = dict.fromkeys((one.eater, one.avoided) for one in sheet.apart if one.kept == kept)
    return ", ".join(f"{eater}'s food and {avoided}" for eater, avoided in of)
