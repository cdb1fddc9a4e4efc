"""Lines of stock.yaml: one with less in it, one for what was put away."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from binder.check.stock import dish_name, recipe_named
from binder.problem import Span
from binder.reckon.closing_lots import NewLot
from binder.reckon.conversion import unit_of
from binder.reckon.recipe_facts import Allergens
from binder.source.amount import Measure, print_measure, unit_at
from binder.source.line_print import print_line
from binder.source.numbers import in_figures, number_at
from binder.source.stock_line import StockLine, read_stock_line
from binder.tables import measures

# Less than this is what sticks to the jar (common practice): a gram, a millilitre, an eighth of a piece.
_STICKS = {"g": Fraction(1), "mL": Fraction(1), "each": Fraction(1, 8)}
_NOWHERE = Span("", 1, 1, 1)
_COOKS_PARTS = (2, 3, 4, 8)


def reduced(text: str, share: Fraction) -> str | None:
    """A stock line with only `share` of its amount; None when next to nothing is left.

    The number changes and the rest of the line stays as written, where that reads back as meant; else the amount is
    written in plain words.
    """
    whole = _read(text)
    amounts = tuple(_rounded(_times(one, share)) for one in whole.line.amounts)
    if share <= 0 or all(_is_nothing(one, whole) for one in amounts):
        return None
    plain = print_line(replace(whole.line, amounts=amounts, equivalent=None)) + text[len(whole.line.text) :]
    for wording in (_with_number(text, whole, amounts), plain):
        if wording and _means(wording, whole, amounts):
            return wording
    return plain


def _read(text: str) -> StockLine:
    return read_stock_line(text, replace(_NOWHERE, end=len(text) + 1))[0]


def _times(measure: Measure, share: Fraction) -> Measure:
    return replace(measure, low=measure.low * share, high=measure.high * share)


def _with_number(text: str, whole: StockLine, amounts: tuple[Measure, ...]) -> str | None:
    """The line with its one number exchanged, the unit singular where one or less is left."""
    old, new = whole.line.amounts, amounts
    start = next((n for n, char in enumerate(text) if char.isdigit() or char in "¼½¾⅓⅔⅛⅜⅝⅞"), None)
    number = number_at(text, start) if start is not None else None
    if len(old) != 1 or old[0].low != old[0].high or number is None or not number.value or whole.line.equivalent:
        return None
    value = new[0].low * number.value / old[0].low
    rest = text[number.end :]
    unit = unit_at(text, number.end)
    if value <= 1 < number.value and unit and text[unit.start : unit.end].endswith("s"):
        word = text[unit.start : unit.end - 1]
        alone = unit_at(f"1 {word}", 1)
        if alone and alone.unit == unit.unit:
            rest = text[number.end : unit.start] + word + text[unit.end :]
    return text[:start] + figures(value, measures.kind(new[0].unit) != "mass") + rest


def figures(value: Fraction, parts: bool = True) -> str:
    """A number as a cook writes it: `1 1/2`, `7.4`, `185`; without `parts` in decimals."""
    if value.denominator == 1 or (parts and value.denominator in _COOKS_PARTS):
        return in_figures(value)
    return f"{float(value):.6g}"


def _rounded(measure: Measure) -> Measure:
    """To what a scale or a spoon can tell: three figures, whole numbers from a hundred on, quarters of a piece."""

    def near(value: Fraction) -> Fraction:
        if value.denominator == 1 or measure.unit == "portion":
            return value
        if measures.kind(measure.unit) == "count":
            return Fraction(round(value * 4), 4)
        return round(value, max(0, 3 - len(str(int(value)).lstrip("0"))))

    return replace(measure, low=near(measure.low), high=near(measure.high))


def _is_nothing(measure: Measure, whole: StockLine) -> bool:
    kind = measures.kind(measure.unit)
    if kind == "mass":
        amount = measure.high * measures.g_per(measure.unit)
    elif kind == "volume":
        amount = measure.high * measures.ml_per(measure.unit)
    else:
        return measure.high <= 0 if whole.line.pack else measure.high < _STICKS["each"]
    return amount < _STICKS[unit_of(measure.unit)]


def _means(text: str, whole: StockLine, amounts: tuple[Measure, ...]) -> bool:
    """Whether a line reads as the same lot with these amounts."""
    now = _read(text)

    def rest(one: StockLine) -> tuple[object, ...]:
        dates = (one.opened, one.made, one.best_before, one.bought, one.frozen, one.thawed)
        return *dates, one.contains, one.may_contain, one.rest, one.line.food, one.line.pack, one.line.preparation

    close = len(now.line.amounts) == len(amounts) and all(
        a.unit == b.unit and abs(a.low - b.low) <= b.low / 100 for a, b in zip(now.line.amounts, amounts, strict=True)
    )
    return close and rest(now) == rest(whole)


# ---- new lines ----


def line_of(lot: NewLot, titles: Mapping[str, str]) -> str:
    """A new lot as a line: `1 portion bean-stew, made 2026-06-07`; the recipe's title where its key reads otherwise."""
    parts = [_what(lot, titles)]
    if lot.made:
        parts.append(f"made {lot.made.isoformat()}")
    if lot.thawed:
        parts.append(f"thawed {lot.thawed.isoformat()}")
    if lot.opened:
        parts.append(f"opened {lot.opened.isoformat()}")
    if lot.bought:
        parts.append(f"bought {lot.bought.isoformat()}")
    if lot.use_by:
        parts.append(f"use by {lot.use_by.isoformat()}")
    return ", ".join((*parts, *_allergen_words(lot.allergens)))


def _what(lot: NewLot, titles: Mapping[str, str]) -> str:
    if lot.gift is not None:
        written = [Measure(m.low, m.high, m.unit, m.size) for m in lot.gift.measures]
        scaled = [print_measure(_rounded(_times(one, lot.factor))).removesuffix(" each") for one in written]
        return f"{' plus '.join(scaled)} {lot.gift.food.name}".strip()
    if lot.amount is not None:
        measure = _rounded(Measure(lot.amount.low, lot.amount.low, lot.amount.unit))
        words = figures(measure.low, measures.kind(measure.unit) != "mass")
        return f"{words} {lot.food}" if measure.unit == "each" else f"{words} {measure.unit} {lot.food}"
    count, recipe = lot.portions or Fraction(0), lot.recipe or ""
    words = f"{figures(count)} portion{'s' if count > 1 else ''}"
    for name in (recipe, titles.get(recipe, recipe)):
        if recipe_named(dish_name(_read(f"{words} {name}, made 2026-01-01").line), titles) == recipe:
            return f"{words} {name}"
    return f"{words} {recipe}"


def _allergen_words(allergens: Allergens | None) -> list[str]:
    """What a batch with a substitution contains; nothing where it is not known, for that is no record."""
    if allergens is None or allergens.not_known:
        return []
    may = [f"may contain {', '.join(allergens.may_contain)}"] if allergens.may_contain else []
    return [f"contains {', '.join(allergens.contains) or 'none'}", *may]


def same_line(one: str, other: str) -> bool:
    """Whether two lines are the same but for spaces."""
    return re.sub(r"\s+", " ", one).strip() == re.sub(r"\s+", " ", other).strip()
