"""The command line: arguments in, files and exit status out. Nothing else prints, reads the environment or writes files.

Exit status: 0 nothing wrong, 1 findings at level error, 2 wrong use or unreadable input.
"""

from __future__ import annotations

from importlib import import_module

import click

from generator import __version__

COMMANDS = {
    "build": "Check everything, then write the site.",
    "check": "Say what is wrong, where and what to do.",
    "route": "The cheapest way to a part, and back.",
    "score": "Repairability indices, with their workings.",
    "preview": "The pages while they are being written, shown anew on every save.",
    "assist": "Help for an editor: findings as you type, names, renaming.",
    "compare": "What a change means: orders, ways, screws, cautions, index.",
    "pack": "One thing to hand over: a folder, a page, a book or a PDF.",
    "video": "What goes with the film: chapters, step numbers, a description, an end card.",
    "draft": "A first draft of a guide, from the captions of a film.",
    "tidy": "One way of writing the files; nothing they mean is changed.",
    "new": "A small guide that builds, to start from.",
    "schema": "What an editor needs to complete and check the files.",
    "stills": "Pictures for the steps out of a finished film.",
    "explain": "What a rule means, with a bad and a good example.",
}


class LazyGroup(click.Group):
    """Loads a command's module only when that command is run, so that `--help` stays quick."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in COMMANDS:
            return None
        command = getattr(import_module(f"generator.commands.{cmd_name}"), cmd_name)
        assert isinstance(command, click.Command)
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))


@click.group(cls=LazyGroup, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__, prog_name="partway")
def partway() -> None:
    """The way to a part: checked, routed, offline take-apart guides."""
