"""A form as HTML: questions with places for the answers. It can be read, filled and printed without a script.

`closing.js` keeps what is written on the device and makes the file; the buttons that need it are hidden until it runs.
"""

from __future__ import annotations

from typing import Any

from binder.pages.page import Ask, AskGroup, Form
from binder.press.text import attribute, escaped

_LINES = 3
# What a phone's keyboard should offer.
_KEYBOARDS = {"number": "decimal", "grams": "decimal", "minutes": "numeric"}


def whole(b: Form, inside: str) -> str:
    """The form around its blocks, with the words that the script says."""
    w = b.words
    said = {
        "kept": w.kept, "not-kept": w.not_kept, "saved": w.saved, "wrong": w.wrong, "wrong-one": w.wrong_one,
        "over": w.over, "sure": w.clear_sure,
    }  # fmt: skip
    words = "".join(f' data-{name}="{escaped(text)}"' for name, text in said.items())
    opening = f'<form class="answers" data-id="{escaped(b.id)}" data-about="{escaped(b.about)}"'
    return (
        f'{opening} data-file="{escaped(b.file)}"{words} autocomplete="off">\n{inside}'
        f'<p class="form-end"><button type="button" hidden data-save>{escaped(w.save)}</button>'
        f'<button type="button" hidden data-clear>{escaped(w.clear)}</button></p>\n'
        '<p role="status" class="note"></p>\n'
        f'<label class="ask wide" hidden data-text><span>{escaped(w.as_text)}</span>'
        '<textarea rows="8" readonly></textarea></label>\n</form>\n'
    )


def group(b: AskGroup, _: Any) -> str:
    """A group of questions under its title, with a line for what does not add up."""
    asks = "".join([_ask(one) for one in b.asks])
    if not b.title:
        return f'<div class="asks">\n{asks}</div>\n'
    most = f' data-most="{b.most:g}"' if b.most is not None else ""
    note = f' <span class="note">{escaped(b.note)}</span>' if b.note else ""
    legend = f"<legend>{escaped(b.title)}{note}</legend>"
    return (
        f'<fieldset{most}>{legend}\n<div class="asks">\n{asks}</div>\n<p role="status" class="over"></p></fieldset>\n'
    )


def _ask(ask: Ask) -> str:
    wide = " wide" if ask.kind in ("words", "lines", "choice", "minutes") else ""
    named = f'name="{escaped(ask.name)}" data-kind="{ask.kind}"'
    if ask.kind == "lines":
        place = f'<textarea {named} rows="{_LINES}"></textarea>'
    elif ask.kind == "choice":
        options = "".join(f'<option value="{escaped(value)}">{escaped(words)}</option>' for value, words in ask.choices)
        place = f"<select {named}>{options}</select>"
    else:
        keys = attribute("inputmode", _KEYBOARDS.get(ask.kind, ""))
        place = f'<input type="text" {named}{keys}>'
    return f'<label class="ask{wide}"><span>{escaped(ask.label)}</span>{place}</label>\n'
