"""The ingredients of a card: what is cooked, scaled to this week; what is added beside and at service, by portion."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from fractions import Fraction

from binder.model.recipe import Ingredient, When
from binder.pages.edition import Edition, unique
from binder.pages.format import listed, number
from binder.pages.measures import first_and_second, in_own_system, quantity, steps_of
from binder.pages.page import IngredientGroup, IngredientLine, Ingredients
from binder.reckon.facts import Serving
from binder.reckon.recipe_facts import IngredientFacts, RecipeFacts


def ingredients(facts: RecipeFacts, factor: Fraction, servings: Sequence[Serving], edition: Edition) -> Ingredients:
    """Cooked lines under their part names, at `factor`; then what is added to each portion (kits: section 10)."""
    w = edition.words
    cooked = [line for line in facts.ingredients if line.when == "cooked"]
    gives = bool(facts.recipe.gives)
    groups = [
        IngredientGroup(
            part or "",
            tuple(line_of(one, factor, edition, gives) for one in cooked if one.part == part),
        )
        for part in unique(line.part for line in cooked)
    ]
    each = 1 / facts.recipe.portions
    if facts.form == "kit":
        return Ingredients(tuple(groups))
    titles: tuple[tuple[When, str], ...] = (("beside", w.beside_each), ("at service", w.at_service_each))
    for when, title in titles:
        lines = _by_portion(facts, when, servings, each, edition)
        groups += [IngredientGroup(title, lines)] if lines else []
    return Ingredients(tuple(groups))


def _by_portion(
    facts: RecipeFacts, when: When, servings: Sequence[Serving], each: Fraction, edition: Edition
) -> tuple[IngredientLine, ...]:
    """Lines that not everybody has (a substitution) say who does."""
    variants = unique_by_text([s.facts or facts for s in servings] or [facts], when)
    lines = []
    for one in variants:
        who = unique(s.eater for s in servings if _has(s.facts or facts, one, when))
        everyone = all(_has(s.facts or facts, one, when) for s in servings)
        line = line_of(one, each, edition, bool(facts.recipe.gives))
        lines.append(
            line if everyone else replace(line, mark=edition.words.only_for.format(listed(who, edition.words)))
        )
    return tuple(lines)


def unique_by_text(of: Iterable[RecipeFacts], when: When) -> tuple[IngredientFacts, ...]:
    """The lines of several variants, each once, in the order of the first that has it."""
    found: dict[str, IngredientFacts] = {}
    for facts in of:
        for line in facts.ingredients:
            if line.when == when:
                found.setdefault(line.text, line)
    return tuple(found.values())


def _has(facts: RecipeFacts, wanted: IngredientFacts, when: When) -> bool:
    return any(line.text == wanted.text for line in facts.ingredients if line.when == when)


def line_of(facts: IngredientFacts, factor: Fraction, edition: Edition, gives: bool = False) -> IngredientLine:
    """One line at a factor: `1⅞ cups`, the other measure, the food, its preparation and notes.

    `gives`: the recipe has a by-product, which may hold what of the line is not eaten.
    """
    line = facts.ingredient
    measures = [m.times(factor) for m in line.measures]
    # As written: of a can that is drained what is in the dish, of what is written as purchased all of it.
    grams = facts.as_purchased_grams if line.as_purchased and not line.drained else facts.grams
    weight = grams.times(float(factor)) if grams else None
    first, second = first_and_second(measures, weight, edition.style, steps_of(line.food))
    if second and line.drained and line.pack:
        second = edition.words.drained_weight.format(second)
    href = f"#card-{line.recipe}" if line.recipe else None
    food = edition.title(line.recipe) if line.recipe else _food_name(facts, line, factor, edition)
    return IngredientLine(first, food, _detail(facts, line, edition, gives), second, href)


def _food_name(facts: IngredientFacts, line: Ingredient, factor: Fraction, edition: Edition) -> str:
    w = edition.words
    many = any(m.unit == "each" and m.high * factor > 1 for m in line.measures)
    food = w.plural_food(facts.food) if many else facts.food
    return w.in_units(food, line.measures[0].unit) if len(line.measures) == 1 else food


def _detail(facts: IngredientFacts, line: Ingredient, edition: Edition, gives: bool) -> str:
    w = edition.words
    said = [w.to_taste] if "to taste" in line.flags and not line.measures else []
    said += [line.preparation] if line.preparation else []
    if line.pack:
        pack_of = w.pack_of_drained if line.drained else w.pack_of
        said.append(pack_of.format(quantity(in_own_system(line.pack, edition.style), edition.style)))
    said += line.notes
    if line.alternative:
        said.append(w.or_instead.format(line.alternative))
    if line.as_purchased and not line.drained:
        said.append(w.as_purchased)
    if line.eaten != 1:
        share = w.eaten_and_given if gives else w.eaten_share
        said.append(share.format(f"{number(line.eaten * 100, 1)}\u00a0%"))
    return ", ".join(said)
