"""Texts to throw at the readers: anything at all, and things that look like what people write."""

from __future__ import annotations

from hypothesis import strategies as st

from binder.source.words import words

_PIECES = sorted(
    words("""
    1 2 3 0 10 -1 1/2 1/0 ½ 1½ 1,5 1,500 .5 2-3 14.5-oz 400g a an half dozen few two couple and or plus + x × /
    ( ) , ; - – cup cups tbsp T t c. C lb oz oz. fl g kg ml L can cans tin pack of each about ~ large medium
    small extra packed heaped level inch 1-inch piece cloves clove garlic egg eggs onion onions juice zest lemon
    flour, rice barley fresh frozen chopped finely diced drained optional divided taste to more for the pan
    serving as purchased recipe: recipe tomato-base boneless, skinless red green stock oil cupz foo. drizzle
    sticks celery 2% 80/20 (15 (400 oz) g) (optional) or, plus, x2 00
""")
)
line_like = st.lists(st.sampled_from(_PIECES), max_size=14).map(" ".join)

_MARKS = [
    "a",
    "b",
    "key",
    ": ",
    ":",
    "\n",
    "\n  ",
    "- ",
    "-",
    "[",
    "]",
    "{",
    "}",
    ", ",
    '"',
    "'",
    "&x ",
    "*x",
    "!",
    "!!str ",
    "|",
    ">",
    "#",
    " #",
    "%",
    "@",
    "`",
    "\t",
    "? ",
    "---",
    "\n---\n",
    "...",
    "<<",
    "1",
    "0x1F",
    "null",
    "~",
    ".inf",
    "\\",
    "\r\n",
    "\u2028",
    "é",
    "😀",
    "## ",
    "### ",
    "## Prep day\n",
    "## At service\n",
    "1. ",
    "[8 min]",
    "[",
    "```\n",
    "oven 400 F",
    "min",
    "1/2",
]
yaml_like = st.lists(st.sampled_from(_MARKS), max_size=40).map("".join)
