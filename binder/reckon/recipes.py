"""What is in a portion of a recipe, worked out once at its written size; variants for substitutions the same way."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import partial

from binder.model.food import Basis, Keeping
from binder.model.household import Household
from binder.model.quantity import Interval
from binder.model.recipe import Ingredient, Recipe
from binder.model.week import Substitution
from binder.problem import Problem, warning
from binder.reckon import allergens, conversion, cooked_weight, nutrition, tallies
from binder.reckon.recipe_facts import (
    NOTHING,
    Allergens,
    IngredientFacts,
    KeepsFacts,
    Nutrition,
    PartKeeps,
    PerPortion,
    RecipeFacts,
    ReheatFacts,
)

Reckoned = tuple[RecipeFacts, tuple[Problem, ...]]
# What is remembered of a recipe under its key, or as it is reckoned now.
Recall = Callable[[str, Callable[[], Reckoned]], Reckoned]


def anew(key: str, make: Callable[[], Reckoned]) -> Reckoned:
    """Without a build before."""
    return make()


@dataclass(frozen=True, slots=True)
class _Line:
    facts: IngredientFacts
    allergens: Allergens


def all_facts(
    recipes: Mapping[str, Recipe], household: Household, recall: Recall = anew
) -> tuple[Mapping[str, RecipeFacts], tuple[Problem, ...]]:
    """Every recipe's figures, parts before the recipes that use them, and the lines without a weight.

    `recall` has them from the build before, by a recipe's key; its parts are among what they were made from.
    """
    done: dict[str, RecipeFacts] = {}
    problems: list[Problem] = []
    for key in recipes:
        _reckon_with_parts(key, recipes, household, done, problems, (), recall)
    return {key: done[key] for key in recipes}, tuple(problems)


def _reckon_with_parts(
    key: str,
    recipes: Mapping[str, Recipe],
    household: Household,
    done: dict[str, RecipeFacts],
    problems: list[Problem],
    above: tuple[str, ...],
    recall: Recall,
) -> None:
    if key in done:
        return
    recipe = recipes[key]
    for line in recipe.ingredients:
        # A ring of recipes is refused before; a draft still gets figures, the ring's own part unknown.
        if line.recipe and line.recipe in recipes and line.recipe not in (*above, key):
            _reckon_with_parts(line.recipe, recipes, household, done, problems, (*above, key), recall)
    facts, found = recall(key, partial(reckon, recipe, done, household))
    done[key] = facts
    problems.extend(found)


def substituted(recipe: Recipe, substitutions: tuple[Substitution, ...], when: frozenset[str] | None = None) -> Recipe:
    """The recipe with each replaced line gone and the substitute in its place; `when` limits it to such lines."""
    use: dict[int, list[Ingredient]] = {}
    for substitution in substitutions:
        for n, index in enumerate(substitution.replaces):
            old = recipe.ingredients[index]
            if when is None or old.when in when:
                # Several lines replaced: the substitute stands once, in place of the first.
                new = [replace(substitution.use, when=old.when, part=old.part)] if n == 0 else []
                use.setdefault(index, []).extend(new)
    lines: list[Ingredient] = []
    for index, line in enumerate(recipe.ingredients):
        lines.extend(use.get(index, [line]))
    return replace(recipe, ingredients=tuple(lines))


def reckon(
    recipe: Recipe, parts: Mapping[str, RecipeFacts], household: Household
) -> tuple[RecipeFacts, tuple[Problem, ...]]:
    """One recipe's figures; `parts` holds the recipes it uses."""
    problems: list[Problem] = []
    lines = [_line(line, parts, household, problems) for line in recipe.ingredients]
    ingredients = tuple(line.facts for line in lines)
    found = allergens.union(line.allergens for line in lines)
    total = nutrition.total(line.facts.nutrition for line in lines) if lines else NOTHING
    facts = RecipeFacts(
        key=recipe.key,
        title=recipe.title,
        form=recipe.form,
        meals=recipe.meals,
        portions=float(recipe.portions),
        portion=recipe.portion,
        ingredients=ingredients,
        per_portion=_per_portion(recipe, ingredients, total, household.cup),
        contains=found.contains,
        may_contain=found.may_contain,
        not_known=found.not_known,
        keeps=keeps(recipe.keeping, household.caution),
        reheat=tuple(ReheatFacts(r.means, r.watts, r.seconds, r.text) for r in recipe.reheat),
        recipe=recipe,
        allergens=found,
        total=total,
    )
    return facts, tuple(problems)


def _line(line: Ingredient, parts: Mapping[str, RecipeFacts], household: Household, problems: list[Problem]) -> _Line:
    if line.recipe is not None:
        return _part_line(line, parts.get(line.recipe), household, problems)
    food = line.food
    amount = conversion.total_amount(line.measures, line.pack, household.cup)
    weighed = conversion.weigh_all(food, line.measures, line.pack, line.form_words, household.cup)
    if weighed is None and line.measures and food.basis.kind != "unknown":
        problems.append(_no_weight(line))
    as_written = weighed.grams if weighed else None
    edible, purchased = _edible_and_purchased(line, as_written)
    facts = IngredientFacts(
        text=line.text,
        part=line.part,
        food=food.name,
        amount=amount,
        grams=edible,
        as_purchased_grams=purchased,
        eaten=float(line.eaten),
        basis=food.basis,
        measure_basis=weighed.basis if weighed else None,
        when=line.when,
        ingredient=line,
        nutrition=nutrition.of_food(food, edible, float(line.eaten)),
    )
    return _Line(facts, allergens.of_food(food))


def _edible_and_purchased(line: Ingredient, grams: Interval | None) -> tuple[Interval | None, Interval | None]:
    """Edible portion and as purchased; a weight `as purchased` is the bought one, a piece's is of its edible part."""
    if grams is None:
        return None, None
    share = float(line.food.edible_share)
    if line.as_purchased and (line.pack or all(conversion.unit_of(m.unit) != "each" for m in line.measures)):
        return grams.times(share), grams
    return grams, grams.times(1 / share)


def _no_weight(line: Ingredient) -> Problem:
    written = line.measures[0]
    unit = f"{written.size} {written.unit}".strip()
    return warning(
        line.span,
        "no-weight",
        f"no weight is known for 1 {unit} of {line.food.name}: figures stay incomplete",
        "write the line in grams",
        f"give the household's own scale in foods.yaml: weights: {{1 {unit}: ... g}}",
    )


def part_share(line: Ingredient, part: RecipeFacts, household: Household) -> Interval | None:
    """How much of what a recipe makes a line takes: by its unit, by portions or by weight; None: not known."""
    recipe = part.recipe
    portions = [m for m in line.measures if m.unit == "portion"]
    if line.measures and len(portions) == len(line.measures):
        low, high = sum(m.low for m in portions), sum(m.high for m in portions)
        return Interval(float(low / recipe.portions), float(high / recipe.portions))
    amount = conversion.total_amount(line.measures, line.pack, household.cup)
    if amount is None:
        return None
    whole = recipe.makes
    if whole is None or whole.unit != amount.unit:
        one = recipe.portion
        whole = one.times(recipe.portions) if one and one.unit == amount.unit else None
    if whole is not None:
        return Interval(float(amount.low / whole.high), float(amount.high / whole.low))
    weight = part.per_portion.grams
    if amount.unit == "g" and weight:
        made = weight * part.portions
        return Interval(float(amount.low) / made, float(amount.high) / made)
    return None


def _part_line(line: Ingredient, part: RecipeFacts | None, household: Household, problems: list[Problem]) -> _Line:
    share = part_share(line, part, household) if part else None
    if part and share is None:
        problems.append(
            warning(
                line.span,
                "no-weight",
                f"how much of {part.title} this is cannot be told: it makes {part.recipe.makes_text}",
                f"measure it in portions or in what it makes ({part.recipe.makes_text})",
            )
        )
    title = part.title if part else str(line.recipe)
    eaten = float(line.eaten)
    known = nutrition.nothing_known(title)
    grams = None
    if part and share:
        known = nutrition.times(part.total, share.low * eaten, share.high * eaten)
        if part.per_portion.grams is not None:
            grams = Interval(share.low, share.high).times(part.per_portion.grams * part.portions)
    facts = IngredientFacts(
        text=line.text,
        part=line.part,
        food=title,
        amount=None
        if any(m.unit == "portion" for m in line.measures)
        else conversion.total_amount(line.measures, line.pack, household.cup),
        grams=grams,
        as_purchased_grams=None,
        eaten=eaten,
        basis=Basis("recipe", line.recipe),
        measure_basis=f"share of what {title} makes" if share else None,
        when=line.when,
        ingredient=line,
        nutrition=known,
        made_from=part,
        share=share,
    )
    inherited = part.allergens if part else Allergens(not_known=(title,))
    return _Line(facts, inherited)


def _per_portion(
    recipe: Recipe, lines: tuple[IngredientFacts, ...], total: Nutrition, cup: conversion.CupSystem
) -> PerPortion:
    grams, said = _portion_grams(recipe, lines)
    known = PerPortion(
        nutrition=nutrition.times(total, float(1 / recipe.portions)),
        grams=grams,
        tallies=tallies.of_portions(recipe.tallies, lines, recipe.portions, Fraction(1)),
        grams_from=said,
    )
    found = cooked_weight.estimated(recipe, lines, cup)
    each = found.grams / float(recipe.portions) if found else None
    known = replace(known, by_what_goes_in=each, cooked_not_counted=found.uncounted if found else ())
    if said in ("stated", "weighed"):
        return replace(known, cooked_grams=grams, cooked_grams_from="stated" if said == "stated" else "weighed")
    if found is None:
        return known
    return replace(
        known,
        cooked_grams=each,
        cooked_grams_from="estimate",
        cooked_yields=found.yields,
    )


def _portion_grams(recipe: Recipe, lines: tuple[IngredientFacts, ...]) -> tuple[float | None, str]:
    """Grams of one portion as it is packed: stated, weighed, or the sum of what goes in before cooking."""
    if recipe.portion and recipe.portion.unit == "g":
        return float((recipe.portion.low + recipe.portion.high) / 2), "stated"
    if recipe.weighs_g is not None:
        return float(recipe.weighs_g / recipe.portions), "weighed"
    if recipe.makes and recipe.makes.unit == "g":
        return float((recipe.makes.low + recipe.makes.high) / 2 / recipe.portions), "stated"
    inside = [line for line in lines if line.when == "cooked" and line.ingredient.measures]
    if not inside or any(line.grams is None for line in inside):
        return None, ""
    grams = sum(line.grams.middle * line.eaten for line in inside if line.grams)
    return grams / float(recipe.portions), "sum of ingredients before cooking"


def keeps(keeping: Keeping, caution: str) -> KeepsFacts:
    """The days for a caution: the upper end of a range when usual, the lower when strict."""
    end = 0 if caution == "strict" else 1
    fridge = keeping.fridge_days or keeping.cupboard_days
    return KeepsFacts(
        fridge_days=fridge[end] if fridge else None,
        freezer_days=keeping.freezer_days[end] if keeping.freezer_days else None,
        freezes=keeping.freezes is not False,
        source=keeping.source,
        assumed=keeping.assumed,
        decided_by=keeping.decided_by[end] or None,
        parts=tuple(
            PartKeeps(one.part, one.keeping.fridge_days[end] if one.keeping.fridge_days else None, one.apart)
            for one in keeping.parts
        ),
    )


def portion_ml(recipe: Recipe) -> Fraction | None:
    """Volume of one portion in mL, when it is stated as a volume; None: not known."""
    if recipe.portion and recipe.portion.unit == "mL":
        return recipe.portion.high
    if recipe.makes and recipe.makes.unit == "mL":
        return recipe.makes.high / recipe.portions
    return None
