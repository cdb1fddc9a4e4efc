"""`binder import FILE`: a recipe of the library from a saved page, a JSON file or plain text."""

from __future__ import annotations

import re
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import NoReturn

import click

from binder import disk
from binder.check.library import check_library
from binder.commands.arguments import FOLDER, may_colour
from binder.commands.arguments import read as read_folder
from binder.commands.starters import key_of
from binder.commands.terminal import problem_lines
from binder.examine import read
from binder.model.recipe import MEALS
from binder.source.document import read_document
from binder.source.found_recipe import FoundLine, FoundRecipe
from binder.source.limits import MOST_BYTES
from binder.source.numbers import in_figures
from binder.source.recipe_page import recipes_in_html, recipes_in_json
from binder.source.recipe_text import recipe_in_text
from binder.source.yaml_text import entry

_PAGE = re.compile(r"<\s*(?:!doctype\s+html|html|head|body|script)\b", re.IGNORECASE)
# Where a page says a course, not a meal (common practice).
_COURSES = {
    "brunch": "breakfast", "main": "dinner", "supper": "dinner", "dessert": "snack", "appetizer": "snack",
    "starter": "snack",
}  # fmt: skip
_MEAL = "dinner"  # what nothing is said of
_STEP_NOTE = re.compile(r"\[[^\[\]]*\]\s*$")


@click.command()
@click.argument("source", metavar="FILE", type=click.Path(exists=True, dir_okay=False, allow_dash=True, path_type=Path))
@FOLDER
@click.option("--name", help="The recipe's key, its file's name; made from the title by default.")
@click.option("--which", type=click.IntRange(1), help="Of a page with several recipes the first, the second, ...")
@click.option("--dry-run", is_flag=True, help="Show the file and write nothing.")
def command(source: Path, content: Path, name: str | None, which: int | None, dry_run: bool) -> None:
    """Write a recipe file from a saved web page (schema.org/Recipe), its JSON, or plain text; `-` reads what is
    pasted. Nothing is fetched, and no file is written over."""
    recipe = _chosen(_found(source), which, source)
    key = key_of(name or recipe.title)
    path = f"recipes/{key}.md"
    if (content / path).exists():
        _stop(f"{content / path} is there already: give another --name")
    text = recipe_file(recipe)
    if dry_run:
        click.echo(text, nl=False)
    else:
        disk.write_new(content / path, text)
        click.echo(f"wrote {content / path}")
    errors = _say_problems(content, path, text)
    for line in _to_do(recipe):
        click.echo(line, err=True)
    sys.exit(1 if errors else 0)


def recipe_file(recipe: FoundRecipe) -> str:
    """The recipe as a file of the library. Minutes, keeping and reheating are not made up: they are left to write."""
    portions = "1 portion" if recipe.portions is None else f"{in_figures(recipe.portions)} portions"
    front = [
        *entry("title", recipe.title),
        *entry("meal", meal_of(recipe.kinds)),
        *entry("makes", "1 portion" if portions == "1 portions" else portions),
        *entry("ingredients", _ingredients(recipe.ingredients), width=0),
        *(entry("source", recipe.source) if recipe.source else []),
    ]
    notes = [_flat(recipe.notes)] if recipe.notes else []
    steps = [f"{n}. {_step(one)}" for n, one in enumerate(recipe.steps, start=1)]
    body = "\n\n".join([*notes, "\n".join(["## Prep day", *steps])])
    return "\n".join(["---", *front, "---", body, ""])


def meal_of(kinds: tuple[str, ...]) -> str:
    """The first of the meals that what it is filed under names."""
    words = [word for kind in kinds for word in re.findall(r"[a-z]+", kind.casefold())]
    found = (word if word in MEALS else _COURSES.get(word.removesuffix("s")) for word in words)
    return next((meal for meal in found if meal), _MEAL)


def _ingredients(lines: tuple[FoundLine, ...]) -> list[str] | dict[str, list[str]]:
    if not any(line.part for line in lines):
        return [line.text for line in lines]
    parts: dict[str, list[str]] = {}
    for line in lines:
        parts.setdefault(line.part or "The rest", []).append(line.text)
    return parts


def _step(line: FoundLine) -> str:
    """One list, in the order found: parts of a page need not be cooked side by side. What ends in brackets would read
    as minutes and tools, and is no such note."""
    text = _STEP_NOTE.sub(lambda note: f"({note[0].strip()[1:-1]})", line.text)
    return f"{line.part}: {text}" if line.part else text


def _flat(notes: str) -> str:
    """Notes that cannot be taken for headings or lists of steps."""
    return "\n".join(re.sub(r"^(?=#{1,6}\s)", r"\\", line) for line in notes.splitlines())


def _found(source: Path) -> tuple[FoundRecipe, ...]:
    raw = sys.stdin.buffer.read(MOST_BYTES + 1) if str(source) == "-" else source.read_bytes()
    if len(raw) > MOST_BYTES:
        _stop(f"{source} has over {MOST_BYTES // 1000:,} KB: save the page without its pictures, or its text alone")
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        text = raw.decode("windows-1252", "replace")
    if text.lstrip()[:1] in ("{", "["):
        return recipes_in_json(text)
    if _PAGE.search(text[:20_000]):
        return recipes_in_html(text)
    recipe = recipe_in_text(text)
    return (recipe,) if recipe.ingredients or recipe.steps else ()


def _chosen(found: tuple[FoundRecipe, ...], which: int | None, source: Path) -> FoundRecipe:
    if not found:
        _stop(f"{source} marks up no recipe (schema.org/Recipe): copy its text into a file and import that")
    if len(found) > 1 and which is None:
        titles = "\n".join(f"  --which {n}  {one.title}" for n, one in enumerate(found, start=1))
        _stop(f"{source} has {len(found)} recipes; say which:\n{titles}")
    if which is not None and which > len(found):
        _stop(f"{source} has {len(found)} recipes, and no number {which}")
    recipe = found[(which or 1) - 1]
    if not recipe.title:
        _stop(f"{source} has a recipe without a name")
    if not recipe.ingredients:
        _stop(f"{source}: no ingredient line was found; write `Ingredients` above the first of them")
    return recipe


def _say_problems(content: Path, path: str, text: str) -> bool:
    """What a check of the new file finds; whether there are errors."""
    files = read_folder(content)
    documents = {**read(files), path: read_document(text.encode(), path, "markdown")}
    problems = [p for p in check_library(documents, frozenset(files.photos)).problems if p.span.path == path]
    colour = may_colour(sys.stderr)
    for line in problem_lines(problems, {path: documents[path].text}, files.shown, colour):
        click.echo(line, err=True, color=colour)
    return any(problem.severity == "error" for problem in problems)


def _to_do(recipe: FoundRecipe) -> Iterator[str]:
    """What a page does not say and a week needs."""
    if recipe.portions is None:
        yield "how many portions it makes was not said: `makes` stands at 1"
    elif recipe.makes:
        yield f"it says {recipe.makes!r}: see whether `makes` are your portions"
    if recipe.steps:
        yield "write minutes behind the steps, as in [12 min, cutting board] or [unattended 25 min, oven 400 F]"
    else:
        yield "no step was found: write them under `## Prep day`"
    yield "write `keeps` and `reheat`; without them it counts as cooked leftovers, eaten as it is"
    yield "allergens come from the foods named: read your packs, and see that no line is left unknown"


def _stop(words: str) -> NoReturn:
    click.echo(words, err=True)
    click.echo("nothing was written", err=True)
    sys.exit(1)
