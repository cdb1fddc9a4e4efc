"""What is written in cans: bought in cans, weighed without the liquid where it is drained, told in one weight."""

from __future__ import annotations

import re

import pytest

from tests.kitchen import WEEK, Kitchen, only

STEW = """
title: Stew
meal: lunch
form: ready
makes: 2 portions
ingredients:
  - 2 (15 oz) cans white beans, drained
  - 1 bunch kale, chopped
keeps: soups and stews
container: deep tub
reheat: [cold]
"""
WEEKS = """
prep: [{on: 2026-06-07, at: "13:00"}]
meals:
  - {lunch: stew, for: everyone, on: mon}
"""


@pytest.fixture
def stew(kitchen: Kitchen) -> Kitchen:
    kitchen.household("time zone:", "measures: metric\ntime zone:")
    return kitchen.recipe("stew", STEW, "## Prep day\n1. Simmer. [30 min, burner]\n").week(WEEKS)


def page(kitchen: Kitchen, name: str) -> str:
    html = (kitchen.out / f"site/weeks/{WEEK}/{name}/index.html").read_text("utf-8")
    return re.sub(r"<[^>]+>", " ", html).replace("\u00a0", " ")


def test_three_cans_are_bought_and_facts_keep_grams(stew: Kitchen) -> None:
    """Three eaters, a recipe of two: 3 cans of 15 oz, 425.24 g each (NIST Handbook 44, Appendix C)."""
    facts = stew.facts()
    row = only(facts["shopping"], food="canned white beans")
    assert row["need"]["unit"] == "g" and row["need"]["amount"] == pytest.approx(3 * 425.24, abs=0.1)
    stew.build("--only", "site")
    assert re.search(r"Canned white beans\s+3 × 425 g cans\s+3 cans", page(stew, "shopping"))
    assert re.search(r"Kale\s+2 bunches\s+1½ bunches", page(stew, "shopping"))


def test_card_and_mise_en_place_say_one_weight_and_that_it_is_drained(stew: Kitchen) -> None:
    grams = only(stew.recipe_facts("stew")["ingredients"], food="canned white beans")["grams"]
    assert grams < 0.7 * 2 * 425  # without the liquid
    stew.build("--only", "site")
    said = f"{round(grams * 1.5)} g drained"
    assert said in page(stew, "mise") and said in page(stew, "cards")
