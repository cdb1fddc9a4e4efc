"""Values as YAML text that our reader reads back the same: one line in brackets, or lines of keys and items."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from decimal import Decimal
from fractions import Fraction
from typing import Any

from binder.problem import Problem
from binder.source.nodes import Mapping as MappingNode
from binder.source.nodes import Node, Scalar
from binder.source.yaml_reader import read_yaml

# A collection goes on one line when it fits there.
WIDTH = 110
_TOO_RARE = re.compile("[^\n\x20-\x7e\xa0-\u2027\u202a-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]")
_ESCAPED = re.compile("[\x7f-\x9f\u2028\u2029\ud800-\udfff\ufeff\ufffe\uffff]")


def plain_value(node: Node | None) -> Any:
    """A node as dicts, lists and single values: what two texts must agree in to say the same."""
    if node is None:
        return None
    if isinstance(node, Scalar):
        return node.value
    if isinstance(node, MappingNode):
        return {key.text: plain_value(value) for key, value in node.entries}
    return [plain_value(one) for one in node.items]


def as_read(value: Any) -> Any:
    """A value as it comes back from the text that is written for it."""
    if isinstance(value, Mapping):
        return {str(key): as_read(one) for key, one in value.items()}
    if isinstance(value, str) or not isinstance(value, Sequence):
        return _read_back(_scalar(value, True))[0]
    return [as_read(one) for one in value]


def flow(value: Any, within: bool = True) -> str:
    """On one line: `{size: 200 g, price: 3.1}`; `within` brackets or on its own after a key or a dash."""
    if isinstance(value, Mapping):
        return "{" + ", ".join(f"{_scalar(str(key), True)}: {flow(one)}" for key, one in value.items()) + "}"
    if isinstance(value, str) or not isinstance(value, Sequence):
        return _scalar(value, within)
    return "[" + ", ".join(flow(one) for one in value) + "]"


def entry(key: str, value: Any, indent: int = 0, width: int = WIDTH) -> list[str]:
    """`key: value` on one line of at most `width` characters, or the key with its lines below it."""
    space = " " * indent
    head = f"{space}{_scalar(key, True)}:"
    if isinstance(value, Mapping) and value:
        one_line = f"{head} {flow(value)}"
        if _flat(value) and len(one_line) <= width:
            return [one_line]
        return [head, *(line for name, one in value.items() for line in entry(str(name), one, indent + 2, width))]
    if not isinstance(value, str) and isinstance(value, Sequence) and value:
        one_line = f"{head} {flow(value)}"
        if all(not _is_collection(one) for one in value) and not _has_texts(value) and len(one_line) <= width:
            return [one_line]
        return [head, *(line for one in value for line in item(one, indent + 2, width))]
    return [f"{head} {flow(value, False)}"]


def item(value: Any, indent: int = 0, width: int = WIDTH, below: bool = False) -> list[str]:
    """`- value` on one line, or, where that is too long or `below`, a dash and its keys one below the other."""
    space = " " * indent
    one_line = f"{space}- {flow(value, False)}"
    if not isinstance(value, Mapping) or not value or (not below and _flat(value) and len(one_line) <= width):
        return [one_line]
    lines = [line for name, one in value.items() for line in entry(str(name), one, indent + 2, width)]
    return [f"{space}- {lines[0].lstrip()}", *lines[1:]]


def _is_collection(value: Any) -> bool:
    return not isinstance(value, str) and isinstance(value, Mapping | Sequence)


def _flat(value: Mapping[Any, Any]) -> bool:
    """Whether a mapping holds single values and short lists of words only."""
    return all(not isinstance(one, Mapping) and not _nested(one) for one in value.values())


def _nested(value: Any) -> bool:
    return _is_collection(value) and any(_is_collection(one) for one in value)


def _has_texts(value: Sequence[Any]) -> bool:
    """Whether some of a list are lines rather than words: those stand one below the other."""
    return any(isinstance(one, str) and ("," in one or len(one) > 30) for one in value)


def _scalar(value: Any, within: bool) -> str:
    if value is None:
        return "null"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float | Fraction):
        return number_text(value)
    text = str(value)
    return text if _is_plain(text, within) else _quoted(text)


def number_text(value: int | float | Fraction) -> str:
    """A number in digits, no exponent: `8`, `0.75`; a fraction without an end as `1/3`."""
    if isinstance(value, Fraction):
        if value.denominator == 1:
            return str(value.numerator)
        rest = value.denominator
        for factor in (2, 5):
            while rest % factor == 0:
                rest //= factor
        if rest != 1 or value.denominator > 10**6:
            return f"{value.numerator}/{value.denominator}"
        return format((Decimal(value.numerator) / Decimal(value.denominator)).normalize(), "f")
    if isinstance(value, int):
        return str(value)
    text = format(Decimal(repr(value)), "f")
    return text.rstrip("0").rstrip(".") if "." in text else text


def _is_plain(text: str, within: bool) -> bool:
    """Whether a text may stand without quotes, and reads back as that text."""
    if not text or text != text.strip() or "\n" in text or _TOO_RARE.search(text):
        return False
    if text[0] in "-?:,[]{}#&*!|>'\"%@`" and not re.match(r"-[^\s]", text):
        return False
    if re.match(r"\d+:\d", text):  # a time of day: a number to readers of YAML 1.1
        return False
    if ": " in text or " #" in text or text.endswith(":") or text in ("---", "...") or text[:4] in ("--- ", "... "):
        return False
    if within and any(mark in text for mark in ",[]{}"):
        return False
    value, problems = _read_back(f"[{text}]" if within else f"- {text}")
    return not problems and value == [text]


def _read_back(text: str) -> tuple[Any, tuple[Problem, ...]]:
    root, problems = read_yaml(text, "")
    return plain_value(root), problems


def _quoted(text: str) -> str:
    """In double quotes, on one line, with escapes that YAML 1.2 knows."""
    written = json.dumps(text, ensure_ascii=False)

    def escape(found: re.Match[str]) -> str:
        code = ord(found[0])
        return f"\\x{code:02x}" if code < 256 else f"\\u{code:04x}"

    return _ESCAPED.sub(escape, written)
