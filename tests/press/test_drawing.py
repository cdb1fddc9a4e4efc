from __future__ import annotations

import gc
from datetime import date

import pytest
from weasyprint.urls import FatalURLFetchingError

from binder.pages.page import Binder, Drawing, Page, Photo, Section
from binder.press.drawing import BASE, OnlyAssets, drawn
from binder.press.pdf import binder_pdf
from tests.press import samples

TODAY = date(2026, 6, 7)


@pytest.mark.parametrize(
    "url",
    ["file:///etc/passwd", "http://example.org/", "https://example.org/", "ftp://example.org/a", f"{BASE}unknown.png",
     "http://press.invalid.example.org/", "//example.org/", "local", "FILE:///etc/passwd", "gopher://x"],
)  # fmt: skip
def test_what_was_not_handed_over_is_not_fetched(url: str) -> None:
    with pytest.raises(FatalURLFetchingError):
        OnlyAssets({"a.png": b"1"}).fetch(url)


def test_an_asset_and_a_data_address_are_read() -> None:
    fetcher = OnlyAssets({"a.png": b"1"})
    assert fetcher.fetch(f"{BASE}a.png").read() == b"1"
    assert fetcher.fetch("data:text/plain,2").read() == b"2"


@pytest.mark.pdf
@pytest.mark.parametrize(
    "html",
    [
        '<img src="file:///etc/hostname" alt="x">', '<img src="http://example.org/x.png" alt="x">',
        '<link rel="stylesheet" href="https://example.org/x.css">', '<style>@import "http://example.org/x.css";</style>',
        "<style>@font-face{font-family:x;src:url(file:///etc/x.ttf)}</style><p style='font-family:x'>x</p>",
        '<link rel="attachment" href="file:///etc/hostname">', '<object data="file:///etc/hostname"></object>',
        "<p style=\"background:url('file:///etc/hostname')\">x</p>",
    ],
)  # fmt: skip
def test_a_document_that_asks_for_more_is_not_drawn(html: str) -> None:
    with pytest.raises(FatalURLFetchingError):
        drawn(f'<html lang="en"><title>x</title>{html}', {})


@pytest.mark.pdf
def test_the_collector_is_as_it_was_before() -> None:
    assert gc.isenabled()
    drawn('<html lang="en"><title>x</title><p>x', {})
    assert gc.isenabled()
    gc.disable()
    try:
        drawn('<html lang="en"><title>x</title><p>x', {})
        assert not gc.isenabled()
    finally:
        gc.enable()


@pytest.mark.pdf
def test_a_drawing_that_names_other_places_does_not_stop_the_binder() -> None:
    outside = "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 9 9'><image href='file:///etc/hostname'/></svg>"
    page = Page("a", "A", "recipe", (Photo("a.svg", "A"), Drawing(samples.SVG, "busy")))
    binder = Binder("W", "K", "en", "letter", (Section(1, "a", "A", "A", (page,)),), "In it", "run")
    assert binder_pdf(binder, samples.DEFAULT, TODAY, {"a.svg": outside.encode()}).startswith(b"%PDF")
