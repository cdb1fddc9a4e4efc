"""`binder labels --first-free N`: the same labels from another position of the sheet on."""

from __future__ import annotations

import sys
from dataclasses import replace
from datetime import date
from pathlib import Path

import click

from binder import disk
from binder.build import outputs
from binder.commands.arguments import CONTENT, OUT, THEME, TODAY, WEEK, read, theme_of
from binder.commands.look import look, say_problems
from binder.commands.terminal import Status
from binder.examine import Examined
from binder.memory import of_this_program
from binder.outputs import owner
from binder.reckon import labels
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


@click.command()
@CONTENT
@OUT
@TODAY
@WEEK
@click.option("--first-free", type=click.IntRange(1), help="The first unused label of the sheet, row by row.")
@THEME
def command(content: Path, out: Path, today: date | None, week: str | None, first_free: int | None, theme: str) -> None:
    """Make only the labels sheet, starting at the first unused label."""
    files, set_with = read(content), theme_of(theme, content)
    memory = of_this_program()
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
    click.echo(f"{count} labels" + (f"; next free position {facts.labels_next_free}" if facts else ""))
    for path in sorted(made):
        click.echo(f"  {out / path}")
