"""`partway check`: all findings, as text for people or as data for programs."""

from __future__ import annotations

import click

LAYOUTS = ("text", "json", "sarif", "markdown")


@click.command()
@click.argument("content", required=False)
@click.option("--only", metavar="DEVICE", help="Look at one device only.")
@click.option("--as", "layout", type=click.Choice(LAYOUTS), default="text", show_default=True, help="How to say it.")
@click.option("--mend", is_flag=True, help="Apply the safe mends and say what was changed.")
def check(content: str | None, only: str | None, layout: str, mend: bool) -> None:
    """Say what is wrong in CONTENT (default: ./content), where, why and what to do.

    Exit status 1 if there is a finding at level error.
    """
    from generator.commands.folders import content_folder, load_library
    from generator.commands.mending import mend_files
    from generator.commands.reports import report
    from generator.commands.terminal import wants_colour
    from generator.rules import findings_of_everything

    root = content_folder(content)
    library = load_library(root, only)
    findings = findings_of_everything(library)
    if mend:
        for line in mend_files(root, only, findings):
            click.echo(line, err=True)
        library = load_library(root, only)
        findings = findings_of_everything(library)
    click.echo(report(layout, library, findings, colour=wants_colour()), nl=False, color=True)
    raise SystemExit(1 if any(finding.level == "error" for finding in findings) else 0)
