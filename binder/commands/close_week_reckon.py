"""A week reckoned once more to be closed: its plan with the stock it began with, and what becomes of both files."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from types import MappingProxyType

from binder.check.editions import edition, edition_path, files_then
from binder.check.library import FOODS, HOUSEHOLD, check_library
from binder.commands.close_week_answers import minutes_of
from binder.commands.close_week_block import block_of
from binder.commands.close_week_past import not_written, past_their_day
from binder.commands.close_week_stock import PATH as STOCK
from binder.commands.close_week_stock import Stocked, after_week, before_week
from binder.disk import Content
from binder.examine import read
from binder.model.library import Library
from binder.model.week import Closed, ClosedDish, ClosedSession, Week
from binder.problem import Problem
from binder.reckon import plan, recipes
from binder.reckon.closed import portions_then
from binder.reckon.closing import Row, accounted, remaining, rows, settled, shopped_as_made
from binder.reckon.closing_bought import Left, left_of_packs
from binder.reckon.closing_lots import added
from binder.reckon.facts import WeekFacts
from binder.reckon.recipe_facts import RecipeFacts
from binder.source.splice import Put, edited

# Each dish, portion and lot of the block stands on one line.
ROW = 400


@dataclass(frozen=True, slots=True)
class Closing:
    """A week about to be closed. `files`: what it is reckoned from, those of the first closing when it is closed again.

    `stock_text` is stock.yaml as it was before the week was closed the first time.
    """

    content: Content
    week: Week
    library: Library
    recipes: Mapping[str, RecipeFacts]
    facts: WeekFacts
    rows: tuple[Row, ...]
    sessions: tuple[ClosedSession, ...]
    files: Mapping[str, bytes]
    stock_text: str
    before: Closed
    notes: tuple[str, ...] = ()

    @property
    def titles(self) -> dict[str, str]:
        return {key: facts.title for key, facts in self.recipes.items()}


def text_of(content: Content, path: str) -> str:
    """A file as it is written, line ends and byte order mark included; empty when there is none."""
    return content.files.get(path, b"").decode("utf-8", "replace")


def understood(content: Content, key: str) -> tuple[Week | None, Library | None, tuple[Problem, ...]]:
    """The week's plan and what it needs, with every problem of what is written."""
    checked = check_library(read(content), frozenset(content.photos), key)
    return checked.library.weeks.get(key) if checked.library else None, checked.library, checked.problems


def prepared(content: Content, week: Week) -> Closing | Problem:
    """The plan reckoned with the stock as the week found it."""
    before = week.came_to or Closed()
    back = before_week(text_of(content, STOCK), before.stock)
    if isinstance(back, Problem):
        return back
    files = dict(content.files)
    if then := files_then(before.made_of, content.files):
        files = {**{path: raw for path, raw in files.items() if not path.startswith("recipes/")}, **then}
    if back.text or STOCK in content.files:
        files[STOCK] = back.text.encode()
    _, library, _ = understood(replace(content, files=MappingProxyType(files)), week.key)
    assert library is not None, "it was there before"
    known, _ = recipes.all_facts(library.recipes, library.household)
    week = library.weeks.get(week.key, week)
    facts = plan.reckon_week(week, library, known, library.stock, week.first_day)
    sessions = tuple(
        ClosedSession(one.on, one.at_minutes, next((s.minutes for s in facts.run_sheets if s.of == one), None))
        for one in week.sessions
    )
    timed = tuple(replace(one, minutes=minutes_of(one, before)) for one in sessions)
    return Closing(
        content=content,
        week=week,
        library=library,
        recipes=known,
        facts=facts,
        rows=rows(facts, known, library.stock),
        sessions=timed,
        files=files,
        stock_text=back.text,
        before=before,
        notes=back.notes,
    )


def concluded(closing: Closing, said: Closed, today: date) -> tuple[Closed, tuple[str, ...]]:
    """What the week came to by what was said, and what cannot be or is not accounted for."""
    before, facts = closing.before, closing.facts
    dishes = tuple(
        settled(row, said.dish(row.recipe, row.which), before.dish(row.recipe, row.which)) for row in closing.rows
    )
    gone = tuple(one for one in before.dishes if all((one.recipe, one.which) != (d.recipe, d.which) for d in dishes))
    sessions = tuple(
        replace(one, minutes=minutes if (minutes := minutes_of(one, said)) is not None else one.minutes)
        for one in closing.sessions
    )
    first = not before.recipes
    made = Closed(
        on=said.on or before.on or today,
        dishes=(*dishes, *gone),
        sessions=sessions,
        substitutions=said.substitutions if said.substitutions is not None else before.substitutions,
        note=said.note if said.note is not None else before.note,
        bought=said.bought or before.bought,
        recipes=portions_then(facts, {key: edition(_recipe_file(closing, key)) for key in closing.recipes})
        if first
        else before.recipes,
        consumed=facts.cost.consumed if first else before.consumed,
        to_pay=facts.cost.to_pay if first else before.to_pay,
        currency=facts.cost.currency if first else before.currency,
        cost_at_least=facts.cost.at_least if first else before.cost_at_least,
        made_of=_made_of(closing) if first else before.made_of,
    )
    eaters = {eater.name for eater in closing.library.household.eaters}
    strange = [
        f"{d.name}: nobody here is called {who}" for d in dishes for who, _ in d.left_by or () if who not in eaters
    ]
    return made, (*strange, *(f"{d.name}: {_sum(d)}" for d in dishes if accounted(d) < 0))


def _sum(dish: ClosedDish) -> str:
    parts = ((dish.eaten, "eaten"), (dish.left, "left"), (dish.frozen, "frozen"), (dish.thrown, "thrown away"))
    words = ", ".join(f"{float(number):g} {word}" for number, word in parts if number)
    return f"{words} are more than the {float(dish.made or 0):g} that were made"


def open_ends(closed: Closed) -> tuple[str, ...]:
    """Portions of which nothing is said."""
    return tuple(
        f"{dish.name}: nothing is said of {float(accounted(dish)):g} of {float(dish.made or 0):g} portions"
        for dish in closed.dishes
        if accounted(dish) > 0
    )


def _recipe_file(closing: Closing, key: str) -> bytes:
    return closing.files.get(f"recipes/{key}.md", b"")


def _made_of(closing: Closing) -> Mapping[str, str]:
    """The household, foods and stock, and every recipe that the week and the stock reach, with their editions."""
    paths = (HOUSEHOLD, FOODS, STOCK, *(f"recipes/{key}.md" for key in sorted(closing.library.recipes)))
    return {path: edition(closing.files[path]) for path in paths if path in closing.files}


def _editions(closing: Closing, closed: Closed) -> Mapping[str, bytes]:
    """The files of a first closing, to be kept."""
    if closing.before.recipes:
        return {}
    return {edition_path(path, of): closing.files[path] for path, of in closed.made_of.items()}


def _packs_left(closing: Closing, found: tuple[tuple[Row, ClosedDish], ...]) -> Left:
    """What the packs on the shopping list leave."""
    day = closing.week.first_day
    _, used = shopped_as_made(closing.week, closing.library, closing.recipes, closing.facts, found, day)
    return left_of_packs(closing.facts.shopping, used, closing.library.stock, day)


def files_of(closing: Closing, closed: Closed) -> tuple[Mapping[str, bytes], Stocked] | Problem:
    """The files that closing changes, by path, and what it does to the stock."""
    by_name = {(one.recipe, one.which): one for one in closed.dishes}
    found = tuple((row, by_name[row.recipe, row.which]) for row in closing.rows)
    left = remaining(closing.week, closing.library, closing.recipes, closing.facts, found)
    packs = _packs_left(closing, found) if closed.bought else None
    new = (*added(found, closing.facts, closing.library), *(packs.lots if packs else ()))
    over = past_their_day(closing.library, left, new, closed.on or closing.week.first_day, closing.titles)
    stocked = after_week(closing.stock_text, closing.library.stock, left, new, closing.titles)
    if isinstance(stocked, Problem):
        return stocked
    path = f"weeks/{closing.week.key}.md"
    stocked = replace(stocked, notes=(*over, *(not_written(packs) if packs else ())))
    whole = replace(closed, stock=stocked.changes)
    text = edited(text_of(closing.content, path), [Put("closed", block_of(whole), ROW)], path)
    if isinstance(text, Problem):
        return text
    made = {**_editions(closing, closed), STOCK: stocked.text.encode(), path: text.encode()}
    return {name: raw for name, raw in made.items() if raw != closing.content.files.get(name, b"")}, stocked
