"""Words of an ingredient line that are neither amount nor food."""

from __future__ import annotations

import re

from binder.source.words import words

PREPARED = words("""
    beaten blanched chilled chopped cored cracked crumbled crushed cubed deseeded deveined diced flaked grated
    ground halved hulled juiced julienned mashed melted minced peeled pitted pressed pureed quartered rinsed
    scrubbed seeded separated shaved shelled shredded sifted sliced slivered snipped softened squeezed stemmed
    strained thawed toasted torn trimmed washed whipped whisked zested
""")
HOW = words("""
    finely thinly thickly roughly coarsely freshly lightly well very fine coarse newly neatly
""")
# Said of a food, but no food by itself: what stands before a comma and belongs to what follows it.
_ADJECTIVES = words("""
    baby bone-in boneless brown clean cold cooked dried dry fat-free firm fresh frozen green hot large lean
    low-fat low-sodium medium mild organic plain raw red reduced-fat reduced-sodium ripe salted skin-on skinless
    skinned small smooth soft tender thick thin unsalted unsweetened warm white whole yellow young
""")

NOT_FOOD = PREPARED | HOW | _ADJECTIVES | frozenset(("and", "or", "&"))

_one = rf"(?:(?:{'|'.join(sorted(HOW))})\s+)*(?:{'|'.join(sorted(PREPARED))})"
BEFORE = re.compile(rf"{_one}(?:(?:\s+and\s+|\s*,\s*|\s+){_one})*(?=\s+\S)", re.IGNORECASE)
# Preparation after the food without a comma: `2 onions finely chopped`, `2 carrots cut into sticks`.
AFTER = re.compile(
    rf"\s+(?:{_one}(?:(?:\s+and\s+|\s+){_one})*|(?:cut|torn|sliced|broken|chopped) in(?:to)?\s.*"
    r"|(?:mixed|dissolved|whisked|blended|soaked|stirred|mashed) (?:with|in|into|to)\s.*"
    r"|(?:such as|preferably|ideally|from (?:a|the) (?:jar|can|tin|deli|packet|bag|tub))\b.*"
    r"|at room temperature|of (?:your )?choice)$",
    re.IGNORECASE,
)
FOR = re.compile(
    r"\s+(?:for|to)\s+(?:the\s+)?(?:serv(?:e|ing)|garnish(?:ing)?|frying|dusting|brush(?:ing)?|greas(?:e|ing)|drizzl(?:e|ing)"
    r"|sprinkl(?:e|ing)|topping|rolling|coating|decorat(?:e|ing|ion)|finish(?:ing)?|(?:the )?(?:pan|dish|tin))\b.*$"
    # What it is for, by name: `olive oil for the dressing`, `oil to fry the onions`.
    r"|\s+for\s+(?:the|your)\s+\S.*$|\s+to\s+(?:fry|cook|saut[eé]|sear|brown|toss|dress|loosen|thicken|cover)\b.*$",
    re.IGNORECASE,
)

# Whole parts of a line that are a flag and nothing else.
FLAG_PARTS: tuple[tuple[re.Pattern[str], str], ...] = tuple(
    (re.compile(pattern, re.IGNORECASE), flag)
    for pattern, flag in (
        (r"(?:or |or more )?(?:to|as) (?:your )?(?:taste|needed|required|desired)", "to taste"),
        (r"or more", "approximately"),
        (r"divided", "divided"),
        (r"as (?:purchased|bought)", "as purchased"),
        (r"optional|if (?:desired|you like|liked)", "optional"),
        (r"(?:firmly |tightly |well )?packed", "packed"),
        (r"(?:lightly|loosely) packed", "level"),
        (r"heap(?:ed|ing)|rounded", "heaped"),
        (r"level(?:led|ed)?", "level"),
        (r"approximately|approx\.?|or so|more or less", "approximately"),
    )
)
# The same at the end of the food phrase, without a comma.
FLAG_TAIL = re.compile(
    r"\s+(?:(?:or )?to taste|(?:or )?as (?:needed|required)|or so|as purchased|\(?optional\)?)$", re.I
)

_STATE = re.compile(
    r"(?:well |fully |freshly |just |already |still )?(dry|drained|cooked|raw|frozen|uncooked|divided|packed)"
)


def flag_of(part: str) -> str | None:
    """The flag that a whole part of a line is: `to taste`, `if you like`; None when it says something else."""
    return next((flag for pattern, flag in FLAG_PARTS if pattern.fullmatch(part)), None)


def state_flags(part: str) -> frozenset[str]:
    """What a part says of the food's state: `rinsed and drained` is drained. The part stays preparation."""
    pieces = re.split(r"\s+and\s+|\s*&\s*|\s*;\s*", part.lower())
    found = (_STATE.fullmatch(piece.strip()) for piece in pieces)
    return frozenset("raw" if match[1] == "uncooked" else match[1] for match in found if match)


# Measures that only say "some": no amount, as to taste.
VAGUE = re.compile(
    r"(?:(?:an?|one|[1-9])\s+)?(?:(?:good|generous|small|large|big|light|tiny|few)\s+)?"
    r"(?:splash(?:es)?|dollops?|drizzle|glug|squeeze|grind(?:s|ing)?|grating|shake|sprinkl(?:e|ing)|swirl|spritz|dusting|bit|touch|little"
    r"|some)\s+(?:of\s+)?(?=\S)(?!gem)",
    re.IGNORECASE,
)
ROUGHLY = re.compile(
    r"(?:about|approx(?:imately|\.)?|around|roughly|circa|ca\.?|c\.(?=\s*[0-9])|[~≈]|up to|at least|nearly|almost"
    r"|just (?:under|over))"
    r"\s*(?=[0-9½¼¾⅓⅔⅛⅜⅝⅞.]|an?\b|[a-z]+\b)",
    re.IGNORECASE,
)
# Cuts and shapes that take an `of` and are no units: `1 leg of lamb`.
OF_FOODS = words("""
    breast breasts chop chops cream fillet half halves heart hearts hock hocks joint joints knuckle leg legs
    loaf loaves loin rack racks saddle segment segments shank shanks shoulder side sides spear spears steak
    steaks tail tails tops wheel
""")
TAKEN = re.compile(
    r"(?:the\s+)?(?P<how>(?:(?:finely|freshly|coarsely)\s+)?(?:grated|squeezed|strained|pared|fresh)\s+)?"
    r"(?P<what>juice|zest|rind)(?:\s+(?:and|&|plus)\s+(?:the\s+|grated\s+)*(?P<more>juice|zest|rind))?\s+(?:of|from)\s+(?=\S)",
    re.IGNORECASE,
)
TAKEN_AFTER = {
    "juiced": "juice",
    "juice": "juice",
    "zested": "zest",
    "zest": "zest",
    "zested and juiced": "juice and zest",
    "juiced and zested": "juice and zest",
    "zest and juice": "juice and zest",
    "juice and zest": "juice and zest",
    "grated zest and juice": "juice and zest",
}
