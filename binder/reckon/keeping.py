"""Until which day a portion keeps, whether it is frozen, and when it is pulled.

The day made is day 0; use-by is that day and the limit. Freezing stops the count and does not reset it: what was
frozen on the day it was made has, from the day it is pulled, all the days it would have had
(Food Code 3-501.18(A)(1)).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from binder.model.food import Keeping, PartKeeping
from binder.model.recipe import Recipe
from binder.reckon.facts import Kept, PartKept
from binder.reckon.words import counted
from binder.tables import thawing


@dataclass(frozen=True, slots=True)
class Storage:
    """How one portion is kept from the session to the meal, and the rule that says so."""

    kept: Kept
    use_by: date | None
    pull_on: date | None
    note: str
    days: int | None = None  # the limit that was used
    caution: str = "usual"
    part: str = ""  # the part that decides, of what comes too late
    stored_at: str = "home"
    taken_on: date | None = None  # the day it is taken to the freezer of the place where it is eaten


def limit_days(keeping: Keeping, caution: str) -> int | None:
    """Days it keeps unfrozen: upper end of the range when usual, lower when strict; None: not known."""
    days = keeping.fridge_days or keeping.cupboard_days
    return days[0 if caution == "strict" else 1] if days else None


def where(keeping: Keeping, caution: str) -> Kept:
    """Where it is kept unfrozen: the cupboard when it keeps there as long as in the refrigerator."""
    end = 0 if caution == "strict" else 1
    shelf, cold = keeping.cupboard_days, keeping.fridge_days
    return "cupboard" if shelf and (cold is None or shelf[end] >= cold[end]) else "fridge"


def freezer_days(keeping: Keeping, caution: str) -> int | None:
    """Days of freezer life, for quality; None: not known."""
    days = keeping.freezer_days
    return days[0 if caution == "strict" else 1] if days else None


def rule_words(keeping: Keeping, caution: str) -> str:
    """The rule behind a use-by: limit, rule set and source."""
    days = limit_days(keeping, caution)
    limit = "no limit known" if days is None else f"{counted(days, 'day')} after the day made"
    assumed = "; assumed, the recipe does not say" if keeping.assumed else ""
    first = keeping.decided_by[0 if caution == "strict" else 1]
    decides = f"; {first} keeps shortest" if first else ""
    return f"{limit} ({caution}; {keeping.source}{assumed}{decides})"


def parts_kept(keeping: Keeping, caution: str, made_on: date, kept: Kept) -> tuple[PartKept, ...]:
    """Until when each part keeps by itself; what is frozen with the dish has no date of its own."""
    found = []
    for one in keeping.parts:
        days = limit_days(one.keeping, caution)
        icy = kept == "freezer" and not (one.apart and stays_fresh(one))
        found.append(PartKept(one.part, None if icy or days is None else made_on + timedelta(days=days), one.apart))
    return tuple(found)


def stays_fresh(part: PartKeeping) -> bool:
    """Whether a part packed on its own is left out of the freezer when the dish is frozen: it is not said to freeze."""
    return part.keeping.freezes is not True


def apart_until(keeping: Keeping, caution: str, made_on: date, icy: bool) -> tuple[date, str] | None:
    """The last day of what is packed beside the dish on the same day, and its name; None: no limit is known."""
    dates = [
        (made_on + timedelta(days=days), one.part)
        for one in keeping.parts
        if one.apart and one.part != "at service" and (not icy or stays_fresh(one))
        if (days := limit_days(one.keeping, caution)) is not None
    ]
    return min(dates) if dates else None


def _outlived(keeping: Keeping, caution: str, made_on: date, eaten_on: date | None, icy: bool) -> bool:
    until = apart_until(keeping, caution, made_on, icy)
    return bool(until and eaten_on and eaten_on > until[0])


def nothing_kept(recipe: Recipe) -> bool:
    """Whether nothing of the dish is made ahead: every line is added or cooked at service, none is a dish itself."""
    lines = recipe.ingredients
    return bool(lines) and all(line.when == "at service" and line.recipe is None for line in lines)


def unfrozen(keeping: Keeping, caution: str, made_on: date, eaten_on: date | None) -> Storage | None:
    """Kept in the refrigerator (or cupboard), or None when it does not keep until it is eaten."""
    days = limit_days(keeping, caution)
    use_by = made_on + timedelta(days=days) if days is not None else None
    if use_by and eaten_on and eaten_on > use_by:
        return None
    if _outlived(keeping, caution, made_on, eaten_on, icy=False):
        return None
    return Storage(where(keeping, caution), use_by, None, rule_words(keeping, caution), days, caution)


def too_late(keeping: Keeping, caution: str, made_on: date) -> Storage:
    """Where it stands when it keeps by no means until it is eaten: its last day, and the part that decides."""
    days = limit_days(keeping, caution) or 0
    use_by, part = made_on + timedelta(days=days), keeping.decided_by[0 if caution == "strict" else 1]
    until = apart_until(keeping, caution, made_on, icy=False)
    if until and until[0] < use_by:
        use_by, part = until
    return Storage("fridge", use_by, None, rule_words(keeping, caution), days, caution, part)


def frozen(
    keeping: Keeping, caution: str, made_on: date, eaten_on: date | None, piece_grams: float | None
) -> Storage | None:
    """Frozen on the day made and pulled in time, or None when it may not be frozen or could not thaw in time."""
    if keeping.freezes is False or _outlived(keeping, caution, made_on, eaten_on, icy=True):
        return None
    note, days = rule_words(keeping, caution), limit_days(keeping, caution)
    if eaten_on is None:
        return Storage("freezer", None, None, note, days, caution)
    pull_on = eaten_on - timedelta(days=thawing.nights(piece_grams))
    use_by = thawed_use_by(keeping, caution, pull_on)
    # Frozen and pulled on one day it was never frozen; thawed for longer than it keeps it is of no use.
    if pull_on <= made_on or (use_by and use_by < eaten_on):
        return None
    return Storage("freezer", use_by, pull_on, note, days, caution)


def frozen_there(
    keeping: Keeping, caution: str, made_on: date, eaten_on: date, piece_grams: float | None, visits: Sequence[date]
) -> tuple[Storage, date] | None:
    """Frozen in a place's own freezer on the first visit after it was made, pulled there on the last that is in time.

    The days until it was frozen are used up (FDA Food Code 3-501.18(A)(1)). With it, the day it is taken there.
    """
    days = limit_days(keeping, caution)
    taken = next((day for day in visits if made_on < day < eaten_on), None)
    if keeping.freezes is False or taken is None or (days is not None and taken > made_on + timedelta(days=days)):
        return None
    in_time = eaten_on - timedelta(days=thawing.nights(piece_grams))
    pulls = [day for day in visits if taken < day <= in_time]
    if not pulls or _outlived(keeping, caution, made_on, eaten_on, icy=True):
        return None
    use_by = thawed_use_by(keeping, caution, pulls[-1], (taken - made_on).days)
    if use_by and use_by < eaten_on:
        return None
    return Storage("freezer", use_by, pulls[-1], rule_words(keeping, caution), days, caution), taken


def straight_from_freezer(keeping: Keeping, caution: str) -> Storage | None:
    """Frozen and never pulled: heated or eaten from frozen. None when it may not be frozen."""
    if keeping.freezes is False:
        return None
    return Storage("freezer", None, None, rule_words(keeping, caution), limit_days(keeping, caution), caution)


def thawed_use_by(keeping: Keeping, caution: str, pull_on: date, days_used: int = 0) -> date | None:
    """The last day of what is pulled on `pull_on` and had used up `days_used` before it was frozen."""
    days = limit_days(keeping, caution)
    if days is None:
        return None
    left = max(0, days - days_used)
    # Raw fish keeps 1-3 days fresh and 1-2 thawed (FSIS, The Big Thaw): the shorter counts.
    thawed = keeping.thawed_days[0 if caution == "strict" else 1] if keeping.thawed_days else left
    return pull_on + timedelta(days=min(left, thawed))
