"""Grams of a cup, a spoon or a piece, from the weights published for one food.

A published weight is an amount, a measure in words and grams of the edible part: `2 tbsp = 32 g`,
`0.5 cup, chopped or diced = 44 g`, `1 medium (2-1/2" dia) = 110 g`. What was written is looked up under the
measure that was written; only where that is missing is it worked out from another volume, and says so.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from binder.tables.words import singular

# Teaspoons in one (NIST Handbook 44, App. C: 1 cup = 16 tbsp = 48 tsp = 8 fl oz, by definition).
# Dash, pinch, smidgen: common practice.
TEASPOONS: dict[str, float] = {
    "gallon": 768, "quart": 192, "pint": 96, "cup": 48, "fl oz": 6, "tbsp": 3, "tsp": 1,
    "dash": 1 / 8, "pinch": 1 / 16, "smidgen": 1 / 32,
}  # fmt: skip
_SPELLINGS = {"tablespoon": "tbsp", "teaspoon": "tsp", "fluid ounce": "fl oz", "floz": "fl oz"}
_VOLUME = re.compile(r"(cup|tbsp|tablespoon|tsp|teaspoon|fl oz|quart|pint|dash)s?\b(.*)", re.IGNORECASE)
_WORD = re.compile(r"[a-zé]+")

# Words of a measure that say nothing about how the food was cut.
_NOISE = frozenset({
    "a", "about", "and", "approx", "as", "contents", "cup", "dia", "each", "edible", "fl", "for", "high",
    "in", "long", "nlea", "of", "or", "oz", "packet", "per", "serving", "size", "thick", "total", "very",
    "with", "without", "yield", "yields", "x",
})  # fmt: skip
# Bought in this state, weighed without it: never what a plain measure means.
_IN_SHELL = frozenset({"shell", "hulls", "pits", "purchased"})
_FORM = {
    "chopped": "chopped", "chop": "chopped", "minced": "minced", "diced": "diced", "dice": "diced",
    "cube": "cubed", "cubed": "cubed", "cubes": "cubed", "slice": "sliced", "sliced": "sliced",
    "slices": "sliced", "rings": "sliced", "rounds": "sliced", "coins": "sliced", "strips": "strips",
    "strip": "strips", "julienned": "strips", "matchsticks": "strips", "slivered": "slivered",
    "flaked": "flaked", "flakes": "flaked", "shredded": "shredded", "grated": "grated", "halves": "halves",
    "halved": "halves", "quartered": "quartered", "quarters": "quartered", "pieces": "pieces",
    "chunks": "chunks", "wedges": "wedges", "mashed": "mashed", "pureed": "pureed", "puree": "pureed",
    "ground": "ground", "milled": "ground", "powdered": "ground", "whole": "whole", "packed": "packed",
    "unpacked": "unpacked", "crumbled": "crumbled", "crushed": "crushed", "melted": "melted",
    "sifted": "sifted", "unsifted": "unsifted", "drained": "drained", "rinsed": "rinsed",
    "pitted": "pitted", "leaves": "leaves", "sprigs": "sprigs", "sections": "sections",
    "kernels": "kernels", "flowerets": "florets", "florets": "florets", "whipped": "whipped",
    "crumbs": "crumbs", "balls": "balls", "thawed": "thawed", "unthawed": "unthawed",
    "frozen": "unthawed", "condensed": "condensed", "undrained": "undrained", "shelled": "shelled",
}  # fmt: skip
# What stands closest to a form where the food has no weight for it, nearest first.
_NEAREST = {
    "minced": ("chopped", "diced"),
    "chopped": ("diced", "cubed", "pieces", "chunks", "minced"),
    "diced": ("cubed", "chopped", "pieces"),
    "cubed": ("diced", "chunks", "pieces", "chopped"),
    "chunks": ("cubed", "pieces", "diced", "chopped"),
    "pieces": ("chunks", "chopped", "cubed", "diced"),
    "wedges": ("quartered", "sections", "sliced", "chunks"),
    "quartered": ("halves", "wedges", "chopped"),
    "halves": ("whole", "quartered", "pieces"),
    "sliced": ("strips", "slivered"),
    "slivered": ("sliced", "strips"),
    "strips": ("sliced", "slivered", "shredded"),
    "flaked": ("sliced", "slivered"),
    "grated": ("shredded",),
    "shredded": ("grated", "strips"),
    "mashed": ("pureed",),
    "pureed": ("mashed", "crushed"),
    "crushed": ("crumbled", "ground", "pureed", "chopped"),
    "ground": ("crushed",),
    "crumbled": ("crushed", "pieces"),
    "packed": (),
    "leaves": ("whole",),
    "rinsed": ("drained",),
    "drained": ("rinsed",),
    "florets": ("chopped", "pieces"),
    "unthawed": ("whole",),
}
_SIZES = frozenset({"small", "medium", "large", "extra", "jumbo", "miniature", "thin", "thick"})
_CUT_PIECES = frozenset({
    "slice", "wedge", "ring", "leaf", "strip", "stick", "cube", "piece", "floweret", "spear", "can",
    "package", "serving",
})  # fmt: skip


@dataclass(frozen=True, slots=True)
class HouseholdWeight:
    """`amount` of `measure` weigh `grams` (edible part), as published: 2 tbsp = 32 g stays amount 2."""

    amount: float
    measure: str
    grams: float
    source: str = ""


@dataclass(frozen=True, slots=True)
class GramsOf:
    """Grams of one unit, where they come from, and whether they were worked out or taken from a near form."""

    grams: float
    basis: str
    estimated: bool


@dataclass(frozen=True, slots=True)
class _Volume:
    unit: str
    forms: frozenset[str]
    weight: HouseholdWeight
    order: int


def volume_unit(unit: str) -> str | None:
    """The volume's short name (`tablespoons` is `tbsp`), or None when it is not a volume of this list."""
    word = " ".join(unit.casefold().replace(".", "").split())
    for name in (word, word.removesuffix("s"), word.removesuffix("es")):
        name = _SPELLINGS.get(name, name)
        if name in TEASPOONS:
            return name
    return None


def form_of(word: str) -> str:
    """How a food is cut or packed, in one word for each: `cubes` and `cubed` are `cubed`."""
    return _FORM.get(word.casefold(), singular(word.casefold()))


@lru_cache(maxsize=4096)
def _read_forms(text: str) -> frozenset[str]:
    text = re.sub(r"(?:not|loosely) packed", "unpacked", text.casefold()).replace("without pits", "pitted")
    in_shell = re.search(r"in shell|with hulls|with pits|as purchased", text) is not None
    words = [w for w in _WORD.findall(text) if w not in _NOISE and (in_shell or w not in _IN_SHELL)]
    return frozenset(w if w in _IN_SHELL else form_of(w) for w in words)


def _volumes(weights: Iterable[HouseholdWeight]) -> list[_Volume]:
    found = []
    for order, weight in enumerate(weights):
        match = _VOLUME.match(weight.measure)
        unit = volume_unit(match[1]) if match else None
        if match and unit:
            found.append(_Volume(unit, _read_forms(match[2]), weight, order))
    return found


def _plainness(forms: frozenset[str]) -> int:
    """How far a measure is from a plain one: 0 for no form at all."""
    if not forms:
        return 0
    known = forms <= frozenset(_FORM.values())
    return (1 if "unpacked" in forms else 2 if forms & {"whole", "unsifted"} else 3) if known else 4


def _distance(wanted: frozenset[str], forms: frozenset[str]) -> int:
    """0 the form asked for, 1 to 8 a near one, 10 no form stated, 20 and more another form."""
    if wanted & forms:
        return 0
    for form in sorted(wanted):
        for rank, near in enumerate(_NEAREST.get(form, ()), start=1):
            if near in forms:
                return rank
    return 10 if not forms else 20 + _plainness(forms)


def _known_forms(form: Iterable[str], volumes: list[_Volume]) -> frozenset[str]:
    """The words of `form` that say how it is cut; `fresh` or `peeled` say nothing about a cup's weight."""
    used = frozenset().union(*(v.forms for v in volumes)) | frozenset(_FORM.values())
    return frozenset(word for word in map(form_of, form) if word in used)


def _volume_rank(volume: _Volume, unit: str, wanted: frozenset[str]) -> tuple[float, ...]:
    other = abs(TEASPOONS[volume.unit] / TEASPOONS[unit])
    ratio = max(other, 1 / other)
    if not wanted:
        return (volume.unit != unit, _plainness(volume.forms), ratio, volume.order)
    distance = _distance(wanted, volume.forms)
    # First the measure that was written; the right form in another measure beats a wrong form in this one.
    here = volume.unit == unit
    group = 0 if here and distance <= 10 else 1 if distance == 0 else 2 if here else 3
    return (group, distance, ratio, len(volume.forms), volume.order)


def _ratio_words(unit: str, published: str) -> str:
    ratio = TEASPOONS[unit] / TEASPOONS[published]
    return f"1 {unit} as {ratio:g} {published}" if ratio >= 1 else f"1 {unit} as 1/{1 / ratio:g} {published}"


def _published(weight: HouseholdWeight) -> str:
    return f"{weight.source}, {weight.amount:g} {weight.measure} = {weight.grams:g} g"


def _of_volume(weights: tuple[HouseholdWeight, ...], unit: str, form: tuple[str, ...]) -> GramsOf | None:
    # A pint or quart "as purchased" is a heaped basket, and a dash is no exact measure: each answers only for itself.
    volumes = [v for v in _volumes(weights) if v.unit == unit or not (v.forms & _IN_SHELL or v.unit == "dash")]
    if not volumes:
        return None
    wanted = _known_forms(form, volumes)
    best = min(volumes, key=lambda v: _volume_rank(v, unit, wanted))
    basis = _published(best.weight)
    if best.unit != unit:
        basis += f"; {_ratio_words(unit, best.unit)}"
    near = bool(wanted) and not wanted & best.forms
    if near:
        basis += f"; no weight for {', '.join(sorted(wanted))}"
    grams = best.weight.grams * (TEASPOONS[unit] / TEASPOONS[best.unit]) / best.weight.amount
    return GramsOf(grams, basis, near or best.unit != unit)


def _piece_rank(measure: str, unit: str, names: frozenset[str], form: frozenset[str]) -> tuple[int, ...] | None:
    """How well a measure fits one `unit`; None when it does not."""
    outside = [singular(w) for w in _WORD.findall(re.sub(r"\(.*?\)", " ", measure.casefold()))]
    if not outside or _VOLUME.match(measure):
        return None
    if outside[0] == "nlea" or ("extra" in outside and unit != "extra"):
        return None
    # A medium one is meant where no size is written.
    extra = len(set(outside) - form - {unit, "medium"}) - 3 * len(set(outside) & form)
    if outside[0] == unit:
        return (0, extra)
    if unit in _SIZES:
        return (1, extra) if unit in outside and outside[0] not in _CUT_PIECES else None
    if unit == "each":
        whole = outside[0] in ("fruit", "whole", "item", "piece") or outside[0] in names
        return (2, extra) if outside[0] == "medium" else (3, extra) if whole else None
    return (4, extra) if unit in outside and unit != "piece" else None


def _of_piece(weights: tuple[HouseholdWeight, ...], name: str, unit: str, form: tuple[str, ...]) -> GramsOf | None:
    unit = singular(unit)
    names = frozenset(singular(word) for word in _WORD.findall(name.casefold()))
    words = frozenset(singular(word.casefold()) for word in form)
    ranked = []
    for order, weight in enumerate(weights):
        rank = _piece_rank(weight.measure, unit, names, words)
        if rank is not None:
            ranked.append((rank, weight.amount != 1, order, weight))
    if not ranked:
        return None
    rank, _, _, weight = min(ranked, key=lambda entry: entry[:3])
    return GramsOf(weight.grams / weight.amount, _published(weight), unit == "each" and rank[0] == 2)


def grams_of(
    weights: tuple[HouseholdWeight, ...], *, name: str, unit: str, form: tuple[str, ...] = ()
) -> GramsOf | None:
    """Grams (edible part) of one `unit` of a food cut as `form` says, or None when nothing published fits.

    `unit` is a volume (`cup`, `tablespoons`, `fl oz`) or a piece word (`small`, `clove`, `slice`, `each`).
    """
    volume = volume_unit(unit)
    if volume is None:
        return _of_piece(weights, name, unit.casefold().strip(), form)
    return _of_volume(weights, volume, form)
