"""How long a recipe takes at its written size, from the minutes that its steps state."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from binder.model.recipe import Recipe, Step
from binder.pages.card_steps import step_minutes
from binder.pages.edition import unique
from binder.pages.format import minutes
from binder.pages.words.en import Words

_AFTER_ALL_PARTS = (None, "Together")
Stretch = tuple[Fraction, bool]  # minutes, and whether they are unattended


@dataclass(frozen=True, slots=True)
class RecipeMinutes:
    """Minutes of the prep day and of service; None where no step states any.

    `hands` is what somebody stands there for, `elapsed` from start to finish for one cook with tools enough.
    `complete` is False when a step states no minutes: then all of them are lower bounds.
    """

    hands: Fraction | None
    elapsed: Fraction | None
    service: Fraction | None
    complete: bool

    @property
    def total(self) -> Fraction | None:
        """Prep day and service together; None when nothing is stated."""
        said = [m for m in (self.elapsed, self.service) if m is not None]
        return sum(said, Fraction(0)) if said else None


def recipe_minutes(recipe: Recipe) -> RecipeMinutes:
    """Of the recipe alone: what the recipes that it uses as parts take is not in it."""
    steps = (*recipe.prep, *recipe.service)
    prep, service = _stretches(recipe.prep, recipe), _stretches(recipe.service, recipe)
    return RecipeMinutes(
        sum((m for m, unattended in prep if not unattended), Fraction(0)) if prep else None,
        _elapsed(recipe) if prep else None,
        sum((m for m, _ in service), Fraction(0)) if service else None,
        bool(steps) and all(step.minutes is not None for step in steps),
    )


def _stretches(steps: Sequence[Step], recipe: Recipe) -> list[Stretch]:
    """The steps that state minutes."""
    found = ((step_minutes(s, Fraction(1), recipe.portions), s.unattended) for s in steps)
    return [(m, unattended) for m, unattended in found if m is not None]


def _elapsed(recipe: Recipe) -> Fraction:
    """Start to finish: parts side by side, the cook at one thing at a time, the part with most to come first."""
    parts = [p for p in unique(s.part for s in recipe.prep) if p not in _AFTER_ALL_PARTS]
    lists = [_stretches([s for s in recipe.prep if s.part == part], recipe) for part in parts]
    free, ready = Fraction(0), [Fraction(0)] * len(lists)
    while any(lists):
        for n, waiting in enumerate(lists):
            while waiting and waiting[0][1]:
                ready[n] += waiting.pop(0)[0]
        next_ = [n for n, waiting in enumerate(lists) if waiting]
        if next_:
            n = min(next_, key=lambda n: (max(free, ready[n]), -sum(m for m, _ in lists[n]), n))
            free = ready[n] = max(free, ready[n]) + lists[n].pop(0)[0]
    last = _stretches([s for s in recipe.prep if s.part in _AFTER_ALL_PARTS], recipe)
    return max([free, *ready]) + sum((m for m, _ in last), Fraction(0))


def minutes_text(of: RecipeMinutes, words: Words) -> str:
    """`51 min, 24 min of it handwork; 10 min at service`; `at least` where a step states none; "" without any."""
    said = []
    if of.elapsed is not None and of.hands is not None:
        form = words.minutes_all_handwork if of.hands == of.elapsed else words.minutes_of_handwork
        said.append(form.format(time=minutes(of.elapsed), hands=minutes(of.hands)))
    if of.service is not None:
        said.append(words.minutes_at_service.format(minutes(of.service)))
    text = "; ".join(said)
    return text if of.complete or not text else words.at_least.format(text)
