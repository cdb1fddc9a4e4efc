"""Who eats, where, with what equipment, out of which containers."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from binder.problem import Span

Caution = Literal["usual", "strict"]
HOME = "home"


@dataclass(frozen=True, slots=True)
class Aim:
    """A number an eater watches: name is one of NUTRIENTS or a tally's name; value in that unit."""

    name: str
    kind: Literal["at least", "at most", "about"]
    value: float
    text: str  # as written: "at most 2000 mg"


@dataclass(frozen=True, slots=True)
class Eater:
    """Who eats: what they avoid, what they aim at, where they have which meal."""

    name: str
    span: Span
    avoids: tuple[str, ...]  # an allergen of the list, or a food's name
    aims: tuple[Aim, ...]
    eats_at: Mapping[str, str]  # meal to place name
    caution: Caution  # the eater's own, or the household's
    private: str = ""
    shares_week: bool = False  # agreed to stand on a week's page for the family


@dataclass(frozen=True, slots=True)
class Tool:
    """A kind of equipment: count of pieces; watts of a microwave; racks of each oven; millilitres a vessel holds."""

    kind: str  # oven, burner, pressure cooker, microwave, kettle, cutting board, freezer, fridge, cool bag, ...
    count: int = 1
    watts: int | None = None
    racks: int = 1
    holds_ml: Fraction | None = None
    text: str = ""


@dataclass(frozen=True, slots=True)
class Place:
    """Where somebody eats or cooks: its equipment, and what it asks of food that is brought."""

    name: str
    span: Span
    tools: tuple[Tool, ...]
    bans: tuple[str, ...] = ()
    home_food: bool = True  # home-made food is taken
    notes: str = ""
    label_says: tuple[str, ...] = ()  # what it wants on every label: "Room 12"
    stays_there: tuple[str, ...] = ()  # foods and tools that are there always, so never carried
    travels_once: bool = False  # what is added on several days is taken there once, for the week

    def tool(self, kind: str) -> Tool | None:
        """The place's tool of that kind, or None."""
        return next((tool for tool in self.tools if tool.kind == kind), None)


@dataclass(frozen=True, slots=True)
class Container:
    """A kind of container, with how many there are and what it stands."""

    name: str
    span: Span
    compartments_ml: tuple[Fraction, ...]  # as listed; () when not known
    have: int
    freezer: bool = True
    microwave: bool = True
    tare_g: float | None = None
    holds_text: str = ""

    @property
    def largest_ml(self) -> Fraction | None:
        return max(self.compartments_ml) if self.compartments_ml else None


@dataclass(frozen=True, slots=True)
class LabelStock:
    """The labels in the house, and how far the printer sets them off."""

    sheet: str  # a sheet name of tables.sheets
    first_free: int = 1  # 1-based, row by row
    offset_mm: tuple[float, float] = (0.0, 0.0)
    cut_marks: bool = False


@dataclass(frozen=True, slots=True)
class Binding:
    """How the binder's sheets are bound: marks to punch by, sections that begin on a sheet of their own."""

    hole_marks: bool = False
    own_sheets: bool = False


@dataclass(frozen=True, slots=True)
class Household:
    """Who eats, where, out of what, by which measures and lists."""

    name: str
    span: Span
    language: str
    paper: Literal["letter", "a4", "half-letter", "a5"]
    measures: Literal["us", "metric", "both"]
    cup: Literal["us", "metric", "uk"]
    allergen_list: Literal["us", "eu"]
    caution: Caution
    time_zone: str
    currency: str
    meal_times: Mapping[str, int]  # meal to minutes after midnight
    eaters: tuple[Eater, ...]
    places: tuple[Place, ...]  # home always among them, always with a refrigerator
    containers: tuple[Container, ...]
    labels: LabelStock
    site_address: str | None = None
    session_minutes: Mapping[str, Fraction] | None = None  # stated: washing up, walking
    binding: Binding = Binding()

    def eater(self, name: str) -> Eater:
        return next(eater for eater in self.eaters if eater.name == name)

    def place(self, name: str) -> Place:
        return next(place for place in self.places if place.name == name)
