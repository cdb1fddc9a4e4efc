"""What the site is made from, and the look-ups that its pages share: addresses, a food's uses, a dish's weeks."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from functools import cache
from hashlib import sha256
from types import MappingProxyType
from urllib.parse import quote

from binder.model.food import Food
from binder.model.library import Library
from binder.model.recipe import Ingredient
from binder.pages.binder import binder_pages
from binder.pages.edition import Edition, edition_of, name_of, run, together
from binder.pages.format import week_title
from binder.pages.page import Binder, Crumb, RunKind, Text
from binder.pages.words.en import Words
from binder.reckon.facts import Costs, WeekFacts
from binder.reckon.past_facts import Year
from binder.reckon.recipe_facts import RecipeFacts

HOME_PATH = "index.html"
WEEKS_PATH = "weeks/index.html"
NOTES_PATH = "weeks/notes/index.html"
RECIPES_PATH = "recipes/index.html"
FOODS_PATH = "foods/index.html"
ON_HAND_PATH = "freezer/index.html"

FoodKey = tuple[str, str, str | None]


@dataclass(frozen=True, slots=True)
class FoodUse:
    """One line that names a food: of a recipe, or of a week's substitution; `given`: the recipe has it left over."""

    recipe: str
    line: Ingredient
    week: str = ""  # set for a substitution
    given: bool = False


@dataclass(frozen=True, slots=True)
class ShelvedFood:
    """A food that the library uses, has on hand or describes; `slug` names its page."""

    food: Food
    slug: str
    uses: tuple[FoodUse, ...]

    @property
    def path(self) -> str:
        return f"foods/{self.slug}/index.html"


@dataclass(frozen=True, slots=True)
class Shelf:
    """The library with its figures. `edition` is that of the current week, or of no week when there is none."""

    edition: Edition
    weeks: Mapping[str, WeekFacts]
    binder: Callable[[str], Binder | None]  # of a week, when it was reckoned
    current: str | None
    today: date
    printed: frozenset[str]  # weeks whose binder lies in print/
    by_title: tuple[RecipeFacts, ...]
    names_mark: str  # a hash of every dish's names
    foods: Mapping[FoodKey, ShelvedFood]  # in order of name
    planned: Mapping[str, tuple[str, ...]]  # recipe key to week keys, latest first
    part_of: Mapping[str, tuple[str, ...]]  # recipe key to those of the recipes it goes into, by title
    then: Mapping[str, Library]  # closed weeks with the library they were made of
    years: tuple[Year, ...]  # that have a closed week, the latest first

    @property
    def words(self) -> Words:
        return self.edition.words

    @property
    def library(self) -> Library:
        return self.edition.library

    @property
    def recipes(self) -> Mapping[str, RecipeFacts]:
        return self.edition.recipes

    @property
    def week_keys(self) -> tuple[str, ...]:
        """All weeks, latest first."""
        return tuple(sorted({*self.library.weeks, *self.weeks}, reverse=True))

    def dish(self, key: str, kind: RunKind = "") -> Text:
        """A recipe's title, linked to its page when it has one."""
        return run(self.edition.title(key), kind, address(recipe_path(key)) if key in self.recipes else None)

    def dishes(self, keys: Iterable[str]) -> Text:
        return together((self.dish(key) for key in keys), ", ")

    def week(self, key: str) -> Text:
        known = key in self.library.weeks or key in self.weeks
        return run(week_title(key, self.words), "", address(week_path(key)) if known else None)

    def food(self, food: Food) -> Text:
        """A food's name, linked to its page."""
        return run(food.name, "", self.food_href(food))

    def food_href(self, food: Food) -> str | None:
        found = self.foods.get(food_key(food))
        return address(found.path) if found else None

    def crumbs(self, *after: tuple[str, str | None]) -> tuple[Crumb, ...]:
        """From the front page down to where the reader is."""
        return Crumb(self.words.home, HOME_PATH), *(Crumb(text, href) for text, href in after)


def shelf_of(
    library: Library,
    recipes: Mapping[str, RecipeFacts],
    weeks: Mapping[str, WeekFacts],
    current: str | None,
    today: date,
    private: bool = False,
    printed: frozenset[str] = frozenset(),
    then: Mapping[str, Library] = MappingProxyType({}),
    years: tuple[Year, ...] = (),
) -> Shelf:
    """All that the site is made of.

    `printed`: the weeks with a binder in the output; `then`: the library that each closed week was made of.
    """
    facts = weeks.get(current) if current else None
    if facts and current in then:
        # It took its part of the stock of its own time; what is on hand today is no longer its business.
        facts = replace(
            facts,
            use_first=(),
            servings=tuple(replace(one, lot=None) for one in facts.servings),
            shopping=tuple(replace(row, from_lots=()) for row in facts.shopping),
        )
    edition = edition_of(facts or no_week(today), library, recipes, private)

    @cache
    def binder(key: str) -> Binder | None:
        of = weeks.get(key)
        made_of = then.get(key, library) if of else library
        return binder_pages(of, made_of, of.recipes or recipes, private=private) if of else None

    by_title = tuple(sorted(recipes.values(), key=lambda f: (f.title.casefold(), f.key)))
    return Shelf(
        edition=edition,
        weeks=weeks,
        binder=binder,
        current=current,
        today=today,
        printed=printed,
        by_title=by_title,
        names_mark=sha256(repr([(f.key, f.title, f.recipe.short) for f in by_title]).encode()).hexdigest(),
        foods=_foods(library),
        planned=_planned(library),
        part_of=_part_of(by_title),
        then=then,
        years=years,
    )


def no_week(today: date) -> WeekFacts:
    """Facts of no week at all, for pages that speak of a recipe alone."""
    costs = Costs(None, MappingProxyType({}), None, "", False)
    return WeekFacts("", today, (), (), (), (), costs, (), (), (), (), 1, (), (), (), ())


def address(path: str) -> str:
    """A page's path as an address: what an address may not hold is written in per cent."""
    return quote(path, safe="/")


def recipe_path(key: str) -> str:
    """Where a recipe's page lies, below the site."""
    return f"recipes/{key}/index.html"


def week_path(key: str) -> str:
    """Where a week's page lies, below the site."""
    return f"weeks/{key}/index.html"


def section_path(week: str, section: str) -> str:
    """A section of a week has a page of its own; the week sheet is the week's first page."""
    return week_path(week) if section == "week" else f"weeks/{week}/{section}/index.html"


def year_path(year: int) -> str:
    """Where a year's page lies, below the site."""
    return f"years/{year}/index.html"


def food_key(food: Food) -> FoodKey:
    """What tells foods apart: the name and the row that the figures come from."""
    return food.name, food.basis.kind, food.basis.id


def _foods(library: Library) -> Mapping[FoodKey, ShelvedFood]:
    foods: dict[FoodKey, Food] = {}
    uses: dict[FoodKey, list[FoodUse]] = {}
    for food, use in _mentions(library):
        foods.setdefault(food_key(food), food)
        uses.setdefault(food_key(food), []).extend([use] if use else [])
    slugs: dict[str, int] = {}
    shelved = {}
    for key in sorted(foods, key=lambda k: (k[0].casefold(), k[1], k[2] or "")):
        slug = name_of(foods[key].name) or "food"
        slugs[slug] = slugs.get(slug, 0) + 1
        # Two foods of one name (a table row and the household's own) have a page each.
        name = slug if slugs[slug] == 1 else f"{slug}-{slugs[slug]}"
        shelved[key] = ShelvedFood(foods[key], name, tuple(uses[key]))
    return MappingProxyType(shelved)


def _mentions(library: Library) -> Iterator[tuple[Food, FoodUse | None]]:
    """Every food that is named anywhere, with the line that uses it."""
    for food in library.foods:
        yield food, None
    for recipe in library.recipes.values():
        for line in recipe.ingredients:
            if line.recipe is None:
                yield line.food, FoodUse(recipe.key, line)
        for line in recipe.gives:
            yield line.food, FoodUse(recipe.key, line, given=True)
    for week in library.weeks.values():
        for swap in week.substitutions:
            if swap.use.recipe is None:
                yield swap.use.food, FoodUse(swap.recipe, swap.use, week.key)
    for lot in library.stock.lots:
        if lot.food is not None and lot.recipe is None:
            yield lot.food, None


def _planned(library: Library) -> Mapping[str, tuple[str, ...]]:
    found: dict[str, list[str]] = {}
    for key in sorted(library.weeks, reverse=True):
        for recipe in dict.fromkeys(line.recipe for line in library.weeks[key].meals):
            found.setdefault(recipe, []).append(key)
    return MappingProxyType({recipe: tuple(keys) for recipe, keys in found.items()})


def _part_of(recipes: Iterable[RecipeFacts]) -> Mapping[str, tuple[str, ...]]:
    found: dict[str, list[str]] = {}
    for facts in recipes:
        for part in dict.fromkeys(line.ingredient.recipe for line in facts.ingredients):
            if part is not None:
                found.setdefault(part, []).append(facts.key)
    return MappingProxyType({part: tuple(keys) for part, keys in found.items()})
