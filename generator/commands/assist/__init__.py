"""`partway assist`: help for an editor that speaks the Language Server Protocol."""

from __future__ import annotations

import click


@click.command()
@click.option("--content", metavar="DIR", help="The content folder (default: the one a file lies in).")
def assist(content: str | None) -> None:
    """Help an editor while files are written: findings as you type, names to choose from, where a name is made, renaming.

    Speaks the Language Server Protocol on standard input and output; an editor starts it. Needs the extra `editor`:
    pip install "partway[editor]".
    """
    from importlib.util import find_spec

    from generator.commands.folders import Unreadable

    if find_spec("pygls") is None:
        raise Unreadable('This needs the extra "editor": pip install "partway[editor]".')
    from generator.commands.assist.server import server_for

    server_for(content).start_io()
