"""`binder share`."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path

import click

from binder import disk
from binder.build import outputs
from binder.commands.arguments import OUT, THEME, TODAY, read, theme_of
from binder.commands.look import look, say_problems
from binder.commands.terminal import Status
from binder.memory import of_this_program


@click.command()
@click.argument("what")
@click.option("--content", default="content", type=click.Path(path_type=Path))
@OUT
@TODAY
@THEME
def command(what: str, content: Path, out: Path, today: date | None, theme: str) -> None:
    """Write the page of one recipe or week that carries nothing of the household."""
    files, set_with = read(content), theme_of(theme, content)
    memory = of_this_program()
    with Status() as status:
        week = what if f"weeks/{what}.md" in files.files else None
        examined = look(files, today, week, status, memory=memory)
        status.clear()
        if examined.library is None or examined.has_errors:
            say_problems(examined, files)
            sys.exit(1)
        made = outputs(examined, files, set_with, frozenset({"share"}), memory, status.stage)
    path = f"share/{what}.html"
    if path not in made:
        raise click.UsageError(f"no recipe or week {what!r}")
    disk.write_file(out / path, made[path])
    click.echo(f"wrote {out / path}")
