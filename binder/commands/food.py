"""`binder food WORD`: one food with every figure and its source, or the nearest names."""

from __future__ import annotations

import json
import re
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import click

from binder import disk
from binder.check.foods import check_foods
from binder.check.household import check_household, listed_in
from binder.check.pantry import Pantry, food_of, named_outright, near_names, pantry_of
from binder.commands.food_add import add
from binder.disk import Content
from binder.model.food import NUTRIENTS, Food, Keeping
from binder.problem import Span
from binder.source.document import Document, read_document
from binder.source.line import read_line
from binder.tables import composition, everyday

_PUBLISHED_WEIGHTS = 12
_SAME_GRAMS = 0.05


@dataclass(frozen=True, slots=True)
class Report:
    """The lines to print, the same as data, and whether the food is known."""

    lines: tuple[str, ...]
    data: dict[str, Any]
    known: bool


def report(word: str, content: Content | None) -> Report:
    """What is known of a food: the household's own first, then the everyday table, then SR28 by its exact name."""
    pantry = _pantry(content)
    named = food_of(read_line(word, Span("", 1, 1, len(word) + 1))[0], pantry)
    food = named.food if named else named_outright(word, pantry)
    if food is None:
        near = [*near_names(word, pantry), *(row.name for row in composition.nearest(word, 5))]
        lines = [f'no food "{word}"', *(f"  {name}" for name in dict.fromkeys(near))]
        return Report(tuple(lines), {"food": None, "nearest": list(dict.fromkeys(near))}, False)
    return Report(tuple(_lines(food)), _data(food), True)


def _pantry(content: Content | None) -> Pantry:
    documents = {name: _document(content, name) for name in ("household.yaml", "foods.yaml")}
    household = documents["household.yaml"]
    entry = check_household(household)[0] if household else None
    listed = listed_in(entry) if entry else "us"
    foods, _ = check_foods(documents["foods.yaml"], listed, "us")
    return pantry_of(foods, listed, "us")


def _document(content: Content | None, name: str) -> Document | None:
    raw = content.files.get(name) if content else None
    return read_document(raw, name, "yaml") if raw is not None else None


def _lines(food: Food) -> list[str]:
    lines = [food.name + (f"  (also: {', '.join(food.names)})" if food.names else "")]
    lines.append(f"  figures from  {food.figures_from or _basis(food)}")
    for name, value, before in zip(NUTRIENTS, food.per_100_g, food.before_rounding, strict=True):
        word, unit = name.rsplit("_", 1)
        shown = "not known" if value is None else f"{value:g} {unit}"
        rounded = f" (the label may have rounded it from {before.low:.4g} to {before.high:.4g})" if before else ""
        lines.append(f"    {word.replace('_', ' '):<16}{shown:>12}  per 100 g edible portion{rounded}")
    lines.append(f"  contains      {_allergens(food)}{_from(food.allergens_from)}")
    if food.may_contain:
        lines.append(f"  may contain   {', '.join(food.may_contain)}")
    lines.append("                read the pack: makers change their recipes")
    from_where = food.yield_from or "no yield is recorded: counted whole"
    lines.append(f"  yield         {float(food.edible_share):.0%} edible of what is bought ({from_where})")
    lines += [f"  {measure:<13} {grams:g} g  ({source})" for measure, grams, source in _weights(food)]
    lines.append(f"  aisle         {food.aisle}")
    if food.keeping:
        lines.append(f"  keeps         {_keeping(food.keeping)}")
    if food.once_opened_days is not None:
        lines.append(f"  once opened   {food.once_opened_days} days in the refrigerator{_from(food.opened_from)}")
    if food.store:
        lines.append(f"  store         {food.store}{_from(food.store_from)}")
    return lines


def _from(source: str) -> str:
    return f" ({source})" if source else ""


def _basis(food: Food) -> str:
    return food.basis.id or "nothing: figures are not known"


def _allergens(food: Food) -> str:
    if food.contains is None:
        return "not known"
    return ", ".join(food.contains) or "none of the list in what is recorded"


def _keeping(keeping: Keeping) -> str:
    parts = []
    # A food of the cupboard keeps as long in the refrigerator; that needs no saying.
    cold = keeping.fridge_days if keeping.fridge_days != keeping.cupboard_days else None
    for days, place in ((cold, "refrigerator"), (keeping.cupboard_days, "cupboard")):
        if days:
            parts.append(
                f"{days[0]}-{days[1]} days in the {place}" if days[0] != days[1] else f"{days[0]} days in the {place}"
            )
    if keeping.freezer_days:
        parts.append(f"{keeping.freezer_days[0]}-{keeping.freezer_days[1]} days frozen")
    return f"{', '.join(parts)} ({keeping.source})"


def _weights(food: Food) -> list[tuple[str, float, str]]:
    """The food's own measures, then the row's as published; what both say stands once, as published."""
    found = [
        (" ".join(filter(None, ("1", w.size, "" if w.size else w.unit, w.form))), w.grams, w.source or "household")
        for w in food.weights
    ]
    if not found and food.everyday:
        item = everyday.food(food.everyday)
        found = [(f"1 {name}", p.grams, p.source) for name, p in (*item.pieces.items(), *item.measures.items())]
    row = composition.row(food.row) if food.row else None
    if row:
        published = [(f"{w.amount:g} {w.measure}", w.grams, row.source) for w in row.weights[:_PUBLISHED_WEIGHTS]]
        found = [one for one in found if not any(_says_the_same(one, other) for other in published)] + published
    return list(dict.fromkeys(found))


def _says_the_same(one: tuple[str, float, str], other: tuple[str, float, str]) -> bool:
    """Whether a published measure says what the food's own line repeats: `1 small` and `1 small (2-3/4" dia)`."""
    words, published = (set(re.findall(r"[a-z0-9/.]+", measure.casefold())) for measure in (one[0], other[0]))
    alike = words == published or (words <= published and one[2] == other[2])
    return alike and abs(one[1] - other[1]) < _SAME_GRAMS


def _data(food: Food) -> dict[str, Any]:
    return {
        "food": food.name,
        "also": list(food.names),
        "basis": {"kind": food.basis.kind, **({"id": food.basis.id} if food.basis.id else {})},
        "figures_from": food.figures_from,
        "per_100_g": dict(zip(NUTRIENTS, food.per_100_g, strict=True)),
        "before_rounding": {
            name: {"low": before.low, "high": before.high}
            for name, before in zip(NUTRIENTS, food.before_rounding, strict=True)
            if before
        },
        "contains": None if food.contains is None else list(food.contains),
        "may_contain": list(food.may_contain),
        "allergens_from": food.allergens_from,
        "edible_share": float(food.edible_share),
        "yield_from": food.yield_from,
        "measures": [{"measure": m, "grams": g, "source": s} for m, g, s in _weights(food)],
        "aisle": food.aisle,
        "once_opened_days": food.once_opened_days,
        "once_opened_from": food.opened_from,
        "keeps": _keeping(food.keeping) if food.keeping else None,
        "store": food.store or None,
        "store_from": food.store_from,
    }


class _ShowOrAdd(click.Group):
    """`binder food WORD` shows a food; only `add` as the first word is a command of its own."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        if args[:1] not in (["add"], ["-h"], ["--help"]):
            args = ["show", *args]
        return super().parse_args(ctx, args)


@click.group(cls=_ShowOrAdd, subcommand_metavar="WORD... | add NAME")
def command() -> None:
    """Show one food with its figures, measures, allergens and sources; or add one of your own."""


@command.command("show")
@click.argument("word", nargs=-1, required=True)
@click.option("--content", default="content", type=click.Path(path_type=Path), help="The household's folder.")
@click.option("--json", "as_json", is_flag=True, help="As JSON on standard output.")
def show(word: tuple[str, ...], content: Path, as_json: bool) -> None:
    """Show one food, or the nearest names: `binder food WORD` is enough."""
    files = disk.read_content(content) if content.is_dir() else None
    found = report(" ".join(word), files)
    click.echo(
        json.dumps(found.data, ensure_ascii=False, indent=1, sort_keys=True) if as_json else "\n".join(found.lines)
    )
    sys.exit(0 if found.known else 1)


command.add_command(add)
