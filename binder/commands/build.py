"""`binder build`."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path
from typing import cast

import click

from binder import disk
from binder.build import outputs
from binder.commands.arguments import CONTENT, OUT, THEME, TODAY, WEEK, look, memory, read, say_problems, theme_of
from binder.commands.terminal import Status, summary
from binder.outputs import KINDS, Kind, owner


@click.command()
@CONTENT
@OUT
@TODAY
@WEEK
@click.option("--only", "only", multiple=True, type=click.Choice(KINDS), help="One kind of output; repeatable.")
@click.option("--draft", is_flag=True, help="Build in spite of errors, marked DRAFT on every page.")
@click.option("--private", is_flag=True, help="Show private notes on the household's own pages (binder and site).")
@THEME
def command(
    content: Path,
    out: Path,
    today: date | None,
    week: str | None,
    only: tuple[str, ...],
    draft: bool,
    private: bool,
    theme: str,
) -> None:
    """Build the site, the binder, the labels, the calendar, the share pages and the facts."""
    files, set_with = read(content), theme_of(theme, content)
    with Status() as status:
        examined = look(files, today, week, status, draft, private)
        status.clear()
        say_problems(examined, files)
        if examined.library is None or (examined.has_errors and not draft):
            click.echo(summary(examined.problems, "nothing was replaced"), err=True)
            sys.exit(1)
        kinds = cast("frozenset[Kind]", frozenset(only) or frozenset(KINDS))
        made = outputs(examined, files, set_with, kinds, memory(), status.stage, disk.standing_binders(out))
        status.stage("writing")
        changed = disk.replace_outputs(out, made, lambda path: owner(path) in kinds)
    found = f"{summary(examined.problems, '')}; " if examined.problems else ""
    click.echo(f"{found}{len(made)} files in {out}, {changed} of them new or changed")
    for path in sorted(made):
        if path.startswith("print/") or path == "site/index.html":
            click.echo(f"  {out / path}")
