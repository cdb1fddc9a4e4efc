"""A food of the household's own, written to the end of foods.yaml and checked before it is."""

from __future__ import annotations

import json
from typing import Any

import pytest
from click.testing import CliRunner, Result

from binder.cli import main
from binder.source.document import read_document
from binder.source.yaml_text import plain_value
from tests.kitchen import Kitchen

FOODS = """\
# From our packs.

- name: oat drink      # the blue one
  label: {serving: 100 g, energy: 46 kcal,
          protein: 1 g}
  contains: []

# spices
- {name: sumac, contains: []}
# the end
"""
CRACKERS = (
    *("--synonym", "seed crackers", "--serving", "30 g", "--energy", "120 kcal", "--protein", "4 g", "--fat", "4 g"),
    *("--saturated-fat", "0.5 g", "--carbohydrate", "17 g", "--contains", "wheat, sesame", "--may-contain", "milk"),
    *("--pack", "200 g = 3.10", "--pack", "450 g", "--weight", "1 cup = 60 g", "--yield", "100 %"),
    *("--aisle", "bakery", "--once-opened", "14 days"),
)
WRITTEN = """\
- name: sprouted crackers
  synonyms: [seed crackers]
  label: {serving: 30 g, energy: 120 kcal, protein: 4 g, fat: 4 g, saturated fat: 0.5 g, carbohydrate: 17 g}
  weights: {1 cup: 60 g}
  yield: 100 %
  contains: [wheat, sesame]
  may contain: [milk]
  packs:
    - {size: 200 g, price: 3.1}
    - {size: 450 g}
  aisle: bakery
  once opened: 14 days
"""


@pytest.fixture
def larder(kitchen: Kitchen) -> Kitchen:
    kitchen.files["foods.yaml"] = FOODS
    return kitchen.write()


def add(kitchen: Kitchen, *options: str, status: int = 0, keys: str | None = None) -> Result:
    arguments = ["food", "add", *options, "--content", str(kitchen.content)]
    result = CliRunner().invoke(main, arguments, input=keys, catch_exceptions=False)
    assert result.exit_code == status, result.output
    return result


def foods(kitchen: Kitchen) -> str:
    return (kitchen.content / "foods.yaml").read_bytes().decode()


def entries(kitchen: Kitchen) -> list[dict[str, Any]]:
    value: list[dict[str, Any]] = plain_value(read_document(foods(kitchen).encode(), "f", "yaml").root)
    return value


def test_the_entry_stands_last_and_nothing_else_changes(larder: Kitchen) -> None:
    add(larder, "sprouted crackers", *CRACKERS)
    assert foods(larder) == FOODS.replace("# the end\n", WRITTEN + "# the end\n")


def test_what_was_added_is_known(larder: Kitchen) -> None:
    add(larder, "sprouted crackers", *CRACKERS)
    shown = larder.run("food", "seed crackers", "--json", "--content", str(larder.content))
    found = json.loads(shown.stdout)
    assert (found["food"], found["contains"]) == ("sprouted crackers", ["wheat", "sesame"])
    assert found["per_100_g"]["energy_kcal"] == 400


def test_twice_is_once(larder: Kitchen) -> None:
    add(larder, "sprouted crackers", *CRACKERS)
    before = foods(larder)
    assert "already, just so" in add(larder, "sprouted crackers", *CRACKERS).output
    assert foods(larder) == before


def test_a_name_that_is_there_is_changed_by_hand(larder: Kitchen) -> None:
    assert "foods.yaml:9 already: change it there" in add(larder, "Sumac", "--contains", "milk", status=1).output
    assert foods(larder) == FOODS


@pytest.mark.parametrize(
    ("options", "code"),
    [
        (("--aisle", "moon"), "wrong-type"),
        (("--contains", "moondust"), "wrong-type"),
        (("--serving", "30 g", "--energy", "lots"), "bad-amount"),
        (("--synonym", "sumac", "--contains", "none"), "duplicate-name"),
        (("--pack", "200 moons = 3"), "unknown-unit"),
        (("--once-opened", "soon"), "bad-amount"),
    ],
)
def test_what_cannot_stand_is_said_and_not_written(larder: Kitchen, options: tuple[str, ...], code: str) -> None:
    output = add(larder, "crackers", *options, status=1).output
    assert f"error[{code}]" in output
    assert foods(larder) == FOODS


def test_a_label_that_does_not_add_up_is_a_warning_and_is_written(larder: Kitchen) -> None:
    figures = (
        "--serving",
        "100 g",
        "--energy",
        "100 kcal",
        "--protein",
        "50 g",
        "--fat",
        "20 g",
        "--carbohydrate",
        "5 g",
    )
    output = add(larder, "powder", *figures, "--contains", "none").output
    assert "warning[energy-unlikely]" in output
    assert entries(larder)[-1]["name"] == "powder"


def test_without_a_record_the_allergens_are_not_known(larder: Kitchen) -> None:
    assert "its allergens are not known" in add(larder, "powder", "--aisle", "baking").output
    assert "contains" not in entries(larder)[-1]
    add(larder, "syrup", "--contains", "none")
    assert entries(larder)[-1]["contains"] == []


def test_asked_for_what_is_on_the_pack(larder: Kitchen) -> None:
    label = "30 g\n120 kcal\n4 g\n" + "\n" * 10
    keys = f"\n\n{label}wheat\n\n200 g = 3.10\n\n\n\nbakery\n\n"
    add(larder, "crispbread", keys=keys)
    assert entries(larder)[-1] == {
        "name": "crispbread",
        "label": {"serving": "30 g", "energy": "120 kcal", "protein": "4 g"},
        "contains": ["wheat"],
        "packs": [{"size": "200 g", "price": 3.1}],
        "aisle": "bakery",
    }


@pytest.mark.parametrize("form", ["yaml", "json"])
def test_from_a_file(larder: Kitchen, form: str) -> None:
    several = [{"name": "rye crisp", "contains": ["wheat"]}, {"name": "oat crisp", "contains": [], "aisle": "bakery"}]
    path = larder.folder / f"new.{form}"
    path.write_text(json.dumps(several) if form == "json" else "- {name: rye crisp, contains: [wheat]}\n"
                    "- {name: oat crisp, contains: [], aisle: bakery}\n")  # fmt: skip
    add(larder, "--from", str(path))
    assert entries(larder)[-2:] == several
    one = larder.folder / "one.yaml"
    one.write_text("contains: []\npacks: [{size: 1 kg}]\n")
    add(larder, "spelt crisp", "--from", str(one), "--aisle", "bakery")
    assert entries(larder)[-1] == {
        "name": "spelt crisp",
        "contains": [],
        "packs": [{"size": "1 kg"}],
        "aisle": "bakery",
    }


def test_dry_run_writes_nothing(larder: Kitchen) -> None:
    output = add(larder, "sprouted crackers", *CRACKERS, "--dry-run").output
    assert "+- name: sprouted crackers" in output
    assert foods(larder) == FOODS


@pytest.mark.parametrize("written", [None, "", "# none yet\n", "[]\n", "[{name: sumac}]  # one\n"])
def test_odd_files_take_their_first_entry(larder: Kitchen, written: str | None) -> None:
    path = larder.content / "foods.yaml"
    path.unlink()
    if written is not None:
        path.write_text(written)
    add(larder, "rye crisp", "--contains", "wheat")
    assert entries(larder)[-1] == {"name": "rye crisp", "contains": ["wheat"]}
    assert all(line in foods(larder) for line in ("# none yet", "# one") if line in (written or ""))


def test_line_ends_stay(larder: Kitchen) -> None:
    path = larder.content / "foods.yaml"
    path.write_bytes(FOODS.replace("\n", "\r\n").encode())
    add(larder, "sprouted crackers", *CRACKERS)
    assert foods(larder) == FOODS.replace("# the end\n", WRITTEN + "# the end\n").replace("\n", "\r\n")


def test_a_file_that_cannot_be_read_is_left_alone(larder: Kitchen) -> None:
    path = larder.content / "foods.yaml"
    path.write_text("- name: [\n")
    assert "cannot be read as it stands" in add(larder, "rye crisp", "--contains", "wheat", status=1).output
    assert path.read_text() == "- name: [\n"


def test_a_food_is_still_shown_by_its_word(larder: Kitchen) -> None:
    for arguments in (("garlic",), ("--json", "garlic"), ("fresh", "garlic", "--content", str(larder.content))):
        result = larder.run("food", *arguments)
        assert result.exit_code == 0, result.output
        assert "garlic" in result.output
    assert larder.run("food", "moonroot").exit_code == 1
    assert larder.run("food").exit_code == 2
    assert "add NAME" in larder.run("food", "--help").output


def test_neither_name_nor_file_is_two(larder: Kitchen) -> None:
    add(larder, status=2)


@pytest.mark.parametrize("option", ["--contains", "--may-contain"])
@pytest.mark.parametrize("value", ["", " ", ",", " , "])
def test_an_empty_list_of_allergens_is_refused_and_the_word_is_said(larder: Kitchen, option: str, value: str) -> None:
    """Nothing written is not known; a record of none has to be said with `none`."""
    before = foods(larder)
    output = add(larder, "nut paste", option, value, status=2).output
    assert f"{option} has no word in it" in output and "write " in output
    assert "`none` when the pack was read" in output or option == "--may-contain"
    assert foods(larder) == before
