"""A recipe as the household means it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from types import MappingProxyType
from typing import Literal

from binder.model.food import Food, Keeping, TallyStep
from binder.model.quantity import Amount, Measure
from binder.problem import Span

# Tools whose steps leave food hot.
HOT_TOOLS = frozenset(
    {
        "oven", "burner", "pressure cooker", "slow cooker", "rice cooker", "microwave", "grill", "steamer",
        "kettle", "toaster", "waffle iron",
    }
)  # fmt: skip
Meal = Literal["breakfast", "lunch", "dinner", "snack"]
MEALS: tuple[Meal, ...] = ("breakfast", "lunch", "snack", "dinner")
Form = Literal["ready", "assemble", "kit", "portioned"]
When = Literal["cooked", "beside", "at service"]


@dataclass(frozen=True, slots=True)
class Ingredient:
    """One ingredient line. `recipe` is set (and `food` names it) when the line is a part made from another recipe."""

    text: str
    span: Span
    when: When
    part: str | None
    food: Food
    recipe: str | None
    measures: tuple[Measure, ...]  # summed; () when no amount was written ("to taste")
    pack: Measure | None = None  # stated size of one can or pack: measures count packs, this is what one holds
    preparation: str = ""
    form_words: tuple[str, ...] = ()  # words that choose the table's measure: chopped, sliced, packed
    notes: tuple[str, ...] = ()
    alternative: str = ""
    flags: frozenset[str] = frozenset()
    eaten: Fraction = Fraction(1)
    as_purchased: bool = False

    @property
    def drained(self) -> bool:
        """Whether it is a can that is bought with its liquid and eaten without it."""
        return self.as_purchased and "as purchased" not in self.flags


@dataclass(frozen=True, slots=True)
class Use:
    """What a step keeps: `kind` is the tool's kind (oven, burner, cutting board, pressure cooker, ...)."""

    kind: str
    count: int = 1
    temperature_f: Fraction | None = None
    temperature_text: str = ""  # as written: "400 °F"


@dataclass(frozen=True, slots=True)
class Step:
    """One step. minutes None: no time was written, a stated default is used."""

    text: str
    span: Span
    part: str | None  # None or "Together" for what waits for all parts
    minutes: Fraction | None
    unattended: bool = False
    per_portion: bool = False
    uses: tuple[Use, ...] = ()


@dataclass(frozen=True, slots=True)
class Reheat:
    """A way to reheat: `means` is microwave, oven, burner, flask, kettle, ... or cold; seconds and watts as written."""

    means: str
    watts: int | None
    seconds: int | None
    text: str  # the line as written
    span: Span
    temperature_text: str = ""
    rest: tuple[str, ...] = ()  # "covered", "stir halfway"

    @property
    def from_frozen(self) -> bool:
        """Whether the line starts from the frozen pack: `microwave 1000 W, 4 min, from frozen`."""
        return any("frozen" in words.casefold().split() for words in self.rest)


@dataclass(frozen=True, slots=True)
class Recipe:
    """One recipe file. Lines stand at the recipe's written size, which is `portions`."""

    key: str
    title: str
    span: Span
    meals: tuple[Meal, ...]
    form: Form
    portions: Fraction
    makes: Amount | None  # total, when an amount was written (3 cups, 600 g, 24 each)
    makes_text: str
    portion: Amount | None
    portion_measure: Measure | None
    ingredients: tuple[Ingredient, ...]  # cooked, beside and at service, in that order
    part_names: tuple[str, ...]
    gives: tuple[Ingredient, ...]
    keeping: Keeping
    container: str | None
    container_span: Span | None
    reheat: tuple[Reheat, ...]
    needs: tuple[str, ...]  # tool kinds
    batch: Literal["exact", "whole", "half"]
    tallies: Mapping[str, tuple[TallyStep, ...]]  # steps in portions (unit each)
    prep: tuple[Step, ...]
    service: tuple[Step, ...]
    source: str = ""
    photo: str | None = None
    private: str = ""
    notes: str = ""
    weighs_g: Fraction | None = None  # cooked weight of what it makes, when the household weighed it
    tags: tuple[str, ...] = ()
    sections: tuple[tuple[str, str], ...] = ()  # further `## ` sections of the body: title, Markdown
    extra: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    short: str = ""  # a name for lists; "" when none is written
    from_frozen: bool = False  # used straight from the freezer, never thawed first
    packed_apart: tuple[str, ...] = ()  # parts that travel in a container of their own
    proved: Mapping[str, int] = field(
        default_factory=lambda: MappingProxyType({})
    )  # place to seconds that proved right

    @property
    def put_together_cold(self) -> bool:
        """Whether its steps are written and none of them heats: what goes in keeps the dates that it had."""
        return bool(self.prep) and not any(use.kind in HOT_TOOLS for step in self.prep for use in step.uses)

    @property
    def apart_names(self) -> tuple[str, ...]:
        """A kit's parts that are stored apart from its set: every part name after the first."""
        return self.part_names[1:] if self.form == "kit" else ()
