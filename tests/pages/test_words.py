"""The words agree with what the other rooms call things, and never promise what nobody can."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from binder.model.food import NUTRIENTS
from binder.model.recipe import MEALS
from binder.pages.binder import SECTIONS
from binder.pages.words import words_of
from binder.pages.words.en import ENGLISH, Words
from binder.tables import aisles, allergens, measures

from .reading import parts

TEXTS = [
    text
    for name in dir(Words)
    if not name.startswith("_")
    for value in [getattr(Words, name)]
    for text in (parts(tuple(value.values()) if hasattr(value, "values") else value))
    if isinstance(text, str)
]


def test_every_allergen_of_both_lists_has_its_word() -> None:
    for of in ("us", "eu"):
        assert tuple(ENGLISH.allergen_lists[of]) == allergens.words(of)


def test_aisles_are_walked_in_their_order() -> None:
    assert tuple(ENGLISH.aisles) == aisles.AISLES


def test_every_counted_unit_has_a_word() -> None:
    assert set(measures.COUNT_UNITS) <= set(ENGLISH.units)


def test_every_nutrient_meal_and_section_has_its_word() -> None:
    assert tuple(ENGLISH.nutrients) == NUTRIENTS
    assert set(ENGLISH.meals) == set(MEALS)
    assert list(ENGLISH.section_titles) == list(ENGLISH.section_tabs) == [key for key, _ in SECTIONS]


def test_nothing_is_called_safe_or_free_from() -> None:
    assert len(TEXTS) > 200
    found = [t for t in TEXTS if re.search(r"\bsafe\b|free from|-free\b", t, re.IGNORECASE)]
    assert found == []


@pytest.mark.parametrize(
    ("one", "many"),
    [("onion", "onions"), ("onion, red", "onions, red"), ("tomato", "tomatoes"), ("bay leaf", "bay leaves"),
     ("anchovy", "anchovies"), ("radish", "radishes"), ("chickpeas", "chickpeas"), ("peach", "peaches"),
     ("avocado", "avocados"), ("turkey", "turkeys")],
)  # fmt: skip
def test_plural_of_foods(one: str, many: str) -> None:
    assert ENGLISH.plural_food(one) == many


def test_units_follow_the_count() -> None:
    assert [ENGLISH.unit("cup", Fraction(n)) for n in ("1/2", "1", "9/8")] == ["cup", "cup", "cups"]
    assert ENGLISH.unit("tsp", Fraction(3)) == "tsp"
    assert ENGLISH.plural_tool("burner", 2) == "2 burners"


def test_a_language_without_a_file_is_printed_in_english() -> None:
    assert words_of("en-GB") is ENGLISH
    assert words_of("xx") is ENGLISH
