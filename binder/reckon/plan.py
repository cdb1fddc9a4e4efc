"""The whole week, subject after subject, from the plan to everything the pages print."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date, datetime, timedelta

from binder.model.library import Library
from binder.model.stock import Stock
from binder.model.week import Session, Week
from binder.problem import Problem, in_order
from binder.reckon import (
    batches,
    carrying,
    costs,
    demand,
    dishes,
    filling,
    labels,
    lot_records,
    mise_en_place,
    packing,
    pulling,
    remedies,
    run_sheet,
    service,
    shopping,
    space,
    totals,
    use_first,
)
from binder.reckon import stock as on_hand
from binder.reckon.facts import Batch, RunSheet, WeekFacts
from binder.reckon.recipe_facts import RecipeFacts
from binder.reckon.settle import Settled, settle

ROUNDS = 4  # a session that runs past a meal moves that meal to an earlier one; sessions only ever run later


def reckon_week(
    week: Week,
    library: Library,
    facts: Mapping[str, RecipeFacts],
    stock: Stock | None,
    today: date,
    problems: tuple[Problem, ...] = (),
    draw_up: run_sheet.DrawUp = run_sheet.drawn_up,
) -> WeekFacts:
    """Everything about one week. `problems` are those already found in what it needs; they stand in the result."""
    household = library.household
    foods, past = on_hand.foods_on_hand(stock, today, household.caution) if stock is not None else ((), ())
    said = lot_records.records(item.lot for item in foods)
    facts, week = lot_records.with_records(facts, said, household), lot_records.in_substitutions(week, said)
    settled, made, sheets, late = _with_run_sheets(week, library, facts, stock, today, draw_up)
    needs = batches.needs(made, settled.servings, settled.variants)
    first_day = week.sessions[0].on if week.sessions else week.monday
    shopped, loose = shopping.shop(needs, foods, library.foods, household, first_day)
    things = filling.filled(settled.servings, made, household)
    put, packed = packing.pack(things, household)
    lies = packing.where_parts_lie(things, put)
    servings = tuple(replace(s, container=put.get(s.id), lies=lies.get(s.id, ())) for s in settled.servings)
    placed, next_free = labels.place(things, household.labels, week.key)
    found = remedies.with_remedies(settled.problems, week, library, facts, stock, today)
    return WeekFacts(
        week=week.key,
        today=today,
        problems=in_order((*problems, *found, *late, *past, *shopping.not_counted(shopped, foods), *packed)),
        servings=servings,
        batches=made,
        shopping=tuple(b.row for b in shopped),
        cost=costs.reckon(shopped, made, servings, facts, household),
        mise_en_place=mise_en_place.rows(needs, household, sheets),
        run_sheets=sheets,
        packing=packing.rows(things, put, household),
        labels=placed,
        labels_next_free=next_free,
        pull_list=pulling.pull_list(servings, household),
        carry_list=carrying.carry_list(servings, household, packing.boxes_apart(things, put)),
        use_first=use_first.use_first(
            foods,
            shopped,
            settled.lots,
            settled.lots_left,
            things,
            library.recipes,
            household,
            week.monday + timedelta(days=6),
        ),
        day_totals=totals.day_totals(servings, household),
        room=space.room(things, put, household, week.monday),
        freezer_load=space.freezer_loads(things, put, household),
        services=service.sheets(servings, facts, household),
        recipes=facts,
        to_taste=loose,
    )


def printed_week(library: Library, today: date, named: str | None = None) -> str | None:
    """The week that is printed: the one named, else the one under way or next, else the last.

    A week is under way from its first session to its Sunday; on a day of two weeks it is the later one.
    """
    if named in library.weeks:
        return named
    weeks = sorted(library.weeks.values(), key=lambda week: week.monday)

    under_way = [w for w in weeks if w.first_day <= today <= w.monday + timedelta(days=6)]
    coming = [w for w in weeks if w.first_day > today]
    if under_way:
        return under_way[-1].key
    if coming:
        return coming[0].key
    return weeks[-1].key if weeks else None


def past_their_time(library: Library, today: date) -> tuple[Problem, ...]:
    """The lots past their time, for a household that plans no week."""
    _, of_dishes = dishes.lots_of_dishes(library.stock, library.recipes, library.household, today)
    _, of_foods = on_hand.foods_on_hand(library.stock, today, library.household.caution)
    return (*of_dishes, *of_foods)


def _with_run_sheets(
    week: Week,
    library: Library,
    facts: Mapping[str, RecipeFacts],
    stock: Stock | None,
    today: date,
    draw_up: run_sheet.DrawUp,
) -> tuple[Settled, tuple[Batch, ...], tuple[RunSheet, ...], tuple[Problem, ...]]:
    """Settle, draw up the run sheets, and settle again where a session turns out not to be over before a meal."""
    ends: dict[Session, datetime] = {}
    settled = settle(week, library, facts, stock, today)
    for _ in range(ROUNDS):
        made = batches.batches(settled.placed, settled.variants, library.household)
        sheets, late = run_sheet.sheets(made, library.household, draw_up, _eaters(settled))
        finish = {sheet.of: sheet.finish for sheet in sheets if sheet.of is not None}
        if not _overruns(settled, finish, library):
            break
        # The latest finish ever seen counts, so that a meal does not go back and forth between two sessions.
        for session, end in finish.items():
            ends[session] = max(end, ends.get(session, end))
        settled = settle(week, library, facts, stock, today, ends)
    return settled, made, sheets, late


def _eaters(settled: Settled) -> Mapping[str, frozenset[str]]:
    """Who is served from each batch."""
    found: dict[str, set[str]] = {}
    for serving in settled.servings:
        if serving.batch:
            found.setdefault(serving.batch, set()).add(serving.eater)
    return {batch: frozenset(eaters) for batch, eaters in found.items()}


def _overruns(settled: Settled, finish: Mapping[Session, datetime], library: Library) -> bool:
    return any(
        p.session in finish
        and p.wanted.date is not None
        and finish[p.session] > demand.meal_time(library.household, p.wanted.date, p.wanted.line.meal)
        for p in settled.placed
        if p.session is not None
    )
