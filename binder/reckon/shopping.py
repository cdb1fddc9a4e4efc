"""What to buy: edible portion to as purchased, less what is on hand, up to whole packs."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction
from math import ceil

from binder.model.food import Food, Pack
from binder.model.household import Household
from binder.model.quantity import Amount, Unit, exactly
from binder.model.stock import Lot
from binder.problem import Problem, warning
from binder.reckon import conversion
from binder.reckon.batches import Need
from binder.reckon.facts import BoughtIn, FromLot, PackCount, ShoppingRow
from binder.reckon.stock import OnHand, amount_in, lots_of
from binder.tables import aisles, everyday

# Taken from a fruit that is bought whole: the juice of two lemons is two lemons.
TAKEN_FROM = (" juice", " zest")
BULK = 100  # of the largest packs; what is beyond is bought by the best of them
# From the tap: SR28 14411 and 14429, water as drinking and as municipal.
FROM_THE_TAP = frozenset({"14411", "14429"})


@dataclass(frozen=True, slots=True)
class Demand:
    """One need as purchased: the amount in the unit its row is bought in."""

    need: Need
    amount: Amount
    day: date

    @property
    def keeps_until(self) -> date:
        """The day until which a lot must keep that is used for it."""
        return max(self.day, self.need.until or self.day)


@dataclass(frozen=True, slots=True)
class Bought:
    """A shopping row with what its price and use are reckoned from."""

    row: ShoppingRow
    food: Food
    demands: tuple[Demand, ...]
    taken: Mapping[str, Amount]  # by lot id
    counted: frozenset[str]  # ids of the lots that could be held against the need


def shop(
    needs: tuple[Need, ...], on_hand: tuple[OnHand, ...], own: tuple[Food, ...], household: Household, first_day: date
) -> tuple[tuple[Bought, ...], tuple[str, ...]]:
    """The shopping list, aisle by aisle, and the foods used without a stated amount (to taste).

    `own` are the household's foods, for the packs of a fruit that only its juice or zest is taken from.
    """
    by_food: dict[str, list[Need]] = {}
    known = {food.name: food for food in (*(need.ingredient.food for need in needs), *own)}
    loose: dict[str, None] = {}
    for written in needs:
        need = _as_bought(written, known)
        food = need.ingredient.food
        if food.row in FROM_THE_TAP:
            continue
        if need.ingredient.measures:
            by_food.setdefault(food.name, []).append(need)
        else:
            loose[food.name] = None
    found = [bought for group in by_food.values() for bought in _of_food(group, on_hand, household, first_day)]
    found.sort(key=lambda b: (aisles.rank(b.row.aisle), b.row.food, b.row.need.unit))
    return tuple(found), tuple(name for name in loose if name not in by_food)


def _as_bought(need: Need, known: Mapping[str, Food]) -> Need:
    """The need with the food that is bought for it: the whole fruit where its juice or zest is counted in pieces."""
    line = need.ingredient
    ending = next((e for e in TAKEN_FROM if line.food.name.endswith(e)), None)
    if ending is None or not line.measures or any(m.unit != "each" for m in line.measures):
        return need
    name = line.food.name.removesuffix(ending)
    whole = known.get(name)
    if whole is None and (item := everyday.lookup(name)):
        whole = known.get(item.name) or Food(item.name, aisle=item.aisle, everyday=item.name)
    return replace(need, ingredient=replace(line, food=whole)) if whole else need


def _of_food(needs: list[Need], on_hand: tuple[OnHand, ...], household: Household, first_day: date) -> list[Bought]:
    """One row, or one for each unit where the food's own measures do not join them."""
    food = needs[0].ingredient.food
    written = [(need, _purchased(need, household)) for need in needs]
    unit = _unit_for(food, written)
    rows: dict[Unit, list[Demand]] = {}
    for need, amount in written:
        if amount is None:
            continue
        turned = (_turned(food, need, amount, unit) if unit else None) or amount
        day = need.session.on if need.session else first_day
        rows.setdefault(turned.unit, []).append(Demand(need, turned, day))
    return [_bought(food, demands, on_hand, household) for demands in rows.values()]


def _purchased(need: Need, household: Household) -> Amount | None:
    """As purchased, at the size used: by weight over the yield; pieces, and what is bought by volume, as they are."""
    line = need.ingredient
    amount = conversion.total_amount(line.measures, line.pack, household.cup)
    pieces = {m.unit for m in line.measures}
    by_volume = amount is not None and amount.unit == "mL" and not _bought_by_volume(line.food)
    if amount is None or by_volume or (amount.unit == "each" and len(pieces) > 1):
        weighed = conversion.weigh_all(line.food, line.measures, line.pack, line.form_words, household.cup)
        if weighed:
            # Thousandths of a gram: published weights are floats, and 0.1 + 0.2 is no weight.
            low, high = (Fraction(round(g, 3)).limit_denominator(1000) for g in (weighed.grams.low, weighed.grams.high))
            amount = Amount(low, high, "g")
    if amount is None:
        return None
    if amount.unit == "g" and not line.as_purchased:
        amount = amount.times(1 / line.food.edible_share)
    return amount.times(need.factor)


def _bought_by_volume(food: Food) -> bool:
    return food.fluid or any(pack.size.unit == "mL" for pack in food.packs)


def _pieces(needs: Iterable[Need]) -> set[str]:
    """The words of what is counted: clove, bunch, each."""
    return {m.unit for need in needs for m in need.ingredient.measures if conversion.unit_of(m.unit) == "each"}


def _turned(food: Food, need: Need, amount: Amount, unit: Unit) -> Amount | None:
    """A need in the unit its row is bought in; parts of a piece (cloves) become pieces by their weight."""
    words = _pieces([need])
    if amount.unit != "each" or (unit == "each" and (not food.packs or words == {"each"})):
        return conversion.purchased_in_unit(food, amount, unit)
    word = next(iter(words)) if len(words) == 1 else "each"
    per = conversion.grams_per_unit(food, word, "", ())
    if per is None:
        return conversion.purchased_in_unit(food, amount, unit) if word == "each" else None
    grams = amount.times(Fraction(per[0]) / food.edible_share)
    return conversion.purchased_in_unit(food, Amount(grams.low, grams.high, "g"), unit)


def _unit_for(food: Food, written: list[tuple[Need, Amount | None]]) -> Unit | None:
    """The unit a food is bought in: that of its packs, else the one all lines share, else grams where they turn."""
    known = [(need, amount) for need, amount in written if amount]
    units = {amount.unit for _, amount in known}
    if food.packs:
        unit = food.packs[0].size.unit
        if all(_turned(food, need, amount, unit) for need, amount in known):
            return unit
    if len(units) == 1 and ("each" not in units or len(_pieces(need for need, _ in known)) <= 1):
        return next(iter(units))
    if all(_turned(food, need, amount, "g") for need, amount in known):
        return "g"
    return None


def _bought(food: Food, demands: list[Demand], on_hand: tuple[OnHand, ...], household: Household) -> Bought:
    unit = demands[0].amount.unit
    need = demands[0].amount
    for demand in demands[1:]:
        need = need.plus(demand.amount)
    have, from_lots, counted = _take(food, demands, on_hand, household, unit)
    taken = {one.lot: one.amount for one in from_lots}
    used = sum((amount.high for amount in taken.values()), Fraction(0))
    missing = max(Fraction(0), need.high - used)
    packs = [p for p in food.packs if p.size.unit == unit]
    counts = cheapest(packs, missing) if packs else ()
    bought = sum((c.size.high * c.count for c in counts), Fraction(0)) if packs else missing
    if not packs and unit == "each":
        bought = Fraction(ceil(missing))  # Round up: half an onion cannot be bought.
    row = ShoppingRow(
        food=food.name,
        aisle=food.aisle,
        need=need,
        on_hand=exactly(have, unit),
        buy=exactly(missing, unit),
        packs=sum(c.count for c in counts) if packs else None,
        pack=counts[0].size if len(counts) == 1 else None,
        sizes=counts,
        bought=exactly(bought, unit),
        left_over=exactly(bought - missing, unit),
        cost=_cost(counts, missing, bool(packs)),
        for_=tuple(dict.fromkeys(d.need.facts.key for d in demands)),
        store=food.store or None,
        source=food,
        written=tuple(m.times(d.need.factor) for d in demands for m in d.need.ingredient.measures),
        from_lots=from_lots,
        container=None if packs else _container(demands, need),
    )
    return Bought(row, food, tuple(demands), taken, counted)


def _container(demands: list[Demand], need: Amount) -> BoughtIn | None:
    """The can (jar, pack) that all lines are written in, where its one stated size accounts for the whole need."""
    sizes = {d.need.ingredient.pack for d in demands}
    written = [m.times(d.need.factor) for d in demands for m in d.need.ingredient.measures]
    words = {m.unit for m in written}
    size = next(iter(sizes))
    if size is None or len(sizes) > 1 or len(words) > 1 or conversion.unit_of(written[0].unit) != "each":
        return None
    one = conversion.amount_of(size, None)
    whole = sum((m.high for m in written), Fraction(0)) * one.high
    return BoughtIn(words.pop(), size, one.high) if (whole, one.unit) == (need.high, need.unit) else None


def _take(
    food: Food, demands: list[Demand], on_hand: tuple[OnHand, ...], household: Household, unit: Unit
) -> tuple[Fraction, tuple[FromLot, ...], frozenset[str]]:
    """What is on hand when first needed, what the needs take day by day, first-expired first; which lots count."""
    lots, words = lots_of(food, on_hand), _pieces(d.need for d in demands)
    piece = next(iter(words)) if len(words) == 1 and not food.packs else "each"
    left = {
        item.lot.id: amount.low
        for item in lots
        if (amount := amount_in(item.lot, food, unit, household.cup, piece)) is not None
    }
    ordered = sorted(demands, key=lambda d: d.keeps_until)
    have = sum((left[i.lot.id] for i in lots if i.lot.id in left and i.usable_on(ordered[0].keeps_until)), Fraction(0))
    taken: dict[str, list[tuple[Fraction, str]]] = {}
    for demand in ordered:
        rest = demand.amount.high
        for item in lots:
            if item.lot.id in left and item.usable_on(demand.keeps_until) and rest > 0:
                part = min(rest, left[item.lot.id])
                left[item.lot.id] -= part
                if part > 0:
                    taken.setdefault(item.lot.id, []).append((part, demand.need.facts.key))
                rest -= part
    return have, tuple(_from_lot(lot, parts, unit) for lot, parts in taken.items()), frozenset(left)


def _from_lot(lot: str, parts: list[tuple[Fraction, str]], unit: Unit) -> FromLot:
    whole = exactly(sum((part for part, _ in parts), Fraction(0)), unit)
    return FromLot(lot, whole, tuple(dict.fromkeys(key for _, key in parts)))


_HOLDERS = frozenset({"can", "jar", "pack", "bottle"})  # a tub, a bag and a carton are read as packs
_SIZE = "write what is there in g or mL, or the size of one: 1 jar (200 g), half a tub (500 g)"


def not_counted(shopped: tuple[Bought, ...], on_hand: tuple[OnHand, ...]) -> Iterator[Problem]:
    """Lots of what is needed, in a measure of which no weight is known, and lots in jars or tubs of no known size,
    needed or not: they count for nothing, and it is said."""
    counted = frozenset(lot for bought in shopped for lot in bought.counted)
    needed = {bought.food.name: bought.row.need.unit for bought in shopped}
    for item in on_hand:
        unit = needed.get(item.lot.food.name) if item.lot.food else None
        if unit and item.lot.id not in counted:
            measure = "pieces" if unit == "each" else unit
            message = f'"{item.lot.text}" cannot be counted against what is needed in {measure}; it is left out'
            remedy = "write what it weighs, or the weight of its measure in foods.yaml, `weights: {1 cup: 60 g}`"
            yield warning(item.lot.span, "stock-unclear", message, _SIZE if _of_no_size(item.lot) else remedy)
        elif unit is None and _of_no_size(item.lot):
            message = f'"{item.lot.text}": how much one of them holds is not known, so it counts for no dish'
            yield warning(item.lot.span, "stock-unclear", message, _SIZE)


def _of_no_size(lot: Lot) -> bool:
    """Whether a lot is counted in jars, tubs or the like of which nothing says what one holds."""
    held = any(measure.unit in _HOLDERS for measure in lot.measures)
    if not held or lot.pack is not None or lot.food is None:
        return False
    if lot.food.basis.kind == "unknown" and not lot.food.everyday:
        return False  # No food is known by that name, and that is said already.
    return conversion.weigh_all(lot.food, lot.measures, None) is None


def _cost(counts: tuple[PackCount, ...], missing: Fraction, packed: bool) -> Fraction | None:
    if missing == 0:
        return Fraction(0)
    if not packed or any(c.price is None for c in counts):
        return None
    return sum((c.price * c.count for c in counts if c.price is not None), Fraction(0))


def cheapest(packs: list[Pack], missing: Fraction) -> tuple[PackCount, ...]:
    """The combination of pack sizes that covers what is missing for the least money, then with the least left over.

    Where a price is missing the least left over counts alone; among equals the fewest packs, the larger first. What is
    best for an amount is worked out once for each amount that packs can leave, the smallest first.
    """
    if missing <= 0:
        return ()
    sizes = sorted(packs, key=lambda p: -p.size.high)
    holds = [pack.size.high for pack in sizes]
    priced = all(pack.price is not None for pack in sizes)
    prices = [pack.price or Fraction(0) if priced else Fraction(0) for pack in sizes]
    counts = [0] * len(sizes)
    if missing > BULK * holds[0]:
        # By the hundred the pack that gives most for its money is right but for the last few.
        index = min(range(len(sizes)), key=lambda n: (prices[n] / holds[n], n))
        counts[index] = int((missing - BULK * holds[0]) / holds[index])
        missing -= counts[index] * holds[index]
    best: dict[Fraction, tuple[tuple[Fraction, Fraction, int], int]] = {}
    for rest in _may_be_left(missing, holds):
        found = []
        for index, (one, price) in enumerate(zip(holds, prices, strict=True)):
            after = rest - one
            money, over, count = best[after][0] if after > 0 else (Fraction(0), -after, 0)
            found.append(((price + money, over, count + 1), index))
        best[rest] = min(found)
    while missing > 0:
        index = best[missing][1]
        counts[index] += 1
        missing -= holds[index]
    return tuple(PackCount(p.size, n, p.price) for n, p in zip(counts, sizes, strict=True) if n)


def _may_be_left(missing: Fraction, holds: list[Fraction]) -> list[Fraction]:
    """Every amount above zero that some packs leave to be covered, the smallest first."""
    found, latest = {missing}, [missing]
    while latest:
        latest = list({rest - one for rest in latest for one in holds if rest > one} - found)
        found.update(latest)
    return sorted(found)
