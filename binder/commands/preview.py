"""`binder preview`."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from binder.commands.arguments import CONTENT, OUT, THEME, TODAY, WEEK, read, theme_of
from binder.outputs import KINDS
from binder.preview import run


@click.command()
@CONTENT
@OUT
@TODAY
@WEEK
@THEME
@click.option("--port", default=8017, type=click.IntRange(0, 65535), help="Port on 127.0.0.1.")
@click.option("--print", "with_print", is_flag=True, help="Draw the PDFs at each change too.")
def command(
    content: Path, out: Path, today: date | None, week: str | None, theme: str, port: int, with_print: bool
) -> None:
    """Build, show on 127.0.0.1, and build again at each change.

    It writes into OUT, as `build` does, and counts from the clock's date unless --today is given: the week in use may
    be another one than in a build with --today.
    """
    read(content)
    theme_of(theme, content)
    kinds = frozenset(KINDS) if with_print else frozenset(KINDS) - {"print", "labels"}
    run(content, out, lambda: today or date.today(), week, theme, port, kinds)
