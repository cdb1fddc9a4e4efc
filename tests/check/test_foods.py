"""The household's own foods: pack first, then the row behind it, then the everyday food of the name."""

from fractions import Fraction

import pytest

from binder.model.food import NUTRIENTS, Basis, Food, TallyStep
from binder.model.quantity import Interval, exactly
from binder.tables import composition

from .kitchen import checked, library


def food(text: str) -> Food:
    (made,) = library({"foods.yaml": text, "household.yaml": PLAIN}).foods
    return made


PLAIN = "household: x\neaters: [{name: Ana}, {name: Rui}]\ncontainers: [{name: tub, have: 1}]\n"
SCALE = "{1 cup: 60 g, 1 each: 5 g}"
EU = PLAIN + "allergen list: eu\n"
LABEL = (
    "{serving: 30 g, energy: 120 kcal, protein: 4 g, fat: 4 g, saturated fat: 0.5 g, carbohydrate: 17 g, "
    "fibre: 3 g, sugars: 0 g, sodium: 180 mg}"
)


def figures(of: Food) -> dict[str, float | None]:
    return dict(zip(NUTRIENTS, of.per_100_g, strict=True))


def test_label_is_worked_out_for_100_g() -> None:
    made = figures(food(f"- {{name: rusks of mine, label: {LABEL}}}"))
    assert made["energy_kcal"] == 400.0
    assert made["sodium_mg"] == 600.0
    assert made["sugars_g"] == 0.0
    assert made["calcium_mg"] is None


def test_a_label_s_figures_keep_what_it_rounded_from() -> None:
    made = food(f'- {{name: rusks of mine, label: {LABEL}, like: "Crackers, whole-wheat"}}')
    before = dict(zip(NUTRIENTS, made.before_rounding, strict=True))
    # 21 CFR 101.9(c): 120 kcal stand for 115 to 125, 0 g for less than 0.5 g; a serving is 30 g.
    assert before["energy_kcal"] == Interval(pytest.approx(115 / 0.3), pytest.approx(125 / 0.3))
    assert before["sugars_g"] == Interval(0, pytest.approx(0.5 / 0.3))
    assert before["calcium_mg"] is None and made.per_100_g[NUTRIENTS.index("calcium_mg")] is not None
    assert figures(made)["energy_kcal"] == 400.0  # the figure itself is never moved


def test_a_food_without_a_label_was_not_rounded() -> None:
    assert set(food('- {name: rusks of mine, like: "Crackers, whole-wheat"}').before_rounding) == {None}


def test_like_fills_what_the_label_lacks() -> None:
    made = food(f'- {{name: rusks of mine, label: {LABEL}, like: "Crackers, whole-wheat"}}')
    row = composition.named("Crackers, whole-wheat")
    assert row is not None
    calcium = NUTRIENTS.index("calcium_mg")
    assert made.per_100_g[calcium] == row.per_100_g[calcium]
    assert figures(made)["energy_kcal"] == 400.0
    assert made.figures_from == f"label; potassium, calcium, iron from {row.source}, {row.name}"
    assert (made.basis, made.row) == (Basis("household", "rusks of mine"), row.ndb)


def test_like_alone_gives_figures_but_no_allergen_record() -> None:
    made = food('- {name: rusks of mine, like: "Crackers, whole-wheat"}')
    assert figures(made)["energy_kcal"] is not None
    assert made.contains is None


@pytest.mark.parametrize(
    ("serving", "energy"),
    [
        ("1 cup", 200.0),  # 120 kcal in 60 g
        ("2 each", 1200.0),  # 120 kcal in 10 g
        ("236.5882365 mL", 200.0),  # a US cup, by its volume
    ],
)
def test_serving_is_weighed_on_the_household_s_scale(serving: str, energy: float) -> None:
    text = f"- {{name: rusks of mine, label: {{serving: {serving}, energy: 120 kcal}}, weights: {SCALE}}}"
    made = figures(food(text))["energy_kcal"]
    assert made is not None
    assert abs(made - energy) < 1e-9 * energy


def test_serving_without_weight_leaves_figures_unknown() -> None:
    result = checked({"foods.yaml": "- {name: rusks of mine, label: {serving: 1 each, energy: 120 kcal}}"})
    assert [one.code for one in result.problems] == ["no-weight"]
    assert result.library is not None
    assert set(result.library.foods[0].per_100_g) == {None}


def test_salt_counts_as_sodium() -> None:
    # Salt = sodium x 2.5 (Regulation (EU) 1169/2011, Annex I).
    assert figures(food("- {name: rusks of mine, label: {serving: 100 g, salt: 1.5 g}}"))["sodium_mg"] == 600.0


def test_kilojoules() -> None:
    made = figures(food("- {name: rusks of mine, label: {serving: 100 g, energy: 1673.6 kJ}}"))
    assert made["energy_kcal"] == 400.0  # 1 kcal = 4.184 kJ


def test_scale_gives_the_weight_of_one() -> None:
    made = food("- {name: rusks of mine, weights: {2 tbsp: 30 g, 1 medium: 20 g, 1 cup crushed: 80 g}}")
    assert [(one.unit, one.form, one.size, one.grams) for one in made.weights] == [
        ("tbsp", "", "", 15.0),
        ("each", "", "medium", 20.0),
        ("cup", "crushed", "", 80.0),
    ]


def test_contains_is_a_record_also_when_empty() -> None:
    assert food("- {name: rusks of mine, contains: []}").contains == ()
    assert food("- {name: rusks of mine}").contains is None


def test_allergen_words_come_in_the_words_of_the_list() -> None:
    made = food("- {name: rusks of mine, contains: [dairy, almonds], may contain: [soya]}")
    assert made.contains == ("milk", "tree nuts (almonds)")
    assert made.may_contain == ("soybeans",)
    assert made.contains_other == ("milk", "nuts (almonds)")


def test_eu_household_takes_eu_words() -> None:
    made = library({"foods.yaml": "- {name: rusks of mine, contains: [wheat, celery]}", "household.yaml": EU}).foods[0]
    assert made.contains == ("cereals containing gluten (wheat)", "celery")


def test_unreadable_record_is_not_a_record() -> None:
    result = checked({"foods.yaml": "- {name: rusks of mine, contains: [wheat, pollen]}"})
    assert result.library is not None
    assert result.library.foods[0].contains is None


def test_food_of_an_everyday_name_takes_the_rest_from_it() -> None:
    made = food("- {name: onions, packs: [{size: 1 kg, price: 2.40}]}")
    assert made.name == "onions"
    assert figures(made)["energy_kcal"] is not None
    assert (made.contains, made.aisle) == ((), "produce")
    assert 0 < made.edible_share < 1
    assert made.packs[0].price == Fraction(12, 5)
    assert made.packs[0].size == exactly(1000, "g")
    assert "read the pack" in made.allergens_from


def test_own_yield_comes_before_the_table() -> None:
    assert food("- {name: onions, yield: 75 %}").edible_share == Fraction(3, 4)


def test_tallies_are_sorted_steps() -> None:
    made = food("- {name: rusks of mine, tallies: {vegetables: {60 g: 1, 30 g: 0}}}")
    assert made.tallies["vegetables"] == (
        TallyStep(exactly(30, "g"), Fraction(0)),
        TallyStep(exactly(60, "g"), Fraction(1)),
    )


def test_opened_days_are_the_shorter_end() -> None:
    assert food("- {name: rusks of mine, once opened: 1-2 weeks}").once_opened_days == 7


def label(serving: str) -> list[str]:
    return [one.code for one in checked({"foods.yaml": f"- {{name: rusks of mine, label: {serving}}}"}).problems]


# Labels whose energy is honest by one of the rules: 21 CFR 101.9(c)(1)(i), Regulation (EU) 1169/2011 Annex XIV.
HONEST = [
    LABEL,
    "{serving: 100 g, energy: 40 kcal, protein: 0 g, fat: 0 g, carbohydrate: 40 g, fibre: 35 g}",  # fibre at 0 to 2
    "{serving: 5 g, energy: 20 kcal, protein: 1 g, fat: 0 g, carbohydrate: 3 g}",  # rounded
    "{serving: 5 g, energy: 0 kcal, protein: 0 g, fat: 0 g, carbohydrate: 1 g}",  # under 5 is 0
    "{serving: 14 g, energy: 120 kcal, protein: 0 g, fat: 14 g, carbohydrate: 0 g}",
    "{serving: 100 g, energy: 500 kJ, protein: 8 g, fat: 1 g, carbohydrate: 20 g}",
    "{serving: 30 g, energy: 500 kcal, protein: 4 g}",  # nothing to check against
]


@pytest.mark.parametrize("serving", HONEST)
def test_honest_label_is_not_doubted(serving: str) -> None:
    assert label(serving) == []


@pytest.mark.parametrize("energy", ["155 kcal", "80 kcal", "120 kJ"])
def test_label_that_is_off_by_more_than_a_fifth_is_doubted(energy: str) -> None:
    # 4 x 4 + 9 x 4 + 4 x 17 = 120 kcal; without its fibre 108.
    assert label(LABEL.replace("120 kcal", energy)) == ["energy-unlikely"]


def test_no_foods_at_all() -> None:
    assert library({"foods.yaml": "", "household.yaml": PLAIN}).foods == ()
    assert checked(without="foods.yaml").problems == ()
