"""`binder fields`: what each kind of file may say, from the one declaration that also checks it."""

from __future__ import annotations

import json
from collections.abc import Iterator

import click

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


@click.command()
@click.argument("kind", required=False, type=click.Choice(["household", "recipe", "week", "foods", "stock"]))
@click.option("--json", "as_json", is_flag=True, help="The JSON Schema, for editors.")
def command(kind: FileKind | None, as_json: bool) -> None:
    """The fields that each kind of file may have."""
    click.echo(schema_text(kind) if as_json else "\n".join(field_lines(kind)))
