"""Section 1: who eats what, where, day by day; then what is to be done each day."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date

from binder.model.household import HOME
from binder.pages.carrying import uncooled_short
from binder.pages.edition import (
    Edition,
    chunks,
    is_cold,
    meal_rank,
    portions,
    run,
    session_title,
    together,
    unique,
)
from binder.pages.format import NBSP, clock, day, day_long, listed, number
from binder.pages.kit import Sitting, begin_at
from binder.pages.page import Block, Bullets, Check, Checks, Column, Heading, Page, Para, Row, Table, Text, plain
from binder.pages.parts_stored import pulled_part
from binder.pages.run_sheet import sheet_minutes
from binder.reckon.facts import Carry, Pull, Serving
from binder.reckon.recipe_facts import ReheatFacts

EATERS_ACROSS = 5  # more columns than this cannot be read at arm's length on a letter page


def pages(edition: Edition) -> tuple[Page, ...]:
    """The week sheet, and what each day asks for."""
    w = edition.words
    blocks = (*week_grid(edition), *_no_fixed_day(edition), *_private_notes(edition))
    days = day_by_day(edition)
    return (
        Page("week", w.week_sheet, "week-sheet", blocks),
        Page("day-by-day", w.day_by_day, "day-by-day", days),
    )


def week_grid(edition: Edition) -> tuple[Block, ...]:
    """The day by eater table; several, where there are more eaters than go beside each other."""
    eaters = unique(s.eater for s in edition.servings)
    return tuple(_grid(edition, some) for some in chunks(eaters, EATERS_ACROSS))


def _grid(edition: Edition, eaters: Sequence[str]) -> Table:
    w = edition.words
    dated = [s for s in edition.servings if s.date and s.eater in eaters]
    columns = (Column(w.meal, width=12), *(Column(name) for name in eaters))
    rows: list[Row] = []
    for on in unique(s.date for s in dated if s.date):
        rows.append(Row((run(day_long(on, w), "strong"),), "group"))
        today = [s for s in dated if s.date == on]
        for meal in unique(s.meal for s in sorted(today, key=lambda s: meal_rank(s.meal))):
            at = [s for s in today if s.meal == meal]
            cells = (_dishes([s for s in at if s.eater == name], edition) for name in eaters)
            rows.append(Row((plain(w.meals.get(meal, meal)), *cells)))
    return Table(columns, tuple(rows), w.week_sheet, "week", row_heads=True)


def _dishes(servings: Iterable[Serving], edition: Edition) -> Text:
    return together((_dish(s, edition) for s in servings), "; ")


def _dish(serving: Serving, edition: Edition) -> Text:
    """Its short name, then in small what differs from one portion at home; hot or cold is section 7's to say."""
    w = edition.words
    said = [portions(serving.portions, w)] if serving.portions != 1 else []
    said += [serving.place.replace(" ", NBSP)] if serving.place != HOME else []
    title = run(edition.short(serving.recipe))
    return (*title, *run(f"\n{', '.join(said)}", "small")) if said else title


def _no_fixed_day(edition: Edition) -> tuple[Block, ...]:
    w = edition.words
    free = [s for s in edition.servings if s.date is None]
    if not free:
        return ()
    items = []
    for key, eater, meal in unique((s.recipe, s.eater, s.meal) for s in free):
        of = [s for s in free if (s.recipe, s.eater, s.meal) == (key, eater, meal)]
        count = portions(sum(s.portions for s in of), w)
        items.append(plain(w.no_fixed_day_line.format(
            eater=eater, meal=w.meals.get(meal, meal).lower(), dish=edition.short(key), portions=count
        )))  # fmt: skip
    return (Para((*run(f"{w.no_fixed_day}: ", "strong"), *together(items, "; "))),)


def _private_notes(edition: Edition) -> tuple[Block, ...]:
    """Only on the household's own pages, and only when asked for."""
    if not edition.private:
        return ()
    notes = [f"{e.name}: {e.private}" for e in edition.household.eaters if e.private]
    if not notes:
        return ()
    return Heading(2, edition.words.private_notes), Bullets(tuple(plain(note) for note in notes))


def day_by_day(edition: Edition) -> tuple[Block, ...]:
    """For each day the things to do, in the order of the day, with a box to tick."""
    blocks: list[Block] = []
    for on in edition.days():
        items = day_tasks(on, edition)
        if items:
            blocks += [Heading(2, day_long(on, edition.words)), Checks(items)]
    return tuple(blocks) or (Para(plain(edition.words.nothing_to_do), "note"),)


def day_tasks(on: date, edition: Edition) -> tuple[Check, ...]:
    """What one day asks for, to be ticked, by the clock: flasks, carries, meals, prep sessions; then pulls."""
    carries = [(c.leaves, _carry(c, edition)) for c in edition.facts.carry_list if c.date == on]
    preps = [(s.at_minutes, _prep(edition, n)) for n, s in enumerate(edition.sessions) if s.on == on]
    timed = [*_meals(on, edition, True), *carries, *_meals(on, edition, False), *preps]
    return (*(check for _, check in sorted(timed, key=lambda one: one[0])), *_pulls(on, edition))


def _prep(edition: Edition, number_: int) -> Check:
    w = edition.words
    session = edition.sessions[number_]
    dishes = unique(edition.short(b.recipe) for b in edition.facts.batches if b.session == session)
    took = sheet_minutes(session, edition)
    text = w.do_prep.format(when=session_title(session, w).partition(", ")[2], time=took or w.not_known)
    return Check(plain(text), plain(listed(dishes, w)))


def _carry(carry: Carry, edition: Edition) -> Check:
    """One line: the dishes by name, the rest by number; every thing has its box on the carry list."""
    w = edition.words
    dishes = unique(edition.short(item.recipe) for item in carry.items if item.kind == "dish" and item.recipe)
    count = number(len(carry.items))
    text = w.do_carry.format(eater=carry.eater, place=carry.place, count=count)
    note = [listed(dishes, w)] if dishes else []
    cold = uncooled_short(carry, edition) if carry.uncooled else w.with_cold_packs
    note += [cold] if carry.cold else []
    return Check(plain(text), plain(", ".join(note)))


def _meals(on: date, edition: Edition, flask: bool) -> list[tuple[int, Check]]:
    """Cooking and reheating, by meal, each with its minute of the day; what is eaten as it comes is in the table above.
    A flask is filled at home."""
    todo = [
        s
        for s in edition.servings
        if s.date == on and _is_in_flask(s) == flask and (_is_cooked_then(s, edition) or _is_heated(s))
    ]
    groups = unique((s.meal, s.recipe, s.place, _how(s, edition)) for s in todo)
    return [
        _meal([s for s in todo if (s.meal, s.recipe, s.place, _how(s, edition)) == group], edition) for group in groups
    ]


def _is_cooked_then(serving: Serving, edition: Edition) -> bool:
    known = edition.facts_of(serving.recipe)
    return serving.kept == "at service" or (known is not None and known.form == "kit")


def _is_heated(serving: Serving) -> bool:
    return serving.reheat is not None and not is_cold(serving.reheat)


def _is_in_flask(serving: Serving) -> bool:
    return serving.reheat is not None and serving.reheat.means == "flask"


def _how(serving: Serving, edition: Edition) -> str:
    reheat: ReheatFacts | None = serving.reheat
    if _is_cooked_then(serving, edition) or reheat is None:
        return ""
    return f"{reheat.text} ({edition.words.proved_here})" if reheat.proved else reheat.text


def _meal(servings: Sequence[Serving], edition: Edition) -> tuple[int, Check]:
    """`07:00 heat Egg bakes for Ilka and Bea`; place and portions where they are not home and one for each.

    A kit by when it is begun, as its card says: `18:01 begin Trout for Ilka, to eat at 18:30`."""
    w, first = edition.words, servings[0]
    at = edition.household.meal_times.get(first.meal)
    begin = _begin(first, edition)
    eaters = unique(s.eater for s in servings)
    count = sum(s.portions for s in servings)
    more = [portions(count, w)] if count != len(eaters) else []
    more += [w.at_place.format(first.place)] if first.place != HOME else []
    words = {
        "when": clock(begin if begin is not None else at) if at is not None else w.meals.get(first.meal, first.meal),
        "meal": clock(at) if at is not None else "",
        "dish": edition.short(first.recipe),
        "eaters": listed(eaters, w),
        "more": "".join(f", {said}" for said in more),
    }
    how = _how(first, edition)
    template = w.do_flask if _is_in_flask(first) else w.do_reheat if how else w.do_cook
    if begin is not None:
        template = w.do_begin
    if _is_in_flask(first):
        begin = _leaving(first, edition)
    return begin if begin is not None else at or 0, Check(plain(template.format(**words)), plain(how))


def _begin(serving: Serving, edition: Edition) -> int | None:
    """When to begin a kit; None for all else, and where no step is left for service."""
    known = edition.facts_of(serving.recipe)
    if known is None or known.form != "kit" or serving.date is None:
        return None
    return begin_at(Sitting(known, (serving,)), edition)


def _leaving(serving: Serving, edition: Edition) -> int | None:
    of = (serving.date, serving.eater, serving.place)
    return next((c.leaves for c in edition.facts.carry_list if (c.date, c.eater, c.place) == of), None)


def _pulls(on: date, edition: Edition) -> list[Check]:
    """Evening: what is moved to thaw, one line for a dish."""
    pulls = [p for p in edition.facts.pull_list if p.pull_on == on]
    groups = unique((p.recipe, p.from_, p.to) for p in pulls)
    return [_pull([p for p in pulls if (p.recipe, p.from_, p.to) == g], edition) for g in groups]


def _pull(pulls: Sequence[Pull], edition: Edition) -> Check:
    w, first = edition.words, pulls[0]
    count = portions(sum(p.portions for p in pulls), w)
    whom = w.for_day.format(listed([day(on, w) for on in sorted(unique(p.date for p in pulls))], w))
    source, to = w.store(first.from_), w.store(first.to)
    text = w.do_pull.format(dish=edition.short(first.recipe), portions=count, source=source, to=to)
    part = pulled_part(pulls, edition)
    return Check(plain(text), plain(w.separator.join(said for said in (part, whom) if said)))
