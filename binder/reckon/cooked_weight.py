"""What a dish weighs when it is cooked, where nobody weighed it: an estimate, what it rests on and what it leaves out.

What goes into a pot stays in it, but for what boils off. Only three things change that, and are counted: grains and
pulses that are boiled in water no line measures take it up; water that a line measures and a step drains is gone;
meat and fish over dry heat lose juice. What boils off or dries out is not known, and is said.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal

from binder.model.food import Food
from binder.model.recipe import Recipe, Step
from binder.reckon import conversion
from binder.reckon.recipe_facts import CookedYield, IngredientFacts
from binder.tables import composition, cooking_yields
from binder.tables.words import singular

Uncounted = Literal["boils off", "dries out"]
WATER_ROWS = frozenset({"14411", "14429"})  # SR28: tap water, ice
MOSTLY_WATER_PERCENT = 80.0
_WET = re.compile(
    r"\b(boil|simmer|poach|steam|stew|brais|blanch|parboil|(?:under|at) pressure|absorb|swell|soak|kettle|al dente)",
    re.IGNORECASE,
)
_DRY = re.compile(
    r"\b(roast|bak(?:e|ing)|broil|grill|fry|fried|fries|frying|brown(?:s|ed|ing)?\b|sear|saut|toast|griddle|crisp)",
    re.IGNORECASE,
)
_COOK = re.compile(r"\bcook", re.IGNORECASE)
_DRAIN = re.compile(r"\bdrain", re.IGNORECASE)
_WORD = re.compile(r"[a-z]+")
_WET_TOOLS = frozenset({"pressure cooker", "kettle"})
_TOGETHER = "together"
_POURED = frozenset({"broth", "stock", "water", "liquid", "juice", "juices", "whey", "syrup", "brine", "milk"})


@dataclass(frozen=True, slots=True)
class Estimate:
    """Grams of the whole recipe, cooked; the yields that were used, and what no figure is known for."""

    grams: float
    yields: tuple[CookedYield, ...]
    uncounted: tuple[Uncounted, ...]


@dataclass(frozen=True, slots=True)
class _Heat:
    """How one step heats, whose step it is, and which foods of the recipe it names."""

    part: str  # "" serves every part
    wet: bool
    dry: bool
    drains: bool
    names: frozenset[str]


def estimated(recipe: Recipe, lines: Iterable[IngredientFacts], cup: conversion.CupSystem = "us") -> Estimate | None:
    """The estimate of what is cooked together, without the broth that it gives as a by-product.

    None where a weight is not known, and for a kit, which is not cooked.
    """
    inside = [line for line in lines if line.when == "cooked" and line.ingredient.measures]
    known = [weight for line in inside if (weight := _grams(line)) is not None]
    if recipe.form == "kit" or not inside or len(known) < len(inside):
        return None
    heats = tuple(_heat(step, inside) for step in recipe.prep)
    weights = list(zip(inside, known, strict=True))
    yields: list[CookedYield] = []
    swell: dict[str, float] = {}  # grams of water taken up, by the part whose water it is; "" for the whole recipe's
    juice = 0.0
    for line, grams in weights:
        mine = [heat for heat in heats if heat.part in ("", _part(line))]
        if (grain := _grain(line, mine)) is not None:
            where = _boiled_in(line, mine)
            swell[where] = swell.get(where, 0.0) + grams * (grain.share - 1)
            yields.append(CookedYield(line.food, grain.share, grain.source))
        elif (meat := _meat(line, mine)) is not None:
            juice += grams * (1 - meat.share)
            yields.append(CookedYield(line.food, meat.share, meat.source))
    gained = sum(_water(where, taken_up, weights, heats) for where, taken_up in swell.items())
    total = max(0.0, sum(known) + gained - juice - _poured_off(recipe, cup))
    return Estimate(total, tuple(yields), _uncounted(heats))


def changes(recipe: Recipe, part: str, lines: Iterable[IngredientFacts]) -> bool:
    """Whether steps of the session heat or drain what goes into a part of a kit, so that it weighs another weight.

    A heading of the steps that no part has (`Sauce`) is taken for the part whose foods are named most under it; steps
    without one change the parts whose foods they name.
    """
    inside = [line for line in lines if line.when == "cooked"]
    foods: dict[str, set[str]] = {}
    for line in inside:
        foods.setdefault(_part(line), set()).add(line.food)
    heats, own = [_heat(step, inside) for step in recipe.prep], part.casefold()
    for heat in heats:
        if heat.wet or heat.dry or heat.drains:
            meant = {name for name, of in foods.items() if of & heat.names} if heat.part == "" else {heat.part}
            if heat.part and heat.part not in foods:
                named = {food for other in heats if other.part == heat.part for food in other.names}
                most = max((len(of & named) for of in foods.values()), default=0)
                meant = {name for name, of in foods.items() if len(of & named) == most > 0}
            if own in meant:
                return True
    return False


def _part(line: IngredientFacts) -> str:
    return (line.part or "").casefold()


def _heat(step: Step, lines: Iterable[IngredientFacts]) -> _Heat:
    """A step at the oven is dry, one at the pressure cooker wet, where its words do not say."""
    tools = {use.kind for use in step.uses}
    drains, dry = bool(_DRAIN.search(step.text)), bool(_DRY.search(step.text))
    wet = bool(_WET.search(step.text))
    said = wet or dry
    wet = wet or bool(not dry and _COOK.search(step.text) and (drains or "burner" in tools))
    wet = wet or bool(not said and tools & _WET_TOOLS)
    dry = dry or bool(not wet and "oven" in tools)
    words = {singular(word) for word in _WORD.findall(step.text.casefold())}
    part = (step.part or "").casefold()
    names = frozenset(line.food for line in lines if words & _words(line.food))
    return _Heat("" if part == _TOGETHER else part, wet, dry, drains, names)


def _words(food: str) -> frozenset[str]:
    """The words by which a step may call a food: `chicken` or `thigh` for chicken thighs."""
    return frozenset(singular(word) for word in _WORD.findall(food.casefold()) if len(word) > 3)


def _about(line: IngredientFacts, heats: Iterable[_Heat]) -> list[_Heat]:
    """The steps that name the food of a line, and those that name none at all."""
    return [heat for heat in heats if line.food in heat.names or not heat.names]


def _grams(line: IngredientFacts) -> float | None:
    """What of a line goes into the pot; of a part made from another recipe what it weighs cooked."""
    part = line.made_from
    if part is not None and line.share is not None and part.per_portion.cooked_grams is not None:
        return line.share.middle * part.per_portion.cooked_grams * part.portions
    return line.grams.middle * line.eaten if line.grams is not None else None


def _grain(line: IngredientFacts, heats: list[_Heat]) -> cooking_yields.GrainYield | None:
    """The yield of a dry grain or pulse that is boiled; None for one that is not, or is a porridge."""
    found = cooking_yields.of_row(line.ingredient.food.row or "")
    if found is None or found.porridge or "cooked" in line.ingredient.preparation:
        return None
    return found if any(heat.wet for heat in _about(line, heats)) else None


def _meat(line: IngredientFacts, heats: list[_Heat]) -> cooking_yields.CookingYield | None:
    """The yield of a meat or fish that only dry heat cooks: in a pot its juice stays in the dish."""
    found = cooking_yields.of_raw_row(line.ingredient.food.row or "")
    if found is None or found.method in ("braised", "boiled"):
        return None
    about = _about(line, heats)
    return found if any(heat.dry for heat in about) and not any(heat.wet for heat in about) else None


def _boiled_in(line: IngredientFacts, heats: list[_Heat]) -> str:
    """The part whose water a grain is boiled in: its own where a step of that part boils it; "" for the recipe's."""
    own = any(heat.wet and heat.part == _part(line) for heat in _about(line, heats))
    return _part(line) if own else ""


def _water(
    where: str, taken_up: float, weights: list[tuple[IngredientFacts, float]], heats: tuple[_Heat, ...]
) -> float:
    """What a boiled grain adds to what the lines weigh: water that no line measures, or less than none when drained."""
    of = [(line, grams) for line, grams in weights if where in ("", _part(line))]
    water = sum(grams for line, grams in of if line.ingredient.food.row in WATER_ROWS)
    grains = {line.food for line, _ in of if cooking_yields.of_row(line.ingredient.food.row or "")}
    drained = any(
        heat.drains and (heat.wet or heat.names & grains) for heat in heats if heat.part in ("", where) or not where
    )
    if water and drained:
        return taken_up - water  # it went down the sink, but for what was taken up
    measured = sum(grams for line, grams in of if _is_mostly_water(line.ingredient.food))
    return max(0.0, taken_up - measured)


def _poured_off(recipe: Recipe, cup: conversion.CupSystem) -> float:
    """Grams of the liquids that a recipe gives; seeds and peels were never in the edible weight."""
    total = 0.0
    for gift in recipe.gives:
        amount = conversion.total_amount(gift.measures, gift.pack, cup)
        if amount is None or gift.food.name.split()[-1].casefold() not in _POURED:
            continue
        weighed = conversion.weigh_all(gift.food, gift.measures, gift.pack, gift.form_words, cup)
        # Nearly water, and part of an estimate: 1 g for each mL where the food's own weight is not known.
        total += weighed.grams.middle if weighed else float((amount.low + amount.high) / 2)
    return total


def _is_mostly_water(food: Food) -> bool:
    """A liquid that a grain can take up: water, broth, milk; no oil and no syrup."""
    if food.row in WATER_ROWS:
        return True
    row = composition.row(food.row) if food.row else None
    return food.fluid and (row is None or (row.water_g or 0) >= MOSTLY_WATER_PERCENT)


def _uncounted(heats: tuple[_Heat, ...]) -> tuple[Uncounted, ...]:
    """What no figure is known for: steam from a pot, what an oven or a pan dries out."""
    said: Mapping[Uncounted, bool] = {
        "boils off": any(heat.wet for heat in heats),
        "dries out": any(heat.dry for heat in heats),
    }
    return tuple(word for word, true in said.items() if true)
