from __future__ import annotations

import io
import re

import pytest
from PIL import Image

from binder.pages.page import Page, Para, Photo, Prose, Run
from binder.press.share import MOST_BYTES, shared_html
from tests.press import samples


def noise(side: int) -> bytes:
    out = io.BytesIO()
    exif = Image.Exif()
    exif[0x010E] = "secret place"
    Image.effect_noise((side, side), 90).convert("RGB").save(out, "JPEG", quality=95, exif=exif)
    return out.getvalue()


@pytest.fixture(scope="module")
def shared() -> str:
    page = samples.site().pages[3]
    return shared_html(page, samples.DEFAULT, "en", {"braise.png": noise(2000)}).decode()


def test_one_file_of_less_than_400_kb_with_everything_inside(shared: str) -> None:
    assert len(shared.encode()) < MOST_BYTES
    assert "data:image/webp;base64," in shared and "data:font/woff2;base64," in shared
    for address in re.findall(r'(?:src|href|url)[=(]"([^"]*)"', shared):
        assert address.startswith(("data:", "#")), address[:80]
    assert "@import" not in shared


def test_nothing_of_the_household_is_named(shared: str) -> None:
    for word in ("Harbour", "recipes/", "weeks/", "photos/", "braise.png", "This week</a>", "secret"):
        assert word not in shared
    assert "rapeseed oil" in shared


def test_links_to_the_households_pages_become_words_and_outside_links_stay() -> None:
    page = Page("p", "P", "share", (
        Para((Run("the week", "", "weeks/2026-W24/index.html"), Run("source", "", "https://example.org/"))),
        Prose("[oil](recipes/oil/index.html) ![x](photos/other.png)"),
    ))  # fmt: skip
    made = shared_html(page, samples.DEFAULT, "en", {}).decode()
    assert "<p>the week<a" in made and "weeks/" not in made and "recipes/oil" not in made
    assert 'href="https://example.org/" rel="noopener noreferrer"' in made


def test_a_picture_that_finds_no_room_is_left_out() -> None:
    page = Page("p", "P", "share", (Photo("a.svg", "A"),))
    large = b"<svg xmlns='http://www.w3.org/2000/svg'>" + b"<text>plum</text>" * 30_000 + b"</svg>"
    made = shared_html(page, samples.DEFAULT, "en", {"a.svg": large})
    assert len(made) < MOST_BYTES and b"data:image" not in made
    small = shared_html(page, samples.DEFAULT, "en", {"a.svg": b"<svg xmlns='http://www.w3.org/2000/svg'/>"})
    assert b"data:image/svg+xml" in small


def test_the_same_bytes_each_time() -> None:
    page, photos = samples.site().pages[3], {"braise.png": noise(40)}
    assert shared_html(page, samples.DEFAULT, "en", photos) == shared_html(page, samples.DEFAULT, "en", photos)
