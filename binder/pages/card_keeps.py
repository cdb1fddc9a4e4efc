"""How long a dish keeps, in words: by the household's caution, or on a week's card by that of those who eat of it."""

from __future__ import annotations

from collections.abc import Sequence

from binder.pages.edition import Edition, unique
from binder.pages.format import days, listed
from binder.reckon.facts import Serving
from binder.reckon.recipe_facts import PartKeeps, RecipeFacts

Limits = Sequence[tuple[str, int]]  # eater, days after the day made


def keeps_text(facts: RecipeFacts, edition: Edition, servings: Sequence[Serving] = ()) -> str:
    """`4 days (3 for Odile) refrigerated, 90 days frozen`, with what is assumed or not known said.

    With `servings` by the caution of those who eat of it, as their labels are; else by the household's.
    """
    w, keeps = edition.words, facts.keeps
    limits = [(s.eater, s.keeps_days) for s in servings if s.keeps_days is not None]
    cold = _by_eater(limits, keeps.fridge_days, edition)
    # Where eaters differ the short word: the head of a card has little room.
    where = w.refrigerated if len({limit for _, limit in limits}) > 1 else w.in_fridge
    fridge = w.fridge_not_known if cold is None else where.format(cold)
    if not keeps.freezes:
        frozen = w.does_not_freeze
    elif keeps.freezer_days is None:
        frozen = w.frozen_not_known
    else:
        frozen = w.in_freezer.format(days(keeps.freezer_days, w))
    first = keeps.decided_by
    if servings and all(s.caution == "strict" for s in servings):
        first = facts.recipe.keeping.decided_by[0] or None
    said = [w.assumed] if keeps.assumed else []
    said += [w.keeps_shortest.format(first)] if first else []
    said += [text for one in keeps.parts if one.apart and (text := _apart(one, servings, edition))]
    return f"{fridge}, {frozen}{f' ({w.keeps_joined.join(said)})' if said else ''}"


def _by_eater(limits: Limits, otherwise: int | None, edition: Edition) -> str | None:
    """`4 days (3 for Odile)`: the longest limit, and the shorter ones with those for whom they hold."""
    w, found = edition.words, {limit for _, limit in limits}
    longest = max(found, default=otherwise)
    if longest is None:
        return None
    said = [
        w.limit_for.format(limit=limit, who=listed(unique(who for who, of in limits if of == limit), w))
        for limit in sorted(found - {longest}, reverse=True)
    ]
    return f"{days(longest, w)} ({w.keeps_joined.join(said)})" if said else days(longest, w)


def _apart(one: PartKeeps, servings: Sequence[Serving], edition: Edition) -> str:
    """Until when what is packed apart keeps; "" where that is not known."""
    limits = [
        (s.eater, (part.use_by - s.made_on).days)
        for s in servings
        for part in s.parts
        if s.made_on and part.part == one.part and part.apart and part.use_by
    ]
    time = _by_eater(limits, one.fridge_days, edition)
    return "" if time is None else edition.words.part_keeps.format(part=one.part, time=time)
