"""The page: what pages hand to the press. Words and numbers are final here; the press only sets them.

A page is a tree of blocks; a block knows what it is (a table, the steps of a recipe, a ruled box), never how it
looks in HTML or in print.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime
from typing import Literal

RunKind = Literal["", "strong", "em", "quantity", "time", "small", "mark", "nowrap"]


@dataclass(frozen=True, slots=True)
class Run:
    """A stretch of text; href is relative to the site's root (`recipes/x/index.html#steps`) or an allowed address."""

    text: str
    kind: RunKind = ""
    href: str | None = None


Text = tuple[Run, ...]


def plain(text: str) -> Text:
    """Text without emphasis."""
    return (Run(text),) if text else ()


@dataclass(frozen=True, slots=True)
class Heading:
    level: int  # 2 or 3; the page's title is level 1
    text: str
    id: str = ""


@dataclass(frozen=True, slots=True)
class Para:
    """A paragraph."""

    text: Text
    kind: Literal["", "lead", "note", "source", "caution"] = ""


@dataclass(frozen=True, slots=True)
class Prose:
    """A person's own Markdown (CommonMark, raw HTML off, links limited by the press)."""

    markdown: str


@dataclass(frozen=True, slots=True)
class Bullets:
    items: tuple[Text, ...]
    ordered: bool = False


@dataclass(frozen=True, slots=True)
class Check:
    """A line with a box to tick."""

    text: Text
    note: Text = ()


@dataclass(frozen=True, slots=True)
class Checks:
    """Lines with a box to tick."""

    items: tuple[Check, ...]
    columns: int = 1


@dataclass(frozen=True, slots=True)
class Column:
    head: str
    align: Literal["left", "right", "center"] = "left"
    width: int = 0  # per cent of the table; 0: the rest is shared
    kind: Literal["", "quantity", "time", "tick", "write"] = ""  # tick: a box; write: a place for the pen


@dataclass(frozen=True, slots=True)
class Timing:
    """When a row's task is planned, for a screen that follows the clock; `after` are rows, counted from 1."""

    id: str
    start: datetime
    seconds: int
    words: str
    after: tuple[int, ...] = ()
    keeps: tuple[str, ...] = ()  # cooks and pieces of equipment
    heat: str = ""  # of the oven it keeps


@dataclass(frozen=True, slots=True)
class Row:
    cells: tuple[Text, ...]
    kind: Literal["", "total", "group", "quiet", "now"] = ""  # group: one cell across; now: start-this-now line
    ticks: int = 1  # boxes in each column of boxes
    timing: Timing | None = None


@dataclass(frozen=True, slots=True)
class Table:
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    caption: str = ""
    kind: str = ""  # a class for the theme: week, shopping, mise, run-sheet, packing, carry, pull, matrix, numbers, ...
    row_heads: bool = False  # the first cell of a row is its header


@dataclass(frozen=True, slots=True)
class IngredientLine:
    quantity: str  # "1 7/8 cups", "" when none
    food: str
    detail: str = ""  # preparation and notes
    second: str = ""  # the other measure: "225 g"
    href: str | None = None
    mark: str = ""  # a mark for the substitution or footnote


@dataclass(frozen=True, slots=True)
class IngredientGroup:
    title: str
    lines: tuple[IngredientLine, ...]


@dataclass(frozen=True, slots=True)
class Ingredients:
    groups: tuple[IngredientGroup, ...]


@dataclass(frozen=True, slots=True)
class StepLine:
    number: int
    text: str
    time: str = ""  # "30 min, unattended"
    uses: str = ""  # "oven 400 °F"
    note: str = ""  # deadline or other


@dataclass(frozen=True, slots=True)
class StepGroup:
    title: str
    steps: tuple[StepLine, ...]


@dataclass(frozen=True, slots=True)
class Steps:
    groups: tuple[StepGroup, ...]


@dataclass(frozen=True, slots=True)
class Facts:
    """Label and value, ruled."""

    pairs: tuple[tuple[str, Text], ...]


@dataclass(frozen=True, slots=True)
class Drawing:
    """An SVG that the binder drew itself, with words that say the same."""

    svg: str
    alt: str
    caption: str = ""
    paper: tuple[tuple[int, str], ...] = ()  # the same for paper, by width in units of which the type has 12


@dataclass(frozen=True, slots=True)
class Photo:
    """A picture of content/photos, by file name."""

    name: str
    alt: str


@dataclass(frozen=True, slots=True)
class Ruled:
    """Lines to write on; `label` stands before them."""

    lines: int
    label: str = ""


@dataclass(frozen=True, slots=True)
class Box:
    """Blocks in a frame, under a title of their own."""

    kind: Literal["allergens", "caution", "note", "problem"]
    title: str
    blocks: tuple[Block, ...]


@dataclass(frozen=True, slots=True)
class Fold:
    """Folded away on screen; left out of the printed binder unless `print` is set."""

    title: str
    blocks: tuple[Block, ...]
    print: bool = False


@dataclass(frozen=True, slots=True)
class DayPart:
    """What there is on one day, under the day's own heading. A script shows the parts of its device's today and
    tomorrow under these words; without one only what is `shown` is seen."""

    on: date
    title: str
    today: str
    tomorrow: str
    next: str
    blocks: tuple[Block, ...]
    shown: bool


@dataclass(frozen=True, slots=True)
class Beside:
    """Two stretches side by side where there is room (ingredients and steps)."""

    left: tuple[Block, ...]
    right: tuple[Block, ...]
    kind: str = ""


@dataclass(frozen=True, slots=True)
class Ask:
    """A question with a place for its answer; `name` is the answer's name in the file that the form makes."""

    name: str
    label: str
    kind: Literal["number", "grams", "minutes", "words", "lines", "choice"]
    choices: tuple[tuple[str, str], ...] = ()  # value and words, of a choice


@dataclass(frozen=True, slots=True)
class AskGroup:
    """Questions about one thing; `most`: what its first answer is when nothing is written there, to count against."""

    title: str
    asks: tuple[Ask, ...]
    note: str = ""
    most: float | None = None


@dataclass(frozen=True, slots=True)
class FormWords:
    """What a form says. {} is a file's name, a question, or a number."""

    save: str
    clear: str
    clear_sure: str
    saved: str
    kept: str
    not_kept: str
    wrong: str
    wrong_one: str
    over: str
    as_text: str


@dataclass(frozen=True, slots=True)
class Form:
    """Questions whose answers stay on the device and are saved as a file. `about`: the week; `id` names the memory."""

    id: str
    about: str
    file: str
    blocks: tuple[Block, ...]
    words: FormWords


Block = (
    Heading
    | Para
    | Prose
    | Bullets
    | Checks
    | Table
    | Ingredients
    | Steps
    | Facts
    | Drawing
    | Photo
    | Ruled
    | Box
    | Fold
    | DayPart
    | Beside
    | AskGroup
    | Form
)


@dataclass(frozen=True, slots=True)
class Crumb:
    """A step on the way down from the front page; without an address, the page itself."""

    text: str
    href: str | None


@dataclass(frozen=True, slots=True)
class Page:
    """One page of the site, or one sheet (or run of sheets) of a binder section."""

    path: str  # "weeks/2026-W24/index.html"; in a binder the anchor
    title: str
    kind: str  # home, week, recipe, food, archive, section kinds of the binder, share
    blocks: tuple[Block, ...]
    crumbs: tuple[Crumb, ...] = ()
    subtitle: str = ""
    description: str = ""
    structured: str = ""  # JSON-LD, ready to set
    print_first: bool = False  # starts a new sheet (recipe cards)
    takes: int = 1  # pages of paper, guessed; two of them face each other
    found_as: str = ""  # what the search says this is ("recipe"); "": it is not searched
    keywords: tuple[str, ...] = ()  # what it is found by besides its title: words and short phrases


@dataclass(frozen=True, slots=True)
class Later:
    """A page of the site, and those below it, that are made when they are wanted; the first of them is the page itself.

    `mark` stands for all that it is made from, so that what was set under the same mark need not be made again.
    """

    path: str
    title: str
    mark: str
    make: Callable[[], tuple[Page, ...]]
    found_as: str = ""
    keywords: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Section:
    """A section of the binder: number and tab, pages in order."""

    number: int
    key: str
    title: str
    tab: str  # short word on the index tab
    pages: tuple[Page, ...]


@dataclass(frozen=True, slots=True)
class Binder:
    """The week's binder, to be printed."""

    title: str  # "Week 24, 2026"
    household: str
    language: str
    paper: Literal["letter", "a4", "half-letter", "a5"]
    sections: tuple[Section, ...]
    contents_title: str
    running: str  # the running head's left side
    draft: str = ""  # the word to print over every page, or ""
    front: tuple[Block, ...] = ()  # the front sheet's words: caution, convention of dates, rule set
    whole: bool = True  # False: only some sections, without the front sheet and its contents
    last_section: int = 0  # the number of the last there is, whether or not it is printed: tabs go by it
    own_sheets: bool = False  # each section begins on a right-hand page
    hole_marks: bool = False


@dataclass(frozen=True, slots=True)
class SearchWords:
    """What the site's search says, and what it knows of the language."""

    label: str
    none: str
    one: str
    many: str  # {} found
    more: str  # {shown} of {found}
    some: str  # said before the count when no page has every word
    endings: tuple[str, ...]  # of word forms, the longest first; a word is compared without its ending as well
    passed_over: tuple[str, ...]  # words that find nothing of their own (and, with)


@dataclass(frozen=True, slots=True)
class FollowWords:
    """What a run sheet says that follows the clock; names in braces are filled in by its script."""

    label: str
    begin: str
    done: str
    now: str  # {tasks}
    next: str  # {clock} {tasks}
    until: str  # {clock}
    over: str  # {minutes}
    ready: str  # {clock}
    late: str  # {minutes}
    over_all: str
    moved: str  # {now} {printed}
    line: str  # {clock}


@dataclass(frozen=True, slots=True)
class Site:
    """The pages for the screen."""

    title: str
    language: str
    pages: tuple[Page | Later, ...]
    nav: tuple[tuple[str, str], ...]  # words and path
    footer: Text
    draft: str = ""
    skip_link: str = ""  # words of the skip link
    contents_word: str = ""
    search: SearchWords | None = None
    awake_word: str = ""  # a button on pages for the counter: keep the screen on
    untick_word: str = ""  # a button on pages with boxes to tick: take all ticks away
    follow: FollowWords | None = None
