"""A recipe in plain text, as it is typed, copied or scanned: a title, ingredient lines, steps.

Headings part it where there are any ("Ingredients", "Method"); else lines that begin with an amount are ingredients
up to the first line that reads as a step. What is neither stays as a note, so that nothing is lost.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from binder.source.found_recipe import FoundLine, FoundRecipe, portions_in

_MARKS = re.compile(r"^\s*(?:#{1,6}\s+|[-*•·▢☐]\s+|\[[ x]?\]\s+)+")
_NUMBERED = re.compile(r"^\s*(?:step\s+)?\d{1,2}\s*[.):]\s+(?=\D)", re.IGNORECASE)
_MAKES = re.compile(r"^(?:serves|makes|yields?|servings|portions|for)\b\s*:?\s*(?=.*\d)|^\d+\s+(?:servings|portions)\b",
                    re.IGNORECASE)  # fmt: skip
_SOURCE = re.compile(r"^(?:source|from|recipe by|adapted from|by)\s*:\s*|^(?=https?://)", re.IGNORECASE)
_HEADS = {
    "ingredients": "ingredients", "you will need": "ingredients", "you need": "ingredients",
    "method": "steps", "directions": "steps", "instructions": "steps", "preparation": "steps", "steps": "steps",
    "how to make it": "steps", "procedure": "steps",
    "notes": "notes", "note": "notes", "tips": "notes", "tip": "notes",
}  # fmt: skip
_AMOUNT = re.compile(
    r"^(?:\d|[¼½¾⅓⅔⅛⅜⅝⅞]|(?:an?|one|two|three|four|five|six|half|a few|a couple|pinch|dash|handful|juice|zest)\b)", re.I
)
_NO_AMOUNT = re.compile(r"\bto taste$|,? for (?:serving|garnish|frying|the pan)$|, optional$", re.I)
_NOTE = re.compile(r"^(?:(?:cook['’]s\s+|chef['’]s\s+)?(?:tips?|notes?)|n\.?\s?b\.?)\s*:\s*(?=\S)", re.IGNORECASE)
_FOR_THE = re.compile(r"(?:for|to make)\s+(?:the|your|our)(?:\s+[^\d\s.,;!?]+){1,4}", re.IGNORECASE)
_LONGEST_INGREDIENT = 90  # characters: a longer line is a step, whatever it begins with
_LONGEST_PART = 48


@dataclass(slots=True)
class _Reading:
    title: str = ""
    makes: str = ""
    source: str = ""
    part: str = ""
    under: str = ""  # the heading: "", ingredients, steps, notes
    numbered: bool = False  # whether its steps are
    ingredients: list[FoundLine] = field(default_factory=list)
    steps: list[FoundLine] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)


def recipe_in_text(text: str) -> FoundRecipe:
    """What can be told; a text without any of it gives a recipe with neither ingredients nor steps."""
    reading = _Reading()
    lines = [raw for raw in text.splitlines() if raw.strip()]
    for raw, following in zip(lines, [*lines[1:], ""], strict=False):
        _line(raw, _MARKS.sub("", following).strip(), reading)
    return FoundRecipe(
        title=reading.title,
        ingredients=tuple(reading.ingredients),
        steps=tuple(reading.steps),
        portions=portions_in(reading.makes),
        makes=reading.makes,
        notes="\n\n".join(reading.notes),
        source=reading.source,
    )


def _line(raw: str, following: str, at: _Reading) -> None:
    bare = " ".join(_MARKS.sub("", raw).split())
    if head := _HEADS.get(bare.rstrip(":").casefold()):
        at.under, at.part = head, ""
    elif not at.title:
        at.title = bare
    elif not at.makes and _MAKES.match(bare) and len(bare) <= _LONGEST_PART:
        at.makes = bare
    elif not at.source and _SOURCE.match(bare):
        at.source = _SOURCE.sub("", bare)
    elif at.under == "notes" and not (at.numbered and _NUMBERED.match(raw)):
        at.notes.append(bare)
    elif _NOTE.match(bare):
        at.notes.append(bare)
        if at.steps or at.under == "steps":
            at.under = "notes"  # A tip ends the steps: what follows is no part of the last of them.
    elif at.under != "steps" and (_is_part(bare) or _names_a_part(bare, following)):
        at.part = bare.rstrip(":").strip()
    elif at.under in ("steps", "notes") or _is_step(raw, bare, at):
        _step(raw, bare, at)
    elif at.under == "ingredients" or _AMOUNT.match(bare) or _NO_AMOUNT.search(bare):
        at.ingredients.append(FoundLine(bare, at.part))
    else:
        at.notes.append(bare)


def _is_part(bare: str) -> bool:
    """`For the dressing:`"""
    return bare.endswith(":") and len(bare) <= _LONGEST_PART


def _names_a_part(bare: str, following: str) -> bool:
    """`For the topping` without its colon, alone above a line that begins with an amount."""
    return bool(_FOR_THE.fullmatch(bare) and _AMOUNT.match(following)) and len(bare) <= _LONGEST_PART


def _is_step(raw: str, bare: str, at: _Reading) -> bool:
    """Numbered, too long for an ingredient, or a sentence after ingredients where no heading says what it is."""
    if _NUMBERED.match(raw) and not at.under:
        return True
    if at.under == "ingredients":
        return False
    if _NO_AMOUNT.search(bare):
        return False
    return bool(at.ingredients) and (len(bare) > _LONGEST_INGREDIENT or not _AMOUNT.match(bare))


def _step(raw: str, bare: str, at: _Reading) -> None:
    numbered = bool(_NUMBERED.match(raw))
    if _is_part(bare) and not numbered:
        at.part = bare.rstrip(":").strip()
        return
    if at.under != "steps":
        at.under, at.part = "steps", ""
    if at.numbered and not numbered:
        # A numbered step that goes on in the next line.
        last = at.steps.pop()
        at.steps.append(FoundLine(f"{last.text} {bare}", last.part))
        return
    at.numbered = at.numbered or numbered
    at.steps.append(FoundLine(_NUMBERED.sub("", bare), at.part))
