"""Section 3: what is cut and weighed, each food once with its split; then what is measured out, dish by dish."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from binder.model.week import Session
from binder.pages.cooling import is_hot, piece_kind
from binder.pages.edition import Edition, run, session_title, together, unique
from binder.pages.format import NBSP, first_upper
from binder.pages.measures import amount, first_and_second, weight_text
from binder.pages.page import Block, Check, Checks, Column, Heading, Page, Para, Row, Table, Text, plain
from binder.reckon.facts import MiseRow, MiseShare

# What comes from these aisles is washed, cut or kept apart; from those, where something is said to be done to it. The
# rest is only measured: "dry" or "drained" is its state.
TO_THE_BOARD = frozenset({"produce", "meat and fish", "other"})
BOARD = "cutting board"
CUT_IF_SAID = frozenset({"dairy and eggs", "nuts and dried fruit", "bakery"})


def pages(edition: Edition) -> tuple[Page, ...]:
    """A page for each session that anything is made ready for."""
    rows = edition.facts.mise_en_place
    return tuple(
        _page(session, [r for r in rows if r.session == session], edition)
        for session in unique(row.session for row in rows)
    )


def _page(session: Session | None, rows: Sequence[MiseRow], edition: Edition) -> Page:
    w = edition.words
    when = session_title(session, w) if session else ""
    aisles = _aisles(edition)
    measured = [row for row in rows if is_measured(row, aisles.get(row.food, ""))]
    cut = [row for row in rows if not is_measured(row, aisles.get(row.food, ""))]
    last_of_all, own_board = raw_apart(session, edition)
    blocks: list[Block] = [Para(plain(w.mise_note if last_of_all else w.mise_note_not_last), "note")]
    blocks += [_table(cut, w.mise_raw[last_of_all, own_board], edition)] if cut else []
    last = [row for row in measured if row.care == "avoided"]
    first = [row for row in measured if row.care != "avoided"]
    blocks += [Heading(2, w.measured_out)] if measured else []
    blocks += [Checks(by_dish(first, edition))] if first else []
    blocks += [Para(plain(f"{w.mise_avoided}:"), "note"), Checks(by_dish(last, edition))] if last else []
    blocks += _sums(measured, edition)
    anchor = f"mise-{session.on.isoformat()}" if session else "mise"
    return Page(anchor, w.mise_en_place, "mise", tuple(blocks), subtitle=when, print_first=True)


def _aisles(edition: Edition) -> dict[str, str]:
    """The aisle of every food that the week's batches use."""
    made = (b.facts or edition.facts_of(b.recipe) for b in edition.facts.batches)
    foods = (line.ingredient.food for facts in made if facts for line in facts.ingredients)
    return {food.name: food.aisle for food in foods}


def is_measured(row: MiseRow, aisle: str) -> bool:
    """Whether a food is only spooned, poured or counted out: dry goods, oils, spices, eggs."""
    if not aisle or aisle in TO_THE_BOARD:
        return False
    return not row.preparation or aisle not in CUT_IF_SAID


def raw_apart(session: Session | None, edition: Edition) -> tuple[bool, bool]:
    """By the session's run sheet: whether raw meat and fish are in hand only when no other food is cut any more, apart
    from what waits for them; and whether they have a board that no other work takes. Without such work it is so."""
    tasks = [task for sheet in edition.facts.run_sheets if sheet.of == session for task in sheet.tasks]
    raw = [task for task in tasks if task.raw]
    if not raw:
        return True, True
    behind = {task.id for task in raw}
    for task in tasks:  # in order of time
        if not behind.isdisjoint(task.after):
            behind.add(task.id)
    others = [task for task in tasks if task.attended and task.id not in behind and not is_hot(task)]
    boards = [{piece for piece in task.uses if piece_kind(piece) == BOARD} for task in tasks]
    of_raw = {board for task, on in zip(tasks, boards, strict=True) if task.raw for board in on}
    of_others = {board for task, on in zip(tasks, boards, strict=True) if not task.raw for board in on}
    first = min(task.start for task in raw)
    return all(task.start < first for task in others), bool(of_raw) and of_raw.isdisjoint(of_others)


def _table(rows: Sequence[MiseRow], raw: str, edition: Edition) -> Table:
    """`raw` is said over what is raw meat or fish."""
    w = edition.words
    columns = (
        Column("", width=5, kind="tick"),
        Column(w.how_much, width=20, kind="quantity"),
        Column(w.food, width=22),
        Column(w.cut_how, width=20),
        Column(w.split_by_dish),
    )
    made: list[Row] = []
    care = ""
    for row in rows:
        if row.care != care:
            care = row.care
            made.append(Row((plain(raw if care == "raw" else w.mise_avoided),), "group"))
        made.append(_row(row, edition))
    return Table(columns, tuple(made), w.mise_en_place, "mise")


def _row(row: MiseRow, edition: Edition) -> Row:
    cells = (
        (),
        run(how_much(row, edition), "quantity"),
        run(first_upper(_food(row, edition)), "strong"),
        plain(row.preparation),
        plain(split(row, edition)),
    )
    return Row(cells)


def _food(row: MiseRow, edition: Edition) -> str:
    many = row.amount is not None and row.amount.unit == "each" and row.amount.high > 1
    units = {measure.unit for measure in row.measures}
    food = edition.words.plural_food(row.food) if many else row.food
    # Shares of several dishes are told by weight, not in cans.
    return edition.words.in_units(food, units.pop()) if len(units) == 1 and len(row.for_) == 1 else food


def how_much(row: MiseRow, edition: Edition) -> str:
    """As on the card: the household's own measure, the other beside it; `some` when no amount was written.

    Measures in several units (cups and spoons) are told by their sum where there is one.
    """
    style, w = edition.style, edition.words
    if len(row.measures) > 1 and row.amount is not None:
        if row.drained:
            return w.drained_weight.format(weight_text(row.drained))
        return amount(row.amount, style)
    first, second = first_and_second(row.measures, row.drained or row.grams, style)
    if first:
        second = w.drained_weight.format(second) if second and row.drained else second
        return f"{first} ({second})" if second else first
    if row.amount is not None:
        return amount(row.amount, style)
    return weight_text(row.grams) if row.grams else edition.words.some


def split(row: MiseRow, edition: Edition) -> str:
    """`Lentil stew 2 · Squash bake 1`; the dish alone when there is one."""
    if len(row.for_) == 1:
        return edition.short(row.for_[0].recipe)
    said = [_share(s, edition) for s in row.for_]
    # What only some dishes can say in ounces all say in grams: a line has one system.
    if any(text.endswith(f"{NBSP}g") for text in said) and row.amount and row.amount.unit == "g":
        metric = replace(edition.style, measures="metric")
        said = [amount(s.amount, metric) if s.amount else "" for s in row.for_]
    shares = zip(row.for_, said, strict=True)
    return edition.words.separator.join(f"{edition.short(s.recipe)}{NBSP}{text}".strip() for s, text in shares)


def _share(share: MiseShare, edition: Edition) -> str:
    if share.drained:
        return edition.words.drained_weight.format(weight_text(share.drained))
    return amount(share.amount, edition.style) if share.amount else ""


def by_dish(rows: Sequence[MiseRow], edition: Edition) -> tuple[Check, ...]:
    """One line for each dish, in the order in which they are needed: all that is measured out for it, together."""
    checks = []
    begins = _begins(rows[0].session, edition) if rows else {}
    named = unique(s.recipe for row in rows for s in row.for_)
    for key in sorted(named, key=lambda recipe: begins.get(recipe, len(begins))):
        parts = (_measured(row, s, edition) for row in rows for s in row.for_ if s.recipe == key)
        checks.append(Check((*run(edition.short(key), "strong"), *run(": "), *together(parts, ", "))))
    return tuple(checks)


def _begins(session: Session | None, edition: Edition) -> Mapping[str, int]:
    """The dishes of a session in the order in which they are begun, each with its place."""
    tasks = [task for sheet in edition.facts.run_sheets if sheet.of == session for task in sheet.tasks]
    return {recipe: n for n, recipe in enumerate(unique(task.recipe for task in tasks))}


def _measured(row: MiseRow, share: MiseShare, edition: Edition) -> Text:
    """`2 tbsp olive oil`, `350 g farro (dry)`."""
    said = how_much(row, edition) if len(row.for_) == 1 else _share(share, edition) or edition.words.some
    state = f" ({row.preparation})" if row.preparation else ""
    return (*run(said, "strong"), *run(f" {_food(row, edition)}{state}"))


def _sums(rows: Sequence[MiseRow], edition: Edition) -> list[Block]:
    """What several dishes take of one food, added up: to see that there is enough."""
    w = edition.words
    of = [row for row in rows if len(row.for_) > 1]
    said = ", ".join(f"{row.food} {how_much(row, edition)}" for row in of)
    return [Para(plain(w.measured_in_all.format(said)), "note")] if of else []
