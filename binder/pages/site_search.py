"""What the search of the site finds a page by. All of it is named here, word for word; nothing else is searched.

Private notes, aims, allergies and figures are not among it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from binder.pages.archive import week_dishes
from binder.pages.edition import unique
from binder.pages.format import week_title
from binder.pages.page import Later, Page, SearchWords
from binder.pages.site_shelf import (
    FOODS_PATH,
    NOTES_PATH,
    ON_HAND_PATH,
    RECIPES_PATH,
    WEEKS_PATH,
    Shelf,
    ShelvedFood,
    recipe_path,
    section_path,
    week_path,
    year_path,
)
from binder.pages.site_week import from_to, sections_on_screen
from binder.pages.words.en import Words
from binder.reckon.recipe_facts import RecipeFacts

# Shorter words of a note are seldom what somebody looks for.
_WORD = re.compile(r"[^\W\d_]{3,}")


@dataclass(frozen=True, slots=True)
class Found:
    """What a page is (`recipe`) and what it is found by besides its title."""

    kind: str
    keywords: tuple[str, ...] = ()


def search_words(words: Words) -> SearchWords:
    """The words that the search in the browser speaks in."""
    return SearchWords(
        label=words.search_label,
        none=words.search_none,
        one=words.search_one,
        many=words.search_many,
        more=words.search_more,
        some=words.search_some,
        endings=words.search_endings,
        passed_over=words.search_passed_over,
    )


def with_keywords(pages: list[Page | Later], shelf: Shelf) -> tuple[Page | Later, ...]:
    """The pages, those that are searched with their keywords."""
    found = dict(_found(shelf))
    return tuple(
        replace(page, found_as=of.kind, keywords=of.keywords) if (of := found.get(page.path)) else page
        for page in pages
    )


def _found(shelf: Shelf) -> Iterator[tuple[str, Found]]:
    """By path. The sections of the current week alone: those of other weeks are reached by their week."""
    w = shelf.words
    for facts in shelf.recipes.values():
        yield recipe_path(facts.key), Found(w.found_recipe, recipe_keywords(facts, shelf))
    for food in shelf.foods.values():
        yield food.path, Found(w.found_food, food_keywords(food, shelf))
    for key in shelf.week_keys:
        yield week_path(key), Found(w.found_week, week_keywords(key, shelf))
    if shelf.current:
        title = week_title(shelf.current, w)
        for section in sections_on_screen(shelf.current, shelf):
            if section.key != "week":
                yield section_path(shelf.current, section.key), Found(title)
    for path in (RECIPES_PATH, FOODS_PATH, WEEKS_PATH, NOTES_PATH, *(year_path(one.year) for one in shelf.years)):
        yield path, Found(w.found_list)
    yield ON_HAND_PATH, Found(w.found_list, _on_hand(shelf))


def recipe_keywords(facts: RecipeFacts, shelf: Shelf) -> tuple[str, ...]:
    """Its foods and parts, meals, form and tags."""
    w, lines = shelf.words, facts.ingredients
    foods = (shelf.edition.title(x.ingredient.recipe) if x.ingredient.recipe else x.food for x in lines)
    meals = (w.meals.get(meal, meal) for meal in facts.meals)
    return unique([*foods, *meals, w.forms_short.get(facts.form, facts.form), *facts.recipe.tags])


def food_keywords(found: ShelvedFood, shelf: Shelf) -> tuple[str, ...]:
    """Its other names and its aisle."""
    food = found.food
    return unique([*food.names, shelf.words.aisles.get(food.aisle, food.aisle)])


def week_keywords(key: str, shelf: Shelf) -> tuple[str, ...]:
    """Its name in the files, its days, its dishes, and the words of its note."""
    week = shelf.library.weeks.get(key)
    dishes = (shelf.edition.title(recipe) for recipe in week_dishes(key, shelf))
    note = [word.casefold() for word in _WORD.findall(week.notes)] if week else []
    telling = (word for word in note if word not in shelf.words.search_passed_over)
    return unique([key, from_to(key, shelf), *dishes, *telling])


def _on_hand(shelf: Shelf) -> tuple[str, ...]:
    found = []
    for lot in shelf.library.stock.lots:
        if lot.recipe:
            found.append(shelf.edition.title(lot.recipe))
        elif lot.food:
            found.append(lot.food.name)
    return unique(found)
