"""Allergen words as someone writes them, in the words of the household's list."""

from __future__ import annotations

from binder.check.declare import Said
from binder.check.near import ways_out
from binder.problem import Problem, error
from binder.tables import allergens
from binder.tables.allergens import AllergenList

_OTHER: dict[AllergenList, AllergenList] = {"us": "eu", "eu": "us"}
_NAMES: dict[AllergenList, str] = {"us": "US", "eu": "EU"}


def of_list(said: tuple[Said[str], ...], listed: AllergenList) -> tuple[tuple[str, ...], tuple[Problem, ...]]:
    """A record's words in the household's list, each once; a word that the list does not have is an error."""
    words: list[str] = []
    problems: list[Problem] = []
    for one in said:
        word = allergens.word_of(one.value, listed)
        if word:
            words.append(word)
        else:
            problems.append(_no_word(one, listed))
    return tuple(dict.fromkeys(words)), tuple(problems)


def _no_word(said: Said[str], listed: AllergenList) -> Problem:
    remedies = ways_out(said.value, allergens.words(listed), "the words of the list")
    message = f'"{said.value}" is no allergen of the {_NAMES[listed]} list'
    if allergens.word_of(said.value, _OTHER[listed]):
        remedies = (f"write `allergen list: {_OTHER[listed]}` in household.yaml", *remedies)
    return error(said.span, "wrong-type", message, *remedies)


def banned(said: tuple[Said[str], ...], listed: AllergenList) -> tuple[tuple[str, ...], tuple[Problem, ...]]:
    """What a place bans, in words of either list."""
    words: list[str] = []
    problems: list[Problem] = []
    for one in said:
        found = allergens.avoided_words(one.value)
        words.extend(allergens.word_of(word, listed) or word for word in found)
        if not found:
            everything = tuple(dict.fromkeys((*allergens.words("us"), *allergens.words("eu"))))
            remedies = ways_out(one.value, everything, "the words of both lists")
            problems.append(error(one.span, "wrong-type", f'"{one.value}" is no allergen of either list', *remedies))
    return tuple(dict.fromkeys(words)), tuple(problems)
