"""Whatever is written, the check says what is wrong with it and never fails."""

import re

import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from binder.check.reference import field_reference

from .kitchen import FILES, checked

CODES = frozenset(
    """
    not-text too-large yaml-syntax alias-limit duplicate-key unknown-key missing-key wrong-type bad-amount unknown-unit
    bad-date bad-week bad-link duplicate-name unknown-recipe unknown-eater unknown-place unknown-container recipe-loop
    unknown-food no-weight energy-unlikely stock-unclear allergens-not-known
    """.split()  # noqa: SIM905 - a list to read
)
KEYS = sorted(
    {
        key
        for kind in ("household", "recipe", "week", "foods")
        for row in field_reference(kind)
        for key in re.split(r"[.\[\]]+", row.path)
        if key and key != "NAME"
    }
)
WORDS = [
    "lunch", "bean-stew", "tomato-base", "Ana", "everyone", "home", "tub", "milk", "mon-fri", "2026-06-09", "13:00",
    "2026-W24", "4 portions", "2 cup", "600 g", "0 g", "-1 cup", "1/0 cup", "3 days", "yes", "no", "strict", "us", "",
    "soups and stews", "2 cups recipe: tomato-base", "2 cups recipe: dish", "1 onion, chopped", "10 %", "120 %",
    "at most 5 g", "microwave 1000 W, 2 min", "oven 2 racks", "3 cup + 1 cup", "«", "recipe:", "5", "1e9",
]  # fmt: skip
TEXT = st.sampled_from(WORDS) | st.text(max_size=20) | st.sampled_from(KEYS)
LEAF = TEXT | st.integers(-3, 3) | st.booleans() | st.none() | st.floats()
TREE = st.recursive(
    LEAF, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(TEXT, inner, max_size=4), max_leaves=12
)
TOP = st.dictionaries(st.sampled_from(KEYS), TREE, max_size=8)


def written(value: object, markdown: bool) -> str:
    text = yaml.safe_dump(value, allow_unicode=True, sort_keys=False)
    return f"---\n{text}---\nWords.\n" if markdown else text


@settings(max_examples=60, deadline=None)
@given(
    household=TOP, recipe=TOP, week=TOP, foods=st.lists(TOP, max_size=3), stock=st.dictionaries(TEXT, TREE, max_size=3)
)
def test_random_keys_and_values(
    household: object, recipe: dict[str, object], week: dict[str, object], foods: object, stock: object
) -> None:
    base = {"title": "Dish", "makes": "4 portions", "ingredients": ["1 onion"]}
    changes = {
        "recipes/dish.md": written({**base, **recipe}, True),
        "weeks/2026-W24.md": written({"week": "2026-W24", **week}, True),
        "foods.yaml": written(foods, False),
        "stock.yaml": written(stock, False),
    }
    for more in ({}, {"household.yaml": written(household, False)}):
        problems = checked({**changes, **more}).problems
        assert {one.code for one in problems} <= CODES
        assert {one.span.path for one in problems} <= {*FILES, *changes}
        assert all(one.span.line >= 1 and one.span.column >= 1 and one.span.end >= one.span.column for one in problems)


@settings(max_examples=60, deadline=None)
@given(path=st.sampled_from(sorted(FILES)), cut=st.floats(0, 1), inserted=st.text(max_size=8))
def test_small_household_with_something_typed_into_it(path: str, cut: float, inserted: str) -> None:
    text = FILES[path]
    place = int(cut * len(text))
    problems = checked({path: text[:place] + inserted + text[place:]}).problems
    assert {one.code for one in problems} <= CODES


@settings(max_examples=40, deadline=None)
@given(path=st.sampled_from(sorted(FILES)), line=st.integers(0, 40))
def test_small_household_with_a_line_lost(path: str, line: int) -> None:
    lines = FILES[path].splitlines(keepends=True)
    problems = checked({path: "".join(lines[: line % len(lines)] + lines[line % len(lines) + 1 :])}).problems
    assert {one.code for one in problems} <= CODES
