"""Arguments, messages, exit status: 0 built, 1 problems of severity error, 2 wrong arguments.

A command's module is loaded when it is used: `binder --help` needs none of them.
"""

from __future__ import annotations

import gc
import os
import sys
from difflib import get_close_matches
from importlib import import_module

import click

# Each command's module in binder.commands, which holds it as `command`, and what the help says of it.
COMMANDS = {
    "build": ("build", "Build the site, the binder, the labels, the calendar, the share pages and the facts."),
    "check": ("check", "Say everything that is wrong or unsure, and build nothing."),
    "preview": ("preview", "Build, show on 127.0.0.1, and build again at each change."),
    "new": ("new", "Lay out a new recipe, week or household."),
    "food": ("food", "Show one food with its figures, measures, allergens and sources."),
    "share": ("share", "Write the page of one recipe or week that carries nothing of the household."),
    "labels": ("labels", "Make only the labels sheet, starting at the first unused label."),
    "import": ("import_recipe", "Write a recipe file from a saved page, its JSON, or plain text."),
    "close-week": ("close_week", "Say what became of a week; writes stock.yaml and the week's closed block."),
    "propose": ("propose", "Propose a week that stands, from the weeks before and what is on hand."),
    "fields": ("fields", "The fields that each kind of file may have."),
}


class _Commands(click.Group):
    """The commands by name, each loaded on use."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in COMMANDS:
            return None
        command: click.Command = import_module(f"binder.commands.{COMMANDS[cmd_name][0]}").command
        command.name = cmd_name
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl([(name, words) for name, (_, words) in COMMANDS.items()])

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        if args[0] not in COMMANDS:
            near = get_close_matches(args[0], COMMANDS, n=2)
            ctx.fail(f"no command {args[0]!r}" + (f": did you mean {' or '.join(near)}?" if near else ""))
        return super().resolve_command(ctx, args)


@click.group(cls=_Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="household-prep-binder", message="%(version)s")
@click.pass_context
def main(context: click.Context) -> None:
    """Compile a household's recipes, stock and week plan into a printable weekly prep binder."""
    # A build makes millions of small values and hardly a cycle: looking for cycles as often as Python does by default
    # takes a fifth of the time.
    gc.set_threshold(200_000, 20, 100)
    context.color = bool(sys.stdout.isatty()) and not os.environ.get("NO_COLOR")
