"""What is in the house, lot by lot, the freezer first; what this week takes from it and what it puts in."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

from binder.model.stock import Lot
from binder.pages.cold_room import NAMED
from binder.pages.edition import portions, run, unique
from binder.pages.format import day, day_with_year, first_upper, listed
from binder.pages.page import Block, Box, Bullets, Column, Heading, Page, Para, Row, Table, Text, plain
from binder.pages.portion_weight import of_row
from binder.pages.shopping import as_used, some_of
from binder.pages.site_shelf import ON_HAND_PATH, Shelf
from binder.reckon.facts import FromLot, PackingRow, ShoppingRow

_FIRST = ("freezer", "fridge", "cupboard")
STOCK_FILE = "stock.yaml"
# The dates of a stock line, which have a column of their own.
_DATES = re.compile(r",\s*(?:made|opened|frozen|thawed|best before)\s+\d{4}-\d{2}-\d{2}")


def on_hand_page(shelf: Shelf) -> Page:
    """freezer/index.html."""
    w, lots = shelf.words, shelf.library.stock.lots
    places = [*(p for p in _FIRST if any(lot.place == p for lot in lots)), *unique(lot.place for lot in lots)]
    blocks: list[Block] = [*_warnings(shelf)]
    for place in unique(places):
        name = first_upper(w.store(place))
        of = [lot for lot in lots if lot.place == place]
        blocks += [Heading(2, name, f"place-{'-'.join(place.split())}"), _table(of, name, shelf)]
    blocks += [] if lots else [Para(plain(w.nothing_on_hand), "note")]
    blocks += _goes_in(shelf)
    blocks.append(Para(plain(w.day_convention[2]), "note"))
    return Page(ON_HAND_PATH, w.on_hand, "archive", tuple(blocks), shelf.crumbs((w.on_hand, None)))


def _warnings(shelf: Shelf) -> list[Block]:
    """What the week found wrong with a lot: past its time, or not to be read."""
    found = [p.message for p in shelf.edition.facts.problems if p.span.path.endswith(STOCK_FILE)]
    if not found:
        return []
    return [Box("problem", shelf.words.look_at_stock, (Bullets(tuple(plain(first_upper(m)) for m in found)),))]


def _table(lots: Sequence[Lot], name: str, shelf: Shelf) -> Table:
    w = shelf.words
    columns = (Column(w.what, width=40), Column(w.dated), Column(w.this_week_takes))
    rows = tuple(Row((_what(lot, shelf), plain(_dated(lot, shelf)), plain(_takes(lot, shelf)))) for lot in lots)
    return Table(columns, rows, name, "stock", row_heads=True)


def _what(lot: Lot, shelf: Shelf) -> Text:
    """So many portions of a dish; of a food the line as written, without its dates; each with the way to its page."""
    if lot.recipe:
        count = sum((m.high for m in lot.measures), Fraction(0))
        return (*run(f"{portions(count, shelf.words)} "), *shelf.dish(lot.recipe))
    href = shelf.food_href(lot.food) if lot.food else None
    return run(_DATES.sub("", lot.text), "", href)


def _dated(lot: Lot, shelf: Shelf) -> str:
    w = shelf.words
    dates = (
        (w.made, lot.made), (w.opened, lot.opened), (w.frozen_head, lot.frozen), (w.thawed, lot.thawed),
        (w.best_before, lot.best_before),
    )  # fmt: skip
    said = [f"{name} {day_with_year(on, w)}" for name, on in dates if on]
    first = next((one for one in shelf.edition.facts.use_first if one.lot == lot.id and one.use_by), None)
    if first and first.use_by:
        said.append(w.use_first_by.format(day(first.use_by, w)))
    return "; ".join(said) or w.no_date


def _takes(lot: Lot, shelf: Shelf) -> str:
    """How much the week takes of a lot and for which dishes; of a lot of portions, whose they are and when."""
    w = shelf.words
    of = [s for s in shelf.edition.servings if lot.id in (s.lot or "").split("; ")]
    if not of:
        taken = [(one, row) for row in shelf.edition.facts.shopping for one in row.from_lots if one.lot == lot.id]
        return "; ".join(_of_food(one, row, shelf) for one, row in taken) or w.dash
    whom = listed(unique(f"{s.eater} {day(s.date, w) if s.date else w.any_day}" for s in of), w)
    if any(s.lot != lot.id for s in of):
        return whom  # a portion out of two lots: how much of each is not kept
    return f"{portions(sum(s.portions for s in of), w)}: {whom}"


def _of_food(taken: FromLot, row: ShoppingRow, shelf: Shelf) -> str:
    """`10 oz: Minestrone and Chili`; the whole need as the shopping list has it."""
    much = as_used(row, shelf.edition) if taken.amount == row.need else some_of(taken.amount, shelf.edition, row)
    return f"{much}: {listed(unique(shelf.edition.short(key) for key in taken.for_), shelf.words)}"


def _goes_in(shelf: Shelf) -> list[Block]:
    """What this week's sessions put into the freezer."""
    w = shelf.words
    rows = [row for row in shelf.edition.facts.packing if row.kept == "freezer"]
    if not shelf.current:
        return []
    blocks: list[Block] = [Heading(2, w.this_week_freezes, "freezes")]
    if not rows:
        return [*blocks, Para(plain(w.freezes_nothing), "note")]
    columns = (Column(w.dish, width=36), Column(w.how_much), Column(w.made), Column(w.for_whom))
    table = Table(columns, tuple(_packed(r, shelf) for r in rows), w.this_week_freezes, "freezes", row_heads=True)
    return [*blocks, table]


def _packed(row: PackingRow, shelf: Shelf) -> Row:
    w = shelf.words
    each = f", {weight}" if (weight := of_row(row, w, shelf.edition.facts.past)) else ""
    much = f"{row.count} × {row.container or w.packed_as.get(row.what, row.what)}{each}"
    named = (" ".join([*([p.eater] if p.eater else []), day(p.date, w) if p.date else w.any_day]) for p in row.for_)
    whom = unique(named)
    made = day(row.session.on, w) if row.session else w.not_known
    much += f", {w.packed_as[row.what]}" if row.container and row.what in NAMED else ""
    said = listed(whom, w) or w.packed_as.get(row.what, row.what)
    return Row((shelf.dish(row.recipe), plain(much), plain(made), plain(said)))
