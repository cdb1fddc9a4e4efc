"""Sections 9 and 13: what to pull and when, what to use first, and the rule behind every date."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from binder.pages import cold_room, forgotten, putting_away
from binder.pages.drawings import SCREEN, DayLine, Form, keeping_lines, on_paper
from binder.pages.edition import Edition, portions, run, unique, whom_and_when
from binder.pages.format import day, days, first_upper, listed
from binder.pages.measures import amount
from binder.pages.page import Block, Box, Bullets, Column, Drawing, Heading, Page, Para, Row, Table, plain
from binder.pages.parts_stored import pulled_part
from binder.reckon.facts import Pull, Serving, UseFirst
from binder.reckon.recipe_facts import RecipeFacts


def pull_pages(edition: Edition) -> tuple[Page, ...]:
    """Section 9."""
    w = edition.words
    blocks = (*_pull_list(edition), *_use_first(edition))
    return (Page("pulling", w.section_titles["pull"], "pull", blocks),) if blocks else ()


def _pull_list(edition: Edition) -> tuple[Block, ...]:
    w, pulls = edition.words, edition.facts.pull_list
    if not pulls:
        return ()
    columns = (
        Column("", width=5, kind="tick"),
        Column(w.evening_of, width=16, kind="time"),
        Column(w.dish),
        Column(w.how_much, width=15, kind="quantity"),
        Column(w.from_to, width=22),
        Column(w.for_whom, width=20),
    )
    groups = sorted(unique((p.pull_on, p.recipe, p.from_, p.to) for p in pulls))
    pulled = [[p for p in pulls if (p.pull_on, p.recipe, p.from_, p.to) == group] for group in groups]
    rows = tuple(_pull_row(of_group, edition) for of_group in pulled)
    return Heading(2, w.pull_list), Table(columns, rows, w.pull_list, "pull"), forgotten.box(pulled, edition)


def _pull_row(pulls: Sequence[Pull], edition: Edition) -> Row:
    w, first = edition.words, pulls[0]
    whom = whom_and_when(((p.eater, p.date) for p in pulls), w)
    part = pulled_part(pulls, edition)
    dish = (*run(edition.short(first.recipe), "strong"), *run(f": {part}" if part else ""))
    return Row((
        (), run(day(first.pull_on, w), "time"), dish,
        run(portions(sum(p.portions for p in pulls), w), "quantity"),
        plain(w.from_to_line.format(source=w.store(first.from_), to=w.store(first.to))), plain(whom),
    ))  # fmt: skip


def _use_first(edition: Edition) -> tuple[Block, ...]:
    w, found = edition.words, edition.facts.use_first
    if not found:
        return ()
    columns = (
        Column("", width=5, kind="tick"),
        Column(w.what),
        Column(w.how_much, width=15),
        Column(w.where, width=14),
        Column(w.use_by, width=14, kind="time"),
        Column(w.why, width=28),
    )
    rows = tuple(_use_first_row(one, edition) for one in found)
    return Heading(2, w.use_first), Table(columns, rows, w.use_first, "use-first")


def _use_first_row(one: UseFirst, edition: Edition) -> Row:
    w = edition.words
    name = edition.short(one.recipe) if one.recipe else one.food or ""
    if one.amount is None:
        much = w.not_known
    elif one.recipe and one.amount.unit == "each":
        much = portions(one.amount.high, w)
    else:
        much = amount(one.amount, edition.style)
    by = day(one.use_by, w) if one.use_by else w.not_known
    goes = w.rest_would_go_into if one.taken else w.goes_into
    into = goes.format(", ".join(edition.short(key) for key in one.dishes)) if one.dishes else ""
    taken = w.taken_this_week.format(amount(one.taken, edition.style)) if one.taken else ""
    why = "; ".join(part for part in (one.why, taken, into) if part)
    return Row(
        ((), run(first_upper(name), "strong"), plain(much), plain(w.store(one.place)), run(by, "time"), plain(why))
    )


def note_pages(edition: Edition) -> tuple[Page, ...]:
    """Section 13."""
    w = edition.words
    blocks: list[Block] = [
        *_picture(edition),
        *_rules(edition),
        *cold_room.room(edition),
        *putting_away.blocks(edition),
    ]
    cautions = (first_upper(w.core_meat), first_upper(w.core_eggs), *w.keeping_cautions)
    blocks.append(Box("caution", w.caution, (Bullets(tuple(map(plain, cautions))),)))
    return (Page("keeping", w.keeping_notes, "keeping", tuple(blocks)),)


def _picture(edition: Edition) -> list[Block]:
    """Lines over the week: from the day made (or pulled) to the use-by; a ring on each day it is eaten."""
    w, lines = edition.words, keeping_day_lines(edition)
    if not lines:
        return []
    span = edition.days()
    heads = [f"{w.weekdays_short[d.weekday()]} {d.day}" for d in span]
    alt = w.keeping_alt.format("; ".join(_line_words(line, edition) for line in lines))

    def drawn(form: Form) -> str:
        return keeping_lines(lines, span, heads, w.keeping_notes, alt, "keeping", form)

    return [Drawing(drawn(SCREEN), alt, w.keeping_caption, on_paper(drawn))]


def keeping_day_lines(edition: Edition) -> list[DayLine]:
    """One line for each dish, day made and way of keeping it."""
    lines = []
    known = [s for s in edition.servings if s.made_on and s.use_by and s.kept != "at service"]
    for kind in unique(_kind_of_keeping(s) for s in known):
        recipe, made, use_by, frozen = kind
        same = [s for s in known if _kind_of_keeping(s) == kind]
        eaten = unique(s.date for s in same if s.date)
        first = min((s.pull_on for s in same if s.pull_on), default=made) if frozen else made
        if first and use_by:
            several = len({_kind_of_keeping(s) for s in known if s.recipe == recipe}) > 1
            whose = f" ({', '.join(unique(s.eater for s in same))})" if several else ""
            title = edition.short(recipe) + whose
            lines.append(DayLine(title, first, use_by, title, frozen, eaten, whose))
    return lines


def _kind_of_keeping(serving: Serving) -> tuple[str, date | None, date | None, bool]:
    return serving.recipe, serving.made_on, serving.use_by, serving.kept == "freezer"


def _line_words(line: DayLine, edition: Edition) -> str:
    w = edition.words
    words = w.keeping_line_thawed if line.frozen else w.keeping_line
    eaten = listed([day(d, w) for d in line.marks], w) or w.any_day
    return words.format(dish=line.row, first=day(line.first, w), last=day(line.last, w), eaten=eaten)


def _rules(edition: Edition) -> list[Block]:
    """A row for each dish; the rules behind its dates by number, each written out once below the table."""
    w = edition.words
    columns = (
        Column(w.dish, width=20),
        Column(w.made, width=13),
        Column(w.use_by),
        Column(w.refrigerator, width=22),
        Column(w.freezer, width=15),
        Column(w.rule, "right", width=6),
    )
    made = unique((s.recipe, s.made_on) for s in edition.servings if s.made_on)
    if not made:
        return []
    rules = unique(rule for key, on in made for rule in _rules_of(key, on, edition))
    rows = tuple(_rule_row(key, on, rules, edition) for key, on in made)
    own = edition.household.caution
    strict = [e.name for e in edition.household.eaters if e.caution == "strict" and own != "strict"]
    sets = w.rule_set.format(w.cautions[own])
    told = f"{sets} {w.strict_for.format(listed(strict, w))}" if strict else sets
    table = Table(columns, rows, w.keeping_notes, "keeping", row_heads=True)
    return [Para(plain(told), "lead"), table, Heading(2, w.rules_head), Bullets(tuple(map(plain, rules)), ordered=True)]


def _servings_made(key: str, made: date | None, edition: Edition) -> list[Serving]:
    return [s for s in edition.servings if s.recipe == key and s.made_on == made]


def _rules_of(key: str, made: date | None, edition: Edition) -> tuple[str, ...]:
    """The rules behind a dish's dates, with their sources."""
    facts = edition.facts_of(key)
    rules = unique(s.keeping_note for s in _servings_made(key, made, edition) if s.keeping_note)
    return rules or ((facts.keeps.source if facts else "") or edition.words.not_known,)


def _rule_row(key: str, made: date | None, rules: Sequence[str], edition: Edition) -> Row:
    w, facts, servings = edition.words, edition.facts_of(key), _servings_made(key, made, edition)
    numbers = ", ".join(str(rules.index(rule) + 1) for rule in _rules_of(key, made, edition))
    return Row((
        plain(edition.short(key)), plain(day(made, w) if made else ""),
        plain(_use_bys(servings, edition)), *map(plain, _keeps(servings, facts, edition)), plain(numbers),
    ))  # fmt: skip


def _keeps(servings: Sequence[Serving], facts: RecipeFacts | None, edition: Edition) -> tuple[str, str]:
    """The days that the dates were worked out with, by rule set where there are two; and the freezer life."""
    w = edition.words
    if facts is None:
        return w.not_known, w.not_known
    keeps, own = facts.keeps, edition.household.caution
    cold = unique((s.caution, s.keeps_days) for s in servings) or ((own, keeps.fridge_days),)
    said = []
    if len(cold) > 1 and len({limit for _, limit in cold}) == 1:
        cold = ((own, cold[0][1]),)
    for caution, limit in sorted(cold, reverse=True):
        time = w.not_known if limit is None else days(limit, w)
        said.append(w.strict_short.format(time) if caution == "strict" and own != "strict" else time)
    said += [w.assumed_short] if keeps.assumed else []
    frozen = w.not_known if keeps.freezer_days is None else days(keeps.freezer_days, w)
    return "; ".join(said), frozen if keeps.freezes else w.does_not_freeze


def _use_bys(servings: Sequence[Serving], edition: Edition) -> str:
    """Each date once: `Thu 11 Jun`; of what is frozen, its last day after pulling."""
    w = edition.words
    said = []
    for by, frozen, unthawed in unique((s.use_by, s.kept == "freezer", s.from_frozen) for s in servings):
        text = day(by, w) if by else w.not_known
        said.append(w.used_frozen if unthawed else w.frozen_until.format(text) if frozen else text)
    apart = unique((one.part, one.use_by) for s in servings for one in s.parts if one.apart and one.use_by)
    said += [w.part_until.format(part=part, day=day(by, w)) for part, by in apart if by]
    return "; ".join(said)
