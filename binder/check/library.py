"""All files of a household at once: what they mean together, and all that is wrong with them."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Mapping
from dataclasses import dataclass
from functools import partial
from hashlib import sha256
from types import MappingProxyType

from binder.check.declare import Entry
from binder.check.fields import HouseholdFields
from binder.check.foods import check_foods
from binder.check.household import check_household, household_of, listed_in
from binder.check.keeps import with_all_parts
from binder.check.pantry import Pantry, pantry_of
from binder.check.recipe import check_recipe, key_of, title_of
from binder.check.rings import without_rings
from binder.check.stock import check_stock, recipe_named
from binder.check.week import Around, check_week
from binder.model.household import Household
from binder.model.library import Library
from binder.model.recipe import MEALS, Recipe
from binder.model.stock import Stock
from binder.model.week import Week
from binder.problem import Problem, Span, error, in_order
from binder.source.document import Document
from binder.source.nodes import Mapping as MappingNode
from binder.source.nodes import Node, Scalar, Sequence, as_line
from binder.tables.measures import System

HOUSEHOLD, FOODS, STOCK = "household.yaml", "foods.yaml", "stock.yaml"
RECIPES, WEEKS = "recipes/", "weeks/"

CheckedRecipe = tuple[Recipe | None, tuple[Problem, ...]]
# The recipe under a key that says all it is checked by, or as it is checked now.
Recall = Callable[[Hashable, Callable[[], CheckedRecipe]], CheckedRecipe]


def anew(key: Hashable, make: Callable[[], CheckedRecipe]) -> CheckedRecipe:
    """Without a build before."""
    return make()


@dataclass(frozen=True, slots=True)
class Checked:
    """The library, None only when there is no household to speak of; every problem, in order."""

    library: Library | None
    problems: tuple[Problem, ...]


def check_library(
    documents: Mapping[str, Document],
    photos: frozenset[str],
    only_week: str | None = None,
    recall: Recall = anew,
) -> Checked:
    """Everything a household wrote, by path within the content folder, and the file names in `photos`.

    With `only_week`: household, foods and stock whole, that week's plan, and the recipes it reaches; of the others
    neither meaning nor problems. What is broken is left out or stands on its default.
    `recall` has a recipe from the build before, by all that it is checked against.
    """
    entry, problems = _household_entry(documents.get(HOUSEHOLD))
    known = entry or Entry(Span(HOUSEHOLD, 1, 1, 1))
    listed, cup = listed_in(known), _cup(known)
    foods, faults = check_foods(documents.get(FOODS), listed, cup)
    problems += faults
    pantry = pantry_of(foods, listed, cup)
    household, faults = household_of(known, pantry)
    problems += faults
    titles = _titles(documents)
    stock, faults = check_stock(documents.get(STOCK), pantry, titles, tuple(place.name for place in household.places))
    problems += faults
    check = _RecipeCheck(documents, household, pantry, titles, photos, recall)
    recipes, more = check.all(_start(documents, titles, stock, only_week))
    problems += more
    weeks, more = _weeks(documents, Around(household, pantry, titles, recipes, photos), only_week)
    problems += more
    if entry is None:
        # Without a household every name of a place, eater or container is unknown: said once, at its file.
        return Checked(None, in_order([p for p in problems if p.code not in _NEEDS_HOUSEHOLD]))
    library = Library(household, foods, recipes, weeks, _stock_of(stock, recipes))
    return Checked(library, in_order(problems))


_NEEDS_HOUSEHOLD = frozenset(("unknown-container", "unknown-place", "unknown-eater"))


def _household_entry(document: Document | None) -> tuple[Entry | None, list[Problem]]:
    if document is None:
        remedy = "`binder new household` writes a first one"
        span = Span(HOUSEHOLD, 1, 1, 1)
        return None, [error(span, "missing-key", "there is no household.yaml", remedy)]
    entry, problems = check_household(document)
    return entry, list(problems)


def _cup(entry: Entry) -> System:
    said = entry.get(HouseholdFields.cup)
    return "metric" if said and said.value == "metric" else "uk" if said and said.value == "uk" else "us"


def _files(documents: Mapping[str, Document], folder: str) -> list[Document]:
    """The Markdown files of a folder, by path."""
    return [documents[path] for path in sorted(documents) if path.startswith(folder) and path.endswith(".md")]


def _titles(documents: Mapping[str, Document]) -> Mapping[str, str]:
    """Every recipe's key and title, whether or not the recipe can stand; the key where it has no title."""
    found = {key_of(one.path): title_of(one) or key_of(one.path) for one in _files(documents, RECIPES)}
    return MappingProxyType(found)


def _start(
    documents: Mapping[str, Document], titles: Mapping[str, str], stock: Stock, only_week: str | None
) -> tuple[str, ...]:
    """The recipes to begin with: all, or those that one week and the stock name."""
    if only_week is None:
        return tuple(titles)
    week = documents.get(f"{WEEKS}{only_week}.md")
    named = set(named_in(week.root, titles)) if week and week.root else set()
    named.update(lot.recipe for lot in stock.lots if lot.recipe)
    return tuple(key for key in titles if key in named)


def named_in(week: Node, titles: Mapping[str, str]) -> tuple[str, ...]:
    """The recipes that a plan names, nothing checked: its meals, its substitutions, what it takes from stock."""
    if not isinstance(week, MappingNode):
        return ()
    names = [
        value.text
        for key in ("meals", "substitutions")
        for line in _items(week.get(key))
        if isinstance(line, MappingNode)
        for name, value in line.entries
        if isinstance(value, Scalar) and name.text in (*MEALS, "in")
    ]
    for line in _items(week.get("already")):
        scalar = as_line(line)
        words = scalar.text.split() if scalar else []
        # The dish stands after the number and its unit.
        names += [recipe_named(" ".join(words[i:]), titles) or "" for i in range(1, min(len(words), 4))]
    return tuple(name for name in names if name in titles)


def _items(node: Node | None) -> tuple[Node, ...]:
    return node.items if isinstance(node, Sequence) else ()


@dataclass(frozen=True, slots=True)
class _RecipeCheck:
    """What checking a recipe takes."""

    documents: Mapping[str, Document]
    household: Household
    pantry: Pantry
    titles: Mapping[str, str]
    photos: frozenset[str]
    recall: Recall

    def all(self, start: Iterable[str]) -> tuple[Mapping[str, Recipe], list[Problem]]:
        """The recipes to start with and every part of theirs, sorted by key, rings cut."""
        containers = tuple(box.name for box in self.household.containers)
        ways = tuple(self.documents[path].text for path in (HOUSEHOLD, FOODS) if path in self.documents)
        around = sha256(repr((ways, sorted(self.titles.items()), sorted(self.photos))).encode()).digest()
        made: dict[str, Recipe] = {}
        problems: list[Problem] = []
        waiting, seen = list(start), set(start)
        while waiting:
            key = waiting.pop()
            document = self.documents[f"{RECIPES}{key}.md"]
            check = partial(
                check_recipe, document, self.pantry, containers, self.titles, self.photos, self.household.places
            )
            recipe, more = self.recall(("recipe", document.path, document.text, around), check)
            problems += more
            if recipe:
                made[key] = recipe
                parts = {one.recipe for one in recipe.ingredients if one.recipe}
                waiting += sorted(parts - seen)
                seen |= parts
        whole, more = without_rings(made)
        return with_all_parts(whole), [*problems, *more, *_one_title_each(whole)]


def _one_title_each(recipes: Mapping[str, Recipe]) -> tuple[Problem, ...]:
    first: dict[str, Recipe] = {}
    problems = []
    for recipe in recipes.values():
        before = first.setdefault(recipe.title.casefold(), recipe)
        if before is not recipe:
            message = f'"{recipe.title}" is the title of {before.span.path} already'
            problems.append(error(recipe.span, "duplicate-name", message, "give one of them another title"))
    return tuple(problems)


def _weeks(
    documents: Mapping[str, Document], around: Around, only_week: str | None
) -> tuple[Mapping[str, Week], list[Problem]]:
    path = f"{WEEKS}{only_week}.md"
    if only_week and path not in documents:
        message = f'there is no plan for the week "{only_week}"'
        return MappingProxyType({}), [error(Span(path, 1, 1, 1), "bad-week", message, f"write {path}")]
    made: dict[str, Week] = {}
    problems: list[Problem] = []
    for document in [documents[path]] if only_week else _files(documents, WEEKS):
        week, more = check_week(document, around)
        problems += more
        if week:
            made[week.key] = week
    return MappingProxyType(made), problems


def _stock_of(stock: Stock, recipes: Mapping[str, Recipe]) -> Stock:
    """The lots whose recipe could be read."""
    return Stock(tuple(lot for lot in stock.lots if lot.recipe is None or lot.recipe in recipes))
