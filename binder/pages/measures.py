"""Amounts of food as a cook reads them: `1⅞ cups`, `1 cup + 1 tbsp`, `2½ onions`, `1.2 kg`, `1–2 tbsp`.

What is printed lies within 3 % of the exact amount, or says `about`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from binder.model.food import Food
from binder.model.quantity import Amount, Interval, Measure
from binder.pages.format import EN_DASH, NBSP, fraction, grams, millilitres, with_unit
from binder.pages.house_style import HouseStyle
from binder.pages.measurable import (
    CUP_TSP,
    CUT,
    HALVED,
    LARGE_TSP,
    METRIC_G,
    METRIC_ML,
    OZ_G,
    TOLERANCE,
    TSP_ML,
    US_ONLY,
    US_TSP,
    WHOLE,
    Part,
    Shown,
    packed,
    shown,
    single,
)  # fmt: skip
from binder.pages.words.en import Words

_WHOLE_FOODS = (
    "bay leaf", "bay leaves", "cinnamon stick", "star anise", "cardamom pod", "vanilla bean", "clove", "tea bag",
    "curry leaf", "lime leaf", "stock cube",
)  # fmt: skip


def _part_text(part: Part, words: Words, size: str = "") -> str:
    count, unit = part
    if unit == "g":
        return grams(count)
    if unit == "mL":
        return millilitres(count)
    said = fraction(count)
    if size:
        said = f"{said}{NBSP}{size}"
    return with_unit(said, words.unit(unit, count))


def _text(what: Shown, words: Words, size: str = "") -> str:
    joint = " " if what.parts[-1:] and what.parts[-1][1] == "oz" else " + "
    said = joint.join(_part_text(part, words, size) for part in what.parts)
    if what.less:
        return words.less_than.format(said)
    return words.about.format(said) if what.off > TOLERANCE else said


def _in_one_style(measure: Measure, low: Shown, high: Shown) -> tuple[Shown, Shown]:
    """Both ends of a range in one unit where that comes near: `1¼–2½ tbsp`, `2–3 tsp`; one figure for both where no
    measure tells them apart, since either rounded its own way could come out the wrong way round."""
    if [u for _, u in low.parts] == [u for _, u in high.parts] or not low.parts or low.less:
        return low, high
    if len(high.parts) == 1:
        same = _as_single(high, measure.low / measure.high)
        if same.off <= TOLERANCE:
            return same, high
    if len(low.parts) == 1:
        same = _as_single(low, measure.high / measure.low)
        if same.off <= TOLERANCE:
            return low, same
    crossing = measure.low * (1 + low.off) > measure.high * (1 - high.off)
    return (high, high) if crossing else (low, high)


def _as_single(one: Shown, times: Fraction) -> Shown:
    """So many times an amount of one unit, in that unit, to a quarter."""
    count, unit = one.parts[0]
    same = single(count * times, unit, (4,))
    return same if same.parts[0][0] else replace(same, off=Fraction(1))


def _range_text(low: Shown, high: Shown, words: Words, size: str) -> str:
    """`1–2 tbsp` where both ends have one unit, else `2 tsp – 1 tbsp`."""
    ends = _text(low, words, size), _text(high, words, size)
    if ends[0] == ends[1]:
        return ends[0]
    same_unit = len(low.parts) == len(high.parts) == 1 and low.parts[0][1] == high.parts[0][1]
    (low_figure, _, low_unit), (high_figure, gap, high_unit) = (end.partition(NBSP) for end in ends)
    # 800 g to 1.2 kg are both counted in grams, and yet not printed in one unit.
    alike = low_unit == high_unit or (same_unit and low.parts[0][1] not in ("g", "mL"))
    if same_unit and alike and max(low.off, high.off) <= TOLERANCE:
        return f"{low_figure}{EN_DASH}{high_figure}{gap}{high_unit}"
    return f"{ends[0]} {EN_DASH} {ends[1]}"


def quantity(measure: Measure, style: HouseStyle, steps: tuple[int, ...] = CUT) -> str:
    """A measure as a cook reads it, in the unit it was written in or the next that can be measured.

    `steps`: into what pieces can be cut, for the foods that no knife quarters.
    """
    high = shown(measure.high, measure.unit, style, steps)
    if measure.low == measure.high:
        return _text(high, style.words, measure.size)
    low, high = _in_one_style(measure, shown(measure.low, measure.unit, style, steps), high)
    return _range_text(low, high, style.words, measure.size)


def quantities(measures: Sequence[Measure], style: HouseStyle, steps: tuple[int, ...] = CUT) -> str:
    """Several measures of one food, added: `1 cup + 2 tbsp`."""
    return " + ".join(text for text in (quantity(m, style, steps) for m in measures) if text)


def steps_of(food: Food) -> tuple[int, ...]:
    """Into what a piece of a food can be cut: an egg or a flatbread into halves, a bay leaf not at all."""
    if food.name.casefold().endswith(_WHOLE_FOODS):
        return WHOLE
    if food.aisle == "bakery" or food.name.casefold().split()[-1:] in (["egg"], ["eggs"]):
        return HALVED
    return CUT


def amount(what: Amount, style: HouseStyle, like: Amount | None = None, steps: tuple[int, ...] = CUT) -> str:
    """An amount in the household's own measures: pounds and cups, or grams and millilitres, or both.

    `like`: the pack it is sold in, whose system the amount is given in, so that a row of a list has one: ounces of a
    pack in ounces, grams of a pack that is a round number of grams or millilitres. `steps`: see `quantity`.
    """
    metric = quantity(Measure(what.low, what.high, what.unit), style, steps)
    if what.unit == "each" or (like is not None and _round_in_metric(like)):
        return metric
    if like is not None and style.measures != "metric":
        first = _as_packed(what, style)
        return f"{first} ({metric})" if style.measures == "both" and first else first
    own = _own_measure(what, style)
    # A few grams come only about in ounces: the scale says it better.
    if what.unit == "g" and shown(own.high, own.unit, style).off > TOLERANCE:
        return metric
    first = quantity(own, style)
    return f"{first} ({metric})" if style.measures == "both" and first else first


def _as_packed(what: Amount, style: HouseStyle) -> str:
    """In ounces and pounds, or fluid ounces, however little it is."""
    per, unit = (OZ_G, "oz") if what.unit == "g" else (6 * US_TSP, "fl-oz")
    low, high = (packed(end / per, unit) for end in (what.low, what.high))
    return _text(high, style.words) if what.low == what.high else _range_text(low, high, style.words, "")


def _round_in_metric(what: Amount) -> bool:
    return what.low % 5 == 0


def _own_measure(what: Amount, style: HouseStyle) -> Measure:
    """The measure that a US or a both-ways kitchen reads first; metric as it is."""
    if style.measures == "metric" or what.unit == "each":
        return Measure(what.low, what.high, what.unit)
    per, unit = (OZ_G, "oz") if what.unit == "g" else (TSP_ML[style.cup], "tsp")
    return Measure(what.low / per, what.high / per, unit)


def as_sold(what: Amount, style: HouseStyle) -> str:
    """A pack's size in the measure in which it is a round number, as packs are marked: `600 g`, `18 oz`, `5 lb`."""
    if what.unit != "each" and not _round_in_metric(what):
        units = {"g": (("lb", 16 * OZ_G), ("oz", OZ_G)), "mL": (("fl-oz", 6 * US_TSP),)}[what.unit]
        for unit, per in units:
            count = what.low / per
            if (count * (1 if unit == "lb" else 2)).denominator == 1:
                return _part_text((count, unit), style.words)
    return quantity(Measure(what.low, what.high, what.unit), style)


def first_and_second(
    measures: Sequence[Measure], weight: Interval | None, style: HouseStyle, steps: tuple[int, ...] = CUT
) -> tuple[str, str]:
    """What a card prints for one ingredient: the household's own measure, and the other beside it.

    As written comes first, unless it is in the other system than the household's; `weight` is the edible weight in
    grams of the same amount. Spoons and counted things belong to both systems.
    """
    written = quantities(measures, style, steps)
    if not measures:
        return "", ""
    system = _system(measures)
    if system == "metric":
        return _metric_first(measures, written, style)
    other = _in_metric(measures, weight, style)
    if system == "us" and style.measures == "metric" and other:
        return other, written
    return written, other if style.measures != "us" else ""


def in_own_system(measure: Measure, style: HouseStyle) -> Measure:
    """A measure as the household reads it: cups and ounces in millilitres and grams where it measures in those alone,
    a volume in cups where it measures in these alone. Spoons and pieces belong to both, and grams to every scale."""
    if style.measures == "metric" and measure.unit in ("oz", "lb"):
        grams = OZ_G * (16 if measure.unit == "lb" else 1)
        return Measure(measure.low * grams, measure.high * grams, "g")
    if style.measures == "metric" and measure.unit in US_ONLY:
        ml = _ml_of(measure.unit, style)
        return Measure(measure.low * ml, measure.high * ml, "mL")
    return _to_us(measure, style) if style.measures == "us" and measure.unit in METRIC_ML else measure


def _ml_of(unit: str, style: HouseStyle) -> Fraction:
    """Millilitres of a cup, a spoon or a larger US measure."""
    if unit in LARGE_TSP:
        return LARGE_TSP[unit] * US_TSP
    return {"tsp": 1, "tbsp": 3, "cup": CUP_TSP[style.cup]}[unit] * TSP_ML[style.cup]


def merged(measures: Sequence[Measure]) -> tuple[Measure, ...]:
    """The same, those of one unit and size added up."""
    found: dict[tuple[str, str], Measure] = {}
    for one in measures:
        key = (one.unit, one.size)
        so_far = found.get(key)
        found[key] = Measure(so_far.low + one.low, so_far.high + one.high, *key) if so_far else one
    return tuple(found.values())


def _system(measures: Sequence[Measure]) -> str:
    units = {m.unit for m in measures}
    if units & US_ONLY:
        return "us"
    return "metric" if units <= {*METRIC_G, *METRIC_ML} else "any"


def _metric_first(measures: Sequence[Measure], written: str, style: HouseStyle) -> tuple[str, str]:
    if style.measures == "metric":
        return written, ""
    in_us = [_to_us(m, style) for m in measures]
    us = quantities(in_us, style)
    # What the scale shows stays first where cups and ounces only come about.
    near = all(shown(m.high, m.unit, style).off <= TOLERANCE for m in in_us)
    if style.measures == "us":
        return (us, written) if near else (written, "")
    return written, us


def _to_us(measure: Measure, style: HouseStyle) -> Measure:
    if measure.unit in METRIC_G:
        factor, unit = METRIC_G[measure.unit] / OZ_G, "oz"
    else:
        factor, unit = METRIC_ML[measure.unit] / TSP_ML[style.cup], "tsp"
    return Measure(measure.low * factor, measure.high * factor, unit)


def _in_metric(measures: Sequence[Measure], weight: Interval | None, style: HouseStyle) -> str:
    """Grams where they are known and worth weighing (5 g), else millilitres of what is measured by volume."""
    if weight is not None and weight.high >= 5:
        return weight_text(weight)
    units = {measure.unit for measure in measures}
    cups = bool(units & (US_ONLY - {"oz", "lb"}))
    if weight is not None and not (cups and style.measures == "metric"):
        return ""
    if not (cups or (len(measures) == 1 and units == {"tbsp"})) or not units <= {"tsp", "tbsp", "cup", *LARGE_TSP}:
        return ""
    ends = [(m.low * _ml_of(m.unit, style), m.high * _ml_of(m.unit, style)) for m in measures]
    low, high = (sum(of, Fraction(0)) for of in zip(*ends, strict=True))
    return quantity(Measure(low, high, "mL"), style)


def weight_text(weight: Interval) -> str:
    """`350 g`, `15–30 g`."""
    low, high = grams(weight.low), grams(weight.high)
    if low == high:
        return high
    if low.rpartition(NBSP)[2] == high.rpartition(NBSP)[2]:
        return f"{low.rpartition(NBSP)[0]}{EN_DASH}{high}"
    return f"{low} {EN_DASH} {high}"
