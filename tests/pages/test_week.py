from __future__ import annotations

from dataclasses import replace

from binder.pages import kit, week
from binder.pages.page import Checks, Facts, Para, Table
from binder.reckon.recipe_facts import ReheatFacts

from .fixture import MONDAY, SUNDAY
from .fixture_week import FRIDAY, THURSDAY, TUESDAY, edition, servings, week_facts
from .reading import of_kind, said, table


def test_the_grid_says_who_eats_what_where() -> None:
    rows = table(week.pages(edition()), "week")
    assert [row[0] for row in rows if len(row) == 1] == ["Monday 8 June", "Tuesday 9 June", "Friday 12 June"]
    assert rows[1] == ("Lunch", "Squash and barley bake\nsurvey van", "Squash and barley bake\nward", "")
    assert ("Dinner", "Trout", "Trout", "Trout\n½ portion") in rows


def test_many_eaters_are_split_over_tables() -> None:
    names = [f"Eater {n}" for n in range(7)]
    many = tuple(replace(servings()[1], id=name, eater=name) for name in names)
    tables = of_kind(week.week_grid(edition(facts=week_facts(servings=many))), Table)
    assert [len(t.columns) for t in tables] == [4, 5]


def test_what_has_no_fixed_day_stands_below() -> None:
    lines = [said(p.text) for p in of_kind(week.pages(edition()), Para)]
    assert "No fixed day: Bea, snack: Seed scones, 7 portions" in lines


def test_a_day_lists_carrying_heating_cooking_preparing_and_pulling() -> None:
    def tasks(on: object) -> list[str]:
        return [f"{said(c.text)} | {said(c.note)}" for c in week.day_tasks(on, edition())]  # type: ignore[arg-type]

    assert tasks(SUNDAY) == ["Prep session at 13:00: 48 min | Squash and barley bake, Trout and Seed scones"]
    assert tasks(MONDAY) == [
        "Carry to survey van for Ilka: 2 things | Squash and barley bake, with cold packs",
        "12:00 heat Squash and barley bake for Tomas, at ward | microwave 700 W, 3 min 35 s, covered",
    ]
    assert tasks(TUESDAY) == ["18:07 begin Trout for Ilka, Tomas and Bea, 2½ portions, to eat at 18:30 | "]
    assert tasks(THURSDAY) == [
        "Evening: move Squash and barley bake, 1 portion, from the freezer to the refrigerator | for Fri 12 Jun"
    ]
    assert len(tasks(FRIDAY)) == 1


def test_a_kit_is_begun_at_the_hour_of_its_card() -> None:
    begin = dict(of_kind(kit.pages(edition()), Facts)[0].pairs)["Begin"]
    assert said(begin) == "18:07, to eat at 18:30"
    nothing_left = edition(facts=week_facts(services=()))
    assert said(week.day_tasks(TUESDAY, nothing_left)[0].text).startswith("18:30 cook Trout for")


def test_a_day_goes_by_the_clock() -> None:
    """A carry that leaves after lunch stands after lunch; a session in the evening after the kit that is begun."""
    late = replace(week_facts().carry_list[0], leaves=13 * 60)
    facts = week_facts(carry_list=(late,))
    order = [said(c.text).split(" for ")[0] for c in week.day_tasks(MONDAY, edition(facts=facts))]
    assert order == ["12:00 heat Squash and barley bake", "Carry to survey van"]


def test_a_flask_is_filled_before_leaving() -> None:
    flask = replace(servings()[0], reheat=ReheatFacts("flask", None, None, "flask, filled hot"))
    first = week.day_tasks(MONDAY, edition(facts=week_facts(servings=(flask,))))[0]
    assert said(first.text).startswith(
        "Before leaving: fill a flask with Squash and barley bake for Ilka, at survey van"
    )


def test_only_days_with_something_to_do_are_printed() -> None:
    assert len(of_kind(week.day_by_day(edition()), Checks)) == 5
