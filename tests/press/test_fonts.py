from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

from binder.press import fonts_build

FOLDER = Path(__file__).parents[2] / "themes" / "default" / "fonts"
FACES = pytest.mark.parametrize("face", fonts_build.FACES, ids=lambda face: face.file)


@cache
def shipped(file: str) -> TTFont:
    return TTFont(FOLDER / file)


def features(font: TTFont, table: str = "GSUB") -> set[str]:
    return {record.FeatureTag for record in font[table].table.FeatureList.FeatureRecord}


def replaced(font: TTFont, feature: str) -> dict[str, str]:
    return fonts_build._substitutions(font, feature)


@FACES
def test_fonts_carry_our_names_only(face):
    font = shipped(face.file)
    names = {n.nameID: str(n) for n in font["name"].names}
    assert names.get(16, names[1]) == face.family
    assert all("Source" not in names[n] for n in (1, 2, 3, 4, 6, 16, 17) if n in names)
    assert 7 not in names
    assert {face.family for face in fonts_build.FACES} == {"Counter Sans", "Counter Serif"}


@FACES
def test_copyright_and_licence_stay_with_the_font(face):
    names = {n.nameID: str(n) for n in shipped(face.file)["name"].names}
    assert "Adobe" in names[0] and "Open Font License" in names[13]


@pytest.mark.parametrize(("family", "name"), fonts_build.LICENSES)
def test_each_family_has_its_licence_beside_it(family, name):
    text = (FOLDER / name).read_text(encoding="utf-8")
    assert "SIL OPEN FONT LICENSE Version 1.1" in text


@FACES
def test_figures_and_fractions_can_be_asked_for(face):
    font = shipped(face.file)
    assert features(font) >= {"frac", "numr", "dnom", "tnum", "lnum", "pnum", "onum", "liga"}
    assert "kern" in features(font, "GPOS")


@FACES
def test_figures_are_tabular_and_lining_as_they_stand(face):
    font = shipped(face.file)
    glyphs = [font.getBestCmap()[ord(digit)] for digit in "0123456789"]
    assert len({font["hmtx"][glyph][0] for glyph in glyphs}) == 1
    assert set(glyphs) <= set(replaced(font, "tnum").values())
    assert set(glyphs) <= set(replaced(font, "lnum").values())


@FACES
def test_tabular_figures_lead_back_from_proportional_ones(face):
    font = shipped(face.file)
    back = replaced(font, "tnum")
    digits = {font.getBestCmap()[ord(digit)] for digit in "0123456789"}
    proportional = replaced(font, "pnum")
    assert all(back[proportional[digit]] == digit for digit in digits)


@FACES
def test_every_digit_can_stand_in_a_fraction(face):
    # Thirds and eighths come from the digits above and below the stroke, sixteenths too.
    font = shipped(face.file)
    digits = {font.getBestCmap()[ord(digit)] for digit in "0123456789"}
    assert digits <= set(replaced(font, "numr")) and digits <= set(replaced(font, "dnom"))


@FACES
def test_what_the_binder_prints_has_glyphs(face):
    text = "½⅓⅔¼¾⅛⅜⅝⅞⁄→←↑↓×°–—‘’“”•☐☑✓≥≤≈−…€£µ" + "äöüßéèêñçøåæœłžčšğ" + "ABCxyz0123456789"
    covered = shipped(face.file).getBestCmap()
    assert [c for c in text if ord(c) not in covered] == []


@FACES
def test_weight_and_slope_are_those_of_the_file(face):
    font = shipped(face.file)
    assert font["OS/2"].usWeightClass == face.weight
    assert bool(font["OS/2"].fsSelection & 1) == face.italic == (font["post"].italicAngle != 0)
    assert "fvar" not in font


@FACES
def test_fonts_may_be_embedded_and_are_small(face):
    assert shipped(face.file)["OS/2"].fsType == 0
    assert (FOLDER / face.file).stat().st_size < 60_000


def test_nothing_else_lies_in_the_folder():
    expected = {face.file for face in fonts_build.FACES} | {name for _, name in fonts_build.LICENSES}
    assert {path.name for path in FOLDER.iterdir()} == expected


@FACES
def test_dates_are_not_of_the_day_it_was_built(face):
    head = shipped(face.file)["head"]
    assert head.modified == head.created
