"""The benchmark itself runs; what it measures is no test."""

from __future__ import annotations

import pytest

from tests.bench.__main__ import main
from tests.kitchen import Kitchen
from tests.scenarios.test_scenarios import STEW, STEW_WEEK


def test_it_prints_every_stage_as_a_ratio(kitchen: Kitchen, capsys: pytest.CaptureFixture[str]) -> None:
    main(kitchen.recipe("barley-stew", STEW).week(STEW_WEEK).write().content)
    lines = capsys.readouterr().out.splitlines()
    assert lines[0].endswith("= floor") and len(lines) == 8
    assert all(line.endswith("x floor") for line in lines[1:])
