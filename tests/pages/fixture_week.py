"""The week of the invented household: facts as reckoning hands them over."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, timedelta
from fractions import Fraction
from types import MappingProxyType
from typing import Any
from zoneinfo import ZoneInfo

from binder.model.quantity import Interval, exactly
from binder.pages.edition import Edition, edition_of
from binder.problem import warning
from binder.reckon import service
from binder.reckon.facts import (
    AimReached,
    Batch,
    Carry,
    CarryItem,
    Costs,
    DayTotal,
    LabelFacts,
    MiseRow,
    MiseShare,
    PackCount,
    PackedFor,
    PackingRow,
    Pull,
    RunSheet,
    Serving,
    ShoppingRow,
    Task,
    UseFirst,
    WayOut,
    WeekFacts,
)
from binder.reckon.recipe_facts import RecipeFacts, ReheatFacts, Tallies

from .fixture import (
    BAKE_FACTS,
    KIT_FACTS,
    MONDAY,
    RECIPES,
    SCONES_FACTS,
    SESSION,
    SPAN,
    STEW_FACTS,
    SUNDAY,
    each,
    figures,
    library,
    meal_line,
    measure,
    tahini_facts,
)  # fmt: skip

THURSDAY, FRIDAY, TUESDAY = date(2026, 6, 11), date(2026, 6, 12), date(2026, 6, 9)
START = datetime(2026, 6, 7, 13, 0, tzinfo=ZoneInfo("America/Chicago"))
WARD = ReheatFacts("microwave", 700, 215, "microwave 700 W, 3 min 35 s, covered", "1000 W, 2 min 30 s")
COLD = ReheatFacts("cold", None, None, "cold")


def serving(number: int, facts: RecipeFacts, meal: str, eater: str, on: date | None, **more: Any) -> Serving:
    filled: dict[str, Any] = {
        "grams": facts.per_portion.grams, "nutrition": facts.per_portion.nutrition, "tallies": Tallies(),
        "contains": facts.contains, "may_contain": facts.may_contain, "not_known": facts.not_known, "kept": "fridge",
        "made_on": SUNDAY, "use_by": THURSDAY, "pull_on": None, "place": "home", "reheat": None,
        "container": "deep tub", "lot": None, "line": meal_line(facts.key, meal, (eater,)), "session": SESSION,
        "facts": facts, "keeping_note": "4 days after the day made (usual; Cold Food Storage Chart)",
        "keeps_days": 4,
    } | more  # fmt: skip
    return Serving(
        id=f"s{number}", date=on, meal=meal, eater=eater, recipe=facts.key,
        portions=filled.pop("portions", Fraction(1)), **filled,
    )  # fmt: skip


def servings() -> tuple[Serving, ...]:
    bake = {"batch": "b1"}
    return (
        serving(1, tahini_facts(), "lunch", "Ilka", MONDAY, place="survey van", reheat=COLD, **bake),
        serving(2, BAKE_FACTS, "lunch", "Tomas", MONDAY, place="ward", reheat=WARD, **bake),
        serving(3, BAKE_FACTS, "lunch", "Tomas", FRIDAY, place="ward", reheat=WARD, kept="freezer",
                use_by=date(2026, 6, 15), pull_on=THURSDAY, **bake),
        *(serving(n, KIT_FACTS, "dinner", name, TUESDAY, batch="b2", container=None,
                  portions=Fraction(1, 2) if name == "Bea" else Fraction(1))
          for n, name in ((4, "Ilka"), (5, "Tomas"), (6, "Bea"))),
        serving(7, SCONES_FACTS, "snack", "Bea", None, batch="b3", kept="cupboard", use_by=None, portions=Fraction(7)),
        serving(8, STEW_FACTS, "dinner", "Tomas", MONDAY, lot="stock.yaml:2", made_on=date(2026, 5, 20), session=None),
    )  # fmt: skip


def batches() -> tuple[Batch, ...]:
    made = [("b1", BAKE_FACTS, "3", "10", "5/4", "7"), ("b2", KIT_FACTS, "5/2", "5/2", "5/8", "0"),
            ("b3", SCONES_FACTS, "7", "8", "1", "1")]  # fmt: skip
    return tuple(
        Batch(f.key, SUNDAY, Fraction(need), Fraction(count), Fraction(factor), Fraction(left), 1, id_, SESSION, f)
        for id_, f, need, count, factor, left in made
    )


def task(id_: str, text: str, part: str, begin: int, end: int, attended: bool, *uses: str, **more: Any) -> Task:
    start, finish = START + timedelta(minutes=begin), START + timedelta(minutes=end)
    return Task(id_, text, "squash-barley-bake", part, start, finish, attended, uses, (), batch="b1", **more)


TASKS = (
    task("t1", "Simmer, covered.", "Barley", 0, 35, False, "burner 1"),
    task("t2", "Cube the squash.", "Squash", 0, 10, True, "cook 1", "cutting board"),
    task("t3", "Roast.", "Squash", 10, 40, False, "oven 1", temperature="400 °F"),
    task("t4", "Fold together, portion and cool.", "Together", 40, 48, True, "cook 1"),
)
SHEET = RunSheet("2026-06-07T13:00:00-05:00", START, START + timedelta(minutes=48), 48, 48, True, TASKS, SESSION)


def shopping() -> tuple[ShoppingRow, ...]:
    def grams(value: int) -> Any:
        return exactly(value, "g")

    size = PackCount(grams(600), 2, Fraction("2.10"))
    return (
        ShoppingRow("butternut squash", "produce", grams(1500), grams(400), grams(1100), 2, grams(600), (size,),
                    grams(1200), grams(100), Fraction("4.20"), ("squash-barley-bake",)),
        ShoppingRow("onion", "produce", each(4), each(0), each(4), None, None, (), each(4), each(0), None,
                    ("squash-barley-bake",)),
        ShoppingRow("pearled barley", "grains and pulses", grams(375), grams(1000), grams(0), None, None, (), grams(0),
                    grams(625), Fraction(0), ("squash-barley-bake",)),
    )  # fmt: skip


def week_facts(**more: Any) -> WeekFacts:
    """The week whole; any field may be given anew."""
    for_ = (PackedFor("Ilka", MONDAY), PackedFor("Tomas", MONDAY))
    filled: dict[str, Any] = {
        "week": "2026-W24", "today": SUNDAY,
        "problems": (warning(SPAN, "unknown-food", 'no food "radish"'),),
        "servings": servings(), "batches": batches(), "shopping": shopping(),
        "cost": Costs(Fraction("5.25"), MappingProxyType({"squash-barley-bake": Fraction("0.525"), "trout-kit": None}),
                      Fraction("4.20"), "USD", True, ("onion",)),
        "mise_en_place": (
            MiseRow("onion", "diced", each(3), Interval(330.0, 330.0),
                    (MiseShare("squash-barley-bake", each(2)), MiseShare("lentil-stew", each(1))), SESSION,
                    (measure("3", "each"),)),
            MiseRow("salt", "", None, None, (MiseShare("squash-barley-bake", None),), SESSION),
        ),
        "run_sheets": (SHEET,),
        "services": service.sheets(servings(), RECIPES, library().household),
        "packing": (
            PackingRow("squash-barley-bake", "deep tub", 2, 350.0, (), for_, "portion", Fraction(1), "fridge", SESSION,
                       ("s1", "s2")),
            PackingRow("squash-barley-bake", "deep tub", 1, 350.0, (), (), "surplus", Fraction(1), "freezer", SESSION),
        ),
        "labels": (
            LabelFacts(1, 1, 1, (), "squash-barley-bake", "Tomas", THURSDAY, ("milk",), "portion",
                       "Squash and barley bake", None, MONDAY, "fridge", ("sesame",), (), WARD, 350.0, Fraction(1),
                       "ward", "A1", SUNDAY),
            LabelFacts(1, 1, 2, (), "squash-barley-bake", "Tomas", date(2026, 6, 15), ("milk",), "portion", "",
                       THURSDAY, FRIDAY, "freezer", (), ("radish",), COLD, 350.0, Fraction(1), "ward", "A2", SUNDAY),
        ),
        "labels_next_free": 3,
        "pull_list": (
            Pull(THURSDAY, FRIDAY, "Tomas", "squash-barley-bake", Fraction(1), "freezer", "refrigerator", "s3", (
                WayOut("from frozen", "microwave", 325, 165, text="microwave 700 W, 5 min 25 s, covered"),
                WayOut("cold water", seconds=3600, minutes=(60, 60)),
                WayOut("another dish", recipe="lentil-stew", planned_for=date(2026, 6, 13)),
            ), "ward"),
        ),
        "carry_list": (
            Carry(MONDAY, "Ilka", "survey van", (
                CarryItem("Squash and barley bake", None, "fridge", "dish", "squash-barley-bake"),
                CarryItem("tahini", exactly(Fraction("7.39338"), "mL"), "cupboard", "at service"),
            ), True),
        ),
        "use_first": (UseFirst("ricotta", None, exactly(250, "g"), "fridge", THURSDAY, "opened 3 June"),),
        "day_totals": (
            DayTotal(MONDAY, "Ilka", figures(1840.0, 62.0), Tallies(MappingProxyType({"vegetables": 5.0})),
                     (AimReached("energy_kcal", "1900 kcal", True), AimReached("sodium_mg", "at most 400 mg", False))),
            DayTotal(MONDAY, "Tomas", figures(295.0, 14.0, {"energy_kcal": ("radish",)}), Tallies(), ()),
        ),
        "recipes": RECIPES,
    } | more  # fmt: skip
    return WeekFacts(**filled)


def edition(private: bool = False, facts: WeekFacts | None = None, **household: Any) -> Edition:
    return edition_of(facts or week_facts(), library(**household), RECIPES, private)


def without(*names: str) -> WeekFacts:
    """The week with these lists empty."""
    return replace(week_facts(), **dict.fromkeys(names, ()))
