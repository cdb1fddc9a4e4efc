"""Recipe cards, kit cards, run sheet."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction

import pytest

from binder.model.quantity import point
from binder.model.recipe import Ingredient, Use
from binder.pages import card_ingredients, card_keeps, card_portion, card_steps, cooling, kit, recipe_card, run_sheet
from binder.pages.card_ingredients import line_of
from binder.pages.card_notes import substitution_notes
from binder.pages.page import Box, IngredientLine, Ingredients, Page, Para, Steps
from binder.reckon.facts import PartKept, Serving, Task
from binder.reckon.recipe_facts import PartKeeps, RecipeFacts
from binder.tables import temperatures

from .fixture import (
    BAKE,
    BAKE_FACTS,
    KIT_FACTS,
    STEW_FACTS,
    each,
    figures,
    ingredient_facts,
    line,
    measure,
    recipe,
    step,
)  # fmt: skip
from .fixture_week import SHEET, TASKS, edition, serving, servings, week_facts, without
from .reading import of_kind, said, table, words


def card(key: str, **household: str) -> Page:
    return next(page for page in recipe_card.pages(edition(**household)) if page.path == f"card-{key}")


def lines(page: Page) -> dict[str, list[tuple[str, str, str, str]]]:
    groups = of_kind(page, Ingredients)[0].groups
    return {
        g.title: [(i.quantity.replace("\u00a0", " "), i.second.replace("\u00a0", " "), i.food, i.mark) for i in g.lines]
        for g in groups
    }


def test_a_card_is_scaled_to_the_weeks_size() -> None:
    page = card("squash-barley-bake")
    assert page.subtitle.replace("\u00a0", " ") == "10 portions · Sun 7 Jun, 13:00 · 1¼ × the recipe"
    found = lines(page)
    assert found["Barley"] == [("1⅞ cups", "", "pearled barley", ""), ("1¼–2½ tbsp", "", "olive oil", "")]
    assert found["Squash"][0] == ("2½ lb", "1.13 kg", "butternut squash", "")
    assert found["Squash"][1] == ("2½", "", "onions", "")
    assert found["Squash"][2] == ("", "", "salt", "")
    assert (
        next(i for g in of_kind(page, Ingredients)[0].groups for i in g.lines if i.food == "salt").detail == "to taste"
    )


def test_a_metric_household_reads_grams() -> None:
    assert lines(card("squash-barley-bake", measures="metric"))["Barley"][0][:2] == ("375 g", "1⅞ cups")


def test_what_is_added_at_service_is_told_by_portion_and_by_eater() -> None:
    assert lines(card("squash-barley-bake"))["At service, for each portion"] == [
        ("½ tbsp", "", "tahini", "for Ilka"), ("½ tbsp", "", "ricotta", "for Tomas"),
    ]  # fmt: skip


def test_allergens_stand_in_a_box_for_each_kind_of_portion() -> None:
    box = next(b for b in of_kind(card("squash-barley-bake"), Box) if b.kind == "allergens")
    assert [said(p.text) for p in of_kind(box, Para)] == [
        "For Ilka: Contains sesame.",
        "For Tomas: Contains milk. Pack says may contain sesame. Read the pack each time.",
    ]


def test_what_is_not_recorded_is_not_said_to_be_absent() -> None:
    one = serving(9, STEW_FACTS, "dinner", "Tomas", None, kept="at service", made_on=None)
    page = recipe_card.pages(edition(facts=week_facts(servings=(one,), batches=())))[0]
    assert "None of the listed allergens is recorded. Not checked: radish." in words(page)
    assert "made when it is eaten" in page.subtitle


def test_a_substitution_of_what_is_added_is_told_for_a_portion() -> None:
    said = words(card("squash-barley-bake")).replace("\u00a0", " ")  # 4 tbsp in a recipe of 8 portions
    assert "½ tbsp tahini in place of ricotta for each portion, for Ilka" in said


def test_a_substitution_of_what_is_cooked_is_told_at_the_card_s_size() -> None:
    week = edition().week
    assert week is not None
    (swap,) = week.substitutions
    cooked = next(n for n, one in enumerate(BAKE.ingredients) if one.when == "cooked")
    other = replace(week, substitutions=(replace(swap, replaces=(cooked,)),))
    one = edition()
    of = replace(one, library=replace(one.library, weeks={one.facts.week: other}))
    (note,) = substitution_notes(BAKE.key, Fraction(5, 4), (), of)
    assert "5 tbsp tahini in place of ricotta, for Ilka" in words(note).replace("\u00a0", " ")


def test_steps_take_their_minutes_from_the_run_sheet() -> None:
    groups = of_kind(card("squash-barley-bake"), Steps)[0].groups
    found = [(g.title, s.number, s.time.replace("\u00a0", " "), s.uses) for g in groups for s in g.steps]
    assert found == [
        ("Barley", 1, "35 min, unattended", "burner"), ("Squash", 2, "10 min", "cutting board"),
        ("Squash", 3, "30 min, unattended", "oven 400 °F"), ("Together", 4, "8 min", ""),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("factor", "minutes"), [("5/4", 10), ("1", 8), ("3/2", 12), ("1/2", 4), ("9/8", 9), ("7/6", 10)]
)
def test_a_board_step_grows_with_the_batch_up_to_a_minute(factor: str, minutes: int) -> None:
    cubing, roasting = BAKE.prep[1], BAKE.prep[2]
    assert card_steps.step_minutes(cubing, Fraction(factor), Fraction(8)) == minutes
    assert card_steps.step_minutes(roasting, Fraction(factor), Fraction(8)) == 30


def test_minutes_per_portion_are_multiplied() -> None:
    per = replace(step("Fry.", None, 2, Use("burner")), per_portion=True)
    assert card_steps.step_minutes(per, Fraction(1), Fraction(5)) == 10


def test_pressure_and_meat_bring_their_cautions() -> None:
    stew = recipe(
        "stew", "Beef stew", (line("500 g beef", "beef", "500", "g", aisle="meat and fish"),), 4,
        prep=(step("Cook.", None, 30, Use("pressure cooker"), unattended=True),),
    )  # fmt: skip
    facts = replace(STEW_FACTS, key="stew", recipe=stew, ingredients=tuple(
        replace(STEW_FACTS.ingredients[0], ingredient=one) for one in stew.ingredients
    ))  # fmt: skip
    batch = replace(week_facts().batches[0], recipe="stew", facts=facts, id="b9")
    text = words(recipe_card.pages(edition(facts=week_facts(batches=(batch,)))))
    assert "maker's manual" in text and "poultry 165 °F / 74 °C" in text and "two thirds full" in text
    assert "maker's manual" not in words(card("squash-barley-bake"))


def test_figures_are_rounded_and_incomplete_ones_say_so() -> None:
    assert "about 520 kcal, 18 g protein" in words(card("squash-barley-bake"))
    text = card_portion.figures_text(STEW_FACTS, edition()).replace("\u00a0", " ")
    assert text.startswith("at least 295 kcal, 14 g protein") and "No figures for radish" in text


def test_keeping_says_what_is_assumed_or_not_known() -> None:
    keeps = replace(BAKE_FACTS.keeps, assumed=True, freezer_days=None)
    text = card_keeps.keeps_text(replace(BAKE_FACTS, keeps=keeps), edition()).replace("\u00a0", " ")
    assert text == "4 days in the refrigerator, may be frozen, not known how long (assumed: the recipe does not say)"
    keeps = replace(keeps, assumed=False, freezes=False)
    assert card_keeps.keeps_text(replace(BAKE_FACTS, keeps=keeps), edition()).endswith("do not freeze")


def test_a_card_says_the_days_of_those_who_eat_of_it() -> None:
    def keeps(*of: tuple[str, int, str]) -> str:
        some = [replace(servings()[1], eater=who, keeps_days=days, caution=caution) for who, days, caution in of]
        return card_keeps.keeps_text(facts, edition(), some).replace("\u00a0", " ").partition(",")[0]

    facts = replace(BAKE_FACTS, recipe=replace(BAKE, keeping=replace(BAKE.keeping, decided_by=("Barley", ""))))
    assert keeps(("Tomas", 4, "usual"), ("Bea", 3, "strict"), ("Bea", 3, "strict")) == "4 days (3 for Bea) refrigerated"
    assert keeps(("Tomas", 1, "strict"), ("Bea", 1, "strict")) == "1 day in the refrigerator"  # one pack
    assert keeps() == "4 days in the refrigerator"  # nobody's yet: the household's caution
    strict = [replace(servings()[1], keeps_days=3, caution="strict")]
    assert "Barley keeps shortest" in card_keeps.keeps_text(facts, edition(), strict)
    assert "keeps shortest" not in card_keeps.keeps_text(facts, edition(), (*strict, servings()[1]))


def portion(facts: RecipeFacts, *of: Serving) -> str:
    return card_portion.portion_text(facts, of, edition()).replace("\u00a0", " ")


def test_a_card_has_the_figures_of_each_variant_that_differs_by_more_than_rounding() -> None:
    def ilka(energy: float, protein: float) -> Serving:
        changed = replace(BAKE_FACTS.per_portion, nutrition=figures(energy, protein))
        return replace(servings()[0], eater="Ilka", facts=replace(BAKE_FACTS, per_portion=changed))

    tomas = servings()[1:3]
    assert portion(BAKE_FACTS, *tomas, ilka(651.0, 18.4)).endswith("520 kcal, 18 g protein; vegetables 2; for Ilka "
                                                                   "650 kcal, 18 g")  # fmt: skip
    assert portion(BAKE_FACTS, *tomas, ilka(526.0, 18.6)).endswith("about 520 kcal, 18 g protein; vegetables 2")
    assert "for Ilka 520 kcal, 22 g" in portion(BAKE_FACTS, *tomas, ilka(523.0, 22.0))


def test_a_card_says_that_its_figures_hold_what_is_added_and_its_weight_does_not() -> None:
    """8 portions: 62 g of ricotta and 200 g of cabbage are 32.75 g more on 350 g, with 500 g of ricotta 87.5 g."""

    def ricotta(grams: float | None) -> RecipeFacts:
        *lines, cabbage, last = BAKE_FACTS.ingredients
        weight = None if grams is None else point(grams)
        return replace(
            BAKE_FACTS, ingredients=(*lines, replace(cabbage, grams=point(200.0)), replace(last, grams=weight))
        )

    assert portion(ricotta(62.0)).startswith("2 cups, about 350 g; in all about 520 kcal")
    assert portion(ricotta(500.0)).startswith("2 cups, about 350 g; with what is added ≈ 440 g, about 520 kcal")
    assert "about 350 g; in all about" in portion(ricotta(None))  # no weight is known of it
    bare = replace(BAKE_FACTS, ingredients=BAKE_FACTS.ingredients[:-2])
    assert portion(bare).startswith("2 cups, about 350 g; about 520 kcal")
    kit = replace(KIT_FACTS, per_portion=replace(KIT_FACTS.per_portion, grams=300.0))
    assert portion(kit).startswith("about 300 g before cooking; in all about 410 kcal")


def test_what_is_not_eaten_and_may_be_kept_is_not_called_thrown_away() -> None:
    sugar = replace(BAKE.ingredients[0], eaten=Fraction(3, 4))
    one = replace(BAKE_FACTS.ingredients[0], ingredient=sugar, eaten=0.75)

    def detail(facts: RecipeFacts) -> str:
        of = replace(facts, ingredients=(one,))
        return card_ingredients.ingredients(of, Fraction(1), (), edition()).groups[0].lines[0].detail

    assert detail(BAKE_FACTS).replace("\u00a0", " ").endswith("75 % of it eaten, the rest thrown away")
    syrup = replace(BAKE, gives=(line("1 cup syrup", "syrup", "1", "cup"),))
    assert detail(replace(BAKE_FACTS, recipe=syrup)).replace("\u00a0", " ").endswith("75 % of it eaten")


def test_what_is_packed_apart_has_its_days_by_eater() -> None:
    def apart(eater: str, day: int) -> Serving:
        return replace(servings()[1], eater=eater, parts=(PartKept("Oil", date(2026, 6, day), True),))

    facts = replace(BAKE_FACTS, keeps=replace(BAKE_FACTS.keeps, parts=(PartKeeps("Oil", 4, True),)))
    text = card_keeps.keeps_text(facts, edition(), [apart("Tomas", 11), apart("Bea", 9)]).replace("\u00a0", " ")
    assert "Oil apart 4 days (2 for Bea)" in text


def test_two_batches_of_one_recipe_are_two_cards() -> None:
    first = week_facts().batches[0]
    facts = week_facts(batches=(first, replace(first, id="b8", factor=Fraction(1, 2))))
    assert [p.path for p in recipe_card.pages(edition(facts=facts))] == [
        "card-squash-barley-bake", "card-squash-barley-bake-2"
    ]  # fmt: skip


def test_pieces_are_called_pieces() -> None:
    scones = replace(BAKE, portion_measure=None, makes=each(12), portion=each(1))
    facts = replace(BAKE_FACTS, portion=each(1), recipe=scones)
    batch = replace(week_facts().batches[0], facts=facts, factor=Fraction(1))
    text = words(recipe_card.pages(edition(facts=week_facts(batches=(batch,)))))
    assert "12 pieces" in text and "1 piece, about 350 g" in text


def test_a_factor_is_told_as_a_fraction_where_that_says_something() -> None:
    batch = replace(week_facts().batches[0], factor=Fraction(5, 6))
    assert "5/6 × the recipe" in recipe_card.pages(edition(facts=week_facts(batches=(batch,))))[0].subtitle
    batch = replace(batch, factor=Fraction(17, 31))
    assert "0.55 × the recipe" in recipe_card.pages(edition(facts=week_facts(batches=(batch,))))[0].subtitle


def test_a_card_says_until_when_it_must_be_cold() -> None:
    text = words(card("squash-barley-bake"))
    assert "Hot until 13:35 (Barley): cool at once" in text and "by 15:35, 41 °F / 5 °C by 19:35" in text
    assert "by itself" not in text
    assert "Reheat to 165 °F / 74 °C" in text


def test_a_kits_own_card_stops_at_the_prep_day() -> None:
    text = words(card("trout-kit"))
    assert "Cut the potatoes." in text and "Fry the trout." not in text and "butter" not in text
    assert "cooked from its kit" in text


# ---- kits ----


def test_a_kit_card_has_set_what_is_apart_and_the_hours_of_service() -> None:
    page = kit.pages(edition())[0]
    found = lines(page)
    assert list(found) == ["Set", "Stored apart: Raw, apart", "At service"]
    assert found["Stored apart: Raw, apart"] == [("2½ fillets", "", "trout", "")]
    assert table((page,), "service") == [
        ("", "18:07", "Boil the potatoes.", "15 min, unattended, burner"),
        ("", "18:22", "Fry the trout.", "8 min, burner"),
    ]  # fmt: skip
    assert "18:07, to eat at 18:30" in words(page) and "use by Thu 11 Jun" in words(page)
    assert "Raw meat and fish stay closed" in words(page)


def test_a_kit_without_steps_for_service_has_no_hour_to_begin() -> None:
    sitting = kit.sittings(edition())[0]
    assert kit.begin_at(sitting, edition()) == 18 * 60 + 7
    assert kit.begin_at(sitting, edition(facts=without("services"))) is None


# ---- run sheet ----


def test_the_table_says_time_task_and_what_goes_by_itself() -> None:
    rows = table(run_sheet.pages(edition()), "run-sheet")
    assert rows[0] == (
        "", "13:00", "1", "Simmer, covered.", "Squash and barley bake", "35 min, unattended", "burner 1"
    )  # fmt: skip
    assert rows[2][3] == "Roast. (400 °F)"
    kinds = [row.kind for row in run_sheet.table(SHEET, edition()).rows]
    assert kinds == ["now", "", "now", ""]


def test_a_row_carries_what_a_screen_needs_to_follow_the_clock() -> None:
    sheet = replace(SHEET, tasks=(*TASKS[:2], replace(TASKS[2], after=("t2",), apart_after=("t1", "gone"))))
    timing = [row.timing for row in run_sheet.table(sheet, edition()).rows][2]
    assert timing is not None
    assert (timing.id, timing.start, timing.seconds) == ("t3", TASKS[2].start, 1800)
    assert (timing.after, timing.keeps, timing.heat) == ((2, 1), ("oven 1",), "400 °F")
    assert timing.words == "Squash and barley bake: Roast"


@pytest.mark.parametrize(
    ("text", "brief"),
    [
        ("Roast.", "Roast"),
        ("Boil the farro; drain it well.", "Boil the farro"),
        ("Check 165 °F in the middle. Then rest.", "Check 165 °F in the middle"),
        ("Dice the onions, peel and cube the sweet potatoes, chop the garlic, grate the ginger.",
         "Dice the onions, peel and cube the sweet potatoes …"),
        ("Bring everything in the pot slowly to a boil while stirring it all the time.",
         "Bring everything in the pot slowly to a boil while stirring …"),
    ],
)  # fmt: skip
def test_a_step_in_brief_is_its_first_clause(text: str, brief: str) -> None:
    assert run_sheet.in_brief(text) == brief
    assert len(brief) <= run_sheet.BRIEF + 2


def test_what_is_not_proven_says_its_bound() -> None:
    assert run_sheet.in_words(SHEET, edition()).endswith("proven.")
    loose = replace(SHEET, proven=False, at_least_minutes=45)
    assert "No order can take less than 45\u00a0min" in run_sheet.in_words(loose, edition())


def test_loads_and_assumed_minutes_are_said() -> None:
    tasks = (replace(TASKS[0], load=1, loads=2, assumed_minutes=True),)
    rows = run_sheet.table(replace(SHEET, tasks=tasks), edition()).rows
    assert said(rows[0].cells[3]) == "Simmer, covered. (load 1 of 2) (minutes assumed: the recipe states none)"


def test_two_cooks_are_named() -> None:
    def uses(*tasks: Task) -> list[str]:
        return [said(row.cells[6]) for row in run_sheet.table(replace(SHEET, tasks=tasks), edition()).rows]

    other = replace(TASKS[3], uses=("cook 2", "oven 1"))
    assert uses(TASKS[1]) == ["cutting board"]
    assert uses(TASKS[1], other) == ["cook 1, cutting board", "cook 2, oven 1"]


def test_cooling_deadlines_count_from_the_first_part_that_comes_off_the_heat_for_good() -> None:
    """The barley is off the heat 13:35, the squash 13:40; both are folded together 13:40 to 13:48."""
    assert table(run_sheet.pages(edition()), "cooling") == [
        ("", "Squash and barley bake (Barley)", "13:35", "14:35", "15:35", "19:35")
    ]


def cooled(*tasks: Task) -> cooling.Deadline:
    (found,) = cooling.deadlines(replace(SHEET, tasks=tasks), edition())
    return found


def test_a_part_that_is_hot_again_counts_from_its_last_hot_step() -> None:
    simmer, cube, roast, fold = TASKS
    again = replace(simmer, id="t5", start=roast.finish, finish=roast.finish + timedelta(minutes=9))
    found = cooled(simmer, cube, roast, again, replace(fold, start=again.finish, finish=again.finish))
    assert (found.part, found.hot_until) == ("Squash", roast.finish)
    pot = replace(fold, uses=("cook 1", "burner 2"))
    assert cooled(simmer, cube, roast, pot) == cooling.Deadline("squash-barley-bake", "b1", fold.finish)
    # What only cools down after the pot does not begin the count anew.
    rest = replace(fold, id="t6", start=pot.finish, finish=pot.finish + timedelta(minutes=30))
    assert cooled(simmer, cube, roast, pot, rest).hot_until == fold.finish
    alone = tuple(replace(task, part=None) for task in (simmer, roast))
    assert (cooled(*alone).part, cooled(*alone).hot_until) == (None, roast.finish)


@pytest.mark.parametrize(("packed", "said"), [(120, False), (121, True)])
def test_a_part_that_waits_longer_than_two_hours_for_the_dish_is_cooled_by_itself(packed: int, said: bool) -> None:
    """FDA Food Code 3-501.14: to 70 °F within 2 h, counted for the barley from its own last hot step."""
    barley, cube, roast, fold = TASKS
    fold = replace(fold, finish=barley.finish + timedelta(minutes=packed))
    facts = week_facts(run_sheets=(replace(SHEET, tasks=(barley, cube, roast, fold)),))
    line = "Barley: off the heat 13:35; spread it thin and put it in the refrigerator by itself until it is folded in."
    pages = run_sheet.pages(edition(facts=facts))
    assert (line in words(pages[0])) == said and "Squash: off" not in words(pages[0])
    at_once = next(p for p in recipe_card.pages(edition(facts=facts)) if p.path == "card-squash-barley-bake")
    assert (line in words(at_once)) == said


def test_cooling_limits_are_the_published_ones() -> None:
    assert [limit.within_minutes for limit in temperatures.COOLING] == [
        cooling.FIRST_LIMIT.total_seconds() / 60, cooling.SECOND_LIMIT.total_seconds() / 60,
    ]  # fmt: skip


def test_what_keeps_in_a_cupboard_has_no_cooling_deadline() -> None:
    dry = tuple(replace(s, kept="cupboard") for s in servings())
    assert cooling.deadlines(SHEET, edition(facts=week_facts(servings=dry))) == ()
    assert cooling.piece_kind("pressure cooker 2") == "pressure cooker"


# ---- what a card says of cans, and of numbers in its steps ----


def one_line(written: Ingredient, grams: float, purchased: float, **household: str) -> IngredientLine:
    weight = point(grams)
    facts = replace(ingredient_facts(written, grams), grams=weight, as_purchased_grams=point(purchased))
    return line_of(facts, Fraction(1), edition(**household))


BEANS = replace(
    line("2 (15 oz) cans white beans, drained", "canned white beans", "2", "can"),
    pack=measure("15", "oz"), preparation="drained", as_purchased=True,
)  # fmt: skip


def test_a_can_that_is_drained_has_one_weight_and_says_which() -> None:
    """850 g with the liquid; 60 % of it is eaten."""
    said = one_line(BEANS, 510, 850, measures="both")
    assert said.second.replace("\u00a0", " ") == "510 g drained"
    assert said.detail.replace("\u00a0", " ") == "drained, 15 oz each with the liquid"


def test_beans_counted_in_cans_are_not_called_canned_once_more() -> None:
    assert (one_line(BEANS, 510, 850).quantity.replace("\u00a0", " "), one_line(BEANS, 510, 850).food) == (
        "2 cans", "white beans",
    )  # fmt: skip
    loose = line("400 g canned white beans", "canned white beans", "400", "g")
    assert one_line(loose, 400, 400).food == "canned white beans"


def test_a_metric_household_reads_the_can_in_grams() -> None:
    detail = one_line(BEANS, 510, 850, measures="metric").detail.replace("\u00a0", " ")
    assert detail == "drained, 425 g each with the liquid"


def test_what_is_written_as_purchased_weighs_as_purchased() -> None:
    root = replace(line("2 lb squash, as purchased", "squash", "2", "lb"), as_purchased=True)
    root = replace(root, flags=frozenset({"as purchased"}))
    said = one_line(root, 760, 907, measures="metric")
    assert (said.quantity.replace("\u00a0", " "), said.detail) == ("907 g", "as purchased")


WRITTEN = "Numbers in the steps are for the recipe's own size."


@pytest.mark.parametrize(
    ("text", "counted"),
    [
        ("Mix all, roll 24 balls.", True), ("Shape into twelve small patties.", True), ("Add 2 cups of broth.", True),
        ("Simmer 25 min.", False), ("Heat to 165 °F.", False), ("Roll out 1/2 in thick.", False),
        ("Cut each into 4 wedges and 2 slices.", False), ("Fill 2-cup jars.", False), ("Bake at 400 °F.", False),
        ("Wait 5 minutes. Cut into 12 bars.", True),
    ],
)  # fmt: skip
def test_numbers_that_grow_with_the_batch_are_told_from_those_that_stay(text: str, counted: bool) -> None:
    assert edition().words.counts_in(text) is counted


def test_a_card_at_another_size_says_once_that_its_numbers_are_the_written_ones() -> None:
    rolled = step("Mix all, roll 24 balls.", None, 20)
    for factor, times in ((Fraction(5, 4), 1), (Fraction(1), 0)):
        assert len(card_steps.written_size((rolled, rolled), factor, edition())) == times
    assert not card_steps.written_size((step("Simmer 25 min.", None, 25),), Fraction(2), edition())
    facts = replace(BAKE_FACTS, recipe=replace(BAKE, prep=(rolled, rolled)))
    blocks = card_steps.steps(facts, Fraction(2), None, Fraction(16), edition())
    assert [said(b.text) for b in blocks if isinstance(b, Para)] == [WRITTEN]
