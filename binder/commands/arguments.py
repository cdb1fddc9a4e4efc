"""The arguments that several commands share, and what is read by them."""

from __future__ import annotations

import os
from datetime import date, time
from pathlib import Path
from typing import Any

import click

from binder import disk
from binder.press.theme import Theme

Start = tuple[date | None, int]  # the day of a session (None: the week's first), minutes after midnight

CONTENT = click.argument("content", default="content", type=click.Path(path_type=Path))
FOLDER = click.option("--content", default="content", type=click.Path(path_type=Path), help="The household's folder.")
OUT = click.option(
    "--out", default="build", type=click.Path(path_type=Path, file_okay=False), help="Folder of the output."
)
WEEK = click.option("--week", help="Only what this week needs, such as 2026-W24.")
THEME = click.option("--theme", default="default", help="A theme that comes with the program.")


class _Day(click.ParamType):  # type: ignore[type-arg]
    name = "YYYY-MM-DD"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> date:
        try:
            return value if isinstance(value, date) else date.fromisoformat(value)
        except ValueError:
            self.fail(f"{value!r} is not a date such as 2026-06-08", param, ctx)


class _Start(click.ParamType):  # type: ignore[type-arg]
    name = "[YYYY-MM-DD ]HH:MM"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Start:
        try:
            day, _, hour = value.strip().rpartition(" ")
            start = time.fromisoformat(hour.zfill(5)) if len(hour) <= len("10:00") and ":" in hour else None
            if start is not None:
                return (date.fromisoformat(day.strip()) if day.strip() else None), 60 * start.hour + start.minute
        except ValueError:
            pass
        self.fail(f"{value!r} is not a start such as 10:00 or '2026-06-10 19:00'", param, ctx)


COOKS = click.option(
    "--cooks", type=click.IntRange(1, 20), help="Try every session of the week with so many cooks; no file is changed."
)
AT = click.option(
    "--at",
    type=_Start(),
    multiple=True,
    help="Try another start: of the week's first session, or with a date before it of the session on that day "
    "('2026-06-10 19:00'); repeatable; no file is changed.",
)
TODAY = click.option("--today", type=_Day(), default=None, help="The day to count from; the clock's by default.")


def may_colour(stream: Any) -> bool:
    """Colour only on a terminal, and not when NO_COLOR is set to anything."""
    return bool(stream.isatty()) and not os.environ.get("NO_COLOR")


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
