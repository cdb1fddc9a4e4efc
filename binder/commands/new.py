"""`binder new recipe|week|household`."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import click

from binder.commands import starters


@click.group()
def command() -> None:
    """Lay out a new recipe, week or household."""


def _laid_out(make: Callable[[], list[Path]]) -> None:
    try:
        paths = make()
    except FileExistsError as fault:
        raise click.UsageError(f"{fault} is there already; nothing was written") from None
    for path in paths:
        click.echo(f"wrote {path}")


@command.command("recipe")
@click.argument("name")
@click.option("--content", default="content", type=click.Path(path_type=Path))
@click.option("--form", default="ready", type=click.Choice(["ready", "assemble", "kit", "portioned"]))
def new_recipe(name: str, content: Path, form: str) -> None:
    """content/recipes/NAME.md, ready to be filled in."""
    key = starters.key_of(name)
    _laid_out(lambda: starters.recipe(content, key, name, form))


@command.command("week")
@click.argument("week")
@click.option("--content", default="content", type=click.Path(path_type=Path))
def new_week(week: str, content: Path) -> None:
    """content/weeks/WEEK.md with a prep session on the Sunday before."""
    monday = starters.monday_of(week)
    if monday is None:
        raise click.UsageError(f"{week!r} is not an ISO 8601 week such as 2026-W25")
    _laid_out(lambda: starters.week(content, week, monday))


@command.command("household")
@click.argument("folder", default="content", type=click.Path(path_type=Path))
def new_household(folder: Path) -> None:
    """A folder with a household to change into your own: first files, a few recipes and one week."""
    _laid_out(lambda: starters.household(folder))
