"""Which container each portion goes into.

The recipe's `container` is the first choice; when there are not enough, the next smallest that holds the portion and
may be frozen if it must (any, when the volume is not known: by 1 mL a gram then, common practice, one that should hold
it before one that should not). Without one: the smallest that holds it. A box with compartments counts by its largest.
A box is in use from its session until what is in it is eaten. A recipe's own box goes to its dishes before it goes to
others.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction

from binder.model.household import Container, Household
from binder.model.week import Session
from binder.problem import Problem, Span, warning
from binder.reckon.facts import PackedFor, PackingRow, PartStored
from binder.reckon.filling import Filled

IN_BOXES = frozenset({"portion", "surplus"})
APART = frozenset({"apart", "packed apart"})  # what is stored or packed apart from the dish it belongs to


@dataclass(slots=True)
class _Shelf:
    """The empty boxes of one session, and what was put into which; boxes are moved along until all fit or none can."""

    free: dict[str, int]
    put: dict[str, str] = field(default_factory=dict)  # id of a filled thing to container

    def place_in(self, thing: str, name: str | None, choices: Mapping[str, tuple[str, ...]]) -> bool:
        """Put a thing into the box of that name, if it is one of its choices and free."""
        if name is None or name not in choices[thing] or self.free.get(name, 0) <= 0:
            return False
        self.free[name] -= 1
        self.put[thing] = name
        return True

    def place(self, thing: str, choices: Mapping[str, tuple[str, ...]], tried: frozenset[str] = frozenset()) -> bool:
        """Put a thing into its first choice that is free, moving others to a later choice of theirs if that helps."""
        for name in choices[thing]:
            if self.free.get(name, 0) > 0:
                self.free[name] -= 1
                self.put[thing] = name
                return True
        for name in choices[thing]:
            if name in tried:
                continue
            tried = tried | {name}
            for other in [o for o, box in self.put.items() if box == name]:
                del self.put[other]
                if self.place(other, choices, tried):
                    self.put[thing] = name
                    return True
                self.put[other] = name
        return False


def pack(things: tuple[Filled, ...], household: Household) -> tuple[Mapping[str, str], tuple[Problem, ...]]:
    """Container of each filled thing by id (absent: none), and too-few-containers, too-full, not-freezer-safe."""
    put: dict[str, str] = {}
    problems: list[Problem] = []
    # Frozen things first: fewer boxes will do for them. What is apart comes after the dishes.
    boxed = sorted((t for t in things if _needs_box(t)), key=lambda t: (t.what in APART, t.kept != "freezer"))
    until: list[tuple[str, date | None]] = []
    for session in sorted({t.session for t in boxed}, key=lambda s: (s.on, s.at_minutes, s.span.line)):
        here = [t for t in boxed if t.session == session]
        shelf, choices = (
            _Shelf(_empty(household, until, session)),
            {t.id: _choices(t, household.containers) for t in here},
        )
        short = [t for t in here if not shelf.place(t.id, choices)]
        # Who goes short is settled; of the rest, those come first whose own box it is.
        fit, shelf = [t for t in here if t.id in shelf.put], _Shelf(_empty(household, until, session))
        own = {t.id for t in fit if shelf.place_in(t.id, _wished(t), choices)}
        short += [t for t in fit if t.id not in own and not shelf.place(t.id, choices)]
        put.update(shelf.put)
        until.extend((shelf.put[t.id], t.eat_on) for t in here if t.id in shelf.put)
        problems.extend(_too_few(short, household))
    problems.extend(_unfit([t for t in things if _needs_box(t)], put, household))
    return put, tuple(problems)


def _needs_box(thing: Filled) -> bool:
    return thing.what in IN_BOXES | APART or (thing.what == "set" and thing.facts.recipe.container is not None)


def _wished(thing: Filled) -> str | None:
    """The recipe's container, which is for the dish and not for what is packed apart from it."""
    return None if thing.what == "packed apart" else thing.facts.recipe.container


def _empty(household: Household, until: list[tuple[str, date | None]], session: Session) -> dict[str, int]:
    """Boxes that are empty when a session starts: a box eaten from before that day is back."""
    busy = Counter(name for name, day in until if day is None or day >= session.on)
    return {box.name: max(0, box.have - busy[box.name]) for box in household.containers}


def _holds(box: Container, volume_ml: Fraction | None) -> bool:
    return volume_ml is None or box.largest_ml is None or volume_ml <= box.largest_ml


def _size(box: Container) -> tuple[Fraction, Fraction]:
    return box.largest_ml or Fraction(10**9), sum(box.compartments_ml, Fraction(0))


def _choices(thing: Filled, containers: tuple[Container, ...]) -> tuple[str, ...]:
    """The boxes that will do, best first; a microwave-proof one first where it is reheated in a microwave."""
    fit = [box for box in containers if _holds(box, thing.volume_ml) and (box.freezer or thing.kept != "freezer")]
    in_microwave = any(s.reheat and s.reheat.means == "microwave" for s in thing.servings)
    wished = _wished(thing)
    weighed = thing.volume_ml is None and (wished is not None or thing.what in APART)
    by_weight = Fraction(thing.grams).limit_denominator(1000) if weighed and thing.grams is not None else None

    def rank(box: Container) -> tuple[object, ...]:
        return box.name != wished, not _holds(box, by_weight), in_microwave and not box.microwave, *_size(box)

    fit.sort(key=rank)
    if not fit and wished and thing.kept != "freezer":
        return (wished,)
    return tuple(box.name for box in fit)


def _too_few(short: list[Filled], household: Household) -> list[Problem]:
    if not household.containers:
        return []
    by_line: dict[Span, list[Filled]] = {}
    for thing in short:
        by_line.setdefault(_span(thing), []).append(thing)
    return [_too_few_for(span, things) for span, things in by_line.items()]


def _span(thing: Filled) -> Span:
    return thing.line.span if thing.line else thing.facts.recipe.span


def _too_few_for(span: Span, things: list[Filled]) -> Problem:
    n = len(things)
    frozen = " that may be frozen" if any(t.kept == "freezer" for t in things) else ""
    boxes = "container" if n == 1 else "containers"
    message = f"{things[0].facts.title}: {n} {boxes}{frozen} missing for what is made on {things[0].made_on}"
    return warning(span, "too-few-containers", message, f"have {n} more, or make some of it in a later session")


def _unfit(things: list[Filled], put: Mapping[str, str], household: Household) -> list[Problem]:
    """The recipe's own container that cannot take a portion, or cannot be frozen; once for each meal line."""
    boxes = {box.name: box for box in household.containers}
    problems: dict[tuple[Span, str], Problem] = {}
    for thing in things:
        wished = boxes.get(_wished(thing) or "")
        if wished is None:
            continue
        used = f"; {put[thing.id]} is used" if put.get(thing.id, wished.name) != wished.name else ""
        if not _holds(wished, thing.volume_ml):
            message = f"{thing.title}: a portion is more than the {wished.name} holds ({wished.holds_text}){used}"
            found = warning(_span(thing), "too-full", message, "name a larger container, or a smaller portion")
            problems.setdefault((found.span, found.code), found)
        if thing.kept == "freezer" and not wished.freezer:
            message = f"{thing.title} is frozen, and the {wished.name} may not go into the freezer{used}"
            found = warning(_span(thing), "not-freezer-safe", message, "name a container that may be frozen")
            problems.setdefault((found.span, found.code), found)
    return list(problems.values())


def where_parts_lie(things: tuple[Filled, ...], put: Mapping[str, str]) -> Mapping[str, tuple[PartStored, ...]]:
    """By a kit's serving (id): its set and each part stored apart, in the recipe's order, and where they lie."""
    found: dict[str, tuple[PartStored, ...]] = {}
    for thing in things:
        if thing.what in ("set", "apart"):
            part = PartStored(thing.what, thing.part, thing.kept, thing.pull_on, thing.use_by, put.get(thing.id))
            for serving in thing.servings:
                found[serving.id] = (*found.get(serving.id, ()), part)
    return found


def boxes_apart(things: tuple[Filled, ...], put: Mapping[str, str]) -> Mapping[str, tuple[str, ...]]:
    """By serving (id): the containers of what is packed apart from it."""
    found: dict[str, tuple[str, ...]] = {}
    for thing in things:
        if thing.what == "packed apart" and thing.id in put:
            for serving in thing.servings:
                found[serving.id] = (*found.get(serving.id, ()), put[thing.id])
    return found


def rows(things: tuple[Filled, ...], put: Mapping[str, str], household: Household) -> tuple[PackingRow, ...]:
    """The packing sheet: a row for each recipe, container, kind and grams."""
    boxes = {box.name: box for box in household.containers}
    groups: dict[tuple[object, ...], list[Filled]] = {}
    for thing in things:
        key = (
            thing.session,
            thing.facts.key,
            thing.what,
            thing.title,
            put.get(thing.id),
            _key(thing.grams),
            _key(thing.cooked_grams),
            thing.portions,
        )
        groups.setdefault(key, []).append(thing)
    return tuple(_row(group, boxes.get(put.get(group[0].id, ""))) for group in groups.values())


def _key(grams: float | None) -> float | None:
    return None if grams is None else round(grams, 6)


def _row(group: list[Filled], box: Container | None) -> PackingRow:
    first = group[0]
    compartments = tuple(part.strip() for part in box.holds_text.split("+")) if box else ()
    return PackingRow(
        recipe=first.facts.key,
        container=box.name if box else None,
        count=len(group),
        grams_each=first.grams,
        cooked_grams_each=first.cooked_grams,
        cooked_grams_from=first.cooked_grams_from,
        compartments=compartments,
        raw_grams=first.raw_grams,
        for_=tuple(PackedFor(t.eater, t.eat_on) for t in group),
        what=first.what,
        portions_each=first.portions,
        kept=first.kept,
        session=first.session,
        servings=tuple(s.id for t in group for s in t.servings),
        part=first.part if first.what == "packed apart" else "",
    )
