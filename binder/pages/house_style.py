"""How this household's pages speak: language, measures, money. Every page is written with one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from binder.model.household import Household
from binder.pages.words import words_of
from binder.pages.words.en import Words


@dataclass(frozen=True, slots=True)
class HouseStyle:
    """What amounts and money are written in."""

    words: Words
    measures: Literal["us", "metric", "both"]
    cup: Literal["us", "metric", "uk"]
    currency: str


def house_style(household: Household) -> HouseStyle:
    """The style of a household; a language without a file of its own is printed in English."""
    return HouseStyle(words_of(household.language), household.measures, household.cup, household.currency)
