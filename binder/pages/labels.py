"""Labels: the words in the order people look for them: dish, until when, whose, what it contains, how it is heated."""

from __future__ import annotations

from binder.model.library import Library
from binder.pages.card_notes import allergen_words
from binder.pages.edition import Edition, edition_of, is_cold, portions, unique
from binder.pages.format import NBSP, day, first_upper, listed, week_title
from binder.pages.other_files import Label, LabelPages, RegistrationSheet
from binder.pages.portion_weight import of_label
from binder.pages.words import words_of
from binder.reckon.facts import LabelFacts, WeekFacts


def label_pages(week_facts: WeekFacts, library: Library, *, draft: bool = False) -> LabelPages:
    """All labels of a week, where they stand on the sheets in use."""
    edition = edition_of(week_facts, library, week_facts.recipes)
    labels = tuple(label(one, edition) for one in week_facts.labels)
    w = edition.words
    return LabelPages(
        title=w.labels_title.format(week_title(week_facts.week, w)),
        language=library.household.language,
        sheet=library.household.labels.sheet,
        sheets=max((one.sheet for one in labels), default=0),
        labels=labels,
        draft=w.draft if draft else "",
    )


def registration_sheet(library: Library) -> RegistrationSheet:
    """What stands on the sheet by which the printer is set right."""
    w = words_of(library.household.language)
    title = w.test_sheet_title.format(library.household.labels.sheet)
    return RegistrationSheet(title, library.household.language, w.test_sheet_how)


def label_lines(week_facts: WeekFacts, library: Library) -> tuple[tuple[str, ...], ...]:
    """Each label's words for facts.json, top first, with ordinary spaces; empty lines are left out."""
    edition = edition_of(week_facts, library, week_facts.recipes)
    return tuple(_lines(label(facts, edition)) for facts in week_facts.labels)


def _lines(one: Label) -> tuple[str, ...]:
    lines = (one.title, one.date, one.whose, one.contains, one.heat, one.small)
    return tuple(line.replace(NBSP, " ") for line in lines if line)


def label(facts: LabelFacts, edition: Edition) -> Label:
    """What stands on one label, in words; its place on the sheet is the row and the column of the facts."""
    return Label(
        sheet=facts.sheet,
        row=facts.row,
        column=facts.column,
        title=_title(facts, edition),
        date=_date(facts, edition),
        whose=_whose(facts, edition),
        contains=" ".join(allergen_words(facts.contains, facts.may_contain, facts.not_known, edition)),
        heat=_heat(facts, edition),
        small=_small(facts, edition),
        kind=facts.what,
    )


def _title(facts: LabelFacts, edition: Edition) -> str:
    return facts.title or edition.title(facts.recipe)


def _date(facts: LabelFacts, edition: Edition) -> str:
    """`Eat by Thu 11 Jun`; what is frozen: when it is pulled and its last day then."""
    w = edition.words
    if facts.kept == "freezer":
        if facts.pull_on is None:
            return w.label_used_frozen if facts.from_frozen else w.label_freeze
        by = day(facts.use_by, w) if facts.use_by else ""
        raw = facts.what in ("set", "apart")
        until = w.label_freeze_pull_cook if raw else w.label_freeze_pull_eat
        return (until if by else w.label_freeze_pull).format(pull=day(facts.pull_on, w), by=by)
    if facts.use_by is None:
        return w.label_made.format(day(facts.made_on, w)) if facts.made_on else w.label_date_not_known
    words = w.label_cook_by if facts.what in ("set", "apart") else w.label_eat_by
    return words.format(day(facts.use_by, w))


def _whose(facts: LabelFacts, edition: Edition) -> str:
    """`Ilka · Thu 11 Jun · ward`; a kind of its own says so: surplus, set, stored apart, by-product."""
    w = edition.words
    said = [w.packed_as.get(facts.what, facts.what)] if facts.what != "portion" else []
    said += [facts.eater] if facts.eater else []
    said += [day(facts.eat_on, w)] if facts.eat_on else []
    said += [facts.place] if facts.place and facts.place != "home" else []
    place = next((one for one in edition.household.places if one.name == facts.place), None)
    said += place.label_says if place else ()
    return w.separator.join(unique(first_upper(part) if n == 0 else part for n, part in enumerate(said)))


def _heat(facts: LabelFacts, edition: Edition) -> str:
    """One line; nothing on what is not a dish ready to eat."""
    w = edition.words
    if facts.what == "set":
        return w.cook_it
    if facts.what == "apart":
        return w.label_apart
    if facts.what in ("by-product", "packed apart"):
        return ""
    said = w.eat_as_it_is
    if facts.reheat is not None:
        said = w.eat_cold if is_cold(facts.reheat) else first_upper(facts.reheat.text)
    known = edition.facts_of(facts.recipe)
    apart = known.recipe.packed_apart if known else ()
    return f"{said}; {w.packed_apart.format(listed(apart, w))}" if apart else said


def _small(facts: LabelFacts, edition: Edition) -> str:
    """`350 g · id`: what to find it by, on lid and body."""
    w = edition.words
    said = [known] if (known := of_label(facts, w, edition.facts.past)) else []
    if facts.portions is not None and facts.portions != 1:
        said.append(portions(facts.portions, w))
    if facts.made_on and facts.use_by:
        said.append(w.made_short.format(day(facts.made_on, w)))
    said += [facts.id] if facts.id else []
    return w.separator.join(said)
