from __future__ import annotations

import pytest

from binder.press import links


@pytest.mark.parametrize(
    "href",
    [
        "https://example.org/a?b=c#d", "http://example.org", "HTTPS://example.org:8080/", "mailto:kitchen@example.org",
        "recipes/braise/index.html", "#steps", "weeks/2026-W24/index.html#run", "a/../b.html",
    ],
)  # fmt: skip
def test_outside_and_relative_addresses_are_allowed(href: str) -> None:
    assert links.allowed(href)


@pytest.mark.parametrize(
    "href",
    [
        "javascript:alert(1)", "JaVaScRiPt:alert(1)", " javascript:alert(1)", "java\tscript:alert(1)",
        "\x01javascript:x",
        "data:text/html,x", "data:image/png;base64,AA", "vbscript:x", "file:///etc/passwd", "ftp://example.org/",
        "tel:+1", "//example.org/", "/etc/passwd", "\\\\example.org\\x", "https:\\\\example.org", "../../outside.html",
        "a/../../outside.html", "https:///nohost", "http://user@example.org/", "https:example.org", "a:b", "", "http://",
        "https://example.org/\u2028x",
    ],
)  # fmt: skip
def test_everything_else_is_not(href: str) -> None:
    assert not links.allowed(href)


@pytest.mark.parametrize(
    ("path", "href", "reads"),
    [
        ("index.html", "recipes/a/index.html", "recipes/a/index.html"),
        ("recipes/a/index.html", "index.html", "../../index.html"),
        ("recipes/a/index.html", "recipes/b/index.html#x", "../b/index.html#x"),
        ("recipes/a/index.html", "recipes/a/index.html#x", "#x"),
        ("recipes/a/index.html", "#x", "#x"),
        ("recipes/a/index.html", "https://example.org/", "https://example.org/"),
        ("weeks/index.html", "weeks/2026-W24/index.html", "2026-W24/index.html"),
    ],
)
def test_an_address_from_the_root_reads_from_the_page(path: str, href: str, reads: str) -> None:
    assert links.from_page(path, href) == reads


def test_only_a_plain_file_name_is_a_photo() -> None:
    assert links.picture_name("braise.jpg") == "braise.jpg"
    assert links.picture_name("photos/plum slice.webp") == "plum slice.webp"
    for source in ("photos/../secret.png", "/photos/a.png", "a/b.png", "https://example.org/a.png", "a.html", ".png"):
        assert links.picture_name(source) is None
