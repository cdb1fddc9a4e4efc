"""What the week's food costs: what is eaten, by the gram, and what is to be paid, by the pack.

A food without a price makes every sum it is part of a lower bound.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from binder.model.household import Household
from binder.reckon import conversion
from binder.reckon.facts import Batch, Costs, Serving
from binder.reckon.recipe_facts import RecipeFacts
from binder.reckon.recipes import part_share
from binder.reckon.shopping import Bought

End = Literal["high", "low"]  # of a range
ENDS: tuple[End, End] = ("high", "low")


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
    """Consumed, per portion by recipe, and to pay. A range counts with its upper end; `lowest` with its lower end."""
    prices = tuple((bought, price_per_unit(bought)) for bought in shopped)
    missing = tuple(dict.fromkeys(b.food.name for b, price in prices if price is None and b.demands))
    unpaid = [b for b in shopped if b.row.cost is None]
    known = [b.row.cost for b in shopped if b.row.cost is not None]
    most, least = (_sums(prices, end, batches, servings, facts, household) for end in ENDS)
    return Costs(
        consumed=most.spent if most.own or most.fresh or not shopped else None,
        per_portion=_per_portion(most),
        to_pay=sum(known, Fraction(0)) if known or not shopped else None,
        currency=household.currency,
        at_least=bool(missing) or bool(unpaid),
        missing=missing,
        consumed_lowest=least.spent if least.own or least.fresh else None,
        lowest=_per_portion(least),
    )


@dataclass(frozen=True, slots=True)
class _Sums:
    """What was spent on each recipe by its key, in what is cooked (own) and what is added (fresh); and portions."""

    own: Mapping[str, Fraction]
    fresh: Mapping[str, Fraction]
    made: Mapping[str, Fraction]
    eaten: Mapping[str, Fraction]
    from_stock: frozenset[str]  # nothing of it is made this week
    facts: Mapping[str, RecipeFacts]
    household: Household
    end: End

    @property
    def spent(self) -> Fraction:
        return sum((*self.own.values(), *self.fresh.values()), Fraction(0))


def _sums(
    prices: tuple[tuple[Bought, Fraction | None], ...],
    end: End,
    batches: tuple[Batch, ...],
    servings: tuple[Serving, ...],
    facts: Mapping[str, RecipeFacts],
    household: Household,
) -> _Sums:
    own: dict[str, Fraction] = {}
    fresh: dict[str, Fraction] = {}
    for bought, price in prices:
        for demand in bought.demands if price is not None else ():
            key, amount = demand.need.facts.key, demand.amount.high if end == "high" else demand.amount.low
            sums = own if demand.need.batch else fresh
            sums[key] = sums.get(key, Fraction(0)) + amount * (price or 0)
    made: dict[str, Fraction] = {}
    eaten: dict[str, Fraction] = {}
    for batch in batches:
        made[batch.recipe] = made.get(batch.recipe, Fraction(0)) + batch.portions_made
    for serving in servings:
        eaten[serving.recipe] = eaten.get(serving.recipe, Fraction(0)) + serving.portions
    from_stock = frozenset(eaten) - frozenset(made) - {s.recipe for s in servings if s.lot is None}
    return _Sums(own, fresh, made, eaten, from_stock, facts, household, end)


def _per_portion(sums: _Sums) -> Mapping[str, Fraction | None]:
    found: dict[str, Fraction | None] = {}
    for key in (*sums.made, *(k for k in sums.eaten if k not in sums.made)):
        if key not in found:
            _portion_cost(key, sums, found)
    return {key: found[key] for key in sorted(found)}


def _portion_cost(key: str, sums: _Sums, found: dict[str, Fraction | None]) -> None:
    """Cost of one portion: its own lines by portions made, what is added fresh by portions eaten, parts by share.

    Of a dish from stock only what is added now: the parts that went into it were paid for when it was made.
    """
    found[key] = None
    known: list[Fraction] = []
    if key in sums.own and sums.made.get(key):
        known.append(sums.own[key] / sums.made[key])
    if key in sums.fresh and sums.eaten.get(key):
        known.append(sums.fresh[key] / sums.eaten[key])
    of = sums.facts[key]
    for line in of.ingredients:
        part = line.ingredient.recipe
        if part is None or part not in sums.facts or (key in sums.from_stock and line.when == "cooked"):
            continue
        if part not in found:
            _portion_cost(part, sums, found)
        cost, share = found[part], part_share(line.ingredient, sums.facts[part], sums.household)
        if cost is not None and share is not None:
            taken = Fraction(share.high if sums.end == "high" else share.low).limit_denominator(10_000)
            portions = taken * sums.facts[part].recipe.portions
            known.append(cost * portions / of.recipe.portions)
    found[key] = sum(known, Fraction(0)) if known else None
