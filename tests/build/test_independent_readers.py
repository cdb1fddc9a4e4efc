"""The demo's files in the hands of readers that are not ours: a PDF/UA checker and a reader of JSON-LD.

pdfua checks the rules of PDF/UA-1 (ISO 14289-1) that a machine can check, on pikepdf; extruct reads what pages embed.
"""

from __future__ import annotations

import re
from pathlib import Path

import extruct
import pdfua
import pytest

_DURATION = re.compile(r"P(?=.)(\d+D)?(T(?=.)(\d+H)?(\d+M)?)?")  # ISO 8601, 5.5.2.2, of days, hours and minutes


@pytest.mark.parametrize("pdf", ["print/2026-W24-binder.pdf", "print/2026-W24-labels.pdf"])
def test_a_checker_of_pdf_ua_finds_nothing(demo: Path, pdf: str) -> None:
    report = pdfua.validate(demo / pdf)
    assert [(f.rule_id, f.location.page, f.message) for f in report.findings] == []


def test_shared_recipes_are_read_as_schema_org_recipes(demo: Path) -> None:
    pages = [page for page in sorted((demo / "share").glob("*.html")) if not page.stem.startswith("2026-W")]
    assert len(pages) > 20
    for page in pages:
        (found,) = extruct.extract(page.read_text("utf-8"), syntaxes=["json-ld"])["json-ld"]
        assert found["@context"] == "https://schema.org" and found["@type"] == "Recipe", page.name
        assert found["name"] and found["recipeYield"] and found["recipeIngredient"], page.name
        assert all(step["@type"] == "HowToStep" and step["text"] for step in found["recipeInstructions"]), page.name
        for name in ("totalTime", "prepTime", "cookTime"):
            assert _DURATION.fullmatch(found.get(name, "PT1M")), (page.name, name)
        assert not {"suitableForDiet", "author", "url", "image"} & set(found), page.name
