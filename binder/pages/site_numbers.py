"""Where a recipe's numbers come from: every ingredient, its grams and how they were got, its share of the sums.

Figures stand here with more decimals than the page prints, so that a person with a calculator arrives at the same.
"""

from __future__ import annotations

from binder.model.food import NUTRIENTS, Food
from binder.model.quantity import Interval
from binder.pages.edition import run, unique
from binder.pages.figures import figure_of, unit_of
from binder.pages.format import EN_DASH, NBSP, fraction, number
from binder.pages.page import Block, Bullets, Column, Fold, Heading, Para, Row, Table, Text, plain
from binder.pages.portion_weight import how_known
from binder.pages.site_shelf import Shelf, address, recipe_path
from binder.pages.words.en import Words
from binder.reckon.recipe_facts import IngredientFacts, Nutrition, RecipeFacts

SHOWN = ("energy_kcal", "protein_g", "fat_g", "carbohydrate_g")
GRAM_DECIMALS = 1
FIGURE_DECIMALS = 2
ROUNDED_ALIKE = 1e-6
FINEST = 0.1  # a smaller spread takes more decimals, so that it never reads as none


def where_from(facts: RecipeFacts, shelf: Shelf) -> Fold:
    """Folded: the sums line by line, then the figures per 100 g that went into them."""
    w = shelf.words
    blocks: list[Block] = [Para(plain(w.where_from_how), "note"), _sums(facts, shelf), *_per_100_g(facts, shelf)]
    blocks += [Para(plain(said), "note")] if (said := how_known(facts, w)) else []
    return Fold(w.where_from, tuple(blocks))


def exact(value: Interval | None, decimals: int, words: Words, at_least: bool = False) -> str:
    """`212.35`, `3.1–6.2`, `at least 80`, `not known`: not rounded for print."""
    if value is None:
        return words.not_known
    low, high = number(value.low, decimals), number(value.high, decimals)
    if at_least:
        return words.at_least.format(low)
    return low if low == high else f"{low}{EN_DASH}{high}"


def head(nutrient: str, words: Words) -> str:
    """`Energy, kcal`."""
    return f"{words.nutrients[nutrient]}, {unit_of(nutrient)}"


def _sums(facts: RecipeFacts, shelf: Shelf) -> Table:
    w = shelf.words
    columns = (
        Column(w.ingredient),
        Column(w.grams_head, "right"),
        Column(w.grams_got_from),
        Column(w.figures_from),
        *(Column(head(n, w), "right") for n in SHOWN),
    )
    rows = [_row(line, shelf) for line in facts.ingredients]
    rows.append(_total(w.sum_of_recipe, facts.total, w))
    each = w.divided_by.format(fraction(facts.recipe.portions))
    rows.append(_total(each, facts.per_portion.nutrition, w))
    printed = (run(figure_of(facts.per_portion.nutrition, n, w), "strong") for n in SHOWN)
    rows.append(Row((run(w.as_printed, "strong"), (), (), (), *printed), "total"))
    return Table(columns, tuple(rows), w.where_from, "sums", row_heads=True)


def _row(line: IngredientFacts, shelf: Shelf) -> Row:
    w = shelf.words
    return Row((
        plain(line.text), plain(_grams(line, w)), run(line.measure_basis or w.not_known, "small"),
        _figures_from(line, shelf), *_figures(line.nutrition, w),
    ))  # fmt: skip


def _grams(line: IngredientFacts, words: Words) -> str:
    said = exact(line.grams, GRAM_DECIMALS, words)
    return said if line.eaten == 1 else words.times_eaten.format(grams=said, share=_per_cent(line.eaten))


def _per_cent(share: float) -> str:
    return f"{number(share * 100, 1)}{NBSP}%"


def _figures_from(line: IngredientFacts, shelf: Shelf) -> Text:
    """The row, the pack, or the recipe that the figures are of."""
    w, food = shelf.words, line.ingredient.food
    key = line.ingredient.recipe
    if key is not None:
        href = address(recipe_path(key)) if key in shelf.recipes else None
        return run(w.figures_of_recipe.format(shelf.edition.title(key)), "small", href)
    return run(food.figures_from or line.basis.id or w.not_known, "small", shelf.food_href(food))


def _figures(nutrition: Nutrition, words: Words) -> tuple[Text, ...]:
    return tuple(
        run(exact(nutrition.value(n), FIGURE_DECIMALS, words, n in nutrition.at_least), "quantity") for n in SHOWN
    )


def _total(name: str, nutrition: Nutrition, words: Words) -> Row:
    return Row((run(name, "strong"), (), (), (), *_figures(nutrition, words)), "total")


def _per_100_g(facts: RecipeFacts, shelf: Shelf) -> list[Block]:
    """What each food has in 100 g; a part has its own table on its own page."""
    w = shelf.words
    foods = {line.food: line.ingredient.food for line in facts.ingredients if line.ingredient.recipe is None}
    if not foods:
        return []
    columns = (Column(w.food), *(Column(head(n, w), "right") for n in SHOWN), Column(w.figures_from))
    rows = tuple(
        Row((
            shelf.food(food),
            *(plain(figure_of_100_g(food, n, w)) for n in SHOWN),
            run(food.figures_from or w.not_known, "small"),
        ))
        for food in foods.values()
    )  # fmt: skip
    parts = unique(line.ingredient.recipe for line in facts.ingredients if line.ingredient.recipe)
    blocks: list[Block] = [Heading(3, w.per_100_g), Table(columns, rows, w.per_100_g, "per-100-g", row_heads=True)]
    blocks += [Para(plain(w.label_rounds), "note")] if any(any(food.before_rounding) for food in foods.values()) else []
    return [*blocks, Bullets(tuple(shelf.dish(key) for key in parts))] if parts else blocks


def figure_of_100_g(food: Food, nutrient: str, words: Words) -> str:
    """A figure of a food as its source has it; of a label with what its rounding hides: `400 ± 17`, `0 (up to 1.7)`."""
    at = NUTRIENTS.index(nutrient)
    value, before = food.per_100_g[at], food.before_rounding[at]
    if value is None:
        return words.not_known
    said = number(value, 3)
    if before is None:
        return said
    below, above = value - before.low, before.high - value
    if below == 0:
        return words.rounded_from_up_to.format(said, number(before.high, 1))
    if abs(below - above) < ROUNDED_ALIKE * above:
        return f"{said}{NBSP}±{NBSP}{number(above, 1 if above >= FINEST else 3)}"
    return words.rounded_from.format(said, f"{number(before.low, 1)}{EN_DASH}{number(before.high, 1)}")
