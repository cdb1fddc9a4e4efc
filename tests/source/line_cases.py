"""Ingredient lines with what they mean, side by side, in cases/*.txt: `line  =>  meaning`.

`python -m source.line_cases` from tests/ writes the meanings anew; read the difference before keeping it.
"""

from __future__ import annotations

from pathlib import Path

from binder.problem import Span
from binder.source.amount import Measure
from binder.source.line import Line, read_line

FOLDER = Path(__file__).parent / "cases"
ARROW = "  =>  "
MOST_BYTES = 40_000


def span_of(text: str) -> Span:
    """A place for a text that stands alone on line 1."""
    return Span("line", 1, 1, 1 + len(text))


def cases() -> list[tuple[str, str, str]]:
    """File, line and meaning of every case."""
    found = []
    for file in sorted(FOLDER.glob("*.txt")):
        for row in file.read_text("utf-8").splitlines():
            if row and not row.startswith("#"):
                line, arrow, meaning = row.partition(ARROW)
                found.append((file.stem, line.rstrip() if arrow else row, meaning))
    return found


def meaning(text: str) -> str:
    """What a line is read as, on one line: amount | food | the rest by name | !problems."""
    line, problems = read_line(text, span_of(text))
    words = [" + ".join(map(_measure, line.amounts)) or "-", line.food or "-"]
    words += [f"pack {_measure(line.pack)}"] if line.pack else []
    words += [f"same as {_measure(line.equivalent)}"] if line.equivalent else []
    words += [f"{name}: {said}" for name, said in _said(line) if said]
    words += [f"!{p.code} {p.span.column}-{p.span.end}" for p in problems]
    return " | ".join(words)


def _said(line: Line) -> tuple[tuple[str, str], ...]:
    return (
        ("prep", line.preparation),
        ("before", line.before),
        ("notes", "; ".join(line.notes)),
        ("or", line.alternative),
        ("plus", line.plus_more),
        ("taken", line.taken),
        ("recipe", "yes" if line.recipe else ""),
        ("flags", ", ".join(sorted(line.flags))),
    )


def _measure(measure: Measure) -> str:
    number = str(measure.low) if measure.low == measure.high else f"{measure.low}..{measure.high}"
    return " ".join(word for word in (number, measure.size, measure.unit) if word)


def write() -> None:
    """Write every case's meaning as it is read now; comments and order stay."""
    for file in sorted(FOLDER.glob("*.txt")):
        rows = []
        for row in file.read_text("utf-8").splitlines():
            line = row.partition(ARROW)[0].rstrip()
            rows.append(row if not line or row.startswith("#") else f"{line:<55}{ARROW}{meaning(line)}")
        file.write_text("\n".join(rows) + "\n", "utf-8")


if __name__ == "__main__":
    write()
