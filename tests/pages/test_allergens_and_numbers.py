from __future__ import annotations

from dataclasses import replace
from typing import Any

from binder.model.quantity import Interval
from binder.pages import allergens, numbers
from binder.pages.page import Bullets, Table
from binder.pages.words.en import Words
from binder.reckon.facts import AimReached

from .fixture import figures
from .fixture_week import TUESDAY, edition, servings, week_facts
from .reading import of_kind, said, words


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
    assert found["Squash and barley bake (for Ilka)"]["Milk"] == "–"
    assert found["Trout"]["Fish"] == "contains (trout)"
    assert set(found["Lentil stew"].values()) == {"not checked"}
    assert "A dash, not found: not in what is recorded, which is no promise" in words(allergens.pages(edition()))


def test_both_lists_are_whole() -> None:
    assert {len(row) for row in matrix().values()} == {9}
    assert {len(row) for row in matrix(allergen_list="eu").values()} == {14}


def test_each_eater_who_avoids_something_is_checked_worst_answer_first() -> None:
    bullets = next(b for b in of_kind(allergens.pages(edition()), Bullets) if "Contains" in words(b))
    assert [said(line) for line in bullets.items] == [
        "Contains: Trout", "Not found: Squash and barley bake",
    ]  # fmt: skip
    assert "Tomas avoids" not in words(allergens.pages(edition()))


def test_the_worst_answer_comes_first_in_any_language() -> None:
    class Other(Words):
        __slots__ = ()
        cell_contains, not_found = "zeker", "anders"

    one = edition()
    other = replace(one, style=replace(one.style, words=Other()))
    bullets = next(b for b in of_kind(allergens.pages(other), Bullets) if "Zeker" in words(b))
    assert [said(line).partition(":")[0] for line in bullets.items] == ["Zeker", "Anders"]


def test_what_is_not_checked_for_an_eater_who_avoids_is_said() -> None:
    stew = tuple(replace(s, eater="Ilka") for s in servings() if s.recipe == "lentil-stew")
    bullets = of_kind(allergens.pages(edition(facts=week_facts(servings=stew))), Bullets)
    assert ["Not checked: Lentil stew"] in [[said(line) for line in b.items] for b in bullets]


def test_a_food_that_is_avoided_is_looked_for_by_its_name() -> None:
    one = edition()
    kit = next(s for s in one.servings if s.recipe == "trout-kit")
    found = replace(kit, avoided={"meat": (), "potato": ("potato",)}, avoided_unsure=frozenset({"seafood"}))
    assert allergens.avoided("potato", found, one) == "contains (potato)"
    assert allergens.avoided("meat", found, one) == "not found"
    assert allergens.avoided("seafood", found, one) == "not checked"


def test_foods_without_a_record_are_named() -> None:
    assert "Lentil stew: radish" in words(allergens.pages(edition()))


def rows_of(number: int = 0, **facts: Any) -> dict[str, tuple[str, ...]]:
    """A table of numbers by the first cell; the row of differences under an aim by its name and "off"."""
    found = [t for t in of_kind(numbers.pages(edition(facts=week_facts(**facts))), Table) if t.kind == "numbers"][
        number
    ]
    rows: dict[str, tuple[str, ...]] = {}
    name = ""
    for row in found.rows:
        cells = tuple(said(cell) for cell in row.cells)
        name = name if row.kind == "quiet" else cells[0]
        rows[f"{name} off" if row.kind == "quiet" else name] = cells[1:]
    return rows


def test_figures_by_day_are_rounded_once_and_bounds_say_so() -> None:
    found = rows_of()
    figures_ = {name: cells[-1] for name, cells in found.items() if not name.endswith("off")}
    assert figures_ == {
        "Energy, kcal": "1,840", "Protein, g": "62", "Fat, g": "9", "Carbohydrate, g": "50", "Fibre, g": "8",
        "Sodium, mg": "450", "Vegetables": "5",
    }  # fmt: skip
    assert rows_of(1)["Energy, kcal"] == ("", "at least 295")
    assert "No figures for radish" in words(numbers.pages(edition()))


def test_aims_are_figure_aim_and_difference() -> None:
    found = rows_of()
    assert found["Energy, kcal"] == ("about 1,900", "1,840") and found["Energy, kcal off"] == ("", "−60 met")
    assert found["Sodium, mg"] == ("at most 400", "450") and found["Sodium, mg off"] == ("", "+50 not met")


def test_every_day_has_a_column() -> None:
    first = week_facts().day_totals[0]
    both = (first, replace(first, date=TUESDAY, nutrition=figures(2000.0, 60.0), aims=()))
    assert rows_of(day_totals=both)["Energy, kcal"] == ("about 1,900", "1,840", "2,000")
    assert rows_of(day_totals=both)["Energy, kcal off"] == ("", "−60 met", "+100 not known")


def test_the_difference_of_a_lower_bound_is_one_too() -> None:
    first = week_facts().day_totals[0]
    loose = replace(first, nutrition=figures(1840.0, 62.0, {"energy_kcal": ("radish",)}), aims=())
    found = rows_of(day_totals=(loose,))
    assert found["Energy, kcal"] == ("about 1,900", "at least 1,840")
    assert found["Energy, kcal off"] == ("", "at least −60 not known")


def test_the_difference_of_a_range_has_two_ends() -> None:
    first = week_facts().day_totals[0]
    energy = (Interval(1840.0, 1912.0), *first.nutrition.values[1:])
    found = rows_of(day_totals=(replace(first, nutrition=replace(first.nutrition, values=energy)),))
    assert found["Energy, kcal"][1] == "1,840–1,910" and found["Energy, kcal off"][1] == "−60 to +10 met"


def test_an_aim_is_found_by_the_word_a_household_writes() -> None:
    first = replace(week_facts().day_totals[0], aims=(AimReached("energy", "1900 kcal", True),))
    found = rows_of(day_totals=(first,))
    assert found["Energy, kcal off"][1].endswith(" met") and found["Sodium, mg off"][1].endswith(" not known")


def test_a_missing_figure_that_is_not_printed_is_not_named() -> None:
    first = week_facts().day_totals[0]
    loose = replace(first, nutrition=figures(1840.0, 62.0, {"sugars_g": ("dill",), "protein_g": ("mint",)}))
    text = words(numbers.pages(edition(facts=week_facts(day_totals=(loose,)))))
    assert "No figures for mint" in text and "dill" not in text
