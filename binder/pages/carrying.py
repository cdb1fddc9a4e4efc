"""Section 8: what goes out of the door, day by day, ticked there."""

from __future__ import annotations

from binder.pages.edition import Edition, unique
from binder.pages.format import day_long, first_upper
from binder.pages.measures import amount
from binder.pages.page import Block, Check, Checks, Heading, Page, Para, plain
from binder.reckon.facts import Carry, CarryItem

FLASK = "insulated flask"


def pages(edition: Edition) -> tuple[Page, ...]:
    w, carries = edition.words, edition.facts.carry_list
    if not carries:
        return ()
    blocks: list[Block] = [Para(plain(w.carry_note), "note")]
    blocks += [Para(plain(w.cold_source_note), "caution")] if any(c.cold for c in carries) else []
    for on in sorted(unique(c.date for c in carries)):
        blocks.append(Heading(2, day_long(on, w)))
        for carry in (c for c in carries if c.date == on):
            blocks += _carry(carry, edition)
    return (Page("carrying", w.carry_list, "carry", tuple(blocks)),)


def _carry(carry: Carry, edition: Edition) -> list[Block]:
    w = edition.words
    title = w.carry_to.format(eater=carry.eater, place=carry.place)
    return [Heading(3, title), Checks(tuple(_item(i, edition) for i in carry.items), 2)]


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
    what = edition.short(item.recipe) if item.kind == "dish" and item.recipe else first_upper(item.what)
    return Check(plain(what), plain(", ".join(part for part in said if part)))
