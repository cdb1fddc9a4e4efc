"""One label for each filled container, at its place on the sheet in use."""

from __future__ import annotations

from dataclasses import replace

from binder.model.household import LabelStock
from binder.reckon.facts import LabelFacts
from binder.reckon.filling import Filled
from binder.tables import sheets


def place(things: tuple[Filled, ...], stock: LabelStock, week: str) -> tuple[tuple[LabelFacts, ...], int]:
    """The labels in the order things are filled, and the next free position of the last sheet (1-based)."""
    sheet = sheets.sheet(stock.sheet)
    if sheet is None:
        return (), stock.first_free
    on_sheet = sheet.columns * sheet.rows
    found = []
    for n, thing in enumerate(things):
        index = stock.first_free - 1 + n
        where = sheets.position(sheet, index % on_sheet + 1)
        found.append(_label(thing, index // on_sheet + 1, where.row, where.column, f"{week[-2:]}-{n + 1:02d}"))
    return tuple(found), (stock.first_free - 1 + len(things)) % on_sheet + 1


def _label(thing: Filled, sheet: int, row: int, column: int, name: str) -> LabelFacts:
    serving = thing.servings[0] if thing.servings and thing.what in ("portion", "packed apart") else None
    return LabelFacts(
        sheet=sheet,
        row=row,
        column=column,
        lines=(),
        recipe=thing.facts.key,
        eater=thing.eater,
        use_by=thing.use_by,
        contains=thing.holds.contains,
        what=thing.what,
        title=thing.title,
        pull_on=thing.pull_on,
        eat_on=thing.eat_on,
        kept=thing.kept,
        may_contain=thing.holds.may_contain,
        not_known=thing.holds.not_known,
        reheat=serving.reheat if serving and thing.what == "portion" else None,
        grams=thing.grams if thing.cooked_grams is None else thing.cooked_grams,
        grams_from=thing.cooked_grams_from,
        raw_grams=thing.raw_grams,
        portions=thing.portions,
        place=serving.place if serving else None,
        id=name,
        made_on=thing.made_on,
        from_frozen=thing.kept == "freezer" and any(s.from_frozen for s in thing.servings),
    )


def moved(labels: tuple[LabelFacts, ...], stock: LabelStock) -> tuple[tuple[LabelFacts, ...], int]:
    """The same labels from another first free position on, and the next free one."""
    sheet = sheets.sheet(stock.sheet)
    if sheet is None:
        return labels, stock.first_free
    on_sheet, found = sheet.columns * sheet.rows, []
    for n, label in enumerate(labels):
        index = stock.first_free - 1 + n
        where = sheets.position(sheet, index % on_sheet + 1)
        found.append(replace(label, sheet=index // on_sheet + 1, row=where.row, column=where.column))
    return tuple(found), (stock.first_free - 1 + len(labels)) % on_sheet + 1
