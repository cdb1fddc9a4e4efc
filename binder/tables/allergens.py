"""The allergens of the US and the EU lists: their words, their kinds, and what avoiding one takes in.

US: nine (FALCPA 2004, FASTER Act 2021; kinds of tree nuts by FDA Q&A edition 5, January 2025, which no
longer counts coconut and ten others). EU and UK: fourteen (Annex II of Regulation (EU) 1169/2011). A word
with a kind is written `tree nuts (almonds)`. Where a record leaves the kind open, or two kinds may be the
same, the answer is the careful one.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

AllergenList = Literal["us", "eu"]

US_SOURCE = "FALCPA 2004 and FASTER Act 2021"
US_KINDS_SOURCE = "FDA, Q&A on food allergens, edition 5, January 2025 (kinds from memory)"
EU_SOURCE = "Regulation (EU) 1169/2011, Annex II"


@dataclass(frozen=True, slots=True)
class Allergen:
    """One word of a list; `kinds` closes what may stand in its parentheses, unless `any_kind`."""

    word: str
    mark: str
    source: str
    kinds: tuple[str, ...] = ()
    any_kind: bool = False


_EU_NUTS = (
    "almonds", "hazelnuts", "walnuts", "cashews", "pecans", "brazil nuts", "pistachios", "macadamia nuts",
)  # fmt: skip
_US_NUTS = (*_EU_NUTS, "pine nuts", "black walnuts", "heartnuts")
_CEREALS = ("wheat", "spelt", "khorasan", "rye", "barley", "oats")
# Kinds of fish and crustaceans are species without end; these are the ones that may be written alone.
_FISH = (
    "anchovies", "bass", "catfish", "cod", "flounder", "haddock", "hake", "halibut", "herring", "mackerel",
    "monkfish", "perch", "plaice", "pollock", "salmon", "sardines", "sole", "tilapia", "trout", "tuna",
)  # fmt: skip
_CRUSTACEANS = ("crab", "crayfish", "langoustines", "lobster", "prawns", "shrimp")

US: tuple[Allergen, ...] = (
    Allergen("milk", "Mi", US_SOURCE),
    Allergen("eggs", "Eg", US_SOURCE),
    Allergen("fish", "Fi", US_SOURCE, _FISH, any_kind=True),
    Allergen("crustacean shellfish", "Cr", US_SOURCE, _CRUSTACEANS, any_kind=True),
    Allergen("tree nuts", "Nu", f"{US_SOURCE}; {US_KINDS_SOURCE}", _US_NUTS),
    Allergen("peanuts", "Pe", US_SOURCE),
    Allergen("wheat", "Wh", US_SOURCE),
    Allergen("soybeans", "So", US_SOURCE),
    Allergen("sesame", "Se", US_SOURCE),
)

EU: tuple[Allergen, ...] = (
    Allergen("cereals containing gluten", "Gl", EU_SOURCE, _CEREALS),
    Allergen("crustaceans", "Cr", EU_SOURCE, _CRUSTACEANS, any_kind=True),
    Allergen("eggs", "Eg", EU_SOURCE),
    Allergen("fish", "Fi", EU_SOURCE, _FISH, any_kind=True),
    Allergen("peanuts", "Pe", EU_SOURCE),
    Allergen("soybeans", "So", EU_SOURCE),
    Allergen("milk", "Mi", EU_SOURCE),
    Allergen("nuts", "Nu", EU_SOURCE, _EU_NUTS),
    Allergen("celery", "Ce", EU_SOURCE),
    Allergen("mustard", "Mu", EU_SOURCE),
    Allergen("sesame", "Se", EU_SOURCE),
    Allergen("sulphur dioxide and sulphites", "Su", f"{EU_SOURCE}: more than 10 mg/kg"),
    Allergen("lupin", "Lu", EU_SOURCE),
    Allergen("molluscs", "Mo", EU_SOURCE),
)

LISTS: Mapping[AllergenList, tuple[Allergen, ...]] = MappingProxyType({"us": US, "eu": EU})

_BY_WORD: Mapping[AllergenList, Mapping[str, Allergen]] = MappingProxyType(
    {name: MappingProxyType({a.word: a for a in rows}) for name, rows in LISTS.items()}
)

# The same allergen under its other list's word, and other spellings that mean one word and no other.
_TREE_NUTS = {"us": "tree nuts", "eu": "nuts"}
_CRUSTACEAN = {"us": "crustacean shellfish", "eu": "crustaceans"}
_OTHER_WORDS: Mapping[str, str | Mapping[str, str]] = MappingProxyType(
    {
        "dairy": "milk",
        "lactose": "milk",
        "egg": "eggs",
        "peanut": "peanuts",
        "groundnuts": "peanuts",
        "soy": "soybeans",
        "soya": "soybeans",
        "soybean": "soybeans",
        "soya beans": "soybeans",
        "sesame seeds": "sesame",
        "sesame seed": "sesame",
        "tree nut": _TREE_NUTS,
        "tree nuts": _TREE_NUTS,
        "nuts": _TREE_NUTS,
        "crustacean": _CRUSTACEAN,
        "crustaceans": _CRUSTACEAN,
        "crustacean shellfish": _CRUSTACEAN,
        "gluten": {"eu": "cereals containing gluten"},
        "celeriac": {"eu": "celery"},
        "sulphites": {"eu": "sulphur dioxide and sulphites"},
        "sulfites": {"eu": "sulphur dioxide and sulphites"},
        "sulphur dioxide": {"eu": "sulphur dioxide and sulphites"},
        "lupine": {"eu": "lupin"},
        "mollusks": {"eu": "molluscs"},
        "mollusc": {"eu": "molluscs"},
    }
)

_KIND_SPELLINGS: Mapping[str, str] = MappingProxyType(
    {
        "almond": "almonds", "hazelnut": "hazelnuts", "filbert": "hazelnuts", "filberts": "hazelnuts",
        "walnut": "walnuts", "black walnut": "black walnuts", "heartnut": "heartnuts", "cashew": "cashews",
        "cashew nuts": "cashews", "pecan": "pecans", "pecan nuts": "pecans", "brazil nut": "brazil nuts",
        "pistachio": "pistachios", "pistachio nuts": "pistachios", "macadamia": "macadamia nuts",
        "macadamias": "macadamia nuts", "macadamia nut": "macadamia nuts", "pine nut": "pine nuts",
        "khorasan wheat": "khorasan", "oat": "oats", "anchovy": "anchovies", "sardine": "sardines",
        "prawn": "prawns", "shrimps": "shrimp", "crabs": "crab", "lobsters": "lobster",
    }
)  # fmt: skip

# For comparing only: words for one animal or grain. US wheat takes in spelt and khorasan; prawns and shrimp
# are the same trade goods under two names.
_SAME_KIND: Mapping[str, str] = MappingProxyType(
    {"spelt": "wheat", "khorasan": "wheat", "prawns": "shrimp", "heartnuts": "walnuts"}
)

_WITH_KIND = re.compile(r"(?P<word>[^()]+?)\s*\((?P<kind>[^()]+)\)")


def words(of: AllergenList) -> tuple[str, ...]:
    """The list's words, in its order."""
    return tuple(_BY_WORD[of])


def allergen(text: str, of: AllergenList) -> Allergen | None:
    """The row of a word, with or without its kind; None when the list has no such word."""
    return _BY_WORD[of].get(split(text)[0])


def mark(text: str, of: AllergenList) -> str | None:
    """The two letters that may stand beside the word, never instead of it."""
    row = allergen(text, of)
    return row.mark if row else None


def split(text: str) -> tuple[str, str | None]:
    """`tree nuts (almonds)` as ("tree nuts", "almonds"), lower case; the kind is None where none stands."""
    tidy = " ".join(text.lower().split())
    found = _WITH_KIND.fullmatch(tidy)
    return (found["word"], found["kind"].strip()) if found else (tidy, None)


def word_of(text: str, of: AllergenList = "us") -> str | None:
    """What someone wrote as the list's word, with the kind it names; None when the list has no such word.

    `nuts` is `tree nuts` in the US list; `almonds` alone is `tree nuts (almonds)`; `wheat` in the EU list is
    `cereals containing gluten (wheat)`; `milk (goat)` is `milk`, as milk of every animal counts. `shellfish`
    is no word of either list: crustaceans, molluscs, or both.
    """
    word, kind = split(text)
    if kind is None or word == "wheat":
        return _bare_word(word, of) or _word_of_kind(word, of)
    found = _bare_word(word, of)
    if found is None:
        return _word_of_kind(kind, of) if word == "cereals containing gluten" else None
    row = _BY_WORD[of][found]
    if not row.kinds:
        return found
    kind = _KIND_SPELLINGS.get(kind, kind)
    return f"{found} ({kind})" if row.any_kind or kind in row.kinds else None


def _bare_word(word: str, of: AllergenList) -> str | None:
    other = _OTHER_WORDS.get(word, word)
    found = other if isinstance(other, str) else other.get(of)
    return found if found in _BY_WORD[of] else None


def _word_of_kind(word: str, of: AllergenList) -> str | None:
    """The word of the list that a kind alone belongs to: spelt is wheat in the US list."""
    kind = _KIND_SPELLINGS.get(word, word)
    if of == "us" and _SAME_KIND.get(kind, kind) == "wheat":
        return "wheat"
    return next((f"{a.word} ({kind})" for a in LISTS[of] if kind in a.kinds), None)


def avoided_words(text: str) -> tuple[str, ...]:
    """The words, of either list, that an avoided or banned word stands for; empty when it is no allergen.

    A plain `shellfish` is taken for both crustaceans and molluscs.
    """
    if split(text)[0] == "shellfish":
        return ("crustacean shellfish", "molluscs")
    found = word_of(text, "us") or word_of(text, "eu")
    return (found,) if found else ()


def to_eu(word: str) -> str | None:
    """The EU word that a US word implies, kind kept; None when the EU list has none (pine nuts)."""
    return word_of(word, "eu") if word_of(word, "us") else None


def to_us(word: str) -> str | None:
    """The US word that an EU word implies, kind kept; None when none does (rye, celery, any cereal)."""
    return word_of(word, "us") if word_of(word, "eu") else None


_FAMILIES: Mapping[str, str] = MappingProxyType(
    {"tree nuts": "nuts", "crustacean shellfish": "crustaceans", "wheat": "cereals containing gluten"}
)


def _family(text: str) -> tuple[str, str | None]:
    """The allergen apart from its list, and the kind; wheat is the cereal of that kind."""
    word, kind = split(word_of(text, "us") or word_of(text, "eu") or text)
    return _FAMILIES.get(word, word), "wheat" if word == "wheat" else kind


def _single(word: str) -> str:
    if word.endswith("ies"):
        return f"{word[:-3]}y"
    return word.removesuffix("s")


def _same_kind(one: str, other: str) -> bool:
    """Whether two kinds may be the same: `trout` and `rainbow trout`, `walnuts` and `black walnuts`."""
    first, second = ({_single(part) for part in _SAME_KIND.get(kind, kind).split()} for kind in (one, other))
    return first <= second or second <= first


def covers(avoided: str, contained: str) -> bool:
    """Whether avoiding (or banning) one word takes in what a record says is contained; words of either list.

    `tree nuts` and `nuts` take in every kind; `tree nuts (walnuts)` only walnuts and nuts of no stated kind.
    `fish` does not take in shellfish. For a plain `shellfish` ask with each of `avoided_words`.
    """
    (word, kind), (in_word, in_kind) = _family(avoided), _family(contained)
    if word != in_word:
        return False
    return kind is None or in_kind is None or _same_kind(kind, in_kind)
