"""The second half of the pipeline: facts to pages, to bytes. The first half is `examine`."""

from __future__ import annotations

import marshal
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from functools import partial

from binder.aside import Aside, Draw
from binder.disk import Content, digest, theme_digest
from binder.examine import Examined, Say
from binder.memory import Memory
from binder.model.library import Library
from binder.outputs import SOME_SECTIONS, Kind
from binder.pages import binder as binder_section
from binder.pages import calendar, data, labels, schema, site
from binder.pages.other_files import LabelPages
from binder.press import data as json_press
from binder.press.calendar import calendar_bytes
from binder.press.geometry import Geometry
from binder.press.html import site_files
from binder.press.pdf import binder_pdf
from binder.press.picture import Copy, bare, screen_copies
from binder.press.theme import Theme
from binder.reckon.facts import WeekFacts
from binder.reckon.recipe_facts import RecipeFacts
from binder.shared import share_files
from binder.tables import sheets


def outputs(
    examined: Examined,
    content: Content,
    theme: Theme,
    kinds: frozenset[Kind],
    memory: Memory,
    say: Say = lambda s: None,
    standing: frozenset[str] = frozenset(),
    sections: frozenset[str] = frozenset(),
) -> Mapping[str, bytes]:
    """Path below the output folder to bytes, for the kinds asked for.

    `standing` names the weeks whose binder lies there already and stays: the site's pages point to it. `sections`: of
    the binder only these, in a file of their own.
    """
    assert examined.library is not None
    printed = frozenset(filter(None, [examined.current])) if "print" in kinds else standing
    files: dict[str, bytes] = {}
    drawings = _drawings(examined, content, theme, kinds, memory, sections)
    known = {path: memory.known(drawing.key) for path, drawing in drawings.items()}
    makers: dict[Kind, Callable[[], Mapping[str, bytes]]] = {
        "facts": lambda: _facts(examined, content, memory),
        "site": lambda: _site(examined, content, theme, memory, printed),
        "calendar": lambda: _calendar(examined),
        "share": lambda: share_files(examined, content, theme, memory),
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


def _facts(examined: Examined, content: Content, memory: Memory) -> dict[str, bytes]:
    files = {f"site/{file.path}": json_press.data_bytes(file) for file in schema.schema_files()}
    with memory.book("facts", content.shown) as book:
        for week, facts in examined.weeks.items():
            anew = partial(_week_facts, facts, examined, content.name)
            # Besides what its mark stands for: the day, what closed weeks say of it, and what is wrong anywhere.
            beside = [(sheet.expected_minutes, sheet.expected_from) for sheet in facts.run_sheets]
            beside_mark = repr((facts.today, beside, facts.problems))
            mark = digest((examined.marks.weeks[week], beside_mark, content.name))
            raw = anew() if week == examined.current else book.recall(mark, anew)
            files[f"site/{data.week_path(week)}"] = raw
        for key, of in examined.recipes.items():
            raw = book.recall(examined.marks.recipes[key], partial(_recipe_facts, of))
            files[f"site/{data.recipe_path(key)}"] = raw
    return files


def _recipe_facts(facts: RecipeFacts) -> bytes:
    return json_press.data_bytes(data.recipe_data(facts))


def _week_facts(facts: WeekFacts, examined: Examined, folder: str) -> bytes:
    lines = labels.label_lines(facts, examined.library_of(facts.week))
    return json_press.data_bytes(data.week_data(facts, lines, folder))


def _named_photos(examined: Examined, content: Content) -> list[str]:
    """The pictures that recipes name, those of closed weeks too."""
    recipes = [facts.recipe for week in examined.weeks.values() for facts in week.recipes.values()]
    named = {one.photo for one in (*_library(examined).recipes.values(), *recipes) if one.photo}
    return sorted(named & set(content.photos))


def _photos(examined: Examined, content: Content, memory: Memory) -> dict[str, bytes]:
    """For the binder, as pixels alone."""

    def clean(name: str) -> bytes:
        return memory.recall(("photo", name, content.photos[name]), lambda: bare(name, content.photos[name]))

    return {name: picture for name in _named_photos(examined, content) if (picture := clean(name))}


def _screen_photos(examined: Examined, content: Content, memory: Memory) -> dict[str, tuple[Copy, ...]]:
    """For the site, in its widths."""

    def copies(name: str) -> tuple[Copy, ...]:
        def packed() -> bytes:
            made = screen_copies(name, content.photos[name])
            return marshal.dumps([(c.file, c.width, c.height, c.content) for c in made])

        raw = memory.recall(("screen photo", name, content.photos[name]), packed)
        return tuple(Copy(*one) for one in marshal.loads(raw))

    return {name: copies(name) for name in _named_photos(examined, content)}


def _site(
    examined: Examined, content: Content, theme: Theme, memory: Memory, printed: frozenset[str]
) -> dict[str, bytes]:
    library, asked = _library(examined), examined.asked
    photos = _screen_photos(examined, content, memory)
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
        recipe_marks=examined.marks.recipes,
        week_marks=examined.marks.weeks,
        then=examined.then,
        years=examined.years,
    )
    with memory.book("pages", content.shown) as book:
        return {f"site/{path}": raw for path, raw in site_files(whole, theme, photos, book.recall).items()}


def _current(examined: Examined) -> WeekFacts | None:
    return examined.weeks.get(examined.current or "")


def _calendar(examined: Examined) -> dict[str, bytes]:
    facts = _current(examined)
    if facts is None:
        return {}
    return {
        f"calendar/{facts.week}.ics": calendar_bytes(calendar.calendar_events(facts, examined.library_of(facts.week)))
    }


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
    examined: Examined,
    content: Content,
    theme: Theme,
    kinds: frozenset[Kind],
    memory: Memory,
    sections: frozenset[str],
) -> dict[str, Drawing]:
    facts = _current(examined)
    found: dict[str, Drawing] = {}
    if facts is not None and "print" in kinds:
        name = SOME_SECTIONS if sections else "-binder.pdf"
        drawing = _binder(facts, examined, content, theme, memory, sections)
        if drawing is not None:
            found[f"print/{facts.week}{name}"] = drawing
    if facts is not None and facts.labels and "labels" in kinds:
        found[f"print/{facts.week}-labels.pdf"] = _labels(facts, examined, theme)
    return found


def _labels(facts: WeekFacts, examined: Examined, theme: Theme) -> Drawing:
    library, today = examined.library_of(facts.week), examined.asked.today
    sheet = labels.label_pages(facts, library, draft=examined.asked.draft)
    place = geometry(library)
    base = (library.household.site_address or "").rstrip("/")
    codes = tuple(f"{base}/recipes/{label.recipe}/index.html" for label in facts.labels) if base else ()
    marks = library.household.labels.cut_marks
    key = ("labels", repr(sheet), repr(place), repr(codes), theme_digest(theme), str(today), str(marks))
    return Drawing(key, partial(_labels_pdf, sheet, place, theme, today, codes, marks))


def _labels_pdf(
    pages: LabelPages, place: Geometry, theme: Theme, today: date, codes: tuple[str, ...], marks: bool
) -> bytes:
    from binder.press.labels import labels_pdf  # What draws PDFs is loaded where it draws.

    return labels_pdf(pages, place, theme, today, codes, cut_marks=marks)


def _binder(
    facts: WeekFacts,
    examined: Examined,
    content: Content,
    theme: Theme,
    memory: Memory,
    sections: frozenset[str],
) -> Drawing | None:
    """The binder, or some of its sections; None where the week has nothing for these."""
    asked = examined.asked
    made = binder_section.binder_pages(
        facts,
        examined.library_of(facts.week),
        facts.recipes or examined.recipes,
        draft=asked.draft,
        private=asked.private,
    )
    if sections:
        made = binder_section.only_sections(made, sections)
        if not made.sections:
            return None
    photos, today = _photos(examined, content, memory), examined.asked.today
    key = ("binder", repr(made), theme_digest(theme), str(today), repr(sorted(photos.items())))
    return Drawing(key, partial(binder_pdf, made, theme, today, photos))
