"""Building again: what did not change is not made, and what comes out is what a first build makes."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from binder.commands import make
from binder.press import html
from binder.reckon import run_sheet
from tests.kitchen import Kitchen, tree
from tests.scenarios.test_scenarios import STEW, STEW_WEEK

SITE = ("--only", "site")


@pytest.fixture
def stew(kitchen: Kitchen) -> Kitchen:
    return kitchen.recipe("barley-stew", STEW, "Stir *now and then*.\n").week(STEW_WEEK)


@pytest.fixture
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    return tmp_path / "cache"


@pytest.fixture
def made(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The paths of the pages that are set, as they are set."""
    paths: list[str] = []
    setting = html._page

    def noted(page, *arguments):
        paths.append(page.path)
        return setting(page, *arguments)

    monkeypatch.setattr(html, "_page", noted)
    return paths


def no_making(*arguments, **options):
    raise AssertionError("made although everything stands")


def test_where_nothing_changed_nothing_is_made(stew: Kitchen, monkeypatch: pytest.MonkeyPatch) -> None:
    stew.build(*SITE)
    first, said = tree(stew.out), stew.result
    monkeypatch.setattr(make, "make", no_making)
    stew.build(*SITE)
    assert tree(stew.out) == first
    assert stew.result and said and stew.result.output == said.output.replace(f", {len(first)} of", ", 0 of")


@pytest.mark.parametrize(
    "change",
    [
        lambda out: (out / "site/index.html").write_text("edited by hand"),
        lambda out: (out / "site/index.html").unlink(),
        lambda out: (out / "site/left-over.html").write_text("of another week"),
        lambda out: shutil.rmtree(out),
    ],
)
def test_an_output_that_was_changed_is_put_right(stew: Kitchen, change) -> None:
    stew.build(*SITE)
    first = tree(stew.out)
    change(stew.out)
    stew.build(*SITE)
    assert tree(stew.out) == first


@pytest.mark.parametrize(
    "options", [("--today", "2026-06-08"), ("--private",), ("--theme", "large-print"), ("--draft",)]
)
def test_other_arguments_are_another_build(stew: Kitchen, options: tuple[str, ...], cache: Path) -> None:
    stew.recipe("barley-stew", STEW + "    private: for our eyes only\n").build(*SITE)
    stew.build(*SITE, *options)
    after = tree(stew.out)
    shutil.rmtree(cache)
    shutil.rmtree(stew.out)
    stew.build(*SITE, *options)
    assert tree(stew.out) == after


def test_a_warning_is_said_again(stew: Kitchen) -> None:
    stew.file("stock.yaml", "stock:\n  - 5 oz yogurt, opened 2026-05-01\n").build(*SITE)
    said = stew.result
    assert said and "warning[" in said.output
    stew.build(*SITE)
    assert stew.result and stew.result.stderr == said.stderr and "1 warning" in stew.result.stdout


def test_only_the_pages_that_changed_are_set_again(stew: Kitchen, made: list[str]) -> None:
    stew.build(*SITE)
    everything = len(made)
    made.clear()
    stew.recipe("barley-stew", STEW, "Stir *all the time*.\n").build(*SITE)
    assert "recipes/barley-stew/index.html" in made and len(made) < everything / 4
    assert b"all the time" in (stew.out / "site/recipes/barley-stew/index.html").read_bytes()


def test_a_theme_that_changed_sets_every_page_again(stew: Kitchen, made: list[str]) -> None:
    stew.build(*SITE)
    everything = sorted(made)
    made.clear()
    frame = Path(__file__).resolve().parents[2] / "themes/default/templates/page.html"
    stew.file("theme/templates/page.html", frame.read_text("utf-8").replace("<footer>", "<footer class='ours'>"))
    stew.build(*SITE)
    assert sorted(made) == everything
    assert b"class='ours'" in (stew.out / "site/index.html").read_bytes()


def test_a_memory_of_other_content_changes_no_byte(stew: Kitchen, cache: Path) -> None:
    stew.build(*SITE, "--only", "share")
    stew.recipe("barley-stew", STEW.replace("350 g", "360 g"), "Stir *all the time*.\n").build(*SITE, "--only", "share")
    remembered = tree(stew.out)
    shutil.rmtree(cache)
    shutil.rmtree(stew.out)
    stew.build(*SITE, "--only", "share")
    assert tree(stew.out) == remembered


def test_torn_memories_change_no_byte(stew: Kitchen, cache: Path) -> None:
    stew.build(*SITE)
    first = tree(stew.out)
    for path in cache.rglob("*"):
        if path.is_file():
            path.write_bytes(path.read_bytes()[:-3])
    shutil.rmtree(stew.out)
    stew.build(*SITE)
    assert tree(stew.out) == first


def test_a_run_sheet_is_drawn_up_once(stew: Kitchen, monkeypatch: pytest.MonkeyPatch) -> None:
    stew.build(*SITE)
    monkeypatch.setattr(run_sheet, "drawn_up", no_making)
    stew.recipe("barley-stew", STEW, "Stir *all the time*.\n").build(*SITE)


def test_no_place_for_a_memory_is_no_fault(stew: Kitchen, monkeypatch: pytest.MonkeyPatch) -> None:
    stew.build(*SITE)
    first = tree(stew.out)
    monkeypatch.setenv("XDG_CACHE_HOME", "/dev/null/nowhere")
    shutil.rmtree(stew.out)
    stew.build(*SITE)
    assert tree(stew.out) == first
