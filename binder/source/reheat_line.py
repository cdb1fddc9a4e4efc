"""A way to reheat, on one line: `microwave 1000 W, 2 min 30 s, covered, stir halfway`."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, field

from binder.problem import Problem, Span, error
from binder.source.duration import duration_at, near_time_unit
from binder.source.place import part_of
from binder.source.temperature import Temperature, temperature_in


@dataclass(frozen=True, slots=True)
class Reheat:
    """`means` is the first word or words: microwave, oven, burner, flask, kettle, cold; `rest` are the parts left over.

    `seconds` is the upper end of a range.
    """

    means: str
    watts: int | None
    temperature: Temperature | None
    seconds: int | None
    rest: tuple[str, ...]
    text: str
    span: Span


MOST_CHARACTERS = 500
MEANS = {
    "microwave": "microwave",
    "oven": "oven",
    "burner": "burner",
    "hob": "burner",
    "stove": "burner",
    "stovetop": "burner",
    "flask": "flask",
    "insulated flask": "flask",
    "kettle": "kettle",
    "cold": "cold",
    "eat cold": "cold",
}
_KNOWN = re.compile(rf"(?:{'|'.join(sorted(MEANS, key=len, reverse=True))})\b", re.IGNORECASE)
_WATTS = re.compile(r"\s*\b([0-9]{1,5}(?:[.,][0-9]{1,3})?)\s*(k?)(?:W|watts?)\b", re.IGNORECASE)
_PART = re.compile(r"[^,;]+(?:,(?=[0-9])[^,;]+)*")


@dataclass(slots=True)
class _Way:
    """A line as it is being read."""

    text: str
    span: Span
    means: str = ""
    watts: int | None = None
    temperature: Temperature | None = None
    seconds: int | None = None
    rest: list[str] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)

    def fault(self, code: str, message: str, start: int, stop: int, *remedies: str) -> None:
        self.problems.append(error(part_of(self.span, self.text, start, stop), code, message, *remedies))


def read_reheat(text: str, span: Span) -> tuple[Reheat, tuple[Problem, ...]]:
    """Means first, then power, temperature, time and words in any order.

    Problems: `wrong-type` when no means is named, `bad-amount` for a power or a time that cannot be.
    """
    way = _Way(text, span)
    parts = [found.span() for found in _PART.finditer(text[:MOST_CHARACTERS]) if found[0].strip()]
    for number, (start, stop) in enumerate(parts):
        start += len(text[start:stop]) - len(text[start:stop].lstrip())
        _part(way, text[start:stop].rstrip(), start, first=number == 0)
    if not way.means:
        way.fault("wrong-type", "what is it heated with?", 0, len(text), "begin with microwave, oven, burner or cold")
    return (
        Reheat(way.means, way.watts, way.temperature, way.seconds, tuple(way.rest), text, span),
        tuple(way.problems),
    )


def _part(way: _Way, part: str, start: int, first: bool) -> None:
    """One part between commas; numbers are taken out of it, what is left is means or words."""
    stop = start + len(part)
    left = part
    if power := _WATTS.search(left):
        watts = round(float(power[1].replace(",", ".")) * (1000 if power[2] else 1))
        if watts:
            way.watts = watts
        else:
            way.fault("bad-amount", f'no power: "{power[0].strip()}"', start, stop, "write the watts: microwave 1000 W")
        left = left[: power.start()] + left[power.end() :]
    if hot := temperature_in(left):
        way.temperature = hot[0]
        left = left[: hot[1]] + left[hot[2] :]
    left = _time(way, left.strip(), first)
    if re.match(r"[-−]?[0-9]", left):
        word = re.sub(r"^[-−0-9.,/\s]+", "", left).split(" ")[0]
        if not word or near_time_unit(word) or left[0] in "-−":
            way.fault("bad-amount", f'no time: "{left}"', start, stop, "write the time: 2 min 30 s")
            return
    if first:
        left = _means(way, left)
    if left.strip(" @"):
        way.rest.append(" ".join(left.split()))


def _time(way: _Way, left: str, first: bool) -> str:
    """Take the time off a part that is one or, of the first part, ends with one: `stand 1 min` stays words."""
    for found in re.finditer(r"(?<![\w.,/])(?=[0-9½¼¾⅓⅔.])", left):
        if found.start() and not first:
            break
        time = duration_at(left, found.start())
        if (
            time
            and way.seconds is None
            and not re.sub(r"^\s*(?:or (?:until|so)\b.*)?", "", left[time[1] :]).strip(" .")
        ):
            way.seconds = math.ceil(time[0].high_seconds)
            return left[: found.start()].rstrip()
    return left


def _means(way: _Way, left: str) -> str:
    """Take the means off the first part; a word that is not known is the means as it stands."""
    known = _KNOWN.match(left)
    if known:
        way.means = MEANS[known[0].lower()]
        return left[known.end() :].strip()
    way.means = " ".join(left.lower().split())
    return ""
