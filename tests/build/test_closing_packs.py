"""What the packs of the shopping list leave, put into stock when the closing says that it was shopped as listed."""

from __future__ import annotations

from typing import Any

import pytest
from click.testing import CliRunner, Result

from binder.cli import main
from binder.source.document import read_document
from binder.source.yaml_text import plain_value
from tests.kitchen import Kitchen, only

FOODS = """\
- {name: my oats, like: rolled oats, packs: [{size: 500 g, price: 2.00}]}
- {name: my cheese, label: {serving: 30 g, energy: 90 kcal}, contains: [milk], aisle: dairy and eggs,
   once opened: 5 days, packs: [{size: 200 g, price: 3.00}]}
- {name: my broth, label: {serving: 240 g, energy: 15 kcal}, contains: [], weights: {1 cup: 240 g},
   once opened: 4 days, aisle: tins and jars, packs: [{size: 1000 g, price: 2.90}]}
- {name: my chicken, like: chicken thigh, packs: [{size: 500 g, price: 6.00}]}
- {name: my leek, like: leek, packs: [{size: 300 g, price: 1.00}]}
"""
STEW = """
    title: Stew
    makes: 4 portions
    ingredients:
      - 600 g my oats
      - 250 g my cheese
      - 400 g my broth
      - 300 g my chicken, as purchased
      - 200 g my leek, as purchased
    keeps: {fridge: 4 days, freezer: 3 months}
    reheat: ["microwave 1000 W, 2 min"]
"""
PLAN = """\
prep: [{on: 2026-06-07, at: "13:00", cooks: 1}]
meals: [{lunch: stew, for: [Ilka, Tomas], on: mon-tue, at: home}]
"""
CLOSED_ON = "2026-06-11"  # a Thursday, the last of the broth's four days
LISTED = ("--set", "bought=as listed")


@pytest.fixture
def stew(kitchen: Kitchen) -> Kitchen:
    kitchen.files["foods.yaml"] = FOODS
    kitchen.files["stock.yaml"] = "# Counted on Friday.\nfridge: []\ncupboard:\n  - 300 g my oats\n"
    return kitchen.recipe("stew", STEW).week(PLAN).write()


def close(kitchen: Kitchen, *options: str, status: int = 0, on: str = CLOSED_ON) -> Result:
    result = kitchen.run("close-week", "2026-W24", "--content", str(kitchen.content), "--today", on, *options)
    assert result.exit_code == status, result.output
    return result


def stock(kitchen: Kitchen) -> dict[str, Any]:
    raw = (kitchen.content / "stock.yaml").read_bytes()
    found: dict[str, Any] = plain_value(read_document(raw, "s", "yaml").root)
    return found


def test_what_the_packs_leave_is_written_where_it_is_kept_with_its_date(stew: Kitchen) -> None:
    result = close(stew, "--as-planned", *LISTED)
    # Oats: 300 of 600 g were there, so one pack of 500; cheese: two packs for 250 g; broth 600 g left, opened, cold.
    cold = ["100 g my leek, bought", "150 g my cheese, opened", "600 g my broth, opened"]
    assert stock(stew) == {
        "fridge": [f"{line} 2026-06-07" for line in cold],
        "cupboard": ["200 g my oats, opened 2026-06-07"],
    }
    # Raw meat is nobody's to guess.
    assert "what the packs leave of my chicken is not written" in result.output
    assert "chicken" not in (stew.content / "stock.yaml").read_text("utf-8")
    assert (stew.content / "stock.yaml").read_text("utf-8").startswith("# Counted on Friday.\n")


def test_a_rest_goes_where_the_household_keeps_that_food(stew: Kitchen) -> None:
    stew.files["stock.yaml"] = "oat bin: [300 g my oats]\n"
    stew.write()
    close(stew, "--as-planned", *LISTED)
    assert stock(stew)["oat bin"] == ["200 g my oats, opened 2026-06-07"] and "cupboard" not in stock(stew)


def test_what_is_written_is_read_as_the_same_food(stew: Kitchen) -> None:
    close(stew, "--as-planned", *LISTED)
    stew.files = {path: (stew.content / path).read_text("utf-8") for path in stew.files}
    stew.week(PLAN.replace("2026-06-07", "2026-06-14"), "2026-W25")
    facts = stew.build("--draft", today="2026-06-14").read("site/weeks/2026-W25/facts.json")
    assert only(facts["shopping"], food="my oats")["on_hand"]["amount"] == 200
    # Opened a week ago, the cheese is past its five days.
    assert only(facts["shopping"], food="my cheese")["on_hand"]["amount"] == 0


def test_nothing_is_written_unasked_and_the_way_is_said(stew: Kitchen) -> None:
    result = close(stew, "--as-planned")
    assert stock(stew) == {"fridge": [], "cupboard": None}
    assert "--set bought='as listed'" in result.output


def test_packs_that_were_not_opened_stand_apart(stew: Kitchen) -> None:
    close(stew, "--set", "stew.made=2", *LISTED)
    # Half a batch: 125 g of cheese are in one pack, the other is closed; oats: what was there did.
    assert stock(stew)["fridge"] == [
        "200 g my leek, bought 2026-06-07", "75 g my cheese, opened 2026-06-07", "200 g my cheese, bought 2026-06-07",
        "800 g my broth, opened 2026-06-07",
    ]  # fmt: skip
    assert stock(stew)["cupboard"] == ["500 g my oats, bought 2026-06-07"]


def test_raw_meat_that_was_not_opened_is_nobody_s_to_guess_either(stew: Kitchen) -> None:
    stew.recipe("stew", STEW.replace("300 g my chicken", "600 g my chicken")).write()
    result = close(stew, "--set", "stew.made=2", *LISTED)
    assert "chicken" not in str(stock(stew)) and "what the packs leave of my chicken" in result.output


def test_a_rest_too_small_to_tell_is_left_out(stew: Kitchen) -> None:
    stew.recipe("stew", STEW.replace("250 g my cheese", "397 g my cheese").replace("600 g my oats", "789 g my oats"))
    stew.write()
    close(stew, "--as-planned", *LISTED)
    assert "cheese" not in str(stock(stew)) and "10 g my oats, opened 2026-06-07" in stock(stew)["cupboard"]


def test_twice_is_once_and_again_takes_it_back(stew: Kitchen) -> None:
    close(stew, "--as-planned", *LISTED)
    first = (stew.content / "stock.yaml").read_bytes(), (stew.content / "weeks/2026-W24.md").read_bytes()
    assert "nothing to change" in close(stew, "--as-planned", *LISTED).output
    close(stew, "--again", "--as-planned", *LISTED)
    assert first == ((stew.content / "stock.yaml").read_bytes(), (stew.content / "weeks/2026-W24.md").read_bytes())
    close(stew, "--again", "--set", "stew.made=2")
    assert "200 g my cheese, bought 2026-06-07" in stock(stew)["fridge"]
    assert "150 g my cheese, opened 2026-06-07" not in stock(stew)["fridge"]


def test_said_later_it_is_as_if_it_had_been_said_at_once(stew: Kitchen) -> None:
    close(stew, "--as-planned", *LISTED)
    at_once = stock(stew)
    stew.write()
    close(stew, "--as-planned")
    assert "bought not said, now as listed" in close(stew, *LISTED, status=1).output
    close(stew, "--again", *LISTED)
    assert stock(stew) == at_once


def test_a_dry_run_shows_it_and_writes_nothing(stew: Kitchen) -> None:
    before = (stew.content / "stock.yaml").read_bytes()
    assert "+  - 200 g my oats, opened 2026-06-07" in close(stew, "--as-planned", *LISTED, "--dry-run").output
    assert (stew.content / "stock.yaml").read_bytes() == before


@pytest.mark.parametrize(("key", "written"), [("y", True), ("", False)])
def test_on_a_terminal_it_is_asked_last(
    stew: Kitchen, monkeypatch: pytest.MonkeyPatch, key: str, written: bool
) -> None:
    monkeypatch.setattr("binder.commands.close_week.at_a_terminal", lambda: True)
    arguments = ["close-week", "2026-W24", "--content", str(stew.content), "--today", CLOSED_ON]
    # The weight, as it was, the minutes, nothing exchanged, no note; then the packs.
    result = CliRunner().invoke(main, arguments, input=f"\n\n\n\n\n{key}\n", catch_exceptions=False)
    assert result.exit_code == 0 and "Bought as listed" in result.output
    assert ("150 g my cheese, opened 2026-06-07" in stock(stew)["fridge"]) is written


def test_another_word_is_refused(stew: Kitchen) -> None:
    assert "is not one of the words" in close(stew, "--set", "bought=some", status=1).output


# ---- where it is kept ----


@pytest.mark.parametrize(
    ("food", "place"),
    [
        ("potato", "cupboard"),  # cool, dark, airy; not in the refrigerator
        ("garlic", "cupboard"),  # dry, airy, not in the refrigerator until cut
        ("red onion", "cupboard"),  # dry, dark, airy
        ("butternut squash", "cupboard"),  # cool, dry, whole
        ("tomato", "cupboard"),  # room temperature until cut
        ("banana", "cupboard"),
        ("carrot", "fridge"),  # high-humidity drawer
        ("eggplant", "fridge"),  # cool room or warmest shelf
        ("parsley", "fridge"),
        ("cheddar", "fridge"),
        ("whole-wheat flour", "fridge"),  # cold, airtight
        ("white rice", "cupboard"),
        ("peas", "freezer"),
        ("vegetable broth", "fridge"),  # opened, its days are those in the refrigerator
    ],
)
def test_a_rest_goes_where_the_table_keeps_the_food(kitchen: Kitchen, food: str, place: str) -> None:
    """The storing facts of the everyday table (common practice)."""
    kitchen.files["foods.yaml"] = f"- {{name: {food}, packs: [{{size: 900 g, price: 2.00}}]}}\n"
    kitchen.recipe("stew", f"""
        title: Stew
        makes: 4 portions
        ingredients: ["500 g {food}, as purchased"]
        keeps: {{fridge: 4 days, freezer: 3 months}}
    """)  # fmt: skip
    close(kitchen.week(PLAN).write(), "--as-planned", *LISTED)
    found = stock(kitchen)
    assert list(found) == [place] and f"g {food}, " in found[place][0], found


CUT = """\
- {name: my cucumber, like: cucumber, packs: [{size: 1 each, price: 0.90}]}
- {name: my rice, like: white rice}
"""


def test_what_is_not_written_is_said(kitchen: Kitchen) -> None:
    kitchen.files["foods.yaml"] = CUT
    kitchen.recipe("stew", """
        title: Salad
        makes: 4 portions
        ingredients: [1 1/2 my cucumber, 1 lemon, 300 g my rice]
        keeps: {fridge: 4 days}
    """)  # fmt: skip
    output = close(kitchen.week(PLAN).write(), "--as-planned", *LISTED).output
    assert "what is left of cut pieces is not written: 1/2 my cucumber; write into stock.yaml" in output
    assert "what the packs leave of my rice is not written: no size is known" in output and "lemon" not in output
    assert "cucumber" not in (kitchen.content / "weeks/2026-W24.md").read_text("utf-8").partition("stock:")[2]


def test_an_opened_rest_past_its_days_is_said(stew: Kitchen) -> None:
    """The cheese was opened on 7 June and keeps 5 days, the broth 4."""
    output = close(stew, "--as-planned", *LISTED, on="2026-06-12").output
    assert "600 g my broth, opened 2026-06-07: its last day in the refrigerator was Thursday 11 June" in output
    assert "cheese, opened 2026-06-07: its last day" not in output
    assert "600 g my broth, opened 2026-06-07" in stock(stew)["fridge"]
