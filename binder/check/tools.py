"""Equipment as a household writes it: `2 ovens`, `oven 2 racks`, `pressure cooker 6 qt`, `microwave 1000 W`."""

from __future__ import annotations

import re
from fractions import Fraction
from types import MappingProxyType

from binder.model.household import Tool
from binder.problem import Problem, Span, error
from binder.source.lexicon import VOLUME, unit_named
from binder.source.numbers import WORDS, number_at
from binder.tables.measures import ML_PER_CUBIC_FOOT, System, ml_per
from binder.tables.words import singular

# Other words for one kind of equipment, in the singular.
_SAME = MappingProxyType(
    {
        "hob": "burner", "stove": "burner", "stovetop": "burner", "stove top": "burner", "ring": "burner",
        "hotplate": "burner", "hot plate": "burner", "stove burner": "burner", "gas burner": "burner",
        "refrigerator": "fridge", "microwave oven": "microwave", "chopping board": "cutting board",
        "board": "cutting board",
        "electric kettle": "kettle", "cool box": "cool bag", "cooler": "cool bag", "cooler bag": "cool bag",
        "insulated bag": "cool bag", "insulated lunch bag": "cool bag", "ice chest": "cool bag",
        "ice pack": "cold pack", "freezer pack": "cold pack", "gel pack": "cold pack", "cool pack": "cold pack",
        "vacuum flask": "insulated flask", "flask": "insulated flask", "insulated jar": "insulated flask",
        "deep freeze": "freezer",
        "deep freezer": "freezer",
    }
)  # fmt: skip
_TRAILER = re.compile(
    r"(?P<head>.*?)[\s,]+(?:with\s+)?(?P<number>[0-9][0-9/.,]*(?:\s+[0-9]+/[0-9]+)?|[0-9]*\s?[¼½¾⅓⅔])[\s-]*(?P<unit>[^\W\d]+\.?)"
)
_CUBIC_FEET = r"\bcu(?:bic|\.)?\s*(?:ft\b\.?|feet\b|foot\b)"
_CUBIC_FOOT = "cuft"
_COUNT = re.compile(r"(?P<count>[0-9]+)\s*(?:x\s+|×\s*|\s)(?P<rest>\S.*)|(?P<word>[a-z]+)\s+(?P<other>\S.*)")


def kind_of(words: str) -> str:
    """The one name a kind of equipment goes by: `cutting boards` is `cutting board`, `hob` is `burner`."""
    head, _, last = " ".join(words.lower().replace(",", " ").split()).rpartition(" ")
    kind = f"{head} {singular(last)}".strip()
    return _SAME.get(kind, kind)


def _trailer(number: Fraction, unit: str, system: System) -> dict[str, int | Fraction] | None:
    """What a number with a unit after the kind says of it; None when the unit says nothing of equipment."""
    word = unit.rstrip(".").lower()
    if word in ("w", "watt", "watts"):
        return {"watts": round(number)}
    if word in ("kw", "kilowatt", "kilowatts"):
        return {"watts": round(number * 1000)}
    if word in ("rack", "racks", "shelf", "shelves"):
        return {"racks": int(number)}
    if word == _CUBIC_FOOT:
        return {"holds_ml": number * ML_PER_CUBIC_FOOT}
    volume = unit_named(unit)
    if volume in VOLUME:
        return {"holds_ml": number * ml_per(volume, system)}
    # A pan's width or an oven's heat says nothing that the plan reckons with.
    return {} if word in ("in", "inch", "inches", "cm", "f", "c") else None


def read_tool(text: str, span: Span, system: System = "us") -> tuple[Tool, tuple[Problem, ...]]:
    """A line of equipment; a number that cannot stand is a problem, and then left out."""
    words = re.sub(_CUBIC_FEET, _CUBIC_FOOT, text.replace("°", " "), flags=re.IGNORECASE)
    rest, count = _counted(" ".join(words.split()))
    said: dict[str, int | Fraction] = {}
    problems: list[Problem] = []
    if count == 0:
        problems.append(error(span, "bad-amount", f'"{text}" is none at all', "leave it out"))
    while found := _TRAILER.fullmatch(rest):
        number = number_at(found["number"], words=False)
        if number is None or number.end < len(found["number"]):
            break
        more = _trailer(number.value or Fraction(0), found["unit"], system)
        if more is None:
            break
        if not number.value:
            problems.append(
                error(
                    span,
                    "bad-amount",
                    f'"{found["number"]} {found["unit"]}" cannot be',
                    "write what it has, or leave it out",
                )
            )
        else:
            said = {**more, **said}
        rest = found["head"]
    holds = said.get("holds_ml")
    watts = said.get("watts")
    tool = Tool(
        kind_of(rest),
        max(count, 1),
        int(watts) if watts else None,
        max(int(said.get("racks", 1)), 1),
        Fraction(holds) if holds else None,
        text,
    )
    return tool, tuple(problems)


def _counted(text: str) -> tuple[str, int]:
    """The text without the number in front, and the number; 1 when there is none."""
    found = _COUNT.fullmatch(text.lower())
    if found and found["count"] and len(found["count"]) < 4:
        return text[found.start("rest") :], int(found["count"])
    if found and found["word"] in WORDS:
        return text[found.start("other") :], int(WORDS[found["word"]])
    return text, 1
