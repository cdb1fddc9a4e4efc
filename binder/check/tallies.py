"""The household's own counts, in the steps it stated."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from types import MappingProxyType

from binder.check.amounts import amount_of
from binder.check.declare import Found, Said
from binder.model.food import TallyStep
from binder.model.quantity import Measure
from binder.problem import error
from binder.tables.measures import System

Written = tuple[tuple[Said[str], tuple[tuple[Said[Measure], Said[Fraction]], ...]], ...]


def tally_steps(
    written: Written, cup: System, found: Found, portions: bool = False
) -> Mapping[str, tuple[TallyStep, ...]]:
    """Each count's steps, smallest first; of one count all in one unit, portions only when `portions`."""
    made: dict[str, tuple[TallyStep, ...]] = {}
    for name, steps in written:
        made[name.value] = tuple(sorted(_steps(steps, cup, found, portions), key=lambda step: step.at.low))
    return MappingProxyType(made)


def _steps(
    steps: tuple[tuple[Said[Measure], Said[Fraction]], ...], cup: System, found: Found, portions: bool
) -> list[TallyStep]:
    made: list[TallyStep] = []
    for at, count in steps:
        amount = amount_of(at.value, cup)
        if portions and at.value.unit not in ("portion", "each"):
            found.append(error(at.span, "unknown-unit", f'"{at.text}" is not in portions', "write it as 2 portions"))
        elif amount is None or (made and amount.unit != made[0].at.unit):
            message = f'"{at.text}" does not add up with the other steps'
            found.append(error(at.span, "unknown-unit", message, "write all steps in one unit"))
        elif amount.is_range:
            found.append(error(at.span, "bad-amount", f'"{at.text}" is a range', "write one number for a step"))
        else:
            made.append(TallyStep(amount, count.value))
    return made
