"""Small recipes, batches and households for the tests of the run sheet, and a check of a sheet by its own rules."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction
from random import Random
from types import MappingProxyType

from binder.model.food import Food, Keeping
from binder.model.household import Eater, Household, LabelStock, Place, Tool
from binder.model.quantity import exactly
from binder.model.recipe import Ingredient, Recipe, Step, Use
from binder.model.week import Session
from binder.problem import Span
from binder.reckon.facts import Batch, RunSheet
from binder.reckon.recipe_facts import NOTHING, KeepsFacts, PerPortion, RecipeFacts, Tallies
from binder.reckon.run_sheet_problem import Kitchen, Plan

HERE = Span("content/recipes/x.md", 1, 1, 2)
SUNDAY = date(2026, 6, 7)
CHILLED = Keeping((3, 4), None, None, "a test")


def use(kind: str, degrees: int | None = None, count: int = 1) -> Use:
    heat = None if degrees is None else Fraction(degrees)
    return Use(kind, count, heat, "" if degrees is None else f"{degrees} °F")


def oven(degrees: int) -> Use:
    return use("oven", degrees)


def step(
    text: str,
    minutes: Fraction | float | None,
    *uses: Use | str,
    part: str | None = None,
    idle: bool = False,
    per: bool = False,
) -> Step:
    """A step; `idle` for unattended, `per` for minutes of one portion."""
    kept = tuple(use(u) if isinstance(u, str) else u for u in uses)
    return Step(text, HERE, part, None if minutes is None else Fraction(minutes), idle, per, kept)


def _line(food: str, of: str | None, aisle: str = "other") -> Ingredient:
    return Ingredient(food, HERE, "cooked", None, Food(food, aisle=aisle), of, ())


def recipe(
    key: str,
    *steps: Step,
    portions: int = 4,
    portion_ml: int | None = None,
    parts: Sequence[str] = (),
    swells: bool = False,
    aisle: str = "other",
    holds: Sequence[str] = (),
    keeping: Keeping = CHILLED,
) -> Recipe:
    """A recipe of these steps; `parts` are the recipes it uses, `holds` the allergens of an ingredient."""
    lines = [_line(name, name) for name in parts]
    if swells:
        lines.append(_line("pearled barley", None, "grains and pulses"))
    if aisle != "other" or holds:
        food = Food("the main thing", aisle=aisle, contains=tuple(holds))
        lines.append(Ingredient(food.name, HERE, "cooked", None, food, None, ()))
    return Recipe(
        key=key,
        title=key.title(),
        span=HERE,
        meals=("lunch",),
        form="ready",
        portions=Fraction(portions),
        makes=None,
        makes_text=f"{portions} portions",
        portion=exactly(portion_ml, "mL") if portion_ml else None,
        portion_measure=None,
        ingredients=tuple(lines),
        part_names=(),
        gives=(),
        keeping=keeping,
        container=None,
        container_span=None,
        reheat=(),
        needs=(),
        batch="exact",
        tallies=MappingProxyType({}),
        prep=tuple(steps),
        service=(),
    )


def batch(
    of: Recipe,
    at: Session,
    factor: Fraction | float = 1,
    part_of: Sequence[str] = (),
    contains: Sequence[str] = (),
    name: str = "",
) -> Batch:
    portions = of.portions * Fraction(factor)
    facts = RecipeFacts(
        key=of.key,
        title=of.title,
        form=of.form,
        meals=of.meals,
        portions=float(of.portions),
        portion=of.portion,
        ingredients=(),
        per_portion=PerPortion(NOTHING, None, Tallies()),
        contains=tuple(contains),
        may_contain=(),
        not_known=(),
        keeps=KeepsFacts(4, None, True, "a test"),
        reheat=(),
        recipe=of,
    )
    return Batch(
        recipe=of.key,
        made_on=at.on,
        portions_needed=portions,
        portions_made=portions,
        factor=Fraction(factor),
        surplus=Fraction(0),
        loads=1,
        id=name or f"{at.on.isoformat()}-{of.key}",
        session=at,
        facts=facts,
        part_of=tuple(part_of),
    )


def session(hour: int = 13, cooks: int = 1, on: date = SUNDAY, place: str = "home") -> Session:
    return Session(on, hour * 60, cooks, Span("content/weeks/2026-W24.md", 4, 5, 9), place)


def household(
    *tools: Tool, others: Sequence[Place] = (), avoids: Sequence[str] = (), minutes: dict[str, Fraction] | None = None
) -> Household:
    home = Place("home", HERE, (*tools, Tool("fridge")))
    eater = Eater("Ilka", HERE, tuple(avoids), (), MappingProxyType({}), "usual")
    return Household(
        name="The Alder Street kitchen",
        span=HERE,
        language="en",
        paper="letter",
        measures="us",
        cup="us",
        allergen_list="us",
        caution="usual",
        time_zone="America/Chicago",
        currency="USD",
        meal_times=MappingProxyType({"lunch": 720}),
        eaters=(eater,),
        places=(home, *others),
        containers=(),
        labels=LabelStock("letter 3x10"),
        session_minutes=minutes,
    )


def faults(sheet: RunSheet) -> list[str]:
    """What a reader of the printed sheet could object to: the order, and pieces that two steps keep at once."""
    found = []
    by_id = {task.id: task for task in sheet.tasks}
    for task in sheet.tasks:
        found += [f"{task.id} starts before {i} ends" for i in task.after if by_id[i].finish > task.start]
        found += [f"{task.id} is outside the session"] if task.start < sheet.start or task.finish > sheet.finish else []
        found += [f"{task.id} has no cook"] if task.attended != any(p.startswith("cook ") for p in task.uses) else []
        for other in sheet.tasks:
            if other.id > task.id and task.start < other.finish and other.start < task.finish:
                both = {p for p in task.uses if p in other.uses and not p.startswith("oven")}
                found += [f"{task.id} and {other.id} both keep {sorted(both)}"] if both else []
    return found


def broken(kitchen: Kitchen, plan: Plan) -> list[str]:
    """Every rule of the problem that a plan breaks, unit of time by unit of time."""
    found = []
    jobs = kitchen.jobs
    ends = [s + job.length for s, job in zip(plan.starts, jobs, strict=True)]
    for j, job in enumerate(jobs):
        found += [f"{j} does not wait for {i}" for i in job.after if ends[i] > plan.starts[j]]
        if (plan.ovens[j] >= 0) != (job.racks > 0):
            found.append(f"{j}: oven")
        if job.racks and plan.starts[j] < kitchen.heating:
            found.append(f"{j} goes into a cold oven")
    for t in range(max(ends, default=0)):
        now = [j for j in range(len(jobs)) if plan.starts[j] <= t < ends[j]]
        for kind, count in enumerate(kitchen.pieces):
            if sum(n for j in now for k, n in jobs[j].needs if k == kind) > count:
                found.append(f"too many of {kind} at {t}")
        for number, racks in enumerate(kitchen.ovens):
            if sum(jobs[j].racks for j in now if plan.ovens[j] == number) > racks:
                found.append(f"too many racks of oven {number} at {t}")
    for i in range(len(jobs)):
        for j in range(len(jobs)):
            same_oven = plan.ovens[i] == plan.ovens[j] >= 0 and jobs[i].heat != jobs[j].heat
            if same_oven and plan.starts[i] <= plan.starts[j] < ends[i] + kitchen.heating:
                found.append(f"no time to change the oven between {i} and {j}")
    for limit in kitchen.limits:
        if max(ends[i] for i in limit.last) > max(ends[i] for i in limit.hot) + limit.within:
            found.append(f"{limit.last} too long after {limit.hot}")
    return found


def minutes(count: int) -> timedelta:
    return timedelta(minutes=count)


_STEPS = (
    ("Dice.", (4, 18), ("cutting board",), False, 5),
    ("Stir together.", (2, 10), (), False, 4),
    ("Brown.", (6, 15), ("burner",), False, 2),
    ("Simmer, covered.", (15, 60), ("burner",), True, 3),
    ("Roast.", (20, 55), ("oven",), True, 3),
    ("Cook under pressure.", (12, 40), ("pressure cooker",), True, 1),
    ("Leave to soak.", (10, 45), (), True, 1),
)


def random_recipe(key: str, dice: Random, part_of: Sequence[str] = ()) -> Recipe:
    """One to three lists side by side of one to four steps, mostly with a `### Together` that portions."""
    steps = []
    for part in ("One", "Two", "Three")[: dice.randint(1, 3)]:
        kinds = dice.choices(_STEPS, [s[-1] for s in _STEPS], k=dice.randint(1, 4))
        for text, (low, high), tools, idle, _ in kinds:
            kept = [oven(dice.choice((350, 400, 425))) if tool == "oven" else use(tool) for tool in tools]
            steps.append(step(text, dice.randint(low, high), *kept, part=part, idle=idle))
    for _ in range(dice.choice((0, 1, 1, 2))):
        steps.append(step("Portion and cool.", dice.randint(4, 12), part="Together"))
    return recipe(key, *steps, parts=part_of)


def random_session(seed: int, tasks: int) -> tuple[tuple[Batch, ...], Household]:
    """A session of about so many tasks, the same for a seed on every machine."""
    dice = Random(seed)
    at = session(13, dice.choice((1, 1, 2)))
    made: list[Batch] = []
    while sum(len(b.facts.recipe.prep) for b in made if b.facts) < tasks:
        key = f"dish-{len(made) + 1}"
        if made and dice.random() < 0.15:
            part = made[-1]
            made[-1] = replace(part, part_of=(key,))
            made.append(batch(random_recipe(key, dice, (part.recipe,)), at))
        else:
            made.append(batch(random_recipe(key, dice), at))
    tools = (
        dice.choice((Tool("oven"), Tool("oven"), Tool("oven", 2), Tool("oven", racks=2))),
        Tool("burner", dice.choice((2, 4, 4))),
        Tool("cutting board", dice.choice((1, 2))),
        Tool("pressure cooker"),
    )
    return tuple(made), household(*tools)
