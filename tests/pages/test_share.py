"""What leaves the house: shared pages, JSON-LD and the feed hold what the list lets through, and nothing else."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import fields, is_dataclass, replace
from datetime import UTC, date, datetime
from fractions import Fraction
from types import MappingProxyType
from typing import Any

import pytest

from binder.model.quantity import Interval
from binder.model.week import Substitution
from binder.pages.feed import feed
from binder.pages.other_files import Feed
from binder.pages.page import Page, Photo
from binder.pages.share import let_through, nobodys_edition, share_pages, share_week
from binder.pages.site_minutes import recipe_minutes
from binder.pages.structured import duration, recipe_json
from binder.problem import Span
from binder.reckon.recipe_facts import Nutrition, RecipeFacts

from .fixture import BAKE_FACTS, SPAN, TAHINI
from .fixture_site import facts, shelf, whole_library
from .fixture_week import week_facts
from .reading import of_kind, table, words

SECRET = "ZEBRA"

# The written list, and beside it the words of closed lists without which nothing can be set.
LET_THROUGH: Mapping[str, frozenset[str]] = {
    "RecipeFacts": frozenset({"key", "title", "form", "meals", "contains", "may_contain", "not_known"}),
    "Recipe": frozenset({"key", "title", "form", "meals", "part_names", "photo", "needs", "batch"}),
    "Ingredient": frozenset({"when", "part", "preparation", "notes", "alternative", "flags"}),
    "IngredientFacts": frozenset({"food", "part", "when"}),
    "Food": frozenset({"name", "aisle"}),
    "Step": frozenset({"text", "part"}),
    "Use": frozenset({"kind", "temperature_text"}),
    "Reheat": frozenset({"means", "text", "temperature_text", "rest"}),
    "ReheatFacts": frozenset({"means", "text", "converted_from"}),
    "Measure": frozenset({"unit", "size"}),
    "Amount": frozenset({"unit"}),
    "Basis": frozenset({"kind"}),
    "Household": frozenset({"language", "paper", "measures", "cup", "allergen_list", "caution", "time_zone"}),
    "Week": frozenset({"key"}),
    "WeekFacts": frozenset({"week"}),
    "Serving": frozenset({"meal", "recipe"}),
    "MealLine": frozenset({"meal", "recipe"}),
    "Tool": frozenset({"kind"}),
    "Aim": frozenset({"name", "kind"}),
    "Eater": frozenset({"caution"}),
    "Problem": frozenset({"severity", "code"}),
}
# These are keys or figures, not words that anybody writes into a field.
WHOLE = (Span, date, datetime, Nutrition)


def planted(what: Any) -> Any:
    """The same tree with the secret in every string that the list does not name."""
    if isinstance(what, str):
        return f"{SECRET} {what}"
    if isinstance(what, WHOLE) or what is None or isinstance(what, int | float | Fraction):
        return replace(what, path=f"{SECRET}.md") if isinstance(what, Span) else what
    if isinstance(what, tuple):
        return tuple(planted(one) for one in what)
    if isinstance(what, frozenset):
        return frozenset(planted(one) for one in what)
    if isinstance(what, Mapping):
        return MappingProxyType({key: planted(value) for key, value in what.items()})
    if is_dataclass(what) and not isinstance(what, type):
        kept = LET_THROUGH.get(type(what).__name__, frozenset())
        return replace(
            what, **{f.name: planted(getattr(what, f.name)) for f in fields(what) if f.name not in kept}
        )  # fmt: skip
    raise TypeError(type(what).__name__)


def full_facts() -> dict[str, RecipeFacts]:
    """Recipes with something in every field that a household writes."""
    found = facts()
    bake = found["squash-barley-bake"]
    recipe = replace(
        bake.recipe, sections=(("More", "words"),), tags=("sunday",), extra=MappingProxyType({"a": "b"}),
        gives=(bake.recipe.ingredients[0],), makes_text="8 portions", needs=("kettle",),
    )  # fmt: skip
    found["squash-barley-bake"] = replace(bake, recipe=recipe)
    return found


def shared() -> list[Page]:
    recipes = {key: planted(of) for key, of in full_facts().items()}
    library = planted(whole_library(site_address="https://example.org"))
    return [*share_pages(library, recipes), share_week(planted(week_facts()), library)]


def test_the_secret_is_planted_where_it_could_be_found() -> None:
    """The guard of the next test: were the household's own page shared, the secret would be in it."""
    recipe = planted(full_facts()["squash-barley-bake"]).recipe
    for name in ("notes", "source", "private", "container", "sections", "tags", "gives", "makes_text"):
        assert SECRET in repr(getattr(recipe, name)), name
    library = planted(whole_library())
    assert all(SECRET in repr(of) for of in (library.household.eaters, library.household.places, library.stock.lots))
    assert SECRET in library.household.name


def test_no_planted_secret_leaves_the_house() -> None:
    for page in shared():
        assert SECRET not in repr(page), page.path


def test_the_copy_that_pages_are_made_from_holds_no_secret_either() -> None:
    """So that a page which prints one field more tomorrow still finds nothing in it."""
    for key, of in full_facts().items():
        assert SECRET not in repr(let_through(planted(of))), key
    assert SECRET not in repr(nobodys_edition(planted(whole_library()).household))


def test_nobody_and_no_place_of_the_household_is_named() -> None:
    pages = [*share_pages(whole_library(), facts()), share_week(week_facts(), whole_library())]
    text = words(pages) + repr(pages)
    for word in ("Ilka", "Tomas", "Bea", "Alder Street", "survey van", "ward", "deep tub", "vegetables", "$", "aim"):
        assert word not in text, word


def page(key: str) -> Page:
    return next(p for p in share_pages(whole_library(), facts()) if p.path == f"{key}.html")


def test_a_shared_recipe_can_be_cooked_from() -> None:
    text = words(page("squash-barley-bake"))
    for word in ("Squash and barley bake", "1½ cups", "pearled barley", "peeled, in cubes", "Roast.", "30 min",
                 "oven 400 °F", "Microwave 1000 W, 2 min 30 s, covered", "4 days in the refrigerator", "Contains milk.",
                 "Pack says may contain sesame.", "Read the pack", "165 °F"):  # fmt: skip
        assert word in text, word
    assert [p.name for p in of_kind(page("squash-barley-bake"), Photo)] == ["squash-bake.jpg"]


def test_a_shared_kit_has_its_service() -> None:
    assert "Fry the trout." in words(page("trout-kit"))


def test_what_was_not_checked_is_said_to_the_others_too() -> None:
    assert "Not checked: radish." in words(page("lentil-stew"))


def complete(value: float = 12.0) -> RecipeFacts:
    whole = Nutrition((Interval(value, value),) * 11)
    return replace(BAKE_FACTS, per_portion=replace(BAKE_FACTS.per_portion, nutrition=whole))


def test_figures_are_shared_all_or_none() -> None:
    assert "A portion has" not in words(page("squash-barley-bake"))  # sugars and saturated fat are not known
    whole = share_pages(whole_library(), {"squash-barley-bake": complete()})
    assert {row[0]: row[1] for row in table(whole, "numbers")}["Protein"] == "12 g"
    lower = replace(complete().per_portion.nutrition, at_least=frozenset({"sodium_mg"}))
    of = replace(complete(), per_portion=replace(complete().per_portion, nutrition=lower))
    assert set(let_through(of).per_portion.nutrition.values) == {None}
    pages = share_pages(whole_library(), {"squash-barley-bake": of})
    assert "A portion has" not in words(pages)
    assert "nutrition" not in json.loads(pages[0].structured) and "nutrition" in json.loads(whole[0].structured)


def test_the_menu_has_days_meals_and_dishes() -> None:
    menu = share_week(week_facts(), whole_library())
    assert menu.path == "2026-W24.html"
    assert table([menu], "menu") == [
        ("Monday 8 June",), ("Lunch", "Squash and barley bake"), ("Dinner", "Lentil stew"),
        ("Tuesday 9 June",), ("Dinner", "Trout with dill potatoes"),
        ("Friday 12 June",), ("Lunch", "Squash and barley bake"),
        ("No fixed day",), ("Snack", "Seed scones"),
    ]  # fmt: skip


def test_a_substitution_is_the_households_own_affair() -> None:
    swap = Substitution(SPAN, "squash-barley-bake", ("Ilka",), TAHINI, "ricotta", (6,))
    assert "tahini" not in words(page("squash-barley-bake")) and swap.use.food.name == "tahini"


# ---- schema.org ----


def json_of(of: RecipeFacts) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(recipe_json(of, shelf().edition))
    return found


def test_json_ld_of_a_recipe() -> None:
    found = json_of(complete())
    assert (found["@type"], found["name"], found["recipeYield"]) == ("Recipe", BAKE_FACTS.title, "8 portions")
    assert found["recipeIngredient"][0] == "1½ cups pearled barley, dry"
    assert found["recipeInstructions"][1] == {"@type": "HowToStep", "text": "Cube the squash."}
    assert len(found["recipeInstructions"]) == 5
    assert found["nutrition"]["calories"] == "12 kcal" and found["nutrition"]["sodiumContent"] == "12 mg"
    assert not {"author", "suitableForDiet", "keywords"} & set(found)


def test_figures_in_json_ld_only_when_complete() -> None:
    assert "nutrition" not in json_of(BAKE_FACTS)
    ranged = Nutrition((Interval(1.0, 2.0),) * 11)
    of = replace(complete(), per_portion=replace(complete().per_portion, nutrition=ranged))
    assert "nutrition" not in json_of(of)


def test_durations_only_when_every_step_states_its_minutes() -> None:
    kit = facts()["trout-kit"]
    found = json_of(kit)
    assert (found["totalTime"], found["prepTime"]) == ("PT29M", "PT6M")
    assert not recipe_minutes(BAKE_FACTS.recipe).complete and "totalTime" not in json_of(BAKE_FACTS)


def test_no_duration_when_a_part_is_another_recipe() -> None:
    kit = facts()["trout-kit"]
    line = replace(kit.ingredients[0], ingredient=replace(kit.ingredients[0].ingredient, recipe="lentil-stew"))
    assert "totalTime" not in json_of(replace(kit, ingredients=(line,)))


@pytest.mark.parametrize(
    ("minutes", "text"),
    [(Fraction(5), "PT5M"), (Fraction(60), "PT1H"), (Fraction(155, 2), "PT1H18M"), (Fraction(0), "PT0M")],
)
def test_iso_8601_durations(minutes: Fraction, text: str) -> None:
    assert duration(minutes) == text


def test_no_text_ends_the_script_element() -> None:
    text = recipe_json(replace(BAKE_FACTS, title="</script><b>"), shelf().edition)
    assert "<" not in text and json.loads(text)["name"] == "</script><b>"


# ---- the feed ----


def news(address: str | None = "https://example.org/kitchen/", today: date = date(2026, 6, 8)) -> Feed | None:
    return feed(whole_library(site_address=address), facts(), today)


def test_no_feed_without_an_address() -> None:
    assert news(None) is None


def test_an_entry_is_as_old_as_the_week_it_was_last_planned_in() -> None:
    found = news()
    assert found is not None
    dates = {e.title: e.updated for e in found.entries}
    assert found.entries[0].title == "Squash and barley bake"
    assert dates["Squash and barley bake"] == datetime(2026, 6, 8, tzinfo=UTC) == found.updated
    assert dates["Lentil stew"] == datetime(2025, 12, 8, tzinfo=UTC)
    assert dates["Trout with dill potatoes"] == datetime(2025, 12, 8, tzinfo=UTC)


def test_a_week_to_come_is_no_news_yet() -> None:
    found = news(today=date(2026, 6, 1))
    assert found is not None and found.updated == datetime(2025, 12, 8, tzinfo=UTC)


def test_ids_are_addresses_and_stay_with_another_day() -> None:
    one, other = news(), news(today=date(2026, 7, 1))
    assert one is not None and other is not None
    assert {e.id for e in one.entries} == {e.id for e in other.entries}
    assert one.entries[0].id == "https://example.org/kitchen/share/squash-barley-bake.html"


def test_no_planted_secret_in_the_feed() -> None:
    library = replace(
        planted(whole_library()), household=replace(planted(whole_library()).household, site_address="https://a.example")
    )  # fmt: skip
    found = feed(library, {key: planted(of) for key, of in full_facts().items()}, date(2026, 6, 8))
    assert found is not None and SECRET not in repr(found)
