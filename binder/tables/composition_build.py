"""Writes the composition file from the ASCII release of SR28.

    python -m binder.tables.composition_build PATH_TO_SR28_FOLDER

The folder holds FOOD_DES.txt, NUT_DATA.txt, WEIGHT.txt and FD_GROUP.txt (`^` between fields, `~` around text,
Windows-1252, CRLF). The same release gives the same bytes: no time stamp, foods by number, weights as listed.
"""

from __future__ import annotations

import gzip
import sys
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path

from binder.tables.composition import EDITION, NUTRIENTS

# NUTR_DEF numbers in the order of NUTRIENTS, then water.
NUMBERS = ("208", "203", "204", "606", "205", "291", "269", "307", "306", "301", "303", "255")
TARGET = Path(__file__).parent / "data" / "sr28.tsv.gz"


def read(folder: Path, name: str) -> Iterator[list[str]]:
    """The records of one file of the release."""
    for line in (folder / name).read_text(encoding="cp1252").splitlines():
        yield [field.removeprefix("~").removesuffix("~") for field in line.split("^")]


def short(number: str) -> str:
    """A number without zeros that say nothing: `.50` is `0.5`, and what is blank stays blank."""
    return repr(float(number)).removesuffix(".0") if number else ""


def nutrients(folder: Path) -> dict[str, dict[str, str]]:
    """NDB number to nutrient number to amount per 100 g."""
    found: dict[str, dict[str, str]] = defaultdict(dict)
    wanted = frozenset(NUMBERS)
    for record in read(folder, "NUT_DATA.txt"):
        if record[1] in wanted:
            found[record[0]][record[1]] = short(record[2])
    return found


def weights(folder: Path) -> dict[str, list[str]]:
    """NDB number to its weights, in the order of the release."""
    found: dict[str, list[tuple[int, str]]] = defaultdict(list)
    for ndb, sequence, amount, measure, grams, *_ in read(folder, "WEIGHT.txt"):
        found[ndb].append((int(sequence), f"{short(amount)}^{measure}^{short(grams)}"))
    return {ndb: [text for _, text in sorted(entries)] for ndb, entries in found.items()}


def compact(folder: Path) -> bytes:
    """The whole table as gzip'd tab-separated UTF-8."""
    groups = {code: name for code, name, *_ in read(folder, "FD_GROUP.txt")}
    values, measures = nutrients(folder), weights(folder)
    head = ("ndb", "name", "group", "refuse_percent", "refuse_of", *NUTRIENTS, "water_g", "weights")
    lines = [f"# {EDITION}; public domain; per 100 g edible part", "# " + "\t".join(head)]
    for record in sorted(read(folder, "FOOD_DES.txt")):
        ndb, group, name, refuse_of, refuse = record[0], record[1], record[2], record[7], record[8]
        published = [values[ndb].get(number, "") for number in NUMBERS]
        fields = [ndb, " ".join(name.split()), groups[group], short(refuse), refuse_of, *published]
        lines.append("\t".join([*fields, "|".join(measures.get(ndb, []))]))
    return gzip.compress(("\n".join(lines) + "\n").encode("utf-8"), compresslevel=9, mtime=0)


def main() -> None:
    """Writes the file beside this module and says how large it is."""
    if len(sys.argv) != 2:
        sys.exit("usage: python -m binder.tables.composition_build PATH_TO_SR28_FOLDER")
    packed = compact(Path(sys.argv[1]))
    TARGET.parent.mkdir(exist_ok=True)
    TARGET.write_bytes(packed)
    print(f"{TARGET.name}: {len(packed)} bytes")


if __name__ == "__main__":
    main()
