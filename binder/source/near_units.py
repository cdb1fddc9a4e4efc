"""Words that look like a unit written wrong: `2 cupz flour`."""

from __future__ import annotations

import difflib
from functools import lru_cache

from binder.source.lexicon import SPELLED, unit_named
from binder.source.words import words

# Kitchen words as near to a unit as a typing mistake is: every word of the food table was compared with the units.
_NOT_MISTAKES = words("""
    bagel bagels beach bean beans bell bells black boned bone bones bottled boxed bran brittle bulk cajun cane
    canes capon capons candy cardoon cardoons carob carobs chain chains chuck chump chumps chunky clam clams
    clubs cob comb combs cos cove cran crouton croutons cubed cured danish dish dishes filbert filberts filled
    forest gala galas game german germ gooey graham grain grains grape grapes grass gray green grams gum gums
    hand hands hard hardy heart hearts heated herb herbs leafy leaven lettuce lite liver livers loaf loaves long
    lotus lunch olive olives onion onions packaged packed pak pancake pancakes pat pats pear pears peas peach
    peck pecks peppers pie pies pine pinot pink pinto pintos pit pita pitas pitted pitted plum plums pocket
    pockets pod pods point points pond pork pot pots prawn prawns punch quarter quarters radish radishes roaster
    roasters round rounds sheep sherbet sherbets side sliced spice spices spicy spring stack stacks steak steaks
    stew stock stocks string striped sweet sweets table tart tarts thin thins thick tuna tuber tubers turnip
    turnips whole wing wings
""")
_LONG_ENOUGH = tuple(word for word in SPELLED if len(word) >= 3)


@lru_cache(maxsize=4096)
def near_unit(word: str) -> str | None:
    """The spelling of a unit that a word was probably meant to be; None for a unit, a food word, or nothing near."""
    bare = word.rstrip(".").lower()
    if len(bare) < 3 or bare in _NOT_MISTAKES or unit_named(word):
        return None
    near = difflib.get_close_matches(bare, _LONG_ENOUGH, 3, 0.8)
    return next((unit for unit in near if unit[0] == bare[0]), None)
