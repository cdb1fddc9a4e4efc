"""The steps of a card, with the minutes they take at this week's size and what they keep busy."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import ceil

from binder.model.recipe import Step, Use
from binder.pages.cooling import deadlines
from binder.pages.edition import Edition, unique
from binder.pages.format import clock, minutes
from binder.pages.page import Block, Heading, Para, StepGroup, StepLine, Steps, plain
from binder.pages.run_sheet import length, set_apart
from binder.reckon.facts import Batch, Task
from binder.reckon.recipe_facts import RecipeFacts

BOARD = "cutting board"


def steps(
    facts: RecipeFacts, factor: Fraction, batch: Batch | None, portions: Fraction, edition: Edition
) -> tuple[Block, ...]:
    """Prep-day steps by part, then what is left for service."""
    w, recipe = edition.words, facts.recipe
    tasks = _tasks(batch, edition)
    prep = _groups(recipe.prep, factor, portions, tasks, edition)
    # A kit's tasks for service stand on its kit card, with the hour of each.
    left = () if facts.form == "kit" else recipe.service
    service = _groups(left, factor, portions, {}, edition)
    blocks: list[Block] = []
    if prep.groups:
        blocks += [Heading(2, w.prep_day), *written_size(recipe.prep, factor, edition), prep]
    if service.groups:
        blocks += [Heading(2, w.at_service), service]
    return tuple(blocks)


def written_size(of: Sequence[Step], factor: Fraction, edition: Edition) -> tuple[Para, ...]:
    """At another size than written, what steps count (`roll 24 balls`) is said to be the recipe's own."""
    w = edition.words
    counted = factor != 1 and any(w.counts_in(step.text) for step in of)
    return (Para(plain(w.written_size), "note"),) if counted else ()


def _tasks(batch: Batch | None, edition: Edition) -> dict[tuple[str | None, str], list[Task]]:
    """This batch's tasks on the run sheets, by part and text."""
    found: dict[tuple[str | None, str], list[Task]] = {}
    if batch and batch.id:
        for sheet in edition.facts.run_sheets:
            for task in sheet.tasks:
                if task.batch == batch.id:
                    found.setdefault((task.part, task.text), []).append(task)
    return found


def _groups(
    of: Sequence[Step],
    factor: Fraction,
    portions: Fraction,
    tasks: dict[tuple[str | None, str], list[Task]],
    edition: Edition,
) -> Steps:
    groups = []
    number = 0
    for part in unique(step.part for step in of):
        lines = []
        for step in of:
            if step.part == part:
                number += 1
                lines.append(_line(step, number, factor, portions, tasks.get((part, step.text), []), edition))
        title = edition.words.together if part == "Together" else part or ""
        groups.append(StepGroup(title, tuple(lines)))
    return Steps(tuple(groups))


def _line(
    step: Step, number: int, factor: Fraction, portions: Fraction, tasks: Sequence[Task], edition: Edition
) -> StepLine:
    w = edition.words
    needed = step_minutes(step, factor, portions) if not tasks else max(length(task) for task in tasks)
    said = [minutes(needed)] if needed is not None else []
    said += [w.unattended] if step.unattended else []
    loads = len(tasks) if tasks else 1
    note = w.in_loads.format(loads) if loads > 1 else ""
    return StepLine(number, step.text, ", ".join(said), ", ".join(use_text(use, edition) for use in step.uses), note)


def step_minutes(step: Step, factor: Fraction, portions: Fraction) -> Fraction | None:
    """At a board minutes grow with the batch, up to a whole one; `per portion` says so itself; others stay."""
    if step.minutes is None:
        return None
    if step.per_portion:
        return step.minutes * portions
    if any(use.kind == BOARD for use in step.uses):
        return Fraction(ceil(step.minutes * factor))
    return step.minutes


def use_text(use: Use, edition: Edition) -> str:
    """`oven 400 °F`, `2 burners`, in the household's words for tools."""
    w = edition.words
    said = w.plural_tool(use.kind, use.count)
    return f"{said} {use.temperature_text}" if use.temperature_text else said


def deadline(batch: Batch | None, edition: Edition) -> str:
    """Until when this batch must be cold, by its session's run sheet."""
    if batch is None or not batch.id:
        return ""
    for sheet in edition.facts.run_sheets:
        for found in deadlines(sheet, edition):
            if found.batch == batch.id:
                hot = f"{clock(found.hot_until)} ({found.part})" if found.part else clock(found.hot_until)
                said = edition.words.cool_on_card.format(
                    hot=hot, lukewarm=clock(found.lukewarm_by), cold=clock(found.cold_by)
                )
                return " ".join((said, *set_apart(found, edition)))
    return ""
