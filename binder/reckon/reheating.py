"""How a dish is heated at a place: by the first of its lines that the place can do.

Microwave times go by t2 = t1 x W1 / W2 (common practice, an estimate: check the temperature), rounded up to 5 s.
"""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from binder.model.household import Place
from binder.model.recipe import Recipe, Reheat
from binder.reckon.facts import ReheatFacts

STEP_SECONDS = 5
# What a line's first word needs of a place; any other word is the tool's own name.
TOOL_FOR = {
    "stove": "burner",
    "hob": "burner",
    "pan": "burner",
    "pot": "burner",
    "flask": "insulated flask",
    "kettle": "kettle",
    "boiling water": "kettle",
}
ALWAYS = frozenset({"cold", "as it is", "room temperature"})


def tool_of(means: str) -> str:
    """The kind of tool a reheating line needs."""
    return TOOL_FOR.get(means, means)


def can_do(place: Place, line: Reheat) -> bool:
    """Whether the place can do a reheating line; eating cold needs nothing."""
    if line.means in ALWAYS:
        return True
    wanted = tool_of(line.means)
    return any(tool.kind == wanted or tool.kind.endswith(wanted) for tool in place.tools)


def at_place(recipe: Recipe, place: Place) -> ReheatFacts | None:
    """The reheating of a dish at a place; None: eaten as it is, or the place can do none of its lines."""
    for line in recipe.reheat:
        if can_do(place, line):
            return _converted(line, place)
    return None


def impossible(recipe: Recipe, place: Place) -> bool:
    """Whether a dish that has to be reheated cannot be, at a place."""
    return bool(recipe.reheat) and not any(can_do(place, line) for line in recipe.reheat)


def seconds_at(seconds: int, watts: int, other_watts: int) -> int:
    """A microwave time at another power, up to the next 5 s."""
    return ceil(Fraction(seconds * watts, other_watts) / STEP_SECONDS) * STEP_SECONDS


def _converted(line: Reheat, place: Place) -> ReheatFacts:
    tool = place.tool("microwave") if line.means == "microwave" else None
    if not tool or not tool.watts or not line.watts or line.seconds is None or tool.watts == line.watts:
        return ReheatFacts(line.means, line.watts, line.seconds, line.text)
    seconds = seconds_at(line.seconds, line.watts, tool.watts)
    text = ", ".join([f"microwave {tool.watts} W", duration(seconds), *line.rest])
    return ReheatFacts(line.means, tool.watts, seconds, text, f"{line.watts} W, {duration(line.seconds)}")


def duration(seconds: int) -> str:
    """`3 min 35 s`, as a recipe's line has it."""
    minutes, rest = divmod(seconds, 60)
    return " ".join([f"{minutes} min"] * bool(minutes) + [f"{rest} s"] * bool(rest or not minutes))
