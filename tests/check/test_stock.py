"""What is on hand, lot by lot."""

from datetime import date
from fractions import Fraction

import pytest

from binder.model.quantity import Measure
from binder.model.stock import Lot

from .kitchen import checked, library


def lot(line: str) -> Lot:
    (made,) = library({"stock.yaml": f"fridge:\n  - {line}\n"}).stock.lots
    return made


def test_food_lot() -> None:
    made = lot("18 oz butternut squash, opened 2026-06-03")
    assert (made.id, made.place, made.opened, made.recipe) == ("stock.yaml:2", "fridge", date(2026, 6, 3), None)
    assert made.food is not None and made.food.name == "butternut squash"
    assert made.measures == (Measure(Fraction(18), Fraction(18), "oz"),)


def test_dish_lot_by_title_or_key() -> None:
    for name in ("bean stew", "Bean Stew", "bean-stew"):
        made = lot(f"2 portions {name}, made 2026-05-20")
        assert (made.recipe, made.food, made.made) == ("bean-stew", None, date(2026, 5, 20))


def test_title_with_a_comma_is_one_name() -> None:
    text = "---\ntitle: Beans, greens and lemon\nmakes: 2 portions\ningredients: [1 onion]\n---\n"
    made = library(
        {"recipes/beans.md": text, "stock.yaml": "freezer:\n  - 1 portion beans, greens and lemon, made 2026-05-20\n"}
    )
    assert [one.recipe for one in made.stock.lots] == ["beans"]


def test_own_record_of_a_lot_comes_in_the_words_of_the_list() -> None:
    made = lot("500 g tahini, best before 2027-01-31, contains sesame, may contain dairy")
    assert (made.contains, made.may_contain, made.best_before) == (("sesame",), ("milk",), date(2027, 1, 31))
    assert lot("500 g tahini").contains is None


def test_line_that_cannot_be_read_is_left_out_and_the_others_stay() -> None:
    result = checked({"stock.yaml": "fridge:\n  - a little of this\n  - 1 kg onions\n"})
    assert [(one.severity, one.code) for one in result.problems] == [("warning", "stock-unclear")]
    assert result.library is not None
    assert [one.id for one in result.library.stock.lots] == ["stock.yaml:3"]


@pytest.mark.parametrize("line", ["1 kg onions, best before 2027-13-31", "0 kg onions", "1 cupz onions"])
def test_lot_whose_amount_or_date_cannot_be_read_is_not_on_hand(line: str) -> None:
    result = checked({"stock.yaml": f"fridge:\n  - {line}\n"})
    assert [(one.severity, one.code) for one in result.problems] == [("warning", "stock-unclear")]
    assert result.library is not None
    assert result.library.stock.lots == ()


def test_no_stock_at_all() -> None:
    assert library({"stock.yaml": ""}).stock.lots == ()
    assert library({"stock.yaml": "fridge: []\n"}).stock.lots == ()
    assert library({"stock.yaml": "fridge:\nfreezer:\n"}).stock.lots == ()
    result = checked(without="stock.yaml")
    assert result.problems == ()
