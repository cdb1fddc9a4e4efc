"""Food composition: USDA National Nutrient Database for Standard Reference, Release 28 (2015).

Public domain. All 8,789 foods: eleven nutrients and water per 100 g edible part, refuse, household weights.
A value that was not published is None; it is never 0.
"""

from __future__ import annotations

import gzip
import re
from bisect import bisect_left
from collections.abc import Iterator
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache
from pathlib import Path

from binder.tables.household_weights import GramsOf, HouseholdWeight, grams_of
from binder.tables.words import key, singular

__all__ = [
    "EDITION", "NUTRIENTS", "GramsOf", "HouseholdWeight", "Row",
    "all_rows", "grams_per", "named", "nearest", "row",
]  # fmt: skip

EDITION = "USDA National Nutrient Database for Standard Reference, Release 28"
NUTRIENTS = (
    "energy_kcal", "protein_g", "fat_g", "saturated_fat_g", "carbohydrate_g", "fibre_g", "sugars_g",
    "sodium_mg", "potassium_mg", "calcium_mg", "iron_mg",
)  # fmt: skip
_FILE = Path(__file__).parent / "data" / "sr28.tsv.gz"
_WORD = re.compile(r"[a-z0-9%]+")


@dataclass(frozen=True, slots=True)
class Row:
    """One food as published; `per_100_g` in the order of NUTRIENTS, edible part.

    `refuse_percent` of what is bought is thrown away (`refuse_of` says what); None for the 50 foods where the
    release leaves it blank.
    """

    ndb: str
    name: str
    group: str
    per_100_g: tuple[float | None, ...]
    water_g: float | None
    refuse_percent: float | None
    refuse_of: str
    weights: tuple[HouseholdWeight, ...]

    @property
    def source(self) -> str:
        """`SR28 11282`."""
        return f"SR28 {self.ndb}"


@cache
def _lines() -> list[str]:
    """The lines, by the NDB number that each starts with; one is taken apart when its row is asked for."""
    lines = gzip.decompress(_FILE.read_bytes()).decode("utf-8").rstrip("\n").split("\n")
    return lines[next(i for i, line in enumerate(lines) if not line.startswith("#")) :]


def _number(text: str) -> float | None:
    return float(text) if text else None


def _weights(text: str, source: str) -> tuple[HouseholdWeight, ...]:
    published = (entry.split("^") for entry in text.split("|") if entry)
    return tuple(HouseholdWeight(float(n), measure, float(grams), source) for n, measure, grams in published)


@cache
def row(ndb: str) -> Row | None:
    """The food of an NDB number (five digits), or None."""
    lines = _lines()
    place = bisect_left(lines, ndb)
    if len(ndb) != 5 or place == len(lines) or lines[place][:5] != ndb:
        return None
    fields = lines[place].split("\t")
    number, name, group, refuse, refuse_of = fields[:5]
    *nutrients, water = map(_number, fields[5:17])
    weights = _weights(fields[17], f"SR28 {number}")
    return Row(number, name, group, tuple(nutrients), water, _number(refuse), refuse_of, weights)


@cache
def _by_name() -> dict[str, str]:
    return {name.casefold(): ndb for ndb, name, _ in (line.split("\t", 2) for line in _lines())}


@cache
def _kinds() -> frozenset[str]:
    return frozenset(key(name.split(",")[0]) for name in _by_name())


def is_kind(word: str) -> bool:
    """Whether descriptions begin with this word, as they name the kind first: `Cheese, cheddar`, `Pork, fresh`."""
    return key(word) in _kinds()


def named(name: str) -> Row | None:
    """The food whose published description this is, letter case aside, or None."""
    ndb = _by_name().get(" ".join(name.casefold().split()))
    return row(ndb) if ndb else None


def all_rows() -> Iterator[Row]:
    """Every food, by NDB number."""
    for line in _lines():
        if found := row(line[:5]):
            yield found


def grams_per(food: Row, unit: str, form: tuple[str, ...] = ()) -> GramsOf | None:
    """Grams (edible part) of one `unit` of a food cut as `form` says, or None when nothing published fits.

    `unit` is a volume (`cup`, `tbsp`, `tsp`, `fl oz`) or a piece word (`medium`, `clove`, `slice`, `each`).
    """
    return grams_of(food.weights, name=food.name, unit=unit, form=form)


def _words(text: str) -> list[str]:
    return [singular(word) for word in _WORD.findall(text.casefold())]


@cache
def _postings() -> dict[str, tuple[str, ...]]:
    """Word of a description to the NDB numbers that have it."""
    found: dict[str, list[str]] = {}
    for name, ndb in _by_name().items():
        for word in dict.fromkeys(_words(name)):
            found.setdefault(word, []).append(ndb)
    return {word: tuple(numbers) for word, numbers in found.items()}


def _read_as(word: str) -> str | None:
    """The word itself, or the nearest one that descriptions use: typing mistakes happen."""
    postings = _postings()
    if word in postings:
        return word
    starts = [known for known in postings if known.startswith(word)] if len(word) > 3 else []
    close = get_close_matches(word, postings, n=1, cutoff=0.7)
    return next(iter([*close, *sorted(starts, key=len)]), None)


def _search_rank(food: Row, words: frozenset[str]) -> tuple[float, ...]:
    own = _words(food.name)
    leading = sum(1 for word in own[: len(words)] if word in words)
    plain = "raw" in own or "dried" in own or "fresh" in own
    return (-len(words & set(own)), own[0] not in words, not plain, -leading, len(own), int(food.ndb))


def nearest(words: str, count: int) -> tuple[Row, ...]:
    """Foods whose descriptions share most words with `words`, best first; misspelt ones count as near."""
    wanted = frozenset(filter(None, map(_read_as, _words(words))))
    numbers = {ndb for word in wanted for ndb in _postings()[word]}
    if not numbers:
        return ()
    hits = {ndb: sum(ndb in _posting_set(word) for word in wanted) for ndb in numbers}
    most = max(hits.values())
    foods = [food for ndb in numbers if hits[ndb] >= most - 1 and (food := row(ndb)) is not None]
    return tuple(sorted(foods, key=lambda food: _search_rank(food, wanted))[:count])


@cache
def _posting_set(word: str) -> frozenset[str]:
    return frozenset(_postings()[word])
