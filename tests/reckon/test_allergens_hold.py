"""Properties of allergens: no change of size, order or of a line and back loses one. On lines of the demo's recipes."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction
from pathlib import Path
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from binder import disk
from binder.examine import Asked, examine
from binder.memory import Memory
from binder.model.recipe import Ingredient, Recipe
from binder.model.week import Substitution
from binder.problem import Span
from binder.reckon.recipe_facts import RecipeFacts
from binder.reckon.recipes import reckon, substituted

DEMO = Path(__file__).resolve().parents[2] / "content"
SPAN = Span("weeks/x.md", 1, 1, 2)
EXAMINED = examine(disk.read_content(DEMO), Asked(date(2026, 6, 7)), Memory(None))
assert EXAMINED.library is not None
LIBRARY = EXAMINED.library
BASE = next(iter(LIBRARY.recipes.values()))
WRITTEN = tuple(line for recipe in LIBRARY.recipes.values() for line in recipe.ingredients)
# Some with a pack that may contain something, and some of which nobody knows.
LINES = (
    *WRITTEN,
    *(replace(line, food=replace(line.food, may_contain=("sesame",))) for line in WRITTEN[::9] if not line.recipe),
    *(replace(line, food=replace(line.food, contains=None)) for line in WRITTEN[4::9] if not line.recipe),
)
Known = tuple[frozenset[str], frozenset[str], frozenset[str]]

recipes = st.lists(st.sampled_from(LINES), min_size=4, max_size=24).map(lambda lines: made_of(tuple(lines)))


def made_of(lines: tuple[Ingredient, ...]) -> Recipe:
    return replace(BASE, key="a-trial", ingredients=lines)


def facts(recipe: Recipe) -> RecipeFacts:
    return reckon(recipe, EXAMINED.recipes, LIBRARY.household)[0]


def known(recipe: Recipe) -> Known:
    """Contains, may contain, not known; by what is in any line."""
    of = facts(recipe).allergens
    return frozenset(of.contains), frozenset(of.may_contain), frozenset(of.not_known)


def times(line: Ingredient, factor: Fraction) -> Ingredient:
    return replace(line, measures=tuple(replace(m, low=m.low * factor, high=m.high * factor) for m in line.measures))


def test_the_lines_have_something_to_lose() -> None:
    contains, _, not_known = known(made_of(LINES))
    assert len(contains) >= 6 and not_known
    assert known(made_of(tuple(line for line in LINES if line.food.may_contain)))[1]


@settings(max_examples=60)
@given(recipes, st.fractions(Fraction(1, 50), 50))
def test_another_size_has_the_same_allergens(recipe: Recipe, factor: Fraction) -> None:
    scaled = replace(
        recipe,
        portions=recipe.portions * factor,
        ingredients=tuple(times(line, factor) for line in recipe.ingredients),
    )
    assert known(scaled) == known(recipe)


@settings(max_examples=60)
@given(recipes, st.integers(0, 2**32))
def test_another_order_has_the_same_allergens(recipe: Recipe, seed: int) -> None:
    lines = list(recipe.ingredients)
    Random(seed).shuffle(lines)
    assert known(made_of(tuple(lines))) == known(recipe)


@settings(max_examples=60)
@given(recipes, st.sampled_from(LINES), st.data())
def test_a_line_replaced_and_put_back_has_the_same_allergens(
    recipe: Recipe, other: Ingredient, data: st.DataObject
) -> None:
    index = data.draw(st.integers(0, len(recipe.ingredients) - 1))
    old = recipe.ingredients[index]
    there = Substitution(SPAN, recipe.key, ("Maren",), other, other.text, (index,))
    changed = substituted(recipe, (there,))
    # What the others have is not lost, and what comes in is there.
    rest = made_of(tuple(line for n, line in enumerate(recipe.ingredients) if n != index) or (other,))
    assert known(rest)[0] | known(made_of((other,)))[0] == known(changed)[0]
    back = Substitution(SPAN, recipe.key, ("Maren",), old, old.text, (index,))
    assert known(substituted(changed, (back,))) == known(recipe)


@settings(max_examples=60)
@given(recipes, st.sampled_from(LINES))
def test_one_line_more_takes_no_allergen_away(recipe: Recipe, more: Ingredient) -> None:
    before, after = known(recipe), known(made_of((*recipe.ingredients, more)))
    assert before[0] <= after[0]
    # What may be there or is not known may turn out to be there, never to be gone.
    assert before[1] <= after[1] | after[0] and before[2] <= after[2]


@pytest.mark.parametrize("key", sorted(LIBRARY.recipes))
def test_a_part_hands_its_allergens_on(key: str) -> None:
    of = EXAMINED.recipes[key]
    for line in of.ingredients:
        if line.ingredient.recipe:
            assert set(EXAMINED.recipes[line.ingredient.recipe].contains) <= set(of.contains)
