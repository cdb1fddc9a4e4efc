"""What each session makes: meal lines of one recipe in one session are one batch, parts with what they are used for.

A substitution in what is cooked together makes a batch of its own; one beside the dish or at service does not.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction

from binder.model.household import Household
from binder.model.recipe import Ingredient, Recipe
from binder.model.week import Session, Substitution, Week
from binder.reckon import recipes as reckoned
from binder.reckon import scaling
from binder.reckon.facts import Batch, Serving
from binder.reckon.recipe_facts import RecipeFacts
from binder.reckon.sessions import Placed

COOKED = frozenset({"cooked"})
Facts = Mapping[str, RecipeFacts]


@dataclass(frozen=True, slots=True)
class Variant:
    """A recipe as one eater gets it, and the number of the variant that is cooked for it (0: as written)."""

    facts: RecipeFacts
    cooked: int


class Variants:
    """The variants that a week's substitutions make, each worked out once.

    Variants are numbered in the order of the week's lines, so that ids are the same in every build.
    """

    def __init__(self, week: Week, facts: Facts, household: Household) -> None:
        self._week, self._facts, self._household = week, facts, household
        self._done: dict[tuple[str, tuple[int, ...]], RecipeFacts] = {}
        self._cooked: dict[str, dict[tuple[int, ...], int]] = {}

    def of(self, recipe: str, eater: str) -> Variant:
        """The variant of a recipe that an eater gets."""
        numbers = tuple(n for n, s in enumerate(self._week.substitutions) if s.recipe == recipe and eater in s.eaters)
        together = tuple(n for n in numbers if self._touches_cooked(recipe, self._week.substitutions[n]))
        known = self._cooked.setdefault(recipe, {(): 0})
        cooked = known.setdefault(together, len(known))
        return Variant(self._reckon(recipe, numbers), cooked)

    def knows(self, recipe: str) -> bool:
        """Whether there is such a recipe."""
        return recipe in self._facts

    def batch_facts(self, recipe: str, cooked: int) -> RecipeFacts:
        """The recipe as a batch cooks it: only what is cooked together is substituted."""
        together = next((k for k, n in self._cooked.get(recipe, {}).items() if n == cooked), ())
        if not together:
            return self._facts[recipe]
        return self._reckon(recipe, together, COOKED)

    def _touches_cooked(self, recipe: str, substitution: Substitution) -> bool:
        lines = self._facts[recipe].recipe.ingredients
        return any(lines[index].when == "cooked" for index in substitution.replaces)

    def _reckon(self, recipe: str, numbers: tuple[int, ...], when: frozenset[str] | None = None) -> RecipeFacts:
        if not numbers:
            return self._facts[recipe]
        key = (recipe, numbers if when is None else (-1, *numbers))
        if key not in self._done:
            chosen = tuple(self._week.substitutions[n] for n in numbers)
            changed = reckoned.substituted(self._facts[recipe].recipe, chosen, when)
            self._done[key] = reckoned.reckon(changed, self._facts, self._household)[0]
        return self._done[key]


@dataclass(frozen=True, slots=True)
class Need:
    """One ingredient line in use: `factor` times the recipe's written size, for a session or fresh for a day.

    `until`: the day on which what is added at service is eaten, and the last one on which what is put together cold is;
    a lot that goes in must keep as long (FDA Food Code 3-501.17(C): the date of the earliest ingredient;
    3-501.17(B)(2): never past the maker's).
    """

    ingredient: Ingredient
    facts: RecipeFacts
    factor: Fraction
    session: Session | None
    batch: str = ""
    until: date | None = None


def batch_id(recipe: str, session: Session, cooked: int) -> str:
    """A name for a batch that is the same in every build."""
    tail = f"-{cooked + 1}" if cooked else ""
    return f"{session.on.isoformat()}T{session.at_minutes // 60:02d}{session.at_minutes % 60:02d}-{recipe}{tail}"


def batches(placed: tuple[Placed, ...], variants: Variants, household: Household) -> tuple[Batch, ...]:
    """Every batch of the week, sessions in order, the recipes in the order in which they are first wanted."""
    needed: dict[tuple[Session, str, int], Fraction] = {}
    for item in placed:
        if item.session is not None and item.storage.kept != "at service":
            variant = variants.of(item.wanted.recipe, item.wanted.eater)
            key = (item.session, item.wanted.recipe, variant.cooked)
            needed[key] = needed.get(key, Fraction(0)) + item.wanted.portions
    found: list[Batch] = []
    for session in sorted({key[0] for key in needed}, key=lambda s: (s.on, s.at_minutes, s.span.line)):
        here = {(recipe, cooked): n for (s, recipe, cooked), n in needed.items() if s == session}
        found.extend(_of_session(session, here, variants, household))
    return tuple(found)


def _of_session(
    session: Session, wanted: dict[tuple[str, int], Fraction], variants: Variants, household: Household
) -> list[Batch]:
    made: dict[tuple[str, int], Batch] = {}
    users: dict[str, dict[str, None]] = {}
    order = _users_before_parts(list(wanted), variants)
    needs = {key: wanted.get(key, Fraction(0)) for key in order}
    for key in order:
        batch = _batch(session, key, needs[key], variants, household)
        made[key] = batch
        assert batch.facts is not None
        for line in batch.facts.ingredients:
            part = line.ingredient.recipe
            if part is not None and (part, 0) in needs:
                share = _share(line.ingredient, variants.batch_facts(part, 0), household)
                # A range is made for its upper end, so that there is enough; what is added is added to what is eaten.
                eaten = batch.portions_needed / batch.facts.recipe.portions
                factor = batch.factor if line.when == "cooked" else eaten
                portions = share * factor * variants.batch_facts(part, 0).recipe.portions
                needs[(part, 0)] += portions
                users.setdefault(part, {})[batch.recipe] = None
    # Parts first: a part is made before what it is used for.
    return [
        replace(made[key], part_of=tuple(users.get(key[0], ()))) if key[1] == 0 else made[key]
        for key in reversed(order)
        if made[key].portions_made > 0
    ]


def _share(line: Ingredient, part: RecipeFacts, household: Household) -> Fraction:
    share = reckoned.part_share(line, part, household)
    return Fraction(share.high).limit_denominator(10_000) if share else Fraction(0)


def _users_before_parts(wanted: list[tuple[str, int]], variants: Variants) -> list[tuple[str, int]]:
    """The wanted recipes and every part they need, each user before its parts; stable."""
    order: list[tuple[str, int]] = []

    def visit(key: tuple[str, int], above: tuple[str, ...]) -> None:
        if key in order or key[0] in above:
            return
        for line in reversed(variants.batch_facts(*key).ingredients):
            if line.ingredient.recipe and line.basis.kind == "recipe" and variants.knows(line.ingredient.recipe):
                visit((line.ingredient.recipe, 0), (*above, key[0]))
        order.insert(0, key)

    for key in wanted:
        visit(key, ())
    return order


def _batch(session: Session, key: tuple[str, int], needed: Fraction, variants: Variants, household: Household) -> Batch:
    facts = variants.batch_facts(*key)
    recipe: Recipe = facts.recipe
    portions = scaling.made(recipe, needed)
    return Batch(
        recipe=recipe.key,
        made_on=session.on,
        portions_needed=needed,
        portions_made=portions,
        factor=portions / recipe.portions,
        surplus=portions - needed,
        loads=scaling.loads(recipe, portions, household.place(session.place)),
        id=batch_id(recipe.key, session, key[1]),
        session=session,
        facts=facts,
    )


def _eaten_until(batch: Batch, servings: tuple[Serving, ...]) -> date | None:
    """The last day on which something of a batch that is put together cold is eaten from the refrigerator."""
    if batch.facts is None or not batch.facts.recipe.put_together_cold:
        return None
    return max((s.date for s in servings if s.batch == batch.id and s.date and s.kept == "fridge"), default=None)


def needs(made: tuple[Batch, ...], servings: tuple[Serving, ...], variants: Variants) -> tuple[Need, ...]:
    """Every ingredient line in use, parts as the lines of their own batches.

    What is cooked goes by what is made; what stands beside a dish or is added at service goes by portions eaten, from
    stock as well as from a session.
    """
    found = [
        Need(line.ingredient, batch.facts, batch.factor, batch.session, batch.id, _eaten_until(batch, servings))
        for batch in made
        if batch.facts is not None
        for line in batch.facts.ingredients
        if line.when == "cooked" and line.ingredient.recipe is None
    ]
    portions: dict[tuple[str, str, Session | None, date | None], Fraction] = {}
    facts_of: dict[str, RecipeFacts] = {}
    names: dict[tuple[str, tuple[str, ...]], str] = {}
    for serving in servings:
        variant = variants.of(serving.recipe, serving.eater).facts
        lines = tuple(line.text for line in variant.ingredients)
        name = names.setdefault((serving.recipe, lines), f"{serving.recipe}\n{serving.eater}")
        facts_of[name] = variant
        key = (name, "all" if serving.kept == "at service" else "fresh", serving.session, serving.date)
        portions[key] = portions.get(key, Fraction(0)) + serving.portions
    for (name, which, session, day), count in portions.items():
        of = facts_of[name]
        for line in of.ingredients:
            if (which == "all" or line.when != "cooked") and line.ingredient.recipe is None:
                found.append(Need(line.ingredient, of, count / of.recipe.portions, session, until=day))
    return tuple(found)
