"""An ingredient line in plain words that read back the same."""

from __future__ import annotations

from dataclasses import replace

from binder.problem import Span
from binder.source.amount import print_measure
from binder.source.line import Line, read_line

_HEAPED = ("heaped", "level", "packed")
_BEHIND = ("to taste", "divided", "as purchased", "optional")
_NOWHERE = Span("", 1, 1, 1)


def print_line(line: Line) -> str:
    """The line in one plain form: `2 x 15 oz can beans, drained`. Reading it gives the same meaning.

    A line that the plain form cannot express is printed as it was written.
    """
    for slash in (False, True):
        wording = plain_wording(line, slash)
        if same_meaning(read_line(wording, _NOWHERE)[0], line):
            return wording
    return line.text


def same_meaning(one: Line, other: Line) -> bool:
    """Whether two lines mean the same, wherever and however they were written."""
    return _meaning(one) == _meaning(other)


def _meaning(line: Line) -> Line:
    return replace(line, text="", span=_NOWHERE, food_start=0, food_end=0)


def plain_wording(line: Line, slash: bool = False) -> str:
    """The plain form; with `slash` the same amount in other units stands behind a slash, not in a note."""
    words = [_amounts(line)]
    if "approximately" in line.flags:
        words.insert(0, "about")
    if slash and line.equivalent:
        words.append(f"/ {print_measure(line.equivalent)}")
    if line.taken:
        words.insert(0, f"{line.taken} of")
    words.append(f"recipe: {line.food}" if line.recipe else line.food)
    if line.alternative:
        words.append(f"or {line.alternative}")
    words += [f"({note})" for note in line.notes]
    head = " ".join(word for word in words if word)
    parts = [head, line.preparation, *(flag for flag in _BEHIND if flag in line.flags), _more(line)]
    return ", ".join(part for part in parts if part)


def _amounts(line: Line) -> str:
    """The amounts joined by plus; packs as `2 x 15 oz can`."""
    heaped = [flag for flag in _HEAPED if flag in line.flags]
    if not line.amounts:
        return ""
    first, *others = line.amounts
    if line.pack:
        number, _, unit = print_measure(first).partition(" " + (first.size or first.unit))
        shown = f"{number} x {print_measure(line.pack)} {first.size}{unit}".rstrip()
        if first.unit != "each":
            shown = f"{number} x {print_measure(line.pack)} {first.size} {first.unit}".replace("  ", " ")
    else:
        shown = print_measure(first).removesuffix(" each")
        if heaped and first.size == "" and first.unit != "each":
            shown = " ".join((shown.removesuffix(first.unit).strip(), *heaped, first.unit))
    return " plus ".join((shown, *(print_measure(measure) for measure in others)))


def _more(line: Line) -> str:
    if "plus more" not in line.flags:
        return ""
    return f"plus more {line.plus_more}".rstrip()
