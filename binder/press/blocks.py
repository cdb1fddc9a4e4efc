"""The markup of each kind of block, written out in Python: a site has some ten thousand of them.

The frames around them (`page.html`, `binder.html`, `share.html`) are templates of the theme, and so is all that is
drawn: a block says what it is by its tags and classes, and a style sheet says how that looks. No words stand here:
they come with the page.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from types import MappingProxyType
from typing import Any

from markupsafe import Markup

from binder.pages.page import (
    AskGroup,
    Beside,
    Block,
    Box,
    Bullets,
    Check,
    Checks,
    Column,
    DayPart,
    Drawing,
    Facts,
    Fold,
    Form,
    Heading,
    IngredientGroup,
    IngredientLine,
    Ingredients,
    Para,
    Photo,
    Prose,
    Ruled,
    StepGroup,
    StepLine,
    Steps,
    Table,
)
from binder.press import form, table
from binder.press.setting import Setting
from binder.press.text import attribute, escaped

# Tables that can be read as entries, one after the other, where there is no room for columns.
ENTRIES = frozenset({"run-sheet", "shopping", "mise", "packing", "carry", "pull", "use-first", "cooling"})

# The widest a photo is set by the style sheet: beside the text on a desk, else across the sheet.
_PHOTO_SIZES = "(min-width: 46rem) 26rem, 94vw"


def blocks_html(blocks: Sequence[Block], setting: Setting) -> Markup:
    """The blocks as HTML, one after the other."""
    return Markup(_set(blocks, setting))


def _set(blocks: Sequence[Block], s: Setting) -> str:
    return "".join([_MARKUP[type(block)](block, s) for block in blocks])


def _heading(b: Heading, s: Setting) -> str:
    level = s.level(b.level)
    return f'<h{level} id="{escaped(s.anchor(b.text, b.id))}">{escaped(b.text)}</h{level}>\n'


def _para(b: Para, s: Setting) -> str:
    return f"<p{attribute('class', b.kind)}>{s.inline(b.text)}</p>\n"


def _prose(b: Prose, s: Setting) -> str:
    return f'<div class="prose">{s.prose(b.markdown)}</div>\n'


def _bullets(b: Bullets, s: Setting) -> str:
    tag = "ol" if b.ordered else "ul"
    items = "".join([f"<li>{s.inline(item)}</li>\n" for item in b.items])
    return f'<{tag} class="plain">\n{items}</{tag}>\n'


def _checks(b: Checks, s: Setting) -> str:
    two = " two" if b.columns > 1 else ""
    return f'<ul class="checks{two}">\n{"".join([_check(item, s) for item in b.items])}</ul>\n'


def _check(item: Check, s: Setting) -> str:
    note = f' <span class="note">{s.inline(item.note)}</span>' if item.note else ""
    words = f"{s.inline(item.text)}{note}"
    if s.paper:
        return f'<li><span class="box"></span>{words}</li>\n'
    return f'<li><label><input type="checkbox"><span>{words}</span></label></li>\n'


def _table(b: Table, s: Setting) -> str:
    across = table.room(b) == "scroll" and not s.paper
    opening = closing = ""
    if across:
        name = f' role="region" aria-label="{escaped(s.region(b.caption))}"' if b.caption else ""
        opening, closing = f'<div class="across" tabindex="0"{name}>', "</div>"
    kind = table.table_class(b) + (" entry" if b.kind in ENTRIES else "")
    columns = "".join([_col(column) for column in b.columns])
    heads = "".join([_head(column) for column in b.columns])
    return (
        f"{opening}<table{attribute('class', kind)}>\n{_caption(b, s)}\n<colgroup>\n{columns}</colgroup>\n"
        f"<thead><tr>\n{heads}</tr></thead>\n{table.bodies(b, s.inline, s.paper, s.heads)}</table>\n{closing}\n"
    )


def _caption(b: Table, s: Setting) -> str:
    same = s.is_said(b.caption)
    if not b.caption or (same and s.paper):
        return ""
    return f"<caption{attribute('class', 'same' if same else '')}>{escaped(b.caption)}</caption>"


def _col(column: Column) -> str:
    kind = ' class="tick"' if column.kind == "tick" and not column.width else ""
    width = f' style="width:{column.width}%"' if column.width else ""
    return f"<col{kind}{width}>\n"


def _head(column: Column) -> str:
    if not column.head:
        return "<td></td>\n"
    return f'<th scope="col"{attribute("class", table.column_class(column))}>{escaped(column.head)}</th>\n'


def _part(title: str, s: Setting) -> str:
    return f'<h{s.below()} class="part">{escaped(title)}</h{s.below()}>' if title else ""


def _ingredients(b: Ingredients, s: Setting) -> str:
    return f'<div class="ingredients">\n{"".join([_ingredient_group(group, s) for group in b.groups])}</div>\n'


def _ingredient_group(group: IngredientGroup, s: Setting) -> str:
    lines = "".join([_ingredient(line, s) for line in group.lines])
    return f"{_part(group.title, s)}\n<ul>\n{lines}</ul>\n"


def _ingredient(line: IngredientLine, s: Setting) -> str:
    quantity = f'<span class="{s.unbroken(line.quantity)}">{s.bound(line.quantity)}</span> ' if line.quantity else ""
    mark = f'<b class="mark"> {escaped(line.mark)}</b>' if line.mark else ""
    detail = f'<span class="detail">, {s.bound(line.detail)}</span>' if line.detail else ""
    second = f' <span class="second n">{s.bound(line.second)}</span>' if line.second else ""
    return f"<li>{quantity}{s.linked(line.href, s.bound(line.food))}{mark}{detail}{second}</li>\n"


def _steps(b: Steps, s: Setting) -> str:
    return f'<div class="steps">\n{"".join([_step_group(group, s) for group in b.groups])}</div>\n'


def _step_group(group: StepGroup, s: Setting) -> str:
    return f"{_part(group.title, s)}\n<ol>\n{''.join([_step(step, s) for step in group.steps])}</ol>\n"


def _step(step: StepLine, s: Setting) -> str:
    box = '<span class="box"></span>' if s.paper else ""
    when = ""
    if step.time or step.uses:
        time = f'<span class="t">{s.bound(step.time)}</span>' if step.time else ""
        uses = f' <span class="uses">{s.bound(step.uses)}</span>' if step.uses else ""
        when = f'<p class="when">{time}{uses}</p>\n'
    note = f'<p class="note">{s.bound(step.note)}</p>' if step.note else ""
    number = f'<li value="{step.number}"><span class="no">{step.number}{box}</span>\n'
    return f"{number}<p>{s.bound(step.text)}</p>\n{when}{note}</li>\n"


def _facts(b: Facts, s: Setting) -> str:
    pairs = [
        f'<li><span class="k">{escaped(name)}</span> <span class="v">{s.inline(value)}</span></li>\n'
        for name, value in b.pairs
    ]
    return f'<ul class="facts">\n{"".join(pairs)}</ul>\n'


def _drawing(b: Drawing, s: Setting) -> str:
    caption = f'<p class="caption">{escaped(b.caption)}</p>' if b.caption else ""
    # On a phone a drawing is wider than the screen, and the keyboard has to be able to move it.
    reached = "" if s.paper else f' tabindex="0" role="group" aria-label="{escaped(b.caption or b.alt)}"'
    return f'<div class="drawing"{reached}>{s.drawing(b)}{caption}</div>\n'


def _photo(b: Photo, s: Setting) -> str:
    found = s.picture(b.name)
    if not found:
        return ""
    size = f"{attribute('width', str(found.width or ''))}{attribute('height', str(found.height or ''))}"
    copies = attribute("srcset", ", ".join(f"{source} {width}w" for source, width in found.copies))
    copies += attribute("sizes", _PHOTO_SIZES) if copies else ""
    return f'<div class="photo"><img src="{escaped(found.source)}"{copies} alt="{escaped(b.alt)}"{size}></div>\n'


def _ruled(b: Ruled, s: Setting) -> str:
    hidden = "" if s.paper else ' aria-hidden="true"'
    label = f"<p>{escaped(b.label)}</p>" if b.label else ""
    return f'<div class="ruled"{hidden}>\n{label}{"<div></div>" * b.lines}</div>\n'


def _box(b: Box, s: Setting) -> str:
    title = f'<p class="box-title">{escaped(b.title)}</p>' if b.title else ""
    opening = f'<div class="note-box {b.kind}" role="group" aria-label="{escaped(b.title)}">\n'
    return f"{opening}{title}{_set(b.blocks, s)}</div>\n"


def _fold(b: Fold, s: Setting) -> str:
    if not s.paper:
        return f"<details><summary>{escaped(b.title)}</summary>\n{_set(b.blocks, s)}</details>\n"
    return f'<p class="fold">{escaped(b.title)}</p>\n{_set(b.blocks, s)}\n' if b.print else ""


def _day_part(b: DayPart, s: Setting) -> str:
    listed = len(s.headings)
    level = s.level(2)
    words = f'<h{level} id="{escaped(s.anchor(b.title, f"day-{b.on}"))}">{escaped(b.title)}</h{level}>'
    if not b.shown:
        del s.headings[listed:]  # nothing leads to what is not seen
    names = {"day": b.on.isoformat(), "plain": b.title, "today": b.today, "tomorrow": b.tomorrow, "next": b.next}
    said = "".join(f' data-{name}="{escaped(value)}"' for name, value in names.items())
    hidden = "" if b.shown else " hidden"
    return f"<section{said}{hidden}>\n{words}\n{_set(b.blocks, s)}</section>\n"


def _beside(b: Beside, s: Setting) -> str:
    left, right = _set(b.left, s), _set(b.right, s)
    if not (b.left and b.right):
        return f"{left}{right}\n"
    kind = f" {escaped(b.kind)}" if b.kind else ""
    return f'<div class="beside{kind}"><div>\n{left}</div><div>\n{right}</div></div>\n'


_MARKUP: Mapping[type, Callable[[Any, Setting], str]] = MappingProxyType(
    {
        Heading: _heading,
        Para: _para,
        Prose: _prose,
        Bullets: _bullets,
        Checks: _checks,
        Table: _table,
        Ingredients: _ingredients,
        Steps: _steps,
        Facts: _facts,
        Drawing: _drawing,
        Photo: _photo,
        Ruled: _ruled,
        Box: _box,
        Fold: _fold,
        DayPart: _day_part,
        Beside: _beside,
        AskGroup: form.group,
        Form: lambda b, s: form.whole(b, _set(b.blocks, s)),
    }
)
