"""`binder fields`: what each kind of file may say, from the one declaration that also checks it."""

from __future__ import annotations

import json
from collections.abc import Iterator

from binder.check.reference import FILES, FileKind, field_reference, schema


def field_lines(kind: FileKind | None) -> Iterator[str]:
    """For each field a line with its key and what it takes, and one with what it says."""
    for name in (kind,) if kind else FILES:
        yield FILES[name][1]
        for row in field_reference(name):
            required = ", required" if row.required else ""
            yield f"  {row.path}: {row.takes}{required}"
            yield f"      {row.says}"
        yield ""


def schema_text(kind: FileKind | None) -> str:
    """The JSON Schema of one kind, or of all by name."""
    made = schema(kind) if kind else {name: schema(name) for name in FILES}
    return json.dumps(made, ensure_ascii=False, indent=1, sort_keys=True)
