"""Section 10: kits: the set, what is stored apart from it, and what is left to do when it is cooked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from binder.pages.card_ingredients import line_of, unique_by_text
from binder.pages.card_notes import allergen_box
from binder.pages.card_steps import use_text, written_size
from binder.pages.edition import Edition, portions, run, unique
from binder.pages.format import clock, day, day_long, listed, minutes
from binder.pages.page import (
    Beside,
    Block,
    Box,
    Column,
    Facts,
    Heading,
    IngredientGroup,
    IngredientLine,
    Ingredients,
    Page,
    Para,
    Row,
    Table,
    Text,
    plain,
)  # fmt: skip
from binder.pages.parts_stored import stored_lines
from binder.reckon.facts import Heating, ServiceSheet, ServiceTask, Serving
from binder.reckon.recipe_facts import RecipeFacts

SECONDS = 60  # of a minute


@dataclass(frozen=True, slots=True)
class Sitting:
    """One meal at which a kit is cooked, with everybody's portions."""

    facts: RecipeFacts
    servings: tuple[Serving, ...]

    @property
    def portions(self) -> Fraction:
        return sum((s.portions for s in self.servings), Fraction(0))

    @property
    def factor(self) -> Fraction:
        return self.portions / self.facts.recipe.portions


def pages(edition: Edition) -> tuple[Page, ...]:
    """A card for each meal that is finished from a kit, in the order of the days."""
    return tuple(_page(sitting, n, edition) for n, sitting in enumerate(sittings(edition), 1))


def sittings(edition: Edition) -> tuple[Sitting, ...]:
    """By day and meal; kits eaten on no fixed day come last."""
    of = [s for s in edition.servings if is_kit(s, edition)]
    out = []
    for recipe, on, meal, place in unique((s.recipe, s.date, s.meal, s.place) for s in of):
        facts = edition.facts_of(recipe)
        mine = tuple(s for s in of if (s.recipe, s.date, s.meal, s.place) == (recipe, on, meal, place))
        if facts:
            out.append(Sitting(facts, mine))
    return tuple(out)


def is_kit(serving: Serving, edition: Edition) -> bool:
    """Whether it is cooked when it is eaten."""
    known = serving.facts or edition.facts_of(serving.recipe)
    return known is not None and known.form == "kit"


def _page(sitting: Sitting, number: int, edition: Edition) -> Page:
    w, first = edition.words, sitting.servings[0]
    when = day_long(first.date, w) if first.date else w.any_day
    blocks: list[Block] = [Facts(_summary(sitting, edition))]
    right: list[Block] = [*_service(sitting, edition), *allergen_box(sitting.servings, sitting.facts, edition)]
    if any(part in sitting.facts.recipe.apart_names for part in sitting.facts.recipe.part_names):
        right.append(Box("caution", w.caution, (Para(plain(f"{w.raw_apart} {w.core_meat_short}")),)))
    blocks.append(Beside((_lists(sitting, edition),), tuple(right), "card"))
    subtitle = f"{when}, {w.meals.get(first.meal, first.meal).lower()}"
    return Page(f"kit-{number}", sitting.facts.title, "kit", tuple(blocks), subtitle=subtitle, print_first=True)


def _summary(sitting: Sitting, edition: Edition) -> tuple[tuple[str, Text], ...]:
    w, first = edition.words, sitting.servings[0]
    who = unique(s.eater for s in sitting.servings)
    pairs = [(w.for_whom, plain(f"{listed(who, w)}, {first.place}: {portions(sitting.portions, w)}"))]
    stored = stored_lines(sitting.servings, edition) or _stored(first, edition)
    pairs.append((w.stored, plain("; ".join(stored))))
    begin = begin_at(sitting, edition)
    if begin is not None:
        eaten = _meal_at(sitting, edition) or 0
        said = w.begin_to_eat.format(begin=_clock(begin * SECONDS), meal=clock(eaten))
        pairs.append((w.begin, run(said, "strong")))
    return tuple(pairs)


def _stored(serving: Serving, edition: Edition) -> tuple[str, ...]:
    """Where all of it lies: `in the freezer`, `pull in the evening of Mon 8 Jun`, `use by Wed 10 Jun`."""
    w = edition.words
    said = [w.kept.get(serving.kept, serving.kept)]
    said += [w.used_frozen] if serving.from_frozen else []
    said += [w.pull_evening.format(day(serving.pull_on, w))] if serving.pull_on else []
    said += [w.use_by_day.format(day(serving.use_by, w))] if serving.use_by else []
    return tuple(said)


def _lists(sitting: Sitting, edition: Edition) -> Ingredients:
    """The set first, then each part stored apart, then what is added; how the set was cut stands on its recipe card."""
    w, facts = edition.words, sitting.facts
    apart = facts.recipe.apart_names
    cooked = [line for line in facts.ingredients if line.when == "cooked"]
    groups = []
    for part in unique(line.part for line in cooked):
        lines = tuple(replace(line_of(one, sitting.factor, edition), detail="") for one in cooked if one.part == part)
        title = w.stored_apart.format(part) if part in apart else part or w.kit
        groups.append(IngredientGroup(title, lines))
    added = _at_service(sitting, edition)
    groups += [IngredientGroup(w.at_service, added)] if added else []
    return Ingredients(tuple(groups))


def _at_service(sitting: Sitting, edition: Edition) -> tuple[IngredientLine, ...]:
    """Added when it is cooked, for all who sit down; each line for the portions of those who have it."""
    facts, lines = sitting.facts, []
    for one in unique_by_text([s.facts or facts for s in sitting.servings], "at service"):
        having = [s for s in sitting.servings if any(line.text == one.text for line in (s.facts or facts).ingredients)]
        count = sum((s.portions for s in having), Fraction(0))
        mark = "" if len(having) == len(sitting.servings) else _only_for(having, edition)
        lines.append(replace(line_of(one, count / facts.recipe.portions, edition), mark=mark))
    return tuple(lines)


def _only_for(servings: Sequence[Serving], edition: Edition) -> str:
    return edition.words.only_for.format(listed(unique(s.eater for s in servings), edition.words))


def _meal_at(sitting: Sitting, edition: Edition) -> int | None:
    return edition.household.meal_times.get(sitting.servings[0].meal)


def sheet_of(sitting: Sitting, edition: Edition) -> ServiceSheet | None:
    """When its steps are done so that it is on the table at its hour; None where no step is left for service."""
    first = sitting.servings[0]
    of = (first.date, first.meal, first.place)
    return next((s for s in edition.facts.services if (s.date, s.meal, s.place) == of and _has(s, sitting)), None)


def _has(sheet: ServiceSheet, sitting: Sitting) -> bool:
    return sitting.facts.key in sheet.recipes


def begin_at(sitting: Sitting, edition: Edition) -> int | None:
    """Minutes after midnight at which to begin, be it by heating the oven; None where no step is left for service."""
    sheet, key = sheet_of(sitting, edition), sitting.facts.key
    if sheet is None:
        return None
    tasks = [task.at for task in sheet.tasks if task.recipe == key]
    return min([*tasks, *(one.at for one in sheet.heating if one.recipe == key)]) // SECONDS


def _service(sitting: Sitting, edition: Edition) -> tuple[Block, ...]:
    """The tasks left, each with its time on the clock, and when the oven is heated for them."""
    w, sheet = edition.words, sheet_of(sitting, edition)
    if sheet is None:
        return (Para(plain(w.nothing_left_to_do), "note"),)
    columns = (
        Column("", width=6, kind="tick"),
        Column(w.time, width=16, kind="time"),
        Column(w.task),
        Column(w.how_long, width=24),
    )
    key = sitting.facts.key
    rows = [(task.at, 1, _row(task, edition)) for task in sheet.tasks if task.recipe == key]
    rows += [(one.at, 0, _heating(one, edition)) for one in sheet.heating if one.recipe == key]
    rows.sort(key=lambda row: row[:2])
    others = [edition.short(other) for other in sheet.recipes if other != key]
    note: tuple[Para, ...] = (Para(plain(w.timed_with.format(listed(others, w))), "note"),) if others else ()
    note += written_size(sitting.facts.recipe.service, sitting.factor, edition)
    table = Table(columns, tuple(row for *_, row in rows), w.left_for_service, "service")
    return Heading(2, w.left_for_service), *note, table


def _row(task: ServiceTask, edition: Edition) -> Row:
    w = edition.words
    said = [minutes(Fraction(task.seconds, SECONDS))]
    said += [w.unattended] if not task.attended else []
    said += [use_text(use, edition) for use in task.step.uses]
    text = [task.text]
    text += [w.load_of.format(load=task.load, loads=task.loads)] if task.loads > 1 else []
    text += [w.minutes_assumed] if task.assumed_minutes else []
    cells = ((), run(_clock(task.at), "time"), plain(" ".join(text)), plain(", ".join(said)))
    return Row(cells, "" if task.attended else "now")


def _heating(one: Heating, edition: Edition) -> Row:
    w = edition.words
    said = w.heat_oven_to.format(one.to) if one.to else w.heat_oven
    long = f"{minutes(Fraction(one.seconds, SECONDS))}, {w.unattended}"
    return Row(((), run(_clock(one.at), "time"), plain(said), plain(long)), "now")


def _clock(seconds: int) -> str:
    """The minute on the clock, begun ones counted from their start; before midnight is the day before."""
    return clock(seconds // SECONDS % (24 * 60))
