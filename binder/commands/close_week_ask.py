"""The questions of closing a week, on a terminal. Enter accepts what was planned; what nobody measured stays open."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

import click

from binder.check.closed_fields import AS_LISTED
from binder.check.leaves import number_in
from binder.commands.close_week_lines import figures
from binder.model.week import Closed, ClosedDish, ClosedSession
from binder.reckon.closing import Row, accounted, settled

_BOUGHT = "Bought as listed: what the packs leave goes into stock?"


def ask(
    rows: Iterable[Row],
    sessions: Iterable[ClosedSession],
    titles: dict[str, str],
    before: Closed,
    packs: bool = False,
) -> Closed:
    """What became of each dish, how long each session took, what was exchanged, and a note; with `packs`, whether it
    was shopped as listed."""
    dishes = tuple(_dish(row, titles.get(row.recipe, row.recipe), before.dish(row.recipe, row.which)) for row in rows)
    timed = tuple(_session(one) for one in sessions)
    swaps = _lines("Exchanged without being planned (one a line; Enter: no more)", before.substitutions or ())
    note = click.prompt("A note for next time (Enter: none)", default=before.note or "", show_default=False)
    listed = packs and click.confirm(_BOUGHT, default=before.bought is not None)
    return Closed(before.on, dishes, timed, swaps, note.strip(), AS_LISTED if listed else None)


def _dish(row: Row, title: str, before: ClosedDish | None) -> ClosedDish:
    plan = settled(row, None, before)
    click.echo(f"\n{title}{_when(row)}: {figures(row.planned)} portions planned")
    said = replace(plan, weighs_g=_weight(plan)) if row.source == "session" else plan
    rest = "" if plan.left == plan.frozen == plan.thrown == 0 else f", {figures(plan.left or Fraction(0))} left"
    if click.confirm(f"  made {figures(plan.made or Fraction(0))}, eaten{rest}: as it was?", default=True):
        return said
    while True:
        word = "taken from stock" if row.source == "stock" else "made"
        made = _portions(word, plan.made)
        left, frozen = _portions("left in the refrigerator", plan.left), _portions("frozen", plan.frozen)
        thrown = _portions("thrown away", plan.thrown)
        why = click.prompt("  why", default=plan.why, show_default=bool(plan.why)).strip() if thrown else ""
        eaten = _portions("eaten", max(Fraction(0), made - left - frozen - thrown))
        now = replace(said, made=made, left=left, frozen=frozen, thrown=thrown, why=why, eaten=eaten)
        over = -accounted(now)
        if over <= 0:
            return _gives(now, row)
        click.echo(f"  that is {figures(over)} more than was made")


def _gives(dish: ClosedDish, row: Row) -> ClosedDish:
    if not row.gives:
        return dish
    names = ", ".join(gift.food.name for gift in row.gives)
    return replace(dish, gives=click.confirm(f"  kept: {names}?", default=dish.gives is not False))


def _when(row: Row) -> str:
    if row.source == "stock":
        return ", from stock"
    return f", made {row.made_on.isoformat()}" if row.made_on else ""


def _portions(word: str, default: Fraction | None) -> Fraction:
    while True:
        text = click.prompt(f"  {word}", default=figures(default or Fraction(0)))
        number = Fraction(0) if text.strip() == "0" else number_in(text.strip())
        if number is not None:
            return number
        click.echo("  a number of portions, such as 2 or 1/2")


def _weight(dish: ClosedDish) -> Fraction | None:
    known = f"{float(dish.weighs_g):g}" if dish.weighs_g is not None else ""
    while True:
        text = click.prompt("  the batch weighed, g (Enter: not weighed)", default=known, show_default=bool(known))
        text = text.strip().removesuffix("g").strip()
        if not text:
            return None
        number = number_in(text)
        if number:
            return number
        click.echo("  grams, such as 2400")


def _session(session: ClosedSession) -> ClosedSession:
    planned = f", planned {session.planned} min" if session.planned is not None else ""
    known = str(session.minutes) if session.minutes is not None else ""
    while True:
        question = f"\nThe session of {session.on.isoformat()}{planned}: minutes it took (Enter: not timed)"
        text = click.prompt(question, default=known, show_default=bool(known)).strip()
        if not text:
            return replace(session, minutes=None)
        if text.isdigit():
            return replace(session, minutes=int(text))
        click.echo("  whole minutes, such as 145")


def _lines(question: str, before: tuple[str, ...]) -> tuple[str, ...]:
    found = list(before)
    for one in before:
        click.echo(f"  {one}")
    while text := click.prompt(question, default="", show_default=False).strip():
        found.append(text)
    return tuple(found)
