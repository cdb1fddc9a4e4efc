"""Ordinary lines of home recipes, through the whole chain: the right food, and its weight within 5 %.

`cases/lines.tsv` holds lines with what they must come to. Misses of weight are printed; a wrong food is never allowed.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.check.ingredients import Known, ingredient
from binder.check.line_kinds import Item
from binder.check.pantry import pantry_of
from binder.model.recipe import Ingredient
from binder.problem import Problem, Span
from binder.reckon import conversion
from binder.source.line import read_line
from tests.source.strategies import line_like

CASES = Path(__file__).parent / "cases" / "lines.tsv"
ROWS = Path(__file__).parent / "cases" / "rows.tsv"
KNOWN = Known(pantry_of((), "us", "us"), {})
WITHIN = 0.05
LEAST_SHARE = 0.97


def read(text: str) -> tuple[Ingredient | None, tuple[Problem, ...]]:
    line, problems = read_line(text, Span("recipes/a.md", 1, 1, 1 + len(text)))
    made, more = ingredient(Item(line), "cooked", None, KNOWN)
    return made, (*problems, *more)


def grams(made: Ingredient) -> float | None:
    """The edible part, as the recipe's facts state it."""
    weighed = conversion.weigh_all(made.food, made.measures, made.pack, made.form_words)
    if weighed is None:
        return None
    eaten = float(made.food.edible_share) if made.as_purchased and made.pack else 1.0
    return weighed.grams.middle * eaten


def cases() -> list[tuple[str, str, float]]:
    rows = [row.split("\t") for row in CASES.read_text("utf-8").splitlines() if row and not row.startswith("#")]
    return [(line, food, float(weight)) for line, food, weight, _ in rows]


def test_there_are_lines_of_every_kind() -> None:
    lines = [line for line, _, _ in cases()]
    assert len(lines) == len(set(lines)) > 1000
    assert all(row.split("\t")[3].strip() for row in CASES.read_text("utf-8").splitlines() if not row.startswith("#"))


def test_every_line_is_the_right_food() -> None:
    wrong = []
    for line, food, _ in cases():
        made, _problems = read(line)
        if made is None or made.food.name != food:
            wrong.append((line, food, made.food.name if made else None))
    assert wrong == []


def test_nearly_every_line_has_the_right_weight() -> None:
    misses = []
    for line, food, weight in cases():
        made, _problems = read(line)
        found = grams(made) if made else None
        if found is None or abs(found - weight) > weight * WITHIN:
            misses.append(f"{line}: {found} g of {food}, not {weight} g")
    print("\n".join(misses))
    assert len(misses) <= (1 - LEAST_SHARE) * len(cases()), misses


def test_lines_come_to_the_weights_of_their_published_rows() -> None:
    # Grams of USDA SR28's household weights, or of what is written: cases/rows.tsv says which.
    rows = [row.split("\t") for row in ROWS.read_text("utf-8").splitlines() if not row.startswith("#")]
    misses = []
    for line, row, weight, source in rows:
        made, _problems = read(line)
        found = grams(made) if made else None
        assert made is not None and made.food.row == row and source, line
        if found is None or abs(found - float(weight)) > float(weight) * WITHIN:
            misses.append(f"{line}: {found} g, not {weight} g of {row}")
    print("\n".join(misses))
    assert len(rows) > 300 and len({row[0] for row in rows}) == len(rows)
    assert len(misses) <= (1 - LEAST_SHARE) * len(rows), misses


@pytest.mark.parametrize(
    ("line", "weight"),
    [
        ("1 stick plus 2 tbsp butter", 141.4), ("1 stick and 2 tbsp unsalted butter", 141.4),  # SR28 01001, 01145
        ("1 head plus 2 cloves garlic", 36), ("2 cloves plus 1 tsp minced garlic", 8.8),  # SR28 11215; the head cp
    ],
)  # fmt: skip
def test_pieces_and_measures_add_up(line: str, weight: float) -> None:
    made, problems = read(line)
    assert made is not None and problems == ()
    assert grams(made) == pytest.approx(weight, rel=0.01)


@pytest.mark.parametrize(
    ("line", "food"),
    [
        ("2 tbsp olive oil for the dressing", "olive oil"), ("1 tbsp vinegar for the poaching water", "vinegar"),
        ("3 tbsp vegetable oil to fry the onions", "vegetable oil"), ("1 tsp salt for the pasta water", "salt"),
        ("500 ml water to cover", "water"), ("50 g butter for your toast", "butter"),
    ],
)  # fmt: skip
def test_what_it_is_for_is_no_part_of_the_food(line: str, food: str) -> None:
    made, problems = read(line)
    assert made is not None and made.food.name == food and problems == ()


# Not a food of the tables, or one whose allergens another food of a like name would hide.
@pytest.mark.parametrize(
    "line",
    [
        "100 g vegan butter", "2 tbsp plant-based butter", "1 cup dairy-free milk", "1 cup non-dairy milk",
        "50 g vegan cheese", "2 tbsp vegan mayonnaise", "100 g gluten-free breadcrumbs", "1 cup cashew cream",
        "1 flax egg", "2 tbsp eggless mayonnaise", "1 cup coconut yogurt", "200 g vegan mince", "4 veggie sausages",
        "1 cup lactose-free milk", "1 tbsp nut butter", "100 g vegetarian parmesan-style cheese",
        "1 cup rice noodle salad",
        "1 tsp each cumin and coriander", "1 onion and 2 carrots", "2 tbsp cocoa butter", "1 cup bean flour",
        "100 g fish pie mix", "1 cup milk kefir grains", "2 tbsp corn flour", "1 cup salad dressing",
    ],
)  # fmt: skip
def test_what_is_not_known_stays_unknown(line: str) -> None:
    made, problems = read(line)
    assert made is not None and made.food.basis.kind == "unknown" and made.food.contains is None
    assert [one.code for one in problems] == ["unknown-food"]


def test_two_foods_on_a_line_are_told_apart_by_the_cook() -> None:
    _, problems = read("1 tsp each cumin and coriander")
    assert "two foods? write a line for each" in problems[0].remedies


# Line, and words of the US list that its food must carry.
@pytest.mark.parametrize(
    ("line", "contains"),
    [
        ("1 cup heavy cream", ("milk",)), ("300ml double cream", ("milk",)), ("1 stick butter", ("milk",)),
        ("250g mascarpone", ("milk",)), ("1 cup cheese", ("milk",)), ("500ml ready-made custard", ("milk", "eggs")),
        ("320g all-butter puff pastry", ("milk", "wheat")), ("4 brioche buns", ("eggs", "milk", "wheat")),
        ("1 lb penne pasta", ("wheat",)), ("8 oz wide egg noodles", ("eggs", "wheat")),
        ("300g fresh tagliatelle", ("eggs", "wheat")), ("2 tbsp soy sauce", ("soybeans", "wheat")),
        ("1 tbsp Worcestershire sauce", ("fish (anchovies)",)), ("4 tbsp mayonnaise", ("eggs",)),
        ("1 tbsp Shaoxing wine", ("wheat",)), ("1 loaf garlic bread", ("milk", "wheat")),
        ("2 tbsp tahini", ("sesame",)), ("100g ground almonds", ("tree nuts (almonds)",)),
        ("200g raw king prawns", ("crustacean shellfish (shrimp)",)), ("1 tbsp fish sauce", ("fish (anchovies)",)),
        ("190g jar green pesto", ("milk", "tree nuts (pine nuts)")), ("100g couscous", ("wheat",)),
        ("1 c. chopped nuts", ("peanuts", "tree nuts")), ("2 cups cooked pasta", ("wheat",)),
    ],
)  # fmt: skip
def test_a_food_carries_its_allergens(line: str, contains: tuple[str, ...]) -> None:
    made, _ = read(line)
    assert made is not None and made.food.contains is not None
    assert set(contains) <= set(made.food.contains)


@pytest.mark.parametrize(
    "line",
    ["2 tbsp red curry paste", "1 vegetable stock cube", "500ml vegetable stock", "8 sausages", "100g margarine"],
)
def test_what_the_maker_decides_is_not_known(line: str) -> None:
    made, _ = read(line)
    assert made is not None and made.food.everyday and made.food.contains is None


def test_a_drained_can_is_bought_whole_and_eaten_without_its_liquid() -> None:
    # USDA SR28 16358: chickpeas, canned, drained solids, 253 g of a can of 15 oz (425 g).
    drained, _ = read("1 (15 oz) can chickpeas, drained and rinsed")
    assert drained is not None and drained.as_purchased
    assert grams(drained) == pytest.approx(253, rel=0.02)
    whole, _ = read("1 (15 oz) can chickpeas")
    assert whole is not None and not whole.as_purchased and whole.food.edible_share == 1
    assert grams(whole) == pytest.approx(425.2, rel=0.001)


@given(st.one_of(st.text(max_size=80), line_like))
def test_no_text_stops_the_chain(text: str) -> None:
    made, _ = read(text)
    if made is not None:
        found = grams(made)
        assert found is None or found >= 0
