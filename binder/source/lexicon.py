"""How units are spelled, and the one name each goes by from here on.

US and UK spellings of the same thing share a name (tin and can, packet and package, rib and stalk). What a unit holds
or weighs is not known here.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from types import MappingProxyType

from binder.source.words import words

# Canonical name: spellings besides it. Case matters only in CASED, below.
_SPELLINGS = {
    "g": "gram grams gramme grammes gm gms gr",
    "kg": "kgs kilo kilos kilogram kilograms kilogramme kilogrammes",
    "mg": "milligram milligrams milligramme milligrammes",
    "mL": "mls milliliter milliliters millilitre millilitres cc",
    "cl": "centiliter centiliters centilitre centilitres",
    "dl": "deciliter deciliters decilitre decilitres",
    "L": "liter liters litre litres ltr ltrs",
    "tsp": "tsps teaspoon teaspoons teaspoonful teaspoonfuls",
    "tbsp": "tbsps tbs tb tbl tbls tblsp tablespoon tablespoons tablespoonful tablespoonfuls",
    "cup": "cups cupful cupfuls",
    "fl-oz": "floz",
    "pint": "pints pt pts",
    "quart": "quarts qt qts",
    "gallon": "gallons gal gals",
    "oz": "ozs ounce ounces",
    "lb": "lbs pound pounds #",
    "stick": "sticks",
    "pinch": "pinches",
    "dash": "dashes",
    "smidgen": "smidgens smidge smidgeon",
    "drop": "drops",
    "each": "ea",
    "clove": "cloves",
    "bunch": "bunches bundle bundles",
    "head": "heads bulb bulbs",
    "stalk": "stalks rib ribs",
    "sprig": "sprigs branch branches",
    "leaf": "leaves",
    "slice": "slices",
    "can": "cans tin tins",
    "jar": "jars",
    "pack": "packs packet packets package packages pkg pkgs pkt pkts sachet sachets pouch pouches envelope envelopes "
    "box boxes bag bags carton cartons container containers tub tubs pot pots punnet punnets block blocks tube tubes",
    "bottle": "bottles",
    "handful": "handfuls handsful",
    "knob": "knobs thumb thumbs",
    "ear": "ears cob cobs",
    "rasher": "rashers",
    "fillet": "fillets filet filets",
    "piece": "pieces pc pcs chunk chunks cube cubes ball balls sheet sheets floret florets log logs square squares "
    "scoop scoops nest nests pat pats shot shots",
    "loaf": "loaves",
    "inch": "inches",
    "strip": "strips",
    "wedge": "wedges",
    "portion": "portions serving servings",
}
UNITS: tuple[str, ...] = tuple(_SPELLINGS)

CASED: Mapping[str, str] = MappingProxyType(
    {
        "T": "tbsp",
        "Tb": "tbsp",
        "t": "tsp",
        "C": "cup",
        "c": "cup",
        "L": "L",
        "l": "L",
        "G": "g",
        "ML": "mL",
        "mL": "mL",
    }
)
SPELLED: Mapping[str, str] = MappingProxyType(
    {word.lower(): unit for unit, words in _SPELLINGS.items() for word in (unit, *words.split())}
)

# Measures of another length or size than a canonical unit has: what one of them is.
MULTIPLES: Mapping[str, tuple[str, Fraction]] = MappingProxyType(
    {"cm": ("inch", Fraction(50, 127)), "mm": ("inch", Fraction(5, 127))}
)

MASS = frozenset(("g", "kg", "mg", "oz", "lb"))
VOLUME = words("""
    mL cl dl L tsp tbsp cup fl-oz pint quart gallon pinch dash smidgen drop
""")
MEASURED = MASS | VOLUME
HOLDERS = frozenset(("can", "jar", "pack", "bottle"))

# Larger unit to the next smaller: for ranges across two units (`1 tsp to 1 tbsp`), exact by definition.
SMALLER: Mapping[tuple[str, str], int] = MappingProxyType(
    {
        ("tbsp", "tsp"): 3,
        ("cup", "tbsp"): 16,
        ("cup", "tsp"): 48,
        ("lb", "oz"): 16,
        ("kg", "g"): 1000,
        ("L", "mL"): 1000,
        ("dl", "mL"): 100,
        ("quart", "cup"): 4,
        ("pint", "cup"): 2,
    }
)

SIZES: Mapping[str, str] = MappingProxyType(
    {
        "small": "small", "sm": "small", "sml": "small", "small-sized": "small", "small-size": "small",
        "medium": "medium", "med": "medium", "medium-sized": "medium", "medium-size": "medium",
        "mid-sized": "medium", "large": "large", "lg": "large", "lge": "large", "big": "large",
        "large-sized": "large", "large-size": "large", "extra-large": "extra large", "xl": "extra large",
        "fat": "large", "plump": "large",
    }
)  # fmt: skip

# Said of a measure, before its unit or just after it.
HEAPS: Mapping[str, str] = MappingProxyType(
    {
        "heaped": "heaped", "heaping": "heaped", "rounded": "heaped", "level": "level", "packed": "packed",
        "firmly packed": "packed", "tightly packed": "packed", "well packed": "packed",
        # Filled without pressing: the plain cup.
        "lightly packed": "level", "loosely packed": "level",
        "scant": "approximately", "generous": "approximately", "good": "approximately",
        "thick": "approximately", "thin": "approximately", "long": "approximately", "leafy": "approximately",
        "nice": "approximately",
    }
)  # fmt: skip

# Measures that may stand without a number: `pinch of salt`.
ALONE = frozenset(("bunch", "pinch", "dash", "smidgen", "handful", "knob"))

# Units that may follow their food when things are counted: `2 garlic cloves`.
AFTER_FOOD = words("""
    clove stalk sprig leaf slice rasher fillet head wedge strip stick
""")
# Foods whose name ends in such a word, by what stands before it.
WHOLE_NAMES: Mapping[str, frozenset[str]] = MappingProxyType(
    {
        "clove": frozenset(("whole", "ground", "dried")),
        "leaf": frozenset(("bay", "lime", "curry", "vine", "grape", "makrut", "tea", "banana")),
        "stalk": frozenset(),
        "stick": frozenset(("cinnamon", "bread", "fish", "crab", "mozzarella", "carrot", "cheese", "pretzel")),
        "head": frozenset(("fish", "sheep", "pig", "fiddle")),
        "strip": frozenset(("chicken", "wonton", "tortilla", "beef")),
        "wedge": frozenset(("potato",)),
    }
)
# Spellings of units that begin a food's name before these words: pot roast, fillet steak.
BEGINS_FOOD: Mapping[str, frozenset[str]] = MappingProxyType(
    {
        "pot": frozenset(("barley", "roast", "roasts", "sticker", "stickers", "pie", "pies", "marjoram")),
        "fillet": frozenset(("steak", "steaks")),
        "filet": frozenset(("steak", "steaks", "mignon", "mignons")),
    }
)
# Food words that are also spellings of units: they are the food when no other food follows.
FOOD_TOO = words("""
    clove leaf ear fillet head slice rasher stalk stick wedge strip piece loaf
""")


def unit_named(word: str) -> str | None:
    """The canonical unit a word spells (a closing dot may be there), None when it spells none."""
    bare = word[:-1] if word.endswith(".") else word
    return CASED.get(bare) or SPELLED.get(bare.lower())
