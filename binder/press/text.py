"""Words as HTML: escaped, and with fractions marked."""

from __future__ import annotations

import re

from markupsafe import escape

# Most words hold none of these, and looking for one costs less than escaping.
_SPECIAL = re.compile("[&<>\"']")
# A fraction as a kitchen writes it; a date or a ratio is left as it is.
_FRACTION = re.compile(
    r"(?<![\d/.,])(?:1/(?:2|3|4|5|6|8|16)|2/(?:3|5)|3/(?:4|5|8|16)|4/5|5/(?:6|8|16)|[79]/16|7/8)(?![\d/])"
)


def escaped(text: str) -> str:
    """The text as it may stand in HTML, between tags or in a quoted attribute."""
    return str(escape(str(text))) if _SPECIAL.search(text) else text


def attribute(name: str, value: str) -> str:
    """` name="value"`, nothing for an empty value."""
    return f' {name}="{escaped(value)}"' if value else ""


def fractions(words: str) -> str:
    """The words, escaped, with `7/8` marked for the font's real fractions (the feature raises all other digits)."""
    text = escaped(words)
    return _FRACTION.sub(r'<span class="fr">\g<0></span>', text) if "/" in text else text
