"""The answers that close a week: from a file, from `--set`, and what is new in them against what was said before."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Any

from binder.check.closed import answers_of
from binder.check.closed_fields import ANSWERS, AnswerFields, ClosedDishFields, ClosedSessionFields
from binder.check.declare import Found
from binder.check.near import ways_out
from binder.check.stock import recipe_named
from binder.model.week import Closed, ClosedDish, ClosedSession
from binder.problem import Problem, Span, error
from binder.reckon.closing import Row, settled
from binder.source.document import Document, read_document
from binder.source.yaml_text import flow

NOTHING = Closed()


def read_answers(raw: bytes, path: str, week: str, titles: Mapping[str, str]) -> tuple[Closed, tuple[Problem, ...]]:
    """A file of answers, YAML or JSON, and what is wrong in it."""
    document = _document(raw, path)
    found: Found = list(document.problems)
    entry = ANSWERS.read(document.root, found) if document.root is not None else None
    if entry is None:
        return NOTHING, tuple(found)
    about = entry.get(AnswerFields.week)
    if about and about.text.strip() != week:
        found.append(
            error(
                about.span,
                "bad-week",
                f"these answers are about {about.text}, not {week}",
                f"close that week, or write `week: {week}`",
            )
        )
    for one in entry.get(AnswerFields.dishes) or ():
        said = one.get(ClosedDishFields.dish)
        if said and _named(said.value, titles) is None:
            remedies = ways_out(said.value, tuple(titles), "the recipes of the week are")
            found.append(error(said.span, "unknown-recipe", f'no recipe "{said.value}" in this week', *remedies))
    answers = answers_of(entry)
    dishes = tuple(_keyed(one, titles) for one in answers.dishes)
    return replace(answers, dishes=dishes), tuple(found)


def _document(raw: bytes, path: str) -> Document:
    """Read as YAML; as JSON where only JSON's own escapes keep it from being YAML."""
    document = read_document(raw, path, "yaml")
    if document.root is None and raw.lstrip()[:1] == b"{":
        try:
            plain = json.dumps(json.loads(raw), ensure_ascii=False, indent=1)
        except ValueError:
            return document
        return read_document(plain.encode(errors="replace"), path, "yaml")
    return document


def _named(name: str, titles: Mapping[str, str]) -> tuple[str, int | None] | None:
    """The recipe that a name means, and its row where the name says it: `bean-stew/2`."""
    if key := recipe_named(name, titles):
        return key, None
    bare, _, number = name.rpartition("/")
    key = recipe_named(bare, titles) if number.isdigit() and int(number) else None
    return (key, int(number)) if key else None


def _keyed(dish: ClosedDish, titles: Mapping[str, str]) -> ClosedDish:
    key, which = _named(dish.recipe, titles) or (dish.recipe, None)
    return replace(dish, recipe=key, which=which or dish.which)


def answers_set(
    settings: Iterable[str], week: str, titles: Mapping[str, str]
) -> tuple[Closed, tuple[Problem, ...], Mapping[str, str]]:
    """Answers of `NAME.FIELD=VALUE`, `2026-06-07.minutes=95`, `note=...` and `substitution=...`; texts for problems."""
    dishes: dict[str, dict[str, Any]] = {}
    sessions: dict[str, dict[str, Any]] = {}
    whole: dict[str, Any] = {}
    faults: list[Problem] = []
    texts: dict[str, str] = {}
    for number, setting in enumerate(settings, start=1):
        path = f"--set {number}"
        texts[path] = setting
        left, sign, value = setting.partition("=")
        name, dot, of = left.strip().rpartition(".")
        place = Span(path, 1, 1, len(left) + 1)
        if not sign:
            faults.append(error(place, "yaml-syntax", "no `=` in it", "write it like bean-stew.left=1"))
        elif not dot and of in ("note", "on", "bought"):
            whole[of] = value.strip()
        elif not dot and of in ("substitution", "substitutions"):
            whole.setdefault("substitutions", []).append(value.strip())
        elif not dot:
            faults.append(error(place, "unknown-key", f'"{of}" names no dish', "write it like bean-stew.left=1"))
        elif (
            name[:4].isdigit()
            and name[4:5] == "-"
            and name[:10].count("-") == 2
            and of == ClosedSessionFields.minutes.name
        ):
            day, _, clock = name.partition("T")
            sessions.setdefault(name, {"on": day, **({"at": clock} if clock else {})})[of] = value.strip()
        else:
            dishes.setdefault(name, {"dish": name})[of] = value.strip()
    written = {**whole, "dishes": list(dishes.values()), "sessions": list(sessions.values())}
    text = flow({key: value for key, value in written.items() if value})
    path = "--set"
    answers, problems = read_answers(text.encode(), path, week, titles)
    return answers, (*faults, *problems), {**texts, path: text}


def over(below: Closed, above: Closed) -> Closed:
    """Both answers as one; where both say something, `above` counts."""
    dishes = {(one.recipe, one.which): one for one in below.dishes}
    for one in above.dishes:
        old = dishes.get((one.recipe, one.which))
        dishes[one.recipe, one.which] = _dish_over(old, one) if old else one
    return replace(
        below,
        on=above.on or below.on,
        dishes=tuple(dishes.values()),
        sessions=(*below.sessions, *above.sessions),
        substitutions=above.substitutions if above.substitutions is not None else below.substitutions,
        note=above.note if above.note is not None else below.note,
        bought=above.bought or below.bought,
    )


def _dish_over(old: ClosedDish, new: ClosedDish) -> ClosedDish:
    said = {
        name: value
        for name in ("made", "eaten", "left", "frozen", "thrown", "weighs_g", "gives", "left_by")
        if (value := getattr(new, name)) is not None
    }
    return replace(old, **said, why=new.why or old.why)


def minutes_of(session: ClosedSession, answers: Closed) -> int | None:
    """What was said of one session; the last word counts."""
    said = [
        one.minutes
        for one in answers.sessions
        if one.on == session.on and one.at_minutes in (None, session.at_minutes) and one.minutes is not None
    ]
    return said[-1] if said else None


def differences(given: Closed, recorded: Closed) -> tuple[str, ...]:
    """What the answers change in a closed week, in words; () when they say the same."""
    found: list[str] = []
    for dish in given.dishes:
        old = recorded.dish(dish.recipe, dish.which)
        if old is None:
            found.append(f"{dish.name} was not there")
            continue
        now = settled(_as_row(old), dish, old)
        for name in ("made", "eaten", "left", "frozen", "thrown", "why", "weighs_g", "gives", "left_by"):
            before, after = getattr(old, name), getattr(now, name)
            if before != after and not (name == "gives" and before is None):
                found.append(
                    f"{dish.name}: {name.removesuffix('_g').replace('_', ' ')} {_shown(before)}, now {_shown(after)}"
                )
    for session in recorded.sessions:
        minutes = minutes_of(session, given)
        if minutes is not None and minutes != session.minutes:
            found.append(f"{session.on.isoformat()}: {_shown(session.minutes)} minutes, now {minutes}")
    if given.substitutions is not None and given.substitutions != (recorded.substitutions or ()):
        found.append("other substitutions")
    if given.note is not None and given.note != (recorded.note or ""):
        found.append("another note")
    if given.bought is not None and given.bought != recorded.bought:
        found.append(f"bought {_shown(recorded.bought)}, now {given.bought}")
    if given.on is not None and given.on != recorded.on:
        found.append(f"closed on {recorded.on}, now {given.on}")
    return tuple(found)


def _as_row(old: ClosedDish) -> Row:
    planned = old.planned or old.made or Fraction(0)
    return Row(old.recipe, old.which, old.source, old.made_on, planned, old.eaten or planned)


def _shown(value: object) -> str:
    if isinstance(value, tuple):
        return ", ".join(f"{who} {float(count):g}" for who, count in value)
    return "not said" if value is None or value == "" else flow(value)
