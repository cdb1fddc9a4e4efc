"""A page to give away, on paper: one PDF with its picture inside, and nothing else of the household."""

from __future__ import annotations

from collections.abc import Mapping

from markupsafe import Markup

from binder.pages.page import Page
from binder.press.blocks import blocks_html
from binder.press.papers import PAPERS
from binder.press.pdf import PaperPictures
from binder.press.setting import Setting, environment
from binder.press.share import outside_only
from binder.press.theme import Theme, font_faces, whole_sheet


def shared_pdf(page: Page, theme: Theme, language: str, paper: str, photos: Mapping[str, bytes]) -> bytes:
    """The page drawn on its paper, undated; pictures are drawn anew without their metadata or their names."""
    from binder.press.drawing import drawn

    html, assets = shared_document(page, theme, language, paper, photos)
    return drawn(html, assets)


def shared_document(
    page: Page, theme: Theme, language: str, paper: str, photos: Mapping[str, bytes]
) -> tuple[str, Mapping[str, bytes]]:
    """The document that is drawn, and the assets it names."""
    pictures = PaperPictures(photos)
    setting = Setting("paper", outside_only, pictures.find)
    setting.begin(page.title)
    faces = font_faces(theme, lambda name: f"fonts/{name}")
    html = (
        environment(theme)
        .get_template("share_print.html")
        .render(
            page=page,
            language=language,
            paper=PAPERS[paper],
            sheet=Markup(f"{faces}\n{whole_sheet(theme, theme.css['share-print.css'])}"),
            body=blocks_html(page.blocks, setting),
        )
    )
    fonts = {f"fonts/{name}": content for name, content in theme.fonts.items()}
    return html, {**fonts, **setting.drawings, **pictures.used}
