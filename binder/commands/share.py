"""`binder share`."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path

import click

from binder import disk
from binder.commands.arguments import FOLDER, OUT, THEME, TODAY, read, theme_of
from binder.commands.look import look, say_problems
from binder.commands.terminal import Status
from binder.examine import Examined
from binder.memory import of_this_program
from binder.model.library import Library
from binder.pages.share_family import agreed
from binder.shared import one_files, one_page


@click.command()
@click.argument("what", metavar="RECIPE|WEEK")
@click.option("--family", is_flag=True, help="Of a week: who eats what, when and where it is, of those who agreed.")
@click.option("--for", "whom", multiple=True, metavar="EATER", help="With --family only this eater; repeatable.")
@FOLDER
@OUT
@TODAY
@THEME
def command(
    what: str, family: bool, whom: tuple[str, ...], content: Path, out: Path, today: date | None, theme: str
) -> None:
    """Write the page of one recipe or week that carries nothing of the household, as one HTML file and one PDF.

    They lie in OUT/share until the next build, which makes that folder anew. A page for the family names people: it
    is made only here, and only of eaters whose agreement is written in household.yaml (shares week: yes).
    """
    files, set_with = read(content), theme_of(theme, content)
    with Status() as status:
        week = what if f"weeks/{what}.md" in files.files else None
        if family and week is None:
            raise click.UsageError(f"a page for the family is a week's: there is no week {what!r}")
        if whom and not family:
            raise click.UsageError("--for goes with --family")
        examined = look(files, today, week, status, memory=of_this_program())
        if examined.library is None or _stands_against(examined, week):
            status.clear()
            say_problems(examined, files)
            sys.exit(1)
        page = one_page(examined, what, _chosen(whom, examined.library) if family else None)
        if page is None:
            raise click.UsageError(f"no recipe or week {what!r}")
        status.stage(f"drawing {what}")
        made = one_files(page, examined, files, set_with)
    for path, raw in made.items():
        disk.write_file(out / path, raw)
        click.echo(f"wrote {out / path}")


def _stands_against(examined: Examined, week: str | None) -> bool:
    """Whether an error concerns what is given away: no plan and no stock is a recipe's affair."""
    plans = () if week else ("weeks/", "stock.yaml")
    return any(p.severity == "error" and not p.span.path.startswith(plans) for p in examined.problems)


def _chosen(whom: tuple[str, ...], library: Library) -> tuple[str, ...]:
    """Those who were named, or all who agreed; exit status 2 for who is not there or did not agree."""
    willing = agreed(library)
    names = {eater.name.casefold(): eater.name for eater in library.household.eaters}
    for name in whom:
        if name.casefold() not in names:
            raise click.UsageError(f"no eater {name!r}: there are {', '.join(names.values())}")
    chosen = tuple(names[name.casefold()] for name in whom) or willing
    refused = [name for name in chosen if name not in willing]
    if refused or not chosen:
        who = ", ".join(refused) or "nobody"
        agrees = "did not agree" if refused else "agreed"
        raise click.UsageError(f"{who} {agrees}: `shares week: yes` beside the name in household.yaml says so")
    return chosen
