"""Everything a household wrote, understood."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from binder.model.food import Food
from binder.model.household import Household
from binder.model.recipe import Recipe
from binder.model.stock import Stock
from binder.model.week import Week


@dataclass(frozen=True, slots=True)
class Library:
    """Everything that a household wrote, as it is understood."""

    household: Household
    foods: tuple[Food, ...]  # the household's own
    recipes: Mapping[str, Recipe]  # by key, sorted
    weeks: Mapping[str, Week]  # by key, sorted
    stock: Stock
