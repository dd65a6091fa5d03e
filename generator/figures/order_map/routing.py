"""Where columns and boxes stand along the flow, and the corners of every line between them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from generator.anatomy.parts import Point
from generator.figures.order_map.boxes import Boxes
from generator.figures.order_map.channels import NEAR, Bundle, lying_on_another, tracks_of
from generator.figures.order_map.columns import Columns, Kind, Link, Run

LEAD = 13.0
"""Units from the starts to the first track."""

TRAIL = 20.0  # from the last track to the ends: a bend and a tip
TRACK = 9.0  # from one track to the next
APART = 10.0  # how far a line of a choice keeps from the others at the border of one box
SNAP = 7.0  # a line that nearly goes straight into a box does
TRIES = 6  # shifts of the ends in one channel until no line lies on another

Port = tuple[int, bool]
"""A node, and whether it is for lines of a choice: all lines of one kind leave, and arrive, at one point."""


@dataclass(frozen=True)
class Routes:
    """middles and corners (one row a run, in the order of the runs) as (along, across) from the corner of it all."""

    middles: Mapping[int, Point]
    corners: tuple[tuple[Point, ...], ...]
    along: float
    across: float


def routes_of(columns: Columns, boxes: Boxes, across: Sequence[float], halves: Sequence[float]) -> Routes:
    """Lines for boxes placed at `across`.

    halves: of every node, how far its border is from its middle along the flow. No line enters a box it does not belong
    to: across columns it keeps to its own place there, and all else happens between the columns.
    """
    heights = _straightened(columns, boxes, across)
    leaving, arriving = _ports(columns, heights)
    count = max((node.column for node in columns.nodes), default=-1) + 1
    tracks: dict[tuple[int, bool], float] = {}  # along, from the end of the column
    widths = [0.0] * count
    gaps = [0.0] * count
    for node, (along, _) in zip(columns.nodes, boxes.sizes, strict=True):
        widths[node.column] = max(widths[node.column], along)
    for column in range(count - 1):
        links = [link for link in columns.links if columns.nodes[link.start].column == column]
        keys, found, total = _settled(columns, links, leaving, arriving)
        tracks.update({keys[number]: LEAD + TRACK * track for number, track in found.items()})
        gaps[column] = LEAD + TRACK * (total - 1) + TRAIL if total else boxes.along
    starts = [0.0]
    for width, gap in zip(widths, gaps, strict=True):
        starts.append(starts[-1] + width + gap)
    centre = [start + width / 2 for start, width in zip(starts, widths, strict=False)]
    ends = [start + width for start, width in zip(starts, widths, strict=False)]

    def corners_of(run: Run) -> tuple[Point, ...]:
        first, last = run.nodes[0], run.nodes[-1]
        height = leaving[first, run.is_either]
        corners = [(centre[columns.nodes[first].column] + halves[first], height)]
        for one, other in pairwise(run.nodes):
            after = arriving[other, run.is_either]
            if after != height:
                track = ends[columns.nodes[one].column] + tracks[one, run.is_either]
                corners += [(track, height), (track, after)]
            height = after
        return (*corners, (centre[columns.nodes[last].column] - halves[last], height))

    middles = {number: (centre[node.column], heights[number]) for number, node in enumerate(columns.nodes)}
    corners = [corners_of(run) for run in columns.runs]
    lows = [heights[n] - boxes.sizes[n][1] / 2 for n in middles] + [y for row in corners for _, y in row]
    highs = [heights[n] + boxes.sizes[n][1] / 2 for n in middles] + [y for row in corners for _, y in row]
    top, bottom = min(lows, default=0.0), max(highs, default=0.0)
    return Routes(
        {number: (x, y - top) for number, (x, y) in middles.items()},
        tuple(tuple((x, y - top) for x, y in row) for row in corners),
        ends[-1] if ends else 0.0,
        bottom - top,
    )


def _straightened(columns: Columns, boxes: Boxes, across: Sequence[float]) -> list[float]:
    """The places in half units, and what passes by moved to the place it comes from where that is near and free."""
    heights = [round(2 * place) / 2 for place in across]
    beside: dict[int, list[int]] = {}
    for number, node in enumerate(columns.nodes):
        beside.setdefault(node.column, []).append(number)
    before = {link.end: link.start for link in columns.links if columns.nodes[link.end].kind is Kind.PASSING}
    for number in sorted(before, key=lambda number: columns.nodes[number].column):
        wanted = heights[before[number]]
        others = (other for other in beside[columns.nodes[number].column] if other != number)
        if abs(wanted - heights[number]) <= 2 * APART and all(
            abs(wanted - heights[other]) >= boxes.sizes[other][1] / 2 + 1.4 * NEAR
            and (wanted < heights[other]) == (heights[number] < heights[other])
            for other in others
        ):
            heights[number] = wanted
    return heights


def _ports(columns: Columns, heights: Sequence[float]) -> tuple[dict[Port, float], dict[Port, float]]:
    """Where lines leave and arrive: at the middle, but lines of a choice beside the others if there are both."""
    ends: dict[Port, list[int]] = {}
    starts: dict[Port, list[int]] = {}
    for link in columns.links:
        ends.setdefault((link.start, link.is_either), []).append(link.end)
        starts.setdefault((link.end, link.is_either), []).append(link.start)
    leaving = {port: _port(port, others, heights, ends) for port, others in ends.items()}
    arriving = {port: _port(port, others, heights, starts) for port, others in starts.items()}
    for (node, is_either), others in starts.items():
        near = [
            leaving[other, is_either]
            for other in others
            if abs(leaving[other, is_either] - arriving[node, is_either]) <= SNAP
        ]
        if columns.nodes[node].kind is Kind.STEP and near and (node, not is_either) not in starts:
            arriving[node, is_either] = near[0]
    return leaving, arriving


def _port(port: Port, others: Sequence[int], heights: Sequence[float], all_ports: Mapping[Port, object]) -> float:
    node, is_either = port
    if not is_either or (node, False) not in all_ports:
        return heights[node]
    mean = sum(heights[other] for other in others) / len(others)
    return heights[node] + (APART if mean >= heights[node] else -APART)


def _settled(
    columns: Columns, links: Sequence[Link], leaving: dict[Port, float], arriving: dict[Port, float]
) -> tuple[list[Port], Mapping[int, int], int]:
    """The bundles of one channel with their tracks; where a line would lie on another, its end is moved aside."""
    keys = list(dict.fromkeys((link.start, link.is_either) for link in links))
    into = {key: [link.end for link in links if (link.start, link.is_either) == key] for key in keys}
    moved: dict[Port, int] = {}
    while True:
        bundles = [
            Bundle(leaving[key], tuple(arriving[end, key[1]] for end in into[key]), tuple(into[key])) for key in keys
        ]
        tracks, total = tracks_of(bundles)
        lying = [(into[keys[bundle]][which], keys[bundle][1]) for bundle, which in lying_on_another(bundles, tracks)]
        lying = [port for port in lying if moved.get(port, 0) < TRIES]
        if not lying:
            return keys, tracks, total
        port = min(lying, key=lambda port: (moved.get(port, 0), port))
        tried = moved[port] = moved.get(port, 0) + 1
        # To one side of the middle, to the other, then further; what passes by goes on where it was moved to.
        step = (NEAR + 1) * (1 if tried == 1 else -2 if tried == 2 else 0.5)
        arriving[port] += step
        if columns.nodes[port[0]].kind is Kind.PASSING:
            leaving[port] += step
