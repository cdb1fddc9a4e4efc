"""Lists of recipes, minutes and places."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest

from binder.model.food import Food
from binder.model.household import Place, Tool
from binder.model.recipe import Recipe, Reheat, Use
from binder.pages import archive, food, site_list_pages
from binder.pages.page import Bullets, Heading, Page
from binder.pages.site_list_pages import recipe_list_pages
from binder.pages.site_lists import listings, main_foods
from binder.pages.site_minutes import RecipeMinutes, minutes_text, recipe_minutes
from binder.pages.site_places import answer_words, can_heat, place_answers
from binder.pages.words import words_of
from binder.reckon import reheating
from binder.reckon.recipe_facts import RecipeFacts

from .fixture import BAKE_FACTS, KIT_FACTS, SPAN, STEW_FACTS, household, recipe, step
from .fixture_site import facts, shelf
from .reading import of_kind, said, table, words

EN = words_of("en")


def listed(key: str) -> dict[str, list[str]]:
    one = next(x for x in listings(shelf()) if x.key == key)
    return {group.title: [said(item) for item in group.items] for group in one.groups}


def test_by_meal_and_form() -> None:
    assert listed("meal") == {
        "Lunch": ["Lentil stew", "Squash and barley bake"], "Snack": ["Seed scones"],
        "Dinner": ["Trout with dill potatoes"],
    }  # fmt: skip
    assert [len(items) for items in listed("form").values()] == [2, 1, 1]


def test_by_allergen_three_answers_and_what_was_not_checked() -> None:
    found = listed("allergen")
    assert found["Milk: contains"] == ["Squash and barley bake", "Trout with dill potatoes"]
    assert found["Fish: contains"] == ["Trout with dill potatoes (trout)"]
    assert found["Sesame: may contain"] == ["Squash and barley bake"]
    assert found["Not checked"] == ["Lentil stew (radish)"]
    assert "None of the listed allergens is recorded" not in found


def test_what_was_not_checked_is_never_among_those_with_nothing_recorded() -> None:
    bare = replace(STEW_FACTS, not_known=())
    groups = next(x for x in listings(shelf(found={"lentil-stew": bare})) if x.key == "allergen").groups
    assert [(g.title, len(g.items)) for g in groups] == [("None of the listed allergens is recorded", 1)]


def test_by_keeping_days_and_freezing() -> None:
    titles = [title.replace("\u00a0", " ") for title in listed("keeping")]
    assert titles == ["4 days in the refrigerator", "May be frozen"]


def test_by_place_only_what_can_be_eaten_there() -> None:
    found = listed("place")
    assert "Squash and barley bake – Microwave 1000 W, 2 min 30 s, covered." in found["Home"]
    assert not any(item.startswith("Squash") for item in found["Survey van"])
    assert any(item.startswith("Lentil stew – Cold") for item in found["Survey van"])
    assert not any(item.startswith("Trout") for item in found["Ward"])


def test_by_minutes_what_states_none_is_not_known() -> None:
    found = listed("minutes")
    assert found["Up to 30 min"] == ["Trout with dill potatoes – 6 min, all of it handwork; 23 min at service"]
    assert len(found["Not known"]) == 3


def test_every_list_names_every_recipe_it_must() -> None:
    titles = {f.title for f in facts().values()}
    for key in ("meal", "form", "minutes"):
        assert {item.partition(" – ")[0] for items in listed(key).values() for item in items} == titles


def test_main_foods_are_the_heavy_ones() -> None:
    stew = replace(BAKE_FACTS, ingredients=tuple(x for x in BAKE_FACTS.ingredients if x.grams is not None))
    assert main_foods(stew) == ("butternut squash", "pearled barley", "onion")


def test_main_foods_without_every_weight_are_all_but_the_seasoning() -> None:
    assert "pickled cabbage" in main_foods(BAKE_FACTS) and "salt" not in main_foods(BAKE_FACTS)


def test_a_large_library_has_a_page_for_each_list(monkeypatch: pytest.MonkeyPatch) -> None:
    assert len(recipe_list_pages(shelf())) == 1
    monkeypatch.setattr(site_list_pages, "MOST_ON_ONE_PAGE", 3)
    pages = recipe_list_pages(shelf())
    assert [p.path for p in pages][:2] == ["recipes/index.html", "lists/meal/index.html"]
    assert "Trout with dill potatoes" in words(pages[0])


def test_long_lists_are_whole_over_pages_that_lead_to_each_other(monkeypatch: pytest.MonkeyPatch) -> None:
    whole = {one.key: {said(item) for group in one.groups for item in group.items} for one in listings(shelf())}
    monkeypatch.setattr(site_list_pages, "MOST_ON_ONE_PAGE", 1)
    monkeypatch.setattr(site_list_pages, "MOST_LINES", 2)
    pages = {page.path: page for page in recipe_list_pages(shelf())}
    for key, lines in whole.items():
        of = [block for path, page in pages.items() if path.startswith(f"lists/{key}/") for block in bullets(page)]
        assert lines <= {said(item) for block in of for item in block.items}, key
        assert all(len(block.items) <= 2 for block in of if f"lists/{key}" not in repr(block)), key
    rows = [row for path, page in pages.items() if path.startswith("lists/all/") for row in table([page], "recipes")]
    assert sorted(row[0] for row in rows) == sorted(f.title for f in facts().values())
    reached, found = {"recipes/index.html"}, ["recipes/index.html"]
    while found:
        links = set(re.findall(r"href='([^']+)'", repr(pages[found.pop()].blocks)))
        new = (links & set(pages)) - reached
        reached |= new
        found += new
    assert reached == set(pages)


def bullets(page: Page) -> list[Bullets]:
    return of_kind(page, Bullets)


def test_a_large_library_names_the_number_of_dishes_beside_a_food(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(food, "used_in", lambda found: tuple(facts()))
    assert {row[1].count(", ") for row in table([food.foods_page(shelf())], "foods")} == {len(facts()) - 1}
    monkeypatch.setattr(food, "MOST_USES", 1)
    assert {row[1] for row in table([food.foods_page(shelf())], "foods")} == {f"{len(facts())} dishes"}


def test_years_before_have_pages_of_their_own_when_there_are_many_weeks(monkeypatch: pytest.MonkeyPatch) -> None:
    (one,) = archive.archive_pages(shelf())
    assert {"2025", "2026"} <= {block.text for block in of_kind(one, Heading)}
    monkeypatch.setattr(archive, "MOST_WEEKS", 1)
    first, before = archive.archive_pages(shelf())
    assert before.path == "lists/weeks-2025/index.html" and before.path in repr(first.blocks)
    assert len(table([first], "weeks")) == len(table([before], "weeks")) == 1


def with_steps(*prep: Any, service: tuple[Any, ...] = ()) -> Recipe:
    return recipe("x", "X", (), 4, prep=prep, service=service)


def test_parts_run_side_by_side_and_together_waits() -> None:
    found = recipe_minutes(with_steps(
        step("Simmer.", "A", 35, unattended=True), step("Cut.", "B", 8), step("Roast.", "B", 30, unattended=True),
        step("Fold.", "Together", 8),
    ))  # fmt: skip
    assert found == RecipeMinutes(Fraction(16), Fraction(46), None, True)
    assert minutes_text(found, EN).replace("\u00a0", " ") == "46 min, 16 min of it handwork"


def test_one_cook_does_one_thing_at_a_time() -> None:
    found = recipe_minutes(with_steps(step("Cut.", "A", 20), step("Stir.", "B", 15)))
    assert (found.hands, found.elapsed) == (Fraction(35), Fraction(35))


def test_a_step_without_minutes_makes_a_lower_bound() -> None:
    found = recipe_minutes(with_steps(step("Cut.", None, 5), step("Rest.", None, None)))
    assert not found.complete and minutes_text(found, EN).startswith("at least")
    assert recipe_minutes(with_steps(step("Rest.", None, None))).total is None


PLACES = (
    Place("a", SPAN, (Tool("microwave", watts=700),)), Place("b", SPAN, (Tool("insulated flask"), Tool("oven"))),
    Place("c", SPAN, (Tool("burner"), Tool("kettle"))), Place("d", SPAN, ()),
)  # fmt: skip
MEANS = ("microwave", "oven", "burner", "stove", "hob", "pan", "pot", "flask", "kettle", "boiling water", "cold",
         "as it is", "room temperature", "steamer")  # fmt: skip


@pytest.mark.parametrize("means", MEANS)
@pytest.mark.parametrize("place", PLACES, ids=lambda p: p.name)
def test_heating_is_answered_as_the_check_of_a_plan_answers_it(means: str, place: Place) -> None:
    line = Reheat(means, None, None, means, SPAN)
    assert can_heat(place, line) == reheating.can_do(place, line)


def answers(of: RecipeFacts, *places: Place) -> list[str]:
    found = place_answers(of, household(places=places), EN)
    return [answer_words(a, EN).replace("\u00a0", " ") for a in found]


def test_a_ban_a_pack_and_a_missing_record_are_three_answers() -> None:
    school = Place("school", SPAN, (Tool("microwave", watts=1000),), bans=("milk", "sesame"))
    assert answers(BAKE_FACTS, school) == ["Not there: milk not allowed in. Pack says may contain sesame."]
    assert answers(STEW_FACTS, school) == ["Cold. Not checked: radish."]


def test_a_ban_of_the_other_list_counts() -> None:
    first, *rest = STEW_FACTS.ingredients
    oats = replace(first, ingredient=replace(first.ingredient, food=Food("oats", contains_other=("lupin",))))
    of = replace(STEW_FACTS, ingredients=(oats, *rest))
    assert answers(of, Place("school", SPAN, (), bans=("lupin",)))[0].startswith("Not there: lupin not allowed in")


def test_a_tool_that_service_needs() -> None:
    ward = Place("ward", SPAN, (Tool("microwave", watts=700),))
    assert answers(KIT_FACTS, ward) == ["Not there: no burner there."]
    boiled = replace(STEW_FACTS, recipe=replace(STEW_FACTS.recipe, needs=("kettle",)))
    assert answers(boiled, ward) == ["Not there: no kettle there."]


def test_another_power_never_passes_for_the_written_one() -> None:
    ward = Place("ward", SPAN, (Tool("microwave", watts=700),))
    assert "for another power, here 700 W" in answers(BAKE_FACTS, ward)[0]


def test_a_place_that_takes_no_home_made_food() -> None:
    assert answers(STEW_FACTS, Place("camp", SPAN, (), home_food=False)) == ["Not there: no home-made food taken."]


def test_a_board_is_found_anywhere() -> None:
    service = (step("Slice.", None, 2, Use("cutting board")),)
    sliced = replace(STEW_FACTS, recipe=replace(STEW_FACTS.recipe, service=service))
    assert answers(sliced, Place("camp", SPAN, ())) == ["Cold."]
