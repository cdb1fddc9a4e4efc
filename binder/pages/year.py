"""The household's year by its closed weeks: waste, cost, hours, what was made often and what keeps coming back."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from binder.pages.charts import Measured, bars
from binder.pages.edition import portions, run, together
from binder.pages.format import fraction, minutes, money, number
from binder.pages.page import Block, Bullets, Column, Drawing, Heading, Page, Para, Row, Table, Text, plain
from binder.pages.site_shelf import WEEKS_PATH, Shelf, year_path
from binder.pages.words.en import Words
from binder.reckon.past_facts import DishPast, Thrown, WeekPast, Year


def year_page(year: Year, shelf: Shelf) -> Page:
    """years/2026/index.html."""
    w, title = shelf.words, shelf.words.year_title.format(year.year)
    blocks: list[Block] = [
        Para(plain(w.year_weeks.format(closed=len(year.weeks), planned=year.planned_weeks)), "lead"),
        Para(plain(w.year_note), "note"),
        *_waste(year, shelf), *_cost(year, shelf), *_hours(year, shelf), *_often(year, shelf), *_use_first(year, shelf),
    ]  # fmt: skip
    crumbs = shelf.crumbs((w.weeks, WEEKS_PATH), (title, None))
    return Page(year_path(year.year), title, "archive", tuple(blocks), crumbs)


def _label(week: WeekPast, w: Words) -> str:
    return w.week_short.format(int(week.week.partition("-W")[2]))


def _money(value: Fraction | None, at_least: bool, currency: str, w: Words) -> str:
    if value is None:
        return w.not_known
    said = money(value, currency)
    return w.at_least.format(said) if at_least else said


def _sum_money(values: Sequence[tuple[Fraction | None, bool]], currency: str, w: Words) -> str:
    """A sum with `at least` where a part is a lower bound or not known."""
    known = [value for value, _ in values if value is not None]
    least = any(at_least or value is None for value, at_least in values)
    return _money(sum(known, Fraction(0)) if known else None, least, currency, w)


def _chart(rows: Sequence[Measured], title: str, id_: str, w: Words) -> Drawing:
    alt = w.chart_alt.format(title)
    return Drawing(bars(rows, title, alt, id_), alt, title)


# ---- waste ----


def _waste(year: Year, shelf: Shelf) -> list[Block]:
    w = shelf.words
    rows = [
        Measured(_label(one, w), float(one.thrown), portions(one.thrown, w) if one.thrown else w.dash)
        for one in year.weeks
    ]
    blocks: list[Block] = [Heading(2, w.waste, "waste"), _chart(rows, w.waste_by_week, "waste-chart", w)]
    return [*blocks, _waste_by_week(year, shelf), *_reasons(year.thrown, shelf)]


def _waste_by_week(year: Year, shelf: Shelf) -> Table:
    w = shelf.words
    heads = (w.portions_made, w.eaten, w.thrown_away, w.of_what_was_made, w.cost)
    columns = (Column(w.week), *(Column(head, "right") for head in heads))
    rows = [_waste_row(shelf.week(one.week), [one], w) for one in year.weeks]
    total = _waste_row(plain(w.all_weeks), year.weeks, w, "total")
    return Table(columns, (*rows, total), w.waste_by_week, "year", row_heads=True)


def _waste_row(name: Text, of: Sequence[WeekPast], w: Words, kind: str = "") -> Row:
    made, eaten, thrown = (sum((getattr(x, n) for x in of), Fraction(0)) for n in ("made", "eaten", "thrown"))
    cost = _sum_money([(x.thrown_cost, x.at_least) for x in of if x.thrown], of[0].currency, w) if thrown else w.dash
    part = w.per_cent.format(number(100 * thrown / made)) if made else w.not_known
    cells = (name, *(plain(text) for text in (fraction(made), fraction(eaten), _count(thrown, w), part, cost)))
    return Row(cells, "total" if kind else "")


def _count(count: Fraction, w: Words) -> str:
    return fraction(count) if count else w.dash


def _reasons(thrown: Sequence[Thrown], shelf: Shelf) -> list[Block]:
    w = shelf.words
    if not thrown:
        return [Para(plain(w.nothing_thrown))]
    currency = shelf.edition.style.currency
    columns = (
        Column(w.week),
        Column(w.dish),
        Column(w.thrown_away, "right"),
        Column(w.ask_why),
        Column(w.cost, "right"),
    )
    rows = tuple(
        Row((
            shelf.week(one.week), shelf.dish(one.recipe), plain(fraction(one.portions)), plain(one.why or w.not_known),
            plain(_money(one.cost, False, currency, w)),
        ))
        for one in thrown
    )  # fmt: skip
    return [Table(columns, rows, w.waste_reasons, "year")]


# ---- cost and hours ----


def _cost(year: Year, shelf: Shelf) -> list[Block]:
    w = shelf.words
    said = [_money(one.a_portion, one.at_least, one.currency, w) for one in year.weeks]
    rows = [
        Measured(_label(one, w), float(one.a_portion) if one.a_portion is not None else None, words)
        for one, words in zip(year.weeks, said, strict=True)
    ]
    columns = (Column(w.week), Column(w.cost_per_portion, "right"))
    table = tuple(Row((shelf.week(one.week), plain(words))) for one, words in zip(year.weeks, said, strict=True))
    title = w.cost_by_week
    return [
        Heading(2, w.year_cost, "cost"), Para(plain(w.year_cost_note), "note"), _chart(rows, title, "cost-chart", w),
        Table(columns, table, title, "year", row_heads=True),
    ]  # fmt: skip


def _hours(year: Year, shelf: Shelf) -> list[Block]:
    w = shelf.words
    rows = [
        Measured(_label(one, w), float(one.minutes), _took(one, w), float(one.minutes_planned or 0))
        if one.minutes is not None
        else Measured(_label(one, w), None, w.session_not_timed)
        for one in year.weeks
    ]
    columns = (
        Column(w.week),
        Column(w.planned, "right"),
        Column(w.minutes_it_took, "right"),
        Column(w.difference, "right"),
    )
    timed = [one for one in year.weeks if one.minutes is not None]
    table = [_hours_row(shelf.week(one.week), [one], w) for one in year.weeks]
    total = [_hours_row(plain(w.all_weeks), timed, w, "total")] if timed else []
    caption = Table(columns, (*table, *total), w.hours_by_week, "year", row_heads=True)
    note = Para(plain(w.year_hours_note), "note")
    return [Heading(2, w.year_hours, "hours"), note, _chart(rows, w.hours_by_week, "hours-chart", w), caption]


def _took(one: WeekPast, w: Words) -> str:
    return minutes(one.minutes) if one.minutes is not None else w.session_not_timed


def _hours_row(name: Text, of: Sequence[WeekPast], w: Words, kind: str = "") -> Row:
    timed = [one for one in of if one.minutes is not None]
    if not timed:
        return Row((name, plain(w.not_known), plain(w.session_not_timed), plain(w.dash)))
    planned, took = sum(one.minutes_planned or 0 for one in timed), sum(one.minutes or 0 for one in timed)
    sign = w.longer if took >= planned else w.shorter
    more = sign.format(minutes(abs(took - planned)))
    return Row((name, plain(minutes(planned)), plain(minutes(took)), plain(more)), "total" if kind else "")


# ---- dishes and what comes back ----


def _often(year: Year, shelf: Shelf) -> list[Block]:
    w = shelf.words
    heads = (w.portions_made, w.eaten, w.left, w.frozen_head, w.thrown_away)
    columns = (Column(w.dish, width=34), Column(w.weeks), *(Column(head, "right") for head in heads))
    rows = tuple(_dish_row(dish, shelf) for dish in year.dishes)
    note = Para(plain(w.year_dishes_note), "note")
    table = Table(columns, rows, w.dishes_of_year, "year", row_heads=True)
    return [Heading(2, w.year_dishes, "dishes"), note, table]


def _dish_row(dish: DishPast, shelf: Shelf) -> Row:
    w = shelf.words
    weeks = f"{len(dish.weeks)}: {', '.join(str(int(key.partition('-W')[2])) for key in dish.weeks)}"
    counts = (dish.made, dish.eaten, dish.left, dish.frozen, dish.thrown)
    return Row((shelf.dish(dish.recipe), plain(weeks), *(plain(_count(count, w)) for count in counts)))


def _use_first(year: Year, shelf: Shelf) -> list[Block]:
    w = shelf.words
    blocks: list[Block] = [Heading(2, w.year_use_first, "use-first")]
    if not year.use_first:
        return [*blocks, Para(plain(w.nothing_comes_back))]
    lines = []
    for name, keys in year.use_first:
        what = shelf.dish(name) if name in shelf.recipes or name in shelf.library.recipes else plain(name)
        lines.append((*what, *run(": "), *together((shelf.week(key) for key in keys), ", ")))
    return [*blocks, Para(plain(w.comes_back_note), "note"), Bullets(tuple(lines))]
