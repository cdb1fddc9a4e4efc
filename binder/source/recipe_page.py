"""Recipes in a saved web page or a JSON file: schema.org/Recipe as JSON-LD (https://schema.org/Recipe).

Nothing is fetched, no script is run, and what is no recipe is passed over. A page may hold several.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from html.parser import HTMLParser
from typing import Any

from binder.source.found_recipe import FoundLine, FoundRecipe, lines_of, one_line, portions_in

_DEEPEST = 8  # a page nests its graph a few levels deep; what goes on and on is no page


class _Scripts(HTMLParser):
    """The texts of a page's JSON-LD scripts."""

    def __init__(self) -> None:
        super().__init__()
        self.texts: list[str] = []
        self._inside = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        kind = dict(attrs).get("type") or ""
        if tag == "script" and kind.split(";")[0].strip().lower() == "application/ld+json":
            self._inside = True
            self.texts.append("")

    def handle_endtag(self, tag: str) -> None:
        self._inside = self._inside and tag != "script"

    def handle_data(self, data: str) -> None:
        if self._inside:
            self.texts[-1] += data


def recipes_in_html(text: str) -> tuple[FoundRecipe, ...]:
    """The recipes that a page marks up; () when it marks up none."""
    page = _Scripts()
    page.feed(text)
    page.close()
    return tuple(recipe for script in page.texts for recipe in recipes_in_json(script))


def recipes_in_json(text: str) -> tuple[FoundRecipe, ...]:
    """The recipes in a JSON-LD text, alone, in a list or in a graph; () for none and for what is no JSON."""
    try:
        whole = json.loads(text, strict=False)
    except (ValueError, RecursionError):
        return ()
    return tuple(_recipe(node) for node in _recipe_nodes(whole))


def _recipe_nodes(value: Any, depth: int = 0) -> Iterator[dict[str, Any]]:
    if depth > _DEEPEST:
        return
    if isinstance(value, list):
        for one in value:
            yield from _recipe_nodes(one, depth + 1)
    elif isinstance(value, dict):
        if any(kind.rpartition("/")[2] == "Recipe" for kind in _texts(value.get("@type"))):
            yield value
        else:
            for name in ("@graph", "mainEntity", "mainEntityOfPage", "itemListElement", "item"):
                yield from _recipe_nodes(value.get(name), depth + 1)


def _recipe(node: dict[str, Any]) -> FoundRecipe:
    makes = [one for one in _texts(node.get("recipeYield")) if one]
    counted = [(one, count) for one in makes if (count := portions_in(one))]
    said, portions = counted[0] if counted else (makes[0] if makes else "", None)
    ingredients = _texts(node.get("recipeIngredient") or node.get("ingredients"))
    return FoundRecipe(
        title=one_line("".join(_texts(node.get("name"))[:1])),
        ingredients=tuple(FoundLine(line) for text in ingredients for line in lines_of(text)),
        steps=tuple(_steps(node.get("recipeInstructions"))),
        portions=portions,
        makes=next((one for one in makes if not one.isdigit()), said),
        kinds=tuple(one_line(part) for one in _texts(node.get("recipeCategory")) for part in one.split(",")),
        notes="\n\n".join(line for text in _texts(node.get("description")) for line in lines_of(text)),
        source=_source(node),
    )


def _texts(value: Any) -> list[str]:
    """A value that may be one text, a number, an object with a name or text, or a list of those."""
    if isinstance(value, list):
        return [text for one in value for text in _texts(one)]
    if isinstance(value, dict):
        return _texts(value.get("text") or value.get("name") or value.get("@value"))
    if isinstance(value, bool) or value is None:
        return []
    if isinstance(value, float) and value.is_integer():
        return [str(int(value))]
    return [str(value)]


def _steps(value: Any, part: str = "", depth: int = 0) -> Iterator[FoundLine]:
    """HowToStep, HowToSection with its steps, plain texts, or one text with a line a step."""
    if depth > _DEEPEST:
        return
    if isinstance(value, list):
        for one in value:
            yield from _steps(one, part, depth + 1)
    elif isinstance(value, dict) and "itemListElement" in value:
        yield from _steps(value["itemListElement"], one_line("".join(_texts(value.get("name"))[:1])), depth + 1)
    else:
        for text in _texts(value):
            yield from (FoundLine(line, part) for line in lines_of(text))


def _source(node: dict[str, Any]) -> str:
    """Who wrote it and where, as far as the page says."""
    said = [one_line(text) for name in ("author", "publisher") for text in _texts(node.get(name))[:1]]
    address = node.get("url")
    said += [address.strip()] if isinstance(address, str) else []
    return ", ".join(dict.fromkeys(part for part in said if part))
