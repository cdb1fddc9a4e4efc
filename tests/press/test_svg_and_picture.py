from __future__ import annotations

import io

import pytest
from PIL import Image

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
