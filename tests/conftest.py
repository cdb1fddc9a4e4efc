from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import settings

from tests.kitchen import Kitchen

# How long an example takes depends on what else the machine does; each test has a time limit of its own.
settings.register_profile("no-deadline", deadline=None)
settings.load_profile("no-deadline")


@pytest.fixture(autouse=True)
def no_memory_of_other_builds(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> None:
    """What earlier builds remember lies in a folder of the test's own."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path_factory.mktemp("cache")))


@pytest.fixture
def kitchen(tmp_path: Path) -> Kitchen:
    return Kitchen(tmp_path)
