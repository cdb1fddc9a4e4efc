"""What a session has to work with: the cooks and the pieces of equipment of the place where it is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from binder.model.household import HOME, Household, Place, Tool
from binder.model.recipe import Recipe, Step, Use
from binder.model.week import Session
from binder.problem import Problem, error
from binder.reckon.facts import Batch
from binder.reckon.scaling import loads_in

OVEN, RACK, COOK = "oven", "rack", "cook"
STORES = frozenset({"fridge", "freezer"})  # hold many things at once: no step keeps one to itself
# Without these a step that names them cannot be done; a pan or a bowl is found anywhere.
HEATS = frozenset({"oven", "burner", "microwave", "kettle", "pressure cooker"})
VESSELS = frozenset({"pressure cooker", "slow cooker", "rice cooker"})
# What leaves food hot, so that it must be cooled in time.
HOT = HEATS | {"slow cooker", "rice cooker", "grill", "steamer", "toaster", "waffle iron"}


@dataclass(frozen=True, slots=True)
class Pieces:
    """Pieces that can stand in for one another: `count` of a kind, numbered from `first`; `of` that kind in all."""

    kind: str
    count: int
    first: int = 1
    of: int = 1

    def name(self, n: int) -> str:
        """`burner 2`; an only piece has no number, a cook always has one."""
        return self.kind if self.of == 1 and self.kind not in (COOK, OVEN) else f"{self.kind} {self.first + n}"


@dataclass(frozen=True, slots=True)
class Equipment:
    """`tools` of one place. A home without a list is taken to have one piece of what a step names."""

    place: Place
    tools: tuple[Tool, ...]
    cooks: int

    @property
    def ovens(self) -> tuple[int, ...]:
        """The racks of each oven."""
        return tuple(tool.racks for tool in self._of(OVEN) for _ in range(tool.count))

    def pieces(self, kind: str, recipe: Recipe | None = None, portions: Fraction = Fraction(1)) -> Pieces | None:
        """The pieces that can do a step on so many portions; None: there is no limit.

        Where vessels of a kind differ in size, the step goes to the size that needs the fewest loads.
        """
        if kind == COOK:
            return Pieces(COOK, self.cooks, of=self.cooks)
        tools = self._of(kind)
        if kind in STORES or not tools:
            return None
        total = sum(tool.count for tool in tools)
        if recipe is None or len({tool.holds_ml for tool in tools}) == 1:
            return Pieces(kind, total, of=total)
        best = self._vessel(tools, recipe, portions)
        return Pieces(kind, best.count, 1 + sum(tool.count for tool in tools[: tools.index(best)]), total)

    def is_vessel(self, kind: str) -> bool:
        """Whether a dish stands in a tool of this kind between its steps: what has a size, or cooks by itself."""
        return kind in VESSELS or any(tool.holds_ml is not None for tool in self._of(kind))

    def loads(self, kind: str, recipe: Recipe, portions: Fraction) -> int:
        """How often the vessel of a kind is filled for so many portions."""
        tools = self._of(kind)
        return loads_in(self._vessel(tools, recipe, portions), recipe, portions) if tools else 1

    def _of(self, kind: str) -> tuple[Tool, ...]:
        return tuple(tool for tool in self.tools if tool.kind == kind)

    def _vessel(self, tools: tuple[Tool, ...], recipe: Recipe, portions: Fraction) -> Tool:
        return min(tools, key=lambda t: (loads_in(t, recipe, portions), t.holds_ml or 0))


def equipment(session: Session, batches: Sequence[Batch], household: Household) -> Equipment:
    """What a session has to work with."""
    return _at(household.place(session.place), batches, session.cooks)


def _at(place: Place, batches: Sequence[Batch], cooks: int) -> Equipment:
    tools = place.tools
    if place.name == HOME and not any(tool.kind not in STORES for tool in tools):
        named: dict[str, int] = {}
        for use in (use for batch in batches for step in steps_of(batch) for use in step.uses):
            if use.kind in HEATS:
                named[use.kind] = max(use.count, named.get(use.kind, 1))
        tools = (*tools, *(Tool(kind, count) for kind, count in sorted(named.items())))
    return Equipment(place, tools, max(1, cooks))


def steps_of(batch: Batch) -> tuple[Step, ...]:
    """The prep-day steps of a batch's recipe."""
    return batch.facts.recipe.prep if batch.facts else ()


def racks_kept(step: Step) -> int:
    """Racks of one oven that a step keeps: 0 without an oven, else one unless it says how many."""
    if not any(use.kind == OVEN for use in step.uses):
        return 0
    return max(use.count for use in step.uses if use.kind in (OVEN, RACK))


def heat_of(step: Step) -> Fraction | None:
    """The oven's temperature in °F; None when none is written, which counts as a temperature of its own."""
    return next((use.temperature_f for use in step.uses if use.kind == OVEN), None)


def is_hot(step: Step) -> bool:
    """Whether a step leaves food hot."""
    return any(use.kind in HOT or use.temperature_f is not None for use in step.uses)


def missing(batches: Sequence[Batch], have: Equipment, household: Household) -> tuple[Problem, ...]:
    """A problem at each step that names what heats and is not there, or more of it than there is."""
    short = tuple(_short(batches, have))
    # Only places where nothing is missing are named as a way out.
    others = [p.name for p in household.places if p is not have.place and not any(_short(batches, _at(p, batches, 1)))]
    return tuple(_cannot(step, use, have, others) for step, use in short)


def _short(batches: Sequence[Batch], have: Equipment) -> Iterator[tuple[Step, Use]]:
    for step in (step for batch in batches for step in steps_of(batch)):
        for use in step.uses:
            if use.kind in HEATS and _there(use.kind, have.tools) < _wanted(use, step):
                yield step, use


def _wanted(use: Use, step: Step) -> int:
    return racks_kept(step) if use.kind == OVEN else use.count


def _there(kind: str, tools: Sequence[Tool]) -> int:
    """The most pieces of a kind that one step can keep: of ovens, the racks of one."""
    if kind == OVEN:
        return max((tool.racks for tool in tools if tool.kind == OVEN), default=0)
    return sum(tool.count for tool in tools if tool.kind == kind)


def _cannot(step: Step, use: Use, have: Equipment, others: Sequence[str]) -> Problem:
    wanted, there = _wanted(use, step), _there(use.kind, have.tools)
    what = "oven rack" if use.kind == OVEN and there else use.kind
    needs = f"{wanted} {what}s" if wanted > 1 else f"{'an' if what[0] in 'aeiou' else 'a'} {what}"
    name = have.place.name
    return error(
        step.span,
        "cannot-finish",
        f'"{step.text}" needs {needs}, and {name}, where the session is, has {there or "none"}',
        *(f"hold the session at {other}: `place: {other}`" for other in others),
        f"write {needs} into what {name} has, if it is there",
    )
