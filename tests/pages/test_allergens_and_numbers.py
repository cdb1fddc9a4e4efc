from __future__ import annotations

from dataclasses import replace

from binder.model.quantity import Interval
from binder.pages import allergens, numbers
from binder.pages.page import Table
from binder.reckon.facts import AimReached

from .fixture import figures
from .fixture_week import edition, week_facts
from .reading import of_kind, table, words


def matrix(**household: str) -> dict[str, dict[str, str]]:
    found: dict[str, dict[str, str]] = {}
    for one in of_kind(allergens.pages(edition(**household)), Table):
        if one.kind == "matrix":
            heads = [c.head for c in one.columns[1:]]
            for row in one.rows:
                cells = ["".join(r.text for r in cell) for cell in row.cells]
                found.setdefault(cells[0], {}).update(zip(heads, cells[1:], strict=True))
    return found


def test_cells_are_words_in_four_kinds() -> None:
    found = matrix()
    assert found["Squash and barley bake (for Tomas)"]["Milk"] == "contains"
    assert found["Squash and barley bake (for Tomas)"]["Sesame"] == "may contain"
    assert found["Squash and barley bake (for Ilka)"]["Milk"] == "not found"
    assert found["Trout with dill potatoes"]["Fish"] == "contains (trout)"
    assert set(found["Lentil stew"].values()) == {"not known"}


def test_both_lists_are_whole() -> None:
    assert {len(row) for row in matrix().values()} == {9}
    assert {len(row) for row in matrix(allergen_list="eu").values()} == {14}


def test_each_eater_who_avoids_something_is_checked() -> None:
    assert table(allergens.pages(edition()), "eater-check") == [
        ("Squash and barley bake", "not found"), ("Trout with dill potatoes", "contains"),
    ]  # fmt: skip
    assert "Tomas avoids" not in words(allergens.pages(edition()))


def test_a_food_that_is_avoided_is_looked_for_by_its_name() -> None:
    one = edition()
    kit = next(s for s in one.servings if s.recipe == "trout-kit")
    assert allergens.avoided("potato", kit, one)[0].text == "contains"
    assert allergens.avoided("leek", kit, one)[0].text == "not found"


def test_foods_without_a_record_are_named() -> None:
    assert "Lentil stew: radish" in words(allergens.pages(edition()))


def test_figures_by_day_are_rounded_once_and_bounds_say_so() -> None:
    found = [t for t in of_kind(numbers.pages(edition()), Table) if t.kind == "numbers"]
    rows = [["".join(r.text for r in cell).replace("\u00a0", " ") for cell in t.rows[0].cells] for t in found]
    assert rows[0] == ["Mon 8 Jun", "1,840 kcal", "62 g", "9 g", "50 g", "8 g", "450 mg", "5"]
    assert "Vegetables" in [c.head for c in found[0].columns]
    assert rows[1][1] == "at least 295 kcal"
    assert "No figures for radish" in words(numbers.pages(edition()))


def test_aims_are_figure_aim_and_difference() -> None:
    assert table(numbers.pages(edition()), "aims") == [
        ("Energy",), ("Mon 8 Jun", "1,840 kcal", "about 1,900 kcal", "−60 kcal", "yes"),
        ("Sodium",), ("Mon 8 Jun", "450 mg", "at most 400 mg", "+50 mg", "no"),
    ]  # fmt: skip


def test_the_difference_of_a_lower_bound_is_one_too() -> None:
    first = week_facts().day_totals[0]
    loose = replace(first, nutrition=figures(1840.0, 62.0, {"energy_kcal": ("radish",)}), aims=())
    rows = table(numbers.pages(edition(facts=week_facts(day_totals=(loose,)))), "aims")
    assert rows[1] == ("Mon 8 Jun", "at least 1,840 kcal", "about 1,900 kcal", "at least −60 kcal", "not known")


def test_the_difference_of_a_range_has_two_ends() -> None:
    first = week_facts().day_totals[0]
    energy = (Interval(1840.0, 1912.0), *first.nutrition.values[1:])
    loose = replace(first, nutrition=replace(first.nutrition, values=energy))
    rows = table(numbers.pages(edition(facts=week_facts(day_totals=(loose,)))), "aims")
    assert rows[1][1:4] == ("1,840–1,910 kcal", "about 1,900 kcal", "−60 kcal to +10 kcal")


def test_an_aim_is_found_by_the_word_a_household_writes() -> None:
    first = replace(week_facts().day_totals[0], aims=(AimReached("energy", "1900 kcal", True),))
    rows = table(numbers.pages(edition(facts=week_facts(day_totals=(first,)))), "aims")
    assert rows[1][4] == "yes" and rows[3][4] == "not known"


def test_a_missing_figure_that_is_not_printed_is_not_named() -> None:
    first = week_facts().day_totals[0]
    loose = replace(first, nutrition=figures(1840.0, 62.0, {"sugars_g": ("dill",), "protein_g": ("mint",)}))
    text = words(numbers.pages(edition(facts=week_facts(day_totals=(loose,)))))
    assert "No figures for mint" in text and "dill" not in text
