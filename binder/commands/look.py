"""What the commands do that look at a whole household: examine it, and say what was found."""

from __future__ import annotations

import sys
from datetime import date

import click

from binder import disk
from binder.commands.arguments import may_colour
from binder.commands.terminal import Status, problem_lines
from binder.examine import Asked, Examined, NoSession, examine
from binder.memory import Memory
from binder.reckon.tried import AS_WRITTEN, Tried


def look(
    content: disk.Content,
    today: date | None,
    week: str | None,
    status: Status,
    draft: bool = False,
    private: bool = False,
    *,
    tried: Tried = AS_WRITTEN,
    memory: Memory,
) -> Examined:
    """Read, check and reckon; exit status 2 for a week or a session that is not there."""
    if week is not None and f"weeks/{week}.md" not in content.files:
        raise click.UsageError(f"no week {week!r}: there is no {content.shown}/weeks/{week}.md")
    asked = Asked(today or date.today(), week, draft, private, tried)
    try:
        return examine(content, asked, memory, status.stage)
    except NoSession as fault:
        status.clear()
        raise click.UsageError(f"no session to try otherwise: {fault}") from None


def say_problems(examined: Examined, content: disk.Content) -> None:
    """Every problem on standard error, with its line and the way out."""
    colour = may_colour(sys.stderr)
    for line in problem_lines(examined.problems, examined.texts, content.shown, colour):
        click.echo(line, err=True, color=colour)
