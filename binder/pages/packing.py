"""Section 6: what goes into which container, how much of it, for whom, and where it goes; ticked and checked twice."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from binder.model.week import Session
from binder.pages.edition import Edition, portions, run, session_title, unique
from binder.pages.format import day, grams, share
from binder.pages.page import Block, Column, Heading, Page, Para, Row, Table, Text, plain
from binder.reckon.facts import Batch, PackedFor, PackingRow, Serving


def pages(edition: Edition) -> tuple[Page, ...]:
    rows = edition.facts.packing
    sessions = unique([*edition.sessions, *(r.session for r in rows)])
    by_session = ((session, [r for r in rows if r.session == session]) for session in sessions)
    return tuple(_page(session, of, edition) for session, of in by_session if of)


def _page(session: Session | None, rows: Sequence[PackingRow], edition: Edition) -> Page:
    w = edition.words
    blocks: list[Block] = [*_weigh_and_share(session, rows, edition)]
    blocks += [Heading(2, w.containers), grid(rows, edition), Para(plain(w.second_check_note), "note")]
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
    return Heading(2, w.weigh_and_share), Para(plain(w.weigh_note), "note"), table


def _batch_row(batch: Batch, edition: Edition) -> Row:
    w = edition.words
    facts = batch.facts or edition.facts_of(batch.recipe)
    each = facts.per_portion.grams if facts else None
    planned = grams(each * float(batch.portions_made)) if each is not None else w.not_known
    portion = grams(each) if each is not None else w.not_known
    return Row((
        plain(edition.title(batch.recipe)), run(w.blank_grams), plain(planned),
        run(share(Fraction(1), batch.portions_made), "quantity"), plain(portion),
    ))  # fmt: skip


def grid(rows: Sequence[PackingRow], edition: Edition) -> Table:
    """A group for each dish, container and weight; under it a line for each container."""
    w = edition.words
    columns = (
        Column(w.packed, width=9, kind="tick"),
        Column(w.checked, width=9, kind="tick"),
        Column(w.for_whom, width=17),
        Column(w.weigh_in, width=17, kind="quantity"),
        Column(w.share, width=9),
        Column(w.eaten_on, width=14),
        Column(w.goes_to),
    )
    body = [line for row in rows for line in (_group(row, edition), *_lines(row, edition))]
    return Table(columns, tuple(body), w.packing, "packing")


def _group(row: PackingRow, edition: Edition) -> Row:
    w = edition.words
    box = f"{row.count} × {row.container}" if row.container else w.no_container.format(row.count)
    said = [box, w.packed_as.get(row.what, row.what)] if row.what != "portion" else [box]
    tare = next((c.tare_g for c in edition.household.containers if c.name == row.container), None)
    said += [w.tare.format(grams(tare))] if tare else []
    said += [_compartments(row, edition)] if len(row.compartments) > 1 else []
    return Row(((*run(edition.title(row.recipe), "strong"), *run(f" {w.dash} {', '.join(said)}")),), "group")


def _compartments(row: PackingRow, edition: Edition) -> str:
    return edition.words.compartments.format(" + ".join(row.compartments))


def _lines(row: PackingRow, edition: Edition) -> Iterable[Row]:
    """One for each container: those with a serving say whose and when; the rest are surplus or by-product."""
    servings = [edition.serving(id_) for id_ in row.servings]
    known = [s for s in servings if s is not None]
    if len(known) == row.count:
        return [_serving_line(row, s, edition) for s in known]
    packed = [*row.for_, *([PackedFor(None, None)] * (row.count - len(row.for_)))]
    return [_plain_line(row, one, edition) for one in packed[: max(row.count, len(row.for_))]]


def _serving_line(row: PackingRow, serving: Serving, edition: Edition) -> Row:
    w = edition.words
    batch = edition.batch(serving.batch)
    part = share(serving.portions, batch.portions_made) if batch else ""
    place = w.kept_short.get(serving.kept, serving.kept)
    goes = f"{place}, {w.dash_to.format(serving.place)}" if serving.place != "home" else place
    when = f"{day(serving.date, w)}, {w.meals.get(serving.meal, serving.meal).lower()}" if serving.date else w.any_day
    return _cells(run(serving.eater, "strong"), _weight(row, edition), part, when, goes)


def _plain_line(row: PackingRow, packed: PackedFor, edition: Edition) -> Row:
    w = edition.words
    whom = packed.eater or w.packed_as.get(row.what, row.what)
    when = day(packed.date, w) if packed.date else w.any_day
    return _cells(run(whom, "strong"), _weight(row, edition), "", when, w.kept_short.get(row.kept, row.kept))


def _cells(whom: Text, weight: Text, part: str, when: str, goes: str) -> Row:
    return Row(((), (), whom, weight, plain(part), plain(when), plain(goes)))


def _weight(row: PackingRow, edition: Edition) -> Text:
    """Grams to weigh in; the portion where no weight is known."""
    if row.grams_each is not None:
        return run(grams(row.grams_each), "quantity")
    each = row.portions_each
    return run(portions(each, edition.words) if each else edition.words.not_known, "quantity")
