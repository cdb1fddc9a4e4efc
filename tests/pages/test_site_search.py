"""What a page is found by: foods, meals, dishes, the words of a note; nothing that is private, ever."""

from __future__ import annotations

from binder.pages.page import Page
from binder.press.search import index_script

from .fixture_site import PRIVATE, page, site

RECIPE = "recipes/squash-barley-bake/index.html"
OLD_WEEK = "weeks/2025-W50/index.html"


def found(path: str) -> tuple[str, set[str]]:
    of: Page = page(path)
    return of.found_as, set(of.keywords)


def test_a_recipe_is_found_by_its_foods_meals_and_form() -> None:
    kind, words = found(RECIPE)
    assert kind == "recipe" and {"ricotta", "Lunch", "ready"} <= words


def test_a_food_is_found_by_its_other_names_and_its_aisle() -> None:
    assert found("foods/radish/index.html") == ("food", {"garden radish", "Produce"})


def test_a_week_is_found_by_its_name_days_dishes_and_the_words_of_its_note() -> None:
    kind, words = found(OLD_WEEK)
    assert kind == "week" and {"2025-W50", "Lentil stew", "Seed scones", "slow", "lemon", "paragraph"} <= words
    assert not {"the", "went:", "**slow**"} & words


def test_sections_of_the_current_week_are_found_under_its_name() -> None:
    assert found("weeks/2026-W24/shopping/index.html") == ("Week 24, 2026", set())
    assert [p.title for p in site().pages if p.found_as == "Week 24, 2026"][:2] == ["Shopping list", "Mise en place"]


def test_what_is_on_hand_is_found() -> None:
    assert found("freezer/index.html") == ("list", {"Lentil stew", "ricotta"})


def test_nothing_private_is_in_the_index_even_of_a_site_that_shows_it() -> None:
    assert any(PRIVATE in repr(p) for p in site(private=True).pages)
    for of in (site(), site(private=True)):
        assert PRIVATE.casefold() not in index_script(of).decode().casefold()


def test_an_aim_an_allergy_and_a_figure_are_not_in_the_index() -> None:
    text = index_script(site()).decode()
    for word in ("kcal", "Contains", "milk", "SR28"):
        assert word not in text, word
