"""Files that are unusual but right, and files that are wrong: what is read, and where a fault is said to be."""

from __future__ import annotations

import json
from typing import Any

import pytest

from tests.kitchen import HOUSEHOLD, Kitchen, codes, only
from tests.scenarios.dishes import by, day, dish, plan

MEAL = "lunch: pot, for: Tomas, on: mon, at: home"


def places(problems: list[dict[str, Any]]) -> list[tuple[str, int, int]]:
    return [(p["code"], p["line"], p["column"]) for p in problems]


def raw(kitchen: Kitchen, path: str, text: bytes) -> list[dict[str, Any]]:
    """The problems of a household with one file given as bytes."""
    kitchen.recipe("pot", dish()).week(plan(MEAL)).write()
    (kitchen.content / path).parent.mkdir(parents=True, exist_ok=True)
    (kitchen.content / path).write_bytes(text)
    kitchen.files.pop(path, None)
    return [p for p in kitchen.check() if p["path"].endswith(path)]


POT = "---\ntitle: Pot\nmakes: 1 portion\ningredients:\n  - 400 g carrots\n---\nNotes.\n"


@pytest.mark.parametrize(
    "text",
    [
        POT.encode(),
        b"\xef\xbb\xbf" + POT.encode(),  # a byte order mark
        POT.replace("\n", "\r\n").encode(),
        POT.rstrip("\n").encode(),
        POT.replace("Notes.\n", "").encode(),
        POT.replace("---\nNotes", "---   \nNotes").encode(),
        (POT + "\n\n\n").encode(),
        POT.replace("title: Pot", "title: >-\n  A pot\n  of roots").encode(),
        POT.replace("title: Pot", "# a comment\ntitle: 'Pot''s own'   # another").encode(),
        POT.replace("title: Pot", '"title": "P\\u00f6t"').encode(),
        POT.replace("ingredients:\n  - 400 g carrots", "ingredients: [400 g carrots]").encode(),
        POT.replace("ingredients:\n  - 400 g carrots", "ingredients:\n- 400 g carrots").encode(),
        POT.replace("  - 400 g carrots", "  - >\n    400 g\n    carrots").encode(),
        POT.replace("  - 400 g carrots", "  - |\n    400 g carrots").encode(),
        POT.replace("  - 400 g carrots", "  - &line 400 g carrots\n  - *line").encode(),
        POT.replace("  - 400 g carrots", "  Roots:\n    - 400 g carrots\n  Leaves: [100 g spinach]").encode(),
        b"---\n{title: Pot, makes: 1 portion, ingredients: ['400 g carrots']}\n---\n",
        POT.replace("Pot", "Ragoût à l’ancienne – 炖菜 🥕").encode(),
    ],
)
def test_unusual_but_right(kitchen: Kitchen, text: bytes) -> None:
    assert raw(kitchen, "recipes/pot.md", text) == []
    kitchen.build()
    facts = kitchen.read("site/weeks/2026-W24/facts.json")
    assert only(facts["shopping"], food="carrot")["need"]["amount"] > 400


@pytest.mark.parametrize(
    ("text", "found"),
    [
        (b"", ("yaml-syntax", 1, 1)),
        (b"\n", ("yaml-syntax", 1, 1)),
        (b"---\n---\n", ("missing-key", 1, 1)),
        (b"---\ntitle: Pot\n\tmakes: 1 portion\n---\n", ("yaml-syntax", 3, 1)),
        (b"---\ntitle: P\xf6t\n---\n", ("not-text", 2, 9)),
        (b"---\ntitle: P\x00t\n---\n", ("not-text", 2, 9)),
        (b"\xff\xfe-\x00-\x00-\x00\n\x00", ("not-text", 1, 1)),
        (
            b"---\r\ntitle: Pot\r\nmakes: 1 portion\r\ningredients: [400 grms carrots]\r\n---\r\n",
            ("unknown-unit", 4, 19),
        ),
        (b"\xef\xbb\xbf---\ntitle: Pot\nmakes: 0 portions\ningredients: [1 onion]\n---\n", ("bad-amount", 3, 8)),
        (
            "---\ntitle: Ragoût\nmakes: 1 portion\ningredients: [½ cup carrots, 0 g onions]\n---\n".encode(),
            ("bad-amount", 4, 30),
        ),
        (
            b"---\ntitle: Pot\nmakes: 1 portion\ningredients: [1 onion]\n# gone\n"
            b"keeps: {fridge: 3 days, fridge: 4 days}\n---\n",
            ("duplicate-key", 6, 25),
        ),
        (b"---\ntitle: Pot\ntitle: Pot\nmakes: 1 portion\ningredients: [1 onion]\n---\n", ("duplicate-key", 3, 1)),
        (b"---\ntitle: Pot\nmakes: 1 portion\ningredients: [1 onion\n---\n", ("yaml-syntax", 4, 14)),
        (b"---\ntitle: Pot\nmakes: 1 portion\ningredients: 1 onion\n---\n", ("wrong-type", 4, 14)),
        (b"---\n- title: Pot\n---\n", ("wrong-type", 2, 1)),
        (b"---\ntitle: [Pot]\nmakes: 1 portion\ningredients: [1 onion]\n---\n", ("wrong-type", 2, 8)),
        (b"---\ntitle:\nmakes: 1 portion\ningredients: [1 onion]\n---\n", ("missing-key", 2, 1)),
        (b"---\ntitle: Pot\nmakes: -2 portions\ningredients: [1 onion]\n---\n", ("bad-amount", 3, 8)),
        (b"---\ntitle: Pot\nmakes: 1/0 portions\ningredients: [1 onion]\n---\n", ("bad-amount", 3, 8)),
        (b"---\ntitle: Pot\nmakes: 1e999 portions\ningredients: [1 onion]\n---\n", ("unknown-unit", 3, 9)),
        (b"---\ntitle: Pot\nmakes: 1 portion\ningredients: [1 onion]\nkeeps: {fridge: 3}\n---\n", None),
        (b"---\ntitle: Pot\nmakes: 1 portion\ningredients: [1 onion]\nfreezes: 'no'\n---\n", None),
    ],
)
def test_wrong_files(kitchen: Kitchen, text: bytes, found: tuple[str, int, int] | None) -> None:
    problems = places(raw(kitchen, "recipes/pot.md", text))
    if found:
        assert found in problems, problems


@pytest.mark.parametrize(
    "amount",
    [
        "9" * 400 + " g",
        "1e308 kg",
        "0." + "0" * 400 + "1 g",
        "1/" + "9" * 300 + " cup",
        "99999999999 kg",
        "½½ g",
        "1//2 g",
        "٣ g",
        "-0 g",
        "nan g",
        "inf g",
    ],
)
def test_numbers_without_measure_never_crash(kitchen: Kitchen, amount: str) -> None:
    """Whatever is said of them, it is said of line 5, and nothing falls over."""
    kitchen.recipe("pot", dish(f'"{amount} carrots"')).week(plan(MEAL))
    assert all(p["path"] == "content/recipes/pot.md" for p in kitchen.check())
    kitchen.build("--draft", status=None)
    assert kitchen.result is not None and kitchen.result.exit_code in (0, 1)
    for path in kitchen.out.rglob("facts.json"):
        text = path.read_text("utf-8")
        assert "NaN" not in text and "Infinity" not in text


@pytest.mark.parametrize(
    ("path", "text"),
    [
        ("foods.yaml", b""), ("stock.yaml", b""), ("foods.yaml", b"# nothing yet\n"), ("stock.yaml", b"---\n"),
        ("foods.yaml", b"[]\n"), ("stock.yaml", b"fridge: []\ncupboard:\n"), ("stock.yaml", b"{}\n"),
    ],
)  # fmt: skip
def test_empty_lists_of_food_and_stock(kitchen: Kitchen, path: str, text: bytes) -> None:
    assert raw(kitchen, path, text) == []


@pytest.mark.parametrize("text", [b"", b"# nothing\n", b"---\n", b"null\n"])
def test_an_empty_household_is_a_problem_not_a_crash(kitchen: Kitchen, text: bytes) -> None:
    problems = raw(kitchen, "household.yaml", text)
    assert problems and {p["severity"] for p in problems} == {"error"}
    assert {p["code"] for p in problems} <= {"missing-key", "wrong-type", "yaml-syntax"}


def test_no_household_at_all(kitchen: Kitchen) -> None:
    kitchen.files.pop("household.yaml")
    kitchen.recipe("pot", dish()).write()
    result = kitchen.run("check", str(kitchen.content), "--json", "--today", "2026-06-07")
    assert result.exit_code in (1, 2)


def test_on_and_no_and_times_stay_text(kitchen: Kitchen) -> None:
    """YAML 1.2: `on` is a key, `no` a word, 13:00 and 1:30 text, 2026-06-07 text, 010 a number of ten."""
    kitchen.household("time zone", "meal times: {lunch: 12:30, snack: 1:30}\ntime zone")
    kitchen.recipe("pot", dish(title="No", more="freezes: no\nkeeps: soups and stews\n"))
    front = (
        "prep:\n  - on: 2026-06-07\n    at: 13:00\nmeals:\n  - lunch: pot\n    for: Tomas\n    on: mon\n    at: home\n"
    )
    assert kitchen.week(front).check() == []
    facts = kitchen.recipe_facts("pot")
    assert facts["title"] == "No" and facts["keeps"]["freezes"] is False


@pytest.mark.parametrize(
    "name", ["yes", "no", "on", "null", "1:30", "12", "2026-06-07", "Ünal", "Mary Jane", "O'Neil", "李", "a: b"]
)
def test_eaters_of_any_name(kitchen: Kitchen, name: str) -> None:
    quoted = json.dumps(name, ensure_ascii=False)
    kitchen.household("{name: Tomas,", f"{{name: {quoted},").recipe("pot", dish())
    facts = kitchen.week(plan(f"lunch: pot, for: {quoted}, on: mon, at: home, portions: {{{quoted}: 2}}")).facts()
    assert [(s["eater"], s["portions"]) for s in facts["servings"]] == [(name, 2)]
    assert facts["problems"] == []


def test_places_containers_and_recipes_with_spaces_and_accents(kitchen: Kitchen) -> None:
    kitchen.household("- {name: ward,", "- {name: Café «Nord» 2,").household(
        "eats lunch at: ward", "eats lunch at: Café «Nord» 2"
    )
    kitchen.household("name: deep tub", "name: 'tub: the big one, 3'")
    kitchen.recipe(
        "crème-brûlée 2", dish(title="Crème brûlée", more="portion: 1 cup\ncontainer: 'tub: the big one, 3'\n")
    )
    facts = kitchen.week(plan("lunch: crème-brûlée 2, for: Tomas, on: mon")).facts()
    serving = facts["servings"][0]
    assert (serving["recipe"], serving["place"], serving["container"]) == (
        "crème-brûlée 2",
        "Café «Nord» 2",
        "tub: the big one, 3",
    )
    assert facts["problems"] == []


def test_flow_and_block_say_the_same(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish())
    flow = "prep: [{on: 2026-06-07, at: '13:00'}]\nmeals: [{lunch: pot, for: [Tomas], on: [mon], at: home}]"
    block = (
        'prep:\n- on: "2026-06-07"\n  at: "13:00"\nmeals:\n- "lunch": pot\n  for:\n  - Tomas\n'
        "  on:\n  - mon\n  at: >-\n    home\n"
    )
    assert kitchen.week(flow).facts() == kitchen.week(block).facts()


def test_anchors_and_aliases_between_meals(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish())
    front = "prep: [{on: 2026-06-07, at: '13:00'}]\nmeals:\n"
    front += "  - {lunch: pot, for: &us [Tomas, Bea], on: mon, at: home}\n  - {dinner: pot, for: *us, on: tue}\n"
    facts = kitchen.week(front).facts()
    assert by(facts["servings"], "portions", "date", "eater") == {
        (day(8), "Tomas"): 1, (day(8), "Bea"): 1, (day(9), "Tomas"): 1, (day(9), "Bea"): 1,
    }  # fmt: skip


def test_a_fault_in_an_alias_is_said_where_it_is_written(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", "title: Pot\nmakes: 1 portion\ningredients:\n  - &x 0 g carrots\n  - *x\n")
    problems = kitchen.check()
    assert {(p["code"], p["line"]) for p in problems} == {("bad-amount", 5)}


def test_metric_household(kitchen: Kitchen) -> None:
    """A4, EU list, grams and decilitres; the ward's 700 W; 1.5 kg in a batch of 5."""
    kitchen.files["household.yaml"] = HOUSEHOLD.replace(
        "time zone: America/Chicago",
        "paper: a4\nmeasures: metric\nallergen list: eu\ntime zone: Europe/Stockholm\ncurrency: SEK\n"
        "labels: {sheet: a4 3x7}",
    ).replace("holds: 3 cup", "holds: 7 dl")
    kitchen.recipe(
        "gryta", dish("1,5 kg carrots", "2 dl cream", makes="5 portions", title="Gryta", more="portion: 3.5 dl\n")
    )
    facts = kitchen.week(plan("lunch: gryta, for: everyone, on: mon, at: home")).facts()
    assert facts["problems"] == []
    assert only(facts["shopping"], food="carrot")["need"]["amount"] == pytest.approx(1500 * 0.6 / 0.89, abs=1)
    lines = kitchen.read("site/recipes/gryta/facts.json")
    assert lines["ingredients"][1]["amount"] == {"amount": 200.0, "unit": "mL"} and lines["contains"] == ["milk"]
    assert lines["portion"] == {"amount": 350.0, "unit": "mL"}
    assert {s["container"] for s in facts["servings"]} == {"deep tub"} and facts["cost"]["currency"] == "SEK"


# ---- problems of the plan at their line and column ----


def marked(kitchen: Kitchen, text: str) -> tuple[int, int]:
    before = text[: text.index("«")]
    kitchen.files["weeks/2026-W24.md"] = text.replace("«", "").replace("»", "")
    return before.count("\n") + 1, len(before) - before.rfind("\n")


WEEK = (
    "---\nweek: 2026-W24\nprep: [{{on: 2026-06-07, at: '13:00'}}]\nmeals:\n"
    "  - {{lunch: fine, for: Tomas, on: mon, at: home}}\n  - {}\n{}---\n"
)


@pytest.mark.parametrize(
    ("code", "line", "more"),
    [
        ("avoided-food", "{lunch: «milky, for: Ilka, on: tue, at: home}", ""),
        ("banned-at-place", "{lunch: «nutty, for: Bea, on: tue}", ""),
        ("kept-too-long", "{lunch: «short, for: Tomas, on: tue, at: home}", ""),
        ("cannot-reheat", "{lunch: «hot, for: Bea, on: tue}", ""),
        ("cannot-finish", "{lunch: «brewed, for: Bea, on: tue}", ""),
        ("no-prep-before", "{lunch: «fine, for: Bea, on: tue, at: home, made: 2026-06-09}", ""),
        ("stock-short", "{lunch: fine, for: Bea, on: tue, at: home}", "already: [«1 portion fine]\n"),
        ("unknown-recipe", "{lunch: «nowhere, for: Bea, on: tue}", ""),
        ("unknown-eater", "{lunch: fine, for: [Bea, «Bob], on: tue}", ""),
        ("unknown-eater", "{lunch: fine, for: Bea, on: tue, at: home, portions: {«Bob: 2}}", ""),
        ("unknown-place", "{lunch: fine, for: Bea, on: tue, at: «moon}", ""),
        ("bad-date", "{lunch: fine, for: Bea, on: «2026-06-15, at: home}", ""),
        ("bad-date", "{lunch: fine, for: Bea, on: [mon, «tus], at: home}", ""),
        ("unknown-key", "{lunch: fine, for: Bea, on: mon, «whom: me, at: home}", ""),
        ("bad-amount", "{lunch: fine, for: Bea, on: tue, at: home, portions: «0}", ""),
        ("missing-key", "«{for: Bea, on: tue}", ""),
        (
            "unknown-recipe",
            "{lunch: fine, for: Bea, on: tue, at: home}",
            "substitutions:\n  - {in: «fin, for: Bea, use: 1 g salt, instead of: rice}\n",
        ),
        (
            "unknown-eater",
            "{lunch: fine, for: Bea, on: tue, at: home}",
            "substitutions:\n  - {in: fine, for: «Bob, use: 1 g salt, instead of: rice}\n",
        ),
        ("may-contain", "{lunch: «dusty, for: Bea, on: tue}", ""),
        ("allergens-not-known", "{lunch: «odd, for: Bea, on: tue}", ""),
    ],
)
def test_a_problem_of_the_plan_stands_at_its_place(kitchen: Kitchen, code: str, line: str, more: str) -> None:
    kitchen.household("- name: Ilka\n", "- name: Ilka\n    avoids: [milk]\n")
    kitchen.file("foods.yaml", "- {name: dust bar, contains: [], may contain: [peanuts]}\n- {name: odd bar}\n")
    for key, front in {
        "fine": dish("50 g rice", title="Fine"),
        "milky": dish("50 g butter", title="Milky"),
        "nutty": dish("50 g peanuts", title="Nutty"),
        "short": dish(title="Short", more="keeps: {fridge: 1 day}\nfreezes: no\n"),
        "hot": dish(title="Hot", more="reheat: ['oven 350 F, 20 min']\n"),
        "brewed": dish(title="Brewed", more="needs: [kettle]\n"),
        "dusty": dish("50 g dust bar", title="Dusty"),
        "odd": dish("50 g odd bar", title="Odd"),
    }.items():
        kitchen.recipe(key, front)
    want = marked(kitchen, WEEK.format(line, more))
    problems = [p for p in kitchen.check() if p["code"] == code]
    assert [(p["line"], p["column"]) for p in problems] == [want], kitchen.check()
    assert problems[0]["path"] == "content/weeks/2026-W24.md"
    assert codes(kitchen.check()) == [code]


@pytest.mark.parametrize(
    ("path", "text", "code", "line"),
    [
        ("stock.yaml", "fridge:\n  - 100 g carrots\n  - 50 g butter, best before 2026-05-01\n", "past-use-by", 3),
        ("stock.yaml", "freezer:\n  - 50 g butter, best before 2026-05-01\n", "past-best", 2),
        ("stock.yaml", "fridge:\n  - carrots, some\n", "stock-unclear", 2),
        ("stock.yaml", "fridge:\n  - 100 g carrots, opened last week\n", "stock-unclear", 2),
        (
            "foods.yaml",
            "- {name: x, contains: [], label: {serving: 100 g, energy: 500 kcal, protein: 10 g, fat: 0 g, "
            "carbohydrate: 10 g}}\n",
            "energy-unlikely",
            1,
        ),
        ("foods.yaml", "- {name: x, contains: []}\n- {name: y, synonyms: [x], contains: []}\n", "duplicate-name", 2),
        ("foods.yaml", "- {name: x, contains: [milk], packs: [{size: 2 floz2, price: 1}]}\n", "unknown-unit", 1),
        ("foods.yaml", "- {name: x, contains: [], yield: 0 %}\n", "bad-amount", 1),
        ("foods.yaml", "- {name: x, contains: [], like: 'No such row, raw'}\n", "unknown-food", 1),
    ],
)
def test_problems_of_food_and_stock(kitchen: Kitchen, path: str, text: str, code: str, line: int) -> None:
    problems = kitchen.recipe("pot", dish()).file(path, text).week(plan(MEAL)).check()
    assert [(p["code"], p["line"], p["path"]) for p in problems] == [(code, line, f"content/{path}")]


# ---- arguments and status ----


@pytest.mark.parametrize(
    ("arguments", "status"),
    [
        (["build", "CONTENT", "--out", "OUT", "--today", "2026-06-07", "--only", "facts"], 0),
        (["build", "CONTENT", "--out", "OUT", "--today", "2026-06-31"], 2),
        (["build", "CONTENT", "--out", "OUT", "--today", "soon"], 2),
        (["build", "CONTENT", "--out", "OUT", "--only", "everything"], 2),
        (["build", "CONTENT", "--out", "OUT", "--week", "2026-24"], 2),
        (["build", "CONTENT", "--out", "OUT", "--week", "2026-W60"], 2),
        (["build", "NOWHERE", "--out", "OUT"], 2),
        (["build", "--sideways"], 2),
        (["build", "CONTENT", "--out", "FILE"], 2),
        (["labels", "CONTENT", "--out", "OUT", "--today", "2026-06-07", "--first-free", "31"], 2),  # a sheet of 30
        (["labels", "CONTENT", "--out", "OUT", "--today", "2026-06-07", "--first-free", "30"], 0),
        (["check", "CONTENT", "--json", "--today", "2026-06-07", "--week", "2026-W24"], 0),
        (["check", "CONTENT", "--today", "2026-06-07", "--strict"], 0),
        (["check", "CONTENT", "--week", "W24"], 2),
        (["frobnicate"], 2),
    ],
)
def test_status_by_arguments(kitchen: Kitchen, arguments: list[str], status: int) -> None:
    kitchen.recipe("pot", dish()).week(plan(MEAL)).write()
    words = {"CONTENT": str(kitchen.content), "OUT": str(kitchen.out), "NOWHERE": str(kitchen.folder / "none")}
    words["FILE"] = str(kitchen.content / "household.yaml")
    assert kitchen.run(*[words.get(a, a) for a in arguments]).exit_code == status, (
        kitchen.result and kitchen.result.output
    )


def test_an_error_replaces_nothing_and_a_draft_replaces_all(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish()).week(plan(MEAL)).build()
    path = kitchen.out / "site/weeks/2026-W24/facts.json"
    before = path.read_bytes()
    kitchen.week(plan(MEAL.replace("mon", "tue"), "lunch: nothing, for: Bea, on: mon")).build(status=1)
    assert path.read_bytes() == before
    kitchen.build("--draft")
    facts = json.loads(path.read_bytes())
    assert [s["date"] for s in facts["servings"]] == [day(9)] and codes(facts["problems"]) == ["unknown-recipe"]


def test_strict_changes_the_status_and_not_the_list(kitchen: Kitchen) -> None:
    kitchen.recipe("pot", dish("100 g zzyzx")).week(plan(MEAL)).write()
    loose = kitchen.run("check", str(kitchen.content), "--json", "--today", "2026-06-07")
    strict = kitchen.run("check", str(kitchen.content), "--json", "--today", "2026-06-07", "--strict")
    assert (loose.exit_code, strict.exit_code) == (0, 1)
    assert (
        codes(json.loads(strict.stdout)["problems"]) == codes(json.loads(loose.stdout)["problems"]) == ["unknown-food"]
    )


def test_what_a_person_is_told(kitchen: Kitchen) -> None:
    """`path:line:column: severity[code] message`, the source line, a caret under the column."""
    kitchen.recipe("pot", dish("400 grms carrots")).week(plan(MEAL)).write()
    result = kitchen.run("check", str(kitchen.content), "--today", "2026-06-07")
    lines = result.output.splitlines()
    at = next(n for n, line in enumerate(lines) if "recipes/pot.md:7:9: error[unknown-unit] " in line)
    assert "  - 400 grms carrots" in lines[at + 1]
    assert lines[at + 2].index("^") == lines[at + 1].index("grms")
