"""JSON Schema 2020-12 of both facts.json files, read off the types that are written."""

from __future__ import annotations

import types
from collections.abc import Mapping
from datetime import date, datetime
from fractions import Fraction
from typing import Any, Literal, Union, get_args, get_origin, get_type_hints

from binder.model.food import NUTRIENTS, Basis
from binder.model.quantity import Amount, Interval
from binder.pages.data import SCHEMA_EDITION, written_fields
from binder.pages.other_files import DataFile
from binder.problem import Problem
from binder.reckon.facts import WeekFacts
from binder.reckon.recipe_facts import Nutrition, RecipeFacts, Tallies

DIALECT = "https://json-schema.org/draft/2020-12/schema"
Schema = dict[str, Any]

_NUMBER: Schema = {"type": "number"}
_TEXT: Schema = {"type": "string"}
_RANGE: Schema = {
    "type": "object",
    "properties": {"low": _NUMBER, "high": _NUMBER},
    "required": ["low", "high"],
    "additionalProperties": False,
}
_UNIT: Schema = {"enum": ["g", "mL", "each"]}


def schema_files() -> tuple[DataFile, ...]:
    """The schemas of a recipe's and a week's facts.json."""
    return (
        DataFile("schema/recipe.schema.json", _document(RecipeFacts, "A recipe's facts.json")),
        DataFile("schema/week.schema.json", _document(WeekFacts, "A week's facts.json")),
    )


def _document(kind: type[Any], title: str) -> Schema:
    schema = _object(kind)
    schema["properties"]["schema"] = {"const": SCHEMA_EDITION}
    schema["required"] = sorted([*schema["required"], "schema"])
    return {"$schema": DIALECT, "title": title, **schema}


def _object(kind: type[Any]) -> Schema:
    hints = get_type_hints(kind)
    properties: Schema = {}
    for name in written_fields(kind):
        hint = hints[name]
        if hint is Nutrition:
            properties["nutrients"] = _nutrients()
            properties["missing"] = _map(_list(_TEXT), NUTRIENTS)
            properties["at_least"] = _list(_TEXT)
        elif hint is Tallies:
            properties["tallies"] = {"type": "object", "additionalProperties": _NUMBER}
        else:
            properties[name.rstrip("_")] = _of(hint)
    return _closed(properties)


def _closed(properties: Schema) -> Schema:
    return {
        "type": "object",
        "properties": properties,
        "required": sorted(properties),
        "additionalProperties": False,
    }


def _list(items: Schema) -> Schema:
    return {"type": "array", "items": items}


def _map(values: Schema, keys: tuple[str, ...]) -> Schema:
    return {"type": "object", "additionalProperties": values, "propertyNames": {"enum": list(keys)}}


def _nutrients() -> Schema:
    one: Schema = {"anyOf": [_NUMBER, _RANGE, {"type": "null"}]}
    return _closed(dict.fromkeys(NUTRIENTS, one))


def _amount() -> Schema:
    fixed = _closed({"amount": _NUMBER, "unit": _UNIT})
    ranged = _closed({"low": _NUMBER, "high": _NUMBER, "unit": _UNIT})
    return {"anyOf": [fixed, ranged]}


def _basis() -> Schema:
    return {
        "type": "object",
        "properties": {"kind": {"enum": ["table", "household", "recipe", "unknown"]}, "id": _TEXT},
        "required": ["kind"],
        "additionalProperties": False,
    }


def _problem() -> Schema:
    whole: Schema = {"type": "integer", "minimum": 1}
    return _closed(
        {
            "severity": {"enum": ["error", "warning"]},
            "code": _TEXT,
            "path": _TEXT,
            "line": whole,
            "column": whole,
            "message": _TEXT,
            "remedies": _list(_TEXT),
        }
    )


_SIMPLE: Mapping[Any, Schema] = {
    bool: {"type": "boolean"},
    int: {"type": "integer"},
    float: _NUMBER,
    Fraction: _NUMBER,
    str: _TEXT,
    date: {"type": "string", "format": "date"},
    datetime: {"type": "string", "format": "date-time"},
    Interval: {"anyOf": [_NUMBER, _RANGE]},
    type(None): {"type": "null"},
}


def _of(hint: Any) -> Schema:
    if hint in _SIMPLE:
        return _SIMPLE[hint]
    origin, arguments = get_origin(hint), get_args(hint)
    if origin in (Union, types.UnionType):
        return {"anyOf": [_of(argument) for argument in arguments]}
    if origin is Literal:
        return {"enum": list(arguments)}
    if origin is tuple:
        return _list(_of(arguments[0]))
    if isinstance(origin, type) and issubclass(origin, Mapping):
        return {"type": "object", "additionalProperties": _of(arguments[1])}
    special = {Amount: _amount, Basis: _basis, Problem: _problem}
    return special[hint]() if hint in special else _object(hint)
