"""Foods by aisle, and a page for each: figures, allergens, measures, yield, keeping, packs, and where it is used."""

from __future__ import annotations

from collections.abc import Iterable

from binder.model.food import NUTRIENTS, Food
from binder.pages.edition import run, unique
from binder.pages.figures import unit_of
from binder.pages.format import NBSP, days, first_upper, grams, money, number, week_title, with_unit
from binder.pages.measures import amount, as_sold
from binder.pages.page import Block, Box, Bullets, Column, Facts, Heading, Page, Para, Row, Table, Text, plain
from binder.pages.site_numbers import figure_of_100_g
from binder.pages.site_shelf import FOODS_PATH, Shelf, ShelvedFood, food_key

MOST_USES = 600  # named on the page of all foods: a linked dish weighs some 90 bytes


def foods_page(shelf: Shelf) -> Page:
    """foods/index.html: every food by aisle, with the dishes that use it.

    In a large library with their number; the food's own page names them.
    """
    w = shelf.words
    few = sum(len(used_in(found)) for found in shelf.foods.values()) <= MOST_USES
    aisles = {found.food.aisle for found in shelf.foods.values()}
    # Other words than those of the list come after it, in order of name.
    order = [*(a for a in w.aisles if a in aisles), *sorted(aisles - set(w.aisles))]
    blocks: list[Block] = []
    for aisle in order:
        title = w.aisles.get(aisle, first_upper(aisle))
        blocks += [Heading(2, title, f"aisle-{'-'.join(aisle.split())}"), _aisle(aisle, title, few, shelf)]
    blocks = blocks or [Para(plain(w.no_foods), "note")]
    return Page(FOODS_PATH, w.foods, "archive", tuple(blocks), shelf.crumbs((w.foods, None)))


def _aisle(aisle: str, title: str, few: bool, shelf: Shelf) -> Table:
    w = shelf.words
    of = (found for found in shelf.foods.values() if found.food.aisle == aisle)
    rows = tuple(Row((shelf.food(found.food), _dishes(used_in(found), few, shelf))) for found in of)
    return Table((Column(w.food, width=34), Column(w.used_in)), rows, title, "foods", row_heads=True)


def _dishes(keys: tuple[str, ...], few: bool, shelf: Shelf) -> Text:
    w = shelf.words
    if not keys:
        return plain(w.not_used)
    one, many = w.dish_count
    return shelf.dishes(keys) if few or len(keys) == 1 else plain((one if len(keys) == 1 else many).format(len(keys)))


def used_in(found: ShelvedFood) -> tuple[str, ...]:
    """Recipe keys; what merely leaves the food over does not use it."""
    return unique(use.recipe for use in found.uses if not use.given)


def food_page(found: ShelvedFood, shelf: Shelf) -> Page:
    """A food's page in the site: summary, allergens, figures, measures, the dishes it is in, what is on hand."""
    w, food = shelf.words, found.food
    title = first_upper(food.name)
    blocks = (
        Facts(_summary(food, shelf)),
        *_allergens(food, shelf),
        *_figures(food, shelf),
        *_measures(found, shelf),
        *_uses(found, shelf),
        *_on_hand(food, shelf),
    )
    crumbs = shelf.crumbs((w.foods, FOODS_PATH), (title, None))
    return Page(found.path, title, "food", blocks, crumbs, description=w.food_description.format(title))


def _summary(food: Food, shelf: Shelf) -> tuple[tuple[str, Text], ...]:
    w, style = shelf.words, shelf.edition.style
    pairs = [(w.other_names, ", ".join(food.names))]
    pairs.append((w.aisle, w.aisles.get(food.aisle, food.aisle)))
    pairs.append((w.edible_portion, edible(food, shelf)))
    pairs.append((w.keeps, keeping(food, shelf)))
    opened = food.once_opened_days
    pairs.append((w.once_opened, w.not_known if opened is None else _from(days(opened, w), food.opened_from)))
    pairs.append((w.how_to_store, _from(food.store, food.store_from) if food.store else w.not_known))
    pairs.append((w.packs, "; ".join(
        f"{as_sold(p.size, style)}, {money(p.price, style.currency) if p.price is not None else w.no_price}"
        for p in food.packs
    )))  # fmt: skip
    pairs.append((w.par_level, amount(food.par, style) if food.par else ""))
    steps = (
        f"{name}: " + ", ".join(f"{amount(step.at, style)} {w.counts} {number(step.count, 2)}" for step in of)
        for name, of in sorted(food.tallies.items())
    )
    pairs.append((w.tallies_word, "; ".join(steps)))
    return tuple((name, plain(text)) for name, text in pairs if text)


def _from(said: str, source: str) -> str:
    """`3 days (common practice, from memory)`."""
    return f"{said} ({source})" if source else said


def edible(food: Food, shelf: Shelf) -> str:
    """`75 % of what is purchased`, with its source; without a record it is counted whole, and says so."""
    if food.edible_share == 1 and not food.yield_from:
        return shelf.words.no_yield_recorded
    said = shelf.words.of_as_purchased.format(f"{number(food.edible_share * 100, 1)}{NBSP}%")
    return f"{said} ({food.yield_from})" if food.yield_from else said


def keeping(food: Food, shelf: Shelf) -> str:
    """Days by the household's caution, with the source."""
    w, keeps = shelf.words, food.keeping
    if keeps is None:
        return w.not_known
    end = 0 if shelf.edition.household.caution == "strict" else 1
    said = []
    if keeps.cupboard_days:
        said.append(w.in_cupboard.format(days(keeps.cupboard_days[end], w)))
    if keeps.fridge_days and keeps.fridge_days != keeps.cupboard_days:
        said.append(w.in_fridge.format(days(keeps.fridge_days[end], w)))
    if keeps.freezes is False:
        said.append(w.does_not_freeze)
    elif keeps.freezer_days:
        said.append(w.in_freezer.format(days(keeps.freezer_days[end], w)))
    return f"{', '.join(said) or w.not_known} ({keeps.source})" if keeps.source else ", ".join(said) or w.not_known


def _allergens(food: Food, shelf: Shelf) -> list[Block]:
    """A record that names none is a record; no record is not known."""
    w = shelf.words
    if food.contains is None:
        lines = [w.no_allergen_record]
    else:
        lines = [w.contains.format(", ".join(food.contains)) if food.contains else w.contains_none_recorded]
    lines += [w.pack_says_may_contain.format(", ".join(food.may_contain))] if food.may_contain else []
    if food.contains_other:
        lines.append(w.in_other_list.format(", ".join(food.contains_other)))
    blocks: list[Block] = [Para(plain(" ".join(lines)))]
    blocks += [Para(plain(w.source.format(food.allergens_from)), "source")] if food.allergens_from else []
    return [Box("allergens", w.allergens, (*blocks, Para(plain(w.read_the_pack), "caution")))]


def _figures(food: Food, shelf: Shelf) -> list[Block]:
    w = shelf.words
    rows = tuple(Row((plain(w.nutrients[n]), run(_with_unit(food, n, shelf), "quantity"))) for n in NUTRIENTS)
    table = Table((Column(w.figure), Column(w.per_100_g, "right")), rows, w.per_100_g, "numbers", row_heads=True)
    source = Para(plain(w.source.format(food.figures_from or w.not_known)), "source")
    rounds = [Para(plain(w.label_rounds), "note")] if any(food.before_rounding) else []
    return [Heading(2, w.per_100_g, "figures"), table, source, *rounds, Para(plain(w.not_medical), "note")]


def _with_unit(food: Food, nutrient: str, shelf: Shelf) -> str:
    said = figure_of_100_g(food, nutrient, shelf.words)
    known = food.per_100_g[NUTRIENTS.index(nutrient)] is not None
    return with_unit(said, unit_of(nutrient)) if known else said


def _measures(found: ShelvedFood, shelf: Shelf) -> list[Block]:
    """The household's own scale and the table's pieces; then every measure that a recipe made use of."""
    w, food = shelf.words, found.food
    rows = [
        Row((plain(_measure(weight.unit, weight.size, weight.form, shelf)), plain(grams(weight.grams)),
             run(weight.source or w.not_known, "small")))
        for weight in food.weights
    ]  # fmt: skip
    used = unique(_bases(found, shelf))
    if not rows and not used:
        return []
    blocks: list[Block] = [Heading(2, w.measures_head, "measures")]
    if rows:
        columns = (Column(w.measure), Column(w.weighs, "right"), Column(w.where_from_head))
        blocks.append(Table(columns, tuple(rows), w.measures_head, "measures", row_heads=True))
    if used:
        blocks += [Para(plain(w.measures_used)), Bullets(tuple(plain(text) for text in used))]
    return blocks


def _measure(unit: str, size: str, form: str, shelf: Shelf) -> str:
    """`1 medium`, `1 cup, chopped`."""
    said = with_unit("1", f"{size} {shelf.words.units.get(unit, (unit, unit))[0]}".strip())
    return f"{said}, {form}" if form else said


def _bases(found: ShelvedFood, shelf: Shelf) -> Iterable[str]:
    key = food_key(found.food)
    for recipe in used_in(found):
        facts = shelf.recipes.get(recipe)
        for line in facts.ingredients if facts else ():
            if line.measure_basis and food_key(line.ingredient.food) == key:
                yield line.measure_basis


def _uses(found: ShelvedFood, shelf: Shelf) -> list[Block]:
    w = shelf.words
    items = []
    for use in found.uses:
        note = f" – {use.line.text}"
        note += f" ({w.substituted_in.format(week_title(use.week, w))})" if use.week else ""
        note += f" ({w.left_over_there})" if use.given else ""
        items.append((*shelf.dish(use.recipe), *run(note, "small")))
    blocks: list[Block] = [Heading(2, w.used_in, "used")]
    return [*blocks, Bullets(unique(items)) if items else Para(plain(w.not_used))]


def _on_hand(food: Food, shelf: Shelf) -> list[Block]:
    w = shelf.words
    lots = [lot for lot in shelf.library.stock.lots if lot.food and food_key(lot.food) == food_key(food)]
    if not lots:
        return []
    items = tuple(plain(f"{lot.text} ({shelf.words.kept.get(lot.place, lot.place)})") for lot in lots)
    return [Heading(2, w.on_hand, "on-hand"), Bullets(items)]
