"""A household with a secret in every field of every file, made from the declared fields themselves.

A field that is declared tomorrow is planted by itself, by its kind; a kind that nothing is known of here is an error.
Words and numbers are each unlike any other, and `Planted.secrets` says in which field each of them stands. Closed lists
(`paper: letter`) and yes or no can hold no secret.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

import yaml

from binder.check.amount_kinds import AimText, AmountText, PercentText, SumText, ToolText, WeighedText
from binder.check.closed_fields import ByEater, ClosedDishFields, ClosedRecipeFields
from binder.check.compounds import AsItWas, Either, ListOf, MapOf, OneOrMany
from binder.check.dates import DateText, Life, Minutes, Time, WeekKey
from binder.check.declare import Fields, Kind, Record
from binder.check.editions import edition, edition_path
from binder.check.fields import (
    EaterFields,
    FoodFields,
    HouseholdFields,
    LabelFields,
    LabelsFields,
    MealFields,
    PackFields,
    PlaceFields,
    RecipeFields,
    SessionFields,
    SubstitutionFields,
    WeekFields,
)
from binder.check.label_stock import SheetName
from binder.check.leaves import NumberText, OneOf, Quantity, Text, WebAddress, Whole, YesNo
from binder.check.line_kinds import IngredientItem, ItemFields, ReheatText, StockText
from binder.check.lives import PartLives
from binder.check.reference import FILES, FileKind

WEEK, CLOSED_WEEK, TODAY = "2026-W24", "2026-W23", "2026-06-07"
WORD, OLD_WORD = "quorvix", "quorvex"  # what secrets begin with, and those of files that a closed week keeps
KEYS = ("stew", "bake")  # the recipes' keys, which name the shared files
AGREED, SILENT = 0, 1  # the eaters, by their place in the household
# Names that other fields refer to, so that plan, stock and household hold together.
FOOD, OTHER_FOOD, SHUNNED_FOOD = "quorvfooda", "quorvfoodb", "quorvfoodc"
EATERS, TITLES = ("quorveatera", "quorveaterb"), ("quorvtitlea", "quorvtitleb")
PLACE, CONTAINER = "quorvplace", "quorvcontainer"
PHOTO = "quorvphoto.jpg"


@dataclass
class Planted:
    """Files by path within the content folder, and each secret with the field it stands in."""

    files: dict[str, str] = field(default_factory=dict)
    secrets: dict[str, str] = field(default_factory=dict)

    def word(self, path: str) -> str:
        """A word that no language has and that chance does not write into a packed font."""
        count, letters = len(self.secrets), ""
        for _ in range(3):
            count, digit = divmod(count, 26)
            letters += chr(ord("a") + digit)
        return self.named(f"{WORD}{letters}", path)

    def number(self, path: str) -> str:
        return self.named(str(7000 + 3 * len(self.secrets)), path)

    def named(self, secret: str, path: str) -> str:
        self.secrets.setdefault(secret, path)
        return secret


def _clock(planted: Planted, path: str) -> str:
    return planted.named(f"4:{len(planted.secrets) % 50 + 10}", path)


SAMPLES: Mapping[type[Kind[Any]], Callable[[Any, Planted, str], Any]] = {
    Text: lambda kind, p, path: p.word(path),
    NumberText: lambda kind, p, path: p.number(path),
    Whole: lambda kind, p, path: int(p.number(path)),
    Quantity: lambda kind, p, path: f"{p.number(path)} {kind.into}",
    OneOf: lambda kind, p, path: kind.allowed[0],
    SheetName: lambda kind, p, path: "letter 3x10",
    YesNo: lambda kind, p, path: True,
    WebAddress: lambda kind, p, path: f"https://{p.word(path)}.example/{p.word(path)}",
    DateText: lambda kind, p, path: "2025-03-17",
    WeekKey: lambda kind, p, path: WEEK,
    Time: lambda kind, p, path: _clock(p, path),
    Life: lambda kind, p, path: "5 days",
    Minutes: lambda kind, p, path: f"{p.number(path)} s",
    ByEater: lambda kind, p, path: f"{p.word(path)} {p.number(path)}",
    AmountText: lambda kind, p, path: f"{p.number(path)} g",
    PercentText: lambda kind, p, path: "37 %",
    SumText: lambda kind, p, path: f"{p.number(path)} mL",
    WeighedText: lambda kind, p, path: "1 cup",
    AimText: lambda kind, p, path: f"at most {p.number(path)}",
    ToolText: lambda kind, p, path: p.word(path),
    ReheatText: lambda kind, p, path: "cold",
    StockText: lambda kind, p, path: f"{p.number(path)} g {FOOD}",
    IngredientItem: lambda kind, p, path: {
        "item": f"300 g {FOOD}, {p.word(path)}", "food": FOOD, "eaten": "100 %"
    },
}  # fmt: skip
# Fields whose words name something that stands elsewhere, or whose number would make a plan nobody can reckon.
REFERS: Mapping[tuple[type[Fields], str], Any] = {
    (HouseholdFields, "time zone"): "America/New_York",
    (LabelsFields, "first free"): 1,
    (EaterFields, "avoids"): [SHUNNED_FOOD],
    (PlaceFields, "bans"): ["peanuts"],
    (RecipeFields, "makes"): "6 portions",
    (RecipeFields, "meal"): ["lunch"],
    (RecipeFields, "portion"): "250 mL",
    (RecipeFields, "container"): CONTAINER,
    (RecipeFields, "form"): "ready",
    (RecipeFields, "needs"): ["kettle"],
    (RecipeFields, "photo"): PHOTO,
    (RecipeFields, "packed apart"): [],
    (RecipeFields, "proved"): lambda p, path: {PLACE: f"{p.number(path)} s"},
    (RecipeFields, "tallies"): lambda p, path: {p.word(path): {"1 portion": p.number(path)}},
    (FoodFields, "like"): "Onions, raw",
    (FoodFields, "contains"): [],
    (FoodFields, "may contain"): ["sesame"],
    (LabelFields, "serving"): "30 g",
    (PackFields, "size"): "200 g",
    (SessionFields, "on"): TODAY,
    (SessionFields, "cooks"): 1,
    (SessionFields, "place"): "home",
    (MealFields, "for"): EATERS[AGREED],
    (MealFields, "on"): "mon",
    (MealFields, "portions"): 1,
    (MealFields, "made"): TODAY,
    (MealFields, "at"): PLACE,
    (SubstitutionFields, "in"): KEYS[0],
    (SubstitutionFields, "for"): [EATERS[AGREED]],
    (SubstitutionFields, "use"): f"300 g {OTHER_FOOD}",
    (SubstitutionFields, "instead of"): FOOD,
    (WeekFields, "already"): [f"1 portion {KEYS[0]}"],
    (ClosedDishFields, "dish"): KEYS[0],
    (ClosedDishFields, "which"): 1,
    (ClosedRecipeFields, "recipe"): KEYS[0],
    (ClosedRecipeFields, "per portion"): lambda p, path: {
        "energy_kcal": p.number(path),
        "fat_g": {"low": p.number(path), "high": p.number(path)},
    },
    **{(EaterFields, f"eats {meal} at"): PLACE for meal in EaterFields.eats_at},
    **{(MealFields, meal): KEYS[0] for meal in MealFields.meals},
}
# Names of things: the first of each kind has the name that is referred to.
NAMES: Mapping[type[Fields], tuple[str, tuple[str, ...]]] = {
    EaterFields: ("name", EATERS),
    PlaceFields: ("name", (PLACE,)),
    RecipeFields: ("title", TITLES),
    FoodFields: ("name", (FOOD, OTHER_FOOD, SHUNNED_FOOD)),
}


def sample(kind: Kind[Any], planted: Planted, path: str, turn: int = 0) -> Any:
    """A value of a kind with secrets in it; `turn` chooses where there is a choice, and counts names."""
    if isinstance(kind, Record):
        return record(kind.of, planted, path, turn)
    if isinstance(kind, AsItWas):
        return sample(kind.of, planted, path, turn)
    if isinstance(kind, PartLives):
        return sample(kind.whole, planted, path, turn)
    if isinstance(kind, Either):
        return sample((kind.one, kind.other)[turn % 2], planted, path, turn)
    if isinstance(kind, MapOf):
        return {sample(kind.key, planted, f"{path}.NAME"): sample(kind.of, planted, f"{path}.NAME", turn)}
    if isinstance(kind, OneOrMany):
        return sample(kind.of, planted, path) if turn % 2 else [sample(kind.of, planted, path)]
    if isinstance(kind, ListOf):
        return list(items(kind.of, planted, f"{path}[]", turn))
    assert type(kind) in SAMPLES, f"{path}: say in SAMPLES how a secret is planted in {type(kind).__name__}"
    return SAMPLES[type(kind)](kind, planted, path)


def items(of: Kind[Any], planted: Planted, path: str, turn: int) -> Iterator[Any]:
    """One item; one for each name that is referred to, and one for each key of which only one can stand."""
    fields = of.of if isinstance(of, Record) else None
    count = len(NAMES[fields][1]) if fields in NAMES else max(1, len(fields.exactly_one) if fields else 0)
    for n in range(count):
        yield sample(of, planted, path, turn if count == 1 else n)


def record(of: type[Fields], planted: Planted, path: str, turn: int) -> dict[str, Any]:
    """Every key that is declared, but for those of which another one stands."""
    chosen = of.exactly_one[turn] if of.exactly_one else None
    made: dict[str, Any] = {}
    for one in of.all:
        here = f"{path}.{one.name}" if path and not path.endswith(":") else f"{path}{one.name}"
        if one in of.exactly_one and one is not chosen:
            continue
        if of in NAMES and one.name == NAMES[of][0]:
            made[one.name] = planted.named(NAMES[of][1][turn], here)
        elif (of, one.name) in REFERS:
            given = REFERS[of, one.name]
            made[one.name] = given(planted, here) if callable(given) else given
        else:
            made[one.name] = sample(one.kind, planted, here, turn)
    return made


def household() -> Planted:
    """Every file; of two recipes and two eaters, of whom one agreed to the family's page."""
    planted = Planted()
    files = {kind: top for kind, (top, _) in FILES.items()}
    planted.files["household.yaml"] = _yaml(_home(planted, files))
    for turn, key in enumerate(KEYS):
        front = record(_fields(files["recipe"]), planted, f"recipe {key}:", turn)
        planted.files[f"recipes/{key}.md"] = _markdown(front, _steps(planted, f"recipe {key}:"))
    planted.files[f"weeks/{CLOSED_WEEK}.md"] = _markdown(_week(planted, files), _notes(planted, "week:"))
    now = _week(planted, files)
    del now["closed"]  # A week that is closed takes nothing from the stock.
    planted.files[f"weeks/{WEEK}.md"] = _markdown(now, _notes(planted, "week:")).replace(CLOSED_WEEK, WEEK)
    foods = sample(files["foods"], planted, "foods:")
    foods[2]["contains"] = ["eggs"]
    planted.files["foods.yaml"] = _yaml(foods)
    stock = sample(files["stock"], planted, "stock:")
    planted.files["stock.yaml"] = _yaml({**stock, "fridge": [f"2 portions {KEYS[0]}, made 2026-06-06"]})
    _keep_editions(planted)
    return planted


def _keep_editions(planted: Planted) -> None:
    """The files that the closed week was made of, as they were: with other secrets than those of today."""
    then = {name: text for name, text in planted.files.items() if name not in ("stock.yaml",) and "weeks/" not in name}
    made_of: dict[str, str] = {}
    for name, text in then.items():
        old = text.replace(WORD, OLD_WORD)
        made_of[name] = edition(old.encode())
        planted.files[edition_path(name, made_of[name])] = old
    for secret, path in tuple(planted.secrets.items()):
        if secret.startswith(WORD):
            planted.named(secret.replace(WORD, OLD_WORD), f"edition of {path}")
    week = planted.files[f"weeks/{CLOSED_WEEK}.md"]
    lines = "".join(f"    {name}: {of}\n" for name, of in made_of.items())
    start, end = week.index("  made of:\n") + len("  made of:\n"), re.search(r"  made of:\n(?:    .*\n)*", week)
    assert end is not None
    planted.files[f"weeks/{CLOSED_WEEK}.md"] = week[:start] + lines + week[end.end() :]


def _home(planted: Planted, files: Mapping[FileKind, Kind[Any]]) -> dict[str, Any]:
    home: dict[str, Any] = sample(files["household"], planted, "household:")
    home["eaters"][SILENT][EaterFields.shares_week.name] = False
    home["containers"][0] |= {"name": planted.named(CONTAINER, "household:containers[].name"), "holds": "700 mL"}
    home["places"][0]["has"] += ["kettle", "fridge", "microwave 700 W"]
    tools = ["oven", "4 burners", "microwave 1000 W", "kettle", "cutting board", "freezer"]
    home["places"].append({"name": "home", "has": tools})
    return home


def _week(planted: Planted, files: Mapping[FileKind, Kind[Any]]) -> dict[str, Any]:
    """Each meal as it is sampled for the one who agreed; the other eats the other dish, on another day."""
    week = record(_fields(files["week"]), planted, "week:", 0)
    week["week"] = CLOSED_WEEK
    if "closed" in week:
        for meal in week["meals"]:
            del meal["made"]
        week["prep"][0]["on"] = "2026-05-31"
    week["meals"].append({"dinner": KEYS[1], "for": [EATERS[SILENT]], "on": "tue"})
    return week


def _fields(kind: Kind[Any]) -> type[Fields]:
    assert isinstance(kind, Record)
    return kind.of


def _steps(planted: Planted, recipe: str) -> str:
    part, step, last, title, more = (
        planted.word(f"{recipe}body {name}") for name in ("part", "step", "step", "section", "section")
    )
    return (
        f"{_notes(planted, recipe)}\n## Prep day\n### {part}\n1. {step}. [8 min, cutting board]\n\n"
        f"## At service\n1. {last}.\n\n## {title}\n{more}\n"
    )


def _notes(planted: Planted, file: str) -> str:
    return f"{planted.word(f'{file}body notes')}\n"


def _yaml(what: Any) -> str:
    return yaml.safe_dump(what, allow_unicode=True, sort_keys=False)


def _markdown(front: Any, body: str) -> str:
    return f"---\n{_yaml(front)}---\n{body}"


assert ItemFields.all  # Its keys are written out in the sample of IngredientItem.
