"""What comes out of reckoning weeks that are over: what closing asks, what they say to the next, and a year of them.

A field made with `inside()` is not written to facts.json. None is unknown, never zero.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date as Day
from fractions import Fraction
from types import MappingProxyType

from binder.model.week import Source


@dataclass(frozen=True, slots=True)
class ToClose:
    """A dish that closing the week asks about; `gives`: by-products that may have been kept."""

    recipe: str
    which: int
    source: Source
    made_on: Day | None
    planned: Fraction
    gives: tuple[str, ...] = ()
    eaters: tuple[str, ...] = ()

    @property
    def name(self) -> str:
        """As the answers name it: `bean-stew`, or `bean-stew/2` for the second row of a recipe."""
        return self.recipe if self.which == 1 else f"{self.recipe}/{self.which}"


@dataclass(frozen=True, slots=True)
class LastTime:
    """What became of a dish the last time a week with it was closed; portions, all of them known."""

    week: str
    made: Fraction
    eaten: Fraction
    left: Fraction
    frozen: Fraction
    thrown: Fraction
    why: str = ""
    left_by: tuple[tuple[str, Fraction, Fraction], ...] = ()  # eater, portions left, portions that were theirs


@dataclass(frozen=True, slots=True)
class Weighed:
    """A batch that somebody weighed, cooked."""

    week: str
    grams: Fraction
    portions: Fraction


@dataclass(frozen=True, slots=True)
class Past:
    """What the closed weeks before a week say about it: by recipe key, the latest week counting."""

    last: Mapping[str, LastTime] = field(default_factory=lambda: MappingProxyType({}))
    weighed: Mapping[str, Weighed] = field(default_factory=lambda: MappingProxyType({}))
    # Of a portion, cooked: the mean of what was weighed.
    each_grams: Mapping[str, Fraction] = field(default_factory=lambda: MappingProxyType({}))


@dataclass(frozen=True, slots=True)
class WeekPast:
    """What a closed week came to. Minutes are of the sessions that were timed, None when none was.

    `thrown_cost` and `a_portion` None: not known; `at_least`: a price was missing, so that they are lower bounds.
    """

    week: str
    made: Fraction
    eaten: Fraction
    thrown: Fraction
    thrown_cost: Fraction | None
    a_portion: Fraction | None
    currency: str
    at_least: bool
    minutes_planned: int | None
    minutes: int | None


@dataclass(frozen=True, slots=True)
class Thrown:
    """Portions of a dish thrown away in a closed week."""

    week: str
    recipe: str
    portions: Fraction
    why: str
    cost: Fraction | None


@dataclass(frozen=True, slots=True)
class DishPast:
    """What became of a dish over a year's closed weeks, in portions."""

    recipe: str
    weeks: tuple[str, ...]
    made: Fraction
    eaten: Fraction
    left: Fraction
    frozen: Fraction
    thrown: Fraction


@dataclass(frozen=True, slots=True)
class Year:
    """A year's closed weeks, first to last; dishes by how often they were made; `use_first`: names with their weeks."""

    year: int
    planned_weeks: int
    weeks: tuple[WeekPast, ...]
    dishes: tuple[DishPast, ...]
    thrown: tuple[Thrown, ...]
    use_first: tuple[tuple[str, tuple[str, ...]], ...]
