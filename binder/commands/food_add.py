"""`binder food add NAME`: a food of the household's own, from its pack, at the end of foods.yaml."""

from __future__ import annotations

import difflib
import json
import sys
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any, NoReturn

import click

from binder import disk
from binder.check.fields import FoodFields, LabelFields
from binder.check.library import check_library
from binder.commands.arguments import FOLDER, may_colour
from binder.commands.arguments import read as read_folder
from binder.commands.terminal import problem_lines
from binder.examine import read
from binder.problem import Problem
from binder.source.document import read_document
from binder.source.nodes import Mapping as MappingNode
from binder.source.nodes import Sequence
from binder.source.splice import Append, edited
from binder.source.yaml_text import as_read, plain_value
from binder.tables import aisles

PATH = "foods.yaml"
_READ = "the pack was read and has none of the list"
_FIGURES = tuple(one.name for one in LabelFields.all)
_ORDER = tuple(one.name for one in FoodFields.all)


def _figure_options(function: Callable[..., None]) -> Callable[..., None]:
    """One option for each figure of a label, by its name in foods.yaml."""
    for one in reversed(LabelFields.all):
        option = click.option(
            f"--{one.name.replace(' ', '-')}", help=f"On the label: {one.says[:1].lower()}{one.says[1:]}"
        )
        function = option(function)
    return function


@click.command("add")
@click.argument("name", required=False)
@FOLDER
@click.option("--from", "source", type=click.Path(exists=True, dir_okay=False, path_type=Path), help="YAML or JSON.")
@click.option("--synonym", multiple=True, help="Another name it goes by; repeatable.")
@click.option("--like", help="The table row for figures that the pack does not give.")
@_figure_options
@click.option("--contains", help=f"Allergens, with commas; `none` when {_READ}.")
@click.option("--may-contain", help="Allergens that the pack says it may contain, with commas.")
@click.option("--pack", multiple=True, help="A size and its price: `200 g = 3.10`; repeatable.")
@click.option("--weight", multiple=True, help="By the household's own scale: `1 cup = 60 g`; repeatable.")
@click.option("--yield", "yield_", help="Edible portion of what is purchased: `75 %`.")
@click.option("--aisle", help=f"One of {', '.join(aisles.AISLES)}.")
@click.option("--once-opened", help="How long it keeps once opened: `14 days`.")
@click.option("--dry-run", is_flag=True, help="Show the difference and write nothing.")
def add(name: str | None, content: Path, source: Path | None, dry_run: bool, **said: Any) -> None:
    """Write a food of your own to foods.yaml: from options, from a file, or asking for what is on the pack."""
    files = read_folder(content)
    told = {key: value for key, value in said.items() if value not in (None, ())}
    if source is not None:
        entries = _from_file(source)
    elif name is None:
        raise click.UsageError("a NAME, or --from FILE")
    else:
        entries = [{}] if told else [_asked()]
    options = _from_options(told)
    named = {"name": name} if name else {}
    if len(entries) > 1 and (named or options):
        raise click.UsageError(f"{source} has {len(entries)} foods: leave NAME and the options out")
    text = old = files.files.get(PATH, b"").decode("utf-8", "replace")
    for entry in entries:
        label = {**(entry.get("label") or {}), **options.get("label", {})}
        whole = {**entry, **options, **named, **({"label": label} if label else {})}
        text = _with(text, {key: whole[key] for key in (*_ORDER, *whole) if key in whole}, files)
    if text == old:
        return
    if dry_run:
        lines = difflib.unified_diff(old.splitlines(), text.splitlines(), PATH, PATH, lineterm="")
        click.echo("\n".join(lines))
        return
    disk.write_file((content / PATH).resolve(), text.encode())
    click.echo(f"wrote {content / PATH}")


def _with(text: str, entry: Mapping[str, Any], files: disk.Content) -> str:
    """The text with one entry more; as it was when the entry stands there already. Ends the program on a fault."""
    name = str(entry.get("name", ""))
    for value, line in _entries(text):
        if str(value.get("name", "")).casefold() == name.casefold():
            if value == as_read(entry):
                click.echo(f"{name} is in {files.shown}/{PATH}:{line} already, just so")
                return text
            _stop(f"{name} is in {files.shown}/{PATH}:{line} already: change it there")
    lines, before = read_document(text.encode(), PATH, "yaml").text.split("\n"), _entries(text)
    gap = len(before) > 1 and not lines[before[-1][1] - 2].strip()
    made = edited(text, [Append(None, entry, gap=gap, below=True)], PATH)
    if isinstance(made, Problem):
        _stop(f"{made.message}; {', '.join(made.remedies)}")
    line = _entries(made)[-1][1]
    documents = read(files)
    new = {**documents, PATH: read_document(made.encode(), PATH, "yaml")}
    problems = [
        problem
        for problem in check_library(new, frozenset(files.photos)).problems
        if problem.span.path == PATH and problem.span.line >= line
    ]
    colour = may_colour(sys.stderr)
    for words in problem_lines(problems, {PATH: new[PATH].text}, files.shown, colour):
        click.echo(words, err=True, color=colour)
    if any(problem.severity == "error" for problem in problems):
        _stop("")
    if "contains" not in entry:
        click.echo(f"{name}: its allergens are not known; read the pack and write `contains`", err=True)
    return made


def _entries(text: str) -> list[tuple[dict[str, Any], int]]:
    root = read_document(text.encode(), PATH, "yaml").root
    items = root.items if isinstance(root, Sequence) else ()
    return [(plain_value(one), one.span.line) for one in items if isinstance(one, MappingNode)]


def _stop(words: str) -> NoReturn:
    if words:
        click.echo(words, err=True)
    click.echo("nothing was written", err=True)
    sys.exit(1)


def _from_file(source: Path) -> list[dict[str, Any]]:
    """One food, or a list of them, in the fields of foods.yaml."""
    raw = source.read_bytes()
    document = read_document(raw, source.name, "yaml")
    value = plain_value(document.root)
    if document.root is None and raw.lstrip()[:1] in (b"{", b"["):
        try:
            value = json.loads(raw)
        except ValueError:
            value = None
    entries = value if isinstance(value, list) else [value]
    if not entries or not all(isinstance(one, dict) and one for one in entries):
        for words in problem_lines(document.problems, {source.name: document.text}, str(source.parent), False):
            click.echo(words, err=True)
        _stop(f"{source} holds no food: write its fields as in foods.yaml, name first")
    return entries


def _names(text: str, option: str, write: str) -> list[str]:
    """Names between commas; [] only where `none` is written, so that nothing said never becomes a record of none."""
    names = [one for part in text.split(",") if (one := part.strip())]
    if not names:
        raise click.UsageError(f"{option} has no word in it: write {write}")
    return [] if [one.lower() for one in names] == ["none"] else names


def _pair(text: str) -> tuple[str, str]:
    left, _, right = text.partition("=")
    return left.strip(), right.strip()


def _price(text: str) -> float | str:
    try:
        return float(text)
    except ValueError:
        return text


def _from_options(told: Mapping[str, Any]) -> dict[str, Any]:
    """The options as fields of foods.yaml; what they say is checked with the rest of the file."""
    label = {name: told[key] for name in _FIGURES if (key := name.replace(" ", "_")) in told}
    entry: dict[str, Any] = {
        "synonyms": list(told.get("synonym", ())),
        "like": told.get("like"),
        "label": label,
        "weights": dict(_pair(one) for one in told.get("weight", ())),
        "yield": told.get("yield_"),
        "packs": [
            {"size": size, **({"price": _price(price)} if price else {})}
            for size, price in (_pair(one) for one in told.get("pack", ()))
        ],
        "aisle": told.get("aisle"),
        "once opened": told.get("once_opened"),
    }
    made = {key: value for key, value in entry.items() if value}
    if "contains" in told:
        made["contains"] = _names(told["contains"], "--contains", f"`none` when {_READ}; left out it is not known")
    if "may_contain" in told:
        made["may contain"] = _names(told["may_contain"], "--may-contain", "the pack's words, or leave it out")
    return made


def _asked() -> dict[str, Any]:
    """What stands on the pack, asked for; Enter leaves a field out, and what is left out is not known."""

    def answer(question: str) -> str:
        text: str = click.prompt(question, default="", show_default=False)
        return text.strip()

    def several(question: str) -> tuple[str, ...]:
        found = []
        while one := answer(question):
            found.append(one)
        return tuple(found)

    click.echo("Enter leaves a field out.")
    told: dict[str, Any] = {"synonym": several("Another name (Enter: no more)")}
    told["like"] = answer("The table row it is like, for figures that the pack does not give")
    told["serving"] = answer("A serving on the label, such as 30 g (Enter: no label)")
    if told["serving"]:
        for one in LabelFields.all[1:]:
            told[one.name.replace(" ", "_")] = answer(f"  {one.name}")
    told["contains"] = answer("Contains, with commas (none: none of the list; Enter: not known)")
    told["may_contain"] = answer("The pack says may contain")
    told["pack"] = several("A pack and its price, such as 200 g = 3.10 (Enter: no more)")
    told["weight"] = several("A measure on your scale, such as 1 cup = 60 g (Enter: no more)")
    told["yield_"] = answer("Edible portion of what is purchased, such as 75 %")
    told["aisle"] = answer(f"Aisle ({', '.join(aisles.AISLES)})")
    told["once_opened"] = answer("Keeps once opened, such as 14 days")
    return _from_options({key: value for key, value in told.items() if value})
