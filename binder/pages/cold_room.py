"""Into the freezer on prep day, and whether the week's boxes fit into the refrigerator and the freezer."""

from __future__ import annotations

from binder.model.week import Session
from binder.pages.edition import Edition, run, unique
from binder.pages.format import TIMES, day, first_upper, fraction, grams, listed, number
from binder.pages.page import Block, Heading, Para, plain
from binder.reckon.facts import FrozenBoxes

NAMED = frozenset({"set", "apart", "packed apart"})  # what is not the dish itself, and says so beside its box


def freeze_list(session: Session | None, edition: Edition) -> list[Block]:
    """What a prep day freezes, in which boxes, the room to leave, and what the freezer takes in a day."""
    w = edition.words
    load = next((one for one in edition.facts.freezer_load if session and one.date == session.on), None)
    if load is None:
        return []
    said = w.freezer_load.format(w.at_least.format(grams(load.grams)) if load.unknown else grams(load.grams))
    said += f" {w.freezer_takes.format(grams(load.at_most_grams))}" if load.at_most_grams is not None else ""
    over = run(f" {w.freezer_over}", "strong") if load.over else ()
    what = listed([_boxes(boxes, edition) for boxes in load.boxes], w)
    return [
        Heading(2, w.into_the_freezer),
        Para(plain(f"{what}. {w.headspace}")),
        Para((*plain(first_upper(said)), *over), "caution" if load.over else "note"),
    ]


def _boxes(boxes: FrozenBoxes, edition: Edition) -> str:
    """`4 × quart box Kofta (1 in free)`."""
    w = edition.words
    box = boxes.container or w.packed_as.get(boxes.what, boxes.what)
    room = f" ({w.room_at_top.format(fraction(boxes.headspace_inches))})" if boxes.headspace_inches else ""
    apart = f", {w.packed_as.get(boxes.what, boxes.what)}" if boxes.container and boxes.what in NAMED else ""
    return f"{boxes.count}{TIMES}{box} {edition.short(boxes.recipe)}{apart}{room}"


def room(edition: Edition) -> list[Block]:
    """Where the household states what its refrigerator or freezer holds: the fullest day, and each day over."""
    w = edition.words
    days = [one for one in edition.facts.room if one.holds is not None]
    blocks: list[Block] = []
    for place in unique(one.place for one in days):
        here = [one for one in days if one.place == place]
        fullest = max(here, key=lambda one: one.litres)
        over = [one for one in here if one.over]
        litres = number(fullest.litres, 1)
        litres = w.at_least.format(litres) if fullest.unknown else litres
        said = w.room_line.format(
            place=w.store(place), litres=litres, day=day(fullest.date, w), holds=number(fullest.holds or 0, 1)
        )
        if over:
            when = listed([day(one.date, w) for one in over], w)
            blocks.append(Para((*plain(f"{said} "), *run(w.room_over.format(when), "strong")), "caution"))
        else:
            blocks.append(Para(plain(said), "note"))
    return [Heading(2, w.room_head), *blocks] if blocks else []
