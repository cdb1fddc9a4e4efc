"""What comes out of reckoning a week: the types behind its pages and behind its facts.json.

A field carries the name it has in facts.json. A field made with `inside()` serves pages and later stages and is
not written there. None is unknown, never zero.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date as Day
from datetime import datetime
from fractions import Fraction
from types import MappingProxyType
from typing import Literal

from binder.model.food import Food
from binder.model.quantity import Amount, Interval, Measure
from binder.model.recipe import Step
from binder.model.week import MealLine, Session
from binder.problem import Problem
from binder.reckon.past_facts import Past, ToClose
from binder.reckon.recipe_facts import CookedFrom, Nutrition, RecipeFacts, ReheatFacts, Tallies, inside

# ---- a week ----

Kept = Literal["fridge", "freezer", "cupboard", "at service"]


@dataclass(frozen=True, slots=True)
class PartKept:
    """Until when a part of a serving keeps by itself; None: not known, or frozen with the dish."""

    part: str
    use_by: Day | None
    apart: bool  # packed on its own


@dataclass(frozen=True, slots=True)
class PartStored:
    """Where one part of a kit lies until it is cooked. what: set or apart; part: its name, "" where it has none."""

    what: str
    part: str
    kept: str
    pull_on: Day | None
    use_by: Day | None
    container: str | None


@dataclass(frozen=True, slots=True)
class Serving:
    """One eater's portion of one dish at one meal."""

    id: str
    date: Day | None
    meal: str
    eater: str
    recipe: str
    portions: Fraction
    grams: float | None
    nutrition: Nutrition
    tallies: Tallies
    contains: tuple[str, ...]
    may_contain: tuple[str, ...]
    not_known: tuple[str, ...]
    kept: Kept
    made_on: Day | None
    use_by: Day | None
    pull_on: Day | None
    place: str
    reheat: ReheatFacts | None
    container: str | None
    lot: str | None
    line: MealLine = inside()
    session: Session | None = inside(default=None)  # None: from stock, or nothing made ahead
    from_frozen: bool = False  # frozen, and heated or eaten straight from the freezer
    stored_at: str = "home"  # whose refrigerator or freezer it waits in
    taken_on: Day | None = None  # the day it is taken to that place's freezer
    keeps_days: int | None = None  # the limit behind use_by, by the eater's caution
    caution: str = "usual"  # the rule set that was used
    parts: tuple[PartKept, ...] = ()  # of a dish whose parts keep differently
    facts: RecipeFacts | None = inside(default=None)  # of its variant, at the recipe's written size
    keeping_note: str = inside(default="")  # the rule behind use_by, with its source and rule set
    batch: str = inside(default="")  # id of its batch; "" when from stock or at service
    cooked_grams: float | None = None
    cooked_grams_from: CookedFrom | None = None
    # What the eater avoids and is no allergen: the foods of the dish that it takes in, and what no record tells.
    avoided: Mapping[str, tuple[str, ...]] = inside(default_factory=lambda: MappingProxyType({}))
    avoided_unsure: frozenset[str] = inside(default=frozenset())
    lies: tuple[PartStored, ...] = inside(default=())  # a kit's set and what is stored apart, where each of them lies


@dataclass(frozen=True, slots=True)
class Batch:
    """What one session makes of one recipe (or variant). `part_of`: keys of the recipes that use it as a part."""

    recipe: str
    made_on: Day
    portions_needed: Fraction
    portions_made: Fraction
    factor: Fraction
    surplus: Fraction
    loads: int
    id: str = inside(default="")
    session: Session | None = inside(default=None)
    facts: RecipeFacts | None = inside(default=None)
    part_of: tuple[str, ...] = inside(default=())


@dataclass(frozen=True, slots=True)
class PackCount:
    """So many packs of a size, at the price of one."""

    size: Amount
    count: int
    price: Fraction | None


@dataclass(frozen=True, slots=True)
class FromLot:
    """What a week takes of a lot on hand, as purchased, and for which recipes (keys)."""

    lot: str
    amount: Amount
    for_: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class BoughtIn:
    """The can, jar or pack of one stated size that all lines of a food are written in."""

    word: str
    size: Measure  # as written: 15 oz
    holds: Fraction  # in the unit of the row


@dataclass(frozen=True, slots=True)
class ShoppingRow:
    """A food to be had: the need, what is on hand, what is bought, in packs where their sizes are known."""

    food: str
    aisle: str
    need: Amount  # as purchased
    on_hand: Amount
    buy: Amount
    packs: int | None
    pack: Amount | None
    sizes: tuple[PackCount, ...]
    bought: Amount
    left_over: Amount
    cost: Fraction | None
    for_: tuple[str, ...]  # recipe keys; `for` in facts.json
    note: str = inside(default="")
    store: str | None = None  # how it is kept at home; None: not known
    source: Food | None = inside(default=None)
    written: tuple[Measure, ...] = inside(default=())
    from_lots: tuple[FromLot, ...] = inside(default=())
    container: BoughtIn | None = inside(default=None)  # where every line is written in cans of one size


@dataclass(frozen=True, slots=True)
class Costs:
    """Money of a week in the household's currency: what is eaten, and what is paid in the shop."""

    consumed: Fraction | None
    per_portion: Mapping[str, Fraction | None]
    to_pay: Fraction | None
    currency: str
    at_least: bool
    missing: tuple[str, ...] = inside(default=())  # foods without a price
    # The same by the lower ends of ranges, where they are lower bounds; None: as it is above.
    consumed_lowest: Fraction | None = inside(default=None)
    lowest: Mapping[str, Fraction | None] = inside(default_factory=lambda: MappingProxyType({}))


@dataclass(frozen=True, slots=True)
class MiseShare:
    """What one recipe takes of a row of the mise en place."""

    recipe: str
    amount: Amount | None
    drained: Interval | None = inside(default=None)  # grams without the liquid of a can; None: not from one


MiseCare = Literal["", "raw", "avoided"]  # handled last, and why: raw meat or fish, what an eater avoids


@dataclass(frozen=True, slots=True)
class MiseRow:
    """A food made ready in one way for all the recipes of a session."""

    food: str
    preparation: str
    amount: Amount | None
    grams: Interval | None
    for_: tuple[MiseShare, ...]
    session: Session | None = inside(default=None)
    measures: tuple[Measure, ...] = inside(default=())  # as written, scaled and added where the units agree
    care: MiseCare = inside(default="")
    needed: datetime | None = inside(default=None)  # when the first task starts that it is needed for
    drained: Interval | None = inside(default=None)  # grams without the liquid of the cans; None: not from any


@dataclass(frozen=True, slots=True)
class Task:
    """One step of the run sheet; times local with offset; `uses` the pieces it keeps; `after` the ids it waits for."""

    id: str
    text: str
    recipe: str
    part: str | None
    start: datetime
    finish: datetime
    attended: bool
    uses: tuple[str, ...]
    after: tuple[str, ...]
    load: int = inside(default=1)
    loads: int = inside(default=1)
    assumed_minutes: bool = inside(default=False)
    temperature: str = inside(default="")
    batch: str = inside(default="")
    raw: bool = inside(default=False)  # raw meat or fish is in hand
    apart_after: tuple[str, ...] = ()  # ids of what is over first so that an eater's food and this do not meet
    closed_first: tuple[tuple[str, str], ...] = inside(default=())  # eater, what is avoided: in hand from here on
    wash: tuple[str, ...] = inside(
        default=()
    )  # what is avoided and was in hand, while food that it may not meet follows


@dataclass(frozen=True, slots=True)
class KeptApart:
    """Two dishes of a session (recipe keys): one that an eater is served, one with something that this eater avoids."""

    eater: str
    avoided: str
    food: str
    other: str
    kept: bool  # False: it contradicts the order of the steps, a limit, or what another eater avoids


@dataclass(frozen=True, slots=True)
class RunSheet:
    """The order of one session's work. `at_least_minutes` is a bound below; `proven`: no order takes less."""

    session: str  # local date and time with offset
    start: datetime
    finish: datetime
    minutes: int
    at_least_minutes: int
    proven: bool
    tasks: tuple[Task, ...]
    of: Session | None = inside(default=None)
    cooks: int = 1
    tried: bool = False  # another number of cooks or another start than the week's file has
    apart_minutes: int = 0  # how much longer than the shortest found, so that no eater's food meets what they avoid
    apart: tuple[KeptApart, ...] = inside(default=())
    expected_minutes: int | None = None  # by how long sessions took in closed weeks; None: none was timed
    expected_from: int = 0  # how many timed sessions that rests on
    expected_alike: bool = inside(default=False)  # whether those were on the same day of the week
    expected_longer: int = inside(default=0)  # minutes that those took longer than planned, on average
    expected_planned: int | None = inside(default=None)  # minutes planned for those, where far from this one's
    apart_surely: bool = inside(default=True)  # whether the shortest without was proven to be the shortest


@dataclass(frozen=True, slots=True)
class ServiceTask:
    """One step left for service; times are None where the meal has no fixed day."""

    id: str
    text: str
    recipe: str
    part: str | None
    start: datetime | None
    finish: datetime | None
    attended: bool
    uses: tuple[str, ...]
    after: tuple[str, ...]
    step: Step = inside()
    at: int = inside(default=0)  # seconds after midnight of the day it is eaten
    seconds: int = inside(default=0)  # how long
    load: int = inside(default=1)
    loads: int = inside(default=1)
    assumed_minutes: bool = inside(default=False)


@dataclass(frozen=True, slots=True)
class Heating:
    """An oven is heated, or brought to another temperature (as it is written), for a step of `recipe`."""

    oven: str
    to: str
    recipe: str
    start: datetime | None
    finish: datetime | None
    at: int = inside(default=0)
    seconds: int = inside(default=0)


@dataclass(frozen=True, slots=True)
class ServiceSheet:
    """What is left of all kits for one meal at one place, timed back from the hour of the meal."""

    date: Day | None
    meal: str
    place: str
    recipes: tuple[str, ...]
    start: datetime | None
    finish: datetime | None
    minutes: int
    at_least_minutes: int
    proven: bool
    tasks: tuple[ServiceTask, ...]
    heating: tuple[Heating, ...]
    begins: int = inside(default=0)


@dataclass(frozen=True, slots=True)
class PackedFor:
    """Whom a filled container is for, and when; None: for nobody or no day in particular."""

    eater: str | None
    date: Day | None


@dataclass(frozen=True, slots=True)
class PackingRow:
    """Containers of one kind that are filled alike, in g each."""

    recipe: str
    container: str | None
    count: int
    grams_each: float | None
    compartments: tuple[str, ...]
    for_: tuple[PackedFor, ...]
    what: str = inside(default="portion")  # portion, surplus, set, apart, packed apart, by-product
    portions_each: Fraction | None = inside(default=None)
    kept: str = inside(default="fridge")
    session: Session | None = inside(default=None)
    servings: tuple[str, ...] = inside(default=())  # ids
    cooked_grams_each: float | None = None
    cooked_grams_from: CookedFrom | None = None
    raw_grams: bool = inside(default=False)  # the session's steps roast, drain or dry what `grams_each` weighs
    part: str = inside(default="")  # of what is packed apart: the part's name


@dataclass(frozen=True, slots=True)
class LabelFacts:
    """One label: `lines` are the words, top first, filled by pages; position from the sheet in use."""

    sheet: int
    row: int
    column: int
    lines: tuple[str, ...]
    recipe: str
    eater: str | None
    use_by: Day | None
    contains: tuple[str, ...]
    what: str = inside(default="portion")
    title: str = inside(default="")
    pull_on: Day | None = inside(default=None)
    eat_on: Day | None = inside(default=None)
    kept: str = inside(default="fridge")
    may_contain: tuple[str, ...] = inside(default=())
    not_known: tuple[str, ...] = inside(default=())
    reheat: ReheatFacts | None = inside(default=None)
    grams: float | None = inside(default=None)
    portions: Fraction | None = inside(default=None)
    place: str | None = inside(default=None)
    id: str = inside(default="")
    made_on: Day | None = inside(default=None)
    from_frozen: bool = inside(default=False)
    grams_from: CookedFrom | None = inside(default=None)
    raw_grams: bool = inside(default=False)


@dataclass(frozen=True, slots=True)
class WayOut:
    """What to do on the morning after when a pack was not pulled. seconds: heating, or the upper end in cold water."""

    how: Literal["from frozen", "cold water", "another dish"]
    means: str | None = None  # from frozen: microwave, oven, ...; kit: its own steps
    seconds: int | None = None
    core_f: int | None = None  # in the middle, by thermometer
    recipe: str | None = None  # another dish
    planned_for: Day | None = None  # the day that dish was meant for; None: no fixed day
    source: str = ""
    text: str = inside(default="")
    minutes: tuple[int, int] | None = inside(default=None)


@dataclass(frozen=True, slots=True)
class Pull:
    """What is moved from the freezer to thaw, and on which day."""

    pull_on: Day
    date: Day
    eater: str
    recipe: str
    portions: Fraction
    from_: str  # `from` in facts.json
    to: str
    serving: str = inside(default="")
    way_out: tuple[WayOut, ...] = ()  # best first
    place: str = inside(default="home")


@dataclass(frozen=True, slots=True)
class CarryItem:
    """One thing that is taken along."""

    what: str
    amount: Amount | None
    from_: str
    kind: str = inside(default="dish")  # dish, beside, at service, tool, cold source, cool bag, cutlery
    recipe: str | None = inside(default=None)


@dataclass(frozen=True, slots=True)
class Carry:
    """What one eater takes to one place on one day."""

    date: Day
    eater: str
    place: str
    items: tuple[CarryItem, ...]
    cold: bool
    there: tuple[str, ...] = ()  # what is at the place already: it stays there, or travelled on an earlier day
    comes_home: tuple[str, ...] = ()  # containers, flask, cool bag, cold packs
    leaves: int = inside(default=7 * 60)  # minutes after midnight
    into_fridge: bool = inside(default=False)  # has to stay cold, and the place has a refrigerator
    uncooled: bool = False  # it needs cold, and neither the place nor home has anything that keeps it so
    uncooled_hours: tuple[int, int] = inside(default=(0, 0))  # how long that may last: on a usual day, on a hot one
    meal_at: int | None = inside(default=None)  # minutes after midnight of its last chilled meal


@dataclass(frozen=True, slots=True)
class RoomDay:
    """Litres of filled containers in a refrigerator or freezer on a day; holds None: the household does not say."""

    date: Day
    place: Literal["fridge", "freezer"]
    litres: Fraction
    holds: Fraction | None
    over: bool
    unknown: int = 0  # things of no known size, on top


@dataclass(frozen=True, slots=True)
class FrozenBoxes:
    """Alike boxes that go into the freezer; headspace_inches: the room to leave at the top of a liquid."""

    recipe: str
    container: str | None
    count: int
    headspace_inches: Fraction | None
    what: str = inside(default="portion")


@dataclass(frozen=True, slots=True)
class FreezerLoad:
    """What goes into the freezer on a prep day; at_most_grams None: the freezer's size is not stated."""

    date: Day
    boxes: tuple[FrozenBoxes, ...]
    grams: float
    unknown: int  # things of no known weight, on top
    at_most_grams: float | None
    over: bool
    source: str


@dataclass(frozen=True, slots=True)
class UseFirst:
    """What on hand should be eaten before the rest, and why."""

    food: str | None  # one of food and recipe is set
    recipe: str | None
    amount: Amount | None
    place: str
    use_by: Day | None
    why: str
    lot: str = inside(default="")
    dishes: tuple[str, ...] = ()  # recipes of the library that would use it
    taken: Amount | None = inside(default=None)  # what this week's dishes take of it; `amount` is left after that


@dataclass(frozen=True, slots=True)
class AimReached:
    """An eater's aim on one day; None: too little is known to say."""

    name: str
    aim: str
    reached: bool | None


@dataclass(frozen=True, slots=True)
class DayTotal:
    """What one eater has on one day from this plan, and which aims that reaches."""

    date: Day
    eater: str
    nutrition: Nutrition
    tallies: Tallies
    aims: tuple[AimReached, ...]


@dataclass(frozen=True, slots=True)
class WeekFacts:
    """Everything reckoned for one week; facts.json writes its keys sorted."""

    week: str
    today: Day
    problems: tuple[Problem, ...]
    servings: tuple[Serving, ...]
    batches: tuple[Batch, ...]
    shopping: tuple[ShoppingRow, ...]
    cost: Costs
    mise_en_place: tuple[MiseRow, ...]
    run_sheets: tuple[RunSheet, ...]
    packing: tuple[PackingRow, ...]
    labels: tuple[LabelFacts, ...]
    labels_next_free: int
    pull_list: tuple[Pull, ...]
    carry_list: tuple[Carry, ...]
    use_first: tuple[UseFirst, ...]
    day_totals: tuple[DayTotal, ...]
    room: tuple[RoomDay, ...] = ()
    freezer_load: tuple[FreezerLoad, ...] = ()
    services: tuple[ServiceSheet, ...] = ()
    recipes: Mapping[str, RecipeFacts] = inside(default_factory=lambda: MappingProxyType({}))
    to_taste: tuple[str, ...] = inside(default=())  # foods used without a stated amount
    to_close: tuple[ToClose, ...] = inside(default=())  # (): closed, or not begun
    past: Past = inside(default=Past())
