"""What `binder check --explain` prints: the page of one problem code, or all codes with a line each."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator

import click

from binder.check.near import did_you_mean, nearest
from binder.problem_codes.every import BY_NAME, GROUPS
from binder.problem_codes.record import ProblemCode

ALL = "all"
HINT = "binder check --explain CODE says more about a code in [brackets]"
_WIDTH = 88
# A code may be pasted as it was printed: `error[bad-date]`, `[bad-date]`.
_AS_PRINTED = re.compile(r"(?:error|warning)?\[(?P<code>[^\]]*)\]")
_COUNTS = {
    "error": "An error stops the build: nothing is replaced until it is mended, and the last good build stays.",
    "warning": "A warning lets the build go on. `binder check --strict` counts it as an error.",
}


def explained(asked: str) -> Iterator[str]:
    """The lines for a code, or for `all`; exit status 2 for one that there is not."""
    printed = _AS_PRINTED.fullmatch(asked.strip())
    name = (printed["code"] if printed else asked).strip().lower()
    if name == ALL:
        return _list()
    if name not in BY_NAME:
        near = "; ".join(did_you_mean(nearest(name, (*BY_NAME, ALL))))
        raise click.UsageError(f'no code "{asked}"' + (f": {near}" if near else f": `--explain {ALL}` lists them"))
    return _page(BY_NAME[name])


def _list() -> Iterator[str]:
    widest = max(map(len, BY_NAME))
    for group, codes in GROUPS.items():
        yield group
        for one in codes:
            yield f"  {one.name:{widest}}  {one.in_short}"
        yield ""
    yield "binder check --explain CODE says more about one of them"


def _page(one: ProblemCode) -> Iterator[str]:
    yield f"{one.name} ({one.severity})"
    for paragraph in (one.means, f"Why it matters: {one.matters}", _COUNTS[one.severity]):
        yield ""
        yield from textwrap.wrap(paragraph, _WIDTH, break_on_hyphens=False)
    for title, stretch in ((f"Wrong, in {one.file}:", one.wrong), ("Right:", one.right)):
        yield from ("", title, "", *textwrap.indent(stretch, "    ").split("\n"))
    if one.here:
        yield from ("", *textwrap.wrap(one.here, _WIDTH, break_on_hyphens=False))
