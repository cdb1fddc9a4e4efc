"""Amounts as kitchens can measure them: cups in quarters, thirds and eighths, spoons, pounds and ounces, pieces.

What is shown lies within 3 % of the exact amount, or knows how far off it is. Factors by definition: NIST Handbook
44, Appendix C; the metric cup and spoons are common practice.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache, partial
from math import floor
from types import MappingProxyType

from binder.pages.format import half_up
from binder.pages.house_style import HouseStyle

TOLERANCE = Fraction(3, 100)
LEAST_OF = Fraction(3, 4)  # of the smallest that can be measured: what is less is told as less, never as nearly double
FINE = Fraction(1, 100)  # where a second, smaller unit costs nothing: pounds before pounds and ounces

# 1 US gallon is 231 cubic inches of 25.4 mm; a teaspoon is its 768th part.
US_TSP = 231 * Fraction(254, 10) ** 3 / 1000 / 768
TSP_ML: Mapping[str, Fraction] = MappingProxyType({"us": US_TSP, "metric": Fraction(5), "uk": Fraction(5)})
CUP_TSP: Mapping[str, int] = MappingProxyType({"us": 48, "metric": 50, "uk": 50})
OZ_G = Fraction(45359237, 1600000)

METRIC_G: Mapping[str, Fraction] = MappingProxyType({"g": Fraction(1), "kg": Fraction(1000), "mg": Fraction(1, 1000)})
METRIC_ML: Mapping[str, Fraction] = MappingProxyType(
    {"mL": Fraction(1), "cl": Fraction(10), "dl": Fraction(100), "L": Fraction(1000)}
)
# In teaspoons of the US, whatever the household's cup: no other system has these.
LARGE_TSP: Mapping[str, int] = MappingProxyType({"fl-oz": 6, "pint": 96, "quart": 192, "gallon": 768})
_SMALL_TSP: Mapping[str, Fraction] = MappingProxyType({"dash": Fraction(1, 8), "pinch": Fraction(1, 16)})
US_ONLY = frozenset({"cup", *LARGE_TSP, "oz", "lb"})

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


def single(value: Fraction, unit: str, denominators: Iterable[int]) -> Shown:
    """The nearest of `value` in one unit, with how far that is off as a share of it."""
    near = _nearest(value, denominators)
    return Shown(((near, unit),), abs(near - value) / value)


def _split(value: Fraction, units: tuple[str, str], each: Fraction, steps: tuple[int, int]) -> Shown:
    """Large units down to their step, the rest in small ones; `each`: small units in a large one.

    A rest that rounds to a whole step of the large unit is carried over: 1 lb 15.6 oz is 2 lb, not 1 lb 16 oz.
    """
    large = Fraction(floor(value * steps[0]), steps[0])
    small = half_up((value - large) * each, Fraction(1, steps[1]))
    if small * steps[0] >= each:
        large, small = large + Fraction(1, steps[0]), Fraction(0)
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
        ways += [lambda: single(cups, "cup", (4, 3)), lambda: single(cups, "cup", (8,))]
    if 1 <= tbsp <= 8:
        ways.append(lambda: single(tbsp, "tbsp", (2,)))
    if cups >= 1:
        ways.append(lambda: _split(cups, ("cup", "tbsp"), Fraction(cup, 3), (4, 1)))
    elif cups >= Fraction(1, 2):
        ways.append(lambda: _split(cups, ("cup", "tbsp"), Fraction(cup, 3), (4, 2)))
    elif tbsp >= 1:
        ways += [partial(_split, tbsp, ("tbsp", "tsp"), Fraction(3), (1, step)) for step in (2, 4)]
    else:
        ways += [lambda: single(tsp, "tsp", (4,)), lambda: single(tsp, "tsp", (8,))]
    return _first_near(ways)


def _pinches(count: Fraction) -> Shown:
    enough = count >= LEAST_OF
    return single(count, "pinch", (1,)) if enough else Shown(((Fraction(1), "pinch"),), less=True)


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
    in_tsp = {"tsp": 1, "tbsp": 3, "cup": cup, **LARGE_TSP}
    return _spoons(value * in_tsp[unit], cup)


def _ounces(oz: Fraction) -> Shown:
    """A weight in pounds and ounces."""
    if oz < Fraction(1, 4):
        return Shown(((oz * OZ_G, "g"),))
    if oz < 16 - Fraction(1, 4):
        return _first_near([partial(single, oz, "oz", (2,)), partial(single, oz, "oz", (4,))])
    pounds = single(oz / 16, "lb", (4,))
    return pounds if pounds.off <= FINE or oz < 16 else _split(oz / 16, ("lb", "oz"), Fraction(16), (1, 1))


def packed(count: Fraction, unit: str) -> Shown:
    """An amount of a pack in ounces or fluid ounces: below a quarter it is not told how little."""
    if count <= 0:
        return Shown(())
    if count < Fraction(1, 4):
        return Shown(((Fraction(1, 4), unit),), less=True)
    if unit == "oz":
        return _ounces(count)
    return _first_near([partial(single, count, unit, (step,)) for step in (1, 2, 4)])


CUT = (1, 2, 4)  # what a knife makes of a piece
WEDGE = (8,)  # of what is cut, where a quarter would be half as much again
HALVED = (1, 2)  # an egg, a flatbread
WHOLE = (1,)  # a leaf, a sprig
_WHOLE_UNITS = frozenset({"leaf", "sprig"})


def _pieces(value: Fraction, unit: str, steps: tuple[int, ...]) -> Shown:
    """Counted things: wholes, halves and quarters; thirds where they are exact; coarser what no knife parts so."""
    steps = WHOLE if unit in _WHOLE_UNITS else HALVED if unit == "clove" else steps
    if value.denominator == 3 and steps == CUT:
        return Shown(((value, unit),))
    if steps == CUT and value < Fraction(3, 16):
        steps = WEDGE
    least = Fraction(1, steps[-1])
    if value < least * LEAST_OF:
        return Shown(((least, unit),), less=True)
    found = _first_near([partial(single, value, unit, (d,)) for d in steps])
    return found if found.parts else Shown(((least, unit),), abs(least - value) / value)


def shown(value: Fraction, unit: str, style: HouseStyle, steps: tuple[int, ...] = CUT) -> Shown:
    """An exact amount of any canonical unit as parts to print; `steps`: into what its pieces can be cut."""
    return _shown(value, unit, CUP_TSP[style.cup], steps)


@lru_cache(maxsize=16384)
def _shown(value: Fraction, unit: str, cup: int, steps: tuple[int, ...]) -> Shown:
    if value <= 0:
        return Shown(())
    if unit in METRIC_G:
        return Shown(((value * METRIC_G[unit], "g"),))
    if unit in METRIC_ML:
        return Shown(((value * METRIC_ML[unit], "mL"),))
    if unit in ("oz", "lb"):
        return _ounces(value * (16 if unit == "lb" else 1))
    if unit in ("tsp", "tbsp", "cup", *LARGE_TSP):
        return _volume(value, unit, cup)
    if unit in _SMALL_TSP and value >= 4:
        return _spoons(value * _SMALL_TSP[unit], cup)
    return _pieces(value, unit, steps)
