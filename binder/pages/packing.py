"""Section 6: what goes into which container, how much of it, for whom, and where it goes; ticked and checked twice."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from binder.model.week import Session
from binder.pages import cold_room
from binder.pages.edition import Edition, portions, run, session_title, unique
from binder.pages.format import TIMES, day, grams, listed, share, weekdays_text
from binder.pages.page import Block, Column, Heading, Page, Para, Row, Table, plain
from binder.pages.past import weighed
from binder.pages.portion_weight import by_past, of_portion, of_row
from binder.reckon.facts import Batch, PackedFor, PackingRow, Serving

TOGETHER = 8  # lines of a group under one head


def pages(edition: Edition) -> tuple[Page, ...]:
    """The packing sheet of each session; a session that fills nothing has none."""
    rows = edition.facts.packing
    sessions = unique([*edition.sessions, *(r.session for r in rows)])
    by_session = ((session, [r for r in rows if r.session == session]) for session in sessions)
    return tuple(_page(session, of, edition) for session, of in by_session if of)


def _page(session: Session | None, rows: Sequence[PackingRow], edition: Edition) -> Page:
    w = edition.words
    blocks: list[Block] = [*_weigh_and_share(session, rows, edition)]
    blocks += [Heading(2, w.containers), Para(plain(w.second_check_note), "note"), grid(rows, edition)]
    blocks += cold_room.freeze_list(session, edition)
    when = session_title(session, w) if session else ""
    anchor = f"packing-{session.on.isoformat()}" if session else "packing"
    return Page(anchor, w.packing, "packing", tuple(blocks), subtitle=when, print_first=True)


def _weigh_and_share(session: Session | None, rows: Sequence[PackingRow], edition: Edition) -> tuple[Block, ...]:
    """For each batch a place for what it really weighs; a kit is weighed part by part."""
    w = edition.words
    packed = {row.recipe for row in rows if row.what != "set"} - {row.recipe for row in rows if row.what == "set"}
    batches = [b for b in edition.facts.batches if b.session == session and b.recipe in packed]
    if not batches:
        return ()
    columns = (
        Column(w.dish),
        Column(w.batch_weighs, "center", width=24, kind="write"),
        Column(w.planned, "right", width=16),
        Column(w.a_portion_is, "center", width=14),
        Column(w.planned_portion, "right", width=18),
    )
    table = Table(columns, tuple(_batch_row(b, edition) for b in batches), w.weigh_and_share, "weigh", row_heads=True)
    note = f"{w.weigh_note} {w.nearly_note}" if any(r.cooked_grams_from == "estimate" for r in rows) else w.weigh_note
    return Heading(2, w.weigh_and_share), Para(plain(note), "note"), table, *weighed(batches, edition)


def _batch_row(batch: Batch, edition: Edition) -> Row:
    w = edition.words
    facts = batch.facts or edition.facts_of(batch.recipe)
    each = by_past(facts.per_portion, facts.key, edition.facts.past) if facts else None
    planned = (of_portion(each, w, float(batch.portions_made), short=True) if each else None) or w.not_known
    portion = (of_portion(each, w, short=True) if each else None) or w.not_known
    return Row((
        plain(edition.short(batch.recipe)), run(w.blank_grams), plain(planned),
        run(share(Fraction(1), batch.portions_made), "quantity"), plain(portion),
    ))  # fmt: skip


def grid(rows: Sequence[PackingRow], edition: Edition) -> Table:
    """A group for each dish, container and weight; under it a line for each eater, with a box for each container."""
    w = edition.words
    columns = (
        Column(w.packed, width=13, kind="tick"),
        Column(w.checked, width=13, kind="tick"),
        Column(w.for_whom, width=15),
        Column(w.weigh_in, width=14, kind="quantity"),
        Column(w.share, width=7),
        Column(w.eaten_on, width=22),
        Column(w.goes_to),
    )
    body: list[Row] = []
    for row in rows:
        lines = list(_lines(row, edition))
        # A group is kept on one page; one of many lines goes on under its head once more.
        for first in range(0, len(lines), TOGETHER):
            body += [_group(row, edition, again=first > 0), *lines[first : first + TOGETHER]]
    return Table(columns, tuple(body), w.packing, "packing")


def _group(row: PackingRow, edition: Edition, again: bool = False) -> Row:
    w = edition.words
    box = f"{row.count} × {row.container}" if row.container else w.no_container.format(row.count)
    said = [box, w.packed_as.get(row.what, row.what)] if row.what != "portion" else [box]
    said = [*([row.part] if row.part else []), *said]
    tare = next((c.tare_g for c in edition.household.containers if c.name == row.container), None)
    said += _until(row, edition)
    said += [w.tare.format(grams(tare))] if tare else []
    facts = edition.facts_of(row.recipe)
    apart = facts.recipe.packed_apart if facts and row.what == "portion" else ()
    said += [w.packed_apart.format(listed(apart, w))] if apart else []
    said += [_compartments(row, edition)] if len(row.compartments) > 1 else []
    said = [w.continued] if again else said
    return Row(((*run(edition.short(row.recipe), "strong"), *run(f" {w.dash} {', '.join(said)}")),), "group")


def _until(row: PackingRow, edition: Edition) -> list[str]:
    """`in the refrigerator, until Thu 11 Jun`: the last day of what is cold; nothing of what is frozen.

    Where eaters' cautions differ, the day of most and whose is another, as the labels have it:
    `refrigerator, until Thu 11 Jun (Odile Wed 10)`.
    """
    w = edition.words
    known = [s for id_ in row.servings if (s := edition.serving(id_)) and s.kept in ("fridge", "cupboard")]
    dated = [(s.use_by, s.eater) for s in known if s.use_by]
    where = w.kept.get(row.kept, row.kept)
    if not dated:
        return [where]
    counts = Counter(on for on, _ in dated)
    most = min(counts, key=lambda on: (-counts[on], on))
    others = [
        w.packed_until_whose.format(eater=eater, weekday=w.weekdays_short[on.weekday()], day=on.day)
        for on, eater in unique(sorted(dated))
        if on != most
    ]
    if not others:
        return [where, w.packed_until.format(day(most, w))]
    return [w.kept_short.get(row.kept, where), w.packed_until_but.format(day(most, w), ", ".join(others))]


def _compartments(row: PackingRow, edition: Edition) -> str:
    return edition.words.compartments.format(" + ".join(row.compartments))


@dataclass(frozen=True, slots=True)
class Line:
    """What one container says; those that say the same but for the day are one line of the sheet."""

    whom: str
    part: str
    meal: str
    goes: str
    on: date | None


def _lines(row: PackingRow, edition: Edition) -> Iterable[Row]:
    """Those with a serving say whose and when; the rest are surplus or by-product."""
    servings = [edition.serving(id_) for id_ in row.servings]
    known = [s for s in servings if s is not None]
    if len(known) == row.count:
        lines = [_serving_line(s, edition) for s in known]
    else:
        packed = [*row.for_, *([PackedFor(None, None)] * (row.count - len(row.for_)))]
        lines = [_plain_line(row, one, edition) for one in packed[: max(row.count, len(row.for_))]]
    for alike in unique((x.whom, x.part, x.meal, x.goes) for x in lines):
        yield _line([x for x in lines if (x.whom, x.part, x.meal, x.goes) == alike], row, edition)


def _serving_line(serving: Serving, edition: Edition) -> Line:
    w = edition.words
    batch = edition.batch(serving.batch)
    part = share(serving.portions, batch.portions_made) if batch else ""
    meal = w.meals.get(serving.meal, serving.meal).lower() if serving.date else ""
    return Line(serving.eater, part, meal, serving.place, serving.date)


def _plain_line(row: PackingRow, packed: PackedFor, edition: Edition) -> Line:
    w = edition.words
    whom = packed.eater or w.packed_as.get(row.what, row.what)
    return Line(whom, "", "", "", packed.date)


def _line(alike: Sequence[Line], row: PackingRow, edition: Edition) -> Row:
    """`3 × 450 g · Maren · Mon–Wed, lunch`."""
    w, first = edition.words, alike[0]
    weekdays = weekdays_text([x.on for x in alike if x.on], w)
    when = ", ".join(word for word in (weekdays or w.any_day, first.meal) if word)
    weight = run(f"{len(alike)}{TIMES}{_weight(row, edition)}" if len(alike) > 1 else _weight(row, edition), "quantity")
    cells = ((), (), run(first.whom, "strong"), weight, plain(first.part), plain(when), plain(first.goes))
    return Row(cells, ticks=len(alike))


def _weight(row: PackingRow, edition: Edition) -> str:
    """Grams to weigh in; the portion where no weight is known."""
    if weight := of_row(row, edition.words, edition.facts.past):
        return weight
    each = row.portions_each
    return portions(each, edition.words) if each else edition.words.not_known
