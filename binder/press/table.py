"""The bodies of a table: groups of rows, each cell with what a phone or a small sheet needs to know of its column."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from binder.pages.page import Column, Row, Table, Text, Timing
from binder.press.text import escaped

# From so many columns on a table is not stacked on a phone but scrolls; a matrix does so with fewer.
MANY_COLUMNS = 10
# With three columns of long lines a phone has no room for them side by side.
_LONG_LINES = frozenset({"weeks", "stock"})
_SIDES = {"left": "", "right": "r", "center": "c"}
_BOX = '<span class="box"></span>'

SetText = Callable[[Text], str]


def room(table: Table) -> str:
    """What a table does where there is little room: `stack` its cells, `scroll`, or nothing."""
    count = len(table.columns)
    if count >= MANY_COLUMNS or table.kind == "matrix":
        return "scroll"
    return "stack" if count > 3 or (count == 3 and table.kind in _LONG_LINES) else ""


def table_class(table: Table) -> str:
    """The classes of a table: its kind, how it behaves when there is little room, and how its widths are found."""
    widths = "" if any(column.width for column in table.columns) else "auto"
    return " ".join(word for word in (table.kind, room(table), widths) if word)


def column_class(column: Column) -> str:
    """The classes of a column's cells; the left one is not said."""
    return " ".join(word for word in (_SIDES[column.align], column.kind) if word)


def bodies(table: Table, set_text: SetText, paper: bool, heads: bool = True) -> str:
    """A `tbody` for each group of rows. A row that has too few cells is filled up with empty ones.

    `heads`: cells carry the head of their column, for where the head is not seen.
    """
    openings = [_opening(column, heads and bool(room(table))) for column in table.columns]
    made = []
    for head, rows in _groups(table):
        made.append("<tbody>\n")
        if head is not None:
            words = set_text(head.cells[0]) if head.cells else ""
            span = len(table.columns)
            made.append(f'<tr class="group"><th scope="rowgroup" colspan="{span}">{words}</th></tr>\n')
        made += [_row(row, table, openings, set_text, paper) for row in rows]
        made.append("</tbody>\n")
    return "".join(made)


def _groups(table: Table) -> Iterator[tuple[Row | None, list[Row]]]:
    head: Row | None = None
    rows: list[Row] = []
    for row in table.rows:
        if row.kind != "group":
            rows.append(row)
            continue
        if head is not None or rows:
            yield head, rows
        head, rows = row, []
    if head is not None or rows:
        yield head, rows


def _opening(column: Column, labelled: bool) -> str:
    """The attributes of this column's cells."""
    kind = column_class(column)
    said = f' class="{escaped(kind)}"' if kind else ""
    return f'{said} data-head="{escaped(column.head)}"' if labelled and column.head else said


def _row(row: Row, table: Table, openings: list[str], set_text: SetText, paper: bool) -> str:
    cells = []
    for index, (column, opening) in enumerate(zip(table.columns, openings, strict=True)):
        words: str = set_text(row.cells[index]) if index < len(row.cells) else ""
        if index == 0 and table.row_heads:
            cells.append(f'<th scope="row"{opening.partition(" data-head")[0]}>{words}</th>')
        else:
            tick = _tick(row, column, paper) if column.kind == "tick" else ""
            cells.append(f"<td{opening}>{tick}{words}</td>")
    kind = f' class="{escaped(row.kind)}"' if row.kind else ""
    kind += _timing(row.timing) if row.timing and not paper else ""
    # Entries are set one after the other on a line, so there is a space between two cells.
    return f"<tr{kind}>{' '.join(cells)}</tr>\n"


def _timing(of: Timing) -> str:
    """The attributes of a row that a script follows by the clock."""
    said = {
        "task": of.id,
        "start": of.start.isoformat(),
        "seconds": str(of.seconds),
        "words": of.words,
        "after": " ".join(str(n) for n in of.after),
        "keeps": "|".join(of.keeps),
        "heat": of.heat,
    }
    return "".join(f' data-{name}="{escaped(value)}"' for name, value in said.items() if value)


def _tick(row: Row, column: Column, paper: bool) -> str:
    """Boxes to tick, but for sums and remarks; on screen each is named by its column and what stands in the row."""
    if row.kind in ("total", "quiet"):
        return ""
    if paper:
        return " ".join([_BOX] * row.ticks)
    name = next((text for cell in row.cells if (text := "".join(run.text for run in cell).strip())), "")
    numbers = [str(n) for n in range(1, row.ticks + 1)] if row.ticks > 1 else [""]
    names = (" ".join(word for word in (column.head, name, number) if word) for number in numbers)
    return " ".join(f'<input type="checkbox" aria-label="{escaped(words)}">' for words in names)
