"""How long a dish or a food keeps: as written, as the chart says, as its foods do, or as cooked leftovers."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from binder.check.declare import Entry, Said
from binder.check.fields import KeepsFields
from binder.check.table_food import of_row
from binder.model.food import Food, Keeping
from binder.tables import keeping

OWN = "the household's own"


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
    made = Keeping(
        _earliest([life.fridge_days for life in known]),
        _earliest([life.freezer_days for life in known]),
        False
        if any(life.freezes is False for life in known)
        else None
        if any(life.freezes is None for life in known)
        else True,
        f"as its food keeps ({sources})",
        cupboard_days=_earliest([life.cupboard_days for life in known]),
        thawed_days=_earliest([life.thawed_days or life.fridge_days for life in known]),
    )
    return with_freezes(made, freezes)


def _earliest(days: list[tuple[int, int] | None]) -> tuple[int, int] | None:
    """The shorter of each end; not known when one is not known."""
    known = [pair for pair in days if pair is not None]
    if len(known) < len(days) or not known:
        return None
    return min(low for low, _ in known), min(high for _, high in known)
