"""Which part of a kit lies where, in words: the raw part in the freezer, its set in the refrigerator."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from binder.pages.edition import Edition, unique
from binder.pages.format import day, listed
from binder.pages.words.en import Words
from binder.reckon.facts import PartStored, Pull, Serving


def lies_apart(parts: Iterable[PartStored]) -> bool:
    """Whether the parts lie in different places, so that one place for the dish would be wrong."""
    return len({(one.kept, one.pull_on) for one in parts}) > 1


def stored_lines(servings: Sequence[Serving], edition: Edition) -> tuple[str, ...]:
    """A line for each part of what is cooked together, what is stored apart first; () where all lies in one place."""
    w = edition.words
    parts = unique(one for s in servings for one in s.lies)
    if not lies_apart(parts):
        return ()
    frozen = any(s.from_frozen for s in servings)
    return tuple(_line(one, frozen, w) for one in sorted(parts, key=lambda one: one.what == "set"))


def _line(one: PartStored, from_frozen: bool, w: Words) -> str:
    """`Raw, apart: in the freezer, pull in the evening of Mon 8 Jun, use by Wed 10 Jun`."""
    said = [w.kept.get(one.kept, one.kept)]
    said += [w.used_frozen] if from_frozen and one.kept == "freezer" else []
    said += [w.pull_evening.format(day(one.pull_on, w))] if one.pull_on else []
    said += [w.use_by_day.format(day(one.use_by, w))] if one.use_by else []
    return f"{part_name(one, w)}: {', '.join(said)}"


def part_name(one: PartStored, w: Words) -> str:
    """The part's own name; `kit set`, `stored apart` where the recipe gives it none."""
    return one.part or w.packed_as.get(one.what, one.what)


def pulled_part(pulls: Sequence[Pull], edition: Edition) -> str:
    """`only Raw, apart; Set is in the refrigerator`: what of a kit is pulled. "" where all of it is."""
    w = edition.words
    parts = unique(one for pull in pulls if (s := edition.serving(pull.serving)) for one in s.lies)
    if not lies_apart(parts):
        return ""
    moved = unique(part_name(one, w) for one in parts if one.pull_on)
    rest = [one for one in parts if not one.pull_on]
    store = listed(unique(w.kept.get(one.kept, one.kept) for one in rest), w)
    names = listed(unique(part_name(one, w) for one in rest), w)
    return w.only_part.format(moved=listed(moved, w), rest=names, kept=store)
