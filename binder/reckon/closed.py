"""A closed week keeps what it was: its figures, its cost, and no problems of a plan that is over."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType

from binder.model.food import NUTRIENTS
from binder.model.household import Household
from binder.model.week import Closed, ClosedRecipe
from binder.reckon import nutrition, totals
from binder.reckon.facts import Serving, WeekFacts
from binder.reckon.recipe_facts import Nutrition, RecipeFacts


def portions_then(facts: WeekFacts, editions: Mapping[str, str]) -> tuple[ClosedRecipe, ...]:
    """What each portion of a week is made of; for those with substitutions of their own a row more."""
    made: list[ClosedRecipe] = []
    for key in dict.fromkeys((*(b.recipe for b in facts.batches), *(s.recipe for s in facts.servings))):
        base = facts.recipes[key]
        made.append(_of(base, (), facts, editions))
        others: dict[int, tuple[RecipeFacts, dict[str, None]]] = {}
        for serving in facts.servings:
            if serving.recipe == key and serving.facts is not None and serving.facts.ingredients != base.ingredients:
                others.setdefault(id(serving.facts), (serving.facts, {}))[1][serving.eater] = None
        made += [_of(of, tuple(eaters), facts, editions) for of, eaters in others.values()]
    return tuple(made)


def _of(of: RecipeFacts, eaters: tuple[str, ...], facts: WeekFacts, editions: Mapping[str, str]) -> ClosedRecipe:
    sums = of.per_portion.nutrition
    return ClosedRecipe(
        recipe=of.key,
        eaters=eaters,
        edition=editions.get(of.key, ""),
        grams=of.per_portion.grams,
        cooked_grams=of.per_portion.cooked_grams,
        per_portion=MappingProxyType(dict(zip(NUTRIENTS, sums.values, strict=True))),
        at_least=sums.at_least,
        contains=of.contains,
        may_contain=of.may_contain,
        not_known=of.not_known,
        cost=facts.cost.per_portion.get(of.key) if not eaters else None,
    )


def as_it_was(facts: WeekFacts, closed: Closed | None, household: Household) -> WeekFacts:
    """The facts of a closed week with the figures recorded when it was closed, and without problems."""
    quiet = replace(facts, problems=())
    if closed is None:
        return quiet
    servings = tuple(_then(serving, closed.recipes) for serving in facts.servings)
    cost = facts.cost
    if closed.consumed is not None or closed.to_pay is not None:
        per_portion = {r.recipe: r.cost for r in closed.recipes if not r.eaters and r.cost is not None}
        cost = replace(
            cost,
            consumed=closed.consumed,
            to_pay=closed.to_pay,
            at_least=closed.cost_at_least,
            currency=closed.currency or cost.currency,
            per_portion=MappingProxyType({**cost.per_portion, **per_portion}),
            consumed_lowest=None,
            lowest=MappingProxyType({k: v for k, v in cost.lowest.items() if k not in per_portion}),
        )
    return replace(quiet, servings=servings, cost=cost, day_totals=totals.day_totals(servings, household))


def _then(serving: Serving, recorded: tuple[ClosedRecipe, ...]) -> Serving:
    """A serving with the figures of its portion then."""
    rows = [row for row in recorded if row.recipe == serving.recipe and (not row.eaters or serving.eater in row.eaters)]
    row = max(rows, key=lambda one: bool(one.eaters), default=None)
    if row is None:
        return serving
    portions = float(serving.portions)
    missing = {name: serving.nutrition.missing.get(name, ()) for name in NUTRIENTS if name in row.at_least}
    each = Nutrition(tuple(row.per_portion.get(name) for name in NUTRIENTS), row.at_least, MappingProxyType(missing))
    return replace(
        serving,
        nutrition=nutrition.times(each, portions),
        grams=row.grams * portions if row.grams is not None else None,
        cooked_grams=row.cooked_grams * portions if row.cooked_grams is not None else serving.cooked_grams,
        contains=row.contains,
        may_contain=row.may_contain,
        not_known=row.not_known,
    )
