"""What a week's plan means."""

from datetime import date
from fractions import Fraction

import pytest

from binder.model.week import Already, MealLine, Week

from .kitchen import STEW, WEEK, checked, library

LINE = "{lunch: bean-stew, for: [Ana, Rui], on: mon-fri}"
W = "weeks/2026-W24.md"


def week(line: str = LINE) -> Week:
    return library({W: WEEK.replace(LINE, line)}).weeks["2026-W24"]


def meal(line: str) -> MealLine:
    (made,) = week(line).meals
    return made


def test_line() -> None:
    made = meal(LINE)
    assert (made.meal, made.recipe, made.eaters, made.place, made.each, made.total) == (
        "lunch",
        "bean-stew",
        ("Ana", "Rui"),
        None,
        Fraction(1),
        None,
    )
    assert made.dates == tuple(date(2026, 6, day) for day in range(8, 13))
    assert (made.span.line, made.span.column) == (6, 13)


@pytest.mark.parametrize(
    ("on", "days"),
    [
        ("tue", [9]),
        ("Mon-Fri", [8, 9, 10, 11, 12]),
        ("[tue, thu, sat, sun]", [9, 11, 13, 14]),
        ("2026-06-10", [10]),
        ("[sun, mon, mon]", [8, 14]),
        ("[2026-06-14, fri]", [12, 14]),
    ],
)
def test_days(on: str, days: list[int]) -> None:
    assert [one.day for one in meal(LINE.replace("mon-fri", on)).dates] == days


def test_everyone_and_names_in_any_case() -> None:
    assert meal("{dinner: bean-stew, for: everyone, on: mon}").eaters == ("Ana", "Rui")
    assert meal("{dinner: bean-stew, for: rui, on: mon}").eaters == ("Rui",)


def test_portions_for_each_at_each_meal() -> None:
    made = meal("{dinner: bean-stew, for: everyone, on: mon, portions: 1/2}")
    assert (made.each, made.total) == (Fraction(1, 2), None)


def test_portions_in_all_without_a_fixed_day() -> None:
    made = meal("{snack: bean-stew, for: Rui, portions: 7}")
    assert (made.dates, made.undated, made.each, made.total) == ((), True, Fraction(1), Fraction(7))


def test_portions_by_eater() -> None:
    made = meal("{dinner: bean-stew, for: everyone, on: mon, portions: {rui: 0.5}}")
    assert (made.each, dict(made.by_eater)) == (Fraction(1), {"Rui": Fraction(1, 2)})


def test_portions_for_an_eater_who_does_not_eat_on_the_line() -> None:
    text = WEEK.replace(LINE, "{dinner: bean-stew, for: Ana, on: mon, portions: {Rui: 2}}")
    (problem,) = checked({W: text}).problems
    assert (problem.code, problem.message) == ("unknown-eater", '"Rui" does not eat on this line')


def test_line_whose_days_cannot_be_read_is_not_one_without_days() -> None:
    result = checked({W: WEEK.replace("on: mon-fri", "on: mon-fry")})
    assert result.library is not None
    assert result.library.weeks["2026-W24"].meals == ()


def test_place_and_session_named() -> None:
    made = meal("{dinner: bean-stew, for: Rui, on: mon, at: Office, made: 2026-06-07}")
    assert (made.place, made.made) == ("office", date(2026, 6, 7))
    assert made.made_span is not None


def test_sessions_stand_in_order_of_time() -> None:
    text = WEEK.replace(
        '  - {on: 2026-06-07, at: "13:00"}',
        '  - {on: 2026-06-10, at: "19:00", cooks: 2, place: office}\n  - {on: 2026-06-07, at: "9:30"}',
    )
    first, second = library({W: text}).weeks["2026-W24"].sessions
    assert (first.on, first.at_minutes, first.cooks, first.place) == (date(2026, 6, 7), 570, 1, "home")
    assert (second.on, second.at_minutes, second.cooks, second.place) == (date(2026, 6, 10), 1140, 2, "office")


def test_substitution_finds_what_it_replaces() -> None:
    (made,) = week().substitutions
    assert (made.recipe, made.eaters, made.instead_of, made.replaces) == ("bean-stew", ("Ana",), "ricotta", (2,))
    assert (made.use.food.name, made.use.when) == ("tahini", "at service")


@pytest.mark.parametrize("words", ["onion", "onions", "Onion", "chopped"])
def test_substitution_by_food_or_by_words_of_the_line(words: str) -> None:
    text = WEEK.replace("instead of: ricotta", f"instead of: {words}")
    (made,) = library({W: text}).weeks["2026-W24"].substitutions
    assert made.replaces == (1,)


def test_substitution_of_a_food_leaves_other_lines_with_its_name_alone() -> None:
    stew = STEW.replace("  - 1 onion, chopped\n", "  - 1 tsp onion powder\n  - 1 onion, chopped\n")
    text = WEEK.replace("instead of: ricotta", "instead of: onion")
    (made,) = library({W: text, "recipes/bean-stew.md": stew}).weeks["2026-W24"].substitutions
    assert made.replaces == (2,)


def test_stock_eaten_is_called_by_title_or_key() -> None:
    for name in ("Bean stew", "bean-stew", "BEAN STEW"):
        text = WEEK.replace("2 portions bean stew", f"1 portion {name}")
        (made,) = library({W: text}).weeks["2026-W24"].already
        assert made == Already(made.span, Fraction(1), "bean-stew")


def test_closed_week_keeps_its_block() -> None:
    text = WEEK.replace("already:", "closed: {made: {bean-stew: 4}, notes: [good, 1]}\nalready:")
    closed = library({W: text}).weeks["2026-W24"].closed
    assert closed is not None
    assert closed["notes"] == ("good", 1)


def test_closed_week_may_name_what_is_there_no_longer() -> None:
    text = WEEK.replace("[Ana, Rui]", "[Ana, Bea]").replace("{in: bean-stew", "{in: gone")
    assert {one.code for one in checked({W: text}).problems} == {"unknown-eater", "unknown-recipe"}
    assert checked({W: text.replace("already:", "closed: {rest: none}\nalready:")}).problems == ()


def test_week_without_prep_or_meals() -> None:
    made = library({W: "---\nweek: 2026-W24\n---\nNothing planned.\n"}).weeks["2026-W24"]
    assert (made.sessions, made.meals, made.notes, made.monday) == ((), (), "Nothing planned.", date(2026, 6, 8))


def test_first_week_of_a_year_may_begin_in_december() -> None:
    # ISO 8601: week 1 is the one with the year's first Thursday.
    made = library({"weeks/2026-W01.md": "---\nweek: 2026-W01\n---\n"}).weeks["2026-W01"]
    assert made.monday == date(2025, 12, 29)


def test_week_that_its_year_does_not_have() -> None:
    found = checked({"weeks/2025-W53.md": "---\nweek: 2025-W53\n---\n"}).problems
    assert [(one.code, one.span.path, one.span.line) for one in found] == [("bad-week", "weeks/2025-W53.md", 2)]


def test_broken_line_is_left_out_and_the_others_stay() -> None:
    text = WEEK.replace(
        LINE, f"{LINE}\n  - {{dinner: bean-stew, for: Bea, on: tue}}\n  - {{snack: bean-stew, for: Rui}}"
    )
    result = checked({W: text})
    assert [one.code for one in result.problems] == ["unknown-eater"]
    assert result.library is not None
    assert [one.meal for one in result.library.weeks["2026-W24"].meals] == ["lunch", "snack"]
