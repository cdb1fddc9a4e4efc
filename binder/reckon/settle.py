"""A plan worked out up to its servings: who gets what, made when and kept how; and the rules it must keep.

This much of a plan is cheap, so remedies are tried against it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from fractions import Fraction
from types import MappingProxyType

from binder.model.household import HOME
from binder.model.library import Library
from binder.model.recipe import Recipe
from binder.model.stock import Lot, Stock
from binder.model.week import Week
from binder.problem import Problem
from binder.reckon import (
    allergens,
    avoiding,
    batches,
    demand,
    dishes,
    keeping,
    lot_records,
    nutrition,
    reheating,
    rules,
    sessions,
    tallies,
)
from binder.reckon.batches import Variants
from binder.reckon.facts import Kept, Serving
from binder.reckon.recipe_facts import RecipeFacts
from binder.reckon.sessions import Ends, Placed
from binder.tables import food_kinds, thawing

NO_ENDS: Ends = {}


@dataclass(frozen=True, slots=True)
class Settled:
    """A plan worked out up to its servings: who gets what, made when, kept how; and what is wrong with it."""

    servings: tuple[Serving, ...]
    placed: tuple[Placed, ...]
    variants: Variants
    lots: tuple[Lot, ...]
    lots_left: Mapping[str, Fraction]
    problems: tuple[Problem, ...]


def settle(
    week: Week,
    library: Library,
    facts: Mapping[str, RecipeFacts],
    stock: Stock | None,
    today: date,
    ends: Ends = NO_ENDS,
) -> Settled:
    """Servings and the problems of the plan, without remedies. stock None: an archived week, whose stock is gone."""
    household = library.household
    wanted = demand.expand(week, household)
    lots: tuple[Lot, ...] | None = None
    problems: tuple[Problem, ...] = ()
    if stock is not None:
        lots, problems = dishes.lots_of_dishes(stock, library.recipes, household, today)
    served = dishes.take(week, wanted, lots, library.recipes, household)
    from_stock = {item.wanted.id for item in served.taken}
    cooked = tuple(w for w in served.wanted if w.id not in from_stock)
    placed, misplaced = sessions.assign(cooked, week, household, facts, ends)
    variants = Variants(week, facts, household)
    servings = {p.wanted.id: _serving(p, variants, library) for p in placed}
    servings |= {t.wanted.id: _from_stock(t, variants, library) for t in served.taken}
    ordered = tuple(servings[w.id] for w in sorted(served.wanted, key=lambda w: _when(w, library)))
    return Settled(
        servings=ordered,
        placed=placed,
        variants=variants,
        lots=lots or (),
        lots_left=served.left,
        problems=(*problems, *served.problems, *misplaced, *rules.findings(ordered, household)),
    )


def _when(wanted: demand.Wanted, library: Library) -> tuple[date, int, int]:
    household = library.household
    rank = next(n for n, eater in enumerate(household.eaters) if eater.name == wanted.eater)
    return wanted.date or date.max, household.meal_times[wanted.line.meal], rank


def _serving(item: Placed, variants: Variants, library: Library) -> Serving:
    wanted, storage = item.wanted, item.storage
    variant = variants.of(wanted.recipe, wanted.eater)
    at_service, icy = storage.kept == "at service", storage.kept == "freezer"
    place = library.household.place(wanted.place)
    made_on = wanted.date if at_service else item.session.on if item.session else None
    serving = _eaten(wanted, variant.facts, library)
    return replace(
        serving,
        kept=storage.kept,
        reheat=reheating.at_place(variant.facts.recipe, place, frozen=icy),
        from_frozen=icy and reheating.used_frozen(variant.facts.recipe, place),
        made_on=made_on,
        use_by=storage.use_by,
        pull_on=storage.pull_on,
        session=item.session,
        keeping_note=storage.note,
        stored_at=storage.stored_at,
        taken_on=storage.taken_on,
        keeps_days=storage.days,
        caution=storage.caution,
        parts=keeping.parts_kept(variant.facts.recipe.keeping, storage.caution, made_on, storage.kept)
        if made_on and not at_service
        else (),
        batch=batches.batch_id(wanted.recipe, item.session, variant.cooked) if item.session else "",
    )


def _eaten(wanted: demand.Wanted, facts: RecipeFacts, library: Library) -> Serving:
    """What does not depend on where a portion comes from."""
    portions = float(wanted.portions)
    recipe: Recipe = facts.recipe
    grams, cooked = facts.per_portion.grams, facts.per_portion.cooked_grams
    listed = library.household.allergen_list
    avoids = library.household.eater(wanted.eater).avoids
    words = [word for word in avoids if not allergens.is_allergen(word) or not allergens.in_list(word, listed)]
    return Serving(
        id=wanted.id,
        date=wanted.date,
        meal=wanted.line.meal,
        eater=wanted.eater,
        recipe=wanted.recipe,
        portions=wanted.portions,
        grams=grams * portions if grams is not None else None,
        nutrition=nutrition.times(facts.per_portion.nutrition, portions),
        tallies=tallies.of_portions(recipe.tallies, facts.ingredients, recipe.portions, wanted.portions),
        contains=facts.contains,
        may_contain=facts.may_contain,
        not_known=facts.not_known,
        kept="fridge",
        made_on=None,
        use_by=None,
        pull_on=None,
        place=wanted.place,
        reheat=reheating.at_place(recipe, library.household.place(wanted.place)),
        container=None,
        lot=None,
        line=wanted.line,
        facts=facts,
        cooked_grams=cooked * portions if cooked is not None else None,
        cooked_grams_from=facts.per_portion.cooked_grams_from,
        avoided=MappingProxyType({word: avoiding.foods_that_hold(word, facts) for word in words}),
        avoided_unsure=frozenset(word for word in words if facts.not_known and food_kinds.watched(word)),
    )


def _from_stock(item: dishes.Taken, variants: Variants, library: Library) -> Serving:
    wanted = item.wanted
    facts = lot_records.of_lots(variants.of(wanted.recipe, wanted.eater).facts, item.lots)
    rule, caution = facts.recipe.keeping, library.household.eater(wanted.eater).caution
    serving = _eaten(wanted, facts, library)
    begun = [day for lot in item.lots if (day := lot.made or dishes.start_of(lot))]
    note = keeping.rule_words(rule, caution)
    serving = replace(
        serving,
        made_on=min(begun) if begun else None,
        lot="; ".join(lot.id for lot in item.lots) or None,
        keeping_note=note,
        stored_at=item.lots[0].at if len({lot.at for lot in item.lots}) == 1 else HOME,
        keeps_days=keeping.limit_days(rule, caution),
        caution=caution,
    )
    if item.frozen and reheating.used_frozen(facts.recipe, place := library.household.place(wanted.place)):
        way = reheating.at_place(facts.recipe, place, frozen=True)
        return replace(serving, kept="freezer", reheat=way, from_frozen=True)
    if item.frozen:
        pull_on = wanted.date - timedelta(days=thawing.nights(serving.grams)) if wanted.date else None
        used = max((dishes.days_used(lot) for lot in item.lots), default=0)
        use_by = keeping.thawed_use_by(rule, caution, pull_on, used) if pull_on else None
        return replace(serving, kept="freezer", pull_on=pull_on, use_by=use_by)
    last = [day for lot in item.lots if (day := dishes.use_by_of(lot, facts.recipe, caution))]
    kept: Kept = "cupboard" if all(lot.place == "cupboard" for lot in item.lots) else "fridge"
    return replace(serving, kept=kept, use_by=min(last) if last else None)
