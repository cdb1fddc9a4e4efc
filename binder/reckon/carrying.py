"""What has to be carried from home to where it is eaten, and when it leaves: after the last meal at home before it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from fractions import Fraction
from types import MappingProxyType

from binder.model.food import Food
from binder.model.household import HOME, Household, Place
from binder.model.quantity import Amount, exactly
from binder.model.recipe import HOT_TOOLS
from binder.reckon.facts import Carry, CarryItem, Serving
from binder.reckon.recipe_facts import IngredientFacts
from binder.reckon.scaling import scaled
from binder.tables import temperatures
from binder.tables.words import key as plain_key

FRIDGE_AISLES = frozenset({"dairy and eggs", "meat and fish", "produce"})
PERISHABLE = frozenset({"dairy and eggs", "meat and fish"})
FLASK = "insulated flask"
COLD_PACKS = "cold pack"
COOL_BAG = "cool bag"
NO_BOXES: Mapping[str, tuple[str, ...]] = MappingProxyType({})
# FSIS: perishable food carried without a cold source keeps 2 h; two cold sources are advised.
COLD_SOURCES = 2
# How long a meal takes, and a way to the door before the next one: common practice.
AT_TABLE = 30
AT_THE_DOOR = 10


def carry_list(
    servings: tuple[Serving, ...], household: Household, apart: Mapping[str, tuple[str, ...]] = NO_BOXES
) -> tuple[Carry, ...]:
    """What goes to which place on which day, for each eater who eats away from home.

    `apart`: by serving (id), the containers of what is packed apart from it.
    """
    found: dict[tuple[date, str, str], list[Serving]] = {}
    for serving in servings:
        if serving.date and serving.place != HOME:
            found.setdefault((serving.date, serving.eater, serving.place), []).append(serving)
    rank = {eater.name: n for n, eater in enumerate(household.eaters)}
    leaves = {key: _leaves(key, found[key], servings, household) for key in found}
    order = sorted(found, key=lambda key: (key[0], leaves[key], rank[key[1]], key[2]))
    carries = tuple(
        replace(
            _carry(key, found[key], _for_freezer(key, servings), household, apart),
            leaves=leaves[key],
            into_fridge=household.place(key[2]).tool("fridge") is not None and any(map(needs_cold, found[key])),
        )
        for key in order
    )
    return _travelling_once(carries, household)


def _leaves(
    key: tuple[date, str, str], carried: list[Serving], servings: tuple[Serving, ...], household: Household
) -> int:
    """Minutes after midnight: once the eater's last meal at home before it is eaten, so that it stays cold till then;
    at breakfast where no meal at home is planned."""
    on, eater, _ = key
    hour = household.meal_times
    first = min(hour[s.meal] for s in carried)
    at_home = [hour[s.meal] for s in servings if (s.date, s.eater, s.place) == (on, eater, HOME)]
    before = [at + AT_TABLE for at in at_home if at < first]
    return min(max(before), first - AT_THE_DOOR) if before else min(hour["breakfast"], first)


def _for_freezer(key: tuple[date, str, str], servings: tuple[Serving, ...]) -> list[CarryItem]:
    """What is taken to the place's own freezer on that day, for a later one."""
    return [
        CarryItem(s.facts.title, scaled(s.facts.portion, s.portions), "fridge", "for freezer", s.recipe)
        for s in servings
        if s.facts and (s.taken_on, s.eater, s.place) == key
    ]


def _carry(
    key: tuple[date, str, str],
    servings: list[Serving],
    more: list[CarryItem],
    household: Household,
    apart: Mapping[str, tuple[str, ...]],
) -> Carry:
    place, items = household.place(key[2]), list(more)
    for serving in servings:
        items.extend(_dish(serving))
        items.extend(_extras(serving))
    cold = (bool(more) or any(needs_cold(s) for s in servings)) and place.tool("fridge") is None
    items.extend(_tools(servings, place))
    if any(map(_in_flask, servings)):
        items.append(CarryItem(FLASK, None, "cupboard", "flask"))
    items.append(CarryItem("cutlery", None, "drawer", "cutlery"))
    bag = _has_either(COOL_BAG, place, household)
    if cold:
        items.append(CarryItem(COLD_PACKS, exactly(COLD_SOURCES, "each"), "freezer", "cold source"))
    if cold and bag:
        items.append(CarryItem(COOL_BAG, None, "cupboard", "cool bag"))
    uncooled = cold and not bag and not _has_either(COLD_PACKS, place, household)
    chilled = [household.meal_times.get(s.meal) for s in servings if needs_cold(s)]
    stays = frozenset(plain_key(one) for one in place.stays_there)
    waiting = [s.facts.title for s in servings if s.facts and s.stored_at == place.name]
    there = tuple(dict.fromkeys([*waiting, *(item.what for item in items if _stays(item, stays))]))
    carried = tuple(item for item in items if not _stays(item, stays))
    home = _comes_home(servings, carried, apart)
    at = max((one for one in chilled if one is not None), default=None)
    hours = (temperatures.UNCOOLED_HOURS, temperatures.UNCOOLED_HOURS_HOT)
    made = Carry(key[0], key[1], key[2], carried, cold, there, home)
    return replace(made, uncooled=uncooled, uncooled_hours=hours, meal_at=at)


def _has_either(kind: str, place: Place, household: Household) -> bool:
    return any(one.tool(kind) for one in (place, household.place(HOME)))


def _stays(item: CarryItem, stays: frozenset[str]) -> bool:
    return item.kind in ("at service", "tool", "cutlery", "flask", "cool bag") and plain_key(item.what) in stays


def _tools(servings: list[Serving], place: Place) -> list[CarryItem]:
    """Hand tools that a step at service names and the place has not; what heats must be there (`cannot-finish`)."""
    kinds = dict.fromkeys(use.kind for s in servings if s.facts for step in s.facts.recipe.service for use in step.uses)
    lacking = [kind for kind in kinds if kind not in HOT_TOOLS and place.tool(kind) is None]
    return [CarryItem(kind, None, "kitchen", "tool") for kind in lacking]


def _comes_home(
    servings: list[Serving], carried: tuple[CarryItem, ...], apart: Mapping[str, tuple[str, ...]]
) -> tuple[str, ...]:
    """The empty containers, and what else went along and is wanted again; the box of what went in a flask is home."""
    boxes = [
        box
        for s in servings
        if s.kept != "at service"
        for box in (*([s.container] if s.container and not _in_flask(s) else []), *apart.get(s.id, ()))
    ]
    kinds = ("tool", "flask", "cutlery", "cool bag", "cold source")
    return (*boxes, *(i.what for i in carried if i.kind in kinds))


def _travelling_once(carries: tuple[Carry, ...], household: Household) -> tuple[Carry, ...]:
    """Where a place says so and can keep it: what is added on several days goes along on the first, for all of them."""
    wanted: dict[tuple[str, str, str], list[CarryItem]] = {}
    for carry in carries:
        place = household.place(carry.place)
        for item in carry.items if place.travels_once else ():
            if item.kind == "at service" and (item.from_ == "cupboard" or place.tool(item.from_)):
                wanted.setdefault((carry.eater, carry.place, item.what), []).append(item)
    sums = {key: whole for key, items in wanted.items() if len(items) > 1 and (whole := _sum(items))}
    gone: set[tuple[str, str, str]] = set()
    made: list[Carry] = []
    for carry in carries:
        items: list[CarryItem] = []
        there = list(carry.there)
        for item in carry.items:
            key = (carry.eater, carry.place, item.what)
            if item.kind != "at service" or key not in sums:
                items.append(item)
            elif key in gone:
                there.append(item.what)
            else:
                gone.add(key)
                items.append(replace(item, amount=sums[key]))
        here = {item.what for item in items}
        there = [what for what in dict.fromkeys(there) if what not in here]
        made.append(replace(carry, items=tuple(items), there=tuple(there)))
    return tuple(made)


def _sum(items: list[CarryItem]) -> Amount | None:
    """All amounts together; None when one is not known or another unit."""
    amounts = [item.amount for item in items if item.amount is not None]
    if len(amounts) < len(items) or len({amount.unit for amount in amounts}) > 1:
        return None
    whole = amounts[0]
    for amount in amounts[1:]:
        whole = whole.plus(amount)
    return whole


def needs_cold(serving: Serving) -> bool:
    """Whether a serving has to stay cold on the way: what is kept cold, unless it travels hot in a flask.

    Dairy, eggs, meat and fish that are added when it is eaten have to, whatever they are added to.
    """
    if any(line.ingredient.food.aisle in PERISHABLE for line in _beside(serving)):
        return True
    if _in_flask(serving):
        return False
    return serving.kept in ("fridge", "freezer") and serving.stored_at == HOME


def _in_flask(serving: Serving) -> bool:
    return serving.reheat is not None and serving.reheat.means == "flask"


def _dish(serving: Serving) -> list[CarryItem]:
    assert serving.facts is not None
    if serving.kept == "at service" or serving.stored_at != HOME:
        return []
    amount = scaled(serving.facts.portion, serving.portions)
    # A frozen portion was pulled the evening before: it is carried from the refrigerator, unless it is used frozen. One
    # that is eaten out of a flask was heated and filled in at home.
    start: str = "fridge" if serving.kept == "freezer" and not serving.from_frozen else serving.kept
    start = FLASK if _in_flask(serving) else start
    apart = [CarryItem(part, None, start, "beside", serving.recipe) for part in serving.facts.recipe.packed_apart]
    return [CarryItem(serving.facts.title, amount, start, "dish", serving.recipe), *apart]


def _extras(serving: Serving) -> list[CarryItem]:
    assert serving.facts is not None
    share = serving.portions / serving.facts.recipe.portions
    return [_extra(line, serving, share) for line in _beside(serving)]


def _beside(serving: Serving) -> list[IngredientFacts]:
    """The lines that travel apart from the dish: beside it, added at service, all when nothing of it is made ahead."""
    assert serving.facts is not None
    apart = ("beside", "at service", "cooked") if serving.kept == "at service" else ("beside", "at service")
    return [line for line in serving.facts.ingredients if line.when in apart]


def _extra(line: IngredientFacts, serving: Serving, share: Fraction) -> CarryItem:
    kind = "beside" if line.when == "beside" else "at service"
    return CarryItem(line.food, scaled(line.amount, share), home_of(line.ingredient.food), kind, serving.recipe)


def home_of(food: Food) -> str:
    """Where a food stands at home: refrigerator, freezer or cupboard, by its aisle."""
    if food.aisle == "frozen":
        return "freezer"
    return "fridge" if food.aisle in FRIDGE_AISLES else "cupboard"
