"""The colours of the screen, light and dark, by WCAG 2.2: 1.4.3 for words, 1.4.11 for what is drawn."""

from __future__ import annotations

import re

import pytest

from tests.press import samples

Colours = dict[str, str]
_ROOT = re.compile(r":root \{([^}]*)\}")
_COLOUR = re.compile(r"--([a-z]+): (#[0-9a-f]{3,6})")
WORDS = [
    ("ink", "sheet"), ("ink", "paper"), ("ink", "mark"), ("soft", "sheet"), ("soft", "paper"), ("accent", "sheet"),
    ("accent", "paper"), ("accent", "mark"), ("soft", "mark"),
]  # fmt: skip
# The frame of a box to tick, to type into or to press, the mark of the tab that is open, the ring of the focus.
DRAWN = [("ink", "sheet"), ("ink", "paper"), ("accent", "sheet"), ("accent", "paper")]


def schemes() -> dict[str, Colours]:
    """What the style sheet sets for light, dark and paper; the later hold what they do not change."""
    light, dark, printed = (dict(_COLOUR.findall(block)) for block in _ROOT.findall(samples.DEFAULT.css["style.css"]))
    return {"light": light, "dark": light | dark, "print": light | printed}


def luminance(colour: str) -> float:
    """WCAG 2.2, relative luminance."""
    digits = colour[1:] if len(colour) == 7 else "".join(digit * 2 for digit in colour[1:])
    parts = [int(digits[n : n + 2], 16) / 255 for n in (0, 2, 4)]
    red, green, blue = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_the_ratio_is_the_standards() -> None:
    """Black on white is 21; #767676 on white is the lightest grey of 4.5 (WCAG 2.2, Understanding 1.4.3)."""
    assert contrast("#000", "#fff") == pytest.approx(21)
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.01)


@pytest.mark.parametrize("scheme", ["light", "dark", "print"])
def test_words_and_what_is_drawn_stand_out(scheme: str) -> None:
    colours = schemes()[scheme]
    ratios = {(front, ground): contrast(colours[front], colours[ground]) for front, ground in WORDS}
    assert {pair: ratio for pair, ratio in ratios.items() if ratio < 4.5} == {}
    assert all(contrast(colours[front], colours[ground]) >= 3 for front, ground in DRAWN)


def test_light_and_dark_are_two() -> None:
    light, dark = schemes()["light"], schemes()["dark"]
    assert luminance(light["sheet"]) > 0.9 and luminance(dark["sheet"]) < 0.02 and light["ink"] != dark["ink"]
