"""Arguments, messages, exit status: 0 built, 1 problems of severity error, 2 wrong arguments."""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any, cast

import click

from binder import disk
from binder.build import KINDS, Asked, Examined, Kind, examine, outputs, owner
from binder.check.reference import FileKind
from binder.commands.terminal import Status, problem_lines, summary
from binder.press.theme import Theme

CONTENT = click.argument("content", default="content", type=click.Path(path_type=Path))
OUT = click.option("--out", default="build", type=click.Path(path_type=Path), help="Folder of the output.")
WEEK = click.option("--week", help="Only what this week needs, such as 2026-W24.")
THEME = click.option("--theme", default="default", help="A theme that comes with the program.")


class _Day(click.ParamType):  # type: ignore[type-arg]
    name = "YYYY-MM-DD"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> date:
        try:
            return value if isinstance(value, date) else date.fromisoformat(value)
        except ValueError:
            self.fail(f"{value!r} is not a date such as 2026-06-08", param, ctx)


TODAY = click.option("--today", type=_Day(), default=None, help="The day to count from; the clock's by default.")


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="household-prep-binder", message="%(version)s")
@click.pass_context
def main(context: click.Context) -> None:
    """Compile a household's recipes, stock and week plan into a printable weekly prep binder."""
    context.color = _may_colour(sys.stdout)


def _may_colour(stream: Any) -> bool:
    """Colour only on a terminal, and not when NO_COLOR is set to anything."""
    return bool(stream.isatty()) and not os.environ.get("NO_COLOR")


def memory() -> disk.Memory:
    """The memory of builds by this very program."""
    return disk.Memory(disk.cache_folder() / disk.program_digest()[:16])


def read(folder: Path) -> disk.Content:
    """A content folder, or exit status 2."""
    try:
        return disk.read_content(folder)
    except disk.NoContent as fault:
        raise click.UsageError(f"{fault}; `binder new household {folder}` lays one out") from None


def theme_of(name: str, folder: Path) -> Theme:
    """A theme by its name, or exit status 2."""
    if name not in disk.theme_names():
        raise click.UsageError(f"no theme {name!r}: there are {', '.join(disk.theme_names())}")
    return disk.read_theme(name, folder)


def look(content: disk.Content, today: date | None, week: str | None, status: Status, draft: bool = False) -> Examined:
    """Read, check and reckon; exit status 2 for a week that is not there."""
    if week is not None and f"weeks/{week}.md" not in content.files:
        raise click.UsageError(f"no week {week!r}: there is no {content.shown}/weeks/{week}.md")
    asked = Asked(today or date.today(), week, draft)
    return examine(content, asked, memory(), status.stage)


def say_problems(examined: Examined, content: disk.Content) -> None:
    """Every problem on standard error, with its line and the way out."""
    colour = _may_colour(sys.stderr)
    for line in problem_lines(examined.problems, examined.texts, content.shown, colour):
        click.echo(line, err=True, color=colour)


@main.command()
@CONTENT
@OUT
@TODAY
@WEEK
@click.option("--only", "only", multiple=True, type=click.Choice(KINDS), help="One kind of output; repeatable.")
@click.option("--draft", is_flag=True, help="Build in spite of errors, marked DRAFT on every page.")
@THEME
def build(
    content: Path, out: Path, today: date | None, week: str | None, only: tuple[str, ...], draft: bool, theme: str
) -> None:
    """Build the site, the binder, the labels, the calendar, the share pages and the facts."""
    files, set_with = read(content), theme_of(theme, content)
    with Status() as status:
        examined = look(files, today, week, status, draft)
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


@main.command()
@CONTENT
@click.option("--json", "as_json", is_flag=True, help="The problems as JSON on standard output.")
@click.option("--strict", is_flag=True, help="Warnings count as errors.")
@TODAY
@WEEK
def check(content: Path, as_json: bool, strict: bool, today: date | None, week: str | None) -> None:
    """Say everything that is wrong or unsure, and build nothing."""
    from binder.pages.data import problems_data

    files = read(content)
    with Status() as status:
        examined = look(files, today, week, status)
    if as_json:
        click.echo(
            json.dumps(problems_data(examined.problems, files.name), ensure_ascii=False, indent=1, sort_keys=True)
        )
    else:
        say_problems(examined, files)
        for line in _sessions(examined):
            click.echo(line)
        click.echo(summary(examined.problems, "nothing to mend"))
    sys.exit(1 if examined.has_errors or (strict and examined.problems) else 0)


def _sessions(examined: Examined) -> list[str]:
    """How long each session of the week will take, before anything is printed."""
    facts = examined.weeks.get(examined.current or "")
    found = []
    for sheet in facts.run_sheets if facts else ():
        hours, minutes = divmod(sheet.minutes, 60)
        proof = "proven shortest" if sheet.proven else f"at least {sheet.at_least_minutes} min"
        found.append(
            f"prep on {sheet.start:%a %d %b, %H:%M} to {sheet.finish:%H:%M}: {hours} h {minutes:02d} min, {proof}"
        )
    return found


@main.command("labels")
@CONTENT
@OUT
@TODAY
@WEEK
@click.option("--first-free", type=click.IntRange(1), help="The first unused label of the sheet, row by row.")
@THEME
def labels_command(
    content: Path, out: Path, today: date | None, week: str | None, first_free: int | None, theme: str
) -> None:
    """Make only the labels sheet, starting at the first unused label."""
    from binder.commands.labels import from_position

    files, set_with = read(content), theme_of(theme, content)
    with Status() as status:
        examined = look(files, today, week, status)
        status.clear()
        if examined.library is None or examined.has_errors:
            say_problems(examined, files)
            sys.exit(1)
        if first_free is not None:
            examined = from_position(examined, first_free)
        made = outputs(examined, files, set_with, frozenset({"labels"}), memory(), status.stage)
        disk.replace_outputs(out, made, lambda path: owner(path) == "labels")
    facts = examined.weeks.get(examined.current or "")
    count = len(facts.labels) if facts else 0
    click.echo(f"{count} labels" + (f"; next free position {facts.labels_next_free}" if facts else ""))
    for path in sorted(made):
        click.echo(f"  {out / path}")


@main.command()
@click.argument("word", nargs=-1, required=True)
@click.option("--content", default="content", type=click.Path(path_type=Path), help="The household's folder.")
@click.option("--json", "as_json", is_flag=True, help="As JSON on standard output.")
def food(word: tuple[str, ...], content: Path, as_json: bool) -> None:
    """Show one food with its figures, measures, allergens and sources; or the nearest names."""
    from binder.commands.food import report

    files = disk.read_content(content) if content.is_dir() else None
    found = report(" ".join(word), files)
    click.echo(
        json.dumps(found.data, ensure_ascii=False, indent=1, sort_keys=True) if as_json else "\n".join(found.lines)
    )
    sys.exit(0 if found.known else 1)


@main.group()
def new() -> None:
    """Lay out a new recipe, week or household."""


def _laid_out(make: Callable[[], list[Path]]) -> None:
    try:
        paths = make()
    except FileExistsError as fault:
        raise click.UsageError(f"{fault} is there already; nothing was written") from None
    for path in paths:
        click.echo(f"wrote {path}")


@new.command("recipe")
@click.argument("name")
@click.option("--content", default="content", type=click.Path(path_type=Path))
@click.option("--form", default="ready", type=click.Choice(["ready", "assemble", "kit", "portioned"]))
def new_recipe(name: str, content: Path, form: str) -> None:
    """content/recipes/NAME.md, ready to be filled in."""
    from binder.commands import starters

    key = starters.key_of(name)
    _laid_out(lambda: starters.recipe(content, key, name, form))


@new.command("week")
@click.argument("week")
@click.option("--content", default="content", type=click.Path(path_type=Path))
def new_week(week: str, content: Path) -> None:
    """content/weeks/WEEK.md with a prep session on the Sunday before."""
    from binder.commands import starters

    monday = starters.monday_of(week)
    if monday is None:
        raise click.UsageError(f"{week!r} is not an ISO 8601 week such as 2026-W25")
    _laid_out(lambda: starters.week(content, week, monday))


@new.command("household")
@click.argument("folder", default="content", type=click.Path(path_type=Path))
def new_household(folder: Path) -> None:
    """A folder with a household to change into your own: first files, a few recipes and one week."""
    from binder.commands import starters

    _laid_out(lambda: starters.household(folder))


@main.command()
@click.argument("what")
@click.option("--content", default="content", type=click.Path(path_type=Path))
@OUT
@TODAY
@THEME
def share(what: str, content: Path, out: Path, today: date | None, theme: str) -> None:
    """Write the page of one recipe or week that carries nothing of the household."""
    files, set_with = read(content), theme_of(theme, content)
    with Status() as status:
        week = what if f"weeks/{what}.md" in files.files else None
        examined = look(files, today, week, status)
        status.clear()
        if examined.library is None or examined.has_errors:
            say_problems(examined, files)
            sys.exit(1)
        made = outputs(examined, files, set_with, frozenset({"share"}), memory(), status.stage)
    path = f"share/{what}.html"
    if path not in made:
        raise click.UsageError(f"no recipe or week {what!r}")
    disk.write_file(out / path, made[path])
    click.echo(f"wrote {out / path}")


@main.command()
@click.argument("kind", required=False, type=click.Choice(["household", "recipe", "week", "foods", "stock"]))
@click.option("--json", "as_json", is_flag=True, help="The JSON Schema, for editors.")
def fields(kind: FileKind | None, as_json: bool) -> None:
    """The fields that each kind of file may have."""
    from binder.commands.fields import field_lines, schema_text

    click.echo(schema_text(kind) if as_json else "\n".join(field_lines(kind)))


@main.command()
@CONTENT
@OUT
@TODAY
@WEEK
@THEME
@click.option("--port", default=8017, type=click.IntRange(0, 65535), help="Port on 127.0.0.1.")
@click.option("--print", "with_print", is_flag=True, help="Draw the PDFs at each change too.")
def preview(
    content: Path, out: Path, today: date | None, week: str | None, theme: str, port: int, with_print: bool
) -> None:
    """Build, show on 127.0.0.1, and build again at each change."""
    from binder.preview import run

    read(content)
    theme_of(theme, content)
    kinds = frozenset(KINDS) if with_print else frozenset(KINDS) - {"print", "labels"}
    run(content, out, lambda: today or date.today(), week, theme, port, kinds)
