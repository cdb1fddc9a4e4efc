"""All files together: one week alone, what is broken left out, what is made of what."""

from binder.check.library import check_library
from binder.check.rings import without_rings

from .kitchen import BASE, FILES, HOUSEHOLD, PHOTOS, STEW, WEEK, checked, documents, library

OTHER = "---\ntitle: Other dish\nmakes: 2 portions\ningredients: [1 cup qwertz]\n---\n"
BAD = "---\ntitle: Bad\nmakes: 2 portons\n---\n"


def test_library_is_sorted_by_key() -> None:
    made = library(
        {"recipes/alpha.md": OTHER.replace("qwertz", "onion"), "weeks/2026-W02.md": "---\nweek: 2026-W02\n---\n"}
    )
    assert list(made.recipes) == ["alpha", "bean-stew", "tomato-base"]
    assert list(made.weeks) == ["2026-W02", "2026-W24"]


def test_one_week_takes_the_recipes_it_reaches_and_no_others() -> None:
    changes = {"recipes/bad.md": BAD, "recipes/other.md": OTHER, "weeks/2026-W25.md": "---\nweek: 1\n---\n"}
    assert len(checked(changes).problems) > 3
    result = checked(changes, only_week="2026-W24")
    assert result.problems == ()
    assert result.library is not None
    assert list(result.library.recipes) == ["bean-stew", "tomato-base"]
    assert list(result.library.weeks) == ["2026-W24"]


def test_one_week_reaches_parts_of_parts_stock_and_substitutions() -> None:
    base = BASE.replace("[800 g tomatoes]", "[1 cup recipe: deep]")
    changes = {
        "recipes/tomato-base.md": base,
        "recipes/deep.md": OTHER.replace("Other dish", "Deep"),
        "recipes/lot.md": OTHER.replace("Other dish", "Lot"),
        "recipes/swapped.md": OTHER.replace("Other dish", "Swapped"),
        "recipes/eaten.md": OTHER.replace("Other dish", "Eaten, from stock"),
        "stock.yaml": "freezer: [2 portions lot]\n",
        "weeks/2026-W24.md": WEEK.replace("in: bean-stew", "in: swapped")
        .replace("instead of: ricotta", "instead of: qwertz")
        .replace("[2 portions bean stew]", "\n  - 2 portions Eaten, from stock"),
    }
    result = checked(changes, only_week="2026-W24")
    assert {one.code for one in result.problems} == {"unknown-food"}
    assert result.library is not None
    assert list(result.library.recipes) == ["bean-stew", "deep", "eaten", "lot", "swapped", "tomato-base"]


def test_household_foods_and_stock_are_looked_at_whole_for_one_week() -> None:
    changes = {
        "household.yaml": HOUSEHOLD.replace("have: 4", "have: some"),
        "foods.yaml": "- {nam: x}\n",
        "stock.yaml": "fridge: [some rice]\n",
    }
    found = {one.span.path for one in checked(changes, only_week="2026-W24").problems}
    assert found == set(changes)


def test_week_without_a_plan() -> None:
    found = checked(only_week="2026-W30").problems
    assert [(one.code, one.span.path) for one in found] == [("bad-week", "weeks/2026-W30.md")]


def test_unreadable_files_are_said_and_left_out() -> None:
    result = checked(
        {"recipes/bean-stew.md": "no front matter", "foods.yaml": "- {name: x", "weeks/2026-W25.md": "---\n"}
    )
    assert {one.span.path for one in result.problems} == {"recipes/bean-stew.md", "foods.yaml", "weeks/2026-W25.md"}
    assert {one.code for one in result.problems} == {"yaml-syntax"}
    assert result.library is not None
    assert list(result.library.recipes) == ["tomato-base"]


def test_unreadable_household_is_no_library() -> None:
    for text in ("household: {", "- a list\n", ""):
        result = checked({"household.yaml": text})
        assert result.library is None
        assert {one.span.path for one in result.problems} == {"household.yaml"}


def test_ring_is_cut_so_that_what_is_built_comes_to_an_end() -> None:
    base = BASE.replace("[800 g tomatoes]", "[1 portion recipe: bean-stew, 1 onion]")
    result = checked({"recipes/tomato-base.md": base})
    assert result.library is not None
    made = result.library.recipes
    assert [one.recipe for one in made["bean-stew"].ingredients] == ["tomato-base", None, None]
    assert [one.recipe for one in made["tomato-base"].ingredients] == [None, None]
    assert made["tomato-base"].ingredients[0].food.basis.kind == "unknown"
    assert without_rings(made)[1] == ()


def test_two_rings_are_two_problems() -> None:
    def part(of: str) -> str:
        return f"---\ntitle: '{of}'\nmakes: 2 portions\ningredients: [{of}]\n---\n"

    changes = {
        "recipes/a.md": part("1 portion recipe: b, 1 portion recipe: c"),
        "recipes/b.md": part("1 portion recipe: a"),
        "recipes/c.md": part("1 portion recipe: a, 1 portion recipe: tomato-base"),
    }
    found = [one for one in checked(changes).problems if one.code == "recipe-loop"]
    assert [one.message.partition(": ")[2] for one in found] == ["a -> b -> a", "a -> c -> a"]


def test_part_used_by_two_dishes_is_no_ring() -> None:
    assert checked({"recipes/zz.md": STEW.replace("Bean stew", "Second stew")}).problems == ()


def test_long_chain_of_parts_is_walked() -> None:
    files = dict(FILES)
    for n in range(1500):
        part = f"1 portion recipe: p{n + 1:04}" if n < 1499 else "1 onion"
        files[f"recipes/p{n:04}.md"] = f"---\ntitle: P{n}\nmakes: 2 portions\ningredients: [{part}]\n---\n"
    assert check_library(documents(files), PHOTOS).problems == ()
