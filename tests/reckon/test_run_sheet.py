"""The run sheet of whole batches: what is done, in which order, by whom, and when it is over."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from itertools import groupby

import pytest

from binder.model.food import Keeping
from binder.model.household import Place, Tool
from binder.model.recipe import Recipe
from binder.reckon.facts import RunSheet, Task
from binder.reckon.run_sheet import sheets
from tests.reckon.run_sheet_kitchens import (
    HERE,
    batch,
    faults,
    household,
    minutes,
    oven,
    random_session,
    recipe,
    session,
    step,
    use,
)

BURNERS = Tool("burner", 4)
BOARDS = Tool("cutting board", 2)
OVEN = Tool("oven")


def only(sheet: RunSheet, text: str) -> list[Task]:
    return [task for task in sheet.tasks if task.text == text]


@pytest.mark.parametrize(
    ("ovens", "ends"),
    [
        (Tool("oven", 2), "10:20"),
        (Tool("oven"), "11:00"),
        (Tool("oven", racks=2), "10:25"),
    ],
)
def test_three_roasts_end_as_early_as_ovens_and_racks_allow(ovens: Tool, ends: str) -> None:
    at = session(9)
    made = tuple(
        batch(recipe(key, step("Roast.", minutes, oven(heat), idle=True)), at)
        for key, heat, minutes in (("a", 400, 40), ("b", 400, 35), ("c", 350, 25))
    )
    (sheet,), problems = sheets(made, household(ovens))
    assert f"{sheet.finish:%H:%M}" == ends
    assert sheet.proven and sheet.at_least_minutes == sheet.minutes
    assert not problems and not faults(sheet)


def test_lists_run_side_by_side_and_together_waits_for_all_however_it_is_written() -> None:
    dish = recipe(
        "bake",
        step("Simmer.", 35, "burner", part="Barley", idle=True),
        step("Cube.", 8, "cutting board", part="Squash"),
        step("Roast.", 30, oven(400), part="Squash", idle=True),
        step("Fold.", 8, part="together"),
    )
    (sheet,), problems = sheets((batch(dish, session()),), household(OVEN, BURNERS, BOARDS))
    assert not problems
    # 10 min until the oven is hot, although the squash is cubed after 8; 30 min of roasting; 8 of folding.
    assert (sheet.minutes, sheet.proven) == (48, True)
    assert [(t.id, t.after) for t in sheet.tasks] == [
        ("bake/barley/1", ()),
        ("bake/squash/1", ()),
        ("bake/squash/2", ("bake/squash/1",)),
        ("bake/together/1", ("bake/barley/1", "bake/squash/2")),
    ]
    assert [t.uses for t in sheet.tasks] == [
        ("burner 1",),
        ("cook 1", "cutting board 1"),
        ("oven",),
        ("cook 1",),
    ]
    assert sheet.session == "2026-06-07T13:00:00-05:00"
    assert sheet.tasks[2].temperature == "400 °F"


def test_only_pieces_of_which_there_are_several_are_numbered_and_cooks_always() -> None:
    dish = recipe("soup", step("Blend.", 3, "blender"), step("Simmer.", 9, "burner", idle=True))
    (sheet,), _ = sheets((batch(dish, session()),), household(Tool("burner")))
    assert [task.uses for task in sheet.tasks] == [("cook 1",), ("burner",)]


def test_two_cooks_work_at_the_same_time() -> None:
    made = [recipe(key, step("Stir.", 30)) for key in ("a", "b", "c")]
    alone, _ = sheets(tuple(batch(r, session()) for r in made), household())
    two, _ = sheets(tuple(batch(r, session(cooks=2)) for r in made), household())
    assert (alone[0].minutes, two[0].minutes) == (90, 60)
    assert {piece for task in two[0].tasks for piece in task.uses} == {"cook 1", "cook 2"}


@pytest.mark.parametrize(
    ("factor", "expected"),
    [(1, (8, 20)), (Fraction(5, 4), (10, 20)), (Fraction(13, 10), (11, 20)), (Fraction(1, 2), (4, 20)), (2, (16, 20))],
)
def test_only_work_at_a_board_grows_with_the_batch_up_to_a_whole_minute(
    factor: Fraction, expected: tuple[int, int]
) -> None:
    dish = recipe("slaw", step("Shred.", 8, "cutting board"), step("Cook.", 20, "burner"))
    (sheet,), _ = sheets((batch(dish, session(), factor),), household(BURNERS, BOARDS))
    assert tuple(task.finish - task.start for task in sheet.tasks) == tuple(minutes(n) for n in expected)


def test_a_factor_that_binary_numbers_cannot_hold_adds_no_minute() -> None:
    dish = recipe("slaw", step("Shred.", 50, "cutting board"))
    (sheet,), _ = sheets((batch(dish, session(), Fraction(11, 10)),), household(BOARDS))
    assert sheet.minutes == 55  # 50 x 1.1 in binary is a little more than 55


def test_minutes_per_portion_count_the_portions_that_are_made() -> None:
    dish = recipe("wraps", step("Roll.", 2, "cutting board", per=True), portions=4)
    (sheet,), _ = sheets((batch(dish, session(), Fraction(5, 2)),), household(BOARDS))
    assert sheet.minutes == 20


def test_half_minutes_are_kept_and_the_whole_is_rounded_up_once() -> None:
    dish = recipe("tea", step("Stir.", Fraction(5, 2)), step("Stir again.", 1), step("And again.", 1))
    (sheet,), _ = sheets((batch(dish, session()),), household())
    assert sheet.tasks[0].finish - sheet.tasks[0].start == minutes(1) * 2.5
    assert (sheet.minutes, sheet.at_least_minutes, sheet.proven) == (5, 5, True)


def test_a_step_without_minutes_gets_five_attended_ones_and_says_so() -> None:
    (sheet,), _ = sheets((batch(recipe("salad", step("Toss.", None)), session()),), household())
    (task,) = sheet.tasks
    assert task.assumed_minutes and task.attended and task.finish - task.start == minutes(5)


def test_a_vessel_is_filled_as_often_as_the_batch_needs() -> None:
    # 12 portions of 500 mL are 6 L; a 6-quart cooker takes 3.8 L at two thirds, and 2.8 L of what swells.
    steps = (step("Cook.", 30, "pressure cooker", idle=True), step("Portion.", 10))
    six_quarts = Fraction(5678118, 1000)
    for swells, loads in ((False, 2), (True, 3)):
        dish = recipe("stew", *steps, portions=12, portion_ml=500, swells=swells)
        (sheet,), _ = sheets((batch(dish, session()),), household(Tool("pressure cooker", holds_ml=six_quarts)))
        assert [(t.id, t.load, t.loads) for t in only(sheet, "Cook.")] == [
            (f"stew/1{tail}", n, loads) for n, tail in enumerate(("", "#2", "#3")[:loads], 1)
        ]
        assert sheet.minutes == 30 * loads + 10
        assert only(sheet, "Portion.")[0].after == ("stew/1", "stew/1#2", "stew/1#3")[:loads]


def test_loads_go_side_by_side_into_two_vessels() -> None:
    dish = recipe("stew", step("Cook.", 30, "pressure cooker", idle=True), portions=12, portion_ml=350)
    (sheet,), _ = sheets((batch(dish, session()),), household(Tool("pressure cooker", 2, holds_ml=Fraction(5700))))
    assert sheet.minutes == 30
    assert {t.uses for t in sheet.tasks} == {("pressure cooker 1",), ("pressure cooker 2",)}


def test_a_batch_goes_into_the_vessel_that_takes_it_in_the_fewest_loads() -> None:
    tools = (Tool("pressure cooker", holds_ml=Fraction(3000)), Tool("pressure cooker", holds_ml=Fraction(7600)))
    dish = recipe("stew", step("Cook.", 30, "pressure cooker", idle=True), portions=12, portion_ml=350)
    (sheet,), _ = sheets((batch(dish, session()),), household(*tools))
    assert [t.uses for t in sheet.tasks] == [("pressure cooker 2",)]


def test_a_part_comes_before_its_users_together_and_beside_its_other_steps() -> None:
    base = recipe("base", step("Reduce.", 30, "burner", idle=True))
    user = recipe("pie", step("Rub in.", 20, part="Crust"), step("Fill.", 5, part="Together"), parts=("base",))
    made = (batch(base, session(), part_of=("pie",)), batch(user, session()))
    (sheet,), _ = sheets(made, household(BURNERS))
    assert sheet.minutes == 35
    assert only(sheet, "Fill.")[0].after == ("pie/crust/1", "base/1")
    assert only(sheet, "Rub in.")[0].after == ()


def test_without_a_together_a_part_comes_before_all_of_its_user_in_whichever_order_they_stand() -> None:
    base = recipe("base", step("Reduce.", 30, "burner", idle=True))
    user = recipe("pie", step("Rub in.", 20, part="Crust"), step("Peel.", 5, part="Fruit"), parts=("base",))
    made = (batch(user, session()), batch(base, session(), part_of=("pie",)))
    (sheet,), _ = sheets(made, household(BURNERS))
    assert sheet.minutes == 55
    assert {t.after for t in sheet.tasks if t.recipe == "pie"} == {("base/1",)}


def test_what_was_cooked_is_portioned_within_two_hours() -> None:
    # The stock could be done first; then it would stand until the long list beside it is over.
    dish = recipe(
        "soup",
        step("Boil.", 30, "burner", part="Stock", idle=True),
        step("Soak.", 200, part="Beans", idle=True),
        step("Portion.", 10, part="Together"),
    )
    (sheet,), problems = sheets((batch(dish, session()),), household(BURNERS))
    assert sheet.minutes == 210 and not problems
    assert only(sheet, "Portion.")[0].finish - only(sheet, "Boil.")[0].finish <= minutes(120)


def test_what_cannot_be_portioned_in_two_hours_is_a_problem_at_the_step_and_still_planned() -> None:
    dish = recipe("loaf", step("Bake.", 30, oven(400), idle=True), step("Rest.", 115, idle=True), step("Slice.", 6))
    (sheet,), problems = sheets((batch(dish, session()),), household(OVEN))
    assert [(p.code, p.severity, p.span) for p in problems] == [("kept-too-long", "error", HERE)]
    assert "121 min" in problems[0].message
    assert sheet.minutes == 161
    # What keeps in a cupboard need not be cold.
    dry = recipe("loaf", *dish.prep, keeping=Keeping(None, None, None, "a test", cupboard_days=(3, 4)))
    assert not sheets((batch(dry, session()),), household(OVEN))[1]


def test_equipment_that_is_not_there_is_a_problem_at_its_step_with_the_places_that_have_it() -> None:
    dish = recipe("bake", step("Roast.", 30, oven(400), idle=True), step("Cut.", 5, "knife"))
    hall = Place("hall", HERE, (Tool("oven"),))
    ward = Place("ward", HERE, (Tool("microwave"),))
    (sheet,), problems = sheets((batch(dish, session(place="ward")),), household(OVEN, others=(hall, ward)))
    assert [(p.code, p.severity) for p in problems] == [("cannot-finish", "error")]
    assert "oven" in problems[0].message and "ward" in problems[0].message
    assert [r for r in problems[0].remedies if "place:" in r] == [
        "hold the session at home: `place: home`",
        "hold the session at hall: `place: hall`",
    ]
    assert len(sheet.tasks) == 2


def test_more_burners_than_there_are_is_a_problem() -> None:
    dish = recipe("fish", step("Poach.", 10, use("burner", count=2)))
    _, problems = sheets((batch(dish, session()),), household(Tool("burner")))
    assert [p.code for p in problems] == ["cannot-finish"]
    assert "2 burners" in problems[0].message and "has 1" in problems[0].message


def test_a_home_without_a_list_of_equipment_has_one_of_what_a_step_names() -> None:
    made = tuple(batch(recipe(key, step("Roast.", 30, oven(400), idle=True)), session()) for key in ("a", "b"))
    (sheet,), problems = sheets(made, household())
    assert (sheet.minutes, problems) == (70, ())


def test_a_refrigerator_holds_many_things_at_once() -> None:
    made = tuple(batch(recipe(key, step("Chill.", 30, "fridge", idle=True)), session()) for key in ("a", "b"))
    (sheet,), _ = sheets(made, household())
    assert sheet.minutes == 30


def test_a_long_session_and_one_past_midnight_are_said() -> None:
    long = tuple(batch(recipe(f"d{n}", step("Knead.", 61)), session(9)) for n in range(6))
    late = (batch(recipe("stew", step("Stir.", 61)), session(23)),)
    short = (batch(recipe("stew", step("Stir.", 60)), session(22)),)
    (problem,) = sheets(long, household())[1]
    assert (problem.code, problem.severity, problem.span) == ("prep-too-long", "warning", session().span)
    assert problem.message == "this session takes 6 h 06 min, until 15:06 on Sunday"
    assert [p.code for p in sheets(late, household())[1]] == ["prep-too-long"]
    assert not sheets(short, household())[1]


def test_each_session_has_a_sheet_in_order_of_time_and_one_without_steps_takes_no_time() -> None:
    wednesday = session(19, on=date(2026, 6, 10))
    made = (batch(recipe("stew", step("Stir.", 60)), wednesday), batch(recipe("eggs"), session()))
    (first, second), problems = sheets(made, household())
    assert (first.of, first.tasks, first.minutes, first.proven) == (session(), (), 0, True)
    assert (second.of, second.minutes) == (wednesday, 60)
    assert not problems
    assert sheets((), household()) == ((), ())


def test_minutes_stated_for_each_session_are_tasks_and_washing_up_is_the_last() -> None:
    stated = {"washing up": Fraction(15), "laying out": Fraction(5)}
    (sheet,), _ = sheets((batch(recipe("stew", step("Stir.", 30)), session()),), household(minutes=stated))
    assert sheet.minutes == 50
    assert sheet.tasks[-1].text == "washing up" and len(sheet.tasks[-1].after) == 2


def test_a_second_batch_of_a_recipe_has_ids_of_its_own() -> None:
    dish = recipe("stew", step("Stir.", 10))
    made = (batch(dish, session(), name="one"), batch(dish, session(), name="two"))
    (sheet,), _ = sheets(made, household())
    assert [(t.id, t.batch) for t in sheet.tasks] == [("stew/1", "one"), ("stew-2/1", "two")]


def test_clocks_that_are_changed_during_a_session_take_no_minute_away() -> None:
    # In the night to 8 March 2026 clocks in Chicago go from 2:00 to 3:00.
    made = (batch(recipe("stock", step("Simmer.", 120, idle=True)), session(1, on=date(2026, 3, 8))),)
    (sheet,), _ = sheets(made, household())
    assert sheet.finish.isoformat() == "2026-03-08T04:00:00-05:00"


def test_what_an_eater_avoids_is_handled_last_among_the_shortest() -> None:
    def made(avoids: tuple[str, ...]) -> RunSheet:
        dishes = [
            recipe("a-sauce", step("Whisk.", 10), holds=("milk",)),
            recipe("b-stew", step("Stir.", 10)),
            recipe("c-salad", step("Toss.", 10)),
        ]
        (sheet,), _ = sheets(tuple(batch(d, session()) for d in dishes), household(avoids=avoids))
        assert sheet.minutes == 30
        return sheet

    assert made(("milk",)).tasks[-1].recipe == "a-sauce"
    assert made(()).tasks[0].recipe == "a-sauce"


def test_produce_is_handled_before_raw_meat() -> None:
    dishes = [recipe("a-ragu", step("Trim.", 10), aisle="meat and fish"), recipe("b-salad", step("Toss.", 10))]
    (sheet,), _ = sheets(tuple(batch(d, session()) for d in dishes), household())
    assert [t.recipe for t in sheet.tasks] == ["b-salad", "a-ragu"]


def test_a_dish_leaves_the_only_pressure_cooker_before_the_next_goes_in() -> None:
    def dish(key: str) -> Recipe:
        return recipe(
            key,
            step("Brown.", 10, "pressure cooker"),
            step("Cook.", 30, "pressure cooker", idle=True),
            step("Thicken.", 5, "pressure cooker"),
        )

    at = session(cooks=2)
    made = (batch(dish("a-beef"), at), batch(dish("b-curry"), at), batch(dish("c-dal"), at))
    (sheet,), problems = sheets(made, household(Tool("pressure cooker", holds_ml=5678), BOARDS))
    assert not problems and sheet.proven and not faults(sheet)
    assert sheet.minutes == 135
    assert [len(list(tasks)) for _, tasks in groupby(sheet.tasks, key=lambda t: t.recipe)] == [3, 3, 3]


def test_raw_meat_has_a_board_of_its_own_where_there_are_two_and_says_wash() -> None:
    dishes = [
        recipe("a-ragu", step("Trim.", 10, "cutting board"), aisle="meat and fish"),
        recipe("b-salad", step("Slice.", 10, "cutting board")),
    ]
    (sheet,), _ = sheets(tuple(batch(d, session()) for d in dishes), household(BOARDS))
    assert [(t.recipe, t.uses[-1], t.raw) for t in sheet.tasks] == [
        ("b-salad", "cutting board 1", False),
        ("a-ragu", "cutting board 2", True),
    ]


@pytest.mark.parametrize("seed", range(400, 412))
def test_no_sheet_breaks_a_rule_that_its_reader_can_check(seed: int) -> None:
    made, kitchen = random_session(seed, 20)
    (sheet,), _ = sheets(made, kitchen)
    assert not faults(sheet)
    assert sheet.at_least_minutes <= sheet.minutes
    assert sheets(made, kitchen)[0] == (sheet,)
