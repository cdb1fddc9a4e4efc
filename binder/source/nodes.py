"""What a YAML text says, each value with its place."""

from __future__ import annotations

from dataclasses import dataclass

from binder.problem import Span

Value = None | bool | int | float | str


@dataclass(frozen=True, slots=True)
class Scalar:
    """One value, read by the YAML 1.2 core rules.

    `text` is what was written, without quotes and with escapes resolved. Where `exact`, the span covers just that text
    (inside the quotes), so that `span.part` finds a column within it; elsewhere the span begins where the value does.
    """

    value: Value
    text: str
    span: Span
    quoted: bool = False
    exact: bool = True


@dataclass(frozen=True, slots=True)
class Sequence:
    """A list; the span covers its first line."""

    items: tuple[Node, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Mapping:
    """Keys and values in the order written, each key once; the span covers its first line."""

    entries: tuple[tuple[Scalar, Node], ...]
    span: Span

    def get(self, key: str) -> Node | None:
        """The value under a key's text, None when the key is not there."""
        return next((value for name, value in self.entries if name.text == key), None)

    def key(self, key: str) -> Scalar | None:
        """The key itself, for its place."""
        return next((name for name, _ in self.entries if name.text == key), None)

    def keys(self) -> tuple[str, ...]:
        """The texts of the keys, in the order written."""
        return tuple(name.text for name, _ in self.entries)


Node = Scalar | Sequence | Mapping


def as_line(node: Node) -> Scalar | None:
    """The line a node looks like: a value that is not null, or `2 cups recipe: tomato-base`, to YAML a map of one key.

    None for everything else, other maps included. A text of `recipe:` without a value keeps its colon.
    """
    if isinstance(node, Scalar):
        return None if node.value is None else node
    if not isinstance(node, Mapping) or len(node.entries) != 1:
        return None
    key, value = node.entries[0]
    if key.text.split()[-1:] != ["recipe"] or not isinstance(value, Scalar):
        return None
    text = f"{key.text}: {value.text}".rstrip()
    one_line = key.exact and value.exact and key.span.line == value.span.line
    end = value.span.end if one_line else key.span.end
    span = Span(key.span.path, key.span.line, key.span.column, max(end, key.span.end))
    return Scalar(text, text, span, exact=one_line and span.end - span.column == len(text))
