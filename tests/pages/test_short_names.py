"""Short names of dishes: written ones, heads of titles, and never two alike."""

from __future__ import annotations

from dataclasses import replace

import pytest

from binder.pages import week
from binder.pages.edition import shorts_of
from binder.pages.short_names import LONGEST, head, short_names

from .fixture import BAKE, BAKE_FACTS, RECIPES, library
from .fixture_week import edition, week_facts
from .reading import words


@pytest.mark.parametrize(
    ("title", "short"),
    [
        ("Lentil stew with lemon", "Lentil stew"),
        ("Cod on white beans with fennel", "Cod"),
        ("Turkey meatballs in tomato", "Turkey meatballs"),
        ("Chickpea, potato and spinach curry", "Chickpea"),
        ("Squash and barley bake", "Squash and barley bake"),
        ("A very long name of a roast dinner with peas", "A very long name of a roast dinner with peas"),
    ],
)
def test_the_head_of_a_title_is_its_short_name(title: str, short: str) -> None:
    assert head(title) == short
    assert len(short) <= LONGEST or short == title


def test_a_written_short_name_comes_first() -> None:
    assert short_names({"a": ("Lentil stew with lemon", "Stew")}) == {"a": "Stew"}


def test_two_dishes_with_one_short_name_keep_their_titles() -> None:
    dishes = {"a": ("Stew with lemon", ""), "b": ("Lentil stew", "stew"), "c": ("Rice with peas", "")}
    assert short_names(dishes) == {"a": "Stew with lemon", "b": "Lentil stew", "c": "Rice"}


def test_lists_use_the_short_name_and_cards_the_title() -> None:
    short = replace(BAKE, short="Bake")
    recipes = {**RECIPES, BAKE.key: replace(BAKE_FACTS, recipe=short)}
    made = library()
    named = replace(made, recipes={**made.recipes, BAKE.key: short})
    shorts = shorts_of(week_facts(), named, recipes)
    assert shorts[BAKE.key] == "Bake"
    text = words(week.pages(replace(edition(), shorts=shorts)))
    assert "Bake" in text.split("\n") and "Squash and barley bake" not in text
