"""Each code at its place: «...» marks in the text where the problem must stand."""

import pytest

from .kitchen import BASE, FILES, checked, marked, problems_at

H, F, R, W, S = "household.yaml", "foods.yaml", "recipes/bean-stew.md", "weeks/2026-W24.md", "stock.yaml"


def changed(path: str, old: str, new: str) -> str:
    assert FILES[path].count(old) == 1, old
    return FILES[path].replace(old, new)


ERRORS = [
    ("wrong-type", H, "avoids: [milk]", "avoids: [«mlik»]"),
    # household
    ("unknown-key", H, "allergen list:", "«alergen list»:"),
    ("missing-key", H, "{name: Rui, tallies: {vegetables: 6}}", "«{tallies: {vegetables: 6}}»"),
    ("missing-key", H, "holds: 3 cup, have: 4}", "holds: 3 cup, «have»: }"),
    ("wrong-type", H, "allergen list: us", "allergen list: «asia»"),
    ("wrong-type", H, "Europe/Lisbon", "«Europe/Lisbonne»"),
    ("wrong-type", H, "avoids: [milk]", "avoids: «milk»"),
    ("wrong-type", H, "bans: [peanuts]", "bans: [«pollen»]"),
    ("wrong-type", H, "holds: 3 cup", "holds: «500 g»"),
    ("wrong-type", H, "{energy: 1900 kcal}", "{«protien»: 90 g}"),
    ("bad-amount", H, "have: 4", "have: «several»"),
    ("bad-amount", H, "1900 kcal", "«lots»"),
    ("bad-amount", H, "microwave 700 W", "«microwave 0 W»"),
    ("unknown-unit", H, "1900 kcal", "«1900 cups»"),
    ("unknown-unit", H, "holds: 3 cup", "holds: 3 «coup»"),
    ("unknown-place", H, "eats lunch at: office", "eats lunch at: «offices»"),
    ("duplicate-name", H, "name: Rui", "name: «ana»"),
    ("duplicate-name", H, "bans: [peanuts]}", "bans: [peanuts]}\n  - {name: «Home»}"),
    ("bad-link", H, "household: The mill flat", "household: The mill flat\nsite address: «ftp://example.org»"),
    ("bad-date", H, "household: The mill flat", 'household: The mill flat\nmeal times: {lunch: "«25:00»"}'),
    ("bad-amount", H, "household: The mill flat", "household: The mill flat\nlabels: {first free: «31»}"),
    # foods
    ("wrong-type", F, "[wheat, sesame]", "[wheat, «pollen»]"),
    ("unknown-unit", F, "energy: 120 kcal", "energy: «120 cups»"),
    ("unknown-unit", F, "energy: 120 kcal", "energy: «120»"),
    ("bad-amount", F, "contains:", "yield: «0 %»\n  contains:"),
    ("duplicate-name", F, "contains: [wheat, sesame]", "contains: []\n- name: «Seed crackers»"),
    ("duplicate-name", F, "contains: [wheat, sesame]", "contains: []\n- {name: rusk, synonyms: [«seed crackers»]}"),
    # recipes
    ("missing-key", R, "title: Bean stew\nmeal: lunch\n", "«meal: lunch»\n"),
    ("wrong-type", R, "meal: lunch", "meal: [lunch, «brunch»]"),
    ("wrong-type", R, "keeps: soups and stews", "keeps: «soup and stews»"),
    ("wrong-type", R, "at service:\n  - 4 tbsp ricotta", "at service: «4 tbsp ricotta»"),
    ("unknown-unit", R, "makes: 4 portions", "makes: 4 «portons»"),
    ("bad-amount", R, "makes: 4 portions", "makes: «0» portions"),
    ("bad-amount", R, "makes: 4 portions", "makes: «4-6 portions»"),
    ("unknown-key", R, "- 1 onion, chopped", "- {item: 1 onion, «foot»: onion}"),
    ("unknown-key", R, "- 1 onion, chopped", "- «1 onion»: chopped"),
    ("unknown-recipe", R, "recipe: tomato-base", "recipe: «tomato-bas»"),
    ("unknown-container", R, "container: tub", "container: «tubb»"),
    ("bad-link", R, "container: tub", "photo: «../stew.jpg»"),
    ("bad-link", R, "container: tub", "photo: «stu.jpg»"),
    ("bad-link", R, "A stew.", "A [stew](«javascript:alert»)."),
    ("bad-link", R, "A stew.", "A ![stew](«other.jpg»)."),
    ("unknown-unit", R, "container: tub", "tallies: {vegetables: {«1 cup»: 1}}"),
    ("wrong-type", R, "- 1 onion, chopped", "- 1 onion, chopped «[see note»"),
    ("wrong-type", R, "1. Chop. [5 min, cutting board]", "1. Chop. «[5 min, cutting board»"),
    ("wrong-type", R, "1. Chop. [5 min, cutting board]", "1. Chop [finely]. «[5 min,»\n   cutting board"),
    ("wrong-type", R, "1. Chop. [5 min, cutting board]", "1. Chop. 5 min, cutting board«]»"),
    ("wrong-type", R, "makes: 4 portions", "makes: 3 cups\nportion: «200 g»"),
    # weeks
    ("bad-week", W, "week: 2026-W24", "week: «2026-W25»"),
    ("bad-week", W, "week: 2026-W24", "week: «next»"),
    ("missing-key", W, '{on: 2026-06-07, at: "13:00"}', "«{on: 2026-06-07}»"),
    ("missing-key", W, "{lunch: bean-stew, for: [Ana, Rui], on: mon-fri}", "«{for: [Ana, Rui], on: mon-fri}»"),
    ("wrong-type", W, "{lunch: bean-stew, for:", "{lunch: bean-stew, «dinner»: bean-stew, for:"),
    ("unknown-eater", W, "[Ana, Rui]", "[Ana, «Rue»]"),
    ("unknown-eater", W, "on: mon-fri}", "on: mon-fri, portions: {«Bea»: 2}}"),
    ("unknown-place", W, "on: mon-fri}", "on: mon-fri, at: «ofice»}"),
    ("unknown-recipe", W, "lunch: bean-stew", "lunch: «bean-stu»"),
    ("unknown-recipe", W, "in: bean-stew", "in: «bean-stu»"),
    ("unknown-recipe", W, "2 portions bean stew", "2 portions «bean stu»"),
    ("bad-date", W, "on: mon-fri", "on: «mon-fry»"),
    ("bad-date", W, "on: mon-fri", "on: «2026-06-20»"),
    ("bad-date", W, "on: 2026-06-07", "on: «2026-06-31»"),
    ("bad-date", W, '"13:00"', '"«13 h»"'),
    ("bad-amount", W, "on: mon-fri}", "on: mon-fri, portions: «0»}"),
    ("wrong-type", W, "instead of: ricotta", "instead of: «butter»"),
]
WARNINGS = [
    ("unknown-food", F, "contains:", "like: «Crackers of the moon»\n  contains:"),
    ("energy-unlikely", F, "energy: 120 kcal", "energy: «240 kcal»"),
    ("no-weight", F, "serving: 30 g", "serving: «1 each»"),
    ("unknown-food", R, "1 onion, chopped", "2 cups chopped «qwertz», in strips"),
    ("unknown-food", R, "- 1 onion, chopped", "- {item: 1 onion, food: «Onions of the moon»}"),
    ("stock-unclear", S, "- 400 g butternut squash", "- «some squash»"),
    ("stock-unclear", S, "bean stew, made", "«bean stu», made"),
    ("stock-unclear", S, "- 400 g butternut squash", "- «400 g squash, contains pollen»"),
    ("unknown-food", S, "400 g butternut squash", "400 g «qwertz»"),
]


@pytest.mark.parametrize(("code", "path", "old", "new"), ERRORS)
def test_error_stands_at_its_place(code: str, path: str, old: str, new: str) -> None:
    text, place = marked(changed(path, old, new))
    assert problems_at(checked({path: text}).problems, path) == [("error", code, place)]


@pytest.mark.parametrize(("code", "path", "old", "new"), WARNINGS)
def test_warning_stands_at_its_place(code: str, path: str, old: str, new: str) -> None:
    text, place = marked(changed(path, old, new))
    assert problems_at(checked({path: text}).problems, path) == [("warning", code, place)]


def test_small_household_has_no_problem() -> None:
    assert checked().problems == ()


def test_all_problems_come_at_once_in_order() -> None:
    changes = {
        H: changed(H, "have: 4", "have: several").replace("peanuts", "pollen"),
        R: changed(R, "container: tub", "container: tubb"),
        W: changed(W, "mon-fri", "mon-fry"),
    }
    found = [(one.span.path, one.code) for one in checked(changes).problems]
    assert found == [(H, "wrong-type"), (H, "bad-amount"), (R, "unknown-container"), (W, "bad-date")]


def test_ring_is_named_at_one_of_its_lines() -> None:
    base = BASE.replace("[800 g tomatoes]", "[1 portion recipe: bean-stew]")
    problem = next(one for one in checked({"recipes/tomato-base.md": base}).problems if one.code == "recipe-loop")
    assert problem.message == '"bean-stew" contains itself: bean-stew -> tomato-base -> bean-stew'
    assert (problem.span.path, problem.span.line) == ("recipes/tomato-base.md", 4)


def test_recipe_that_is_its_own_part_is_a_ring_of_one() -> None:
    base = BASE.replace("[800 g tomatoes]", "[1 cup recipe: tomato-base]")
    found = [one.message for one in checked({"recipes/tomato-base.md": base}).problems]
    assert found == ['"tomato-base" contains itself: tomato-base -> tomato-base']


def test_two_recipes_of_one_title() -> None:
    found = checked({"recipes/zz.md": BASE.replace("Tomato base", "Bean Stew")}).problems
    assert [(one.code, one.span.path, one.span.line) for one in found] == [("duplicate-name", "recipes/zz.md", 2)]


WORDING = [
    (H, "allergen list:", "alergen list:", 'no key "alergen list" in household.yaml', 'did you mean "allergen list"?'),
    (H, "household: The mill flat\n", "", 'household.yaml needs "household"', "What the household is called."),
    (R, "1 onion, chopped", "1 cup masur", 'no food "masur"', 'add "masur" to foods.yaml'),
    (W, "[Ana, Rui]", "[Ana, Rue]", 'no eater "Rue"', 'did you mean "Rui"?'),
    (R, "container: tub", "container: tubb", 'no container "tubb"', 'did you mean "tub"?'),
    (W, "lunch: bean-stew", "lunch: bean-stu", 'no recipe "bean-stu"', 'did you mean "bean-stew"?'),
    (H, "eats lunch at: office", "eats lunch at: offices", 'no place "offices"', 'did you mean "office"?'),
]


@pytest.mark.parametrize(("path", "old", "new", "message", "remedy"), WORDING)
def test_wording(path: str, old: str, new: str, message: str, remedy: str) -> None:
    (problem,) = checked({path: changed(path, old, new)}).problems
    assert problem.message == message
    assert remedy in problem.remedies
