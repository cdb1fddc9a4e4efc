"""Which words of a step count what grows with the batch, in English."""

from __future__ import annotations

import re

_NUMBER = (
    r"(?<![\w.,/-])(?:\d+(?:[./]\d+)?|[½⅓⅔¼¾⅛]|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|"
    r"fifteen|sixteen|eighteen|twenty(?:-four)?|thirty|(?:a|two|three) dozen)[½⅓⅔¼¾⅛]?"
)
_PIECES = (
    "balls?", "bars?", "bites?", "bowls?", "boxes", "buns?", "burgers?", "cakes?", "cookies", "crackers?", "cutlets?",
    "discs?", "dumplings?", "fillets?", "flatbreads?", "fritters?", "jars?", "koftas?", "loaves", "meatballs?",
    "muffins?", "pancakes?", "parcels?", "patties", "pieces?", "portions?", "pots?", "rectangles?", "rolls?", "rounds?",
    "sausages?", "skewers?", "slices?", "squares?", "sticks?", "tarts?", "tortillas?", "triangles?", "tubs?",
    "waffles?", "wraps?", "eggs?", "cloves?", "cans?", "cups?", "tbsp", "tsp", "tablespoons?", "teaspoons?",
)  # fmt: skip
# At most two words between: `24 small balls`; a hyphen, as in `2-cup jars`, says a size and no count.
_COUNTED = re.compile(rf"{_NUMBER}\s(?:[a-z]+\s){{0,2}}?(?:{'|'.join(_PIECES)})\b", re.IGNORECASE)
# What is said of one piece or box stays as it is; so does the count of a part of it.
_OF_EACH = re.compile(r"\b(?:each|every|per|apiece|a portion)\b", re.IGNORECASE)
_SENTENCES = re.compile(r"[.;:]\s")


def counts_in(text: str) -> bool:
    """Whether a step counts what grows with the batch: `roll 24 balls`, `add 2 cups of broth`.

    Minutes, degrees and inches do not grow, nor what is said of each piece or box.
    """
    return any(_COUNTED.search(part) and not _OF_EACH.search(part) for part in _SENTENCES.split(text))
