"""Recipes made of recipes: a ring among them is found, named and cut."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType

from binder.model.food import Food
from binder.model.recipe import Ingredient, Recipe
from binder.problem import Problem, Span, error


def without_rings(recipes: Mapping[str, Recipe]) -> tuple[Mapping[str, Recipe], tuple[Problem, ...]]:
    """The recipes sorted by key, and one problem for each ring, at the line that closes it.

    The closing line, and a line whose recipe could not be read, stays as a food without figures, so that what is
    built from the rest comes to an end.
    """
    closing = _closing_lines(recipes)
    problems = []
    for span, ring in closing.items():
        names = " -> ".join(ring)
        message = f'"{ring[0]}" contains itself: {names}'
        problems.append(error(span, "recipe-loop", message, "take one of these parts out of the ring"))
    cut = set(closing)
    made = {key: _cut(recipes[key], cut, recipes) for key in sorted(recipes)}
    return MappingProxyType(made), tuple(problems)


def _closing_lines(recipes: Mapping[str, Recipe]) -> dict[Span, tuple[str, ...]]:
    """The lines that lead back to a recipe on the way to them, with the ring, walked in the order of keys."""
    closing: dict[Span, tuple[str, ...]] = {}
    done: set[str] = set()
    for start in sorted(recipes):
        way = [start]
        waiting = [list(reversed(recipes[start].ingredients))] if start not in done else []
        while waiting:
            if not waiting[-1]:
                waiting.pop()
                done.add(way.pop())
                continue
            line = waiting[-1].pop()
            part = line.recipe
            if part is None:
                continue
            if part in way:
                closing[line.span] = (*way[way.index(part) :], part)
            elif part in recipes and part not in done:
                way.append(part)
                waiting.append(list(reversed(recipes[part].ingredients)))
    return closing


def _cut(recipe: Recipe, closing: set[Span], recipes: Mapping[str, Recipe]) -> Recipe:
    def whole(line: Ingredient) -> Ingredient:
        if line.recipe is None or (line.span not in closing and line.recipe in recipes):
            return line
        return replace(line, recipe=None, food=Food(line.food.name))

    if all(line.recipe is None for line in (*recipe.ingredients, *recipe.gives)):
        return recipe
    ingredients = tuple(whole(line) for line in recipe.ingredients)
    return replace(recipe, ingredients=ingredients, gives=tuple(whole(line) for line in recipe.gives))
