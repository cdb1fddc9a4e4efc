"""From a line as read to an ingredient with its food."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from binder.check.amounts import measure_of
from binder.check.line_kinds import Item
from binder.check.near import did_you_mean, nearest
from binder.check.pantry import Named, Pantry, food_of, named_outright, same_row, unknown_food
from binder.model.food import Basis, Food
from binder.model.quantity import Measure
from binder.model.recipe import Ingredient, When
from binder.problem import Problem, Span, error
from binder.source.line import Line
from binder.source.place import part_of
from binder.tables import everyday, measures


@dataclass(frozen=True, slots=True)
class Known:
    """What a line may name: foods, and recipes by key with their titles."""

    pantry: Pantry
    titles: Mapping[str, str]


def food_span(line: Line) -> Span:
    """Where the food stands in its line, without the preparation before it."""
    bare = line.bare_food
    start = line.text.find(bare, line.food_start) if bare else -1
    if start < 0:
        return part_of(line.span, line.text, line.food_start, line.food_end)
    return part_of(line.span, line.text, start, start + len(bare))


def unknown_recipe(name: str, span: Span, titles: Mapping[str, str], by_title: bool = False) -> Problem:
    """The error that stands at a recipe's name."""
    near = nearest(name, (*titles, *(titles.values() if by_title else ())))
    remedies = (*did_you_mean(near), "a recipe is called by its file's name: recipes/NAME.md")
    return error(span, "unknown-recipe", f'no recipe "{name}"', *remedies)


def _more(line: Line) -> tuple[str, ...]:
    """The words of `plus more for the pan`, or of what was added to the amount for it."""
    if not line.plus_more:
        return ()
    return (f"{'part of it' if len(line.amounts) > 1 else 'and more'} {line.plus_more}",)


def ingredient(item: Item, when: When, part: str | None, known: Known) -> tuple[Ingredient | None, tuple[Problem, ...]]:
    """One ingredient; None when its line names no food at all. A food that is not known stays, without figures."""
    line = item.line
    if not line.food and item.food is None:
        return None, (error(line.span, "wrong-type", f'no food in "{line.text}"', "write amount, unit, food"),)
    named, recipe, problems = _recipe_part(line, known) if line.recipe else _food(item, known.pantry)
    food, drained = of_the_can(line, named.food)
    made = Ingredient(
        text=line.text,
        span=line.span,
        when=when,
        part=part,
        food=food,
        recipe=recipe,
        measures=_measures(line),
        pack=measure_of(line.pack) if line.pack else None,
        preparation=line.preparation,
        form_words=named.form_words,
        notes=(*line.notes, *_more(line)),
        alternative=line.alternative,
        flags=line.flags,
        eaten=item.eaten,
        as_purchased=drained or "as purchased" in line.flags,
    )
    return made, problems


def of_the_can(line: Line, food: Food) -> tuple[Food, bool]:
    """The food of a can whose size is stated, and whether that size is what is bought and only a part is eaten.

    `1 (15 oz) can beans, drained` is 15 oz bought and the beans in it eaten; undrained, all of it is eaten.
    """
    cans = line.pack is not None and all(one.unit in ("can", "jar") for one in line.amounts)
    if not cans or not food.everyday or everyday.food(food.everyday).sold != "can":
        return food, False
    return (food, True) if "drained" in line.flags else (replace(food, edible_share=Fraction(1)), False)


def _recipe_part(line: Line, known: Known) -> tuple[Named, str | None, tuple[Problem, ...]]:
    if line.food in known.titles:
        return Named(Food(known.titles[line.food], Basis("recipe", line.food))), line.food, ()
    return Named(Food(line.food)), None, (unknown_recipe(line.food, food_span(line), known.titles),)


def _food(item: Item, pantry: Pantry) -> tuple[Named, None, tuple[Problem, ...]]:
    if item.food is None:
        found = food_of(item.line, pantry)
        if found:
            return found, None, ()
        name = item.line.bare_food or item.line.food
        return Named(Food(name)), None, (unknown_food(name, food_span(item.line), pantry),)
    outright = named_outright(item.food.value, pantry)
    named = food_of(item.line, pantry)
    words = named.form_words if named else ()
    if outright:
        return Named(same_row(outright, named.food if named else None), words), None, ()
    name = item.food.value
    return Named(Food(name), words), None, (unknown_food(name, item.food.span, pantry),)


def _measures(line: Line) -> tuple[Measure, ...]:
    """The amounts; where the same amount stands beside them as a weight, that: it needs no table."""
    written = tuple(measure_of(one) for one in line.amounts)
    beside = line.equivalent
    if beside and beside.unit in measures.G_PER and not line.pack:
        return written if all(one.unit in measures.G_PER for one in written) else (measure_of(beside),)
    return written
