from __future__ import annotations

from datetime import date, datetime, timedelta
from xml.etree import ElementTree

from binder.pages import run_sheet
from binder.pages.drawings import PAPER, SCREEN, Bar, DayLine, Form, fitted, keeping_lines, timeline

from .fixture_week import SHEET, edition

NINE = datetime(2026, 6, 7, 9, 0)
SVG = "{http://www.w3.org/2000/svg}"


def bar(row: str, begin: int, end: int, words: str, attended: bool = True) -> Bar:
    return Bar(row, NINE + timedelta(minutes=begin), NINE + timedelta(minutes=end), words, attended)


def draw(rows: list[str], bars: list[Bar]) -> ElementTree.Element:
    last = max(one.finish for one in bars)
    return ElementTree.fromstring(timeline(rows, bars, NINE, last, "Run <sheet>", "Who & what", "run-1"))


def drawn(svg: ElementTree.Element, kind: str) -> list[ElementTree.Element]:
    return [e for e in svg.iter() if e.get("class") == kind]


def test_attended_bars_are_toned_and_unattended_ones_hatched() -> None:
    svg = draw(["oven 1", "cook 1"], [bar("oven 1", 0, 30, "1 Bake", False), bar("cook 1", 0, 10, "2 Cut")])
    assert len(drawn(svg, "attended")) == len(drawn(svg, "unattended")) == len(drawn(svg, "hatch")) == 1
    assert drawn(svg, "unattended")[0].get("fill") == "none"


def test_length_is_in_proportion_to_time() -> None:
    svg = draw(["cook 1"], [bar("cook 1", 0, 30, "a"), bar("cook 1", 30, 90, "b")])
    first, second = (float(e.get("width") or 0) + 1 for e in drawn(svg, "attended"))
    assert abs(second / first - 2) < 0.01


def test_two_racks_of_one_oven_lie_under_each_other() -> None:
    svg = draw(["oven 1"], [bar("oven 1", 0, 30, "a"), bar("oven 1", 10, 20, "b")])
    tops = [e.get("y") for e in drawn(svg, "attended")]
    assert len(set(tops)) == 2


def test_title_and_description_are_named_for_screen_readers() -> None:
    svg = draw(["cook 1"], [bar("cook 1", 0, 30, "a")])
    assert svg.get("role") == "img" and svg.get("aria-labelledby") == "run-1-title run-1-words"
    assert [svg.findtext(f"{SVG}{name}") for name in ("title", "desc")] == ["Run <sheet>", "Who & what"]


def test_words_are_cut_to_the_bar_and_the_number_stays() -> None:
    assert fitted("12 Squash and barley bake", 400) == "12 Squash and barley bake"
    assert fitted("12 Squash and barley bake", 63) == "12 Squash…"
    assert fitted("12 Squash", 14) == "12"
    assert fitted("12 Squash", 4) == ""


def test_the_run_sheets_picture_has_a_row_for_every_piece() -> None:
    drawing = run_sheet.picture(SHEET, 1, edition())
    svg = ElementTree.fromstring(drawing.svg)
    texts = [e.text for e in svg.iter(f"{SVG}text")]
    assert texts.index("cook 1") < texts.index("oven 1") < texts.index("burner 1")
    assert "cook 1, oven 1, burner 1, cutting board" in drawing.alt
    assert "#" not in "".join(e.get("style") or "" for e in svg.iter())


def test_on_paper_a_drawing_comes_in_widths_and_its_type_has_twelve_units() -> None:
    drawing = run_sheet.picture(SHEET, 1, edition())
    assert [width for width, _ in drawing.paper] == [form.width for form in PAPER] == [478, 304, 200]
    for width, text in drawing.paper:
        svg = ElementTree.fromstring(text)
        words = list(svg.iter(f"{SVG}text"))
        assert svg.get("width") == str(width) and {e.get("font-size") for e in words} == {"12"}
        assert {"cook 1", "cutting board"} <= {e.text for e in words}
        assert all(float(e.get("x") or 0) + float(e.get("width") or 0) <= width for e in svg.iter(f"{SVG}rect"))


JUNE = [date(2026, 6, 7) + timedelta(days=n) for n in range(8)]


def chart(form: Form, *lines: DayLine) -> list[str]:
    heads = [f"{on:%a} {on.day}" for on in JUNE]
    svg = ElementTree.fromstring(keeping_lines(lines, JUNE, heads, "Keeping", "lines", "keeping", form))
    return [e.text or "" for e in svg.iter(f"{SVG}text")]


def test_a_line_of_the_keeping_chart_keeps_its_eater_and_shortens_its_dish() -> None:
    dish = "White bean and kale stew"
    lines = [
        DayLine(f"{dish}{whose}", JUNE[0], JUNE[3], "", whose=whose) for whose in (" (Petra)", " (Gus)", " (Wilma)")
    ]
    labels = [text for text in chart(PAPER[0], *lines) if "bean" in text]
    assert [text.partition("… ")[2] for text in labels] == ["(Petra)", "(Gus)", "(Wilma)"]
    assert all(len(text) * PAPER[0].character <= PAPER[0].day_label for text in labels)


def test_the_days_of_a_keeping_chart_do_not_run_together() -> None:
    one = DayLine("Stew", JUNE[0], JUNE[3], "")
    assert "Sun 7" in chart(SCREEN, one)
    found = chart(PAPER[0], one)
    assert "Sun 7" not in found and {"Sun", "7", "14"} <= set(found)
