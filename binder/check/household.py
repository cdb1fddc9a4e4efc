"""household.yaml to the household: eaters, places, containers, and what they stand on when nothing is written."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import Literal, TypeVar, cast

from binder.check import allergen_words
from binder.check.aims import aim, tally_aim
from binder.check.amounts import amount_of
from binder.check.declare import Entry, Field, Found, Said
from binder.check.fields import HOUSEHOLD, BinderFields, ContainerFields, EaterFields, HouseholdFields, PlaceFields
from binder.check.label_stock import label_stock
from binder.check.near import did_you_mean, nearest, ways_out
from binder.check.pantry import Pantry, named_outright, near_names
from binder.model.household import HOME, Aim, Binding, Caution, Container, Eater, Household, Place, Tool
from binder.model.recipe import MEALS
from binder.problem import Problem, error
from binder.source.document import Document
from binder.tables import allergens, composition, food_kinds, measures
from binder.tables.allergens import AllergenList

T = TypeVar("T")
MEAL_TIMES = MappingProxyType({"breakfast": 420, "lunch": 720, "snack": 900, "dinner": 1110})  # minutes after midnight
EVERYONE = "everyone"


def listed_in(entry: Entry) -> AllergenList:
    """The allergen list that the household goes by."""
    said = entry.get(HouseholdFields.allergen_list)
    return "eu" if said and said.value == "eu" else "us"


def check_household(document: Document) -> tuple[Entry | None, tuple[Problem, ...]]:
    """What household.yaml says, field by field; None when it is no household at all."""
    if document.root is None:
        return None, document.problems
    found: Found = list(document.problems)
    entry = HOUSEHOLD.read(document.root, found)
    return entry, tuple(found)


def household_of(entry: Entry, pantry: Pantry) -> tuple[Household, tuple[Problem, ...]]:
    """The household; `pantry` says which foods an eater may avoid."""
    found: Found = []
    get = entry.get
    places = _places(entry, pantry.listed, found)
    paper = cast(Literal["letter", "a4", "half-letter", "a5"], _value(get(HouseholdFields.paper), "letter"))
    caution = cast(Caution, _value(get(HouseholdFields.caution), "usual"))
    made = Household(
        name=_value(get(HouseholdFields.household), "A household"),
        span=entry.span,
        language=_value(get(HouseholdFields.language), "en"),
        paper=paper,
        measures=cast(Literal["us", "metric", "both"], _value(get(HouseholdFields.measures), "us")),
        cup=pantry.cup,
        allergen_list=pantry.listed,
        caution=caution,
        time_zone=_time_zone(get(HouseholdFields.time_zone), found),
        currency=_value(get(HouseholdFields.currency), "USD"),
        meal_times=MappingProxyType(
            {**MEAL_TIMES, **{meal.value: at.value for meal, at in get(HouseholdFields.meal_times) or ()}}
        ),
        eaters=_eaters(entry, caution, places, pantry, found),
        places=places,
        containers=_containers(entry, pantry.cup, found),
        labels=label_stock(get(HouseholdFields.labels), paper, found),
        site_address=_or_none(get(HouseholdFields.site_address)),
        session_minutes=_minutes(entry),
        binding=_binding(get(HouseholdFields.binder)),
    )
    return made, tuple(found)


def _value(said: Said[T] | None, default: T) -> T:
    return default if said is None else said.value


def _or_none(said: Said[T] | None) -> T | None:
    return None if said is None else said.value


@cache
def zones() -> frozenset[str]:
    """The names of the tz database, as shipped beside this program."""
    text = (files("tzdata") / "zones").read_text(encoding="utf-8")
    return frozenset(text.split())


def _time_zone(said: Said[str] | None, found: Found) -> str:
    if said is None:
        return "UTC"
    if said.value in zones():
        return said.value
    near = nearest(said.value, sorted(zones()))
    remedies = (*did_you_mean(near), "write it as Continent/City: America/Chicago")
    found.append(error(said.span, "wrong-type", f'no time zone "{said.value}"', *remedies))
    return "UTC"


def first_of_each(said: Iterable[Said[str]], what: str, found: Found) -> tuple[Said[str], ...]:
    """The names, each once, letter case aside; one that stands twice is a problem at its second place."""
    names: dict[str, Said[str]] = {}
    for one in said:
        before = names.setdefault(one.value.casefold(), one)
        if before is not one:
            message = f'{what} "{one.value}" stands on line {before.span.line} already'
            found.append(error(one.span, "duplicate-name", message, "give one of them another name"))
    return tuple(names.values())


def _named_entries(
    entries: tuple[Entry, ...] | None, name: Field[Said[str]], what: str, found: Found
) -> list[tuple[Said[str], Entry]]:
    """The entries that have a name, the first of each name."""
    pairs = [(said, entry) for entry in entries or () if (said := entry.get(name))]
    kept = {id(said) for said in first_of_each((said for said, _ in pairs), what, found)}
    return [(said, entry) for said, entry in pairs if id(said) in kept]


def _places(entry: Entry, listed: AllergenList, found: Found) -> tuple[Place, ...]:
    """Every place; home always among them and always with a refrigerator."""
    made = []
    for name, place in _named_entries(entry.get(HouseholdFields.places), PlaceFields.name, "place", found):
        tools = tuple(tool.value for tool in place.get(PlaceFields.has) or ())
        bans, problems = allergen_words.banned(place.get(PlaceFields.bans) or (), listed)
        found.extend(problems)
        home = name.value.casefold() == HOME
        made.append(
            Place(
                HOME if home else name.value,
                name.span,
                _with_fridge(tools) if home else tools,
                bans,
                _value(place.get(PlaceFields.home_food), True),
                _value(place.get(PlaceFields.notes), ""),
                tuple(said.value for said in place.get(PlaceFields.label_says) or ()),
                tuple(said.value for said in place.get(PlaceFields.stays_there) or ()),
                _value(place.get(PlaceFields.travels_once), False),
            )
        )
    if not any(place.name == HOME for place in made):
        made.insert(0, Place(HOME, entry.span, _with_fridge(())))
    return tuple(made)


def _with_fridge(tools: tuple[Tool, ...]) -> tuple[Tool, ...]:
    return tools if any(tool.kind == "fridge" for tool in tools) else (*tools, Tool("fridge"))


def place_named(said: Said[str], places: tuple[Place, ...], found: Found) -> str | None:
    """The place of that name, letter case aside; None and a problem when there is none."""
    names = {place.name.casefold(): place.name for place in places}
    name = names.get(said.value.casefold())
    if name is None:
        remedies = ways_out(said.value, tuple(names.values()), "the places are")
        found.append(error(said.span, "unknown-place", f'no place "{said.value}"', *remedies))
    return name


def _eaters(
    entry: Entry, caution: Caution, places: tuple[Place, ...], pantry: Pantry, found: Found
) -> tuple[Eater, ...]:
    named = _named_entries(entry.get(HouseholdFields.eaters), EaterFields.name, "eater", found)
    return tuple(_eater(name, eater, caution, places, pantry, found) for name, eater in named)


def _eater(
    name: Said[str], entry: Entry, caution: Caution, places: tuple[Place, ...], pantry: Pantry, found: Found
) -> Eater:
    if name.value.casefold() == EVERYONE:
        found.append(error(name.span, "duplicate-name", f'"{EVERYONE}" stands for all eaters', "use another name"))
    eats_at: dict[str, str] = {}
    for meal in MEALS:
        said = entry.get(EaterFields.eats_at[meal])
        place = place_named(said, places, found) if said else None
        if place:
            eats_at[meal] = place
    own = entry.get(EaterFields.caution)
    return Eater(
        name.value,
        name.span,
        _avoids(entry, pantry, found),
        _aims(entry, found),
        MappingProxyType(eats_at),
        cast(Caution, own.value) if own else caution,
        _value(entry.get(EaterFields.private), ""),
        _value(entry.get(EaterFields.shares_week), False),
    )


def _avoids(entry: Entry, pantry: Pantry, found: Found) -> tuple[str, ...]:
    """Allergens in the list's words (in the other list's where only that has it), foods, and kinds of food.

    A word that is neither keeps nothing from anybody's plate, so it is an error and no guess.
    """
    words: list[str] = []
    for said in entry.get(EaterFields.avoids) or ():
        allergen = allergens.avoided_words(said.value)
        listed = [allergens.word_of(word, pantry.listed) for word in allergen]
        food = None if any(listed) else named_outright(said.value, pantry)
        if food is None and not allergen:
            found.extend(_avoids_nothing(said, pantry))
        words.extend(in_list or word for word, in_list in zip(allergen, listed, strict=True))
        words.extend([] if allergen and any(listed) else [said.value])
    return tuple(dict.fromkeys(words))


def _avoids_nothing(said: Said[str], pantry: Pantry) -> list[Problem]:
    """The error for a word that is no allergen, no food and no kind of food."""
    if composition.is_kind(said.value) or food_kinds.kind_of(said.value):
        return []
    message = f'"{said.value}" is no allergen of the list and no food that is known: it would keep nothing away'
    words = allergens.words(pantry.listed)
    near = (*nearest(said.value, words), *near_names(said.value, pantry))
    add = f'a food of yours: add "{said.value}" to foods.yaml'
    return [error(said.span, "wrong-type", message, *did_you_mean(near[:3]), f"the allergens: {', '.join(words)}", add)]


def _aims(entry: Entry, found: Found) -> tuple[Aim, ...]:
    made = []
    for name, wanted in entry.get(EaterFields.aims) or ():
        one, problems = aim(name, wanted)
        found.extend(problems)
        made.extend([one] if one else [])
    return (*made, *(tally_aim(name, wanted) for name, wanted in entry.get(EaterFields.tallies) or ()))


def _containers(entry: Entry, cup: measures.System, found: Found) -> tuple[Container, ...]:
    named = _named_entries(entry.get(HouseholdFields.containers), ContainerFields.name, "container", found)
    return tuple(_container(name, box, cup, found) for name, box in named)


def _container(name: Said[str], entry: Entry, cup: measures.System, found: Found) -> Container:
    holds = entry.get(ContainerFields.holds)
    volumes: list[Fraction] = []
    for measure in holds.value if holds else ():
        amount = amount_of(measure, cup)
        if holds and (amount is None or amount.unit != "mL"):
            found.append(error(holds.span, "wrong-type", f'"{holds.text}" is no volume', "write it in cup or mL"))
            volumes = []
            break
        volumes.extend([amount.low] if amount else [])
    tare = entry.get(ContainerFields.tare)
    return Container(
        name.value,
        name.span,
        tuple(volumes),
        _value(entry.get(ContainerFields.have), 0),
        _value(entry.get(ContainerFields.freezer), True),
        _value(entry.get(ContainerFields.microwave), True),
        float(tare.value) if tare else None,
        holds.text if holds else "",
    )


def _binding(entry: Entry | None) -> Binding:
    if entry is None:
        return Binding()
    return Binding(_value(entry.get(BinderFields.hole_marks), False), _value(entry.get(BinderFields.own_sheets), False))


def _minutes(entry: Entry) -> MappingProxyType[str, Fraction] | None:
    stated = entry.get(HouseholdFields.minutes)
    return MappingProxyType({name.value: minutes.value for name, minutes in stated}) if stated else None
