"""Which food a line names: nothing guessed, nothing missed that is in the tables."""

import pytest

from binder.check.declare import Said
from binder.check.ingredients import Known, ingredient
from binder.check.line_kinds import Item
from binder.check.near import nearest
from binder.check.pantry import Pantry, food_of, near_names, pantry_of, unknown_food
from binder.model.food import Food
from binder.model.recipe import Ingredient
from binder.problem import Problem, Span
from binder.source.line import Line, read_line

TABLES = pantry_of((), "us", "us")


def read(text: str) -> Line:
    line, problems = read_line(text, Span("recipes/a.md", 1, 1, 1 + len(text)))
    assert problems == ()
    return line


def name_of(text: str, pantry: Pantry = TABLES) -> str | None:
    named = food_of(read(text), pantry)
    return named.food.name if named else None


def made_of(text: str) -> tuple[Ingredient, tuple[Problem, ...]]:
    made, problems = ingredient(Item(read(text)), "cooked", None, Known(TABLES, {}))
    assert made is not None
    return made, problems


@pytest.mark.parametrize(
    ("line", "row"),
    [
        # Line, and the NDB number of the SR28 row it must rest on.
        ("2 onions, chopped", "11282"),
        ("1 cup Onions", "11282"),
        ("2 tbsp chopped fresh parsley", "11297"),
        ("1 cup finely chopped flat-leaf parsley leaves", "11297"),
        ("900 g butternut squash, peeled, in cubes", "11485"),
        ("1 tsp salt, table", "02047"),
        ("1 1/2 cups pearled barley, dry", "20005"),
        ("2 large ripe tomatoes", "11529"),
        ("100 g apricots, dried", "09032"),
        ("juice of 2 lemons", "09152"),
        ("1 can chickpeas, drained", "16358"),
        ("1 tsp cumin, ground", "02014"),
        ("100 g Crackers, whole-wheat", "18235"),
    ],
)
def test_line_rests_on_its_row(line: str, row: str) -> None:
    named = food_of(read(line), TABLES)
    assert named is not None
    assert named.food.row == row


def test_ground_meat_is_not_meat_that_is_ground_afterwards() -> None:
    assert name_of("200 g finely ground lamb") == "ground lamb"
    assert name_of("200 g chopped ground lamb") == "ground lamb"


def test_can_is_of_the_canned_food() -> None:
    assert name_of("2 14.5-oz cans tomatoes") == "canned tomatoes"
    assert name_of("800 g tomatoes") == "tomato"


@pytest.mark.parametrize(
    "line", ["1 cup qwertz", "1 cup onion of the moon", "1 cup mashed qwertz", "2 tbsp fresh", "1 cup onions, canned"]
)
def test_what_is_not_found_is_not_guessed(line: str) -> None:
    assert name_of(line) is None


def test_household_food_comes_before_the_tables() -> None:
    own = pantry_of((Food("onion", aisle="other"), Food("leek of ours", names=("leek", "garden leeks"))), "us", "us")
    named = food_of(read("2 onions"), own)
    assert named is not None
    assert named.food.row is None
    assert name_of("1 garden leek", own) == "leek of ours"
    assert name_of("1 sliced leek", own) == "leek of ours"


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("1 cup packed brown sugar", ("packed",)),
        ("1 cup onions, finely chopped", ("chopped",)),
        ("1 cup chopped onions", ("chopped",)),
        ("900 g butternut squash, peeled, in cubes", ("cubed",)),
        ("1 cup onion slices", ("sliced",)),
        ("1 onion", ()),
    ],
)
def test_words_of_the_cut_are_kept(line: str, words: tuple[str, ...]) -> None:
    named = food_of(read(line), TABLES)
    assert named is not None
    assert named.form_words == words


def test_allergens_are_in_the_words_of_the_household_s_list() -> None:
    us, eu = (pantry_of((), listed, "us") for listed in ("us", "eu"))
    barley_us, barley_eu = (food_of(read("1 cup pearled barley"), one) for one in (us, eu))
    assert barley_us is not None and barley_eu is not None
    assert (barley_us.food.contains, barley_eu.food.contains) == ((), ("cereals containing gluten (barley)",))
    assert barley_us.food.contains_other == barley_eu.food.contains


def test_unknown_food_stays_without_figures_and_is_named_at_its_columns() -> None:
    made, problems = made_of("2 cups roughly chopped qwertz (see note), rinsed")
    assert (made.food.name, made.food.basis.kind, made.food.contains) == ("qwertz", "unknown", None)
    assert [(one.code, one.span.column, one.span.end) for one in problems] == [("unknown-food", 24, 30)]


def test_near_names_are_offered() -> None:
    problem = unknown_food("oniom", Span("recipes/a.md", 1, 1, 6), TABLES)
    assert problem.remedies[0].startswith('did you mean "onion"')
    own = pantry_of((Food("zwieback"),), "us", "us")
    assert '"zwieback"' in unknown_food("zwiebak", Span("recipes/a.md", 1, 1, 6), own).remedies[0]


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("oinon", "onion"), ("zukini", "zucchini"), ("parmasan", "parmesan"), ("oats rolled", "rolled oats"),
        ("flat leaf parsely", "parsley"), ("brocoli", "broccoli"), ("corgette", "zucchini"), ("mlik", "milk"),
        ("tumeric", "turmeric"), ("chiken thigh", "chicken thigh"),
    ],
)  # fmt: skip
def test_the_first_name_offered_is_the_one_meant(said: str, meant: str) -> None:
    assert near_names(said, TABLES)[0] == meant


@pytest.mark.parametrize(
    ("said", "never"),
    [("red meat", "rolled oats"), ("citrus", "octopus"), ("liver", "black olives"), ("xyzzy", "dill")],
)
def test_letters_in_common_alone_are_no_suggestion(said: str, never: str) -> None:
    assert never not in near_names(said, TABLES)
    assert never not in nearest(said, (never,))


def test_weight_beside_a_measure_is_what_counts() -> None:
    made, _ = made_of("2 onions (300 g), chopped")
    assert [(one.low, one.unit) for one in made.measures] == [(300, "g")]
    made, _ = made_of("1 lb (450 g) potatoes")
    assert [(one.low, one.unit) for one in made.measures] == [(1, "lb")]


def test_pack_keeps_what_one_holds() -> None:
    made, _ = made_of("1 (15 oz) can black beans, rinsed")
    assert made.pack is not None
    assert (made.pack.low, made.pack.unit, made.measures[0].unit) == (15, "oz", "can")


@pytest.mark.parametrize("row", ["salt, table", "Salt, table"])
def test_row_named_outright_prints_by_the_food_of_the_line_that_rests_on_it(row: str) -> None:
    item = Item(read("1 tsp salt"), Said(row, row, Span("recipes/a.md", 1, 1, 2)))
    made, problems = ingredient(item, "cooked", None, Known(TABLES, {}))
    assert made is not None and problems == ()
    assert (made.food.name, made.food.row) == ("salt", "02047")


def test_row_named_outright_has_the_last_word() -> None:
    item = Item(read("1 cup rice"), Said("Rice, brown, long-grain, raw", "", Span("recipes/a.md", 1, 1, 2)))
    made, _ = ingredient(item, "cooked", None, Known(TABLES, {}))
    assert made is not None
    assert made.food.row == "20036"


def test_as_purchased() -> None:
    assert made_of("900 g butternut squash, as purchased")[0].as_purchased
    assert not made_of("900 g butternut squash")[0].as_purchased
