"""Broken files: each code at the line that causes it, all at once; what a build does then."""

from __future__ import annotations

from typing import Any

import pytest

from tests.kitchen import HOUSEHOLD, Kitchen, codes

POT = """\
---
title: Red pot
meal: lunch
form: ready
makes: 4 portions
portion: 300 g
ingredients:
  - 400 g carrots, sliced
  - 1 onion, diced
at service:
  - 4 tbsp ricotta
keeps: soups and stews
container: deep tub
reheat:
  - microwave 1000 W, 2 min 30 s, covered
---
A pot.

## Prep day
1. Chop. [5 min, cutting board]
2. Simmer. [unattended 20 min, burner]
"""
WEEK = """\
---
week: 2026-W24
prep:
  - {on: 2026-06-07, at: "13:00", cooks: 1}
meals:
  - {lunch: pot, for: [Tomas], on: mon-thu}
  - {dinner: pot, for: everyone, on: tue}
substitutions:
  - {in: pot, for: Ilka, use: 4 tbsp tahini, instead of: ricotta}
already: [1 portion red pot]
---
"""
FOODS = """\
- name: seed crackers
  synonyms: [crisp thins]
  label: {serving: 30 g, energy: 120 kcal, protein: 4 g, fat: 4 g, carbohydrate: 17 g}
  contains: [wheat, sesame]
  packs: [{size: 200 g, price: 3.10}]
"""
STOCK = """\
freezer:
  - 2 portions red pot, made 2026-06-01
cupboard:
  - 400 g carrots
  - 200 g seed crackers, best before 2027-01-31
"""
FILES = {
    "household.yaml": HOUSEHOLD,
    "recipes/pot.md": POT,
    "weeks/2026-W24.md": WEEK,
    "foods.yaml": FOODS,
    "stock.yaml": STOCK,
}
H, R, W, F, S = FILES


def changed(kitchen: Kitchen, path: str, old: str, new: str) -> tuple[int, int]:
    """The household with one stretch exchanged; line and column of the «mark» in what stands there now."""
    assert FILES[path].count(old) == 1, (path, old)
    text = FILES[path].replace(old, new)
    before = text[: text.index("«")]
    kitchen.files |= FILES | {path: text.replace("«", "").replace("»", "")}
    return before.count("\n") + 1, len(before) - before.rfind("\n")


def places(problems: list[dict[str, Any]]) -> list[tuple[str, str, int, int]]:
    return [(p["code"], p["path"], p["line"], p["column"]) for p in problems]


def test_the_household_itself_has_no_problem(kitchen: Kitchen) -> None:
    kitchen.files |= FILES
    assert kitchen.check() == []


CASES = [
    ("yaml-syntax", R, "title: Red pot", "title: «[Red pot"),
    ("yaml-syntax", R, "---\ntitle: Red pot", "«title: Red pot"),
    ("duplicate-key", R, "portion: 300 g", "portion: 300 g\n«form»: kit"),
    ("duplicate-key", H, "time zone: America/Chicago", "time zone: America/Chicago\n«time zone»: America/Chicago"),
    ("unknown-key", R, "portion: 300 g", "«portoin»: 300 g"),
    ("unknown-key", W, "cooks: 1", "«cook»: 1"),
    ("missing-key", R, "title: Red pot\nmeal: lunch\nform: ready\nmakes: 4 portions\n", "«title»: Red pot\n"),
    ("missing-key", W, '{on: 2026-06-07, at: "13:00", cooks: 1}', "«{on: 2026-06-07, cooks: 1}»"),
    ("missing-key", W, "{lunch: pot, for: [Tomas], on: mon-thu}", "«{lunch: pot, on: mon-thu}»"),
    ("missing-key", F, "- name: seed crackers\n  synonyms: [crisp thins]", "- «synonyms»: [crisp thins]"),
    ("wrong-type", R, "form: ready", "form: «readdy»"),
    ("wrong-type", R, "keeps: soups and stews", "keeps: «soups»"),
    ("wrong-type", R, "meal: lunch", "meal: «elevenses»"),
    ("wrong-type", H, "time zone: America/Chicago", "time zone: «America/Chicargo»"),
    ("wrong-type", H, "bans: [peanuts, tree nuts]", "bans: [peanuts, «pollen»]"),
    ("wrong-type", H, "freezer: yes, microwave: yes", "freezer: «perhaps», microwave: yes"),
    ("wrong-type", F, "contains: [wheat, sesame]", "contains: [wheat, «stardust»]"),
    ("wrong-type", W, "instead of: ricotta", "instead of: «butter»"),
    ("wrong-type", R, "container: deep tub", "batch: «double»"),
    ("wrong-type", R, "container: deep tub", "freezes: «maybe»"),
    ("bad-amount", R, "400 g carrots, sliced", "«0 g» carrots, sliced"),
    ("bad-amount", R, "400 g carrots, sliced", "«-3 g» carrots, sliced"),
    ("bad-amount", R, "400 g carrots, sliced", "«1/0» cup carrots, sliced"),
    ("bad-amount", R, "makes: 4 portions", "makes: «some»"),
    ("bad-amount", H, "have: 40", "have: «many»"),
    ("bad-amount", W, "on: tue}", "on: tue, portions: «-1»}"),
    ("bad-amount", F, "energy: 120 kcal", "energy: «lots»"),
    ("unknown-unit", R, "400 g carrots, sliced", "400 «grms» carrots, sliced"),
    ("unknown-unit", R, "portion: 300 g", "portion: 300 «grams8»"),
    ("unknown-unit", H, "holds: 3 cup", "holds: 3 «cupp»"),
    ("bad-date", W, "on: 2026-06-07", "on: «2026-06-31»"),
    ("bad-date", W, "on: mon-thu", "on: «mon-thurz»"),
    ("bad-date", W, "on: tue}", "on: «2026-07-01»}"),
    ("bad-date", W, 'at: "13:00"', 'at: "«25:00»"'),
    ("bad-date", W, "on: tue}", "on: tue, made: «soon»}"),
    ("bad-week", W, "week: 2026-W24", "week: «2026-W25»"),
    ("bad-week", W, "week: 2026-W24", "week: «2026-W77»"),
    ("bad-link", R, "A pot.", "A [pot](«javascript:alert(1)»)."),
    ("bad-link", R, "container: deep tub", "photo: «../../secret.jpg»"),
    ("bad-link", R, "container: deep tub", "photo: «not-there.jpg»"),
    ("duplicate-name", H, "{name: Bea, eats lunch at: school}", "{name: Bea}\n  - {name: «Tomas»}"),
    ("duplicate-name", F, "contains: [wheat, sesame]", "contains: []\n- name: «Seed Crackers»"),
    ("unknown-recipe", W, "{dinner: pot, for: everyone", "{dinner: «pott», for: everyone"),
    ("unknown-recipe", W, "1 portion red pot", "1 portion «red pit»"),
    ("unknown-recipe", W, "{in: pot", "{in: «pit»"),
    ("unknown-recipe", R, "1 onion, diced", "1 cup recipe: «red-base»"),
    ("unknown-eater", W, "for: [Tomas]", "for: [«Thomas»]"),
    ("unknown-eater", W, "for: Ilka", "for: «Ilke»"),
    ("unknown-place", W, "on: tue}", "on: tue, at: «wards»}"),
    ("unknown-place", S, "cupboard:\n  - 400 g", "«cupbord»:\n  - 400 g"),
    ("unknown-place", S, "freezer:", "«freezr»:"),
    ("unknown-place", H, "eats lunch at: ward", "eats lunch at: «wart»"),
    ("unknown-container", R, "container: deep tub", "container: «deep tubb»"),
    ("recipe-loop", R, "1 onion, diced", "«1 portion recipe: pot»"),
    ("unknown-food", R, "1 onion, diced", "1 cup «zzyzx», diced"),
    ("no-weight", R, "1 onion, diced", "«1 can ricotta»"),
    ("energy-unlikely", F, "energy: 120 kcal", "energy: «320 kcal»"),
    ("stock-unclear", S, "400 g carrots", "«plenty of something»"),
    ("stock-unclear", S, "2 portions red pot, made", "2 portions «red pit», made"),
]  # fmt: skip


@pytest.mark.parametrize(("code", "path", "old", "new"), CASES)
def test_a_code_stands_at_its_line(kitchen: Kitchen, code: str, path: str, old: str, new: str) -> None:
    line, column = changed(kitchen, path, old, new)
    found = places(kitchen.check())
    assert (code, f"content/{path}", line, column) in found, found


def test_a_key_that_stands_twice_is_said_at_the_second(kitchen: Kitchen) -> None:
    assert changed(kitchen, R, "portion: 300 g", "portion: 300 g\n«form»: kit") == (7, 1)
    assert places(kitchen.check()) == [("duplicate-key", f"content/{R}", 7, 1)]


def test_many_problems_in_many_files_at_once(kitchen: Kitchen) -> None:
    kitchen.files |= FILES | {
        H: HOUSEHOLD.replace("have: 40", "have: many").replace("eats lunch at: ward", "eats lunch at: wart"),
        R: POT.replace("400 g carrots", "0 g carrots").replace("1 onion", "1 cup zzyzx").replace("deep tub", "bucket"),
        W: WEEK.replace("for: [Tomas]", "for: [Thomas]").replace("on: tue}", "on: tues-mon}"),
        F: FOODS.replace("energy: 120 kcal", "energy: 320 kcal"),
        S: STOCK.replace("400 g carrots", "carrots"),
    }
    found = kitchen.check()
    assert [(p["path"].removeprefix("content/"), p["line"], p["code"]) for p in found] == [
        (F, 3, "energy-unlikely"),
        (H, 6, "unknown-place"),
        (H, 15, "bad-amount"),
        (R, 8, "bad-amount"),
        (R, 9, "unknown-food"),
        (R, 13, "unknown-container"),
        (S, 4, "stock-unclear"),
        (W, 6, "unknown-eater"),
        (W, 7, "bad-date"),
    ]
    kitchen.build(status=1)
    assert not kitchen.out.exists() or not any(kitchen.out.iterdir())


@pytest.mark.parametrize(
    ("raw", "code", "line"),
    [
        (b"---\ntitle: \xff\xfe\n---\n", "not-text", 2),
        (b"---\ntitle: Pot\nmakes: 1 portion\ningredients: [1 onion]\n", "yaml-syntax", 1),
        (b"just words\n", "yaml-syntax", 1),
    ],
)
def test_files_that_cannot_be_read(kitchen: Kitchen, raw: bytes, code: str, line: int) -> None:
    kitchen.files |= FILES
    kitchen.write()
    (kitchen.content / "recipes/bad.md").write_bytes(raw)
    found = [(p["code"], p["line"]) for p in kitchen.check() if p["path"] == "content/recipes/bad.md"]
    assert (code, line) in found, found


def test_aliases_that_grow_without_end(kitchen: Kitchen) -> None:
    bomb = "a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n"
    for n in range(1, 9):
        bomb += f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 10)}]\n"
    kitchen.files |= FILES
    kitchen.file("foods.yaml", bomb)
    assert "alias-limit" in codes(kitchen.check())


def test_a_file_far_too_large(kitchen: Kitchen) -> None:
    kitchen.files |= FILES
    kitchen.file("recipes/huge.md", "---\ntitle: Huge\n---\n" + "word " * 2_000_000)
    assert [(p["code"], p["path"]) for p in kitchen.check()] == [("too-large", "content/recipes/huge.md")]


def test_yaml_one_point_two_keeps_words_words(kitchen: Kitchen) -> None:
    """`on` and `no` are keys and text; a time without quotes is text as well."""
    kitchen.files |= FILES | {W: WEEK.replace('"13:00"', "13:00")}
    assert kitchen.check() == []


def test_duplicate_titles_and_a_recipe_that_contains_itself_through_two(kitchen: Kitchen) -> None:
    front = "---\ntitle: {}\nmakes: 1 portion\ningredients:\n  - 1 portion recipe: {}\n---\n"
    for key, title, part in (("a", "A", "b"), ("b", "B", "c"), ("c", "C", "a"), ("d", "red POT", "a")):
        kitchen.file(f"recipes/{key}.md", front.format(title, part))
    kitchen.files |= FILES
    found = kitchen.check()
    assert sorted(set(codes(found))) == ["duplicate-name", "recipe-loop"]
    loops = [p for p in found if p["code"] == "recipe-loop"]
    assert all(p["line"] == 5 for p in loops) and all(key in loops[0]["message"] for key in "abc")
