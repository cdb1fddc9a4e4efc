"""The run sheet of whole batches: what is done, in which order, when it is over."""

from __future__ import annotations

import pytest
from tests.reckon.run_sheet_kitchens import batch, faults, household, oven, recipe, session, step

from binder.model.household import Tool
from binder.reckon.run_sheet import sheets


@pytest.mark.parametrize(
    ("ovens", "ends"),
    [
        (Tool("oven", 2), "10:20"),
        (Tool("oven"), "11:00"),
        (Tool("oven", racks=2), "10:25"),
    ],
)
def test_three_roasts_end_as_early_as_ovens_and_racks_allow(ovens: Tool, ends: str) -> None:
    at = session(9)
    made = tuple(
        batch(recipe(key, step("Roast.", minutes, oven(heat), idle=True)), at)
        for key, heat, minutes in (("a", 400, 40), ("b", 400, 35), ("c", 350, 25))
    )
    (sheet,), problems = sheets(made, household(ovens))
    assert f"{sheet.finish:%H:%M}" == ends
    assert sheet.proven and sheet.at_least_minutes == sheet.minutes
    assert not problems and not faults(sheet)
