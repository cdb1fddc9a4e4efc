"""From files to facts: read, check, reckon. What `binder check` needs, and the first half of every build."""

from __future__ import annotations

import pickle
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from functools import partial
from types import MappingProxyType
from typing import Literal

from binder.check.editions import FOLDER as EDITIONS
from binder.check.library import STOCK, check_library
from binder.disk import Content
from binder.kept import Kept
from binder.marks import Marks, marks_of
from binder.memory import Book, Memory, Recent
from binder.model.library import Library
from binder.model.week import Week
from binder.problem import Problem, in_order
from binder.reckon import closing, past, plan, recipes, run_sheet
from binder.reckon.closed import as_it_was
from binder.reckon.facts import WeekFacts
from binder.reckon.past_facts import ToClose, Year
from binder.reckon.recipe_facts import RecipeFacts
from binder.reckon.run_sheet_apart import Drawn, Pairs
from binder.reckon.run_sheet_order import Care
from binder.reckon.run_sheet_problem import Kitchen
from binder.reckon.tried import AS_WRITTEN, Tried, as_tried
from binder.source.document import Document, read_document
from binder.week_memory import WeekMemory

Say = Callable[[str], None]
NO_MARKS = Marks()


@dataclass(frozen=True, slots=True)
class Asked:
    """What a build is asked for: the day it counts from, one week or None, whether as a draft, whether the household's
    own pages (binder and site) show its private notes (nothing else ever does), and other sessions than are written
    for the week that is printed."""

    today: date
    week: str | None = None
    draft: bool = False
    private: bool = False
    tried: Tried = AS_WRITTEN


class NoSession(Exception):
    """The sessions that are to be tried are none of the week's."""


@dataclass(frozen=True, slots=True)
class Examined:
    """Everything that was understood and reckoned, and every problem. library None: nothing to build from."""

    asked: Asked
    library: Library | None
    recipes: Mapping[str, RecipeFacts]
    weeks: Mapping[str, WeekFacts]
    current: str | None
    problems: tuple[Problem, ...]
    texts: Mapping[str, str]
    marks: Marks = NO_MARKS
    then: Mapping[str, Library] = field(default_factory=lambda: MappingProxyType({}))  # closed weeks, as they were made
    years: tuple[Year, ...] = ()

    def library_of(self, week: str) -> Library:
        """What a week was made of."""
        assert self.library is not None
        return self.then.get(week, self.library)

    @property
    def has_errors(self) -> bool:
        return any(problem.severity == "error" for problem in self.problems)


def read(content: Content, recent: Recent | None = None) -> Mapping[str, Document]:
    """Every file as a document, by its path within the content folder; but for what closed weeks keep of theirs."""
    last = recent or Recent()

    def document(path: str, raw: bytes) -> Document:
        kind: Literal["yaml", "markdown"] = "yaml" if path.endswith(".yaml") else "markdown"
        return last.recall(("document", path, raw), partial(read_document, raw, path, kind))

    return {path: document(path, raw) for path, raw in content.files.items() if not path.startswith(f"{EDITIONS}/")}


def examine(
    content: Content, asked: Asked, memory: Memory, say: Say = lambda stage: None, recent: Recent | None = None
) -> Examined:
    """Read, check and reckon. With a week asked for, only what that week needs.

    `recent` is of the builds before in this process: what did not change is taken from it as it is.
    """
    last = recent or Recent()
    last.begin()
    say("reading")
    documents = read(content, last)
    texts = {path: document.text for path, document in documents.items()}
    say("checking")
    checked = check_library(documents, frozenset(content.photos), asked.week, last.recall)
    if checked.library is None:
        return Examined(asked, None, {}, {}, None, in_order(checked.problems), texts)
    current = plan.printed_week(checked.library, asked.today, asked.week)
    library = _as_tried(checked.library, current, asked.tried) if asked.tried else checked.library
    kept = Kept(library, documents, content)
    say("reckoning")
    marks = marks_of(library, content.files, asked.today, frozenset(kept))

    def reckoned(key: str, make: Callable[[], recipes.Reckoned]) -> recipes.Reckoned:
        return last.recall(("facts", marks.recipes[key]), make)

    facts, unweighed = recipes.all_facts(library.recipes, library.household, reckoned)
    with memory.book("run-sheets", content.shown) as sheets, memory.book("weeks", content.shown) as book:
        archive = WeekMemory(book, facts, library.household)
        draw_up = _remembered(sheets)
        then = {key: made for key in kept if (made := _as_made(key, kept, marks, archive, draw_up))}
        was = {key: week for key, (week, _) in then.items()}
        library = replace(library, weeks=MappingProxyType({**library.weeks, **was}))
        weeks = _weeks(library, facts, current, asked, draw_up, archive, marks, then)
    serves = current is not None and not library.weeks[current].is_archive
    stale = () if serves else plan.past_their_time(library, asked.today)
    known = (*checked.problems, *unweighed, *stale)
    problems = in_order((*known, *(p for week in weeks.values() for p in week.problems)))
    weeks = {key: _with_known(week, known, key in then) for key, week in weeks.items()}
    years = past.years(library, weeks)
    return Examined(asked, library, facts, weeks, current, problems, texts, marks, kept, years)


def _as_tried(library: Library, current: str | None, tried: Tried) -> Library:
    """The household with the sessions of the week that is printed as they are tried."""
    week = library.weeks.get(current or "")
    if week is None or week.closed is not None:
        raise NoSession(f"{current} is closed" if week else "there is no week")
    other = as_tried(week, tried)
    if other is None:
        days = ", ".join(f"{session.on}" for session in week.sessions)
        raise NoSession(f"the sessions of {week.key} are on {days}" if days else f"{week.key} has no session")
    return replace(library, weeks=MappingProxyType({**library.weeks, week.key: other}))


def _with_known(week: WeekFacts, known: tuple[Problem, ...], as_made: bool) -> WeekFacts:
    """A week with all that was found before it was reckoned, but for what stands in other weeks' files; a week that
    is as it was made has nothing to do with today's recipes, household and stock."""
    mine = f"weeks/{week.week}.md"
    here = (p for p in known if p.span.path == mine or not (as_made or p.span.path.startswith("weeks/")))
    return replace(week, problems=in_order((*week.problems, *here)))


def _weeks(
    library: Library,
    facts: Mapping[str, RecipeFacts],
    current: str | None,
    asked: Asked,
    draw_up: run_sheet.DrawUp,
    archive: WeekMemory,
    marks: Marks,
    then: Mapping[str, tuple[Week, WeekFacts]],
) -> dict[str, WeekFacts]:
    """Each week's facts; the stock on hand serves the current week, the others are archive.

    A closed week keeps what it was: only what the stock has of it may be a problem.
    """

    def reckoned(week: Week) -> WeekFacts:
        if week.key in then:
            return replace(then[week.key][1], today=asked.today)
        stock = library.stock if week.key == current and not week.is_archive else None
        anew = partial(plan.reckon_week, week, library, facts, stock, asked.today, draw_up=draw_up)
        found = anew() if week.key == current else archive.week(marks.weeks[week.key], anew)
        if week.closed is None:
            return replace(past.with_past(found, library), to_close=to_close(week, found))
        left = tuple(p for p in found.problems if p.span.path == STOCK)
        return replace(as_it_was(found, week.came_to, library.household), problems=left)

    def to_close(week: Week, found: WeekFacts) -> tuple[ToClose, ...]:
        """The rows as closing will have them: by the stock on hand, from the plan's first day."""
        begins = week.first_day
        if begins > asked.today and week.key != current:
            return ()

        def rows() -> tuple[ToClose, ...]:
            then = found
            if week.key != current or begins != asked.today:
                then = plan.reckon_week(week, library, facts, library.stock, begins, draw_up=draw_up)
            return closing.asked(closing.rows(then, facts, library.stock), then.servings)

        return rows() if week.key == current else archive.recall(marks.to_close(week.key), rows)

    return {week.key: reckoned(week) for week in library.weeks.values() if asked.week in (None, week.key)}


def _as_made(
    key: str, kept: Kept, marks: Marks, archive: WeekMemory, draw_up: run_sheet.DrawUp
) -> tuple[Week, WeekFacts] | None:
    """A closed week and its facts, reckoned from what it was made of with the stock it began with; None when that
    cannot be read any more."""

    def made() -> tuple[Week, WeekFacts] | None:
        then = kept.get(key)
        if then is None:
            return None
        week, (facts, _) = then.weeks[key], recipes.all_facts(then.recipes, then.household)
        found = plan.reckon_week(week, then, facts, then.stock, week.first_day, draw_up=draw_up)
        return week, as_it_was(found, week.came_to, then.household)

    return archive.recall(f"as made {marks.weeks[key]}", made)


def _remembered(book: Book) -> run_sheet.DrawUp:
    """Run sheets take most of a week's time, and their problem is small and stays from build to build."""

    def draw_up(kitchen: Kitchen, care: tuple[Care, ...], apart: tuple[Pairs, ...]) -> Drawn:
        raw = book.recall(repr((kitchen, care, apart)), lambda: pickle.dumps(run_sheet.drawn_up(kitchen, care, apart)))
        drawn: Drawn = pickle.loads(raw)
        return drawn

    return draw_up
