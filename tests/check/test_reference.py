"""The same declarations as JSON Schema and as a reference."""

from typing import Any, get_args

import pytest
from jsonschema import Draft202012Validator

from binder.check.reference import FILES, FileKind, field_reference, schema
from binder.source.document import read_document
from binder.source.nodes import Mapping, Node, Scalar

from .kitchen import BASE, FOODS, HOUSEHOLD, STEW, STOCK, WEEK

TEXTS: dict[FileKind, str] = {"household": HOUSEHOLD, "recipe": STEW, "week": WEEK, "foods": FOODS, "stock": STOCK}
FULL: dict[FileKind, str] = {
    "household": HOUSEHOLD
    + 'language: en\npaper: a5\ncup: uk\ncaution: strict\ncurrency: EUR\nmeal times: {lunch: "13:00"}\n'
    + "labels: {sheet: a4 3x7, first free: 3, move right: -0.5}\nsite address: https://example.org\n"
    + "session minutes: {washing up: 20}\n",
    "recipe": "---\ntitle: 24\nmeal: [lunch, snack]\nform: kit\nmakes: 24 each\nportion: 2 each\n"
    "ingredients:\n  A:\n    - {item: 1 onion, food: onion, eaten: 50 %}\n    - 2 cups recipe: base\n"
    "keeps: {fridge: 3 days, freezer: 2 months}\nfreezes: no\ntallies: {veg: {1 portion: 0, 2 portions: 1/2}}\n"
    "weighs: 2400 g cooked\nreheat: [cold]\nneeds: [kettle]\nbatch: half\nprivate:\n---\n",
    "week": WEEK.replace("on: mon-fri}", "on: [mon, 2026-06-09], portions: {Ana: 0.5}, made: 2026-06-07, at: home}"),
    "foods": FOODS + "  weights: {1 cup: 60 g}\n  yield: 75 %\n  packs: [{size: 200 g, price: 3.10}]\n"
    "  once opened: 14 days\n  tallies: {veg: {30 g: 0}}\n  like: x\n  may contain: []\n  aisle: bakery\n",
    "stock": STOCK + "fridge:\n",
}
WRONG: list[tuple[FileKind, str, str]] = [
    ("household", "allergen list: us", "alergen list: us"),
    ("household", "allergen list: us", "allergen list: asia"),
    ("household", "avoids: [milk]", "avoids: milk"),
    ("household", "have: 4", "have: -1"),
    ("household", "have: 4", "have: some"),
    ("household", "name: Rui, ", ""),
    ("recipe", "title: Bean stew\n", ""),
    ("recipe", "meal: lunch", "meal: brunch"),
    ("recipe", "makes: 4 portions", "makes: some"),
    ("recipe", "keeps: soups and stews", "keeps: soup"),
    ("recipe", "- 1 onion, chopped", "- {itme: 1 onion}"),
    ("recipe", "- 1 onion, chopped", "- 1 onion: chopped"),
    ("week", "week: 2026-W24", "week: next"),
    ("week", "lunch: bean-stew, ", ""),
    ("week", "lunch: bean-stew, ", "lunch: bean-stew, dinner: bean-stew, "),
    ("week", '"13:00"', '"one"'),
    ("foods", "serving: 30 g, ", ""),
    ("foods", "contains: [wheat, sesame]", "contains: wheat"),
    ("stock", "freezer:", "freezer: one\nother:"),
]


def plain(node: Node | None) -> Any:
    """What an editor sees: the values of the YAML, by the core rules."""
    if node is None or isinstance(node, Scalar):
        return node.value if node else None
    if isinstance(node, Mapping):
        return {key.text: plain(value) for key, value in node.entries}
    return [plain(item) for item in node.items]


def errors(kind: FileKind, text: str) -> list[str]:
    document = read_document(text.encode(), "x", "markdown" if kind in ("recipe", "week") else "yaml")
    assert document.root is not None
    return [error.message for error in Draft202012Validator(schema(kind)).iter_errors(plain(document.root))]


@pytest.mark.parametrize("kind", get_args(FileKind))
def test_schema_is_a_schema(kind: FileKind) -> None:
    Draft202012Validator.check_schema(schema(kind))


@pytest.mark.parametrize("kind", get_args(FileKind))
def test_right_files_are_valid(kind: FileKind) -> None:
    assert errors(kind, TEXTS[kind]) == []
    assert errors(kind, FULL[kind]) == []
    assert errors("recipe", BASE) == []


@pytest.mark.parametrize(("kind", "old", "new"), WRONG)
def test_wrong_files_are_not(kind: FileKind, old: str, new: str) -> None:
    assert TEXTS[kind].count(old) == 1
    assert errors(kind, TEXTS[kind].replace(old, new)) != []


def test_every_field_says_what_it_is() -> None:
    for kind in FILES:
        rows = field_reference(kind)
        paths = [row.path for row in rows]
        assert len(paths) == len(set(paths))
        assert all(row.says.endswith((".", "...", ")")) and row.takes for row in rows)


def test_reference_names_the_way_to_a_key() -> None:
    rows = {row.path: row for row in field_reference("household")}
    assert rows["eaters[].name"].required
    assert not rows["eaters[].eats lunch at"].required
    assert rows["paper"].takes == 'the word "letter", "a4", "half-letter" or "a5"'
