"""The recipes, listed every way they are looked for; every list whole, without a script."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from binder.model.recipe import MEALS
from binder.pages.allergens import base
from binder.pages.edition import run, together, unique
from binder.pages.format import days, first_upper
from binder.pages.page import Text
from binder.pages.site_minutes import minutes_text, recipe_minutes
from binder.pages.site_places import answer_words, place_answers
from binder.pages.site_shelf import Shelf
from binder.reckon.recipe_facts import RecipeFacts

MINUTE_LIMITS = (15, 30, 45, 60, 90)
# A food is a main one from this share of the weight that is known; common practice, as on a menu.
MAIN_SHARE = 0.1
_SEASONING = frozenset({"spices", "oils and condiments", "drinks", "household"})


@dataclass(frozen=True, slots=True)
class Group:
    """Lines of a list under a title."""

    title: str
    items: tuple[Text, ...]


@dataclass(frozen=True, slots=True)
class Listing:
    """One way to look for recipes: groups in order, none of them empty."""

    key: str
    title: str
    groups: tuple[Group, ...]
    note: str = ""


def listings(shelf: Shelf) -> tuple[Listing, ...]:
    """Every way that has something in it."""
    makers: tuple[Callable[[Shelf], Listing], ...] = (
        by_meal, by_form, by_food, by_allergen, by_keeping, by_place, by_minutes, by_tag,
    )  # fmt: skip
    return tuple(one for one in (make(shelf) for make in makers) if one.groups)


def _grouped(
    shelf: Shelf, titles: Iterable[tuple[str, str]], of: Callable[[RecipeFacts], Sequence[str]]
) -> tuple[Group, ...]:
    """Groups by name, in the order of `titles` (name, title), each with its dishes by title."""
    found: dict[str, list[Text]] = {}
    for facts in shelf.by_title:
        for name in unique(of(facts)):
            found.setdefault(name, []).append(shelf.dish(facts.key))
    return tuple(Group(title, tuple(found[name])) for name, title in titles if name in found)


def by_meal(shelf: Shelf) -> Listing:
    """The recipes under the meals they are for; one of several meals stands under each."""
    w = shelf.words
    return Listing("meal", w.by_meal, _grouped(shelf, ((m, w.meals[m]) for m in MEALS), lambda f: f.meals))


def by_form(shelf: Shelf) -> Listing:
    """The recipes by form: ready, assemble, kit, portioned."""
    w = shelf.words
    return Listing("form", w.by_form, _grouped(shelf, w.forms.items(), lambda f: (f.form,)))


def by_tag(shelf: Shelf) -> Listing:
    """The recipes under each of their tags."""
    tags = sorted({tag for f in shelf.recipes.values() for tag in f.recipe.tags}, key=str.casefold)
    groups = _grouped(shelf, ((tag, first_upper(tag)) for tag in tags), lambda f: f.recipe.tags)
    return Listing("tag", shelf.words.by_tag, groups)


def by_food(shelf: Shelf) -> Listing:
    """The recipes under each of their main foods."""
    names = sorted({name for f in shelf.recipes.values() for name in main_foods(f)}, key=str.casefold)
    groups = _grouped(shelf, ((name, first_upper(name)) for name in names), main_foods)
    return Listing("food", shelf.words.by_food, groups, shelf.words.by_food_note)


def main_foods(facts: RecipeFacts) -> tuple[str, ...]:
    """The foods that make up a dish, heaviest first; all that are no seasoning when a weight is not known."""
    lines = [x for x in facts.ingredients if x.ingredient.recipe is None and x.ingredient.food.aisle not in _SEASONING]
    if any(x.grams is None for x in lines):
        return unique(x.food for x in lines)
    weights = {x.food: 0.0 for x in lines}
    for x in lines:
        weights[x.food] += x.grams.middle * x.eaten if x.grams else 0.0
    least = MAIN_SHARE * sum(weights.values())
    return tuple(sorted((n for n in weights if weights[n] >= least), key=lambda n: (-weights[n], n)))


def by_allergen(shelf: Shelf) -> Listing:
    """Three answers for each allergen of the list; then what has nothing recorded, and what was not checked."""
    w = shelf.words
    names = w.allergen_lists[shelf.edition.household.allergen_list]
    groups = []
    for word, name in names.items():
        for title, of in ((w.cell_contains, _contains), (w.cell_may_contain, _may_contain)):
            hits = [(f, _kinds(word, of(f))) for f in shelf.by_title if any(base(x) == word for x in of(f))]
            items = tuple((*shelf.dish(f.key), *run(f" ({kinds})" if kinds else "", "small")) for f, kinds in hits)
            groups += [Group(f"{first_upper(name)}: {title}", items)] if items else []
    unknown = [f for f in shelf.by_title if f.not_known]
    bare = [f for f in shelf.by_title if not (f.not_known or f.contains or f.may_contain)]
    if unknown:
        said = ((*shelf.dish(f.key), *run(f" ({', '.join(f.not_known)})", "small")) for f in unknown)
        groups.append(Group(w.not_checked_title, tuple(said)))
    if bare:
        groups.append(Group(w.contains_none_recorded.rstrip("."), tuple(shelf.dish(f.key) for f in bare)))
    return Listing("allergen", w.by_allergen, tuple(groups), f"{w.not_found_is_no_promise} {w.read_the_pack}")


def _contains(facts: RecipeFacts) -> tuple[str, ...]:
    return facts.contains


def _may_contain(facts: RecipeFacts) -> tuple[str, ...]:
    return facts.may_contain


def _kinds(word: str, held: Iterable[str]) -> str:
    """`almonds, walnuts`: the kinds that stand in parentheses behind an allergen."""
    kinds = (x.partition(" (")[2].rstrip(")") for x in held if base(x) == word)
    return ", ".join(kind for kind in kinds if kind)


def by_keeping(shelf: Shelf) -> Listing:
    """By days in the refrigerator, longest first; then by whether it may be frozen."""
    w = shelf.words
    found = {f.keeps.fridge_days for f in shelf.recipes.values()}
    counts = sorted((n for n in found if n is not None), reverse=True)
    titles = [*((str(n), w.in_fridge.format(days(n, w))) for n in counts), ("None", w.fridge_not_known)]
    titles += [("True", w.may_be_frozen), ("False", w.does_not_freeze)]
    groups = _grouped(
        shelf,
        ((name, first_upper(title)) for name, title in titles),
        lambda f: (str(f.keeps.fridge_days), str(f.keeps.freezes)),
    )
    return Listing("keeping", w.by_keeping, groups, w.keeping_short)


def by_place(shelf: Shelf) -> Listing:
    """For each place what can be eaten there, and how it is heated."""
    w, household = shelf.words, shelf.edition.household
    items: dict[str, list[Text]] = {place.name: [] for place in household.places}
    for facts in shelf.by_title:
        for answer in place_answers(facts, household, w):
            if answer.can:
                said = run(f" – {answer_words(answer, w)}", "small")
                items[answer.place].append((*shelf.dish(facts.key), *said))
    groups = tuple(Group(first_upper(name), tuple(of)) for name, of in items.items() if of)
    return Listing("place", w.by_place, groups, w.by_place_note)


def by_minutes(shelf: Shelf) -> Listing:
    """By the time from start to finish, service included."""
    w = shelf.words
    found: dict[str, list[Text]] = {w.up_to_minutes.format(limit): [] for limit in MINUTE_LIMITS}
    found |= {w.longer_than_minutes.format(MINUTE_LIMITS[-1]): [], first_upper(w.not_known): []}
    for facts in shelf.by_title:
        of = recipe_minutes(facts.recipe)
        said = minutes_text(of, w)
        text = together((shelf.dish(facts.key), run(said, "small")), " – ")
        found[_bucket(of.total if of.complete else None, shelf)].append(text)
    groups = tuple(Group(title, tuple(items)) for title, items in found.items() if items)
    return Listing("minutes", w.by_minutes, groups, w.by_minutes_note)


def _bucket(total: Fraction | None, shelf: Shelf) -> str:
    w = shelf.words
    if total is None:
        return first_upper(w.not_known)
    limit = next((n for n in MINUTE_LIMITS if total <= n), None)
    return w.longer_than_minutes.format(MINUTE_LIMITS[-1]) if limit is None else w.up_to_minutes.format(limit)
