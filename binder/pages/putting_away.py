"""Where and how what was bought is kept: fresh food by its shelf or drawer, with what holds for all of it."""

from __future__ import annotations

from binder.pages.edition import Edition, run, unique
from binder.pages.format import first_upper
from binder.pages.page import Block, Bullets, Column, Heading, Row, Table, plain
from binder.pages.shopping import is_bought

FRESH = frozenset({"produce", "meat and fish", "dairy and eggs"})
MEAT = "meat and fish"


def blocks(edition: Edition) -> list[Block]:
    """A row for each way of keeping, with the foods bought this week that are kept so; nothing where none is known."""
    w = edition.words
    bought = [row for row in edition.facts.shopping if is_bought(row) and row.aisle in FRESH]
    known = [row for row in bought if row.store]
    if not known:
        return []
    columns = (Column(w.where, width=42), Column(w.what))
    ways = sorted(unique((row.aisle != MEAT, row.store or "") for row in known))
    rows = tuple(
        Row((
            run(first_upper(way), "strong"),
            plain(", ".join(r.food for r in known if r.store == way and (r.aisle != MEAT) == fresh)),
        ))
        for fresh, way in ways
    )  # fmt: skip
    lines = [w.produce_washing, w.produce_cut] if any(row.aisle == "produce" for row in bought) else []
    lines += [w.raw_below] if any(row.aisle == MEAT for row in bought) else []
    table = Table(columns, rows, w.putting_away, "putting-away", row_heads=True)
    return [Heading(2, w.putting_away), table, Bullets(tuple(map(plain, lines)))]
