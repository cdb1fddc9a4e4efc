"""Recipes from elsewhere: marked up as https://schema.org/Recipe has it, in the shapes of its examples, or plain."""

from __future__ import annotations

import json
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.source.found_recipe import FoundLine, one_line, portions_in
from binder.source.recipe_page import recipes_in_html, recipes_in_json
from binder.source.recipe_text import recipe_in_text

BEANS = {
    "@context": "https://schema.org",
    "@type": "Recipe",
    "name": "Bean &amp; barley pot",
    "recipeYield": ["6", "6 bowls"],
    "recipeCategory": "Main course, Soup",
    "recipeIngredient": ["1 cup pearled barley", "2 (15 oz) cans white beans,&nbsp;drained"],
    "recipeInstructions": [{"@type": "HowToStep", "text": "Simmer."}, {"@type": "HowToStep", "text": "Season."}],
    "author": {"@type": "Person", "name": "N. N."},
}


def one(**changes: Any):
    (found,) = recipes_in_json(json.dumps({**BEANS, **changes}))
    return found


def test_a_recipe_is_read_from_its_markup() -> None:
    found = one()
    assert (found.title, found.portions, found.makes) == ("Bean & barley pot", 6, "6 bowls")
    assert [line.text for line in found.ingredients] == [
        "1 cup pearled barley",
        "2 (15 oz) cans white beans, drained",
    ]
    assert [line.text for line in found.steps] == ["Simmer.", "Season."]
    assert (found.kinds, found.source) == (("Main course", "Soup"), "N. N.")


@pytest.mark.parametrize(
    ("said", "steps"),
    [
        ("Simmer.\nSeason.", ["Simmer.", "Season."]),
        ("<ol><li>Simmer.</li><li>Season &lt; well.</li></ol>", ["Simmer.", "Season < well."]),
        (["Simmer.", "Season."], ["Simmer.", "Season."]),
        ({"@type": "ItemList", "itemListElement": [{"@type": "HowToStep", "text": "Simmer."}]}, ["Simmer."]),
        (None, []),
    ],
)
def test_steps_come_in_several_shapes(said: Any, steps: list[str]) -> None:
    assert [line.text for line in one(recipeInstructions=said).steps] == steps


def test_sections_name_their_steps() -> None:
    section = {"@type": "HowToSection", "name": "Sauce", "itemListElement": [{"@type": "HowToStep", "text": "Whisk."}]}
    assert one(recipeInstructions=[section]).steps == (FoundLine("Whisk.", "Sauce"),)


@pytest.mark.parametrize("wrap", [lambda r: [r], lambda r: {"@graph": [{"@type": "WebPage"}, r]}, lambda r: r])
def test_a_recipe_is_found_alone_in_a_list_and_in_a_graph(wrap: Any) -> None:
    script = f'<script type="application/ld+json">{json.dumps(wrap(BEANS))}</script>'
    page = f"<!doctype html><html><head>{script}</head><body><p>Recipe</p></body></html>"
    assert [found.title for found in recipes_in_html(page)] == ["Bean & barley pot"]


def test_other_types_and_broken_scripts_are_passed_over() -> None:
    page = '<html><script type="application/ld+json">{"@type": "Person", </script><script>{"@type":"Recipe"}</script>'
    assert recipes_in_html(page) == ()
    assert recipes_in_json("[" * 100_000) == ()
    assert recipes_in_json('{"@type": ["Thing", "https://schema.org/Recipe"], "name": "A"}')[0].title == "A"


TEXT = """
Grandmother's bean pot
Serves 6

Ingredients:
- 2 tbsp olive oil
* 2 (15 oz) cans white beans, drained
For the topping:
- 1/2 cup breadcrumbs

Method
1. Soften the onion in the oil,
   about 8 minutes.
2) Top and bake.

Notes
Better the next day.
Source: an index card
"""


def test_plain_text_is_parted_by_its_headings() -> None:
    found = recipe_in_text(TEXT)
    assert (found.title, found.portions) == ("Grandmother's bean pot", 6)
    assert found.ingredients == (
        FoundLine("2 tbsp olive oil"),
        FoundLine("2 (15 oz) cans white beans, drained"),
        FoundLine("1/2 cup breadcrumbs", "For the topping"),
    )
    assert [step.text for step in found.steps] == [
        "Soften the onion in the oil, about 8 minutes.",
        "Top and bake.",
    ]


PUDDING = """
Rice pudding

Ingredients:
200 g short-grain rice
a knob of butter
For the topping
50 g flaked almonds (optional)
For the lemon syrup
1 lemon
oil for the pan

Method
1. Bring the milk to the boil.
2. Add the rice
   and simmer.
Tip: keeps 3 days in the fridge.
Eat it cold, too.
"""


def test_a_part_without_its_colon_and_a_tip_below_the_steps() -> None:
    found = recipe_in_text(PUDDING)
    assert found.ingredients == (
        FoundLine("200 g short-grain rice"),
        FoundLine("a knob of butter"),
        FoundLine("50 g flaked almonds (optional)", "For the topping"),
        FoundLine("1 lemon", "For the lemon syrup"),
        FoundLine("oil for the pan", "For the lemon syrup"),
    )
    assert [step.text for step in found.steps] == ["Bring the milk to the boil.", "Add the rice and simmer."]
    assert found.notes == "Tip: keeps 3 days in the fridge.\n\nEat it cold, too."


@pytest.mark.parametrize(
    "note", ["Tip: warm the plates.", "Note: it thickens.", "NOTES: it thickens.", "Cook's tip: stir."]
)
def test_steps_with_numbers_go_on_below_a_tip(note: str) -> None:
    found = recipe_in_text(f"Soup\nIngredients\n1 leek\nMethod\n1. Boil.\n{note}\n2. Serve it\n   hot.")
    assert [step.text for step in found.steps] == ["Boil.", "Serve it hot."] and found.notes == note


def test_a_sentence_that_begins_so_is_a_step() -> None:
    found = recipe_in_text("Slaw\n2 cups cabbage\nFor the sauce whisk all\nToss.\nFor the finish, leaves on top.")
    assert [step.text for step in found.steps] == [
        "For the sauce whisk all", "Toss.", "For the finish, leaves on top.",
    ]  # fmt: skip


def test_without_headings_amounts_tell_ingredients_from_steps() -> None:
    found = recipe_in_text(
        "Slaw\n2 cups cabbage, shredded\n½ carrot\nsalt to taste\nToss it all.\n10 minutes later, eat."
    )
    assert [line.text for line in found.ingredients] == ["2 cups cabbage, shredded", "½ carrot", "salt to taste"]
    assert [line.text for line in found.steps] == ["Toss it all.", "10 minutes later, eat."]


@pytest.mark.parametrize(
    ("said", "count"),
    [("Serves 4-6", 4), ("about 1 1/2 dozen", Fraction(3, 2) * 12), ("½ tray", Fraction(1, 2)), ("a crowd", None)],
)
def test_portions_are_the_first_number(said: str, count: Fraction | None) -> None:
    assert portions_in(said) == count


def test_markup_does_not_reach_the_line() -> None:
    assert one_line("<b>1&amp;nbsp;cup</b>\n  peas &amp;lt;3") == "1 cup peas <3"


@given(st.text())
def test_no_text_crashes_the_readers(text: str) -> None:
    recipe_in_text(text)
    recipes_in_html(text)
    recipes_in_json(text)


@given(st.recursive(st.none() | st.booleans() | st.floats() | st.text(), lambda x: st.lists(x) | st.dictionaries(
    st.sampled_from(["name", "text", "itemListElement", "@graph", "url"]), x), max_leaves=12))  # fmt: skip
def test_no_markup_crashes_the_reader(value: Any) -> None:
    for name in ("recipeIngredient", "recipeInstructions", "recipeYield", "recipeCategory", "author", "name", "url"):
        recipes_in_json(json.dumps({**BEANS, name: value}))
