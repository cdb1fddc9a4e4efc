"""Whether what is made fits into the refrigerator and the freezer, day by day, and what the freezer takes on prep day.

A container counts by what it holds, all its compartments; what has none by its own volume, else by its weight at 1 mL
a gram (common practice). Only what this week's sessions fill is counted.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from datetime import date, timedelta
from fractions import Fraction
from typing import Literal

from binder.model.household import HOME, Household
from binder.reckon.facts import FreezerLoad, FrozenBoxes, RoomDay
from binder.reckon.filling import Filled
from binder.reckon.packing import IN_BOXES
from binder.tables import freezing

Cold = Literal["fridge", "freezer"]
_PLACES: tuple[Cold, ...] = ("fridge", "freezer")


def room(things: tuple[Filled, ...], put: Mapping[str, str], household: Household, monday: date) -> tuple[RoomDay, ...]:
    """Litres that stand in each place on each day on which something does, from the first session to Sunday."""
    sunday = monday + timedelta(days=6)
    found: list[RoomDay] = []
    first = min((thing.made_on for thing in things), default=monday)
    for n in range((sunday - first).days + 1):
        day = first + timedelta(days=n)
        for place in _PLACES:
            here = [thing for thing in things if _stands(thing, day) == place]
            if here:
                sizes = [_volume(thing, put, household) for thing in here]
                litres = sum((size for size in sizes if size is not None), Fraction(0)) / 1000
                tool = household.place(HOME).tool(place)
                holds = tool.holds_ml / 1000 if tool and tool.holds_ml else None
                over = holds is not None and litres > holds
                found.append(RoomDay(day, place, litres, holds, over, sizes.count(None)))
    return tuple(found)


def _stands(thing: Filled, day: date) -> str | None:
    """Where a thing stands on a day: gone once its day is over; what has no day, until its last."""
    taken = next((s.taken_on for s in thing.servings if s.taken_on), None)
    if taken:
        return "fridge" if thing.made_on <= day <= taken else None
    last = thing.eat_on or thing.use_by
    if day < thing.made_on or (last and day > last):
        return None
    if thing.kept == "freezer" and (thing.pull_on is None or day < thing.pull_on):
        return "freezer"
    return "fridge" if thing.kept in ("fridge", "freezer") else None


def _volume(thing: Filled, put: Mapping[str, str], household: Household) -> Fraction | None:
    name = put.get(thing.id)
    box = next((one for one in household.containers if one.name == name), None)
    if box and box.compartments_ml:
        return sum(box.compartments_ml, Fraction(0))
    if thing.volume_ml is not None:
        return thing.volume_ml
    return None if thing.grams is None else Fraction(thing.grams).limit_denominator(1000)


def freezer_loads(things: tuple[Filled, ...], put: Mapping[str, str], household: Household) -> tuple[FreezerLoad, ...]:
    """For each prep day, what goes into the freezer, its weight, and the most that it freezes in 24 h, where known."""
    days = sorted({thing.made_on for thing in things if _freezes_here(thing)})
    return tuple(
        _load([thing for thing in things if _freezes_here(thing) and thing.made_on == day], day, put, household)
        for day in days
    )


def _freezes_here(thing: Filled) -> bool:
    """Whether it goes into the freezer at home on the day it is made."""
    return thing.kept == "freezer" and not any(s.taken_on for s in thing.servings)


def _load(things: list[Filled], on: date, put: Mapping[str, str], household: Household) -> FreezerLoad:
    grams = [thing.grams for thing in things if thing.grams is not None]
    tool = household.place(HOME).tool("freezer")
    most = float(freezing.load_grams(tool.holds_ml, household.caution)) if tool and tool.holds_ml else None
    over = most is not None and sum(grams) > most
    alike = Counter((thing.facts.key, put.get(thing.id), thing.what) for thing in things)
    boxes = tuple(
        FrozenBoxes(recipe, name, count, _headspace(name, household) if what in IN_BOXES else None, what)
        for (recipe, name, what), count in alike.items()
    )
    return FreezerLoad(on, boxes, sum(grams), len(things) - len(grams), most, over, freezing.LOAD_SOURCE)


def _headspace(name: str | None, household: Household) -> Fraction | None:
    box = next((one for one in household.containers if one.name == name), None)
    return freezing.headspace_inches(box.largest_ml) if box and box.largest_ml is not None else None
