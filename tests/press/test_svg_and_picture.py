from __future__ import annotations

import io

import pytest
from PIL import Image, ImageCms

from binder.press import picture, svg
from tests.press import samples


@pytest.mark.parametrize(
    "inside",
    [
        "<script>x</script>", "<foreignObject><p xmlns='http://www.w3.org/1999/xhtml'>x</p></foreignObject>",
        "<metadata>x</metadata>", "<!-- x -->", "<image href='https://example.org/x.png'/>",
        "<use xmlns:xlink='http://www.w3.org/1999/xlink' xlink:href='https://example.org/#x'/>",
        "<rect onload='x()'/>", "<rect style='fill:url(https://example.org/x)'/>", "<style>@import 'x.css';</style>",
        "<style>rect{fill:url( //example.org/x)}</style>", "<image href='data:image/svg+xml;base64,xxxx'/>",
    ],
)  # fmt: skip
def test_what_runs_or_fetches_or_was_left_in_is_taken_out(inside: str) -> None:
    made = svg.harmless(f"<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 4 3'>{inside}</svg>".encode())
    assert made is not None
    for word in (b"x()", b"example.org", b">x<", b"-- x", b"import", b"xxxx"):
        assert word not in made


def test_shapes_words_and_own_references_stay() -> None:
    source = (
        b"<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 4 3'><defs><path id='a' d='M0 0'/></defs>"
        b"<use href='#a' style='fill:url(#g)'/><text>plums</text></svg>"
    )
    made = svg.harmless(source)
    assert made is not None
    assert b'href="#a"' in made and b"url(#g)" in made and b"plums" in made and picture.size(made) == (4, 3)


@pytest.mark.parametrize(
    "content", [b"<!DOCTYPE svg [<!ENTITY a 'aa'>]><svg xmlns='http://www.w3.org/2000/svg'/>", b"<svg", b"<html/>", b""]
)
def test_what_is_no_plain_svg_is_refused(content: bytes) -> None:
    assert svg.harmless(content) is None


def test_a_turned_photo_is_measured_and_set_upright_without_its_metadata() -> None:
    out = io.BytesIO()
    exif = Image.Exif()
    exif[0x0112], exif[0x010E] = 6, "secret place"
    Image.new("RGB", (60, 40), "white").save(out, "JPEG", exif=exif, comment=b"secret comment")
    assert b"secret place" in out.getvalue() and b"secret comment" in out.getvalue()
    assert picture.size(out.getvalue()) == (40, 60)
    light = picture.lighter(out.getvalue(), 1000, 50_000)
    assert light is not None and b"secret" not in light and picture.size(light) == (40, 60)


@pytest.mark.parametrize("name", ["a.jpg", "a.jpeg", "a.png", "a.webp", "a.avif"])
def test_a_bare_picture_is_its_pixels_alone_and_the_same_each_time(name: str) -> None:
    out = io.BytesIO()
    exif = Image.Exif()
    exif[0x010E] = "secret place"
    Image.new("RGB", (60, 40), "white").save(out, picture._FORMATS[name[2:]], exif=exif)
    assert b"secret place" in out.getvalue()
    made = picture.bare(name, out.getvalue())
    assert b"secret" not in made and picture.size(made) == (60, 40)
    assert made == picture.bare(name, out.getvalue())


def test_a_bare_picture_of_what_is_none_is_nothing() -> None:
    assert picture.bare("a.jpg", b"not a picture") == b"" and picture.bare("a.svg", b"<svg") == b""
    assert picture.bare("a.txt", samples.photo()) == b""


@pytest.mark.parametrize("name", ["a.jpg", "a.png", "a.webp", "a.avif"])
def test_the_copies_for_the_screen_are_upright_pixels_alone(name: str) -> None:
    out = io.BytesIO()
    exif = Image.Exif()
    exif[0x0112], exif[0x010E] = 6, "secret place"
    Image.new("RGB", (1500, 1200), "white").save(out, picture._FORMATS[name[2:]], exif=exif)
    assert b"secret place" in out.getvalue()
    narrow, wide = picture.screen_copies(name, out.getvalue())
    # Only WebP's own chunk of pixels: no EXIF, no XMP, no profile.
    assert all(
        copy.content[8:16] in (b"WEBPVP8 ", b"WEBPVP8L") and b"secret" not in copy.content for copy in (narrow, wide)
    )
    upright = (480, 600) if name != "a.avif" else picture.size(narrow.content)
    assert picture.size(narrow.content) == (narrow.width, narrow.height) == upright
    assert wide.width == 960 and wide.file == f"{name.replace('.', '-')}-960.webp"


def test_nothing_is_made_larger_and_what_is_see_through_stays_so() -> None:
    out = io.BytesIO()
    Image.new("RGBA", (300, 100), (255, 0, 0, 0)).save(out, "PNG")
    (only,) = picture.screen_copies("a.png", out.getvalue())
    assert (only.width, only.height, only.file) == (300, 100, "a-png-300.webp")
    with Image.open(io.BytesIO(only.content)) as made:
        assert made.convert("RGBA").getpixel((5, 5))[3] == 0  # type: ignore[index]


def test_colours_of_another_profile_are_brought_to_srgb() -> None:
    """A profile that exchanges nothing leaves the pixels; a broken one is no profile."""
    for profile in (ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes(), b"broken"):
        out = io.BytesIO()
        Image.new("RGB", (500, 50), (200, 30, 60)).save(out, "PNG", icc_profile=profile)
        narrow, _ = picture.screen_copies("a.png", out.getvalue())
        with Image.open(io.BytesIO(narrow.content)) as made:
            assert all(abs(a - b) < 6 for a, b in zip(made.convert("RGB").getpixel((9, 9)), (200, 30, 60), strict=True))


def test_a_drawing_stays_a_drawing_and_what_is_no_picture_has_no_copy() -> None:
    drawing = b"<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 4 3'><script>x</script><text>plums</text></svg>"
    (only,) = picture.screen_copies("a.svg", drawing)
    assert (only.file, only.width, only.height) == ("a.svg", 4, 3)
    assert b"script" not in only.content and b"plums" in only.content
    assert picture.screen_copies("a.svg", b"<svg") == picture.screen_copies("a.jpg", b"no picture") == ()


def test_a_picture_is_made_as_small_as_asked_or_not_at_all() -> None:
    noise = Image.effect_noise((900, 900), 90).convert("RGB")
    out = io.BytesIO()
    noise.save(out, "PNG")
    light = picture.lighter(out.getvalue(), 900, 60_000)
    assert light is not None and len(light) <= 60_000
    assert picture.lighter(out.getvalue(), 900, 500) is None


def test_what_is_no_picture_has_no_size() -> None:
    for content in (b"", b"not a picture", samples.photo()[:30], b"\x89PNG\r\n\x1a\n" + b"\0" * 40):
        assert picture.size(content) is None and picture.lighter(content, 100, 1000) is None


def test_a_picture_that_unpacks_to_too_many_pixels_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(picture, "_MOST_PIXELS", 80 * 60 - 1)
    assert picture.size(samples.photo()) is None and picture.lighter(samples.photo(), 100, 10_000) is None
