"""What household.yaml means, and what stands where nothing is written."""

from fractions import Fraction

import pytest

from binder.check.tools import kind_of, read_tool
from binder.model.household import Aim, Binding, Household, Tool
from binder.problem import Span

from .kitchen import HOUSEHOLD, checked, library

CUP_ML = Fraction(473176473, 2000000)  # NIST Handbook 44, Appendix C, by definition


def household(text: str) -> Household:
    return library({"household.yaml": text}).household


def bare(lines: str = "") -> Household:
    result = checked({"household.yaml": f"household: x\neaters: [{{name: Ana}}, {{name: Rui}}]\n{lines}"})
    assert result.library is not None
    return result.library.household


def test_defaults() -> None:
    made = bare()
    assert (made.language, made.paper, made.measures, made.cup) == ("en", "letter", "us", "us")
    assert (made.allergen_list, made.caution, made.currency, made.time_zone) == ("us", "usual", "USD", "UTC")
    assert dict(made.meal_times) == {"breakfast": 420, "lunch": 720, "snack": 900, "dinner": 1110}
    assert (made.labels.sheet, made.labels.first_free) == ("letter 3x10", 1)


def test_home_is_always_there_with_a_fridge() -> None:
    (home,) = bare().places
    assert home.name == "home"
    assert [tool.kind for tool in home.tools] == ["fridge"]
    stated = household(HOUSEHOLD).place("home")
    assert [tool.kind for tool in stated.tools] == ["oven", "burner", "microwave", "fridge"]


def test_stated_fridge_is_not_doubled() -> None:
    made = household(HOUSEHOLD.replace("microwave 800 W]", "refrigerator]"))
    assert [tool.kind for tool in made.place("home").tools] == ["oven", "burner", "fridge"]


def test_a4_household_has_an_a4_sheet() -> None:
    assert bare("paper: a4\n").labels.sheet == "a4 3x7"


def test_one_meal_time_leaves_the_others() -> None:
    assert bare('meal times: {lunch: "13:15"}\n').meal_times["lunch"] == 795
    assert bare('meal times: {lunch: "13:15"}\n').meal_times["dinner"] == 1110


def test_eaters() -> None:
    ana, rui = household(HOUSEHOLD).eaters
    assert ana.avoids == ("milk",)
    assert dict(ana.eats_at) == {"lunch": "office"}
    assert rui.aims == (Aim("vegetables", "at most", 6.0, "at most 6"),)


def test_eater_goes_by_the_caution_of_the_household_unless_it_has_its_own() -> None:
    made = household(
        HOUSEHOLD.replace("allergen list: us", "caution: strict").replace("{name: Rui", "{name: Rui, caution: usual")
    )
    assert [eater.caution for eater in made.eaters] == ["strict", "usual"]


@pytest.mark.parametrize(
    ("written", "aim"),
    [
        ("energy: 1900 kcal", Aim("energy_kcal", "about", 1900.0, "1900 kcal")),
        ("energy: 8368 kJ", Aim("energy_kcal", "about", 2000.0, "8368 kJ")),  # 1 kcal = 4.184 kJ
        ("sodium: at most 2 g", Aim("sodium_mg", "at most", 2000.0, "at most 2 g")),
        ("protein: At Least 90 g", Aim("protein_g", "at least", 90.0, "At Least 90 g")),
        ("iron: 14 mg", Aim("iron_mg", "about", 14.0, "14 mg")),
        ("saturated fat: at most 20000 mg", Aim("saturated_fat_g", "at most", 20.0, "at most 20000 mg")),
        ("vegetables: at least 5", Aim("vegetables", "at least", 5.0, "at least 5")),
        ("vegetables: 5", Aim("vegetables", "about", 5.0, "5")),
    ],
)
def test_aims_come_in_the_unit_they_are_summed_in(written: str, aim: Aim) -> None:
    made = household(HOUSEHOLD.replace("energy: 1900 kcal", written))
    assert made.eater("Ana").aims == (aim,)


@pytest.mark.parametrize(
    ("written", "avoids"),
    [
        ("dairy", ("milk",)),
        ("walnuts", ("tree nuts (walnuts)",)),
        ("nuts", ("tree nuts",)),
        ("onions", ("onions",)),
        ("celery", ("celery",)),  # a food, in a household that goes by the US list
        ("seed crackers", ("seed crackers",)),
        ("cheese", ("cheese",)),
        ("pork", ("pork",)),  # no food of its own, but a kind of many
        ("Red meat, citrus fruits", ("Red meat", "citrus fruits")),
    ],
)
def test_avoided_words_are_allergens_of_the_list_or_foods(written: str, avoids: tuple[str, ...]) -> None:
    assert household(HOUSEHOLD.replace("[milk]", f"[{written}]")).eater("Ana").avoids == avoids


def test_a_word_of_both_lists_is_read() -> None:
    result = checked({"household.yaml": HOUSEHOLD.replace("[milk]", "[shellfish]")})
    assert result.problems == ()
    assert result.library is not None
    assert result.library.household.eater("Ana").avoids == ("crustacean shellfish", "molluscs")


def test_bans_are_words_of_either_list() -> None:
    made = household(HOUSEHOLD.replace("[peanuts]", "[peanuts, nuts, gluten]").replace("list: us", "list: eu"))
    assert made.place("office").bans == ("peanuts", "nuts", "cereals containing gluten")


def test_containers_hold_the_sum_of_their_compartments() -> None:
    made = household(HOUSEHOLD.replace("holds: 3 cup", "holds: 3 cup + 1 cup + 1/2 cup, freezer: no"))
    (tub,) = made.containers
    assert tub.compartments_ml == (3 * CUP_ML, CUP_ML, CUP_ML / 2)
    assert (tub.have, tub.freezer, tub.microwave) == (4, False, True)


def test_cups_are_the_household_s_own() -> None:
    (tub,) = household(HOUSEHOLD.replace("allergen list: us", "cup: metric")).containers
    assert tub.compartments_ml == (Fraction(750),)


@pytest.mark.parametrize(
    ("written", "tool"),
    [
        ("oven", Tool("oven", text="oven")),
        ("2 ovens", Tool("oven", 2, text="2 ovens")),
        ("oven 2 racks", Tool("oven", racks=2, text="oven 2 racks")),
        ("2 ovens, 3 racks", Tool("oven", 2, racks=3, text="2 ovens, 3 racks")),
        ("4 burners", Tool("burner", 4, text="4 burners")),
        ("four burners", Tool("burner", 4, text="four burners")),
        ("2 cutting boards", Tool("cutting board", 2, text="2 cutting boards")),
        ("microwave 1000 W", Tool("microwave", watts=1000, text="microwave 1000 W")),
        ("microwave 0.7 kW", Tool("microwave", watts=700, text="microwave 0.7 kW")),
        ("microwave 700W", Tool("microwave", watts=700, text="microwave 700W")),
        ("pressure cooker 6 qt", Tool("pressure cooker", holds_ml=24 * CUP_ML, text="pressure cooker 6 qt")),
        ("2 pressure cookers 5 L", Tool("pressure cooker", 2, holds_ml=Fraction(5000), text="2 pressure cookers 5 L")),
        ("hob", Tool("burner", text="hob")),
        ("refrigerator", Tool("fridge", text="refrigerator")),
        ("vacuum flask", Tool("insulated flask", text="vacuum flask")),
        ("skillet 12 in", Tool("skillet", text="skillet 12 in")),
    ],
)
def test_equipment(written: str, tool: Tool) -> None:
    assert read_tool(written, Span("household.yaml", 1, 1, 1)) == (tool, ())


def test_kind_of_equipment_is_singular_and_one_word_for_one_thing() -> None:
    assert [kind_of(one) for one in ("Cutting Boards", "chopping boards", "hobs")] == [
        "cutting board",
        "cutting board",
        "burner",
    ]


def test_missing_household_is_said_once_and_nothing_else_fails_for_it() -> None:
    result = checked(without="household.yaml")
    assert result.library is None
    assert [(one.code, one.span.path, one.span.line, one.span.column) for one in result.problems] == [
        ("missing-key", "household.yaml", 1, 1)
    ]


def test_broken_field_stands_on_its_default() -> None:
    result = checked({"household.yaml": HOUSEHOLD.replace("allergen list: us", "paper: leter")})
    assert result.library is not None
    assert result.library.household.paper == "letter"


def test_labels_on_tape_registered_and_with_cut_marks() -> None:
    made = bare("labels: {sheet: Tape 62 mm, registration: {right: 1.5, down: -0.7}, cut marks: yes}\n").labels
    assert (made.sheet, made.first_free, made.offset_mm, made.cut_marks) == ("tape 62 mm", 1, (1.5, -0.7), True)
    before = bare("labels: {move right: 1, move down: 2, registration: {down: 3}}\n").labels
    assert before.offset_mm == (1.0, 3.0) and not before.cut_marks


@pytest.mark.parametrize(
    ("sheet", "code"), [("tape 10 mm", "bad-amount"), ("tape 62", "wrong-type"), ("letter 9x9", "wrong-type")]
)
def test_a_sheet_that_there_is_not_is_said(sheet: str, code: str) -> None:
    result = checked({"household.yaml": f"{HOUSEHOLD}labels: {{sheet: {sheet}}}\n"})
    assert [(one.code, one.span.line, one.span.column) for one in result.problems] == [(code, 12, 17)]


def test_tape_has_one_label_a_page_so_the_first_free_is_the_first() -> None:
    result = checked({"household.yaml": f"{HOUSEHOLD}labels: {{sheet: tape 62 mm, first free: 2}}\n"})
    assert [one.code for one in result.problems] == ["bad-amount"]


def test_sheets_are_bound_as_the_household_says() -> None:
    assert bare().binding == Binding(hole_marks=False, own_sheets=False)
    made = bare("binder: {hole marks: yes, sections on own sheets: yes}\n").binding
    assert made == Binding(hole_marks=True, own_sheets=True)
