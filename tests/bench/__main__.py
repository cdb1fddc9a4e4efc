"""Stage times of a build as ratios to a floor measured in the same run: `python -m tests.bench [CONTENT]`.

The floor reads the same files and sets their Markdown, which no generator can do without. Only ratios of one run are
worth comparing: machines and their load differ. A script, not a test.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from datetime import date
from pathlib import Path
from tempfile import TemporaryDirectory
from time import process_time

from markdown_it import MarkdownIt

from binder import disk
from binder.examine import Asked, examine
from binder.memory import Memory
from tests.bench.floor import floor

ROOT = Path(__file__).resolve().parents[2]


def timed(name: str, work: Callable[[], object], unit: float | None) -> float:
    """Processor seconds of this process; prints them with their ratio to the floor."""
    begun = process_time()
    work()
    spent = process_time() - begun
    print(f"{name:<34}{spent:8.3f} s" + (f"{spent / unit:9.1f} x floor" if unit else "   = floor"))
    return spent


def main(folder: Path) -> None:
    from binder.build import outputs

    content = disk.read_content(folder)
    unit = timed("floor: files and Markdown", lambda: floor(content, MarkdownIt()), None)
    asked, nowhere = Asked(date(2026, 6, 7)), Memory(None)
    theme = disk.read_theme("default")
    # First of all: run sheets are remembered within a process, so only the first is a cold one.
    timed("examine, nothing remembered", lambda: examine(content, asked, nowhere), unit)
    examined = examine(content, asked, nowhere)
    with TemporaryDirectory() as cache:
        memory = Memory(Path(cache))
        examine(content, asked, memory)
        timed("examine, all remembered", lambda: examine(content, asked, memory), unit)
        for kind in ("facts", "site", "share", "calendar"):
            timed(
                f"{kind}, nothing remembered",
                lambda k=kind: outputs(examined, content, theme, frozenset({k}), nowhere),
                unit,
            )
        outputs(examined, content, theme, frozenset({"site"}), memory)
        timed("site, all remembered", lambda: outputs(examined, content, theme, frozenset({"site"}), memory), unit)


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else ROOT / "content")
