"""`partway route`: the cheapest way to one or several parts and back."""

from __future__ import annotations

import click

LAYOUTS = ("text", "json")


@click.command()
@click.argument("device")
@click.argument("parts", nargs=-1, required=True, metavar="PART...")
@click.option("--content", metavar="DIR", help="The content folder (default: ./content).")
@click.option("--as", "layout", type=click.Choice(LAYOUTS), default="text", show_default=True, help="How to say it.")
def route(device: str, parts: tuple[str, ...], content: str | None, layout: str) -> None:
    """The steps that lead to PART of DEVICE, and back; several parts give one route to all of them.

    Exit status 1 if there is no way.
    """
    from difflib import get_close_matches

    from generator.anatomy.parts import PartId
    from generator.commands.folders import Unreadable, content_folder, load_library
    from generator.commands.reports.routes import route_as_json, route_as_text
    from generator.orders.routes import Route, best_route

    guide = load_library(content_folder(content), device).guides[0]
    hint = f"`partway check --only {device}` says what."
    for part in parts:
        if part not in guide.anatomy.parts:
            near = get_close_matches(part, list(guide.anatomy.parts), n=3, cutoff=0.5)
            meant = f"Did you mean {' or '.join(near)}?" if near else f"Its parts: {', '.join(guide.anatomy.parts)}."
            unread = "" if guide.is_complete else f" Not all of {device} could be read: {hint}"
            raise Unreadable(f'{device} has no part "{part}". {meant}{unread}')
    if not guide.is_complete:
        click.echo(
            f"Some of {device} could not be read, so this route may be wrong. {hint}",
            err=True,
        )
    way = best_route(guide, tuple(PartId(part) for part in dict.fromkeys(parts)))
    click.echo((route_as_json if layout == "json" else route_as_text)(guide, way), nl=False)
    raise SystemExit(0 if isinstance(way, Route) else 1)
