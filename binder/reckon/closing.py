"""Closing a week: what was planned of each dish, what became of it, and what that leaves on hand."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction

from binder.model.library import Library
from binder.model.recipe import Ingredient
from binder.model.stock import Lot, Stock
from binder.model.week import ClosedDish, Source, Week
from binder.reckon import batches, demand, dishes, shopping
from binder.reckon import stock as on_hand
from binder.reckon.batches import Variants
from binder.reckon.conversion import unit_of
from binder.reckon.facts import Batch, Serving, WeekFacts
from binder.reckon.past_facts import ToClose
from binder.reckon.recipe_facts import Allergens, RecipeFacts
from binder.reckon.shopping import Bought
from binder.reckon.stock import OnHand, amount_in

NONE = Fraction(0)


@dataclass(frozen=True, slots=True)
class Row:
    """One dish as planned. `needed` portions are eaten (or go into other dishes) when all goes as planned.

    `allergens` are those of a batch that a substitution made different; `place` is where what is left is kept.
    """

    recipe: str
    which: int
    source: Source
    made_on: date | None
    planned: Fraction
    needed: Fraction
    place: str = "fridge"
    allergens: Allergens | None = None
    gives: tuple[Ingredient, ...] = ()
    batch: Batch | None = None
    lots: tuple[Lot, ...] = ()

    @property
    def name(self) -> str:
        return self.recipe if self.which == 1 else f"{self.recipe}/{self.which}"


def rows(facts: WeekFacts, recipes: Mapping[str, RecipeFacts], stock: Stock | None) -> tuple[Row, ...]:
    """The dishes of a week: session by session, then what is made at service, then what comes from stock."""
    found = [_batch_row(batch, facts, recipes) for batch in facts.batches]
    fresh: dict[str, list[Serving]] = {}
    stored: dict[str, list[Serving]] = {}
    for serving in facts.servings:
        if serving.kept == "at service":
            fresh.setdefault(serving.recipe, []).append(serving)
        elif serving.lot is not None:
            stored.setdefault(serving.recipe, []).append(serving)
    found += [_served_row(key, "service", servings) for key, servings in fresh.items()]
    lots = {lot.id: lot for lot in stock.lots} if stock else {}
    for key, servings in stored.items():
        named = dict.fromkeys(name for serving in servings for name in (serving.lot or "").split("; "))
        row = _served_row(key, "stock", servings)
        found.append(replace(row, lots=tuple(lots[name] for name in named if name in lots)))
    seen: dict[str, int] = {}
    numbered = []
    for row in found:
        seen[row.recipe] = seen.get(row.recipe, 0) + 1
        numbered.append(replace(row, which=seen[row.recipe]))
    return tuple(numbered)


def asked(found: tuple[Row, ...], servings: tuple[Serving, ...]) -> tuple[ToClose, ...]:
    """What the pages ask about each row."""
    return tuple(
        ToClose(
            one.recipe, one.which, one.source, one.made_on, one.planned, tuple(g.food.name for g in one.gives),
            _eaters_of(one, servings),
        )
        for one in found
    )  # fmt: skip


def _eaters_of(row: Row, servings: tuple[Serving, ...]) -> tuple[str, ...]:
    """Who eats of a row: of its batch, where it was made in a session."""
    of_dish = [serving for serving in servings if serving.recipe == row.recipe]
    if row.batch:
        of_dish = [serving for serving in of_dish if serving.batch == row.batch.id] or of_dish
    return tuple(dict.fromkeys(serving.eater for serving in of_dish))


def _batch_row(batch: Batch, facts: WeekFacts, recipes: Mapping[str, RecipeFacts]) -> Row:
    of = batch.facts
    own = of.allergens if of is not None and of is not recipes.get(batch.recipe) else None
    base = recipes.get(batch.recipe)
    if own and base and (own.contains, own.may_contain) == (base.allergens.contains, base.allergens.may_contain):
        own = None
    kept = {serving.kept for serving in facts.servings if serving.batch == batch.id}
    return Row(
        recipe=batch.recipe,
        which=1,
        source="session",
        made_on=batch.made_on,
        planned=batch.portions_made,
        needed=batch.portions_needed,
        place="cupboard" if kept == {"cupboard"} else "fridge",
        allergens=own,
        gives=of.recipe.gives if of else (),
        batch=batch,
    )


def _served_row(key: str, source: Source, servings: list[Serving]) -> Row:
    portions = sum((serving.portions for serving in servings), NONE)
    days = [serving.date for serving in servings if serving.date]
    place = "cupboard" if {serving.kept for serving in servings} == {"cupboard"} else "fridge"
    return Row(key, 1, source, max(days, default=None) if source == "service" else None, portions, portions, place)


# ---- answers ----


def settled(row: Row, said: ClosedDish | None, before: ClosedDish | None) -> ClosedDish:
    """What became of a dish: what is said now, else what was said before, else as planned.

    What nobody said to be eaten follows from the rest: made, less what is left, frozen and thrown away; the surplus of
    the plan counts as left.
    """
    now, old = said or ClosedDish(row.recipe), before or ClosedDish(row.recipe)
    made = _first(now.made, old.made, row.planned)
    thrown, frozen = _first(now.thrown, old.thrown, NONE), _first(now.frozen, old.frozen, NONE)
    surplus = min(made - row.needed, made - (now.eaten or NONE)) - frozen - thrown
    left = _first(now.left, old.left, max(NONE, surplus))
    follows = max(NONE, made - left - frozen - thrown)
    changed = any(value is not None for value in (now.made, now.left, now.frozen, now.thrown))
    eaten = now.eaten if now.eaten is not None else follows if changed or old.eaten is None else old.eaten
    keeps = now.gives if now.gives is not None else old.gives
    return ClosedDish(
        recipe=row.recipe,
        which=row.which,
        source=row.source,
        made_on=old.made_on or row.made_on,
        planned=_first(old.planned, row.planned),
        made=made,
        eaten=eaten,
        left=left,
        frozen=frozen,
        thrown=thrown,
        why=now.why or (old.why if thrown else ""),
        weighs_g=now.weighs_g if now.weighs_g is not None else old.weighs_g,
        gives=(keeps is not False) if row.gives else None,
        left_by=now.left_by if now.left_by is not None else old.left_by,
    )


def _first(*values: Fraction | None) -> Fraction:
    return next((value for value in values if value is not None), NONE)


def accounted(dish: ClosedDish) -> Fraction:
    """Portions made less those that something is said of: above zero some are not accounted for, below too many are."""
    gone = (dish.eaten, dish.left, dish.frozen, dish.thrown)
    return (dish.made or NONE) - sum((value or NONE for value in gone), NONE)


# ---- what is left on hand ----


def remaining(
    week: Week,
    library: Library,
    recipes: Mapping[str, RecipeFacts],
    facts: WeekFacts,
    found: tuple[tuple[Row, ClosedDish], ...],
) -> Mapping[str, Fraction]:
    """The share of each lot that the week took from that is still there, by lot id: 0 is used up."""
    day = week.first_day
    left = {lot: max(NONE, 1 - share) for lot, share in _foods_taken(week, library, recipes, facts, found, day).items()}
    return left | _dishes_left(week, library, found, day)


def _foods_taken(
    week: Week,
    library: Library,
    recipes: Mapping[str, RecipeFacts],
    facts: WeekFacts,
    found: tuple[tuple[Row, ClosedDish], ...],
    day: date,
) -> dict[str, Fraction]:
    """The share of each lot of a food that went into what was really made."""
    foods, shopped = shopped_as_made(week, library, recipes, facts, found, day)
    taken: dict[str, Fraction] = {}
    for bought in shopped:
        for item in foods:
            share = _share(item, bought, library)
            if share:
                taken[item.lot.id] = taken.get(item.lot.id, NONE) + share
    return taken


def shopped_as_made(
    week: Week,
    library: Library,
    recipes: Mapping[str, RecipeFacts],
    facts: WeekFacts,
    found: tuple[tuple[Row, ClosedDish], ...],
    day: date,
) -> tuple[tuple[OnHand, ...], tuple[Bought, ...]]:
    """What was on hand, and the shopping list of what was really made."""
    household = library.household
    ratios = {row.batch.id if row.batch else row.name: ratio_of(row, dish) for row, dish in found}
    names = {(row.recipe, row.source): row.name for row, _ in found if not row.batch}
    made = tuple(replace(b, factor=b.factor * ratios.get(b.id, Fraction(1))) for b in facts.batches)
    served = []
    for serving in facts.servings:
        source: Source = "service" if serving.kept == "at service" else "stock" if serving.lot else "session"
        name = serving.batch if source == "session" else names.get((serving.recipe, source), "")
        served.append(replace(serving, portions=serving.portions * ratios.get(name, Fraction(1))))
    needs = batches.needs(made, tuple(served), Variants(week, recipes, household))
    foods, _ = on_hand.foods_on_hand(library.stock, day)
    shopped, _ = shopping.shop(tuple(n for n in needs if n.factor), foods, library.foods, household, day)
    return foods, shopped


def ratio_of(row: Row, dish: ClosedDish) -> Fraction:
    """What was made, as a share of what was planned."""
    return (dish.made or NONE) / row.planned if row.planned else Fraction(1)


def _share(item: OnHand, bought: Bought, library: Library) -> Fraction | None:
    """What a shopping row takes of a lot, as a share of it."""
    taken = bought.taken.get(item.lot.id)
    if taken is None:
        return None
    written = [measure.unit for demand in bought.demands for measure in demand.need.ingredient.measures]
    words = {unit for unit in written if unit_of(unit) == "each"}
    piece = next(iter(words)) if len(words) == 1 and not bought.food.packs else "each"
    whole = amount_in(item.lot, bought.food, taken.unit, library.household.cup, piece)
    return min(Fraction(1), taken.low / whole.low) if whole and whole.low else Fraction(1)


def _dishes_left(
    week: Week, library: Library, found: tuple[tuple[Row, ClosedDish], ...], day: date
) -> dict[str, Fraction]:
    """The share that is left of each lot of a dish, first-expired first-out, also when more or less was taken."""
    household = library.household
    lots, _ = dishes.lots_of_dishes(library.stock, library.recipes, household, day)
    wanted = demand.expand(week, household)
    left = dishes.take(week, wanted, lots, library.recipes, household).left
    shares: dict[str, Fraction] = {}
    for row, dish in found:
        if row.source != "stock":
            continue
        of_recipe = [lot for lot in lots if lot.recipe == row.recipe]
        # First what the plan took of each lot, then, when more was taken, what it left in them.
        stages = [(lot, dishes.portions_of(lot) - left[lot.id]) for lot in of_recipe]
        stages += [(lot, left[lot.id]) for lot in of_recipe]
        rest, gone = dish.made or NONE, dict.fromkeys((lot.id for lot in of_recipe), NONE)
        for lot, most in stages:
            part = min(rest, most)
            gone[lot.id] += part
            rest -= part
        shares |= {lot.id: 1 - gone[lot.id] / dishes.portions_of(lot) for lot in of_recipe if gone[lot.id] > 0}
    return shares
