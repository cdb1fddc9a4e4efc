"""What one binder is made from, and the look-ups that its sections share."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta
from fractions import Fraction
from types import MappingProxyType
from typing import TypeVar

from binder.model.household import HOME, Household
from binder.model.library import Library
from binder.model.recipe import MEALS
from binder.model.week import Session, Week
from binder.pages.format import clock, day, fraction, half_up, listed, with_unit
from binder.pages.house_style import HouseStyle, house_style
from binder.pages.page import Run, RunKind, Text
from binder.pages.short_names import short_names
from binder.pages.words.en import Words
from binder.reckon.facts import Batch, Serving, WeekFacts
from binder.reckon.recipe_facts import RecipeFacts, ReheatFacts

T = TypeVar("T")

PRESSURE_COOKER = "pressure cooker"


@dataclass(frozen=True, slots=True)
class Edition:
    """One week's facts, what they came from, and how to speak. `private`: the household's private notes too.

    `ordered`: the servings in their order, when that has been worked out once for all. `shorts`: short names by key.
    """

    facts: WeekFacts
    library: Library
    recipes: Mapping[str, RecipeFacts]
    style: HouseStyle
    private: bool = False
    ordered: tuple[Serving, ...] | None = None
    shorts: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))

    @property
    def words(self) -> Words:
        return self.style.words

    @property
    def household(self) -> Household:
        return self.library.household

    @property
    def week(self) -> Week | None:
        return self.library.weeks.get(self.facts.week)

    @property
    def monday(self) -> date:
        return monday_of(self.facts.week)

    @property
    def eaters(self) -> tuple[str, ...]:
        """Names in the household's order."""
        return tuple(eater.name for eater in self.household.eaters)

    @property
    def sessions(self) -> tuple[Session, ...]:
        """The sessions that something is made in, in order of time."""
        found = {batch.session for batch in self.facts.batches} | {s.of for s in self.facts.run_sheets}
        return tuple(sorted((s for s in found if s), key=session_order))

    def facts_of(self, key: str) -> RecipeFacts | None:
        return self.recipes.get(key) or self.facts.recipes.get(key)

    def title(self, key: str) -> str:
        """A recipe's title; its key when nothing is known of it."""
        known = self.facts_of(key)
        if known:
            return known.title
        recipe = self.library.recipes.get(key)
        return recipe.title if recipe else key

    def short(self, key: str) -> str:
        """A recipe's short name, for lists; its title where it has none."""
        return self.shorts.get(key) or self.title(key)

    def titles(self, keys: Iterable[str]) -> tuple[str, ...]:
        return tuple(self.title(key) for key in keys)

    def batch(self, id_: str) -> Batch | None:
        return next((b for b in self.facts.batches if b.id == id_), None) if id_ else None

    def serving(self, id_: str) -> Serving | None:
        return next((s for s in self.facts.servings if s.id == id_), None)

    def servings_of(self, batch: Batch) -> tuple[Serving, ...]:
        """The servings from one batch, in order of day, meal and eater."""
        return tuple(s for s in self.servings if batch.id and s.batch == batch.id)

    @property
    def servings(self) -> tuple[Serving, ...]:
        """All servings in order of day, meal and eater; those without a day last."""
        return in_order(self.facts.servings, self.eaters) if self.ordered is None else self.ordered

    def days(self) -> tuple[date, ...]:
        """Monday to Sunday, and before them any earlier day on which something is to be done."""
        week = {self.monday + timedelta(days=n) for n in range(7)}
        early = {s.on for s in self.sessions} | {pull.pull_on for pull in self.facts.pull_list}
        return tuple(sorted(week | early))


def edition_of(
    facts: WeekFacts, library: Library, recipes: Mapping[str, RecipeFacts], private: bool = False
) -> Edition:
    """The edition of a week, in its household's style."""
    household = library.household
    ordered = in_order(facts.servings, tuple(eater.name for eater in household.eaters))
    return Edition(
        facts, library, recipes, house_style(household), private, ordered, shorts_of(facts, library, recipes)
    )


def shorts_of(facts: WeekFacts, library: Library, recipes: Mapping[str, RecipeFacts]) -> Mapping[str, str]:
    """The short names of a week's dishes; they differ within the week."""
    stock = {key for one in facts.use_first for key in (one.recipe, *one.dishes) if key}
    keys = {*facts.recipes, *(s.recipe for s in facts.servings), *(b.recipe for b in facts.batches), *stock}
    dishes = {}
    for key in sorted(keys):
        known = recipes.get(key) or facts.recipes.get(key)
        recipe = library.recipes.get(key) or (known.recipe if known else None)
        if recipe:
            dishes[key] = known.title if known else recipe.title, recipe.short
    return short_names(dishes)


def in_order(servings: Iterable[Serving], eaters: Sequence[str]) -> tuple[Serving, ...]:
    """By day, meal and eater; those without a day last."""
    rank = {name: n for n, name in enumerate(eaters)}

    def place(serving: Serving) -> tuple[date, int, int, str]:
        eater = rank.get(serving.eater, len(rank))
        return serving.date or date.max, meal_rank(serving.meal), eater, serving.id

    return tuple(sorted(servings, key=place))


def monday_of(week: str) -> date:
    """The Monday of an ISO 8601 week, `2026-W24`."""
    year, _, number = week.partition("-W")
    return date.fromisocalendar(int(year), int(number), 1)


def session_order(session: Session) -> tuple[date, int, str]:
    """What sessions are sorted by: day, minutes after midnight, place."""
    return session.on, session.at_minutes, session.place


def meal_rank(meal: str) -> int:
    """Place in the day; what is no known meal comes last."""
    return list(MEALS).index(meal) if meal in MEALS else len(MEALS)


def session_title(session: Session, words: Words) -> str:
    """`Sun 7 Jun, 13:00`, with the place when it is not home."""
    at = f"{day(session.on, words)}, {clock(session.at_minutes)}"
    return at if session.place == HOME else f"{at}, {session.place}"


def as_tried(session: Session | None, words: Words) -> str:
    """What is tried in a session that the week's file has otherwise; "" when it is as written."""
    if session is None or session.written is None:
        return ""
    written = session.written
    said = []
    if session.cooks != written.cooks:
        said.append(words.tried_cooks(session.cooks, written.cooks))
    if session.at_minutes != written.at_minutes:
        said.append(words.tried_at.format(other=clock(session.at_minutes), written=clock(written.at_minutes)))
    return words.tried.format(listed(said, words))


_PORTION_PARTS = (1, 2, 3, 4, 8)


def portions(count: Fraction | float, words: Words) -> str:
    """`1 portion`, `2½ portions`; what nobody can measure out to the nearest quarter, as `about 3¼ portions`."""
    exact = count if isinstance(count, Fraction) else Fraction(count).limit_denominator(1000)
    if exact.denominator in _PORTION_PARTS or exact < Fraction(1, 8):
        return with_unit(fraction(exact), words.unit("portion", exact))
    near = half_up(exact, Fraction(1, 4) if exact >= Fraction(3, 16) else Fraction(1, 8))
    return words.about.format(with_unit(fraction(near), words.unit("portion", near)))


def run(text: str, kind: RunKind = "", href: str | None = None) -> Text:
    """One stretch of text, or none."""
    return (Run(text, kind, href),) if text else ()


def together(parts: Iterable[Text], separator: str) -> Text:
    """Several texts with a separator between them."""
    said: list[Run] = []
    for part in parts:
        if part and said:
            said.append(Run(separator))
        said.extend(part)
    return tuple(said)


def chunks(items: Sequence[T], size: int) -> Iterator[Sequence[T]]:
    """In order, as even as they come, none longer than `size`."""
    count = -(-len(items) // size)
    for n in range(count):
        yield items[n * len(items) // count : (n + 1) * len(items) // count]


def unique(items: Iterable[T]) -> tuple[T, ...]:
    """Each once, in the order of their first appearance."""
    return tuple(dict.fromkeys(items))


def whom_and_when(served: Iterable[tuple[str, date]], words: Words) -> str:
    """`Ilka and Bea, Fri 12 Jun; Ilka, Sat 13 Jun`, days in order."""
    pairs = list(served)
    by_day = (
        (on, listed(unique(who for who, when in pairs if when == on), words)) for on in unique(d for _, d in pairs)
    )
    return "; ".join(f"{who}, {day(on, words)}" for on, who in sorted(by_day))


def is_cold(reheat: ReheatFacts | None) -> bool:
    """Whether it is eaten cold where it is written so; a dish without any way of reheating is not."""
    return reheat is not None and reheat.means == "cold"


def name_of(anchor: str) -> str:
    """Words as an anchor: lower case, hyphens."""
    return "-".join("".join(c if c.isalnum() else " " for c in anchor.lower()).split())
