"""`partway preview`: the pages while they are being written."""

from __future__ import annotations

import os

import click

PORT = 8123
EDITOR = "PARTWAY_EDITOR"


@click.command()
@click.argument("content", required=False)
@click.option("--port", type=click.IntRange(0, 65535), default=PORT, show_default=True, help="0 takes any that is free.")
@click.option(
    "--editor",
    metavar="COMMAND",
    help=f'What opens a file, such as "ed +{{line}} {{file}}" (default: ${EDITOR}); {{column}} can be used as well.',
)
def preview(content: str | None, port: int, editor: str | None) -> None:
    """Show the pages of CONTENT (default: ./content) on this machine, and show them anew whenever a file is saved.

    What `partway check` finds stands beside its step. A file that cannot be read leaves the last page that could be made,
    with the fault on top. Only this machine can see it. Ends with Ctrl-C.
    """
    from generator.commands.folders import Unreadable, content_folder, read_theme, shipped
    from generator.commands.preview.server import PreviewServer, editor_words
    from generator.commands.preview.shelf import Shelf
    from generator.commands.preview.watching import watch

    root = content_folder(content)
    if not root.is_dir():
        raise Unreadable(f"There is no folder {root} to read guides from.")
    try:
        command = editor or os.environ.get(EDITOR, "")
        words = editor_words(command) if command else ()
    except ValueError as error:
        raise Unreadable(str(error)) from error
    own = {path.name: path.read_text("utf-8") for path in sorted((shipped("themes") / "bench" / "preview").iterdir())}
    shelf = Shelf(root, read_theme())
    try:
        server = PreviewServer(shelf, port, words, own)
    except OSError as error:
        raise Unreadable(f"Port {port} cannot be used: {error.strerror}. Name another with --port.") from error
    click.echo(f"{server.address}  (Ctrl-C ends it)", err=True)
    with watch(root, shelf), server:
        try:
            server.serve_forever(poll_interval=0.1)
        except KeyboardInterrupt:
            click.echo("", err=True)
