"""What stands in boxes on a card: allergens in words, substitutions, temperatures and cautions."""

from __future__ import annotations

from collections.abc import Sequence

from binder.model.recipe import Ingredient
from binder.pages.edition import HOT_TOOLS, PRESSURE_COOKER, Edition, unique
from binder.pages.format import first_upper, listed
from binder.pages.measures import quantities
from binder.pages.page import Block, Box, Bullets, Para, Text, plain
from binder.reckon.facts import Batch, RecipeFacts, Serving


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
        lines.append(plain(before + " ".join(allergen_words(*kind, edition))))
    blocks = (*(Para(line) for line in lines), Para(plain(w.read_the_pack), "caution"))
    return [Box("allergens", w.allergens, blocks)]


def substitution_notes(key: str, servings: Sequence[Serving], edition: Edition) -> list[Block]:
    """What is used in place of what, for whom, at the recipe's written size."""
    week = edition.week
    if week is None:
        return []
    w = edition.words
    eaters = {s.eater for s in servings}
    lines = []
    for one in week.substitutions:
        if one.recipe == key and (not eaters or eaters & set(one.eaters)):
            lines.append(plain(w.substituted.format(
                use=ingredient_text(one.use, edition), instead=one.instead_of, eaters=listed(one.eaters, w)
            )))  # fmt: skip
    return (
        [Box("note", w.substitutions, (Bullets(tuple(lines)), Para(plain(w.substitution_check), "note")))]
        if lines
        else []
    )


def ingredient_text(line: Ingredient, edition: Edition) -> str:
    """`4 tbsp tahini`."""
    return f"{quantities(line.measures, edition.style)} {line.food.name}".strip()


def cautions(facts: RecipeFacts, batch: Batch | None, edition: Edition) -> list[Block]:
    """Temperatures and cautions that this dish calls for; nothing where it calls for none."""
    w = edition.words
    kinds = {use.kind for step in (*facts.recipe.prep, *facts.recipe.service) for use in step.uses}
    lines: list[str] = []
    if kinds & HOT_TOOLS and any(line.ingredient.food.aisle == "meat and fish" for line in facts.ingredients):
        lines.append(w.core_meat)
    if kinds & HOT_TOOLS and any(word.startswith("eggs") for word in facts.contains):
        lines.append(w.core_eggs)
    if kinds & HOT_TOOLS and facts.form in ("ready", "assemble"):
        lines.append(w.cool_shallow)
    if any(way.means != "cold" for way in facts.reheat):
        lines.append(w.reheat_caution)
    if PRESSURE_COOKER in kinds:
        lines.append(w.pressure_caution)
    if not lines:
        return []
    blocks: tuple[Block, ...] = (Bullets(tuple(plain(first_upper(line)) for line in lines)),)
    return [Box("caution", w.caution, (*blocks, Para(plain(w.local_rules), "note")))]
