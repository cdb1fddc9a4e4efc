"""The everyday foods: what a kitchen calls them, and that every line holds together with the other tables."""

from __future__ import annotations

import pickle
import re
from collections import defaultdict
from pathlib import Path

import pytest

from binder.tables import aisles, allergens, composition, everyday, keeping
from binder.tables.everyday import COLUMNS, Everyday
from binder.tables.household_weights import volume_unit
from binder.tables.words import key, plain, singular

FOLDER = Path(everyday.__file__).parent / "data" / "everyday"
FOODS = list(everyday.all_foods())
SOLD = {"weight", "piece", "bunch", "head", "can", "bottle", "pack"}
# One word for two foods: the plural is the vegetable, the singular the spice.
TWO_FOODS = {"pepper"}


def food(phrase: str, preparation: str = "") -> Everyday:
    found = everyday.lookup(phrase, preparation)
    assert found is not None, phrase
    return found


def lines() -> list[tuple[str, list[str]]]:
    return [
        (path.name, line.split("\t"))
        for path in sorted(FOLDER.glob("*.tsv"))
        for line in path.read_text(encoding="utf-8").splitlines()
        if line and not line.startswith("#")
    ]


def test_every_line_has_every_column():
    headers = [cells for _, cells in lines() if cells[0] == "name"]
    assert len(headers) == len(list(FOLDER.glob("*.tsv"))) == 11
    assert {tuple(cells) for cells in headers} == {COLUMNS}
    assert [(name, cells[0]) for name, cells in lines() if len(cells) != len(COLUMNS)] == []


def test_no_food_is_lost_between_the_files_and_the_table():
    assert len(FOODS) == len(lines()) - 11
    assert len(FOODS) >= 650


def test_every_row_number_is_in_the_composition_table():
    assert [item.name for item in FOODS if item.row and composition.row(item.row) is None] == []


def test_aisles_and_ways_of_selling_are_of_their_lists():
    assert [(item.name, item.aisle) for item in FOODS if item.aisle not in aisles.AISLES] == []
    assert [(item.name, item.sold) for item in FOODS if item.sold not in SOLD] == []


def test_allergens_are_words_of_their_list():
    wrong = [
        (item.name, word)
        for item in FOODS
        for of, record in (("us", item.us), ("eu", item.eu))
        for word in record or ()
        if allergens.word_of(word, of) != word
    ]
    assert wrong == []


def test_both_lists_agree_where_one_word_implies_another():
    wrong = [
        (item.name, word)
        for item in FOODS
        if item.eu is not None
        for word in item.us or ()
        if (eu := allergens.to_eu(word)) and not any(allergens.covers(eu, other) for other in item.eu)
    ]
    assert wrong == []


def test_no_two_foods_share_a_name():
    spelt: dict[str, set[str]] = defaultdict(set)
    keyed: dict[str, set[str]] = defaultdict(set)
    for item in FOODS:
        for spelling in (item.name, *item.also):
            spelt[plain(spelling)].add(item.name)
            keyed[key(spelling)].add(item.name)
    assert {word: names for word, names in spelt.items() if len(names) > 1} == {}
    assert {word for word, names in keyed.items() if len(names) > 1} <= TWO_FOODS


def test_every_figure_has_a_source():
    figures = [
        (item.name, entry)
        for item in FOODS
        for entry in (*item.pieces.values(), *item.measures.values())
        if entry.grams <= 0 or not re.fullmatch(r"SR28 \d{5}.*|common practice|from memory", entry.source)
    ]
    assert figures == []
    assert [item.name for item in FOODS if item.yield_percent is not None and not item.yield_source] == []


def test_yields_are_percents_and_agree_with_the_refuse_they_cite():
    for item in FOODS:
        assert item.yield_percent is None or 0 < item.yield_percent <= 100, item.name
        row = composition.row(item.row) if item.row else None
        if item.yield_source == f"SR28 {item.row}" and row and row.refuse_percent is not None:
            assert item.yield_percent == 100 - row.refuse_percent, item.name


def test_measures_are_volumes():
    wrong = [
        (item.name, measure)
        for item in FOODS
        for measure in item.measures
        if not any(volume_unit(" ".join(measure.split()[:words])) for words in (1, 2))
    ]
    assert wrong == []


def test_keeping_is_days_or_a_row_of_the_keeping_table():
    wrong = [
        (item.name, item.keeps)
        for item in FOODS
        if item.keeps
        and not re.fullmatch(r"(fridge|cupboard|freezer)=\d+", item.keeps)
        and keeping.row(item.keeps) is None
    ]
    assert wrong == []


@pytest.mark.parametrize(
    ("written", "name"),
    [
        ("onion", "onion"), ("Onions", "onion"), ("tomatoes", "tomato"), ("bay leaves", "bay leaf"),
        ("raspberry", "raspberries"), ("raspberries", "raspberries"), ("courgettes", "zucchini"),
        ("zucchini", "zucchini"), ("aubergine", "eggplant"), ("fresh coriander", "cilantro"),
        ("spring onions", "green onion"), ("scallions", "green onion"), ("rocket", "arugula"),
        ("swede", "rutabaga"), ("beetroot", "beet"), ("mangetout", "snow peas"), ("jalapeños", "jalapeno"),
        ("pak-choi", "baby bok choy"), ("pak choi", "baby bok choy"), ("  Butternut   Squash ", "butternut squash"),
        ("lamb’s lettuce", "lamb's lettuce"), ("flaked almonds", "sliced almonds"), ("sultanas", "golden raisins"),
        ("passata", "tomato passata"), ("garbanzo beans", "canned chickpeas"), ("chickpeas", "canned chickpeas"),
        ("dry chickpeas", "dried chickpeas"), ("masoor dal", "red lentils"), ("peppers", "bell pepper"),
        ("pepper", "black pepper"), ("chilies", "green chili"), ("chillies", "green chili"),
        ("fresh spinach", "spinach"), ("ripe bananas", "banana"),
        ("red-lentils", "red lentils"), ("Crème Fraîche", "crème fraîche"), ("creme fraiche", "crème fraîche"),
    ],
)  # fmt: skip
def test_a_food_is_found_by_us_and_uk_words(written: str, name: str):
    assert food(written).name == name


@pytest.mark.parametrize("written", ["masor", "onion soup", "squash bake", "tomato puree", "", "fresh", "fresh tahini"])
def test_nothing_is_guessed(written: str):
    # Tomato puree is a sauce in the US and a concentrate in the UK.
    assert everyday.lookup(written) is None


def test_near_names_are_offered():
    assert "red lentils" in everyday.nearest("red lentles")
    assert everyday.nearest("tahinni")[0] == "tahini"
    assert len(everyday.nearest("beans", 2)) == 2
    assert everyday.nearest("qqqqqq") == ()


def test_dried_fresh_and_canned_are_different_foods():
    assert (food("dill").row, food("dried dill").row) == ("02045", "02017")
    assert food("parsley").aisle == "produce"
    assert food("dried parsley").aisle == "spices"
    assert food("chickpeas", "dried, soaked overnight").row == "16056"
    assert food("chickpeas", "drained").row == "16358"
    assert food("cumin", "ground").name == "cumin"
    # Washed and dried parsley is fresh.
    assert food("parsley", "washed and dried").row == "11297"


# SR28: 100 less refuse; kernels are bought without their shells.
@pytest.mark.parametrize(
    ("name", "percent"),
    [
        ("banana", 64), ("pineapple", 51), ("broccoli", 61), ("apple", 90), ("onion", 90), ("carrot", 89),
        ("butternut squash", 84), ("potato", 75), ("kale", 72), ("orange", 73), ("almonds", 100),
        ("almonds in shell", 40), ("walnuts in shell", 45),
    ],
)  # fmt: skip
def test_yield_is_the_edible_part_as_sold(name: str, percent: int):
    assert food(name).yield_percent == percent


@pytest.mark.parametrize(
    ("name", "us", "eu"),
    [
        ("onion", (), ()),
        ("celery", (), ("celery",)),
        ("celeriac", (), ("celery",)),
        ("almonds", ("tree nuts (almonds)",), ("nuts (almonds)",)),
        ("pine nuts", ("tree nuts (pine nuts)",), ()),
        ("tahini", ("sesame",), ("sesame",)),
        ("peanut butter", ("peanuts",), ("peanuts",)),
        ("mustard seed", (), ("mustard",)),
        ("dried apricots", (), ("sulphur dioxide and sulphites",)),
        ("desiccated coconut", (), None),
        ("garam masala", None, None),
        ("tofu", ("soybeans",), ("soybeans",)),
    ],
)
def test_allergen_records(name: str, us: tuple[str, ...] | None, eu: tuple[str, ...] | None):
    # None is not known (read the pack); an empty record is one that lists none.
    assert (food(name).us, food(name).eu) == (us, eu)


@pytest.mark.parametrize(
    ("name", "unit", "form", "grams", "source"),
    [
        ("garlic", "cloves", (), 3, "SR28 11215"),
        ("onion", "each", ("large",), 150, "SR28 11282"),
        ("ginger", "inch", (), 11, "common practice"),
        ("parsley", "bunch", (), 60, "common practice"),
        ("canned chickpeas", "can", (), 253, "SR28 16358"),
        ("canned chickpeas", "tin", (), 240, "common practice"),
        ("tomato paste", "tin", (), 170, "SR28 11546"),
        ("canned tomatoes", "can", ("large",), 794, "common practice"),
        ("canned chickpeas", "cup", (), 152, "SR28 16359"),
        ("almonds", "cup", ("sliced",), 92, "SR28 12061"),
        ("sliced almonds", "cup", (), 92, "SR28 12061"),
        ("walnuts", "cup", (), 100, "SR28 12155"),
        ("walnuts", "cup", ("chopped",), 117, "SR28 12155"),
        ("chia seeds", "tbsp", (), 10.2, "common practice"),
        ("cucumber", "cup", ("diced",), 133, "SR28 11206"),
        ("peanut butter", "tbsp", (), 16, "SR28 16098"),
        ("raspberries", "pint", (), 312, "SR28 09302"),
    ],
)
def test_grams_of_a_measure_or_piece(name: str, unit: str, form: tuple[str, ...], grams: float, source: str):
    found = everyday.grams_per(food(name), unit, form)
    assert found is not None
    assert found.grams == pytest.approx(grams)
    assert found.basis.startswith(source)


def test_a_food_can_be_hashed_and_pickled():
    onion = food("onion")
    assert {onion: 1}[food("onions")] == 1
    assert pickle.loads(pickle.dumps(onion)) is onion


def test_no_weight_is_made_up():
    assert everyday.grams_per(food("onion"), "bunch") is None
    assert everyday.grams_per(food("galangal"), "cup") is None


def test_a_plain_piece_is_an_estimate_and_a_sized_one_is_not():
    plain_one, sized = (everyday.grams_per(food("carrot"), "each", form) for form in ((), ("medium",)))
    assert plain_one and sized
    assert (plain_one.estimated, sized.estimated) == (True, False)


@pytest.mark.parametrize(
    ("word", "expected"),
    [
        ("tomatoes", "tomato"), ("leaves", "leaf"), ("berries", "berry"), ("peaches", "peach"),
        ("radishes", "radish"), ("cookies", "cookie"), ("hummus", "hummus"), ("asparagus", "asparagus"),
        ("cress", "cress"), ("peas", "pea"), ("loaves", "loaf"), ("mangoes", "mango"), ("mangos", "mango"),
    ],
)  # fmt: skip
def test_plurals(word: str, expected: str):
    assert singular(word) == expected
