"""One small household without a problem, in which every `right` stretch of the problem codes stands once."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from types import MappingProxyType

from binder.disk import Content
from binder.examine import Asked, examine
from binder.memory import Memory
from binder.problem import Problem

TODAY = date(2026, 6, 7)  # the Sunday before the week

HOUSEHOLD = """\
household: The Quince Row flat
allergen list: us
time zone: America/Chicago
eaters:
  - name: Nell
    avoids: [milk]
  - {name: Otto, eats lunch at: workshop}
places:
  - name: home
    has: [oven, 2 burners, microwave 800 W, kettle, freezer]
  - {name: workshop, has: [microwave 700 W], bans: [peanuts]}
  - {name: river bench, has: [cool bag]}
containers:
  - {name: deep tub, holds: 3 cup, have: 8}
  - {name: jam jar, holds: 2 cup, have: 4, freezer: no}
"""
FOODS = """\
- name: seed crackers
  label: {serving: 30 g, energy: 120 kcal, protein: 4 g, fat: 4 g, carbohydrate: 17 g}
  contains: [wheat, sesame]
- name: dark spread
  label: {serving: 20 g, energy: 106 kcal, protein: 1 g, fat: 6 g, carbohydrate: 12 g}
  contains: []
  may contain: [milk]
- name: moon relish
  label: {serving: 20 g, energy: 12 kcal, protein: 0 g, fat: 0 g, carbohydrate: 3 g}
  once opened: 14 days
"""
STOCK = """\
fridge:
  - 100 g moon relish, opened 2026-06-03
freezer:
  - 2 portions bean stew, made 2026-05-20
cupboard:
  - 1 kg rice, best before 2027-01-31
  - 400 g butternut squash
"""
WEEK = """\
---
week: 2026-W24
prep:
  - {on: 2026-06-08, at: "09:00", cooks: 1}
meals:
  - {breakfast: toast, for: Otto, on: [tue]}
  - {breakfast: kettle-oats, for: Nell, on: wed, at: home}
  - {lunch: bean-stew, for: Nell, on: tue}
  - {lunch: peanut-noodles, for: Otto, on: wed, at: home}
  - {snack: relish-crackers, for: Otto, on: thu}
  - {snack: raw-sticks, for: Otto, on: fri, portions: 2}
  - {dinner: cheese-bake, for: Otto, on: tue}
  - {dinner: green-salad, for: Nell, on: tue}
  - {dinner: rice-pot, for: Otto, on: thu, portions: 1}
  - {snack: carrot-cream, for: Nell, on: tue}
already: [1 portion bean stew]
---
"""
STEW = """\
---
title: Bean stew
photo: stew.jpg
meal: lunch
makes: 4 portions
portion: 1 1/2 cup
ingredients:
  - 500 g white beans, cooked
  - 400 g carrots, sliced
keeps: soups and stews
container: deep tub
reheat:
  - microwave 800 W, 3 min, covered
---
"""
TOMATO_BASE = """\
---
title: Tomato base
makes: 3 cups
ingredients:
  - 800 g tomatoes, chopped
---
"""
CARROT_CREAM = """\
---
title: Carrot crème
meal: snack
makes: 4 portions
portion: 1 cup
ingredients: [600 g carrots, 2 cups water]
keeps: soups and stews
container: deep tub
---
"""
CHEESE_BAKE = """\
---
title: Cheese bake
meal: dinner
makes: 2 portions
ingredients:
  - 300 g broccoli, in florets
  - 250 g ricotta
---
"""
GREEN_SALAD = """\
---
title: Green salad
meal: dinner
makes: 1 portion
ingredients: [150 g romaine lettuce]
keeps: {fridge: 2 days}
freezes: no
---
"""
KETTLE_OATS = """\
---
title: "Oats: the quick ones"
meal: breakfast
form: assemble
makes: 1 portion
ingredients: [50 g rolled oats]
keeps: {cupboard: 60 days}
needs: [kettle]
---
"""
PEANUT_NOODLES = """\
---
title: Peanut noodles
meal: lunch
makes: 2 portions
ingredients: [200 g spaghetti, 60 g peanut butter]
---
"""
RAW_STICKS = """\
---
title: Raw sticks
meal: snack
form: portioned
makes: 4 portions
ingredients: [400 g carrots]
tallies: {vegetables: {1 portion: 1, 2 portions: 3}}
---
"""
RELISH_CRACKERS = """\
---
title: Relish crackers
meal: snack
makes: 1 portion
ingredients: [60 g seed crackers, 20 g moon relish]
---
"""
RICE_POT = """\
---
title: Rice pot
meal: dinner
makes: 2 portions
portion: 1 cup
ingredients: [200 g rice, 2 cups recipe: tomato-base]
container: jam jar
---
## Prep day
1. Simmer, covered. [unattended 30 min, burner]
"""
TOAST = """\
---
title: Toast with dark spread
meal: breakfast
makes: 1 portion
ingredients: [60 g whole-wheat bread, 20 g dark spread]
---
"""
FILES: Mapping[str, str] = MappingProxyType(
    {
        "household.yaml": HOUSEHOLD,
        "foods.yaml": FOODS,
        "stock.yaml": STOCK,
        "weeks/2026-W24.md": WEEK,
        "recipes/bean-stew.md": STEW,
        "recipes/tomato-base.md": TOMATO_BASE,
        "recipes/carrot-cream.md": CARROT_CREAM,
        "recipes/cheese-bake.md": CHEESE_BAKE,
        "recipes/green-salad.md": GREEN_SALAD,
        "recipes/kettle-oats.md": KETTLE_OATS,
        "recipes/peanut-noodles.md": PEANUT_NOODLES,
        "recipes/raw-sticks.md": RAW_STICKS,
        "recipes/relish-crackers.md": RELISH_CRACKERS,
        "recipes/rice-pot.md": RICE_POT,
        "recipes/toast.md": TOAST,
    }
)


def examined(path: str = "", raw: bytes = b"") -> tuple[Problem, ...]:
    """Every problem of the household, with the bytes of one file exchanged; the pictures' bytes do not matter."""
    files = {name: text.encode() for name, text in FILES.items()}
    if path:
        files[path] = raw
    content = Content("content", "content", MappingProxyType(files), MappingProxyType({"stew.jpg": b""}))
    return examine(content, Asked(TODAY), Memory(None)).problems
