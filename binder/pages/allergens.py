"""Section 11: dishes by allergens, in words; then the same asked for each eater who avoids something.

Three answers and a warning, never two: contains, the pack says may contain, not known, not found in what is
recorded. What is not found is not thereby absent.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from binder.model.household import Eater
from binder.pages.edition import Edition, chunks, run, unique
from binder.pages.format import first_upper, listed
from binder.pages.page import Block, Box, Bullets, Column, Heading, Page, Para, Row, RunKind, Table, Text, plain
from binder.reckon.facts import Serving

ALLERGENS_ACROSS = 5  # the nine of the US in two tables, the fourteen of the EU in three: words stand upright, at 12 pt


@dataclass(frozen=True, slots=True)
class Dish:
    """A dish as some eaters get it."""

    recipe: str
    title: str
    contains: tuple[str, ...]
    may_contain: tuple[str, ...]
    not_known: tuple[str, ...]


def pages(edition: Edition) -> tuple[Page, ...]:
    """The allergen matrix, then what each eater who avoids something looks at. None without dishes."""
    w, found = edition.words, dishes(edition)
    if not found:
        return ()
    blocks: list[Block] = [Para(plain(w.matrix_note), "note")]
    blocks += [_matrix(found, some, edition) for some in chunks(list(_list(edition)), ALLERGENS_ACROSS)]
    blocks += _not_checked(found, edition)
    for eater in edition.household.eaters:
        blocks += _checks(eater, edition)
    lines = tuple(Para(plain(line)) for line in (w.read_the_pack, w.substitution_check, w.cross_contact, w.local_rules))
    return (Page("allergens", w.allergen_matrix, "matrix", (*blocks, Box("caution", w.caution, lines))),)


def _list(edition: Edition) -> tuple[str, ...]:
    return tuple(edition.words.allergen_lists[edition.household.allergen_list])


def dishes(edition: Edition) -> tuple[Dish, ...]:
    """Each dish of the week; more than once where a substitution changes what is in it."""
    found: list[Dish] = []
    for key in sorted(unique(s.recipe for s in edition.servings), key=edition.short):
        of = [s for s in edition.servings if s.recipe == key]
        kinds = unique((s.contains, s.may_contain, s.not_known) for s in of)
        for kind in kinds:
            who = unique(s.eater for s in of if (s.contains, s.may_contain, s.not_known) == kind)
            title = edition.short(key)
            title = (
                title if len(kinds) == 1 else f"{title} ({edition.words.only_for.format(listed(who, edition.words))})"
            )
            found.append(Dish(key, title, *kind))
    return tuple(found)


def base(word: str) -> str:
    """`tree nuts` for `tree nuts (almonds)`."""
    return word.partition(" (")[0]


def answer(word: str, dish: Dish | Serving, edition: Edition) -> Text:
    """What the records say of one allergen in one dish."""
    w = edition.words
    kinds = [c.partition(" (")[2].rstrip(")") for c in dish.contains if base(c) == base(word)]
    kind: RunKind = "strong"
    if kinds:
        named = ", ".join(k for k in kinds if k)
        return run(f"{w.cell_contains} ({named})" if named else w.cell_contains, kind)
    if any(base(m) == base(word) for m in dish.may_contain):
        return run(w.cell_may_contain, kind)
    return run(w.cell_not_checked, kind) if dish.not_known else run(w.cell_not_found)


def _matrix(found: Sequence[Dish], words: Sequence[str], edition: Edition) -> Table:
    w = edition.words
    names = w.allergen_lists[edition.household.allergen_list]
    columns = (Column(w.dish, width=33), *(Column(first_upper(names[word])) for word in words))
    rows = tuple(Row((plain(d.title), *(answer(word, d, edition) for word in words))) for d in found)
    return Table(columns, rows, w.allergen_matrix, "matrix", row_heads=True)


def _not_checked(found: Sequence[Dish], edition: Edition) -> list[Block]:
    w = edition.words
    lines = unique(f"{edition.short(d.recipe)}: {', '.join(d.not_known)}" for d in found if d.not_known)
    if not lines:
        return []
    return [Heading(2, w.not_checked_title), Para(plain(w.not_checked_note)), Bullets(tuple(plain(x) for x in lines))]


def _checks(eater: Eater, edition: Edition) -> list[Block]:
    """Every dish an eater gets, sorted by the answer to each word it avoids; what must be looked at comes first."""
    w = edition.words
    mine = [s for s in edition.servings if s.eater == eater.name]
    if not eater.avoids or not mine:
        return []
    blocks: list[Block] = [Heading(2, w.avoids.format(eater=eater.name, what=listed(eater.avoids, w)))]
    for word in eater.avoids:
        found = unique((avoided(word, s, edition), edition.short(s.recipe)) for s in mine)
        lines = (
            (*run(f"{first_upper(said)}: ", "strong"), *run(", ".join(dish for told, dish in found if told == said)))
            for said in sorted(unique(told for told, _ in found), key=_gravity(edition))
        )
        blocks += [Heading(3, first_upper(word))] if len(eater.avoids) > 1 else []
        blocks.append(Bullets(tuple(lines)))
    return blocks


def _gravity(edition: Edition) -> Callable[[str], int]:
    """The worst answer first."""
    w = edition.words
    order = (w.cell_contains, w.cell_may_contain, w.cell_not_checked, w.not_found)
    return lambda said: next((n for n, head in enumerate(order) if said.startswith(head)), 0)


def avoided(word: str, serving: Serving, edition: Edition) -> str:
    """The answer for what an eater avoids: an allergen of the list, or a food by its name."""
    w = edition.words
    if base(word) in _list(edition):
        said = "".join(part.text for part in answer(word, serving, edition))
        return w.not_found if said == w.cell_not_found else said
    if foods := serving.avoided.get(word):
        return f"{w.cell_contains} ({', '.join(foods)})"
    return w.cell_not_checked if word in serving.avoided_unsure else w.not_found
