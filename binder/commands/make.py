"""What `binder build` does when there is something to make."""

from __future__ import annotations

import sys
from hashlib import sha256

import click

from binder import disk
from binder.build import outputs
from binder.commands.build_record import Built, Wanted
from binder.commands.from_past import not_closed
from binder.commands.look import look, say_problems
from binder.commands.terminal import Status, problem_lines, summary
from binder.memory import Memory
from binder.outputs import owner
from binder.press.ink import taken
from binder.reckon.tried import Tried
from binder.reckon.words import counted


def make(wanted: Wanted, memory: Memory, status: Status) -> tuple[Built, int]:
    """Examine, say what was found, build and write; how many files are new or changed. Exit status 1 on errors."""
    files = wanted.content
    tried = Tried(wanted.cooks, wanted.at)
    examined = look(files, wanted.today, wanted.week, status, wanted.draft, wanted.private, tried=tried, memory=memory)
    status.clear()
    say_problems(examined, files)
    if examined.library is None or (examined.has_errors and not wanted.draft):
        click.echo(summary(examined.problems, "nothing was replaced"), err=True)
        sys.exit(1)
    made = outputs(examined, files, wanted.theme, wanted.kinds, memory, status.stage, wanted.standing, wanted.sections)
    behind = tuple(not_closed(examined))
    for line in behind:
        click.echo(line, err=True)
    status.stage("writing")
    changed = disk.replace_outputs(wanted.out, made, wanted.owned)
    plain, coloured = (
        tuple(problem_lines(examined.problems, examined.texts, files.shown, colour)) for colour in (False, True)
    )
    found = f"{summary(examined.problems, '')}; " if examined.problems else ""
    hashes = {path: sha256(raw).digest() for path, raw in made.items()}
    takes = {
        path: _takes(raw, hashes[path], owner(path) == "print", memory)
        for path, raw in made.items()
        if path.startswith("print/")
    }
    return Built((*plain, *behind), (*coloured, *behind), found, hashes, takes), changed


def _takes(pdf: bytes, mark: bytes, both_sides: bool, memory: Memory) -> str:
    """`49 pages, 25 sheets, ink on 5.1 % of the paper`; ink where there is something to measure it with."""

    def measured() -> bytes:
        what = taken(pdf)
        said = counted(what.pages, "page") + (f", {counted(what.sheets, 'sheet')}" if both_sides else "")
        return (f"{said}, ink on {what.ink * 100:.1f} % of the paper" if what.ink is not None else said).encode()

    return memory.recall(("takes", mark.hex(), str(both_sides)), measured).decode()
