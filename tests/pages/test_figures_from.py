"""The line at a card's foot that says whose its figures are."""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType

from binder.model.food import NUTRIENTS
from binder.pages import recipe_card
from binder.pages.figures_from import footnote
from binder.reckon.recipe_facts import IngredientFacts, Nutrition, RecipeFacts

from .fixture import BAKE_FACTS
from .fixture_week import edition
from .reading import words


def of(*sources: str, estimate: bool = False, missing: tuple[str, ...] = ()) -> RecipeFacts:
    """The bake with as many of its lines as there are sources, each of a food of its own."""

    def line(n: int, source: str) -> IngredientFacts:
        one = BAKE_FACTS.ingredients[n]
        food = replace(one.ingredient.food, name=f"food {n}", figures_from=source)
        return replace(one, ingredient=replace(one.ingredient, food=food))

    nutrition = Nutrition(
        BAKE_FACTS.per_portion.nutrition.values,
        frozenset(NUTRIENTS[:1] if missing else ()),
        MappingProxyType({NUTRIENTS[0]: missing} if missing else {}),
    )
    portion = replace(
        BAKE_FACTS.per_portion, nutrition=nutrition, cooked_grams_from="estimate" if estimate else "stated"
    )
    return replace(BAKE_FACTS, ingredients=tuple(map(line, range(len(sources)), sources)), per_portion=portion)


def test_table_labels_and_estimate_are_named() -> None:
    one = edition()
    assert footnote(of("SR28 20005, Barley"), one) == "Figures: USDA SR28."
    assert footnote(of("label", "label; iron from SR28 1, Row"), one) == "Figures: USDA SR28, 2 labels."
    assert footnote(of("label", estimate=True), one) == "Figures: 1 label, ≈ estimate."


def test_what_lacks_a_figure_is_named() -> None:
    assert footnote(of("SR28 20005, Barley", missing=("radish",)), edition()) == "Figures: USDA SR28, none for radish."


def test_nothing_known_says_nothing() -> None:
    assert footnote(of(""), edition()) == ""


def test_labels_of_a_part_made_from_another_recipe_count() -> None:
    whole = of("SR28 20005, Barley")
    part = replace(whole.ingredients[0], made_from=of("label"))
    assert footnote(replace(whole, ingredients=(part,)), edition()) == "Figures: USDA SR28, 1 label."


def test_it_stands_on_the_line_of_the_recipe_s_source() -> None:
    card = recipe_card.Card(of("label"), BAKE_FACTS.recipe.portions, None, (), "card-bake")
    lines = words(recipe_card.card_page(card, edition())).split("\n")
    assert "Source: a neighbour's card · Figures: 1 label." in lines
