"""`binder propose`: a week like the one before, of dishes that stand; each case worked by hand."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.kitchen import Kitchen

PREP = 'prep:\n  - {on: 2026-06-07, at: "13:00", cooks: 1}\n'
DISHES = {
    "barley-pot": "200 g pearled barley",
    "aged-cheese-bake": "200 g cheddar cheese",
    "bean-pot": "400 g carrots",
    "feta-salad": "100 g feta",
}


@pytest.fixture
def home(tmp_path: Path) -> Kitchen:
    """Four lunches, the first of them planned for Monday to Wednesday, and Ilka avoids milk."""
    kitchen = Kitchen(tmp_path).household("- name: Ilka\n", "- name: Ilka\n    avoids: [milk]\n")
    for key, line in DISHES.items():
        title = key.replace("-", " ").capitalize()
        kitchen.recipe(key, f"title: {title}\nmeal: lunch\nmakes: 4 portions\ningredients:\n  - {line}\n")
    return kitchen.week(f"{PREP}meals:\n  - {{lunch: barley-pot, for: Ilka, on: mon-wed, at: home}}")


def proposed(home: Kitchen, *more: str) -> str:
    home.write()
    result = home.run("propose", "--content", str(home.content), "--today", "2026-06-07", *more)
    assert result.exit_code == 0, result.output
    return result.output


def test_the_same_meals_with_another_dish_that_stands(home: Kitchen) -> None:
    said = proposed(home)
    # Cheese and feta hold milk; of the other two the bean pot was not in the week before.
    assert "  - {lunch: bean-pot, for: Ilka, on: mon-wed, at: home}\n" in said
    assert "# Bean pot: never planned yet\n" in said
    assert "week: 2026-W25\n" in said and '{on: 2026-06-14, at: "13:00", cooks: 1}' in said
    assert not (home.content / "weeks" / "2026-W25.md").exists()


def test_what_is_on_hand_comes_first_and_is_eaten_from_stock(home: Kitchen) -> None:
    home.file("stock.yaml", "freezer:\n  - 2 portions barley pot, made 2026-06-01\n")
    said = proposed(home)
    assert "{lunch: barley-pot, for: Ilka, on: mon-wed, at: home}" in said
    assert "2 portions are on hand; last planned in 2026-W24" in said
    assert "already:\n  - 2 portions barley-pot\n" in said


@pytest.mark.parametrize(("written", "count"), [("1 portion", "1 portion is"), ("1/2 portion", "1/2 portion is"),
                                                ("1 1/2 portions", "1 1/2 portions are")])  # fmt: skip
def test_one_portion_is_on_hand(home: Kitchen, written: str, count: str) -> None:
    home.file("stock.yaml", f"freezer:\n  - {written} barley pot, made 2026-06-01\n")
    home.week(f"{PREP}meals:\n  - {{lunch: barley-pot, for: Ilka, on: mon, at: home, portions: 0.5}}")
    said = proposed(home)
    assert f"{count} on hand" in said
    eaten = "1/2 portion"
    assert f"already:\n  - {eaten} barley-pot\n" in said


def test_what_the_week_in_use_eats_is_not_on_hand(home: Kitchen) -> None:
    home.file("stock.yaml", "freezer:\n  - 2 portions barley pot, made 2026-06-01\n")
    home.week(
        f"{PREP}meals:\n  - {{lunch: barley-pot, for: Ilka, on: mon-wed, at: home}}\nalready: [2 portions barley-pot]"
    )
    said = proposed(home)
    assert "lunch: bean-pot" in said and "already" not in said


def test_food_that_will_not_keep_comes_before_what_was_not_planned_for_long(home: Kitchen) -> None:
    home.household("avoids: [milk]", "avoids: [eggs]")
    home.file("stock.yaml", "fridge:\n  - 200 g feta, best before 2026-06-17\n")
    said = proposed(home)
    assert "# Feta salad: uses feta, which keeps until Wed 17 Jun; never planned yet\n" in said
    assert "lunch: feta-salad" in said


def test_food_that_is_over_before_the_week_is_no_reason(home: Kitchen) -> None:
    home.household("avoids: [milk]", "avoids: [eggs]")
    home.file("stock.yaml", "fridge:\n  - 200 g feta, best before 2026-06-13\n")
    assert "lunch: aged-cheese-bake" in proposed(home)


def test_where_no_dish_stands_the_line_is_left_open(home: Kitchen) -> None:
    for key in ("bean-pot", "barley-pot"):
        title = key.replace("-", " ").capitalize()
        home.recipe(key, f"title: {title}\nmeal: lunch\nmakes: 4 portions\ningredients:\n  - 50 g butter\n")
    home.week(f"{PREP}meals:\n  - {{lunch: barley-pot, for: Tomas, on: mon, at: home}}\n"
              "  - {lunch: bean-pot, for: Ilka, on: tue, at: home}")  # fmt: skip
    said = proposed(home)
    assert "lunch: aged-cheese-bake, for: Tomas, on: mon" in said
    assert '# no dish stands for: {lunch: "?", for: Ilka, on: tue, at: home}' in said


def test_what_was_used_instead_before_is_used_again(home: Kitchen) -> None:
    home.week(
        f"{PREP}meals:\n  - {{lunch: feta-salad, for: Ilka, on: mon, at: home}}\n"
        "substitutions:\n  - {in: feta-salad, for: Ilka, use: 100 g firm tofu, instead of: feta}",
        "2026-W23",
    )
    home.file("stock.yaml", "fridge:\n  - 200 g feta, best before 2026-06-17\n")
    home.files["weeks/2026-W23.md"] = home.files["weeks/2026-W23.md"].replace("2026-06-07", "2026-05-31")
    said = proposed(home)
    assert "lunch: feta-salad" in said
    assert "  - {in: feta-salad, for: Ilka, use: 100 g firm tofu, instead of: feta}\n" in said


def test_a_written_proposal_passes_the_check_and_is_not_written_over(home: Kitchen) -> None:
    proposed(home, "--write")
    checked = home.run("check", str(home.content), "--week", "2026-W25", "--today", "2026-06-07")
    assert checked.exit_code == 0, checked.output
    before = (home.content / "weeks" / "2026-W25.md").read_bytes()
    again = home.run("propose", "2026-W25", "--content", str(home.content), "--today", "2026-06-07", "--write")
    assert again.exit_code == 1 and "is there already" in again.output
    assert (home.content / "weeks" / "2026-W25.md").read_bytes() == before


def test_without_a_week_before_there_is_nothing_to_go_by(tmp_path: Path) -> None:
    kitchen = Kitchen(tmp_path).recipe("pot", "title: Pot\nmakes: 4 portions\nmeal: lunch\ningredients: []\n").write()
    result = kitchen.run("propose", "--content", str(kitchen.content), "--today", "2026-06-07")
    assert result.exit_code == 1 and "no week before 2026-06-08" in result.output
