"""What is given away: pages for the share folder, and one recipe or week as a file each for screen and paper."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial

from binder.disk import Content, digest, theme_digest
from binder.examine import Examined
from binder.memory import Memory
from binder.model.library import Library
from binder.pages import feed, share, share_family
from binder.pages.page import Later, Page
from binder.press.feed import feed_bytes
from binder.press.share import Sheet, shared_html, shared_words, sheet_of
from binder.press.share_print import shared_pdf
from binder.press.theme import Theme

FOLDER = feed.SHARE


def share_files(examined: Examined, content: Content, theme: Theme, memory: Memory) -> dict[str, bytes]:
    """The share folder of a build: every recipe, the week's menu, the feed. The family's page is not among them."""
    library = _library(examined)
    language = library.household.language
    files: dict[str, bytes] = {}
    sheet, style = sheet_of(theme), theme_digest(theme)
    with memory.book("shared", content.shown) as book:
        for page in share.later_pages(library, examined.recipes, examined.marks.recipes):
            photos = _photos(page.path, examined, content)
            key = digest((style, language, page.mark, *(part for photo in photos.items() for part in photo)))
            words = book.recall(key, partial(_words, page, theme, sheet, language, photos))
            files[_path(page.path)] = sheet.laid_in(words)
    files |= {_path(page.path): _html(page, examined, content, theme) for page in _menu(examined)}
    news = feed.feed(library, examined.recipes, examined.asked.today)
    return files | ({_path(feed.FEED_NAME): feed_bytes(news)} if news else {})


def _words(page: Later, theme: Theme, sheet: Sheet, language: str, photos: Mapping[str, bytes]) -> bytes:
    return shared_words(page.make()[0], theme, sheet, language, photos)


def one_page(examined: Examined, what: str, whom: Sequence[str] | None = None) -> Page | None:
    """The page of a recipe by its key, or of the week in use by its name; None when there is none.

    With `whom` it is the week's page for the family, of those among them who agreed.
    """
    library = _library(examined)
    if whom is not None:
        facts = examined.weeks.get(what)
        return share_family.family_page(facts, library, whom, examined.library_of(what)) if facts else None
    known = {what: examined.recipes[what]} if what in examined.recipes else {}
    pages = share.share_pages(library, known) if known else tuple(p for p in _menu(examined) if _key(p.path) == what)
    return pages[0] if pages else None


def one_files(page: Page, examined: Examined, content: Content, theme: Theme) -> Mapping[str, bytes]:
    """The page as one HTML file and one PDF, by their paths below the output folder."""
    household, path = _library(examined).household, _path(page.path)
    photos = _photos(page.path, examined, content)
    pdf = shared_pdf(page, theme, household.language, household.paper, photos)
    return {path: _html(page, examined, content, theme), f"{_key(path)}.pdf": pdf}


def _library(examined: Examined) -> Library:
    assert examined.library is not None
    return examined.library


def _menu(examined: Examined) -> list[Page]:
    facts = examined.weeks.get(examined.current or "")
    return [share.share_week(facts, examined.library_of(facts.week))] if facts else []


def _path(path: str) -> str:
    return f"{FOLDER}/{path}"


def _key(path: str) -> str:
    return path.removesuffix(".html")


def _html(page: Page, examined: Examined, content: Content, theme: Theme) -> bytes:
    language = _library(examined).household.language
    return shared_html(page, theme, language, _photos(page.path, examined, content))


def _photos(path: str, examined: Examined, content: Content) -> Mapping[str, bytes]:
    """The picture of the recipe whose page this is."""
    recipe = _library(examined).recipes.get(_key(path))
    name = recipe.photo if recipe else None
    return {name: content.photos[name]} if name and name in content.photos else {}
