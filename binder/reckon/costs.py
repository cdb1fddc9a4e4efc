"""What the week's food costs: what is eaten, by the gram, and what is to be paid, by the pack.

A food without a price makes every sum it is part of a lower bound.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from binder.model.household import Household
from binder.reckon import conversion
from binder.reckon.facts import Batch, Costs, RecipeFacts, Serving
from binder.reckon.recipes import part_share
from binder.reckon.shopping import Bought


def price_per_unit(bought: Bought) -> Fraction | None:
    """Price of one g, mL or piece as purchased: of the packs that are bought, else of the cheapest known pack."""
    counts = [c for c in bought.row.sizes if c.price is not None]
    if counts and len(counts) == len(bought.row.sizes):
        paid = sum((c.price * c.count for c in counts if c.price is not None), Fraction(0))
        return paid / sum((c.size.high * c.count for c in counts), Fraction(0))
    unit = bought.row.need.unit
    sizes = [(pack.price, conversion.purchased_in_unit(bought.food, pack.size, unit)) for pack in bought.food.packs]
    known = [price / size.high for price, size in sizes if price is not None and size is not None]
    return min(known) if known else None


def reckon(
    shopped: tuple[Bought, ...],
    batches: tuple[Batch, ...],
    servings: tuple[Serving, ...],
    facts: Mapping[str, RecipeFacts],
    household: Household,
) -> Costs:
    """Consumed, per portion by recipe, and to pay. A range counts with its upper end."""
    own: dict[str, Fraction] = {}
    fresh: dict[str, Fraction] = {}
    missing: dict[str, None] = {}
    for bought in shopped:
        price = price_per_unit(bought)
        for demand in bought.demands:
            if price is None:
                missing[bought.food.name] = None
                continue
            key, cost = demand.need.facts.key, demand.amount.high * price
            sums = own if demand.need.batch else fresh
            sums[key] = sums.get(key, Fraction(0)) + cost
    unpaid = [b for b in shopped if b.row.cost is None]
    known = [b.row.cost for b in shopped if b.row.cost is not None]
    spent = sum((*own.values(), *fresh.values()), Fraction(0))
    return Costs(
        consumed=spent if own or fresh or not shopped else None,
        per_portion=_per_portion(own, fresh, batches, servings, facts, household),
        to_pay=sum(known, Fraction(0)) if known or not shopped else None,
        currency=household.currency,
        at_least=bool(missing) or bool(unpaid),
        missing=tuple(missing),
    )


def _per_portion(
    own: Mapping[str, Fraction],
    fresh: Mapping[str, Fraction],
    batches: tuple[Batch, ...],
    servings: tuple[Serving, ...],
    facts: Mapping[str, RecipeFacts],
    household: Household,
) -> Mapping[str, Fraction | None]:
    made: dict[str, Fraction] = {}
    eaten: dict[str, Fraction] = {}
    for batch in batches:
        made[batch.recipe] = made.get(batch.recipe, Fraction(0)) + batch.portions_made
    for serving in servings:
        eaten[serving.recipe] = eaten.get(serving.recipe, Fraction(0)) + serving.portions
    found: dict[str, Fraction | None] = {}
    for key in (*made, *(k for k in eaten if k not in made)):
        if key not in found:
            _portion_cost(key, own, fresh, made, eaten, facts, household, found)
    return {key: found[key] for key in sorted(found)}


def _portion_cost(
    key: str,
    own: Mapping[str, Fraction],
    fresh: Mapping[str, Fraction],
    made: Mapping[str, Fraction],
    eaten: Mapping[str, Fraction],
    facts: Mapping[str, RecipeFacts],
    household: Household,
    found: dict[str, Fraction | None],
) -> None:
    """Cost of one portion: its own lines by portions made, what is added fresh by portions eaten, parts by share."""
    found[key] = None
    known: list[Fraction] = []
    if key in own and made.get(key):
        known.append(own[key] / made[key])
    if key in fresh and eaten.get(key):
        known.append(fresh[key] / eaten[key])
    of = facts[key]
    for line in of.ingredients:
        part = line.ingredient.recipe
        if part is None or part not in facts:
            continue
        if part not in found:
            _portion_cost(part, own, fresh, made, eaten, facts, household, found)
        cost, share = found[part], part_share(line.ingredient, facts[part], household)
        if cost is not None and share is not None:
            portions = Fraction(share.high).limit_denominator(10_000) * facts[part].recipe.portions
            known.append(cost * portions / of.recipe.portions)
    found[key] = sum(known, Fraction(0)) if known else None
