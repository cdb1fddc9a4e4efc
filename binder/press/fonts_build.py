"""Writes the typefaces of the binder: subsets of two open families, under names of our own.

    python -m binder.press.fonts_build SANS_FOLDER SERIF_FOLDER OUT

SANS_FOLDER holds Source Sans 3 (SourceSans3[wght].ttf and its italic), SERIF_FOLDER Source Serif 4
(SourceSerif4[opsz,wght].ttf and its italic), each with its LICENSE in the folder or above it. Both are under the
SIL Open Font License 1.1, whose reserved name asks for a new one on a changed font: what comes out is called
Counter Sans and Counter Serif, and the licence goes along. The same sources give the same bytes.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path

from fontTools.otlLib.builder import buildLookup, buildSingleSubstSubtable
from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont
from fontTools.ttLib.tables import otTables
from fontTools.ttLib.woff2 import WOFF2FlavorData
from fontTools.varLib.instancer import OverlapMode, instantiateVariableFont

VERSION = "Version 1.000"


@dataclass(frozen=True, slots=True)
class Face:
    """One font to write: its file, family, weight and slope, and where on the source's axes it lies."""

    family: str
    weight: int
    italic: bool
    source: str
    axes: tuple[tuple[str, float], ...]

    @property
    def style(self) -> str:
        """`Regular`, `SemiBold`, `Italic`, as the name table has it."""
        name = {400: "", 600: "SemiBold", 700: "Bold"}[self.weight]
        return f"{name} {'Italic' if self.italic else ''}".strip() or "Regular"

    @property
    def file(self) -> str:
        """`counter-sans-600.woff2`."""
        slope = "-italic" if self.italic else ""
        return f"{self.family.lower().replace(' ', '-')}-{self.weight}{slope}.woff2"


SANS = "Counter Sans"
SERIF = "Counter Serif"

# Titles stand between 14 and 30 pt: the serif is drawn for 20.
FACES: tuple[Face, ...] = (
    Face(SANS, 400, False, "SourceSans3[wght].ttf", (("wght", 400),)),
    Face(SANS, 600, False, "SourceSans3[wght].ttf", (("wght", 600),)),
    Face(SANS, 400, True, "SourceSans3-Italic[wght].ttf", (("wght", 400),)),
    Face(SERIF, 400, False, "SourceSerif4[opsz,wght].ttf", (("wght", 400), ("opsz", 20))),
    Face(SERIF, 600, False, "SourceSerif4[opsz,wght].ttf", (("wght", 600), ("opsz", 20))),
    Face(SERIF, 400, True, "SourceSerif4-Italic[opsz,wght].ttf", (("wght", 400), ("opsz", 20))),
)

LICENSES = ((SANS, "LICENSE-counter-sans.txt"), (SERIF, "LICENSE-counter-serif.txt"))

# Latin of western, central and northern Europe, what prints between words, fractions, arrows, boxes to tick.
_RANGES = ((0x20, 0x7E), (0xA0, 0x17F), (0x218, 0x21B), (0x2010, 0x2015), (0x2018, 0x201E), (0x2190, 0x2193))
_SINGLE = "\u02bc\u02c6\u02dc\u2002\u2003\u2009\u202f†‡•…‰′″‹›⁄€™−≈≠≤≥⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞■□▪▶●○☐☑✓ℓ"
CODE_POINTS: frozenset[int] = frozenset(
    (*(point for first, last in _RANGES for point in range(first, last + 1)), *map(ord, _SINGLE))
)
FEATURES = (
    "kern", "mark", "mkmk", "ccmp", "locl", "liga", "case",
    "frac", "numr", "dnom", "tnum", "pnum", "lnum", "onum", "smcp", "c2sc",
)  # fmt: skip


def _substitutions(font: TTFont, feature: str) -> dict[str, str]:
    """Glyph to glyph, from the single substitutions of a feature."""
    gsub = font["GSUB"].table
    found: dict[str, str] = {}
    for record in gsub.FeatureList.FeatureRecord:
        if record.FeatureTag == feature:
            for index in record.Feature.LookupListIndex:
                for subtable in gsub.LookupList.Lookup[index].SubTable:
                    found |= getattr(subtable, "ExtSubTable", subtable).mapping
    return found


def _language_systems(font: TTFont) -> Iterator[otTables.LangSys]:
    for script in font["GSUB"].table.ScriptList.ScriptRecord:
        if script.Script.DefaultLangSys:
            yield script.Script.DefaultLangSys
        yield from (record.LangSys for record in script.Script.LangSysRecord)


def add_inverse(font: TTFont, feature: str, inverse_of: str) -> None:
    """Name the way back from `inverse_of` as a feature of its own, where the family has its figures so by default.

    Source Sans is tabular and lining as it stands and only names the ways to proportional and old-style figures;
    a style sheet that asks for tabular figures should find them by name whatever stands around them.
    """
    gsub = font["GSUB"].table
    if any(record.FeatureTag == feature for record in gsub.FeatureList.FeatureRecord):
        return
    mapping = {after: before for before, after in _substitutions(font, inverse_of).items()}
    gsub.LookupList.Lookup.append(buildLookup([buildSingleSubstSubtable(mapping)]))
    gsub.LookupList.LookupCount = len(gsub.LookupList.Lookup)
    record = otTables.FeatureRecord()
    record.FeatureTag = feature
    record.Feature = otTables.Feature()
    record.Feature.FeatureParams = None
    record.Feature.LookupListIndex = [gsub.LookupList.LookupCount - 1]
    record.Feature.LookupCount = 1
    gsub.FeatureList.FeatureRecord.append(record)
    gsub.FeatureList.FeatureCount = len(gsub.FeatureList.FeatureRecord)
    for system in _language_systems(font):
        system.FeatureIndex.append(gsub.FeatureList.FeatureCount - 1)
        system.FeatureCount = len(system.FeatureIndex)


def even_figures(font: TTFont) -> None:
    """One advance for all ten figures: between two masters, rounding leaves some a thousandth of an em apart."""
    figures = [font.getBestCmap()[point] for point in range(ord("0"), ord("9") + 1)]
    widest = max(font["hmtx"][glyph][0] for glyph in figures)
    for glyph in figures:
        font["hmtx"][glyph] = (widest, font["hmtx"][glyph][1])


def rename(font: TTFont, face: Face) -> None:
    """Our names in place of the family's; copyright and licence stay, the trademark is not ours to carry."""
    table = font["name"]
    kept = {number: table.getDebugName(number) for number in (0, 13, 14)}
    table.names = []
    plain = face.weight == 400
    post_script = f"{face.family.replace(' ', '')}-{face.style.replace(' ', '')}"
    names = {
        **kept,
        1: face.family if plain else f"{face.family} {face.style.replace(' Italic', '')}",
        2: "Italic" if face.italic else "Regular",
        3: f"{VERSION}; {post_script}",
        4: f"{face.family} {face.style}",
        5: VERSION,
        6: post_script,
    }
    if not plain:
        names |= {16: face.family, 17: face.style}
    for number, text in sorted(names.items()):
        if text:
            table.setName(text, number, 3, 1, 0x409)


def _subset(font: TTFont) -> None:
    options = Options()
    options.layout_features = list(FEATURES)
    options.hinting = False
    options.name_IDs = ["*"]
    options.drop_tables += ["STAT", "DSIG", "BASE", "gasp"]
    options.notdef_outline = True
    options.glyph_names = False
    options.recalc_timestamp = False
    subsetter = Subsetter(options)
    subsetter.populate(unicodes=CODE_POINTS)
    subsetter.subset(font)


def woff2(source: Path, face: Face) -> bytes:
    """The face as WOFF2, cut from the variable font at `source`."""
    font = TTFont(source, recalcTimestamp=False)
    instantiateVariableFont(font, dict(face.axes), inplace=True, overlap=OverlapMode.KEEP_AND_SET_FLAGS)
    even_figures(font)
    add_inverse(font, "tnum", "pnum")
    add_inverse(font, "lnum", "onum")
    rename(font, face)
    _subset(font)
    font["OS/2"].usWeightClass = face.weight
    font["OS/2"].achVendID = "NONE"
    font["head"].macStyle = 2 if face.italic else 0
    # A fixed date: the font's own, not that of this run.
    font["head"].modified = font["head"].created
    font.flavor = "woff2"
    # Untransformed tables take a few kilobytes more and are read twenty times as fast wherever a PDF is drawn.
    font.flavorData = WOFF2FlavorData(transformedTables=set())
    packed = BytesIO()
    font.save(packed)
    return packed.getvalue()


def license_of(folder: Path) -> bytes:
    """The licence that lies in the folder of the fonts or the one above."""
    for candidate in (folder / "LICENSE", folder / "LICENSE.txt", folder.parent / "LICENSE"):
        if candidate.is_file():
            return candidate.read_bytes()
    raise FileNotFoundError(f"no LICENSE in or above {folder}")


def main() -> None:
    """Writes the fonts and their licences, and says how large each is."""
    if len(sys.argv) != 4:
        sys.exit("usage: python -m binder.press.fonts_build SANS_FOLDER SERIF_FOLDER OUT")
    folders = {SANS: Path(sys.argv[1]), SERIF: Path(sys.argv[2])}
    out = Path(sys.argv[3])
    out.mkdir(parents=True, exist_ok=True)
    for face in FACES:
        packed = woff2(folders[face.family] / face.source, face)
        (out / face.file).write_bytes(packed)
        print(f"{face.file}: {len(packed)} bytes")
    for family, name in LICENSES:
        (out / name).write_bytes(license_of(folders[family]))


if __name__ == "__main__":
    main()
