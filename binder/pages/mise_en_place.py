"""Section 3: each food once, how much of it, cut how, and how it is divided among the dishes."""

from __future__ import annotations

from collections.abc import Sequence

from binder.model.week import Session
from binder.pages.edition import Edition, run, session_title, unique
from binder.pages.format import first_upper
from binder.pages.measures import amount, first_and_second, weight_text
from binder.pages.page import Column, Page, Para, Row, Table, plain
from binder.reckon.facts import MiseRow


def pages(edition: Edition) -> tuple[Page, ...]:
    rows = edition.facts.mise_en_place
    return tuple(
        _page(session, [r for r in rows if r.session == session], edition)
        for session in unique(row.session for row in rows)
    )


def _page(session: Session | None, rows: Sequence[MiseRow], edition: Edition) -> Page:
    w = edition.words
    when = session_title(session, w) if session else ""
    columns = (
        Column("", width=5, kind="tick"),
        Column(w.how_much, width=20, kind="quantity"),
        Column(w.food, width=22),
        Column(w.cut_how, width=20),
        Column(w.split_by_dish),
    )
    table = Table(columns, tuple(_row(row, edition) for row in rows), w.mise_en_place, "mise")
    anchor = f"mise-{session.on.isoformat()}" if session else "mise"
    blocks = (Para(plain(w.mise_note), "note"), table)
    return Page(anchor, w.mise_en_place, "mise", blocks, subtitle=when, print_first=True)


def _row(row: MiseRow, edition: Edition) -> Row:
    w = edition.words
    many = row.amount is not None and row.amount.unit == "each" and row.amount.high > 1
    food = w.plural_food(row.food) if many else row.food
    cells = (
        (),
        run(how_much(row, edition), "quantity"),
        run(first_upper(food), "strong"),
        plain(row.preparation or w.as_it_is),
        plain(split(row, edition)),
    )
    return Row(cells)


def how_much(row: MiseRow, edition: Edition) -> str:
    """As on the card: the household's own measure, the other beside it; `some` when no amount was written.

    Measures in several units (cups and spoons) are told by their sum where there is one.
    """
    style = edition.style
    if len(row.measures) > 1 and row.amount is not None:
        return amount(row.amount, style)
    first, second = first_and_second(row.measures, row.grams, style)
    if first:
        return f"{first} ({second})" if second else first
    if row.amount is not None:
        return amount(row.amount, style)
    return weight_text(row.grams) if row.grams else edition.words.some


def split(row: MiseRow, edition: Edition) -> str:
    """`2 Lentil stew + 1 Squash bake`; the dish alone when there is one."""
    if len(row.for_) == 1:
        return edition.title(row.for_[0].recipe)
    style = edition.style
    shares = ((amount(s.amount, style) if s.amount else "", edition.title(s.recipe)) for s in row.for_)
    return "; ".join(f"{title} {said}".strip() for said, title in shares)
