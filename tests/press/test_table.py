"""Boxes to tick in a table."""

from __future__ import annotations

from binder.pages.page import Column, Row, Table, plain
from binder.press.table import bodies


def body(paper: bool, *rows: Row) -> str:
    table = Table((Column("Packed", kind="tick"), Column("For")), rows)
    return str(bodies(table, lambda text: "".join(run.text for run in text), paper))  # type: ignore[arg-type,return-value]


def test_a_row_has_as_many_boxes_as_it_asks_for() -> None:
    assert body(True, Row(((), plain("Ilka")))).count('class="box"') == 1
    assert body(True, Row(((), plain("Ilka")), ticks=3)).count('class="box"') == 3
    assert body(True, Row(((), plain("In all")), "total", ticks=3)).count('class="box"') == 0


def test_each_box_on_a_screen_has_a_name_of_its_own() -> None:
    said = body(False, Row(((), plain("Ilka")), ticks=2))
    assert 'aria-label="Packed Ilka 1"' in said and 'aria-label="Packed Ilka 2"' in said
    assert 'aria-label="Packed Ilka"' in body(False, Row(((), plain("Ilka"))))
