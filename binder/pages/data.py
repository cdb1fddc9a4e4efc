"""facts.json: the same numbers for other programs, raw and with unknown as null.

What is written is declared by the types of reckon.facts and reckon.recipe_facts: a field under its own name, one made
with `inside()` not at all. The schema (pages.schema) is read off the same types.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, is_dataclass, replace
from datetime import date, datetime
from fractions import Fraction
from typing import Any

from binder.model.food import NUTRIENTS, Basis
from binder.model.quantity import Amount, Interval
from binder.pages.other_files import DataFile
from binder.problem import Problem
from binder.reckon.facts import WeekFacts
from binder.reckon.recipe_facts import Nutrition, RecipeFacts, Tallies

SCHEMA_EDITION = 1


def recipe_path(key: str) -> str:
    """Where a recipe's facts.json lies, below the site."""
    return f"recipes/{key}/facts.json"


def week_path(week: str) -> str:
    """Where a week's facts.json lies, below the site."""
    return f"weeks/{week}/facts.json"


def recipe_data(facts: RecipeFacts) -> DataFile:
    """A recipe's facts.json."""
    return DataFile(recipe_path(facts.key), {"schema": SCHEMA_EDITION, **_record(facts)})


def week_data(facts: WeekFacts, label_lines: tuple[tuple[str, ...], ...], folder: str) -> DataFile:
    """A week's facts.json, with the words of its labels; paths of problems start with the content folder's name."""
    labels = tuple(replace(label, lines=lines) for label, lines in zip(facts.labels, label_lines, strict=True))
    whole = replace(facts, labels=labels, problems=in_folder(facts.problems, folder))
    return DataFile(week_path(facts.week), {"schema": SCHEMA_EDITION, **_record(whole)})


def problems_data(problems: tuple[Problem, ...], folder: str) -> dict[str, Any]:
    """The list that `binder check --json` prints."""
    return {"problems": [_value(problem) for problem in in_folder(problems, folder)]}


def in_folder(problems: tuple[Problem, ...], folder: str) -> tuple[Problem, ...]:
    """Problems with paths that start at the content folder's name, the same on every machine."""
    return tuple(replace(p, span=replace(p.span, path=f"{folder}/{p.span.path}")) for p in problems)


def written_fields(kind: type[Any]) -> tuple[str, ...]:
    """The fields of a facts type that facts.json shows."""
    return tuple(f.name for f in fields(kind) if f.metadata.get("json", True))


def _record(value: Any) -> dict[str, Any]:
    """A facts type as an object; nutrition and tallies share one `at_least`."""
    out: dict[str, Any] = {}
    at_least: set[str] = set()
    for name in written_fields(type(value)):
        item = getattr(value, name)
        if isinstance(item, Nutrition):
            out["nutrients"] = {n: _value(v) for n, v in zip(NUTRIENTS, item.values, strict=True)}
            out["missing"] = {n: list(foods) for n, foods in item.missing.items()}
            at_least |= item.at_least
        elif isinstance(item, Tallies):
            out["tallies"] = dict(item.counts)
            at_least |= item.at_least
        else:
            out[name.rstrip("_")] = _value(item)
    if "nutrients" in out:
        out["at_least"] = sorted(at_least)
    return out


def _value(value: Any) -> Any:
    if value is None or isinstance(value, bool | int | str):
        return value
    if isinstance(value, float | Fraction):
        return float(value)
    if isinstance(value, date | datetime):
        return value.isoformat()
    if isinstance(value, Mapping):
        return {str(key): _value(item) for key, item in value.items()}
    if isinstance(value, tuple | list):
        return [_value(item) for item in value]
    if is_dataclass(value):
        return _special(value)
    raise TypeError(f"no JSON for {type(value).__name__}")


def _special(value: Any) -> Any:
    if isinstance(value, Amount):
        low, high = float(value.low), float(value.high)
        return {"low": low, "high": high, "unit": value.unit} if value.is_range else {"amount": low, "unit": value.unit}
    if isinstance(value, Interval):
        return value.low if value.is_point else {"low": value.low, "high": value.high}
    if isinstance(value, Basis):
        return {"kind": value.kind} if value.id is None else {"kind": value.kind, "id": value.id}
    if isinstance(value, Problem):
        return {
            "severity": value.severity,
            "code": value.code,
            "path": value.span.path,
            "line": value.span.line,
            "column": value.span.column,
            "message": value.message,
            "remedies": list(value.remedies),
        }
    return _record(value)
