"""A recipe's page and a food's: at the written size, with what is known and what is not."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

from binder.model.food import NUTRIENTS
from binder.model.quantity import Interval
from binder.pages.page import Box, Facts, Fold, IngredientLine, Ingredients, Page, Steps
from binder.pages.site_numbers import exact, where_from
from binder.pages.site_recipe import recipe_page
from binder.pages.words import words_of
from binder.reckon.recipe_facts import Nutrition

from .fixture_site import RICOTTA, facts, page, shelf
from .reading import of_kind, said, table, words

EN = words_of("en")
BAKE = "recipes/squash-barley-bake/index.html"
STEW = "recipes/lentil-stew/index.html"


def pairs(of: Page) -> dict[str, str]:
    return {name: said(text) for name, text in of_kind(of, Facts)[0].pairs}


def figures(of: Page) -> dict[str, str]:
    return {row[0]: row[1] for row in table([of], "numbers")}


def test_ingredients_stand_at_the_written_size_with_their_pages() -> None:
    groups = of_kind(page(BAKE), Ingredients)[0].groups
    assert [g.title for g in groups] == ["Barley", "Squash", "Beside, in all", "At service, in all"]
    lines = {x.food: x for g in groups for x in g.lines}
    assert lines["pearled barley"].quantity.replace("\u00a0", " ") == "1½ cups"
    assert lines["ricotta"].quantity.replace("\u00a0", " ") == "4 tbsp"
    assert lines["ricotta"].href == "foods/ricotta/index.html"


def test_a_kit_shows_its_service_too() -> None:
    steps = [s.text for g in of_kind(page("recipes/trout-kit/index.html"), Steps) for x in g.groups for s in x.steps]
    assert steps == ["Cut the potatoes.", "Boil the potatoes.", "Fry the trout."]


def test_what_is_added_goes_by_its_own_line_in_a_kit() -> None:
    lines = of_kind(page("recipes/trout-kit/index.html"), IngredientLine)
    assert [x.food for x in lines] == ["potato", "trout", "butter"]


def test_the_head_says_what_how_long_and_how_it_keeps() -> None:
    found = pairs(page(BAKE))
    assert found["Makes"] == "8 portions"
    assert found["Form"].startswith("ready")
    assert found["Keeps"] == "4 days in the refrigerator, 90 days frozen"
    # 35 min of barley beside 8 of cutting and 30 of roasting: 38 min, then 8 together. One step states no minutes.
    assert found["Time"] == "at least 46 min, 16 min of it handwork"


def test_allergens_are_words_with_their_foods_and_a_caution() -> None:
    bake = facts()["squash-barley-bake"]
    known = replace(bake.allergens, contains_from={"milk": ("ricotta",)}, may_from={"sesame": ("ricotta",)})
    box = next(b for b in of_kind(recipe_page(replace(bake, allergens=known), shelf()), Box) if b.kind == "allergens")
    text = words(box)
    assert "Contains milk. Pack says may contain sesame." in text
    assert "Milk: in ricotta" in text and "Sesame: by its pack, perhaps in ricotta" in text
    assert "Read the pack" in text


def test_a_food_without_a_record_is_not_checked() -> None:
    assert "Not checked: radish." in words(page(STEW))


def test_no_page_says_safe_or_free_from() -> None:
    for path in (BAKE, STEW, "recipes/index.html", "foods/ricotta/index.html", "foods/radish/index.html"):
        text = re.sub("(?i)local food-safety rules|food safety", "", words(page(path)))
        assert not re.search(r"(?i)\bsafe\b|\bfree[ -]from\b|[a-z]-free\b", text), path


def test_an_incomplete_figure_says_at_least_and_names_what_is_missing() -> None:
    stew = page(STEW)
    rows = figures(stew)
    assert rows["Energy"] == "at least 295 kcal"
    assert rows["Protein"] == "14 g"
    assert rows["Calcium"] == "not known"
    assert "No figures for radish" in words(stew)


def test_the_folded_table_adds_up_for_a_person_with_a_calculator() -> None:
    bake = facts()["squash-barley-bake"]
    per_100_g = RICOTTA.per_100_g[NUTRIENTS.index("energy_kcal")] or 0.0
    of_ricotta = Nutrition(tuple(None if v is None else Interval(v * 0.62, v * 0.62) for v in RICOTTA.per_100_g))
    lines = tuple(replace(x, nutrition=of_ricotta) if x.food == "ricotta" else x for x in bake.ingredients)
    fold = where_from(replace(bake, ingredients=lines, total=of_ricotta), shelf())
    rows = {row[0]: row for row in table([_page(fold)], "sums")}
    line = rows["4 tbsp ricotta"]
    assert line[1:4] == ("62", "SR28 01036, 1 cup = 246 g; 1 tbsp as 1/16 cup", "SR28 01036, Cheese, ricotta")
    assert float(line[4]) == round(62 * per_100_g / 100, 2)
    assert rows["Sum of the recipe"][4] == line[4]
    assert rows["÷ 8 portions"][0] and rows["As printed, a portion"][4] == "520 kcal"
    assert {row[0]: row[1] for row in table([_page(fold)], "per-100-g")}["ricotta"] == "174"


def test_a_line_without_a_weight_or_figures_is_not_known_in_the_table() -> None:
    rows = {row[0]: row for row in table([_page(where_from(facts()["squash-barley-bake"], shelf()))], "sums")}
    assert rows["salt to taste"][1:4] == ("not known", "not known", "not known")


def test_what_is_thrown_away_shows_its_share() -> None:
    bake = facts()["squash-barley-bake"]
    fried = replace(bake.ingredients[0], eaten=0.1)
    rows = table([_page(where_from(replace(bake, ingredients=(fried,)), shelf()))], "sums")
    assert rows[0][1] == "300 × 10 %"


def test_numbers_that_are_not_rounded_for_print() -> None:
    assert exact(Interval(14.787, 29.574), 2, EN) == "14.79–29.57"
    assert exact(Interval(3.0, 3.0), 2, EN, True) == "at least 3"
    assert exact(None, 2, EN) == "not known"


def test_weeks_in_which_it_was_planned() -> None:
    assert "Week 50, 2025" in words(page(STEW))
    assert "Not planned in any week." in words(page("recipes/trout-kit/index.html"))


def test_a_food_says_where_everything_comes_from() -> None:
    ricotta = page("foods/ricotta/index.html")
    found = pairs(ricotta)
    assert found["Keeps"] == "7 days in the refrigerator, do not freeze (Cold Food Storage Chart)"
    assert found["Once opened"] == "5 days" and found["Packs"] == "250 g, $2.80"
    assert figures(ricotta)["Saturated fat"] == "8.295 g"
    assert table([ricotta], "measures") == [("1 cup", "246 g", "SR28 01036")]
    text = words(ricotta)
    assert "Source: SR28 01036, Cheese, ricotta" in text
    assert "Contains milk. Pack says may contain sesame." in text and "Source: everyday foods" in text
    assert "250 g ricotta, whole milk, opened 2026-06-03 (in the refrigerator)" in text
    assert "Squash and barley bake" in text and " – 4 tbsp ricotta" in text


def test_a_food_without_figures_or_record_is_not_known_and_never_zero() -> None:
    radish = page("foods/radish/index.html")
    assert set(figures(radish).values()) == {"not known"}
    assert "Not known: no allergen record." in words(radish)
    assert pairs(radish)["Keeps"] == "not known"
    assert pairs(radish)["Edible portion"] == "no yield recorded: counted whole"


def test_foods_by_aisle_with_their_dishes() -> None:
    foods = page("foods/index.html")
    text = words(foods)
    assert text.index("Produce") < text.index("Dairy and eggs") < text.index("Spices")
    rows = {row[0]: row[1] for row in table([foods], "foods")}
    assert rows["onion"] == "Squash and barley bake" and rows["radish"] == "no dish uses it"


def test_two_foods_of_one_name_have_a_page_each() -> None:
    own = replace(RICOTTA, basis=replace(RICOTTA.basis, kind="household", id="ricotta"))
    library = replace(shelf().library, foods=(own,))
    found = shelf(library).foods
    assert sorted(f.slug for f in found.values() if f.food.name == "ricotta") == ["ricotta", "ricotta-2"]


def _page(fold: Fold) -> Page:
    return Page("x", "x", "recipe", (fold,))


def test_half_portions_of_a_recipe_divide_by_what_it_makes() -> None:
    bake = facts()["squash-barley-bake"]
    recipe = replace(bake.recipe, portions=Fraction(5, 2))
    assert "÷ 2½ portions" in words(where_from(replace(bake, recipe=recipe), shelf()))
