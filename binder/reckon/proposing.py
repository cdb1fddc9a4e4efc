"""A week proposed from the weeks before: the same meals for the same people on the same days, other dishes.

Only what stands is proposed: every dish is tried in the plan so far, by the rules that a written week must keep. Among
those that stand, in this order: what is in stock already; what was not in the week before; what uses foods on hand that
will not keep past the week; what was not left over when it was made; what was planned longest ago; the key. The same
files give the same proposal.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from fractions import Fraction

from binder.model.food import Food
from binder.model.library import Library
from binder.model.week import Already, MealLine, Substitution, Week
from binder.problem import Span
from binder.reckon import dishes
from binder.reckon import stock as on_hand
from binder.reckon.recipe_facts import RecipeFacts
from binder.reckon.settle import settle

# Of what was made, as said when weeks were closed: from here on a dish waits behind those that were eaten.
MUCH_LEFT = Fraction(1, 4)


@dataclass(frozen=True, slots=True)
class Reasons:
    """Why a dish is proposed. `last`: the week it was planned in last, None: never; `left` of what was made."""

    portions_on_hand: Fraction
    uses: tuple[tuple[str, date], ...]  # foods on hand and their last day
    left: Fraction | None
    last: str | None


@dataclass(frozen=True, slots=True)
class Proposed:
    """One dish with the meal lines that it serves."""

    recipe: str
    lines: tuple[MealLine, ...]
    reasons: Reasons


@dataclass(frozen=True, slots=True)
class Proposal:
    """`pattern`: the week that lent its meals; `open_lines`: those for which no dish stands."""

    week: Week
    pattern: str
    dishes: tuple[Proposed, ...]
    open_lines: tuple[MealLine, ...]


def pattern_for(library: Library, monday: date) -> Week | None:
    """The latest week before that Monday that has meals."""
    before = (week for week in library.weeks.values() if week.monday < monday and week.meals)
    return max(before, key=lambda week: week.monday, default=None)


def propose(
    library: Library, facts: Mapping[str, RecipeFacts], monday: date, today: date, in_use: Week | None
) -> Proposal | None:
    """The week that begins on `monday`; None without a week before it to go by.

    `in_use` is the week that the stock on hand serves: what it takes is not there any more.
    """
    pattern = pattern_for(library, monday)
    if pattern is None:
        return None
    asking = _Asking(library, facts, pattern, monday, today, _left_of_stock(library, facts, today, in_use, monday))
    week, chosen, unanswered = _empty(pattern, monday), list[Proposed](), list[MealLine]()
    for lines in _slots(pattern, monday):
        found = next(asking.standing(week, lines, {dish.recipe for dish in chosen}), None)
        if found is None:
            unanswered.extend(lines)
            continue
        week, dish = found
        chosen.append(dish)
    return Proposal(week, pattern.key, tuple(chosen), tuple(unanswered))


def _empty(pattern: Week, monday: date) -> Week:
    """The pattern's sessions on the same days, and nothing to eat yet."""
    later = monday - pattern.monday
    year, number, _ = monday.isocalendar()
    sessions = tuple(replace(session, on=session.on + later, written=None) for session in pattern.sessions)
    return Week(f"{year}-W{number:02d}", monday, pattern.span, sessions, (), (), (), "")


def _slots(pattern: Week, monday: date) -> Iterator[tuple[MealLine, ...]]:
    """The lines that one dish served, together, each with a line of its own to stand at."""
    later = monday - pattern.monday
    together: dict[str, list[MealLine]] = {}
    for line in pattern.meals:
        together.setdefault(line.recipe, []).append(line)
    at = 0
    for lines in together.values():
        moved = []
        for line in lines:
            at += 1
            dates = tuple(day + later for day in line.dates if day >= pattern.monday)
            if line.dates and not dates:
                continue  # It was eaten before its week began.
            moved.append(replace(line, span=Span(line.span.path, at, 1, 2), dates=dates, made=None, made_span=None))
        if moved:
            yield tuple(moved)


def _left_of_stock(
    library: Library, facts: Mapping[str, RecipeFacts], today: date, in_use: Week | None, monday: date
) -> Mapping[str, Fraction]:
    """Portions on hand of each dish that the week in use does not eat."""
    if in_use is not None and in_use.closed is None and in_use.monday < monday:
        settled = settle(in_use, library, facts, library.stock, today)
        lots, left = settled.lots, settled.lots_left
    else:
        lots, _ = dishes.lots_of_dishes(library.stock, library.recipes, library.household, today)
        left = {lot.id: dishes.portions_of(lot) for lot in lots}
    found: dict[str, Fraction] = {}
    for lot in lots:
        recipe = library.recipes[lot.recipe or ""]
        if lot.place == "freezer" or dishes.expiry(lot, recipe, library.household.caution) >= monday:
            found[recipe.key] = found.get(recipe.key, Fraction(0)) + left.get(lot.id, Fraction(0))
    return found


@dataclass(frozen=True, slots=True)
class _Asking:
    library: Library
    facts: Mapping[str, RecipeFacts]
    pattern: Week
    monday: date
    today: date
    portions: Mapping[str, Fraction]

    def standing(self, week: Week, lines: tuple[MealLine, ...], taken: set[str]) -> Iterator[tuple[Week, Proposed]]:
        """The week with each dish that stands at these lines, the best first."""
        reasons = {key: self._reasons(key) for key in self._fitting(lines) if key not in taken}
        for key in sorted(reasons, key=lambda key: self._rank(key, reasons[key])):
            served = tuple(replace(line, recipe=key) for line in lines)
            tried = self._with(week, key, served)
            settled = settle(tried, self.library, self.facts, self.library.stock, self.today)
            if all(problem.severity != "error" for problem in settled.problems):
                yield tried, Proposed(key, served, reasons[key])

    def _fitting(self, lines: tuple[MealLine, ...]) -> list[str]:
        """Dishes meant for these meals, no bases of other dishes."""
        meals = {line.meal for line in lines}
        parts = {i.recipe for recipe in self.library.recipes.values() for i in recipe.ingredients if i.recipe}
        return [k for k, recipe in self.library.recipes.items() if meals <= set(recipe.meals) and k not in parts]

    def _with(self, week: Week, key: str, lines: tuple[MealLine, ...]) -> Week:
        """With the dish, what was used in it for somebody before, and what is eaten of it from stock."""
        eaters = {eater for line in lines for eater in line.eaters}
        swaps = tuple(_latest_swaps(self.library, key, eaters))
        needed = sum((_portions(line) for line in lines), Fraction(0))
        stock = min(self.portions.get(key, Fraction(0)), needed)
        taken = (Already(lines[0].span, stock, key),) if stock > 0 else ()
        return replace(
            week,
            meals=(*week.meals, *lines),
            substitutions=(*week.substitutions, *swaps),
            already=(*week.already, *taken),
        )

    def _reasons(self, key: str) -> Reasons:
        foods, _ = on_hand.foods_on_hand(self.library.stock, self.today)
        sunday = self.monday + timedelta(days=6)
        mine = [line.food for line in self.library.recipes[key].ingredients if line.recipe is None]
        uses = {
            item.lot.food.name: item.last
            for item in foods
            if item.lot.food and item.last and self.monday <= item.last <= sunday and _is_among(item.lot.food, mine)
        }
        planned = [week.key for week in self.library.weeks.values() if any(m.recipe == key for m in week.meals)]
        left = _left_over(self.library, key)
        return Reasons(self.portions.get(key, Fraction(0)), tuple(uses.items()), left, max(planned, default=None))

    def _rank(self, key: str, reasons: Reasons) -> tuple[bool, bool, int, bool, str, str]:
        again, much_left = reasons.last == self.pattern.key, reasons.left is not None and reasons.left >= MUCH_LEFT
        return reasons.portions_on_hand <= 0, again, -len(reasons.uses), much_left, reasons.last or "", key


def _is_among(food: Food, foods: list[Food]) -> bool:
    return any(on_hand.same_food(food, other) for other in foods)


def _portions(line: MealLine) -> Fraction:
    """How many portions a line wants in all."""
    if line.total is not None:
        return line.total
    meals = max(len(line.dates), 1)
    return sum((line.by_eater.get(eater, line.each) * meals for eater in line.eaters), Fraction(0))


def _latest_swaps(library: Library, key: str, eaters: set[str]) -> Iterator[Substitution]:
    """What each of the eaters had in this dish instead of something, when it was last so."""
    done: set[tuple[str, str]] = set()
    for week in sorted(library.weeks.values(), key=lambda week: week.monday, reverse=True):
        for swap in week.substitutions:
            whom = tuple(e for e in swap.eaters if e in eaters and (e, swap.instead_of) not in done)
            if swap.recipe == key and whom:
                done |= {(eater, swap.instead_of) for eater in whom}
                yield replace(swap, eaters=whom)


def _left_over(library: Library, key: str) -> Fraction | None:
    """The share of what was made of a dish that was left or thrown away, over the closed weeks; None: nobody said."""
    made = left = Fraction(0)
    for week in library.weeks.values():
        for dish in week.came_to.dishes if week.came_to else ():
            if dish.recipe == key and dish.made and (dish.left is not None or dish.thrown is not None):
                made += dish.made
                left += (dish.left or Fraction(0)) + (dish.thrown or Fraction(0))
    return left / made if made else None
