"""`binder close-week 2026-W24`: what became of a week goes into stock.yaml and into the week's `closed:` block."""

from __future__ import annotations

import difflib
import sys
from collections.abc import Iterable, Mapping
from datetime import date
from pathlib import Path
from typing import NoReturn

import click

from binder import disk
from binder.check.editions import FOLDER as EDITIONS
from binder.commands import together
from binder.commands.arguments import FOLDER, TODAY, may_colour, read
from binder.commands.close_week_answers import NOTHING, answers_set, differences, over, read_answers
from binder.commands.close_week_ask import ask
from binder.commands.close_week_reckon import Closing, concluded, files_of, open_ends, prepared, text_of, understood
from binder.commands.terminal import problem_lines
from binder.model.week import Closed, Week
from binder.problem import Problem
from binder.reckon.words import counted

_PACKS = "what the packs of the shopping list leave goes into stock.yaml with --set bought='as listed'"


@click.command()
@click.argument("week")
@FOLDER
@click.option("--from", "source", type=click.Path(exists=True, dir_okay=False, path_type=Path), help="Answers to take.")
@click.option("--set", "settings", multiple=True, metavar="NAME.FIELD=VALUE", help="One answer; repeatable.")
@click.option("--as-planned", is_flag=True, help="Ask nothing: what is not said went as planned.")
@click.option("--again", is_flag=True, help="Change the answers of a week that is closed.")
@click.option("--dry-run", is_flag=True, help="Show the differences and write nothing.")
@TODAY
def command(
    week: str,
    content: Path,
    source: Path | None,
    settings: tuple[str, ...],
    as_planned: bool,
    again: bool,
    dry_run: bool,
    today: date | None,
) -> None:
    """Say what became of a week: asks on a terminal, or takes answers from a file or from --set.

    NAME is a recipe's key (bean-stew/2 where it was made twice) and FIELD one of made, eaten, left, frozen, thrown,
    why, weighs, left by (`Ilka 2, Bea 1`) and by-products; also 2026-06-07.minutes, note, substitution, and bought
    (`as listed`: what the packs of the shopping list leave goes into stock). Portions that are not said follow.
    """
    _finished(content, dry_run)
    files = read(content)
    if f"weeks/{week}.md" not in files.files:
        raise click.UsageError(f"no week {week!r}: there is no {files.shown}/weeks/{week}.md")
    plan, titles = _plan(files, week)
    given = _given(source, settings, plan, titles)
    before = plan.came_to
    if before is not None and not again:
        _closed_already(plan, before, given or NOTHING)
    closing = prepared(files, plan)
    if isinstance(closing, Problem):
        _fail([closing], files)
    if given is None and not as_planned:
        # Answers that come through a pipe are those of the questions before it.
        packs = at_a_terminal() and _packs_leave(closing)
        given = ask(closing.rows, closing.sessions, closing.titles, closing.before, packs)
    closed = _concluded(closing, given or NOTHING, today or date.today())
    _write(closing, closed, dry_run)


def _finished(content: Path, dry_run: bool) -> None:
    """First finish what was stopped in the middle."""
    if dry_run and together.unfinished(content):
        click.echo("a closing was stopped in the middle; run it without --dry-run to finish it first", err=True)
        sys.exit(1)
    try:
        done = () if dry_run else together.finish(content)
    except together.Changed as name:
        note = content / together.NOTE
        click.echo(
            f"a closing was stopped in the middle, and {content / str(name)} was changed since: what it was to become "
            f"stands in {note}; put it right by hand, then delete {note}",
            err=True,
        )
        sys.exit(1)
    for path in done:
        click.echo(f"finished {content / path}, which was left half done")


def _plan(files: disk.Content, key: str) -> tuple[Week, Mapping[str, str]]:
    week, library, problems = understood(files, key)
    errors = [problem for problem in problems if problem.severity == "error"]
    if week is None or library is None or errors:
        _fail(errors or list(problems), files)
    return week, {name: recipe.title for name, recipe in library.recipes.items()}


def _fail(problems: Iterable[Problem], files: disk.Content, texts: Mapping[str, str] | None = None) -> NoReturn:
    known = texts or {path: text_of(files, path).replace("\r\n", "\n") for path in files.files}
    _say(problems, known, files.shown)
    click.echo("nothing was written", err=True)
    sys.exit(1)


def _say(problems: Iterable[Problem], texts: Mapping[str, str], folder: str) -> None:
    colour = may_colour(sys.stderr)
    for line in problem_lines(problems, texts, folder, colour):
        click.echo(line, err=True, color=colour)


def _given(source: Path | None, settings: tuple[str, ...], plan: Week, titles: Mapping[str, str]) -> Closed | None:
    """The answers of the file with those of --set over them; None when there are neither."""
    if source is None and not settings:
        return None
    answers, wrong = NOTHING, False
    if source is not None:
        raw = source.read_bytes()
        answers, problems = read_answers(raw, source.name, plan.key, titles)
        _say(problems, {source.name: raw.decode("utf-8", "replace")}, str(source.parent))
        wrong = any(problem.severity == "error" for problem in problems)
    said, problems, texts = answers_set(settings, plan.key, titles)
    _say(problems, texts, ".")
    if wrong or any(problem.severity == "error" for problem in problems):
        click.echo("nothing was written", err=True)
        sys.exit(1)
    return over(answers, said)


def _closed_already(plan: Week, before: Closed, given: Closed) -> None:
    """Says so and ends: 0 when the answers are those that were given, 1 when they differ."""
    changes = differences(given, before)
    when = f" on {before.on.isoformat()}" if before.on else ""
    click.echo(f"{plan.key} was closed{when}" + ("; other answers now:" if changes else "; nothing to change"))
    for line in changes:
        click.echo(f"  {line}")
    if changes:
        click.echo("write them with --again", err=True)
    sys.exit(1 if changes else 0)


def _concluded(closing: Closing, given: Closed, today: date) -> Closed:
    named = {(row.recipe, row.which) for row in closing.rows}
    strange = [dish.name for dish in given.dishes if (dish.recipe, dish.which) not in named]
    closed, faults = concluded(closing, given, today)
    rows = ", ".join(row.name for row in closing.rows)
    faults = (*(f"{name} is not made in {closing.week.key}: there are {rows}" for name in strange), *faults)
    for fault in faults:
        click.echo(fault, err=True)
    if faults:
        click.echo("nothing was written", err=True)
        sys.exit(1)
    for words in (*closing.notes, *open_ends(closed)):
        click.echo(words, err=True)
    if closed.substitutions and any(dish.left or dish.frozen for dish in closed.dishes):
        click.echo("something was exchanged: write what is on hand of it with `contains ...` in stock.yaml", err=True)
    return closed


def at_a_terminal() -> bool:
    """Whether somebody can be asked: standard input is a terminal."""
    return sys.stdin.isatty()


def _packs_leave(closing: Closing) -> bool:
    return any(row.left_over.high > 0 for row in closing.facts.shopping)


def _write(closing: Closing, closed: Closed, dry_run: bool) -> None:
    made = files_of(closing, closed)
    if isinstance(made, Problem):
        _fail([made], closing.content)
        return
    files, stocked = made
    for words in stocked.notes:
        click.echo(words, err=True)
    if closed.bought is None and _packs_leave(closing):
        click.echo(_PACKS, err=True)
    folder = Path(closing.content.shown)
    kept = [path for path in files if path.startswith(f"{EDITIONS}/")]
    if dry_run:
        for path in kept:
            click.echo(f"new: {folder / path}")
        for path, raw in files.items():
            if path in kept:
                continue
            click.echo(_difference(text_of(closing.content, path), raw.decode(), folder / path), nl=False)
        return
    together.write_together(folder, files)
    for change in stocked.changes:
        click.echo(f"{change.place}: {change.was or 'new'} -> {change.now or 'used up'}")
    for path in files:
        if path not in kept:
            click.echo(f"wrote {folder / path}")
    if kept:
        click.echo(f"kept what the week was made of: {counted(len(kept), 'new file')} in {folder / EDITIONS}")
    if not files:
        click.echo("nothing to change")


def _difference(old: str, new: str, path: Path) -> str:
    lines = difflib.unified_diff(
        old.splitlines(keepends=True), new.splitlines(keepends=True), str(path), str(path), n=2
    )
    return "".join(line if line.endswith(("\n", "\r")) else f"{line}\n\\ no end of line\n" for line in lines)
