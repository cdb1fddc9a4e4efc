"""Where the figures of a card come from, in a line: the table and its edition, labels, what lacks figures."""

from __future__ import annotations

from collections.abc import Iterator

from binder.pages.edition import Edition, unique
from binder.pages.figures import IN_SHORT, missing_foods
from binder.pages.format import listed
from binder.reckon.recipe_facts import IngredientFacts, RecipeFacts

LABEL, TABLE = "label", "SR28"


def footnote(facts: RecipeFacts, edition: Edition) -> str:
    """`Figures: USDA SR28, 3 labels, none for radish, weight estimated.`

    What lacks a figure that the card prints is named; which labels they are, and what lacks any figure, says the
    recipe's page in the site.
    """
    w = edition.words
    foods = [line.ingredient.food for line in _lines(facts) if line.ingredient.measures and not line.ingredient.recipe]
    labels = unique(food.name for food in foods if food.figures_from.startswith(LABEL))
    said = [w.from_table] if any(TABLE in food.figures_from for food in foods) else []
    said += [w.from_one_label if len(labels) == 1 else w.from_labels.format(len(labels))] if labels else []
    missing = missing_foods([facts.per_portion.nutrition], IN_SHORT)
    said += [w.figures_incomplete.format(listed(missing, w))] if missing else []
    if facts.per_portion.cooked_grams_from == "estimate":
        said.append(w.weight_from_past if facts.key in edition.facts.past.each_grams else w.weight_is_estimate)
    return w.figures_come_from.format(", ".join(said)) if said else ""


def _lines(facts: RecipeFacts) -> Iterator[IngredientFacts]:
    """The lines of a dish and of all that its parts are made from."""
    for line in facts.ingredients:
        yield line
        if line.made_from is not None:
            yield from _lines(line.made_from)
