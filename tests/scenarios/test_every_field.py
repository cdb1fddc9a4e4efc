"""Every field of facts.json, for households that are odd: there, null when not known, and nothing private in it."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pikepdf
import pypdfium2
import pytest

from tests.kitchen import Kitchen
from tests.scenarios.dishes import SUNDAY_AND_WEDNESDAY, dish, plan

NUTRIENTS = {
    "energy_kcal",
    "protein_g",
    "fat_g",
    "saturated_fat_g",
    "carbohydrate_g",
    "fibre_g",
    "sugars_g",
    "sodium_mg",
    "potassium_mg",
    "calcium_mg",
    "iron_mg",
}
WEEK_FIELDS = {
    "problems": "severity code path line column message remedies",
    "servings": "id date meal eater recipe portions grams nutrients at_least missing tallies contains "
    "may_contain not_known kept made_on use_by pull_on place reheat container lot",
    "batches": "recipe made_on portions_needed portions_made factor surplus loads",
    "shopping": "food aisle need on_hand buy packs pack sizes bought left_over cost for",
    "mise_en_place": "food preparation amount grams for",
    "run_sheets": "session start finish minutes at_least_minutes proven tasks",
    "packing": "recipe container count grams_each compartments for",
    "labels": "sheet row column lines recipe eater use_by contains",
    "pull_list": "pull_on date eater recipe portions from to",
    "carry_list": "date eater place items cold",
    "use_first": "food recipe amount place use_by why",
    "day_totals": "date eater nutrients at_least missing tallies aims",
}
INNER = {
    ("servings", "reheat"): "means watts seconds text",
    ("run_sheets", "tasks"): "id text recipe part start finish attended uses after",
    ("mise_en_place", "for"): "recipe amount", ("packing", "for"): "eater date",
    ("carry_list", "items"): "what amount from",
    ("day_totals", "aims"): "name aim reached", ("shopping", "sizes"): "size count price",
}  # fmt: skip
RECIPE_FIELDS = (
    "key title form meals portions portion ingredients per_portion contains may_contain not_known keeps reheat schema"
)

LINE_FIELDS = "text part food amount grams as_purchased_grams eaten basis measure_basis when"


def sorted_throughout(value: Any) -> bool:
    if isinstance(value, dict):
        return list(value) == sorted(value) and all(map(sorted_throughout, value.values()))
    return all(map(sorted_throughout, value)) if isinstance(value, list) else True


def odd(kitchen: Kitchen, kind: str) -> Kitchen:
    """Nothing planned; everything at once; metric and by the other list, with broken files beside."""
    if kind == "empty":
        return kitchen.recipe("pot", dish()).week("prep: []\nmeals: []")
    if kind == "broken":
        kitchen.recipe("bad", "title: [\n").week(
            plan("lunch: bad, for: Tomas, on: mon", "lunch: none, for: Nobody, on: tue")
        )
        return kitchen
    kitchen.household(
        "- name: Ilka\n",
        "- name: Ilka\n    aims: {energy: 1900 kcal, iron: at least 5 mg}\n    tallies: {veg: 3}\n"
        "    private: QUAGGA\n",
    )
    kitchen.file(
        "foods.yaml",
        "- {name: red root, yield: 60 %, packs: [{size: 250 g, price: 0.80}, {size: 1 kg}], "
        "tallies: {veg: {50 g: 1}}}\n",
    )
    kitchen.file(
        "stock.yaml",
        "freezer:\n  - 1 portion pot, made 2026-01-01\nfridge:\n  - 30 g red root, best before 2026-06-10\n",
    )
    kitchen.recipe("base", dish("100-200 g zzyzx", "2 cups red root", makes="3 cups", title="Base"))
    more = "keeps: {fridge: 2 days}\nreheat: ['microwave 1000 W, 1 min', cold]\ngives: [10 g pumpkin seeds]\n"
    more += "batch: half\nbeside: [1 apple]\nat service: [2 tbsp tahini]\nprivate: QUAGGA\nportion: 1 cup\n"
    kitchen.recipe(
        "pot",
        dish("1-2 cups recipe: base", "1 onion, diced", makes="3 portions", title="Pot", more=more),
        "## Prep day\n1. Chop. [5 min, cutting board]\n### Together\n1. Mix.\n",
    )
    kitchen.recipe(
        "kit",
        "title: Kit\nform: kit\nmakes: 2 portions\ningredients:\n  Set: [200 g rice]\n  Raw: [400 g cod]\n"
        "keeps: raw lean fish\nat service: [10 g salt]\n",
    )
    meals = (
        "lunch: pot, for: everyone, on: mon-fri",
        "snack: base, for: Bea, portions: 2",
        "dinner: kit, for: [Ilka, Bea], on: [tue, sat]",
    )
    if kind == "metric":
        kitchen.household(
            "time zone: America/Chicago",
            "measures: metric\nallergen list: eu\ncup: metric\ntime zone: Asia/Kolkata\ncurrency: INR\n"
            "paper: a5\ncaution: strict\nlabels: {sheet: a4 2x7, first free: 14}",
        )
    return kitchen.week(plan(*meals, prep=SUNDAY_AND_WEDNESDAY, more="already: [1 portion pot]\n"))


@pytest.mark.parametrize("kind", ["empty", "broken", "all", "metric"])
def test_every_field_stands_there_for_every_household(kitchen: Kitchen, kind: str) -> None:
    """Unknown is null and never left out; keys are sorted; nothing private; amounts have one of three units."""
    facts = odd(kitchen, kind).facts()
    assert {*WEEK_FIELDS, "week", "today", "cost", "labels_next_free", "schema"} <= set(facts)
    for name, fields in WEEK_FIELDS.items():
        for row in facts[name]:
            assert set(fields.split()) <= set(row), (name, set(fields.split()) - set(row))
    for (name, inner), fields in INNER.items():
        for row in facts[name]:
            for one in row[inner] if isinstance(row[inner], list) else [row[inner]] if row[inner] else []:
                assert set(fields.split()) <= set(one), (name, inner)
    assert {"consumed", "per_portion", "to_pay", "currency", "at_least"} <= set(facts["cost"])
    for row in (*facts["servings"], *facts["day_totals"]):
        assert set(row["nutrients"]) == NUTRIENTS
        for nutrient, value in row["nutrients"].items():
            if value is None:
                assert nutrient in row["at_least"] and row["missing"][nutrient]
            if nutrient in row["missing"]:
                assert nutrient in row["at_least"]
    for path in kitchen.out.rglob("facts.json"):
        text = path.read_text("utf-8")
        assert "QUAGGA" not in text and sorted_throughout(json.loads(text))
        for amount in _amounts(json.loads(text)):
            assert amount["unit"] in ("g", "mL", "each") and (
                set(amount) in ({"amount", "unit"}, {"low", "high", "unit"})
            )
    for key in kitchen.files:
        if key.startswith("recipes/") and key != "recipes/bad.md":
            recipe = kitchen.read(f"site/{key.removesuffix('.md')}/facts.json")
            assert set(RECIPE_FIELDS.split()) <= set(recipe)
            assert {"fridge_days", "freezer_days", "freezes", "source"} <= set(recipe["keeps"])
            for line in recipe["ingredients"]:
                assert set(LINE_FIELDS.split()) <= set(line)
            assert {"nutrients", "at_least", "missing", "grams", "tallies"} <= set(recipe["per_portion"])


def _amounts(value: Any) -> list[dict[str, Any]]:
    if isinstance(value, dict):
        return [value] if "unit" in value else [a for v in value.values() for a in _amounts(v)]
    return [a for v in value for a in _amounts(v)] if isinstance(value, list) else []


def test_times_have_offsets_and_dates_none(kitchen: Kitchen) -> None:
    facts = odd(kitchen, "metric").facts()
    assert facts["labels"][0]["sheet"] == 1 and (facts["labels"][0]["row"], facts["labels"][0]["column"]) == (7, 2)
    for sheet in facts["run_sheets"]:
        for row in (sheet, *sheet["tasks"]):
            assert row["start"].endswith("+05:30") and row["finish"].endswith("+05:30")
    assert all(len(s["made_on"]) == 10 for s in facts["servings"] if s["made_on"])


def _readable(path: Path) -> str:
    """The text of a file as a reader may find it: also what a PDF keeps packed, its metadata and its names."""
    found = [path.name, path.read_bytes().decode("utf-8", "replace")]
    if path.suffix == ".pdf":
        with pikepdf.open(path) as pdf:
            streams = (one for one in pdf.objects if isinstance(one, pikepdf.Stream))
            found += [one.read_bytes().decode("latin-1") for one in streams if "/Filter" in one]
            found += [str(pdf.docinfo), repr(list(pdf.objects))]
        found += [page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(path)]
    return "\n".join(found)


def test_no_private_word_in_any_byte_of_any_output(kitchen: Kitchen) -> None:
    """Also not where a PDF packs its parts, nor in a name of a file."""
    odd(kitchen, "all").write()
    arguments = ["build", str(kitchen.content), "--out", str(kitchen.out), "--today", "2026-06-07", "--draft"]
    assert kitchen.run(*arguments).exit_code == 0
    files = [path for path in kitchen.out.rglob("*") if path.is_file()]
    assert {".pdf", ".html", ".json", ".ics", ".js"} <= {path.suffix for path in files}
    assert [path for path in files if "QUAGGA" in _readable(path)] == []
    assert any("Ilka" in _readable(path) for path in files if path.suffix == ".pdf")
