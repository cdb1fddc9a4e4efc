"""How much: exact amounts as written, and intervals for what is worked out from them."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

Unit = Literal["g", "mL", "each"]


@dataclass(frozen=True, slots=True)
class Measure:
    """A number and a unit as a cook wrote them: `1-2 tbsp`, `2 medium`; canonical unit names of tables.measures."""

    low: Fraction
    high: Fraction
    unit: str
    size: str = ""

    def times(self, factor: Fraction) -> Measure:
        """The same measure, scaled exactly."""
        return Measure(self.low * factor, self.high * factor, self.unit, self.size)


@dataclass(frozen=True, slots=True)
class Amount:
    """An exact amount or range in one of the three units that can be added up."""

    low: Fraction
    high: Fraction
    unit: Unit

    def times(self, factor: Fraction) -> Amount:
        """The same amount, scaled exactly."""
        return Amount(self.low * factor, self.high * factor, self.unit)

    def plus(self, other: Amount) -> Amount:
        """The sum; both must have the same unit (a fault of ours otherwise)."""
        if self.unit != other.unit:
            raise ValueError(f"cannot add {other.unit} to {self.unit}")
        return Amount(self.low + other.low, self.high + other.high, self.unit)

    @property
    def is_range(self) -> bool:
        return self.low != self.high


def exactly(value: Fraction | int, unit: Unit) -> Amount:
    """An amount that is not a range."""
    return Amount(Fraction(value), Fraction(value), unit)


@dataclass(frozen=True, slots=True)
class Interval:
    """A worked-out number between two bounds, in the unit its name says; a point when both are equal."""

    low: float
    high: float

    def __add__(self, other: Interval) -> Interval:
        return Interval(self.low + other.low, self.high + other.high)

    def times(self, factor: float) -> Interval:
        """Scaled by a factor of zero or more."""
        return Interval(self.low * factor, self.high * factor)

    @property
    def is_point(self) -> bool:
        return self.low == self.high

    @property
    def middle(self) -> float:
        return (self.low + self.high) / 2


ZERO = Interval(0.0, 0.0)


def point(value: float) -> Interval:
    """An interval of one number."""
    return Interval(value, value)
