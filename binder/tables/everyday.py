"""Everyday foods by the names a kitchen uses: which composition row, how bought, how much of it is eaten.

One food a line in `data/everyday/*.tsv`. A name is looked up exactly (letter case, accents, hyphens and plurals
aside), by US or UK word; nothing is guessed. An allergen record of none and one that is not known are two things.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from difflib import SequenceMatcher, get_close_matches
from functools import cache
from pathlib import Path
from types import MappingProxyType

from binder.tables import composition
from binder.tables.household_weights import GramsOf, HouseholdWeight, grams_of, volume_unit
from binder.tables.words import key, plain, singular, singular_phrase, words_in_common

COLUMNS = (
    "name", "also", "row", "aisle", "sold", "yield", "yield_src", "pieces", "measures", "us", "eu",
    "opened", "keeps", "store", "form",
)  # fmt: skip
_FOLDER = Path(__file__).parent / "data" / "everyday"
_SOURCES = {"cp": "common practice", "mem": "from memory"}
# A preparation that begins with one of these may name another food: `chickpeas, dried`, `cumin, ground`.
_STATES = frozenset({
    "dried", "dry", "canned", "tinned", "jarred", "cooked", "frozen", "fresh", "ground", "raw", "smoked",
    "sun", "desiccated", "roasted", "salted", "unsalted", "whole",
})  # fmt: skip

_SIZES = frozenset({"small", "medium", "large"})
# Units that are the whole piece: a large bulb of fennel is a large fennel.
_WHOLE = frozenset({"each", "head", "ear"})
# A piece by the words that may stand for it, nearest first: a line's reader has one word for packet, bag and tub.
_ALSO_CALLED: Mapping[str, tuple[str, ...]] = MappingProxyType({
    "tin": ("can",),
    "can": ("tin",),
    "pack": ("packet", "package", "sachet", "envelope", "block", "bag", "carton", "box", "tub", "tube", "pouch", "pot"),
    "piece": ("sheet", "ball", "square", "cube", "log", "scoop", "nest", "floret", "pat", "shot"),
    "head": ("bulb",),
    "ear": ("cob", "each"),
    "stalk": ("rib", "stick", "spear"),
    "rasher": ("slice",),
    "strip": ("rasher", "slice"),
    "fillet": ("each",),
})  # fmt: skip


@dataclass(frozen=True, slots=True)
class Published:
    """Grams (edible part) of one piece or measure, and whose figure it is."""

    grams: float
    source: str


@dataclass(frozen=True, slots=True)
class Everyday:
    """One food of the kitchen.

    `row` is an SR28 number, or None when no published row fits (figures not known). `yield_percent` is the
    edible part of what is bought. Allergens are the words of the US and the EU list: () is a record of none, None
    is not known. `keeps` is `fridge=4` (days), the name of a keeping row, or empty.
    """

    name: str
    also: tuple[str, ...]
    row: str | None
    aisle: str
    sold: str
    yield_percent: float | None
    yield_source: str
    pieces: Mapping[str, Published] = field(hash=False)
    measures: Mapping[str, Published] = field(hash=False)
    us: tuple[str, ...] | None
    eu: tuple[str, ...] | None
    opened_days: int | None
    keeps: str
    keeps_source: str
    store: str
    liquid: bool

    def __reduce__(self) -> tuple[Callable[[str], Everyday], tuple[str]]:
        # A read-only mapping cannot be pickled; the name brings the whole line back.
        return food, (self.name,)


def _source(code: str, row: str) -> str:
    return f"SR28 {row}" if code == "SR28" else _SOURCES.get(code, code)


def _several(text: str) -> tuple[str, ...]:
    return tuple(part.strip() for part in text.split(";") if part.strip())


def _weights(text: str, row: str) -> Mapping[str, Published]:
    """`small=70; bunch=60@cp` as name to grams and source; no mark: the food's own SR28 row."""
    found = {}
    for part in _several(text):
        name, _, figure = part.partition("=")
        grams, _, code = figure.partition("@")
        found[name.strip()] = Published(float(grams), _source(code.strip() or "SR28", row))
    return MappingProxyType(found)


def _allergens(text: str) -> tuple[str, ...] | None:
    if text in ("?", ""):
        return None
    return () if text == "-" else _several(text)


def _read(line: str) -> Everyday:
    cell = dict(zip(COLUMNS, line.split("\t"), strict=True))
    row = cell["row"]
    keeps, _, keeps_code = cell["keeps"].partition("@")
    return Everyday(
        name=cell["name"],
        also=_several(cell["also"]),
        row=row or None,
        aisle=cell["aisle"],
        sold=cell["sold"],
        yield_percent=float(cell["yield"]) if cell["yield"] else None,
        yield_source=_source(cell["yield_src"], row) if cell["yield"] else "",
        pieces=_weights(cell["pieces"], row),
        measures=_weights(cell["measures"], row),
        us=_allergens(cell["us"]),
        eu=_allergens(cell["eu"]),
        opened_days=int(cell["opened"]) if cell["opened"] else None,
        keeps=keeps.strip(),
        keeps_source=_source(keeps_code.strip(), row) if keeps_code else "",
        store=cell["store"],
        liquid=cell["form"] == "liquid",
    )


@cache
def _lines() -> Mapping[str, str]:
    """Name to line, files and foods in order; a line is taken apart when its food is asked for."""
    found: dict[str, str] = {}
    for path in sorted(_FOLDER.glob("*.tsv")):
        header = True
        for line in path.read_text(encoding="utf-8").splitlines():
            if not line or line.startswith("#"):
                continue
            if header:
                header = False
                continue
            found[line.split("\t", 1)[0]] = line
    return MappingProxyType(found)


@cache
def _names() -> Mapping[str, str]:
    """Every spelling to the food's name: as it stands, then with its last word in the singular."""
    spellings = [
        (plain(spelling), name)
        for name, line in _lines().items()
        for spelling in (name, *line.split("\t", 2)[1].split(";"))
        if spelling
    ]
    found = dict(reversed(spellings))
    for spelling, name in spellings:
        found.setdefault(singular_phrase(spelling), name)
    return MappingProxyType(found)


def _named(phrase: str) -> str | None:
    names = _names()
    # As written first: `peppers` are vegetables, `pepper` is a spice.
    return names.get(plain(phrase)) or names.get(key(phrase))


@cache
def food(name: str) -> Everyday:
    """The food printed by exactly this name; KeyError for another."""
    return _read(_lines()[name])


def lookup(phrase: str, preparation: str = "") -> Everyday | None:
    """The food that `phrase` names, or None.

    A `preparation` that begins with a state (`chickpeas` + `dried, soaked`) names that food where there is one;
    `fresh` before the name of something from the produce aisle says nothing new.
    """
    for part in plain(preparation).split(","):
        state = next(iter(part.split()), "")
        if state in _STATES and (name := _named(f"{state} {phrase}")):
            return food(name)
    if name := _named(phrase):
        return food(name)
    first, _, rest = plain(phrase).partition(" ")
    fresh = _named(rest) if first in ("fresh", "raw", "ripe") else None
    return food(fresh) if fresh and food(fresh).aisle == "produce" else None


_AS_LIKE = 0.15  # further from the phrase than the best by more than this is no second guess


def nearest(phrase: str, count: int = 3) -> tuple[str, ...]:
    """Names of foods that share words with `phrase`, slips of spelling allowed, best first; () when none does."""
    names, wanted = _names(), key(phrase)
    close = get_close_matches(wanted, names, n=count * 10, cutoff=0.6)
    parts, letters = {word for word in wanted.split() if len(word) > 2}, sorted(wanted)
    holding = (
        spelling
        for spelling in names
        if not parts.isdisjoint(spelling.split()) or (len(spelling) == len(letters) and sorted(spelling) == letters)
    )
    common = {spelling: words_in_common(wanted, spelling) for spelling in dict.fromkeys((*close, *holding))}
    most = max(common.values(), default=0) or 1
    like = {spelling: _alike(wanted, spelling) for spelling, shared in common.items() if shared == most}
    best = max(like.values(), default=0.0)
    found = [spelling for spelling in like if len(parts) > 1 or like[spelling] >= best - _AS_LIKE]
    ranked = sorted(found, key=lambda spelling: (len(spelling.split()), -like[spelling]))
    return tuple(dict.fromkeys(names[spelling] for spelling in ranked))[:count]


def _alike(one: str, other: str) -> float:
    """The share of letters in common; the same letters in another order are as good as the same."""
    if sorted(one) == sorted(other):
        return 1.0
    return SequenceMatcher(None, one, other, autojunk=False).ratio()


def all_foods() -> Iterator[Everyday]:
    """Every food, file by file."""
    return map(food, _lines())


def grams_per(item: Everyday, unit: str, form: tuple[str, ...] = ()) -> GramsOf | None:
    """Grams (edible part) of one `unit` of a food cut as `form` says, or None when nothing is known.

    The weights of the food's own line come before those of its SR28 row; between them the better form wins.
    """
    if volume_unit(unit) is None:
        return _piece(item, unit, form)
    own = tuple(HouseholdWeight(1, name, entry.grams, entry.source) for name, entry in item.measures.items())
    row = composition.row(item.row) if item.row else None
    return grams_of((*own, *(row.weights if row else ())), name=item.name, unit=unit, form=form)


def _piece(item: Everyday, unit: str, form: tuple[str, ...]) -> GramsOf | None:
    word = singular(unit.casefold().strip())
    words = (word, *_ALSO_CALLED.get(word, ()))
    sizes = [size.casefold() for size in form]
    row = composition.row(item.row) if item.row else None
    for name in [f"{size} {name}" for name in words for size in sizes] + (sizes if word in _WHOLE else []):
        if entry := item.pieces.get(name):
            return _own(entry, name)
    if row and word != "each" and (sized := _sized(row, words, frozenset(sizes))):
        return sized
    for name in words:
        if entry := item.pieces.get(name):
            return _own(entry, name)
    found = (composition.grams_per(row, name, form) for name in words) if row else ()
    return next(filter(None, found), None)


def _own(entry: Published, name: str) -> GramsOf:
    return GramsOf(entry.grams, f"{entry.source}, 1 {name} = {entry.grams:g} g", name == "each")


def _sized(row: composition.Row, words: tuple[str, ...], sizes: frozenset[str]) -> GramsOf | None:
    """A small head, a large ear: only where the row has that very size of that very piece."""
    for size in sorted(sizes & _SIZES):
        for weight in row.weights:
            said = frozenset(map(singular, re.findall("[a-z]+", weight.measure.casefold())))
            if size in said and said & frozenset(words) and not said & {"cup", "nlea"}:
                basis = f"{weight.source}, {weight.amount:g} {weight.measure} = {weight.grams:g} g"
                return GramsOf(weight.grams / weight.amount, basis, False)
    return None
