"""A temperature as a cook writes it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal


@dataclass(frozen=True, slots=True)
class Temperature:
    """Degrees on the scale written: `400 F`, `200 °C`."""

    value: Fraction
    scale: Literal["F", "C"]


_TEMPERATURE = re.compile(
    r"(?<![\w.,/])(?P<value>[-−]?[0-9]{1,4}(?:[.,][0-9]{1,3})?)\s*(?:[°º]|deg(?:rees?)?\b\.?)?\s*"
    r"(?P<scale>fahrenheit|celsius|centigrade|[FC])\b",
    re.IGNORECASE,
)


def temperature_in(text: str) -> tuple[Temperature, int, int] | None:
    """The first temperature in a text with where it stands; a number without a scale is none."""
    found = _TEMPERATURE.search(text)
    if not found:
        return None
    value = Fraction(found["value"].replace(",", ".").replace("−", "-"))
    return Temperature(value, "F" if found["scale"][0] in "Ff" else "C"), found.start(), found.end()
