"""Words of foods and measures brought to one spelling, so that `Tomatoes` finds `tomato`."""

from __future__ import annotations

import unicodedata
from difflib import SequenceMatcher
from functools import lru_cache

# Plurals that the rules below would cut wrongly.
_IRREGULAR = {
    "leaves": "leaf", "loaves": "loaf", "halves": "half", "calves": "calf", "cookies": "cookie",
    "brownies": "brownie", "smoothies": "smoothie", "chilies": "chili", "chillies": "chilli", "pies": "pie",
    "quiches": "quiche", "brioches": "brioche", "ceviches": "ceviche", "shoes": "shoe",
    "geese": "goose", "veggies": "veggie",
}  # fmt: skip
# Words that end in s and are not plurals.
_KEPT = ("ss", "us", "is")


@lru_cache(maxsize=8192)
def singular(word: str) -> str:
    """A lower-case word without its plural: `cloves` is `clove`, `tomatoes` is `tomato`, `hummus` stays."""
    if word in _IRREGULAR:
        return _IRREGULAR[word]
    if len(word) < 4 or not word.endswith("s") or word.endswith(_KEPT):
        return word
    if word.endswith("ies"):
        return word[:-3] + "y"
    if word.endswith(("ches", "shes", "xes", "oes", "sses", "zzes")):
        return word[:-2]
    return word[:-1]


_TYPOGRAPHIC = str.maketrans({"’": "'", "‐": "-", "‑": "-", "ø": "o", "œ": "oe"})


def _ascii(text: str) -> str:
    letters = unicodedata.normalize("NFKD", text).translate(_TYPOGRAPHIC)
    return "".join(c for c in letters if not unicodedata.combining(c))


def plain(phrase: str) -> str:
    """Lower case, accents and apostrophes dropped, a hyphen read as a space, single spaces."""
    text = phrase.casefold()
    if not text.isascii():
        text = _ascii(text)
    return " ".join(text.replace("-", " ").replace("'", "").replace("`", "").split())


def singular_phrase(text: str) -> str:
    """A plain phrase with its last word in the singular."""
    head, space, last = text.rpartition(" ")
    return f"{head}{space}{singular(last)}"


def key(phrase: str) -> str:
    """What two spellings of one food share: `plain`, with the last word in the singular."""
    return singular_phrase(plain(phrase))


# Words that foods of every sort have: sharing one makes nobody think of the other.
_OF_ANY_FOOD = frozenset({
    "red", "green", "white", "black", "brown", "yellow", "golden", "fresh", "dried", "dry", "canned", "tinned",
    "frozen", "cooked", "ground", "raw", "whole", "large", "small", "medium", "baby", "chopped", "sliced", "sweet",
    "hot", "salted", "unsalted", "smoked", "light", "dark", "plain", "mixed", "roasted", "toasted", "and", "with", "of",
    "in", "the", "or", "low", "fat", "free", "sodium", "reduced",
})  # fmt: skip
_ALIKE = 0.7  # the share of letters that two words have in common
_ALIKE_AT_ANOTHER_START = 0.85


@lru_cache(maxsize=8192)
def words_alike(one: str, other: str) -> bool:
    """Whether one word may be a slip for the other: nearly the same letters, and as a rule the same first one."""
    if one == other:
        return True
    same_start = one[:1] == other[:1]
    least = _ALIKE if same_start else _ALIKE_AT_ANOTHER_START
    if 2 * min(len(one), len(other)) < least * (len(one) + len(other)):
        return False
    if same_start and sorted(one) == sorted(other):
        return True
    letters = SequenceMatcher(None, one, other, autojunk=False)
    return letters.quick_ratio() >= least and letters.ratio() >= least


def words_in_common(wanted: str, offered: str) -> int:
    """How many words of a plain phrase stand in another, slips allowed; words of any food do not count."""
    offers = set(offered.split())
    return sum(any(words_alike(word, offer) for offer in offers) for word in wanted.split() if word not in _OF_ANY_FOOD)
