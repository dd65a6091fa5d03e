"""`partway route`: the cheapest way to one or several parts and back."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from generator.orders.guide import Guide
    from generator.orders.routes import Without

LAYOUTS = ("text", "json")


@click.command()
@click.argument("device")
@click.argument("parts", nargs=-1, required=True, metavar="PART...")
@click.option("--content", metavar="DIR", help="The content folder (default: ./content).")
@click.option("--without", "avoided", multiple=True, metavar="TOOL|JOINT", help="Do not use this; may be said again.")
@click.option("--regroup", is_flag=True, help="Tell the order with the fewest tool changes and turns as well.")
@click.option("--as", "layout", type=click.Choice(LAYOUTS), default="text", show_default=True, help="How to say it.")
def route(
    device: str, parts: tuple[str, ...], content: str | None, avoided: tuple[str, ...], regroup: bool, layout: str
) -> None:
    """The steps that lead to PART of DEVICE, and back; several parts give one route to all of them.

    Exit status 1 if there is no way.
    """
    from difflib import get_close_matches

    from generator.anatomy.parts import PartId
    from generator.commands.folders import Unreadable, content_folder, load_library
    from generator.commands.reports.routes import Asked, route_as_json, route_as_text
    from generator.orders.routes import Route, best_route
    from generator.orders.setups import fewest_changes
    from generator.pages.survey import up_to_stop

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
    without = without_named(guide, avoided)
    way = best_route(guide, tuple(PartId(part) for part in dict.fromkeys(parts)), without)
    regrouped = fewest_changes(guide, up_to_stop(guide, way.steps)[0]) if regroup and isinstance(way, Route) else None
    asked = Asked(tuple(dict.fromkeys(avoided)), without, regrouped)
    click.echo((route_as_json if layout == "json" else route_as_text)(guide, way, asked), nl=False)
    raise SystemExit(0 if isinstance(way, Route) else 1)


def without_named(guide: Guide, names: Sequence[str]) -> Without:
    """The joints and tools of these names; a name of both means both. Unreadable for a name of neither."""
    from difflib import get_close_matches

    from generator.anatomy.parts import JointId
    from generator.commands.folders import Unreadable
    from generator.orders.routes import Without
    from generator.orders.work import ToolId

    names = tuple(dict.fromkeys(names))
    known = [*guide.anatomy.joints, *guide.tools]
    for name in names:
        if name not in known:
            near = get_close_matches(name, known, n=3, cutoff=0.5)
            meant = f"Did you mean {' or '.join(near)}?" if near else f"Its joints: {', '.join(guide.anatomy.joints)}."
            raise Unreadable(f'{guide.id} has no joint or tool "{name}". {meant}')
    joints = tuple(JointId(name) for name in names if name in guide.anatomy.joints)
    return Without(joints, tuple(ToolId(name) for name in names if name in guide.tools))
