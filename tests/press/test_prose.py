from __future__ import annotations

import pytest

from binder.press.picture import Picture
from binder.press.prose import Surroundings, prose_html

AROUND = Surroundings(
    address=lambda href: f"../{href}" if not href.startswith("http") else href,
    picture=lambda name: Picture(f"../photos/{name}", 40, 30) if name == "dish.jpg" else None,
    heading_level=3,
)


def html(markdown: str) -> str:
    return str(prose_html(markdown, AROUND))


@pytest.mark.parametrize(
    "attack",
    [
        "<script>alert(1)</script>", "<img src=x onerror=alert(1)>", "a <b onclick=x>b</b>", "<!-- secret -->",
        "[x](javascript:alert(1))", "[x](JAVASCRIPT&#58;alert(1))", "[x](data:text/html;base64,AA)",
        "[x](//example.org/)", "[x](/etc/passwd)", "[x](ftp://example.org/a)", "[x](tel:1)", "[x](../../../x)",
        "<javascript:alert(1)>", "[x][r]\n\n[r]: javascript:alert(1)", "[x][r]\n\n[r]: //example.org",
        "![p](http://example.org/p.png)", "![p](//example.org/p.png)", "![p](data:image/png;base64,AA)",
        "![p](javascript:x)", "![p](unknown.jpg)", "![p](../dish.jpg)", "<iframe src=//example.org></iframe>",
        '[x](https://example.org/"onmouseover="x)',
    ],
)  # fmt: skip
def test_what_is_not_allowed_is_set_as_text(attack: str) -> None:
    made = html(attack)
    tags = made.replace("<p>", "").replace("</p>", "").replace("&lt;", "").replace("&gt;", "")
    if attack.startswith("[x](https"):
        assert 'onmouseover="' not in made
        return
    assert "<" not in tags, made
    assert "<" not in tags, made


def test_what_was_written_is_still_there_to_read() -> None:
    assert "javascript:alert(1)" in html("[x](javascript:alert(1))")
    assert "&lt;script&gt;" in html("<script>")
    assert "http://example.org/p.png" in html("![p](http://example.org/p.png)")


def test_links_outside_do_not_tell_where_they_come_from() -> None:
    assert html("[x](https://example.org/a)") == (
        '<p><a href="https://example.org/a" rel="noopener noreferrer">x</a></p>\n'
    )
    assert html("[x](recipes/a/index.html)") == '<p><a href="../recipes/a/index.html">x</a></p>\n'


def test_a_photo_of_the_household_is_shown_with_its_size() -> None:
    assert '<img src="../photos/dish.jpg" alt="A dish" width="40" height="30">' in html("![A dish](photos/dish.jpg)")


def test_headings_stand_below_the_pages_own_without_a_gap() -> None:
    made = html("# One\n\n### Three\n\n###### Six")
    assert "<h3>One</h3>" in made and "<h4>Three</h4>" in made and "<h5>Six</h5>" in made


def test_a_link_that_leads_nowhere_here_keeps_its_words() -> None:
    around = Surroundings(lambda href: None, lambda name: None, 2)
    assert str(prose_html("see [the *bake*](recipes/a.html).", around)) == "<p>see the <em>bake</em>.</p>\n"
