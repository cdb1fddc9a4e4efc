"""The worked scenarios: real content from files, read back through facts.json.

Prep on Sunday 7 June 2026 at 13:00, week 2026-W24 (Monday 8 to Sunday 14); the day made is day 0. Each was worked by
hand; counts and dates are exact, grams and kilocalories to 1, money to a cent, seconds to 5.
"""

from __future__ import annotations

import pytest

from tests.kitchen import Kitchen, codes, only

SUNDAY = 'prep:\n  - {on: 2026-06-07, at: "13:00"}\n'
STEW = """
    title: Barley stew
    meal: lunch
    form: ready
    makes: 5 portions
    portion: 350 g
    ingredients:
      - 500 g pearled barley
      - 600 g carrots
    keeps: soups and stews
    reheat: [cold]
"""
STEW_WEEK = SUNDAY + "meals:\n  - {lunch: barley-stew, for: Tomas, on: mon-fri, at: home}\n"


def kept_by_day(facts: dict) -> dict[str, str]:
    return {s["date"]: s["kept"] for s in facts["servings"]}


class TestTooLateForTheRefrigerator:
    def test_friday_is_frozen_and_pulled_on_thursday(self, kitchen: Kitchen) -> None:
        facts = kitchen.recipe("barley-stew", STEW).week(STEW_WEEK).facts()
        assert kept_by_day(facts) == {
            "2026-06-08": "fridge",
            "2026-06-09": "fridge",
            "2026-06-10": "fridge",
            "2026-06-11": "fridge",
            "2026-06-12": "freezer",
        }
        monday = only(facts["servings"], date="2026-06-08")
        assert (monday["made_on"], monday["use_by"], monday["grams"]) == ("2026-06-07", "2026-06-11", 350)
        assert [(p["pull_on"], p["date"], p["eater"]) for p in facts["pull_list"]] == [
            ("2026-06-11", "2026-06-12", "Tomas")
        ]
        assert facts["problems"] == []

    def test_a_frozen_portion_has_the_days_it_had_left_from_its_pull(self, kitchen: Kitchen) -> None:
        facts = kitchen.recipe("barley-stew", STEW).week(STEW_WEEK).facts()
        friday = only(facts["servings"], date="2026-06-12")
        assert (friday["pull_on"], friday["use_by"]) == ("2026-06-11", "2026-06-15")

    def test_what_does_not_freeze_is_a_problem_with_remedies_that_work(self, kitchen: Kitchen) -> None:
        kitchen.recipe("barley-stew", STEW + "    freezes: no\n").week(STEW_WEEK)
        kitchen.recipe("bean-salad", STEW.replace("Barley stew", "Bean salad"))
        problem = only(kitchen.check(), code="kept-too-long")
        assert "Friday 12" in problem["message"]
        assert problem["path"].endswith("weeks/2026-W24.md") and problem["line"] == 6
        words = " / ".join(problem["remedies"])
        assert "session" in words and "earlier day" in words and "another dish" in words

    def test_a_base_of_other_dishes_is_no_dish_to_offer(self, kitchen: Kitchen) -> None:
        kitchen.recipe("barley-stew", STEW + "    freezes: no\n").week(STEW_WEEK)
        kitchen.recipe("a-base", STEW.replace("Barley stew", "A base"))
        kitchen.recipe(
            "bean-salad", STEW.replace("Barley stew", "Bean salad") + "    beside: [1 portion recipe: a-base]\n"
        )
        words = " / ".join(only(kitchen.check(), code="kept-too-long")["remedies"])
        assert "bean-salad" in words and "a-base" not in words

    def test_each_remedy_written_down_clears_the_problem(self, kitchen: Kitchen) -> None:
        kitchen.recipe("barley-stew", STEW + "    freezes: no\n")
        kitchen.recipe("bean-salad", STEW.replace("Barley stew", "Bean salad")).week(STEW_WEEK)
        remedies = only(kitchen.check(), code="kept-too-long")["remedies"]
        session = next(r for r in remedies if "session" in r).split("`")[1]
        kitchen.week(STEW_WEEK.replace("meals:", f"  {session}\nmeals:"))
        assert kitchen.check() == []

    def test_strict_caution_counts_the_lower_end(self, kitchen: Kitchen) -> None:
        kitchen.household("time zone", "caution: strict\ntime zone").recipe("barley-stew", STEW).week(STEW_WEEK)
        facts = kitchen.facts()
        assert only(facts["servings"], date="2026-06-08")["use_by"] == "2026-06-10"
        assert [d for d, kept in kept_by_day(facts).items() if kept == "freezer"] == ["2026-06-11", "2026-06-12"]

    def test_a_second_session_makes_what_does_not_freeze(self, kitchen: Kitchen) -> None:
        second = SUNDAY + '  - {on: 2026-06-10, at: "19:00"}\n' + STEW_WEEK.removeprefix(SUNDAY)
        facts = kitchen.recipe("barley-stew", STEW + "    freezes: no\n").week(second).facts()
        assert [s["made_on"] for s in facts["servings"]] == ["2026-06-07"] * 4 + ["2026-06-10"]
        assert [b["portions_made"] for b in facts["batches"]] == [4, 1]
        assert facts["problems"] == []


BAKE = """
    title: Squash and barley bake
    meal: lunch
    form: ready
    makes: 8 portions
    ingredients:
      - 900 g butternut squash, peeled, in cubes
"""
BAKE_FOODS = """\
- name: butternut squash
  yield: 75 %
  packs: [{size: 600 g, price: 2.10}]
"""
BAKE_WEEK = SUNDAY + (
    "meals:\n"
    "  - {lunch: bake, for: Ilka, on: mon, at: home, portions: 5}\n"
    "  - {lunch: bake, for: Tomas, on: tue, at: home, portions: 3}\n"
    "  - {lunch: bake, for: Bea, on: wed, at: home, portions: 2}\n"
)


class TestYieldAndPacks:
    def squash(self, kitchen: Kitchen, extra: str = "") -> dict:
        kitchen.recipe("bake", BAKE + extra).week(BAKE_WEEK).file("foods.yaml", BAKE_FOODS)
        return kitchen.file("stock.yaml", "cupboard:\n  - 400 g butternut squash\n").facts()

    def test_edible_portion_over_yield_less_on_hand_up_to_whole_packs(self, kitchen: Kitchen) -> None:
        facts = self.squash(kitchen)
        row = only(facts["shopping"], food="butternut squash")
        assert row["need"] == {"amount": 1500.0, "unit": "g"}
        assert row["on_hand"]["amount"] == 400 and row["buy"]["amount"] == 1100
        assert row["packs"] == 2 and row["pack"] == {"amount": 600.0, "unit": "g"}
        assert row["bought"]["amount"] == 1200 and row["left_over"]["amount"] == 100
        assert row["cost"] == pytest.approx(4.20)
        assert row["for"] == ["bake"]

    def test_factor_and_cost(self, kitchen: Kitchen) -> None:
        facts = self.squash(kitchen)
        batch = only(facts["batches"], recipe="bake")
        assert (batch["portions_needed"], batch["factor"], batch["surplus"]) == (10, 1.25, 0)
        assert facts["cost"]["consumed"] == pytest.approx(5.25)
        assert facts["cost"]["per_portion"]["bake"] == pytest.approx(0.525)
        assert facts["cost"]["to_pay"] == pytest.approx(4.20)
        assert facts["cost"]["at_least"] is False

    def test_whole_batches(self, kitchen: Kitchen) -> None:
        batch = only(self.squash(kitchen, "    batch: whole\n")["batches"], recipe="bake")
        assert (batch["portions_made"], batch["surplus"], batch["factor"]) == (16, 6, 2)


class TestNoData:
    RECIPE = """
        title: Two roots
        meal: lunch
        form: ready
        makes: 4 portions
        ingredients:
          - 200 g known root
          - 40 g watermelon radish
    """
    KNOWN = "- name: known root\n  label: {serving: 200 g, energy: 1180 kcal}\n  contains: []\n"
    WEEK = SUNDAY + "meals:\n  - {lunch: roots, for: Ilka, on: mon, at: home}\n"

    def test_an_incomplete_sum_is_a_lower_bound_and_names_the_food(self, kitchen: Kitchen) -> None:
        radish = "- name: watermelon radish\n  contains: []\n"
        kitchen.recipe("roots", self.RECIPE).file("foods.yaml", self.KNOWN + radish).week(self.WEEK)
        facts = kitchen.facts()
        for holder in (kitchen.read("site/recipes/roots/facts.json")["per_portion"], facts["day_totals"][0]):
            assert holder["nutrients"]["energy_kcal"] == pytest.approx(295)
            assert "energy_kcal" in holder["at_least"]
            assert holder["missing"]["energy_kcal"] == ["watermelon radish"]

    def test_with_a_figure_it_is_whole(self, kitchen: Kitchen) -> None:
        radish = "- name: watermelon radish\n  label: {serving: 100 g, energy: 25 kcal}\n  contains: []\n"
        kitchen.recipe("roots", self.RECIPE).file("foods.yaml", self.KNOWN + radish).week(self.WEEK)
        portion = kitchen.recipe_facts("roots")["per_portion"]
        assert portion["nutrients"]["energy_kcal"] == pytest.approx(297.5)
        assert "energy_kcal" not in portion["at_least"]


def labels_of(kitchen: Kitchen, servings: int, first_free: int) -> dict:
    kitchen.household("containers:", f"labels: {{sheet: letter 3x10, first free: {first_free}}}\ncontainers:")
    kitchen.recipe("barley-stew", STEW)
    return kitchen.week(
        SUNDAY + f"meals:\n  - {{lunch: barley-stew, for: Tomas, portions: {servings}, at: home}}\n"
    ).facts()


class TestAPartlyUsedSheet:
    def test_twenty_six_from_the_eighth(self, kitchen: Kitchen) -> None:
        facts = labels_of(kitchen, 26, 8)
        first = facts["labels"][0]
        assert (first["sheet"], first["row"], first["column"]) == (1, 3, 2)
        sheets = [label["sheet"] for label in facts["labels"]]
        assert (sheets.count(1), sheets.count(2)) == (23, 3)
        assert facts["labels_next_free"] == 4

    def test_exactly_one_sheet(self, kitchen: Kitchen) -> None:
        facts = labels_of(kitchen, 23, 8)
        assert {label["sheet"] for label in facts["labels"]} == {1}
        assert facts["labels_next_free"] == 1


DISH = """
    title: Lentil pot
    meal: lunch
    form: ready
    makes: 4 portions
    ingredients:
      - 400 g carrots
    reheat:
      - microwave 1000 W, 2 min 30 s, covered, stir halfway
"""


class TestReheating:
    def week(self, kitchen: Kitchen, eater: str, more: str = "") -> Kitchen:
        return kitchen.week(SUNDAY + f"meals:\n  - {{lunch: pot, for: {eater}, on: mon{more}}}\n")

    def test_another_ovens_power(self, kitchen: Kitchen) -> None:
        facts = self.week(kitchen.recipe("pot", DISH), "Tomas").facts()
        assert facts["servings"][0]["reheat"]["watts"] == 700
        assert facts["servings"][0]["reheat"]["seconds"] == 215

    def test_at_home_it_stays(self, kitchen: Kitchen) -> None:
        facts = self.week(kitchen.recipe("pot", DISH), "Tomas", ", at: home").facts()
        assert facts["servings"][0]["reheat"]["seconds"] == 150

    def test_nothing_to_heat_with(self, kitchen: Kitchen) -> None:
        problem = only(self.week(kitchen.recipe("pot", DISH), "Ilka").check(), code="cannot-reheat")
        for word in ("Ilka", "Monday 8", "survey van"):
            assert word in problem["message"]
        assert problem["line"] == 6

    def test_a_flask_helps_only_a_dish_with_such_a_line(self, kitchen: Kitchen) -> None:
        facts = self.week(kitchen.recipe("pot", DISH + "      - flask, filled boiling hot\n"), "Ilka").facts()
        assert facts["problems"] == [] and facts["servings"][0]["reheat"]["means"] == "flask"

    def test_cold_is_no_problem_and_is_said(self, kitchen: Kitchen) -> None:
        facts = self.week(kitchen.recipe("pot", DISH + "      - cold\n"), "Ilka").facts()
        assert facts["problems"] == [] and facts["servings"][0]["reheat"]["means"] == "cold"

    def test_a_tool_needed_at_service(self, kitchen: Kitchen) -> None:
        bowl = """
            title: Couscous bowl
            meal: lunch
            form: assemble
            makes: 1 portion
            ingredients:
              - 60 g couscous
            needs: [kettle]
        """
        assert codes(self.week(kitchen.recipe("pot", bowl), "Ilka").check()) == ["cannot-finish"]
        assert self.week(kitchen, "Tomas").check() == []


SLAW = """
    title: Slaw
    meal: lunch
    form: ready
    makes: 4 portions
    ingredients:
      - 400 g green cabbage
      - 60 g peanuts
"""


class TestBannedAtAPlace:
    def test_at_school(self, kitchen: Kitchen) -> None:
        kitchen.recipe("slaw", SLAW).week(SUNDAY + "meals:\n  - {lunch: slaw, for: Bea, on: mon}\n")
        problem = only(kitchen.check(), code="banned-at-place")
        assert problem["severity"] == "error" and "school" in problem["message"]

    def test_at_home(self, kitchen: Kitchen) -> None:
        kitchen.recipe("slaw", SLAW).week(SUNDAY + "meals:\n  - {lunch: slaw, for: Bea, on: mon, at: home}\n")
        assert kitchen.check() == []


TOPPED = """
    title: Squash bowl
    meal: lunch
    form: ready
    makes: 4 portions
    ingredients:
      - 400 g carrots
    at service:
      - 4 tbsp ricotta
"""
TAHINI = "substitutions:\n  - {in: bowl, for: Ilka, use: 4 tbsp tahini, instead of: ricotta}\n"


class TestAvoidedAndSubstituted:
    def kitchen(self, kitchen: Kitchen, more: str = "") -> Kitchen:
        kitchen.household("- name: Ilka\n", "- name: Ilka\n    avoids: [milk]\n")
        meals = "meals:\n  - {lunch: bowl, for: [Ilka, Tomas], on: mon-tue, at: home}\n"
        return kitchen.recipe("bowl", TOPPED).week(SUNDAY + meals + more)

    def test_avoided(self, kitchen: Kitchen) -> None:
        problem = only(self.kitchen(kitchen).check(), code="avoided-food")
        assert "Ilka" in problem["message"] and problem["line"] == 6

    def test_substituted(self, kitchen: Kitchen) -> None:
        facts = self.kitchen(kitchen, TAHINI).facts()
        assert codes(facts["problems"], "error") == []
        for serving in facts["servings"]:
            has = ("milk" in serving["contains"], "sesame" in serving["contains"])
            assert has == ((False, True) if serving["eater"] == "Ilka" else (True, False))
        ricotta, tahini = (only(facts["shopping"], food=name) for name in ("ricotta", "tahini"))
        # 4 tbsp for four portions: two portions of each.
        assert ricotta["need"]["amount"] > 0 and tahini["need"]["amount"] > 0
        lines = kitchen.read("site/recipes/bowl/facts.json")["ingredients"]
        four = only(lines, food="ricotta")["grams"]
        assert ricotta["need"]["amount"] == pytest.approx(four / 2, abs=1)
        assert len(facts["batches"]) == 1

    def test_in_what_is_cooked_together_it_is_a_batch_of_its_own(self, kitchen: Kitchen) -> None:
        swap = "substitutions:\n  - {in: bowl, for: Ilka, use: 400 g parsnips, instead of: carrots}\n"
        kitchen.recipe("bowl", TOPPED.replace("at service", "beside"))
        meals = "meals:\n  - {lunch: bowl, for: [Ilka, Tomas], on: mon-tue, at: home}\n"
        facts = kitchen.week(SUNDAY + meals + swap).facts()
        assert [b["portions_made"] for b in facts["batches"]] == [2, 2]
        assert only(facts["shopping"], food="carrot")["need"]["amount"] == pytest.approx(200 / 0.89, abs=1)


class TestStatedSteps:
    def serving(self, kitchen: Kitchen, portions: str) -> tuple[dict, list[str]]:
        front = STEW + "    tallies: {vegetables: {1 portion: 1, 2 portions: 3}}\n"
        line = f"  - {{lunch: barley-stew, for: Tomas, on: mon, at: home, portions: {portions}}}\n"
        facts = kitchen.recipe("barley-stew", front).week(SUNDAY + "meals:\n" + line).facts()
        return facts["servings"][0], codes(facts["problems"])

    def test_a_stated_step(self, kitchen: Kitchen) -> None:
        serving, found = self.serving(kitchen, "2")
        assert serving["tallies"] == {"vegetables": 3} and found == []

    def test_between_steps_it_is_at_least_the_one_below(self, kitchen: Kitchen) -> None:
        serving, found = self.serving(kitchen, "1.5")
        assert serving["tallies"] == {"vegetables": 1} and "vegetables" in serving["at_least"]
        assert found == ["tally-step"]


def test_a_range_stays_a_range(kitchen: Kitchen) -> None:
    front = """
        title: Dressing
        meal: snack
        form: ready
        makes: 1 portion
        ingredients:
          - 1-2 tbsp olive oil
          - 100 g carrots
    """
    facts = kitchen.recipe("dressing", front).recipe_facts("dressing")
    oil = facts["ingredients"][0]["amount"]
    # NIST Handbook 44, App. C: a tablespoon is 14.78676 mL.
    assert (oil["low"], oil["high"], oil["unit"]) == (
        pytest.approx(14.787, abs=1e-3),
        pytest.approx(29.574, abs=1e-3),
        "mL",
    )
    energy = facts["per_portion"]["nutrients"]["energy_kcal"]
    # SR28: olive oil 04053 884 kcal, 13.5 g a tablespoon; carrots 11124 41 kcal.
    assert energy["low"] == pytest.approx(884 * 0.135 + 41, abs=1)
    assert energy["high"] == pytest.approx(884 * 0.27 + 41, abs=1)


class TestFirstExpiredFirstOut:
    STOCK = "freezer:\n  - 3 portions lentil stew, made 2026-06-01\n  - 2 portions lentil stew, made 2026-05-20\n"

    def kitchen(self, kitchen: Kitchen, stock: str, portions: int = 3) -> Kitchen:
        kitchen.recipe("lentil-stew", STEW.replace("Barley stew", "Lentil stew")).file("stock.yaml", stock)
        meals = "meals:\n  - {lunch: lentil-stew, for: Tomas, on: mon-wed, at: home}\n"
        return kitchen.week(SUNDAY + meals + f"already: [{portions} portions lentil stew]\n")

    def test_the_older_lot_first(self, kitchen: Kitchen) -> None:
        facts = self.kitchen(kitchen, self.STOCK).facts()
        assert [s["lot"] for s in facts["servings"]] == ["stock.yaml:3", "stock.yaml:3", "stock.yaml:2"]
        assert {s["kept"] for s in facts["servings"]} == {"freezer"} and facts["batches"] == []
        assert facts["problems"] == []

    def test_more_than_there_is(self, kitchen: Kitchen) -> None:
        assert codes(self.kitchen(kitchen, self.STOCK, 6).check()) == ["stock-short"]

    def test_an_opened_pack_past_its_time_is_not_on_hand(self, kitchen: Kitchen) -> None:
        foods = "- name: tomato passata\n  once opened: 5 days\n  contains: []\n  weights: {1 cup: 250 g}\n"
        kitchen.file("foods.yaml", foods).recipe("barley-stew", STEW + "").week(STEW_WEEK)
        kitchen.recipe("barley-stew", STEW.replace("600 g carrots", "600 g tomato passata"))
        kitchen.file("stock.yaml", "fridge:\n  - 400 g tomato passata, opened 2026-05-28\n")
        facts = kitchen.facts()
        problem = only(facts["problems"], code="past-use-by")
        assert problem["line"] == 2 and problem["path"].endswith("stock.yaml")
        assert only(facts["shopping"], food="tomato passata")["on_hand"]["amount"] == 0

    def test_a_frozen_lot_past_its_best_is_served_and_said(self, kitchen: Kitchen) -> None:
        old = "freezer:\n  - 3 portions lentil stew, made 2026-01-10\n"
        facts = self.kitchen(kitchen, old).facts()
        assert codes(facts["problems"]) == ["past-best"]
        assert {s["lot"] for s in facts["servings"]} == {"stock.yaml:2"}


class TestSevenTubsForNinePortions:
    BOXES = "  - {name: deep tub, holds: 3 cup, have: 40, freezer: yes, microwave: yes}\n"

    def kitchen(self, kitchen: Kitchen, boxes: str) -> Kitchen:
        kitchen.household(self.BOXES, "  - {name: deep tub, holds: 3 cup, have: 7}\n" + boxes)
        front = STEW.replace("portion: 350 g", "portion: 2 cup") + "    container: deep tub\n"
        meals = "meals:\n  - {lunch: barley-stew, for: everyone, on: mon-wed, at: home}\n"
        return kitchen.recipe("barley-stew", front).week(SUNDAY + meals)

    def test_the_next_smallest_takes_the_rest(self, kitchen: Kitchen) -> None:
        facts = self.kitchen(kitchen, "  - {name: quart box, holds: 4 cup, have: 3}\n").facts()
        assert {p["container"]: p["count"] for p in facts["packing"]} == {"deep tub": 7, "quart box": 2}
        assert facts["problems"] == []

    def test_too_few(self, kitchen: Kitchen) -> None:
        facts = self.kitchen(kitchen, "").facts()
        problem = only(facts["problems"], code="too-few-containers")
        assert problem["severity"] == "warning" and "2" in problem["message"]
        assert len(facts["labels"]) == 9


class TestAKitWithRawMeat:
    KIT = """
        title: Meatball kit
        meal: dinner
        form: kit
        makes: 2 portions
        ingredients:
          Set:
            - 400 g potatoes, in cubes
          Raw, apart:
            - 300 g ground beef
        keeps: raw ground meat
    """

    def facts(self, kitchen: Kitchen, day: str) -> dict:
        kitchen.recipe("meatballs", self.KIT)
        return kitchen.week(SUNDAY + f"meals:\n  - {{dinner: meatballs, for: [Ilka, Tomas], on: {day}}}\n").facts()

    def test_for_thursday_it_is_frozen(self, kitchen: Kitchen) -> None:
        facts = self.facts(kitchen, "thu")
        assert {s["kept"] for s in facts["servings"]} == {"freezer"}
        assert all(p["pull_on"] <= "2026-06-10" for p in facts["pull_list"]) and facts["pull_list"]

    def test_for_tuesday_it_stays_cold_apart_from_the_set(self, kitchen: Kitchen) -> None:
        facts = self.facts(kitchen, "tue")
        assert {(s["kept"], s["use_by"]) for s in facts["servings"]} == {("fridge", "2026-06-09")}
        assert len(facts["labels"]) == 2 and facts["pull_list"] == []


def test_a_shared_cut(kitchen: Kitchen) -> None:
    def dish(title: str, line: str) -> str:
        return f"title: {title}\nmeal: lunch\nform: ready\nmakes: 1 portion\ningredients:\n  - {line}\n"

    kitchen.recipe("one", dish("One", "2 onions, diced")).recipe("two", dish("Two", "1 onion, diced"))
    kitchen.recipe("three", dish("Three", "1 onion, sliced"))
    meals = "".join(f"  - {{lunch: {key}, for: Tomas, on: mon, at: home}}\n" for key in ("one", "two", "three"))
    facts = kitchen.week(SUNDAY + "meals:\n" + meals).facts()
    diced = only(facts["mise_en_place"], preparation="diced")
    assert diced["food"] == "onion" and diced["amount"] == {"amount": 3.0, "unit": "each"}
    assert [(f["recipe"], f["amount"]["amount"]) for f in diced["for"]] == [("one", 2), ("two", 1)]
    assert only(facts["mise_en_place"], preparation="sliced")["amount"]["amount"] == 1
    assert only(facts["shopping"], food="onion")["need"] == {"amount": 4.0, "unit": "each"}


class TestAPartFromAnotherRecipe:
    BASE = """
        title: Tomato base
        meal: lunch
        form: ready
        makes: 3 cups
        ingredients:
          - 600 g tomatoes
          - 30 g butter
    """
    USER = """
        title: Pasta
        meal: lunch
        form: ready
        makes: 1 portion
        ingredients:
          - 2 cups recipe: tomato-base
    """

    def test_two_thirds_of_everything(self, kitchen: Kitchen) -> None:
        kitchen.recipe("tomato-base", self.BASE).recipe("pasta", self.USER)
        pasta = kitchen.recipe_facts("pasta")
        base = kitchen.read("site/recipes/tomato-base/facts.json")
        for name in ("energy_kcal", "fat_g", "sodium_mg"):
            whole = base["per_portion"]["nutrients"][name] * base["portions"]
            assert pasta["per_portion"]["nutrients"][name] == pytest.approx(whole * 2 / 3)
        assert pasta["contains"] == ["milk"]

    def test_the_part_is_made_and_shopped_for(self, kitchen: Kitchen) -> None:
        kitchen.recipe("tomato-base", self.BASE).recipe("pasta", self.USER)
        facts = kitchen.week(SUNDAY + "meals:\n  - {lunch: pasta, for: Tomas, on: mon-tue, at: home}\n").facts()
        assert only(facts["batches"], recipe="tomato-base")["factor"] == pytest.approx(4 / 3)
        assert only(facts["shopping"], food="butter")["need"]["amount"] == pytest.approx(40)

    def test_a_ring_is_named(self, kitchen: Kitchen) -> None:
        ring = self.BASE.rstrip() + "\n          - 1 portion recipe: pasta\n"
        kitchen.recipe("tomato-base", ring).recipe("pasta", self.USER)
        problem = next(p for p in kitchen.check() if p["code"] == "recipe-loop")
        assert "tomato-base" in problem["message"] and "pasta" in problem["message"]


def test_what_is_thrown_away_is_bought_and_not_eaten(kitchen: Kitchen) -> None:
    front = """
        title: Fritters
        meal: lunch
        form: ready
        makes: 1 portion
        ingredients:
          - {item: 2 cups oil, eaten: 10 %}
    """
    kitchen.recipe("fritters", front)
    facts = kitchen.week(SUNDAY + "meals:\n  - {lunch: fritters, for: Tomas, on: mon, at: home}\n").facts()
    row = facts["shopping"][0]
    assert row["need"]["unit"] == "mL" and row["need"]["amount"] == pytest.approx(473.2, abs=1)
    line = kitchen.read("site/recipes/fritters/facts.json")
    # SR28 04044: 884 kcal per 100 g, 218 g a cup; a tenth of two cups is eaten.
    assert line["per_portion"]["nutrients"]["energy_kcal"] == pytest.approx(884 * 0.436, abs=1)


SECRET = "ZEBRA"


def test_nothing_private_leaves_the_household(kitchen: Kitchen) -> None:
    kitchen.household("- name: Ilka\n", f"- name: Ilka\n    private: {SECRET} one\n")
    kitchen.recipe("barley-stew", STEW + f"    private: {SECRET} two\n").week(STEW_WEEK).write()
    result = kitchen.run("build", str(kitchen.content), "--out", str(kitchen.out), "--today", "2026-06-07")
    assert result.exit_code == 0, result.output
    written = [path for path in kitchen.out.rglob("*") if path.is_file()]
    assert {path.parts[len(kitchen.out.parts)] for path in written} == {"site", "print", "calendar", "share"}
    for path in written:
        assert SECRET.encode() not in path.read_bytes(), path
        assert SECRET not in path.name


def test_private_notes_stand_on_the_households_own_pages_when_asked_for(kitchen: Kitchen) -> None:
    kitchen.recipe("barley-stew", STEW + f"    private: {SECRET} two\n").week(STEW_WEEK).write()
    arguments = ["build", str(kitchen.content), "--out", str(kitchen.out), "--today", "2026-06-07", "--private"]
    result = kitchen.run(*arguments, "--only", "site", "--only", "share", "--only", "facts", "--only", "calendar")
    assert result.exit_code == 0, result.output
    telling = [path for path in kitchen.out.rglob("*") if path.is_file() and SECRET.encode() in path.read_bytes()]
    assert telling and {path.suffix for path in telling} == {".html"}
    assert all(path.is_relative_to(kitchen.out / "site") for path in telling)
