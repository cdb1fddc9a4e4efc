"""Short ways to write a dish, a meal line and a session, for the scenarios."""

from __future__ import annotations

from typing import Any

SUNDAY = 'prep:\n  - {on: 2026-06-07, at: "13:00"}\n'
SUNDAY_AND_WEDNESDAY = SUNDAY + '  - {on: 2026-06-10, at: "19:00"}\n'


def dish(*lines: str, makes: str = "1 portion", more: str = "", title: str = "Plain dish", form: str = "ready") -> str:
    """A recipe's front matter: its ingredient lines, and what else stands there."""
    front = f"title: {title}\nmeal: [breakfast, lunch, snack, dinner]\nform: {form}\nmakes: {makes}\ningredients:\n"
    return front + "".join(f"  - {line}\n" for line in lines or ("400 g carrots",)) + more


def plan(*meals: str, prep: str = SUNDAY, more: str = "") -> str:
    """A week's front matter: sessions, meal lines, what else stands there."""
    return prep + "meals:\n" + "".join(f"  - {{{meal}}}\n" for meal in meals) + more


def by(servings: list[dict[str, Any]], name: str, *keys: str) -> dict[Any, Any]:
    """One field of the servings by date, or by other fields."""
    of = keys or ("date",)
    return {s[of[0]] if len(of) == 1 else tuple(s[key] for key in of): s[name] for s in servings}


def day(number: int) -> str:
    """A day of June 2026."""
    return f"2026-06-{number:02d}"
