"""A person's own Markdown (CommonMark 0.31): raw HTML off, links and pictures by an allow-list.

What is not allowed is never dropped: it is set as the plain text that was written.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, MutableMapping, Sequence
from dataclasses import dataclass
from typing import Any

from markdown_it import MarkdownIt
from markdown_it.common.utils import escapeHtml
from markdown_it.token import Token
from markdown_it.utils import OptionsDict
from markupsafe import Markup

from binder.press import links
from binder.press.picture import Picture


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What prose needs to know of the page it stands in."""

    address: Callable[[str], str | None]  # an allowed href as it reads from this page; None: no link here
    picture: Callable[[str], Picture | None]  # a photo by its file name
    heading_level: int  # the level of the highest heading in the prose


def prose_html(markdown: str, around: Surroundings) -> Markup:
    """The Markdown as HTML, its headings moved below the page's own."""
    env: MutableMapping[str, Any] = {"around": around}
    tokens = _MARKDOWN.parse(markdown, env)
    env["levels"] = _levels(tokens, around.heading_level)
    env["open"] = []
    return Markup(_MARKDOWN.renderer.render(tokens, _MARKDOWN.options, env))


def _levels(tokens: Sequence[Token], highest: int) -> Mapping[str, str]:
    """Each heading tag used to the one it is set as, so that no level is left out."""
    used = sorted({token.tag for token in tokens if token.type == "heading_open"})
    return {tag: f"h{min(highest + index, 6)}" for index, tag in enumerate(used)}


def _heading(
    _: object, tokens: Sequence[Token], index: int, options: OptionsDict, env: MutableMapping[str, Any]
) -> str:
    token = tokens[index]
    tag = env["levels"][token.tag]
    return f"<{tag}>" if token.nesting == 1 else f"</{tag}>\n"


def _link_open(
    _: object, tokens: Sequence[Token], index: int, options: OptionsDict, env: MutableMapping[str, Any]
) -> str:
    around: Surroundings = env["around"]
    href = str(tokens[index].attrs["href"])
    here = around.address(href) if links.allowed(href) else None
    env["open"].append(here is not None)
    if here is None:
        return ""
    outside = ' rel="noopener noreferrer"' if links.is_outside(here) else ""
    return f'<a href="{escapeHtml(here)}"{outside}>'


def _link_close(
    _: object, tokens: Sequence[Token], index: int, options: OptionsDict, env: MutableMapping[str, Any]
) -> str:
    return "</a>" if env["open"].pop() else ""


def _image(_: object, tokens: Sequence[Token], index: int, options: OptionsDict, env: MutableMapping[str, Any]) -> str:
    around: Surroundings = env["around"]
    token = tokens[index]
    source = str(token.attrs["src"])
    name = links.picture_name(source)
    picture = around.picture(name) if name else None
    if picture is None:
        return escapeHtml(f"![{token.content}]({source})")
    size = f' width="{picture.width}" height="{picture.height}"' if picture.width and picture.height else ""
    return f'<img src="{escapeHtml(picture.source)}" alt="{escapeHtml(token.content)}"{size}>'


def _made() -> MarkdownIt:
    parser = MarkdownIt("commonmark", {"html": False})
    # Links and pictures that fail here are left by the parser as the text that was written.
    parser.validateLink = links.allowed  # type: ignore[method-assign]
    for name, rule in {
        "heading_open": _heading,
        "heading_close": _heading,
        "link_open": _link_open,
        "link_close": _link_close,
        "image": _image,
    }.items():
        parser.add_render_rule(name, rule)
    return parser


_MARKDOWN = _made()
