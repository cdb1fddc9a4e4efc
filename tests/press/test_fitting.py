from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from binder.press.fitting import BOX_HIGH_PT, BOX_WIDE_PT, LEADING, SMALLEST_PT, Face, Fact, Fitted, face, fit
from tests.press import samples

SANS = face(samples.DEFAULT, "Counter Sans", 400)
WIDTH, HEIGHT = 180.0, 62.0


def facts(**texts: str) -> tuple[Fact, ...]:
    return (
        Fact("title", texts.get("title", "Braise"), SANS, lines=2, lead=True),
        Fact("date", texts.get("date", "Eat by Thu"), SANS, lines=2, whole=True, lead=True),
        Fact("contains", texts.get("contains", "Contains milk"), SANS, lines=9, whole=True, boxed=True),
        Fact("small", texts.get("small", "380 g"), SANS),
    )


def assert_fits(fitted: Fitted, width: float = WIDTH, height: float = HEIGHT) -> None:
    boxes = sum(BOX_HIGH_PT for fact, _ in fitted.facts if fact.boxed)
    assert sum(len(lines) * fitted.pt(fact) for fact, lines in fitted.facts) * LEADING + boxes <= height + 1e-6
    for fact, lines in fitted.facts:
        room = width - (BOX_WIDE_PT if fact.boxed else 0)
        assert all(fact.face.width(line, fitted.pt(fact)) <= room + 1e-6 for line in lines)


def test_few_words_are_set_at_the_largest_size() -> None:
    assert fit(facts(), WIDTH, HEIGHT).size_pt == 11


def test_dish_and_date_stand_out_while_there_is_room() -> None:
    roomy, full = fit(facts(), WIDTH, HEIGHT + 30), fit(facts(contains="Contains milk " * 60), WIDTH, HEIGHT)
    assert roomy.size_pt < roomy.lead_pt <= 1.5 * roomy.size_pt
    assert full.lead_pt == 0 and full.pt(full.facts[0][0]) == full.size_pt
    long = fit(facts(title="Braised fennel with beans and mustard greens"), WIDTH, 200)
    assert 0 < long.lead_pt < 1.5 * long.size_pt and long.shortened == ()
    assert_fits(roomy, height=HEIGHT + 30)
    assert_fits(long, height=200)


def test_more_words_are_set_smaller_before_any_is_lost() -> None:
    fitted = fit(facts(title="Braise of fennel, white beans and cider " * 2), WIDTH, HEIGHT)
    assert SMALLEST_PT <= fitted.size_pt < 11 and fitted.shortened == ()
    assert_fits(fitted)


def test_at_the_floor_the_title_ends_in_an_ellipsis_after_a_whole_word() -> None:
    title = "Braise of fennel, white beans, cider and mustard seeds " * 3
    fitted = fit(facts(title=title), WIDTH, HEIGHT)
    assert fitted.size_pt == SMALLEST_PT and "title" in fitted.shortened
    (line,) = fitted.facts[0][1]
    assert line.endswith(" …") and title.startswith(line.removesuffix(" …"))
    assert_fits(fitted)


def test_what_it_contains_is_kept_whole_while_anything_else_can_go() -> None:
    contains = "Contains milk, eggs, fish (trout), shellfish (prawns), tree nuts (almonds), wheat, soybeans, sesame"
    fitted = fit(facts(contains=contains, title="Fennel braise " * 20, small="x " * 200), WIDTH, 44)
    found = {fact.name: " ".join(lines) for fact, lines in fitted.facts}
    assert found["contains"] == contains and "small" not in found and "small" in fitted.shortened
    assert_fits(fitted, height=44)


def test_a_word_wider_than_the_label_is_cut() -> None:
    fitted = fit(facts(title="Braise" * 40), WIDTH, HEIGHT)
    assert fitted.facts[0][1][0].endswith("…") and "title" in fitted.shortened
    assert_fits(fitted)


def test_a_no_break_space_does_not_part_words() -> None:
    fitted = fit(facts(date="Eat by Thu 11\u00a0Jun " * 4), 90, HEIGHT)
    assert all(not line.startswith("Jun") for line in fitted.facts[1][1])


@given(st.text(max_size=120), st.text(max_size=300), st.floats(40, 300), st.floats(14, 200))
def test_nothing_ever_overflows(title: str, contains: str, width: float, height: float) -> None:
    assert_fits(fit(facts(title=title, contains=contains), width, height), width, height)


def test_widths_are_the_fonts_own_and_a_guess_without_a_font() -> None:
    """An en is half an em in figures of this family; 1.02 is the slack."""
    ten = SANS.width("0" * 10, 10)
    assert ten == SANS.width("1234567890", 10)
    assert 48 < ten < 56
    assert Face({}).width("a", 10) > SANS.width("a", 10)
