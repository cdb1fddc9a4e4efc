"""The demo household as the tests build it, and the browser they open it with."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner

from binder.cli import main

ROOT = Path(__file__).resolve().parents[1]
WEEK = "2026-W24"
TODAY = "2026-06-07"
REQUIRED = os.environ.get("BINDER_TESTS_REQUIRED") == "1"
CHROMIUM = next((p for name in ("chromium", "chromium-browser", "google-chrome") if (p := shutil.which(name))), None)
needs_browser = pytest.mark.skipif(CHROMIUM is None and not REQUIRED, reason="no Chromium on this machine")


def build(out: Path) -> Path:
    arguments = ["build", str(ROOT / "content"), "--out", str(out), "--today", TODAY]
    result = CliRunner().invoke(main, arguments, catch_exceptions=False)
    assert result.exit_code == 0, result.output
    return out
