"""`binder build`.

A build says under what it was made and what it wrote. Where all that is still so, nothing is made, and what makes
it (most of the program) is not even loaded.
"""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path
from typing import cast

import click

from binder import disk
from binder.commands import together
from binder.commands.arguments import AT, CONTENT, COOKS, OUT, THEME, TODAY, WEEK, Start, may_colour, read, theme_of
from binder.commands.build_record import Built, Wanted
from binder.commands.terminal import Status
from binder.memory import of_this_program
from binder.outputs import KINDS, SECTIONS, Kind


@click.command()
@CONTENT
@OUT
@TODAY
@WEEK
@click.option("--only", "only", multiple=True, type=click.Choice(KINDS), help="One kind of output; repeatable.")
@click.option(
    "--section",
    "sections",
    multiple=True,
    metavar="NAME",
    type=click.Choice([*SECTIONS, *map(str, range(1, len(SECTIONS) + 1))]),
    help=f"Only this section of the binder, by name or number; repeatable: {', '.join(SECTIONS)}.",
)
@click.option("--draft", is_flag=True, help="Build in spite of errors, marked DRAFT on every page.")
@click.option("--private", is_flag=True, help="Show private notes on the household's own pages (binder and site).")
@COOKS
@AT
@THEME
def command(
    content: Path,
    out: Path,
    today: date | None,
    week: str | None,
    only: tuple[str, ...],
    sections: tuple[str, ...],
    draft: bool,
    private: bool,
    cooks: int | None,
    at: tuple[Start, ...],
    theme: str,
) -> None:
    """Build the site, the binder, the labels, the calendar, the share pages and the facts.

    Each kind of output that is built is replaced as a whole: of binders, labels and calendars only those of the week
    that is built lie in DIR afterwards. To keep those of another week, build into another --out.
    """
    files, set_with = read(content), theme_of(theme, content)
    if together.unfinished(content):
        click.echo(together.STOPPED, err=True)
    if sections and set(only) - {"print"}:
        raise click.UsageError("--section prints sections of the binder and nothing else; leave --only out")
    kinds = cast("frozenset[Kind]", frozenset(only or (["print"] if sections else KINDS)))
    named = frozenset(SECTIONS[int(name) - 1] if name.isdigit() else name for name in sections)
    standing = disk.standing_binders(out)
    wanted = Wanted(
        files, set_with, out, today or date.today(), week, kinds, draft, private, standing, cooks, at, named
    )
    memory, key = of_this_program(), wanted.key()
    built, changed = _standing(memory.known(key), wanted), 0
    if built is None:
        from binder.commands.make import make  # Only here: see above.

        with Status() as status:
            built, changed = make(wanted, memory, status)
        memory.keep(key, built.written())
    else:
        colour = may_colour(sys.stderr)
        for line in built.coloured if colour else built.plain:
            click.echo(line, err=True, color=colour)
    if cooks is not None or at:
        click.echo("other sessions than are written were tried; the pages say which, and no file was changed")
    for gone in sorted(standing - disk.standing_binders(out)):
        pdf = out / "print" / f"{gone}-binder.pdf"
        click.echo(f"{pdf} was taken away: each kind of output is replaced as a whole; another --out keeps both")
    click.echo(f"{built.found}{len(built.files)} files in {out}, {changed} of them new or changed")
    for path in sorted(built.files):
        if path.startswith("print/") or path == "site/index.html":
            takes = built.takes.get(path)
            click.echo(f"  {out / path}{f': {takes}' if takes else ''}")


def _standing(remembered: bytes | None, wanted: Wanted) -> Built | None:
    """The build that was made from the same, when its files lie there as it wrote them and no others do."""
    built = Built.read(remembered) if remembered is not None else None
    return built if built and disk.stand(wanted.out, built.files, wanted.owned) else None
