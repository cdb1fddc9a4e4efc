"""The figures on a pack, worked out for 100 g, and a cross-check of their energy."""

from __future__ import annotations

from fractions import Fraction

from binder.check.declare import Entry, Field, Said
from binder.check.fields import LabelFields
from binder.model.food import NO_FIGURES, NUTRIENTS, Food, FoodWeight
from binder.model.quantity import Interval, Measure
from binder.problem import Problem, warning
from binder.tables import measures, rounding
from binder.tables.allergens import AllergenList
from binder.tables.measures import System

_FIELDS: tuple[Field[Said[Fraction]], ...] = (
    LabelFields.energy, LabelFields.protein, LabelFields.fat, LabelFields.saturated_fat, LabelFields.carbohydrate,
    LabelFields.fibre, LabelFields.sugars, LabelFields.sodium, LabelFields.potassium, LabelFields.calcium,
    LabelFields.iron,
)  # fmt: skip
_NAMES = tuple(one.name for one in _FIELDS)
# Salt on a label is sodium x 2.5 (Regulation (EU) 1169/2011, Annex I): 1 g salt is 400 mg sodium.
_SODIUM_MG_OF_SALT_G = 400
# General factors, kcal/g (21 CFR 101.9(c)(1)(i); Regulation (EU) 1169/2011, Annex XIV: fibre 2).
PROTEIN, FAT, CARBOHYDRATE, FIBRE = 4, 9, 4, 2
OFF_BY = Fraction(1, 5)
# Labels round: figures of a few kcal disagree by chance.
ROUNDING_KCAL = 10


def _said(entry: Entry, of: Field[Said[Fraction]]) -> Fraction | None:
    said = entry.get(of)
    if said is None and of is LabelFields.sodium:
        salt = entry.get(LabelFields.salt)
        return salt.value * _SODIUM_MG_OF_SALT_G if salt else None
    return said.value if said else None


def serving_grams(measure: Measure, weights: tuple[FoodWeight, ...], cup: System) -> Fraction | None:
    """What a serving weighs: as stated, by the household's scale, or by another volume of that scale; else None."""
    if measure.unit in measures.G_PER:
        return measure.low * measures.g_per(measure.unit)
    exact = [w for w in weights if w.unit == measure.unit and w.size in ("", measure.size)]
    if exact:
        return measure.low * Fraction(exact[0].grams)
    volumes = [w for w in weights if w.unit in measures.ML_PER]
    if measure.unit in measures.ML_PER and volumes:
        per_ml = Fraction(volumes[0].grams) / measures.ml_per(volumes[0].unit, cup)
        return measure.low * measures.ml_per(measure.unit, cup) * per_ml
    return None


def figures_of(
    entry: Entry | None, weights: tuple[FoodWeight, ...], cup: System
) -> tuple[tuple[float | None, ...], tuple[Problem, ...]]:
    """Figures per 100 g in NUTRIENTS order; all None, and a warning, when the serving has no weight."""
    serving = entry.get(LabelFields.serving) if entry else None
    if entry is None or serving is None:
        return NO_FIGURES, ()
    grams = serving_grams(serving.value, weights, cup)
    if not grams:
        message = f'a serving of "{serving.text}" has no weight, so the label says nothing per gram'
        remedy = "write the serving in g, or its weight under weights"
        return NO_FIGURES, (warning(serving.span, "no-weight", message, remedy),)
    said = [_said(entry, of) for of in _FIELDS]
    return tuple(None if one is None else float(one * 100 / grams) for one in said), ()


def before_rounding(
    entry: Entry | None, weights: tuple[FoodWeight, ...], cup: System, listed: AllergenList
) -> tuple[Interval | None, ...]:
    """What each figure of the label may have been before it was rounded, per 100 g; None where it has none.

    A label rounds by the serving (US) or by 100 g (EU); the rule is that of the household's allergen list.
    """
    serving = entry.get(LabelFields.serving) if entry else None
    grams = serving_grams(serving.value, weights, cup) if serving else None
    if entry is None or not grams:
        return (None,) * len(NUTRIENTS)
    found: list[Interval | None] = []
    for name, of in zip(NUTRIENTS, _FIELDS, strict=True):
        said = _said(entry, of)
        if said is None:
            found.append(None)
            continue
        low, high = rounding.before_rounding(name, said, listed)
        found.append(Interval(float(low * 100 / grams), float(high * 100 / grams)))
    return tuple(found)


def merged(own: tuple[float | None, ...], base: Food | None) -> tuple[tuple[float | None, ...], str]:
    """The label's figures, filled up from the row behind them, and in words which is whose."""
    if all(one is None for one in own):
        return (base.per_100_g, base.figures_from) if base else (NO_FIGURES, "")
    if base is None:
        return own, "label"
    pairs = list(zip(own, base.per_100_g, strict=True))
    filled = [name for name, (mine, theirs) in zip(_NAMES, pairs, strict=True) if mine is None and theirs is not None]
    words = f"label; {', '.join(filled)} from {base.figures_from}" if filled else "label"
    return tuple(theirs if mine is None else mine for mine, theirs in pairs), words


def energy_problem(entry: Entry | None, listed: AllergenList) -> tuple[Problem, ...]:
    """A warning when stated energy and 4/9/4 disagree by more than 20 %.

    Honest labels differ in how they count fibre: US labels may leave indigestible carbohydrate out (0 to 4 kcal/g of
    the carbohydrate stated), EU labels state carbohydrate without fibre and count it at 2. Anything between is fine.
    """
    energy = entry.get(LabelFields.energy) if entry else None
    if entry is None or energy is None:
        return ()
    protein, fat, carbohydrate = (
        _said(entry, of) for of in (LabelFields.protein, LabelFields.fat, LabelFields.carbohydrate)
    )
    if protein is None or fat is None or carbohydrate is None:
        return ()
    fibre = _said(entry, LabelFields.fibre) or Fraction(0)
    sum_kcal = PROTEIN * protein + FAT * fat + CARBOHYDRATE * carbohydrate
    if listed == "us":
        low, high = sum_kcal - CARBOHYDRATE * min(fibre, carbohydrate), sum_kcal
    else:
        low, high = sum_kcal, sum_kcal + FIBRE * fibre
    stated = energy.value
    off = low - stated if stated < low else stated - high
    bound = low if stated < low else high
    if off <= ROUNDING_KCAL or off <= OFF_BY * bound:
        return ()
    message = f"{float(stated):.0f} kcal, but protein, fat and carbohydrate make about {float(sum_kcal):.0f} kcal"
    remedy = "look at the pack again: energy, or grams for another serving (alcohol and sweeteners can explain it)"
    return (warning(energy.span, "energy-unlikely", message, remedy),)
