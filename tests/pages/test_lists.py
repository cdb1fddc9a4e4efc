"""Shopping, mise en place, packing, carrying, pulling: the lists that are ticked."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction
from typing import Any

from binder.model.quantity import Amount, exactly, point
from binder.pages import carrying, keeping, mise_en_place, notes, packing, reheating, shopping
from binder.pages.page import Bullets, Check, Drawing, Para
from binder.reckon.facts import (
    BoughtIn,
    Costs,
    MiseRow,
    MiseShare,
    PackCount,
    PackedFor,
    PartKept,
    ShoppingRow,
    Task,
    UseFirst,
)

from .fixture import MONDAY, SESSION, each, measure
from .fixture_week import FRIDAY, SHEET, TUESDAY, edition, servings, task, week_facts
from .fixture_week import shopping as rows
from .reading import of_kind, said, table, words

WEDNESDAY = date(2026, 6, 10)


def spoons(count: int) -> Amount:
    return exactly(Fraction("14.7868") * count, "mL")


def test_shopping_by_aisle_with_packs_and_what_is_left_over() -> None:
    found = table(shopping.pages(edition()), "shopping")
    assert found[0] == ("Produce",)
    assert found[1] == ("", "Butternut squash", "2 × 600 g", "1.5 kg", "400 g", "100 g", "$4.20")
    assert found[2] == ("", "Onion", "4", "4", "–", "–", "not known")
    assert found[-1] == ("", "To pay", "", "", "", "", "at least $4.20")


def test_with_all_prices_the_total_is_the_total() -> None:
    whole = Costs(Fraction(5), week_facts().cost.per_portion, Fraction("4.2"), "USD", False)
    assert table(shopping.pages(edition(facts=week_facts(cost=whole))), "shopping")[-1][-1] == "$4.20"


def test_what_is_on_hand_is_not_bought_but_looked_for() -> None:
    checks = of_kind(shopping.pages(edition()), Check)
    assert [(said(c.text), said(c.note)) for c in checks] == [("Pearled barley", "13 oz")]


def test_what_is_used_by_the_spoon_is_told_by_the_spoon() -> None:
    cumin = replace(rows()[2], food="cumin", need=exactly(7, "g"), written=(measure("5/4", "tsp"), measure("2", "tsp")))
    checks = of_kind(shopping.pages(edition(facts=week_facts(shopping=(cumin,)))), Check)
    assert [said(c.note) for c in checks] == ["1 tbsp + ¼ tsp"]


def test_what_is_sold_singly_is_counted() -> None:
    cucumber = replace(rows()[1], sizes=(PackCount(each(1), 3, None),))
    assert shopping.to_buy(cucumber, edition()) == "3"
    assert shopping.to_buy(replace(cucumber, sizes=(PackCount(each(6), 3, None),)), edition()) == "3\u00a0×\u00a06"


def test_several_pack_sizes_are_added_up() -> None:
    sizes = (PackCount(exactly(450, "g"), 1, None), PackCount(exactly(200, "g"), 2, None))
    row = replace(rows()[0], sizes=sizes)
    assert shopping.to_buy(row, edition()).replace("\u00a0", " ") == "1 × 450 g + 2 × 200 g"


def beans(**more: Any) -> ShoppingRow:
    """2½ cans of 15 oz, 425.24 g: one more is opened than is used up."""
    holds = Fraction(45359237, 1600000) * 15
    need = exactly(holds * Fraction(5, 2), "g")
    can = BoughtIn("can", measure("15", "oz"), holds)
    nothing = exactly(0, "g")
    return ShoppingRow(
        "canned white beans", "tins and jars", need, nothing, need, None, None, (), need, nothing, None, (),
        written=(measure("5/2", "can"),), container=can, **more,
    )  # fmt: skip


def test_what_is_written_in_cans_is_bought_in_cans() -> None:
    of = [cell for row in table(shopping.pages(edition(facts=week_facts(shopping=(beans(),)))), "shopping")
          for cell in row]  # fmt: skip
    assert [text.replace("\u00a0", " ") for text in of[2:6]] == ["Canned white beans", "3 × 15 oz cans", "2½ cans", "–"]
    assert of[6].replace("\u00a0", " ") == "½ can"
    metric = edition(measures="metric")
    assert shopping.to_buy(beans(), metric).replace("\u00a0", " ") == "3 × 425 g cans"


def test_what_is_bought_by_the_bunch_says_so_and_is_bought_whole() -> None:
    need = each(Fraction(5, 4))
    kale = replace(rows()[1], food="kale", need=need, buy=need, bought=each(2), left_over=each(Fraction(3, 4)))
    kale = replace(kale, written=(measure("3/4", "bunch"), measure("1/2", "bunch")))
    found = table(shopping.pages(edition(facts=week_facts(shopping=(kale,)))), "shopping")[1]
    assert [text.replace("\u00a0", " ") for text in found[2:6]] == ["2 bunches", "1¼ bunches", "–", "¾ bunch"]


def test_in_the_house_a_metric_household_reads_no_cups() -> None:
    almonds = replace(rows()[2], food="almonds", need=exactly(72, "g"), written=(measure("1/2", "cup"),))
    salt = replace(almonds, food="salt", need=exactly(3, "g"), written=(measure("1/2", "tsp"),))
    for measures, told in (("metric", ["72 g", "½ tsp"]), ("us", ["½ cup", "½ tsp"])):
        of = edition(facts=week_facts(shopping=(almonds, salt)), measures=measures)
        assert [said(c.note).replace("\u00a0", " ") for c in of_kind(shopping.pages(of), Check)] == told


def test_drained_beans_are_weighed_without_their_liquid() -> None:
    share = MiseShare("squash-barley-bake", exactly(638, "g"), point(383))
    row = MiseRow(
        "canned white beans", "drained", exactly(638, "g"), point(638), (share,), SESSION, (measure("3/2", "can"),),
        drained=point(383),
    )  # fmt: skip
    metric = edition(measures="metric")
    assert mise_en_place.how_much(row, metric).replace("\u00a0", " ") == "1½ cans (383 g drained)"
    (check,) = mise_en_place.by_dish([row], metric)
    assert said(check.text).replace("\u00a0", " ").endswith("1½ cans (383 g drained) white beans (drained)")


def test_use_first_says_that_its_amount_is_what_is_left() -> None:
    left = UseFirst("plain yogurt", None, exactly(47, "g"), "fridge", FRIDAY, "opened 2026-06-01",
                    dishes=("trout-kit",), taken=exactly(153, "g"))  # fmt: skip
    text = words(keeping.pull_pages(edition(facts=week_facts(use_first=(left,)), measures="metric")))
    text = text.replace("\u00a0", " ")
    assert "this is left after this week's dishes, which take 153 g; the rest would go into Trout" in text


def test_aisles_are_in_walking_order_and_unknown_ones_last() -> None:
    some = [replace(rows()[0], aisle=a) for a in ("own aisle", "frozen", "produce")]
    assert shopping.aisles(some, edition()) == ("produce", "frozen", "own aisle")


def test_nothing_to_buy_says_so() -> None:
    text = words(shopping.pages(edition(facts=week_facts(shopping=(rows()[2],)))))
    assert "Nothing to buy" in text


def test_mise_en_place_says_each_food_once_with_its_split() -> None:
    assert table(mise_en_place.pages(edition()), "mise") == [
        ("", "3", "Onions", "diced", "Squash and barley bake 2 · Lentil stew 1"),
    ]


def test_a_split_has_one_system_where_ounces_only_come_about() -> None:
    """75 g are 2.65 oz: no quarter of an ounce comes within 3 %, so all shares of the line are in grams."""
    shares = tuple(
        MiseShare("squash-barley-bake" if n else "trout-kit", exactly(g, "g")) for n, g in ((0, 75), (1, 156))
    )
    row = MiseRow("baby spinach", "", exactly(231, "g"), None, shares, SESSION)
    assert mise_en_place.split(row, edition()).replace("\u00a0", " ") == "Trout 75 g · Squash and barley bake 156 g"
    near = replace(row, for_=(MiseShare("trout-kit", exactly(142, "g")), shares[1]))
    assert mise_en_place.split(near, edition()).replace("\u00a0", " ").startswith("Trout 5 oz · ")


def test_what_is_only_measured_out_stands_by_dish() -> None:
    spoon = measure("1", "tbsp")
    oil = MiseRow("olive oil", "", spoons(2), None, (
        MiseShare("squash-barley-bake", spoons(1)), MiseShare("trout-kit", spoons(1)),
    ), SESSION, (spoon.times(Fraction(2)),))  # fmt: skip
    barley = MiseRow(
        "pearled barley", "dry", exactly(375, "g"), None, (MiseShare("squash-barley-bake", None),), SESSION
    )
    squash = MiseRow("butternut squash", "", exactly(900, "g"), None, (MiseShare("squash-barley-bake", None),), SESSION)
    pages = mise_en_place.pages(edition(facts=week_facts(mise_en_place=(oil, barley, squash))))
    assert [said(c.text).lower() for c in of_kind(pages, Check)] == [
        "squash and barley bake: 1 tbsp olive oil, 13 oz pearled barley (dry)", "trout: 1 tbsp olive oil",
    ]  # fmt: skip
    assert [row[2] for row in table(pages, "mise")] == ["Butternut squash"]
    assert "In all: olive oil 2 tbsp." in words(pages)


def test_cups_and_spoons_of_one_food_are_told_by_their_sum() -> None:
    row = replace(
        week_facts().mise_en_place[0], amount=exactly(Fraction("29.57353"), "mL"), grams=None,
        measures=(measure("1", "tbsp"), measure("3", "tsp")),
    )  # fmt: skip
    assert mise_en_place.how_much(row, edition()).replace("\u00a0", " ") == "2 tbsp"


def said_of_raw(*tasks: Task) -> str:
    """What stands over raw meat and fish, and the note on top, where the run sheet has these tasks."""
    beef = replace(week_facts().mise_en_place[0], care="raw", session=SESSION)
    facts = week_facts(mise_en_place=(beef,), run_sheets=(replace(SHEET, tasks=tasks),))
    return words(mise_en_place.pages(edition(facts=facts))[0])


def test_mise_en_place_says_of_raw_meat_what_is_true_of_the_run_sheet() -> None:
    trim = task("m1", "Trim the beef.", "Beef", 30, 40, True, "cook 1", "cutting board 2", raw=True)
    slice_ = task("m2", "Slice.", "Leeks", 0, 10, True, "cook 1", "cutting board 1")
    brown = replace(task("m3", "Pull it apart.", "Beef", 50, 60, True, "cook 1"), after=("m1",))
    stir = task("m4", "Stir.", "Soup", 45, 50, True, "cook 1", "burner 1")
    assert "After all of the above, on its own board: raw meat" in said_of_raw(slice_, trim, stir, brown)
    on_one = replace(slice_, uses=("cook 1", "cutting board 2"))
    said_ = said_of_raw(on_one, trim)
    assert "After all of the above: raw meat and fish. Then wash board" in said_ and "own board" not in said_
    later = replace(slice_, start=trim.finish, finish=trim.finish + timedelta(minutes=10))
    said_ = said_of_raw(trim, later)
    assert "When the run sheet says, on its own board: raw meat" in said_ and "as far as the run sheet" in said_
    said_ = said_of_raw(trim, replace(later, uses=on_one.uses))
    assert "When the run sheet says: raw meat" in said_ and "own board" not in said_ and "After all" not in said_


def test_mise_en_place_gives_weights_to_who_reads_metric() -> None:
    assert table(mise_en_place.pages(edition(measures="both")), "mise")[0][1] == "3 (330 g)"


def test_packing_has_a_line_for_each_eater_and_weight() -> None:
    found = table(packing.pages(edition()), "packing")
    assert found == [
        ("Squash and barley bake – 2 × deep tub, in the refrigerator, until Thu 11 Jun, empty 80 g",),
        ("", "", "Ilka", "350 g", "1/10", "Mon, lunch", "survey van"),
        ("", "", "Tomas", "350 g", "1/10", "Mon, lunch", "ward"),
        ("Squash and barley bake – 1 × deep tub, surplus, in the freezer, empty 80 g",),
        ("", "", "surplus", "350 g", "", "any day", ""),
    ]


def test_boxes_whose_last_days_differ_by_caution_say_whose_is_which() -> None:
    """As their labels do: Bea's caution is strict, so that her box has a day less."""
    strict = replace(servings()[1], id="s9", eater="Bea", use_by=WEDNESDAY)
    row = replace(week_facts().packing[0], count=3, servings=("s1", "s2", "s9"))
    facts = week_facts(servings=(*servings(), strict), packing=(row,))
    head = table(packing.pages(edition(facts=facts)), "packing")[0][0]
    assert head.endswith("3 × deep tub, refrigerator, until Thu 11 Jun (Bea Wed 10), empty 80 g")


def test_of_as_many_boxes_with_either_day_the_head_has_the_earlier() -> None:
    strict = replace(servings()[1], id="s9", eater="Bea", use_by=WEDNESDAY)
    row = replace(week_facts().packing[0], servings=("s2", "s9"))
    facts = week_facts(servings=(*servings(), strict), packing=(row,))
    assert "until Wed 10 Jun (Tomas Thu 11)" in table(packing.pages(edition(facts=facts)), "packing")[0][0]


def test_containers_that_say_the_same_are_one_line_with_a_box_for_each() -> None:
    mine = servings()[1]
    days = (MONDAY, TUESDAY, WEDNESDAY, FRIDAY)
    four = tuple(replace(mine, id=f"x{n}", date=on) for n, on in enumerate(days))
    row = replace(week_facts().packing[0], count=4, servings=tuple(s.id for s in four))
    grid = packing.grid((row,), edition(facts=week_facts(servings=four, packing=(row,))))
    assert [said(cell) for cell in grid.rows[1].cells[2:6]] == ["Tomas", "4 × 350 g", "1/10", "Mon–Wed, Fri, lunch"]
    assert [r.ticks for r in grid.rows] == [1, 4]
    half = replace(four[3], portions=Fraction(1, 2))
    apart = packing.grid((row,), edition(facts=week_facts(servings=(*four[:3], half), packing=(row,))))
    assert [r.ticks for r in apart.rows] == [1, 3, 1]


def test_a_kit_is_not_shared_by_the_weight_of_its_batch() -> None:
    kit = replace(week_facts().packing[0], recipe="trout-kit", what="set", servings=(), count=1)
    pages = packing.pages(edition(facts=week_facts(packing=(kit,))))
    assert "Weigh and share" not in words(pages) and "kit set" in words(pages)


def test_the_real_batch_is_weighed_and_shared() -> None:
    found = table(packing.pages(edition()), "weigh")
    assert found == [("Squash and barley bake", "________ g", "3.5 kg", "1/10", "350 g")]


def test_a_group_of_many_lines_goes_on_under_its_head() -> None:
    """Ten eaters of one batch: eight lines under the first head, two under the same head once more."""
    first = week_facts().packing[0]
    many = replace(first, count=10, servings=(), for_=tuple(PackedFor(f"Eater {n}", MONDAY) for n in range(10)))
    found = table(packing.pages(edition(facts=week_facts(packing=(many,)))), "packing")
    heads = [n for n, row in enumerate(found) if len(row) == 1]
    assert heads == [0, 9] and len(found) == 12
    assert found[9] == ("Squash and barley bake – continued",)


def test_packing_without_a_weight_gives_portions() -> None:
    row = replace(week_facts().packing[0], grams_each=None)
    assert table(packing.pages(edition(facts=week_facts(packing=(row,)))), "packing")[1][3] == "1 portion"


def test_reheating_by_place_says_where_a_time_comes_from() -> None:
    text = words(reheating.pages(edition()))
    assert "Microwave 700 W, 3 min 35 s, covered" in text
    assert "worked out from 1000 W, 2 min 30 s; an estimate" in text
    assert "Eat cold" in text and "Has: microwave 700 W" in text


def test_what_is_not_heated_is_a_line_and_not_a_row() -> None:
    pages = reheating.pages(edition())
    assert [row[0] for row in table(pages, "reheating")] == ["Squash and barley bake"]
    lines = [said(p.text) for p in of_kind(pages, Para)]
    assert "Cooked from its kit: see the kit card: Trout (Ilka, Tomas and Bea)." in lines
    assert "Eaten as it is: Lentil stew (Tomas), Seed scones (Bea)." in lines
    assert "Eat cold: Squash and barley bake (Ilka)." in lines


def test_carrying_is_ticked_at_the_door() -> None:
    checks = of_kind(carrying.pages(edition()), Check)
    assert [(said(c.text), said(c.note)) for c in checks] == [
        ("Squash and barley bake", "refrigerator"),
        ("Tahini", "1½ tsp, cupboard"),
    ]
    assert "two cold packs" in words(carrying.pages(edition()))


def test_pull_list_says_evening_way_and_way_out() -> None:
    pages = keeping.pull_pages(edition())
    assert table(pages, "pull") == [
        ("", "Thu 11 Jun", "Squash and barley bake", "1 portion", "freezer to refrigerator", "Tomas, Fri 12 Jun")
    ]
    bullets = [said(item) for one in of_kind(pages, Bullets) for item in one.items]
    out = next(line for line in bullets if line.startswith("Squash and barley bake, Tomas"))
    assert out == (
        "Squash and barley bake, Tomas, Fri 12 Jun: Heat from frozen, microwave 700 W, 5 min 25 s, covered at ward, to "
        "165 °F / 74 °C in the middle; or cold water, about 1 h, then at once; or eat Lentil stew today, meant for "
        "Sat 13 Jun, this one once it has thawed."
    )


def test_keeping_notes_give_the_days_that_were_used_by_rule_set_and_the_part_packed_apart() -> None:
    first, *rest = servings()
    apart = (PartKept("Dressing", date(2026, 6, 9), True), PartKept("Grain", date(2026, 6, 11), False))
    strict = replace(first, caution="strict", keeps_days=3, use_by=date(2026, 6, 10), parts=apart)
    found = table(keeping.note_pages(edition(facts=week_facts(servings=(strict, *rest)))), "keeping")
    assert found[0][2:4] == (
        "Wed 10 Jun; Thu 11 Jun; Mon 15 Jun once pulled; Dressing apart Tue 9 Jun", "4 days; 3 days strict",
    )  # fmt: skip


def test_pulls_of_one_dish_for_several_eaters_are_one_line() -> None:
    first = week_facts().pull_list[0]
    both = (first, replace(first, eater="Bea"), replace(first, eater="Ilka", date=date(2026, 6, 13)))
    rows_ = table(keeping.pull_pages(edition(facts=week_facts(pull_list=both))), "pull")
    assert [row[3:] for row in rows_] == [
        ("3 portions", "freezer to refrigerator", "Tomas and Bea, Fri 12 Jun; Ilka, Sat 13 Jun")
    ]


def test_use_first_list() -> None:
    found = table(keeping.pull_pages(edition()), "use-first")
    assert found == [("", "Ricotta", "9 oz", "refrigerator", "Thu 11 Jun", "opened 3 June")]
    dish = replace(week_facts().use_first[0], food=None, recipe="lentil-stew", amount=each(2), use_by=None)
    found = table(keeping.pull_pages(edition(facts=week_facts(use_first=(dish,)))), "use-first")
    assert found == [("", "Lentil stew", "2 portions", "refrigerator", "not known", "opened 3 June")]


def test_keeping_notes_give_rule_source_and_rule_set() -> None:
    pages = keeping.note_pages(edition())
    found = table(pages, "keeping")
    assert found[0] == (
        "Squash and barley bake", "Sun 7 Jun", "Thu 11 Jun; Mon 15 Jun once pulled", "4 days", "90 days", "1",
    )  # fmt: skip
    rules = next(b for b in of_kind(pages, Bullets) if b.ordered)
    assert [said(rule) for rule in rules.items] == ["4 days after the day made (usual; Cold Food Storage Chart)"]
    assert "poultry 165 °F / 74 °C" in words(pages) and "Egg dishes to 160 °F / 71 °C" in words(pages)
    assert "Strict for Bea." in words(pages)
    drawing = of_kind(pages, Drawing)[0]
    assert "Squash and barley bake (Tomas) frozen, pulled Thu 11 Jun, last day Mon 15 Jun" in drawing.alt


def test_how_it_went_asks_what_closing_the_week_asks() -> None:
    text = words(notes.pages(edition()))
    for asked in (
        "Planned",
        "Made",
        "Eaten",
        "Left",
        "Frozen",
        "Thrown away, and why",
        "Time it took",
        "For next time",
    ):
        assert asked in text, asked
    assert table(notes.pages(edition()), "how-it-went")[1][:2] == ("Squash and barley bake", "10 portions")
