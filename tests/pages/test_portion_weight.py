"""A weight says how it is known: an estimate is marked, and says what it leaves out."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from types import MappingProxyType
from typing import Any

import pytest

from binder.pages import packing
from binder.pages.card_portion import portion_size
from binder.pages.format import NBSP
from binder.pages.portion_weight import (
    by_past,
    far_from_parts,
    how_known,
    of_label,
    of_portion,
    of_row,
    weight,
)
from binder.pages.words.en import Words
from binder.reckon.past_facts import Past
from binder.reckon.recipe_facts import CookedYield, RecipeFacts

from .fixture import BAKE_FACTS
from .fixture_week import edition, week_facts
from .reading import words

W = Words()
PASTA = CookedYield("pasta", 2.379, "USDA SR28 20120 and 20121, water")


def baked(**changes: Any) -> RecipeFacts:
    return replace(BAKE_FACTS, per_portion=replace(BAKE_FACTS.per_portion, **changes))


@pytest.mark.parametrize(
    ("value", "known_from", "said"),
    [
        (350, "stated", "350 g"), (412.6, "weighed", "413 g"), (412.6, None, "413 g"),
        (412.6, "estimate", "about 410 g"), (73, "estimate", "about 75 g"), (2874, "estimate", "about 2.87 kg"),
    ],
)  # fmt: skip
def test_an_estimate_is_marked_and_rounded(value: float, known_from: Any, said: str) -> None:
    assert weight(value, known_from, W).replace(NBSP, " ") == said


def test_a_table_has_a_short_mark() -> None:
    assert weight(412.6, "estimate", W, short=True).replace(NBSP, " ") == "≈ 410 g"


def test_what_is_cooked_comes_before_what_goes_in() -> None:
    cooked = baked(cooked_grams=700.0, cooked_grams_from="estimate").per_portion
    assert of_portion(cooked, W, 2.0) == weight(1400, "estimate", W)
    assert of_portion(replace(cooked, cooked_grams=None, grams=None), W) is None


def test_the_card_marks_an_estimate() -> None:
    size = portion_size(baked(cooked_grams=700.0, cooked_grams_from="estimate"), edition()).replace(NBSP, " ")
    assert size.endswith("≈ 700 g") and "about" not in size


def test_how_a_weight_is_known() -> None:
    found = baked(
        cooked_grams=700.0, cooked_grams_from="estimate", cooked_yields=(PASTA,), cooked_not_counted=("boils off",)
    )
    said = how_known(found, W).replace(NBSP, " ")
    assert "about 700 g, an estimate" in said and "pasta × 2.38 when cooked (USDA SR28 20120" in said
    assert "what boils off is not known" in said and "dries out" not in said
    assert "as the recipe states it" in how_known(baked(cooked_grams=350.0, cooked_grams_from="stated"), W)
    assert "before cooking" in how_known(baked(cooked_grams=None, cooked_grams_from=None), W)
    assert how_known(baked(cooked_grams=None, grams=None), W) == ""


def test_the_packing_sheet_marks_estimates_and_says_what_the_mark_means() -> None:
    rows = week_facts().packing
    plain = words(packing.pages(edition()))
    assert "≈" not in plain
    marked = tuple(replace(r, cooked_grams_each=412.6, cooked_grams_from="estimate") for r in rows)
    assert of_row(marked[0], W, Past()) == weight(412.6, "estimate", W, short=True)
    said = words(packing.pages(edition(facts=week_facts(packing=marked))))
    assert "≈ 410 g" in said.replace(NBSP, " ") and W.nearly_note in said


@pytest.mark.parametrize(
    ("stated", "like", "heated", "far"),
    [(350, 800, False, True), (350, 800, True, True), (400, 800, True, False), (480, 800, False, False),
     (470, 800, False, True), (1040, 800, False, False), (1050, 800, False, True)],
)  # fmt: skip
def test_a_portion_far_from_its_parts(stated: float, like: float, heated: bool, far: bool) -> None:
    facts = baked(
        cooked_grams=stated, cooked_grams_from="stated", by_what_goes_in=like,
        cooked_not_counted=("boils off",) if heated else (),
    )  # fmt: skip
    assert bool(far_from_parts(facts, W)) is far
    assert not far_from_parts(replace(facts, per_portion=replace(facts.per_portion, cooked_grams_from="weighed")), W)


def test_what_was_weighed_comes_before_an_estimate_and_after_what_is_stated() -> None:
    """Earlier batches weighed 400 g a portion, the estimate says 412.6 g."""
    past = Past(each_grams=MappingProxyType({BAKE_FACTS.key: Fraction(400)}))
    guess = baked(cooked_grams=412.6, cooked_grams_from="estimate")
    assert by_past(guess.per_portion, BAKE_FACTS.key, past).cooked_grams == 400
    assert by_past(guess.per_portion, "another", past).cooked_grams == 412.6
    stated = baked(cooked_grams=412.6, cooked_grams_from="stated").per_portion
    assert by_past(stated, BAKE_FACTS.key, past) == stated
    row = replace(week_facts().packing[0], cooked_grams_each=412.6, cooked_grams_from="estimate")
    assert of_row(replace(row, portions_each=Fraction(3, 4)), W, past) == f"≈{NBSP}300{NBSP}g"
    label = replace(week_facts().labels[0], grams=412.6, grams_from="estimate")
    assert (of_label(label, W, past), of_label(label, W, Past())) == (f"≈{NBSP}400{NBSP}g", f"≈{NBSP}410{NBSP}g")
    assert portion_size(guess, edition(), past).endswith(f"≈{NBSP}400{NBSP}g")


def test_a_set_that_is_roasted_before_it_is_packed_weighs_so_much_before_cooking() -> None:
    row, label = week_facts().packing[0], week_facts().labels[0]
    assert of_row(replace(row, raw_grams=True), W, Past()) == f"350{NBSP}g before cooking"
    assert of_label(replace(label, raw_grams=True), W, Past()) == f"350{NBSP}g before cooking"
    assert of_label(label, W, Past()) == f"350{NBSP}g"
