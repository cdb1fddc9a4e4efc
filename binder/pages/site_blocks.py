"""Blocks that were written for the binder, made to stand in a page of the site: headings lowered, dishes linked."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace

from binder.pages.page import Beside, Block, Box, DayPart, Fold, Heading, Ingredients, Row, Table, Text

Change = Callable[[Block], Block]


def changed(blocks: Iterable[Block], change: Change) -> tuple[Block, ...]:
    """Every block after `change`, what lies inside others first."""
    return tuple(change(_inside(block, change)) for block in blocks)


def _inside(block: Block, change: Change) -> Block:
    if isinstance(block, Box | Fold | DayPart):
        return replace(block, blocks=changed(block.blocks, change))
    if isinstance(block, Beside):
        return replace(block, left=changed(block.left, change), right=changed(block.right, change))
    return block


def lowered(blocks: Iterable[Block], by: int) -> tuple[Block, ...]:
    """Headings moved down by so many levels."""
    return changed(blocks, lambda b: replace(b, level=b.level + by) if isinstance(b, Heading) else b)


def with_links(blocks: Iterable[Block], hrefs: Mapping[str, str]) -> tuple[Block, ...]:
    """In tables, a stretch of text that is a dish's title and no link yet becomes one; `hrefs` by title."""
    return changed(blocks, lambda b: _linked_table(b, hrefs) if isinstance(b, Table) else b)


def _linked_table(table: Table, hrefs: Mapping[str, str]) -> Table:
    return replace(table, rows=tuple(_linked_row(row, hrefs) for row in table.rows))


def _linked_row(row: Row, hrefs: Mapping[str, str]) -> Row:
    return replace(row, cells=tuple(_linked(cell, hrefs) for cell in row.cells))


def _linked(text: Text, hrefs: Mapping[str, str]) -> Text:
    return tuple(replace(r, href=hrefs[r.text]) if r.href is None and r.text in hrefs else r for r in text)


def lines_relinked(blocks: Iterable[Block], href_of: Callable[[str], str | None]) -> tuple[Block, ...]:
    """Ingredient lines that lead somewhere, led to where `href_of` says."""

    def change(block: Block) -> Block:
        if not isinstance(block, Ingredients):
            return block
        groups = tuple(
            replace(g, lines=tuple(replace(x, href=href_of(x.href)) if x.href else x for x in g.lines))
            for g in block.groups
        )
        return replace(block, groups=groups)

    return changed(blocks, change)
