from __future__ import annotations

import pytest

from binder.tables import sheets

INCH = 25.4
# Grid, label size, left and top margin, gaps: the usual blank stock, in inches for letter, mm for A4.
PUBLISHED = [
    ("letter 3x10", (3, 10), (2.625 * INCH, INCH), (3 / 16 * INCH, INCH / 2), (INCH / 8, 0)),
    ("letter 2x5", (2, 5), (4 * INCH, 2 * INCH), (5 / 32 * INCH, INCH / 2), (3 / 16 * INCH, 0)),
    ("a4 3x7", (3, 7), (63.5, 38.1), (7.2, 15.15), (2.5, 0)),
    ("a4 2x7", (2, 7), (99.1, 38.1), (4.65, 15.15), (2.5, 0)),
]


@pytest.mark.parametrize(("name", "grid", "label", "margins", "gaps"), PUBLISHED)
def test_sheets_as_published(name, grid, label, margins, gaps):
    sheet = sheets.sheet(name)
    assert sheet is not None
    assert (sheet.columns, sheet.rows) == grid
    assert sheet.label_mm == pytest.approx(label)
    assert (sheet.left_mm, sheet.top_mm) == pytest.approx(margins)
    assert (sheet.gap_x_mm, sheet.gap_y_mm) == pytest.approx(gaps)


@pytest.mark.parametrize("sheet", sheets.SHEETS.values(), ids=lambda sheet: sheet.name)
def test_the_grid_fills_the_paper_with_equal_margins(sheet):
    last = sheets.position(sheet, sheet.capacity)
    right = sheet.page_mm[0] - last.x_mm - sheet.label_mm[0]
    bottom = sheet.page_mm[1] - last.y_mm - sheet.label_mm[1]
    assert right == pytest.approx(sheet.left_mm, abs=0.15)
    assert bottom == pytest.approx(sheet.top_mm, abs=0.15)


def test_labels_run_along_the_rows():
    sheet = sheets.SHEETS["letter 3x10"]
    first, third, fourth = (sheets.position(sheet, i) for i in (1, 3, 4))
    assert (first.row, first.column, first.x_mm, first.y_mm) == (1, 1, 4.7625, 12.7)
    assert (third.row, third.column) == (1, 3)
    assert (fourth.row, fourth.column, fourth.x_mm, fourth.y_mm) == (2, 1, 4.7625, pytest.approx(38.1))


def test_labels_do_not_overlap():
    for sheet in sheets.SHEETS.values():
        across, down = sheets.position(sheet, 2), sheets.position(sheet, sheet.columns + 1)
        first = sheets.position(sheet, 1)
        assert across.x_mm >= first.x_mm + sheet.label_mm[0]
        assert down.y_mm >= first.y_mm + sheet.label_mm[1] - 1e-9


@pytest.mark.parametrize("index", [0, 31, -1])
def test_a_position_beyond_the_sheet_is_a_fault(index):
    with pytest.raises(ValueError):
        sheets.position(sheets.SHEETS["letter 3x10"], index)


def test_names():
    assert sheets.sheet("Letter 3x10") is sheets.SHEETS["letter 3x10"]
    assert sheets.sheet("letter 9x9") is None
    assert sheets.names() == ("letter 3x10", "letter 2x5", "a4 3x7", "a4 2x7")


@pytest.mark.parametrize(
    ("name", "width", "length"),
    [
        ("tape 62 mm", 62, 0),
        ("Tape 62mm x 40 mm", 62, 40),
        ("tape 2.4 in", 60.96, 0),
        ("tape 2 in x 1 in", 50.8, INCH),
    ],
)
def test_tape_of_any_width_is_a_page_of_one_label(name, width, length):
    sheet = sheets.sheet(name)
    assert sheet is not None and sheet.capacity == 1 and sheet.by_content == (not length)
    assert sheet.label_mm == pytest.approx((width, length)) and sheet.page_mm == sheet.label_mm
    assert (sheets.position(sheet, 1).x_mm, sheets.position(sheet, 1).y_mm) == (0, 0)


@pytest.mark.parametrize("name", ["tape 12 mm", "tape 200 mm", "tape 62 mm x 5 mm", "tape 62 mm x 300 mm"])
def test_tape_too_narrow_for_what_must_be_said_is_none(name):
    assert sheets.sheet(name) is None and sheets.is_tape(name)
    assert not sheets.is_tape("tape 62") and sheets.sheet("tape 62") is None
