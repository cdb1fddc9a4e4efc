"""The words of the pages, one file a language."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from binder.pages.words.en import ENGLISH, Words

LANGUAGES: Mapping[str, Words] = MappingProxyType({"en": ENGLISH})


def words_of(language: str) -> Words:
    """The words for a language tag; English where there is no file for it."""
    return LANGUAGES.get(language.split("-")[0], ENGLISH)
