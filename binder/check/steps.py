"""The step lists of a recipe's body, with the tools each step keeps."""

from __future__ import annotations

import re
from fractions import Fraction

from binder.check.tools import read_tool
from binder.model.recipe import Step, Use
from binder.source import step_note
from binder.source.body import StepList
from binder.source.temperature import Temperature
from binder.tables.measures import System

TOGETHER = "Together"
# A large burner is a burner; a toaster oven or a rice cooker is no oven and no pressure cooker.
_WHICH_ONE = re.compile(
    r"^(?:(?:a|an|the|large|small|big|medium|front|back|hot|high|low)\s+)+"
    r"(?=(?:burner|hob|ring|board|(?:cutting|chopping) board|microwave|pressure cooker|kettle)s?\b)",
    re.IGNORECASE,
)


def fahrenheit(of: Temperature) -> Fraction:
    """Degrees Fahrenheit, exact (by definition: F = C x 9/5 + 32)."""
    return of.value if of.scale == "F" else of.value * Fraction(9, 5) + 32


def temperature_text(of: Temperature | None) -> str:
    """As on the dial: `400 °F`."""
    if of is None:
        return ""
    value = str(of.value) if of.value.denominator == 1 else f"{float(of.value):g}"
    return f"{value} °{of.scale}"


def _use(use: step_note.Use, system: System) -> Use:
    tool, _ = read_tool(_WHICH_ONE.sub("", use.words, count=1), use.span, system)
    degrees = fahrenheit(use.temperature) if use.temperature else None
    # `oven 2 racks` keeps two racks of one oven.
    count = max(use.count, tool.count, tool.racks)
    return Use(tool.kind, count, degrees, temperature_text(use.temperature))


def steps(lists: tuple[StepList, ...], system: System) -> tuple[Step, ...]:
    """Every step in the order written; the part waiting for all others is named Together however it is spelt."""
    made = []
    for listed in lists:
        together = listed.part is not None and listed.part.strip().casefold() == TOGETHER.casefold()
        part = TOGETHER if together else listed.part
        for step in listed.steps:
            note = step.note
            uses = tuple(_use(use, system) for use in note.uses) if note else ()
            made.append(
                Step(
                    step.text,
                    step.span,
                    part,
                    note.minutes if note else None,
                    note.unattended if note else False,
                    note is not None and note.per == "portion",
                    uses,
                )
            )
    return tuple(made)
