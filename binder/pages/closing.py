"""How the week went, asked on a screen: the questions of the binder's last page, answered into a file."""

from __future__ import annotations

from binder.pages.edition import portions, session_title
from binder.pages.format import day, minutes, week_title
from binder.pages.page import Ask, AskGroup, Block, Form, Heading, Page, Para, plain
from binder.pages.site_shelf import WEEKS_PATH, Shelf, week_path
from binder.pages.words.en import Words
from binder.reckon.facts import WeekFacts
from binder.reckon.past_facts import ToClose

_AS_LISTED = "as listed"  # what the command takes


def closing_path(key: str) -> str:
    """Where the form of an open week lies, below the site."""
    return f"weeks/{key}/how-it-went/index.html"


def is_open(key: str, shelf: Shelf) -> bool:
    """Whether the week has begun and nobody has closed it."""
    facts = shelf.weeks.get(key)
    return facts is not None and bool(facts.to_close)


def closing_page(key: str, shelf: Shelf) -> Page:
    """The form of an open week. Its names are those of `binder close-week --set`, and its file that of `--from`."""
    w, facts = shelf.words, shelf.weeks[key]
    file = f"{key}-closing.json"
    dishes = tuple(_dish(dish, shelf) for dish in facts.to_close)
    blocks: list[Block] = [Heading(2, w.dishes_head, "dishes"), *dishes]
    if sessions := _sessions(key, facts, shelf):
        blocks += [Heading(2, w.minutes_it_took, "sessions"), AskGroup("", sessions)]
    if any(row.left_over.high > 0 for row in facts.shopping):
        asked = Ask("bought", w.ask_bought, "choice", choices=(("", w.not_said), (_AS_LISTED, w.bought_as_listed)))
        blocks += [Heading(2, w.shopping, "shopping"), AskGroup("", (asked,))]
    rest = (Ask("substitution", w.substituted_lines, "lines"), Ask("note", w.note_for_next_time, "lines"))
    blocks += [Heading(2, w.for_next_time, "note"), AskGroup("", rest)]
    form = Form(f"closing {key}", key, file, tuple(blocks), w.form_words)
    how = w.closing_how.format(command=f"binder close-week {key} --from {file}")
    title = week_title(key, w)
    crumbs = shelf.crumbs((w.weeks, WEEKS_PATH), (title, week_path(key)), (w.how_it_went, None))
    intro = (Para(plain(w.closing_intro), "lead"), Para(plain(how), "note"))
    return Page(closing_path(key), w.how_it_went, "closing", (*intro, form), crumbs, subtitle=title)


def _dish(dish: ToClose, shelf: Shelf) -> AskGroup:
    w = shelf.words
    stock = dish.source == "stock"
    weighed = (Ask(f"{dish.name}.weighs", w.ask_weighs, "grams"),) if dish.source == "session" else ()
    gives = Ask(f"{dish.name}.by-products", w.ask_kept.format(", ".join(dish.gives)), "choice", choices=_kept(w))
    asks = (
        Ask(f"{dish.name}.made", w.ask_taken if stock else w.portions_made, "number"),
        Ask(f"{dish.name}.eaten", w.eaten, "number"),
        Ask(f"{dish.name}.left", w.ask_left, "number"),
        Ask(f"{dish.name}.frozen", w.frozen_head, "number"),
        Ask(f"{dish.name}.thrown", w.thrown_away, "number"),
        *weighed,
        Ask(f"{dish.name}.why", w.ask_why, "words"),
        *(_left_by(dish, w)),
        *((gives,) if dish.gives else ()),
    )
    planned = float(dish.planned)
    return AskGroup(shelf.edition.title(dish.recipe), asks, _note(dish, w), planned)


def _left_by(dish: ToClose, w: Words) -> tuple[Ask, ...]:
    """Who left some, of those who had it."""
    if not dish.eaters:
        return ()
    example = ", ".join(f"{who} 1" for who in dish.eaters[:2])
    return (Ask(f"{dish.name}.left by", w.ask_left_by.format(example), "words"),)


def _kept(w: Words) -> tuple[tuple[str, str], ...]:
    return ("", w.as_planned), ("yes", w.yes), ("no", w.no)


def _note(dish: ToClose, w: Words) -> str:
    said = [w.ask_planned.format(portions(dish.planned, w))]
    if dish.source == "stock":
        said.append(w.ask_from_stock)
    elif dish.made_on:
        said.append(w.ask_made_on.format(day(dish.made_on, w)))
    return ", ".join(said)


def _sessions(key: str, facts: WeekFacts, shelf: Shelf) -> tuple[Ask, ...]:
    w, week = shelf.words, shelf.library.weeks.get(key)
    asks = []
    for one in week.sessions if week else ():
        alone = sum(other.on == one.on for other in week.sessions) == 1 if week else True
        clock = "" if alone else f"T{one.at_minutes // 60:02d}:{one.at_minutes % 60:02d}"
        planned = next((s.minutes for s in facts.run_sheets if s.of == one), None)
        said = w.ask_planned.format(minutes(planned)) if planned is not None else ""
        label = ", ".join(part for part in (session_title(one, w), said) if part)
        asks.append(Ask(f"{one.on.isoformat()}{clock}.minutes", w.ask_minutes.format(label), "minutes"))
    return tuple(asks)
