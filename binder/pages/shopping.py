"""Section 2: what to buy, aisle by aisle, what is in the house already, and what it comes to."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import ceil

from binder.model.quantity import Amount, Measure, exactly
from binder.pages.edition import Edition, run, together, unique
from binder.pages.format import NBSP, TIMES, first_upper, money, with_unit
from binder.pages.house_style import HouseStyle
from binder.pages.measures import amount, as_sold, in_own_system, merged, quantities, quantity
from binder.pages.page import Block, Check, Checks, Column, Heading, Page, Para, Row, Table, Text, plain
from binder.reckon.facts import Costs, ShoppingRow
from binder.reckon.recipe_facts import IngredientFacts


def pages(edition: Edition) -> tuple[Page, ...]:
    """The shopping list by aisle, then what is in the house, then costs. None when no food is needed."""
    facts, w = edition.facts, edition.words
    if not facts.shopping:
        return ()
    buy = [row for row in facts.shopping if is_bought(row)]
    blocks: list[Block] = [_list(buy, edition)] if buy else [Para(plain(w.nothing_to_buy))]
    blocks += [*_notes(buy, edition), *_in_the_house(edition), *costs(edition)]
    return (Page("shopping", w.shopping, "shopping", tuple(blocks)),)


def is_bought(row: ShoppingRow) -> bool:
    """Whether anything of it has to be bought."""
    return row.buy.high > 0 or bool(row.packs)


def _list(rows: Sequence[ShoppingRow], edition: Edition) -> Table:
    w = edition.words
    columns = (
        Column("", width=5, kind="tick"),
        Column(w.food, width=22),
        Column(w.buy, width=16, kind="quantity"),
        Column(w.need, width=14),
        Column(w.on_hand, width=10),
        Column(w.left_over),
        Column(w.cost, "right", width=17),
    )
    body: list[Row] = []
    for aisle in aisles(rows, edition):
        body.append(Row((run(w.aisles.get(aisle, first_upper(aisle)), "strong"),), "group"))
        body += [_row(row, edition) for row in rows if row.aisle == aisle]
    return Table(columns, (*body, _to_pay(edition)), w.shopping, "shopping")


def aisles(rows: Sequence[ShoppingRow], edition: Edition) -> tuple[str, ...]:
    """In the order in which a shop is walked; an aisle of the household's own comes after those."""
    known = list(edition.words.aisles)
    found = unique(row.aisle for row in rows)
    return tuple(sorted(found, key=lambda a: known.index(a) if a in known else len(known)))


def _row(row: ShoppingRow, edition: Edition) -> Row:
    w = edition.words
    cost = w.price_not_known if row.cost is None else money(row.cost, edition.style.currency)
    cells = (
        (),
        run(first_upper(row.food), "strong"),
        run(to_buy(row, edition), "quantity"),
        plain(some_of(row.need, edition, row)),
        plain(_or_none(row.on_hand, edition, row)),
        plain(_or_none(_left_over(row), edition, row)),
        run(cost, "small" if row.cost is None else ""),
    )
    return Row(cells)


def to_buy(row: ShoppingRow, edition: Edition) -> str:
    """`2 × 600 g`, `1 × 450 g + 2 × 200 g`, `3 × 15 oz cans`; the amount where no pack is known."""
    style = edition.style
    if row.sizes:
        return " + ".join(_packs(s.count, s.size, style) for s in row.sizes if s.count)
    if row.packs and row.pack:
        return _packs(row.packs, row.pack, style)
    if row.container and row.buy.high > 0:
        count = Fraction(ceil(row.buy.high / row.container.holds))
        size = quantity(in_own_system(row.container.size, style), style)
        return f"{count}{TIMES}{with_unit(size, edition.words.unit(row.container.word, count))}"
    # A piece is bought whole, be half of it needed.
    return some_of(row.bought if row.buy.unit == "each" and row.buy.high > 0 else row.buy, edition, row)


def _left_over(row: ShoppingRow) -> Amount:
    """What is left of what is bought; of opened cans the rest."""
    if row.container is None:
        return row.left_over
    bought = ceil(row.buy.high / row.container.holds) * row.container.holds
    return exactly(bought - row.buy.high, row.buy.unit)


def _packs(count: int, size: Amount, style: HouseStyle) -> str:
    """`2 × 600 g`; what is sold singly, just how many."""
    single = size.unit == "each" and size.low == 1
    return str(count) if single else f"{count}{TIMES}{as_sold(size, style)}"


def some_of(what: Amount, edition: Edition, row: ShoppingRow) -> str:
    """A part of a row's food in the measure of its pack; `some` for none that is known."""
    return _said(what, edition, row) or edition.words.some


def _or_none(what: Amount, edition: Edition, row: ShoppingRow) -> str:
    return _said(what, edition, row) or edition.words.dash


def _said(what: Amount, edition: Edition, row: ShoppingRow) -> str:
    """In cans where it is written in cans of one size, in bunches where in bunches; else by weight, volume, piece."""
    if row.container:
        holds = row.container.holds
        return quantity(Measure(what.low / holds, what.high / holds, row.container.word), edition.style)
    if word := _counted_in(row):
        return quantity(Measure(what.low, what.high, word), edition.style)
    return amount(what, edition.style, row.pack)


def _counted_in(row: ShoppingRow) -> str:
    """The word of what is bought by the piece, where all lines have one: bunch, head; "" else."""
    words = {measure.unit for measure in row.written}
    return words.pop() if row.need.unit == "each" and not row.sizes and len(words) == 1 else ""


def _to_pay(edition: Edition) -> Row:
    w = edition.words
    total = run(at_least_money(edition.facts.cost.to_pay, edition), "strong")
    return Row(((), run(w.to_pay, "strong"), (), (), (), (), total), "total")


def at_least_money(value: Fraction | None, edition: Edition) -> str:
    """An amount of money; `at least` where a price is missing, since what it adds is not known."""
    w, cost = edition.words, edition.facts.cost
    if value is None:
        return w.not_known
    said = money(value, cost.currency, down=cost.at_least)
    return w.at_least.format(said) if cost.at_least else said


def _notes(rows: Sequence[ShoppingRow], edition: Edition) -> list[Block]:
    notes: list[Text] = [plain(f"{first_upper(row.food)}: {row.note}") for row in rows if row.note]
    blocks: list[Block] = [Para(note, "note") for note in notes]
    return [*blocks, Para(plain(edition.words.read_the_pack), "caution")]


def _in_the_house(edition: Edition) -> list[Block]:
    """What the week uses and nothing is bought of: look that it is there."""
    w = edition.words
    rows = sorted((r for r in edition.facts.shopping if not is_bought(r)), key=lambda r: r.food.lower())
    if not rows:
        return []
    items = tuple(Check(plain(first_upper(r.food)), plain(as_used(r, edition))) for r in rows)
    return [Heading(2, w.in_the_house), Para(plain(w.in_the_house_note), "note"), Checks(items, 2)]


def as_used(row: ShoppingRow, edition: Edition) -> str:
    """By spoon, cup or piece where it is written so; else the weight as it is bought."""
    written = merged(row.written)
    by_measure = len(written) == 1 and written[0].unit not in ("g", "kg", "oz", "lb")
    if by_measure and in_own_system(written[0], edition.style) == written[0]:
        return quantities(written, edition.style)
    return some_of(row.need, edition, row)


def _lacks_a_price(key: str, missing: set[str], edition: Edition) -> bool:
    """Whether a food of the dish, or of a part of it, has no price; of a dish from stock what is added now."""
    of = [s for s in edition.servings if s.recipe == key]
    stocked = bool(of) and all(s.lot for s in of) and all(batch.recipe != key for batch in edition.facts.batches)
    return any(_of(line, missing) for line in edition.recipes[key].ingredients if not stocked or line.when != "cooked")


def _of(line: IngredientFacts, missing: set[str]) -> bool:
    part = line.made_from
    return line.food in missing or (part is not None and any(_of(one, missing) for one in part.ingredients))


def _portion_cost(price: Fraction | None, at_least: bool, edition: Edition) -> str:
    w = edition.words
    if price is None:
        return w.not_known
    said = money(price, edition.facts.cost.currency, down=at_least)
    return w.at_least.format(said) if at_least else said


def _consumed(cost: Costs) -> Fraction | None:
    """What a lower bound says is the least it can be."""
    return cost.consumed_lowest if cost.at_least and cost.consumed_lowest is not None else cost.consumed


def costs(edition: Edition) -> list[Block]:
    """What is consumed, whole and by portion; not the same as what is paid."""
    w, cost = edition.words, edition.facts.cost
    prices = sorted((edition.short(key), key, price) for key, price in cost.per_portion.items())
    unpriced = {key for key in cost.per_portion if _lacks_a_price(key, set(cost.missing), edition)}
    prices = [(name, key, cost.lowest.get(key, price) if key in unpriced else price) for name, key, price in prices]
    if not prices:
        return []
    each = (
        (*run(f"{name}{NBSP}"), *run(_portion_cost(price, key in unpriced, edition), "strong"))
        for name, key, price in prices
    )
    blocks: list[Block] = [
        Heading(2, w.consumed),
        Para(
            (
                *run(f"{w.consumed_in_all}: "),
                *run(at_least_money(_consumed(cost), edition), "strong"),
                *run(f". {w.cost_per_portion}: "),
                *together(each, w.separator),
            )
        ),
    ]
    missing = w.prices_missing.format(", ".join(cost.missing)) if cost.missing else ""
    return [*blocks, Para(plain(missing), "note")] if missing else blocks
