"""Outlines of slabs, corner by corner: top faces, silhouettes, the upright edges that face the viewer. Lengths are mm."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.anatomy.parts import Box
from generator.figures.stack.projection import Point

HALF_DIAGONAL = 0.5**0.5
_ARC_STEPS = 4


@dataclass(frozen=True, slots=True)
class Spot:
    """A corner of a ring: x, y, below the top face by `down`; `radius` of the rounding on the way to it, 0 if straight."""

    x: float
    y: float
    down: float = 0.0
    radius: float = 0.0


def top(box: Box, r: float) -> tuple[Spot, ...]:
    """Clockwise from the corner at the origin."""
    x0, y0, x1, y1 = box.x, box.y, box.right, box.bottom
    if not r:
        return Spot(x0, y0), Spot(x1, y0), Spot(x1, y1), Spot(x0, y1)
    return (
        Spot(x0 + r, y0, radius=r),
        Spot(x1 - r, y0),
        Spot(x1, y0 + r, radius=r),
        Spot(x1, y1 - r),
        Spot(x1 - r, y1, radius=r),
        Spot(x0 + r, y1),
        Spot(x0, y1 - r, radius=r),
        Spot(x0, y0 + r),
    )


def side(box: Box, r: float, t: float) -> tuple[Spot, ...]:
    """The top face's far edge and the bottom face's near edge, joined where the silhouette is outermost left and right."""
    x0, y0, x1, y1 = box.x, box.y, box.right, box.bottom
    if not r:
        return Spot(x0, y1), Spot(x0, y0), Spot(x1, y0), Spot(x1, y0, t), Spot(x1, y1, t), Spot(x0, y1, t)
    near = r * (1 - HALF_DIAGONAL)
    left, right = (x0 + near, y1 - near), (x1 - near, y0 + near)
    return (
        Spot(*left),
        Spot(x0, y1 - r, radius=r),
        Spot(x0, y0 + r),
        Spot(x0 + r, y0, radius=r),
        Spot(x1 - r, y0),
        Spot(*right, radius=r),
        Spot(*right, t),
        Spot(x1, y0 + r, t, r),
        Spot(x1, y1 - r, t),
        Spot(x1 - r, y1, t, r),
        Spot(x0 + r, y1, t),
        Spot(*left, t, r),
    )


def straight(ring: Sequence[Spot]) -> list[Point]:
    """The ring from above, roundings as straight pieces."""
    found: list[Point] = []
    for index, spot in enumerate(ring):
        found += [*(arc(ring[index - 1], spot) if spot.radius else ()), (spot.x, spot.y)]
    return found


def arc(start: Spot, end: Spot) -> list[Point]:
    """Points on the rounding between two spots of one height, without these; the turn is a quarter or half of one."""
    r = end.radius
    dx, dy = end.x - start.x, end.y - start.y
    half = (dx * dx + dy * dy) ** 0.5 / 2
    away = max(r * r - half * half, 0.0) ** 0.5
    # The middle lies to the right of the way, which runs clockwise (y grows down).
    length = 2 * half or 1.0
    mx, my = (start.x + end.x) / 2 - dy / length * away, (start.y + end.y) / 2 + dx / length * away
    found = []
    for step in range(1, _ARC_STEPS):
        share = step / _ARC_STEPS
        x, y = start.x + dx * share - mx, start.y + dy * share - my
        reach = (x * x + y * y) ** 0.5 or 1.0
        found.append((mx + x / reach * r, my + y / reach * r))
    return found


def front_corners(points: Sequence[Point]) -> list[Point]:
    """The corners of an outline where an upright edge faces the viewer: two of its walls meet there and one is seen."""
    around = sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(points, (*points[1:], *points[:1]), strict=True))
    turn = 1.0 if around > 0 else -1.0
    found = []
    for index, (x, y) in enumerate(points):
        before, after = points[index - 1], points[(index + 1) % len(points)]
        seen = [
            turn * ((y1 - y0) - (x1 - x0)) > 0.01
            for (x0, y0), (x1, y1) in ((before, (x, y)), ((x, y), after))
        ]
        if all(seen):
            found.append((x, y))
    return found
