"""A recipe for other readers: schema.org/Recipe as JSON-LD, made from a written list of what is let through.

Durations are ISO 8601, and stand there only when every step states its minutes; figures only when none of them is a
lower bound or a range. Nobody's name, and no claim for a diet.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from fractions import Fraction
from math import ceil
from types import MappingProxyType
from typing import Any

from binder.pages.card_ingredients import line_of
from binder.pages.edition import Edition, portions
from binder.pages.figures import unit_of
from binder.pages.format import number
from binder.pages.page import IngredientLine
from binder.pages.site_minutes import recipe_minutes
from binder.reckon.recipe_facts import Nutrition, RecipeFacts

# https://schema.org/NutritionInformation, for one portion.
PROPERTIES: Mapping[str, str] = MappingProxyType(
    {
        "energy_kcal": "calories", "protein_g": "proteinContent", "fat_g": "fatContent",
        "saturated_fat_g": "saturatedFatContent", "carbohydrate_g": "carbohydrateContent", "fibre_g": "fiberContent",
        "sugars_g": "sugarContent", "sodium_mg": "sodiumContent",
    }
)  # fmt: skip


def recipe_json(facts: RecipeFacts, edition: Edition) -> str:
    """One line of JSON without the character `<`, so that no text can end the element it stands in."""
    w, recipe = edition.words, facts.recipe
    found: dict[str, Any] = {
        "@context": "https://schema.org",
        "@type": "Recipe",
        "name": facts.title,
        "recipeYield": _spaced(portions(recipe.portions, w)),
        "recipeCategory": [w.meals.get(meal, meal) for meal in facts.meals],
        "recipeIngredient": [ingredient_text(line_of(x, Fraction(1), edition, gives=True)) for x in facts.ingredients],
        "recipeInstructions": [{"@type": "HowToStep", "text": step.text} for step in (*recipe.prep, *recipe.service)],
    }
    found |= _times(facts)
    if is_complete(facts.per_portion.nutrition):
        found["nutrition"] = _nutrition(facts.per_portion.nutrition)
    return json.dumps(found, ensure_ascii=False, allow_nan=False).replace("<", "\\u003c")


def ingredient_text(line: IngredientLine) -> str:
    """`1½ cups pearled barley, dry`."""
    said = " ".join(part for part in (line.quantity, line.food) if part)
    return _spaced(f"{said}, {line.detail}" if line.detail else said)


def is_complete(nutrition: Nutrition) -> bool:
    """Whether every figure that is passed on is known, whole and one number."""
    values = [nutrition.value(n) for n in PROPERTIES]
    return all(v is not None and v.is_point for v in values) and not nutrition.at_least & set(PROPERTIES)


def _nutrition(nutrition: Nutrition) -> dict[str, str]:
    said = {"@type": "NutritionInformation"}
    for nutrient, name in PROPERTIES.items():
        value = nutrition.value(nutrient)
        if value is not None:
            said[name] = f"{number(value.low, 1)} {unit_of(nutrient)}".replace(",", "")
    return said


def _times(facts: RecipeFacts) -> dict[str, str]:
    found = recipe_minutes(facts.recipe)
    if not found.complete or any(line.ingredient.recipe for line in facts.ingredients):
        return {}
    times = {"totalTime": found.total, "prepTime": found.hands}
    return {name: duration(minutes) for name, minutes in times.items() if minutes}


def duration(minutes: Fraction) -> str:
    """ISO 8601, whole minutes, a part of one counting as one: `PT1H15M`."""
    hours, rest = divmod(ceil(minutes), 60)
    return "PT" + (f"{hours}H" if hours else "") + (f"{rest}M" if rest or not hours else "")


def _spaced(text: str) -> str:
    """With ordinary spaces."""
    return text.replace("\u00a0", " ")
