"""A week's plan: sessions, meals, substitutions, what is eaten from stock."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from fractions import Fraction
from types import MappingProxyType

from binder.check.closed import closed_of
from binder.check.declare import Entry, Found, Said
from binder.check.fields import WEEK, MealFields, SessionFields, SubstitutionFields, WeekFields
from binder.check.household import EVERYONE, place_named
from binder.check.ingredients import Known, ingredient, unknown_recipe
from binder.check.links import bad_links
from binder.check.near import ways_out
from binder.check.pantry import Pantry, named_outright
from binder.check.recipe import key_of
from binder.check.stock import dish_name, recipe_named
from binder.model.food import EMPTY
from binder.model.household import HOME, Household
from binder.model.recipe import MEALS, Ingredient, Meal, Recipe
from binder.model.week import Already, MealLine, Session, Substitution, Week
from binder.problem import Problem, error
from binder.source.days import read_days
from binder.source.document import Document
from binder.source.line import read_line
from binder.source.nodes import Mapping as MappingNode
from binder.source.nodes import Node, Scalar
from binder.source.place import part_of
from binder.tables.words import key as food_key


@dataclass(frozen=True, slots=True)
class Around:
    """What a plan may name: the household, its foods, recipes by title, and the recipes themselves."""

    household: Household
    pantry: Pantry
    titles: Mapping[str, str]
    recipes: Mapping[str, Recipe]
    photos: frozenset[str] = frozenset()


def check_week(document: Document, around: Around) -> tuple[Week | None, tuple[Problem, ...]]:
    """The plan, lines that cannot stand left out, and all that is wrong; None when it names no week.

    A closed week keeps what it was: that it names what is there no longer is no problem.
    """
    found: Found = list(document.problems)
    entry = WEEK.read(document.root, found) if document.root is not None else None
    if entry is None:
        return None, tuple(found)
    monday = _monday(entry, document.path, found)
    if monday is None:
        return None, tuple(found)
    found.extend(bad_links(document, around.photos))
    closed = entry.get(WeekFields.closed)
    meant: Found = []
    sessions = [_session(one, around.household, meant) for one in entry.get(WeekFields.prep) or ()]
    meals = [_meal(one, monday, around, meant) for one in entry.get(WeekFields.meals) or ()]
    swaps = [_substitution(one, around, meant) for one in entry.get(WeekFields.substitutions) or ()]
    already = [_already(one, around.titles, meant) for one in entry.get(WeekFields.already) or ()]
    made = Week(
        key=key_of(document.path),
        monday=monday,
        span=entry.span,
        sessions=tuple(sorted((one for one in sessions if one), key=lambda one: (one.on, one.at_minutes))),
        meals=tuple(one for one in meals if one),
        substitutions=tuple(one for one in swaps if one),
        already=tuple(one for one in already if one and one.recipe in around.recipes),
        notes=document.body.notes,
        closed=_closed(closed.node) if closed else None,
        came_to=closed_of(closed.entry) if closed else None,
    )
    return made, tuple(found if closed else [*found, *meant])


def _monday(entry: Entry, path: str, found: Found) -> date | None:
    """The Monday of the week, which must be the one its file is named by; the file's name stands when both differ."""
    said, name = entry.get(WeekFields.week), key_of(path)
    by_name = _week_named(name)
    if said and said.text.strip() != name:
        message = f'the file is named "{name}", but its week is "{said.text}"'
        found.append(error(said.span, "bad-week", message, f"write `week: {name}`, or rename the file"))
    return by_name or (said.value if said else None)


def _week_named(name: str) -> date | None:
    try:
        return date.fromisocalendar(int(name[:4]), int(name[6:]), 1) if name[4:6] == "-W" else None
    except ValueError:
        return None


def _session(entry: Entry, household: Household, found: Found) -> Session | None:
    on, at, cooks = entry.get(SessionFields.on), entry.get(SessionFields.at), entry.get(SessionFields.cooks)
    said = entry.get(SessionFields.place)
    place = place_named(said, household.places, found) if said else HOME
    if on is None or at is None or place is None:
        return None
    return Session(on.value, at.value, cooks.value if cooks else 1, entry.span, place)


def _eaters(said: tuple[Said[str], ...] | None, household: Household, found: Found) -> tuple[str, ...]:
    """The eaters named, in the household's order of writing for everyone; each once."""
    names = {eater.name.casefold(): eater.name for eater in household.eaters}
    made: list[str] = []
    for one in said or ():
        if one.value.casefold() == EVERYONE:
            made.extend(names.values())
        elif one.value.casefold() in names:
            made.append(names[one.value.casefold()])
        else:
            remedies = ways_out(one.value, (*names.values(), EVERYONE), "the eaters are")
            found.append(error(one.span, "unknown-eater", f'no eater "{one.value}"', *remedies))
    return tuple(dict.fromkeys(made))


def _dates(entry: Entry, monday: date, found: Found) -> tuple[date, ...]:
    """The days of a meal line, in order, each once; () when none is fixed."""
    days: set[date] = set()
    for said in entry.get(MealFields.on) or ():
        read, problems = read_days(said.text, said.span)
        found.extend(problems)
        for one in read:
            day = one if isinstance(one, date) else monday + timedelta(days=one)
            if monday <= day <= monday + timedelta(days=6):
                days.add(day)
            else:
                message = f"{day} is not in the week of {monday}"
                found.append(error(said.span, "bad-date", message, "write a weekday, or a date of the week"))
    return tuple(sorted(days))


def _meal(entry: Entry, monday: date, around: Around, found: Found) -> MealLine | None:
    """One meal line; None when what is wrong with it leaves open who eats what."""
    meal, said = _which(entry)
    eaters = _eaters(entry.get(MealFields.eaters), around.household, found)
    dates = _dates(entry, monday, found)
    each, total, by_eater = _portions(entry, bool(dates), around.household, eaters, found)
    at, made = entry.get(MealFields.at), entry.get(MealFields.made)
    place = place_named(at, around.household.places, found) if at else None
    recipe = said.value if said else ""
    found.extend(_left_empty(entry))
    if said and recipe not in around.titles:
        found.append(unknown_recipe(recipe, said.span, around.titles))
    no_day = entry.has(MealFields.on) and not dates
    if recipe not in around.recipes or not eaters or no_day or (at and place is None):
        return None
    return MealLine(
        span=said.span if said else entry.span,
        meal=meal,
        recipe=recipe,
        eaters=eaters,
        dates=dates,
        place=place,
        each=each,
        total=total,
        by_eater=by_eater,
        made=made.value if made else None,
        made_span=made.span if made else None,
    )


def _left_empty(entry: Entry) -> list[Problem]:
    """`for: []` and `on: []`: a line that nobody eats, or on no day, would be lost without a word."""
    empty = [of for of in (MealFields.eaters, MealFields.on) if entry.has(of) and entry.get(of) == ()]
    remedies = {MealFields.eaters: "for: everyone", MealFields.on: "on: mon-fri, or leave it out for no fixed day"}
    return [error(entry.at(of), "missing-key", f"`{of.name}` names nothing", remedies[of]) for of in empty]


def _which(entry: Entry) -> tuple[Meal, Said[str] | None]:
    """The meal that the line names, and the recipe."""
    for meal in MEALS:
        if said := entry.get(MealFields.meals[meal]):
            return meal, said
    return "dinner", None


def _portions(
    entry: Entry, fixed: bool, household: Household, eaters: tuple[str, ...], found: Found
) -> tuple[Fraction, Fraction | None, Mapping[str, Fraction]]:
    """For each eater at each meal, in all (no fixed day), and by eater."""
    said = entry.get(MealFields.portions)
    if said is None:
        return Fraction(1), None, EMPTY
    if isinstance(said, Said):
        return (said.value, None, EMPTY) if fixed else (Fraction(1), said.value, EMPTY)
    by_eater = {}
    for name, number in said:
        for eater in _eaters((name,), household, found):
            by_eater[eater] = number.value
            if eaters and eater not in eaters:
                message = f'"{eater}" does not eat on this line'
                found.append(error(name.span, "unknown-eater", message, "add the eater to for, or leave it out"))
    return Fraction(1), None, MappingProxyType(by_eater)


def _already(said: Said[str], titles: Mapping[str, str], found: Found) -> Already | None:
    """`2 portions lentil stew`: a number of portions, then a recipe's key or title."""
    line, problems = read_line(said.text, said.span)
    found.extend(problem for problem in problems if problem.severity == "error")
    if problems:
        return None
    amounts = [one for one in line.amounts if one.unit in ("portion", "each") and one.low == one.high]
    if len(amounts) != 1 or len(line.amounts) != 1:
        message = f'"{said.text}" does not say how many portions'
        found.append(error(said.span, "bad-amount", message, "write it as 2 portions lentil stew"))
        return None
    name = dish_name(line)
    recipe = recipe_named(name, titles)
    if recipe is None:
        where = part_of(said.span, said.text, line.food_start, len(said.text))
        found.append(unknown_recipe(name, where, titles, by_title=True))
        return None
    return Already(said.span, amounts[0].low, recipe)


def _substitution(entry: Entry, around: Around, found: Found) -> Substitution | None:
    said, use = entry.get(SubstitutionFields.in_), entry.get(SubstitutionFields.use)
    eaters = _eaters(entry.get(SubstitutionFields.eaters), around.household, found)
    instead = entry.get(SubstitutionFields.instead_of)
    if said and said.value not in around.titles:
        found.append(unknown_recipe(said.value, said.span, around.titles))
    recipe = around.recipes.get(said.value) if said else None
    made: Ingredient | None = None
    if use:
        made, problems = ingredient(use, "cooked", None, Known(around.pantry, around.titles))
        found.extend(problems)
    if recipe is None or instead is None:
        return None
    replaces = _replaced(instead.value, recipe, around.pantry)
    if not replaces:
        foods = tuple(dict.fromkeys(one.food.name for one in recipe.ingredients))
        message = f'no ingredient "{instead.value}" in "{recipe.key}"'
        found.append(error(instead.span, "wrong-type", message, *ways_out(instead.value, foods, "its foods are")))
    if made is None or not eaters or not replaces:
        return None
    like = recipe.ingredients[replaces[0]]
    return Substitution(
        entry.span, recipe.key, eaters, replace(made, when=like.when, part=like.part), instead.value, replaces
    )


def _replaced(wanted: str, recipe: Recipe, pantry: Pantry) -> tuple[int, ...]:
    """The ingredients that are meant: by their food's name, else by a food of that name, else by words of the line."""
    name = food_key(wanted)
    foods = [one.food for one in recipe.ingredients]
    exact = [i for i, food in enumerate(foods) if name in {food_key(one) for one in (food.name, *food.names)}]
    meant = named_outright(wanted, pantry)
    if not exact and meant:
        exact = [i for i, food in enumerate(foods) if food.name == meant.name]
    if exact:
        return tuple(exact)
    words = set(name.split())
    lines = [{food_key(word.strip(".,;()")) for word in one.text.split()} for one in recipe.ingredients]
    return tuple(i for i, line in enumerate(lines) if words and words <= line)


def _closed(node: Node) -> Mapping[str, object]:
    """The block as it stands: keys with plain values."""
    if isinstance(node, MappingNode):
        return MappingProxyType({key.text: _plain(value) for key, value in node.entries})
    return MappingProxyType({"closed": _plain(node)})


def _plain(node: Node) -> object:
    if isinstance(node, Scalar):
        return node.value
    if isinstance(node, MappingNode):
        return _closed(node)
    return tuple(_plain(one) for one in node.items)
