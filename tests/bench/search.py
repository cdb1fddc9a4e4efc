"""How large the search's index is and how long a key press takes: `python -m tests.bench.search [PAGES]`.

A site of so many pages (4,000), six in ten of them recipes, with titles and foods from the everyday table, is opened
from its folder in Chromium. A press is all the work of the page until the list is laid out. Every word is typed letter
by letter: right, in another form, with a letter wrong, with two exchanged, and words that are nowhere.
"""

from __future__ import annotations

import gzip
import sys
from pathlib import Path
from random import Random
from statistics import median
from tempfile import TemporaryDirectory

from playwright.sync_api import sync_playwright

from binder import disk
from binder.pages.page import Page, Para, Site, plain
from binder.pages.site_search import search_words
from binder.pages.words.en import Words
from binder.press.html import site_files
from binder.press.search import INDEX, index_script
from binder.tables import everyday
from tests.demo import CHROMIUM

SHAPES = ("stew", "soup", "bake", "salad", "bowl", "kit", "curry", "box", "hash", "gratin", "pilaf", "parcels")
WAYS = ("roast", "spiced", "smoky", "lemon", "winter", "spring", "quick", "braised", "green", "cold", "baked")
TYPED = (
    "lentil soup", "chickpeas", "roasted carot", "barely salad", "smokey bean stew", "tomatos", "rhubrab", "qqqqqq",
    "spring minestrone with lemon and basil", "week 24", "dinner mushroom", "brocoli gratin", "e", "sp", "chiken",
)  # fmt: skip
# Sets the box as typing does and says how many milliseconds the page worked, the list laid out.
PRESS = """text => {
  const input = document.querySelector('input[type=search]'), begun = performance.now();
  input.value = text;
  input.dispatchEvent(new Event('input', {bubbles: true}));
  document.querySelector('.results').offsetHeight;
  return performance.now() - begun;
}"""


def library(count: int, seed: int = 7) -> Site:
    """The same pages for the same numbers: recipes, foods and weeks by what they are found by."""
    chance, words = Random(seed), Words()
    names = sorted({food.name for food in everyday.all_foods()})
    recipes = count * 6 // 10
    weeks = count // 20
    pages = []
    for n in range(recipes):
        foods = chance.sample(names, chance.randint(6, 14))
        title = f"{chance.choice(WAYS).title()} {foods[0]} and {foods[1]} {chance.choice(SHAPES)}"
        keywords = (*foods, chance.choice(("Breakfast", "Lunch", "Dinner", "Snack")), chance.choice(("ready", "kit")))
        pages.append(_page(f"recipes/dish-{n}", title, "recipe", keywords))
    for n in range(weeks):
        of = [page.title for page in chance.sample(pages[:recipes], 12)]
        pages.append(_page(f"weeks/{2000 + n // 52}-W{n % 52 + 1:02d}", f"Week {n % 52 + 1}", "week", tuple(of)))
    for n in range(count - len(pages)):
        name = f"{chance.choice(names)} {n}" if n >= len(names) else names[n]
        pages.append(_page(f"foods/food-{n}", name, "food", (chance.choice(names), "produce")))
    home = Page("index.html", "Home", "home", (Para(plain("Home.")),))
    nav = (("Home", "index.html"),)
    return Site("Bench", "en", (home, *pages), nav, plain("F"), search=search_words(words))


def _page(path: str, title: str, kind: str, keywords: tuple[str, ...]) -> Page:
    return Page(f"{path}/index.html", title, kind, (), found_as=kind, keywords=keywords)


def kilobytes_per_1000(site: Site, kind: str = "recipe") -> tuple[float, float]:
    """KB of index for a thousand pages of a kind, as it lies in the folder and as a server may pack it."""
    of = tuple(page for page in site.pages if page.found_as == kind)
    script = index_script(Site(site.title, "en", of, site.nav, site.footer, search=site.search))
    return len(script) / len(of), len(gzip.compress(script)) / len(of)


def presses(site: Site, typed: tuple[str, ...] = TYPED, slower: int = 1) -> tuple[float, list[tuple[float, str]]]:
    """Milliseconds until the index is read, and of each key press with what stood in the box.

    `slower`: the browser is held back so many times, as a phone is slower than a desk.
    """
    home = Site(site.title, "en", site.pages[:1], site.nav, site.footer, search=site.search)
    files = {**site_files(home, disk.read_theme("default")), INDEX: index_script(site)}
    with TemporaryDirectory() as folder, sync_playwright() as play:
        for name, raw in files.items():
            path = Path(folder) / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(raw)
        browser = play.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        page = browser.new_page(viewport={"width": 390, "height": 844})
        held = page.context.new_cdp_session(page)
        held.send("Emulation.setCPUThrottlingRate", {"rate": slower})
        page.goto((Path(folder) / "index.html").as_uri())
        read = page.evaluate(
            """() => new Promise(done => { const begun = performance.now();
              const input = document.querySelector('input[type=search]'); input.value = 'e';
              new MutationObserver(() => done(performance.now() - begun))
                .observe(document.querySelector('.results ul'), {childList: true});
              input.dispatchEvent(new Event('input', {bubbles: true})); })"""
        )
        begun = [text[:end] for text in typed for end in range(1, len(text) + 1)]
        taken = [(page.evaluate(PRESS, text), text) for text in begun]
        browser.close()
    return read, taken


def main(count: int = 4000) -> None:
    site = library(count)
    plain_kb, packed_kb = kilobytes_per_1000(site)
    print(f"index: {plain_kb:.0f} KB per 1,000 recipes, {packed_kb:.0f} KB packed; all {count} pages: "
          f"{len(index_script(site)) / 1000:.0f} KB")  # fmt: skip
    for slower in (1, 4):
        read, taken = presses(site, slower=slower)
        times = sorted(taken)
        print(f"{'as it is' if slower == 1 else f'{slower} times slower'}: index read and first list {read:.0f} ms;")
        print(
            f"  {len(times)} key presses: median {median(time for time, _ in times):.1f} ms, 95 of 100 under "
            f"{times[len(times) * 95 // 100][0]:.1f} ms, longest {times[-1][0]:.1f} ms ({times[-1][1]!r})"
        )


if __name__ == "__main__":
    main(*(int(word) for word in sys.argv[1:]))
