"""What stands in boxes on a card: allergens in words, substitutions, temperatures and cautions."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from binder.model.recipe import HOT_TOOLS, Ingredient
from binder.pages.card_steps import deadline
from binder.pages.edition import PRESSURE_COOKER, Edition, run, unique
from binder.pages.format import first_upper, listed
from binder.pages.measures import in_own_system, quantities, steps_of
from binder.pages.page import Block, Box, Bullets, Para, Text, plain
from binder.reckon.facts import Batch, Serving
from binder.reckon.recipe_facts import RecipeFacts


def allergen_words(
    contains: Sequence[str], may_contain: Sequence[str], not_known: Sequence[str], edition: Edition
) -> tuple[str, ...]:
    """`Contains milk, wheat.` `Pack says may contain sesame.` `Not checked: radish.`; never that nothing is in it."""
    w = edition.words
    said = [w.contains.format(", ".join(contains)) if contains else w.contains_none_recorded]
    said += [w.pack_says_may_contain.format(", ".join(may_contain))] if may_contain else []
    return (*said, *([w.not_checked.format(", ".join(not_known))] if not_known else []))


def allergen_box(servings: Sequence[Serving], facts: RecipeFacts, edition: Edition) -> list[Block]:
    """In words, in a ruled box. Where servings differ by a substitution, a line for each kind."""
    w = edition.words
    kinds = unique((s.contains, s.may_contain, s.not_known) for s in servings)
    if not kinds:
        kinds = ((facts.contains, facts.may_contain, facts.not_known),)
    lines: list[Text] = []
    for kind in kinds:
        who = unique(s.eater for s in servings if (s.contains, s.may_contain, s.not_known) == kind)
        before = w.portions_for.format(listed(who, w)) + " " if len(kinds) > 1 else ""
        lines.append((*run(before, "strong"), *run(" ".join(allergen_words(*kind, edition)))))
    lines[-1] = (*lines[-1], *run(f" {w.read_the_pack_short}"))
    return [Box("allergens", w.allergens, tuple(Para(line) for line in lines))]


def substitution_notes(key: str, factor: Fraction, servings: Sequence[Serving], edition: Edition) -> list[Block]:
    """What is used in place of what, for whom, at this week's size: a line each.

    What is cooked is at the card's `factor`, as its other lines are; what is added later is for each portion.
    """
    week, facts = edition.week, edition.facts_of(key)
    if week is None:
        return []
    w = edition.words
    eaters = {s.eater for s in servings}
    notes: list[Block] = []
    for one in week.substitutions:
        if one.recipe != key or (eaters and not eaters & set(one.eaters)):
            continue
        cooked = facts is None or facts.recipe.ingredients[one.replaces[0]].when == "cooked"
        times = factor if cooked else 1 / facts.recipe.portions if facts else factor
        said = w.substituted if cooked else w.substituted_each
        use = ingredient_text(one.use, times, edition)
        notes.append(Para(plain(said.format(use=use, instead=one.instead_of, eaters=listed(one.eaters, w)))))
    return notes


def ingredient_text(line: Ingredient, factor: Fraction, edition: Edition) -> str:
    """`4 tbsp tahini`, at a factor."""
    said = quantities(
        [in_own_system(m.times(factor), edition.style) for m in line.measures], edition.style, steps_of(line.food)
    )
    return f"{said} {line.food.name}".strip()


def cautions(facts: RecipeFacts, batch: Batch | None, edition: Edition) -> list[Block]:
    """Temperatures and cautions that this dish calls for, whole; nothing where it calls for none."""
    w, calls = edition.words, _calls_for(facts)
    said = (w.core_meat, w.core_eggs, w.cool_shallow, w.reheat_caution, w.pressure_caution)
    lines = [line for line, called in zip(said, calls, strict=True) if called]
    if not lines:
        return []
    blocks: tuple[Block, ...] = (Bullets(tuple(plain(first_upper(line)) for line in lines)),)
    return [Box("caution", w.caution, (*blocks, Para(plain(w.local_rules), "note")))]


def care(facts: RecipeFacts, batch: Batch | None, edition: Edition) -> list[Block]:
    """The same on a card of the binder, in one paragraph, with this batch's hours; at length: sections 4, 7 and 13."""
    w, calls = edition.words, _calls_for(facts)
    said = (w.core_meat_short, w.core_eggs_short, w.cool_shallow_short, w.reheat_short, w.pressure_short)
    lines = [line for line, called in zip(said, calls, strict=True) if called]
    if hours := deadline(batch, edition):
        lines = [hours, *(line for line in lines if line != w.cool_shallow_short)]
    if not lines:
        return []
    text = " ".join((*lines, w.local_rules_short))
    return [Box("caution", w.caution, (Para(plain(text)),))]


def _calls_for(facts: RecipeFacts) -> tuple[bool, bool, bool, bool, bool]:
    """Whether a dish has hot meat or fish, hot eggs, must be cooled, is reheated, is cooked under pressure."""
    kinds = {use.kind for step in (*facts.recipe.prep, *facts.recipe.service) for use in step.uses}
    hot = bool(kinds & HOT_TOOLS)
    return (
        hot and any(line.ingredient.food.aisle == "meat and fish" for line in facts.ingredients),
        hot and any(word.startswith("eggs") for word in facts.contains),
        hot and facts.form in ("ready", "assemble"),
        any(way.means != "cold" for way in facts.reheat),
        PRESSURE_COOKER in kinds,
    )
