"""What went wrong in a YAML text, in a cook's words, with a way out."""

from __future__ import annotations

import re

import yaml

from binder.problem import Problem, Span, error

_QUOTE_IT = "put the value in double quotes"
_QUOTED = 'a quoted text begins here and has no closing quote; inside double quotes write \\" for a quote'

# By what the parser says: message, way out, whether the place is where the construct began.
_SAYINGS: tuple[tuple[str, str, str, bool], ...] = (
    (
        r"while scanning a quoted scalar.*(end of stream|document indicator)",
        "the quote is not closed",
        _QUOTED,
        True,
    ),
    (
        r"unknown escape character|expected hexdecimal|expected hexadecimal|escape sequence",
        "a backslash in double quotes that is no known escape",
        "write \\\\ for a backslash, or use single quotes",
        False,
    ),
    (
        r"could not find expected ':'",
        "a line that is neither `key: value` nor `- item`",
        "write a space after the colon, and indent what continues the line above",
        True,
    ),
    (
        r"mapping values are not allowed",
        "a second colon in one value, or a line indented too far",
        f'{_QUOTE_IT}: title: "Bake: the second"',
        False,
    ),
    (
        r"that cannot start any token",
        "a value may not begin with this character",
        f'{_QUOTE_IT}: "@ home"',
        False,
    ),
    (
        r"expected ',' or '\]'",
        "the list opened with [ is not closed, or a comma is missing",
        f"close it with ], or {_QUOTE_IT} when it is text",
        True,
    ),
    (
        r"expected ',' or '}'",
        "the map opened with { is not closed, or a comma is missing",
        "close it with }, or " + _QUOTE_IT + ' when it is text: {item: "1 tsp salt, fine"}',
        True,
    ),
    (
        r"while parsing a flow (node|sequence|mapping)|expected the node content",
        "a bracket or comma where a value is expected",
        f"close every [ and {{, or {_QUOTE_IT}",
        False,
    ),
    (
        r"block sequence entries are not allowed|expected <block end>|expected '-' indicator|expected key",
        "this line is not indented like the lines it belongs to",
        "line up keys with keys and `- ` with `- `",
        False,
    ),
    (
        r"undefined alias|scanning an (alias|anchor)|multiple anchors|duplicate anchor",
        "a value that begins with * or & is taken for a reference",
        _QUOTE_IT,
        False,
    ),
    (
        r"tag|block scalar|simple key|directive|<document start>|%",
        "this line cannot be read",
        f"{_QUOTE_IT} when it begins with one of ! | > % ? @ `",
        False,
    ),
)


def syntax_problem(fault: yaml.YAMLError, text: str, path: str, first_line: int) -> Problem:
    """A parser's complaint as `yaml-syntax` (`alias-limit` for endless nesting), where the writer has to look."""
    context, said = getattr(fault, "context", None) or "", getattr(fault, "problem", None) or ""
    begun, noticed = getattr(fault, "context_mark", None), getattr(fault, "problem_mark", None)
    whole = f"{context}: {said}" if context else said
    lines = text.split("\n")
    if "nesting depth" in whole:
        place = _place(begun or noticed, lines, path, first_line)
        return error(place, "alias-limit", "brackets opened within brackets without end", "close them")
    if seen := _plain_cause(_place(noticed or begun, lines, "", 0), lines):
        line, column, message, remedy = seen
        return error(Span(path, first_line + line, column, column + 1), "yaml-syntax", message, remedy)
    for pattern, message, remedy, at_begin in _SAYINGS:
        if re.search(pattern, whole, re.DOTALL):
            mark = begun if at_begin and begun is not None else noticed
            return error(_place(mark or begun, lines, path, first_line), "yaml-syntax", message, remedy)
    place = _place(noticed or begun, lines, path, first_line)
    return error(place, "yaml-syntax", "this line cannot be read as YAML", "compare it with the lines above")


# As much of a line as a person would look at; more would cost time on endless ones.
_NEAR = 300
_COLON_WITHOUT_SPACE = re.compile(r"\s*(?:- )?[\w '\"-]+?(:)[^\s:/]")


def _plain_cause(noticed: Span, lines: list[str]) -> tuple[int, int, str, str] | None:
    """Line (from 0), column (from 1), message and way out, where the text itself shows what the parser cannot say."""
    line = lines[noticed.line]
    before, here = line[: noticed.column - 1][-_NEAR:], line[noticed.column - 1 : noticed.column]
    if here == "\t" or (before + here).strip(" ") == "\t":
        return (
            noticed.line,
            noticed.column,
            "a tab where spaces are expected",
            "indent with spaces, not with tabs",
        )
    for number in (noticed.line, noticed.line - 1):
        squeezed = _COLON_WITHOUT_SPACE.match(lines[number][:_NEAR]) if number >= 0 else None
        if squeezed and not re.search(r":(\s|$)", lines[number]):
            remedy = "write a space after the colon: title: Squash bake"
            return number, squeezed.start(1) + 1, "no space after the colon", remedy
    if re.search(r"""(?:: |- |^)\s*("[^"]*"|'[^']*')\s*$""", before) and here not in ("", ":"):
        return noticed.line, noticed.column, "text after a closing quote", "put the whole value in quotes"
    if before.rstrip().endswith(("]", "}")) and here not in ("", ":"):
        remedy = f"delete it, or {_QUOTE_IT}"
        return noticed.line, noticed.column, "text after a closing bracket", remedy
    return None


def _place(mark: yaml.Mark | None, lines: list[str], path: str, first_line: int) -> Span:
    """The mark as a span of one character; the end of the last written line when it lies beyond."""
    if mark is None:
        return Span(path, first_line, 1, 2)
    line, column = mark.line, mark.column
    if line >= len(lines):
        line, column = len(lines) - 1, 0
    while line > 0 and not lines[line].strip():
        line, column = line - 1, len(lines[line - 1])
    return Span(path, first_line + line, column + 1, column + 2)


_FORBIDDEN = re.compile("[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def forbidden_character(text: str, path: str, first_line: int) -> Problem | None:
    """The first control character or half surrogate, which YAML does not allow (YAML 1.2.2, section 5.1)."""
    found = _FORBIDDEN.search(text)
    if not found:
        return None
    line = text.count("\n", 0, found.start())
    column = found.start() - (text.rfind("\n", 0, found.start()) + 1)
    span = Span(path, first_line + line, column + 1, column + 2)
    message = f"the control character U+{ord(found[0]):04X}"
    return error(span, "yaml-syntax", message, "delete it; it came in by copying and does not show")
