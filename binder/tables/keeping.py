"""How long food keeps in a home refrigerator and freezer: the rows that a recipe's `keeps` may name.

Refrigerator at or below 40 °F (4 °C), freezer at 0 °F (-18 °C). Freezer times are for quality only. A month
counts 30 days, a week 7, a year 365; the day made or opened is day 0. Local rules and the maker's own date
come first.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Literal

Days = tuple[int, int]
Caution = Literal["usual", "strict"]

CHART = "Cold Food Storage Chart, FoodSafety.gov (USDA FSIS / FDA)"
MEMORY = "national keeping charts (memory)"
COMMON_PRACTICE = "common practice"

ASSUMED = "cooked leftovers"


@dataclass(frozen=True, slots=True)
class KeepingRow:
    """One food: days (low, high) in the refrigerator, the freezer and the cupboard.

    `freezer_days` None with `freezes` means that its life frozen is not known; without, that it is not to be
    frozen. `after_thawing_days` are those in the refrigerator after thawing there (None when it is not to be
    frozen). A row with `cupboard_days` keeps dry at room temperature; its `fridge_days` are then the same.
    """

    name: str
    fridge_days: Days
    freezer_days: Days | None
    freezes: bool
    source: str
    note: str = ""
    after_thawing_days: Days | None = None
    raw: bool = False
    from_memory: bool = False
    cupboard_days: Days | None = None


def _chart(name: str, fridge: Days, freezer: Days | None = None, note: str = "") -> KeepingRow:
    """A ready-to-eat row; what was thawed has the days it had left (FDA Food Code 3-501.18(A)(1))."""
    frozen = freezer is not None
    return KeepingRow(name, fridge, freezer, frozen, CHART, note, fridge if frozen else None)


def _raw(name: str, fridge: Days, freezer: Days | None, thawed: Days | None = None, note: str = "") -> KeepingRow:
    """A raw row of the chart; days after thawing from USDA FSIS, The Big Thaw."""
    return KeepingRow(name, fridge, freezer, freezer is not None, CHART, note, thawed, raw=True)


def _remembered(name: str, fridge: Days, freezer: Days | None = None, note: str = "") -> KeepingRow:
    return replace(_chart(name, fridge, freezer, note), source=MEMORY, from_memory=True)


def _practice(name: str, fridge: Days, freezer: Days | None = None, note: str = "") -> KeepingRow:
    return replace(_chart(name, fridge, freezer, note), source=COMMON_PRACTICE)


def _dry(name: str, days: Days, freezer: Days | None = None, note: str = "") -> KeepingRow:
    return replace(_practice(name, days, freezer, note), freezes=True, cupboard_days=days, after_thawing_days=days)


_OLDER_FISH = "older editions 1-2 days"
_NOT_WELL = "does not freeze well"

_COOKED = (
    _chart(ASSUMED, (3, 4), (60, 180), "as cooked meat or poultry; assumed where nothing is written"),
    _chart("cooked meat or poultry", (3, 4), (60, 180)),
    _chart("soups and stews", (3, 4), (60, 90)),
    _chart("chicken nuggets or patties", (3, 4), (30, 90)),
    _chart("pizza", (3, 4), (30, 60)),
    _chart("casseroles with eggs", (3, 4), (60, 90)),
    _chart("mixed salads", (3, 4), note=f"{_NOT_WELL}; older editions 3-5 days"),
    _chart("hard-cooked eggs", (7, 7), note="do not freeze"),
    _chart("cooked ham, slices", (3, 5), (30, 60)),
    _chart("cooked sausage", (7, 7), (30, 60)),
    _chart("luncheon meat, opened", (3, 5), (30, 60)),
    _chart("hot dogs, opened", (7, 7), (30, 60)),
    _chart("crab, lobster", (2, 4), (60, 120)),
    _remembered("quiche", (3, 5), (60, 90), "days after baking"),
    _remembered("cooked rice, pasta and grains", (3, 4), (30, 60), "national advice differs: some say 1 day for rice"),
)

_RAW = (
    _raw("raw ground meat", (1, 2), (90, 120), (1, 2)),
    _raw("raw stew meat", (1, 2), (90, 120), (1, 2)),
    _raw("raw sausage", (1, 2), (30, 60), (1, 2)),
    _raw("raw steaks, chops, roasts", (3, 5), (120, 360), (3, 5)),
    _raw("raw poultry pieces", (1, 2), (270, 270), (1, 2)),
    _raw("raw whole poultry", (1, 2), (365, 365), (1, 2)),
    _raw("raw lean fish", (1, 3), (180, 240), (1, 2), f"cod group; {_OLDER_FISH}"),
    _raw("raw pollock, perch, rockfish, sea trout", (1, 3), (120, 240), (1, 2), _OLDER_FISH),
    _raw("raw fatty fish", (1, 3), (60, 90), (1, 2), _OLDER_FISH),
    _raw("raw eggs in shell", (21, 35), None, note="do not freeze in shell"),
    _raw("raw egg whites", (2, 4), (360, 360), (2, 4)),
    _raw("raw egg yolks", (2, 4), None, note="do not freeze well"),
    _raw("bacon", (7, 7), (30, 30), (3, 5)),
)

_CUT = (
    _remembered("cut fruit", (3, 4), note=_NOT_WELL),
    _remembered("cut vegetables", (3, 4), note=_NOT_WELL),
    _remembered("cut salad", (3, 4), note=_NOT_WELL),
    _practice("soaked cereal", (3, 4), note=f"{_NOT_WELL}; no agency figure"),
)

_OPENED = (
    _remembered("opened dips and fresh soft cheese", (7, 7), note=_NOT_WELL),
    _remembered("opened cans, acid", (5, 7), (60, 90), "tomatoes, fruit, pickles; moved out of the can"),
    _remembered("opened cans, other", (3, 4), (60, 90), "beans, fish, soup; moved out of the can"),
    _remembered("opened broth", (3, 4), (60, 90)),
    _remembered("opened tomato sauce", (5, 7), (60, 90)),
    _remembered("opened milk", (5, 7), (30, 90), "never past the maker's date"),
    _practice("opened plant milk", (7, 10), note=_NOT_WELL),
    _practice("opened cream", (3, 5), (60, 60)),
    _remembered("opened yogurt", (7, 14), (30, 60)),
    _remembered("opened hard cheese", (21, 28), (180, 240)),
    _remembered("opened butter", (30, 60), (180, 270)),
    _remembered("opened tofu", (3, 5), (60, 90), "in water changed daily"),
    _practice("opened nut butter", (60, 90)),
    _practice("opened jam", (30, 90)),
    _practice("opened mayonnaise or dressing", (30, 60), note=_NOT_WELL),
    _practice("opened olives and pickles", (30, 60), note=_NOT_WELL),
    _practice("opened curry paste or pesto", (5, 7), (60, 90)),
    _practice("opened juice", (5, 7), (60, 180)),
    _practice("opened wine, for cooking", (3, 5), (60, 90)),
)

_CUPBOARD = (
    _dry("dry goods", (180, 365), note="closed, dry and dark; the maker's date comes first"),
    _dry("whole-grain flour", (30, 90), (180, 180)),
    _dry("nuts and seeds", (30, 90), (180, 365)),
    _dry("dried fruit", (90, 180), (180, 365)),
    _dry("crackers and dry biscuits", (7, 14)),
    _dry("bread", (3, 5), (60, 90)),
    _dry("muffins and scones", (2, 3), (60, 90), "plain; with fresh filling they keep as cooked leftovers"),
)

ROWS: Mapping[str, KeepingRow] = MappingProxyType({r.name: r for r in (*_COOKED, *_RAW, *_CUT, *_OPENED, *_CUPBOARD)})


def names() -> tuple[str, ...]:
    """The names that `keeps` may use, in the order of the tables."""
    return tuple(ROWS)


def row(name: str) -> KeepingRow | None:
    """The row of that name, whatever its case and spacing; None when there is none."""
    return ROWS.get(" ".join(name.lower().split()))


def _end(days: Days, caution: Caution) -> int:
    return days[0] if caution == "strict" else days[1]


def days(of: KeepingRow, caution: Caution) -> int:
    """Days in the refrigerator (or cupboard, for dry goods): the upper end usually, the lower when strict."""
    return _end(of.fridge_days, caution)


def freezer_days(of: KeepingRow, caution: Caution) -> int | None:
    """Days in the freezer, for quality only; None when not known or not to be frozen (see `freezes`)."""
    return _end(of.freezer_days, caution) if of.freezer_days else None
