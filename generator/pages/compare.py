"""Devices side by side: what it takes to reach the parts most often come for, and how each is held together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from generator.figures.reach.drawing import reach_figure
from generator.figures.reach.geometry import Reached, reach_plot
from generator.indices.declarations import roles_in
from generator.languages import later, say, say_many
from generator.orders.accounts import accounts_of
from generator.orders.guide import Library
from generator.orders.routes import Route
from generator.pages.addresses import COMPARE
from generator.pages.frame import Crumb, FrameView, frame_of
from generator.pages.survey import Survey, up_to_stop
from generator.pages.typography import about_minutes

ROLES = (
    ("battery", later("Battery")),
    ("display assembly", later("Display")),
    ("external charging port", later("Charging port")),
)
"""The parts that are compared, by the role their anatomy gives them, as the published indices name roles."""

PLOT_LIMIT = 40
"""Devices of which a plot is drawn; of more the table alone says it."""


@dataclass(frozen=True, slots=True)
class Reach:
    """The shortest way to a part with a role. steps: None where there is none; note: why not, in a word or two."""

    steps: int | None
    seconds: int | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class Compared:
    """What one device brings to the comparison; small enough to pass between processes."""

    id: str
    name: str
    reaches: tuple[Reach, ...]
    screws: int
    drivers: int
    renewed: int


@dataclass(frozen=True, slots=True)
class Cell:
    label: str
    value: str
    note: str


@dataclass(frozen=True, slots=True)
class CompareRow:
    name: str
    href: str
    cells: tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class Comparison:
    """A table and the same as a plot; the plot is empty where there are too many devices or no way in any."""

    columns: tuple[str, ...]
    rows: tuple[CompareRow, ...]
    plot: Markup
    caption: str


@dataclass(frozen=True, slots=True)
class ComparePage:
    frame: FrameView
    comparison: Comparison
    lede: str


def compared(survey: Survey) -> Compared:
    """The line of one device. Parts are found by their role; where several have it, the one with the shortest way counts."""
    guide = survey.guide
    undone = {joint for step in guide.order for joint in step.undone}
    drives = {line.size.drive for line in survey.accounts.screws if line.size.drive is not None}
    return Compared(
        id=guide.id,
        name=guide.device.name,
        reaches=tuple(_reach(survey, role) for role, _ in ROLES),
        screws=survey.accounts.screw_count,
        drivers=len(drives),
        renewed=sum(joint.count for joint in guide.anatomy.joints.values() if joint.is_renewed and joint.id in undone),
    )


def comparison_of(devices: Sequence[Compared], root: str = "") -> Comparison | None:
    """None for fewer than two devices. root: the way from the page to the site's folder."""
    if len(devices) < 2:
        return None
    reached = [Reached(device.name, tuple(reach.steps for reach in device.reaches)) for device in devices]
    is_drawn = len(devices) <= PLOT_LIMIT and any(steps is not None for device in reached for steps in device.steps)
    headings = [say("{part}, steps", part=say(name)) for _, name in ROLES]
    plot = reach_figure(reach_plot(headings, reached), "reach") if is_drawn else ""
    return Comparison(
        columns=(*(say(name) for _, name in ROLES), say("Screws"), say("Drives"), say("Made anew")),
        rows=tuple(_row(device, root) for device in devices),
        plot=Markup(plot),
        caption=say(
            "Steps to the battery, the display and the charging port; screws, kinds of drive and joints made anew"
        ),
    )


def compare_page(library: Library, devices: Sequence[Compared]) -> ComparePage | None:
    """The comparison on a page of its own; None for fewer than two devices."""
    comparison = comparison_of(devices)
    if comparison is None:
        return None
    lede = say_many(
        "{n}~device side by side, each by its own guide.",
        "{n}~devices side by side, each by its own guide.",
        len(devices),
    )
    return ComparePage(
        frame=frame_of(
            library,
            path=COMPARE,
            title=f"{say('Devices side by side')} – {library.title}",
            description=lede,
            crumbs=(Crumb(library.title, "index.html"), Crumb(say("Devices side by side"), "")),
            skip=("#compare", say("Skip to the table")),
        ),
        comparison=comparison,
        lede=lede,
    )


def _reach(survey: Survey, role: str) -> Reach:
    guide = survey.guide
    parts = [part.id for part in guide.anatomy.parts.values() if role in roles_in(part.role)]
    if not parts:
        return Reach(None, note=say("no such part"))
    ways = [way for part in parts if isinstance(way := survey.ways.get(part), Route)]
    if not ways:
        return Reach(None, note=say("no way"))
    open_ways = [way for way in ways if up_to_stop(guide, way.steps)[1] is None]
    if not open_ways:
        return Reach(None, note=say("licensed practice"))
    best = min(open_ways, key=lambda way: len(way.steps))
    return Reach(len(best.steps), accounts_of(guide, best.steps).seconds)


def _row(device: Compared, root: str) -> CompareRow:
    cells = [
        Cell(
            label=say(name),
            value=str(reach.steps) if reach.steps is not None else "–",
            note=about_minutes(reach.seconds) if reach.seconds is not None else reach.note,
        )
        for (_, name), reach in zip(ROLES, device.reaches, strict=True)
    ]
    cells += [
        Cell(say("Screws"), str(device.screws), ""),
        Cell(say("Drives"), str(device.drivers), ""),
        Cell(say("Made anew"), str(device.renewed), ""),
    ]
    return CompareRow(device.name, f"{root}{device.id}/index.html", tuple(cells))
