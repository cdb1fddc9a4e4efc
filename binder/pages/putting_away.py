"""Where and how all that was bought is kept, by its shelf or drawer, with what holds for all fresh food."""

from __future__ import annotations

from binder.pages.edition import Edition, run, unique
from binder.pages.format import first_upper
from binder.pages.page import Block, Bullets, Column, Heading, Row, Table, plain
from binder.pages.shopping import is_bought
from binder.reckon.facts import ShoppingRow

COLD = frozenset({"produce", "meat and fish", "dairy and eggs"})
MEAT, FROZEN = "meat and fish", "frozen"
# In the storage words of a food: a cold place, and what holds only later or not at all.
COLD_WORDS, LATER = ("refrigerator", "cold"), ("opened", "thaw", "not the refrigerator")


def blocks(edition: Edition) -> list[Block]:
    """A row for each way of keeping, with the foods bought this week that are kept so: raw meat and fish first, then
    what is fresh, what is frozen, and what stands in the cupboard. Nothing where nothing is bought."""
    w = edition.words
    bought = [row for row in edition.facts.shopping if is_bought(row)]
    if not bought:
        return []
    columns = (Column(w.where, width=50), Column(w.what))
    kept = [(_rank(row), way, row.food) for row in bought if (way := _way(row, edition))]
    rows = tuple(
        Row((
            run(first_upper(way), "strong"),
            plain(", ".join(food for rank_, way_, food in kept if (rank_, way_) == (rank, way))),
        ))
        for rank, way in sorted(unique((rank, way) for rank, way, _ in kept))
    )  # fmt: skip
    lines = [w.produce_washing, w.produce_cut] if any(row.aisle == "produce" for row in bought) else []
    lines += [w.raw_below] if any(row.aisle == MEAT for row in bought) else []
    lines += [w.store_rest] if len(kept) < len(bought) else []
    table = Table(columns, rows, w.putting_away, "putting-away", row_heads=True)
    return [Heading(2, w.putting_away), *([table] if rows else []), Bullets(tuple(map(plain, lines)))]


def _rank(row: ShoppingRow) -> int:
    return 0 if row.aisle == MEAT else 1 if row.aisle in COLD else 2 if row.aisle == FROZEN else 3


def _way(row: ShoppingRow, edition: Edition) -> str:
    """How a food says that it is kept; where it names no place for a closed pack, that of its aisle; nothing for the
    cupboard, which is said of all at once."""
    rank, own = _rank(row), row.store or ""
    if own and (rank < 2 or (any(word in own for word in COLD_WORDS) and not any(word in own for word in LATER))):
        return own
    return edition.words.store_by_aisle.get(("raw", "cold", "frozen", "")[rank], "")
