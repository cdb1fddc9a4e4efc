"""How long a dish or a food keeps: as written, as the chart says, as its foods do, or as cooked leftovers."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType

from binder.check.declare import Entry, Found, Said
from binder.check.fields import KeepsFields
from binder.check.lives import ByPart, PartLife
from binder.check.near import ways_out
from binder.check.table_food import of_row
from binder.model.food import Food, Keeping, PartKeeping
from binder.model.recipe import Recipe
from binder.problem import error
from binder.tables import keeping

OWN = "the household's own"
BESIDE = frozenset({"beside", "at service"})


def stated(said: Said[str] | Entry, freezes: bool | None) -> Keeping:
    """`keeps` as written: a row of the chart, or times of the household's own; `freezes` has the last word."""
    if isinstance(said, Said):
        row = keeping.ROWS[said.value]
        return with_freezes(of_row(row), freezes)
    fridge, freezer = said.get(KeepsFields.fridge), said.get(KeepsFields.freezer)
    cupboard = said.get(KeepsFields.cupboard)
    frozen = freezer.value if freezer else None
    shelf = cupboard.value if cupboard else None
    cold = fridge.value if fridge else shelf
    return with_freezes(Keeping(cold, frozen, True if frozen else None, OWN, cupboard_days=shelf), freezes)


def with_freezes(of: Keeping, freezes: bool | None) -> Keeping:
    """The same, with what the recipe itself says about freezing."""
    if freezes is None:
        return of
    frozen = of.freezer_days if freezes else None
    return replace(of, freezer_days=frozen, freezes=freezes)


def assumed(freezes: bool | None) -> Keeping:
    """Cooked leftovers, and marked as assumed."""
    return with_freezes(of_row(keeping.ROWS[keeping.ASSUMED], assumed=True), freezes)


def as_its_foods(foods: Iterable[Food], freezes: bool | None) -> Keeping | None:
    """The earliest of all foods; None when one of them is not known, or there are none."""
    all_foods = tuple(foods)
    lives = [food.keeping for food in all_foods]
    known = [life for life in lives if life is not None and life.fridge_days is not None]
    if not known or len(known) < len(lives):
        return None
    sources = "; ".join(dict.fromkeys(life.source for life in known))
    return with_freezes(_together(known, f"as its food keeps ({sources})"), freezes)


def _together(lives: Sequence[Keeping], source: str) -> Keeping:
    """The earliest of several; may be frozen when all of them may."""
    may = [life.freezes for life in lives]
    return Keeping(
        _earliest([life.fridge_days for life in lives]),
        _earliest([life.freezer_days for life in lives]),
        False if False in may else None if None in may else True,
        source,
        cupboard_days=_earliest([life.cupboard_days for life in lives]),
        thawed_days=_earliest([life.thawed_days or life.fridge_days for life in lives]),
    )


def of_parts(parts: Sequence[PartKeeping], rest: Keeping | None, freezes: bool | None) -> Keeping:
    """The whole by its parts: the earliest of those that are packed together; `rest` is the dish beside them.

    FDA Food Code 3-501.17(C): a mixed dish keeps the date of its earliest ingredient.
    """
    named = [(one.part, one.keeping) for one in parts if not one.apart]
    every = [*named, *([("", rest)] if rest else [])]
    if not every:
        every = [(one.part, one.keeping) for one in parts]
    lives = [life for _, life in every]
    sources = "; ".join(dict.fromkeys(life.source for life in lives))
    assumed = any(life.assumed for life in lives)
    whole = lives[0] if len(lives) == 1 else replace(_together(lives, sources), assumed=assumed)
    ends = (_first_to_go(every, 0), _first_to_go(every, 1))
    return with_freezes(replace(whole, parts=tuple(parts), decided_by=ends), freezes)


def _first_to_go(lives: Sequence[tuple[str, Keeping]], end: int) -> str:
    """The name of the part that keeps shortest; the first of several; "" where nothing is known, or it is the rest."""
    known = [(life.fridge_days[end], name) for name, life in lives if life.fridge_days]
    return min(known, key=lambda pair: pair[0])[1] if len(known) == len(lives) else ""


def by_part(said: ByPart, names: tuple[str, ...], apart: frozenset[str], freezes: bool | None, found: Found) -> Keeping:
    """`keeps` written part by part. `names`: the parts there are; those in `apart` are packed on their own.

    What no part is named for counts as cooked leftovers, and is marked as assumed.
    """
    spelled = {name.casefold(): name for name in names}
    parts: dict[str, PartKeeping] = {}
    for key, written in said.parts:
        name = spelled.get(" ".join(key.text.split()).casefold())
        if name is None:
            keys = (*names, *(one.name for one in KeepsFields.all))
            remedies = ways_out(key.text, keys, "the parts and keys are")
            found.append(error(key.span, "unknown-key", f'no part "{key.text}", and no key of keeps', *remedies))
            continue
        parts[name] = PartKeeping(name, _of_part(written), name in apart)
    covered = all(name in parts for name in names if name not in BESIDE) and any(n not in BESIDE for n in names)
    rest = stated(said.rest, None) if said.rest else None if covered else assumed(None)
    made = tuple(parts.values())
    return of_parts(made, rest, freezes) if made else assumed(freezes)


def _of_part(said: PartLife) -> Keeping:
    if isinstance(said, Said) and isinstance(said.value, tuple):
        return Keeping(said.value, None, None, OWN)
    return stated(said, None)


def with_all_parts(recipes: Mapping[str, Recipe]) -> Mapping[str, Recipe]:
    """Every recipe with the lives of what it is made from counted, parts before their users; rings are cut already."""
    done: dict[str, Recipe] = {}
    waiting = list(recipes)
    while waiting:
        key = waiting[-1]
        parts = [part for line in recipes[key].ingredients if (part := line.recipe) in recipes and part not in done]
        if key not in done and not parts:
            done[key] = with_its_parts(recipes[key], done)
        if key in done:
            waiting.pop()
        waiting += [part for part in parts if part]
    return MappingProxyType({key: done[key] for key in recipes})


def with_its_parts(recipe: Recipe, recipes: Mapping[str, Recipe]) -> Recipe:
    """The recipe with what it is made from counted: a part that goes in cold dates the dish, one beside it itself.

    Only lives that are written count; what is cooked again is cooked.
    """
    found: dict[str, PartKeeping] = {}
    for line in recipe.ingredients:
        of = recipes.get(line.recipe or "")
        if of is None or of.keeping.assumed or line.when == "at service":
            continue
        if line.when == "beside" or recipe.put_together_cold:
            found[of.title] = PartKeeping(of.title, of.keeping, line.when == "beside")
    if not found:
        return recipe
    own = recipe.keeping
    together = [("", own), *((one.part, one.keeping) for one in found.values() if not one.apart)]
    parts = (*own.parts, *found.values())
    if len(together) == 1:
        return replace(recipe, keeping=replace(own, parts=parts))
    days = _earliest([life.fridge_days for _, life in together])
    ends = (_first_to_go(together, 0) or own.decided_by[0], _first_to_go(together, 1) or own.decided_by[1])
    return replace(recipe, keeping=replace(own, fridge_days=days or own.fridge_days, parts=parts, decided_by=ends))


def _earliest(days: list[tuple[int, int] | None]) -> tuple[int, int] | None:
    """The shorter of each end; not known when one is not known."""
    known = [pair for pair in days if pair is not None]
    if len(known) < len(days) or not known:
        return None
    return min(low for low, _ in known), min(high for _, high in known)
