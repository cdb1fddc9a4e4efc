"""Every word that the pages print, in English. Another language is one more file: a class that overrides these.

Text in braces is filled in; the order within a sentence is the language's own affair.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from types import MappingProxyType

from binder.pages.words.en_counting import counts_in
from binder.pages.words.en_site import SiteWords

Map = Mapping[str, str]

_IRREGULAR: Map = MappingProxyType({"leaf": "leaves", "loaf": "loaves", "potato": "potatoes", "tomato": "tomatoes"})
_UNCOUNTED = ("s", "fish", "rice", "corn", "garlic", "celery", "bread", "trout", "salmon")


def _plural(noun: str) -> str:
    """English plural of a food's name; what ends in s, or is not counted, stays."""
    words = noun.split(" ")
    last = words[-1]
    if last.endswith(_UNCOUNTED) or not last:
        return noun
    if last in _IRREGULAR:
        many = _IRREGULAR[last]
    elif last.endswith("y") and last[-2:-1] not in "aeiou":
        many = f"{last[:-1]}ies"
    else:
        many = f"{last}es" if last.endswith(("x", "ch", "sh")) else f"{last}s"
    return " ".join((*words[:-1], many))


class Words(SiteWords):
    """The words of a language; values never change, so one object serves all."""

    __slots__ = ()

    # ---- numbers, days, units ----
    weekdays = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
    weekdays_short = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
    months = (
        "January", "February", "March", "April", "May", "June",
        "July", "August", "September", "October", "November", "December",
    )  # fmt: skip
    months_short = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
    date = "{weekday} {day} {month}"
    date_with_year = "{day} {month} {year}"
    range_of = "{} to {}"
    week_title = "Week {week}, {year}"
    day, days = "day", "days"
    about, at_least, less_than = "about {}", "at least {}", "less than {}"
    not_known, some, to_taste, yes, no, dash = "not known", "some", "to taste", "yes", "no", "–"
    list_last = "{first} and {last}"
    separator = " · "
    any_day = "any day"
    units: Mapping[str, tuple[str, str]] = MappingProxyType(
        {
            "each": ("", ""), "cup": ("cup", "cups"), "fl-oz": ("fl oz", "fl oz"), "pint": ("pint", "pints"),
            "quart": ("quart", "quarts"), "gallon": ("gallon", "gallons"), "dash": ("dash", "dashes"),
            "pinch": ("pinch", "pinches"), "smidgen": ("smidgen", "smidgens"), "drop": ("drop", "drops"),
            "clove": ("clove", "cloves"), "bunch": ("bunch", "bunches"), "head": ("head", "heads"),
            "stalk": ("stalk", "stalks"), "sprig": ("sprig", "sprigs"), "leaf": ("leaf", "leaves"),
            "slice": ("slice", "slices"), "can": ("can", "cans"), "jar": ("jar", "jars"),
            "pack": ("pack", "packs"), "bottle": ("bottle", "bottles"), "handful": ("handful", "handfuls"),
            "knob": ("knob", "knobs"), "ear": ("ear", "ears"), "rasher": ("rasher", "rashers"),
            "fillet": ("fillet", "fillets"), "piece": ("piece", "pieces"), "inch": ("inch", "inches"),
            "strip": ("strip", "strips"), "wedge": ("wedge", "wedges"), "stick": ("stick", "sticks"),
            "loaf": ("loaf", "loaves"), "portion": ("portion", "portions"),
        }
    )  # fmt: skip
    meals: Map = MappingProxyType({"breakfast": "Breakfast", "lunch": "Lunch", "snack": "Snack", "dinner": "Dinner"})
    cautions: Map = MappingProxyType(
        {
            "usual": "usual (the upper end of each published range)",
            "strict": "strict (the lower end of each published range)",
        }
    )
    severities: Map = MappingProxyType({"error": "Must be put right", "warning": "Look at"})

    def unit(self, unit: str, count: Fraction) -> str:
        """A unit's word for a count: one cup, half a cup, two cups. Symbols (tsp, g, lb) stay as they are."""
        one, many = self.units.get(unit, (unit, unit))
        return many if count > 1 else one

    def counts_in(self, text: str) -> bool:
        """Whether words of a step count what grows with the batch: `roll 24 balls`, `add 2 cups of broth`."""
        return counts_in(text)

    def in_units(self, food: str, unit: str) -> str:
        """`white beans` for `canned white beans` that are counted in cans."""
        return food.removeprefix("canned ") if unit == "can" else food

    def plural_food(self, food: str) -> str:
        """`onions, red` for `onion, red`."""
        head, comma, rest = food.partition(",")
        return _plural(head) + comma + rest

    def tried_cooks(self, other: int, written: int) -> str:
        """Another number of cooks than is written."""
        return f"{other} {'cook' if other == 1 else 'cooks'} instead of {written}"

    def store(self, place: str) -> str:
        """Where something is kept: `refrigerator` for `fridge`; a household's own place by its name."""
        whose, _, kind = place.rpartition(" ")
        own = f"{whose} {self.kept_short[kind]}" if whose and kind in self.kept_short else place
        return self.kept_short.get(place, own)

    def plural_tool(self, kind: str, count: int) -> str:
        """`oven`, `2 burners`."""
        return f"{count} {_plural(kind)}" if count > 1 else kind

    # ---- sections ----
    section_titles: Map = MappingProxyType(
        {
            "week": "Week sheet", "shopping": "Shopping list", "mise": "Mise en place", "run-sheet": "Run sheet",
            "cards": "Recipe cards", "packing": "Packing sheet", "reheating": "Reheating notes",
            "carry": "Carry list", "pull": "Pull and use first", "kits": "Kit cards",
            "allergens": "Allergen matrix", "numbers": "Numbers by eater and day", "keeping": "Keeping notes",
            "notes": "How it went",
        }
    )  # fmt: skip
    section_tabs: Map = MappingProxyType(
        {
            "week": "Week", "shopping": "Shop", "mise": "Mise", "run-sheet": "Run", "cards": "Cards",
            "packing": "Pack", "reheating": "Heat", "carry": "Carry", "pull": "Pull", "kits": "Kits",
            "allergens": "Allergens", "numbers": "Numbers", "keeping": "Keep", "notes": "Notes",
        }
    )  # fmt: skip
    contents, draft = "Contents", "DRAFT"
    from_to_days = "{} to {} {year}"
    printed_on = "As planned on {}."
    nothing_this_week = "Nothing this week: {}."
    look_at = "Look at these before you cook"

    # ---- words shared by tables ----
    dish, food, what, where, why, how, when = "Dish", "Food", "What", "Where", "Why", "How", "When"
    meal, place, time, task, uses = "Meal", "Place", "Time", "Task", "Uses"
    for_whom, how_much, how_long, use_by, made, number_short = "For", "How much", "How long", "Use by", "Made", "No."
    only_for = "for {}"
    source = "Source: {}"
    caution, substitutions, allergens = "Take care", "Substitutions", "Allergens"
    unattended = "unattended"
    private_note, private_notes = "Private note", "Private notes"

    # ---- 1 week sheet ----
    week_sheet, day_by_day = "Week sheet", "What to do each day"
    no_fixed_day = "No fixed day"
    no_fixed_day_line = "{eater}, {meal}: {dish}, {portions}"
    nothing_to_do = "Nothing to cook, carry, heat or pull this week."
    do_prep = "Prep session at {when}: {time}"
    do_carry = "Carry to {place} for {eater}: {count} things"
    do_cook = "{when} cook {dish} for {eaters}{more}"
    do_begin = "{when} begin {dish} for {eaters}{more}, to eat at {meal}"
    do_reheat = "{when} heat {dish} for {eaters}{more}"
    do_flask = "Before leaving: fill a flask with {dish} for {eaters}{more}"
    do_pull = "Evening: move {dish}, {portions}, from the {source} to the {to}"
    at_place, for_day = "at {}", "for {}"
    cold_source_needed, with_cold_packs = "With cold packs", "with cold packs"

    # ---- 2 shopping ----
    shopping, buy, need, on_hand, left_over, cost = "Shopping list", "Buy", "Need", "On hand", "Left over", "Cost"
    aisles: Map = MappingProxyType(
        {
            "produce": "Produce", "meat and fish": "Meat and fish", "dairy and eggs": "Dairy and eggs",
            "bakery": "Bakery", "grains and pulses": "Grains and pulses", "tins and jars": "Tins and jars",
            "baking": "Baking", "nuts and dried fruit": "Nuts and dried fruit",
            "oils and condiments": "Oils and condiments", "spices": "Spices", "frozen": "Frozen",
            "drinks": "Drinks", "household": "Household", "other": "Other",
        }
    )  # fmt: skip
    price_not_known, to_pay = "not known", "To pay"
    nothing_to_buy = "Nothing to buy: all of it is in the house."
    in_the_house = "In the house already"
    in_the_house_note = "The week uses these and nothing is bought. Look that each is there and still good."
    consumed, consumed_in_all = "What the week's food costs", "In all"
    cost_per_portion = "A portion"
    prices_missing = "No price known for {}."

    # ---- 3 mise en place ----
    mise_en_place, cut_how, split_by_dish = "Mise en place", "Cut how", "For which dish"
    measured_out, measured_in_all = "Measured out, by dish", "In all: {}."
    mise_avoided = "Last, when the food of those who avoid it is closed and put away"
    # By whether it is after all produce, and on boards of its own.
    mise_raw = MappingProxyType(
        {
            (
                True,
                True,
            ): "After all of the above, on its own board: raw meat and fish. Then wash board, knife and hands.",
            (True, False): "After all of the above: raw meat and fish. Then wash board, knife, sink and hands.",
            (False, True): "When the run sheet says, on its own board: raw meat and fish. Then wash board, knife and "
            "hands, before anything else is cut.",
            (
                False,
                False,
            ): "When the run sheet says: raw meat and fish. Then wash board, knife, sink and hands, before "
            "anything else is cut.",
        }
    )
    mise_note = (
        "Added up where it is cut alike. Vegetables, fruit and herbs before raw meat and fish; wash board, knife and "
        "hands between."
    )
    mise_note_not_last = (
        "Added up where it is cut alike. Vegetables, fruit and herbs before raw meat and fish, as far as the run sheet "
        "has time for it; wash board, knife and hands between."
    )

    # ---- 4 run sheet ----
    run_sheet = "Run sheet"
    last_session, last_sessions, on_weekday = "The last session", "The last {} sessions", " on a {}"
    took_longer, took_shorter = "{which} took {time} longer than planned", "{which} took {time} less than planned"
    took_as_planned, on_average = "{which} took as long as planned", " on average"
    planned_at = ", planned at {},"
    by_that_measure = "By that measure this one takes about {time}, until {finish}."
    run_sheet_lead = "{start} to {finish}: {time}, with {attended} of handwork."
    proven = "No order of these steps ends sooner: proven."
    not_proven = "No order can take less than {}; whether this one can be shortened is not known."
    proven_apart = "No order of these steps that keeps this apart ends sooner: proven."
    kept_apart = "{who}'s food is closed and put away before {what} {are} in hand."
    is_, are = "is", "are"
    apart_costs = "This takes {time} more than the shortest order{found}."
    shortest_found = " that was found"
    closed_first = "From here on {what} {are} in hand: {who}'s food is closed and put away."
    wash_avoided = "Then wash up board, knife, bowls and hands: {what}."
    not_apart_title = "Cannot be kept apart: wash up between"
    not_apart = "{who}'s {food} and {other} ({what}): wash up board, knife, bowls, sink and hands between the two."
    tried = "Tried, and not written in the week's file: {}."
    tried_at = "start at {other} instead of {written}"
    load_of = "(load {load} of {loads})"
    wash_after_raw = "Then wash board, knife, sink and hands."
    minutes_assumed = "(minutes assumed: the recipe states none)"
    nothing_kept_row = "by itself"
    picture_caption = "Grey: hands are busy. Hatched: it goes by itself. The numbers are those of the table."
    picture_alt = "Who and what is busy from {start} to {finish}; rows: {rows}. The table below says the same."
    cooling, hot_until, check_half_way = "Cold by when", "Hot until", "Check"
    lukewarm_by, cold_by = "70 °F / 21 °C by", "41 °F / 5 °C by"
    cooled_by_itself = (
        "{part}: off the heat {off}; spread it thin and put it in the refrigerator by itself until it is folded in."
    )
    cooling_title = "Cooling"
    cooling_how = (
        "Thick food no deeper than 2 in (5 cm), thin liquids 4 in (10 cm); lids ajar, air around; in the refrigerator "
        "before the 70 °F / 21 °C time.",
        "At the check, above 92 °F / 33 °C in the middle is late: shallower, or an ice bath, and stir. (A screen only: "
        "worked out from Hedeen, Schaffner and Brown, 2022.)",
        "70 °F / 21 °C missed: heat again to 165 °F / 74 °C and begin once more, or throw it away. 41 °F / 5 °C "
        "missed: throw it away. ({source})",
    )
    pressure_title = "Pressure cooker"
    pressure_caution = (
        "Pressure cooker: the maker's manual comes first. No more than two thirds full, half with what swells or "
        "foams; never open it under pressure."
    )

    # ---- 5 recipe cards ----
    keeps_shortest, part_keeps, part_until = "{} keeps shortest", "{part} apart {time}", "{part} apart {day}"
    packed_apart, keeps_joined = "apart: {}", "; "
    makes, portion, keeps, container, reheat = "Makes", "A portion", "Keeps", "Container", "Reheat"
    a_portion_has = "A portion has"
    surplus, in_loads, part_of = "{} more than needed", "in {} loads", "goes into {}"
    cooked_when_eaten, times_the_recipe = "made when it is eaten", "{} × the recipe"
    in_fridge, in_freezer, limit_for = "{} in the refrigerator", "{} frozen", "{limit} for {who}"
    refrigerated = "{} refrigerated"
    fridge_not_known, frozen_not_known = "not known how long in the refrigerator", "may be frozen, not known how long"
    does_not_freeze, assumed = "do not freeze", "assumed: the recipe does not say"
    no_reheat, or_cold = "none: eaten as it is", "or cold"
    no_figures_for = "No figures for {}"
    protein_short = "{} protein"
    with_added, in_all = "with what is added {}, {}", "in all {}"
    before_cooking, figures_for = "{} before cooking", "for {who} {figures}"
    beside_each, at_service_each = "Beside, for each portion", "At service, for each portion"
    pack_of, pack_of_drained, drained_weight = "{} each", "{} each with the liquid", "{} drained"
    or_instead, as_purchased, eaten_share, eaten_and_given = (
        "or {}",
        "as purchased",
        "{} of it eaten, the rest thrown away",
        "{} of it eaten",
    )
    written_size = "Numbers in the steps are for the recipe's own size."
    prep_day, at_service, together = "Prep day", "At service", "Together"
    core_meat_short = (
        "Core, by thermometer: poultry 165 °F / 74 °C, ground meat 160 °F / 71 °C, whole cuts 145 °F / 63 °C with 3 "
        "min rest, fish 145 °F / 63 °C."
    )
    core_eggs_short = "Egg dishes: 160 °F / 71 °C in the middle."
    cool_shallow_short = "Cool at once, no deeper than 2 in (5 cm); in the refrigerator within 2 h."
    reheat_short = "Reheat to 165 °F / 74 °C in the middle."
    pressure_short = (
        "Pressure cooker: the maker's manual first; at most two thirds full, half with what swells or foams; never "
        "open it under pressure."
    )
    local_rules_short = "Local food-safety rules come first."
    cool_on_card = (
        "Hot until {hot}: cool at once, no deeper than 2 in (5 cm); in the refrigerator and 70 °F / 21 °C "
        "by {lukewarm}, 41 °F / 5 °C by {cold}."
    )
    contains, pack_says_may_contain, not_checked = "Contains {}.", "Pack says may contain {}.", "Not checked: {}."
    contains_none_recorded = "None of the listed allergens is recorded."
    read_the_pack_short = "Read the pack each time."
    read_the_pack = "Read the pack each time you buy: recipes and brands change."
    portions_for = "For {}:"
    substituted = "Substituted: {use} in place of {instead}, for {eaters}."
    substituted_each = "Substituted: {use} in place of {instead} for each portion, for {eaters}."
    substitution_check = "A substitution brings its own allergens: they are counted in the words for that eater."
    core_meat = (
        "core temperature, by thermometer: poultry 165 °F / 74 °C; ground meat 160 °F / 71 °C; steaks, chops and "
        "roasts 145 °F / 63 °C and 3 min rest; fish 145 °F / 63 °C (USDA FSIS)."
    )
    core_eggs = "egg dishes to 160 °F / 71 °C in the middle (USDA FSIS)."
    cool_shallow = "portion and cool at once, no deeper than 2 in (5 cm); in the refrigerator within 2 h."
    reheat_caution = (
        "reheat to 165 °F / 74 °C in the middle, by thermometer. Take more care for people who are pregnant, very "
        "young, old or ill."
    )
    local_rules = "Local food-safety rules and the advice of licensed professionals come before anything printed here."

    # ---- where a card's figures come from ----
    figures_come_from = "Figures: {}."
    from_table, from_one_label, from_labels = "USDA SR28", "1 label", "{} labels"
    figures_incomplete, weight_is_estimate, weight_from_past = "none for {}", "≈ estimate", "≈ weighed"

    # ---- what a portion weighs ----
    weight_before_cooking = "Weight of a portion: {}, the sum of what goes in, before cooking."
    weight_known: Map = MappingProxyType(
        {
            "stated": "Weight of a portion: {}, as the recipe states it.",
            "weighed": "Weight of a portion: {}, from what the household weighed.",
        }
    )
    weight_estimated = "Weight of a portion: {}, an estimate: the sum of what goes in{}."
    weight_by_yield = "{food} × {share} when cooked ({source})"
    weight_not_counted: Map = MappingProxyType(
        {
            "boils off": "what boils off is not known and not taken away",
            "dries out": "what roasting, baking or frying dries out is not known and not taken away",
        }
    )
    weight_far_off = (
        "A portion of {stated} is stated, and what goes in weighs {parts} a portion. Look at the amounts, the number "
        "of portions, and the weight."
    )

    # ---- 6 packing ----
    packing, containers, weigh_and_share = "Packing sheet", "Containers", "Weigh and share"
    batch_weighs, planned, a_portion_is, planned_portion = "Batch weighs", "Planned", "A portion is", "Planned portion"
    blank_grams = "________ g"
    weighed_before = "Weighed before: {}."
    weighed_last, weighed_now = "{dish} {grams} ({week})", "which is {grams} for {portions}"
    week_short = "Week {}"
    weigh_note = "Weigh the cooked batch without its pan. A portion is its fraction of that, whatever was planned."
    continued = "continued"
    nearly_note = (
        "≈ is what earlier batches weighed on average; where none was weighed, an estimate from what goes in. A "
        "weighed batch goes into the recipe as “weighs: 2400 g”."
    )
    packed, checked, weigh_in, share, eaten_on, goes_to = "Packed", "Checked", "Weigh in", "Share", "Eaten", "Goes to"
    second_check_note = (
        "Label the box while it is dry, before it is filled; write the number at the label's foot on the lid too. "
        "Checked: by another person, or on a second round; dish, name, date, what goes beside it."
    )
    no_container, tare, compartments = "{} without a container", "empty {}", "compartments {}"
    packed_as: Map = MappingProxyType(
        {
            "portion": "portion", "surplus": "surplus", "set": "kit set", "apart": "stored apart",
            "by-product": "by-product", "packed apart": "packed apart",
        }
    )  # fmt: skip
    kept: Map = MappingProxyType(
        {
            "fridge": "in the refrigerator", "freezer": "in the freezer", "cupboard": "in the cupboard",
            "at service": "nothing kept",
        }
    )  # fmt: skip
    kept_short: Map = MappingProxyType(
        {"fridge": "refrigerator", "freezer": "freezer", "cupboard": "cupboard", "at service": "at service"}
    )
    packed_until, packed_until_but, packed_until_whose = "until {}", "until {} ({})", "{eater} {weekday} {day}"

    # ---- 7 reheating, 8 carrying ----
    reheating = "Reheating notes"
    place_has = "Has: {}"
    converted = "worked out from {}; an estimate, start short"
    proved_here, proved_by_formula = "proved right here", "proved right here; by the card {}"
    eaten_as_it_is, eat_cold, eat_as_it_is = "eaten as it is", "Eat cold", "Eat as it is"
    cooked_from_kit, cook_it = "cooked from its kit: see the kit card", "Cook it: see the kit card"
    reheat_how = (
        "Cover, stir or turn half way, and let it stand 2 min: the heat evens out while it stands.",
        "165 °F / 74 °C in the middle, by thermometer, whatever the minutes say. Heat once only.",
        "A time for another power is worked out from the card's. When one has proved right at a place, write it here "
        "and into the recipe: proved.",
        "Take more care for people who are pregnant, very young, old or ill.",
    )
    flask_how = (
        "Insulated flask: boiling water first, then the food at 165 °F / 74 °C or above (USDA, 2019). Closed until the "
        "meal; eaten within the hours for which you tried your own with a thermometer: vacuum jars held 62 °C at 6 h, "
        "stacked kits did not (Hong Kong Consumer Council, 2021)."
    )
    carry_list, carry_to, from_where = "Carry list", "{eater}, {place}", "{}"
    carry_note = "Tick at the door. Cutlery, dressing and cold packs are forgotten most."
    for_freezer_there = "for the freezer there"
    there_already, comes_home = "There already: {}.", "Comes home"
    place_rules = "What the places ask"
    place_bans = "Not allowed in: {}, nor what the pack says may contain it."
    place_label, place_takes_none = "On every label: {}.", "Takes no food made at home."
    cold_source_note = (
        "Where cold packs are listed, two cold packs. Without them no longer than 2 h, 1 h above 90 °F / 32 °C "
        "(USDA FSIS)."
    )

    uncooled_title = "Nothing keeps this cold on the way. "
    uncooled = (
        "Neither {place} nor home has a cool bag or cold packs listed. Without cold, perishable food keeps no longer "
        "than {hours} h, {hot} h above 90 °F / 32 °C (USDA FSIS): "
    )
    uncooled_at = "eaten at {meal}, it leaves the refrigerator at {usual} or later, on such a day at {warm} or later."
    uncooled_since = " Carried from {leaves} on, it is {long} until then."
    uncooled_unknown = "count from when it leaves the refrigerator."
    uncooled_short = "nothing keeps it cold: {hours} h at most, {hot} h above 90 °F / 32 °C"

    # ---- 9 pull and use first, 13 keeping ----
    goes_into, rest_would_go_into = "goes into {}", "the rest would go into {}"
    taken_this_week = "this is left after this week's dishes, which take {}"
    pull_list, use_first, evening_of, from_to = "Pull list", "Use first", "Evening of", "From, to"
    from_to_line = "{source} to {to}"
    forgotten_title = "Forgotten? The morning after"
    forgotten = (
        "Never thaw on the counter. From frozen: about half as long again, stirred often (USDA FSIS, second-hand).",
        "In cold water: closed bag, water changed every 30 min, about 1 h for up to 1 lb (450 g), 2 to 3 h for 3 to "
        "4 lb (Illinois Extension, USDA); then cook or heat at once.",
        "165 °F / 74 °C in the middle, by thermometer, whatever the minutes say.",
    )
    forgotten_line, forgotten_or = "{dish}, {whom}: ", "; or "
    way_from_frozen = "heat from frozen, {how}{at}, to {f} °F / {c} °C in the middle"
    way_untimed = "heat from frozen, half as long again{at}, to {f} °F / {c} °C in the middle"
    way_kit_from_frozen = "cook from frozen by its kit card, half as long again, by thermometer"
    way_cold_water = "cold water, {time}, then at once"
    way_cold_water_unknown = "cold water, about 1 h for each pound, then at once"
    way_another, way_another_day = "eat {dish} today{whose}, this one once it has thawed", ", meant for {}"
    keeping_notes, rule, rules_head = "Keeping notes", "Rule", "Rules and their sources"
    refrigerator, freezer, assumed_short = "Cold", "Frozen", "assumed"
    room_at_top = "{} in free"
    into_the_freezer, room_head = "Into the freezer", "Room in the cold"
    headspace = (
        "Cold first, one layer, air around. Room at the top of liquids: ½ in (1.5 cm) up to a pint, 1 in (2.5 cm) "
        "above, more in narrow necks; dry food ½ in (NCHFP)."
    )
    freezer_load = (
        "{} in all; a freezer freezes 2 to 3 lb for each cubic foot in 24 h (University of Minnesota Extension)."
    )
    freezer_takes = "This one, by the size that is stated: {} in a day."
    freezer_over = "More than it freezes in a day: freeze less of it, or the rest tomorrow out of the refrigerator."
    room_line = "{place}: fullest on {day}, {litres} L of boxes; it holds {holds} L for them."
    room_over = "Too full on {}: fewer boxes, smaller ones, or a later session."
    putting_away = "Putting the shopping away"
    store_by_aisle: Map = MappingProxyType(
        {
            "raw": "refrigerator, at the bottom, as its pack says", "cold": "refrigerator, as its pack says",
            "frozen": "freezer",
        }
    )  # fmt: skip
    store_rest = "All else that was bought: cupboard, closed, dry and cool (common practice)."
    produce_washing = (
        "What is washed ahead is dried fully and wrapped in a towel; carrots, celery and potatoes may stand in water "
        "(Iowa State, 2025). Berries, mushrooms and herbs are washed just before use."
    )
    produce_cut = "Cut produce is cold within 2 h and eaten in 3 to 4 days (University of Maine, 2025)."
    raw_below = "Raw meat and fish below everything that is eaten as it is, in a tray (common practice)."
    rule_set = "Rule set: {}."
    strict_for = "Strict for {}."
    strict_short = "{} strict"
    frozen_until, used_frozen = "{} once pulled", "used frozen"
    how_days_count = "How the days are counted"
    day_convention = (
        "The day a dish is made is day 0. Its use-by is that day plus its limit, and that day is the last.",
        "Freezing stops the count: what has thawed has the days that it had left.",
        "Dates for the refrigerator are for health, those for the freezer for quality: past them, past its best.",
    )
    keeping_cautions = (
        "A date holds for food that was cold in time: refrigerator at 40 °F / 4 °C or below, freezer 0 °F / −18 °C.",
        "Agencies differ (cooked rice: some say 1 day). Be stricter for who is pregnant, very young, old or ill.",
        "When in doubt about smell, time or temperature: throw it away. Never taste to find out.",
        local_rules,
    )
    keeping_caption = "Line: refrigerator or cupboard. Dashed: thawed. Ring: eaten. A line ends on the last day."
    keeping_alt = "How long each dish keeps. {}. The table below says the same."
    keeping_line = "{dish} from {first} to {last}, eaten {eaten}"
    keeping_line_thawed = "{dish} frozen, pulled {first}, last day {last}, eaten {eaten}"

    # ---- 10 kits ----
    kit, stored, pull_evening, begin, use_by_day = "Set", "Stored", "pull in the evening of {}", "Begin", "use by {}"
    stored_apart = "Stored apart: {}"
    only_part = "only {moved}; {rest}: {kept} already"
    heat_oven, heat_oven_to = "Heat the oven.", "Heat the oven to {}."
    timed_with = "Timed together with {}, cooked for the same meal."
    begin_to_eat = "{begin}, to eat at {meal}"
    left_for_service = "Left for service"
    nothing_left_to_do = "No steps are written for service."
    raw_apart = (
        "Raw meat and fish stay closed, below everything that is eaten as it is, and get their own board and knife; "
        "wash hands after them."
    )

    # ---- 11 allergens ----
    allergen_matrix = "Allergen matrix"
    allergen_lists: Mapping[str, Map] = MappingProxyType(
        {
            "us": MappingProxyType({word: word for word in (
                "milk", "eggs", "fish", "crustacean shellfish", "tree nuts", "peanuts", "wheat", "soybeans", "sesame",
            )}),
            "eu": MappingProxyType({word: word for word in (
                "cereals containing gluten", "crustaceans", "eggs", "fish", "peanuts", "soybeans", "milk", "nuts",
                "celery", "mustard", "sesame", "sulphur dioxide and sulphites", "lupin", "molluscs",
            )}),
        }
    )  # fmt: skip
    cell_contains, cell_may_contain, cell_not_checked, cell_not_found = "contains", "may contain", "not checked", "–"
    not_found = "not found"
    matrix_note = (
        "Contains: from the ingredients. May contain: the pack says so. Not checked: a food has no record. A dash, not "
        "found: not in what is recorded, which is no promise that it is not there."
    )
    cross_contact = "Food shares boards, pans and hands here: cross-contact is possible in every dish."
    not_checked_title, not_checked_note = (
        "Not checked",
        "No allergen record. Read the pack, and write it into foods.yaml.",
    )
    avoids = "{eater} avoids {what}"

    # ---- 12 numbers ----
    numbers = "Numbers by eater and day"
    undated_not_counted = "Without a fixed day, so in no day's figures: {0}."
    hot_in_flask = "hot, in the flask"
    flask_first = "preheated with boiling water, filled just before leaving"
    numbers_of = "{}, day by day"
    numbers_how = (
        "What each day's portions add up to; under a figure with an aim, how far over (+) or under (−) it that is."
    )
    numbers_note = "Only what this binder plans is counted: what else is eaten is not in these figures."
    not_medical = "Figures for the kitchen, not medical advice: a diet for an illness is for licensed professionals."
    rounding_note = "Summed first, rounded once for print by {}. At least: a food has no figure, the rest is known."
    nutrients: Map = MappingProxyType(
        {
            "energy_kcal": "Energy", "protein_g": "Protein", "fat_g": "Fat", "saturated_fat_g": "Saturated fat",
            "carbohydrate_g": "Carbohydrate", "fibre_g": "Fibre", "sugars_g": "Sugars", "sodium_mg": "Sodium",
            "potassium_mg": "Potassium", "calcium_mg": "Calcium", "iron_mg": "Iron",
        }
    )  # fmt: skip
    figure, aim, difference, met, not_met = "Figure", "Daily aim", "Against the aim", "met", "not met"
    aim_kinds: Map = MappingProxyType({"at least": "at least {}", "at most": "at most {}", "about": "about {}"})

    # ---- 14 how it went ----
    how_it_went, session, dishes_head = "How it went", "Session", "Dishes"
    how_it_went_note = "Write it while you remember it; closing the week asks for the same."
    planned_minutes, minutes_it_took = "Planned", "Time it took"
    portions_made, it_weighed, eaten, left, frozen_head, thrown_away = (
        "Made",
        "Weighed",
        "Eaten",
        "Left",
        "Frozen",
        "Thrown away",
    )
    thrown_away_why, substituted_head, for_next_time = "Thrown away, and why", "Used in place of what", "For next time"

    # ---- front sheet ----
    closed_week_printed = "The week was closed on {}: it stands here as it was made."
    keeping_short = "Keeping and heating: a thermometer decides, 165 °F / 74 °C in the middle of what is heated again."
    not_for_this_binder = (
        "Not for this binder: infant food, breast milk, canning, vacuum packs, sous-vide, garlic in plain oil."
    )

    # ---- labels ----
    test_sheet_title = "Test sheet, {}"
    test_sheet_how = (
        "Print at 100 %, on plain paper first, and hold it over the labels. Ticks are 1 mm apart, the long ones at the "
        "edges. What is off goes under labels: registration: {right: mm, down: mm}; left and up below zero."
    )
    labels_title = "Labels, {}"
    label_eat_by, label_cook_by, label_made, made_short = "Eat by {}", "Cook by {}", "Made {}", "made {}"
    label_freeze, label_freeze_pull = "Freeze", "Freeze; pull {pull}"
    label_used_frozen = "Freeze; use frozen, do not thaw"
    label_freeze_pull_eat = "Freeze; pull {pull}, eat by {by}"
    label_freeze_pull_cook = "Freeze; pull {pull}, cook by {by}"
    label_date_not_known = "Date not known"
    label_apart = "Raw: keep closed and below"

    # ---- calendar ----
    event_prep, event_prep_words = "Prep session: {} dishes", "{start} to {finish}: {dishes}"
    event_pull, event_pull_line = "Pull: {}", "{portions} of {dish}, {source} to {to}"
    event_carry, into_fridge_there = "Carry to {place}: {eater}", "Into the refrigerator there at once."
    event_dinner, event_dinner_line = "Dinner: {}", "{dish}, {store}: {how}"
    event_kit, event_kit_words = "Cook {}", "To eat at {meal}, {portions}"


ENGLISH = Words()
