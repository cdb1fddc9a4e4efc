"""A portion on a card: what it weighs as it is packed and with what is added, and its figures, variant by variant."""

from __future__ import annotations

from collections.abc import Sequence

from binder.model.quantity import Amount, Measure
from binder.pages.edition import Edition, unique
from binder.pages.figures import IN_SHORT, figure_of, in_short, missing_foods, tally_text
from binder.pages.format import listed
from binder.pages.measures import amount, in_own_system, quantity
from binder.pages.portion_weight import by_past, of_portion, weight
from binder.reckon.facts import Serving
from binder.reckon.past_facts import Past
from binder.reckon.recipe_facts import Nutrition, PerPortion, RecipeFacts

NO_PAST = Past()
# What is added to a portion is told in grams from this share of it on.
MUCH = 0.2
# Figures of two variants differ by no more than this through rounding (21 CFR 101.9(c): tens of kcal, whole grams).
ROUNDED_TO = {"energy_kcal": 10.0, "protein_g": 1.0}


def portion_text(facts: RecipeFacts, servings: Sequence[Serving], edition: Edition) -> str:
    """`300 g before cooking; with what is added ≈ 560 g, about 630 kcal, 39 g protein; for Maren 780 kcal, 41 g`."""
    w, past = edition.words, edition.facts.past
    kinds = _kinds(facts, servings)
    size, added = portion_size(facts, edition, past), _with_added(kinds[0][0], edition)
    if size and facts.form == "kit" and facts.per_portion.cooked_grams is None and facts.per_portion.grams is not None:
        size = w.before_cooking.format(size)
    first = figures_text(kinds[0][0], edition)
    said = [size, added.format(first)]
    said += [
        w.figures_for.format(who=listed(who, w), figures=_bare(of.per_portion.nutrition, edition))
        for of, who in kinds[1:]
    ]
    return "; ".join(part for part in said if part)


def portion_size(facts: RecipeFacts, edition: Edition, past: Past = NO_PAST) -> str:
    """`2 cups, about 350 g`, or what of it is known; `past`: what closed weeks weighed counts before an estimate."""
    said = []
    measure = facts.recipe.portion_measure
    if measure and measure.unit != "each":
        said.append(quantity(in_own_system(measure, edition.style), edition.style))
    elif facts.portion:
        said.append(pieces_or_amount(facts.portion, edition))
    portion, w = by_past(facts.per_portion, facts.key, past), edition.words
    if not (measure and measure.unit in ("g", "kg")) and (weight := of_portion(portion, w, short=True)) is not None:
        said.append(weight if portion.cooked_grams_from == "estimate" else w.about.format(weight))
    return ", ".join(said)


def pieces_or_amount(what: Amount, edition: Edition) -> str:
    """`12 pieces`: a bare number would not say of what."""
    if what.unit == "each":
        return quantity(Measure(what.low, what.high, "piece"), edition.style)
    return amount(what, edition.style)


def _with_added(facts: RecipeFacts, edition: Edition) -> str:
    """What to say of the figures `{}`, which hold what stands beside a portion and is added at service; its weight does
    not. Where that is much, the weight of all of it is told."""
    w, portion = edition.words, by_past(facts.per_portion, facts.key, edition.facts.past)
    own = portion.grams if portion.cooked_grams is None else portion.cooked_grams
    lines = [line for line in facts.ingredients if line.when != "cooked" and line.ingredient.measures]
    if own is None or not lines:
        return "{}"
    added = sum(line.grams.middle * line.eaten for line in lines if line.grams) / float(facts.recipe.portions)
    if any(line.grams is None for line in lines) or added < MUCH * own:
        return w.in_all
    return w.with_added.format(weight(own + added, "estimate", w, short=True), "{}")


def _kinds(facts: RecipeFacts, servings: Sequence[Serving]) -> list[tuple[RecipeFacts, tuple[str, ...]]]:
    """Variants whose figures differ by more than rounding, with their eaters: first that of the most servings."""
    kinds: list[tuple[RecipeFacts, list[Serving]]] = []
    for serving in servings:
        of = serving.facts or facts
        alike = next((some for known, some in kinds if _alike(known.per_portion, of.per_portion)), None)
        if alike is None:
            kinds.append((of, [serving]))
        else:
            alike.append(serving)
    kinds.sort(key=lambda kind: -len(kind[1]))
    return [(of, unique(s.eater for s in some)) for of, some in kinds] or [(facts, ())]


def _alike(one: PerPortion, other: PerPortion) -> bool:
    a, b = one.nutrition, other.nutrition
    return all(_near(a, b, name) and (name in a.at_least) == (name in b.at_least) for name in IN_SHORT)


def _near(one: Nutrition, other: Nutrition, name: str) -> bool:
    a, b = one.value(name), other.value(name)
    if a is None or b is None:
        return a is b
    return max(abs(a.low - b.low), abs(a.high - b.high)) < ROUNDED_TO[name]


def _bare(nutrition: Nutrition, edition: Edition) -> str:
    return ", ".join(figure_of(nutrition, name, edition.words) for name in IN_SHORT)


def figures_text(facts: RecipeFacts, edition: Edition) -> str:
    """`about 520 kcal, 32 g protein; vegetables 2`."""
    w, portion = edition.words, facts.per_portion
    said = [in_short(portion.nutrition, w)]
    if portion.tallies.counts:
        said.append(tally_text(portion.tallies, w))
    if missing_foods([portion.nutrition], IN_SHORT):
        said.append(w.no_figures_for.format(", ".join(missing_foods([portion.nutrition], IN_SHORT))))
    return "; ".join(said)
