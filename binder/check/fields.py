"""Every key of every file a household writes, once: what the check, the schema for editors and the docs go by."""

from __future__ import annotations

from typing import ClassVar

from binder.check.amount_kinds import AimText, AmountText, PercentText, SumText, ToolText, WeighedText
from binder.check.closed_fields import ClosedFields
from binder.check.compounds import AsItWas, Either, ListOf, MapOf, OneOrMany
from binder.check.dates import DateText, Life, Minutes, Time, WeekKey
from binder.check.declare import Field, Fields, Record, Said
from binder.check.label_stock import LabelsFields
from binder.check.leaves import NumberText, OneOf, Quantity, Text, WebAddress, Whole, YesNo
from binder.check.line_kinds import IngredientItem, IngredientList, ReheatText, StockText
from binder.check.lives import PartLives
from binder.model.recipe import MEALS, Meal
from binder.tables import aisles, keeping

_TALLY = MapOf(Text(), MapOf(AmountText(), NumberText(zero=True)))

# ---- household.yaml ----


class EaterFields(Fields):
    what = "an eater"
    name = Field("name", Text(), "What the eater is called; plans name eaters by it.", required=True)
    avoids = Field(
        "avoids",
        ListOf(Text()),
        "Allergens of the list, foods or kinds of food (meat) the eater never gets.",
    )
    aims = Field("aims", MapOf(Text(), AimText()), "A nutrient or tally, and its number for a day.")
    tallies = Field("tallies", MapOf(Text(), AimText("at most")), "The most of a household's own count a day.")
    eats_at: ClassVar[dict[Meal, Field[Said[str]]]] = {
        meal: Field(f"eats {meal} at", Text(), f"The place where the eater has {meal}; home unless it says so.")
        for meal in MEALS
    }
    caution = Field("caution", OneOf(("usual", "strict")), "The end of keeping ranges used for this eater.")
    shares_week = Field(
        "shares week",
        YesNo(),
        "Whether the eater agreed to stand on a week's page for the family; no unless it says yes.",
    )
    private = Field("private", Text(), "A note that never leaves the household's own pages.")


class PlaceFields(Fields):
    what = "a place"
    name = Field("name", Text(), "What the place is called.", required=True)
    has = Field(
        "has",
        ListOf(ToolText()),
        "Its equipment, with number, power or size where that matters: fridge 60 L, the room kept for boxes.",
    )
    bans = Field("bans", ListOf(Text()), "Allergens that it does not allow in, in the words of either list.")
    home_food = Field("home food", YesNo(), "Whether food made at home is taken there; yes unless it says no.")
    notes = Field("notes", Text(), "What else to know about it.")
    label_says = Field("label says", OneOrMany(Text()), "What it wants on the label of all that comes there: Room 12.")
    stays_there = Field("stays there", ListOf(Text()), "Foods and tools that are there always: salt, cutlery.")
    travels_once = Field("travels once", YesNo(), "Whether what is added on several days is taken there once a week.")


class ContainerFields(Fields):
    what = "a container"
    name = Field("name", Text(), "What it is called.", required=True)
    holds = Field("holds", SumText(), "Its volume; compartments are added: 3 cup + 1 cup + 1 cup.")
    have = Field("have", Whole(0), "How many there are.", required=True)
    freezer = Field("freezer", YesNo(), "Whether it may be frozen; yes unless it says no.")
    microwave = Field("microwave", YesNo(), "Whether it may be microwaved; yes unless it says no.")
    tare = Field("tare", Quantity("g"), "What it weighs empty.")


class BinderFields(Fields):
    what = "binder"
    hole_marks = Field(
        "hole marks", YesNo(), "Marks in the gutter for the paper's holes: two by ISO 838, three in inches."
    )
    own_sheets = Field(
        "sections on own sheets", YesNo(), "Each section begins on a right-hand page, to be exchanged alone."
    )


class HouseholdFields(Fields):
    what = "household.yaml"
    household = Field("household", Text(), "What the household is called.", required=True)
    language = Field("language", OneOf(("en",)), "The language of the pages.")
    paper = Field("paper", OneOf(("letter", "a4", "half-letter", "a5")), "The paper the binder is printed on.")
    measures = Field("measures", OneOf(("us", "metric", "both")), "The measures that pages show.")
    cup = Field("cup", OneOf(("us", "metric", "uk")), "Whose cups, spoons and pints recipes mean; us by default.")
    allergen_list = Field("allergen list", OneOf(("us", "eu")), "The nine of the US or the fourteen of the EU.")
    caution = Field("caution", OneOf(("usual", "strict")), "Upper (usual) or lower end of keeping ranges.")
    time_zone = Field("time zone", Text(), "The zone of the calendar, by its name in the tz database.")
    currency = Field("currency", Text(), "The currency of prices.")
    meal_times = Field("meal times", MapOf(OneOf(MEALS), Time()), "When each meal is eaten.")
    eaters = Field("eaters", ListOf(Record(EaterFields)), "Who eats.", required=True)
    places = Field("places", ListOf(Record(PlaceFields)), "Where meals are eaten; home is always one of them.")
    containers = Field("containers", ListOf(Record(ContainerFields)), "What food is packed into.")
    labels = Field("labels", Record(LabelsFields), "The label sheet and how far it is used.")
    binder = Field("binder", Record(BinderFields), "How the binder's sheets are bound.")
    site_address = Field("site address", WebAddress(), "Where the site is put; QR codes need it.")
    minutes = Field(
        "session minutes", MapOf(Text(), NumberText()), "Minutes of each session for washing up, walking, ..."
    )


# ---- recipes/NAME.md ----


class KeepsFields(Fields):
    what = "keeps"
    fridge = Field("fridge", Life(), "Days in the refrigerator after the day it is made.")
    freezer = Field("freezer", Life(), "How long it is good frozen.")
    cupboard = Field("cupboard", Life(), "Days at room temperature, dry and closed.")


_INGREDIENTS = IngredientList()


class RecipeFields(Fields):
    what = "a recipe"
    title = Field("title", Text(), "What the dish is called.", required=True)
    short = Field("short", Text(), "A short name for lists, where the whole title has no room.")
    meal = Field("meal", OneOrMany(OneOf(MEALS)), "The meals it is meant for.")
    form = Field(
        "form",
        OneOf(("ready", "assemble", "kit", "portioned")),
        "Ready, finished where it is eaten, prepared now and cooked at service, or only portioned.",
    )
    makes = Field("makes", AmountText("8 portions"), "What the written amounts make: portions or an amount.", True)
    portion = Field("portion", AmountText(), "One portion: volume, mass or pieces.")
    ingredients = Field(
        "ingredients",
        Either(_INGREDIENTS, MapOf(Text(), _INGREDIENTS)),
        "One ingredient a line, or lists under part names.",
        True,
    )
    beside = Field("beside", _INGREDIENTS, "What is packed next to the dish.")
    at_service = Field("at service", _INGREDIENTS, "What is added when it is eaten or cooked.")
    gives = Field("gives", IngredientList(measured=True), "By-products that go into stock.")
    keeps = Field(
        "keeps",
        Either(OneOf(keeping.names()), PartLives(Record(KeepsFields), keeping.names())),
        "A row of the keeping chart, or the household's own times; or by part: {Dressing: 5 days, Greens: 2 days}.",
    )
    packed_apart = Field("packed apart", ListOf(Text()), "Parts that go into a container of their own.")
    freezes = Field("freezes", YesNo(), "Whether it may be frozen.")
    container = Field("container", Text(), "The first choice of container.")
    reheat = Field("reheat", ListOf(ReheatText()), "Ways to reheat; the first that a place can do is used.")
    proved = Field(
        "proved", MapOf(Text(), Minutes()), "Reheating times that proved right, by place: {ward: 3 min}; printed first."
    )
    from_frozen = Field(
        "from frozen", YesNo(), "Whether it goes from the freezer to the heat (or plate), never thawed."
    )
    needs = Field("needs", ListOf(ToolText()), "Tools needed at service, where it is eaten.")
    batch = Field("batch", OneOf(("whole", "half")), "Made only in whole or half batches.")
    tallies = Field("tallies", _TALLY, "The household's own counts, in stated steps of portions.")
    weighs = Field("weighs", Quantity("g", "cooked"), "The cooked weight of what it makes.")
    source = Field("source", Text(), "Whose recipe it is.")
    photo = Field("photo", Text(), "A picture in content/photos, by its file name.")
    private = Field("private", Text(), "A note that never leaves the household's own pages.")
    tags = Field("tags", ListOf(Text()), "The household's own words to find it by.")


# ---- weeks/YYYY-Www.md ----


class SessionFields(Fields):
    what = "a prep session"
    on = Field("on", DateText(), "Its date.", required=True)
    at = Field("at", Time(), "When it starts.", required=True)
    cooks = Field("cooks", Whole(1), "How many cook; 1 by default.")
    place = Field("place", Text(), "Where it is; home by default.")


class MealFields(Fields):
    what = "a meal line"
    meals: ClassVar[dict[Meal, Field[Said[str]]]] = {
        meal: Field(meal, Text(), f"A recipe's key, eaten at {meal}.") for meal in MEALS
    }
    exactly_one = tuple(meals.values())
    eaters = Field("for", OneOrMany(Text()), "An eater, several, or everyone.", required=True)
    on = Field("on", OneOrMany(Text()), "Weekdays, a range of them, or dates of the week; left out: no fixed day.")
    portions = Field(
        "portions",
        Either(NumberText(), MapOf(Text(), NumberText())),
        "Portions for each eater at each meal, or in all when no day is fixed; or by eater.",
    )
    made = Field("made", DateText(), "The date of the session it is made at.")
    at = Field("at", Text(), "The place where it is eaten; the eater's for that meal by default.")


class SubstitutionFields(Fields):
    what = "a substitution"
    in_ = Field("in", Text(), "The recipe's key.", required=True)
    eaters = Field("for", OneOrMany(Text()), "An eater, several, or everyone.", required=True)
    use = Field("use", IngredientItem(), "The ingredient line used instead, at the written size.", required=True)
    instead_of = Field("instead of", Text(), "The ingredient it replaces.", required=True)


class WeekFields(Fields):
    what = "a week"
    week = Field("week", WeekKey(), "The ISO 8601 week, the same as the file's name.", required=True)
    prep = Field("prep", ListOf(Record(SessionFields)), "The prep sessions.")
    meals = Field("meals", ListOf(Record(MealFields)), "Who eats what, when and where.")
    substitutions = Field("substitutions", ListOf(Record(SubstitutionFields)), "What is exchanged for whom.")
    already = Field("already", ListOf(Text()), "Portions eaten from stock instead of cooked.")
    closed = Field("closed", AsItWas(Record(ClosedFields)), "What the week came to; `binder close-week` writes it.")


# ---- foods.yaml and stock.yaml ----


class LabelFields(Fields):
    what = "a label"
    serving = Field("serving", AmountText(), "What the figures are for.", required=True)
    energy = Field("energy", Quantity("kcal"), "Energy, in kcal or kJ.")
    protein = Field("protein", Quantity("g"), "Protein.")
    fat = Field("fat", Quantity("g"), "Fat.")
    saturated_fat = Field("saturated fat", Quantity("g"), "Saturated fat.")
    carbohydrate = Field("carbohydrate", Quantity("g"), "Carbohydrate, as the pack counts it.")
    fibre = Field("fibre", Quantity("g"), "Fibre.")
    sugars = Field("sugars", Quantity("g"), "Sugars.")
    sodium = Field("sodium", Quantity("mg"), "Sodium.")
    salt = Field("salt", Quantity("g"), "Salt, where the pack gives no sodium (salt = sodium x 2.5).")
    potassium = Field("potassium", Quantity("mg"), "Potassium.")
    calcium = Field("calcium", Quantity("mg"), "Calcium.")
    iron = Field("iron", Quantity("mg"), "Iron.")


class PackFields(Fields):
    what = "a pack"
    size = Field("size", AmountText(), "What it holds, as purchased.", required=True)
    price = Field("price", NumberText(zero=True), "Its price.")


class FoodFields(Fields):
    what = "a food"
    name = Field("name", Text(), "What it is called.", required=True)
    synonyms = Field("synonyms", ListOf(Text()), "Other names it goes by.")
    like = Field("like", Text(), "The table row for figures that the pack does not give.")
    label = Field("label", Record(LabelFields), "The figures on the pack.")
    weights = Field("weights", MapOf(WeighedText(), Quantity("g")), "The household's own scale: 1 cup: 60 g.")
    yield_ = Field("yield", PercentText(), "Edible portion of what is purchased.")
    contains = Field("contains", ListOf(Text()), "Allergens of the list; [] is none of them; left out: not known.")
    may_contain = Field("may contain", ListOf(Text()), "Allergens that the pack says it may contain.")
    packs = Field("packs", ListOf(Record(PackFields)), "The sizes it is sold in.")
    aisle = Field("aisle", OneOf(aisles.AISLES), "Where it stands in the shop.")
    once_opened = Field("once opened", Life(), "How long it keeps once opened.")
    store = Field("store", Text(), "How to store it.")
    keeps = Field("keeps", Either(OneOf(keeping.names()), Record(KeepsFields)), "How long it keeps by itself.")
    par = Field("par", AmountText(), "How much of it the household likes to have on hand.")
    tallies = Field("tallies", _TALLY, "The household's own counts, in stated steps.")


# What each file is at its top.
HOUSEHOLD, RECIPE, WEEK = Record(HouseholdFields), Record(RecipeFields), Record(WeekFields)
FOODS, STOCK = ListOf(Record(FoodFields)), MapOf(Text(), ListOf(StockText()))
