"""The SR28 table against what the release says of itself, and household measures against its WEIGHT file.

Every figure here is from the USDA National Nutrient Database for Standard Reference, Release 28.
"""

from __future__ import annotations

import gzip
from pathlib import Path

import pytest

from binder.tables import composition, composition_build
from binder.tables.composition import NUTRIENTS, Row


def food(ndb: str) -> Row:
    found = composition.row(ndb)
    assert found is not None
    return found


def grams(ndb: str, unit: str, *form: str) -> float:
    found = composition.grams_per(food(ndb), unit, form)
    assert found is not None
    return found.grams


def test_every_food_of_the_release_is_there_once():
    numbers = [row.ndb for row in composition.all_rows()]
    assert len(numbers) == 8789
    assert numbers == sorted(set(numbers))


@pytest.mark.parametrize(
    ("nutrient", "missing"),
    [
        ("energy_kcal", 0), ("protein_g", 0), ("fat_g", 0), ("carbohydrate_g", 0), ("saturated_fat_g", 349),
        ("fibre_g", 594), ("sugars_g", 1832), ("sodium_mg", 83), ("potassium_mg", 426), ("calcium_mg", 348),
        ("iron_mg", 144),
    ],
)  # fmt: skip
def test_what_was_not_published_stays_unknown(nutrient: str, missing: int):
    place = NUTRIENTS.index(nutrient)
    assert sum(row.per_100_g[place] is None for row in composition.all_rows()) == missing


def test_water_refuse_and_weights_are_missing_where_the_release_is_blank():
    rows = list(composition.all_rows())
    assert sum(row.water_g is None for row in rows) == 1
    assert sum(row.refuse_percent is None for row in rows) == 50
    assert sum(not row.weights for row in rows) == 297
    assert sum(len(row.weights) for row in rows) == 15438
    assert sum(weight.amount != 1 for row in rows for weight in row.weights) == 3552


def test_a_row_reads_as_published():
    onion = food("11282")
    assert onion.name == "Onions, raw"
    assert onion.group == "Vegetables and Vegetable Products"
    assert dict(zip(NUTRIENTS, onion.per_100_g, strict=True)) == {
        "energy_kcal": 40, "protein_g": 1.1, "fat_g": 0.1, "saturated_fat_g": 0.042, "carbohydrate_g": 9.34,
        "fibre_g": 1.7, "sugars_g": 4.24, "sodium_mg": 4, "potassium_mg": 146, "calcium_mg": 23, "iron_mg": 0.21,
    }  # fmt: skip
    assert onion.water_g == 89.11
    assert (onion.refuse_percent, onion.refuse_of) == (10, "Stem ends, sprouts and defects")


@pytest.mark.parametrize(
    ("ndb", "word", "refuse"),
    [
        ("09040", "Bananas", 36), ("09266", "Pineapple", 49), ("11090", "Broccoli", 39), ("09003", "Apples", 10),
        ("11282", "Onions", 10), ("11124", "Carrots", 11), ("11485", "butternut", 16), ("11352", "Potatoes", 25),
        ("11233", "Kale", 28), ("09200", "Oranges", 27), ("12061", "almonds", 60), ("12155", "walnuts", 55),
        ("12036", "sunflower", 46),
    ],
)  # fmt: skip
def test_refuse_is_what_is_thrown_away(ndb: str, word: str, refuse: int):
    assert word in food(ndb).name
    assert food(ndb).refuse_percent == refuse


@pytest.mark.parametrize("ndb", ["00000", "1128", "112820", "", "onion", "99999"])
def test_an_unknown_number_is_no_row(ndb: str):
    assert composition.row(ndb) is None


def test_a_name_is_found_whatever_its_case():
    assert composition.named("onions, RAW") is food("11282")
    assert composition.named("Crackers, whole-wheat") is not None
    assert composition.named("onions") is None


@pytest.mark.parametrize(
    ("words", "ndb"),
    [
        ("onion", "11282"), ("rasberries", "09302"), ("brocoli", "11090"), ("red lentils", "16144"),
        ("buternut squash", "11485"), ("raw carrots", "11124"),
    ],
)  # fmt: skip
def test_a_search_forgives_typing_mistakes(words: str, ndb: str):
    assert composition.nearest(words, 3)[0].ndb == ndb


def test_a_search_answers_at_most_what_was_asked():
    assert len(composition.nearest("cheese", 5)) == 5
    assert composition.nearest("qqqqqqqq", 5) == ()
    assert composition.nearest("", 5) == ()


@pytest.mark.parametrize(
    ("ndb", "unit", "form", "expected"),
    [
        ("09302", "raspberry", (), 1.9),  # 10 raspberries = 19 g
        ("09302", "each", (), 1.9),
        ("16098", "tbsp", (), 16),  # peanut butter, 2 tbsp = 32 g
        ("16150", "tbsp", (), 18),  # written 2 tablespoon = 36 g
        ("12061", "cup", (), 143),
        ("12061", "cup", ("whole",), 143),
        ("12061", "cup", ("sliced",), 92),
        ("12061", "cup", ("slivered",), 108),
        ("12061", "cup", ("ground",), 95),
        ("11282", "cup", ("finely", "chopped"), 160),
        ("11282", "cup", ("thinly", "sliced"), 115),
        ("11282", "tbsp", (), 10),
        ("11090", "cup", (), 91),  # not .5 cup chopped or diced = 44 g
        ("11352", "cup", ("diced",), 150),  # .5 cup, diced = 75 g
        ("01032", "cup", (), 100),  # grated parmesan: cup and spoon disagree, each answers for itself
        ("01032", "tbsp", (), 5),
        ("02047", "dash", (), 0.4),
        ("09070", "cup", (), 154),  # without pits, not with pits
        ("12155", "cup", ("in", "shell"), 28),
        ("12036", "cup", (), 140),  # kernels, not with hulls
        ("09298", "cup", (), 145),
        ("09298", "cup", ("packed",), 165),
        ("09302", "pint", (), 312),  # as purchased, heaped: not two cups
        ("11529", "cup", ("cherry",), 149),
    ],
)
def test_the_measure_that_was_written_is_used(ndb: str, unit: str, form: tuple[str, ...], expected: float):
    found = composition.grams_per(food(ndb), unit, form)
    assert found is not None
    assert found.grams == pytest.approx(expected)
    assert not found.estimated


@pytest.mark.parametrize(
    ("ndb", "unit", "form", "expected", "says"),
    [
        ("20081", "tbsp", (), 125 / 16, "1 cup = 125 g; 1 tbsp as 1/16 cup"),  # flour has no spoon
        ("12166", "cup", (), 240, "1 tbsp = 15 g; 1 cup as 16 tbsp"),
        ("11282", "tbsp", ("sliced",), 115 / 16, "1 cup, sliced = 115 g; 1 tbsp as 1/16 cup"),
        ("11282", "cup", ("minced",), 160, "1 cup, chopped = 160 g; no weight for minced"),
        ("02047", "pinch", (), 0.375, "1 tsp = 6 g; 1 pinch as 1/16 tsp"),
        ("02044", "cup", ("chopped",), 42.4, "2 tbsp, chopped = 5.3 g; 1 cup as 16 tbsp"),
    ],
)
def test_what_is_worked_out_says_so(ndb: str, unit: str, form: tuple[str, ...], expected: float, says: str):
    found = composition.grams_per(food(ndb), unit, form)
    assert found is not None
    assert found.grams == pytest.approx(expected)
    assert found.basis == f"SR28 {ndb}, {says}"
    assert found.estimated


def test_pieces_have_sizes():
    assert grams("11282", "small") == 70
    assert grams("11282", "medium") == 110
    assert grams("11282", "slice") == 14
    assert grams("11282", "slice", "large") == 38
    assert grams("11143", "stalks") == 40
    assert grams("11143", "stalk", "large") == 64
    assert grams("11215", "cloves") == 3
    assert grams("02044", "leaves") == 0.5


def test_a_medium_one_is_a_guess_where_no_size_was_written():
    found = composition.grams_per(food("11282"), "each")
    assert found is not None
    assert (found.grams, found.estimated) == (110, True)


def test_no_weight_is_made_up():
    # Chia has ounces only; broccoli has no head.
    assert composition.grams_per(food("12006"), "cup") is None
    assert composition.grams_per(food("11090"), "head") is None


RELEASE = {
    "FD_GROUP.txt": "~1100~^~Vegetables~\r\n",
    "FOOD_DES.txt": "~00002~^~1100~^~Leek, raw~^~LEEK~^~~^~~^~~^~Tops~^56^~~^^^^\r\n"
    "~00001~^~1100~^~Jalape\u00f1o, raw~^~JAL~^~~^~~^~~^~~^^~~^^^^\r\n",
    "NUT_DATA.txt": "~00001~^~208~^29^0^\r\n~00001~^~999~^1^0^\r\n~00002~^~208~^.50^0^\r\n~00002~^~307~^0^0^\r\n",
    "WEIGHT.txt": "~00002~^2^.5^~cup~^44.0^^\r\n~00002~^1^2^~tbsp~^11.0^^\r\n",
}


def test_the_compact_file_is_the_same_each_time(tmp_path: Path):
    for name, text in RELEASE.items():
        (tmp_path / name).write_bytes(text.encode("cp1252"))
    packed = composition_build.compact(tmp_path)
    assert packed == composition_build.compact(tmp_path)
    lines = gzip.decompress(packed).decode("utf-8").splitlines()
    assert [line.split("\t")[1] for line in lines[2:]] == ["Jalapeño, raw", "Leek, raw"]
    jalapeno, leek = (line.split("\t") for line in lines[2:])
    assert jalapeno[3] == ""
    assert leek[3] == "56"
    assert leek[5] == "0.5"
    # Sodium was published as zero; iron was not published.
    assert (leek[12], leek[15]) == ("0", "")
    assert leek[17] == "2^tbsp^11|0.5^cup^44"
