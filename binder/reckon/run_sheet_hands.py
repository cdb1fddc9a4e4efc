"""What is in hand in a task: its part's ingredients, and of raw meat and fish whether it is among them."""

from __future__ import annotations

import re

from binder.model.recipe import Ingredient, Recipe, Step
from binder.reckon.run_sheet_equipment import is_hot
from binder.reckon.run_sheet_tasks import TOGETHER, Planned
from binder.tables.words import plain, singular

MEAT = "meat and fish"  # the aisle
# Words of a step that may stand for any raw meat or fish of the dish: common practice.
_ANY_MEAT = frozenset({"meat", "fish", "seafood", "shellfish", "poultry", "mince", "fillet", "steak", "cutlet"})
_SHORTEST = 3  # letters of a word that names a food
_WORD = re.compile(r"[^\W\d_]+")


def in_hand(task: Planned) -> tuple[Ingredient, ...]:
    """The ingredients of the step's own part, where they are written under one; else all that is cooked.

    What an eater avoids goes by these: a step that names some of a dish's foods may use others, too.
    """
    if task.step is None or task.batch is None or task.batch.facts is None:
        return ()
    lines = tuple(line for line in task.batch.facts.recipe.ingredients if line.when == "cooked")
    return _of_part(task.step, lines) or lines


def handled(task: Planned) -> tuple[Ingredient, ...]:
    """Of what is in hand the ingredients that the steps name, where their part's name is no ingredient part's.

    The steps of the part up to this one count, since a step says `it` of what stands in the one before. Where none is
    named, and in `### Together`, where all parts meet, it is all that is in hand; so is raw meat or fish that no step
    of the dish names and that has no steps of its own part.
    """
    lines = in_hand(task)
    step = task.step
    if step is None or step.part is None or step.part.casefold() == TOGETHER or _of_part(step, lines):
        return lines
    assert task.batch is not None and task.batch.facts is not None  # it has a step
    recipe = task.batch.facts.recipe
    said = _words(" ".join(_texts_to(step, recipe)))
    if not any(_is_named(line, said) for line in lines):
        return lines
    return tuple(
        line for line in lines if _is_named(line, said) or (line.food.aisle == MEAT and not _is_placed(line, recipe))
    )


def _is_placed(line: Ingredient, recipe: Recipe) -> bool:
    """Whether the steps say where an ingredient goes: by its name, or by its part's."""
    part = (line.part or "").casefold()
    of_part = any((step.part or "").casefold() == part for step in recipe.prep)
    return of_part or _is_named(line, _words(" ".join(step.text for step in recipe.prep)))


def has_raw_meat(task: Planned) -> bool:
    """Whether raw meat or fish is in hand at a cutting board or apart from heat: a step on the stove kills what it may
    spread, one before does not."""
    hot = task.step is not None and is_hot(task.step)
    return not hot and any(line.food.aisle == MEAT for line in handled(task))


def _of_part(step: Step, lines: tuple[Ingredient, ...]) -> tuple[Ingredient, ...]:
    part = (step.part or "").casefold()
    return tuple(line for line in lines if (line.part or "").casefold() == part)


def _texts_to(step: Step, recipe: Recipe) -> list[str]:
    """The texts of the part's steps up to this one."""
    texts = []
    for other in recipe.prep:
        if other.part == step.part:
            texts.append(other.text)
            if other is step:
                break
    return texts


def _words(text: str) -> frozenset[str]:
    words = (singular(word) for word in _WORD.findall(plain(text)))
    return frozenset(word for word in words if len(word) >= _SHORTEST)


def _is_named(line: Ingredient, said: frozenset[str]) -> bool:
    """Whether a word of the food's name is said: `the lamb` for ground lamb, `the peppers` for red bell peppers."""
    name = _words(f"{line.food.name} {line.recipe or ''}".replace("-", " "))
    return not name.isdisjoint(said) or (line.food.aisle == MEAT and not _ANY_MEAT.isdisjoint(said))
