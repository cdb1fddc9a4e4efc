"""Portions of dishes on hand: which lots the week's `already` lines eat, first-expired first-out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from fractions import Fraction

from binder.model.household import HOME, Household
from binder.model.recipe import Recipe
from binder.model.stock import Lot, Stock
from binder.model.week import Already, Week
from binder.problem import Problem, error, warning
from binder.reckon import keeping, reheating
from binder.reckon.demand import Wanted
from binder.reckon.words import counted, day_in_words


@dataclass(frozen=True, slots=True)
class Taken:
    """A wanted portion served from stock: the lots, oldest first; () when the week is archive and its stock is gone."""

    wanted: Wanted
    lots: tuple[Lot, ...]

    @property
    def frozen(self) -> bool:
        return not self.lots or any(lot.place == "freezer" for lot in self.lots)


def portions_of(lot: Lot) -> Fraction:
    """The portions in a lot of a dish."""
    return sum((m.low for m in lot.measures), Fraction(0))


def start_of(lot: Lot) -> date | None:
    """The day its count starts: made, opened or thawed, the latest thing that is known to start one."""
    return lot.thawed or lot.made or lot.opened


def days_used(lot: Lot) -> int:
    """The days of its keeping time that went by before a lot was frozen; freezing stops the count."""
    return max(0, (lot.frozen - lot.made).days) if lot.frozen and lot.made else 0


def use_by_of(lot: Lot, recipe: Recipe, caution: str) -> date | None:
    """The last day of a refrigerated lot of a dish; None: not known."""
    begun = start_of(lot)
    days = keeping.limit_days(recipe.keeping, caution)
    by_rule = begun + timedelta(days=days) if begun and days is not None else None
    if lot.thawed:
        by_rule = keeping.thawed_use_by(recipe.keeping, caution, lot.thawed, days_used(lot))
    dates = [day for day in (by_rule, lot.best_before) if day]
    return min(dates) if dates else None


def best_until(lot: Lot, recipe: Recipe, caution: str) -> date | None:
    """The last day a frozen lot is at its best; None: not known."""
    begun = lot.frozen or lot.made
    days = keeping.freezer_days(recipe.keeping, caution)
    by_rule = begun + timedelta(days=days) if begun and days is not None else None
    dates = [day for day in (by_rule, lot.best_before) if day]
    return min(dates) if dates else None


def expiry(lot: Lot, recipe: Recipe, caution: str) -> date:
    """The day that orders lots; what has no date stands last."""
    known = best_until(lot, recipe, caution) if lot.place == "freezer" else use_by_of(lot, recipe, caution)
    return known or date.max


def lots_of_dishes(
    stock: Stock, recipes: Mapping[str, Recipe], household: Household, today: date
) -> tuple[tuple[Lot, ...], tuple[Problem, ...]]:
    """The lots of dishes that are on hand, first-expired first, and what is past its time.

    A refrigerated lot past its use-by is not on hand; a frozen one past its best is, and is said.
    """
    problems: list[Problem] = []
    found: list[Lot] = []
    for lot in stock.lots:
        recipe = recipes.get(lot.recipe) if lot.recipe else None
        if recipe is None:
            continue
        if lot.place == "freezer":
            best = best_until(lot, recipe, household.caution)
            if best and best < today:
                problems.append(past_best(lot, best))
            found.append(lot)
            continue
        last = use_by_of(lot, recipe, household.caution)
        if last and last < today:
            problems.append(past_use_by(lot, last, _why(lot, last, recipe, household.caution)))
        else:
            found.append(lot)
    found.sort(key=lambda lot: (expiry(lot, recipes[lot.recipe or ""], household.caution), lot.span.line))
    return tuple(found), tuple(problems)


def _why(lot: Lot, last: date, recipe: Recipe, caution: str) -> str:
    """What the last day of a refrigerated dish rests on: `made 2026-05-30, it keeps 4 days`."""
    days = keeping.limit_days(recipe.keeping, caution)
    if last == lot.best_before or days is None:
        return "best before"
    limit = f"it keeps {counted(days, 'day')}, {caution}"
    if lot.thawed:
        return f"thawed {lot.thawed.isoformat()}; {limit}, less what was used up before it was frozen"
    begun = start_of(lot)
    return f"made {begun.isoformat()}; {limit}" if begun else limit


def past_use_by(lot: Lot, last: date, why: str = "") -> Problem:
    """A refrigerated lot past its last day; `why` says what that day rests on."""
    rests = f" ({why})" if why else ""
    return warning(
        lot.span,
        "past-use-by",
        f"{lot.text}: its last day was {day_in_words(last)}{rests}; "
        "what is past its time in the refrigerator is not counted as on hand, so the plan buys it anew",
        "throw it away and take the line out",
        "correct its date, where the pack or its lid has another",
        *(() if lot.frozen or lot.thawed else ("if it was frozen before that day, write the line under `freezer:`",)),
    )


def past_best(lot: Lot, best: date, why: str = "") -> Problem:
    """A lot of the freezer or the cupboard past its best: quality, not health."""
    rests = f" ({why})" if why else ""
    return warning(
        lot.span,
        "past-best",
        f"{lot.text}: past its best since {day_in_words(best)}{rests}. That is a date for quality, not for health: "
        "it is still counted as on hand and used first",
        "look at it and use it first, or throw it away and take the line out",
    )


@dataclass(frozen=True, slots=True)
class Served:
    """What stock serves, every wanted portion, the portions left of each lot id, and `stock-short` problems.

    A portion that stock covers in part stands parted in two among the wanted ones.
    """

    taken: tuple[Taken, ...]
    wanted: tuple[Wanted, ...]
    left: Mapping[str, Fraction]
    problems: tuple[Problem, ...]


def take(
    week: Week,
    wanted: tuple[Wanted, ...],
    lots: tuple[Lot, ...] | None,
    recipes: Mapping[str, Recipe],
    household: Household,
) -> Served:
    """Serve the earliest meals of each dish that `already` names from stock.

    lots None: an archived week, whose stock is gone; its `already` is taken at its word.
    """
    left = {lot.id: portions_of(lot) for lot in lots or ()}
    parted = list(wanted)
    taken: dict[str, Taken] = {}
    problems: list[Problem] = []
    for already in week.already:
        problems.extend(_take_line(already, parted, lots, recipes, household, left, taken))
    served = tuple(taken[item.id] for item in parted if item.id in taken)
    return Served(served, tuple(parted), left, tuple(problems))


def _take_line(
    already: Already,
    wanted: list[Wanted],
    lots: tuple[Lot, ...] | None,
    recipes: Mapping[str, Recipe],
    household: Household,
    left: dict[str, Fraction],
    taken: dict[str, Taken],
) -> list[Problem]:
    meals = [w for w in wanted if w.recipe == already.recipe and w.id not in taken]
    order = household.meal_times
    meals.sort(key=lambda w: (w.date or date.max, order[w.line.meal], wanted.index(w)))
    short = Fraction(0)
    for meal in _covered(meals, already.portions, wanted):
        used = () if lots is None else _from_lots(meal, lots, recipes[already.recipe], household, left)
        if used is None:
            short += meal.portions
        else:
            taken[meal.id] = Taken(meal, used)
    on_hand = sum((portions_of(lot) for lot in lots or () if lot.recipe == already.recipe), Fraction(0))
    if lots is not None and (short > 0 or already.portions > on_hand):
        return [_stock_short(already, on_hand, short, recipes)]
    return []


def _covered(meals: list[Wanted], portions: Fraction, wanted: list[Wanted]) -> list[Wanted]:
    """The earliest meals that so many portions cover whole; with what is left over, part of the earliest other one."""
    rest, covered = portions, {}
    for meal in meals:
        if meal.portions <= rest:
            covered[meal.id] = meal
            rest -= meal.portions
    over = next((meal for meal in meals if meal.id not in covered), None)
    if rest > 0 and over is not None:
        covered[over.id] = _part(wanted, over, rest)
    return [covered[meal.id] for meal in meals if meal.id in covered]


def _part(wanted: list[Wanted], meal: Wanted, portions: Fraction) -> Wanted:
    """The part of a meal that stock still covers; the rest of it stands behind it, to be cooked."""
    at = wanted.index(meal)
    first = replace(meal, portions=portions)
    wanted[at : at + 1] = [first, replace(meal, id=f"{meal.id}-cooked", portions=meal.portions - portions)]
    return first


def _from_lots(
    meal: Wanted, lots: tuple[Lot, ...], recipe: Recipe, household: Household, left: dict[str, Fraction]
) -> tuple[Lot, ...] | None:
    """The lots a portion comes from, oldest first; None when they do not suffice. Takes it out of `left`."""
    need, used = meal.portions, []
    for lot in lots:
        if lot.recipe != meal.recipe or left[lot.id] <= 0 or need <= 0:
            continue
        if lot.at not in (HOME, meal.place):
            continue  # What is in a place's own refrigerator or freezer is eaten there.
        last = _last_day(lot, meal, recipe, household)
        if last and meal.date and meal.date > last:
            continue
        used.append((lot, min(need, left[lot.id])))
        need -= used[-1][1]
    if need > 0:
        return None
    for lot, portions in used:
        left[lot.id] -= portions
    return tuple(lot for lot, _ in used)


def _last_day(lot: Lot, meal: Wanted, recipe: Recipe, household: Household) -> date | None:
    """The last day a lot may be eaten: what is frozen has, from its pull, the days it had left when it was frozen."""
    caution = household.eater(meal.eater).caution
    if lot.place != "freezer":
        return use_by_of(lot, recipe, caution)
    if meal.date is None or reheating.used_frozen(recipe, household.place(meal.place)):
        return None
    return keeping.thawed_use_by(recipe.keeping, caution, meal.date - timedelta(days=1), days_used(lot))


def _stock_short(already: Already, on_hand: Fraction, short: Fraction, recipes: Mapping[str, Recipe]) -> Problem:
    title = recipes[already.recipe].title
    have = f"{float(on_hand):g}"
    if short > 0 and already.portions <= on_hand:
        message = (
            f"{float(short):g} of {float(already.portions):g} portions of {title} do not keep until they are eaten"
        )
    else:
        message = f"{float(already.portions):g} portions of {title} are to come from stock; {have} are on hand"
    return error(already.span, "stock-short", message, "add the lot to stock.yaml, when it is there")
