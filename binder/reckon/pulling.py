"""What is moved from freezer to refrigerator, by evening; and the ways out on the morning after, when it was not."""

from __future__ import annotations

from collections.abc import Iterator

from binder.model.household import HOME, Household
from binder.reckon import reheating
from binder.reckon.facts import Pull, Serving, WayOut
from binder.tables import temperatures, thawing

SOURCE = f"{temperatures.REHEATING.source}; time from frozen: {thawing.FROM_FROZEN_SOURCE}"
ANOTHER = "the week's own plan"


def pull_list(servings: tuple[Serving, ...], household: Household) -> tuple[Pull, ...]:
    """What to move from the freezer to the refrigerator, by the evening it is moved, each with its ways out."""
    found = [
        Pull(
            pull_on=s.pull_on,
            date=s.date,
            eater=s.eater,
            recipe=s.recipe,
            portions=s.portions,
            from_=_store(s, "freezer"),
            to=_store(s, "fridge"),
            serving=s.id,
            way_out=tuple(_ways_out(s, servings, household)),
            place=s.place,
        )
        for s in servings
        if s.pull_on and s.date
    ]
    return tuple(sorted(found, key=lambda p: (p.pull_on, p.date)))


def _store(serving: Serving, kind: str) -> str:
    """`freezer` at home, `ward freezer` at a place of its own."""
    return kind if serving.stored_at == HOME else f"{serving.stored_at} {kind}"


def _ways_out(serving: Serving, servings: tuple[Serving, ...], household: Household) -> Iterator[WayOut]:
    yield from _from_frozen(serving, household)
    yield from _cold_water(serving, servings)
    yield from _another_dish(serving, servings)


def _from_frozen(serving: Serving, household: Household) -> Iterator[WayOut]:
    """Heated from frozen where the dish can be heated; a kit is cooked by its own steps, half as long again."""
    assert serving.facts is not None
    if serving.facts.form == "kit":
        if any(step.uses for step in serving.facts.recipe.service):
            yield WayOut("from frozen", "kit", source=thawing.FROM_FROZEN_SOURCE)
        return
    way = reheating.forgotten(serving.facts.recipe, household.place(serving.place))
    if way and serving.reheat and serving.reheat.means not in reheating.UNTIMED:
        core = temperatures.REHEATING.fahrenheit
        yield WayOut("from frozen", way.means, way.seconds, core, source=SOURCE, text=way.text)


def _cold_water(serving: Serving, servings: tuple[Serving, ...]) -> Iterator[WayOut]:
    """In cold water, by the weight of one pack; cooked, heated or eaten at once."""
    piece = _piece_grams(serving, servings)
    if piece is None:
        yield WayOut("cold water", source=thawing.SOURCE)
        return
    row = thawing.cold_water(piece)
    yield WayOut("cold water", seconds=row.minutes[1] * 60, source=row.source, minutes=row.minutes)


def _piece_grams(serving: Serving, servings: tuple[Serving, ...]) -> float | None:
    """What thaws as one piece: the portion, or what a kit stores apart for all who share it; None: not known."""
    assert serving.facts is not None
    if serving.facts.form != "kit":
        return serving.grams
    apart = [line for line in serving.facts.ingredients if line.part in serving.facts.recipe.apart_names]
    portions = sum(float(s.portions) for s in servings if s.line is serving.line and s.date == serving.date)
    if not apart or any(line.grams is None for line in apart):
        return None
    return sum(line.grams.high for line in apart if line.grams) * portions / serving.facts.portions


def _another_dish(serving: Serving, servings: tuple[Serving, ...]) -> Iterator[WayOut]:
    """A refrigerated dish of a later day for the same eaters at the same place, whose day this pack then takes."""
    swaps = [other for other in servings if _can_swap(serving, other, servings)]
    swaps.sort(key=lambda other: (other.meal != serving.meal, other.date is None, other.date or serving.date))
    if swaps:
        first = swaps[0]
        yield WayOut("another dish", recipe=first.recipe, planned_for=first.date, source=ANOTHER)


def _can_swap(one: Serving, other: Serving, servings: tuple[Serving, ...]) -> bool:
    """Whether `other` keeps, may be eaten in place of `one`, and `one` thaws and keeps until its day."""
    assert one.date is not None and one.pull_on is not None and other.facts is not None
    if one.meal not in (other.meal, *other.facts.meals):
        return False
    if (other.eater, other.place) != (one.eater, one.place) or other.recipe == one.recipe:
        return False
    if other.kept not in ("fridge", "cupboard") or other.made_on is None or other.made_on >= one.date:
        return False
    if _sitting(one, servings) != _sitting(other, servings) or (other.use_by and other.use_by < one.date):
        return False
    if other.date is None:
        return True
    nights = one.date - one.pull_on
    last = one.use_by + nights if one.use_by else None
    return other.date >= one.date + nights and (last is None or other.date <= last)


def _sitting(serving: Serving, servings: tuple[Serving, ...]) -> frozenset[str]:
    """Those who share a kit; nobody where each has a portion of their own."""
    assert serving.facts is not None
    if serving.facts.form != "kit":
        return frozenset()
    return frozenset(s.eater for s in servings if s.line is serving.line and s.date == serving.date)
