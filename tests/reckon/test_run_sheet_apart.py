"""An eater's food is closed and put away before what this eater avoids is in hand, also where that takes longer."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import permutations
from random import Random

import pytest

from binder.model.food import Basis
from binder.model.household import Household, Tool
from binder.model.recipe import Recipe
from binder.reckon.avoiding import is_avoided
from binder.reckon.facts import Batch, RunSheet
from binder.reckon.recipe_facts import IngredientFacts
from binder.reckon.run_sheet import drawn_up, sheets
from binder.reckon.run_sheet_apart import Pairs
from binder.reckon.run_sheet_equipment import equipment
from binder.reckon.run_sheet_kitchen import setting
from binder.reckon.run_sheet_order import AVOIDED, PLAIN, Care
from binder.reckon.run_sheet_place import in_order
from binder.reckon.run_sheet_problem import Job, Kitchen, Limit
from binder.reckon.run_sheet_tasks import planned
from tests.reckon.run_sheet_kitchens import batch, broken, faults, household, recipe, session, step
from tests.reckon.test_run_sheet_search import tiny

BURNERS = Tool("burner", 4)


def stew(key: str = "stew", **more: Sequence[str]) -> Recipe:
    """Ten minutes of work, forty by itself, ten of work."""
    simmer = step("Simmer.", 40, "burner", idle=True)
    return recipe(key, step("Cut.", 10), simmer, step("Portion.", 10), **more)


def sauce(key: str = "sauce", holds: Sequence[str] = ("milk",), minutes: int = 20) -> Recipe:
    return recipe(key, step("Whisk.", minutes), holds=holds)


def drawn(home: Household, *served: tuple[Recipe | Batch, Sequence[str]]) -> RunSheet:
    """The sheet of one session; each recipe with who is served from it."""
    made = [(of if isinstance(of, Batch) else batch(of, session()), eaters) for of, eaters in served]
    (sheet,), problems = sheets(tuple(one for one, _ in made), home, eaters={one.id: eaters for one, eaters in made})
    assert not problems and not faults(sheet)
    return sheet


def with_eaters(home: Household, **avoids: Sequence[str]) -> Household:
    return replace(
        home, eaters=tuple(replace(home.eaters[0], name=name, avoids=tuple(of)) for name, of in avoids.items())
    )


HOME = household(BURNERS, avoids=("milk",))


def test_the_sheet_is_longer_where_an_eaters_food_cannot_be_closed_first_in_the_shortest_time() -> None:
    sheet = drawn(HOME, (stew(), ["Ilka"]), (sauce(), ["Tomas"]))
    assert [task.id for task in sheet.tasks] == ["stew/1", "stew/2", "stew/3", "sauce/1"]
    # The shortest order has the sauce whisked while the stew simmers: 60 min. Kept apart it is 10 + 40 + 10 + 20.
    assert (sheet.minutes, sheet.at_least_minutes, sheet.proven, sheet.apart_minutes) == (80, 80, True, 20)
    whisk = sheet.tasks[-1]
    assert (whisk.apart_after, whisk.closed_first, whisk.wash) == (("stew/3",), (("Ilka", "milk"),), ())
    assert [(a.eater, a.avoided, a.food, a.other, a.kept) for a in sheet.apart] == [
        ("Ilka", "milk", "stew", "sauce", True)
    ]


@pytest.mark.parametrize(
    ("home", "stew_for", "holds"),
    [
        (HOME, ["Tomas"], ("milk",)),  # nothing of hers is made
        (HOME, ["Ilka"], ("egg",)),  # nothing she avoids
        (household(BURNERS), ["Ilka"], ("milk",)),  # nobody avoids anything
    ],
)
def test_nothing_changes_where_nothing_can_meet(home: Household, stew_for: list[str], holds: tuple[str, ...]) -> None:
    sheet = drawn(home, (stew(), stew_for), (sauce(holds=holds), ["Tomas"]))
    assert (sheet.minutes, sheet.apart_minutes, sheet.apart) == (60, 0, ())
    assert not any(task.apart_after or task.closed_first for task in sheet.tasks)


@pytest.mark.parametrize(("avoided", "longer"), [("beef brisket", 20), ("meat", 0)])
def test_a_food_is_kept_apart_and_a_kind_of_food_is_not(avoided: str, longer: int) -> None:
    """Who avoids meat is not hurt by a board it lay on; who names a food may be."""
    (line,) = recipe("x", aisle="meat and fish").ingredients
    beef = replace(line, food=replace(line.food, name="beef brisket"))
    assert is_avoided(beef, avoided)
    ragu = replace(sauce("ragu", ()), ingredients=(beef,))
    sheet = drawn(household(BURNERS, avoids=(avoided,)), (stew(), ["Ilka"]), (ragu, ["Tomas"]))
    assert (sheet.minutes, sheet.apart_minutes, len(sheet.apart)) == (60 + longer, longer, longer // 20)


def test_a_food_that_a_part_brings_in_is_kept_apart() -> None:
    home = household(BURNERS, avoids=("kiwi",))
    (line,) = recipe("x", aisle="produce").ingredients
    fruit = replace(sauce("fruit", (), 5), ingredients=(replace(line, food=replace(line.food, name="kiwi")),))
    made = batch(fruit, session(), part_of=("cups",))
    (part,) = recipe("cups", parts=("fruit",)).ingredients
    cups = batch(recipe("cups", step("Fill.", 5), parts=("fruit",)), session())
    assert cups.facts is not None and made.facts is not None
    kiwi = IngredientFacts(
        "kiwi", None, "kiwi", None, None, None, 1.0, Basis("unknown"), None, "cooked", fruit.ingredients[0]
    )
    of_part = replace(kiwi, food="fruit", ingredient=part, made_from=replace(made.facts, ingredients=(kiwi,)))
    cups = replace(cups, facts=replace(cups.facts, ingredients=(of_part,)))
    sheet = drawn(home, (made, []), (cups, ["Tomas"]), (sauce("a-dip", ()), ["Ilka"]))
    assert {one.other for one in sheet.apart} == {"fruit", "cups"} and sheet.tasks[0].recipe == "a-dip"


def test_where_it_costs_no_time_the_order_is_kept_all_the_same() -> None:
    sheet = drawn(HOME, (sauce("b-dip", ()), ["Ilka"]), (sauce("a-sauce"), ["Tomas"]))
    assert [task.recipe for task in sheet.tasks] == ["b-dip", "a-sauce"]
    assert (sheet.minutes, sheet.apart_minutes, sheet.proven) == (40, 0, True)
    assert sheet.apart[0].kept


def test_only_steps_with_it_in_hand_wait_and_not_those_that_go_by_themselves() -> None:
    """The other dish's first part holds none of it; what goes by itself is in nobody's hand."""
    pie = recipe(
        "pie", step("Peel.", 20, part="Fruit"), step("Soak.", 30, part="Main", idle=True), step("Fill.", 5, part="Main")
    )
    held = tuple(replace(line, part="Main") for line in sauce().ingredients)
    fruit = replace(held[0], part="Fruit", food=replace(held[0].food, name="apple", contains=()))
    pie = replace(pie, ingredients=(fruit, *held))
    sheet = drawn(HOME, (stew(), ["Ilka"]), (pie, ["Tomas"]))
    by_id = {task.id: task for task in sheet.tasks}
    assert sheet.minutes == 65 and by_id["pie/fruit/1"].start < by_id["stew/3"].start
    assert by_id["pie/main/2"].apart_after == ("stew/3",) and not by_id["pie/fruit/1"].apart_after


def test_a_recipe_used_as_a_part_counts_for_who_eats_the_dish_it_is_in() -> None:
    base = batch(recipe("base", step("Chop.", 15)), session(), part_of=("soup",))
    soup = batch(recipe("soup", step("Ladle.", 5), parts=("base",)), session())
    sheet = drawn(HOME, (sauce(minutes=10), ["Tomas"]), (base, []), (soup, ["Ilka"]))
    assert [task.recipe for task in sheet.tasks] == ["base", "soup", "sauce"]
    assert {one.food for one in sheet.apart} == {"base", "soup"}


def test_what_a_part_brings_in_is_in_hand_in_the_dish_it_is_used_in() -> None:
    gratin = batch(recipe("gratin", step("Fold.", 10), parts=("cheese",)), session(), contains=("milk",))
    cheese = batch(sauce("cheese", minutes=5), session(), part_of=("gratin",))
    sheet = drawn(HOME, (cheese, []), (gratin, ["Tomas"]), (sauce("a-dip", ()), ["Ilka"]))
    assert [task.recipe for task in sheet.tasks] == ["a-dip", "cheese", "gratin"]
    assert {one.other for one in sheet.apart} == {"cheese", "gratin"}


def test_what_is_added_at_service_is_not_in_hand_on_prep_day() -> None:
    """Cheese over the plate at service: the ragù is not kept for the end by it, so raw meat is handled as such."""
    base = batch(recipe("base", step("Chop.", 5)), session(), part_of=("ragu",))
    ragu = batch(recipe("ragu", step("Fold.", 10), parts=("base",)), session(), contains=("milk",))
    assert ragu.facts is not None and ragu.facts.recipe.ingredients
    (part,) = ragu.facts.recipe.ingredients
    line = IngredientFacts("base", None, "base", None, None, None, 1.0, Basis("unknown"), None, "cooked", part)
    known = replace(ragu.facts, ingredients=(replace(line, made_from=base.facts),))
    tasks, lists = planned((base, replace(ragu, facts=known)), have := equipment(session(), (base, ragu), HOME))
    assert [care.level for care in setting(tasks, lists, have, HOME).care] == [PLAIN, PLAIN]
    tasks, lists = planned((base, ragu), have)
    assert [care.level for care in setting(tasks, lists, have, HOME).care] == [PLAIN, AVOIDED]  # nobody knows of what


def test_what_goes_all_by_itself_asks_for_no_order() -> None:
    yogurt = recipe("yogurt", step("Leave to set.", 30, idle=True), holds=("milk",))
    sheet = drawn(HOME, (stew(), ["Ilka"]), (yogurt, ["Tomas"]))
    assert (sheet.minutes, sheet.apart) == (60, ())


def test_an_eater_who_is_served_what_they_avoid_asks_for_no_order_with_it() -> None:
    sheet = drawn(HOME, (sauce("a", ("milk",)), ["Ilka"]), (sauce("b", ("milk",)), ["Tomas"]))
    assert sheet.apart == ()


def test_contrary_orders_go_by_allergens_first_and_the_wash_is_said() -> None:
    """Odile, who stands first, avoids a food that is no allergen: her order gives way to the one for milk."""
    home = with_eaters(household(BURNERS), Odile=["grapefruit"], Ilka=["milk"])
    (line,) = recipe("x", aisle="produce").ingredients
    fruit = replace(line, food=replace(line.food, name="grapefruit"))
    salad = replace(sauce("salad", ()), ingredients=(fruit,))
    sheet = drawn(home, (sauce("mild"), ["Odile"]), (salad, ["Ilka"]))
    assert [(a.eater, a.food, a.other, a.kept) for a in sheet.apart] == [
        ("Ilka", "salad", "mild", True),
        ("Odile", "mild", "salad", False),
    ]
    assert [(task.recipe, task.wash) for task in sheet.tasks] == [("salad", ("grapefruit",)), ("mild", ())]
    assert (sheet.minutes, sheet.apart_minutes) == (40, 0)


def test_of_contrary_allergens_the_eater_written_first_goes_first() -> None:
    dishes = ((sauce("mild", ("milk",)), ["Bea"]), (sauce("eggy", ("egg",)), ["Ilka"]))
    for names, first in ((("Ilka", "Bea"), "eggy"), (("Bea", "Ilka"), "mild")):
        avoids = {"Ilka": ["milk"], "Bea": ["egg"]}
        sheet = drawn(with_eaters(household(BURNERS), **{name: avoids[name] for name in names}), *dishes)
        assert sheet.tasks[0].recipe == first
        assert [one.kept for one in sheet.apart] == [True, False]


def nothing_in_hand(kitchen: Kitchen) -> tuple[Care, ...]:
    return tuple(Care(0, True, j) for j in range(len(kitchen.jobs)))


def test_the_limit_on_what_cools_goes_before_an_order() -> None:
    """Between cooking and portioning an order would put more than the limit allows."""
    kitchen = Kitchen((Job(10), Job(150), Job(5, after=(0,))), (), limits=(Limit((0,), (2,), 120),))
    drawing = drawn_up(kitchen, nothing_in_hand(kitchen), (((0, 1),), ((1, 2),)))
    assert drawing.found.within_limits and drawing.kept == (0,)
    assert not broken(kitchen, drawing.found.plan)
    assert drawing.found.plan.finish(kitchen) == 160


@pytest.mark.parametrize("seed", range(40))
def test_small_kitchens_with_an_order_come_out_as_trying_everything_says(seed: int) -> None:
    dice = Random(seed)
    kitchen = tiny(dice)
    count = len(kitchen.jobs)
    wanted = [tuple((dice.randrange(count), dice.randrange(count)) for _ in range(2)) for _ in range(3)]
    wanted = [tuple((i, j) for i, j in pairs if i != j) for pairs in wanted]
    drawing = drawn_up(kitchen, nothing_in_hand(kitchen), tuple(wanted))
    kept = [pair for n in drawing.kept for pair in wanted[n]]
    shortest, free = _shortest(kitchen, kept), _shortest(kitchen, ())
    found = drawing.found
    assert not broken(kitchen, found.plan)
    ends = [start + job.length for start, job in zip(found.plan.starts, kitchen.jobs, strict=True)]
    assert all(ends[i] <= found.plan.starts[j] for i, j in kept)
    assert (found.plan.finish(kitchen), found.bound, drawing.longer) == (shortest, shortest, shortest - free)
    # Each order that was let go contradicts the steps' own order or one that was kept before it.
    for n in set(range(len(wanted))) - set(drawing.kept):
        earlier = [pair for m in drawing.kept if m < n for pair in wanted[m]]
        assert _shortest(kitchen, [*earlier, *wanted[n]]) is None


def _shortest(kitchen: Kitchen, pairs: Sequence[tuple[int, int]] | Pairs) -> int | None:
    """By trying every order of the jobs and every choice of ovens; None: no order keeps the pairs."""
    best: int | None = None
    jobs = kitchen.jobs
    waits = [{*job.after, *(i for i, k in pairs if k == j)} for j, job in enumerate(jobs)]
    for order in permutations(range(len(jobs))):
        place = {j: n for n, j in enumerate(order)}
        if all(place[i] < place[j] for j, before in enumerate(waits) for i in before):
            other = replace(
                kitchen,
                jobs=tuple(replace(jobs[j], after=tuple(place[i] for i in waits[j])) for j in order),
            )
            for ovens in _rooms(other):
                end = in_order(other, range(len(order)), [0] * len(order), ovens).finish(other)
                best = end if best is None else min(best, end)
    return best


def _rooms(kitchen: Kitchen) -> list[list[int]]:
    found: list[list[int]] = [[]]
    for job in kitchen.jobs:
        rooms = [o for o, racks in enumerate(kitchen.ovens) if racks >= job.racks] if job.racks else [-1]
        found = [[*before, oven] for before in found for oven in rooms]
    return found
