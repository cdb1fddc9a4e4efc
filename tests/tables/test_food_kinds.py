"""Kinds of food that people avoid by one word. What belongs to a kind: USDA SR28 food groups, plant families and
common practice; from memory where no group says so."""

from __future__ import annotations

import pytest

from binder.tables import composition, everyday, food_kinds
from binder.tables.words import plain


def taken_in(word: str, name: str) -> bool:
    """Whether a kind takes in an everyday food."""
    kind, item = food_kinds.kind_of(word), everyday.food(name)
    assert kind is not None
    return food_kinds.takes_in(kind, (item.name,), item.row, (*(item.us or ()), *(item.eu or ())))


IN = {
    "meat": "chicken thigh; bacon; ground bison; chicken broth; beef stock cube; lard; gelatin; salami; venison",
    "red meat": "ground beef; pork loin; leg of lamb; venison; prosciutto; rabbit; beef broth; suet; black pudding",
    "pork": "ham; bacon; prosciutto; pancetta; lard; chorizo; salami; Italian sausage; pepperoni; gelatin; ham hock",
    "beef": "ground beef; veal cutlet; oxtail; beef broth; pastrami; suet; corned beef brisket; canned corned beef",
    "lamb": "rack of lamb; ground lamb; diced lamb",
    "poultry": "chicken breast; turkey bacon; quail; goose fat; duck leg; chicken broth; pheasant; ground turkey",
    "chicken": "chicken wing; chicken broth; chicken nuggets; cream of chicken soup; rotisserie chicken",
    "game": "venison; rabbit; pheasant; ground bison; quail",
    "liver": "chicken liver; beef liver; liver pate; lamb liver",
    "offal": "beef kidney; pork liver; oxtail; black pudding; liver pate",
    "seafood": "salmon fillet; shrimp; mussels; fish sauce; oyster sauce; Worcestershire sauce; squid; imitation crab; "
    "dashi; kimchi; anchovy paste; clam juice; caviar",
    "citrus": "orange; lemon zest; lime juice; grapefruit; clementine; marmalade; makrut lime leaf; pomelo; kumquat; "
    "lemon extract; canned mandarins; orange liqueur; lemonade",
    "legumes": "dried chickpeas; lentils; peanut butter; tofu; green beans; snow peas; soy sauce; hummus; frozen peas; "
    "miso; baked beans; chickpea flour; glass noodles; jicama; tamarind paste; alfalfa sprouts; mixed nuts",
    "nightshades": "tomato; potato; eggplant; red bell pepper; paprika; cayenne; ketchup; potato starch; goji berries; "
    "tomatillo; chili powder blend; curry powder; harissa; salsa; French fries; tomato paste; pizza sauce; physalis",
    "alcohol": "red wine; beer; vodka; dry sherry; mirin; vanilla extract; cooking wine; hard cider; sake; amaretto",
}  # fmt: skip
OUT = {
    "meat": "coconut milk; salmon fillet; tofu; romaine heart; dried kidney beans; eggplant; vegetable broth; egg; "
    "veggie burger; hemp seeds; tomato; vegetarian refried beans; hamburger bun; toor dal; shrimp",
    "red meat": "chicken thigh; sliced turkey; turkey sausage; ground turkey; coconut cream; duck; vegetable suet",
    "pork": "ground beef; turkey bacon; turkey sausage; hamburger bun; chicken liver; serrano pepper; beef jerky",
    "beef": "pork shoulder; lamb shank; tuna steak; steak sauce; tomato; vegetable suet; hamburger bun; turkey bacon",
    "poultry": "egg; duck egg; quail egg; gooseberries; poultry seasoning; toor dal; plum sauce; chickpea flour",
    "chicken": "turkey breast; dried chickpeas; egg; duck",
    "game": "chicken breast; duck; toor dal; quail egg; buffalo sauce",
    "liver": "chicken breast; olive oil",
    "offal": "canned kidney beans; romaine heart; hearts of palm; hemp seeds; chicken breast; ground beef",
    "seafood": "oyster mushrooms; crackers; nori; chicken breast; salt; soy sauce; apple",
    "citrus": "lemongrass; red lentils; sole fillet; sweet potato; Brazil nuts; sugar; ladyfinger; rhubarb",
    "legumes": "cocoa powder; ground coffee; vanilla bean; pecans; macadamia nuts; potato; olive oil; peppercorn",
    "nightshades": "black pepper; white pepper; Sichuan pepper; sweet potato; yam; zucchini; allspice; pink peppercorn",
    "alcohol": "red wine vinegar; ginger ale; root beer; sherry vinegar; yeast extract; apple juice; grapes",
}  # fmt: skip


def _pairs(said: dict[str, str]) -> list[tuple[str, str]]:
    return [(word, name.strip()) for word, names in said.items() for name in names.split(";")]


@pytest.mark.parametrize(("word", "name"), _pairs(IN))
def test_a_kind_takes_in(word: str, name: str) -> None:
    assert taken_in(word, name)


@pytest.mark.parametrize(("word", "name"), _pairs(OUT))
def test_a_kind_leaves(word: str, name: str) -> None:
    assert not taken_in(word, name)


@pytest.mark.parametrize(
    ("said", "word"),
    [
        ("Red meats", "red meat"), ("citrus fruits", "citrus"), ("pulses", "legumes"), ("organ meats", "offal"),
        ("nightshade", "nightshades"), ("alcoholic drinks", "alcohol"), ("fish and shellfish", "seafood"),
        ("wild game", "game"), ("livers", "liver"),
    ],
)  # fmt: skip
def test_other_words_for_a_kind(said: str, word: str) -> None:
    kind = food_kinds.kind_of(said)
    assert kind is not None and kind.word == word


@pytest.mark.parametrize("word", ["another food", "supper", "onion", "fish", "milk", ""])
def test_what_is_no_kind(word: str) -> None:
    assert food_kinds.kind_of(word) is None


def test_every_fact_has_a_source_and_every_name_exists() -> None:
    groups = {row.group for row in composition.all_rows()}
    names = {plain(food.name) for food in everyday.all_foods()}
    for kind in food_kinds.kinds().values():
        assert all(kind.sources.values())
        assert kind.groups <= groups
        assert set(kind.takes_in) <= set(food_kinds.kinds())
        assert kind.foods <= names, (kind.word, kind.foods - names)


# USDA SR28 food groups, whole: no row of them is left out.
@pytest.mark.parametrize(
    ("word", "group"),
    [
        ("meat", "Beef Products"), ("meat", "Poultry Products"), ("meat", "Sausages and Luncheon Meats"),
        ("red meat", "Pork Products"), ("red meat", "Lamb, Veal, and Game Products"), ("poultry", "Poultry Products"),
        ("seafood", "Finfish and Shellfish Products"), ("legumes", "Legumes and Legume Products"),
    ],
)  # fmt: skip
def test_a_group_belongs_whole(word: str, group: str) -> None:
    kind = food_kinds.kind_of(word)
    assert kind is not None
    rows = [row for row in composition.all_rows() if row.group == group]
    assert len(rows) > 100
    assert all(food_kinds.takes_in(kind, (), row.ndb) for row in rows)


# SR28 calls every drink with alcohol "Alcoholic beverage".
def test_every_alcoholic_beverage_is_alcohol() -> None:
    kind = food_kinds.kind_of("alcohol")
    assert kind is not None
    drinks = [row for row in composition.all_rows() if row.name.lower().startswith("alcoholic beverage")]
    assert len(drinks) > 50 and all(food_kinds.takes_in(kind, (), row.ndb) for row in drinks)


@pytest.mark.parametrize(
    ("word", "name", "found"),
    [
        ("tomatoes", "tomato paste", True), ("mushrooms", "cream of mushroom soup", True),
        ("garlic", "garlic powder", True),
        ("cherries", "cherry tomatoes", False), ("olives", "olive oil", False), ("beans", "vanilla bean", False),
        ("bananas", "banana pepper", False), ("rice", "cauliflower rice", False), ("pine", "pineapple", False),
    ],
)  # fmt: skip
def test_a_word_stands_in_a_name_as_itself(word: str, name: str, found: bool) -> None:
    assert food_kinds.stands_in(word, name) is found


def test_a_household_food_is_read_by_its_name() -> None:
    def takes(word: str, name: str) -> bool:
        kind = food_kinds.kind_of(word)
        assert kind is not None
        return food_kinds.takes_in(kind, (name,), None)

    assert takes("meat", "Grandmother's sausage rolls") and not takes("meat", "vegan sausage rolls")
    assert takes("nightshades", "peppers in oil") and not takes("nightshades", "salt and pepper nuts")
    assert takes("alcohol", "plum brandy") and takes("citrus", "yuzu kosho")
