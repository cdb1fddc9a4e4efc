"""Section 4: the order of the work: a picture of who and what is busy when, and a table that says the same."""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction

from binder.model.week import Session
from binder.pages.cooling import SOURCE as COOLING_SOURCE
from binder.pages.cooling import Deadline, deadlines, piece_kind
from binder.pages.drawings import SCREEN, Bar, Form, on_paper, timeline
from binder.pages.edition import Edition, as_tried, run, session_title, unique
from binder.pages.format import NBSP, clock, listed, minutes
from binder.pages.page import Block, Box, Bullets, Column, Drawing, Heading, Page, Para, Row, Table, Text, Timing, plain
from binder.pages.past import expected
from binder.pages.words.en import Words
from binder.reckon.facts import RunSheet, Task

BRIEF = 60  # letters of a line that is read at a glance
_ORDER = ("cook", "oven", "burner", "pressure cooker", "microwave", "kettle", "cutting board")


def pages(edition: Edition) -> tuple[Page, ...]:
    """A run sheet for each session."""
    return tuple(_page(sheet, n, edition) for n, sheet in enumerate(edition.facts.run_sheets, 1))


def sheet_minutes(session: Session, edition: Edition) -> str:
    """How long a session takes, by its run sheet; "" without one."""
    return next((minutes(s.minutes) for s in edition.facts.run_sheets if s.of == session), "")


def _page(sheet: RunSheet, number: int, edition: Edition) -> Page:
    w = edition.words
    blocks: list[Block] = [Para(plain(in_words(sheet, edition)), "lead")]
    blocks += [*apart(sheet, edition), *expected(sheet, edition)]
    if other := as_tried(sheet.of, w):
        blocks.append(Para(plain(other), "caution"))
    if sheet.tasks:
        blocks += [picture(sheet, number, edition), table(sheet, edition), *_cooling(sheet, number, edition)]
    if any(piece_kind(p) == "pressure cooker" for task in sheet.tasks for p in task.uses):
        blocks.append(Box("caution", w.pressure_title, (Para(plain(w.pressure_caution), "caution"),)))
    when = session_title(sheet.of, w) if sheet.of else f"{sheet.start:%Y-%m-%d}, {clock(sheet.start)}"
    return Page(f"run-sheet-{number}", w.run_sheet, "run-sheet", tuple(blocks), subtitle=when, print_first=True)


def in_words(sheet: RunSheet, edition: Edition) -> str:
    """From, to, how long, how long of it hands are busy, and whether it can be shorter."""
    w = edition.words
    busy = sum(((t.finish - t.start).total_seconds() for t in sheet.tasks if t.attended), 0.0)
    said = w.run_sheet_lead.format(
        start=clock(sheet.start),
        finish=clock(sheet.finish),
        time=minutes(sheet.minutes),
        attended=minutes(Fraction(busy) / 60),
    )
    if sheet.proven:
        return f"{said} {w.proven_apart if sheet.apart_minutes else w.proven}"
    return f"{said} {w.not_proven.format(minutes(sheet.at_least_minutes))}"


def apart_in_words(sheet: RunSheet, words: Words) -> str:
    """Whose food is kept apart from what, and the minutes it costs; "" where nothing asks for it."""
    kept = [one for one in sheet.apart if one.kept]
    said = [
        words.kept_apart.format(
            who=listed(unique(one.eater for one in kept if one.avoided == what), words),
            what=what,
            are=_are(what, words),
        )
        for what in unique(one.avoided for one in kept)
    ]
    if sheet.apart_minutes:
        found = "" if sheet.apart_surely else words.shortest_found
        said.append(words.apart_costs.format(time=minutes(sheet.apart_minutes), found=found))
    return " ".join(said)


def apart(sheet: RunSheet, edition: Edition) -> tuple[Block, ...]:
    """What is kept apart and what that costs; what cannot be, with the wash between."""
    w = edition.words
    blocks: list[Block] = []
    if said := apart_in_words(sheet, w):
        blocks.append(Para(plain(said), "caution"))
    lines = unique(
        w.not_apart.format(
            who=one.eater, food=edition.short(one.food), other=edition.short(one.other), what=one.avoided
        )
        for one in sheet.apart
        if not one.kept
    )
    if lines:
        blocks.append(Box("caution", w.not_apart_title, (Bullets(tuple(plain(line) for line in lines)),)))
    return tuple(blocks)


def picture(sheet: RunSheet, number: int, edition: Edition) -> Drawing:
    """Bars over the clock, a row for each piece of equipment; `number` tells the week's sheets apart."""
    w = edition.words
    pieces = sorted({p for task in sheet.tasks for p in task.uses}, key=_piece_order)
    bars = [
        Bar(piece, task.start, task.finish, f"{n} {edition.short(task.recipe)}", task.attended)
        for n, task in enumerate(sheet.tasks, 1)
        for piece in task.uses
    ]
    waiting = [
        Bar(w.nothing_kept_row, task.start, task.finish, f"{n} {edition.short(task.recipe)}", False)
        for n, task in enumerate(sheet.tasks, 1)
        if not task.uses
    ]
    rows = [*pieces, *([w.nothing_kept_row] if waiting else [])]
    alt = w.picture_alt.format(start=clock(sheet.start), finish=clock(sheet.finish), rows=", ".join(rows))
    described = (w.run_sheet, alt, f"run-{number}")

    def drawn(form: Form) -> str:
        return timeline(rows, [*bars, *waiting], sheet.start, sheet.finish, *described, form)

    return Drawing(drawn(SCREEN), alt, w.picture_caption, on_paper(drawn))


def _piece_order(piece: str) -> tuple[int, str, int, str]:
    kind = piece_kind(piece)
    rank = _ORDER.index(kind) if kind in _ORDER else len(_ORDER) - 1
    last = piece.rpartition(" ")[2]
    return rank, kind, int(last) if last.isdigit() else 0, piece


def table(sheet: RunSheet, edition: Edition) -> Table:
    """One line a task, in order of time; lines that start unattended work stand out: start them, then go on."""
    w = edition.words
    columns = (
        Column("", width=4, kind="tick"),
        Column(w.time, width=10, kind="time"),
        Column(w.number_short, "right", width=4),
        Column(w.task),
        Column(w.dish, width=18),
        Column(w.how_long, width=14),
        Column(w.uses, width=15),
    )
    alone = not any("cook 2" in task.uses for task in sheet.tasks)
    numbers = {task.id: n for n, task in enumerate(sheet.tasks, 1)}
    rows = tuple(_row(task, numbers, alone, edition) for task in sheet.tasks)
    return Table(columns, rows, w.run_sheet, "run-sheet")


def _row(task: Task, numbers: Mapping[str, int], alone: bool, edition: Edition) -> Row:
    w = edition.words
    cells: tuple[Text, ...] = (
        (),
        run(clock(task.start), "time"),
        plain(str(numbers[task.id])),
        plain(_task_text(task, edition)),
        run(edition.short(task.recipe), "small"),
        (*run(minutes(length(task))), *(run(f", {w.unattended}", "strong") if not task.attended else ())),
        run(", ".join(map(_bound, _worth_saying(task.uses, alone))), "small"),
    )
    return Row(cells, "" if task.attended else "now", timing=_timing(task, numbers, edition))


def _timing(task: Task, numbers: Mapping[str, int], edition: Edition) -> Timing:
    """A task for a screen that follows the clock."""
    return Timing(
        id=task.id,
        start=task.start,
        seconds=int((task.finish - task.start).total_seconds()),
        words=": ".join(
            word for word in (edition.short(task.recipe) if task.recipe else "", in_brief(task.text)) if word
        ),
        after=tuple(numbers[i] for i in dict.fromkeys((*task.after, *task.apart_after)) if i in numbers),
        keeps=task.uses,
        heat=task.temperature,
    )


def in_brief(text: str) -> str:
    """The beginning of a step, to be read at a glance: its first clause, cut at a comma where it is long."""
    first = re.split(r"(?<=\w)[.;:] ", text, maxsplit=1)[0].rstrip(".")
    if len(first) <= BRIEF:
        return first
    cut = max(first.rfind(", ", 0, BRIEF), 0) or first.rfind(" ", 0, BRIEF)
    return f"{first[:cut]} …" if cut > 0 else first


def _are(what: str, w: Words) -> str:
    """Milk is in hand, tree nuts (almonds) are."""
    word = what.partition(" (")[0]
    return w.are if word.endswith("s") and not word.endswith(("ss", "us")) else w.is_


def length(task: Task) -> Fraction:
    """Minutes from start to finish."""
    return Fraction((task.finish - task.start).total_seconds()) / 60


def _task_text(task: Task, edition: Edition) -> str:
    w = edition.words
    said = [w.closed_first.format(who=who, what=what, are=_are(what, w)) for who, what in task.closed_first]
    said.append(task.text)
    if task.temperature and task.temperature not in task.text:
        said.append(f"({task.temperature})")
    if task.loads > 1:
        said.append(w.load_of.format(load=task.load, loads=task.loads))
    if task.raw:
        said.append(w.wash_after_raw)
    said += [w.wash_avoided.format(what=what) for what in task.wash]
    if task.assumed_minutes:
        said.append(w.minutes_assumed)
    return " ".join(said)


def _bound(piece: str) -> str:
    """`burner 2` stays on one line."""
    head, _, last = piece.rpartition(" ")
    return f"{head}{NBSP}{last}" if head and last.isdigit() else piece


def _worth_saying(uses: tuple[str, ...], alone: bool) -> tuple[str, ...]:
    """One cook alone needs no naming."""
    return tuple(piece for piece in uses if not alone or piece_kind(piece) != "cook")


def _cooling(sheet: RunSheet, number: int, edition: Edition) -> tuple[Block, ...]:
    """Until when each hot dish must be cold, on the clock."""
    w = edition.words
    found = deadlines(sheet, edition)
    if not found:
        return ()
    columns = (
        Column("", width=5, kind="tick"),
        Column(w.dish),
        Column(w.hot_until, width=14, kind="time"),
        Column(w.check_half_way, width=14, kind="time"),
        Column(w.lukewarm_by, width=22, kind="time"),
        Column(w.cold_by, width=22, kind="time"),
    )
    # How to cool is told once; the clock times are each session's own.
    told = any(deadlines(other, edition) for other in edition.facts.run_sheets[: number - 1])
    rows = tuple(
        Row((
            (), plain(cooled(d, edition)), plain(clock(d.hot_until)), plain(clock(d.check_at)),
            run(clock(d.lukewarm_by), "time"), run(clock(d.cold_by), "time"),
        ))
        for d in found
    )  # fmt: skip
    lines = tuple(plain(line.format(source=COOLING_SOURCE)) for line in w.cooling_how)
    how = Box("caution", w.cooling_title, (Bullets(lines),))
    table_ = Table(columns, rows, w.cooling, "cooling", row_heads=False)
    waiting = tuple(
        plain(f"{edition.short(d.recipe)}{w.separator}{line}") for d in found for line in set_apart(d, edition)
    )
    apart_ = (Bullets(waiting),) if waiting else ()
    return Heading(2, w.cooling), table_, *apart_, *(() if told else (how,))


def cooled(deadline: Deadline, edition: Edition) -> str:
    """The dish, and which of its parts the clock runs for."""
    dish = edition.short(deadline.recipe)
    return f"{dish} ({deadline.part})" if deadline.part else dish


def set_apart(deadline: Deadline, edition: Edition) -> tuple[str, ...]:
    """What is cooled by itself, because the dish is portioned too late for it; a line a part."""
    said = edition.words.cooled_by_itself
    return tuple(
        said.format(part=one.part or edition.short(deadline.recipe), off=clock(one.off_heat))
        for one in deadline.waiting
    )
