"""The food phrase of a line: where it ends, what it is an alternative to, what was done to it before."""

from __future__ import annotations

import re
from dataclasses import dataclass

from binder.source.lexicon import AFTER_FOOD, WHOLE_NAMES, unit_named
from binder.source.line_words import BEFORE
from binder.source.words import words

_OR = re.compile(r"\s+or\s+(?=\S)", re.IGNORECASE)

# Words that name no food without the word after the "or": `chicken or vegetable stock`.
_MODIFIERS = {
    "broth stock bouillon": "beef bone chicken fish ham lamb mushroom seafood turkey veg vegetable veggie",
    "oil": "avocado canola coconut corn grapeseed groundnut neutral olive peanut rapeseed safflower sesame sunflower "
    "vegetable walnut virgin extra extra-virgin",
    "vinegar": "apple balsamic cider malt red rice sherry white wine",
    "bean beans": "black borlotti butter cannellini kidney navy northern pinto great haricot",
    "milk": "2% almond coconut cow's low-fat oat rice semi-skimmed skim skimmed soy whole",
    "flour": "all-purpose bread cake plain rye self-raising spelt strong wheat wholemeal whole-wheat",
    "sugar": "brown cane caster demerara granulated light muscovado palm raw white",
    "wine": "dry red white sweet",
    "seeds": "chia flax hemp poppy pumpkin sesame sunflower",
    "noodles pasta rice": "basmati brown egg jasmine long-grain rice soba short-grain udon white wholewheat",
    "meat mince": "beef chicken lamb pork turkey",
    "yogurt yoghurt": "greek natural plain skyr vanilla",
    "cheese": "cheddar cottage cream goat goat's hard soft",
    "mustard": "dijon english wholegrain yellow",
    "squash": "acorn butternut kabocha",
    "cabbage": "green napa red savoy white",
    "leaves": "basil bay mint coriander parsley sage",
    "powder": "chili chilli curry garlic onion",
}
_MODIFIES = {head: frozenset(words.split()) for heads, words in _MODIFIERS.items() for head in heads.split()}
_PLAIN = words("""
    baby black boneless brown canned cold cooked dark dried dry fat-free fine firm flat-leaf fresh freshly
    frozen full-fat green ground hot large lean light low-fat low-sodium medium mild orange plain purple raw red
    ripe roasted salted skinless small smoked smooth soft sweet thick thin tinned unsalted warm white whole
    yellow
""")


@dataclass(frozen=True, slots=True)
class Phrase:
    """A food and, where it was offered, what may stand for it."""

    food: str
    alternative: str = ""


def with_alternative(phrase: str) -> Phrase:
    """Split at `or`: the first counts. What the first lacks is taken from the second: `red or green lentils`."""
    found = _OR.search(phrase)
    if not found or not phrase[: found.start()].strip():
        return Phrase(phrase)
    first, second = phrase[: found.start()].strip(), phrase[found.end() :].strip()
    if not second:
        return Phrase(phrase)
    return Phrase(_completed(first, second), second)


def _completed(first: str, second: str) -> str:
    """The first of two foods, with the head that only the second has; as it is when it can stand alone."""
    lacking = first.lower().split()
    offered = _OR.split(second)[-1].split()
    if len(offered) < 2:
        return first
    head = re.sub(r"\W+$", "", offered[-1].lower())
    allowed = _PLAIN | _MODIFIES.get(head, _MODIFIES.get(head.removesuffix("s"), frozenset()))
    if not all(word in allowed for word in lacking):
        return first
    skip = 1
    while skip < len(offered) - 1 and offered[skip].lower() in allowed and offered[skip - 1].lower() in allowed:
        skip += 1
    return " ".join((first, *offered[skip:]))


def unit_after(food: str) -> tuple[str, str] | None:
    """Food and unit where the unit stands behind: `garlic cloves`; None for `bay leaves`, a food's name."""
    rest, _, last = food.rpartition(" ")
    unit = unit_named(last) if last.isalpha() else None
    if not rest.strip() or unit not in AFTER_FOOD:
        return None
    before = rest.split()[-1].lower()
    if last.lower() in ("rib", "ribs") and before != "celery":
        return None
    if before in WHOLE_NAMES.get(unit, ()) or (unit == "stick" and before not in ("celery", "butter", "rhubarb")):
        return None
    return rest.rstrip(), "stalk" if unit == "stick" and before != "butter" else unit


def leading_preparation(food: str) -> str:
    """What was done to the food, where its phrase begins with that: `finely chopped` of `finely chopped parsley`."""
    found = BEFORE.match(food)
    return found[0] if found else ""
