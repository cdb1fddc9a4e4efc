"""A label's figure stands with what its rounding hides; a sum takes the figure as it is printed."""

from __future__ import annotations

from dataclasses import replace

import pytest

from binder.model.food import NO_FIGURES, NUTRIENTS, Food
from binder.model.quantity import Interval
from binder.pages.format import NBSP
from binder.pages.site_numbers import figure_of_100_g
from binder.pages.words.en import Words

W = Words()


def of(value: float | None, before: Interval | None) -> str:
    figures = (value, *NO_FIGURES[1:])
    food = Food("rusks", per_100_g=figures, before_rounding=(before, *(None,) * (len(NUTRIENTS) - 1)))
    return figure_of_100_g(food, NUTRIENTS[0], W).replace(NBSP, " ")


@pytest.mark.parametrize(
    ("value", "before", "said"),
    [
        (400.0, Interval(383.3333, 416.6667), "400 ± 16.7"),
        (0.2083, Interval(0.1875, 0.2291), "0.208 ± 0.021"),
        (0.0, Interval(0, 16.6667), "0 (up to 16.7)"),
        (166.6667, Interval(158.3333, 183.3333), "166.667 (158.3–183.3)"),
        (212.0, None, "212"),
        (None, None, W.not_known),
    ],
)
def test_a_figure_says_what_its_rounding_hides(value: float | None, before: Interval | None, said: str) -> None:
    assert of(value, before) == said


def test_other_figures_of_the_food_stay_as_they_are() -> None:
    food = replace(Food("rusks"), per_100_g=(400.0, 5.0, *NO_FIGURES[2:]))
    assert figure_of_100_g(food, NUTRIENTS[1], W) == "5"
