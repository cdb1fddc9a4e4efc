"""Section 5: every dish of the week on a card of its own, at this week's size."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from binder.pages.card_fit import arranged, facing, pages_taken
from binder.pages.card_ingredients import ingredients
from binder.pages.card_keeps import keeps_text
from binder.pages.card_notes import allergen_box, care, substitution_notes
from binder.pages.card_portion import pieces_or_amount, portion_text
from binder.pages.card_steps import steps
from binder.pages.edition import Edition, is_cold, name_of, portions, run, session_title, unique
from binder.pages.figures_from import footnote
from binder.pages.format import day, first_upper, fraction, listed
from binder.pages.page import Block, Facts, Heading, Page, Para, Photo, Prose, Text, plain
from binder.reckon.facts import Batch, Serving
from binder.reckon.recipe_facts import RecipeFacts


@dataclass(frozen=True, slots=True)
class Card:
    """One dish as it is made once: a batch of a session (or what one meal cooks), and the servings from it."""

    facts: RecipeFacts
    portions: Fraction
    batch: Batch | None
    servings: tuple[Serving, ...]
    anchor: str

    @property
    def factor(self) -> Fraction:
        """This week's size by the recipe's own."""
        written = self.facts.recipe.portions
        return self.batch.factor if self.batch else self.portions / written


def pages(edition: Edition) -> tuple[Page, ...]:
    """By session; within one by title, but that a card of two pages finds itself on facing pages."""
    of = cards(edition)
    found = [card_page(card, edition) for card in of]
    sessions = [card.batch.made_on if card.batch else None for card in of]
    return tuple(found[n] for n in facing([page.takes for page in found], sessions))


def cards(edition: Edition) -> tuple[Card, ...]:
    """In order of session and title; the first card of a recipe has the anchor `card-KEY`."""
    found = [*_batch_cards(edition), *_cooked_then(edition)]
    used: dict[str, int] = {}
    out = []
    for facts, count, batch, servings in found:
        used[facts.key] = used.get(facts.key, 0) + 1
        number = used[facts.key]
        anchor = f"card-{facts.key}" + (f"-{number}" if number > 1 else "")
        out.append(Card(facts, count, batch, servings, anchor))
    return tuple(out)


_Found = tuple[RecipeFacts, Fraction, Batch | None, tuple[Serving, ...]]


def _batch_cards(edition: Edition) -> Iterable[_Found]:
    batches = sorted(edition.facts.batches, key=lambda b: (b.made_on, edition.title(b.recipe), b.id))
    for batch in batches:
        facts = batch.facts or edition.facts_of(batch.recipe)
        if facts:
            yield facts, batch.portions_made, batch, edition.servings_of(batch)


def _cooked_then(edition: Edition) -> Iterable[_Found]:
    """What is made when it is eaten: a card for the largest meal of it."""
    free = [s for s in edition.servings if not s.batch and s.lot is None and s.kept == "at service"]
    for key in sorted(unique(s.recipe for s in free), key=edition.title):
        of = tuple(s for s in free if s.recipe == key)
        sittings = [
            sum((s.portions for s in of if (s.date, s.meal) == at), Fraction(0))
            for at in unique((s.date, s.meal) for s in of)
        ]
        facts = edition.facts_of(key)
        if facts:
            yield facts, max(sittings), None, of


def card_page(card: Card, edition: Edition) -> Page:
    """A recipe's card at this week's size: summary, allergens, ingredients beside steps, cautions, whose figures."""
    blocks: list[Block] = [
        *_photo(card),
        Facts(summary(card, edition)),
        *allergen_box(card.servings, card.facts, edition),
    ]
    left = ingredients(card.facts, card.factor, card.servings, edition)
    right = steps(card.facts, card.factor, card.batch, card.portions, edition)
    careful = (
        *substitution_notes(card.facts.key, card.factor, card.servings, edition),
        *care(card.facts, card.batch, edition),
    )
    notes = _notes(card, edition)
    blocks += [*arranged(left, right, careful, notes), *_sections(card)]
    narrow = edition.household.paper in ("half-letter", "a5")
    return Page(
        card.anchor, card.facts.title, "card", tuple(blocks), subtitle=_subtitle(card, edition), print_first=True,
        takes=pages_taken(left, right, careful, notes, narrow),
    )  # fmt: skip


def _photo(card: Card) -> list[Block]:
    photo = card.facts.recipe.photo
    return [Photo(photo, card.facts.title)] if photo else []


def _subtitle(card: Card, edition: Edition) -> str:
    """`10 portions · Sun 7 Jun, 13:00 · 1¼ × the recipe`."""
    w = edition.words
    said = [portions(card.portions, w)]
    if card.batch and card.batch.session:
        said.append(session_title(card.batch.session, w))
    elif card.batch:
        said.append(day(card.batch.made_on, w))
    else:
        said.append(w.cooked_when_eaten)
    if card.factor != 1:
        said.append(w.times_the_recipe.format(_factor_text(card.factor)))
    return w.separator.join(said)


def _factor_text(factor: Fraction) -> str:
    """`1¼`, `5/6`; a factor that says nothing as a fraction, to two decimals."""
    return fraction(factor) if factor.denominator <= 12 else f"{float(factor):.2f}"


def summary(card: Card, edition: Edition) -> tuple[tuple[str, Text], ...]:
    """The ruled facts at the head of a card; for whom it is and what a place can heat stand in sections 6 and 7."""
    w = edition.words
    pairs: list[tuple[str, Text]] = []
    pairs += [(w.makes, plain(makes))] if (makes := _makes(card, edition)) else []
    pairs.append((w.portion, plain(portion_text(card.facts, card.servings, edition))))
    container = f"{w.separator}{card.facts.recipe.container}" if card.facts.recipe.container else ""
    pairs.append((w.keeps, plain(f"{keeps_text(card.facts, edition, card.servings)}{container}")))
    return (*pairs, (w.reheat, _reheat(card.facts, edition)))


def _makes(card: Card, edition: Edition) -> str:
    """What the portions of the subtitle do not say."""
    w, batch = edition.words, card.batch
    said = []
    makes = card.facts.recipe.makes
    if makes:
        said.append(pieces_or_amount(makes.times(card.factor), edition))
    if batch and batch.surplus:
        said.append(w.surplus.format(portions(batch.surplus, w)))
    if batch and batch.loads > 1:
        said.append(w.in_loads.format(batch.loads))
    if batch and batch.part_of:
        said.append(w.part_of.format(listed(tuple(edition.short(key) for key in batch.part_of), w)))
    return "; ".join(said)


def _reheat(facts: RecipeFacts, edition: Edition) -> Text:
    """All ways of the recipe; by place they are in section 7."""
    w = edition.words
    if facts.form == "kit":
        return plain(w.cooked_from_kit)
    if not facts.reheat:
        return plain(w.no_reheat)
    ways = (w.or_cold if is_cold(way) and len(facts.reheat) > 1 else first_upper(way.text) for way in facts.reheat)
    return plain("; ".join(ways))


def _notes(card: Card, edition: Edition) -> list[Block]:
    w, recipe = edition.words, card.facts.recipe
    blocks: list[Block] = [Prose(recipe.notes)] if recipe.notes.strip() else []
    if edition.private and recipe.private:
        blocks.append(Para(plain(f"{w.private_note}: {recipe.private}"), "note"))
    # One line at the foot of the card, in small type: whose recipe, and whose figures.
    foot = [w.source.format(recipe.source)] if recipe.source else []
    foot += [said] if (said := footnote(card.facts, edition)) else []
    return [*blocks, Para(run(w.separator.join(foot)), "source")] if foot else blocks


def _sections(card: Card) -> list[Block]:
    """Further parts of the recipe's own text."""
    blocks: list[Block] = []
    for title, body in card.facts.recipe.sections:
        blocks += [Heading(2, title, name_of(f"{card.anchor} {title}")), Prose(body)]
    return blocks
