"""The theme: what the press sets pages with. It arrives as an argument; nothing here reads a file.

A folder of a theme is `templates/*.html`, `css/*.css`, `fonts/*.woff2` and `scripts/*.js`; each mapping goes from
the file's name (without the folder) to its content.

The style sheets: `style.css` (screen), `print.css` and `paper-NAME.css` (binder), `labels.css`. Families come from the
fonts' file names: `counter-sans-600-italic.woff2` is the italic of the family "Counter Sans" at weight 600.
"""

from __future__ import annotations

import re
from base64 import b64encode
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from markupsafe import Markup


def _nothing() -> Mapping[str, str]:
    return MappingProxyType({})


_IMPORT = re.compile(r'@import "([\w.-]+\.css)";')
_DEEPEST_IMPORT = 3


@dataclass(frozen=True, slots=True)
class Theme:
    """File name to content, for each kind of file a theme may have."""

    templates: Mapping[str, str]
    css: Mapping[str, str]
    fonts: Mapping[str, bytes]
    scripts: Mapping[str, str] = field(default_factory=_nothing)


@dataclass(frozen=True, slots=True)
class Face:
    """One font file's place in its family."""

    file: str
    family: str
    weight: int
    italic: bool


def laid_over(under: Theme, over: Theme) -> Theme:
    """`over` upon `under`: style sheets of one name are read one after the other, all else is exchanged by name."""
    css = dict(under.css)
    for name, sheet in over.css.items():
        css[name] = f"{css[name]}\n{sheet}" if name in css else sheet
    return Theme(
        templates=MappingProxyType({**under.templates, **over.templates}),
        css=MappingProxyType(css),
        fonts=MappingProxyType({**under.fonts, **over.fonts}),
        scripts=MappingProxyType({**under.scripts, **over.scripts}),
    )


def faces(theme: Theme) -> tuple[Face, ...]:
    """The faces of the theme's fonts, read from their file names, in the order of the names."""
    return tuple(_face(name) for name in sorted(theme.fonts) if name.endswith(".woff2"))


def font_faces(theme: Theme, address: Callable[[str], str]) -> str:
    """`@font-face` rules; `address` says where a font file is found."""
    return "\n".join(
        f'@font-face{{font-family:"{face.family}";font-weight:{face.weight};'
        f"font-style:{'italic' if face.italic else 'normal'};font-display:swap;"
        f'src:url("{address(face.file)}") format("woff2")}}'
        for face in faces(theme)
    )


def whole_sheet(theme: Theme, sheet: str) -> str:
    """The style sheet with the theme's own sheets that it names by `@import "NAME.css";` put in their place."""
    for _ in range(_DEEPEST_IMPORT):
        sheet = _IMPORT.sub(lambda match: theme.css.get(match[1], ""), sheet)
    return _IMPORT.sub("", sheet)


def css_string(text: str) -> Markup:
    """The text as a CSS string (CSS Syntax 3, section 4.3.5); what could end the string or the sheet is escaped."""
    return Markup('"{}"').format(
        Markup("".join(c if c.isalnum() or c in " .,:-–—·()" else f"\\{ord(c):x} " for c in text))
    )


def data_address(content: bytes, media_type: str) -> str:
    """Content as a `data:` address (RFC 2397)."""
    return f"data:{media_type};base64,{b64encode(content).decode('ascii')}"


def _face(name: str) -> Face:
    words = name.removesuffix(".woff2").split("-")
    italic = words[-1] == "italic"
    if italic:
        words.pop()
    weight = int(words.pop()) if words[-1].isdigit() else 400
    return Face(name, " ".join(word.capitalize() for word in words), weight, italic)
