"""A secret in every field of every file, looked for in every byte of every shared output."""

from __future__ import annotations

import io
from base64 import b64encode
from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from PIL import Image, ImageCms

from binder import disk
from binder.build import outputs
from binder.check.declare import Field, Fields, Kind, Record
from binder.check.reference import FILES, field_reference
from binder.examine import Asked, Examined, examine
from binder.memory import Memory
from binder.pages import share, share_family
from binder.shared import one_files, one_page, share_files
from tests.sharing import planting
from tests.sharing.planting import (
    AGREED,
    CLOSED_WEEK,
    CONTAINER,
    EATERS,
    FOOD,
    KEYS,
    OLD_WORD,
    PHOTO,
    TITLES,
    WEEK,
    WORD,
    Planted,
    household,
)
from tests.sharing.reading import opened

# What the plan may be wrong in; what is wrong in reading would keep a secret from being planted.
OF_THE_PLAN = {"kept-too-long", "cannot-reheat", "cannot-finish", "no-prep-before", "stock-short"}
FOLDER = "quorvfolder"
# The written list: which secrets may stand in which file. Everything else may stand in none.
OF_A_RECIPE = ("title", "ingredients", "beside[]", "at service[]", "body part", "body step")
OF_THE_FEED = (*TITLES, "household:site address")


def photo(planted: Planted) -> bytes:
    """A photo with a secret wherever a camera and a program for pictures write something."""
    out, exif = io.BytesIO(), Image.Exif()
    for tag in (0x010E, 0x010F, 0x013B, 0x8298):  # Exif 2.32: ImageDescription, Make, Artist, Copyright
        exif[tag] = planted.word("photo:exif")
    exif.get_ifd(0x8769)[0x927C] = planted.word("photo:maker note").encode()
    gps = exif.get_ifd(0x8825)
    gps[1], gps[2], gps[0x1B] = "N", (47.0, 12.0, 7897.0), planted.word("photo:gps").encode()
    xmp = f"<x:xmpmeta xmlns:x='adobe:ns:meta/'>{planted.word('photo:xmp')}</x:xmpmeta>".encode()
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    name = "sRGB built-in"
    secret = planted.named("quorvixsprofi", "photo:icc")
    assert len(secret) == len(name) and name.encode("utf-16-be") in profile
    profile = profile.replace(name.encode("utf-16-be"), secret.encode("utf-16-be"))
    picture = Image.effect_noise((320, 240), 60).convert("RGB")
    comment = planted.word("photo:comment").encode()
    picture.save(out, "JPEG", quality=90, exif=exif, xmp=xmp, icc_profile=profile, comment=comment)
    return out.getvalue()


@pytest.fixture(scope="module")
def planted() -> Planted:
    made = household()
    made.named(FOLDER, "the folder")
    made.named(PHOTO.partition(".")[0], "the photo's name")
    return made


@pytest.fixture(scope="module")
def content(planted: Planted, tmp_path_factory: pytest.TempPathFactory) -> disk.Content:
    folder = tmp_path_factory.mktemp("home") / FOLDER
    files = {name: text.encode() for name, text in planted.files.items()}
    for name, raw in {**files, f"photos/{PHOTO}": photo(planted)}.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(raw)
    return disk.read_content(folder)


@pytest.fixture(scope="module")
def examined(content: disk.Content) -> Examined:
    return examine(content, Asked(date(2026, 6, 7), draft=True), Memory(None))


@pytest.fixture(scope="module")
def closed(content: disk.Content) -> Examined:
    """The same with the closed week in use."""
    return examine(content, Asked(date(2026, 6, 7), CLOSED_WEEK, draft=True), Memory(None))


def shared(examined: Examined, closed: Examined, content: disk.Content) -> dict[str, bytes]:
    """All that leaves the house: the folder of a build, and what the command writes of each recipe and week."""
    theme = disk.read_theme("default")
    made = share_files(examined, content, theme, Memory(None))
    asked = [*((key, None) for key in KEYS), (WEEK, None), (WEEK, EATERS), (CLOSED_WEEK, None), (CLOSED_WEEK, EATERS)]
    for what, whom in asked:
        of = closed if what == CLOSED_WEEK else examined
        page = one_page(of, what, whom)
        assert page is not None, what
        made |= one_files(page, of, content, theme)
    return made


@pytest.fixture(scope="module")
def files(examined: Examined, closed: Examined, content: disk.Content) -> dict[str, bytes]:
    return shared(examined, closed, content)


def let_through(name: str, planted: Planted) -> set[str]:
    stem = Path(name).stem
    if stem in KEYS:
        of = tuple(f"recipe {stem}:{field}" for field in OF_A_RECIPE)
        return {FOOD} | {secret for secret, path in planted.secrets.items() if path.startswith(of)}
    if name.endswith("feed.xml"):
        return {s for s, path in planted.secrets.items() if s in OF_THE_FEED or path in OF_THE_FEED}
    return {*TITLES, EATERS[AGREED], CONTAINER} if stem.endswith("-family") else set(TITLES)


def leaks(files: Mapping[str, bytes], planted: Planted) -> list[tuple[str, str, str]]:
    """File, secret and field of each secret that stands where it may not."""
    found = []
    for name, raw in files.items():
        file, lets = opened(name, raw), let_through(name, planted)
        found += [(name, s, path) for s, path in planted.secrets.items() if s not in lets and file.has(s)]
    return found


def test_the_household_holds_together(examined: Examined) -> None:
    """Were a file not read as it is meant, its secrets would not be there to leak."""
    assert {p.code for p in examined.problems if p.severity == "error"} <= OF_THE_PLAN
    assert {p.code for p in examined.problems} & {"unknown-food", "stock-unclear", "unknown-key"} == set()
    assert examined.library is not None
    assert len(examined.library.recipes) == 2 and len(examined.weeks) == 2 and examined.current == WEEK
    assert {s.eater for s in examined.weeks[WEEK].servings} == set(EATERS)


def test_the_closed_week_is_made_of_the_files_it_kept(closed: Examined) -> None:
    assert closed.library is not None and closed.current == CLOSED_WEEK
    then, now = closed.library_of(CLOSED_WEEK).household, closed.library.household
    assert then.name.startswith(OLD_WORD) and now.name.startswith(WORD)


def test_every_declared_field_is_planted(planted: Planted) -> None:
    for kind, folder in (("household", "household.yaml"), ("foods", "foods.yaml"), ("recipe", ""), ("week", "")):
        of = [folder] if folder else [name for name in planted.files if name.startswith(f"{kind}s/")]
        written = "\n".join(planted.files[name] for name in of)
        for row in field_reference(kind):  # type: ignore[arg-type]
            key = row.path.rpartition(".")[2].removesuffix("[]")
            assert key == "NAME" or f"{key}:" in written or f"'{key}':" in written, row.path
    assert len(planted.secrets) > 180


def test_no_secret_leaves_the_house(files: dict[str, bytes], planted: Planted) -> None:
    assert len(files) == 2 * 2 + 2 * (2 + 2) + 1
    assert leaks(files, planted) == []


def test_what_is_let_through_is_there_and_so_would_be_found(files: dict[str, bytes], planted: Planted) -> None:
    """The eyes of the test before: what may stand in a file is read out of each of them, PDF and HTML."""
    for name, raw in files.items():
        file, wanted = opened(name, raw), let_through(name, planted)
        if Path(name).stem in KEYS:
            wanted = {s for s in wanted if not s[0].isdigit()}
        if name.endswith("-family.html") or name.endswith("-family.pdf"):
            wanted -= {TITLES[1], CONTAINER}  # Only the other eats that dish; its box may be another.
        assert [secret for secret in wanted if not file.has(secret)] == [], name


def test_what_a_photo_says_besides_its_pixels_would_be_seen(content: disk.Content, planted: Planted) -> None:
    """The eyes for photos: its secrets are read out of it when it is packed as it is."""
    page = f'<img src="data:image/jpeg;base64,{b64encode(content.photos[PHOTO]).decode()}">'.encode()
    found = {path for _, _, path in leaks({"share/x.html": page}, planted)}
    assert {"photo:exif", "photo:maker note", "photo:gps", "photo:xmp", "photo:icc", "photo:comment"} <= found


@pytest.mark.parametrize("field", ["private", "notes", "gives"])
def test_one_field_more_would_be_seen(
    field: str, examined: Examined, content: disk.Content, planted: Planted, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Were the copy to carry a field more and the page to print it, the secret would be found in both files."""
    page = share._recipe_page

    def telling(facts, edition):
        recipe = examined.recipes[facts.key].recipe
        return replace(page(facts, edition), subtitle=repr(getattr(recipe, field)))

    monkeypatch.setattr(share, "_recipe_page", telling)
    made = one_page(examined, KEYS[0])
    assert made is not None
    found = leaks(one_files(made, examined, content, disk.read_theme("default")), planted)
    assert {Path(name).suffix for name, _, _ in found} == {".html", ".pdf"}


def test_who_did_not_agree_is_seen_where_agreement_is_not_asked(
    examined: Examined, content: disk.Content, planted: Planted, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(share_family, "agreed", lambda library: EATERS)
    made = one_page(examined, WEEK, EATERS)
    assert made is not None
    found = leaks(one_files(made, examined, content, disk.read_theme("default")), planted)
    assert {secret for _, secret, _ in found} == {EATERS[1]}


def test_a_field_declared_tomorrow_is_planted_by_itself() -> None:
    class More(Fields):
        what = "more"
        words = Field("words", planting.Text(), "Words.")

    made = Planted()
    assert planting.sample(Record(More), made, "more:") == {"words": "quorvixaaa"}
    assert made.secrets == {"quorvixaaa": "more:words"}


def test_a_kind_of_value_that_nothing_is_known_of_is_an_error() -> None:
    class Strange(Kind[str]):
        pass

    Strange.__abstractmethods__ = frozenset()
    with pytest.raises(AssertionError, match="say in SAMPLES how"):
        planting.sample(Strange(), Planted(), "x:")


def test_the_households_own_site_has_what_is_kept_back(
    examined: Examined, content: disk.Content, planted: Planted
) -> None:
    """So that a secret which no page could ever print is not counted as kept."""
    private = replace(examined, asked=replace(examined.asked, private=True))
    made = outputs(private, content, disk.read_theme("default"), frozenset({"site"}), Memory(None))
    said = " ".join(raw.decode().casefold() for name, raw in made.items() if name.endswith(".html"))
    paths = {path for secret, path in planted.secrets.items() if not secret[0].isdigit() and secret in said}
    for kept in ("eaters[].name", "places[].name", "containers[].name"):
        assert any(path.endswith(kept) for path in paths), kept
    for kept in (*FILES, "photo"):
        assert kept in ("photo", "stock") or any(path.startswith(kept) for path in paths), kept
    assert len(paths) > 30
