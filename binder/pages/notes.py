"""Section 14: a ruled page for how it went, with the questions that closing the week asks."""

from __future__ import annotations

from binder.pages.edition import Edition, portions, session_title
from binder.pages.page import Block, Column, Heading, Page, Para, Row, Ruled, Table, plain
from binder.pages.run_sheet import sheet_minutes
from binder.reckon.facts import Batch


def pages(edition: Edition) -> tuple[Page, ...]:
    """The page to write on: minutes, what became of each dish, what to remember."""
    w = edition.words
    blocks: list[Block] = [Para(plain(w.how_it_went_note), "note")]
    blocks += [_sessions(edition)] if edition.sessions else []
    blocks += [_dishes(edition)] if edition.facts.batches else []
    blocks += [Heading(2, w.thrown_away_why), Ruled(3), Heading(2, w.substituted_head), Ruled(2)]
    blocks += [Heading(2, w.for_next_time), Ruled(8)]
    return (Page("how-it-went", w.how_it_went, "notes", tuple(blocks)),)


def _sessions(edition: Edition) -> Table:
    w = edition.words
    columns = (
        Column(w.session),
        Column(w.planned_minutes, width=24),
        Column(w.minutes_it_took, width=24, kind="write"),
    )
    rows = tuple(
        Row((plain(session_title(s, w)), plain(sheet_minutes(s, edition) or w.not_known), ())) for s in edition.sessions
    )
    return Table(columns, rows, w.minutes_it_took, "sessions", row_heads=True)


def _dishes(edition: Edition) -> Table:
    """Planned is printed; made, weight, eaten, left, frozen and thrown away are for the pen."""
    w = edition.words
    pen = (w.portions_made, w.it_weighed, w.eaten, w.left, w.frozen_head, w.thrown_away)
    columns = (Column(w.dish, width=26), Column(w.planned, width=14), *(Column(head, kind="write") for head in pen))
    batches = sorted(edition.facts.batches, key=lambda b: (b.made_on, edition.title(b.recipe), b.id))
    rows = tuple(_row(b, len(pen), edition) for b in batches)
    return Table(columns, rows, w.dishes_head, "how-it-went", row_heads=True)


def _row(batch: Batch, pens: int, edition: Edition) -> Row:
    planned = portions(batch.portions_made, edition.words)
    return Row((plain(edition.short(batch.recipe)), plain(planned), *(() for _ in range(pens))))
