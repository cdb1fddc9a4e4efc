"""foods.yaml to the household's own foods: the pack, then the row it is like, then the everyday food of its name."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from binder.check import allergen_words
from binder.check.amounts import amount_of
from binder.check.declare import Entry, Found, Said
from binder.check.fields import FOODS, FoodFields, PackFields
from binder.check.household import first_of_each
from binder.check.keeps import stated
from binder.check.label import before_rounding, energy_problem, figures_of, merged
from binder.check.near import did_you_mean
from binder.check.table_food import of_composition, of_everyday
from binder.check.tallies import tally_steps
from binder.model.food import Basis, Food, FoodWeight, Pack
from binder.problem import Problem, error, warning
from binder.source.document import Document
from binder.source.nodes import Scalar
from binder.tables import allergens, composition, everyday, measures
from binder.tables.allergens import AllergenList
from binder.tables.household_weights import volume_unit
from binder.tables.measures import System

SCALE = "household's own scale"
RECORD = "the household's own record of the pack"
OWN = "the household's own"


@dataclass(frozen=True, slots=True)
class _Behind:
    """What a food of the household rests on: the row it is `like`, and the everyday food of its own name."""

    like: Food | None
    same_name: Food | None

    @property
    def figures(self) -> Food | None:
        return self.like or self.same_name


def check_foods(
    document: Document | None, listed: AllergenList, cup: System
) -> tuple[tuple[Food, ...], tuple[Problem, ...]]:
    """The household's own foods, in the order written; none when there is no file or nothing in it."""
    if document is None or document.root is None:
        return (), document.problems if document else ()
    found: Found = list(document.problems)
    if isinstance(document.root, Scalar) and document.root.value is None:
        return (), tuple(found)
    entries = FOODS.read(document.root, found) or ()
    named = [(said, entry) for entry in entries if (said := entry.get(FoodFields.name))]
    kept = {id(said) for said in first_of_each((said for said, _ in named), "food", found)}
    foods = tuple(_food(said, entry, listed, cup, found) for said, entry in named if id(said) in kept)
    _one_meaning(named, kept, found)
    return foods, tuple(found)


def _one_meaning(named: list[tuple[Said[str], Entry]], kept: set[int], found: Found) -> None:
    """A synonym that names another food as well is a problem at the synonym."""
    spellings = {said.value.casefold(): said for said, _ in named if id(said) in kept}
    for name, entry in named:
        for synonym in entry.get(FoodFields.synonyms) or ():
            before = spellings.setdefault(synonym.value.casefold(), name)
            if before is not name:
                message = f'"{synonym.value}" names "{before.value}" already'
                found.append(error(synonym.span, "duplicate-name", message, "keep it at one of them"))


def _food(name: Said[str], entry: Entry, listed: AllergenList, cup: System, found: Found) -> Food:
    item = everyday.lookup(name.value)
    behind = _Behind(_like(entry, listed, found), of_everyday(item.name, listed) if item else None)
    base, same = behind.figures, behind.same_name
    weights = _weights(entry, found)
    own, own_problems = figures_of(entry.get(FoodFields.label), weights, cup)
    found.extend(own_problems)
    found.extend(energy_problem(entry.get(FoodFields.label), listed))
    figures, figures_from = merged(own, base)
    contains, allergens_from = _contains(entry, same, listed, found)
    may, problems = allergen_words.of_list(entry.get(FoodFields.may_contain) or (), listed)
    found.extend(problems)
    share = entry.get(FoodFields.yield_)
    aisle, opened, store = entry.get(FoodFields.aisle), entry.get(FoodFields.once_opened), entry.get(FoodFields.store)
    keeps, par = entry.get(FoodFields.keeps), entry.get(FoodFields.par)
    return Food(
        name=name.value,
        basis=Basis("household", name.value),
        row=base.row if base else None,
        per_100_g=figures,
        figures_from=figures_from,
        contains=contains,
        may_contain=may,
        allergens_from=allergens_from,
        aisle=aisle.value if aisle else same.aisle if same else behind.like.aisle if behind.like else "other",
        edible_share=_share(share, same, found),
        yield_from=OWN if share else same.yield_from if same else "",
        weights=(*_in_us_cups(weights, cup), *(same.weights if same else ())),
        packs=_packs(entry, cup, found),
        keeping=stated(keeps, None) if keeps else same.keeping if same else None,
        once_opened_days=opened.value[0] if opened else same.once_opened_days if same else None,
        store=store.value if store else same.store if same else "",
        opened_from=OWN if opened else same.opened_from if same else "",
        store_from=OWN if store else same.store_from if same else "",
        fluid=(same or behind.like or Food("")).fluid,
        tallies=tally_steps(entry.get(FoodFields.tallies) or (), cup, found),
        par=amount_of(par.value, cup) if par else None,
        names=tuple(dict.fromkeys((*_synonyms(entry), *(same.names if same else ())))),
        everyday=same.everyday if same else "",
        before_rounding=before_rounding(entry.get(FoodFields.label), weights, cup, listed),
        contains_other=_other_words(contains, same, listed),
    )


def _synonyms(entry: Entry) -> tuple[str, ...]:
    return tuple(said.value for said in entry.get(FoodFields.synonyms) or ())


def _like(entry: Entry, listed: AllergenList, found: Found) -> Food | None:
    """The table row (or everyday food) that the household says it is like."""
    said = entry.get(FoodFields.like)
    if said is None:
        return None
    if row := composition.named(said.value):
        return of_composition(row.ndb, listed)
    if item := everyday.lookup(said.value):
        return of_everyday(item.name, listed)
    near = tuple(row.name for row in composition.nearest(said.value, 3))
    remedies = (*did_you_mean(near), "`binder food WORD` lists the rows")
    found.append(warning(said.span, "unknown-food", f'no table row "{said.value}"', *remedies))
    return None


def _share(said: Said[Fraction] | None, same: Food | None, found: Found) -> Fraction:
    if said and said.value:
        return said.value
    if said:
        found.append(error(said.span, "bad-amount", "a food of which nothing is eaten", "write more than 0 %"))
    return same.edible_share if same else Fraction(1)


def _contains(
    entry: Entry, same: Food | None, listed: AllergenList, found: Found
) -> tuple[tuple[str, ...] | None, str]:
    """The record, and whose it is; None is not known, also when a word of it cannot be read."""
    said = entry.get(FoodFields.contains)
    if said is not None:
        words, problems = allergen_words.of_list(said, listed)
        found.extend(problems)
        return (None, "") if problems else (words, RECORD)
    if same and same.contains is not None:
        return same.contains, f"{same.allergens_from}, {same.name}: read the pack"
    return None, ""


def _other_words(contains: tuple[str, ...] | None, same: Food | None, listed: AllergenList) -> tuple[str, ...] | None:
    """What the record says in the other list's words, with what the everyday food of that name is known to hold."""
    known = same.contains_other if same else None
    if contains is None:
        return known
    turned = (allergens.to_eu(word) if listed == "us" else allergens.to_us(word) for word in contains)
    return tuple(dict.fromkeys((*filter(None, turned), *(known or ()))))


def _weights(entry: Entry, found: Found) -> tuple[FoodWeight, ...]:
    """Grams of one measure: `2 tbsp: 30 g` is 15 g a tbsp."""
    made = []
    for weighed, grams in entry.get(FoodFields.weights) or ():
        one = weighed.value.measure
        if not grams.value or one.low != one.high:
            found.append(error(weighed.span, "bad-amount", "a measure has one weight above zero", "1 cup: 60 g"))
        else:
            weight = float(grams.value / one.low)
            made.append(FoodWeight(one.unit, weight, weighed.value.form, one.size, SCALE))
    return tuple(made)


def _in_us_cups(weights: tuple[FoodWeight, ...], cup: System) -> tuple[FoodWeight, ...]:
    """The scale as published weights stand: a volume that is no US one (a dl, a metric cup) as its share of a cup."""
    made = []
    for one in weights:
        volume = measures.VOLUMES[cup].get(one.unit)
        if volume is not None and (not volume_unit(one.unit) or volume.amount != measures.ml_per(one.unit)):
            grams = one.grams * float(measures.ml_per("cup") / volume.amount)
            source = f"{SCALE}, 1 {one.unit} of {float(volume.amount):.4g} mL = {one.grams:g} g"
            one = replace(one, unit="cup", grams=grams, source=source)
        made.append(one)
    return tuple(made)


def _packs(entry: Entry, cup: System, found: Found) -> tuple[Pack, ...]:
    made = []
    for pack in entry.get(FoodFields.packs) or ():
        size, price = pack.get(PackFields.size), pack.get(PackFields.price)
        amount = amount_of(size.value, cup) if size else None
        if size and (amount is None or amount.is_range):
            found.append(error(size.span, "unknown-unit", f'no pack holds "{size.text}"', "write g, mL or each"))
        elif amount:
            made.append(Pack(amount, price.value if price else None))
    return tuple(made)
