"""Where a recipe can be eaten: what each place can heat, what it lacks, what it does not allow in.

The same answers as the check of a plan gives, for every place, without a plan. Where an answer hangs on a pack or on a
food without a record, it says so.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from binder.model.household import HOME, Household, Place
from binder.model.recipe import Reheat
from binder.pages.allergens import base
from binder.pages.edition import unique
from binder.pages.format import first_upper, listed, seconds
from binder.pages.words.en import Words
from binder.reckon.recipe_facts import RecipeFacts

# What a reheating line's first word needs of a place; any other word is the tool's own name.
_TOOL_FOR: Mapping[str, str] = MappingProxyType(
    {
        "stove": "burner", "hob": "burner", "pan": "burner", "pot": "burner", "flask": "insulated flask",
        "boiling water": "kettle",
    }
)  # fmt: skip
_ALWAYS = frozenset({"cold", "as it is", "room temperature"})
# A step at service that needs one of these cannot be done without; a board or a bowl is found anywhere.
_COOKS_WITH = frozenset({"oven", "burner", "microwave", "kettle", "pressure cooker"})


@dataclass(frozen=True, slots=True)
class PlaceAnswer:
    """One place: whether the dish can be eaten there, how, and what stands against it or is not known."""

    place: str
    can: bool
    how: str
    cold: bool = False
    against: tuple[str, ...] = ()
    unsure: tuple[str, ...] = ()


def place_answers(facts: RecipeFacts, household: Household, words: Words) -> tuple[PlaceAnswer, ...]:
    """One for each place, in the household's order."""
    return tuple(_answer(facts, place, words) for place in household.places)


def _answer(facts: RecipeFacts, place: Place, words: Words) -> PlaceAnswer:
    against = [*_banned(facts, place, words), *_lacking(facts, place, words)]
    if not place.home_food:
        against.append(words.no_home_food)
    way = next((line for line in facts.recipe.reheat if can_heat(place, line)), None)
    if facts.recipe.reheat and way is None:
        against.append(words.nothing_heats_it)
    cold = way is not None and way.means in _ALWAYS
    how = "" if against else _how(facts, way, place, words)
    return PlaceAnswer(place.name, not against, how, cold, tuple(against), _unsure(facts, place, words))


def can_heat(place: Place, line: Reheat) -> bool:
    """Whether the place can do a reheating line; eating cold needs nothing."""
    wanted = _TOOL_FOR.get(line.means, line.means)
    return line.means in _ALWAYS or any(t.kind == wanted or t.kind.endswith(wanted) for t in place.tools)


def _how(facts: RecipeFacts, way: Reheat | None, place: Place, words: Words) -> str:
    if way is None:
        return words.cooked_there if facts.form == "kit" else words.eaten_as_it_is
    proved = facts.recipe.proved.get(place.name)
    if proved is not None and way.means not in _ALWAYS:
        return words.proved_there.format(line=way.text, time=seconds(proved))
    tool = place.tool(way.means)
    if tool and tool.watts and way.watts and tool.watts != way.watts:
        return words.other_power.format(line=way.text, watts=tool.watts)
    return way.text


def _lacking(facts: RecipeFacts, place: Place, words: Words) -> list[str]:
    """Tools needed at service that the place has not."""
    needed = list(facts.recipe.needs)
    if place.name != HOME:
        needed += [use.kind for step in facts.recipe.service for use in step.uses if use.kind in _COOKS_WITH]
    has = {tool.kind for tool in place.tools}
    lacking = [kind for kind in unique(needed) if kind not in has]
    return [words.place_lacks.format(listed(lacking, words))] if lacking else []


def _banned(facts: RecipeFacts, place: Place, words: Words) -> list[str]:
    other = {word for line in facts.ingredients for word in line.ingredient.food.contains_other or ()}
    held = unique((*facts.contains, *sorted(other)))
    hit = [word for word in held if any(_meets(ban, word) for ban in place.bans)]
    return [words.not_allowed_in.format(listed(hit, words))] if hit else []


def _unsure(facts: RecipeFacts, place: Place, words: Words) -> tuple[str, ...]:
    """What only a pack can answer, at a place that bans something."""
    if not place.bans:
        return ()
    may = [word for word in facts.may_contain if any(_meets(ban, word) for ban in place.bans)]
    said = [words.pack_says_may_contain.format(listed(may, words))] if may else []
    known = {word for names in words.allergen_lists.values() for word in names}
    strange = [ban for ban in place.bans if base(ban) not in known]
    if facts.not_known or strange:
        said.append(words.not_checked.format(listed((*facts.not_known, *strange), words)))
    return tuple(said)


def _meets(ban: str, word: str) -> bool:
    """Whether a banned word takes in a recorded one; a kind in parentheses narrows either only when both name one."""
    if base(ban) != base(word):
        return False
    return ban == word or "(" not in ban or "(" not in word


def answer_words(answer: PlaceAnswer, words: Words) -> str:
    """`Microwave 700 W, 3 min`; or why not; with what is not known after it."""
    first = first_upper(answer.how) if answer.can else words.cannot_eat_there.format(listed(answer.against, words))
    return " ".join((f"{first.rstrip('.')}.", *answer.unsure))
