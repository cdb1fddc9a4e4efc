"""Plans and bounds: against published optima, against another solver, against trying everything."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import permutations, product
from random import Random

import pytest

from binder.reckon import run_sheet_search, run_sheet_stretches
from binder.reckon.run_sheet_bounds import bound
from binder.reckon.run_sheet_eased import eased
from binder.reckon.run_sheet_equipment import equipment
from binder.reckon.run_sheet_kitchen import Setting, setting
from binder.reckon.run_sheet_order import AVOIDED, PLAIN, RAW_MEAT, Care, careful, contrary, objections
from binder.reckon.run_sheet_place import in_order
from binder.reckon.run_sheet_problem import Job, Kitchen, Limit, Plan
from binder.reckon.run_sheet_search import search
from binder.reckon.run_sheet_tasks import planned
from tests.reckon.run_sheet_kitchens import broken, random_session

# Machine and minutes of each operation, a line a job. ft06, ft10: H. Fisher and G. L. Thompson, in Muth and Thompson,
# Industrial Scheduling (1963). la01, la02, la05: S. Lawrence, Resource constrained project scheduling (1984).
SHOPS = {
    ("ft06", 55): """
        2 1 0 3 1 6 3 7 5 3 4 6
        1 8 2 5 4 10 5 10 0 10 3 4
        2 5 3 4 5 8 0 9 1 1 4 7
        1 5 0 5 2 5 3 3 4 8 5 9
        2 9 1 3 4 5 5 4 0 3 3 1
        1 3 3 3 5 9 0 10 4 4 2 1""",
    ("la01", 666): """
        1 21 0 53 4 95 3 55 2 34
        0 21 3 52 4 16 2 26 1 71
        3 39 4 98 1 42 2 31 0 12
        1 77 0 55 4 79 2 66 3 77
        0 83 3 34 2 64 1 19 4 37
        1 54 2 43 4 79 0 92 3 62
        3 69 4 77 1 87 2 87 0 93
        2 38 0 60 1 41 3 24 4 83
        3 17 1 49 4 25 0 44 2 98
        4 77 3 79 2 43 1 75 0 96""",
    ("la02", 655): """
        0 20 3 87 1 31 4 76 2 17
        4 25 2 32 0 24 1 18 3 81
        1 72 2 23 4 28 0 58 3 99
        2 86 1 76 4 97 0 45 3 90
        4 27 0 42 3 48 2 17 1 46
        1 67 0 98 4 48 3 27 2 62
        4 28 1 12 3 19 0 80 2 50
        1 63 0 94 2 98 3 50 4 80
        4 14 0 75 2 50 1 41 3 55
        4 72 2 18 1 37 3 79 0 61""",
    ("la05", 593): """
        1 72 0 87 4 95 2 66 3 60
        4 5 3 35 0 48 2 39 1 54
        1 46 3 20 2 21 0 97 4 55
        0 59 3 19 4 46 1 34 2 37
        4 23 2 73 3 25 1 24 0 28
        3 28 0 45 4 5 1 78 2 83
        0 53 3 71 1 37 4 29 2 12
        4 12 2 87 3 33 1 55 0 38
        2 49 3 83 1 40 0 48 4 7
        2 65 3 17 0 90 4 27 1 23""",
}
FT10 = """
    0 29 1 78 2 9 3 36 4 49 5 11 6 62 7 56 8 44 9 21
    0 43 2 90 4 75 9 11 3 69 1 28 6 46 5 46 7 72 8 30
    1 91 0 85 3 39 2 74 8 90 5 10 7 12 6 89 9 45 4 33
    1 81 2 95 0 71 4 99 6 9 8 52 7 85 3 98 9 22 5 43
    2 14 0 6 1 22 5 61 3 26 4 69 8 21 7 49 9 72 6 53
    2 84 1 2 5 52 3 95 8 48 9 72 0 47 6 65 4 6 7 25
    1 46 0 37 3 61 2 13 6 32 5 21 9 32 8 89 7 30 4 55
    2 31 0 86 1 46 5 74 4 32 6 88 8 19 9 48 7 36 3 79
    0 76 1 69 3 76 5 51 2 85 9 11 6 40 7 89 4 26 8 74
    1 85 0 13 2 61 6 7 8 64 9 76 5 47 3 52 4 90 7 45"""

# Seed and size of a random session, and its shortest time in minutes as OR-Tools CP-SAT 9.15 proves it.
PROVEN_ELSEWHERE = (
    (0, 16, 165), (1, 30, 260), (2, 39, 461), (3, 37, 225), (4, 36, 274), (6, 20, 176), (8, 27, 196), (9, 36, 354),
    (10, 26, 115), (12, 32, 201), (13, 24, 219), (17, 27, 165), (20, 38, 171), (23, 31, 193), (24, 36, 229),
    (26, 12, 157), (30, 35, 177), (31, 37, 225), (32, 19, 160), (33, 30, 196), (34, 15, 98), (36, 22, 162),
    (46, 18, 113), (48, 35, 164), (49, 12, 112), (52, 36, 288), (58, 19, 254), (59, 33, 246),
)  # fmt: skip


def shop(text: str) -> Kitchen:
    """A job shop as a kitchen: each machine is an only piece of a kind."""
    jobs: list[Job] = []
    for line in text.strip().splitlines():
        numbers = [int(word) for word in line.split()]
        for n, (machine, length) in enumerate(zip(numbers[::2], numbers[1::2], strict=True)):
            jobs.append(Job(length, ((machine, 1),), (len(jobs) - 1,) if n else ()))
    return Kitchen(tuple(jobs), (1,) * (1 + max(job.needs[0][0] for job in jobs)))


def session_setting(seed: int, tasks: int) -> Setting:
    made, home = random_session(seed, tasks)
    assert made[0].session is not None
    have = equipment(made[0].session, made, home)
    return setting(*planned(made, have), have, home)


@pytest.mark.parametrize(("name", "optimum", "text"), [(*of, text) for of, text in SHOPS.items()])
def test_published_job_shops_come_out_at_their_optimum(name: str, optimum: int, text: str) -> None:
    kitchen = shop(text)
    assert bound(kitchen) <= optimum, name
    found = search(kitchen)
    assert not broken(kitchen, found.plan)
    assert found.plan.finish(kitchen) == optimum == found.bound


def test_the_bound_of_a_hard_job_shop_is_not_above_its_optimum() -> None:
    assert 800 <= bound(shop(FT10)) <= 930


@pytest.mark.parametrize(("seed", "tasks", "optimum"), PROVEN_ELSEWHERE)
def test_random_kitchens_come_out_as_another_solver_proves(seed: int, tasks: int, optimum: int) -> None:
    kitchen = session_setting(seed, tasks).kitchen
    assert bound(kitchen) <= optimum
    found = search(kitchen)
    assert found.within_limits and not broken(kitchen, found.plan)
    assert (found.plan.finish(kitchen), found.bound) == (optimum, optimum)


def tiny(dice: Random) -> Kitchen:
    """Five or six jobs, a kind or two, an oven or two."""
    pieces = (dice.choice((1, 1, 2)), dice.choice((1, 2)))
    ovens = dice.choice(((1,), (2,), (1, 1), (1, 2)))
    jobs: list[Job] = []
    for j in range(dice.choice((5, 6))):
        needs = tuple((kind, dice.choice((1, pieces[kind]))) for kind in (0, 1) if dice.random() < 0.55)
        after = tuple(i for i in range(j) if dice.random() < 0.2)
        racks = dice.choice((0, 0, 1, 1, max(ovens)))
        jobs.append(Job(dice.randint(1, 7), needs, after, racks, dice.choice((0, 1)) if racks else -1))
    return Kitchen(tuple(jobs), pieces, ovens, 3)


def every_plan(kitchen: Kitchen) -> Iterator[Plan]:
    """Every order of the jobs and every choice of ovens, each job as early as it can be: one of them is shortest."""
    jobs = kitchen.jobs
    rooms = [[o for o, n in enumerate(kitchen.ovens) if n >= job.racks] if job.racks else [-1] for job in jobs]
    for order in permutations(range(len(jobs))):
        if all(order.index(i) < order.index(j) for j, job in enumerate(jobs) for i in job.after):
            for ovens in product(*rooms):
                yield in_order(kitchen, order, [0] * len(jobs), ovens)


@pytest.mark.parametrize("seed", range(30))
def test_small_kitchens_come_out_as_trying_everything_says(seed: int, monkeypatch: pytest.MonkeyPatch) -> None:
    kitchen = tiny(Random(seed))
    shortest = min(plan.finish(kitchen) for plan in every_plan(kitchen))
    # Without the rules of thumb, so that what is tried is the search that learns.
    monkeypatch.setattr(run_sheet_search, "_first", lambda *_: None)
    found = search(kitchen)
    assert not broken(kitchen, found.plan)
    assert (found.plan.finish(kitchen), found.bound) == (shortest, shortest)


@pytest.mark.parametrize("seed", range(40, 60))
def test_limits_are_kept_wherever_a_plan_keeps_them(seed: int, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(run_sheet_search, "_first", lambda *_: None)
    dice = Random(seed)
    kitchen = tiny(dice)
    last = max(j for j, job in enumerate(kitchen.jobs) if job.after or j == 0)
    hot = tuple(i for i in range(last) if dice.random() < 0.6) or (0,)
    limited = replace(kitchen, limits=(Limit(hot, (last,), dice.randint(0, 6)),)) if last else kitchen
    keeping = [plan.finish(limited) for plan in every_plan(limited) if not broken(limited, plan)]
    found = search(limited)
    if keeping:
        assert found.within_limits and not broken(limited, found.plan)
        # Waiting on purpose may be shorter than any plan that starts everything as early as it can be.
        assert found.plan.finish(limited) <= min(keeping)
        assert found.bound >= search(kitchen).bound
    assert not broken(kitchen, found.plan)


def test_what_is_not_proven_keeps_an_honest_bound(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(run_sheet_search, "STEPS", 3_000)
    monkeypatch.setattr(run_sheet_search, "MORE_STEPS", 3_000)
    monkeypatch.setattr(run_sheet_stretches, "STEPS", 30_000)
    kitchen = shop(FT10)
    found = search(kitchen)
    assert not broken(kitchen, found.plan)
    assert bound(kitchen) <= found.bound <= 930 <= found.plan.finish(kitchen) <= 1.15 * 930
    assert found.bound < found.plan.finish(kitchen)


def test_the_same_kitchen_gives_the_same_plan() -> None:
    kitchen = session_setting(19, 30).kitchen
    assert search(kitchen) == search(kitchen)


@pytest.mark.parametrize("seed", range(8))
def test_a_more_careful_order_keeps_the_rules_and_the_end(seed: int) -> None:
    dice = Random(seed)
    at = session_setting(seed, 22)
    care = tuple(Care(dice.choice((PLAIN, PLAIN, RAW_MEAT, AVOIDED)), of.attended, of.dish) for of in at.care)
    plan = search(at.kitchen).plan
    better = careful(at.kitchen, plan, care)
    assert not broken(at.kitchen, better)
    assert better.finish(at.kitchen) == plan.finish(at.kitchen)
    assert objections(at.kitchen, better, care) <= objections(at.kitchen, plan, care)


@pytest.mark.parametrize("seed", range(8))
def test_no_job_of_raw_meat_could_stand_later_by_itself_to_let_produce_come_first(seed: int) -> None:
    """Minute by minute: each job that stands before one of less care is tried at every later time."""
    dice = Random(seed)
    at = session_setting(seed, 26)
    care = tuple(Care(dice.choice((PLAIN, PLAIN, PLAIN, RAW_MEAT)), of.attended, of.dish) for of in at.care)
    plan = careful(at.kitchen, search(at.kitchen).plan, care)
    end, least = plan.finish(at.kitchen), objections(at.kitchen, plan, care)
    for j, _ in contrary(plan, care):
        for when in range(plan.starts[j] + 1, end - at.kitchen.jobs[j].length + 1):
            other = replace(plan, starts=(*plan.starts[:j], when, *plan.starts[j + 1 :]))
            if at.kitchen.jobs[j].racks == 0 and objections(at.kitchen, other, care) < least:
                assert broken(at.kitchen, other), (j, plan.starts[j], when)


def test_two_jobs_change_places_where_neither_can_move_alone() -> None:
    """One cook without a free minute: the fish goes where the salad was."""
    kitchen = Kitchen((Job(5, ((0, 1),)), Job(10, ((0, 1),), (0,)), Job(5, ((0, 1),), (1,))), (1,))
    kitchen = replace(kitchen, jobs=(*kitchen.jobs, Job(5, ((0, 1),), (1,))))
    care = tuple(Care(RAW_MEAT if j == 2 else PLAIN, True, j) for j in range(4))
    plan = Plan((0, 5, 15, 20), (-1,) * 4)
    better = eased(kitchen, plan, lambda of: contrary(of, care), lambda of: objections(kitchen, of, care))
    assert better.starts == (0, 5, 20, 15) and not broken(kitchen, better)


def test_an_avoided_allergen_waits_for_all_else_where_that_costs_no_time() -> None:
    # One cook, forty minutes of work in any order, behind an unattended step that leaves time enough.
    jobs = (Job(60), *(Job(5, ((0, 1),)) for _ in range(8)))
    care = tuple(Care(AVOIDED if j in (1, 4) else RAW_MEAT if j in (2, 3) else PLAIN, j > 0, j) for j in range(9))
    kitchen = Kitchen(jobs, (1,))
    plan = search(kitchen).plan
    better = careful(kitchen, plan, care)
    assert objections(kitchen, plan, care)[:2] != (0, 0)
    assert objections(kitchen, better, care)[:2] == (0, 0)
    assert better.finish(kitchen) == 60
