"""Blocks of an invented household, every kind of them, made by hand."""

from __future__ import annotations

from binder.pages.page import (
    Beside,
    Block,
    Box,
    Bullets,
    Check,
    Checks,
    Column,
    Drawing,
    Facts,
    Fold,
    Heading,
    IngredientGroup,
    IngredientLine,
    Ingredients,
    Para,
    Photo,
    Prose,
    Row,
    Run,
    StepGroup,
    StepLine,
    Steps,
    Table,
    Text,
    plain,
)

DAYS = ("Monday 8 June", "Tuesday 9 June", "Wednesday 10 June")
DISHES = ("Fennel and white bean braise", "Rye porridge, pear", "Trout parcels", "Beetroot hash", "Oat and plum slice")


def row(*cells: str | Text, kind: str = "") -> Row:
    return Row(tuple(plain(c) if isinstance(c, str) else c for c in cells), kind)  # type: ignore[arg-type]


def quantity(text: str) -> Text:
    return (Run(text, "quantity"),)


def time(text: str) -> Text:
    return (Run(text, "time"),)


def week_table() -> Table:
    small = Run(" – 2 portions, van, eaten cold", "small")
    rows = []
    for day in DAYS:
        rows.append(Row(((Run(day, "strong"),),), "group"))
        rows.append(row("Breakfast", DISHES[1], DISHES[1], "", DISHES[1]))
        rows.append(row("Lunch", (Run(DISHES[0], "", "recipes/braise/index.html"), small), DISHES[0], DISHES[3], ""))
        rows.append(row("Dinner", DISHES[2], DISHES[2], DISHES[2], DISHES[2]))
    columns = (Column("Meal", width=14), Column("Marit"), Column("Oskar"), Column("Juno"), Column("Old Hanne"))
    return Table(columns, tuple(rows), "Week sheet", "week", row_heads=True)


def day_blocks() -> tuple[Block, ...]:
    checks = (
        Check(plain("Carry for Marit to the van: 3 things"), plain("Fennel and white bean braise, flask. Cold source")),
        Check(plain("Dinner, 18:30: Trout parcels for everyone, 4 portions"), plain("Oven 200 °C, 20 min")),
        Check(plain("Evening: move Beetroot hash, 2 portions, from freezer to fridge"), plain("Oskar, Thu 11 June")),
    )
    return tuple(b for day in DAYS for b in (Heading(2, day), Checks(checks)))


def shopping() -> tuple[Block, ...]:
    columns = (
        Column("", width=5, kind="tick"), Column("Food", width=24), Column("Buy", width=17, kind="quantity"),
        Column("Need"), Column("On hand"), Column("Left over"), Column("Cost", "right", width=10),
    )  # fmt: skip
    rows = (
        Row((plain("Vegetables and fruit"),), "group"),
        row((), "fennel", quantity("4 each"), "3½ each", "not known", "½ each", "6.40"),
        row((), "beetroot", quantity("1.2 kg"), "1.1 kg", "0", "0.1 kg", "3.80"),
        row((), "pears, firm", quantity("6 each"), "5 each", "0", "1 each", "4.20"),
        Row((plain("Fish counter"),), "group"),
        row((), "trout fillets", quantity("700 g"), "680 g", "0", "20 g", "21.00"),
        Row((plain("Dry goods"),), "group"),
        row((), "white beans, dry", quantity("500 g"), "420 g", "100 g", "180 g", "2.90"),
        row((), "rye flakes", quantity("1 pack"), "320 g", "80 g", "260 g", "2.20"),
        row("", "To pay, at least", "", "", "", "", "40.50", kind="total"),
    )
    house = tuple(Check(plain(w)) for w in ("salt", "rapeseed oil", "bay leaves", "peppercorns", "mustard", "honey"))
    return (
        Para(plain("For 2 sessions and 9 dishes. Weights are as purchased."), "lead"),
        Table(columns, rows, "Shopping list", "shopping"),
        Heading(2, "In the house"), Para(plain("Look whether these are there."), "note"), Checks(house, 2),
    )  # fmt: skip


def mise() -> Table:
    columns = (
        Column("", width=5, kind="tick"), Column("How much", width=20, kind="quantity"), Column("Food", width=22),
        Column("Cut how", width=20), Column("Split"),
    )  # fmt: skip
    return Table(columns, (
        row((), quantity("900 g"), "fennel", "in wedges", "braise 700 g, parcels 200 g"),
        row((), quantity("1⅞ cups"), "onion", "finely diced", "braise 1 1/4 cups, hash ⅝ cup"),
        row((), quantity("1.1 kg"), "beetroot", "peeled, in 1 cm dice", "hash"),
    ), "Mise en place", "mise")  # fmt: skip


SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 480 120" width="480" height="120" font-family="sans-serif">'
    '<g fill="none" stroke="#1a1a1a" stroke-width="0.8"><path d="M90 30h300v20h-300z" fill="#d9d9d9"/>'
    '<path d="M150 70h200v20h-200z"/></g><g font-size="12" fill="#1a1a1a"><text x="0" y="45">cook 1</text>'
    '<text x="0" y="85">oven</text><text x="95" y="45">1 Cut the fennel</text><text x="155" y="85">2 Braise</text>'
    "</g></svg>"
)


def run_sheet() -> tuple[Block, ...]:
    columns = (
        Column("", width=4, kind="tick"), Column("Time", width=10, kind="time"), Column("No.", "right", width=4),
        Column("Task"), Column("Dish", width=18), Column("How long", width=14), Column("Uses", width=15),
    )  # fmt: skip
    braise, hash_ = (Run("Fennel and white bean braise", "small"),), (Run("Beetroot hash", "small"),)
    rows = (
        row((), time("13:00"), "1", "Heat the oven to 180 °C.", braise, "10 min", "oven 1", kind="now"),
        row((), time("13:00"), "2", "Cut the fennel in wedges, dice the onion.", braise, "14 min", "cutting board 1"),
        row(
            (), time("13:14"), "3", "Braise, covered, until a knife slides in.", braise, "55 min", "oven 1", kind="now"
        ),
        row((), time("13:14"), "4", "Dice the beetroot.", hash_, "12 min", "cutting board 1"),
    )
    return (
        Para(plain("13:00 to 15:20, 2 h 20 min, 1 h 25 min of it busy."), "lead"),
        Drawing(SVG, "Cook 1 is busy from 13:00, the oven from 13:14.", "Toned: attended. Outlined: unattended."),
        Table(columns, rows * 4, "Run sheet", "run-sheet"),
        Heading(2, "Cooling"),
        Box("caution", "Cold in time", (
            Bullets((plain("Shallow, at most 5 cm deep, lids ajar."), plain("21 °C within 2 h, 5 °C within 6 h."))),
            Para(plain("Source: FDA Food Code 2022, 3-501.14"), "source"),
        )),
    )  # fmt: skip


def card_blocks(title: str) -> tuple[Block, ...]:
    ingredients = Ingredients((
        IngredientGroup("Beans", (
            IngredientLine("1⅞ cups", "white beans, dry", "soaked overnight", "340 g"),
            IngredientLine("2", "bay leaves"),
            IngredientLine("1½ tsp", "salt, table", "", "9 g"),
        )),
        IngredientGroup("Fennel", (
            IngredientLine("700 g", "fennel bulbs", "in wedges, the fronds kept for the end"),
            IngredientLine("1 1/4 cups", "onion", "finely diced", "190 g", mark="S"),
            IngredientLine("3 tbsp", "rapeseed oil", "", "", "recipes/oil/index.html"),
            IngredientLine("⅔ cup", "dry cider"),
        )),
    ))  # fmt: skip
    steps = Steps((
        StepGroup("Beans", (
            StepLine(1, "Drain the beans, cover with fresh water and simmer with the bay until they give between two "
                     "fingers. Salt them in the last 10 min.", "50 min, unattended", "burner"),
        )),
        StepGroup("Fennel", (
            StepLine(2, "Cut the fennel into wedges that hold together at the root. Dice the onion.", "14 min",
                     "cutting board"),
            StepLine(3, "Brown the wedges in the oil on two sides, without turning them too soon.", "10 min", "burner"),
            StepLine(4, "Pour the cider over, cover and braise in the oven.", "35 min, unattended", "oven 180 °C"),
        )),
        StepGroup("Together", (
            StepLine(5, "Fold the beans and 1 cup of their water under. Portion into tubs and cool.", "8 min", "",
                     "In the refrigerator by 16:40; check half way at 15:50."),
        )),
    ))  # fmt: skip
    return (
        Photo("braise.png", "A shallow dish of braised fennel"),
        Facts((("Makes", plain("8 portions of 1½ cups")), ("This week", (Run("6½ portions", "quantity"),)),
               ("Keeps", plain("3 days in the refrigerator, 3 months frozen")))),
        Box("allergens", "Contains sulphites", (Para(plain("Read the pack. Not known: cider.")),)),
        Beside((ingredients,), (steps,), "recipe"),
        Heading(2, "At service"),
        Steps((StepGroup("", (StepLine(1, "Scatter the fronds over.", "1 min"),)),)),
        Prose(f"The **{title}** is better on the second day.\n\n- Keep the fronds dry.\n- A spoon of mustard helps."),
        Fold("Where the figures come from", (Para(plain("SR28 16049, 11957."), "source"),)),
    )  # fmt: skip


def matrix() -> Table:
    names = ("Milk", "Eggs", "Fish", "Tree nuts", "Wheat")
    columns = (Column("Dish", width=35), *(Column(name) for name in names))
    told = ("contains", "–", "–", "may contain", "–", "–", "–")
    rows = [row(dish, *(told[(n + m) % 7] for m in range(5))) for n, dish in enumerate(DISHES)]
    return Table(columns, tuple(rows), "Allergen matrix", "matrix", row_heads=True)


def numbers() -> Table:
    columns = (
        Column("Day"), Column("Energy", "right"), Column("Protein", "right"), Column("Fibre", "right"),
        Column("Sodium", "right"),
    )  # fmt: skip
    rows = [row(day, "about 1,910 kcal", "at least 88 g", "31 g", "1,740 mg") for day in DAYS]
    rows.append(row("Aim", "1,900 kcal", "at least 90 g", "", "at most 2,000 mg", kind="quiet"))
    return Table(columns, tuple(rows), "Marit", "numbers", row_heads=True)


def simple(kind: str) -> tuple[Block, ...]:
    columns = (Column("", width=6, kind="tick"), Column("What"), Column("Amount", "right", width=18, kind="quantity"),
               Column("Batch weighs", width=22, kind="write"))  # fmt: skip
    rows = (row((), "Braise in the deep tub, Marit, Mon", quantity("380 g"), ""),
            row((), "Braise in the deep tub, Oskar, Tue", quantity("450 g"), ""))  # fmt: skip
    return (
        Table(columns, rows, "For the van and the ward", kind),
        Para(plain("A thermometer decides: 74 °C."), "caution"),
    )
