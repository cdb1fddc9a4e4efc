"""`binder propose [WEEK]`: a plan that stands, from the weeks before, to be changed."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction
from pathlib import Path
from typing import Any, NoReturn

import click

from binder import disk
from binder.commands.arguments import FOLDER, TODAY, read
from binder.commands.look import look, say_problems
from binder.commands.starters import monday_of
from binder.commands.terminal import Status
from binder.memory import of_this_program
from binder.model.household import HOME
from binder.model.library import Library
from binder.model.week import MealLine
from binder.reckon.proposing import MUCH_LEFT, Proposal, Reasons, propose
from binder.source.numbers import in_figures
from binder.source.yaml_text import flow

_DAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


@click.command()
@click.argument("week", required=False)
@FOLDER
@TODAY
@click.option("--write", is_flag=True, help="Write weeks/WEEK.md; without it the proposal is only shown.")
def command(week: str | None, content: Path, today: date | None, write: bool) -> None:
    """Propose a week: the meals of the latest one, with other dishes that stand. WEEK is the one after the last plan
    by default.

    Dishes on hand and foods that will not keep come first, then what was planned longest ago; every line says why.
    Nothing that an eater avoids, a place bans or that does not keep is proposed.
    """
    files, memory, day = read(content), of_this_program(), today or date.today()
    with Status() as status:
        examined = look(files, day, None, status, memory=memory)
        library = examined.library
        if library is None or not library.recipes:
            status.clear()
            say_problems(examined, files)
            _stop("there is nothing to propose from: the household or its recipes cannot be read")
        monday = _monday(week, library, day)
        status.stage("trying dishes")
        in_use = library.weeks.get(examined.current or "")
        proposal = propose(library, examined.recipes, monday, day, in_use)
    if proposal is None:
        _stop(
            f"there is no week before {monday.isoformat()} to go by: write a first one, `binder new week` lays it out"
        )
    path = f"weeks/{proposal.week.key}.md"
    if write and (content / path).exists():
        _stop(f"{content / path} is there already; without --write the proposal is only shown")
    text = week_file(proposal, library)
    click.echo(text, nl=False)
    whole = replace(files, files={**files.files, path: text.encode()})
    with Status() as status:
        after = look(whole, day, proposal.week.key, status, memory=memory)
    for sheet in after.weeks[proposal.week.key].run_sheets:
        click.echo(f"prep on {sheet.start:%A %-d %B} from {sheet.start:%H:%M} to {sheet.finish:%H:%M}", err=True)
    if write:
        disk.write_new(content / path, text)
        click.echo(f"wrote {content / path}", err=True)
    else:
        click.echo(f"nothing was written; --write makes it {content / path}", err=True)


def week_file(proposal: Proposal, library: Library) -> str:
    """The proposal as a week's file, each dish with its reasons; lines without a dish stand as comments."""
    week = proposal.week
    lines = ["---", f"week: {week.key}", "prep:" if week.sessions else "prep: []"]
    for session in week.sessions:
        place = {} if session.place == HOME else {"place": session.place}
        at = f"{session.at_minutes // 60:02d}:{session.at_minutes % 60:02d}"
        lines.append(f"  - {flow({'on': session.on.isoformat(), 'at': at, 'cooks': session.cooks, **place})}")
    lines.append("meals:" if proposal.dishes else "meals: []")
    for dish in proposal.dishes:
        lines.append(f"  # {library.recipes[dish.recipe].title}: {'; '.join(_why(dish.reasons))}")
        lines += [f"  - {flow(_meal(line, library))}" for line in dish.lines]
    for line in proposal.open_lines:
        meal = {**_meal(line, library), line.meal: "?"}
        lines.append(f"  # no dish stands for: {flow(meal)}")
    lines += _substitutions(proposal)
    lines += _already(proposal)
    return "\n".join([*lines, "---", f"Proposed after {proposal.pattern}.", ""])


def _meal(line: MealLine, library: Library) -> dict[str, Any]:
    everyone = {eater.name for eater in library.household.eaters}
    whom: Any = "everyone" if set(line.eaters) == everyone else list(line.eaters)
    said: dict[str, Any] = {
        line.meal: line.recipe,
        "for": whom[0] if isinstance(whom, list) and len(whom) == 1 else whom,
    }
    if line.dates:
        said["on"] = _on(line.dates)
    if line.place:
        said["at"] = line.place
    if line.by_eater:
        said["portions"] = dict(line.by_eater)
    elif line.total is not None or line.each != 1:
        said["portions"] = line.total if line.total is not None else line.each
    return said


def _on(days: tuple[date, ...]) -> Any:
    """`mon-wed` for days in a row, else each."""
    names = [_DAYS[day.weekday()] for day in days]
    if len(days) > 2 and days[-1] - days[0] == timedelta(days=len(days) - 1):
        return f"{names[0]}-{names[-1]}"
    return names[0] if len(names) == 1 else names


def _why(reasons: Reasons) -> Iterator[str]:
    if reasons.portions_on_hand > 0:
        one = reasons.portions_on_hand <= 1
        yield f"{_portions(reasons.portions_on_hand)} {'is' if one else 'are'} on hand"
    for food, last in reasons.uses:
        yield f"uses {food}, which keeps until {last:%a} {last.day} {last:%b}"
    if reasons.left is not None and reasons.left >= MUCH_LEFT:
        yield f"{round(reasons.left * 100)} % of it was left before: plan less"
    yield f"last planned in {reasons.last}" if reasons.last else "never planned yet"


def _substitutions(proposal: Proposal) -> Iterator[str]:
    if proposal.week.substitutions:
        yield "substitutions:"
    for swap in proposal.week.substitutions:
        whom: Any = swap.eaters[0] if len(swap.eaters) == 1 else list(swap.eaters)
        yield f"  - {flow({'in': swap.recipe, 'for': whom, 'use': swap.use.text, 'instead of': swap.instead_of})}"


def _already(proposal: Proposal) -> Iterator[str]:
    if proposal.week.already:
        yield "already:"
    for taken in proposal.week.already:
        yield f"  - {_portions(taken.portions)} {taken.recipe}"


def _portions(count: Fraction) -> str:
    """`1 portion`, `1/2 portion`, `2 1/2 portions`."""
    return f"{in_figures(count)} {'portion' if count <= 1 else 'portions'}"


def _monday(week: str | None, library: Library, today: date) -> date:
    """Of the week asked for, else of the one after the last that is planned, and not one that has begun."""
    if week is not None:
        found = monday_of(week)
        if found is None:
            raise click.UsageError(f"{week!r} is not an ISO 8601 week such as 2026-W25")
        return found
    coming = today + timedelta(days=-today.weekday() % 7)
    return max([coming, *(one.monday + timedelta(days=7) for one in library.weeks.values())])


def _stop(words: str) -> NoReturn:
    click.echo(words, err=True)
    sys.exit(1)
