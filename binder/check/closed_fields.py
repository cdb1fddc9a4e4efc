"""The keys of a week's `closed:` block, and of the answers that close a week."""

from __future__ import annotations

import re
from fractions import Fraction

from binder.check.compounds import Either, ListOf, MapOf
from binder.check.dates import DateText, Time, WeekKey
from binder.check.declare import Field, Fields, Found, Record, Schema
from binder.check.leaves import DIGITS, Leaf, NumberText, OneOf, Quantity, Text, Whole, YesNo, number_in
from binder.problem import Span, error

AS_LISTED = "as listed"
_NAME_AND_NUMBER = re.compile(r"(?P<name>[^\W\d].*?)[\s:]+(?P<number>[\d¼½¾⅐-⅞].*)")
_PORTIONS = NumberText(zero=True)


class ByEater(Leaf[tuple[tuple[str, Fraction], ...]]):
    """Eaters with so many portions each, in one line: `Ilka 2, Bea 1/2`."""

    def value(self, text: str, span: Span, found: Found) -> tuple[tuple[str, Fraction], ...] | None:
        pairs = []
        for part in filter(None, (one.strip() for one in text.split(","))):
            match = _NAME_AND_NUMBER.fullmatch(part)
            number = number_in(match["number"]) if match else None
            if match is None or number is None:
                found.append(
                    error(span, "bad-amount", f'"{part}" is not {self.words()}', "write it like Ilka 2, Bea 1")
                )
                return None
            pairs.append((match["name"], number))
        return tuple(pairs)

    def schema(self) -> Schema:
        return {"type": "string", "pattern": DIGITS}

    def words(self) -> str:
        return "an eater and a number of portions"


class ClosedDishFields(Fields):
    what = "a dish of a closed week"
    dish = Field("dish", Text(), "The recipe's key.", required=True)
    which = Field("which", Whole(1), "Which row of the recipe, where it was made more than once; 1 by default.")
    source = Field(
        "from", OneOf(("session", "service", "stock")), "Made at a session, at service, or taken from stock."
    )
    made_on = Field("made on", DateText(), "When it was made.")
    planned = Field("planned", _PORTIONS, "Portions that were planned.")
    made = Field("made", _PORTIONS, "Portions that were made, or taken from stock.")
    eaten = Field("eaten", _PORTIONS, "Portions that were eaten.")
    left = Field("left", _PORTIONS, "Portions that are left, in the refrigerator.")
    frozen = Field("frozen", _PORTIONS, "Portions that were frozen.")
    thrown = Field("thrown", _PORTIONS, "Portions that were thrown away.")
    why = Field("why", Text(), "Why they were thrown away.")
    weighs = Field("weighs", Quantity("g", "cooked"), "The cooked weight of what was made.")
    left_by = Field("left by", ByEater(), "Who left how many of theirs: `Ilka 2, Bea 1`.")
    gives = Field("by-products", YesNo(), "Whether what it gives was kept; yes unless it says no.")


class ClosedSessionFields(Fields):
    what = "a session of a closed week"
    on = Field("on", DateText(), "Its date.", required=True)
    at = Field("at", Time(), "When it started, where a day had more than one.")
    planned = Field("planned", Whole(0), "Minutes that were planned.")
    minutes = Field("minutes", Whole(0), "Minutes that it took.")


class ClosedCostFields(Fields):
    what = "the cost of a closed week"
    consumed = Field("consumed", _PORTIONS, "What the food that was used cost.")
    to_pay = Field("to pay", _PORTIONS, "What was to be paid for whole packs.")
    currency = Field("currency", Text(), "The currency of both.")
    at_least = Field("at least", YesNo(), "Yes when a price was missing.")


class RangeFields(Fields):
    what = "a range"
    low = Field("low", _PORTIONS, "The lower end.", required=True)
    high = Field("high", _PORTIONS, "The upper end.", required=True)


class ClosedRecipeFields(Fields):
    what = "a recipe of a closed week"
    recipe = Field("recipe", Text(), "The recipe's key.", required=True)
    eaters = Field("for", ListOf(Text()), "Whose substitutions these figures have; left out: everyone else.")
    edition = Field("edition", Text(), "The hash of the recipe's file when the week was closed.")
    grams = Field("grams", _PORTIONS, "Grams of a portion by what goes in.")
    cooked_grams = Field("cooked grams", _PORTIONS, "Grams of a portion as it is served, which the pages print.")
    cost = Field("cost", _PORTIONS, "What a portion cost.")
    per_portion = Field(
        "per portion", MapOf(Text(), Either(_PORTIONS, Record(RangeFields))), "A portion's figures, not rounded."
    )
    at_least = Field("at least", ListOf(Text()), "The nutrients whose figure is a lower bound.")
    contains = Field("contains", ListOf(Text()), "The allergens it contained.")
    may_contain = Field("may contain", ListOf(Text()), "The allergens that packs said it may contain.")
    not_known = Field("not known", ListOf(Text()), "The foods whose allergens were not known.")


class StockChangeFields(Fields):
    what = "a change of the stock"
    place = Field("place", Text(), "Where the lot was or is.", required=True)
    was = Field("was", Text(), "The line before; left out where it is new.")
    now = Field("now", Text(), "The line after; left out where the lot is used up.")


class AnswerFields(Fields):
    what = "answers about a week"
    week = Field("week", WeekKey(), "The week they are about.")
    on = Field("on", DateText(), "When it was closed; today by default.")
    dishes = Field(
        "dishes", ListOf(Record(ClosedDishFields)), "What became of each dish; as planned where none is said."
    )
    sessions = Field("sessions", ListOf(Record(ClosedSessionFields)), "How long each session took.")
    substitutions = Field("substitutions", ListOf(Text()), "What was exchanged that the plan does not name.")
    note = Field("note", Text(), "A note.")
    bought = Field(
        "bought", OneOf((AS_LISTED,)), "The shopping was done as listed: what its packs leave goes into stock."
    )


class ClosedFields(Fields):
    what = "a closed week"
    on, dishes, sessions = AnswerFields.on, AnswerFields.dishes, AnswerFields.sessions
    substitutions = AnswerFields.substitutions
    cost = Field("cost", Record(ClosedCostFields), "What the week cost, not rounded.")
    recipes = Field("recipes", ListOf(Record(ClosedRecipeFields)), "What each portion was made of.")
    stock = Field("stock", ListOf(Record(StockChangeFields)), "The lines of stock.yaml that closing changed.")
    made_of = Field(
        "made of",
        MapOf(Text(), Text()),
        "The files it was reckoned from, each with its edition; they lie in editions/.",
    )
    note, bought = AnswerFields.note, AnswerFields.bought


ANSWERS = Record(AnswerFields)
