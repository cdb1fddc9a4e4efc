"""A small invented household and its week, made by hand: what pages get, without anything being reckoned."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from fractions import Fraction
from types import MappingProxyType
from typing import Any

from binder.model.food import NUTRIENTS, UNKNOWN, Food, Keeping
from binder.model.household import Aim, Container, Eater, Household, LabelStock, Place, Tool
from binder.model.library import Library
from binder.model.quantity import Amount, Interval, Measure, exactly, point
from binder.model.recipe import Ingredient, Recipe, Reheat, Step, Use, When
from binder.model.stock import Stock
from binder.model.week import MealLine, Session, Substitution, Week
from binder.problem import Span
from binder.reckon.recipe_facts import (
    Allergens,
    IngredientFacts,
    KeepsFacts,
    Nutrition,
    PerPortion,
    RecipeFacts,
    ReheatFacts,
    Tallies,
)

SPAN = Span("content/recipes/x.md", 1, 1, 2)
PRIVATE = "ZEBRA"
SUNDAY = date(2026, 6, 7)
MONDAY = date(2026, 6, 8)
SESSION = Session(SUNDAY, 13 * 60, 1, SPAN)
KEPT = Keeping((3, 4), (60, 90), True, "Cold Food Storage Chart, FoodSafety.gov")


def measure(value: str, unit: str, size: str = "") -> Measure:
    low, _, high = value.partition("-")
    return Measure(Fraction(low), Fraction(high or low), unit, size)


def line(text: str, food: str, value: str = "", unit: str = "", when: When = "cooked", **more: Any) -> Ingredient:
    measures = (measure(value, unit),) if value else ()
    of = Food(food, aisle=more.pop("aisle", "produce"))
    return Ingredient(text, SPAN, when, more.pop("part", None), of, more.pop("recipe", None), measures, **more)


def figures(energy: float | None, protein: float | None, missing: Mapping[str, tuple[str, ...]] = {}) -> Nutrition:
    known = {"energy_kcal": energy, "protein_g": protein, "fat_g": 9.4, "carbohydrate_g": 50.2, "fibre_g": 7.5,
             "sodium_mg": 447.0}  # fmt: skip
    values = tuple(None if known.get(n) is None else point(known[n] or 0.0) for n in NUTRIENTS)
    return Nutrition(values, frozenset(missing), MappingProxyType(dict(missing)))


def ingredient_facts(one: Ingredient, grams: float | None) -> IngredientFacts:
    weight = None if grams is None else Interval(grams, grams)
    return IngredientFacts(
        one.text, one.part, one.food.name, None, weight, weight, float(one.eaten), UNKNOWN, None, one.when,
        ingredient=one,
    )  # fmt: skip


def recipe(key: str, title: str, lines: tuple[Ingredient, ...], portions: int, **more: Any) -> Recipe:
    filled = {
        "meals": ("lunch",), "form": "ready", "makes": None, "makes_text": f"{portions} portions", "portion": None,
        "portion_measure": None, "part_names": (), "gives": (), "keeping": KEPT, "container": None,
        "container_span": None, "reheat": (), "needs": (), "batch": "exact", "tallies": MappingProxyType({}),
        "prep": (), "service": (),
    } | more  # fmt: skip
    return Recipe(key=key, title=title, span=SPAN, portions=Fraction(portions), ingredients=lines, **filled)


def recipe_facts(
    of: Recipe, grams: dict[str, float], nutrition: Nutrition, each_g: float | None, allergens: Allergens
) -> RecipeFacts:
    return RecipeFacts(
        of.key, of.title, of.form, of.meals, float(of.portions), of.portion,
        tuple(ingredient_facts(one, grams.get(one.food.name)) for one in of.ingredients),
        PerPortion(nutrition, each_g, Tallies(MappingProxyType({"vegetables": 2.0}))),
        allergens.contains, allergens.may_contain, allergens.not_known,
        KeepsFacts(4, 90, True, of.keeping.source),
        tuple(ReheatFacts(r.means, r.watts, r.seconds, r.text) for r in of.reheat),
        recipe=of, allergens=allergens,
    )  # fmt: skip


def step(text: str, part: str | None, minutes: int | None, *uses: Use, unattended: bool = False) -> Step:
    return Step(text, SPAN, part, None if minutes is None else Fraction(minutes), unattended, False, uses)


OVEN = Use("oven", 1, Fraction(400), "400 °F")

BAKE = recipe(
    "squash-barley-bake", "Squash and barley bake",
    (
        line("1 1/2 cups pearled barley, dry", "pearled barley", "3/2", "cup", part="Barley", preparation="dry",
             aisle="grains and pulses"),
        line("1-2 tbsp oil", "olive oil", "1-2", "tbsp", part="Barley", aisle="oils and condiments"),
        line("900 g butternut squash, peeled, in cubes", "butternut squash", "900", "g", part="Squash",
             preparation="peeled, in cubes"),
        line("2 onions, diced", "onion", "2", "each", part="Squash", preparation="diced"),
        line("salt to taste", "salt", part="Squash", flags=frozenset({"to taste"}), aisle="spices"),
        line("200 g pickled cabbage", "pickled cabbage", "200", "g", "beside"),
        line("4 tbsp ricotta", "ricotta", "4", "tbsp", "at service", aisle="dairy and eggs"),
    ),
    8, part_names=("Barley", "Squash"), portion=Amount(Fraction(473), Fraction(473), "mL"),
    portion_measure=measure("2", "cup"), container="deep tub", photo="squash-bake.jpg", private=f"{PRIVATE} recipe",
    notes="Good with lemon.", source="a neighbour's card",
    reheat=(Reheat("microwave", 1000, 150, "microwave 1000 W, 2 min 30 s, covered", SPAN),),
    prep=(
        step("Simmer, covered.", "Barley", 35, Use("burner"), unattended=True),
        step("Cube the squash.", "Squash", 8, Use("cutting board")),
        step("Roast.", "Squash", 30, OVEN, unattended=True),
        step("Fold together, portion and cool.", "Together", 8),
    ),
    service=(step("Spoon the ricotta over after reheating.", None, None),),
)  # fmt: skip

KIT = recipe(
    "trout-kit", "Trout with dill potatoes",
    (
        line("500 g potatoes, in coins", "potato", "500", "g", part="Set", preparation="in coins"),
        line("4 trout fillets", "trout", "4", "fillet", part="Raw, apart", aisle="meat and fish"),
        line("1 tbsp butter", "butter", "1", "tbsp", "at service", aisle="dairy and eggs"),
    ),
    4, form="kit", meals=("dinner",), part_names=("Set", "Raw, apart"),
    prep=(step("Cut the potatoes.", "Set", 6, Use("cutting board")),),
    service=(
        step("Boil the potatoes.", None, 15, Use("burner"), unattended=True),
        step("Fry the trout.", None, 8, Use("burner")),
    ),
)  # fmt: skip

SCONES = recipe(
    "seed-scones", "Seed scones", (line("300 g wholemeal flour", "wholemeal flour", "300", "g"),), 8,
    form="portioned", meals=("snack",),
)  # fmt: skip

STEW = recipe(
    "lentil-stew", "Lentil stew", (line("2 cups red lentils", "red lentils", "2", "cup"),), 4,
    reheat=(Reheat("cold", None, None, "cold", SPAN),),
)  # fmt: skip

MILK = Allergens(("milk",), ("sesame",), ())
BAKE_FACTS = recipe_facts(
    BAKE, {"pearled barley": 300.0, "butternut squash": 900.0, "onion": 220.0, "ricotta": 62.0},
    figures(523.0, 18.4), 350.0, MILK,
)  # fmt: skip
KIT_FACTS = recipe_facts(KIT, {"potato": 500.0}, figures(410.0, 33.0), None, Allergens(("fish (trout)", "milk")))
SCONES_FACTS = recipe_facts(SCONES, {}, figures(180.0, 5.0), 60.0, Allergens(("wheat",)))
STEW_FACTS = recipe_facts(
    STEW, {}, figures(295.0, 14.0, {"energy_kcal": ("radish",)}), 380.0, Allergens((), (), ("radish",))
)
RECIPES: Mapping[str, RecipeFacts] = MappingProxyType(
    {f.key: f for f in (BAKE_FACTS, KIT_FACTS, SCONES_FACTS, STEW_FACTS)}
)

TAHINI = line("4 tbsp tahini", "tahini", "4", "tbsp", "at service")


def tahini_facts() -> RecipeFacts:
    """The bake as Ilka gets it: tahini in place of ricotta."""
    changed = recipe("squash-barley-bake", BAKE.title, (*BAKE.ingredients[:-1], TAHINI), 8)
    return recipe_facts(changed, {"tahini": 60.0}, figures(540.0, 19.0), 350.0, Allergens(("sesame",)))


def household(**more: Any) -> Household:
    filled: dict[str, Any] = {
        "name": "The Alder Street kitchen", "span": SPAN, "language": "en", "paper": "letter", "measures": "us",
        "cup": "us", "allergen_list": "us", "caution": "usual", "time_zone": "America/Chicago", "currency": "USD",
        "meal_times": MappingProxyType({"breakfast": 420, "lunch": 720, "snack": 900, "dinner": 1110}),
        "eaters": (
            Eater("Ilka", SPAN, ("milk",), (
                Aim("energy_kcal", "about", 1900.0, "1900 kcal"), Aim("sodium_mg", "at most", 400.0, "at most 400 mg"),
            ), MappingProxyType({"lunch": "survey van"}), "usual", f"{PRIVATE} eater"),
            Eater("Tomas", SPAN, (), (), MappingProxyType({"lunch": "ward"}), "usual"),
            Eater("Bea", SPAN, (), (), MappingProxyType({}), "strict"),
        ),
        "places": (
            Place("home", SPAN, (Tool("oven"), Tool("burner", 4), Tool("microwave", watts=1000, text="1000 W"))),
            Place("ward", SPAN, (Tool("microwave", watts=700, text="microwave 700 W"),)),
            Place("survey van", SPAN, (Tool("cool bag"),)),
        ),
        "containers": (Container("deep tub", SPAN, (Fraction(710),), 7, tare_g=80.0),),
        "labels": LabelStock("letter 3x10"),
    } | more  # fmt: skip
    return Household(**filled)


def meal_line(key: str, meal: Any, eaters: tuple[str, ...]) -> MealLine:
    return MealLine(SPAN, meal, key, eaters, (), None, Fraction(1), None, MappingProxyType({}), None)


def library(**more: Any) -> Library:
    swap = Substitution(SPAN, "squash-barley-bake", ("Ilka",), TAHINI, "ricotta", (6,))
    week = Week("2026-W24", MONDAY, SPAN, (SESSION,), (), (swap,), (), "")
    recipes = MappingProxyType({r.key: r for r in (STEW, SCONES, BAKE, KIT)})
    return Library(household(**more), (), recipes, MappingProxyType({"2026-W24": week}), Stock(()))


def each(value: int) -> Amount:
    return exactly(value, "each")
