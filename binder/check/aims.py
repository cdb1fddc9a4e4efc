"""What an eater aims at: a nutrient in the unit it is summed in, or a count of the household's own."""

from __future__ import annotations

from types import MappingProxyType

from binder.check.amount_kinds import Wanted
from binder.check.declare import Said
from binder.check.leaves import quantity
from binder.check.near import ways_out
from binder.model.household import Aim
from binder.problem import Problem, error

NUTRIENT_WORDS = MappingProxyType(
    {
        "energy": "energy_kcal",
        "protein": "protein_g",
        "fat": "fat_g",
        "saturated fat": "saturated_fat_g",
        "carbohydrate": "carbohydrate_g",
        "fibre": "fibre_g",
        "sugars": "sugars_g",
        "sodium": "sodium_mg",
        "potassium": "potassium_mg",
        "calcium": "calcium_mg",
        "iron": "iron_mg",
    }
)


def aim(name: Said[str], wanted: Said[Wanted]) -> tuple[Aim | None, tuple[Problem, ...]]:
    """One line of `aims`; a number without a unit under another name is a tally's."""
    nutrient = NUTRIENT_WORDS.get(name.value.lower())
    said = wanted.value
    if nutrient is None:
        if said.unit:
            remedies = ways_out(name.value, tuple(NUTRIENT_WORDS), "the nutrients")
            message = f'"{name.value}" is no nutrient, and a tally has no unit'
            return None, (error(name.span, "wrong-type", message, *remedies),)
        return tally_aim(name, wanted), ()
    text = f"{said.number} {said.unit}".strip()
    value, problem = quantity(text, wanted.span, nutrient.rpartition("_")[2])
    if value is None or problem:
        return None, (problem,) if problem else ()
    return Aim(nutrient, said.kind, float(value), wanted.text), ()


def tally_aim(name: Said[str], wanted: Said[Wanted]) -> Aim:
    """A line of an eater's `tallies`: the most a day, unless it says otherwise."""
    said = wanted.value
    text = wanted.text if not wanted.text[:1].isdigit() or said.kind == "about" else f"{said.kind} {wanted.text}"
    return Aim(name.value, said.kind, float(said.number), text)
