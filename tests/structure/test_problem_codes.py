"""Every problem code that some room makes has its page in binder/problem_codes, and every page is of a code made."""

from __future__ import annotations

import ast
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from binder.problem_codes.every import BY_NAME

PACKAGE = Path(__file__).resolve().parents[2] / "binder"


@dataclass(frozen=True)
class Maker:
    """A function that makes a problem: which of the arguments of its calls is the code."""

    severity: str
    position: int
    keyword: str


FIRST = {"error": Maker("error", 1, "code"), "warning": Maker("warning", 1, "code")}  # those of binder/problem.py


def trees() -> dict[str, ast.Module]:
    paths = (path for path in PACKAGE.rglob("*.py") if path != PACKAGE / "problem.py")
    return {path.relative_to(PACKAGE).as_posix(): ast.parse(path.read_text("utf-8")) for path in paths}


def called(call: ast.Call) -> str:
    return call.func.attr if isinstance(call.func, ast.Attribute) else getattr(call.func, "id", "")


def calls(tree: ast.AST, makers: dict[str, Maker]) -> Iterator[tuple[ast.Call, Maker, ast.expr | None]]:
    """Each call of one of the makers, with the expression handed over as the code."""
    for call in (node for node in ast.walk(tree) if isinstance(node, ast.Call) and called(node) in makers):
        maker = makers[called(call)]
        by_name = [one.value for one in call.keywords if one.arg == maker.keyword]
        yield call, maker, by_name[0] if by_name else (call.args[maker.position : maker.position + 1] or [None])[0]


def functions(tree: ast.AST) -> Iterator[tuple[ast.FunctionDef, list[str]]]:
    """Each function with its parameters as a caller counts them."""
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef):
            names = [one.arg for one in (*node.args.posonlyargs, *node.args.args)]
            yield node, names[1:] if names[:1] in (["self"], ["cls"]) else names


def handing_on(modules: Iterable[ast.Module], makers: dict[str, Maker]) -> dict[str, Maker]:
    """The functions that take a code from their caller and hand it to a maker."""
    found = {}
    for tree in modules:
        for function, names in functions(tree):
            for _, maker, code in calls(function, makers):
                if isinstance(code, ast.Name) and code.id in names:
                    found[function.name] = Maker(maker.severity, names.index(code.id), code.id)
    return found


def those_meant(tree: ast.Module, makers: dict[str, Maker]) -> dict[str, Maker]:
    """The makers as one module knows them: a function of its own stands before one of that name elsewhere."""
    own = {function.name for function, _ in functions(tree)}
    return {name: one for name, one in makers.items() if name not in own} | handing_on([tree], makers)


def codes_made(modules: dict[str, ast.Module]) -> tuple[set[tuple[str, str]], list[str]]:
    """Name and severity of every code, and the places where the code is not to be read off the call."""
    makers = dict(FIRST)
    while (more := makers | handing_on(modules.values(), makers)) != makers:
        makers = more
    made: set[tuple[str, str]] = set()
    unread: list[str] = []
    for path, tree in modules.items():
        meant = those_meant(tree, makers)
        handed = {
            id(code)
            for function, names in functions(tree)
            for _, _, code in calls(function, meant)
            if isinstance(code, ast.Name) and code.id in names
        }
        for call, maker, code in calls(tree, meant):
            if isinstance(code, ast.Constant):
                made.add((str(code.value), maker.severity))
            elif id(code) not in handed:
                unread.append(f"{path}:{call.lineno}")
        unread += [
            f"{path}:{node.lineno}"
            for node in ast.walk(tree)
            if isinstance(node, ast.Call) and called(node) == "Problem"
        ]
    return made, unread


def test_every_code_made_has_its_page_and_every_page_is_of_a_code_made() -> None:
    made, unread = codes_made(trees())
    assert unread == [], "write the code as a string in the call"
    assert made == {(one.name, one.severity) for one in BY_NAME.values()}


def test_codes_are_found_however_they_are_handed_over() -> None:
    text = """
class Reader:
    def _fault(self, at, code, message):
        self.problems.append(error(at, code, message))

    def read(self, at):
        self._fault(at, "handed-on", "x")
        self._fault(at, code="by-name", message="x")
        return warning(at, "at-once", "x")

def chosen(at, some):
    return error(at, some.code, "x")

def made(at):
    return Problem(at, "error", "by-itself", "x")
"""
    made, unread = codes_made({"some.py": ast.parse(text)})
    assert made == {("handed-on", "error"), ("by-name", "error"), ("at-once", "warning")}
    assert unread == ["some.py:12", "some.py:15"]


# Ways out of these are worked out from the plan (reckon/remedies.py): another dish, another day, without the line.
OF_THE_PLAN = {"avoided-food", "banned-at-place", "kept-too-long", "no-prep-before"}


def test_every_problem_says_a_way_out() -> None:
    """A call of `error` or `warning` hands over a remedy behind the message, or leaves it to the plan."""
    found = {
        f"{path}:{call.lineno}"
        for path, tree in trees().items()
        for call, _, code in calls(tree, FIRST)
        if len(call.args) == 3 and not (isinstance(code, ast.Constant) and code.value in OF_THE_PLAN)
    }
    assert found == set()
