"""The words of the site, the shared pages and the feed, in English; the binder's own stand in en.py."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from binder.pages.page import FollowWords, FormWords

Map = Mapping[str, str]


class SiteWords:
    """Words that only the screen needs; values never change."""

    __slots__ = ()

    # ---- finding one's way ----
    home, this_week, weeks, recipes, foods = "Front page", "This week", "Weeks", "Recipes", "Foods"
    skip_to_page, on_this_page = "To the page", "On this page"
    elsewhere, past_notes, last_note = "Elsewhere", "Past notes", "last note"

    # ---- search ----
    search_label, search_none = "Search", "Nothing found."
    search_one, search_many, search_more = "1 found.", "{} found.", "{found} found; the first {shown}:"
    search_some = "Nothing has all of these words."
    # Longest first. Only compared with one another, so that it does not matter that they cut too much here and there.
    search_endings: tuple[str, ...] = ("ies", "ied", "ing", "es", "ed", "s", "e", "y")
    search_passed_over: tuple[str, ...] = ("a", "an", "and", "at", "for", "in", "of", "on", "or", "the", "to", "with")
    found_recipe, found_food, found_week, found_list = "recipe", "food", "week", "list"

    # ---- with a script ----
    follow = FollowWords(
        label="Now",
        begin="Begin now",
        done="Done",
        now="Now: {tasks}",
        next="Next, {clock}: {tasks}",
        until="until {clock}",
        over="{minutes} min over",
        ready="ready at {clock}",
        late="{minutes} min late",
        over_all="all done",
        moved="{now} (planned {printed})",
        line="{clock} now",
    )
    keep_screen_on, untick_all = "Keep the screen on", "Untick all on this page"

    # ---- front page ----
    today, tomorrow, next_day = "Today", "Tomorrow", "Next"
    nothing_that_day = "Nothing to do."
    nothing_but_eat = "Nothing to pull, carry, heat or cook: what is eaten stands in the week below."
    no_week_planned = "No week is planned."
    the_week, in_this_week = "The week", "All of this week"
    use_first_line = "Use first: {}."

    # ---- weeks ----
    week, dishes, notes = "Week", "Dishes", "Notes"
    this_week_mark = "this week"
    years_before, weeks_of = "Years before", "Weeks of {}"
    no_weeks = "No weeks yet: a plan goes into weeks/, one file a week."
    week_from, the_week_itself = "From {}", "the week itself"
    binder_to_print = "Binder to print (PDF)"
    before_it, after_it, only_week = "Before: ", "After: ", "No other week is written down."
    as_planned = "As planned"
    plan_alone = "From the plan alone; nothing was worked out again for this week."
    closed_week, closed_dishes = "How the week was closed", "What became of each dish, in portions"
    closed_week_note = "Written down when the week was closed."
    closed_as_made = "Closed on {}: this page shows the week as it was made, whatever changed in the files since."
    closed_figures_kept = "Closed on {}: figures, allergens and cost are those of that day, the rest is of today."
    why_and_who, who_left = "Why, and who", "{who} left {left}"
    session_took, session_not_timed, paid = "took {}", "not timed", "To pay for whole packs"
    editions = "What this week was made of"
    editions_note = "Each file with its edition; copies of them are kept in editions/."

    # ---- how it went ----
    closing_link = "How it went: answers for closing the week"
    closing_intro = "Leave empty what went as planned. What you write stays on this device until you clear it."
    closing_how = "Save the answers as a file, then in the household's folder: {command}"
    ask_planned, ask_made_on, ask_from_stock = "planned {}", "made {}", "from stock"
    ask_taken, ask_left, ask_why = "Taken", "Left, not frozen", "Why thrown away"
    ask_left_by = "Who left some of theirs, such as {}"
    ask_weighs, ask_kept, ask_minutes = "Weighed cooked, g", "Kept: {}", "{}: minutes it took"
    ask_bought, not_said, bought_as_listed = "What the packs leave", "not said", "bought as listed: put it into stock"
    substituted_lines = "Used in place of what, one a line"
    note_for_next_time = "What to remember"
    form_words = FormWords(
        save="Save the answers as a file",
        clear="Clear all answers",
        clear_sure="Clear all answers: press again",
        saved="Saved as {}. The same stands below, to be copied where nothing can be saved.",
        kept="Kept on this device.",
        not_kept="This browser keeps nothing: save before you close the page.",
        wrong="Not saved. Look at: {}",
        wrong_one="not a number",
        over="That is {} more than were made.",
        as_text="The file's text",
    )

    # ---- from past weeks ----
    from_past, last_time, what_became, planned_now = "From past weeks", "Last time", "What became of it", "Planned now"
    from_past_note = "Dishes of this week of which something was left or thrown away the last time they were made."
    was_left, was_thrown = "{} of {} left", "{} of {} thrown away"
    eater_left, eater_fewer = "{who} left {left} of {of}", "{who}: {now}, plan {fewer}?"
    plan_fewer = "{}; as eaten then, {} would do"

    # ---- a year ----
    year_title, year_link = "The year {}", "The year {}: waste, cost, hours and what was made"
    year_weeks = "{closed} of {planned} planned weeks are closed."
    year_note = "Only closed weeks are counted here. What nobody wrote down is not known, and never taken for zero."
    all_weeks, per_cent = "All", "{}\u00a0%"
    chart_alt = "{}, a bar for each week; the table below says the same."
    waste, waste_by_week = "Thrown away", "Portions thrown away, by week"
    of_what_was_made, waste_reasons, nothing_thrown = "Share", "What was thrown away, and why", "Nothing."
    year_cost, cost_by_week = "What a portion cost", "Cost of a portion, by week"
    year_cost_note = "What the week's food cost by the portions planned, as it was on the day of closing."
    year_hours, hours_by_week = "Time for prep", "Time in the kitchen, by week"
    year_hours_note = (
        "Of the sessions that were timed: a filled bar is what they took, its dashed outline what was planned."
    )
    longer, shorter = "{} longer", "{} shorter"
    year_dishes, dishes_of_year = "What was made", "Dishes, those made most often first"
    year_dishes_note = "In portions; dishes that only go into other dishes are counted with those."
    year_use_first = "What keeps coming back to use first"
    comes_back_note = "On the use-first list of more than one week: buy less of it, or plan a dish for it."
    nothing_comes_back = "Nothing stood on the use-first list of more than one closed week."

    # ---- recipes ----
    ingredients, ingredient = "Ingredients", "Ingredient"
    form = "Form"
    forms: Map = MappingProxyType(
        {
            "ready": "ready: made ahead, heated or eaten as it is",
            "assemble": "assembled: made ahead, finished where it is eaten",
            "kit": "kit: prepared now, cooked at service",
            "portioned": "portioned: weighed or counted out",
        }
    )
    forms_short: Map = MappingProxyType(
        {"ready": "ready", "assemble": "assembled", "kit": "kit", "portioned": "portioned"}
    )
    needs_at_service, gives = "Needed at service", "Gives as well"
    beside_in_all, at_service_in_all = "Beside, in all", "At service, in all"
    allergen_from, allergen_may_from = "{word}: in {foods}", "{word}: by its pack, perhaps in {foods}"
    not_found_is_no_promise = "What is not recorded may still be there: a record is no promise."
    minutes_of_handwork, minutes_all_handwork = "{time}, {hands} of it handwork", "{time}, all of it handwork"
    minutes_at_service = "{} at service"
    tallies_line = "The household's own counts: {}."
    planned_in, never_planned = "Weeks it was planned in", "Not planned in any week."
    where_it_can_be_eaten = "Where it can be eaten"
    cooked_there = "cooked there"
    proved_there = "{line}: here {time}, which proved right"
    other_power = "{line}: for another power, here {watts} W; a week's reheating notes have the minutes"
    nothing_heats_it = "nothing there heats it"
    place_lacks = "no {} there"
    not_allowed_in = "{} not allowed in"
    no_home_food = "no home-made food taken"
    cannot_eat_there = "Not there: {}"

    # ---- lists of recipes ----
    no_recipes = "No recipes yet: one file each in recipes/."
    all_recipes = "All recipes"
    by_meal, by_form, by_food, by_allergen = "By meal", "By form", "By main foods", "By what is recorded of allergens"
    by_keeping, by_place, by_minutes, by_tag = "By keeping time", "By place", "By time it takes", "By tag"
    by_food_note = "What makes up a tenth of a dish or more; the foods' own pages name every dish that uses them."
    by_place_note = "By what each place can heat, has and allows in. The week's plan is checked for each eater as well."
    by_minutes_note = (
        "From start to finish for one cook with tools enough, service included; parts from other recipes not."
    )
    may_be_frozen = "may be frozen"
    up_to_minutes, longer_than_minutes = "Up to {} min", "Longer than {} min"

    # ---- where a number comes from ----
    where_from = "Where does this number come from?"
    where_from_how = (
        "For each line: grams × the share that is eaten × the food's figure per 100 g ÷ 100. Summed as they are, "
        "divided by the portions, rounded once in the last line."
    )
    grams_head, grams_got_from, figures_from = "Grams, edible", "How the grams were got", "Figures from"
    times_eaten = "{grams} × {share}"
    sum_of_recipe, divided_by, as_printed = "Sum of the recipe", "÷ {} portions", "As printed, a portion"
    figures_of_recipe = "its own page: {}"
    per_100_g = "In 100 g, edible portion"
    rounded_from, rounded_from_up_to = "{} ({})", "{} (up to {})"
    label_rounds = (
        "A label rounds its figures: behind ± or in parentheses stands what it may have rounded from, by the label "
        "rule (21 CFR 101.9(c), or the EU guidance, from memory). Sums take the figure that is printed."
    )

    # ---- foods ----
    used_in, not_used, dish_count = "Used in", "no dish uses it", ("{} dish", "{} dishes")
    no_foods = "No foods yet."
    food_description = "{}: figures, allergens, measures, keeping and where it is used"
    other_names, aisle, edible_portion = "Other names", "Aisle", "Edible portion"
    of_as_purchased, no_yield_recorded = "{} of what is purchased", "no yield recorded: counted whole"
    once_opened, how_to_store, packs, no_price = "Once opened", "How to store", "Packs", "no price"
    par_level, tallies_word, counts = "Par level", "Tallies", "counts"
    in_cupboard = "{} in the cupboard"
    no_allergen_record = "Not known: no allergen record."
    in_other_list = "In the words of the other list: {}."
    measures_head, measure, weighs, where_from_head = "Measures", "Measure", "Weighs", "From"
    measures_used = "As the recipes here were worked out:"
    substituted_in, left_over_there = "in place of another food, {}", "left over from it"

    # ---- on hand ----
    nothing_on_hand = "Nothing is written down: stock.yaml says what is on hand."
    look_at_stock = "Look at these first"
    dated, this_week_takes = "Dated", "This week takes"
    opened, thawed, best_before, no_date = "Opened", "Thawed", "Best before", "no date"
    use_first_by = "use by {}"
    this_week_freezes, freezes_nothing = "This week freezes", "This week puts nothing into the freezer."

    # ---- shared ----
    menu = "Menu"
    family = "Who eats what, and where it is"
    where_it_is, taken_along = "Where it is", "taken along"
    moved_over = "{store}; in the {to} from {day}"
    nothing_eaten = "Nothing of this week is eaten by them."
    feed_title = "Recipes from {}"
