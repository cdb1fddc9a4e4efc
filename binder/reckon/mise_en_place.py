"""Each food once: how much, cut how, for which dish. Only what is cut alike is added up, and the split is kept.

The order is that of the run sheet: by the first task that a food is needed for. Raw meat and fish stand after all else,
and what an eater avoids, where that eater's food is kept apart from it, after these.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime
from fractions import Fraction

from binder.model.household import Household
from binder.model.quantity import Amount, Interval, Measure
from binder.reckon import conversion, scaling
from binder.reckon.batches import Need
from binder.reckon.facts import MiseCare, MiseRow, MiseShare, RunSheet
from binder.reckon.run_sheet_apart import holds_avoided
from binder.reckon.run_sheet_hands import MEAT
from binder.reckon.run_sheet_tasks import TOGETHER

_CARES: tuple[MiseCare, ...] = ("", "raw", "avoided")
LATEST = datetime.max.replace(tzinfo=UTC)


def rows(needs: tuple[Need, ...], household: Household, sheets: Sequence[RunSheet] = ()) -> tuple[MiseRow, ...]:
    """A row for each session, food and preparation, in the order in which they are handled by the run sheets.

    What is added at service is left out: it is cut then.
    """
    by_session = {sheet.of: sheet for sheet in sheets}
    groups: dict[tuple[object, str, str], list[Need]] = {}
    for need in needs:
        if need.session is not None and need.ingredient.when != "at service":
            key = (need.session, need.ingredient.food.name, preparation_of(need))
            groups.setdefault(key, []).append(need)
    made = [_row(group, household, by_session.get(group[0].session)) for group in groups.values()]
    sessions = {session: n for n, session in enumerate(dict.fromkeys(row.session for row in made))}
    # What no task of the session needs (what stands beside a dish) comes at the end, as it was.
    return tuple(
        sorted(
            made,
            key=lambda row: (sessions[row.session], _CARES.index(row.care), row.needed or LATEST),
        )
    )


def needed_at(need: Need, sheet: RunSheet | None) -> datetime | None:
    """When the first task starts that a line is in hand for: of its own part, else of what is done with all parts
    together, else of the dish; None where no task is of the dish."""
    tasks = [task for task in sheet.tasks if task.batch == need.batch] if sheet and need.batch else []
    part = need.ingredient.part
    if part is not None:
        of_part = [task for task in tasks if task.part is not None and task.part.casefold() == part.casefold()]
        together = [task for task in tasks if task.part is not None and task.part.casefold() == TOGETHER]
        tasks = of_part or together or tasks
    return min((task.start for task in tasks), default=None)


def _care(group: Sequence[Need], sheet: RunSheet | None) -> MiseCare:
    """Whether it is kept for the end: raw meat or fish, or what an eater of the session avoids."""
    line = group[0].ingredient
    dishes = {need.facts.key for need in group}
    words = {one.avoided for one in (sheet.apart if sheet else ()) if one.kept and one.other in dishes}
    if any(holds_avoided(line, word) for word in words):
        return "avoided"
    return "raw" if line.food.aisle == MEAT else ""


def preparation_of(need: Need) -> str:
    """How it is cut, so that lines written alike fall together."""
    return " ".join(need.ingredient.preparation.casefold().split())


def _row(group: list[Need], household: Household, sheet: RunSheet | None) -> MiseRow:
    line = group[0].ingredient
    shares: dict[str, list[Need]] = {}
    for need in group:
        shares.setdefault(need.facts.key, []).append(need)
    weights = [_grams(need, household) for need in group]
    grams: Interval | None = None
    if all(w is not None for w in weights):
        grams = Interval(sum(w.low for w in weights if w), sum(w.high for w in weights if w))
    return MiseRow(
        food=line.food.name,
        preparation=preparation_of(group[0]),
        amount=_amount(group, household),
        grams=grams,
        for_=tuple(
            MiseShare(key, _amount(needs, household), _drained(needs, household)) for key, needs in shares.items()
        ),
        session=group[0].session,
        measures=_measures(group),
        care=_care(group, sheet),
        needed=min((at for need in group if (at := needed_at(need, sheet))), default=None),
        drained=_drained(group, household),
    )


def _drained(needs: Sequence[Need], household: Household) -> Interval | None:
    """What is left of cans without their liquid, where any of it comes from a can that is drained."""
    if not any(need.ingredient.drained for need in needs):
        return None
    weights = [_grams(need, household) for need in needs]
    shares = [float(n.ingredient.food.edible_share) if n.ingredient.drained else 1.0 for n in needs]
    left = [weight.times(share) for weight, share in zip(weights, shares, strict=True) if weight]
    return sum(left[1:], left[0]) if len(left) == len(needs) else None


def _grams(need: Need, household: Household) -> Interval | None:
    line = need.ingredient
    weighed = conversion.weigh_all(line.food, line.measures, line.pack, line.form_words, household.cup)
    return scaling.scaled_grams(weighed.grams if weighed else None, need.factor)


def _amount(needs: list[Need], household: Household) -> Amount | None:
    """The sum in the unit all lines share, else in grams; None when neither can be told."""
    amounts = [conversion.total_amount(n.ingredient.measures, n.ingredient.pack, household.cup) for n in needs]
    words = {m.unit for n in needs for m in n.ingredient.measures}
    units = {a.unit for a in amounts if a}
    if all(amounts) and len(units) == 1 and ("each" not in units or len(words) == 1):
        scaled = [a.times(n.factor) for a, n in zip(amounts, needs, strict=True) if a]
        return _sum(scaled)
    weights = [_grams(need, household) for need in needs]
    if any(w is None for w in weights):
        return None
    return _sum([Amount(_exact(w.low), _exact(w.high), "g") for w in weights if w])


def _exact(grams: float) -> Fraction:
    return Fraction(round(grams, 3)).limit_denominator(1000)


def _sum(amounts: list[Amount]) -> Amount:
    total = amounts[0]
    for amount in amounts[1:]:
        total = total.plus(amount)
    return total


def _measures(group: list[Need]) -> tuple[Measure, ...]:
    """As written, scaled, added where unit and size agree."""
    found: dict[tuple[str, str], Measure] = {}
    for need in group:
        for measure in need.ingredient.measures:
            scaled = measure.times(need.factor)
            key = (measure.unit, measure.size)
            old = found.get(key)
            found[key] = (
                Measure(old.low + scaled.low, old.high + scaled.high, measure.unit, measure.size) if old else scaled
            )
    return tuple(found.values())
