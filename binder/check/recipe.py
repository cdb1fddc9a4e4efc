"""A recipe file to the recipe it means."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import PurePosixPath
from types import MappingProxyType
from typing import Literal, cast

from binder.check import keeps
from binder.check.declare import Entry, Found, Said
from binder.check.fields import RECIPE, RecipeFields
from binder.check.household import place_named
from binder.check.ingredients import Known, ingredient
from binder.check.line_kinds import Item
from binder.check.links import bad_links
from binder.check.lives import ByPart
from binder.check.near import did_you_mean, nearest, ways_out
from binder.check.pantry import Pantry
from binder.check.size import Size, size_of
from binder.check.steps import steps, temperature_text
from binder.check.tallies import tally_steps
from binder.model.food import Keeping, TallyStep
from binder.model.household import Place
from binder.model.recipe import MEALS, Form, Ingredient, Recipe, Reheat, When
from binder.problem import Problem, error
from binder.source import reheat_line
from binder.source.document import Document
from binder.tables.measures import System

_PLAIN_NAME = re.compile(r"[^/\\:]+")


@dataclass(frozen=True, slots=True)
class _Parts:
    """The ingredients of a recipe, and the part names they stand under."""

    ingredients: tuple[Ingredient, ...]
    gives: tuple[Ingredient, ...]
    names: tuple[str, ...]


def key_of(path: str) -> str:
    """The recipe's key or the week's: its file's name."""
    return PurePosixPath(path).stem


def title_of(document: Document) -> str | None:
    """The title alone, nothing checked: what other files may call the recipe."""
    root = document.root
    node = root.get("title") if root is not None and hasattr(root, "get") else None
    text = getattr(node, "text", None)
    return " ".join(text.split()) if isinstance(text, str) and text.strip() else None


def check_recipe(
    document: Document,
    pantry: Pantry,
    containers: tuple[str, ...],
    titles: Mapping[str, str],
    photos: frozenset[str],
    places: tuple[Place, ...] = (),
) -> tuple[Recipe | None, tuple[Problem, ...]]:
    """The recipe, and all that is wrong with it; None when it does not say what or how much it makes."""
    found: Found = list(document.problems)
    entry = RECIPE.read(document.root, found) if document.root is not None else None
    if entry is None:
        return None, tuple(found)
    key = key_of(document.path)
    parts = _parts(entry, Known(pantry, titles), found)
    size = size_of(entry, pantry.cup, found)
    photo = _photo(entry.get(RecipeFields.photo), photos, found)
    container = _container(entry.get(RecipeFields.container), containers, found)
    found.extend(bad_links(document, photos))
    tallied = tally_steps(entry.get(RecipeFields.tallies) or (), pantry.cup, found, portions=True)
    proved, apart = _proved(entry, places, found), _packed_apart(entry, parts, found)
    form = cast(Form, _text(entry.get(RecipeFields.form)) or "ready")
    keeping = _keeping(entry, form, parts, apart, found)
    if size is None:
        return None, tuple(found)
    made = _recipe(key, entry, document, parts, size, photo, container, tallied, pantry.cup, form, keeping)
    return replace(made, proved=proved, packed_apart=apart), tuple(found)


def _packed_apart(entry: Entry, parts: _Parts, found: Found) -> tuple[str, ...]:
    """The parts that go into a container of their own, by their names in the recipe."""
    spelled = {name.casefold(): name for name in parts.names}
    named = []
    for said in entry.get(RecipeFields.packed_apart) or ():
        name = spelled.get(said.value.casefold())
        if name is None:
            remedies = ways_out(said.value, parts.names, "the parts are")
            found.append(error(said.span, "wrong-type", f'no part "{said.value}" in this recipe', *remedies))
        named.extend([name] if name else [])
    return tuple(dict.fromkeys(named))


def _proved(entry: Entry, places: tuple[Place, ...], found: Found) -> Mapping[str, int]:
    """The reheating times that proved right, by the household's places."""
    named = ((place_named(place, places, found), time.value) for place, time in entry.get(RecipeFields.proved) or ())
    return MappingProxyType({name: seconds for name, seconds in named if name})


def _parts(entry: Entry, known: Known, found: Found) -> _Parts:
    """All ingredients in the order cooked, beside, at service."""
    made: list[Ingredient] = []
    names: list[str] = []
    written = entry.get(RecipeFields.ingredients) or ()
    for one in written:
        if isinstance(one, Item):
            made += _ingredients((one,), "cooked", None, known, found)
        else:
            name, items = one
            names.append(name.value)
            made += _ingredients(items, "cooked", name.value, known, found)
    made += _ingredients(entry.get(RecipeFields.beside), "beside", None, known, found)
    made += _ingredients(entry.get(RecipeFields.at_service), "at service", None, known, found)
    gives = _ingredients(entry.get(RecipeFields.gives), "cooked", None, known, found)
    return _Parts(tuple(made), tuple(gives), tuple(names))


def _ingredients(
    items: tuple[Item, ...] | None, when: When, part: str | None, known: Known, found: Found
) -> list[Ingredient]:
    made = []
    for item in items or ():
        one, problems = ingredient(item, when, part, known)
        found.extend(problems)
        made.extend([one] if one else [])
    return made


def _photo(said: Said[str] | None, photos: frozenset[str], found: Found) -> str | None:
    """The file name of a picture that is there."""
    if said is None:
        return None
    name = said.value
    if not _PLAIN_NAME.fullmatch(name) or name.startswith("."):
        message = f'"{name}" is not the plain name of a file'
        found.append(error(said.span, "bad-link", message, "put the picture into photos and write its file name"))
        return None
    if name not in photos:
        remedies = (*did_you_mean(nearest(name, sorted(photos))), f'put "{name}" into photos')
        found.append(error(said.span, "bad-link", f'no picture "{name}" in photos', *remedies))
        return None
    return name


def _container(said: Said[str] | None, containers: tuple[str, ...], found: Found) -> str | None:
    if said is None:
        return None
    names = {name.casefold(): name for name in containers}
    name = names.get(said.value.casefold())
    if name is None:
        remedies = (*did_you_mean(nearest(said.value, names.values())), "add it to containers in household.yaml")
        found.append(error(said.span, "unknown-container", f'no container "{said.value}"', *remedies))
    return name


def _keeping(entry: Entry, form: Form, parts: _Parts, apart: tuple[str, ...], found: Found) -> Keeping:
    said, freezes = entry.get(RecipeFields.keeps), entry.get(RecipeFields.freezes)
    may_freeze = freezes.value if freezes else None
    if isinstance(said, ByPart):
        lines = {one.when for one in parts.ingredients}
        names = (*parts.names, *(name for name in ("beside", "at service") if name in lines))
        return keeps.by_part(said, names, frozenset((*apart, *keeps.BESIDE)), may_freeze, found)
    if said is not None:
        return keeps.stated(said, may_freeze)
    if form == "portioned":
        foods = (one.food for one in parts.ingredients if one.when != "at service")
        if own := keeps.as_its_foods(foods, may_freeze):
            return own
    return keeps.assumed(may_freeze)


def _reheat(read: reheat_line.Reheat) -> Reheat:
    temperature = temperature_text(read.temperature)
    return Reheat(read.means, read.watts, read.seconds, read.text, read.span, temperature, read.rest)


def _text(said: Said[str] | None) -> str:
    return said.value if said else ""


def _recipe(
    key: str,
    entry: Entry,
    document: Document,
    parts: _Parts,
    size: Size,
    photo: str | None,
    container: str | None,
    tallied: Mapping[str, tuple[TallyStep, ...]],
    cup: System,
    form: Form,
    keeping: Keeping,
) -> Recipe:
    get = entry.get
    title, makes, box = get(RecipeFields.title), get(RecipeFields.makes), get(RecipeFields.container)
    batch, weighs = _text(get(RecipeFields.batch)) or "exact", get(RecipeFields.weighs)
    meals = {said.value for said in get(RecipeFields.meal) or ()}
    return Recipe(
        key=key,
        title=title.value if title else key,
        span=title.span if title else entry.span,
        meals=tuple(meal for meal in MEALS if meal in meals),
        form=form,
        portions=size.portions,
        makes=size.makes,
        makes_text=makes.text if makes else "",
        portion=size.portion,
        portion_measure=size.portion_measure,
        ingredients=parts.ingredients,
        part_names=parts.names,
        gives=parts.gives,
        keeping=keeping,
        container=container,
        container_span=box.span if box and container else None,
        reheat=tuple(_reheat(said.value) for said in get(RecipeFields.reheat) or ()),
        needs=tuple(dict.fromkeys(said.value.kind for said in get(RecipeFields.needs) or ())),
        batch=cast(Literal["exact", "whole", "half"], batch),
        tallies=tallied,
        prep=steps(document.body.prep, cup),
        service=steps(document.body.service, cup),
        source=_text(get(RecipeFields.source)),
        photo=photo,
        private=_text(get(RecipeFields.private)),
        notes=document.body.notes,
        weighs_g=weighs.value if weighs and weighs.value else None,
        tags=tuple(said.value for said in get(RecipeFields.tags) or ()),
        sections=tuple((section.title, section.text) for section in document.body.other),
        short=_text(get(RecipeFields.short)),
        from_frozen=frozen.value if (frozen := get(RecipeFields.from_frozen)) else False,
    )
