"""A recipe's page, at its written size: what goes in beside what is done, and everything known about it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

from binder.model.food import NUTRIENTS
from binder.pages.card_ingredients import line_of
from binder.pages.card_keeps import keeps_text
from binder.pages.card_notes import allergen_words, cautions
from binder.pages.card_portion import portion_size
from binder.pages.card_steps import steps
from binder.pages.edition import Edition, name_of, portions, run, together, unique
from binder.pages.figures import SOURCE, figure_of, missing_foods, tally_text
from binder.pages.format import first_upper, listed
from binder.pages.measures import amount
from binder.pages.page import (
    Beside,
    Block,
    Box,
    Bullets,
    Column,
    Facts,
    Heading,
    IngredientGroup,
    IngredientLine,
    Ingredients,
    Later,
    Page,
    Para,
    Photo,
    Prose,
    Row,
    Table,
    Text,
    plain,
)  # fmt: skip
from binder.pages.portion_weight import far_from_parts
from binder.pages.site_minutes import minutes_text, recipe_minutes
from binder.pages.site_numbers import where_from
from binder.pages.site_places import answer_words, place_answers
from binder.pages.site_shelf import RECIPES_PATH, Shelf, address, recipe_path
from binder.pages.structured import recipe_json
from binder.pages.words.en import Words
from binder.reckon.recipe_facts import IngredientFacts, RecipeFacts

ONCE = Fraction(1)


def recipe_page(facts: RecipeFacts, shelf: Shelf) -> Page:
    """A recipe's page in the site, at its written size."""
    w = shelf.words
    blocks: list[Block] = [Photo(facts.recipe.photo, facts.title)] if facts.recipe.photo else []
    blocks.append(Facts(_summary(facts, shelf)))
    blocks += [Para(plain(far), "note")] if (far := far_from_parts(facts, w)) else []
    blocks += allergens(facts, shelf)
    gives = bool(facts.recipe.gives)
    lines = ingredients(facts, shelf.edition, lambda x: _line(x, shelf, gives))
    left = (Heading(2, w.ingredients, "ingredients"), lines)
    blocks.append(Beside(left, written_steps(facts, shelf.edition), "card"))
    blocks += cautions(facts, None, shelf.edition)
    blocks += _notes(facts, shelf)
    blocks += _heating(facts, shelf)
    blocks += _keeping(facts, shelf)
    blocks += _figures(facts, shelf)
    blocks += _weeks(facts, shelf)
    blocks.append(where_from(facts, shelf))
    return Page(
        path=recipe_path(facts.key),
        title=facts.title,
        kind="recipe",
        blocks=tuple(blocks),
        crumbs=shelf.crumbs((w.recipes, RECIPES_PATH), (facts.title, None)),
        subtitle=subtitle(facts, w),
        description=subtitle(facts, w),
        structured=recipe_json(facts, shelf.edition),
    )


def later(facts: RecipeFacts, shelf: Shelf, mark: str) -> Later:
    """The recipe's page when it is wanted; `mark` stands for the recipe's facts and the household's ways."""
    return Later(
        path=recipe_path(facts.key),
        title=facts.title,
        mark=repr((mark, _around(facts, shelf))),
        make=lambda: (recipe_page(facts, shelf),),
    )


def _around(facts: RecipeFacts, shelf: Shelf) -> tuple[object, ...]:
    """All that the page takes from the shelf besides the household's ways: what it links to, and who links to it."""
    lines = [x.ingredient for x in facts.ingredients]
    return (
        shelf.edition.private,
        [shelf.dish(x.recipe) if x.recipe else shelf.food_href(x.food) for x in lines],
        [shelf.week(key) for key in shelf.planned.get(facts.key, ())],
        [shelf.dish(key) for key in shelf.part_of.get(facts.key, ())],
    )


def subtitle(facts: RecipeFacts, w: Words) -> str:
    """`Lunch · 8 portions · 51 min, 24 min of it handwork`."""
    meals = [w.meals.get(meal, meal) for meal in facts.meals]
    time = minutes_text(recipe_minutes(facts.recipe), w)
    said = (listed(meals, w), portions(facts.recipe.portions, w), time)
    return w.separator.join(part for part in said if part)


def _summary(facts: RecipeFacts, shelf: Shelf) -> tuple[tuple[str, Text], ...]:
    w, recipe = shelf.words, facts.recipe
    makes = [portions(recipe.portions, w)]
    makes += [amount(recipe.makes, shelf.edition.style)] if recipe.makes else []
    pairs: list[tuple[str, Text]] = [(w.makes, plain("; ".join(makes)))]
    size = portion_size(facts, shelf.edition)
    pairs += [(w.portion, plain(size))] if size else []
    pairs.append((w.meal, plain(listed([w.meals.get(meal, meal) for meal in facts.meals], w))))
    pairs.append((w.form, plain(w.forms.get(facts.form, facts.form))))
    time = minutes_text(recipe_minutes(recipe), w)
    pairs.append((w.time, plain(time or w.not_known)))
    pairs.append((w.keeps, plain(keeps_text(facts, shelf.edition))))
    pairs += [(w.container, plain(recipe.container))] if recipe.container else []
    if recipe.needs:
        pairs.append((w.needs_at_service, plain(listed([first_upper(kind) for kind in recipe.needs], w))))
    if recipe.gives:
        pairs.append((w.gives, plain("; ".join(line.text for line in recipe.gives))))
    return tuple(pairs)


def allergens(facts: RecipeFacts, shelf: Shelf) -> list[Block]:
    """In words, in a ruled box, with the foods that say so."""
    w, found = shelf.words, facts.allergens
    lines = allergen_words(facts.contains, facts.may_contain, facts.not_known, shelf.edition)
    by_food = [
        plain(form.format(word=first_upper(word), foods=listed(foods, w)))
        for form, source in ((w.allergen_from, found.contains_from), (w.allergen_may_from, found.may_from))
        for word, foods in source.items()
    ]
    blocks: list[Block] = [Para(plain(" ".join(lines)))]
    blocks += [Bullets(tuple(by_food))] if by_food else []
    blocks += [Para(plain(w.read_the_pack), "caution"), Para(plain(w.not_found_is_no_promise), "note")]
    return [Box("allergens", w.allergens, tuple(blocks))]


def ingredients(
    facts: RecipeFacts, edition: Edition, line_for: Callable[[IngredientFacts], IngredientLine]
) -> Ingredients:
    """Every line under its part name, then what goes beside and what is added at service."""
    w = edition.words
    titles = {"beside": w.beside_in_all, "at service": w.at_service_in_all}
    named = [(titles.get(x.when, x.part or ""), x) for x in facts.ingredients]
    groups = (
        IngredientGroup(title, tuple(line_for(x) for name, x in named if name == title))
        for title in unique(name for name, _ in named)
    )
    return Ingredients(tuple(groups))


def _line(facts: IngredientFacts, shelf: Shelf, gives: bool) -> IngredientLine:
    """At the written size, the food linked to its page, a part to its recipe."""
    line = line_of(facts, ONCE, shelf.edition, gives)
    part = facts.ingredient.recipe
    if part is None:
        return replace(line, href=shelf.food_href(facts.ingredient.food))
    return replace(line, href=address(recipe_path(part)) if part in shelf.recipes else None)


def written_steps(facts: RecipeFacts, edition: Edition) -> tuple[Block, ...]:
    """The steps at the written size. A kit's service, a card of its own in the binder, stands with the rest."""
    return steps(replace(facts, form="ready"), ONCE, None, facts.recipe.portions, edition)


def _notes(facts: RecipeFacts, shelf: Shelf) -> list[Block]:
    w, recipe = shelf.words, facts.recipe
    blocks: list[Block] = [Heading(2, w.notes, "notes"), Prose(recipe.notes)] if recipe.notes.strip() else []
    for title, body in recipe.sections:
        blocks += [Heading(2, title, f"more-{name_of(title)}"), Prose(body)]
    if recipe.source:
        blocks.append(Para(plain(w.source.format(recipe.source)), "source"))
    if shelf.edition.private and recipe.private:
        blocks.append(Para(plain(f"{w.private_note}: {recipe.private}"), "note"))
    return blocks


def _heating(facts: RecipeFacts, shelf: Shelf) -> list[Block]:
    """Each way to heat it, then each place with what can be done there."""
    w = shelf.words
    ways = tuple(plain(first_upper(way.text)) for way in facts.reheat)
    blocks: list[Block] = [Heading(2, w.reheat, "reheat")]
    blocks.append(Bullets(ways) if ways else Para(plain(first_upper(w.no_reheat))))
    answers = place_answers(facts, shelf.edition.household, w)
    rows = tuple(Row((plain(first_upper(a.place)), plain(answer_words(a, w)))) for a in answers)
    table = Table((Column(w.place, width=24), Column(w.how)), rows, w.where_it_can_be_eaten, "places", row_heads=True)
    return [*blocks, table]


def _keeping(facts: RecipeFacts, shelf: Shelf) -> list[Block]:
    w = shelf.words
    caution = w.rule_set.format(w.cautions[shelf.edition.household.caution])
    return [
        Heading(2, w.keeps, "keeps"),
        Para(plain(f"{first_upper(keeps_text(facts, shelf.edition))}. {caution}")),
        *([Para(plain(w.source.format(facts.keeps.source)), "source")] if facts.keeps.source else []),
        Para(plain(w.keeping_cautions[0]), "note"),
    ]


def _figures(facts: RecipeFacts, shelf: Shelf) -> list[Block]:
    """The eleven figures of a portion; what is not known is named."""
    w, nutrition = shelf.words, facts.per_portion.nutrition
    rows = tuple(Row((plain(w.nutrients[n]), run(figure_of(nutrition, n, w), "quantity"))) for n in NUTRIENTS)
    columns = (Column(w.figure), Column(w.portion, "right"))
    blocks: list[Block] = [Heading(2, w.a_portion_has, "figures")]
    blocks.append(Table(columns, rows, w.a_portion_has, "numbers", row_heads=True))
    if facts.per_portion.tallies.counts:
        blocks.append(Para(plain(w.tallies_line.format(tally_text(facts.per_portion.tallies, w)))))
    missing = missing_foods([nutrition])
    if missing:
        blocks.append(Para(plain(w.no_figures_for.format(", ".join(missing))), "note"))
    return [*blocks, Para(plain(f"{w.rounding_note.format(SOURCE)} {w.not_medical}"), "note")]


def _weeks(facts: RecipeFacts, shelf: Shelf) -> list[Block]:
    w = shelf.words
    weeks = shelf.planned.get(facts.key, ())
    used_in = shelf.part_of.get(facts.key, ())
    blocks: list[Block] = [Heading(2, w.planned_in, "weeks")]
    blocks.append(Bullets(tuple(shelf.week(key) for key in weeks)) if weeks else Para(plain(w.never_planned)))
    if used_in:
        blocks.append(Para((*plain(w.part_of.format("")), *together((shelf.dish(key) for key in used_in), ", "))))
    return blocks
