"""What closing a week says of the stock: what is past its last day, and what is not written since nobody can tell."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from fractions import Fraction

from binder.commands.close_week_lines import figures, line_of, reduced
from binder.model.library import Library
from binder.reckon.closing_bought import Left
from binder.reckon.closing_lots import NewLot, past, past_of_stock
from binder.reckon.words import day_in_words

_OVER = "{what}: its last day in the refrigerator was {day}; throw it away and take the line out, or {way}"
_FROZEN = "write what was frozen by then under `freezer:` in stock.yaml"
_RAW = "what the packs leave of {} is not written: raw it keeps a day or two; write what was frozen into stock.yaml"
_CUT = "what is left of cut pieces is not written: {}; write into stock.yaml what is still good"
_NO_PACK = "what the packs leave of {} is not written: no size is known; write it, or `packs` in foods.yaml"
_MOST_OF_IT = Fraction(7, 8)


def past_their_day(
    library: Library, left: Mapping[str, Fraction], new: tuple[NewLot, ...], day: date, titles: Mapping[str, str]
) -> Iterator[str]:
    """Says what the week leaves in the refrigerator past its last day on the day of closing. It is written as it was
    said to be there, and does not count as on hand.

    Of stock.yaml only the lots that the week took from; lines that it did not touch are left to the check.
    """
    days = past_of_stock(library.stock, library, day)
    for lot in library.stock.lots if library.stock else ():
        share = left.get(lot.id, Fraction(1))
        rest = reduced(lot.text, share) if share < 1 and lot.id in days else None
        if rest is not None:
            yield _said(rest, days[lot.id], _FROZEN)
    for one in past(new, day):
        assert one.last is not None
        way = _FROZEN
        if one.portions:
            count = figures(one.portions)
            way = f"if it was frozen by then, write --again --set {one.of}.left=0 --set {one.of}.frozen={count}"
        yield _said(line_of(one, titles), one.last, way)


def _said(what: str, last: date, way: str) -> str:
    return _OVER.format(what=what, day=day_in_words(last), way=way)


def not_written(packs: Left) -> Iterator[str]:
    """What `bought: as listed` leaves for a person to see to."""
    for food in packs.raw:
        yield _RAW.format(food)
    if packs.cut:
        yield _CUT.format(", ".join(f"{_part(share)} {food}" for food, share in packs.cut))
    if packs.no_pack:
        yield _NO_PACK.format(", ".join(packs.no_pack))


def _part(share: Fraction) -> str:
    return "most of 1" if share > _MOST_OF_IT else figures(max(Fraction(1, 4), Fraction(round(share * 4), 4)))
