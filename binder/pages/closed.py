"""A closed week's pages: what became of each dish, and which edition of its recipes they show."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from binder.model.week import Closed, ClosedDish, ClosedSession, Week
from binder.pages.edition import run
from binder.pages.format import clock, day, day_with_year, first_upper, fraction, grams, minutes, money
from binder.pages.page import Block, Bullets, Column, Facts, Fold, Heading, Para, Prose, Row, Table, Text, plain
from binder.pages.site_shelf import Shelf
from binder.pages.words.en import Words

# What has a place of its own on the page, or is for the program alone.
_SAID = frozenset(
    {"on", "dishes", "sessions", "substitutions", "note", "bought", "cost", "recipes", "stock", "made of"}
)  # fmt: skip


def as_made(week: Week | None, shelf: Shelf) -> tuple[Block, ...]:
    """On every page of a closed week: that it stays as it was made; nothing on those of an open one."""
    closed = week.came_to if week else None
    if week is None or closed is None or not week.is_archive:
        return ()
    w = shelf.words
    when = day_with_year(closed.on, w) if closed.on else w.not_known
    whole = week.key in shelf.then
    return (Para(plain((w.closed_as_made if whole else w.closed_figures_kept).format(when)), "note"),)


def how_it_went(week: Week, shelf: Shelf) -> list[Block]:
    """The notes, what became of the dishes, how long it took, what it cost, and the editions it was made of."""
    w, closed = shelf.words, week.came_to or Closed()
    blocks: list[Block] = [Heading(2, w.notes, "notes"), Prose(week.notes)] if week.notes.strip() else []
    if week.closed is None:
        return blocks
    blocks += [Heading(2, w.closed_week, "closed"), Para(plain(w.closed_week_note), "note")]
    blocks += [_dishes(week.key, closed, shelf)] if closed.dishes else []
    pairs = [*_sessions(closed, w), *_costs(closed, w)]
    pairs += [(w.substituted_head, plain("; ".join(closed.substitutions)))] if closed.substitutions else []
    others = {key: value for key, value in week.closed.items() if key not in _SAID}
    pairs += [(first_upper(str(key)), plain(_plain_words(value, w))) for key, value in others.items()]
    blocks += [Facts(tuple(pairs))] if pairs else []
    blocks += [Para(plain(closed.note))] if closed.note else []
    return [*blocks, *_editions(closed, w)]


def _dishes(key: str, closed: Closed, shelf: Shelf) -> Table:
    w = shelf.words
    why = any(dish.why or dish.left_by for dish in closed.dishes)
    weighed = any(dish.weighs_g is not None for dish in closed.dishes)
    heads = (w.planned, w.portions_made, w.eaten, w.left, w.frozen_head, w.thrown_away)
    columns = [Column(w.dish), *(Column(head, "right") for head in heads)]
    columns += [Column(w.it_weighed, "right")] if weighed else []
    columns += [Column(w.why_and_who)] if why else []
    rows = tuple(_dish(key, dish, weighed, why, shelf) for dish in closed.dishes)
    return Table(tuple(columns), rows, w.closed_dishes, "closed", row_heads=True)


def _dish(key: str, dish: ClosedDish, weighed: bool, why: bool, shelf: Shelf) -> Row:
    w = shelf.words
    name = (*_title(key, dish.recipe, shelf), *(plain(f", {w.ask_from_stock}") if dish.source == "stock" else ()))
    counts = (dish.planned, dish.made, dish.eaten, dish.left, dish.frozen, dish.thrown)
    cells: list[Text] = [name, *(plain(_count(count, w)) for count in counts)]
    cells += [plain(grams(dish.weighs_g) if dish.weighs_g is not None else w.dash)] if weighed else []
    cells += [plain("; ".join(part for part in (dish.why, _who_left(dish, w)) if part))] if why else []
    return Row(tuple(cells))


def _who_left(dish: ClosedDish, w: Words) -> str:
    return ", ".join(w.who_left.format(who=who, left=fraction(left)) for who, left in dish.left_by or ())


def _title(key: str, recipe: str, shelf: Shelf) -> Text:
    """The title that the dish had, with the way to the recipe as it is today."""
    facts = shelf.weeks.get(key)
    then = facts.recipes.get(recipe) if facts else None
    now = shelf.dish(recipe)
    return run(then.title, "", now[0].href if now else None) if then else now


def _count(count: Fraction | None, w: Words) -> str:
    return w.not_known if count is None else fraction(count) if count else w.dash


def _sessions(closed: Closed, w: Words) -> list[tuple[str, Text]]:
    return [(_session(one, w), plain(_took(one, w))) for one in closed.sessions]


def _session(one: ClosedSession, w: Words) -> str:
    return day(one.on, w) + (f", {clock(one.at_minutes)}" if one.at_minutes is not None else "")


def _took(one: ClosedSession, w: Words) -> str:
    took = w.session_took.format(minutes(one.minutes)) if one.minutes is not None else w.session_not_timed
    return f"{took}, {w.ask_planned.format(minutes(one.planned))}" if one.planned is not None else took


def _costs(closed: Closed, w: Words) -> list[tuple[str, Text]]:
    """With `at least` where a price was missing."""
    both = ((w.consumed, closed.consumed), (w.paid, closed.to_pay))
    said = [(name, money(cost, closed.currency)) for name, cost in both if cost is not None]
    return [(name, plain(w.at_least.format(cost) if closed.cost_at_least else cost)) for name, cost in said]


def _editions(closed: Closed, w: Words) -> list[Block]:
    """Which edition of each file the week was made of."""
    named = closed.made_of or {f"recipes/{one.recipe}.md": one.edition for one in closed.recipes if one.edition}
    if not named:
        return []
    lines = tuple(plain(f"{path}, {edition}") for path, edition in named.items())
    return [Fold(w.editions, (Para(plain(w.editions_note), "note"), Bullets(lines)))]


def _plain_words(value: object, w: Words) -> str:
    """A value that somebody wrote into the block, as words."""
    if isinstance(value, Mapping):
        return "; ".join(f"{key}: {_plain_words(item, w)}" for key, item in value.items())
    if isinstance(value, tuple | list):
        return "; ".join(_plain_words(item, w) for item in value)
    return w.not_known if value is None else w.yes if value is True else w.no if value is False else str(value)
