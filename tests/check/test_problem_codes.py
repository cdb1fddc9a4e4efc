"""The pages of the problem codes are true: the right stretch is right, the wrong one is that problem and no other."""

from __future__ import annotations

import pytest

from binder.problem_codes.every import BY_NAME, GROUPS
from binder.problem_codes.record import ProblemCode

from .codes_household import FILES, examined

EVERY = tuple(one for group in GROUPS.values() for one in group)
MUCH = b"A" * 2_000_000  # binder.source.limits.MOST_BYTES: with the file around it, more than is read


def as_bytes(stretch: str) -> bytes:
    """What a page cannot print is put in: a letter saved in Latin-1, and all of a picture for its three dots."""
    return stretch.encode().replace("\N{REPLACEMENT CHARACTER}".encode(), "è".encode("latin-1")).replace(b"...", MUCH)


def test_the_household_itself_has_no_problem() -> None:
    assert examined() == ()


@pytest.mark.parametrize("one", EVERY, ids=lambda one: one.name)
def test_what_is_shown_as_wrong_is_this_problem_there_and_no_other(one: ProblemCode) -> None:
    text = FILES[one.file]
    assert f"\n{text}".count(f"\n{one.right}\n") == 1, "the right stretch stands once, as whole lines"
    before, after = text.split(f"{one.right}\n")
    found = examined(one.file, before.encode() + as_bytes(one.wrong) + b"\n" + after.encode())
    assert [(p.severity, p.code, p.span.path) for p in found] == [(one.severity, one.name, one.file)]
    first = before.count("\n") + 1
    assert first <= found[0].span.line <= first + one.wrong.count("\n")


@pytest.mark.parametrize("one", EVERY, ids=lambda one: one.name)
def test_a_page_is_short_and_whole(one: ProblemCode) -> None:
    assert one.means.endswith(".") and one.matters.endswith(".")
    assert one.wrong != one.right
    # Name, two spaces on each side and the first sentence, in a terminal of a hundred columns.
    assert len(one.in_short) <= 74, one.in_short


def test_a_name_stands_once() -> None:
    assert len(BY_NAME) == len(EVERY)
    assert [
        name for name, group in GROUPS.items() for one in group if name.startswith("W") != (one.severity != "error")
    ] == []
