"""Errors of the plan: every file reads, but the week as it is planned would not do. Each stands at the meal's line."""

from __future__ import annotations

from binder.problem_codes.record import ProblemCode

PLAN = (
    ProblemCode(
        "avoided-food",
        "error",
        "A dish contains something that an eater of it avoids. The message names the food that holds it.",
        "With an allergy a little can be enough to make someone very ill. Give them another dish, or write under "
        "substitutions what they get instead; and read the packs each time, since makers change what is in them.",
        "weeks/2026-W24.md",
        "  - {dinner: cheese-bake, for: [Nell, Otto], on: tue}",
        "  - {dinner: cheese-bake, for: Otto, on: tue}",
        "Nell avoids milk, and there is ricotta in the bake.",
    ),
    ProblemCode(
        "banned-at-place",
        "error",
        "A dish contains what the place where it is eaten does not allow in. Or it comes from home, and the place "
        "takes no food from home.",
        "Schools and workplaces ban a food because someone there may be harmed by it. Eat the dish elsewhere, or take "
        "another one. What the place itself says comes first.",
        "weeks/2026-W24.md",
        "  - {lunch: peanut-noodles, for: Otto, on: wed, at: workshop}",
        "  - {lunch: peanut-noodles, for: Otto, on: wed, at: home}",
        "The workshop does not allow peanuts.",
    ),
    # That harmful bacteria need not change look, smell or taste: USDA FSIS, Refrigeration and Food Safety.
    ProblemCode(
        "kept-too-long",
        "error",
        "The dish would be eaten after its last day, and freezing does not help. The same is said at a recipe's step "
        "when hot food would wait more than 2 hours before it is portioned and put to cool.",
        "Food that makes people ill can look, smell and taste as it should. Eat it sooner, make it at a later "
        "session, or take a dish that freezes. Be stricter for people who are pregnant, very young, old or ill; local "
        "food-safety rules come first.",
        "weeks/2026-W24.md",
        "  - {dinner: green-salad, for: Nell, on: sat}",
        "  - {dinner: green-salad, for: Nell, on: tue}",
        "The salad is made on Monday, keeps 2 days and does not freeze.",
    ),
    ProblemCode(
        "cannot-reheat",
        "error",
        "The dish has to be reheated, and the place has nothing to do it with. The recipe does not say that it may be "
        "eaten cold either.",
        "Someone would sit there with a cold lunch that is meant to be hot. Eat it where it can be heated, add a way "
        "to reheat that the place has, or the line `cold` when it is good and safe to eat cold.",
        "weeks/2026-W24.md",
        "  - {lunch: bean-stew, for: Nell, on: tue, at: river bench}",
        "  - {lunch: bean-stew, for: Nell, on: tue}",
        "The stew is reheated in a microwave, and the river bench has only a cool bag.",
    ),
    ProblemCode(
        "cannot-finish",
        "error",
        "A tool that is needed is not there. It is one to finish the dish with where it is eaten, or one for a step "
        "of the cooking where the session is.",
        "Oats that want boiling water stay dry where there is no kettle. Move the meal, or write the tool under the "
        "place when it does have it.",
        "weeks/2026-W24.md",
        "  - {breakfast: kettle-oats, for: Nell, on: wed, at: river bench}",
        "  - {breakfast: kettle-oats, for: Nell, on: wed, at: home}",
        "The oats need a kettle, and the river bench has none.",
    ),
    ProblemCode(
        "no-prep-before",
        "error",
        "No session is over before this meal, so the dish is never made in time. Or the line asks for a session on a "
        "day that has none.",
        "The dish would be on the table before anyone has cooked it. Move the meal, or plan a session before it.",
        "weeks/2026-W24.md",
        "  - {breakfast: toast, for: Otto, on: [mon, tue]}",
        "  - {breakfast: toast, for: Otto, on: [tue]}",
        "The only session begins on Monday at nine, after breakfast.",
    ),
    ProblemCode(
        "stock-short",
        "error",
        "The plan takes more portions from stock than there are. Or there are enough, but they do not keep until they "
        "are eaten.",
        "Somebody's portion would be missing on the day. Ask for fewer and let the rest be cooked, or add the lot to "
        "stock.yaml if it is really there.",
        "weeks/2026-W24.md",
        "already: [5 portions bean stew]",
        "already: [1 portion bean stew]",
        "Two portions of bean stew are in the freezer.",
    ),
)
