"""What a session fills: portions, surplus, by-products, a kit's set and what is apart from it, parts packed apart.

Each becomes one container and one label.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from fractions import Fraction

from binder.model.household import Household
from binder.model.week import MealLine, Session
from binder.reckon import allergens, conversion, cooked_weight, keeping
from binder.reckon.facts import Batch, Serving
from binder.reckon.recipe_facts import Allergens, CookedFrom, RecipeFacts
from binder.reckon.recipes import portion_ml
from binder.tables import keeping as chart


@dataclass(frozen=True, slots=True)
class Filled:
    """One thing that is packed and labelled. what: portion, surplus, set, apart, packed apart or by-product."""

    id: str
    what: str
    facts: RecipeFacts
    title: str
    session: Session
    kept: str
    made_on: date
    holds: Allergens
    use_by: date | None = None
    pull_on: date | None = None
    eat_on: date | None = None
    eater: str | None = None
    portions: Fraction | None = None
    grams: float | None = None
    cooked_grams: float | None = None
    cooked_grams_from: CookedFrom | None = None
    raw_grams: bool = False
    volume_ml: Fraction | None = None
    servings: tuple[Serving, ...] = ()
    line: MealLine | None = field(default=None)
    part: str = ""  # of a kit's set and of what is apart or packed apart: the part's name


def filled(servings: tuple[Serving, ...], batches: tuple[Batch, ...], household: Household) -> tuple[Filled, ...]:
    """Everything the sessions fill, batch by batch: servings by day and eater, then surplus, then by-products."""
    found: list[Filled] = []
    for batch in batches:
        assert batch.facts is not None
        of_batch = [s for s in servings if s.batch == batch.id]
        if batch.facts.form == "kit":
            found.extend(_kits(of_batch, batch, household))
        else:
            found.extend(one for s in of_batch for one in _with_apart(_portion(s, batch)))
        found.extend(one for s in _surplus(batch, household) for one in _with_apart(s))
        found.extend(_by_products(batch, household))
    return tuple(found)


def _base(batch: Batch) -> tuple[RecipeFacts, Session]:
    assert batch.facts is not None and batch.session is not None
    return batch.facts, batch.session


def _portion(serving: Serving, batch: Batch) -> Filled:
    _, session = _base(batch)
    assert serving.facts is not None
    one = portion_ml(serving.facts.recipe)
    return Filled(
        id=serving.id,
        what="portion",
        facts=serving.facts,
        title=serving.facts.title,
        session=session,
        kept=serving.kept,
        made_on=batch.made_on,
        holds=serving.facts.allergens,
        use_by=serving.use_by,
        pull_on=serving.pull_on,
        eat_on=serving.date,
        eater=serving.eater,
        portions=serving.portions,
        grams=serving.grams,
        cooked_grams=serving.cooked_grams,
        cooked_grams_from=serving.cooked_grams_from,
        volume_ml=one * serving.portions if one is not None else None,
        servings=(serving,),
        line=serving.line,
    )


def _with_apart(dish: Filled) -> Iterator[Filled]:
    """A portion, without what is packed apart of it, and each of those parts; a kit has its own."""
    parts = dish.facts.recipe.packed_apart if dish.facts.form != "kit" else ()
    apart = [_packed_apart(dish, part, n) for n, part in enumerate(parts, start=1)]
    gone = [one.grams for one in apart]
    yield replace(dish, grams=_less(dish.grams, gone), cooked_grams=_less(dish.cooked_grams, gone)) if apart else dish
    yield from apart


def _less(grams: float | None, gone: list[float | None]) -> float | None:
    """What is left to weigh in, in g; None where a weight is not known, or where more would go than there is."""
    known = [one for one in gone if one is not None]
    if grams is None or len(known) < len(gone) or grams < sum(known):
        return None
    return grams - sum(known)


def _packed_apart(dish: Filled, part: str, n: int) -> Filled:
    """A part in a container of its own, as it goes in; frozen with the dish unless it is left out of the freezer."""
    recipe, portions = dish.facts.recipe, dish.portions or Fraction(1)
    lines = [line for line in dish.facts.ingredients if line.part == part]
    share = float(portions / recipe.portions)
    known = bool(lines) and all(line.grams is not None for line in lines)
    kept_itself = next((one for one in recipe.keeping.parts if one.part == part and one.apart), None)
    fresh = dish.kept == "freezer" and kept_itself is not None and keeping.stays_fresh(kept_itself)
    last = [one.use_by for s in dish.servings for one in s.parts if one.part == part and one.use_by]
    return replace(
        dish,
        id=f"{dish.id}-packed-apart-{n}",
        what="packed apart",
        title=f"{dish.facts.title}: {part}",
        kept="fridge" if fresh else dish.kept,
        holds=allergens.union(allergens.of_line(line) for line in lines),
        use_by=min(last) if last else None if fresh else dish.use_by,
        pull_on=None if fresh else dish.pull_on,
        grams=sum(line.grams.middle * line.eaten for line in lines if line.grams) * share if known else None,
        cooked_grams=None,
        cooked_grams_from=None,
        volume_ml=None,
        part=part,
    )


def _kits(servings: list[Serving], batch: Batch, household: Household) -> Iterator[Filled]:
    """A kit is one set, and one pack for each part stored apart, for all who eat it together."""
    together: dict[tuple[int, date | None, str], list[Serving]] = {}
    for serving in servings:
        together.setdefault((id(serving.line), serving.date, serving.place), []).append(serving)
    for group in together.values():
        assert group[0].facts is not None
        for n, part in enumerate(group[0].facts.recipe.part_names or ("",)):
            yield _kit_part(group, batch, part, n, household)


def _cut_until(made_on: date, serving: Serving, household: Household, part: str) -> date:
    """How long a kit's set keeps unfrozen, by the eater's caution: as the recipe says, else as cut vegetables."""
    assert serving.facts is not None
    caution = household.eater(serving.eater).caution
    stated = [one.keeping for one in serving.facts.recipe.keeping.parts if one.part == part]
    days = keeping.limit_days(stated[0], caution) if stated else None
    row = chart.row("cut vegetables")
    assert row is not None
    return made_on + timedelta(days=chart.days(row, caution) if days is None else days)


def _kit_part(group: list[Serving], batch: Batch, part: str, n: int, household: Household) -> Filled:
    first, (_, session) = group[0], _base(batch)
    assert first.facts is not None
    recipe = first.facts.recipe
    lines = [line for line in first.facts.ingredients if line.when == "cooked" and (line.part or "") == part]
    share = float(sum((s.portions for s in group), Fraction(0)) / recipe.portions)
    known = bool(lines) and all(line.grams is not None for line in lines)
    # What is stored apart (raw meat and fish) is frozen; the set too, where it would not keep until the meal.
    set_until = _cut_until(batch.made_on, first, household, part) if n == 0 and len(recipe.part_names) > 1 else None
    icy = first.kept == "freezer" and (set_until is None or (first.date or date.max) > set_until)
    kept = "freezer" if icy else "fridge" if first.kept == "freezer" else first.kept
    last_days = [s.use_by for s in group if s.use_by]
    if set_until is not None and first.kept == "freezer" and not icy:
        last_days.append(set_until)
    eaters = list(dict.fromkeys(s.eater for s in group))
    return Filled(
        id=f"{first.id}-set" if n == 0 else f"{first.id}-apart-{n}",
        what="set" if n == 0 else "apart",
        facts=first.facts,
        title=f"{first.facts.title}: {part}" if part else first.facts.title,
        session=session,
        kept=kept,
        made_on=batch.made_on,
        holds=allergens.union(allergens.of_line(line) for line in lines),
        use_by=min(last_days, default=None),
        pull_on=first.pull_on if icy else None,
        eat_on=first.date,
        eater=eaters[0] if len(eaters) == 1 else None,
        portions=sum((s.portions for s in group), Fraction(0)),
        grams=sum(line.grams.high for line in lines if line.grams) * share if known else None,
        raw_grams=cooked_weight.changes(recipe, part, first.facts.ingredients),
        servings=tuple(group),
        line=first.line,
        part=part,
    )


def _surplus(batch: Batch, household: Household) -> Iterator[Filled]:
    facts, session = _base(batch)
    kept = keeping.where(facts.recipe.keeping, household.caution)
    rest, n, one = batch.surplus, 0, portion_ml(facts.recipe)
    days, grams, cooked = facts.keeps.fridge_days, facts.per_portion.grams, facts.per_portion.cooked_grams
    while rest > 0:
        n, portions = n + 1, min(Fraction(1), rest)
        rest -= portions
        yield Filled(
            id=f"{batch.id}-surplus-{n}",
            what="surplus",
            facts=facts,
            title=facts.title,
            session=session,
            kept=kept,
            made_on=batch.made_on,
            holds=facts.allergens,
            use_by=batch.made_on + timedelta(days=days) if days is not None else None,
            portions=portions,
            grams=grams * float(portions) if grams is not None else None,
            cooked_grams=cooked * float(portions) if cooked is not None else None,
            cooked_grams_from=facts.per_portion.cooked_grams_from,
            volume_ml=one * portions if one is not None else None,
        )


def _by_products(batch: Batch, household: Household) -> Iterator[Filled]:
    facts, session = _base(batch)
    for n, gift in enumerate(facts.recipe.gives, start=1):
        weighed = conversion.weigh_all(gift.food, gift.measures, gift.pack, gift.form_words, household.cup)
        rule = gift.food.keeping
        days = keeping.limit_days(rule, household.caution) if rule else None
        yield Filled(
            id=f"{batch.id}-gives-{n}",
            what="by-product",
            facts=facts,
            title=gift.food.name,
            session=session,
            kept=keeping.where(rule, household.caution) if rule else "fridge",
            made_on=batch.made_on,
            holds=allergens.of_food(gift.food),
            use_by=batch.made_on + timedelta(days=days) if days is not None else None,
            grams=weighed.grams.middle * float(batch.factor) if weighed else None,
        )
