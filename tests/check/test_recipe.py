"""What a recipe file means."""

from fractions import Fraction

import pytest

from binder.model.food import Keeping
from binder.model.quantity import Amount, Measure, exactly
from binder.model.recipe import Recipe, Use
from binder.tables import keeping

from .kitchen import HOUSEHOLD, STEW, checked, library

CUP_ML = Fraction(473176473, 2000000)  # NIST Handbook 44, Appendix C, by definition


def recipe(front: str, body: str = "", household: str = HOUSEHOLD) -> Recipe:
    text = f"---\ntitle: Dish\n{front}\n---\n{body}"
    return library({"recipes/dish.md": text, "household.yaml": household}).recipes["dish"]


def plain(lines: str) -> Recipe:
    return recipe(f"makes: 2 portions\ningredients: [1 onion]\n{lines}")


@pytest.mark.parametrize(
    ("size", "portions", "makes", "portion"),
    [
        ("makes: 8 portions", Fraction(8), None, None),
        ("makes: 8 portions\nportion: 2 cup", Fraction(8), None, exactly(2 * CUP_ML, "mL")),
        ("makes: 3 cups", Fraction(1), exactly(3 * CUP_ML, "mL"), None),
        ("makes: 3 cups\nportion: 1/2 cup", Fraction(6), exactly(3 * CUP_ML, "mL"), exactly(CUP_ML / 2, "mL")),
        ("makes: 600 g", Fraction(1), exactly(600, "g"), None),
        ("makes: 1 kg\nportion: 150 g", Fraction(20, 3), exactly(1000, "g"), exactly(150, "g")),
        ("makes: 24 each", Fraction(24), exactly(24, "each"), None),
        ("makes: 24 each\nportion: 2 each", Fraction(12), exactly(24, "each"), exactly(2, "each")),
    ],
)
def test_portions(size: str, portions: Fraction, makes: Amount | None, portion: Amount | None) -> None:
    made = recipe(f"{size}\ningredients: [1 onion]")
    assert (made.portions, made.makes, made.portion) == (portions, makes, portion)


def test_portion_measure_is_kept_as_written() -> None:
    made = recipe("makes: 8 portions\nportion: 2 cups\ningredients: [1 onion]")
    assert made.portion_measure == Measure(Fraction(2), Fraction(2), "cup")
    assert made.makes_text == "8 portions"


def test_a_short_name_is_optional() -> None:
    assert plain("short: Stew").short == "Stew" and plain("").short == ""


def test_recipe_that_does_not_say_what_it_makes_is_left_out() -> None:
    result = checked({"recipes/bean-stew.md": STEW.replace("makes: 4 portions\n", "")})
    assert {one.code for one in result.problems} == {"missing-key"}
    assert result.library is not None
    assert "bean-stew" not in result.library.recipes
    assert result.library.weeks["2026-W24"].meals == ()
    assert [lot.recipe for lot in result.library.stock.lots] == [None]


def test_ingredients_stand_in_the_order_cooked_beside_at_service() -> None:
    made = recipe(
        "makes: 2 portions\nat service: [1 lemon]\nbeside: [1 carrot]\n"
        "ingredients:\n  Pot:\n    - 1 onion\n  Pan:\n    - {item: 2 cups oil, eaten: 10 %}"
    )
    assert [(one.food.name, one.when, one.part) for one in made.ingredients] == [
        ("onion", "cooked", "Pot"),
        ("vegetable oil", "cooked", "Pan"),
        ("carrot", "beside", None),
        ("lemon", "at service", None),
    ]
    assert made.ingredients[1].eaten == Fraction(1, 10)
    assert made.part_names == ("Pot", "Pan")


def test_part_from_another_recipe() -> None:
    made = library().recipes["bean-stew"].ingredients[0]
    assert (made.recipe, made.food.name, made.food.basis.kind, made.food.basis.id) == (
        "tomato-base",
        "Tomato base",
        "recipe",
        "tomato-base",
    )
    assert made.text == "2 cups recipe: tomato-base"
    assert made.measures == (Measure(Fraction(2), Fraction(2), "cup"),)


def test_by_product_in_a_flow_list_keeps_what_follows_its_comma() -> None:
    made = plain("gives: [80 g squash seeds, for toasting, 100 g potatoes]")
    assert [(one.text, one.preparation) for one in made.gives] == [
        ("80 g squash seeds, for toasting", "for toasting"),
        ("100 g potatoes", ""),
    ]


def chart(row: str) -> Keeping:
    found = keeping.ROWS[row]
    days = found.fridge_days, found.freezer_days
    return Keeping(*days, found.freezes, f"{row}: {found.source}", thawed_days=found.after_thawing_days)


def test_keeps_by_the_chart() -> None:
    # Cold Food Storage Chart, FoodSafety.gov: soups and stews 3-4 days, 2-3 months.
    assert plain("keeps: Soups and stews").keeping == chart("soups and stews")
    assert plain("keeps: soups and stews").keeping.freezer_days == (60, 90)


def test_nothing_written_is_cooked_leftovers_and_said_to_be_assumed() -> None:
    for form in ("ready", "assemble", "kit"):
        made = plain(f"form: {form}").keeping
        assert (made.fridge_days, made.freezer_days, made.assumed) == ((3, 4), (60, 180), True)


def test_own_times() -> None:
    made = plain("keeps: {fridge: 3 days, freezer: 2-3 months}").keeping
    assert (made.fridge_days, made.freezer_days, made.freezes) == ((3, 3), (60, 90), True)
    assert not made.assumed


def test_own_times_without_freezer_leave_it_open_unless_freezes_says() -> None:
    made = plain("keeps: {fridge: 3-4 days}").keeping
    assert (made.fridge_days, made.freezer_days, made.freezes) == ((3, 4), None, None)
    assert plain("keeps: {fridge: 3 days}\nfreezes: no").keeping.freezes is False
    assert plain("keeps: {fridge: 3 days}\nfreezes: yes").keeping.freezes is True


def test_hours_are_no_whole_day() -> None:
    assert plain("keeps: {fridge: 36-60 hours}").keeping.fridge_days == (1, 2)


def test_freezes_no_has_the_last_word() -> None:
    for lines in ("keeps: soups and stews", "keeps: {fridge: 3 days, freezer: 2 months}", "form: ready"):
        made = plain(f"{lines}\nfreezes: no").keeping
        assert (made.freezes, made.freezer_days) == (False, None)


def test_portioned_keeps_as_the_earliest_of_its_foods() -> None:
    made = recipe("form: portioned\nmakes: 2 portions\ningredients: [100 g ground beef, 1 tbsp cumin]").keeping
    assert made.fridge_days == (1, 2)  # raw ground meat, Cold Food Storage Chart
    assert not made.assumed


@pytest.mark.parametrize("foods", ["1 cup qwertz", "100 g ground beef, 1 cup qwertz"])
def test_portioned_of_a_food_whose_keeping_is_not_known_is_assumed(foods: str) -> None:
    text = f"---\ntitle: Dish\nform: portioned\nmakes: 2 portions\ningredients: [{foods}]\n---\n"
    result = checked({"recipes/dish.md": text})
    assert result.library is not None
    assert result.library.recipes["dish"].keeping.assumed


BODY = """
## Prep day
1. First.
### Pan
1. Cut. [8 min, chopping boards]
2. Roast. [unattended 30 min, oven 200 C]
### together
1. Fill. [2 min per portion, 2 burners]
## At service
1. Serve.
## Notes of taste
Good.
"""


def test_steps() -> None:
    made = recipe("makes: 2 portions\ningredients: [1 onion]", f"A note.\n{BODY}")
    assert [(one.part, one.minutes, one.unattended, one.per_portion) for one in made.prep] == [
        (None, None, False, False),
        ("Pan", Fraction(8), False, False),
        ("Pan", Fraction(30), True, False),
        ("Together", Fraction(2), False, True),
    ]
    assert made.prep[1].uses == (Use("cutting board"),)
    # 200 C = 392 F, exactly (F = C x 9/5 + 32).
    assert made.prep[2].uses == (Use("oven", 1, Fraction(392), "200 °C"),)
    assert made.prep[3].uses == (Use("burner", 2),)
    assert [one.text for one in made.service] == ["Serve."]
    assert (made.notes, made.sections) == ("A note.", (("Notes of taste", "Good."),))


def test_racks_of_one_oven() -> None:
    made = recipe(
        "makes: 2 portions\ningredients: [1 onion]", "## Prep day\n1. Bake. [20 min, oven 350 F, oven 2 racks]\n"
    )
    assert max(use.count for use in made.prep[0].uses) == 2


def test_reheat_and_needs() -> None:
    made = plain("reheat:\n  - microwave 1000 W, 2 min 30 s, covered\n  - oven 350 F, 20 min\nneeds: [hobs, kettle]")
    assert [(one.means, one.watts, one.seconds, one.rest) for one in made.reheat] == [
        ("microwave", 1000, 150, ("covered",)),
        ("oven", None, 1200, ()),
    ]
    assert made.needs == ("burner", "kettle")


@pytest.mark.parametrize("name", ["photos/stew.jpg", "../stew.jpg", "https://example.org/stew.jpg", ".stew.jpg"])
def test_photo_is_a_plain_file_name(name: str) -> None:
    (problem,) = checked({"recipes/bean-stew.md": STEW.replace("container: tub", f"photo: {name}")}).problems
    assert (problem.code, problem.message) == ("bad-link", f'"{name}" is not the plain name of a file')


def test_kit_names_what_is_stored_apart() -> None:
    made = recipe(
        "form: kit\nmakes: 4 portions\ningredients:\n  Set: [500 g potatoes, in coins]\n  Raw, apart: [4 trout fillets]"
    )
    assert made.apart_names == ("Raw, apart",)
    assert len(made.ingredients) == 2


def test_tallies_are_steps_of_portions() -> None:
    made = plain("tallies: {vegetables: {2 portions: 3, 1 portion: 1}}")
    assert [(one.at, one.count) for one in made.tallies["vegetables"]] == [
        (exactly(1, "each"), Fraction(1)),
        (exactly(2, "each"), Fraction(3)),
    ]


@pytest.mark.parametrize(
    ("written", "meals"), [("lunch", ("lunch",)), ("[dinner, breakfast]", ("breakfast", "dinner"))]
)
def test_meals(written: str, meals: tuple[str, ...]) -> None:
    assert plain(f"meal: {written}").meals == meals


def test_other_keys() -> None:
    made = plain("batch: half\nweighs: 2400 g cooked\nphoto: stew.jpg\nprivate: ours\nsource: a card\ntags: [cold]")
    assert (made.batch, made.weighs_g, made.photo, made.private, made.source, made.tags) == (
        "half",
        Fraction(2400),
        "stew.jpg",
        "ours",
        "a card",
        ("cold",),
    )
    assert plain("form: ready").batch == "exact"


@pytest.mark.parametrize(
    "address",
    [
        "javascript:alert",
        "//example.org/x",
        "data:text/html,x",
        "ftp://example.org/x",
        "../../x",
        "/etc/x",
        "file:///x",
    ],
)
def test_address_that_no_page_may_carry(address: str) -> None:
    text = STEW.replace("A stew.", f"A [stew]({address}).")
    assert [one.code for one in checked({"recipes/bean-stew.md": text}).problems] == ["bad-link"]


@pytest.mark.parametrize(
    "words",
    [
        "[x](https://example.org/a?b#c)",
        "<mailto:a@example.org>",
        "[x](recipes/other/)",
        "[x](#top)",
        "![x](stew.jpg)",
        "![x](photos/stew.jpg)",
        "`[x](javascript:alert)`",
        "```\n[x](javascript:alert)\n```",
        "no [link] at all",
    ],
)
def test_address_that_may_stand(words: str) -> None:
    assert checked({"recipes/bean-stew.md": STEW.replace("A stew.", words)}).problems == ()
