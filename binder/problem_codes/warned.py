"""Warnings: the week can be made and printed, but something is unsure, incomplete, or will be a nuisance."""

from __future__ import annotations

from binder.problem_codes.record import ProblemCode

WARNINGS = (
    ProblemCode(
        "unknown-food",
        "warning",
        "No food of this name is in foods.yaml or in the tables. It may be a slip of spelling, or a food of your own "
        "that has not been written down yet.",
        "Its figures and its allergens are not known, and every sum it belongs to reads `at least`. The nearest names "
        "are offered; `binder food add` writes down a new food from its pack.",
        "recipes/cheese-bake.md",
        "  - 300 g brocoly, in florets",
        "  - 300 g broccoli, in florets",
    ),
    ProblemCode(
        "no-weight",
        "warning",
        "It is not known what this measure of the food weighs. A can, a cup or a piece of it has no weight on record.",
        "Without a weight there are no figures for it, and sums read `at least`. Write the line in grams, or weigh it "
        "once and write that into foods.yaml under weights.",
        "recipes/cheese-bake.md",
        "  - 1 can ricotta",
        "  - 250 g ricotta",
    ),
    ProblemCode(
        "may-contain",
        "warning",
        "A dish may contain what its eater avoids, or what the place does not allow. The pack of something in it says "
        "so, usually because it is made beside other foods.",
        "With an allergy such traces can be enough to make someone ill. Only the eater, or who cares for them, can "
        "say whether it is all right; ask a doctor when in doubt.",
        "weeks/2026-W24.md",
        "  - {breakfast: toast, for: Nell, on: [tue]}",
        "  - {breakfast: toast, for: Otto, on: [tue]}",
        "Nell avoids milk, and the pack of the spread says that it may contain milk.",
    ),
    ProblemCode(
        "allergens-not-known",
        "warning",
        "For a food in this dish nobody has written down what allergens it holds. Somebody who eats it avoids one, or "
        "the place bans one.",
        "Not known does not mean free of it. Read the pack and give the food a line `contains:` in foods.yaml; empty "
        "brackets [] say that the pack names none.",
        "weeks/2026-W24.md",
        "  - {snack: relish-crackers, for: Nell, on: thu}",
        "  - {snack: relish-crackers, for: Otto, on: thu}",
        "Nell avoids milk, and the relish has no line `contains:` in foods.yaml.",
    ),
    ProblemCode(
        "energy-unlikely",
        "warning",
        "The energy of a food does not go with its protein, fat and carbohydrate. Most often a figure was mistyped, "
        "or kJ was taken for kcal, or one figure is for another serving.",
        "Every day's numbers with this food in them would be off. Look at the pack again; alcohol and sweeteners can "
        "explain it too, and then it may stay.",
        "foods.yaml",
        "  label: {serving: 30 g, energy: 502 kcal, protein: 4 g, fat: 4 g, carbohydrate: 17 g}",
        "  label: {serving: 30 g, energy: 120 kcal, protein: 4 g, fat: 4 g, carbohydrate: 17 g}",
        "502 kJ are 120 kcal.",
    ),
    # That harmful bacteria need not change look, smell or taste: USDA FSIS, Refrigeration and Food Safety.
    ProblemCode(
        "past-use-by",
        "warning",
        "Something in the refrigerator is past its last day. It does not count as on hand any more.",
        "It can look and smell as it should and still make someone ill. Throw it away and take the line out of "
        "stock.yaml; when the date is wrong, correct it. Local food-safety rules come first.",
        "stock.yaml",
        "  - 100 g moon relish, opened 2026-04-03",
        "  - 100 g moon relish, opened 2026-06-03",
        "The relish keeps 14 days once it is opened, and today is 7 June 2026.",
    ),
    ProblemCode(
        "past-best",
        "warning",
        "Something in the freezer or the cupboard is past its best. It still counts as on hand and is used first.",
        "This is about taste and texture rather than health, as long as it stayed frozen, or dry and closed. Look at "
        "it before you use it.",
        "stock.yaml",
        "  - 1 kg rice, best before 2026-01-31",
        "  - 1 kg rice, best before 2027-01-31",
        "Today is 7 June 2026.",
    ),
    ProblemCode(
        "too-few-containers",
        "warning",
        "There are not enough containers for all that is made in a session. Those that are still full from before are "
        "counted as taken.",
        "You would find out with the food already hot on the counter. Make less, make a part of it later, or write "
        "the containers that you also have into household.yaml.",
        "weeks/2026-W24.md",
        "  - {snack: carrot-cream, for: everyone, on: tue-fri}",
        "  - {snack: carrot-cream, for: Nell, on: tue}",
        "There are 12 containers in all, and other dishes are packed in the same session.",
    ),
    ProblemCode(
        "too-full",
        "warning",
        "A portion is more than the container that the recipe names can hold. A larger one is used if there is one.",
        "A container filled past its rim will not close, and spills on the way. Name a larger one, or serve less.",
        "weeks/2026-W24.md",
        "  - {dinner: rice-pot, for: Otto, on: thu, portions: 3}",
        "  - {dinner: rice-pot, for: Otto, on: thu, portions: 1}",
        "A portion is 1 cup, and the jar that the recipe names holds 2.",
    ),
    ProblemCode(
        "not-freezer-safe",
        "warning",
        "A portion is to be frozen in a container that may not go into the freezer. It is the one that the recipe "
        "names, and its line in household.yaml says `freezer: no`.",
        "Glass or brittle plastic can crack in the cold, and then the food is lost. Another container is used if "
        "there is one; name that one in the recipe, or eat the dish sooner.",
        "weeks/2026-W24.md",
        "  - {dinner: rice-pot, for: Otto, on: sun, portions: 1}",
        "  - {dinner: rice-pot, for: Otto, on: thu, portions: 1}",
        "Rice made on Monday does not keep until Sunday, so it is frozen. The jar says `freezer: no`.",
    ),
    ProblemCode(
        "tally-step",
        "warning",
        "A count of your own is not stated for the size of portion in the plan. The next smaller step that is stated "
        "is used.",
        "Your counts need not grow evenly, so nothing is worked out between two steps, and the day's count is the "
        "least it can be. State the step in the recipe, or plan a size that has one.",
        "weeks/2026-W24.md",
        "  - {snack: raw-sticks, for: Otto, on: fri, portions: 1.5}",
        "  - {snack: raw-sticks, for: Otto, on: fri, portions: 2}",
        "The recipe states its vegetables for 1 portion and for 2.",
    ),
    ProblemCode(
        "prep-too-long",
        "warning",
        "A session takes very long, or goes on past midnight.",
        "Tired cooks cut themselves and skip steps, and food stands about. Start earlier, make a part of it in a "
        "second session, or let a second person cook.",
        "weeks/2026-W24.md",
        '  - {on: 2026-06-08, at: "23:45", cooks: 1}',
        '  - {on: 2026-06-08, at: "09:00", cooks: 1}',
        "The work takes more than a quarter of an hour.",
    ),
    ProblemCode(
        "stock-unclear",
        "warning",
        "A line of stock.yaml cannot be understood, so it is left out. A line says how much of what: 400 g butternut "
        "squash.",
        "What is left out is bought again, and its dates are not watched.",
        "stock.yaml",
        "  - some of that squash",
        "  - 400 g butternut squash",
    ),
)
