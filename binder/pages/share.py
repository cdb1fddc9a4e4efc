"""Pages to give away, made from a list of what is let through; everything else stays in the house.

Let through of a recipe: its title, meals, form, what it makes and a portion's size, its photo, the ingredient lines,
the steps with their minutes and tools, the reheating lines, its keeping time, the allergens of the recipe as written
(contains, may contain, not checked), our own cautions, and a portion's figures when none of them is a lower bound.
Its key names the file. Let through of a week: its days and meals, and the titles of the dishes.

A page is made from a copy that holds nothing else, so that no words further down the way can pick up more.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from types import MappingProxyType

from binder.model.food import NUTRIENTS, Food, Keeping
from binder.model.household import Household, LabelStock
from binder.model.library import Library
from binder.model.recipe import Ingredient, Recipe, Reheat, Step
from binder.model.stock import Stock
from binder.pages.card_ingredients import line_of
from binder.pages.card_keeps import keeps_text
from binder.pages.card_notes import allergen_words, cautions
from binder.pages.card_portion import portion_size
from binder.pages.edition import Edition, meal_rank, portions, run, unique
from binder.pages.figures import SOURCE, figure_of
from binder.pages.format import day_long, first_upper, listed, week_title
from binder.pages.house_style import house_style
from binder.pages.measures import amount
from binder.pages.page import (
    Beside,
    Block,
    Box,
    Bullets,
    Column,
    Facts,
    Heading,
    Later,
    Page,
    Para,
    Photo,
    Row,
    Table,
    plain,
)  # fmt: skip
from binder.pages.site_recipe import ONCE, ingredients, subtitle, written_steps
from binder.pages.site_shelf import no_week
from binder.pages.structured import PROPERTIES, is_complete, recipe_json
from binder.problem import Span
from binder.reckon.facts import WeekFacts
from binder.reckon.recipe_facts import (
    Allergens,
    IngredientFacts,
    KeepsFacts,
    Nutrition,
    PerPortion,
    RecipeFacts,
    Tallies,
)

NOWHERE = Span("", 1, 1, 1)
# Not zero: nothing is said of any figure.
NOT_SAID = Nutrition((None,) * len(NUTRIENTS), frozenset(NUTRIENTS))


def share_pages(library: Library, recipes: Mapping[str, RecipeFacts]) -> tuple[Page, ...]:
    """A page for each recipe, by title."""
    return tuple(page for later in later_pages(library, recipes, MappingProxyType({})) for page in later.make())


def later_pages(library: Library, recipes: Mapping[str, RecipeFacts], marks: Mapping[str, str]) -> tuple[Later, ...]:
    """The same, made when they are wanted; `marks` has of each recipe what stands for all that its facts are made
    from, the household's ways with it."""
    edition = nobodys_edition(library.household)
    order = sorted(recipes.values(), key=lambda f: (f.title.casefold(), f.key))

    def page(facts: RecipeFacts) -> Later:
        mark = marks.get(facts.key) or repr(facts)
        return Later(share_path(facts.key), facts.title, mark, lambda: (_recipe_page(let_through(facts), edition),))

    return tuple(page(facts) for facts in order)


def share_path(key: str) -> str:
    """Where what is given away lies, below the share folder."""
    return f"{key}.html"


def nobodys_edition(household: Household) -> Edition:
    """How the household speaks and measures, without its name, people, places and boxes."""
    bare = Household(
        name="", span=NOWHERE, language=household.language, paper=household.paper, measures=household.measures,
        cup=household.cup, allergen_list=household.allergen_list, caution=household.caution, time_zone="UTC",
        currency="", meal_times=MappingProxyType({}), eaters=(), places=(), containers=(),
        labels=LabelStock(""),
    )  # fmt: skip
    empty = Library(bare, (), MappingProxyType({}), MappingProxyType({}), Stock(()))
    return Edition(no_week(date.min), empty, MappingProxyType({}), house_style(bare))


def let_through(facts: RecipeFacts) -> RecipeFacts:
    """A copy of the recipe that holds what may be shared, and nothing else."""
    whole = is_complete(facts.per_portion.nutrition)
    figures = facts.per_portion.nutrition if whole else NOT_SAID
    lines = tuple(_line(line) for line in facts.ingredients)
    return RecipeFacts(
        key=facts.key,
        title=facts.title,
        form=facts.form,
        meals=facts.meals,
        portions=facts.portions,
        portion=facts.portion,
        ingredients=lines,
        per_portion=PerPortion(
            figures,
            facts.per_portion.grams,
            Tallies(),
            cooked_grams=facts.per_portion.cooked_grams,
            cooked_grams_from=facts.per_portion.cooked_grams_from,
        ),
        contains=facts.contains,
        may_contain=facts.may_contain,
        not_known=facts.not_known,
        keeps=KeepsFacts(
            facts.keeps.fridge_days, facts.keeps.freezer_days, facts.keeps.freezes, "", facts.keeps.assumed
        ),
        reheat=facts.reheat,
        recipe=_recipe(facts.recipe, lines),
        allergens=Allergens(facts.contains, facts.may_contain, facts.not_known),
        total=facts.total if whole else NOT_SAID,
    )


def _recipe(recipe: Recipe, lines: tuple[IngredientFacts, ...]) -> Recipe:
    return Recipe(
        key=recipe.key, title=recipe.title, span=NOWHERE, meals=recipe.meals, form=recipe.form,
        portions=recipe.portions, makes=recipe.makes, makes_text="", portion=recipe.portion,
        portion_measure=recipe.portion_measure, ingredients=tuple(line.ingredient for line in lines),
        part_names=recipe.part_names, gives=(), keeping=Keeping(None, None, None, ""), container=None,
        container_span=None, reheat=tuple(_way(way) for way in recipe.reheat), needs=recipe.needs, batch="exact",
        tallies=MappingProxyType({}),
        prep=tuple(_step(step) for step in recipe.prep), service=tuple(_step(step) for step in recipe.service),
        photo=recipe.photo,
    )  # fmt: skip


def _step(step: Step) -> Step:
    return Step(step.text, NOWHERE, step.part, step.minutes, step.unattended, step.per_portion, step.uses)


def _way(way: Reheat) -> Reheat:
    return Reheat(way.means, way.watts, way.seconds, way.text, NOWHERE, way.temperature_text, way.rest)


def _line(facts: IngredientFacts) -> IngredientFacts:
    """An ingredient line without where its figures come from; a part from another recipe is a food by its title."""
    line = facts.ingredient
    bare = Ingredient(
        text="", span=NOWHERE, when=line.when, part=line.part, food=Food(facts.food, aisle=line.food.aisle),
        recipe=None, measures=line.measures, pack=line.pack, preparation=line.preparation, notes=line.notes,
        alternative=line.alternative, flags=line.flags, eaten=line.eaten, as_purchased=line.as_purchased,
    )  # fmt: skip
    return IngredientFacts(
        text="", part=facts.part, food=facts.food, amount=facts.amount, grams=facts.grams, as_purchased_grams=None,
        eaten=facts.eaten, basis=bare.food.basis, measure_basis=None, when=facts.when, ingredient=bare,
    )  # fmt: skip


def _recipe_page(facts: RecipeFacts, edition: Edition) -> Page:
    """From a copy that was let through."""
    w, photo = edition.words, facts.recipe.photo
    blocks: list[Block] = [Photo(photo, facts.title)] if photo else []
    blocks.append(_summary(facts, edition))
    words = allergen_words(facts.contains, facts.may_contain, facts.not_known, edition)
    notes = (Para(plain(w.read_the_pack), "caution"), Para(plain(w.not_found_is_no_promise), "note"))
    blocks.append(Box("allergens", w.allergens, (Para(plain(" ".join(words))), *notes)))
    lines = ingredients(facts, edition, lambda line: line_of(line, ONCE, edition, gives=True))
    left = (Heading(2, w.ingredients, "ingredients"), lines)
    blocks.append(Beside(left, written_steps(facts, edition), "card"))
    if facts.reheat:
        ways = tuple(plain(first_upper(way.text)) for way in facts.reheat)
        blocks += [Heading(2, w.reheat, "reheat"), Bullets(ways)]
    blocks += [*cautions(facts, None, edition), *_figures(facts, edition)]
    said = subtitle(facts, w)
    return Page(
        share_path(facts.key), facts.title, "share", tuple(blocks), subtitle=said, description=said,
        structured=recipe_json(facts, edition),
    )  # fmt: skip


def _summary(facts: RecipeFacts, edition: Edition) -> Facts:
    w = edition.words
    makes = [portions(facts.recipe.portions, w)]
    makes += [amount(facts.recipe.makes, edition.style)] if facts.recipe.makes else []
    size = portion_size(facts, edition)
    pairs = [
        (w.makes, "; ".join(makes)), (w.portion, size),
        (w.meal, listed([w.meals.get(meal, meal) for meal in facts.meals], w)),
        (w.form, w.forms.get(facts.form, facts.form)), (w.keeps, keeps_text(facts, edition)),
    ]  # fmt: skip
    return Facts(tuple((name, plain(text)) for name, text in pairs if text))


def _figures(facts: RecipeFacts, edition: Edition) -> list[Block]:
    """A portion's figures, all of them or none."""
    w, nutrition = edition.words, facts.per_portion.nutrition
    if not is_complete(nutrition):
        return []
    rows = tuple(Row((plain(w.nutrients[n]), run(figure_of(nutrition, n, w), "quantity"))) for n in PROPERTIES)
    table = Table((Column(w.figure), Column(w.portion, "right")), rows, w.a_portion_has, "numbers", row_heads=True)
    note = f"{w.rounding_note.format(SOURCE)} {w.not_medical}"
    return [Heading(2, w.a_portion_has, "figures"), table, Para(plain(note), "note")]


def share_week(week_facts: WeekFacts, library: Library) -> Page:
    """The menu: days, meals, dishes."""
    w = house_style(library.household).words
    dated = sorted({(s.date, meal_rank(s.meal), s.meal) for s in week_facts.servings if s.date})
    rows: list[Row] = []
    for on in unique(d for d, _, _ in dated if d):
        rows.append(Row((run(day_long(on, w), "strong"),), "group"))
        for meal in (m for d, _, m in dated if d == on):
            of = (s.recipe for s in week_facts.servings if (s.date, s.meal) == (on, meal))
            rows.append(Row((plain(w.meals.get(meal, meal)), plain("; ".join(_titles(of, week_facts, library))))))
    free = [(s.meal, s.recipe) for s in week_facts.servings if s.date is None]
    if free:
        rows.append(Row((run(w.no_fixed_day, "strong"),), "group"))
    for meal in sorted({m for m, _ in free}, key=meal_rank):
        of = (key for m, key in free if m == meal)
        rows.append(Row((plain(w.meals.get(meal, meal)), plain("; ".join(_titles(of, week_facts, library))))))
    title = week_title(week_facts.week, w)
    table = Table((Column(w.meal, width=24), Column(w.dish)), tuple(rows), title, "menu", row_heads=True)
    return Page(share_path(week_facts.week), title, "share", (table,), subtitle=w.menu)


def _titles(keys: Iterable[str], week_facts: WeekFacts, library: Library) -> tuple[str, ...]:
    """Each dish once. A recipe that is not there any more has no title to share."""
    found = {key: recipe.title for key, recipe in library.recipes.items()}
    found |= {key: facts.title for key, facts in week_facts.recipes.items()}
    return unique(found[key] for key in keys if key in found)
