"""The pipeline on one screen: files to documents, to a library, to facts, to pages, to bytes."""

from __future__ import annotations

import copyreg
import pickle
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from functools import partial
from types import MappingProxyType
from typing import Any

from binder.aside import Aside, Draw
from binder.check.library import STOCK, check_library
from binder.disk import Content, Memory, digest
from binder.model.library import Library
from binder.model.week import Week
from binder.outputs import Kind
from binder.pages import binder as binder_section
from binder.pages import calendar, data, feed, labels, schema, share, site
from binder.press import data as json_press
from binder.press.calendar import calendar_bytes
from binder.press.feed import feed_bytes
from binder.press.html import site_files
from binder.press.labels import Geometry, labels_pdf
from binder.press.pdf import binder_pdf
from binder.press.picture import bare
from binder.press.share import shared_html
from binder.press.theme import Theme
from binder.problem import Problem, in_order
from binder.reckon import plan, recipes
from binder.reckon.facts import RecipeFacts, WeekFacts
from binder.source.document import Document, read_document
from binder.tables import sheets

Say = Callable[[str], None]


def _read_only(values: dict[Any, Any]) -> MappingProxyType[Any, Any]:
    return MappingProxyType(values)


# Read-only mappings stand in the facts; the memory of a build has to be able to write them down.
copyreg.pickle(MappingProxyType, lambda mapping: (_read_only, (dict(mapping),)))


@dataclass(frozen=True, slots=True)
class Asked:
    """What a build is asked for: the day it counts from, one week or None, whether as a draft, and whether the
    household's own pages (binder and site) show its private notes; nothing else ever does."""

    today: date
    week: str | None = None
    draft: bool = False
    private: bool = False


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

    @property
    def has_errors(self) -> bool:
        return any(problem.severity == "error" for problem in self.problems)


def read(content: Content) -> Mapping[str, Document]:
    """Every file as a document, by its path within the content folder."""
    return {
        path: read_document(raw, path, "yaml" if path.endswith(".yaml") else "markdown")
        for path, raw in content.files.items()
    }


def examine(content: Content, asked: Asked, memory: Memory, say: Say = lambda stage: None) -> Examined:
    """Read, check and reckon. With a week asked for, only what that week needs."""
    say("reading")
    documents = read(content)
    texts = {path: document.text for path, document in documents.items()}
    say("checking")
    checked = check_library(documents, frozenset(content.photos), asked.week)
    if checked.library is None:
        return Examined(asked, None, {}, {}, None, in_order(checked.problems), texts)
    library = checked.library
    say("reckoning")
    facts, unweighed = recipes.all_facts(library.recipes, library.household)
    current = current_week(library, asked)
    weeks = _weeks(content, library, facts, current, asked, memory)
    past = () if current else plan.past_their_time(library, asked.today)
    known = (*checked.problems, *unweighed, *past)
    problems = in_order((*known, *(p for week in weeks.values() for p in week.problems)))
    weeks = {key: _with_known(week, known) for key, week in weeks.items()}
    return Examined(asked, library, facts, weeks, current, problems, texts)


def _with_known(week: WeekFacts, known: tuple[Problem, ...]) -> WeekFacts:
    """A week with all that was found before it was reckoned, but for what stands in other weeks' files."""
    mine = f"weeks/{week.week}.md"
    here = (p for p in known if p.span.path == mine or not p.span.path.startswith("weeks/"))
    return replace(week, problems=in_order((*week.problems, *here)))


def _weeks(
    content: Content,
    library: Library,
    facts: Mapping[str, RecipeFacts],
    current: str | None,
    asked: Asked,
    memory: Memory,
) -> dict[str, WeekFacts]:
    """Each week's facts; the stock on hand serves the current week, the others are archive.

    A closed week keeps what it was: only what the stock has of it may be a problem.
    """
    wanted = [week for week in library.weeks.values() if asked.week in (None, week.key)]
    shared = _shared(content)

    def reckoned(week: Week) -> WeekFacts:
        stock = library.stock if week.key == current else None
        plan_text = content.files.get(f"weeks/{week.key}.md", b"")
        # With a week named, other recipes than its own are not read: remedies offer fewer dishes.
        key = ("week", shared, plan_text, str(asked.today), str(stock is None), str(asked.week))
        raw = memory.recall(
            key, lambda: pickle.dumps(plan.reckon_week(week, library, facts, stock, asked.today), protocol=5)
        )
        restored: WeekFacts = pickle.loads(raw)
        left = tuple(p for p in restored.problems if p.span.path == STOCK)
        return replace(restored, problems=left) if week.closed is not None else restored

    return {week.key: reckoned(week) for week in wanted}


def _shared(content: Content) -> str:
    """The hash of all that every week depends on: everything but the weeks and the photos."""
    parts = [
        part for name, raw in sorted(content.files.items()) if not name.startswith("weeks/") for part in (name, raw)
    ]
    return digest((*parts, str(sorted(content.photos))))


def current_week(library: Library, asked: Asked) -> str | None:
    """The week that is printed: the one named, else the one under way or next, else the last.

    A week is under way from its first session to its Sunday; on a day of two weeks it is the later one.
    """
    if asked.week in library.weeks:
        return asked.week
    weeks = sorted(library.weeks.values(), key=lambda week: week.monday)

    def begins(week: Week) -> date:
        return min([week.monday, *(session.on for session in week.sessions)])

    under_way = [w for w in weeks if begins(w) <= asked.today <= w.monday + timedelta(days=6)]
    coming = [w for w in weeks if begins(w) > asked.today]
    if under_way:
        return under_way[-1].key
    if coming:
        return coming[0].key
    return weeks[-1].key if weeks else None


# ---- outputs ----


def outputs(
    examined: Examined,
    content: Content,
    theme: Theme,
    kinds: frozenset[Kind],
    memory: Memory,
    say: Say = lambda s: None,
    standing: frozenset[str] = frozenset(),
) -> Mapping[str, bytes]:
    """Path below the output folder to bytes, for the kinds asked for.

    `standing` names the weeks whose binder lies there already and stays: the site's pages point to it.
    """
    assert examined.library is not None
    printed = frozenset(filter(None, [examined.current])) if "print" in kinds else standing
    files: dict[str, bytes] = {}
    drawings = _drawings(examined, content, theme, kinds, memory)
    known = {path: memory.known(drawing.key) for path, drawing in drawings.items()}
    makers: dict[Kind, Callable[[], Mapping[str, bytes]]] = {
        "facts": lambda: _facts(examined, content),
        "site": lambda: _site(examined, content, theme, memory, printed),
        "calendar": lambda: _calendar(examined),
        "share": lambda: _share(examined, content, theme),
    }
    with Aside({path: drawings[path].draw for path, pdf in known.items() if pdf is None}) as aside:
        for kind, make in makers.items():
            if kind in kinds:
                say(f"making {kind}")
                files.update(make())
        for path, pdf in known.items():
            say(f"drawing {path}")
            files[path] = memory.keep(drawings[path].key, aside.take(path)) if pdf is None else pdf
    return files


def _library(examined: Examined) -> Library:
    assert examined.library is not None
    return examined.library


def _facts(examined: Examined, content: Content) -> dict[str, bytes]:
    library = _library(examined)
    made = [*schema.schema_files(), *(data.recipe_data(facts) for facts in examined.recipes.values())]
    for facts in examined.weeks.values():
        lines = tuple(labels.label_lines(label, facts, library) for label in facts.labels)
        made.append(data.week_data(facts, lines, content.name))
    return {f"site/{file.path}": json_press.data_bytes(file) for file in made}


def _photos(examined: Examined, content: Content, memory: Memory) -> dict[str, bytes]:
    """The pictures that recipes name, as pixels alone."""
    names = sorted({r.photo for r in _library(examined).recipes.values() if r.photo and r.photo in content.photos})

    def clean(name: str) -> bytes:
        return memory.recall(("photo", name, content.photos[name]), lambda: bare(name, content.photos[name]))

    return {name: picture for name in names if (picture := clean(name))}


def _site(
    examined: Examined, content: Content, theme: Theme, memory: Memory, printed: frozenset[str]
) -> dict[str, bytes]:
    library, asked = _library(examined), examined.asked
    photos = _photos(examined, content, memory)
    weeks, current = examined.weeks, examined.current
    whole = site.site_pages(
        library,
        examined.recipes,
        weeks,
        current,
        asked.today,
        draft=asked.draft,
        printed=printed,
        private=asked.private,
    )
    files = {f"site/{path}": raw for path, raw in site_files(whole, theme, photos).items()}
    files |= {f"site/photos/{name}": raw for name, raw in photos.items()}
    return files


def _current(examined: Examined) -> WeekFacts | None:
    return examined.weeks.get(examined.current or "")


def _calendar(examined: Examined) -> dict[str, bytes]:
    facts = _current(examined)
    if facts is None:
        return {}
    return {f"calendar/{facts.week}.ics": calendar_bytes(calendar.calendar_events(facts, _library(examined)))}


def _share(examined: Examined, content: Content, theme: Theme) -> dict[str, bytes]:
    library = _library(examined)
    language = library.household.language
    files: dict[str, bytes] = {}
    for page in share.share_pages(library, examined.recipes):
        key = page.path.removesuffix(".html").rsplit("/", 1)[-1]
        name = library.recipes[key].photo if key in library.recipes else None
        photos = {name: content.photos[name]} if name and name in content.photos else {}
        files[f"share/{key}.html"] = shared_html(page, theme, language, photos)
    if facts := _current(examined):
        page = share.share_week(facts, library)
        files[f"share/{facts.week}.html"] = shared_html(page, theme, language, {})
    news = feed.feed(library, examined.recipes, examined.asked.today)
    return files | ({"share/feed.xml": feed_bytes(news)} if news else {})


def geometry(library: Library) -> Geometry:
    """The household's label sheet, with its calibration."""
    stock = library.household.labels
    sheet = sheets.sheet(stock.sheet)
    assert sheet is not None, "checked"
    return Geometry(
        sheet.page_mm,
        sheet.label_mm,
        sheet.left_mm,
        sheet.top_mm,
        sheet.gap_x_mm,
        sheet.gap_y_mm,
        sheet.columns,
        sheet.rows,
        stock.offset_mm,
    )


@dataclass(frozen=True, slots=True)
class Drawing:
    """A PDF to draw, and the key under which it is remembered: all that it is drawn from."""

    key: tuple[str, ...]
    draw: Draw


def _drawings(
    examined: Examined, content: Content, theme: Theme, kinds: frozenset[Kind], memory: Memory
) -> dict[str, Drawing]:
    facts = _current(examined)
    found: dict[str, Drawing] = {}
    if facts is not None and "print" in kinds:
        found[f"print/{facts.week}-binder.pdf"] = _binder(facts, examined, content, theme, memory)
    if facts is not None and facts.labels and "labels" in kinds:
        found[f"print/{facts.week}-labels.pdf"] = _labels(facts, examined, theme)
    return found


def _labels(facts: WeekFacts, examined: Examined, theme: Theme) -> Drawing:
    library, today = _library(examined), examined.asked.today
    sheet = labels.label_pages(facts, library, draft=examined.asked.draft)
    place = geometry(library)
    base = (library.household.site_address or "").rstrip("/")
    codes = tuple(f"{base}/recipes/{label.recipe}/index.html" for label in facts.labels) if base else ()
    key = ("labels", repr(sheet), repr(place), repr(codes), _of_theme(theme), str(today))
    return Drawing(key, partial(labels_pdf, sheet, place, theme, today, codes))


def _binder(facts: WeekFacts, examined: Examined, content: Content, theme: Theme, memory: Memory) -> Drawing:
    asked = examined.asked
    made = binder_section.binder_pages(
        facts, _library(examined), examined.recipes, draft=asked.draft, private=asked.private
    )
    photos, today = _photos(examined, content, memory), examined.asked.today
    key = ("binder", repr(made), _of_theme(theme), str(today), repr(sorted(photos.items())))
    return Drawing(key, partial(binder_pdf, made, theme, today, photos))


def _of_theme(theme: Theme) -> str:
    kinds = (theme.templates, theme.css, theme.fonts, theme.scripts)
    return digest(tuple(part for files in kinds for name in sorted(files) for part in (name, files[name])))
