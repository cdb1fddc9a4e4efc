from __future__ import annotations

from binder.source.body import Body, StepList, read_body

TEXT = """\

Notes with *stars*.

More notes.

## Prep day
Rinse it all first. [5 min]

### Barley
1. Simmer, covered. [unattended 35 min, burner]
2. A long step that
   goes on. [8 min,
   cutting board]
### Together
- Fold together [8 min].
  - portion and cool [4 min, fridge]

A paragraph is a step
too.

## at SERVICE ##
* Spoon over. See [the card](card.md)
* Serve. [ ]

## For next time
- Less salt. [2 min]
```
## no heading
```
### Nor this a part
"""


def body(text: str = TEXT) -> Body:
    return read_body(text, "r.md", 5)[0]


def steps(lists: tuple[StepList, ...]) -> list[tuple[str | None, list[str]]]:
    return [(found.part, [step.text for step in found.steps]) for found in lists]


def test_notes_stand_before_the_first_section_at_their_line() -> None:
    assert (body().notes, body().notes_line) == ("Notes with *stars*.\n\nMore notes.", 6)


def test_steps_are_list_items_and_paragraphs_under_their_parts() -> None:
    assert steps(body().prep) == [
        (None, ["Rinse it all first."]),
        ("Barley", ["Simmer, covered.", "A long step that goes on."]),
        ("Together", ["Fold together", "portion and cool", "A paragraph is a step too."]),
    ]
    assert steps(body().service) == [(None, ["Spoon over. See [the card](card.md)", "Serve. [ ]"])]


def test_other_sections_are_kept_as_they_stand() -> None:
    (section,) = body().other
    assert (section.title, section.line) == ("For next time", 29)
    assert section.text == "- Less salt. [2 min]\n```\n## no heading\n```\n### Nor this a part"


def test_steps_and_notes_know_their_places() -> None:
    lines = ["", "", "", "", *TEXT.split("\n")]
    barley = body().prep[1]
    assert lines[barley.span.line - 1] == "### Barley"
    simmer, long = barley.steps
    assert lines[simmer.span.line - 1][simmer.span.column - 1 : simmer.span.end - 1] == lines[13][3:]
    assert simmer.note is not None and long.note is not None
    assert (
        lines[simmer.note.span.line - 1][simmer.note.span.column - 1 : simmer.note.span.end - 1]
        == "unattended 35 min, burner"
    )
    assert (long.span.line, long.note.span.line, long.note.span.column) == (15, 16, 14)
    assert [step.note and step.note.minutes for found in body().prep for step in found.steps] == [5, 35, 8, 8, 4, None]


def test_a_problem_in_a_note_stands_at_its_part() -> None:
    _, (problem,) = read_body("## Prep day\n1. Simmer. [burner, 35 mn]\n", "r.md", 20)
    assert (problem.code, problem.span.line, problem.span.column, problem.span.end) == ("bad-amount", 21, 21, 26)


def test_a_note_over_two_lines_is_pointed_at_whole() -> None:
    _, (problem,) = read_body("## Prep day\n1. Simmer. [burner,\n   35 mn]\n", "r.md", 20)
    assert (problem.span.line, problem.span.column, problem.span.end) == (21, 13, 20)


def test_sections_of_the_same_name_are_taken_together() -> None:
    found = body("## Prep day\n- a\n## Wine\nred\n## Prep day\n- b\n")
    assert steps(found.prep) == [(None, ["a"]), (None, ["b"])]
    assert [section.title for section in found.other] == ["Wine"]


def test_a_part_without_steps_is_kept_for_who_checks() -> None:
    assert steps(body("## Prep day\n### Empty\n### Full\n- a\n").prep) == [("Empty", []), ("Full", ["a"])]


def test_nothing_is_an_empty_body() -> None:
    assert read_body("", "r.md", 3) == (Body("", 3), ())


def test_brackets_that_are_no_note_stay_in_the_text() -> None:
    texts = ["See [the card][card]", "Tick [x]", "A [note] inside", "array[10]", "x[unclosed 5 min"]
    found = body("## Prep day\n" + "".join(f"- {text}\n" for text in texts))
    assert [(step.text, step.note) for step in found.prep[0].steps] == [(text, None) for text in texts]


def test_an_open_bracket_is_read_as_meant_and_said() -> None:
    body, (problem,) = read_body("## Prep day\n1. Simmer. [unattended 35 min, burner\n2. Stir. [5 min]\n", "a.md", 1)
    first, second = body.prep[0].steps
    assert first.text == "Simmer." and first.note is not None and first.note.minutes == 35
    assert first.note.unattended and [use.words for use in first.note.uses] == ["burner"]
    assert second.note is not None and second.note.minutes == 5
    assert (problem.code, problem.span.line, problem.span.column, problem.span.end) == ("wrong-type", 2, 12, 38)


def test_a_bracket_that_nothing_opens_is_said() -> None:
    found, (problem,) = read_body("## Prep day\n1. Stir 5 min, burner].\n", "a.md", 1)
    assert found.prep[0].steps[0].text == "Stir 5 min, burner]." and found.prep[0].steps[0].note is None
    assert (problem.code, problem.span.column, problem.span.end) == ("wrong-type", 22, 23)


def test_links_and_whole_brackets_are_no_open_ones() -> None:
    text = "## Prep day\n1. See [the card](card.md) [5 min]\n2. Serve [ ]\n3. Cool [a little] first.\n4. Mix a[0.\n"
    assert read_body(text, "a.md", 1)[1] == ()
