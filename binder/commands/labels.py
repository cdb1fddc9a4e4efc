"""`binder labels`: the same labels from another position of the sheet on; the sheet by which a printer is set right."""

from __future__ import annotations

import sys
from dataclasses import replace
from datetime import date
from pathlib import Path

import click

from binder import disk
from binder.build import geometry, outputs
from binder.check.library import check_library
from binder.commands.arguments import CONTENT, OUT, THEME, TODAY, WEEK, read, theme_of
from binder.commands.look import look, say_problems
from binder.commands.terminal import Status
from binder.examine import Examined
from binder.examine import read as read_documents
from binder.memory import of_this_program
from binder.outputs import TEST_SHEET, owner
from binder.pages.labels import registration_sheet
from binder.press.registration import registration_pdf
from binder.press.theme import Theme
from binder.reckon import labels
from binder.reckon.words import counted
from binder.tables import sheets


def from_position(examined: Examined, first_free: int) -> Examined:
    """What was examined, its current week's labels moved along the sheet."""
    facts = examined.weeks.get(examined.current or "")
    if facts is None or examined.library is None:
        return examined
    stock = replace(examined.library.household.labels, first_free=first_free)
    placed, next_free = labels.moved(facts.labels, stock)
    moved = replace(facts, labels=placed, labels_next_free=next_free)
    return replace(examined, weeks={**examined.weeks, moved.week: moved})


def _test_sheet(files: disk.Content, theme: Theme, out: Path, today: date) -> None:
    """The household says which stock it is; weeks and recipes have no say."""
    library = check_library(read_documents(files), frozenset(files.photos)).library
    if library is None:
        click.echo("household.yaml cannot be read: `binder check` says why", err=True)
        sys.exit(1)
    content = registration_pdf(registration_sheet(library), geometry(library), theme, today)
    disk.replace_outputs(out, {TEST_SHEET: content}, lambda path: path == TEST_SHEET)
    click.echo(f"  {out / TEST_SHEET}")


@click.command()
@CONTENT
@OUT
@TODAY
@WEEK
@click.option("--first-free", type=click.IntRange(1), help="The first unused label of the sheet, row by row.")
@click.option("--test-sheet", is_flag=True, help="Make the sheet that shows how far this printer is off, nothing else.")
@THEME
def command(
    content: Path,
    out: Path,
    today: date | None,
    week: str | None,
    first_free: int | None,
    test_sheet: bool,
    theme: str,
) -> None:
    """Make only the labels sheet, starting at the first unused label."""
    files, set_with = read(content), theme_of(theme, content)
    memory = of_this_program()
    if test_sheet:
        _test_sheet(files, set_with, out, today or date.today())
        return
    with Status() as status:
        examined = look(files, today, week, status, memory=memory)
        status.clear()
        if examined.library is None or examined.has_errors:
            say_problems(examined, files)
            sys.exit(1)
        if first_free is not None:
            sheet = sheets.SHEETS[examined.library.household.labels.sheet]
            if first_free > sheet.capacity:
                raise click.UsageError(
                    f"a sheet {sheet.name} has {sheet.capacity} labels, so none is number {first_free}"
                )
            examined = from_position(examined, first_free)
        made = outputs(examined, files, set_with, frozenset({"labels"}), memory, status.stage)
        disk.replace_outputs(out, made, lambda path: owner(path) == "labels")
    facts = examined.weeks.get(examined.current or "")
    count = len(facts.labels) if facts else 0
    click.echo(counted(count, "label") + (f"; next free position {facts.labels_next_free}" if facts else ""))
    for path in sorted(made):
        click.echo(f"  {out / path}")
