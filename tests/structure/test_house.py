"""The shape of the house: who may import whom, how long a file may be, what stands at the top."""

from __future__ import annotations

import ast
import subprocess
from collections.abc import Iterator, Mapping
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "binder"
SOFT_CEILING = 330  # about 300 lines; past that a file is two rooms

# Vocabularies and words are lists, not rooms: they grow with what is said.
LISTS = {"reckon/facts.py", "pages/page.py", "pages/words/en.py"}

# Each room with the rooms (and modules) it may import from; a room always sees itself.
MAY_IMPORT = {
    "problem": set(),
    "problem_codes": {"problem"},
    "source": {"problem"},
    "model": {"problem"},
    "tables": set(),
    "check": {"problem", "source", "model", "tables"},
    "reckon": {"problem", "model", "tables"},
    "pages": {"problem", "model", "reckon.facts", "reckon.recipe_facts", "reckon.past_facts"},
    "press": {"pages.page", "pages.other_files"},
    "disk": {"press.theme", "source.limits"},
    "memory": {"disk"},
    "marks": {"model", "check", "disk"},
    "kept": {"source", "model", "check", "disk"},
    "week_memory": {"memory", "model", "reckon.facts", "reckon.recipe_facts"},
    "examine": {
        *("problem", "source", "model", "check", "reckon"),
        *("disk", "memory", "marks", "kept", "week_memory"),
    },
    "build": {
        *("model", "tables", "reckon", "pages", "press"),
        *("disk", "memory", "examine", "outputs", "aside", "shared"),
    },
    "shared": {"model", "pages", "press", "disk", "memory", "examine"},
    "commands": {
        *("problem", "source", "model", "tables", "check", "reckon", "pages", "press"),
        *("disk", "memory", "examine", "build", "outputs", "preview", "shared", "problem_codes"),
    },
    "preview": {"disk", "memory", "examine", "build", "outputs", "commands.terminal"},
    "outputs": set(),
    "aside": set(),
    "cli": set(),  # it names its commands and loads each on use
}
# Rooms below build know no clock, no disk and no environment; tables read their own packaged files.
PURE = ("source", "model", "check", "reckon", "pages", "press", "tables", "problem_codes")
FORBIDDEN_CALLS = {
    "date.today", "datetime.now", "datetime.utcnow", "time.time", "os.getenv", "getenv", "open",
    "read_text", "read_bytes", "write_text", "write_bytes",
}  # fmt: skip
SCRIPTS = {"tables/composition_build.py", "press/fonts_build.py"}
# The tz database, too, is a published table that comes with the program.
READS_ITS_OWN = {"tables/composition.py", "tables/everyday.py", "tables/food_kinds.py", "check/household.py"}


def modules() -> list[Path]:
    return sorted(PACKAGE.rglob("*.py"))


def room_of(path: Path) -> str:
    first = path.relative_to(PACKAGE).parts[0]
    return first.removesuffix(".py")


def imports(path: Path) -> Iterator[str]:
    """Every `binder.x.y` a module imports, without the leading `binder.`."""
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            yield from (a.name.removeprefix("binder.") for a in node.names if a.name.startswith("binder."))
        elif isinstance(node, ast.ImportFrom) and node.level == 0 and node.module:
            if node.module == "binder":
                yield from (alias.name for alias in node.names)
            elif node.module.startswith("binder."):
                inner = node.module.removeprefix("binder.")
                # `from binder.pages import page` imports pages.page as much as `import binder.pages.page` does.
                package = (PACKAGE / inner.replace(".", "/")).is_dir()
                yield from (f"{inner}.{alias.name}" for alias in node.names) if package else [inner]
        elif isinstance(node, ast.ImportFrom) and node.level:
            yield room_of(path)


def broken_rules(path: Path) -> list[str]:
    room = room_of(path)
    allowed = MAY_IMPORT[room] | {room}
    return [name for name in imports(path) if not any(name == rule or name.startswith(f"{rule}.") for rule in allowed)]


@pytest.mark.parametrize(
    "path", [p for p in modules() if p.name != "__init__.py"], ids=lambda p: str(p.relative_to(ROOT))
)
def test_imports_go_one_way(path: Path) -> None:
    assert broken_rules(path) == []


def test_the_import_rule_would_catch_a_wrong_import(tmp_path: Path) -> None:
    wrong = PACKAGE / "press" / "zz_wrong.py"
    wrong.write_text("from binder.reckon import plan\n")
    try:
        assert broken_rules(wrong) == ["reckon.plan"]
    finally:
        wrong.unlink()


def ring(graph: Mapping[str, set[str]]) -> list[str]:
    """Modules that import one another in a ring; empty when there are none."""
    waiting = {name: set(seen) & graph.keys() - {name} for name, seen in graph.items()}
    while ready := {name for name, seen in waiting.items() if not seen}:
        waiting = {name: seen - ready for name, seen in waiting.items() if name not in ready}
    return sorted(waiting)


def test_no_modules_import_one_another_in_a_ring() -> None:
    named = {".".join(p.relative_to(PACKAGE).with_suffix("").parts).removesuffix(".__init__"): p for p in modules()}
    # `pages.page.Page` is a name in the module `pages.page`; what a package holds is a module of its own.
    graph = {
        name: {found if found in named else found.rpartition(".")[0] for found in imports(path)}
        for name, path in named.items()
    }
    assert ring(graph) == []


def test_the_ring_rule_would_catch_a_ring() -> None:
    assert ring({"a": {"b"}, "b": {"c"}, "c": {"a"}, "d": {"a"}, "e": set()}) == ["a", "b", "c", "d"]


@pytest.mark.parametrize(
    "path",
    [p for p in modules() if p.relative_to(PACKAGE).as_posix() not in LISTS],
    ids=lambda p: str(p.relative_to(ROOT)),
)
def test_files_stay_short(path: Path) -> None:
    assert len(path.read_text("utf-8").splitlines()) <= SOFT_CEILING


def undescribed(path: Path) -> list[str]:
    """Public functions of a module that do not say what they give."""
    return [
        node.name
        for node in ast.parse(path.read_text("utf-8")).body
        if isinstance(node, ast.FunctionDef) and not node.name.startswith("_") and ast.get_docstring(node) is None
    ]


def test_public_functions_say_what_they_give(tmp_path: Path) -> None:
    assert {path: names for path in modules() if (names := undescribed(path))} == {}
    silent = tmp_path / "silent.py"
    silent.write_text('def told() -> int:\n    """One."""\n    return 1\n\n\ndef silent() -> int:\n    return 1\n')
    assert undescribed(silent) == ["silent"]


def calls(path: Path) -> set[str]:
    found = set()
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Call):
            target = node.func
            if isinstance(target, ast.Attribute):
                found.add(target.attr)
                found.add(f"{getattr(target.value, 'id', '')}.{target.attr}")
            else:
                found.add(getattr(target, "id", ""))
    return found


def test_rooms_below_build_know_no_clock_disk_or_environment() -> None:
    for path in modules():
        name = path.relative_to(PACKAGE).as_posix()
        if room_of(path) in PURE and name not in SCRIPTS | READS_ITS_OWN:
            opened = calls(path) & FORBIDDEN_CALLS
            # Image.open and woff2 readers take bytes that were handed over.
            assert opened <= ({"open"} if room_of(path) == "press" else set()), (name, opened)
            names = set(imports(path))
            assert "disk" not in names, name


def test_the_top_holds_what_the_design_names_and_nothing_else() -> None:
    tracked = subprocess.run(
        ["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=False
    ).stdout.splitlines()
    if not tracked:
        pytest.skip("not a git checkout")
    tops = {name.split("/")[0] for name in tracked if not name.startswith(".")}
    assert tops <= {"README.md", "DEVELOPERS.md", "pyproject.toml", "binder", "themes", "content", "tests", "build"}


def test_no_room_is_called_by_an_empty_name() -> None:
    for path in modules():
        assert path.stem not in {"utils", "util", "helpers", "manager", "common", "misc"}
