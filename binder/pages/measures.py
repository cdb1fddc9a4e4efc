"""Amounts of food as a cook reads them: `1⅞ cups`, `1 cup + 1 tbsp`, `2½ onions`, `1.2 kg`, `1–2 tbsp`.

What is printed lies within 3 % of the exact amount, or says `about`. Factors by definition: NIST Handbook 44,
Appendix C; the metric cup and spoons are common practice.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import partial
from math import floor
from types import MappingProxyType

from binder.model.quantity import Amount, Interval, Measure
from binder.pages.format import EN_DASH, NBSP, fraction, grams, half_up, millilitres, with_unit
from binder.pages.house_style import HouseStyle
from binder.pages.words.en import Words

TOLERANCE = Fraction(3, 100)
FINE = Fraction(1, 100)  # where a second, smaller unit costs nothing: pounds before pounds and ounces

# 1 US gallon is 231 cubic inches of 25.4 mm; a teaspoon is its 768th part.
_US_TSP = 231 * Fraction(254, 10) ** 3 / 1000 / 768
TSP_ML: Mapping[str, Fraction] = MappingProxyType({"us": _US_TSP, "metric": Fraction(5), "uk": Fraction(5)})
CUP_TSP: Mapping[str, int] = MappingProxyType({"us": 48, "metric": 50, "uk": 50})
OZ_G = Fraction(45359237, 1600000)

_METRIC_G: Mapping[str, Fraction] = MappingProxyType({"g": Fraction(1), "kg": Fraction(1000), "mg": Fraction(1, 1000)})
_METRIC_ML: Mapping[str, Fraction] = MappingProxyType(
    {"mL": Fraction(1), "cl": Fraction(10), "dl": Fraction(100), "L": Fraction(1000)}
)
# In teaspoons of the US, whatever the household's cup: no other system has these.
_LARGE_TSP: Mapping[str, int] = MappingProxyType({"fl-oz": 6, "pint": 96, "quart": 192, "gallon": 768})
_SMALL_TSP: Mapping[str, Fraction] = MappingProxyType({"dash": Fraction(1, 8), "pinch": Fraction(1, 16)})
_US_ONLY = frozenset({"cup", *_LARGE_TSP, "oz", "lb"})

Part = tuple[Fraction, str]  # a count and its unit


@dataclass(frozen=True, slots=True)
class Shown:
    """An amount as parts to print, `1 cup + 1 tbsp`, and how far it lies from the exact one (a share).

    `less`: the exact one is smaller than the smallest that can be measured, which is what `parts` says.
    """

    parts: tuple[Part, ...]
    off: Fraction = Fraction(0)
    less: bool = False


def _nearest(value: Fraction, denominators: Iterable[int]) -> Fraction:
    """The nearest fraction with one of these denominators; the simpler one when two are as near."""
    choices = (half_up(value, Fraction(1, d)) for d in denominators)
    return min(choices, key=lambda c: (abs(c - value), c.denominator))


def _single(value: Fraction, unit: str, denominators: Iterable[int]) -> Shown:
    near = _nearest(value, denominators)
    return Shown(((near, unit),), abs(near - value) / value)


def _split(value: Fraction, units: tuple[str, str], each: Fraction, steps: tuple[int, int]) -> Shown:
    """Large units down to their step, the rest in small ones; `each`: small units in a large one."""
    large = Fraction(floor(value * steps[0]), steps[0])
    small = half_up((value - large) * each, Fraction(1, steps[1]))
    parts = tuple((count, unit) for count, unit in ((large, units[0]), (small, units[1])) if count)
    return Shown(parts, abs(large + small / each - value) / value)


def _first_near(ways: Sequence[Callable[[], Shown]]) -> Shown:
    """The first way that is near enough; else the nearest."""
    best: Shown | None = None
    for way in ways:
        shown = way()
        if shown.parts and shown.parts[0][0] and shown.off <= TOLERANCE:
            return shown
        if shown.parts and shown.parts[0][0] and (best is None or shown.off < best.off):
            best = shown
    return best or Shown(())


def _spoons(tsp: Fraction, cup: int) -> Shown:
    """A volume in cups and spoons; `cup` is the teaspoons of one."""
    if tsp < Fraction(3, 32):
        return _pinches(tsp * 16)
    cups, tbsp = tsp / cup, tsp / 3
    ways: list[Callable[[], Shown]] = []
    if cups >= Fraction(1, 4):
        ways += [lambda: _single(cups, "cup", (4, 3)), lambda: _single(cups, "cup", (8,))]
    if 1 <= tbsp <= 8:
        ways.append(lambda: _single(tbsp, "tbsp", (2,)))
    if cups >= 1:
        ways.append(lambda: _split(cups, ("cup", "tbsp"), Fraction(cup, 3), (4, 1)))
    elif cups >= Fraction(1, 2):
        ways.append(lambda: _split(cups, ("cup", "tbsp"), Fraction(cup, 3), (4, 2)))
    elif tbsp >= 1:
        ways += [partial(_split, tbsp, ("tbsp", "tsp"), Fraction(3), (1, step)) for step in (2, 4)]
    else:
        ways += [lambda: _single(tsp, "tsp", (4,)), lambda: _single(tsp, "tsp", (8,))]
    return _first_near(ways)


def _pinches(count: Fraction) -> Shown:
    whole = half_up(count)
    return _single(count, "pinch", (1,)) if whole else Shown(((Fraction(1), "pinch"),), less=True)


def _stays(value: Fraction, unit: str) -> bool:
    """Whether an exact amount is best left in the unit it was written in."""
    match unit:
        case "cup":
            return value.denominator in (1, 2, 3, 4, 8) and value >= Fraction(1, 4)
        case "tbsp":
            return value.denominator in (1, 2) and Fraction(1, 2) <= value <= 8
        case "tsp":
            return value in (4, 5) or (value.denominator in (1, 2, 4, 8) and value < 3)
    return value.denominator in (1, 2, 4) and value >= Fraction(1, 4)


def _volume(value: Fraction, unit: str, cup: int) -> Shown:
    if _stays(value, unit):
        return Shown(((value, unit),))
    in_tsp = {"tsp": 1, "tbsp": 3, "cup": cup, **_LARGE_TSP}
    return _spoons(value * in_tsp[unit], cup)


def _ounces(oz: Fraction) -> Shown:
    """A weight in pounds and ounces."""
    if oz < Fraction(1, 4):
        return Shown(((oz * OZ_G, "g"),))
    if oz < 16 - Fraction(1, 4):
        return _first_near([partial(_single, oz, "oz", (2,)), partial(_single, oz, "oz", (4,))])
    pounds = _single(oz / 16, "lb", (4,))
    return pounds if pounds.off <= FINE or oz < 16 else _split(oz / 16, ("lb", "oz"), Fraction(16), (1, 1))


def _pieces(value: Fraction, unit: str) -> Shown:
    """Counted things: wholes, halves and quarters; thirds where they are exact."""
    if value.denominator == 3:
        return Shown(((value, unit),))
    if value < Fraction(1, 8):
        return Shown(((Fraction(1, 4), unit),), less=True)
    return _first_near([partial(_single, value, unit, (d,)) for d in (1, 2, 4)])


def shown(value: Fraction, unit: str, style: HouseStyle) -> Shown:
    """An exact amount of any canonical unit as parts to print."""
    if value <= 0:
        return Shown(())
    if unit in _METRIC_G:
        return Shown(((value * _METRIC_G[unit], "g"),))
    if unit in _METRIC_ML:
        return Shown(((value * _METRIC_ML[unit], "mL"),))
    if unit in ("oz", "lb"):
        return _ounces(value * (16 if unit == "lb" else 1))
    if unit in ("tsp", "tbsp", "cup", *_LARGE_TSP):
        return _volume(value, unit, CUP_TSP[style.cup])
    if unit in _SMALL_TSP and value >= 4:
        return _spoons(value * _SMALL_TSP[unit], CUP_TSP[style.cup])
    return _pieces(value, unit)


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


def quantity(measure: Measure, style: HouseStyle) -> str:
    """A measure as a cook reads it, in the unit it was written in or the next that can be measured."""
    high = shown(measure.high, measure.unit, style)
    if measure.low == measure.high:
        return _text(high, style.words, measure.size)
    low = shown(measure.low, measure.unit, style)
    if len(high.parts) == 1 and low.parts and [u for _, u in low.parts] != [high.parts[0][1]]:
        low = _as_single(low, measure, high)
    return _range_text(low, high, style.words, measure.size)


def _as_single(low: Shown, measure: Measure, high: Shown) -> Shown:
    """The lower end of a range in the unit of the upper one, to a quarter, where that comes near: `1¼–2½ tbsp`."""
    count, unit = high.parts[0]
    same = _single(count * measure.low / measure.high, unit, (4,))
    return same if same.parts[0][0] and same.off <= TOLERANCE else low


def quantities(measures: Sequence[Measure], style: HouseStyle) -> str:
    """Several measures of one food, added: `1 cup + 2 tbsp`."""
    return " + ".join(text for text in (quantity(m, style) for m in measures) if text)


def amount(what: Amount, style: HouseStyle, like: Amount | None = None) -> str:
    """An amount in the household's own measures: pounds and cups, or grams and millilitres, or both.

    `like`: the pack it is sold in; where that is a round number of grams or millilitres, so is the amount given.
    """
    metric = quantity(Measure(what.low, what.high, what.unit), style)
    if what.unit == "each" or (like is not None and _round_in_metric(like)):
        return metric
    own = _own_measure(what, style)
    # A few grams come only about in ounces: the scale says it better.
    if what.unit == "g" and shown(own.high, own.unit, style).off > TOLERANCE:
        return metric
    first = quantity(own, style)
    return f"{first} ({metric})" if style.measures == "both" and first else first


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
        units = {"g": (("lb", 16 * OZ_G), ("oz", OZ_G)), "mL": (("fl-oz", 6 * _US_TSP),)}[what.unit]
        for unit, per in units:
            count = what.low / per
            if (count * (1 if unit == "lb" else 2)).denominator == 1:
                return _part_text((count, unit), style.words)
    return quantity(Measure(what.low, what.high, what.unit), style)


def first_and_second(measures: Sequence[Measure], weight: Interval | None, style: HouseStyle) -> tuple[str, str]:
    """What a card prints for one ingredient: the household's own measure, and the other beside it.

    As written comes first, unless it is in the other system than the household's; `weight` is the edible weight in
    grams of the same amount. Spoons and counted things belong to both systems.
    """
    written = quantities(measures, style)
    if not measures:
        return "", ""
    system = _system(measures)
    if system == "metric":
        return _metric_first(measures, written, style)
    other = _in_metric(measures, weight, style)
    if system == "us" and style.measures == "metric" and other:
        return other, written
    return written, other if style.measures != "us" else ""


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
    if units & _US_ONLY:
        return "us"
    return "metric" if units <= {*_METRIC_G, *_METRIC_ML} else "any"


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
    if measure.unit in _METRIC_G:
        factor, unit = _METRIC_G[measure.unit] / OZ_G, "oz"
    else:
        factor, unit = _METRIC_ML[measure.unit] / TSP_ML[style.cup], "tsp"
    return Measure(measure.low * factor, measure.high * factor, unit)


def _in_metric(measures: Sequence[Measure], weight: Interval | None, style: HouseStyle) -> str:
    """Grams where they are known and worth weighing (5 g), else millilitres of what is measured by volume."""
    if weight is not None:
        return weight_text(weight) if weight.high >= 5 else ""
    if len(measures) != 1 or measures[0].unit not in ("cup", "tbsp", *_LARGE_TSP):
        return ""
    only = measures[0]
    tsp = {"tbsp": 3, "cup": CUP_TSP[style.cup], **_LARGE_TSP}[only.unit]
    ml = tsp * (_US_TSP if only.unit in _LARGE_TSP else TSP_ML[style.cup])
    return quantity(Measure(only.low * ml, only.high * ml, "mL"), style)


def weight_text(weight: Interval) -> str:
    """`350 g`, `15–30 g`."""
    low, high = grams(weight.low), grams(weight.high)
    if low == high:
        return high
    if low.rpartition(NBSP)[2] == high.rpartition(NBSP)[2]:
        return f"{low.rpartition(NBSP)[0]}{EN_DASH}{high}"
    return f"{low} {EN_DASH} {high}"
