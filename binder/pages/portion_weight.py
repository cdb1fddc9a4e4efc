"""What a portion weighs, and how that is known: stated, weighed, or an estimate that says what it leaves out."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from binder.pages.format import NBSP, grams, half_up, number
from binder.pages.words.en import Words
from binder.reckon.facts import LabelFacts, PackingRow
from binder.reckon.past_facts import Past
from binder.reckon.recipe_facts import CookedFrom, PerPortion, RecipeFacts


def weight(value: float, known_from: CookedFrom | None, words: Words, short: bool = False) -> str:
    """`350 g`; an estimate is `about 410 g` (`≈ 410 g` in tables), to the nearest 10 g, or 5 g under 100 g."""
    if known_from != "estimate":
        return grams(value)
    said = grams(half_up(Fraction(value), 10 if value >= 100 else 5))
    return f"≈{NBSP}{said}" if short else words.about.format(said)


def of_portion(portion: PerPortion, words: Words, times: float = 1.0, short: bool = False) -> str | None:
    """The weight of so many portions; of a kit what goes into it; None: not known."""
    if portion.cooked_grams is not None:
        return weight(portion.cooked_grams * times, portion.cooked_grams_from, words, short)
    return grams(portion.grams * times) if portion.grams is not None else None


def by_past(portion: PerPortion, key: str, past: Past) -> PerPortion:
    """A portion with the mean of what closed weeks weighed, where all that is known else is an estimate."""
    each = past.each_grams.get(key)
    if each is None or portion.cooked_grams_from != "estimate":
        return portion
    return replace(portion, cooked_grams=float(each))


def of_row(row: PackingRow, words: Words, past: Past) -> str | None:
    """What each container of a row of the packing sheet weighs, without the container; None: not known."""
    each = past.each_grams.get(row.recipe)
    if each is not None and row.portions_each and row.cooked_grams_from == "estimate":
        return weight(float(each * row.portions_each), "estimate", words, short=True)
    if row.raw_grams and row.grams_each is not None:
        return words.before_cooking.format(grams(row.grams_each))
    if row.cooked_grams_each is not None:
        return weight(row.cooked_grams_each, row.cooked_grams_from, words, short=True)
    return grams(row.grams_each) if row.grams_each is not None else None


def of_label(label: LabelFacts, words: Words, past: Past) -> str:
    """What the container of a label weighs, without the container; "": not known."""
    if label.grams is None:
        return ""
    if label.raw_grams:
        return words.before_cooking.format(grams(label.grams))
    value, each = label.grams, past.each_grams.get(label.recipe)
    if each is not None and label.portions and label.grams_from == "estimate":
        value = float(each * label.portions)
    return weight(value, label.grams_from, words, short=True)


def how_known(facts: RecipeFacts, words: Words) -> str:
    """`Weight of a portion: about 410 g, an estimate: ...`; "" where nothing is known."""
    portion, said = facts.per_portion, of_portion(facts.per_portion, words)
    if said is None:
        return ""
    if portion.cooked_grams_from is None:
        return words.weight_before_cooking.format(said)
    if portion.cooked_grams_from != "estimate":
        return words.weight_known[portion.cooked_grams_from].format(said)
    yields = [
        words.weight_by_yield.format(food=one.food, share=number(one.share, 2), source=one.source)
        for one in portion.cooked_yields
    ]
    left = [words.weight_not_counted[one] for one in portion.cooked_not_counted]
    return words.weight_estimated.format(said, "".join(f"; {part}" for part in (*yields, *left)))


# A stated weight below this share of what goes in, or above that, is a slip of the pen or another portion than meant.
LEAST, LEAST_WHEN_HEATED, MOST = 0.6, 0.45, 1.3


def is_far_from_parts(portion: PerPortion) -> bool:
    """Whether a stated portion is far from what its ingredients weigh; water boils off and dries out of what is hot."""
    like = portion.by_what_goes_in
    if portion.cooked_grams_from != "stated" or portion.cooked_grams is None or not like:
        return False
    least = LEAST_WHEN_HEATED if portion.cooked_not_counted else LEAST
    return not least <= portion.cooked_grams / like <= MOST


def far_from_parts(facts: RecipeFacts, words: Words) -> str:
    """What to say of a stated portion that its ingredients do not bear out; "" where they do."""
    portion = facts.per_portion
    if not is_far_from_parts(portion) or portion.cooked_grams is None or portion.by_what_goes_in is None:
        return ""
    return words.weight_far_off.format(
        stated=grams(portion.cooked_grams), parts=weight(portion.by_what_goes_in, "estimate", words)
    )
