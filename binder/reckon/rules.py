"""What a plan may not do: serve what an eater avoids, bring what a place bans, reheat where nothing can heat.

Findings stand at the meal's line, one for each line, eater and place, and name the days; what a place lacks to finish a
dish is one finding for all who eat it there.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date

from binder.model.household import HOME, Eater, Household, Place
from binder.model.week import MealLine
from binder.problem import Problem, error, warning
from binder.reckon import allergens, reheating
from binder.reckon.avoiding import avoided_foods, lines_of, of_other_list
from binder.reckon.facts import Serving
from binder.reckon.recipe_facts import RecipeFacts
from binder.reckon.words import days_in_words, listed
from binder.tables import food_kinds

_LISTS = {"us": "US", "eu": "EU"}
UNFINISHED = "cannot be finished at"
# Equipment without which a step at service cannot be done; a board or a bowl is found anywhere.
COOKS_WITH = frozenset({"oven", "burner", "microwave", "kettle", "pressure cooker"})


@dataclass(frozen=True, slots=True)
class _Group:
    """The servings of one line that one eater has at one place."""

    line: MealLine
    eater: Eater
    place: Place
    facts: RecipeFacts
    servings: tuple[Serving, ...]

    @property
    def when(self) -> str:
        days = sorted({s.date for s in self.servings if s.date})
        return f" on {days_in_words(days)}" if days else ""

    @property
    def who(self) -> str:
        return f"{self.facts.title} for {self.eater.name}{self.when}"


def findings(servings: tuple[Serving, ...], household: Household) -> tuple[Problem, ...]:
    """Every rule, over the whole week."""
    problems: list[Problem] = []
    groups = tuple(_groups(servings, household))
    for group in groups:
        problems.extend(_avoided(group, household))
        problems.extend(_banned(group, household))
        problems.extend(_not_known(group, household))
        problems.extend(_reheat(group))
        problems.extend(_tally(group))
    return (*problems, *_unfinished(groups))


def _groups(servings: tuple[Serving, ...], household: Household) -> Iterator[_Group]:
    found: dict[tuple[int, str, str, str], list[Serving]] = {}
    for serving in servings:
        key = (id(serving.line), serving.eater, serving.place, serving.lot or "")
        found.setdefault(key, []).append(serving)
    for group in found.values():
        first = group[0]
        assert first.facts is not None
        yield _Group(first.line, household.eater(first.eater), household.place(first.place), first.facts, tuple(group))


def _foods(words: Iterable[str], source: Mapping[str, tuple[str, ...]]) -> str:
    return listed(_with_foods(word, source.get(word, ())) for word in words)


def _with_foods(word: str, foods: tuple[str, ...]) -> str:
    """`milk (ricotta)`; a word that has its foods in brackets, `tree nuts (almonds)`, says them once."""
    name, bracket, named = word.removesuffix(")").partition(" (")
    if not bracket:
        return f"{word} ({', '.join(foods)})" if foods else word
    others = [food for food in foods if food.casefold() != named.casefold()]
    return f"{name} ({named}: {', '.join(others)})" if others else word


def _avoided(group: _Group, household: Household) -> Iterator[Problem]:
    facts, line = group.facts, group.line
    said: set[tuple[str, ...]] = set()
    for avoided in group.eater.avoids:
        if meaning := allergens.meaning(avoided):
            if meaning in said:
                continue  # `barley` is both a food and a cereal of the EU list: said once.
            if what := _contained(avoided, facts, household):
                said.add(meaning)
                message = f"{group.who} contains {what}; {group.eater.name} avoids {avoided}"
                yield error(line.span, "avoided-food", message)
            elif may := allergens.covered(avoided, facts.may_contain):
                what = _foods(may, dict(facts.allergens.may_from))
                message = f"{group.who} may contain {what}; {group.eater.name} avoids {avoided}"
                yield warning(line.span, "may-contain", message, "take a pack without the words, or another dish")
        elif foods := avoided_foods(avoided, facts):
            message = f"{group.who} contains {listed(foods)}; {group.eater.name} avoids {avoided}"
            yield error(line.span, "avoided-food", message)
        elif may := _may_be(avoided, facts):
            what = _foods(may, dict(facts.allergens.may_from))
            message = f"{group.who} may contain {what}; {group.eater.name} avoids {avoided}"
            yield warning(line.span, "may-contain", message, "take a pack without the words, or another dish")


def _may_be(kind: str, facts: RecipeFacts) -> tuple[str, ...]:
    """What a dish may contain of the allergens that belong to a kind of food."""
    found = (allergens.covered(word, facts.may_contain) for word in food_kinds.watched(kind))
    return tuple(dict.fromkeys(word for words in found for word in words))


def _banned(group: _Group, household: Household) -> Iterator[Problem]:
    facts, line, place = group.facts, group.line, group.place
    if not place.home_food and group.servings[0].kept != "at service":
        message = f"{group.who} is made at home; {place.name} takes no food from home"
        yield error(line.span, "banned-at-place", message)
    for banned in place.bans:
        if what := _contained(banned, facts, household):
            message = f"{group.who} contains {what}; {place.name} does not allow {banned}"
            yield error(line.span, "banned-at-place", message)
        elif may := allergens.covered(banned, facts.may_contain):
            what = _foods(may, dict(facts.allergens.may_from))
            message = f"{group.who} may contain {what}; {place.name} does not allow {banned}"
            yield warning(line.span, "may-contain", message, "take a pack without the words, or another dish")


def _contained(word: str, facts: RecipeFacts, household: Household) -> str:
    """What a dish contains of an allergen of either list, with the foods that say so; empty when nothing is found."""
    if found := allergens.covered(word, facts.contains):
        return _foods(found, dict(facts.allergens.contains_from))
    if others := of_other_list(word, facts):
        return _foods(others, others)
    # Where the household's records have no such word, a food of that name counts as it stands.
    return "" if allergens.in_list(word, household.allergen_list) else listed(avoided_foods(word, facts))


def _not_recorded(word: str, group: _Group, household: Household) -> tuple[str, ...]:
    """The foods whose records cannot tell of an allergen, as it stands only in the list that they do not go by."""
    if allergens.in_list(word, household.allergen_list):
        return ()
    foods = ((line.food, line.ingredient.food) for line in lines_of(group.facts) if line.made_from is None)
    return tuple(dict.fromkeys(name for name, food in foods if food.contains is not None and not food.other_recorded))


def _not_known(group: _Group, household: Household) -> Iterator[Problem]:
    name = _LISTS[household.allergen_list]
    watching = [(word, f"{group.eater.name} avoids") for word in group.eater.avoids]
    watching += [(word, f"{group.place.name} does not allow") for word in group.place.bans]
    by_meaning = {(allergens.meaning(word), why): word for word, why in reversed(watching)}
    for (_, why), word in by_meaning.items():
        untold = () if _contained(word, group.facts, household) else _not_recorded(word, group, household)
        if untold:
            message = (
                f"{group.who}: a record by the {name} list does not tell of {word}, which {why} ({listed(untold)})"
            )
            remedy = f"read the pack; `allergen list: {'eu' if name == 'US' else 'us'}` has the word"
            yield warning(group.line.span, "allergens-not-known", message, remedy)
    if not group.facts.not_known:
        return
    watched = [word for word in group.eater.avoids if allergens.is_allergen(word) or food_kinds.watched(word)]
    reasons = [f"{group.eater.name} avoids {listed(watched)}"] if watched else []
    if group.place.bans:
        reasons.append(f"{group.place.name} does not allow {listed(group.place.bans)}")
    if reasons:
        foods = listed(group.facts.not_known)
        message = f"{group.who}: no allergen record for {foods}, and {' and '.join(reasons)}"
        remedy = "read the pack and give the food `contains: [...]` in foods.yaml ([] when it names none of the list)"
        yield warning(group.line.span, "allergens-not-known", message, remedy)


def _reheat(group: _Group) -> Iterator[Problem]:
    if group.servings[0].kept == "at service" or not reheating.impossible(group.facts.recipe, group.place):
        return
    ways = listed(dict.fromkeys(line.means for line in group.facts.recipe.reheat))
    has = listed(tool.kind for tool in group.place.tools) or "nothing"
    message = f"{group.who} cannot be reheated at {group.place.name}: it takes {ways}, and there is {has}"
    tools = [reheating.tool_of(way) for way in dict.fromkeys(line.means for line in group.facts.recipe.reheat)]
    cold = "; when the dish is good and safe to eat cold, write cold under its reheat"
    remedy = f"{_if_there(tools, group.place.name, 'or')}{cold}"
    yield error(group.line.span, "cannot-reheat", message, remedy)


def lacking(facts: RecipeFacts, place: Place) -> tuple[str, ...]:
    """The tools that finishing a dish takes and a place has not."""
    needed = list(facts.recipe.needs)
    if place.name != HOME:
        uses = [use.kind for step in facts.recipe.service for use in step.uses]
        needed += [kind for kind in uses if kind in COOKS_WITH]
    has = {tool.kind for tool in place.tools}
    return tuple(kind for kind in dict.fromkeys(needed) if kind not in has)


def _unfinished(groups: Iterable[_Group]) -> Iterator[Problem]:
    """One finding for each line and place, whoever eats there: what is missing is the place's, and the way out too."""
    alike: dict[tuple[int, str, tuple[str, ...]], list[_Group]] = {}
    for group in groups:
        if tools := lacking(group.facts, group.place):
            alike.setdefault((id(group.line), group.place.name, tools), []).append(group)
    for (_, place, tools), found in alike.items():
        first = found[0]
        days = sorted({s.date for group in found for s in group.servings if s.date})
        when = f" on {days_in_words(days)}" if days else ""
        who = f"{first.facts.title} for {listed(dict.fromkeys(group.eater.name for group in found))}{when}"
        message = f"{who} {UNFINISHED} {place}: no {listed(tools)} there"
        yield error(first.line.span, "cannot-finish", message, _if_there(tools, place))


def _if_there(tools: Iterable[str], place: str, last: str = "and") -> str:
    return f"when it is there: write {listed(dict.fromkeys(tools), last)} into what {place} has, in household.yaml"


def _tally(group: _Group) -> Iterator[Problem]:
    names: dict[str, set[str]] = {}
    for serving in group.servings:
        for name in serving.tallies.at_least:
            names.setdefault(name, set()).add(f"{float(serving.portions):g}")
    for name, portions in sorted(names.items()):
        counts = listed(sorted(portions))
        message = f"{group.who}: no step of the tally {name} is stated for {counts} portions; the step below counts"
        remedy = f"state it: tallies: {{{name}: {{{sorted(portions)[0]} portions: ...}}}}"
        yield warning(group.line.span, "tally-step", message, remedy)


def days_of(servings: Iterable[Serving]) -> tuple[date, ...]:
    """The days on which servings are eaten."""
    return tuple(sorted({s.date for s in servings if s.date}))
