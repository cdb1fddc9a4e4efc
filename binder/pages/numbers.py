"""Section 12: figures by eater and day; figure, aim and difference where an eater has aims."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import floor

from binder.model.food import NUTRIENTS
from binder.model.household import Aim
from binder.model.quantity import Interval
from binder.pages.edition import Edition, run, unique
from binder.pages.figures import SOURCE, figure_of, missing_foods, rounded, tally, unit_of
from binder.pages.format import MINUS, day, first_upper, half_up, number, with_unit
from binder.pages.page import Block, Box, Column, Heading, Page, Para, Row, Table, plain
from binder.reckon.facts import DayTotal

SHOWN = ("energy_kcal", "protein_g", "fat_g", "carbohydrate_g", "fibre_g", "sodium_mg")


def pages(edition: Edition) -> tuple[Page, ...]:
    w, totals = edition.words, edition.facts.day_totals
    if not totals:
        return ()
    blocks: list[Block] = [Para(plain(w.numbers_note), "note")]
    for eater in unique([*(e for e in edition.eaters), *(t.eater for t in totals)]):
        mine = sorted((t for t in totals if t.eater == eater), key=lambda t: t.date)
        if mine:
            blocks += _eater(eater, mine, edition)
    words = (w.not_medical, w.rounding_note.format(SOURCE))
    blocks.append(Box("caution", w.caution, tuple(Para(plain(line)) for line in words)))
    return (Page("numbers", w.numbers, "numbers", tuple(blocks)),)


def _eater(eater: str, totals: Sequence[DayTotal], edition: Edition) -> list[Block]:
    w = edition.words
    blocks: list[Block] = [Heading(2, eater), _figures(eater, totals, edition)]
    aims = _aims(eater, totals, edition)
    blocks += [aims] if aims.rows else []
    wanted = {*SHOWN, *(a.name for e in edition.household.eaters if e.name == eater for a in e.aims)}
    missing = missing_foods((t.nutrition for t in totals), wanted)
    return [*blocks, Para(plain(w.no_figures_for.format(", ".join(missing))), "note")] if missing else blocks


def _figures(eater: str, totals: Sequence[DayTotal], edition: Edition) -> Table:
    w = edition.words
    tallies = sorted({name for t in totals for name in t.tallies.counts})
    columns = (
        Column(w.day_head, width=14),
        *(Column(w.nutrients[n], "right") for n in SHOWN),
        *(Column(first_upper(name), "right") for name in tallies),
    )
    rows = tuple(
        Row((
            plain(day(t.date, w)),
            *(plain(figure_of(t.nutrition, n, w)) for n in SHOWN),
            *(plain(_count(name, t, edition)) for name in tallies),
        ))
        for t in totals
    )  # fmt: skip
    return Table(columns, rows, w.figures_of.format(eater), "numbers", row_heads=True)


def _aims(eater: str, totals: Sequence[DayTotal], edition: Edition) -> Table:
    """A group for each aim, a line for each day: figure, aim, difference, met or not."""
    w = edition.words
    mine = next((e.aims for e in edition.household.eaters if e.name == eater), ())
    columns = (
        Column(w.day_head, width=20),
        Column(w.figure, "right"),
        Column(w.aim, "right"),
        Column(w.difference, "right"),
        Column(w.met, width=16),
    )
    rows: list[Row] = []
    for aim in mine:
        rows.append(Row((run(aim_name(aim, edition), "strong"),), "group"))
        rows += [_aim_row(aim, total, edition) for total in totals]
    return Table(columns, tuple(rows), w.aims_of.format(eater), "aims", row_heads=True)


def aim_name(aim: Aim, edition: Edition) -> str:
    return edition.words.nutrients.get(aim.name, first_upper(aim.name))


def _count(name: str, total: DayTotal, edition: Edition) -> str:
    """A day's own count; no dish of the day that counts for it is none, as reckoning has it."""
    return tally(name, total.tallies, edition.words) if name in total.tallies.counts else "0"


def _is_of(name: str, aim: Aim) -> bool:
    """Whether a reached aim's name (`saturated fat`, or as in the facts) is this aim's."""
    return name in (aim.name, aim.name.rpartition("_")[0].replace("_", " "))


def _aim_row(aim: Aim, total: DayTotal, edition: Edition) -> Row:
    w = edition.words
    reached = next((r.reached for r in total.aims if _is_of(r.name, aim)), None)
    words = {True: w.yes, False: w.no, None: w.not_known}
    met = run(words[reached], "strong" if reached is False else "")
    cells = (plain(day(total.date, w)), plain(_figure(aim, total, edition)), plain(aim_text(aim, edition)))
    return Row((*cells, plain(difference(aim, total, edition)), met))


def aim_text(aim: Aim, edition: Edition) -> str:
    """`at most 2,000 mg`."""
    unit = unit_of(aim.name) if aim.name in NUTRIENTS else ""
    return edition.words.aim_kinds[aim.kind].format(with_unit(number(aim.value, 1), unit))


def _figure(aim: Aim, total: DayTotal, edition: Edition) -> str:
    if aim.name in NUTRIENTS:
        return figure_of(total.nutrition, aim.name, edition.words)
    return _count(aim.name, total, edition)


def difference(aim: Aim, total: DayTotal, edition: Edition) -> str:
    """`+50 kcal`, `−120 mg`: of the figure as it is printed, so that the line adds up.

    Of a lower bound it is a lower bound too; of a range, both ends; not known where nothing is.
    """
    value, bound = _value(aim, total)
    if value is None:
        return edition.words.not_known
    if bound:
        return edition.words.at_least.format(_off(aim, Fraction(floor(round(value.low, 9)))))
    low, high = (_off(aim, _printed(aim, end)) for end in (value.low, value.high))
    return low if low == high else edition.words.range_of.format(low, high)


def _printed(aim: Aim, value: float) -> Fraction:
    return rounded(aim.name, value).value if aim.name in NUTRIENTS else half_up(value, Fraction(1, 10))


def _off(aim: Aim, figure: Fraction) -> str:
    """A figure less the aim, with its sign."""
    off = figure - half_up(aim.value, Fraction(1, 10))
    sign = MINUS if off < 0 else "+" if off else ""
    return sign + with_unit(number(abs(off), 1), unit_of(aim.name) if aim.name in NUTRIENTS else "")


def _value(aim: Aim, total: DayTotal) -> tuple[Interval | None, bool]:
    """The raw figure, and whether it is only a lower bound."""
    if aim.name in NUTRIENTS:
        return total.nutrition.value(aim.name), aim.name in total.nutrition.at_least
    count = total.tallies.counts.get(aim.name, 0.0)
    return Interval(count, count), aim.name in total.tallies.at_least
