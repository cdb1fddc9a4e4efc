"""Section 10: kits: the set, what is stored apart from it, and what is left to do when it is cooked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from binder.model.recipe import Step
from binder.pages.card_ingredients import line_of, unique_by_text
from binder.pages.card_notes import allergen_box
from binder.pages.card_steps import step_minutes, use_text
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
from binder.reckon.facts import RecipeFacts, Serving


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
    stored = [w.kept.get(first.kept, first.kept)]
    stored += [w.used_frozen] if first.from_frozen else []
    stored += [w.pull_evening.format(day(first.pull_on, w))] if first.pull_on else []
    stored += [w.use_by_day.format(day(first.use_by, w))] if first.use_by else []
    pairs.append((w.stored, plain("; ".join(stored))))
    begin = begin_at(sitting, edition)
    if begin is not None:
        pairs.append(
            (
                w.begin,
                run(w.begin_to_eat.format(begin=clock(begin), meal=clock(_meal_at(sitting, edition) or 0)), "strong"),
            )
        )
    return tuple(pairs)


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


def service_minutes(sitting: Sitting) -> Fraction | None:
    """The tasks left for service one after another; None where one has no minutes."""
    each = [step_minutes(s, sitting.factor, sitting.portions) for s in sitting.facts.recipe.service]
    known = [m for m in each if m is not None]
    return sum(known, Fraction(0)) if each and len(known) == len(each) else None


def begin_at(sitting: Sitting, edition: Edition) -> int | None:
    """Minutes after midnight at which to begin so that it is on the table at its hour."""
    needed, at = service_minutes(sitting), _meal_at(sitting, edition)
    return None if needed is None or at is None else int(at - needed)


def _service(sitting: Sitting, edition: Edition) -> tuple[Block, ...]:
    """The tasks left, each with its time on the clock where the minutes are written."""
    w, steps = edition.words, sitting.facts.recipe.service
    if not steps:
        return (Para(plain(w.nothing_left_to_do), "note"),)
    columns = (
        Column("", width=6, kind="tick"),
        Column(w.time, width=16, kind="time"),
        Column(w.task),
        Column(w.how_long, width=24),
    )
    return Heading(2, w.left_for_service), Table(columns, _rows(sitting, steps, edition), w.left_for_service, "service")


def _rows(sitting: Sitting, steps: Sequence[Step], edition: Edition) -> tuple[Row, ...]:
    w = edition.words
    at: Fraction | None = None if (begin := begin_at(sitting, edition)) is None else Fraction(begin)
    rows = []
    for step in steps:
        needed = step_minutes(step, sitting.factor, sitting.portions)
        said = [minutes(needed)] if needed is not None else []
        said += [w.unattended] if step.unattended else []
        said += [use_text(use, edition) for use in step.uses]
        rows.append(
            Row(((), run(clock(int(at)) if at is not None else "", "time"), plain(step.text), plain(", ".join(said))))
        )
        at = None if at is None or needed is None else at + needed
    return tuple(rows)
