"""Lines of a week's plan as they are written in its file, for remedies that can be copied."""

from __future__ import annotations

import json
import re
from collections.abc import Sequence
from datetime import date
from fractions import Fraction

from binder.model.week import MealLine, Session

_WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
# Plain in a flow mapping, and no word that YAML 1.2's core rules make a value of.
_PLAIN = re.compile(r"(?!(?:true|false|null)$)[^\W\d_][\w .'’-]*", re.IGNORECASE)


def name(text: str) -> str:
    """A name as a YAML scalar: plain where it may be, else in quotes."""
    return text if _PLAIN.fullmatch(text) and text == text.strip() else json.dumps(text, ensure_ascii=False)


def names(items: Sequence[str]) -> str:
    """One name, or a list of several."""
    return name(items[0]) if len(items) == 1 else f"[{', '.join(map(name, items))}]"


def days(dates: Sequence[date]) -> str:
    """`fri`, or `[mon, tue]`."""
    words = [_WEEKDAYS[day.weekday()] for day in dates]
    return words[0] if len(words) == 1 else f"[{', '.join(words)}]"


def number(value: Fraction) -> str:
    """A number of portions; what has no short decimal as a fraction."""
    short = f"{float(value):g}"
    return short if Fraction(short) == value else f"{value.numerator}/{value.denominator}"


def meal(line: MealLine) -> str:
    """`- {lunch: pot, for: [Ilka, Tomas], on: [mon, tue], at: ward}`."""
    said = [f"{line.meal}: {name(line.recipe)}", f"for: {names(line.eaters)}"]
    said += [f"on: {days(line.dates)}"] if line.dates else []
    own = {who: portions for who, portions in line.by_eater.items() if who in line.eaters}
    if own:
        said.append("portions: {" + ", ".join(f"{name(who)}: {number(n)}" for who, n in own.items()) + "}")
    elif line.undated and line.total is not None:
        said.append(f"portions: {number(line.total)}")
    elif not line.undated and line.each != 1:
        said.append(f"portions: {number(line.each)}")
    said += [f"made: {line.made.isoformat()}"] if line.made else []
    said += [f"at: {name(line.place)}"] if line.place else []
    return "- {" + ", ".join(said) + "}"


def session(one: Session) -> str:
    """`{on: 2026-06-10, at: "18:00"}`."""
    hours, minutes = divmod(one.at_minutes, 60)
    return f'{{on: {one.on.isoformat()}, at: "{hours:02d}:{minutes:02d}"}}'
