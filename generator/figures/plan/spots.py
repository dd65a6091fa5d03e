"""Where on the device the fasteners of a joint sit, in mm as authored (seen from the first face)."""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from itertools import pairwise

from generator.anatomy.device import Anatomy
from generator.anatomy.joints import Joint, JointKind
from generator.anatomy.parts import Box, PartId, Point
from generator.figures.plan.stacking import box_of

SPREAD_LIMIT = 24
"""Clips without positions that are spread along the edges; more of them share one mark."""


@dataclass(frozen=True, slots=True)
class Spot:
    """A place for a mark: fasteners `first` to `last` of the joint, counted from 0. One fastener may have several."""

    first: int
    last: int
    at: Point


def spots_of(anatomy: Anatomy, joint: Joint, hand: Collection[PartId], roomy: float, stretch: float) -> tuple[Spot, ...]:
    """The spots of a joint; empty where neither a position nor a box says where it is.

    hand: parts in hand, preferred as the one the joint is drawn on. roomy: mm a side needs to carry a mark in its middle.
    stretch: mm between the marks of one run of glue. Fasteners whose place is unknown share one spot.
    """
    count = max(joint.count, 1)
    given = tuple(Spot(index, index, at) for index, at in enumerate(joint.positions[:count]))
    missing = count - len(given)
    holder = holder_of(anatomy, joint, hand)
    if joint.kind is JointKind.GLUE and not given:
        if joint.run:
            return tuple(Spot(0, count - 1, at) for at in _on_run(joint.run, roomy, stretch))
        if holder is not None and min(holder.width, holder.height) >= roomy:
            return tuple(Spot(0, count - 1, at) for at in _sides(holder))
    if missing == 0 or holder is None:
        return given
    if joint.kind is JointKind.CLIPS and not given and count <= SPREAD_LIMIT:
        return tuple(Spot(index, index, at) for index, at in enumerate(_round_edges(holder, count)))
    middle = holder.centre if joint.kind in (JointKind.SCREWS, JointKind.CLIPS) else _between(anatomy, joint, holder)
    return (*given, Spot(len(given), count - 1, middle))


def holder_of(anatomy: Anatomy, joint: Joint, hand: Collection[PartId]) -> Box | None:
    """The box a joint is drawn on: of a part in hand, else of its first part; the base alone does not say where it is."""
    ends = sorted((end for end in joint.joins if end != anatomy.base), key=lambda end: end not in hand)
    return next((box for end in ends if (box := box_of(anatomy, end)) is not None), None)


def _between(anatomy: Anatomy, joint: Joint, holder: Box) -> Point:
    """The middle of what the boxes of the ends share, or of the gap between them; the base has no say beside others."""
    boxes = [box for end in joint.joins if end != anatomy.base and (box := box_of(anatomy, end)) is not None]
    if len(boxes) < 2:
        return holder.centre
    one, other = boxes[0], boxes[1]
    return (
        (max(one.x, other.x) + min(one.right, other.right)) / 2,
        (max(one.y, other.y) + min(one.bottom, other.bottom)) / 2,
    )


def _sides(box: Box) -> tuple[Point, ...]:
    x, y = box.centre
    return ((x, box.y), (box.right, y), (x, box.bottom), (box.x, y))


def _on_run(run: Sequence[Point], roomy: float, stretch: float) -> tuple[Point, ...]:
    """Marks on a run: a closed one carries them at the middles of its four sides, or one in its midst if it is small."""
    if run[0] != run[-1] or len(run) < 4:
        return _along(run, stretch)
    left, top = min(x for x, _ in run), min(y for _, y in run)
    around = Box(left, top, max(x for x, _ in run) - left, max(y for _, y in run) - top)
    if min(around.width, around.height) < roomy:
        return (around.centre,)
    return tuple(dict.fromkeys(_nearest(run, side) for side in _sides(around)))


def _nearest(run: Sequence[Point], to: Point) -> Point:
    """The point of the run nearest to a place."""
    found = []
    for (x0, y0), (x1, y1) in pairwise(run):
        square = (x1 - x0) ** 2 + (y1 - y0) ** 2
        share = ((to[0] - x0) * (x1 - x0) + (to[1] - y0) * (y1 - y0)) / square if square else 0.0
        share = min(1.0, max(0.0, share))
        found.append((x0 + (x1 - x0) * share, y0 + (y1 - y0) * share))
    return min(found, key=lambda at: math.dist(at, to))


def _along(run: Sequence[Point], stretch: float) -> tuple[Point, ...]:
    """Up to four points along a run, at even distances from its ends and each other."""
    lengths = [math.dist(a, b) for a, b in pairwise(run)]
    whole = sum(lengths)
    wanted = max(1, min(4, round(whole / stretch))) if stretch > 0 else 1
    return tuple(_point_at(run, lengths, whole * (index + 0.5) / wanted) for index in range(wanted))


def _point_at(run: Sequence[Point], lengths: Sequence[float], distance: float) -> Point:
    for ((x0, y0), (x1, y1)), length in zip(pairwise(run), lengths, strict=True):
        if length > 0 and distance <= length:
            share = distance / length
            return (x0 + (x1 - x0) * share, y0 + (y1 - y0) * share)
        distance -= length
    return run[-1]


def _round_edges(box: Box, count: int) -> tuple[Point, ...]:
    """Points along the edges: long sides first for up to three, else each side its share, clockwise from the top left."""
    top, right, bottom, left = _sides(box)
    if count < 4:
        return ((left, right, top) if box.height >= box.width else (top, bottom, left))[:count]
    across = max(1, min(count // 2 - 1, round(count / 2 * box.width / (box.width + box.height or 1))))
    down = count // 2 - across
    spare = count - 2 * (across + down)  # 1 for an odd count: the longer sides take it
    tops, rights = across + (spare if box.width > box.height else 0), down + (spare if box.width <= box.height else 0)
    return (
        *((box.x + box.width * (i + 0.5) / tops, box.y) for i in range(tops)),
        *((box.right, box.y + box.height * (i + 0.5) / rights) for i in range(rights)),
        *((box.right - box.width * (i + 0.5) / across, box.bottom) for i in range(across)),
        *((box.x, box.bottom - box.height * (i + 0.5) / down) for i in range(down)),
    )
