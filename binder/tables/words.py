"""Words of foods and measures brought to one spelling, so that `Tomatoes` finds `tomato`."""

from __future__ import annotations

import unicodedata
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
