"""Plain YAML values by the core schema (YAML 1.2.2, section 10.3.2): `on`, `no`, `1:30` and dates stay text."""

from __future__ import annotations

import re

from binder.source.nodes import Value

_WORDS: dict[str, Value] = {
    **dict.fromkeys(("", "~", "null", "Null", "NULL"), None),
    **dict.fromkeys(("true", "True", "TRUE"), True),
    **dict.fromkeys(("false", "False", "FALSE"), False),
    **dict.fromkeys((".inf", ".Inf", ".INF", "+.inf", "+.Inf", "+.INF"), float("inf")),
    **dict.fromkeys(("-.inf", "-.Inf", "-.INF"), float("-inf")),
    **dict.fromkeys((".nan", ".NaN", ".NAN"), float("nan")),
}
_NUMBER = re.compile(
    r"(?P<int>[-+]?[0-9]+)|0o(?P<octal>[0-7]+)|0x(?P<hex>[0-9a-fA-F]+)"
    r"|(?P<float>[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?)"
)
_MAYBE_NUMBER = frozenset("+-.0123456789")


def core_value(text: str) -> Value:
    """The value of a plain scalar; ValueError for an integer too long to read."""
    if text in _WORDS:
        return _WORDS[text]
    if text[0] not in _MAYBE_NUMBER or not (number := _NUMBER.fullmatch(text)):
        return text
    if number["int"]:
        return int(number["int"])
    if number["octal"]:
        return int(number["octal"], 8)
    if number["hex"]:
        return int(number["hex"], 16)
    return float(text)
