"""Section 8: what goes out of the door, day by day, ticked there."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from fractions import Fraction

from binder.pages.edition import Edition, run, unique
from binder.pages.format import TIMES, clock, day_long, first_upper, listed, minutes
from binder.pages.measures import amount
from binder.pages.page import Block, Box, Bullets, Check, Checks, Heading, Page, Para, plain
from binder.reckon.facts import Carry, CarryItem

FLASK = "insulated flask"


def pages(edition: Edition) -> tuple[Page, ...]:
    """The carry list, day by day and place by place. None when nothing is carried."""
    w, carries = edition.words, edition.facts.carry_list
    if not carries:
        return ()
    blocks: list[Block] = [Para(plain(w.carry_note), "note")]
    blocks += [Para(plain(w.cold_source_note), "caution")] if any(c.cold for c in carries) else []
    blocks += _rules(edition)
    for on in sorted(unique(c.date for c in carries)):
        blocks.append(Heading(2, day_long(on, w)))
        for carry in (c for c in carries if c.date == on):
            blocks += _carry(carry, edition)
    return (Page("carrying", w.carry_list, "carry", tuple(blocks)),)


def _carry(carry: Carry, edition: Edition) -> list[Block]:
    w = edition.words
    title = w.carry_to.format(eater=carry.eater, place=carry.place)
    checks = [_item(item, edition) for item in carry.items]
    checks += [Check(plain(w.comes_home), plain(", ".join(_counted(carry.comes_home))))] if carry.comes_home else []
    warm = (*run(w.uncooled_title, "strong"), *plain(uncooled(carry, edition))) if carry.uncooled else ()
    cold = [Para(warm, "caution")] if warm else []
    there = [Para(plain(w.there_already.format(listed(carry.there, w))), "note")] if carry.there else []
    return [Heading(3, title), *there, *cold, Checks(tuple(checks), 2)]


def uncooled(carry: Carry, edition: Edition) -> str:
    """How long perishable food keeps on the way, and from when on it may be out of the cold for its meal."""
    w, at = edition.words, carry.meal_at
    hours, hot = carry.uncooled_hours
    said = w.uncooled.format(place=carry.place, hours=hours, hot=hot)
    if at is None or at < hours * 60:
        return said + w.uncooled_unknown
    said += w.uncooled_at.format(meal=clock(at), usual=clock(at - hours * 60), warm=clock(at - hot * 60))
    if carry.leaves >= at:
        return said
    return said + w.uncooled_since.format(leaves=clock(carry.leaves), long=minutes(Fraction(at - carry.leaves)))


def uncooled_short(carry: Carry, edition: Edition) -> str:
    """The same in a line of a list."""
    hours, hot = carry.uncooled_hours
    return edition.words.uncooled_short.format(hours=hours, hot=hot)


def _counted(things: Sequence[str]) -> tuple[str, ...]:
    """`deep tub`, `2 × deep tub`."""
    counts = Counter(things)
    return tuple(thing if counts[thing] == 1 else f"{counts[thing]}{TIMES}{thing}" for thing in unique(things))


def _rules(edition: Edition) -> list[Block]:
    """What each place that something is carried to does not allow, wants on a label, and what else is known of it."""
    w = edition.words
    lines = []
    for place in edition.household.places:
        if not any(carry.place == place.name for carry in edition.facts.carry_list):
            continue
        said = [w.place_bans.format(listed(place.bans, w))] if place.bans else []
        said += [w.place_label.format(listed(place.label_says, w))] if place.label_says else []
        said += [w.place_takes_none] if not place.home_food else []
        said += [place.notes] if place.notes else []
        if said:
            lines.append((*run(f"{first_upper(place.name)}: ", "strong"), *run(" ".join(said))))
    return [Box("note", w.place_rules, (Bullets(tuple(lines)),))] if lines else []


def _item(item: CarryItem, edition: Edition) -> Check:
    w = edition.words
    said = [amount(item.amount, edition.style)] if item.amount else []
    if item.from_ == FLASK:
        # Not from anywhere: it travels in there.
        what = edition.short(item.recipe) if item.recipe else first_upper(item.what)
        return Check(plain(what), plain(", ".join([*said, w.hot_in_flask])))
    if item.kind == "flask":
        return Check(plain(first_upper(item.what)), plain(w.flask_first))
    said += [w.from_where.format(w.store(item.from_))] if item.from_ else []
    said += [w.for_freezer_there] if item.kind == "for freezer" else []
    what = (
        edition.short(item.recipe) if item.kind in ("dish", "for freezer") and item.recipe else first_upper(item.what)
    )
    return Check(plain(what), plain(", ".join(part for part in said if part)))
