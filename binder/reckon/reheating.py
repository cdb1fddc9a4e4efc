"""How a dish is heated at a place: by the first of its lines that the place can do.

Microwave times go by t2 = t1 x W1 / W2 (common practice, an estimate: check the temperature), rounded up to 5 s.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import ceil

from binder.model.household import Place
from binder.model.recipe import Recipe, Reheat
from binder.reckon.recipe_facts import ReheatFacts
from binder.tables import thawing

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
UNTIMED = ALWAYS | {"flask"}  # no time of these is the place's own


def tool_of(means: str) -> str:
    """The kind of tool a reheating line needs."""
    return TOOL_FOR.get(means, means)


def can_do(place: Place, line: Reheat) -> bool:
    """Whether the place can do a reheating line; eating cold needs nothing."""
    if line.means in ALWAYS:
        return True
    wanted = tool_of(line.means)
    kinds = {tool.kind for tool in place.tools} - {"dutch oven"}  # a pot by another name
    return any(kind == wanted or kind.endswith(f" {wanted}") for kind in kinds)


def line_at(recipe: Recipe, place: Place, frozen: bool = False) -> Reheat | None:
    """The first of its lines that the place can do; lines that start from frozen are for what is frozen."""
    doable = [line for line in recipe.reheat if can_do(place, line)]
    if not frozen:
        doable.sort(key=lambda line: line.from_frozen)
    elif recipe.from_frozen:
        doable.sort(key=lambda line: not line.from_frozen)
    return doable[0] if doable else None


def used_frozen(recipe: Recipe, place: Place) -> bool:
    """Whether a frozen portion is used straight from the freezer there: by the recipe or its line."""
    line = line_at(recipe, place, frozen=True)
    return recipe.from_frozen or (line is not None and line.from_frozen)


def at_place(recipe: Recipe, place: Place, frozen: bool = False) -> ReheatFacts | None:
    """The reheating of a dish at a place; None: eaten as it is, or the place can do none of its lines.

    A time that proved right at the place comes before the one worked out.
    """
    line = line_at(recipe, place, frozen)
    if line is None:
        return None
    worked_out, proved = _converted(line, place), recipe.proved.get(place.name)
    if proved is None or line.means in UNTIMED or line.from_frozen:
        return worked_out
    text = _text(line, worked_out.watts, proved)
    return replace(worked_out, seconds=proved, text=text, proved=True, formula_seconds=worked_out.seconds)


def impossible(recipe: Recipe, place: Place) -> bool:
    """Whether a dish that has to be reheated cannot be, at a place."""
    return bool(recipe.reheat) and not any(can_do(place, line) for line in recipe.reheat)


def seconds_at(seconds: int, watts: int, other_watts: int) -> int:
    """A microwave time at another power, up to the next 5 s."""
    return ceil(Fraction(seconds * watts, other_watts) / STEP_SECONDS) * STEP_SECONDS


def forgotten(recipe: Recipe, place: Place) -> ReheatFacts | None:
    """How a pack that was not thawed is heated from frozen there: by the recipe's own line for it, else half as long
    again; None where nothing is heated.
    """
    own = next((line for line in recipe.reheat if line.from_frozen and can_do(place, line)), None)
    if own:
        return _converted(own, place)
    line = line_at(recipe, place)
    if line is None or line.means in UNTIMED:
        return None
    usual = at_place(recipe, place)
    if usual is None or usual.seconds is None:
        return ReheatFacts(line.means, usual.watts if usual else None, None, _text(line, line.watts, None))
    seconds = ceil(usual.seconds * thawing.FROM_FROZEN / STEP_SECONDS) * STEP_SECONDS
    return ReheatFacts(line.means, usual.watts, seconds, _text(line, usual.watts, seconds))


def _converted(line: Reheat, place: Place) -> ReheatFacts:
    ovens = [tool for tool in place.tools if tool.kind == line.means == "microwave"]
    # Where there are several, the one of the power that was written.
    tool = next((oven for oven in ovens if oven.watts == line.watts), ovens[0] if ovens else None)
    if not tool or not tool.watts or not line.watts or line.seconds is None or tool.watts == line.watts:
        return ReheatFacts(line.means, line.watts, line.seconds, line.text)
    seconds = seconds_at(line.seconds, line.watts, tool.watts)
    before = f"{line.watts} W, {duration(line.seconds)}"
    return ReheatFacts(line.means, tool.watts, seconds, _text(line, tool.watts, seconds), before)


def _text(line: Reheat, watts: int | None, seconds: int | None) -> str:
    """The line with another power and time: `microwave 700 W, 3 min 35 s, covered`."""
    heat = f" {watts} W" if watts else f" {line.temperature_text}" if line.temperature_text else ""
    return ", ".join([line.means + heat, *([duration(seconds)] if seconds else []), *line.rest])


def duration(seconds: int) -> str:
    """`3 min 35 s`, as a recipe's line has it."""
    minutes, rest = divmod(seconds, 60)
    return " ".join([f"{minutes} min"] * bool(minutes) + [f"{rest} s"] * bool(rest or not minutes))
