from __future__ import annotations

import itertools

import pytest

from binder.tables import allergens
from binder.tables.allergens import avoided_words, covers, to_eu, to_us, word_of

# FALCPA 2004 and FASTER Act 2021; Regulation (EU) 1169/2011, Annex II.
US = {
    "milk", "eggs", "fish", "crustacean shellfish", "tree nuts", "peanuts", "wheat", "soybeans", "sesame",
}  # fmt: skip
EU = {
    "cereals containing gluten", "crustaceans", "eggs", "fish", "peanuts", "soybeans", "milk", "nuts", "celery",
    "mustard", "sesame", "sulphur dioxide and sulphites", "lupin", "molluscs",
}  # fmt: skip


def test_the_lists_are_nine_and_fourteen():
    assert set(allergens.words("us")) == US and len(allergens.US) == 9
    assert set(allergens.words("eu")) == EU and len(allergens.EU) == 14


def test_marks_are_two_letters_and_each_its_own():
    for rows in allergens.LISTS.values():
        assert len({row.mark for row in rows}) == len(rows)
        assert all(len(row.mark) == 2 for row in rows)
    assert allergens.mark("tree nuts (almonds)", "us") == "Nu"
    assert allergens.mark("celery", "us") is None


@pytest.mark.parametrize(
    ("text", "us", "eu"),
    [
        ("Milk", "milk", "milk"),
        ("milk (goat)", "milk", "milk"),
        ("egg", "eggs", "eggs"),
        ("nuts", "tree nuts", "nuts"),
        ("tree nuts (Almonds)", "tree nuts (almonds)", "nuts (almonds)"),
        ("walnut", "tree nuts (walnuts)", "nuts (walnuts)"),
        ("pine nuts", "tree nuts (pine nuts)", None),
        ("tree nuts (coconut)", None, None),
        ("wheat", "wheat", "cereals containing gluten (wheat)"),
        ("wheat (durum)", "wheat", "cereals containing gluten (wheat)"),
        ("spelt", "wheat", "cereals containing gluten (spelt)"),
        ("barley", None, "cereals containing gluten (barley)"),
        ("gluten", None, "cereals containing gluten"),
        ("crustaceans (prawn)", "crustacean shellfish (prawns)", "crustaceans (prawns)"),
        ("fish (rainbow trout)", "fish (rainbow trout)", "fish (rainbow trout)"),
        ("sulphites", None, "sulphur dioxide and sulphites"),
        ("soya", "soybeans", "soybeans"),
        ("shellfish", None, None),
        ("parsley", None, None),
    ],
)
def test_what_is_written_becomes_the_word_of_the_list(text, us, eu):
    assert (word_of(text, "us"), word_of(text, "eu")) == (us, eu)


@pytest.mark.parametrize("of", ["us", "eu"])
def test_a_word_of_the_list_stays_as_it_is(of):
    for row in allergens.LISTS[of]:
        assert word_of(row.word, of) == row.word
        for kind in row.kinds:
            text = f"{row.word} ({kind})"
            assert word_of(text, of) == text


@pytest.mark.parametrize(
    ("avoided", "contained"),
    [
        ("tree nuts", "tree nuts (almonds)"),
        ("nuts", "tree nuts (almonds)"),
        ("nuts", "tree nuts (pine nuts)"),
        ("tree nuts", "nuts (hazelnuts)"),
        ("tree nuts (walnuts)", "nuts (walnuts)"),
        ("tree nuts (walnuts)", "tree nuts (black walnuts)"),
        ("tree nuts (walnuts)", "tree nuts"),
        ("fish", "fish (trout)"),
        ("fish (trout)", "fish (rainbow trout)"),
        ("fish (white anchovy)", "fish (anchovies)"),
        ("tree nuts", "nuts (mixed)"),
        ("crustaceans", "crustacean shellfish (crab)"),
        ("shrimp", "crustaceans (prawns)"),
        ("wheat", "cereals containing gluten (wheat)"),
        ("wheat", "cereals containing gluten (spelt)"),
        ("wheat", "cereals containing gluten"),
        ("gluten", "wheat"),
        ("gluten", "cereals containing gluten (barley)"),
        ("milk", "milk (goat)"),
    ],
)
def test_avoiding_takes_in(avoided, contained):
    assert covers(avoided, contained)


@pytest.mark.parametrize(
    ("avoided", "contained"),
    [
        ("tree nuts (walnuts)", "tree nuts (almonds)"),
        ("tree nuts (pine nuts)", "tree nuts (brazil nuts)"),
        ("tree nuts", "peanuts"),
        ("peanuts", "tree nuts (almonds)"),
        ("fish", "crustacean shellfish (crab)"),
        ("fish", "molluscs"),
        ("crustaceans", "fish (cod)"),
        ("fish (trout)", "fish (cod)"),
        ("wheat", "cereals containing gluten (rye)"),
        ("cereals containing gluten (rye)", "wheat"),
        ("milk", "eggs"),
    ],
)
def test_avoiding_does_not_take_in(avoided, contained):
    assert not covers(avoided, contained)


def test_every_word_takes_in_itself_and_no_other_of_its_list():
    for of in ("us", "eu"):
        for avoided, contained in itertools.product(allergens.words(of), repeat=2):
            assert covers(avoided, contained) == (avoided == contained)


def test_a_plain_shellfish_is_taken_for_both_kinds_of_animal():
    found = avoided_words("Shellfish")
    assert any(covers(word, "molluscs") for word in found)
    assert any(covers(word, "crustaceans (crab)") for word in found)
    assert not any(covers(word, "fish") for word in found)


def test_avoided_words_are_of_either_list_or_none():
    assert avoided_words("celery") == ("celery",)
    assert avoided_words("almonds") == ("tree nuts (almonds)",)
    assert avoided_words("parsley") == ()


@pytest.mark.parametrize("word", ["milk", "eggs", "fish", "peanuts", "soybeans", "sesame"])
def test_words_that_both_lists_share(word):
    assert to_eu(word) == word == to_us(word)


def test_words_of_one_list_imply_those_of_the_other_only_where_they_do():
    assert to_eu("wheat") == "cereals containing gluten (wheat)"
    assert to_us("cereals containing gluten (wheat)") == "wheat"
    assert to_us("cereals containing gluten (barley)") is None
    assert to_us("cereals containing gluten") is None
    assert to_us("nuts (almonds)") == "tree nuts (almonds)"
    assert to_eu("crustacean shellfish") == "crustaceans"
    assert to_eu("tree nuts (pine nuts)") is None
    assert to_us("celery") is None
    assert to_us("tree nuts (pine nuts)") is None
