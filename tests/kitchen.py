"""A small household written to files and built whole; what comes out is read back from facts.json."""

from __future__ import annotations

import json
from dataclasses import dataclass, field
from pathlib import Path
from textwrap import dedent
from typing import Any

import jsonschema
from click.testing import CliRunner, Result

from binder.cli import main


def tree(folder: Path) -> dict[str, bytes]:
    """Every file below a folder, by its path there."""
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


HOUSEHOLD = """\
household: The Alder Street kitchen
time zone: America/Chicago
eaters:
  - name: Ilka
    eats lunch at: survey van
  - {name: Tomas, eats lunch at: ward}
  - {name: Bea, eats lunch at: school}
places:
  - name: home
    has: [oven, 4 burners, pressure cooker 6 qt, microwave 1000 W, kettle, 2 cutting boards, freezer]
  - {name: ward, has: [microwave 700 W, fridge, freezer, kettle]}
  - {name: survey van, has: [cool bag, insulated flask]}
  - {name: school, has: [], bans: [peanuts, tree nuts]}
containers:
  - {name: deep tub, holds: 3 cup, have: 40, freezer: yes, microwave: yes}
"""
WEEK = "2026-W24"
TODAY = "2026-06-07"


@dataclass
class Kitchen:
    """Files by path within the content folder; `build` writes them and runs the command."""

    folder: Path
    files: dict[str, str] = field(default_factory=lambda: {"household.yaml": HOUSEHOLD})
    result: Result | None = None

    def file(self, path: str, text: str) -> Kitchen:
        self.files[path] = dedent(text)
        return self

    def household(self, old: str, new: str) -> Kitchen:
        """The household with one stretch of its file exchanged, which must be there."""
        assert old in self.files["household.yaml"], old
        self.files["household.yaml"] = self.files["household.yaml"].replace(old, new)
        return self

    def recipe(self, key: str, front: str, body: str = "") -> Kitchen:
        self.files[f"recipes/{key}.md"] = f"---\n{dedent(front).strip()}\n---\n{dedent(body)}"
        return self

    def week(self, front: str, key: str = WEEK) -> Kitchen:
        self.files[f"weeks/{key}.md"] = f"---\nweek: {key}\n{dedent(front).strip()}\n---\n"
        return self

    @property
    def content(self) -> Path:
        return self.folder / "content"

    @property
    def out(self) -> Path:
        return self.folder / "build"

    def write(self) -> Kitchen:
        for path, text in self.files.items():
            target = self.content / path
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_text(text, "utf-8")
        return self

    def run(self, *arguments: str) -> Result:
        self.result = CliRunner().invoke(main, [*arguments], catch_exceptions=False)
        return self.result

    def build(self, *options: str, today: str = TODAY, status: int | None = 0) -> Kitchen:
        self.write()
        arguments = ["build", str(self.content), "--out", str(self.out), "--today", today, "--only", "facts", *options]
        result = self.run(*arguments)
        if status is not None:
            assert result.exit_code == status, result.output
        return self

    def check(self, *options: str, today: str = TODAY) -> list[dict[str, Any]]:
        """The problems that `binder check --json` prints."""
        self.write()
        result = self.run("check", str(self.content), "--json", "--today", today, *options)
        found: list[dict[str, Any]] = json.loads(result.stdout)["problems"]
        assert result.exit_code == (1 if any(p["severity"] == "error" for p in found) else 0)
        return found

    def facts(self, key: str = WEEK) -> dict[str, Any]:
        """The week's facts, built now."""
        self.build("--draft")
        return self.read(f"site/weeks/{key}/facts.json")

    def recipe_facts(self, key: str) -> dict[str, Any]:
        self.build("--draft")
        return self.read(f"site/recipes/{key}/facts.json")

    def read(self, path: str) -> dict[str, Any]:
        """A facts.json of the output, which is held against the schema written beside it."""
        found: dict[str, Any] = json.loads((self.out / path).read_text("utf-8"))
        kind = "week" if path.startswith("site/weeks/") else "recipe"
        schema = json.loads((self.out / f"site/schema/{kind}.schema.json").read_text("utf-8"))
        jsonschema.Draft202012Validator(schema).validate(found)
        return found


def codes(problems: list[dict[str, Any]], severity: str | None = None) -> list[str]:
    return [p["code"] for p in problems if severity in (None, p["severity"])]


def only(rows: list[dict[str, Any]], **wanted: Any) -> dict[str, Any]:
    """The one row that has these values."""
    found = [row for row in rows if all(row[name] == value for name, value in wanted.items())]
    assert len(found) == 1, (wanted, len(found), rows)
    return found[0]
