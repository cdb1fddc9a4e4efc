"""Did you mean: the words that someone may have had in mind."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import SequenceMatcher, get_close_matches

_NEARLY_EVERY_LETTER = 0.75


def nearest(word: str, words: Iterable[str], count: int = 3) -> tuple[str, ...]:
    """The words spelt most like `word`, best first, letter case aside."""
    by_fold: dict[str, str] = {}
    for known in words:
        by_fold.setdefault(known.casefold(), known)
    close = get_close_matches(word.casefold(), by_fold, n=count, cutoff=0.6)
    return tuple(by_fold[fold] for fold in close if _may_be_meant(word.casefold(), fold))


def _may_be_meant(word: str, known: str) -> bool:
    """Letters in common are not enough: a slip keeps the start, or a whole word, or nearly every letter."""
    if word[:2] == known[:2] or not set(word.split()).isdisjoint(known.split()):
        return True
    return SequenceMatcher(None, word, known, autojunk=False).ratio() >= _NEARLY_EVERY_LETTER


def quoted(words: Iterable[str]) -> str:
    """`"a", "b" or "c"`."""
    *most, last = [f'"{word}"' for word in words]
    return f"{', '.join(most)} or {last}" if most else last


def did_you_mean(near: tuple[str, ...]) -> tuple[str, ...]:
    """The remedy that names them, or none."""
    return (f"did you mean {quoted(near)}?",) if near else ()


def ways_out(word: str, words: tuple[str, ...], intro: str) -> tuple[str, ...]:
    """Did you mean, then all there are: `intro` says what they are."""
    everything = (f"{intro}: {', '.join(words)}",) if words else ()
    return (*did_you_mean(nearest(word, words)), *everything)
