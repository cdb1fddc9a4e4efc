"""Section 7: how each dish is heated, place by place, for the power that the place has."""

from __future__ import annotations

from collections.abc import Sequence

from binder.model.household import HOME, Place
from binder.pages.edition import Edition, is_cold, run, unique
from binder.pages.format import first_upper, listed, seconds
from binder.pages.page import Block, Box, Bullets, Column, Heading, Page, Para, Row, Table, plain
from binder.pages.words.en import Words
from binder.reckon.facts import Serving
from binder.reckon.recipe_facts import ReheatFacts


def pages(edition: Edition) -> tuple[Page, ...]:
    """Reheating notes, place by place. None when nothing that was kept is eaten."""
    w = edition.words
    blocks: list[Block] = []
    for name in _places(edition):
        servings = [s for s in edition.servings if s.place == name and s.kept != "at service"]
        if servings:
            blocks += _place(name, servings, edition)
    if not blocks:
        return ()
    flask = [w.flask_how] if any(s.reheat and s.reheat.means == "flask" for s in edition.servings) else []
    lines = Bullets(tuple(plain(line) for line in (*flask, *w.reheat_how)))
    caution = Box("caution", w.caution, (lines, Para(plain(w.local_rules), "note")))
    return (Page("reheating", w.reheating, "reheating", (*blocks, caution)),)


def _places(edition: Edition) -> tuple[str, ...]:
    """Home first, then in the household's order; then any other that is named."""
    listed_ = [p.name for p in edition.household.places]
    return unique([HOME, *listed_, *(s.place for s in edition.servings)])


def _place(name: str, servings: Sequence[Serving], edition: Edition) -> list[Block]:
    """What is heated as a table; what is cooked from its kit, eaten cold or as it is: a line for each."""
    w = edition.words
    columns = (Column(w.dish, width=24), Column(w.how), Column(w.for_whom, width=25))
    unheated = (w.cooked_from_kit, w.eat_cold, w.eaten_as_it_is)
    heated = [s for s in servings if _how(s, edition) not in unheated]
    ways = unique(_way(s, edition) for s in heated)
    rows = tuple(_row(way, [s for s in heated if _way(s, edition) == way], edition) for way in ways)
    place = next((p for p in edition.household.places if p.name == name), None)
    title = first_upper(name)
    blocks: list[Block] = [Heading(2, title)]
    blocks += [Para(plain(w.place_has.format(_tools(place))), "note")] if place and _tools(place) else []
    blocks += [Table(columns, rows, title, "reheating", row_heads=True)] if rows else []
    for how in unheated:
        blocks += _unheated(how, [s for s in servings if _how(s, edition) == how], edition)
    return blocks


def _unheated(how: str, servings: Sequence[Serving], edition: Edition) -> list[Block]:
    """`Eat cold: Farro salad (Juno), Sesame soba (Juno).`"""
    w = edition.words
    dishes = (
        f"{edition.short(key)} ({listed(unique(s.eater for s in servings if s.recipe == key), w)})"
        for key in unique(s.recipe for s in servings)
    )
    said = f": {', '.join(dishes)}."
    return [Para((*run(first_upper(how), "strong"), *run(said)))] if servings else []


def _way(serving: Serving, edition: Edition) -> tuple[str, str, str]:
    return serving.recipe, _how(serving, edition), before(serving.reheat, edition.words)


def _row(way: tuple[str, str, str], servings: Sequence[Serving], edition: Edition) -> Row:
    w = edition.words
    recipe, how, origin = way
    worked_out = run(f" ({origin})", "small") if origin else ()
    who = listed(unique(s.eater for s in servings), w)
    return Row((plain(edition.short(recipe)), (*run(how, "strong"), *worked_out), plain(who)))


def _tools(place: Place) -> str:
    return ", ".join(tool.text or tool.kind for tool in place.tools)


def _how(serving: Serving, edition: Edition) -> str:
    w = edition.words
    known = edition.facts_of(serving.recipe)
    if known and known.form == "kit":
        return w.cooked_from_kit
    if serving.reheat is None:
        return w.eaten_as_it_is
    return w.eat_cold if is_cold(serving.reheat) else first_upper(serving.reheat.text)


def before(reheat: ReheatFacts | None, words: Words) -> str:
    """Where a time comes from: it proved right at the place, or it was worked out from the card's."""
    if reheat is None:
        return ""
    if reheat.proved:
        formula = reheat.formula_seconds
        return words.proved_by_formula.format(seconds(formula)) if formula else words.proved_here
    return words.converted.format(reheat.converted_from) if reheat.converted_from else ""
