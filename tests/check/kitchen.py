"""A small household of four files, and ways to change one of them and look at what the check says."""

from __future__ import annotations

from collections.abc import Mapping

from binder.check.library import Checked, check_library
from binder.model.library import Library
from binder.problem import Problem
from binder.source.document import Document, read_document

HOUSEHOLD = """\
household: The mill flat
allergen list: us
time zone: Europe/Lisbon
eaters:
  - {name: Ana, avoids: [milk], aims: {energy: 1900 kcal}, eats lunch at: office}
  - {name: Rui, tallies: {vegetables: 6}}
places:
  - {name: home, has: [oven, 4 burners, microwave 800 W]}
  - {name: office, has: [microwave 700 W], bans: [peanuts]}
containers:
  - {name: tub, holds: 3 cup, have: 4}
"""
FOODS = """\
- name: seed crackers
  synonyms: [crackers of seeds]
  label: {serving: 30 g, energy: 120 kcal, protein: 4 g, fat: 4 g, carbohydrate: 17 g}
  contains: [wheat, sesame]
"""
STOCK = """\
freezer:
  - 2 portions bean stew, made 2026-05-20
cupboard:
  - 400 g butternut squash
"""
STEW = """\
---
title: Bean stew
meal: lunch
makes: 4 portions
ingredients:
  - 2 cups recipe: tomato-base
  - 1 onion, chopped
at service:
  - 4 tbsp ricotta
keeps: soups and stews
container: tub
---
A stew.

## Prep day
1. Chop. [5 min, cutting board]
"""
BASE = """\
---
title: Tomato base
makes: 3 cups
ingredients: [800 g tomatoes]
---
"""
WEEK = """\
---
week: 2026-W24
prep:
  - {on: 2026-06-07, at: "13:00"}
meals:
  - {lunch: bean-stew, for: [Ana, Rui], on: mon-fri}
substitutions:
  - {in: bean-stew, for: Ana, use: 4 tbsp tahini, instead of: ricotta}
already: [2 portions bean stew]
---
"""
FILES: Mapping[str, str] = {
    "household.yaml": HOUSEHOLD,
    "foods.yaml": FOODS,
    "stock.yaml": STOCK,
    "recipes/bean-stew.md": STEW,
    "recipes/tomato-base.md": BASE,
    "weeks/2026-W24.md": WEEK,
}
PHOTOS = frozenset(("stew.jpg",))


def documents(files: Mapping[str, str]) -> dict[str, Document]:
    """Every file read."""
    return {
        path: read_document(text.encode(), path, "yaml" if path.endswith(".yaml") else "markdown")
        for path, text in files.items()
    }


def checked(changes: Mapping[str, str] | None = None, *, without: str = "", only_week: str | None = None) -> Checked:
    """The small household with some files written anew or added, one perhaps taken away."""
    files = {path: text for path, text in {**FILES, **(changes or {})}.items() if path != without}
    return check_library(documents(files), PHOTOS, only_week)


def library(changes: Mapping[str, str] | None = None) -> Library:
    """What it means; it must be without a problem."""
    result = checked(changes)
    assert result.problems == ()
    assert result.library is not None
    return result.library


def marked(text: str) -> tuple[str, tuple[int, int, int]]:
    """A text without its «marks», and the line, column and end of what stood between them."""
    before, _, rest = text.partition("«")
    inside, _, after = rest.partition("»")
    line = before.count("\n") + 1
    column = len(before) - before.rfind("\n")
    return before + inside + after, (line, column, column + len(inside))


def problems_at(problems: tuple[Problem, ...], path: str) -> list[tuple[str, str, tuple[int, int, int]]]:
    """Severity, code and place of the problems of one file."""
    return [
        (one.severity, one.code, (one.span.line, one.span.column, one.span.end))
        for one in problems
        if one.span.path == path
    ]
