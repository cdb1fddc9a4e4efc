"""Every page of the demo is HTML: by a parser that repairs nothing (html5lib), and by rules it does not look at."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import html5lib
import pytest
from html5lib.html5parser import ParseError

# HTML Standard, 3.2.5.2: what may not stand in a paragraph, a heading or a label.
PHRASING_ONLY = frozenset({"p", "h1", "h2", "h3", "h4", "h5", "h6", "label", "summary", "button", "span", "a"})
FLOW = frozenset({"p", "div", "ul", "ol", "table", "section", "h1", "h2", "h3", "h4", "h5", "h6", "details", "nav"})
REACHED = frozenset({"a", "button", "input", "summary", "label"})


def faults(text: str) -> list[str]:
    try:
        root = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(text)
    except ParseError as fault:
        return [str(fault)]
    ids = Counter(one.get("id") for one in root.iter() if one.get("id"))
    found = [f"id twice: {name}" for name, count in ids.items() if count > 1]
    for one in root.iter():
        if one.tag in PHRASING_ONLY:
            found += [f"{inner.tag} in {one.tag}" for inner in one.iter() if inner is not one and inner.tag in FLOW]
        if one.tag in ("a", "button"):
            found += [f"{inner.tag} in {one.tag}" for inner in one.iter() if inner is not one and inner.tag in REACHED]
        if one.tag == "img" and one.get("alt") is None:
            found.append("img without alt")
        for name in ("aria-labelledby", "aria-describedby", "aria-controls", "for"):
            found += [f"{name}: no {target}" for target in (one.get(name) or "").split() if target not in ids]
    return found


@pytest.mark.parametrize("folder", ["site", "share"])
def test_every_page_is_valid(demo: Path, folder: str) -> None:
    pages = sorted((demo / folder).rglob("*.html"))
    assert len(pages) > 20
    wrong = {path.relative_to(demo).as_posix(): faults(path.read_text("utf-8")) for path in pages}
    assert {name: found for name, found in wrong.items() if found} == {}


@pytest.mark.parametrize(
    "body",
    ["<p>a</b></p>", "<ul><li>a</ul></li>", "<table><p>a</p></table>", "<p id=a id=b>c</p>", "<p id=a></p><p id=a></p>",
     "<a href=x><button>y</button></a>", "<label><div>x</div></label>", "<img src=x>", "<p aria-describedby=z>x</p>"],
)  # fmt: skip
def test_a_fault_is_found(body: str) -> None:
    frame = "<!doctype html><html lang=en><head><meta charset=utf-8><title>T</title></head><body>{}</body></html>"
    assert faults(frame.format("<p>fine</p>")) == []
    assert faults(frame.format(body)) != []
