"""The labels a household prints on: a sheet or tape, how far it is used, and how the printer has to be set right."""

from __future__ import annotations

from binder.check.declare import Entry, Field, Fields, Found, Record, Schema
from binder.check.leaves import Leaf, NumberText, Whole, YesNo
from binder.check.near import ways_out
from binder.model.household import LabelStock
from binder.problem import Span, error
from binder.tables import sheets

USUAL = {"letter": "letter 3x10", "half-letter": "letter 3x10", "a4": "a4 3x7", "a5": "a4 3x7"}


class SheetName(Leaf[str]):
    """A label sheet of the table, or tape of any width."""

    def value(self, text: str, span: Span, found: Found) -> str | None:
        known = sheets.sheet(text)
        if known is not None:
            return known.name
        if sheets.is_tape(text):
            narrow, wide = f"{sheets.NARROWEST_TAPE_MM:g}", f"{sheets.WIDEST_TAPE_MM:g}"
            short, long = f"{sheets.SHORTEST_LABEL_MM:g}", f"{sheets.LONGEST_LABEL_MM:g}"
            message = f"tape is {narrow} to {wide} mm wide, a label on it {short} to {long} mm long"
            found.append(error(span, "bad-amount", message, "write it like tape 62 mm, or tape 62 x 40 mm"))
            return None
        remedies = ways_out(text, (*sheets.names(), "tape 62 mm"), "one of")
        found.append(error(span, "wrong-type", f'"{text}" is not one of the words that can stand here', *remedies))
        return None

    def schema(self) -> Schema:
        return {"anyOf": [{"enum": list(sheets.names())}, {"type": "string", "pattern": "^[Tt]ape [0-9]"}]}

    def words(self) -> str:
        return f"a sheet ({', '.join(sheets.names())}) or tape by its width, tape 62 mm, tape 62 mm x 40 mm"


class RegistrationFields(Fields):
    what = "registration"
    right = Field("right", NumberText(signed=True), "Millimetres to the right; below zero to the left.")
    down = Field("down", NumberText(signed=True), "Millimetres down; below zero up.")


class LabelsFields(Fields):
    what = "labels"
    sheet = Field("sheet", SheetName(), "The sheet in use by paper and grid, or the tape by its width.")
    first_free = Field("first free", Whole(1), "The first position not used yet, counted along the rows.")
    registration = Field(
        "registration",
        Record(RegistrationFields),
        "How far this printer is off, as the test sheet shows (binder labels --test-sheet).",
    )
    right = Field("move right", NumberText(signed=True), "The same as right under registration.")
    down = Field("move down", NumberText(signed=True), "The same as down under registration.")
    cut_marks = Field("cut marks", YesNo(), "Marks at the edge of the sheet to cut plain paper by.")


def label_stock(entry: Entry | None, paper: str, found: Found) -> LabelStock:
    """The labels in use; those of the paper where nothing is said."""
    if entry is None:
        return LabelStock(USUAL[paper])
    named = entry.get(LabelsFields.sheet)
    sheet = sheets.sheet(named.value if named else USUAL[paper])
    assert sheet is not None, "read"
    first = entry.get(LabelsFields.first_free)
    if first and first.value > sheet.capacity:
        message = f"a sheet {sheet.name} has {sheet.capacity} label{'' if sheet.capacity == 1 else 's'}"
        found.append(error(first.span, "bad-amount", message, "a full sheet is followed by 1"))
        first = None
    moved = entry.get(LabelsFields.registration)
    right = (moved.get(RegistrationFields.right) if moved else None) or entry.get(LabelsFields.right)
    down = (moved.get(RegistrationFields.down) if moved else None) or entry.get(LabelsFields.down)
    offset = (float(right.value) if right else 0.0, float(down.value) if down else 0.0)
    marks = entry.get(LabelsFields.cut_marks)
    return LabelStock(sheet.name, first.value if first else 1, offset, bool(marks and marks.value))
