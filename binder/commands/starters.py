"""`binder new`: first files to change into one's own. Nothing that is there is ever written over."""

from __future__ import annotations

import re
from datetime import date, timedelta
from pathlib import Path

from binder import disk
from binder.check.library import check_library
from binder.examine import read

_RECIPE = """---
title: {title}
meal: lunch                    # breakfast, lunch, dinner, snack, or several
form: {form}
makes: 4 portions
portion: 1 1/2 cup
ingredients:
{ingredients}
keeps: {keeps}
reheat:
  - microwave 1000 W, 2 min 30 s, covered, stir halfway
---
What is worth knowing about it.

## Prep day
1. Cook the rice. [unattended 20 min, burner]
2. Fold in the carrots, portion and cool. [8 min, cutting board]
{service}"""
_PLAIN_LINES = "  - 1 1/2 cups white rice\n  - 300 g carrots, grated"
_KIT_LINES = """  Set:
    - 1 1/2 cups white rice
    - 300 g carrots, grated
  Raw, apart:
    - 500 g chicken thighs, sliced"""
_KIT_SERVICE = "\n## At service\n1. Fry the chicken to 165 °F in the middle, add the set. [15 min, burner]\n"
_WEEK = """---
week: {week}
prep:
  - {{on: {sunday}, at: "13:00", cooks: 1}}
meals:
{meals}
---
How it went, for next time.
"""


def key_of(name: str) -> str:
    """A recipe's key from its title: `Bean soup` is bean-soup."""
    return re.sub(r"[^\w]+", "-", name.casefold()).strip("-") or "recipe"


def recipe(content: Path, key: str, title: str, form: str) -> list[Path]:
    """One recipe file that passes the check and stands for what is to be written."""
    kit = form == "kit"
    text = _RECIPE.format(
        title=title,
        form=form,
        ingredients=_KIT_LINES if kit else _PLAIN_LINES,
        keeps="raw poultry pieces" if kit else "cooked leftovers",
        service=_KIT_SERVICE if kit else "",
    )
    path = content / "recipes" / f"{key}.md"
    disk.write_new(path, text)
    return [path]


def monday_of(week: str) -> date | None:
    """The Monday of an ISO 8601 week, None when there is no such week."""
    match = re.fullmatch(r"(\d{4})-W(\d{2})", week)
    try:
        return date.fromisocalendar(int(match[1]), int(match[2]), 1) if match else None
    except ValueError:
        return None


def _meal_of(path: Path) -> str:
    """The first meal that a recipe file says it is for."""
    match = re.search(
        r"^meal:\s*\[?\s*(breakfast|lunch|dinner|snack)\b", path.read_text("utf-8", "replace"), re.MULTILINE
    )
    return match[1] if match else "lunch"


def week(content: Path, key: str, monday: date) -> list[Path]:
    """One week file with a prep session on the Sunday before; meals from the recipes there are, to be changed."""
    names = sorted((content / "recipes").glob("*.md"))[:8]
    lines = [f"  # - {{{_meal_of(path)}: {path.stem}, for: everyone, on: mon-wed}}" for path in names]
    meals = "\n".join(["  []", *lines]) if lines else "  []"
    path = content / "weeks" / f"{key}.md"
    disk.write_new(path, _WEEK.format(week=key, sunday=(monday - timedelta(days=1)).isoformat(), meals=meals))
    return [path]


def household(folder: Path) -> list[Path]:
    """The demo household's files with its newest week and the recipes that week and the stock name."""
    if folder.exists() and any(folder.iterdir()):
        raise FileExistsError(str(folder))
    source = disk.read_content(disk.shipped("content"))
    newest = max(name for name in source.files if name.startswith("weeks/"))
    checked = check_library(read(source), frozenset(source.photos), newest[len("weeks/") : -len(".md")])
    wanted = set(checked.library.recipes) if checked.library else set()
    written = []
    for name, raw in source.files.items():
        stem = name.removeprefix("recipes/").removesuffix(".md")
        if name == newest or not name.startswith(("weeks/", "recipes/", "editions/")) or stem in wanted:
            disk.write_file(folder / name, raw)
            written.append(folder / name)
    for name, raw in source.photos.items():
        if name.rpartition(".")[0] in wanted:
            disk.write_file(folder / "photos" / name, raw)
            written.append(folder / "photos" / name)
    return written
