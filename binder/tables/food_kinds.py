"""Kinds of food that people avoid by one word: meat, alcohol, citrus, nightshades, and which foods each takes in.

One fact a line in `data/food_kinds.tsv`, each with its source. A kind is a closed list: food groups of SR28, words of
a name, everyday foods whose usual recipe holds it. It errs on the side of keeping a food away, and what the maker
decides (a sauce, a stock cube) is for the eater's eyes on the pack.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from pathlib import Path
from types import MappingProxyType

from binder.tables import composition
from binder.tables.allergens import covers
from binder.tables.words import key, plain, singular

_FILE = Path(__file__).parent / "data" / "food_kinds.tsv"
_AS_IT_STANDS = "="
_ANOTHER_FOOD = "another food"
# Names that say themselves that there is no animal in them; kinds of animals do not take these in by a word.
_WITHOUT_ANIMALS = ("vegan", "vegetarian", "veggie", "meatless", "meat free", "meat-free", "plant based", "mock")
_ANIMALS = frozenset(
    {"meat", "red meat", "pork", "beef", "lamb", "poultry", "chicken", "game", "liver", "offal", "seafood"}
)


@dataclass(frozen=True, slots=True)
class FoodKind:
    """One kind; `sources` says for each of the other fields where it is from."""

    word: str
    also: tuple[str, ...]
    takes_in: tuple[str, ...]
    groups: frozenset[str]
    allergens: tuple[str, ...]
    words: tuple[str, ...]
    foods: frozenset[str]
    without: tuple[str, ...]
    sources: Mapping[str, str]


@cache
def kinds() -> Mapping[str, FoodKind]:
    """Every kind by its word, in the order of the table; the last holds what makes another food of any word."""
    said: dict[str, dict[str, tuple[tuple[str, ...], str]]] = {}
    lines = [line for line in _FILE.read_text(encoding="utf-8").splitlines() if line and not line.startswith("#")]
    for line in lines[1:]:
        kind, what, values, source = line.split("\t")
        said.setdefault(kind, {})[what] = tuple(part.strip() for part in values.split(";") if part.strip()), source
    return MappingProxyType({word: _kind(word, facts) for word, facts in said.items()})


def _kind(word: str, facts: Mapping[str, tuple[tuple[str, ...], str]]) -> FoodKind:
    def values(what: str) -> tuple[str, ...]:
        return facts[what][0] if what in facts else ()

    return FoodKind(
        word,
        values("also"),
        values("takes in"),
        frozenset(values("groups")),
        values("allergens"),
        values("words"),
        frozenset(map(plain, values("foods"))),
        values("except"),
        MappingProxyType({what: source for what, (_, source) in facts.items()}),
    )


@cache
def _by_spelling() -> Mapping[str, FoodKind]:
    named = (kind for kind in kinds().values() if kind.word != _ANOTHER_FOOD)
    return MappingProxyType({key(name): kind for kind in named for name in (kind.word, *kind.also)})


def kind_of(word: str) -> FoodKind | None:
    """The kind that a word stands for, in any of its spellings; None when it is none of the table."""
    return _by_spelling().get(key(word))


def takes_in(kind: FoodKind, names: Iterable[str], ndb: str | None, contained: Iterable[str] = ()) -> bool:
    """Whether a food is of the kind: by its names, its SR28 row, or the allergens that its record names."""
    names, contained = tuple(names), tuple(contained)
    row = composition.row(ndb) if ndb else None
    if row and row.group in kind.groups:
        return True
    if any(plain(name) in kind.foods for name in names):
        return True
    if any(covers(word, one) for word in kind.allergens for one in contained):
        return True
    if any(_names_it(kind.word, name) for name in (*names, *((row.name,) if row else ()))):
        return True
    return any(takes_in(kinds()[word], names, ndb, contained) for word in kind.takes_in)


@lru_cache(maxsize=8192)
def stands_in(word: str, name: str) -> bool:
    """Whether a word that is no kind stands in a food's name as itself: `tomato` in tomato paste, not in `tomatillo`.

    Closed phrases make another food of it: a cherry tomato holds no cherries.
    """
    text = _spaced(map(singular, _tokens(name)))
    for phrase in _phrases(_ANOTHER_FOOD)[2]:
        text = text.replace(phrase, " | ")
    return _spaced(map(singular, _tokens(word))) in text


def watched(word: str) -> tuple[str, ...]:
    """The allergens that belong to a kind, for which a missing record matters; () for all else."""
    kind = kind_of(word)
    return kind.allergens if kind else ()


def _tokens(text: str) -> list[str]:
    return plain("".join(c if c.isalnum() or c in "-'’" else " " for c in text)).split()


def _spaced(tokens: Iterable[str]) -> str:
    return f" {' '.join(tokens)} "


@cache
def _phrases(word: str) -> tuple[tuple[str, ...], tuple[str, ...], tuple[str, ...]]:
    """A kind's words in the singular, those that count only as they stand, and what makes another food of them."""
    kind = kinds()[word]
    single = tuple(_spaced(map(singular, _tokens(w))) for w in kind.words if not w.startswith(_AS_IT_STANDS))
    exact = tuple(_spaced(_tokens(w)) for w in kind.words if w.startswith(_AS_IT_STANDS))
    without = tuple(sorted((_spaced(map(singular, _tokens(w))) for w in kind.without), key=len, reverse=True))
    return single, exact, without


@lru_cache(maxsize=8192)
def _names_it(word: str, name: str) -> bool:
    tokens = _tokens(name)
    raw, text = _spaced(tokens), _spaced(map(singular, tokens))
    if word in _ANIMALS and any(_spaced(_tokens(w)) in raw for w in _WITHOUT_ANIMALS):
        return False
    single, exact, without = _phrases(word)
    for phrase in without:
        text = text.replace(phrase, " | ")
    return any(phrase in text for phrase in single) or any(phrase in raw for phrase in exact)
