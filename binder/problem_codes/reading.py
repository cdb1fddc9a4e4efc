"""Errors of reading: what stands in a file cannot be understood as it is written."""

from __future__ import annotations

from binder.problem_codes.record import ProblemCode

READING = (
    ProblemCode(
        "not-text",
        "error",
        "The file is not plain text, or was saved in an old way of writing accents. It has to be saved as UTF-8, "
        "which every editor offers when saving.",
        "A letter that cannot be read may belong to a food's name, and a food that is not found is one whose "
        "allergens nobody knows.",
        "recipes/carrot-cream.md",
        "title: Carrot cr\N{REPLACEMENT CHARACTER}me",
        "title: Carrot crème",
        "This is how the program sees the letter.",
    ),
    ProblemCode(
        "too-large",
        "error",
        "The file is far larger than anything a person writes by hand. Most often a picture was pasted into it.",
        "A recipe or a plan is a few pages of text at most. Keep a picture as a file of its own in the folder photos, "
        "and write its name.",
        "recipes/bean-stew.md",
        "---\ntitle: Bean stew\nphoto: data:image/jpeg;base64,/9j/4AAQSkZJRg...",
        "---\ntitle: Bean stew\nphoto: stew.jpg",
    ),
    ProblemCode(
        "yaml-syntax",
        "error",
        "The line cannot be taken apart into names and values. Look at how it is indented, and at brackets, quotes "
        "and colons; or one of the two lines --- around the first part of a recipe or a week is missing.",
        "Nothing in the file can be used until the line reads. Text with a colon in it goes into quotes.",
        "recipes/kettle-oats.md",
        "title: Oats: the quick ones",
        'title: "Oats: the quick ones"',
    ),
    ProblemCode(
        "alias-limit",
        "error",
        "Something in the file holds itself, or holds too much to be written out. A word that begins with & or * does "
        "that: it stands for a piece of the file written elsewhere.",
        "Filled in, it would never end. Write the words themselves, or put a word that begins with & or * into quotes.",
        "household.yaml",
        "    avoids: &hers [milk, *hers]",
        "    avoids: [milk]",
    ),
    ProblemCode(
        "duplicate-key",
        "error",
        "The same key stands twice in one place. A key is the word before the colon.",
        "Only one of them could count, and it would be chance which. Delete the one that is out of date.",
        "recipes/bean-stew.md",
        "container: deep tub\ncontainer: jam jar",
        "container: deep tub",
    ),
    ProblemCode(
        "unknown-key",
        "error",
        "The word before the colon is none that this file may have. Most often it is a slip of spelling; `binder "
        "fields` lists them all.",
        "What stands under a key that is not known would be left out without a word: a freezing ban, a container, "
        "what an eater avoids.",
        "recipes/bean-stew.md",
        "contaner: deep tub",
        "container: deep tub",
    ),
    ProblemCode(
        "missing-key",
        "error",
        "Something that cannot be done without is not written. The message names it.",
        "Without it there is nothing to go by: a meal that does not say who it is for feeds nobody.",
        "weeks/2026-W24.md",
        "  - {dinner: green-salad, on: tue}",
        "  - {dinner: green-salad, for: Nell, on: tue}",
    ),
    ProblemCode(
        "wrong-type",
        "error",
        "What stands here is not of the kind that belongs here. It may be a word that is not one of those allowed, "
        "one line where a list is asked for, or an allergen that neither list has.",
        "A word that means nothing here would do nothing: a name of an allergen with a slip in it would keep nothing "
        "away from anyone.",
        "household.yaml",
        "  - {name: workshop, has: [microwave 700 W], bans: [peenuts]}",
        "  - {name: workshop, has: [microwave 700 W], bans: [peanuts]}",
    ),
    ProblemCode(
        "bad-amount",
        "error",
        "An amount is asked for, and this is none. There is no number in it, or it is zero or below, or it cannot be "
        "worked out.",
        "Portions, shopping and all figures are reckoned from amounts. For what is only to taste, write it so: salt, "
        "to taste.",
        "recipes/bean-stew.md",
        "makes: some portions",
        "makes: 4 portions",
    ),
    ProblemCode(
        "unknown-unit",
        "error",
        "There is a number, but the word after it is no unit that can be used here. Units are g, mL, cup, oz, lb, "
        "each and the like.",
        "One wrong letter can make it a thousand times too much (mg and g), so a unit is never guessed.",
        "recipes/bean-stew.md",
        "  - 500 grms white beans, cooked",
        "  - 500 g white beans, cooked",
    ),
    ProblemCode(
        "bad-date",
        "error",
        "There is no such day, weekday or time of day, or it is not in this week. Write a date as year, month and day "
        '(2026-06-08), a weekday as mon or monday, a time as "13:00".',
        "What keeps until when is counted from these days.",
        "weeks/2026-W24.md",
        "  - {lunch: bean-stew, for: Nell, on: tus}",
        "  - {lunch: bean-stew, for: Nell, on: tue}",
    ),
    ProblemCode(
        "bad-week",
        "error",
        "This is not the week in the file's name, or no week at all. Weeks go by the year and their number in it: "
        "2026-W24 begins on Monday, 8 June 2026.",
        "With two names for one week its meals would land on wrong days.",
        "weeks/2026-W24.md",
        "week: 2026-W25",
        "week: 2026-W24",
        "The file is called 2026-W24.md.",
    ),
    ProblemCode(
        "bad-link",
        "error",
        "There is no such picture in photos, or the address cannot be used. A picture goes by its file name alone; a "
        "web address begins with https://.",
        "Pages are printed and given away. What lies outside the folder stays with you, and a picture that is not "
        "there leaves a hole.",
        "recipes/bean-stew.md",
        "photo: ../holidays/stew.jpg",
        "photo: stew.jpg",
    ),
)
