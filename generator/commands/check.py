"""`partway check`: all findings, as text for people or as data for programs."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from generator.orders.guide import Library
    from generator.rules.finding import Reported

LAYOUTS = ("text", "json", "sarif", "markdown")


@click.command()
@click.argument("content", required=False)
@click.option("--only", metavar="DEVICE", help="Look at one device only.")
@click.option("--as", "layout", type=click.Choice(LAYOUTS), default="text", show_default=True, help="How to say it.")
@click.option("--mend", is_flag=True, help="Apply the safe mends and say what was changed.")
@click.option("--since", metavar="REVISION", help="Only what the change since a revision (or a folder) has to do with.")
def check(content: str | None, only: str | None, layout: str, mend: bool, since: str | None) -> None:
    """Say what is wrong in CONTENT (default: ./content), where, why and what to do.

    With --since only findings on lines that the change wrote, and those that were not there before.

    Exit status 1 if there is a finding at level error.
    """
    from generator.commands.folders import Unreadable, content_folder, load_library
    from generator.commands.mending import mend_files
    from generator.commands.reports import report
    from generator.commands.terminal import wants_colour
    from generator.rules import findings_of_everything

    if mend and since is not None:
        raise Unreadable("--mend looks at everything and --since does not: use one at a time.")
    root = content_folder(content)
    library = load_library(root, only)
    findings = findings_of_everything(library)
    if mend:
        for line in mend_files(root, only, findings):
            click.echo(line, err=True)
        library = load_library(root, only)
        findings = findings_of_everything(library)
    if since is not None:
        touched = touched_since(since, root, only, library, findings)
        if len(touched) < len(findings):
            click.echo(f"Left out, as the change has nothing to do with them: {len(findings) - len(touched)}.", err=True)
        findings = touched
    click.echo(report(layout, library, findings, colour=wants_colour()), nl=False, color=True)
    raise SystemExit(1 if any(finding.level == "error" for finding in findings) else 0)


def touched_since(
    since: str, root: Path, only: str | None, library: Library, findings: tuple[Reported, ...]
) -> tuple[Reported, ...]:
    """The findings that the change since a revision has to do with; a device that it did not have counts as all new."""
    from generator.commands.revisions import state_of
    from generator.orders.reading import read_guides
    from generator.review.touched import findings_touched
    from generator.rules import findings_of_everything
    from generator.source.files import NoContent
    from generator.source.reading import read_library

    with state_of(since, str(root)) as before:
        try:
            earlier = read_guides(read_library(before, only))
        except NoContent:
            return findings
        return findings_touched(findings, findings_of_everything(earlier), library.texts, earlier.texts)
