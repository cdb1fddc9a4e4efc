"""The invented household with everything a site shows: foods with figures, stock, two weeks, notes."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction
from functools import cache
from types import MappingProxyType
from typing import Any

from binder.model.food import Basis, Food, FoodWeight, Keeping, Pack
from binder.model.library import Library
from binder.model.quantity import exactly
from binder.model.stock import Lot, Stock
from binder.model.week import MealLine, Week
from binder.pages.page import Page, Site
from binder.pages.site import site_pages
from binder.pages.site_shelf import Shelf, shelf_of
from binder.reckon.recipe_facts import IngredientFacts, RecipeFacts

from .fixture import MONDAY, PRIVATE, RECIPES, SPAN, library, measure
from .fixture_week import week_facts

TODAY = MONDAY
RICOTTA = Food(
    "ricotta", Basis("table", "SR28 01036"), "01036",
    (174.0, 11.26, 12.98, 8.295, 3.04, 0.0, 0.27, 84.0, 105.0, 207.0, 0.38), "SR28 01036, Cheese, ricotta",
    ("milk",), ("sesame",), "everyday foods", "dairy and eggs",
    weights=(FoodWeight("cup", 246.0, source="SR28 01036"),),
    packs=(Pack(exactly(250, "g"), Fraction("2.80")),), keeping=Keeping((5, 7), None, False, "Cold Food Storage Chart"),
    once_opened_days=5, store="cold, closed",
)  # fmt: skip
RADISH = Food("radish", aisle="produce", names=("garden radish",))
NOTES = "How it went: **slow**. More lemon.\n\nThe second paragraph."


def line_of(meal: Any, recipe: str, eaters: tuple[str, ...], *dates: date) -> MealLine:
    total = None if dates else Fraction(7)
    return MealLine(SPAN, meal, recipe, eaters, dates, None, Fraction(1), total, MappingProxyType({}), None)


def weeks() -> dict[str, Week]:
    closed = MappingProxyType({"thrown away": "2 portions", "minutes": MappingProxyType({"prep": 95})})
    stew = line_of("dinner", "lentil-stew", ("Tomas",), date(2025, 12, 8))
    meals = (stew, line_of("snack", "seed-scones", ("Bea",)))
    old = Week("2025-W50", date(2025, 12, 8), SPAN, (), meals, (), (), NOTES, closed)
    now = replace(library().weeks["2026-W24"], meals=(
        line_of("lunch", "squash-barley-bake", ("Ilka", "Tomas"), MONDAY),
    ))  # fmt: skip
    return {"2025-W50": old, "2026-W24": now}


def lots() -> Stock:
    stew = Lot("stock.yaml:2", SPAN, "2 portions lentil-stew, made 2026-05-20", "freezer", None, "lentil-stew",
               (measure("2", "portion"),), made=date(2026, 5, 20))  # fmt: skip
    cheese = Lot("stock.yaml:4", SPAN, "250 g ricotta, whole milk, opened 2026-06-03", "fridge", RICOTTA, None,
                 (measure("250", "g"),), opened=date(2026, 6, 3))  # fmt: skip
    return Stock((cheese, stew))


def _with_food(facts: RecipeFacts) -> RecipeFacts:
    """The bake's ricotta as a table food, with its weight's basis."""

    def filled(line: IngredientFacts) -> IngredientFacts:
        if line.food != "ricotta":
            return line
        return replace(
            line, ingredient=replace(line.ingredient, food=RICOTTA), basis=RICOTTA.basis,
            measure_basis="SR28 01036, 1 cup = 246 g; 1 tbsp as 1/16 cup",
        )  # fmt: skip

    lines = tuple(filled(line) for line in facts.ingredients)
    recipe = replace(facts.recipe, ingredients=tuple(line.ingredient for line in lines))
    return replace(facts, ingredients=lines, recipe=recipe)


def facts() -> dict[str, RecipeFacts]:
    return {key: _with_food(of) for key, of in RECIPES.items()}


def whole_library(**household: Any) -> Library:
    found = library(**household)
    recipes = MappingProxyType({key: of.recipe for key, of in facts().items()})
    return replace(
        found, foods=(RADISH,), recipes=recipes, weeks=MappingProxyType(dict(sorted(weeks().items()))), stock=lots()
    )  # fmt: skip


@cache
def site(**more: Any) -> Site:
    return site_pages(whole_library(), facts(), {"2026-W24": week_facts()}, "2026-W24", TODAY, **more)


def shelf(library_: Library | None = None, found: dict[str, RecipeFacts] | None = None) -> Shelf:
    return shelf_of(library_ or whole_library(), found or facts(), {"2026-W24": week_facts()}, "2026-W24", TODAY)


def page(path: str, **more: Any) -> Page:
    return next(p for p in site(**more).pages if p.path == path)


__all__ = ["PRIVATE", "facts", "page", "shelf", "site", "whole_library"]
