"""Section 12: a table for each eater, days across: figure, and under it the difference where there is an aim."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import floor

from binder.model.food import NUTRIENTS
from binder.model.household import Aim
from binder.model.quantity import Interval
from binder.pages.edition import Edition, run, unique
from binder.pages.figures import SOURCE, figure_of, missing_foods, rounded, tally, unit_of
from binder.pages.format import MINUS, NBSP, TIMES, day, first_upper, fraction, half_up, number, with_unit
from binder.pages.page import Block, Box, Column, Heading, Page, Para, Row, Table, Text, plain
from binder.reckon.facts import DayTotal

SHOWN = ("energy_kcal", "protein_g", "fat_g", "carbohydrate_g", "fibre_g", "sodium_mg")


def pages(edition: Edition) -> tuple[Page, ...]:
    """Each eater's figures day by day beside the aims. None when nothing was added up."""
    w, totals = edition.words, edition.facts.day_totals
    if not totals:
        return ()
    blocks: list[Block] = [Para(plain(f"{w.numbers_how} {w.numbers_note}"), "note")]
    for eater in unique([*(e for e in edition.eaters), *(t.eater for t in totals)]):
        mine = sorted((t for t in totals if t.eater == eater), key=lambda t: t.date)
        if mine:
            blocks += _eater(eater, mine, edition)
    words = (w.not_medical, w.rounding_note.format(SOURCE))
    blocks.append(Box("caution", w.caution, tuple(Para(plain(line)) for line in words)))
    return (Page("numbers", w.numbers, "numbers", tuple(blocks)),)


def _eater(eater: str, totals: Sequence[DayTotal], edition: Edition) -> list[Block]:
    w = edition.words
    aims = next((e.aims for e in edition.household.eaters if e.name == eater), ())
    blocks: list[Block] = [Heading(2, w.numbers_of.format(eater)), _table(eater, totals, aims, edition)]
    undated = [s for s in edition.facts.servings if s.eater == eater and s.date is None]
    if undated:
        counts = {
            key: sum((s.portions for s in undated if s.recipe == key), Fraction(0))
            for key in unique(s.recipe for s in undated)
        }
        said = ", ".join(f"{fraction(n)}{TIMES}{edition.short(key)}" for key, n in counts.items())
        blocks.append(Para(plain(w.undated_not_counted.format(said)), "note"))
    missing = missing_foods((t.nutrition for t in totals), {*SHOWN, *(a.name for a in aims)})
    return [*blocks, Para(plain(w.no_figures_for.format(", ".join(missing))), "note")] if missing else blocks


def _table(eater: str, totals: Sequence[DayTotal], aims: Sequence[Aim], edition: Edition) -> Table:
    """A row for each nutrient and tally, its unit said once; where it has an aim, a row for how far off each day is."""
    w = edition.words
    days = (Column(day(t.date, w), "right") for t in totals)
    columns = (Column(w.figure, width=20), Column(w.aim, width=13), *days)
    tallies = sorted({name for t in totals for name in t.tallies.counts})
    names = unique([*SHOWN, *(a.name for a in aims if a.name in NUTRIENTS), *tallies, *(a.name for a in aims)])
    rows: list[Row] = []
    for name in names:
        mine = [a for a in aims if a.name == name]
        aim = w.separator.join(_unitless(aim_text(a, edition), name) for a in mine)
        figures = (plain(_unitless(_figure(name, t, edition), name)) for t in totals)
        rows.append(Row((plain(_name(name, edition)), plain(aim), *figures)))
        rows += [_aim_row(a, totals, edition) for a in mine]
    return Table(columns, tuple(rows), w.numbers_of.format(eater), "numbers", row_heads=True)


def _name(name: str, edition: Edition) -> str:
    """`Energy, kcal`; a tally's own name."""
    if name not in NUTRIENTS:
        return first_upper(name)
    return f"{edition.words.nutrients[name]}, {unit_of(name)}"


def _unitless(said: str, name: str) -> str:
    """The figure alone: its unit stands at the head of the row."""
    return said.replace(f"{NBSP}{unit_of(name)}", "") if name in NUTRIENTS else said


def _aim_row(aim: Aim, totals: Sequence[DayTotal], edition: Edition) -> Row:
    """By how much each day is off, and whether that meets the aim."""
    w = edition.words
    return Row((plain(w.difference), (), *(_off_by(aim, t, edition) for t in totals)), "quiet")


def _off_by(aim: Aim, total: DayTotal, edition: Edition) -> Text:
    """`+50 met`, `−120 not met`; what is not met stands out."""
    w = edition.words
    reached = next((r.reached for r in total.aims if _is_of(r.name, aim)), None)
    off = _unitless(difference(aim, total, edition), aim.name)
    met = {True: w.met, False: w.not_met, None: w.not_known}[reached]
    return (*run(f"{off} "), *run(met, "strong" if reached is False else ""))


def _count(name: str, total: DayTotal, edition: Edition) -> str:
    """A day's own count; no dish of the day that counts for it is none, as reckoning has it."""
    return tally(name, total.tallies, edition.words) if name in total.tallies.counts else "0"


def _is_of(name: str, aim: Aim) -> bool:
    """Whether a reached aim's name (`saturated fat`, or as in the facts) is this aim's."""
    return name in (aim.name, aim.name.rpartition("_")[0].replace("_", " "))


def aim_text(aim: Aim, edition: Edition) -> str:
    """`at most 2,000 mg`."""
    unit = unit_of(aim.name) if aim.name in NUTRIENTS else ""
    return edition.words.aim_kinds[aim.kind].format(with_unit(number(aim.value, 1), unit))


def _figure(name: str, total: DayTotal, edition: Edition) -> str:
    if name in NUTRIENTS:
        return figure_of(total.nutrition, name, edition.words)
    return _count(name, total, edition)


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
