"""`partway score`: published indices and our own measure for one guide, with their workings."""

from __future__ import annotations

import click

LAYOUTS = ("text", "json")


@click.command()
@click.argument("device")
@click.option("--content", metavar="DIR", help="The content folder (default: ./content).")
@click.option("--as", "layout", type=click.Choice(LAYOUTS), default="text", show_default=True, help="How to say it.")
@click.option(
    "--reading", "written", multiple=True, metavar="NAME=VALUE", help="Read an open question of the act another way."
)
@click.option("--if", "change", metavar="CHANGE", help='What a change of the design would do: "PART joins PART".')
@click.option("--motion-times", is_flag=True, help="Add the few handling times that published motion-time tables give.")
def score(
    device: str, content: str | None, layout: str, written: tuple[str, ...], change: str | None, motion_times: bool
) -> None:
    """The repairability index of DEVICE as far as its guide tells: own estimate, not the label."""
    from generator.commands.folders import Unreadable, content_folder, load_library
    from generator.commands.reports.scores import scores_as_json, scores_as_text
    from generator.indices.differences import difference
    from generator.indices.phones_2023_1669.readings import RECOMMENDED, with_reading
    from generator.indices.scores import scores_of
    from generator.orders.what_if import changed

    readings = RECOMMENDED
    for entry in written:
        taken = with_reading(readings, entry)
        if isinstance(taken, str):
            raise Unreadable(taken)
        readings = taken
    guide = load_library(content_folder(content), device).guides[0]
    if not guide.is_complete:
        click.echo(
            f"Some of {device} could not be read, so these figures may be wrong. `partway check --only {device}` says what.",
            err=True,
        )
    scores = scores_of(guide, readings)
    told = None
    if change is not None:
        other = changed(guide, change)
        if isinstance(other, str):
            raise Unreadable(other)
        before, guide, scores = scores.index, other, scores_of(other, readings)
        told = difference(before, scores.index) if before and scores.index else None
    show = scores_as_json if layout == "json" else scores_as_text
    click.echo(show(guide, scores, motion_times, change, told), nl=False)
