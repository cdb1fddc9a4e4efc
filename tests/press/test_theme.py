from __future__ import annotations

import pytest
from jinja2.exceptions import SecurityError

from binder.press.setting import environment
from binder.press.theme import Theme, css_string, faces, font_faces, laid_over, whole_sheet
from tests.press import samples

UNDER = Theme({"a.html": "a", "b.html": "b"}, {"print.css": "p{}"}, {"counter-sans-400.woff2": b"1"})


def test_sheets_of_one_name_follow_each_other_and_all_else_is_exchanged() -> None:
    over = Theme({"b.html": "B"}, {"print.css": "q{}", "new.css": "r{}"}, {"counter-sans-400.woff2": b"2"})
    both = laid_over(UNDER, over)
    assert dict(both.templates) == {"a.html": "a", "b.html": "B"}
    assert dict(both.css) == {"print.css": "p{}\nq{}", "new.css": "r{}"}
    assert both.fonts["counter-sans-400.woff2"] == b"2"


def test_family_weight_and_slope_are_read_from_the_file_name() -> None:
    theme = Theme({}, {}, {"counter-sans-600.woff2": b"", "counter-serif-400-italic.woff2": b"", "LICENSE.txt": b""})
    found = [(face.family, face.weight, face.italic) for face in faces(theme)]
    assert found == [("Counter Sans", 600, False), ("Counter Serif", 400, True)]
    assert 'src:url("f/counter-sans-600.woff2")' in font_faces(theme, lambda name: f"f/{name}")


def test_a_sheet_takes_the_themes_own_sheets_in_and_no_others() -> None:
    theme = Theme({}, {"a.css": '@import "b.css";x{}', "b.css": "y{}", "loop.css": '@import "loop.css";z{}'}, {})
    assert whole_sheet(theme, theme.css["a.css"]) == "y{}x{}"
    assert whole_sheet(theme, '@import "unknown.css";w{}') == "w{}"
    assert "@import" not in whole_sheet(theme, theme.css["loop.css"])


def test_a_string_cannot_leave_the_style_sheet() -> None:
    made = str(css_string('a"; } </style>\\\n@import url(//x)'))
    assert made.startswith('"') and made.endswith('"')
    assert not set(made[1:-1].replace("\\", "")) & set('"<>{};@/\n')


def test_a_template_is_not_a_program() -> None:
    theme = Theme({"x.html": "{{ ''.__class__.__mro__[1].__subclasses__() }}"}, {}, {})
    with pytest.raises(SecurityError):
        environment(theme).get_template("x.html").render()


@pytest.mark.parametrize("theme", [samples.DEFAULT, samples.LARGE_PRINT], ids=["default", "large-print"])
def test_style_sheets_ask_nothing_of_the_network(theme: Theme) -> None:
    for sheet in theme.css.values():
        assert "//" not in sheet and "url(" not in sheet
