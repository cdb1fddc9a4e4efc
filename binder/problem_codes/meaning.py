"""Errors of meaning: each line reads, but a name leads nowhere, to two things, or in a ring."""

from __future__ import annotations

from binder.problem_codes.record import ProblemCode

MEANING = (
    ProblemCode(
        "duplicate-name",
        "error",
        "Two eaters, places, containers, foods or recipes go by one name. Capital letters make no difference.",
        "Other files name them by it, and nobody could tell which is meant: whose allergy, whose lunch, which box.",
        "household.yaml",
        "  - {name: deep tub, holds: 3 cup, have: 8}\n  - {name: Deep Tub, holds: 4 cup, have: 2}",
        "  - {name: deep tub, holds: 3 cup, have: 8}",
    ),
    ProblemCode(
        "unknown-recipe",
        "error",
        "No recipe goes by this name. In a plan a recipe is called by its file's name without the ending: bean-stew "
        "for recipes/bean-stew.md.",
        "Nothing can be cooked for this meal until it says which dish it is.",
        "weeks/2026-W24.md",
        "  - {lunch: bean-stu, for: Nell, on: tue}",
        "  - {lunch: bean-stew, for: Nell, on: tue}",
        "The file is called bean-stew.md.",
    ),
    ProblemCode(
        "unknown-eater",
        "error",
        "Nobody in household.yaml has this name. Check the spelling, or add the eater there.",
        "Nothing is known of someone who is not listed: not what they avoid, not where they eat. So nothing is served.",
        "weeks/2026-W24.md",
        "  - {lunch: bean-stew, for: Nel, on: tue}",
        "  - {lunch: bean-stew, for: Nell, on: tue}",
    ),
    ProblemCode(
        "unknown-place",
        "error",
        "No place has this name. The places where someone eats are listed in household.yaml; stock lies in the "
        "fridge, the freezer or the cupboard.",
        "What can be heated there, what is not allowed in and how long a food keeps there all go by the place.",
        "household.yaml",
        "  - {name: Otto, eats lunch at: work shop}",
        "  - {name: Otto, eats lunch at: workshop}",
    ),
    ProblemCode(
        "unknown-container",
        "error",
        "No container in household.yaml has this name. Check the spelling, or add the container there.",
        "The packing sheet counts what you have and what fits into it, and whether it may go into the freezer.",
        "recipes/bean-stew.md",
        "container: deep tup",
        "container: deep tub",
    ),
    ProblemCode(
        "recipe-loop",
        "error",
        "A recipe has itself among its parts. That may be by way of another recipe, which uses this one in turn.",
        "To make it you would need it made already, so no amount of it can be worked out.",
        "recipes/tomato-base.md",
        "  - 1 portion recipe: rice-pot",
        "  - 800 g tomatoes, chopped",
        "The rice pot is made with this tomato base.",
    ),
)
